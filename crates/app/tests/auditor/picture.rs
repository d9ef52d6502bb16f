//! The layers of a small matt proof against the answer: pixels of the skin at the landmarks, the exposure of the face,
//! cheeks, sockets, and the colour of both sides.

use crate::findings::Findings;
use crate::parts::Camera;
use crate::program::{Language, Written};
use crate::said::Said;
use crate::shoot::Shoot;
use exr::prelude::*;
use serde_json::Value;
use std::io::Cursor;

/// Columns and rows: 2 mm of the face to the pixel.
const SIZE: [usize; 2] = [120, 180];
const QUALITY: &str = "4%";
/// A frame stands upright: its width in millimetres.
const FRAME_MM: f64 = 24.0;
/// What the skin "intermediate" sends back of the flash's light (measured on the first portraits, which agree within a
/// tenth of a stop).
const SKIN: f64 = 0.29;
/// A meter is a point and a pixel is not, noise besides: levels in stops, colours in mired (ours, from what the first
/// portraits scatter by).
const LANDMARK: f64 = 0.3;
const SOCKETS: f64 = 0.3;
const CHEEKS: f64 = 0.3;
/// The lit part is what the brightest quarter lies above. The program's skin has neck and ears to it, which lie in the dark
/// more often than not, so its darkest part is not that of these pixels.
const LIT: f64 = 0.75;
const LIT_SKIN: f64 = 0.5;
/// The face that is looked over: from between the eyes down to its middle, half as wide and half as high, in metres.
const FACE: [f64; 3] = [0.02, 0.055, 0.075];
/// A dome sees light from the side that the face does not.
const ADDED: f64 = 0.5;
const COLOUR: f64 = 15.0;
/// Landmarks of the program's person of 40 years, from between the eyes in metres: to the camera's right, away from the
/// camera, up (measured on that figure). The tip of the nose is too round for pixels.
const LANDMARKS: [(&str, [f64; 3]); 6] = [
    ("forehead", [0.0, -0.001, 0.0595]),
    ("cheek_upper_left", [0.0395, 0.004, -0.022]),
    ("cheek_upper_right", [-0.0395, 0.004, -0.022]),
    ("chin", [0.0, -0.008, -0.094]),
    ("eye_socket_left", [0.0185, -0.006, 0.0115]),
    ("eye_socket_right", [-0.0185, -0.006, 0.0115]),
];
/// Where the sides of the face are turned by some 50° from the nose, as the meters of their colour are: to the camera's right,
/// away from the camera, up.
const SIDES: [[f64; 3]; 2] = [[-0.056, 0.03, -0.022], [0.056, 0.03, -0.022]];

/// The light of a proof on the skin, as XYZ of the dose.
struct Layers {
    flash: Vec<[f64; 3]>,
    ambient: Vec<[f64; 3]>,
}

/// Makes a proof of a portrait and reads it.
pub fn check(shoot: &Shoot, findings: &mut Findings) {
    findings.about("portrait");
    let written = Written::new(shoot);
    let made = written
        .json(Language::English)
        .and_then(|said| Ok((said, written.layers(SIZE, QUALITY)?)));
    match made.and_then(|(said, bytes)| Ok((said, layers(&bytes)?))) {
        Ok((said, layers)) => compare(shoot, &said, &layers, findings),
        Err(refused) => findings.holds("program: no proof", false, || refused),
    }
    findings.about("");
}

fn compare(shoot: &Shoot, said: &Said, layers: &Layers, findings: &mut Findings) {
    let at = |name: &str| {
        let known = LANDMARKS.iter().find(|mark| mark.0 == name);
        pixel_of(shoot, known.expect("only landmarks of the table are asked").1)
    };
    let (reading, [flash, _, total]) = (said.reading(), said.exposure());
    let both = sum(&layers.flash, &layers.ambient);
    let level = |name: &str| level(&both, at(name));
    let exact = exact_skin(&said.camera());
    for (name, _) in LANDMARKS {
        let pixels = level(name) - exact - total;
        findings.same(
            "picture: skin at a landmark",
            name,
            reading.at(name),
            pixels,
            LANDMARK,
        );
    }
    let pixels = level_of_face(shoot, &both, LIT) - exact - total;
    findings.same(
        "picture: lit part of the skin",
        "stops",
        reading.lit_skin,
        pixels,
        LIT_SKIN,
    );
    let more = mean_of_face(&both, &at) - mean_of_face(&layers.flash, &at);
    findings.same(
        "picture: what ambient adds to the flash",
        "stops",
        total - flash,
        more,
        ADDED,
    );
    let (lit, shadow) = if reading.azimuth > 0.0 {
        ("cheek_upper_left", "cheek_upper_right")
    } else {
        ("cheek_upper_right", "cheek_upper_left")
    };
    let (told, apart) = (reading.near_cheek - reading.far_cheek, level(lit) - level(shadow));
    // A meter that is turned to the side sees more of the key, or of the shade, than skin beside the nose.
    findings.holds(
        "picture: near and far cheek",
        (-CHEEKS..told + CHEEKS).contains(&apart),
        || format!("stops: said {told:.2}, skin beside the nose {apart:.2} (± {CHEEKS})"),
    );
    let side = |side: &str| level(&format!("eye_socket_{side}")) - level(&format!("cheek_upper_{side}"));
    findings.same(
        "picture: sockets against the cheeks below them",
        "stops",
        reading.sockets,
        side("left").min(side("right")),
        SOCKETS,
    );
    let [left, right] = SIDES.map(|side| mired(mean(&both, pixel_of(shoot, side))));
    let warmer = match reading.azimuth > 0.0 {
        true => left - right,
        false => right - left,
    };
    let told = said.colour_of("shadow_side") - said.colour_of("lit_side");
    findings.same(
        "picture: colour of the shadow side",
        "mired warmer",
        told,
        warmer,
        COLOUR,
    );
}

