//! Layers of light become a picture: dose, sensor, white balance, tone.

use crate::focal_plane::RAW_CLIP;
use crate::{Settings, ToneCurve};
use colour::{
    BANDS, ChromaticTransform, D65_WHITE, LightColour, LinearSrgb, Matrix3, Spectrum, WhiteBalance, Xyz,
    encode_srgb,
};
use light::INCIDENT_CONSTANT;
use rayon::prelude::*;
use std::f64::consts::PI;
use std::sync::LazyLock;
use transport::Layer;

/// One source's layer with the colour and the amount of its light.
#[derive(Clone, Copy, Debug)]
pub struct LayerLight<'a> {
    /// Radiance per band of a flat source of unit strength.
    pub layer: &'a Layer,
    /// Colour of the source, gel included.
    pub colour: &'a LightColour,
    /// What turns the layer's radiance into a dose in cd s m⁻². Flash: the fraction of full power. Steady light: the
    /// strength of the source over the unit source, times the shutter time in seconds.
    pub dose: f64,
}

/// What is done to a recording to make a picture of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Development {
    /// White balance.
    pub balance: WhiteBalance,
    /// Tone curve.
    pub curve: ToneCurve,
}

/// A developed picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Balanced linear sRGB, row by row from the top left, before the tone curve: 1 is a perfect white lit exactly as
    /// metered. Colours that the display cannot show have values below 0.
    pub linear: Vec<[f32; 3]>,
    /// Which pixels have a channel at the sensor's limit.
    pub raw_clipped: Vec<bool>,
    /// The tone curve for the display.
    pub curve: ToneCurve,
}

/// What the sensor's three channels make of a perfect white in daylight, against green: typical (common practice, no
/// source). It is why converters multiply red by about 2 and blue by about 1.5 in daylight, and why green clips first.
const DAYLIGHT_WHITE: [f64; 3] = [0.5, 1.0, 0.65];

/// Develops a picture from layers of the same size; without any, an empty picture.
///
/// The linear value of a pixel is v = π·L·S / (250·N²), with L the dose of radiance in cd s m⁻², so that an 18 % card lit
/// as metered is 0.18. Nothing is traced: settings, power, colour and balance only weigh the layers again.
///
/// The sensor is a simple one of ours. Its channels see like the three responses of the Bradford transform, which are
/// narrow and overlapping as a camera's are and positive for every real light; a daylight (D65) white gives them
/// 0.5 : 1 : 0.65. Each clips by itself, before the balance, at 1.404 (ISO 12232: 7.8 times mid-grey, for the green one
/// in daylight). White balance multiplies the channels, which is the Bradford adaptation exactly. Because a channel at
/// its limit would leave a false hue in bright white things, the balanced channels are then cut where a neutral surface
/// loses its first one, as converters do.
///
/// # Panics
/// If the layers differ in size.
pub fn develop(layers: &[LayerLight], settings: &Settings, development: &Development) -> Picture {
    let (width, height) = layers.first().map_or((0, 0), |l| (l.layer.width, l.layer.height));
    for light in layers {
        assert_eq!(
            (light.layer.width, light.layer.height),
            (width, height),
            "layers of one picture"
        );
        assert_eq!(light.layer.pixels.len(), width * height, "a layer is full");
    }
    let speed = speed_of(settings);
    let weights: Vec<_> = layers
        .iter()
        .map(|light| raw_weights(light.colour, speed * light.dose))
        .collect();
    develop_rows(width, height, development, |y, row| {
        for (x, pixel) in row.iter_mut().enumerate() {
            let mut raw = [0.0f32; 4];
            for (light, weights) in layers.iter().zip(&weights) {
                accumulate(&mut raw, &light.layer.pixels[y * width + x], weights);
            }
            *pixel = [raw[0], raw[1], raw[2]];
        }
    })
}

/// Develops a picture row by row: `expose` fills the row of this number, black before, with what the sensor's channels
/// read.
pub(crate) fn develop_rows(
    width: usize,
    height: usize,
    development: &Development,
    expose: impl Fn(usize, &mut [[f32; 3]]) + Sync,
) -> Picture {
    let converter = Converter::new(&development.balance);
    let mut linear = vec![[0.0f32; 3]; width * height];
    let mut raw_clipped = vec![false; width * height];
    linear
        .par_chunks_mut(width.max(1))
        .zip(raw_clipped.par_chunks_mut(width.max(1)))
        .enumerate()
        .for_each(|(y, (row, clipped))| {
            expose(y, row);
            for (pixel, clipped) in row.iter_mut().zip(clipped) {
                (*pixel, *clipped) = converter.develop(*pixel);
            }
        });
    Picture {
        width,
        height,
        linear,
        raw_clipped,
        curve: development.curve,
    }
}

/// From a dose of radiance in cd s m⁻² to the linear value that it makes: π·S / (250·N²), as in [`develop`].
///
/// ```
/// use camera::{Settings, speed_of};
/// let settings = Settings { aperture: "f/4".parse()?, shutter: "1/60".parse()?, iso: "ISO 100".parse()? };
/// // The sensor of a dose that exposes an 18 % card: 0.18 of what a white one gives.
/// assert!((speed_of(&settings) - std::f64::consts::PI * 100.0 / (250.0 * 16.0)).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn speed_of(settings: &Settings) -> f64 {
    PI * settings.iso.value() / (INCIDENT_CONSTANT * settings.aperture.value().powi(2))
}

