//! Layer files: every light of a proof by itself, with what is needed to develop it again.
//!
//! An OpenEXR file with one layer for each light. Its 16 channels are radiance per band as it lies in the
//! picture's dose, for any program that reads OpenEXR. The text attribute `rushlight` of each layer is JSON
//! with the light's colour and observer per band and the settings of the picture, so that a layer can be
//! weighed again without tracing a ray.

use super::failure::Failure;
use crate::output;
use camera::Settings;
use colour::{BANDS, BandObserver, LightColour, Spectrum};
use exr::meta::MetaData;
use exr::prelude::*;
use light::FlashUnit;
use serde::{Deserialize, Serialize};
use std::io::Cursor;
use std::path::Path;
use std::result::Result;
use units::{Duv, FNumber, Iso, Kelvin, PowerFraction, ShutterTime};

/// Version of what stands in the attribute.
const VERSION: u32 = 1;
/// Name of the attribute.
const ATTRIBUTE: &str = "rushlight";
/// Sides and lights beyond these are no proof of ours.
const MOST_PIXELS: usize = 8000;
const MOST_LIGHTS: usize = 128;

/// One light of a picture: radiance per band as it lies in the picture's dose.
pub(super) struct StoredLight {
    pub layer: transport::Layer,
    pub about: About,
}

/// What is told of a light beside its pixels.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct About {
    pub version: u32,
    /// What the photographer calls it.
    pub name: String,
    /// Whether the flash's power weighs it, and not the shutter.
    pub flash: bool,
    /// Power per band of the source.
    pub bands: [f32; BANDS],
    /// The observer averaged with it: X, Y and Z.
    pub observer: [[f32; BANDS]; 3],
    /// Part of the bare flash's light that its gel let through; 1 for every other light.
    pub passes: f64,
    /// Stops of the flash below full power.
    pub power_stops_below_full: f64,
    pub shutter_s: f64,
    pub f_number: f64,
    pub iso: f64,
    /// Neutral density filter on the lens.
    pub nd_stops: f64,
    pub white_balance_k: f64,
    pub tint_duv: f64,
}

impl About {
    pub fn new(name: &str, flash: bool, colour: &LightColour, passes: f64, answer: &answer::Answer) -> Self {
        let settings = &answer.settings;
        let observer = &colour.observer;
        About {
            version: VERSION,
            name: name.to_owned(),
            flash,
            bands: colour.bands.0,
            observer: [observer.x.0, observer.y.0, observer.z.0],
            passes,
            power_stops_below_full: answer.flash.power.stops_below_full(),
            shutter_s: settings.shutter.value(),
            f_number: settings.aperture.value(),
            iso: settings.iso.value(),
            nd_stops: settings.nd.value(),
            white_balance_k: settings.white_balance.value(),
            tint_duv: settings.tint.value(),
        }
    }

    /// The sensor's view of what is stored: the power is in the pixels already, the observer is not.
    pub fn seen(&self) -> LightColour {
        let [x, y, z] = self.observer.map(Spectrum);
        LightColour {
            bands: Spectrum::ONE,
            observer: BandObserver { x, y, z },
        }
    }

    /// Everything that was set when the picture was made; `None` if it cannot have been.
    pub fn set(&self) -> Option<Set> {
        let finite = |values: &[f32]| values.iter().all(|value| value.is_finite());
        let passes = self.passes.is_finite() && self.passes > 0.0;
        let sound = passes && finite(&self.bands) && self.observer.iter().all(|row| finite(row));
        let nd = (0.0..=20.0).contains(&self.nd_stops).then_some(self.nd_stops)?;
        let tint = (-0.1..=0.1)
            .contains(&self.tint_duv)
            .then_some(Duv(self.tint_duv))?;
        (sound && self.version == VERSION).then_some(())?;
        Some(Set {
            power: PowerFraction::from_stops_below_full(self.power_stops_below_full).ok()?,
            exposing: Settings {
                aperture: FNumber::new(self.f_number).ok()?,
                shutter: ShutterTime::new(self.shutter_s).ok()?,
                iso: Iso::new(self.iso).ok()?,
            },
            nd_stops: nd,
            kelvin: Kelvin::new(self.white_balance_k).ok()?,
            tint,
        })
    }
}

