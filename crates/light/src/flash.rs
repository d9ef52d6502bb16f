//! The flash as its owner knows it: guide numbers, zoom, power steps, colour, recycle.

use crate::{Beam, Gel, GelEffect, HeadDress, LightError, SoftFront};
use colour::{LightColour, SpectralCurve};
use units::{GuideBasis, GuideNumber, IntensityTime, Kelvin};

/// The one incident-light constant of this project, in lx s at ISO 100 after multiplying by the speed:
/// N² = E·t·S / C (ISO 2720:1974 allows 240 to 400 for a flat receptor; 250 is the common choice).
pub const INCIDENT_CONSTANT: f64 = 250.0;

/// Constant that turns a *measured* guide number into cd s: I·t = 250·GN²/S, the same as the meter's.
pub const GUIDE_CONSTANT_MEASURED: f64 = INCIDENT_CONSTANT;

/// Constant that turns a *claimed* guide number into cd s: I·t = 171·GN²/S.
///
/// Printed figures follow GN_ft = √(0.063·I·S) (Edgerton; from memory), which counts the light that an
/// ordinary room sends back; in metres the constant is 10.764/0.063 = 170.9, so that a printed figure
/// is read 0.55 stop weaker than a measured one.
pub const GUIDE_CONSTANT_CLAIMED: f64 = 10.763_910_4 / 0.063;

/// How far, in stops, what is written about a light may be from what it does (one standard deviation).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LightSpread {
    /// Spread of the guide number, in stops.
    pub guide_stops: f64,
}

/// A guide number at one zoom setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuidePoint {
    /// Zoom setting of the head, in millimetres of a 36 × 24 mm frame.
    pub zoom_mm: f64,
    /// Guide number in metres at ISO 100, full power.
    pub metres: f64,
}

/// One battery flash.
///
/// The total light is the same at every zoom, because the tube does not know where the head's lens
/// stands: zooming in only gathers it. Where the total is not given it is taken from the widest zoom,
/// see [`FlashUnit::new`].
#[derive(Clone, Debug)]
pub struct FlashUnit {
    name: String,
    guide: Vec<GuidePoint>,
    basis: GuideBasis,
    total_cd_s_sr: f64,
    bare: SpectralCurve,
    colour: LightColour,
    colour_temperature: Kelvin,
    gel: Option<Gel>,
    passes: f64,
    window_m: [f64; 2],
    least_power_stops: f64,
    recycle_full_s: f64,
}

/// Seconds to recycle after full power, on fresh cells (common practice: 2.5 to 3.5 s on rechargeable AA).
const TYPICAL_RECYCLE_S: f64 = 3.0;

/// Guide number against zoom relative to zoom 50 for a typical small battery flash (common practice).
const TYPICAL_ZOOM_CURVE: [(f64, f64); 6] = [
    (24.0, 24.0 / 36.0),
    (35.0, 30.0 / 36.0),
    (50.0, 1.0),
    (70.0, 42.0 / 36.0),
    (105.0, 50.0 / 36.0),
    (200.0, 58.0 / 36.0),
];

