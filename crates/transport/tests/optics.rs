//! Reflection at surfaces (checks/optics.json) within the tolerance that each case states.

mod harness;

use colour::SpectralCurve;
use glam::Vec3;
use harness::*;
use light::Gel;
use std::f64::consts::{FRAC_PI_2, PI};
use transport::{
    coat_brdf, directional_albedo, fresnel_conductor_sp, fresnel_dielectric, fresnel_dielectric_sp,
    ggx_distribution, ggx_lambda,
};
use units::Stops;

/// Groups of the file that nothing in the project computes yet, and why.
const NOT_YET: &[(&str, &str)] = &[
    (
        "beer_lambert",
        "nothing absorbs along a path: air is clear and no filter is thick",
    ),
    (
        "two_layers_with_interreflection",
        "layers of gel pass light once: what goes to and fro between them is left out",
    ),
];

/// An index so high that a dielectric reflects all that meets it: 4/n is below single precision.
const MIRROR: f32 = 1e12;

fn close(case: &Case, what: &str, value: f64, expected: f64) {
    let tolerance = case.number("tol_abs");
    assert!(
        (value - expected).abs() <= tolerance,
        "{}: {what} is {value}, expected {expected} within {tolerance}",
        case.id()
    );
}

fn direction(polar_deg: f64) -> Vec3 {
    let (sin, cos) = polar_deg.to_radians().sin_cos();
    Vec3::new(sin as f32, 0.0, cos as f32)
}

fn polarisations(case: &Case, [s, p]: [f64; 2]) {
    close(case, "across the plane", s, case.number("R_s"));
    close(case, "along the plane", p, case.number("R_p"));
    close(case, "unpolarised", 0.5 * (s + p), case.number("R_unpolarised"));
}

fn cosine(case: &Case) -> f64 {
    case.number("angle_deg").to_radians().cos()
}

fn dielectric(case: &Case) {
    let index = case.number("relative_index");
    polarisations(case, fresnel_dielectric_sp(index, cosine(case)));
    let single = fresnel_dielectric(index as f32, cosine(case) as f32);
    close(
        case,
        "in single precision",
        single.into(),
        case.number("R_unpolarised"),
    );
}

/// Brewster's angle is where the p part has its least, the critical angle where all is reflected from.
fn landmarks(case: &Case) {
    let index = case.number("relative_index");
    let [s, _] = fresnel_dielectric_sp(index, 1.0);
    case.within("square on", s, case.number("R_normal"));
    let p = |angle: f64| fresnel_dielectric_sp(index, angle.cos())[1];
    let (mut low, mut high) = (0.2, 1.5);
    for _ in 0..200 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if p(a) < p(b) { high = b } else { low = a }
    }
    case.within("Brewster's angle", low.to_degrees(), case.number("brewster_deg"));
    let (mut low, mut high) = (0.0, FRAC_PI_2);
    for _ in 0..60 {
        let middle: f64 = 0.5 * (low + high);
        let all = fresnel_dielectric_sp(1.0 / index, middle.cos()) == [1.0, 1.0];
        if all { high = middle } else { low = middle }
    }
    case.within(
        "the critical angle",
        low.to_degrees(),
        case.number("critical_from_inside_deg"),
    );
}

/// Share of diffuse light that a smooth boundary reflects: ∫ R 2 sin θ cos θ dθ.
fn diffuse(case: &Case) {
    let index = case.number("relative_index");
    let part = |index: f64, low: f64, high: f64| {
        integrate(64, low, high, |t| {
            let [s, p] = fresnel_dielectric_sp(index, t.cos());
            (s + p) * t.sin() * t.cos()
        })
    };
    close(
        case,
        "from outside",
        part(index, 0.0, FRAC_PI_2),
        case.number("hemispherical_R_external"),
    );
    // From inside, all is reflected beyond the critical angle; just before it the curve is steep.
    let critical = (1.0 / index).asin();
    let steep = critical - 0.01;
    let inside = part(1.0 / index, 0.0, steep)
        + integrate(64, 0.0, 0.1, |u| {
            let t = critical - u * u;
            let [s, p] = fresnel_dielectric_sp(1.0 / index, t.cos());
            (s + p) * t.sin() * t.cos() * 2.0 * u
        })
        + part(1.0 / index, critical, FRAC_PI_2);
    close(
        case,
        "from inside",
        inside,
        case.number("hemispherical_R_internal"),
    );
}

fn microfacets(case: &Case) {
    let (alpha, cos) = (case.number("alpha") as f32, cosine(case) as f32);
    case.within("D", ggx_distribution(alpha, cos).into(), case.number("D_per_sr"));
    case.within(
        "G1",
        1.0 / (1.0 + f64::from(ggx_lambda(alpha, cos))),
        case.number("G1"),
    );
}

