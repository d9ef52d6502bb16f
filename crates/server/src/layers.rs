//! The lights of a picture as a display weighs them: planes of half floats, and the table of what to weigh them with.
//!
//! A plane has four half floats for each pixel, row by row from the top left. A light that the page only makes stronger or weaker
//! is one plane: the sensor's red, green and blue. The flash is four planes, its sixteen bands, so that another gel is another
//! set of weights. All are scaled so that the factors of the table are 1 for the answer as it was given.

use crate::lights::written_name;
use answer::{Answer, Job, SourceName};
use camera::{
    BalanceNumbers, CurveNumbers, Development, Picture, RawLayer, ToneCurve, develop_raw, sensor_weights,
    speed_of,
};
use colour::{BANDS, LightColour, WhiteBalance};
use half::f16;
use light::{Gel, GelFamily};
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use transport::Layer;
use units::{FNumber, Iso, Kelvin, Mired, PowerFraction, ShutterTime};

/// First bytes of a file of planes: "RLY1".
const MAGIC: u32 = 0x3159_4c52;
/// Planes of the flash: four bands to a plane.
const FLASH_PLANES: usize = BANDS / 4;
/// Largest half float; what is brighter is clipped in any picture.
const MOST: f32 = 65_504.0;
/// Samples of the tone curve.
const CURVE_SAMPLES: usize = 1_025;

/// A light of a picture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TableLight {
    /// "flash", "sky", "sun", "moon", or what the photographer calls it.
    pub name: String,
    /// Whether it is the flash.
    pub is_flash: bool,
    /// Its first plane.
    pub first_plane: usize,
    /// How many planes it has: 4 for bands, 1 for the sensor's channels.
    pub planes: usize,
}

/// A gel that the flash may wear.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TableGel {
    /// Its name in a shoot text; "none" for none.
    pub name: String,
    /// Its name with its shift in mired.
    pub label: String,
    /// What turns sixteen bands into the sensor's red, green and blue: three rows.
    pub weights: Vec<Vec<f32>>,
    /// Light that it takes, in stops.
    pub loss_stops: f64,
}

/// A control with its settings and what each multiplies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Steps {
    /// As they are written.
    pub labels: Vec<String>,
    /// What each multiplies the light by, against the answer.
    pub factors: Vec<f64>,
    /// Which one the answer has.
    pub at: usize,
}

/// The gel that is worn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GelAt {
    /// Which one the answer has.
    pub at: usize,
}

/// White balances.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Balances {
    /// As they are written.
    pub labels: Vec<String>,
    /// Which one the answer has.
    pub at: usize,
    /// What each multiplies the sensor's three channels by.
    pub multipliers: Vec<Vec<f32>>,
    /// Where the multiplied channels are cut.
    pub cut: Vec<f32>,
    /// From there to linear sRGB: nine numbers, rows first.
    pub matrices: Vec<Vec<f32>>,
}

/// All controls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Controls {
    /// Multiplies the flash.
    pub power: Steps,
    /// Multiplies everything else.
    pub shutter: Steps,
    /// Multiplies everything.
    pub aperture: Steps,
    /// Multiplies everything.
    pub iso: Steps,
    /// Weighs the flash's bands.
    pub gel: GelAt,
    /// Makes one light neutral.
    pub balance: Balances,
}

/// The tone curve in samples from 0 to `top`, applied to the largest channel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Curve {
    /// The value of the last sample.
    pub top: f32,
    /// The samples.
    pub values: Vec<f32>,
}

/// From where to where bright colours are drawn towards their largest channel, and how far at most.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Paling {
    /// Where it begins.
    pub from: f32,
    /// Where it is all.
    pub to: f32,
    /// How far then.
    pub most: f32,
}

/// The exposure at the face as answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ExposureAt {
    /// The flash alone, in stops.
    pub flash_stops: f64,
    /// The ambient light alone; null in darkness.
    pub ambient_stops: Option<f64>,
}

/// What weighs the planes of a picture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Table {
    /// The lights in the order of their planes.
    pub lights: Vec<TableLight>,
    /// Gels for the flash; the first is none. Empty where the flash is a single plane.
    pub gels: Vec<TableGel>,
    /// The controls.
    pub controls: Controls,
    /// The tone curve.
    pub curve: Curve,
    /// What keeps highlights from looking like coloured plastic.
    pub paling: Paling,
    /// The exposure at the face.
    pub exposure: ExposureAt,
    /// The value at which a channel of the sensor is at its limit.
    pub sensor_limit: f64,
}