impl FlashUnit {
    /// A flash from its guide numbers.
    ///
    /// * `guide`: one or more guide numbers, all claimed or all measured; a single one is spread over the
    ///   zoom range by a typical curve (common practice).
    /// * `total`: total light in lumen seconds at full power; without it the widest guide number is
    ///   taken to fill 1.15 times the solid angle of its nominal frame (ours, from the soft edge of
    ///   typical heads).
    ///
    /// # Errors
    /// No guide number, two for one zoom, or one that falls as the head zooms in.
    pub fn new(
        name: &str,
        guide: &[GuideNumber],
        colour_temperature: Kelvin,
        total: Option<f64>,
    ) -> Result<Self, LightError> {
        let first = guide.first().ok_or(LightError::NoGuideNumber)?;
        let mut points: Vec<GuidePoint> = guide
            .iter()
            .map(|g| GuidePoint {
                zoom_mm: g.zoom.value(),
                metres: g.metres,
            })
            .collect();
        if let [only] = points[..] {
            points = spread_over_zoom(only);
        }
        points.sort_by(|a, b| a.zoom_mm.total_cmp(&b.zoom_mm));
        for pair in points.windows(2) {
            if pair[0].zoom_mm == pair[1].zoom_mm {
                return Err(LightError::RepeatedZoom {
                    zoom: pair[0].zoom_mm,
                });
            }
            if pair[1].metres < pair[0].metres {
                return Err(LightError::FallingGuideNumber {
                    wide: pair[0].metres,
                    wide_zoom: pair[0].zoom_mm,
                    long: pair[1].metres,
                    long_zoom: pair[1].zoom_mm,
                });
            }
        }
        let constant = guide_constant(first.basis);
        let widest = points[0];
        let bare = colour::flash_curve(colour_temperature)?;
        let total_cd_s_sr = total.unwrap_or_else(|| {
            1.15 * Beam::nominal_solid_angle(widest.zoom_mm) * constant * widest.metres.powi(2) / 100.0
        });
        Ok(FlashUnit {
            name: name.to_owned(),
            guide: points,
            basis: first.basis,
            total_cd_s_sr,
            colour: LightColour::from_curve(&bare)?,
            bare,
            colour_temperature,
            gel: None,
            passes: 1.0,
            window_m: [0.075, 0.045],
            least_power_stops: 7.0,
            recycle_full_s: TYPICAL_RECYCLE_S,
        })
    }

    /// A generic small flash, GN 20 m at zoom 35 (common practice, no source).
    pub fn small() -> Self {
        Self::generic("small", 20.0, 35.0)
    }

    /// A generic medium flash, GN 36 m at zoom 50 (common practice, no source).
    pub fn medium() -> Self {
        Self::generic("medium", 36.0, 50.0)
    }

    /// A generic large flash, GN 44 m at zoom 50 (common practice, no source).
    pub fn large() -> Self {
        Self::generic("large", 44.0, 50.0)
    }

    fn generic(name: &str, metres: f64, zoom: f64) -> Self {
        let guide = GuideNumber {
            metres,
            zoom: units::ZoomMm::new(zoom).expect("a generic zoom is in range"),
            basis: GuideBasis::Measured,
        };
        let kelvin = Kelvin::new(5600.0).expect("5600 K is in range");
        Self::new(name, &[guide], kelvin, None).expect("a single guide number makes a flash")
    }

    /// The name that the photographer gave it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether the guide numbers were claimed by a maker or measured by the owner.
    pub fn basis(&self) -> GuideBasis {
        self.basis
    }

    /// Colour of the light that leaves the head, through its gel if it wears one.
    pub fn colour(&self) -> &LightColour {
        &self.colour
    }

    /// Colour temperature of the bare flash.
    pub fn colour_temperature(&self) -> Kelvin {
        self.colour_temperature
    }

    /// The same flash with a gel over its window, or without one; whatever it wore before is taken off.
    ///
    /// A gel takes light from every direction alike, so the beam keeps its shape.
    ///
    /// ```
    /// use light::{FlashUnit, Gel, GelFamily, HeadDress};
    /// let half = Gel::named("1/2 CTO", GelFamily::Straw)?;
    /// let (bare, gelled) = (FlashUnit::medium(), FlashUnit::medium().with_gel(Some(half))?);
    /// let lost = bare.total_light() / gelled.total_light();
    /// assert!((lost.log2() - 0.5).abs() < 0.01);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// A gel that lets no light through.
    pub fn with_gel(mut self, gel: Option<Gel>) -> Result<Self, LightError> {
        let behind = match &gel {
            Some(gel) => gel.filter(&self.bare)?,
            None => self.bare.clone(),
        };
        self.colour = LightColour::from_curve(&behind)?;
        self.passes = behind.light_xyz().y / self.bare.light_xyz().y;
        self.gel = gel;
        Ok(self)
    }

    /// The gel that it wears.
    pub fn gel(&self) -> Option<&Gel> {
        self.gel.as_ref()
    }

