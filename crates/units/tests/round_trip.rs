//! What is printed can be read again, and means the same.

use proptest::prelude::*;
use std::fmt::{Debug, Display};
use std::str::FromStr;
use units::{
    Degrees, Duv, Ev, FNumber, GuideBasis, GuideNumber, Illuminance, IntensityTime, Iso, Kelvin, Luminance,
    LuminousExposure, LuminousIntensity, Metres, Millimetres, Mired, MiredShift, PowerFraction, Ratio,
    Seconds, ShutterTime, Stops, UnitError, ZoomMm, parse_size,
};

fn check<T: Display + FromStr<Err = UnitError> + PartialEq + Debug>(quantity: T) {
    let printed = quantity.to_string();
    let read: T = printed
        .parse()
        .unwrap_or_else(|error| panic!("{printed}: {error}"));
    assert_eq!(read, quantity, "printed as {printed}");
}

#[test]
fn every_setting_of_a_camera_and_a_flash() {
    FNumber::series().for_each(check);
    ShutterTime::series().for_each(check);
    Iso::series().for_each(check);
    for thirds in 0..=30 {
        check(PowerFraction::from_thirds_below_full(thirds).expect("a power"));
    }
    for thirds in -30..=30 {
        check(Stops(f64::from(thirds) / 3.0));
    }
}

#[test]
fn settings_are_their_own_nearest_third() {
    FNumber::series().for_each(|f| assert_eq!(f.nearest_third(), f));
    ShutterTime::series().for_each(|t| assert_eq!(t.nearest_third(), t));
    Iso::series().for_each(|iso| assert_eq!(iso.nearest_third(), iso));
    for thirds in 0..=30 {
        let power = PowerFraction::from_thirds_below_full(thirds).expect("a power");
        assert_eq!(power.nearest_third(), power);
    }
}

/// Nominal numbers are rounded, but never by more than a tenth of a stop from the exact ladder of thirds.
fn check_ladder(nominal: impl Iterator<Item = f64>, anchor: f64) {
    let nominal: Vec<f64> = nominal.collect();
    let anchored = nominal
        .iter()
        .position(|value| *value == anchor)
        .expect("the anchor is in the series");
    for (k, value) in nominal.iter().enumerate() {
        let thirds = k as f64 - anchored as f64;
        let off = (value / anchor).log2() - thirds / 3.0;
        assert!(off.abs() < 0.1, "{value} is {off} stops off");
    }
}

/// The number that a camera shows for a shutter time, in seconds.
fn engraved(time: ShutterTime) -> f64 {
    let shown = time.to_string();
    let number = |text: &str| text.parse::<f64>().expect("a number");
    match shown.strip_prefix("1/") {
        Some(denominator) => 1.0 / number(denominator),
        None => number(shown.strip_suffix(" s").expect("a fraction or seconds")),
    }
}