fn in_plane(case: &Case) {
    let (alpha, index) = (case.number("alpha") as f32, case.number("relative_index") as f32);
    let into = direction(case.number("incident_deg"));
    let out = direction(-case.number("outgoing_deg_other_side"));
    let half = (into + out).normalize();
    case.within(
        "Fresnel's factor",
        fresnel_dielectric(index, into.dot(half)).into(),
        case.number("F"),
    );
    case.within(
        "the reflectance",
        coat_brdf(alpha, index, Vec3::Z, out, into).into(),
        case.number("brdf_height_correlated_per_sr"),
    );
}

/// What a perfectly reflecting microfacet surface returns in all: by quadrature of the reflectance over
/// the hemisphere, and by the project's own sampled albedo.
fn albedo(case: &Case) {
    let alpha = case.number("alpha") as f32;
    let into = direction(case.number("incident_deg"));
    let expected = case.number("albedo_height_correlated");
    let azimuths = gauss_points(96, 0.0, PI);
    let sum = integrate(96, 0.0, 1.0, |cos| {
        let sin = (1.0 - cos * cos).sqrt();
        let ring: f64 = azimuths
            .iter()
            .map(|(azimuth, weight)| {
                let out = Vec3::new(
                    (sin * azimuth.cos()) as f32,
                    (sin * azimuth.sin()) as f32,
                    cos as f32,
                );
                weight * f64::from(coat_brdf(alpha, MIRROR, Vec3::Z, out, into))
            })
            .sum();
        2.0 * ring * cos
    });
    close(case, "the albedo by quadrature", sum, expected);
    let sampled = directional_albedo(alpha, MIRROR, into.z);
    close(case, "the albedo by sampling", sampled.into(), expected);
}

fn density(case: &Case) {
    // Optical density is the decimal logarithm of the loss; the photographer counts in stops.
    let transmittance = case.number("transmittance");
    case.within(
        "the loss in stops",
        -Stops::from_factor(transmittance).0,
        case.number("loss_ev"),
    );
    case.within(
        "the transmittance of that many stops",
        Stops(-case.number("loss_ev")).factor(),
        transmittance,
    );
}

/// Gels one over another, each as even as glass.
fn stack(case: &Case) {
    let gels = case.0["transmittances"].as_array().unwrap().iter().map(|t| {
        let passes = SpectralCurve::new(vec![360.0, 830.0], vec![t.as_f64().unwrap(); 2]).unwrap();
        Gel::from_curve("grey", passes).unwrap()
    });
    let both = gels.reduce(|below, above| below.with(&above)).unwrap();
    let passes = both.passes(colour::illuminant_curve("D55").unwrap());
    case.within(
        "what passes",
        passes,
        case.number("product_ignoring_interreflection"),
    );
    case.within(
        "the loss in stops",
        -Stops::from_factor(passes).0,
        case.number("loss_ev"),
    );
}

#[test]
fn surfaces_reflect_as_optics_says() {
    let data = checks("optics");
    let mut left_out = 0;
    let cases = data["cases"].as_array().unwrap();
    for case in cases.iter().map(Case) {
        match case.text("group") {
            "fresnel_dielectric" => dielectric(&case),
            "fresnel_conductor" => {
                let (n, k) = (case.number("n"), case.number("k"));
                polarisations(&case, fresnel_conductor_sp(n, k, cosine(&case)));
            }
            "fresnel_landmarks" => landmarks(&case),
            "fresnel_diffuse" => diffuse(&case),
            "ggx" => microfacets(&case),
            "ggx_brdf_in_plane" => in_plane(&case),
            "ggx_directional_albedo_F1" => albedo(&case),
            "optical_density" => density(&case),
            "filter_stack" => stack(&case),
            group => {
                assert!(
                    NOT_YET.iter().any(|(known, _)| *known == group),
                    "no test for the group {group}"
                );
                left_out += 1;
            }
        }
    }
    assert_eq!((cases.len(), left_out), (57, 4));
}

/// The distribution of normals covers every plane once: ∫ D cos = 1 over the hemisphere.
#[test]
fn microfacets_cover_the_surface_once() {
    for alpha in [0.05f32, 0.2, 0.38, 1.0] {
        // In t = tan²θ / α² the integral is even and long-tailed; t = s / (1 − s) makes it finite.
        let sum = integrate(64, 0.0, 1.0, |s| {
            let tan2 = f64::from(alpha * alpha) * s / (1.0 - s);
            let cos = 1.0 / (1.0 + tan2).sqrt();
            let step = f64::from(alpha * alpha) / (1.0 - s).powi(2);
            PI * f64::from(ggx_distribution(alpha, cos as f32)) * cos.powi(4) * step
        });
        assert!((sum - 1.0).abs() < 1e-4, "α {alpha}: {sum}");
    }
}