/// A choice on every control, by position in the table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// Power.
    pub power: usize,
    /// Shutter.
    pub shutter: usize,
    /// Aperture.
    pub aperture: usize,
    /// Speed.
    pub iso: usize,
    /// Gel.
    pub gel: usize,
    /// White balance.
    pub balance: usize,
}

impl Table {
    /// The table of an answer's picture; `job` is the one as answered, `names` its lights with the flash first.
    pub fn new(job: &Job, answer: &Answer, names: &[SourceName], flash_in_bands: bool) -> Self {
        let mut first_plane = 0;
        let lights = names
            .iter()
            .map(|name| {
                let is_flash = *name == SourceName::Flash;
                let planes = if is_flash && flash_in_bands {
                    FLASH_PLANES
                } else {
                    1
                };
                let light = TableLight {
                    name: written_name(name).to_owned(),
                    is_flash,
                    first_plane,
                    planes,
                };
                first_plane += planes;
                light
            })
            .collect();
        let (gels, gel_at) = if flash_in_bands {
            gels(job)
        } else {
            (Vec::new(), 0)
        };
        let curve = CurveNumbers::portrait(CURVE_SAMPLES);
        let [from, to, most] = curve.paling;
        Table {
            lights,
            gels,
            controls: Controls {
                power: powers(job, answer),
                shutter: shutters(job, answer),
                aperture: apertures(job, answer),
                iso: speeds(job, answer),
                gel: GelAt { at: gel_at },
                balance: balances(answer),
            },
            curve: Curve {
                top: curve.top,
                values: curve.values,
            },
            paling: Paling { from, to, most },
            exposure: ExposureAt {
                flash_stops: answer.exposure.flash_alone.value(),
                ambient_stops: answer.exposure.ambient_alone.map(units::Stops::value),
            },
            sensor_limit: camera::SENSOR_LIMIT,
        }
    }

    /// The choice that the answer is.
    pub fn as_answered(&self) -> Choice {
        let controls = &self.controls;
        Choice {
            power: controls.power.at,
            shutter: controls.shutter.at,
            aperture: controls.aperture.at,
            iso: controls.iso.at,
            gel: controls.gel.at,
            balance: controls.balance.at,
        }
    }

    /// Whether every part of a choice is in the table.
    pub fn has(&self, choice: &Choice) -> bool {
        let controls = &self.controls;
        choice.power < controls.power.factors.len()
            && choice.shutter < controls.shutter.factors.len()
            && choice.aperture < controls.aperture.factors.len()
            && choice.iso < controls.iso.factors.len()
            && choice.gel < self.gels.len().max(1)
            && choice.balance < controls.balance.labels.len()
    }
}

/// A control with the answer's own setting among its settings, from the darkest to the brightest; `light` is how much
/// light a setting lets through, on any scale.
fn steps<T: Copy>(
    all: impl Iterator<Item = T>,
    own: T,
    light: impl Fn(T) -> f64,
    label: impl Fn(T) -> String,
) -> Steps {
    let factor = |setting: &T| light(*setting) / light(own);
    let is_own = |setting: &T| factor(setting).log2().abs() < 0.02;
    let mut list: Vec<T> = all.collect();
    if !list.iter().any(is_own) {
        list.push(own);
    }
    list.sort_by(|a, b| factor(a).total_cmp(&factor(b)));
    let at = list.iter().position(is_own).unwrap_or(0);
    let mut steps = Steps {
        labels: list.iter().map(|setting| label(*setting)).collect(),
        factors: list.iter().map(factor).collect(),
        at,
    };
    // Nothing is changed by choosing what there is, to the last digit.
    if let Some(own) = steps.factors.get_mut(at) {
        *own = 1.0;
    }
    steps
}

fn powers(job: &Job, answer: &Answer) -> Steps {
    let thirds = (job.bag.flash.least_power_stops() * 3.0).round() as u32;
    let all = (0..=thirds).filter_map(|third| PowerFraction::from_thirds_below_full(third).ok());
    steps(all, answer.flash.power, PowerFraction::fraction, |power| {
        power.to_string()
    })
}

/// Shutter times from two seconds to the sync speed.
fn shutters(job: &Job, answer: &Answer) -> Steps {
    let all =
        ShutterTime::series().filter(|time| time.value() <= 2.1 && camera::within_sync(*time, job.body.sync));
    steps(
        all,
        answer.settings.shutter,
        |time| time.value(),
        |time| time.to_string(),
    )
}

