//! The gels that are on sale everywhere, by what the trade says of them, each with a curve of ours.
//!
//! A curve is film and dye: ln T(λ) = −(d + a·s₁(λ) + b·s₂(λ)). The two shapes are smooth: for warm gels an
//! edge that takes the blue, for blue ones an edge that takes the red, each with a bump in the green; for
//! green and magenta ones the bump with a straight tilt. The strengths a and b are found by Newton's method,
//! so that the stated shift in mired and in Duv comes out; the clear loss d makes up the stated loss.

use super::sheet::{Gel, GelError};
use colour::{SpectralCurve, cct_duv};
use std::fmt;
use std::sync::LazyLock;
use units::Kelvin;

/// A family of warm gels; the same fraction is not the same gel in both (common practice).
///
/// The names are ours. Blue, green and magenta gels are the same in both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GelFamily {
    /// Full +159, 1/2 +109, 1/4 +64, 1/8 +26 mired.
    Amber,
    /// Full +167, 3/4 +131, 1/2 +81, 1/4 +42, 1/8 +20 mired.
    Straw,
}

impl GelFamily {
    /// Both.
    pub const ALL: [GelFamily; 2] = [GelFamily::Amber, GelFamily::Straw];

    /// As it is written.
    pub fn name(self) -> &'static str {
        match self {
            GelFamily::Amber => "amber",
            GelFamily::Straw => "straw",
        }
    }
}