impl StoredLight {
    /// The same light as this flash gives it: another gel on the lamp that the file was made with.
    ///
    /// A gel takes the same part of a band whatever way the light went, so every pixel changes alike.
    pub fn through_gel_of(mut self, flash: &FlashUnit) -> Self {
        let (colour, passes) = (flash.colour(), (-flash.gel_loss_stops()).exp2());
        let stronger = (passes / self.about.passes) as f32;
        let factors = Spectrum(std::array::from_fn(|band| {
            let before = self.about.bands[band];
            // A band in which the old gel let nothing through holds nothing that could be brought back.
            if before > 0.0 {
                colour.bands.0[band] / before * stronger
            } else {
                0.0
            }
        }));
        for pixel in &mut self.layer.pixels {
            *pixel *= factors;
        }
        let observer = &colour.observer;
        self.about.bands = colour.bands.0;
        self.about.observer = [observer.x.0, observer.y.0, observer.z.0];
        self.about.passes = passes;
        self
    }
}

/// What was set when a picture was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Set {
    pub power: PowerFraction,
    /// Without the filter on the lens.
    pub exposing: Settings,
    pub nd_stops: f64,
    pub kelvin: Kelvin,
    pub tint: Duv,
}

fn channel_name(band: usize) -> String {
    format!("S0.{:07.3}nm", colour::bands::centre_nm(band))
}

/// A name without the letters that OpenEXR does not have.
fn plain_letters(name: &str) -> String {
    let plain = |c: char| if c.is_ascii() { c } else { '_' };
    name.chars().map(plain).collect()
}

/// JSON with every letter beyond ASCII escaped: the same JSON, and text that OpenEXR can hold.
fn escaped(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if c.is_ascii() {
            out.push(c);
        } else {
            let mut units = [0; 2];
            for unit in c.encode_utf16(&mut units) {
                out += &format!("\\u{unit:04x}");
            }
        }
    }
    out
}

/// The bytes of a layer file.
pub(super) fn encode(lights: &[StoredLight]) -> Result<Vec<u8>, Failure> {
    let ours = |error: String| Failure::Ours(format!("the layers could not be encoded: {error}"));
    let mut layers = Vec::new();
    for (index, light) in lights.iter().enumerate() {
        let channels = (0..BANDS).map(|band| {
            let samples = light.layer.pixels.iter().map(|pixel| pixel.0[band]).collect();
            AnyChannel::new(channel_name(band).as_str(), FlatSamples::F32(samples))
        });
        let name = format!("{}.{}", index + 1, plain_letters(&light.about.name));
        let mut attributes = LayerAttributes::named(name.as_str());
        let about = serde_json::to_string(&light.about).map_err(|error| ours(error.to_string()))?;
        let text = Text::new_or_none(escaped(&about))
            .ok_or_else(|| ours("its description is no plain text".to_owned()))?;
        attributes
            .other
            .insert(Text::from(ATTRIBUTE), AttributeValue::Text(text));
        layers.push(Layer::new(
            (light.layer.width, light.layer.height),
            attributes,
            Encoding::FAST_LOSSLESS,
            AnyChannels::sort(channels.collect()),
        ));
    }
    let size = lights.first().map_or((0, 0), |l| (l.layer.width, l.layer.height));
    let attributes = ImageAttributes::new(IntegerBounds::from_dimensions(size));
    let mut bytes = Cursor::new(Vec::new());
    Image::from_layers(attributes, layers)
        .write()
        .to_buffered(&mut bytes)
        .map_err(|error| ours(error.to_string()))?;
    Ok(bytes.into_inner())
}

/// Writes a layer file.
pub(super) fn write(path: &Path, lights: &[StoredLight]) -> Result<(), Failure> {
    output::write_file(path, &encode(lights)?)?;
    Ok(())
}