/// Luminance of skin at an exact exposure, in stops: an incident dose of 250 lx s at ISO 100 and f/1, on skin that sends
/// back [`SKIN`] of it all ways.
fn exact_skin(set: &Camera) -> f64 {
    let dose = 250.0 * set.f_number.powi(2) / set.iso * set.nd.exp2();
    (SKIN / std::f64::consts::PI * dose).log2()
}

/// The mean level of forehead, cheeks and chin.
fn mean_of_face(layer: &[[f64; 3]], at: &dyn Fn(&str) -> [f64; 2]) -> f64 {
    let marks = ["forehead", "cheek_upper_left", "cheek_upper_right", "chin"];
    let sum: f64 = marks.iter().map(|name| level(layer, at(name)).exp2()).sum();
    (sum / marks.len() as f64).log2()
}

/// The level that such a share of the face lies below.
fn level_of_face(shoot: &Shoot, layer: &[[f64; 3]], share: f64) -> f64 {
    let [down, half_width, half_height] = FACE;
    let across = |part: usize| 2.0 * (part as f64 + 0.5) / 40.0 - 1.0;
    let grid = (0..40 * 40).map(|at| (across(at / 40), across(at % 40)));
    let within = grid.filter(|(x, z)| x * x + z * z < 1.0);
    let mut levels: Vec<f64> = within
        .map(|(x, z)| pixel_of(shoot, [x * half_width, 0.0, z * half_height - down]))
        .map(|at| level(layer, at))
        .collect();
    levels.sort_by(f64::total_cmp);
    levels[(share * (levels.len() - 1) as f64).round() as usize]
}

fn sum(a: &[[f64; 3]], b: &[[f64; 3]]) -> Vec<[f64; 3]> {
    a.iter()
        .zip(b)
        .map(|(a, b)| [a[0] + b[0], a[1] + b[1], a[2] + b[2]])
        .collect()
}

/// Correlated colour temperature of XYZ in mired (McCamy 1992).
fn mired([x, y, z]: [f64; 3]) -> f64 {
    let (x, y) = (x / (x + y + z), y / (x + y + z));
    let n = (x - 0.3320) / (0.1858 - y);
    1e6 / (449.0 * n.powi(3) + 3525.0 * n.powi(2) + 6823.3 * n + 5520.33)
}

/// Where a point of the face lies in the picture: column and row.
fn pixel_of(shoot: &Shoot, [right, away, up]: [f64; 3]) -> [f64; 2] {
    let far = shoot.sitters[0].stand[1] - shoot.camera.at[1] + away;
    let scale = shoot.camera.lens_mm / FRAME_MM * SIZE[0] as f64 / far;
    [
        0.5 * SIZE[0] as f64 + right * scale,
        0.5 * SIZE[1] as f64 - up * scale,
    ]
}

/// The mean of the nine pixels about a place.
fn mean(layer: &[[f64; 3]], [column, row]: [f64; 2]) -> [f64; 3] {
    let (column, row) = (column as usize, row as usize);
    let mut sum = [0.0; 3];
    for row in row - 1..=row + 1 {
        for column in column - 1..=column + 1 {
            for (sum, part) in sum.iter_mut().zip(layer[row * SIZE[0] + column]) {
                *sum += part / 9.0;
            }
        }
    }
    sum
}

/// Luminance of the nine pixels about a place, in stops of one unit.
fn level(layer: &[[f64; 3]], at: [f64; 2]) -> f64 {
    mean(layer, at)[1].log2()
}

/// Reads an OpenEXR file of a proof: the flash's layer, and the sum of the others.
fn layers(bytes: &[u8]) -> std::result::Result<Layers, String> {
    let image = read()
        .no_deep_data()
        .largest_resolution_level()
        .all_channels()
        .all_layers()
        .all_attributes()
        .from_buffered(Cursor::new(bytes))
        .map_err(|error| error.to_string())?;
    let pixels = SIZE[0] * SIZE[1];
    let mut layers = Layers {
        flash: vec![[0.0; 3]; pixels],
        ambient: vec![[0.0; 3]; pixels],
    };
    for layer in &image.layer_data {
        let about = about(&layer.attributes).ok_or("a layer says nothing of itself")?;
        let into = if about["flash"] == true {
            &mut layers.flash
        } else {
            &mut layers.ambient
        };
        for (band, channel) in layer.channel_data.list.iter().enumerate() {
            let weights = [0, 1, 2].map(|axis| about["observer"][axis][band].as_f64().unwrap_or(f64::NAN));
            for (pixel, value) in into.iter_mut().zip(channel.sample_data.values_as_f32()) {
                for (sum, weight) in pixel.iter_mut().zip(weights) {
                    *sum += weight * f64::from(value);
                }
            }
        }
    }
    Ok(layers)
}

/// What a layer says of itself, as JSON.
fn about(attributes: &LayerAttributes) -> Option<Value> {
    match attributes.other.get(&Text::from("rushlight"))? {
        AttributeValue::Text(text) => serde_json::from_str(&text.to_string()).ok(),
        _ => None,
    }
}

#[test]
fn daylight_has_its_mired() {
    // CIE standard illuminants A and D65, of 2856 K and 6504 K.
    assert!((mired([1.0985, 1.0, 0.3558]) - 350.1).abs() < 2.0);
    assert!((mired([0.9505, 1.0, 1.0891]) - 153.8).abs() < 2.0);
}