    /// What the gel that it wears costs, in stops.
    pub fn gel_loss_stops(&self) -> f64 {
        // A bare head loses nothing, and not minus nothing.
        -self.passes.log2() + 0.0
    }

    /// What a gel would do to this flash; none for a colour too deep to have a temperature.
    pub fn behind(&self, gel: &Gel) -> Option<GelEffect> {
        gel.under(&self.bare)
    }

    /// Spectral power of the bare flash, with Y = 1.
    pub fn bare_curve(&self) -> &SpectralCurve {
        &self.bare
    }

    /// Width and height of the window that the light leaves through, in metres.
    pub fn window_m(&self) -> [f64; 2] {
        self.window_m
    }

    /// The least power, in stops below 1/1.
    pub fn least_power_stops(&self) -> f64 {
        self.least_power_stops
    }

    /// The same flash with another least power, in stops below 1/1.
    pub fn with_least_power(mut self, stops: f64) -> Self {
        self.least_power_stops = stops;
        self
    }

    /// The same flash that is ready again after this many seconds at full power.
    pub fn with_recycle(mut self, full_s: f64) -> Self {
        self.recycle_full_s = full_s;
        self
    }

    /// Seconds until it is ready again after a flash this many stops below full power: the charge that was
    /// used is put back at a steady rate.
    ///
    /// ```
    /// let flash = light::FlashUnit::medium().with_recycle(2.6);
    /// // A quarter of the charge takes a quarter of the time.
    /// assert!((flash.recycle_s(2.0) - 0.65).abs() < 1e-9);
    /// ```
    pub fn recycle_s(&self, stops_below_full: f64) -> f64 {
        self.recycle_full_s * (-stops_below_full.max(0.0)).exp2()
    }

    /// The zoom settings for which a guide number is known.
    pub fn zooms(&self) -> impl Iterator<Item = f64> + '_ {
        self.guide.iter().map(|point| point.zoom_mm)
    }

    /// Spread of the strength, one standard deviation.
    ///
    /// A measured figure repeats to about an eighth of a stop from burst to burst and meter to meter; a
    /// claimed one is 0.3 to 1.3 stops too hopeful (common practice), which leaves about 0.3 stop after
    /// the claimed constant has taken its half stop.
    pub fn spread(&self) -> LightSpread {
        LightSpread {
            guide_stops: if self.basis == GuideBasis::Claimed {
                0.3
            } else {
                0.12
            },
        }
    }

    /// Guide number of the bare head in metres at ISO 100 for a zoom, interpolated geometrically between the known ones.
    ///
    /// # Errors
    /// A zoom outside the range of the head.
    ///
    /// ```
    /// let gn = light::FlashUnit::medium().guide_number_m(50.0).unwrap();
    /// assert!((gn - 36.0).abs() < 1e-9);
    /// ```
    pub fn guide_number_m(&self, zoom_mm: f64) -> Result<f64, LightError> {
        let (first, last) = (self.guide[0], self.guide[self.guide.len() - 1]);
        if !(first.zoom_mm..=last.zoom_mm).contains(&zoom_mm) {
            return Err(LightError::ZoomOutOfRange {
                asked: zoom_mm,
                from: first.zoom_mm,
                to: last.zoom_mm,
            });
        }
        let upper = self.guide.iter().position(|p| p.zoom_mm >= zoom_mm).unwrap_or(0);
        if upper == 0 {
            return Ok(first.metres);
        }
        let (a, b) = (self.guide[upper - 1], self.guide[upper]);
        let share = (zoom_mm / a.zoom_mm).ln() / (b.zoom_mm / a.zoom_mm).ln();
        Ok(a.metres * (b.metres / a.metres).powf(share))
    }

    /// Total light at full power, in lumen seconds, behind its gel if it wears one.
    pub fn total_light(&self) -> f64 {
        self.total_cd_s_sr * self.passes
    }

    /// The beam of the head at a zoom setting, behind its gel if it wears one.
    ///
    /// # Errors
    /// A zoom outside the range, or a total light that no soft edge can carry.
    pub fn beam(&self, zoom_mm: f64, dress: HeadDress) -> Result<Beam, LightError> {
        if let Some(front) = dress.soft_front() {
            return self.through(front, dress);
        }
        let guide = self.guide_number_m(zoom_mm)?;
        let axis = IntensityTime::new(self.passes * guide_constant(self.basis) * guide * guide / 100.0)
            .expect("a guide number within limits gives a finite intensity");
        Beam::from_guide(axis, guide, zoom_mm, self.total_light(), dress)
    }
}

