//! The operator against the referee: eighty random aims in five rooms, and by hand (`--ignored`) two hundred.

#![allow(
    clippy::print_stdout,
    reason = "the largest differences are worth reading in the test's output"
)]

#[allow(dead_code, reason = "the benchmark uses its own part of this")]
mod places;

use colour::{LightColour, Spectrum, cct_duv};
use glam::Vec3;
use places::{TestPlace, random_aims};
use transport::{AimMap, Aimed, Fineness, Guide, Meter, Operator, Reading, Room, Source, read_meters};
use units::Kelvin;

/// Aims in each of the five rooms, and as many by hand.
const AIMS: usize = 16;
const AIMS_BY_HAND: usize = 40;
/// Landmarks read for each of them, another five every time.
const LANDMARKS: usize = 5;
/// Paths of the referee for each meter: about 0.4 to 0.8 % standard error.
const PATHS: usize = 32_768;
/// The dome and three components of the light vector come before the landmarks.
const BEFORE_LANDMARKS: usize = 4;

/// What must hold: median and 95th percentile of the relative error of landmarks. Ours to keep.
struct Limits {
    median: f64,
    most: f64,
}

#[test]
fn aims_agree_with_the_referee() {
    compare(AIMS);
}

#[test]
#[ignore = "minutes: by hand"]
fn two_hundred_aims_agree_with_the_referee() {
    compare(AIMS_BY_HAND);
}

fn compare(aims: usize) {
    for place in TestPlace::all() {
        let limits = if place.furnished {
            Limits {
                median: 0.02,
                most: 0.06,
            }
        } else {
            Limits {
                median: 0.005,
                most: 0.02,
            }
        };
        check(&place, &limits, aims);
    }
}

fn check(place: &TestPlace, limits: &Limits, aims: usize) {
    let stage = place.stage();
    let room = Room::new(stage.geometry.clone(), Fineness::operator_in(place.area()), 1);
    let meters = place.meters(&stage);
    let operator = Operator::solve(&room, &meters);
    let flash_colour = LightColour::flash(Kelvin::new(5600.0).unwrap()).unwrap();
    let weights = flash_colour.luminous_weights();
    let (mut light, mut mired, mut degrees) = (Vec::new(), Vec::new(), Vec::new());
    for (number, (flash, what)) in random_aims(place, aims).into_iter().enumerate() {
        let map = AimMap::new(&room, &operator, flash.position);
        let found = map.read(&operator, &flash, None);
        let chosen = chosen_meters(meters.len(), number);
        let truth = referee(&room, &Source::Flash(flash), &meters, &chosen, number as u64);
        for (&meter, reading) in chosen.iter().zip(&truth).skip(BEFORE_LANDMARKS) {
            let (ours, theirs) = (found.meters[meter].dot(&weights), reading.mean.dot(&weights));
            light.push((
                f64::from(ours / theirs - 1.0).abs(),
                format!("{what}, meter {meter}"),
            ));
        }
        let shift = mired_of(&flash_colour, &found.meters[0]) - mired_of(&flash_colour, &truth[0].mean);
        mired.push((shift.abs(), what.clone()));
        degrees.push((angle(&found, &truth, &weights), what));
    }
    let name = place.name;
    println!(
        "{name}: {} patches, light {} | cast {} mired | direction {} degrees | basis leaves out {:.5}",
        room.patches.list.len(),
        told(&mut light),
        told(&mut mired),
        told(&mut degrees),
        operator.left_out_by_basis(),
    );
    let median = percentile(&mut light, 0.5);
    assert!(median <= limits.median, "{name}: median {median:.4}");
    let most = percentile(&mut light, 0.95);
    assert!(most <= limits.most, "{name}: 95th percentile {most:.4}");
    let cast = percentile(&mut mired, 1.0);
    assert!(cast <= 5.0, "{name}: cast off by {cast:.1} mired");
    let turn = percentile(&mut degrees, 1.0);
    assert!(turn <= 2.0, "{name}: direction off by {turn:.1} degrees");
}

/// The dome, the light vector and a few landmarks.
fn chosen_meters(count: usize, number: usize) -> Vec<usize> {
    let landmarks = count - BEFORE_LANDMARKS;
    (0..BEFORE_LANDMARKS)
        .chain((0..LANDMARKS).map(|i| BEFORE_LANDMARKS + (number * LANDMARKS + i) % landmarks))
        .collect()
}

fn referee(room: &Room, source: &Source, meters: &[Meter], chosen: &[usize], seed: u64) -> Vec<Reading> {
    let light = room.solve(source);
    let guide = Guide::new(room, &light.radiosity);
    let meters: Vec<Meter> = chosen.iter().map(|&i| meters[i]).collect();
    let radiosity = Some(light.radiosity.as_slice());
    read_meters(room, source, Some(&guide), radiosity, &meters, PATHS, 500 + seed)
}

fn mired_of(flash: &LightColour, transfer: &Spectrum) -> f64 {
    let (kelvin, _) = flash.xyz(transfer).chromaticity().and_then(cct_duv).unwrap();
    kelvin.mired().value()
}

fn angle(found: &Aimed, truth: &[Reading], weights: &Spectrum) -> f64 {
    let ours = Vec3::from_array(std::array::from_fn(|i| found.meters[1 + i].dot(weights)));
    let theirs = Vec3::from_array(std::array::from_fn(|i| truth[1 + i].mean.dot(weights)));
    // The referee's own noise, at two standard errors, is not ours to answer for.
    let noise: f32 = (0..3)
        .map(|i| truth[1 + i].standard_error.dot(weights).powi(2))
        .sum::<f32>()
        .sqrt();
    let noise = 2.0 * noise / theirs.length();
    f64::from((ours.angle_between(theirs) - noise).max(0.0)).to_degrees()
}

fn percentile(values: &mut [(f64, String)], share: f64) -> f64 {
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    values[((values.len() as f64 * share) as usize).min(values.len() - 1)].0
}

fn told(values: &mut [(f64, String)]) -> String {
    let (median, most) = (percentile(values, 0.5), percentile(values, 0.95));
    let (worst, what) = &values[values.len() - 1];
    format!("median {median:.4} 95 % {most:.4} worst {worst:.4} ({what})")
}