fn apertures(job: &Job, answer: &Answer) -> Steps {
    let widest = job.body.widest.value() * 0.98;
    let all = FNumber::series().filter(|number| (widest..=23.0).contains(&number.value()));
    steps(
        all,
        answer.settings.aperture,
        |number| number.value().powi(-2),
        |number| number.nearest_third().to_string(),
    )
}

fn speeds(job: &Job, answer: &Answer) -> Steps {
    let all = Iso::series().filter(|iso| {
        (job.body.least_iso.value() - 0.5..=job.body.most_iso.value() + 0.5).contains(&iso.value())
    });
    steps(all, answer.settings.iso, |iso| iso.value(), |iso| iso.to_string())
}

/// Ten mired apart: less is hardly seen (common practice).
const BALANCE_STEP_MIRED: f64 = 10.0;
const BALANCE_RANGE_MIRED: std::ops::RangeInclusive<u32> = 10..=40;

fn balances(answer: &Answer) -> Balances {
    let (own, tint) = (answer.settings.white_balance, answer.settings.tint);
    let mut all: Vec<Kelvin> = BALANCE_RANGE_MIRED
        .filter_map(|tens| Mired(f64::from(tens) * BALANCE_STEP_MIRED).kelvin().ok())
        .filter(|kelvin| (kelvin.mired().value() - own.mired().value()).abs() > 0.5 * BALANCE_STEP_MIRED)
        .chain([own])
        .collect();
    all.sort_by(|a, b| a.value().total_cmp(&b.value()));
    let at = all
        .iter()
        .position(|kelvin| kelvin.value() == own.value())
        .unwrap_or(0);
    let numbers: Vec<BalanceNumbers> = all
        .iter()
        .map(|&kelvin| BalanceNumbers::new(&WhiteBalance { kelvin, tint }))
        .collect();
    Balances {
        labels: all
            .iter()
            .map(|kelvin| format!("{:.0} K", (kelvin.value() / 50.0).round() * 50.0))
            .collect(),
        at,
        multipliers: numbers.iter().map(|n| n.multipliers.to_vec()).collect(),
        cut: numbers.iter().map(|n| n.cut).collect(),
        matrices: numbers.iter().map(|n| n.to_srgb.concat()).collect(),
    }
}

/// What divides the weights and multiplies the planes, so that a plane's numbers are about those of the picture.
fn evened(colour: &LightColour) -> f64 {
    let weights = sensor_weights(colour);
    f64::from(weights[1].iter().sum::<f32>()).max(1e-30)
}

/// The gels that the flash may wear, none first, and which of them it wears.
fn gels(job: &Job) -> (Vec<TableGel>, usize) {
    let own = &job.bag.flash;
    let own_passes = (-own.gel_loss_stops()).exp2();
    let even = evened(own.colour());
    let mut list: Vec<(String, Option<Gel>)> = vec![("none".to_owned(), None)];
    let offered = job
        .bag
        .gels
        .iter()
        .cloned()
        .chain(named(job.bag.gel_family))
        .chain(own.gel().cloned());
    for gel in offered {
        let name = gel.name().to_owned();
        if list.iter().all(|(other, _)| *other != name) {
            list.push((name, Some(gel)));
        }
    }
    let worn = own.gel().map_or("none", Gel::name).to_owned();
    let tables: Vec<TableGel> = list
        .into_iter()
        .filter_map(|(name, gel)| {
            let flash = own.clone().with_gel(gel).ok()?;
            let passes = (-flash.gel_loss_stops()).exp2();
            let scale = (passes / own_passes / even) as f32;
            let weights =
                sensor_weights(flash.colour()).map(|row| row.iter().map(|weight| weight * scale).collect());
            let label = match flash.gel().and_then(|gel| flash.behind(gel)) {
                Some(behind) => format!("{name}, {:+.0}", behind.shift.value()),
                None => name.clone(),
            };
            Some(TableGel {
                name,
                label,
                weights: weights.to_vec(),
                loss_stops: flash.gel_loss_stops(),
            })
        })
        .collect();
    let at = tables.iter().position(|gel| gel.name == worn).unwrap_or(0);
    (tables, at)
}

/// The usual gels of a family, so that one can see what one would buy.
fn named(family: GelFamily) -> impl Iterator<Item = Gel> {
    [
        "full CTO", "3/4 CTO", "1/2 CTO", "1/4 CTO", "1/8 CTO", "full CTB", "1/2 CTB", "1/4 CTB",
    ]
    .into_iter()
    .filter_map(move |name| Gel::named(name, family).ok())
}