#[test]
fn series_are_ladders_of_thirds() {
    check_ladder(ShutterTime::series().map(engraved), 1.0);
    check_ladder(Iso::series().map(Iso::value), 100.0);
    let times: Vec<_> = ShutterTime::series().collect();
    assert_eq!(times.len(), 55);
    for pair in times.windows(2) {
        assert!((pair[1].stops_longer_than(pair[0]).value() - 1.0 / 3.0).abs() < 1e-12);
    }
    let apertures: Vec<_> = FNumber::series().collect();
    assert_eq!(apertures.len(), 37);
    for pair in apertures.windows(2) {
        assert!((pair[1].stops_darker_than(pair[0]).value() - 1.0 / 3.0).abs() < 1e-12);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn lengths_and_angles(metres in 0.0..10_000.0f64, focal in 1.0..3000.0f64, angle in -360.0..360.0f64) {
        check(Metres::new(metres)?);
        check(Millimetres::new(focal)?);
        check(Degrees::new(angle)?);
    }

    #[test]
    fn sizes(sides in prop::collection::vec(0.001..100.0f64, 2..=3)) {
        let joined = sides.iter().map(f64::to_string).collect::<Vec<_>>().join(" x ");
        let read: Vec<f64> = parse_size(&format!("{joined} m"))?.iter().map(|side| side.value()).collect();
        prop_assert_eq!(&read, &sides);
        let each = sides.iter().map(|side| format!("{side} m")).collect::<Vec<_>>().join("×");
        let read: Vec<f64> = parse_size(&each)?.iter().map(|side| side.value()).collect();
        prop_assert_eq!(&read, &sides);
    }

    #[test]
    fn exposure(seconds in 1e-5..3600.0f64, iso in 3.0..6_000_000.0f64) {
        check(Iso::new(iso)?);
        check(Seconds::new(seconds)?);
    }

    #[test]
    fn shutter_times_between_the_thirds_are_kept_and_others_snap(seconds in 1e-5..3600.0f64, denominator in 1u32..50_000) {
        for value in [seconds, 1.0 / f64::from(denominator)] {
            let time = ShutterTime::new(value)?;
            let read: ShutterTime = time.to_string().parse()?;
            // 3 % from an engraved time, which is at most a tenth of a stop from the true one.
            prop_assert!(read == time || (read.value() / value).log2().abs() < 0.1 + 1.03f64.log2());
            // Once read, reading again changes nothing.
            check(read);
        }
    }

    #[test]
    fn apertures_between_the_thirds_are_kept_and_others_snap(value in 0.5..128.0f64) {
        let aperture = FNumber::new(value)?;
        let read: FNumber = aperture.to_string().parse()?;
        prop_assert!(read == aperture || (read.value() / value - 1.0).abs() < 0.085);
        // Once read, reading again changes nothing.
        check(read);
    }

    #[test]
    fn stops_and_values(number in -20.0..20.0f64) {
        check(Stops(number));
        check(Ev(number));
    }

    #[test]
    fn flash(metres in 0.5..300.0f64, zoom in 8.0..600.0f64, measured: bool) {
        let basis = if measured { GuideBasis::Measured } else { GuideBasis::Claimed };
        check(GuideNumber::new(metres, ZoomMm::new(zoom)?, basis)?);
        check(ZoomMm::new(zoom)?);
    }

    #[test]
    fn powers_between_the_thirds(stops in 0.0..10.0f64) {
        let power = PowerFraction::from_stops_below_full(stops)?;
        let read: PowerFraction = power.to_string().parse()?;
        // The part after the step is a difference of two doubles.
        prop_assert!((read.stops_below_full() - stops).abs() < 1e-14 * 16.0);
        let again = PowerFraction::from_fraction(power.fraction())?;
        prop_assert!((again.stops_below_full() - stops).abs() < 1e-12);
    }

    #[test]
    fn light(number in 0.0..1e9f64) {
        check(Illuminance(number));
        check(LuminousExposure(number));
        check(Luminance(number));
        check(LuminousIntensity(number));
        check(IntensityTime(number));
    }

    #[test]
    fn colour(kelvin in 1000.0..100_000.0f64, shift in -1000.0..1000.0f64, duv in -0.1..0.1f64, ratio in 1.0..1000.0f64) {
        check(Kelvin::new(kelvin)?);
        check(Mired(1e6 / kelvin));
        check(MiredShift(shift));
        check(Duv(duv));
        check(Ratio::new(ratio)?);
        let back = Mired::from(Kelvin::new(kelvin)?).kelvin()?;
        prop_assert!((back.value() / kelvin - 1.0).abs() < 1e-12);
    }

    #[test]
    fn no_text_makes_a_reader_panic(text in ".{0,24}") {
        let _ = (text.parse::<Metres>(), text.parse::<Stops>(), text.parse::<Ev>(), text.parse::<FNumber>());
        let _ = (text.parse::<ShutterTime>(), text.parse::<Iso>(), text.parse::<PowerFraction>());
        let _ = (text.parse::<GuideNumber>(), text.parse::<ZoomMm>(), text.parse::<Kelvin>(), text.parse::<Duv>());
        let _ = (text.parse::<MiredShift>(), text.parse::<Ratio>(), text.parse::<Degrees>(), parse_size(&text));
    }

    #[test]
    fn nor_does_a_text_of_the_right_letters(text in "[-+0-9./:x'\" fmtinsGNEVISOkK°×−(]{0,16}") {
        let _ = (text.parse::<Metres>(), text.parse::<Stops>(), text.parse::<Ev>(), text.parse::<FNumber>());
        let _ = (text.parse::<ShutterTime>(), text.parse::<Iso>(), text.parse::<PowerFraction>());
        let _ = (text.parse::<GuideNumber>(), text.parse::<ZoomMm>(), text.parse::<Kelvin>(), text.parse::<Duv>());
        let _ = (text.parse::<MiredShift>(), text.parse::<Ratio>(), text.parse::<Degrees>(), parse_size(&text));
    }
}
