//! Every case of `checks/dof.json` but the scales of cameras: thin-lens geometry and diffraction.

use crate::cases::{Case, cases, groups};
use camera::{
    CIRCLE_OF_CONFUSION_MM, Focus, Frame, airy_disc_um, angle_of_view_deg, aperture_for_depth,
    distance_for_field, hyperfocal_m,
};
use units::{FNumber, Metres, Millimetres};

const FILE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/dof.json"));

fn each(group: &str, check: impl Fn(&Case)) {
    cases(FILE, group).iter().for_each(check);
}

fn focal(case: &Case) -> Millimetres {
    Millimetres::new(case.number("focal_mm")).expect("a focal length")
}

fn aperture(case: &Case) -> FNumber {
    FNumber::new(case.number("f_number")).expect("an f-number")
}

fn focus(case: &Case, aperture: FNumber) -> Focus {
    Focus {
        focal: focal(case),
        aperture,
        distance: Metres::new(case.number("focus_distance_m")).expect("a distance"),
    }
}

/// What cameras engrave is compared where it is read: `crates/units/tests/check_data.rs`.
const ENGRAVED: [&str; 2] = ["f_number_scale", "shutter_scale"];

#[test]
fn no_group_is_forgotten() {
    let (here, of_units) = (
        include_str!("depth.rs"),
        include_str!("../../../units/tests/check_data.rs"),
    );
    for group in groups(FILE) {
        let (tested, call) = if ENGRAVED.contains(&group.as_str()) {
            (of_units, format!("each(\"dof\", \"{group}\""))
        } else {
            (here, format!("each(\"{group}\""))
        };
        assert!(tested.contains(&call), "{group}");
    }
}

#[test]
fn field_of_view() {
    each("field_of_view", |case| {
        let frame = Frame {
            width_mm: case.number("sensor_width_mm"),
            height_mm: case.number("sensor_height_mm"),
        };
        for (key, side) in [
            ("hfov_deg", frame.width_mm),
            ("vfov_deg", frame.height_mm),
            ("dfov_deg", frame.diagonal_mm()),
        ] {
            case.check(key, angle_of_view_deg(side, focal(case)));
        }
        case.check("crop_factor_diagonal", frame.crop_factor());
    });
}

#[test]
fn diffraction() {
    each("diffraction", |case| {
        let disc = airy_disc_um(
            aperture(case),
            case.number("wavelength_nm"),
            case.number("magnification"),
        );
        case.check("airy_disc_diameter_um", disc);
    });
}

#[test]
fn depth_of_field() {
    each("depth_of_field", |case| {
        let circle = case.number("coc_mm");
        let limits = focus(case, aperture(case)).limits(circle);
        case.check("hyperfocal_m", hyperfocal_m(focal(case), aperture(case), circle));
        case.check("near_m", limits.near_m);
        if case.is_null("far_m") {
            assert_eq!(limits.far_m, f64::INFINITY);
        } else {
            case.check("far_m", limits.far_m);
            case.check("depth_m", limits.depth_m());
        }
    });
}

#[test]
fn at_the_limits_the_disc_is_the_circle_of_confusion() {
    each("depth_of_field", |case| {
        let circle = case.number("coc_mm");
        let focus = focus(case, aperture(case));
        let limits = focus.limits(circle);
        assert!((focus.blur_disc_mm(limits.near_m) / circle - 1.0).abs() < 1e-9);
        if limits.far_m.is_finite() {
            assert!((focus.blur_disc_mm(limits.far_m) / circle - 1.0).abs() < 1e-9);
        }
    });
}

#[test]
fn hyperfocal() {
    each("hyperfocal", |case| {
        let distance = hyperfocal_m(focal(case), aperture(case), case.number("coc_mm"));
        case.check("hyperfocal_m", distance);
        case.check("hyperfocal_approx_without_f_m", distance - focal(case).metres());
        let focus = Focus {
            focal: focal(case),
            aperture: aperture(case),
            distance: Metres::new(distance).expect("a distance"),
        };
        case.check(
            "near_limit_at_hyperfocal_m",
            focus.limits(case.number("coc_mm")).near_m,
        );
    });
}

#[test]
fn blur_of_the_background() {
    each("background_blur", |case| {
        let focus = focus(case, aperture(case));
        case.check(
            "blur_disc_mm",
            focus.blur_disc_mm(case.number("point_distance_m")),
        );
        case.check("blur_disc_at_infinity_mm", focus.blur_disc_mm(f64::INFINITY));
    });
}

#[test]
fn framing() {
    let any = FNumber::new(8.0).expect("f/8");
    each("framing", |case| {
        let focus = focus(case, any);
        case.check("magnification", focus.magnification());
        case.check("field_size_m", focus.field_m(case.number("sensor_side_mm")));
    });
    each("distance_for_field", |case| {
        let field = Metres::new(case.number("field_needed_m")).expect("a length");
        let distance = distance_for_field(field, case.number("sensor_side_mm"), focal(case));
        case.check("focus_distance_m", distance);
    });
    each("bellows", |case| {
        let focus = focus(case, any);
        case.check("magnification", focus.magnification());
        case.check(
            "effective_f_number_factor",
            (focus.extension_loss().value() / 2.0).exp2(),
        );
        case.check("exposure_loss_ev", focus.extension_loss().value());
    });
}

#[test]
fn an_aperture_for_a_depth_gives_that_depth() {
    let check = |focal_mm: f64, distance_m: f64, depth_m: f64| {
        let focal = Millimetres::new(focal_mm).expect("a focal length");
        let distance = Metres::new(distance_m).expect("a distance");
        let depth = Metres::new(depth_m).expect("a depth");
        let aperture = aperture_for_depth(focal, distance, depth).expect("an aperture");
        let found = Focus {
            focal,
            aperture,
            distance,
        }
        .limits(CIRCLE_OF_CONFUSION_MM)
        .depth_m();
        assert!(
            (found / depth_m - 1.0).abs() < 1e-9,
            "{focal_mm} mm at {distance_m} m: {found} m"
        );
    };
    check(85.0, 2.0, 0.15);
    check(50.0, 3.5, 1.8);
    check(35.0, 4.0, 6.0);
    // A depth that no lens has, and a lens pressed against the subject.
    let mm = |value| Millimetres::new(value).expect("a focal length");
    let m = |value| Metres::new(value).expect("a length");
    assert!(aperture_for_depth(mm(135.0), m(1.0), m(5.0)).is_err());
    assert!(aperture_for_depth(mm(135.0), m(0.1), m(0.1)).is_err());
    assert!(aperture_for_depth(mm(135.0), m(2.0), m(0.0)).is_err());
}
