//! The words that a shoot file may use, from the tables that the reader looks them up in.

use super::section::first_of_its_kind;
use super::{ask, bag, place, sitters, sky};
use colour::SkinTone;
use colour::person::{ClothTone, HairTone, IrisTone};
use colour::surfaces::SURFACES;
use light::{FlashUnit, Gel, GelFamily, Lamp, UsualLevel};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Every word that stands for something.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Vocabulary {
    /// What walls, boards and furniture are made of.
    pub surfaces: Vec<SurfaceWord>,
    /// Places whose level is known when nobody has metered.
    pub usual_lights: Vec<UsualLight>,
    /// Patterns of the key light, told from the nose.
    pub patterns: Vec<PatternWord>,
    /// Tones of skin.
    pub skins: Vec<String>,
    /// Ways to wear the hair.
    pub hairs: Vec<String>,
    /// Colours of hair.
    pub hair_colours: Vec<String>,
    /// Colours of eyes.
    pub eyes: Vec<String>,
    /// Colours of cloth.
    pub cloths: Vec<String>,
    /// What is worn.
    pub clothes: Vec<String>,
    /// Kinds of people.
    pub figures: Vec<String>,
    /// How people are built.
    pub builds: Vec<String>,
    /// Gels by name, with what each family's does.
    pub gels: Vec<GelWord>,
    /// Standard illuminants.
    pub illuminants: Vec<String>,
    /// Kinds of lamps.
    pub lamps: Vec<LampWord>,
    /// What an opening can be.
    pub opening_kinds: Vec<String>,
    /// Weathers.
    pub weathers: Vec<String>,
    /// Typical flashes.
    pub flash_kinds: Vec<String>,
    /// Looks by the level of the ambient light.
    pub looks: Vec<LookWord>,
}

/// A surface known by name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SurfaceWord {
    /// What it is called.
    pub name: String,
    /// Part of the light that comes back, 0 to 1.
    pub reflectance: f64,
    /// What is meant.
    pub meaning: String,
}

/// The usual light of a place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UsualLight {
    /// What the place is called.
    pub name: String,
    /// Incident reading at ISO 100: "EV 5.5".
    pub reading: String,
    /// Colour temperature: "2850 K".
    pub colour: String,
}

/// A pattern of the key light.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PatternWord {
    /// What it is called.
    pub name: String,
    /// Degrees round from the nose, from and to.
    pub azimuth: [f64; 2],
    /// Degrees above the eyes, from and to.
    pub elevation: [f64; 2],
}

/// A gel, and what it does to a flash in each family.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GelWord {
    /// What it is called.
    pub name: String,
    /// In the straw family; null if that family has none.
    pub straw: Option<GelFigure>,
    /// In the amber family.
    pub amber: Option<GelFigure>,
}

/// What a gel does to a flash, in the trade's figures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum GelFigure {
    /// It makes the light warmer or colder.
    Warmth {
        /// In whole mired, positive warmer.
        mired: f64,
        /// Light lost, in hundredths of a stop.
        loss_stops: f64,
    },
    /// It makes the light greener or less green.
    Tint {
        /// Duv in thousandths, positive greener.
        duv: f64,
        /// Light lost, in hundredths of a stop.
        loss_stops: f64,
    },
    /// It makes a deep colour, which has no temperature.
    Deep,
}

/// A kind of lamp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LampWord {
    /// What it is called.
    pub name: String,
    /// Its light in lumen.
    pub lumen: f64,
}

/// A look.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookWord {
    /// What it is called.
    pub name: String,
    /// Stops of the ambient light against normal.
    pub stops: f64,
}