/// The lights of a picture in planes.
pub struct Planes {
    width: usize,
    height: usize,
    /// Four half floats for each pixel of each plane.
    planes: Vec<Vec<f16>>,
}

impl Planes {
    /// Nothing yet, of a size.
    pub fn new(width: usize, height: usize) -> Self {
        Planes {
            width,
            height,
            planes: Vec::new(),
        }
    }

    /// Pixels across and down.
    pub fn size(&self) -> [usize; 2] {
        [self.width, self.height]
    }

    /// Adds the flash in bands, as it lies in the picture of the answer.
    pub fn push_bands(&mut self, layer: &Layer, colour: &LightColour, dose: f64, answer: &Answer) {
        let scale = (dose * speed_of(&answer.settings.exposing()) * evened(colour)) as f32;
        for plane in 0..FLASH_PLANES {
            self.push(layer.pixels.len(), |pixel| {
                let bands = &layer.pixels[pixel].0[4 * plane..4 * plane + 4];
                std::array::from_fn(|band| bands[band] * scale)
            });
        }
    }

    /// Adds a light as the sensor's channels, as it lies in the picture of the answer.
    pub fn push_raw(&mut self, layer: &RawLayer, dose: f64, answer: &Answer) {
        let scale = (dose * speed_of(&answer.settings.exposing())) as f32;
        let channels = layer.channels();
        self.push(channels.len(), |pixel| {
            let [r, g, b] = channels[pixel];
            [r * scale, g * scale, b * scale, 0.0]
        });
    }

    fn push(&mut self, pixels: usize, value: impl Fn(usize) -> [f32; 4] + Sync) {
        let mut plane = vec![f16::ZERO; 4 * pixels];
        plane.par_chunks_mut(4).enumerate().for_each(|(pixel, four)| {
            for (half, value) in four.iter_mut().zip(value(pixel)) {
                *half = f16::from_f32(value.clamp(-MOST, MOST));
            }
        });
        self.planes.push(plane);
    }

    /// As they are sent: a head of four numbers, then the planes.
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(16 + self.size_in_memory());
        for number in [
            MAGIC,
            self.width as u32,
            self.height as u32,
            self.planes.len() as u32,
        ] {
            bytes.extend(number.to_le_bytes());
        }
        for plane in &self.planes {
            bytes.extend(plane.iter().flat_map(|half| half.to_le_bytes()));
        }
        bytes
    }

    /// Bytes that the planes take.
    pub fn size_in_memory(&self) -> usize {
        8 * self.width * self.height * self.planes.len()
    }

    /// Develops the picture of a choice that the table [has](Table::has).
    pub fn develop(&self, table: &Table, choice: &Choice, answer: &Answer) -> Option<Picture> {
        let controls = &table.controls;
        let both = controls.aperture.factors[choice.aperture] * controls.iso.factors[choice.iso];
        let mut raw = vec![[0.0f32; 3]; self.width * self.height];
        for light in &table.lights {
            let own = if light.is_flash {
                controls.power.factors[choice.power]
            } else {
                controls.shutter.factors[choice.shutter]
            };
            let factor = (both * own) as f32;
            let planes = self
                .planes
                .get(light.first_plane..light.first_plane + light.planes)?;
            let weights = (light.planes > 1).then(|| &table.gels[choice.gel].weights);
            raw.par_iter_mut().enumerate().for_each(|(pixel, sum)| {
                for (channel, sum) in sum.iter_mut().enumerate() {
                    *sum += factor
                        * match weights {
                            None => planes[0][4 * pixel + channel].to_f32(),
                            Some(weights) => (0..BANDS)
                                .map(|band| {
                                    planes[band / 4][4 * pixel + band % 4].to_f32() * weights[channel][band]
                                })
                                .sum(),
                        };
                }
            });
        }
        let layer = RawLayer::of_channels(self.width, self.height, raw)?;
        // The speed is in the planes already.
        let settings = answer.settings.exposing();
        let dose = 1.0 / speed_of(&settings);
        let label = &controls.balance.labels[choice.balance];
        let kelvin = if choice.balance == controls.balance.at {
            answer.settings.white_balance
        } else {
            label.parse().ok()?
        };
        let development = Development {
            balance: WhiteBalance {
                kelvin,
                tint: answer.settings.tint,
            },
            curve: ToneCurve::Portrait,
        };
        Some(develop_raw(&[(&layer, dose)], &settings, &development))
    }
}