/// Part of the flash's light that a large white front lets through (ours: the cloth keeps and returns the rest).
const THROUGH_SOFT_FRONT: f64 = 0.75;
/// The zoom to which the loss of a large front refers (common practice).
const SOFT_FRONT_ZOOM_MM: f64 = 35.0;

impl FlashUnit {
    /// The beam through a large front and the gel behind it, whatever the zoom: the front's stated loss against
    /// the head without it at zoom 35.
    ///
    /// ```
    /// use light::{FlashUnit, HeadDress, SoftFront};
    /// let flash = FlashUnit::small();
    /// let umbrella = HeadDress::Umbrella(SoftFront::new(1.7, 1.0));
    /// let axis = |dress| flash.beam(35.0, dress).unwrap().axis_intensity_time().value();
    /// assert!(((axis(HeadDress::Bare) / axis(umbrella)).log2() - 1.7).abs() < 1e-9);
    /// ```
    fn through(&self, front: SoftFront, dress: HeadDress) -> Result<Beam, LightError> {
        let (widest, longest) = self
            .zooms()
            .fold((f64::MAX, f64::MIN), |(a, b), zoom| (a.min(zoom), b.max(zoom)));
        let guide = self.guide_number_m(SOFT_FRONT_ZOOM_MM.clamp(widest, longest))?;
        let behind = self.passes * guide_constant(self.basis) * guide * guide / 100.0;
        let axis = IntensityTime::new(behind * (-front.loss_stops()).exp2())
            .expect("a guide number within limits gives a finite intensity");
        Ok(Beam::soft_front(
            axis,
            THROUGH_SOFT_FRONT * self.total_light(),
            dress,
        ))
    }

    /// Width and height in metres of what the light leaves by: the head's window, or the square that is as large as
    /// the front of an umbrella or softbox.
    pub fn window_of(&self, dress: HeadDress) -> [f64; 2] {
        match dress {
            HeadDress::Umbrella(front) => [front.width_m() * std::f64::consts::PI.sqrt() / 2.0; 2],
            HeadDress::Softbox(front) => [front.width_m(); 2],
            _ => self.window_m,
        }
    }
}

/// The constant that decodes a guide number of this basis into cd s.
fn guide_constant(basis: GuideBasis) -> f64 {
    match basis {
        GuideBasis::Claimed => GUIDE_CONSTANT_CLAIMED,
        GuideBasis::Measured => GUIDE_CONSTANT_MEASURED,
    }
}

/// One guide number spread over the typical zoom range, scaled to go through the known point.
fn spread_over_zoom(only: GuidePoint) -> Vec<GuidePoint> {
    let curve = |zoom: f64| {
        let upper = TYPICAL_ZOOM_CURVE
            .iter()
            .position(|p| p.0 >= zoom)
            .unwrap_or(TYPICAL_ZOOM_CURVE.len() - 1);
        if upper == 0 {
            return TYPICAL_ZOOM_CURVE[0].1;
        }
        let (a, b) = (TYPICAL_ZOOM_CURVE[upper - 1], TYPICAL_ZOOM_CURVE[upper]);
        let share = ((zoom / a.0).ln() / (b.0 / a.0).ln()).clamp(0.0, 1.0);
        a.1 * (b.1 / a.1).powf(share)
    };
    let scale = only.metres / curve(only.zoom_mm);
    let mut points: Vec<GuidePoint> = TYPICAL_ZOOM_CURVE
        .iter()
        .map(|&(zoom_mm, relative)| GuidePoint {
            zoom_mm,
            metres: relative * scale,
        })
        .filter(|p| (p.zoom_mm - only.zoom_mm).abs() > 0.5)
        .collect();
    points.push(only);
    points
}
