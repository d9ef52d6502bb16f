//! Gels: sheets of dyed film in front of a light, as transmittance over wavelength.
//!
//! The trade describes a gel by a shift in mired and a loss in stops, and one fraction means different
//! things in different families. Here every gel is a curve of ours whose shift and loss, worked out through
//! the observer, are the stated ones; a measured curve may stand in for it. Gels on top of one another
//! multiply, curve by curve.
//!
//! ```
//! use light::{Gel, GelFamily};
//! use units::Kelvin;
//! let flash = colour::flash_curve(Kelvin::new(5600.0)?)?;
//! let half = Gel::named("1/2 CTO", GelFamily::Straw)?;
//! let effect = half.under(&flash).expect("a pale gel leaves a white light");
//! assert!((effect.shift.value() - 81.0).abs() < 0.5 && (effect.loss.value() - 0.5).abs() < 0.01);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod catalogue;
mod measured;
mod sheet;

pub use catalogue::GelFamily;
pub use measured::{GelCurveError, GelCurveFault};
pub use sheet::{Gel, GelEffect, GelError};

#[cfg(test)]
mod tests {
    use super::*;
    use colour::SpectralCurve;
    use units::Kelvin;

    fn flash() -> SpectralCurve {
        colour::flash_curve(Kelvin::new(5600.0).expect("in range")).expect("daylight")
    }

    /// Two halves are not one full: what counts is the product of the curves.
    #[test]
    fn a_stack_multiplies() {
        let half = Gel::named("1/2 CTO", GelFamily::Straw).expect("known");
        let quarter = Gel::named("1/4 plus green", GelFamily::Straw).expect("known");
        let both = half.with(&quarter);
        for nm in [400.0, 455.0, 500.0, 555.0, 610.0, 700.0] {
            let product = half.transmittance().at(nm) * quarter.transmittance().at(nm);
            assert!((both.transmittance().at(nm) - product).abs() < 1e-12);
        }
        assert_eq!(both.name(), "1/2 CTO + 1/4 plus green");
        let other_way = quarter.with(&half);
        assert_eq!(both.transmittance(), other_way.transmittance());
    }

    /// Mired add nearly, because a filter shifts every source by nearly as much.
    #[test]
    fn shifts_of_warm_gels_add() {
        let [half, quarter] =
            ["1/2 CTO", "1/4 CTO"].map(|name| Gel::named(name, GelFamily::Straw).expect("known"));
        let shift = half.with(&quarter).under(&flash()).expect("white").shift.value();
        assert!((shift - (81.0 + 42.0)).abs() < 5.0, "{shift}");
    }

    #[test]
    fn no_gel_makes_light() {
        let curve = SpectralCurve::new(vec![400.0, 700.0], vec![0.5, 1.2]).expect("a curve");
        assert_eq!(
            Gel::from_curve("bright", curve),
            Err(GelError::NotATransmittance(1.2))
        );
    }

    /// Half warm gel of the straw family on a 5600 K flash: 1e6 / (1e6/5600 + 81) = 3852 K (common practice).
    #[test]
    fn a_half_warm_gel_makes_evening_light_of_a_flash() {
        let half = Gel::named("half CTO", GelFamily::Straw).expect("known");
        let effect = half.under(&flash()).expect("white");
        assert!((effect.kelvin.value() - 3852.0).abs() < 150.0, "{effect:?}");
    }
}
