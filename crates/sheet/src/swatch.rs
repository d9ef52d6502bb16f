//! A surface as it is shown on the sheet: its colour, and its name with its reflectance as a number.

use crate::voice::Voice;
use crate::wording::on_drawings;
use answer::Job;
use colour::upsample::linear_srgb_of;
use colour::{LinearSrgb, Spectrum};
use scene::{Face, Material};

/// A surface's colour under neutral light, as SVG writes it.
pub(crate) fn colour(reflectance: &Spectrum) -> String {
    let linear = linear_srgb_of(reflectance).map(|value| {
        if value.is_finite() {
            value.clamp(0.0, 1.0)
        } else {
            0.0
        }
    });
    let [r, g, b] = LinearSrgb(linear).to_srgb8();
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// The part of white light that a surface sends back, as it is written beside it: "0.80".
fn reflectance(voice: Voice, material: &Material) -> String {
    let [r, g, b] = linear_srgb_of(&material.reflectance);
    // Weights of the sRGB primaries for luminance (IEC 61966-2-1).
    voice.plain((0.2126 * r + 0.7152 * g + 0.0722 * b).clamp(0.0, 1.0), 2)
}

/// What a face of the room is called: "left wall · white paint 0.80".
pub(crate) fn surface_words(voice: Voice, job: &Job, face: Face) -> String {
    if job.place.is_open(face) {
        return on_drawings::open_side(voice, face).to_owned();
    }
    let material = job.place.room.material(face);
    on_drawings::surface(voice, face, &material.name, &reflectance(voice, material))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grey_stays_grey() {
        let check = |value: f32, colour_text: &str, number: &str| {
            let material = Material::matt("grey", Spectrum::splat(value));
            assert_eq!(colour(&material.reflectance), colour_text);
            assert_eq!(reflectance(Voice::default(), &material), number);
        };
        check(0.0, "#000000", "0.00");
        check(1.0, "#ffffff", "1.00");
        // sRGB encodes a linear 0.18 as 118 of 255.
        check(0.18, "#767676", "0.18");
    }
}
