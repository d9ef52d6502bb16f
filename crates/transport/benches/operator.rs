//! How many aims the operator answers, what it costs to prepare, and how both grow.
//!
//! Every line is one place: the five of the operator's test, then the first of them with more patches,
//! more people and a coat on everybody. Times are processor seconds, of all cores together, because other
//! work on the machine disturbs the clock on the wall more. The first line also leaves the scene for
//! `benches/independent/mitsuba_irradiance.py`, which reads the same landmarks under the same aims.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

mod clock;
#[path = "../tests/oracle/mod.rs"]
mod oracle;
#[allow(dead_code, reason = "the test uses its own part of this")]
#[path = "../tests/places/mod.rs"]
mod places;

use clock::cpu_seconds;
use colour::Spectrum;
use glam::Vec3;
use places::{TestPlace, random_aims};
use scene::Geometry;
use serde_json::json;
use std::path::PathBuf;
use std::time::Instant;
use transport::{AimMap, Fineness, Meter, Operator, PlacedFlash, Room};

/// Receivers of a candidate: the dome, the light vector and sixteen landmarks.
const RECEIVERS: usize = 20;
/// Candidates that are timed.
const CANDIDATES: usize = 40_000;

fn main() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("independent");
    let description = oracle::export(&folder.join("irradiance"), &oracle::white_wall(), [64, 64]);
    std::fs::write(folder.join("irradiance/scene.json"), description.to_string()).unwrap();
    for place in TestPlace::all() {
        let stage = place.stage();
        let fineness = Fineness::operator_in(place.area());
        println!(
            "{}",
            measure(place.name, &place, stage.geometry.clone(), fineness)
        );
    }
    let place = &TestPlace::all()[0];
    let stage = place.stage();
    let coated = place.coated_stage();
    let crowd = place.crowd();
    let fine = Fineness {
        pitch_m: 0.08,
        rays: 64,
    };
    let plain = Fineness::operator_in(place.area());
    println!(
        "{}",
        measure("white room, finer patches", place, stage.geometry, fine)
    );
    println!(
        "{}",
        measure("white room, coated skin", place, coated.geometry, plain)
    );
    println!(
        "{}",
        measure("white room, four sitters", place, crowd.geometry, plain)
    );
}

fn measure(name: &str, place: &TestPlace, geometry: Geometry, fineness: Fineness) -> serde_json::Value {
    let triangles = geometry.triangles.len();
    let meters: Vec<Meter> = place.meters(&place.stage()).into_iter().take(RECEIVERS).collect();
    let (room, scene_cpu, scene_wall) = timed(|| Room::new(geometry, fineness, 1));
    let (operator, solve_cpu, solve_wall) = timed(|| Operator::solve(&room, &meters));
    let aims = aims(place);
    let (map, map_cpu, map_wall) = timed(|| AimMap::new(&room, &operator, aims[0].position));
    let mut readings = vec![Spectrum::ZERO; meters.len()];
    // One thread, so processor seconds are those of one core.
    let (sum, aims_cpu, aims_wall) = timed(|| {
        let mut sum = 0.0;
        for candidate in 0..CANDIDATES {
            map.read_meters(&operator, &aims[candidate % aims.len()], &mut readings);
            sum += readings[0].mean();
        }
        sum
    });
    assert!(sum.is_finite());
    json!({
        "place": name,
        "triangles": triangles,
        "patches": room.patches.list.len(),
        "receivers": meters.len(),
        "prepare_cpu_s": { "rays_and_patches": scene_cpu, "operator": solve_cpu, "map_of_a_place": map_cpu },
        "prepare_wall_s": scene_wall + solve_wall + map_wall,
        "candidates": CANDIDATES,
        "candidates_per_cpu_s": CANDIDATES as f64 / aims_cpu,
        "candidates_per_wall_s": CANDIDATES as f64 / aims_wall,
        "thousand_aims_cpu_s": scene_cpu + solve_cpu + map_cpu + 1000.0 * aims_cpu / CANDIDATES as f64,
        "basis_leaves_out": operator.left_out_by_basis(),
    })
}

/// Random aims, zooms and dresses from one place.
fn aims(place: &TestPlace) -> Vec<PlacedFlash> {
    let mut aims: Vec<PlacedFlash> = random_aims(place, 200)
        .into_iter()
        .map(|(flash, _)| flash)
        .collect();
    let position: Vec3 = aims[0].position;
    for aim in &mut aims {
        aim.position = position;
    }
    aims
}

/// A result with the processor seconds and the seconds on the wall that it took.
fn timed<T>(work: impl FnOnce() -> T) -> (T, f64, f64) {
    let (before, begun) = (cpu_seconds(), Instant::now());
    let result = work();
    (result, cpu_seconds() - before, begun.elapsed().as_secs_f64())
}
