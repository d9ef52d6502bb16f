//! Spellings that are understood, and spellings that are refused with help.

use std::fmt::{Debug, Display};
use std::str::FromStr;
use units::{
    Degrees, Duv, Ev, FNumber, GuideNumber, Illuminance, Iso, Kelvin, Metres, Millimetres, Mired, MiredShift,
    PowerFraction, Ratio, Seconds, ShutterTime, Stops, UnitError, ZoomMm, parse_size,
};

/// Reads the text and prints it the program's own way.
fn check<T: FromStr<Err = UnitError> + Display>(text: &str, printed: &str) {
    let quantity: T = text.parse().unwrap_or_else(|error| panic!("{text}: {error}"));
    assert_eq!(quantity.to_string(), printed, "{text}");
}

/// The text is refused; the message repeats it or its number, says the reason, and shows an example.
fn refused<T: FromStr<Err = UnitError> + Debug>(text: &str, reason: &str) {
    let message = text.parse::<T>().expect_err(text).to_string();
    assert!(message.contains(reason), "{text}: {message}");
    assert!(
        message.contains("Write it like ") || message.contains("for example "),
        "{text}: {message}"
    );
}

#[test]
fn lengths() {
    for (text, printed) in [
        ("2.6 m", "2.60 m"),
        ("2.6m", "2.60 m"),
        (" 260 cm ", "2.60 m"),
        ("26 mm", "0.026 m"),
        ("1.2 km", "1200.00 m"),
        ("2.605 metres", "2.605 m"),
        ("8 ft", "2.4384 m"),
        ("8'", "2.4384 m"),
        ("0 m", "0.00 m"),
    ] {
        check::<Metres>(text, printed);
    }
    for text in [
        "8'6\"",
        "8' 6\"",
        "8 ft 6 in",
        "8ft6in",
        "8 feet 6 inches",
        "8.5 ft",
        "8′6″",
        "8’6”",
        "102 in",
    ] {
        let length: Metres = text.parse().unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!((length.value() - 2.5908).abs() < 1e-12, "{text}: {length}");
        assert_eq!(length.to_feet_text(), "8 ft 6 in");
    }
    for (text, reason) in [
        ("2.6", "the unit is missing"),
        ("", "nothing is written"),
        ("m", "does not begin with a number"),
        ("2,6 m", "decimals are written with a point"),
        ("1,200 m", "thousands without a mark"),
        ("-2 m", "between 0 m and 10000 m"),
        ("20000 m", "between 0 m and 10000 m"),
        ("2.6 n", "\"n\" is not a unit of length"),
        ("2.6 yd", "\"yd\" is not a unit of length"),
        ("2..6 m", "\"2..6\" is not a number"),
        ("8 ft 14 in", "twelve inches or more"),
        ("8 ft 6", "needs \"in\" after it"),
        ("nan m", "does not begin with a number"),
        ("inf m", "does not begin with a number"),
        ("1e3 m", "\"e3 m\" is not a unit of length"),
    ] {
        refused::<Metres>(text, reason);
    }
    check::<Millimetres>("85mm", "85 mm");
    refused::<Millimetres>("85", "the unit is missing");
    refused::<Millimetres>("8.5 cm", "\"cm\" is not a unit of it");
    refused::<Millimetres>("0.5 mm", "between 1 mm and 3000 mm");
    check::<Degrees>("-30 degrees", "-30°");
    refused::<Degrees>("400°", "between -360° and 360°");
    refused::<Degrees>("30", "the unit is missing");
}

#[test]
fn feet_are_rounded_as_a_tape_is_read() {
    for (metres, text) in [
        (0.0, "0 in"),
        (0.25, "10 in"),
        (0.9, "2 ft 11.5 in"),
        (3.0, "9 ft 10 in"),
        (3.657, "12 ft"),
    ] {
        assert_eq!(Metres::new(metres).expect("a length").to_feet_text(), text);
    }
}