impl fmt::Display for GelFamily {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// What the trade says of a gel: name, shift in mired, shift in Duv, loss in stops.
type Figures = (&'static str, f64, f64, f64);

/// Warm gels of the amber family under a flash of 5600 K (common practice).
const AMBER: &[Figures] = &[
    ("full CTO", 159.0, 0.0, 0.85),
    ("1/2 CTO", 109.0, 0.0, 0.5),
    ("1/4 CTO", 64.0, 0.0, 0.35),
    ("1/8 CTO", 26.0, 0.0, 0.25),
];

/// Warm gels of the straw family under a flash of 5600 K (common practice).
const STRAW: &[Figures] = &[
    ("full CTO", 167.0, 0.0, 1.1),
    ("3/4 CTO", 131.0, 0.0, 0.8),
    ("1/2 CTO", 81.0, 0.0, 0.5),
    ("1/4 CTO", 42.0, 0.0, 0.3),
    ("1/8 CTO", 20.0, 0.0, 0.15),
];

/// Blue gels under the lamp that they are sold for, a radiator of 3200 K (common practice, ±15 %).
const BLUE: &[Figures] = &[
    ("full CTB", -137.0, 0.0, 1.5),
    ("1/2 CTB", -78.0, 0.0, 0.9),
    ("1/4 CTB", -35.0, 0.0, 0.5),
];

/// Green and magenta gels under a flash of 5600 K. Full, half and quarter are the density 0.30, 0.15 and 0.08
/// of the trade (common practice); their Duv is that of ideal block filters of these densities on daylight
/// (`checks/gels.json`), the loss of the fulls and of the half green common practice, the others ours.
const GREEN_MAGENTA: &[Figures] = &[
    ("plus green", 0.0, 0.034, 0.35),
    ("1/2 plus green", 0.0, 0.017, 0.25),
    ("1/4 plus green", 0.0, 0.009, 0.15),
    ("1/8 plus green", 0.0, 0.0045, 0.08),
    ("minus green", 0.0, -0.036, 0.7),
    ("1/2 minus green", 0.0, -0.018, 0.4),
    ("1/4 minus green", 0.0, -0.009, 0.25),
    ("1/8 minus green", 0.0, -0.0045, 0.12),
];

/// Deep colours by their hue (ours): where the pass band begins and ends, in nm.
const EFFECTS: &[(&str, &[(f64, f64)])] = &[
    ("red", &[(612.0, 900.0)]),
    ("orange", &[(575.0, 900.0)]),
    ("yellow", &[(505.0, 900.0)]),
    ("green", &[(500.0, 560.0)]),
    ("cyan", &[(300.0, 570.0)]),
    ("blue", &[(300.0, 502.0)]),
    ("violet", &[(300.0, 475.0), (640.0, 900.0)]),
    ("magenta", &[(300.0, 485.0), (605.0, 900.0)]),
];

/// Width of the edges of a deep colour in nm, what passes in the pass band, and outside it (ours).
const EFFECT_EDGE_NM: f64 = 10.0;
const EFFECT_PASS: f64 = 0.88;
const EFFECT_STOP: f64 = 0.015;

/// Where the edges and bumps of the pale gels lie, in nm (ours): chosen so that every stated loss can be met
/// by a curve that nowhere lets through more than everything.
const WARM_EDGE_NM: f64 = 500.0;
const BLUE_EDGE_NM: f64 = 550.0;
const EDGE_WIDTH_NM: f64 = 40.0;
const BUMP_NM: f64 = 545.0;
const CORRECTING_BUMP_WIDTH_NM: f64 = 35.0;
const GREEN_BUMP_WIDTH_NM: f64 = 60.0;
const MAGENTA_BUMP_WIDTH_NM: f64 = 35.0;

static WITH_AMBER: LazyLock<Vec<Gel>> = LazyLock::new(|| build(AMBER));
static WITH_STRAW: LazyLock<Vec<Gel>> = LazyLock::new(|| build(STRAW));

impl Gel {
    /// Every gel of a family, blue, green, magenta and deep colours included.
    pub fn catalogue(family: GelFamily) -> &'static [Gel] {
        match family {
            GelFamily::Amber => &WITH_AMBER,
            GelFamily::Straw => &WITH_STRAW,
        }
    }

    /// A gel of a family by its name: "1/2 CTO", "half CTO", "full CTB", "1/4 plus green", "red".
    ///
    /// # Errors
    /// A name that the family does not have.
    pub fn named(name: &str, family: GelFamily) -> Result<Gel, GelError> {
        let catalogue = Gel::catalogue(family);
        let found = catalogue.iter().find(|gel| gel.is_called(name));
        found.cloned().ok_or_else(|| GelError::Unknown {
            name: name.to_owned(),
            known: catalogue.iter().map(Gel::name).collect::<Vec<_>>().join(", "),
        })
    }
}

impl Gel {
    /// Whether a name as people write it means this gel: "half cto" means "1/2 CTO".
    pub fn is_called(&self, name: &str) -> bool {
        plain(self.name()) == plain(name)
    }
}

/// Small letters, one space, fractions as figures; "plus green" alone is the full one, and so is "CTO".
fn plain(name: &str) -> String {
    let spaced = name.to_lowercase().replace(['_', '-'], " ");
    let words = spaced.split_whitespace().map(|word| match word {
        "half" | "½" => "1/2",
        "quarter" | "¼" => "1/4",
        "eighth" | "⅛" => "1/8",
        "¾" => "3/4",
        "+green" => "plus green",
        other => other,
    });
    let words: Vec<&str> = words
        .filter(|word| !matches!(*word, "full" | "gel" | "1/1"))
        .collect();
    words.join(" ")
}

fn build(warm: &[Figures]) -> Vec<Gel> {
    let mut gels: Vec<Gel> = warm.iter().chain(BLUE).chain(GREEN_MAGENTA).map(pale).collect();
    gels.extend(EFFECTS.iter().map(deep));
    gels
}

/// The light for which a gel's figures hold.
fn told_under(figures: &Figures) -> SpectralCurve {
    let kelvin = |value| Kelvin::new(value).expect("a temperature of the table");
    if figures.1 < 0.0 {
        colour::planck_curve(kelvin(3200.0))
    } else {
        colour::flash_curve(kelvin(5600.0)).expect("5600 K is within the daylight series")
    }
}

fn bump(nm: f64, width: f64) -> f64 {
    (-0.5 * ((nm - BUMP_NM) / width).powi(2)).exp()
}

/// 1 below the edge, 0 above it.
fn below(nm: f64, edge: f64, width: f64) -> f64 {
    1.0 / (1.0 + ((nm - edge) / width).exp())
}

/// The two shapes of the dye of a gel with these figures, and a strength to begin with.
fn shapes(&(_, mired, duv, _): &Figures, nm: f64) -> [f64; 2] {
    let tilt = (560.0 - nm) / 100.0;
    if mired > 0.0 {
        [
            below(nm, WARM_EDGE_NM, EDGE_WIDTH_NM),
            bump(nm, CORRECTING_BUMP_WIDTH_NM),
        ]
    } else if mired < 0.0 {
        [
            1.0 - below(nm, BLUE_EDGE_NM, EDGE_WIDTH_NM),
            bump(nm, CORRECTING_BUMP_WIDTH_NM),
        ]
    } else if duv > 0.0 {
        [1.0 - bump(nm, GREEN_BUMP_WIDTH_NM), tilt]
    } else {
        [bump(nm, MAGENTA_BUMP_WIDTH_NM), tilt]
    }
}

/// A pale gel with the stated figures.
fn pale(figures: &Figures) -> Gel {
    let &(name, mired, duv, loss) = figures;
    let source = told_under(figures);
    let (before, duv_before) = source
        .light_xyz()
        .chromaticity()
        .and_then(cct_duv)
        .expect("flash and radiator are white");
    let dyed = |strength: [f64; 2], clear: f64| {
        source
            .map(|nm, _| {
                let [first, second] = shapes(figures, nm);
                (-(clear + strength[0] * first + strength[1] * second)).exp()
            })
            .expect("a dye of finite strength is a curve")
    };
    let lit = |strength: [f64; 2]| {
        let film = dyed(strength, 0.0);
        source
            .map(|nm, power| power * film.at(nm))
            .expect("a filtered light is a curve")
            .light_xyz()
    };
    // Scaled so that a step of one is alike in both.
    let miss = |strength: [f64; 2]| {
        let (kelvin, found) = lit(strength).chromaticity().and_then(cct_duv)?;
        Some([
            ((kelvin.mired() - before.mired()).value() - mired) / 100.0,
            (found.value() - duv_before.value() - duv) * 10.0,
        ])
    };
    let begin = mired.abs() / 120.0 + duv.abs() / 0.04;
    let strength = newton([begin, 0.0], miss);
    let light = lit(strength).y / source.light_xyz().y;
    let clear = std::f64::consts::LN_2 * loss + light.ln();
    Gel::from_curve(name, dyed(strength, clear)).expect("shapes were chosen to stay below everything")
}

/// The root of two equations in two unknowns.
fn newton(start: [f64; 2], miss: impl Fn([f64; 2]) -> Option<[f64; 2]>) -> [f64; 2] {
    const STEP: f64 = 1e-5;
    let mut at = start;
    for _ in 0..40 {
        let Some(here) = miss(at) else { break };
        if here[0].hypot(here[1]) < 1e-9 {
            break;
        }
        let (Some(one), Some(two)) = (miss([at[0] + STEP, at[1]]), miss([at[0], at[1] + STEP])) else {
            break;
        };
        let [a, c] = [0, 1].map(|k| (one[k] - here[k]) / STEP);
        let [b, d] = [0, 1].map(|k| (two[k] - here[k]) / STEP);
        let determinant = a * d - b * c;
        // Short steps keep the light white enough to have a temperature.
        at[0] -= ((here[0] * d - here[1] * b) / determinant).clamp(-0.4, 0.4);
        at[1] -= ((here[1] * a - here[0] * c) / determinant).clamp(-0.4, 0.4);
    }
    at
}

/// A deep colour.
fn deep(&(name, bands): &(&str, &[(f64, f64)])) -> Gel {
    let grid = colour::observer_curves()[0];
    let film = grid.map(|nm, _| {
        let passed = bands.iter().fold(0.0f64, |most, &(from, to)| {
            most.max((1.0 - below(nm, from, EFFECT_EDGE_NM)) * below(nm, to, EFFECT_EDGE_NM))
        });
        // Dyes add as densities.
        EFFECT_PASS.powf(passed) * EFFECT_STOP.powf(1.0 - passed)
    });
    let mut gel = Gel::from_curve(name, film.expect("a band is finite")).expect("between stop and pass");
    gel.strong = true;
    gel
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shift, Duv and loss of every pale gel are the stated ones, worked out through the observer.
    #[test]
    fn every_gel_does_what_the_trade_says_of_it() {
        for (family, warm) in [(GelFamily::Amber, AMBER), (GelFamily::Straw, STRAW)] {
            for figures in warm.iter().chain(BLUE).chain(GREEN_MAGENTA) {
                let &(name, mired, duv, loss) = figures;
                let gel = Gel::named(name, family).expect("in the catalogue");
                let effect = gel.under(&told_under(figures)).expect("a white light");
                assert!(
                    (effect.shift.value() - mired).abs() < 0.05,
                    "{family} {name} {effect:?}"
                );
                assert!(
                    (effect.duv.value() - duv).abs() < 2e-5,
                    "{family} {name} {effect:?}"
                );
                assert!(
                    (effect.loss.value() - loss).abs() < 1e-3,
                    "{family} {name} {effect:?}"
                );
            }
        }
    }

    /// A gel shifts another source by nearly as much: ±3 % for ideal filters, within ±12 % for these dyes (ours).
    #[test]
    fn a_gel_shifts_other_lights_by_nearly_as_much() {
        let lamp = colour::planck_curve(Kelvin::new(3200.0).expect("in range"));
        let day = colour::flash_curve(Kelvin::new(5600.0).expect("in range")).expect("daylight");
        for gel in Gel::catalogue(GelFamily::Straw) {
            let (Some(on_lamp), Some(on_flash)) = (gel.under(&lamp), gel.under(&day)) else {
                assert!(gel.is_effect(), "{}", gel.name());
                continue;
            };
            if gel.is_effect() || on_flash.shift.abs().value() < 10.0 {
                continue;
            }
            let (a, b) = (on_lamp.shift.value(), on_flash.shift.value());
            assert!((a / b - 1.0).abs() < 0.12, "{} {a} {b}", gel.name());
        }
    }

    /// Deep red and blue take 2.5 to 4.5 stops (common practice).
    #[test]
    fn deep_colours_cost_what_they_cost() {
        let day = colour::flash_curve(Kelvin::new(5600.0).expect("in range")).expect("daylight");
        for name in ["red", "blue"] {
            let gel = Gel::named(name, GelFamily::Straw).expect("known");
            let loss = -gel.passes(&day).log2();
            assert!((2.5..=4.5).contains(&loss), "{name} {loss}");
        }
    }

    #[test]
    fn names_are_read_as_people_write_them() {
        for (written, name) in [
            ("half CTO", "1/2 CTO"),
            ("½ cto", "1/2 CTO"),
            ("CTO", "full CTO"),
            ("Full CTB", "full CTB"),
            ("quarter plus-green", "1/4 plus green"),
            ("full plus green", "plus green"),
            ("Red gel", "red"),
        ] {
            let gel = Gel::named(written, GelFamily::Straw);
            assert_eq!(gel.as_ref().map(Gel::name), Ok(name), "{written}");
        }
        assert!(
            Gel::named("3/4 CTO", GelFamily::Amber).is_err(),
            "only straw has it"
        );
        assert!(Gel::named("1/3 CTO", GelFamily::Straw).is_err());
    }
}