/// Reads a layer file from the disk.
pub(super) fn read(path: &Path) -> Result<Vec<StoredLight>, Failure> {
    let shown = path.display();
    let bytes = std::fs::read(path)
        .map_err(|error| Failure::BadLayers(format!("{shown} could not be read: {error}")))?;
    decode(&bytes).map_err(|why| Failure::BadLayers(format!("{shown} {why}")))
}

/// What is in the bytes of a layer file, or what is wrong with them, as words after the file's name.
fn decode(bytes: &[u8]) -> Result<Vec<StoredLight>, String> {
    let broken = |error: Error| format!("is no OpenEXR file that can be read: {error}");
    // The head alone is looked at first, so that a huge picture of somebody else's is never unpacked.
    let meta = MetaData::read_from_buffered(Cursor::new(bytes), true).map_err(broken)?;
    let abouts = meta
        .headers
        .iter()
        .map(|header| about(&header.own_attributes))
        .collect::<Result<Vec<_>, _>>()?;
    let size = meta.headers.first().map(|header| header.layer_size);
    let too_large = |size: Vec2<usize>| size.0 > MOST_PIXELS || size.1 > MOST_PIXELS;
    if abouts.len() > MOST_LIGHTS || size.is_none_or(too_large) {
        return Err("is larger than any proof".to_owned());
    }
    if meta.headers.iter().any(|header| Some(header.layer_size) != size) {
        return Err("has layers of different sizes".to_owned());
    }
    let image = exr::prelude::read()
        .no_deep_data()
        .largest_resolution_level()
        .all_channels()
        .all_layers()
        .all_attributes()
        .from_buffered(Cursor::new(bytes))
        .map_err(broken)?;
    let layers = image.layer_data.into_iter();
    layers
        .map(|layer| {
            // Layers may be sorted anew by name, so each is asked again.
            let about = about(&layer.attributes)?;
            Ok(StoredLight {
                layer: pixels(&layer)?,
                about,
            })
        })
        .collect()
}

fn about(attributes: &LayerAttributes) -> Result<About, String> {
    let lacks =
        "has no lights of this program in it: only files that  proof --layers  wrote can be developed again";
    let Some(AttributeValue::Text(text)) = attributes.other.get(&Text::from(ATTRIBUTE)) else {
        return Err(lacks.to_owned());
    };
    let about: About = serde_json::from_str(&text.to_string())
        .map_err(|_| "was written by another version of this program, or was changed since".to_owned())?;
    match about.set() {
        Some(_) => Ok(about),
        None => Err("tells of settings that no camera has".to_owned()),
    }
}