#[test]
fn sizes() {
    let check = |text: &str, expected: &[f64]| {
        let sides = parse_size(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert_eq!(sides.len(), expected.len(), "{text}");
        for (side, expected) in sides.iter().zip(expected) {
            assert!((side.value() - expected).abs() < 1e-12, "{text}: {side}");
        }
    };
    check("5.5 x 4.4 x 2.6 m", &[5.5, 4.4, 2.6]);
    check("5.5x4.4x2.6m", &[5.5, 4.4, 2.6]);
    check("550 × 440 cm", &[5.5, 4.4]);
    check("1 m X 50 cm", &[1.0, 0.5]);
    check("2 x 2 m", &[2.0, 2.0]);
    check("18 x 14 ft", &[5.4864, 4.2672]);
    check("18 ft x 14 ft x 8 ft 6 in", &[5.4864, 4.2672, 2.5908]);
    check("18' x 14' x 8'6\"", &[5.4864, 4.2672, 2.5908]);
    for (text, reason) in [
        ("5.5 m", "two or three numbers"),
        ("1 x 2 x 3 x 4 m", "not 4"),
        ("5.5 x 4.4 x 2.6", "the unit is missing after the last number"),
        ("5.5 m x 4.4", "the unit is missing after the last number"),
        ("5.5 m x 4.4 x 2.6 m", "a unit after every number"),
        ("5.5 x x 2.6 m", "a number is missing beside an x"),
        ("5.5 by 4.4 m", "two or three numbers"),
        ("5,5 x 4,4 m", "decimals are written with a point"),
        ("0 x 4 m", "between 0.001 m and 10000 m"),
        ("-5 x 4 m", "between 0.001 m and 10000 m"),
        (
            "18 x 14 x 8 ft 6 in",
            "feet with inches need the unit after every number",
        ),
        ("wide x high m", "does not begin with a number"),
    ] {
        let message = parse_size(text).expect_err(text).to_string();
        assert!(
            message.contains(reason) && message.contains("5.5 x 4.4 x 2.6 m"),
            "{text}: {message}"
        );
    }
}

#[test]
fn camera_settings() {
    for (text, printed) in [
        ("f/5.6", "f/5.6"),
        ("F/5.6", "f/5.6"),
        ("f/ 8", "f/8"),
        ("f/5.657", "f/5.6"),
        ("f/4.7", "f/4.7"),
        ("f/1.2", "f/1.2"),
    ] {
        check::<FNumber>(text, printed);
    }
    for (text, reason) in [
        ("5.6", "must begin with f/"),
        ("f5.6", "must begin with f/"),
        ("f/", "nothing is written"),
        ("f/0", "between 0.5 and 128"),
        ("f/-4", "between 0.5 and 128"),
        ("f/5,6", "decimals are written with a point"),
        ("f/4 wide", "\"wide\" is one thing too many"),
    ] {
        refused::<FNumber>(text, reason);
    }
    for (text, printed) in [
        ("1/160", "1/160"),
        ("1/160 s", "1/160"),
        ("0.00625 s", "1/160"),
        ("2 s", "2 s"),
        ("0.5 s", "0.5 s"),
        ("1/2", "0.5 s"),
        ("0.3 s", "0.3 s"),
        ("1/30", "1/30"),
        ("1/32", "1/30"),
        ("1/180", "1/180"),
        ("30 s", "30 s"),
        ("60 s", "60 s"),
        ("2.5 seconds", "2.5 s"),
    ] {
        check::<ShutterTime>(text, printed);
    }
    for (text, reason) in [
        ("160", "it could be 1/160 or 160 s"),
        ("1/0", "divided by zero"),
        ("-1/160", "between 0.00001 s and 3600 s"),
        ("1/160 m", "\"m\" is one thing too many"),
        ("2 min", "\"min\" is not seconds"),
        ("1/999999", "between 0.00001 s and 3600 s"),
        ("fast", "does not begin with a number"),
    ] {
        refused::<ShutterTime>(text, reason);
    }
    check::<Seconds>("2.6 s", "2.6 s");
    check::<Seconds>("30 seconds", "30 s");
    for (text, reason) in [
        ("2.6", "the unit is missing"),
        ("2,6 s", "decimals are written with a point"),
        ("2 min", "\"min\" is not a unit of it"),
        ("-1 s", "between 0 s and 3600 s"),
        ("soon", "does not begin with a number"),
    ] {
        refused::<Seconds>(text, reason);
    }
    check::<Iso>("iso 400", "ISO 400");
    check::<Iso>("ISO400", "ISO 400");
    refused::<Iso>("400", "must begin with ISO");
    refused::<Iso>("ISO 0", "between 0.001 and 6553600");
    refused::<Iso>("ISO 400 film", "\"film\" is one thing too many");
    refused::<Iso>("ISO auto", "does not begin with a number");
}

#[test]
fn marked_apertures_stand_for_their_true_values() {
    for (text, exponent) in [
        ("f/1.4", 0.5),
        ("f/2.8", 1.5),
        ("f/5.6", 2.5),
        ("f/11", 3.5),
        ("f/22", 4.5),
        ("f/1.1", 1.0 / 6.0),
    ] {
        let aperture: FNumber = text.parse().expect(text);
        assert!((aperture.value() - 2f64.powf(exponent)).abs() < 1e-12, "{text}");
    }
    assert_eq!("f/4.7".parse::<FNumber>().expect("an aperture").value(), 4.7);
}

#[test]
fn powers() {
    for (stops, text) in [
        (0.0, "1/1"),
        (2.0, "1/4"),
        (5.0 / 3.0, "1/4 +0.3"),
        (7.0 / 3.0, "1/8 +0.7"),
        (8.0 / 3.0, "1/8 +0.3"),
        (7.0, "1/128"),
    ] {
        let power = PowerFraction::from_stops_below_full(stops).expect(text);
        assert_eq!(power.to_string(), text);
        assert_eq!(text.parse::<PowerFraction>().expect(text), power);
    }
    for (text, printed) in [
        ("1/4 -0.3", "1/8 +0.7"),
        ("1/4 -0.7", "1/8 +0.3"),
        ("1/4+0.3", "1/4 +0.3"),
        ("1/4 + 0.33", "1/4 +0.3"),
        ("1/8 +0.67", "1/8 +0.7"),
        ("1/4 -1.0", "1/8"),
        ("1/4 +0.3 stop", "1/4 +0.3"),
        ("1/1 -0.3", "1/2 +0.7"),
        ("1/4 +0.5", "1/4 +0.5"),
        ("-0/1", ""),
    ] {
        if printed.is_empty() {
            refused::<PowerFraction>(text, "a power begins with 1/");
        } else {
            check::<PowerFraction>(text, printed);
        }
    }
    for (text, reason) in [
        ("1/3", "1/3 is not a step of a flash"),
        ("3/4", "a power begins with 1/"),
        ("1/0", "1/0 is not a step of a flash"),
        ("1/-4", "is not a step of a flash"),
        ("1/1 +0.3", "no flash gives more than full power"),
        ("1/4 0.3", "needs + or - before it"),
        ("1/4 +1.3", "at most one stop"),
        ("1/4 +0.3 EV more", "\"EV more\" is one thing too many"),
        ("25%", "a power begins with 1/"),
        ("full", "does not begin with a number"),
        ("1/2048", "between 0 stops and 10 stops"),
    ] {
        refused::<PowerFraction>(text, reason);
    }
    assert!(PowerFraction::from_fraction(0.0).is_err());
    assert!(PowerFraction::from_fraction(-1.0).is_err());
    assert!(PowerFraction::from_fraction(1.5).is_err());
}

#[test]
fn stops_and_exposure_values() {
    for (text, stops) in [
        ("-1.3", -4.0 / 3.0),
        ("+1 stop", 1.0),
        ("2/3 stop", 2.0 / 3.0),
        ("-2/3", -2.0 / 3.0),
        ("0.7", 2.0 / 3.0),
        ("1.67 stops", 5.0 / 3.0),
        ("1.5", 1.5),
        ("\u{2212}2 EV", -2.0),
        ("0", 0.0),
        ("1.6", 1.6),
        ("1.77", 1.77),
        ("0.3", 1.0 / 3.0),
    ] {
        assert_eq!(text.parse::<Stops>().expect(text), Stops(stops), "{text}");
    }
    for (stops, text) in [
        (1.0, "+1 stop"),
        (-4.0 / 3.0, "-1.3 stops"),
        (0.0, "0 stops"),
        (0.25, "+0.25 stop"),
        (2.0, "+2 stops"),
    ] {
        assert_eq!(Stops(stops).to_string(), text);
    }
    assert_eq!(format!("{:.1}", Stops(-0.04)), "0.0 stop");
    assert_eq!(format!("{:.1}", Stops(2.46)), "+2.5 stops");
    refused::<Stops>("one stop", "does not begin with a number");
    refused::<Stops>("1 step", "\"step\" is not a unit of it");
    refused::<Stops>("1/0 stop", "divided by zero");
    refused::<Stops>("100 stops", "between -60 stops and 60 stops");
    check::<Ev>("EV 8", "EV 8");
    check::<Ev>("9.3 EV", "EV 9.3");
    check::<Ev>("ev -2", "EV -2");
    refused::<Ev>("8", "the letters EV are missing");
    refused::<Ev>("EV bright", "does not begin with a number");
    refused::<Ev>("EV 8 lx", "\"lx\" is one thing too many");
}

#[test]
fn guide_numbers_zooms_and_ratios() {
    check::<GuideNumber>("GN 36 m at zoom 50 (measured)", "GN 36 m at zoom 50 (measured)");
    check::<GuideNumber>("gn 36m at zoom 50 mm ( claimed )", "GN 36 m at zoom 50 (claimed)");
    for (text, reason) in [
        ("36", "must begin with GN"),
        ("GN 36", "the zoom it holds for is missing"),
        ("GN 36 at zoom 50 (claimed)", "metres or feet?"),
        ("GN 36 yd at zoom 50 (claimed)", "\"yd\" is neither m nor ft"),
        ("GN 36 m at zoom 50", "say (claimed) or (measured)"),
        (
            "GN 36 m at zoom 50 (guessed)",
            "\"guessed\" is neither claimed nor measured",
        ),
        ("GN 36 m at 50 (claimed)", "it must begin with zoom"),
        ("GN 3600 m at zoom 50 (claimed)", "between 0.5 m and 300 m"),
    ] {
        refused::<GuideNumber>(text, reason);
    }
    refused::<ZoomMm>("50 mm", "must begin with zoom");
    refused::<ZoomMm>("zoom 5", "between 8 mm and 600 mm");
    check::<Ratio>("3:1", "3:1");
    check::<Ratio>("5 : 2", "2.5:1");
    check::<Ratio>("4 to 1", "4:1");
    refused::<Ratio>("3", "a colon between them");
    refused::<Ratio>("1:3", "the larger number comes first");
    refused::<Ratio>("3:0", "more than nothing");
    refused::<Ratio>("3:1:1", "\":1\" is one thing too many");
}

#[test]
fn light_and_colour() {
    check::<Illuminance>("500 lux", "500 lx");
    refused::<Illuminance>("500", "the unit is missing");
    refused::<Illuminance>("500 lx s", "\"lx s\" is not a unit of it");
    refused::<Illuminance>("-5 lx", "between 0 lx and");
    check::<Kelvin>("5000K", "5000 K");
    check::<Kelvin>("5600 kelvin", "5600 K");
    refused::<Kelvin>("5000", "the unit is missing");
    refused::<Kelvin>("56 K", "between 1000 K and 100000 K");
    refused::<Kelvin>("5000 °C", "is not a unit of it");
    refused::<Kelvin>("warm", "does not begin with a number");
    check::<Mired>("200 mired", "200 mired");
    check::<MiredShift>("+81 mired", "+81 mired");
    check::<MiredShift>("\u{2212}131 mired", "-131 mired");
    refused::<MiredShift>("81 mired", "a shift needs its sign");
    refused::<MiredShift>("+81", "the unit is missing");
    refused::<MiredShift>("+81 K", "\"K\" is not a unit of it");
    check::<Duv>("+0.010", "Duv +0.010");
    check::<Duv>("duv -0.0031", "Duv -0.0031");
    refused::<Duv>("Duv +10", "between -0.1 and 0.1");
    refused::<Duv>("Duv green", "does not begin with a number");
}

#[test]
fn numbers_that_are_none_never_enter() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(Metres::new(bad).is_err());
        assert!(FNumber::new(bad).is_err());
        assert!(ShutterTime::new(bad).is_err());
        assert!(Iso::new(bad).is_err());
        assert!(Kelvin::new(bad).is_err());
        assert!(Illuminance::new(bad).is_err());
        assert!(PowerFraction::from_stops_below_full(bad).is_err());
        assert!(PowerFraction::from_fraction(bad).is_err());
        assert!(Mired(bad).kelvin().is_err());
    }
    assert!(Mired(0.0).kelvin().is_err());
    assert!(Mired(-200.0).kelvin().is_err());
}