/// Red, green and blue of the sensor for each band; the fourth is there for the sake of the processor's vectors.
pub(crate) type RawWeights = [[f32; 4]; BANDS];

/// From radiance per band to the sensor's channels under a light.
pub(crate) fn raw_weights(colour: &LightColour, scale: f64) -> RawWeights {
    let sensor = sensor();
    std::array::from_fn(|band| {
        let power = f64::from(colour.bands.0[band]) * scale;
        let seen = |weights: &Spectrum| power * f64::from(weights.0[band]);
        let observer = &colour.observer;
        let [r, g, b] = sensor.times([seen(&observer.x), seen(&observer.y), seen(&observer.z)]);
        [r as f32, g as f32, b as f32, 0.0]
    })
}

/// From XYZ to the sensor's channels.
fn sensor() -> Matrix3 {
    let responses = ChromaticTransform::Bradford.matrix();
    let white = responses.times(D65_WHITE.to_array());
    Matrix3::diagonal(std::array::from_fn(|k| DAYLIGHT_WHITE[k] / white[k])) * responses
}

#[inline]
pub(crate) fn accumulate(raw: &mut [f32; 4], pixel: &Spectrum, weights: &RawWeights) {
    for (value, weights) in pixel.0.iter().zip(weights) {
        for (sum, weight) in raw.iter_mut().zip(weights) {
            *sum += value * weight;
        }
    }
}

/// From the sensor's channels to balanced linear sRGB.
pub(crate) struct Converter {
    /// What makes the channels of a neutral surface equal to its value.
    pub(crate) multipliers: [f32; 3],
    /// Where a neutral surface loses its first channel.
    pub(crate) neutral_clip: f32,
    /// From balanced channels to linear sRGB, rows first.
    pub(crate) to_srgb: [[f32; 3]; 3],
}

impl Converter {
    pub(crate) fn new(balance: &WhiteBalance) -> Self {
        let sensor = sensor();
        // A balance for a light that cannot exist, deep orange and green at once, must not turn blue upside down.
        let white = sensor
            .times(balance.white().to_array())
            .map(|channel| channel.max(1e-3));
        // Balanced channels are those of a daylight scene over a daylight white.
        let to_xyz = sensor.inverse().unwrap_or(Matrix3::IDENTITY) * Matrix3::diagonal(DAYLIGHT_WHITE);
        let axes = Matrix3::IDENTITY
            .0
            .map(|axis| LinearSrgb::from_xyz(Xyz::from_array(to_xyz.times(axis))).0);
        Self {
            multipliers: white.map(|channel| (1.0 / channel) as f32),
            neutral_clip: (RAW_CLIP / white.into_iter().fold(0.0, f64::max)) as f32,
            to_srgb: std::array::from_fn(|row| axes.map(|column| column[row] as f32)),
        }
    }

    /// The balanced colour, and whether a channel was at its limit.
    #[inline]
    pub(crate) fn develop(&self, raw: [f32; 3]) -> ([f32; 3], bool) {
        const LIMIT: f32 = RAW_CLIP as f32;
        let clipped = raw.iter().any(|&channel| channel >= LIMIT);
        // No channel reaches its own limit before this cut, for it is the lowest of the three limits once balanced.
        let balanced: [f32; 3] =
            std::array::from_fn(|k| (raw[k] * self.multipliers[k]).min(self.neutral_clip));
        let colour = self
            .to_srgb
            .map(|row| row[0] * balanced[0] + row[1] * balanced[1] + row[2] * balanced[2]);
        (colour, clipped)
    }
}

/// Even in the steep dark part a step of the table of codes is a twentieth of a code.
const STEPS: usize = 1 << 16;

/// The code of each displayed value, worked out once.
static CODES: LazyLock<Vec<u8>> = LazyLock::new(|| {
    (0..=STEPS)
        .map(|step| (encode_srgb(step as f64 / STEPS as f64) * 255.0).round() as u8)
        .collect()
});

impl Picture {
    /// The balanced linear colour of a pixel, from the top left.
    ///
    /// # Panics
    /// Outside the picture.
    pub fn at(&self, x: usize, y: usize) -> [f32; 3] {
        assert!(x < self.width && y < self.height, "a pixel of the picture");
        self.linear[y * self.width + x]
    }

    /// The part of the picture, 0 to 1, where the sensor was at its limit.
    pub fn clipped_share(&self) -> f64 {
        let clipped = self.raw_clipped.iter().filter(|&&clipped| clipped).count();
        clipped as f64 / self.raw_clipped.len().max(1) as f64
    }

    /// Encoded sRGB after the tone curve: red, green and blue of each pixel, row by row from the top left.
    pub fn srgb8(&self) -> Vec<u8> {
        let codes: &[u8] = &CODES;
        let mut bytes = vec![0u8; 3 * self.linear.len()];
        bytes
            .par_chunks_mut(3 * self.width.max(1))
            .zip(self.linear.par_chunks(self.width.max(1)))
            .for_each(|(bytes, row)| {
                for (bytes, pixel) in bytes.chunks_exact_mut(3).zip(row) {
                    for (byte, shown) in bytes.iter_mut().zip(self.curve.on_colour(*pixel)) {
                        *byte = codes[(shown * STEPS as f32 + 0.5) as usize];
                    }
                }
            });
        bytes
    }
}