/// The bands of a layer, whatever order its channels have.
fn pixels(layer: &Layer<AnyChannels<FlatSamples>>) -> Result<transport::Layer, String> {
    let Vec2(width, height) = layer.size;
    let mut pixels = vec![Spectrum::splat(0.0); width * height];
    for band in 0..BANDS {
        let name = Text::from(channel_name(band).as_str());
        let channel = layer
            .channel_data
            .list
            .iter()
            .find(|channel| channel.name == name);
        let samples = channel.map(|channel| channel.sample_data.values_as_f32());
        let samples = samples.ok_or_else(|| format!("lacks the band {name}"))?;
        let mut count = 0;
        for (pixel, value) in pixels.iter_mut().zip(samples) {
            // What is not a number would spread over the whole picture.
            pixel.0[band] = if value.is_finite() { value } else { 0.0 };
            count += 1;
        }
        if count != width * height {
            return Err(format!("has too few pixels in the band {name}"));
        }
    }
    Ok(transport::Layer {
        width,
        height,
        pixels,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use light::{Gel, GelFamily};

    fn stored() -> Vec<StoredLight> {
        let light = |name: &str, flash: bool| StoredLight {
            layer: transport::Layer {
                width: 5,
                height: 3,
                pixels: (0..15)
                    .map(|i| Spectrum(std::array::from_fn(|band| (i * 16 + band) as f32 * 0.01)))
                    .collect(),
            },
            about: About {
                version: VERSION,
                name: name.to_owned(),
                flash,
                bands: [0.7; BANDS],
                observer: [[0.1; BANDS], [0.2; BANDS], [0.3; BANDS]],
                passes: 1.0,
                power_stops_below_full: 5.0 / 3.0,
                shutter_s: 0.005,
                f_number: 32f64.sqrt(),
                iso: 100.0,
                nd_stops: 0.0,
                white_balance_k: 4500.0,
                tint_duv: 0.001,
            },
        };
        vec![light("flash", true), light("the sky, \u{7a93} and \u{fc}", false)]
    }

    #[test]
    fn a_layer_file_comes_back_as_it_was() {
        let lights = stored();
        let bytes = encode(&lights).unwrap_or_default();
        let back = decode(&bytes).expect("our own file");
        assert_eq!(back.len(), lights.len());
        for light in &lights {
            let found = back
                .iter()
                .find(|b| b.about.name == light.about.name)
                .expect("its name");
            assert_eq!(found.about, light.about);
            assert_eq!(found.layer.pixels, light.layer.pixels);
        }
    }

    /// A white card under a flash, developed with the gel on and by putting the gel on afterwards.
    #[test]
    fn a_gel_can_be_put_on_afterwards() {
        let bare = FlashUnit::medium();
        let half = Gel::named("1/2 CTO", GelFamily::Straw).expect("a gel");
        let gelled = bare.clone().with_gel(Some(half)).expect("some light passes");
        let light_of = |flash: &FlashUnit| {
            let mut light = stored().swap_remove(0);
            let passes = (-flash.gel_loss_stops()).exp2();
            let (colour, observer) = (flash.colour(), &flash.colour().observer);
            light.about.bands = colour.bands.0;
            light.about.observer = [observer.x.0, observer.y.0, observer.z.0];
            light.about.passes = passes;
            for pixel in &mut light.layer.pixels {
                *pixel = colour.bands * (0.4 * passes as f32);
            }
            light
        };
        let (with, afterwards) = (light_of(&gelled), light_of(&bare).through_gel_of(&gelled));
        let xyz = |light: &StoredLight| light.about.seen().xyz(&light.layer.pixels[0]);
        let (a, b) = (xyz(&with), xyz(&afterwards));
        assert!(
            (a.x - b.x).abs() < 1e-5 && (a.y - b.y).abs() < 1e-5 && (a.z - b.z).abs() < 1e-5,
            "{a:?} and {b:?}"
        );
        // Half a stop is gone, and it is warmer than the bare flash.
        let before = xyz(&light_of(&bare));
        assert!((a.y / before.y - 0.5f64.sqrt()).abs() < 0.02 && a.z / a.x < before.z / before.x);
    }

    #[test]
    fn a_file_of_somebody_else_is_refused_in_words() {
        let mut lights = stored();
        lights[0].about.version = 99;
        let bytes = encode(&lights).unwrap_or_default();
        assert!(decode(&bytes).is_err_and(|why| why.contains("no camera has")));
        for other in [b"".as_slice(), b"\x89PNG\r\n", b"\x76\x2f\x31\x01"] {
            assert!(decode(other).is_err());
        }
        // A picture of another program: the same container without our description.
        let mut file = Cursor::new(Vec::new());
        let pixels = SpecificChannels::rgb(|_: Vec2<usize>| (0.1f32, 0.2f32, 0.3f32));
        Image::from_channels((4, 4), pixels)
            .write()
            .to_buffered(&mut file)
            .expect("written");
        let why = decode(file.get_ref()).err().expect("refused");
        assert!(why.contains("proof --layers"), "{why}");
    }

    #[test]
    fn spoilt_files_are_refused_or_read_and_never_panic() {
        let bytes = encode(&stored()).unwrap_or_default();
        let mut state = 0x2545_f491_4f6c_dd1d_u64;
        let mut next = |below: usize| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state % below as u64) as usize
        };
        let mut refused = 0;
        for round in 0..400 {
            let mut spoilt = bytes.clone();
            if round % 2 == 0 {
                spoilt.truncate(next(bytes.len()));
            } else {
                for _ in 0..1 + next(4) {
                    let at = next(spoilt.len());
                    spoilt[at] = next(256) as u8;
                }
            }
            refused += usize::from(decode(&spoilt).is_err());
        }
        assert!(refused > 200, "only {refused} of 400 were noticed");
    }
}
