//! Lamps that are there: how much light they give, of which colour, and how large they are; and how bright
//! places usually are without a meter reading.

use colour::LightColour;
use units::{Ev, Kelvin};

/// The colour that a kind of lamp usually has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LampColour {
    /// A glowing body, or a lamp made to look like one, by its temperature in kelvin.
    Glow(f64),
    /// A CIE illuminant by its name.
    Illuminant(&'static str),
}

impl LampColour {
    /// The light itself.
    pub fn light(self) -> LightColour {
        match self {
            LampColour::Glow(_) => LightColour::planck(self.kelvin()),
            LampColour::Illuminant(name) => {
                LightColour::illuminant(name).expect("the table names built-in illuminants")
            }
        }
    }

    /// Its colour temperature.
    pub fn kelvin(self) -> Kelvin {
        match self {
            LampColour::Glow(kelvin) => Kelvin::new(kelvin).expect("the table's temperatures are in range"),
            LampColour::Illuminant(_) => {
                self.light()
                    .cct_duv()
                    .expect("the table names white illuminants")
                    .0
            }
        }
    }
}

/// Which way a lamp shines in a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LampFacing {
    /// Down and to the sides, like a shaded lamp or a ceiling light.
    Down,
    /// Towards the sitter, like a window or a panel that was turned there.
    Sitter,
}

/// A kind of lamp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lamp {
    /// What it is called.
    pub name: &'static str,
    /// Luminous flux in lm.
    pub lumens: f64,
    /// Its usual colour.
    pub colour: LampColour,
    /// Edge of the square that shines, in metres.
    pub edge_m: f64,
    /// Which way it shines.
    pub facing: LampFacing,
}

/// A tungsten bulb of the usual 2700 K by its watts, or a modern bulb sold as equal to it.
const fn bulb(name: &'static str, lumens: f64) -> Lamp {
    Lamp {
        name,
        lumens,
        colour: LampColour::Glow(WARM_WHITE),
        edge_m: 0.25,
        facing: LampFacing::Down,
    }
}

const WARM_WHITE: f64 = 2700.0;

/// Bulbs: the flux that a lamp must have to be sold as equal to a bulb of so many watts (Regulation (EC) No
/// 244/2009, table 6, from memory: 249, 470, 806, 1055, 1521 lm). Candle: 1 cd in all directions, 12.6 lm. The
/// others are common practice; sizes and facings are ours, a bulb's with its shade.
const LAMPS: &[Lamp] = &[
    bulb("25 W bulb", 249.0),
    bulb("40 W bulb", 470.0),
    bulb("60 W bulb", 806.0),
    bulb("75 W bulb", 1055.0),
    bulb("100 W bulb", 1521.0),
    Lamp {
        name: "candle",
        lumens: 12.566,
        colour: LampColour::Glow(1900.0),
        edge_m: 0.03,
        facing: LampFacing::Sitter,
    },
    Lamp {
        name: "tube",
        lumens: 3350.0,
        colour: LampColour::Illuminant("FL2"),
        edge_m: 0.5,
        facing: LampFacing::Down,
    },
    Lamp {
        name: "LED panel",
        lumens: 3600.0,
        colour: LampColour::Illuminant("LED-B3"),
        edge_m: 0.6,
        facing: LampFacing::Down,
    },
    Lamp {
        name: "sodium street lamp",
        lumens: 9000.0,
        colour: LampColour::Illuminant("HP1"),
        edge_m: 0.4,
        facing: LampFacing::Down,
    },
    Lamp {
        name: "LED street lamp",
        lumens: 6000.0,
        colour: LampColour::Illuminant("LED-B3"),
        edge_m: 0.4,
        facing: LampFacing::Down,
    },
    Lamp {
        name: "shop window",
        lumens: 8000.0,
        colour: LampColour::Illuminant("LED-B2"),
        edge_m: 1.5,
        facing: LampFacing::Sitter,
    },
    Lamp {
        name: "stage lamp",
        lumens: 12_000.0,
        colour: LampColour::Glow(3200.0),
        edge_m: 0.2,
        facing: LampFacing::Sitter,
    },
];

impl Lamp {
    /// Every kind that is known.
    pub fn all() -> &'static [Lamp] {
        LAMPS
    }

    /// Luminance in cd m⁻² of the square that shines when it gives this flux evenly: L = Φ / (π A).
    ///
    /// ```
    /// // 800 lm from half a metre square: 800 / (π × 0.25) = 1018.6 cd/m².
    /// assert!((light::Lamp::luminance(800.0, 0.5) - 1018.59).abs() < 0.01);
    /// ```
    pub fn luminance(lumens: f64, edge_m: f64) -> f64 {
        lumens / (std::f64::consts::PI * edge_m * edge_m)
    }
}

/// How bright a place usually is, and of which colour its light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualLevel {
    /// What it is called.
    pub name: &'static str,
    /// Incident reading at ISO 100.
    pub level: Ev,
    /// Usual colour temperature in kelvin.
    pub kelvin: f64,
}

const fn usual(name: &'static str, level: f64, kelvin: f64) -> UsualLevel {
    UsualLevel {
        name,
        level: Ev(level),
        kelvin,
    }
}

/// Levels and colours of common practice; where it gives a range, its middle.
const LEVELS: &[UsualLevel] = &[
    usual("full sun", 15.0, 5400.0),
    usual("hazy sun", 14.0, 5800.0),
    usual("bright overcast", 13.0, 6500.0),
    usual("heavy overcast", 12.0, 6500.0),
    usual("open shade", 12.0, 8000.0),
    usual("deep shade", 10.5, 9000.0),
    usual("office", 7.5, 4000.0),
    usual("gym", 7.5, 4000.0),
    usual("shop", 8.5, 3800.0),
    usual("living room evening", 5.5, 2850.0),
    usual("restaurant", 4.5, 2600.0),
    usual("candle light", 3.0, 1900.0),
    usual("bright street at night", 5.5, 3000.0),
    usual("dim street at night", 2.5, 3000.0),
];

impl UsualLevel {
    /// Every place that is known.
    pub fn all() -> &'static [UsualLevel] {
        LEVELS
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A candle is one candela in all directions.
    #[test]
    fn a_candle_is_a_candela() {
        let candle = Lamp::all()
            .iter()
            .find(|lamp| lamp.name == "candle")
            .expect("known");
        assert!((candle.lumens - 4.0 * std::f64::consts::PI).abs() < 1e-2);
        assert_eq!(candle.colour.kelvin().value(), 1900.0);
    }

    /// Every lamp has a light with a temperature; a bulb of 60 W gives about 800 lm (common practice).
    #[test]
    fn lamps_are_what_they_are_sold_as() {
        for lamp in Lamp::all() {
            let kelvin = lamp.colour.kelvin().value();
            assert!((1800.0..5000.0).contains(&kelvin), "{} {kelvin}", lamp.name);
            assert!((lamp.colour.light().white().y - 1.0).abs() < 1e-5);
        }
        let bulb = Lamp::all()
            .iter()
            .find(|lamp| lamp.name == "60 W bulb")
            .expect("known");
        assert!((bulb.lumens - 800.0).abs() < 25.0);
    }
}