/// All of it.
pub fn vocabulary() -> Vocabulary {
    Vocabulary {
        surfaces: SURFACES.iter().map(surface).collect(),
        usual_lights: UsualLevel::all().iter().map(usual_light).collect(),
        patterns: ask::PATTERNS
            .iter()
            .map(|(name, pattern)| PatternWord {
                name: (*name).to_owned(),
                azimuth: pattern.azimuth.into(),
                elevation: pattern.elevation.into(),
            })
            .collect(),
        skins: names(SkinTone::ALL.iter().map(|tone| tone.name())),
        hairs: names(first_of_its_kind(sitters::HAIR_STYLES)),
        hair_colours: names(HairTone::ALL.iter().map(|tone| tone.name())),
        eyes: names(IrisTone::ALL.iter().map(|tone| tone.name())),
        cloths: names(ClothTone::ALL.iter().map(|tone| tone.name())),
        clothes: names(first_of_its_kind(sitters::CLOTHES)),
        figures: names(first_of_its_kind(sitters::FIGURES)),
        builds: names(first_of_its_kind(sitters::BUILDS)),
        gels: gels(),
        illuminants: names(colour::illuminant_names()),
        lamps: Lamp::all()
            .iter()
            .map(|lamp| LampWord {
                name: lamp.name.to_owned(),
                lumen: lamp.lumens,
            })
            .collect(),
        opening_kinds: names(first_of_its_kind(place::OPENING_KINDS)),
        weathers: names(sky::weathers().into_iter().map(|(name, _)| name)),
        flash_kinds: names(first_of_its_kind(bag::FLASH_KINDS)),
        looks: ask::LOOKS
            .iter()
            .map(|(name, stops)| LookWord {
                name: (*name).to_owned(),
                stops: *stops,
            })
            .collect(),
    }
}

fn names<'w>(words: impl IntoIterator<Item = &'w str>) -> Vec<String> {
    words.into_iter().map(str::to_owned).collect()
}

fn surface(surface: &colour::surfaces::Surface) -> SurfaceWord {
    // The eye's weights of the three primaries, as in the table of the reference.
    let [red, green, blue] = surface.linear_srgb;
    let comes_back = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    SurfaceWord {
        name: surface.name.to_owned(),
        reflectance: (comes_back * 100.0).round() / 100.0,
        meaning: surface.description.to_owned(),
    }
}

fn usual_light(level: &UsualLevel) -> UsualLight {
    UsualLight {
        name: level.name.to_owned(),
        reading: level.level.to_string(),
        colour: format!("{:.0} K", level.kelvin),
    }
}

/// The gels of both families, each name once.
fn gels() -> Vec<GelWord> {
    let flash = FlashUnit::medium();
    let of = |family: GelFamily, name: &str| {
        let gel = Gel::catalogue(family).iter().find(|gel| gel.name() == name)?;
        Some(effect(&flash, gel))
    };
    let both = [GelFamily::Straw, GelFamily::Amber]
        .into_iter()
        .flat_map(Gel::catalogue);
    let mut found: Vec<GelWord> = Vec::new();
    for gel in both {
        if found.iter().all(|known| known.name != gel.name()) {
            found.push(GelWord {
                name: gel.name().to_owned(),
                straw: of(GelFamily::Straw, gel.name()),
                amber: of(GelFamily::Amber, gel.name()),
            });
        }
    }
    found
}

/// What a gel does to a flash, in the trade's figures.
fn effect(flash: &FlashUnit, gel: &Gel) -> GelFigure {
    match flash.behind(gel) {
        Some(effect) if !gel.is_effect() => {
            let (mired, duv) = (effect.shift.value(), effect.duv.value());
            let loss_stops = (effect.loss.value() * 100.0).round() / 100.0;
            // A green or magenta gel is told by its tint, the others by their warmth.
            if duv.abs() > 0.003 && mired.abs() < 15.0 {
                let duv = (duv * 1000.0).round() / 1000.0;
                GelFigure::Tint { duv, loss_stops }
            } else {
                let mired = mired.round();
                GelFigure::Warmth { mired, loss_stops }
            }
        }
        _ => GelFigure::Deep,
    }
}
