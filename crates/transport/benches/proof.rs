//! How long a proof takes until the face is right to 2 %, and whether it is.
//!
//! Two portraits of 400 x 500 pixels, bounced and direct. The error is told twice: from two independent
//! renderings, as for any other renderer, and against the referee, which also sees what the solved room
//! gets wrong. The scenes are left in the target folder for the programs in benches/independent. One JSON
//! line per scene.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

#[path = "../tests/oracle/mod.rs"]
mod oracle;

use oracle::{Setup, mean_of};
use scene::ObjectKind;
use serde_json::json;
use std::path::{Path, PathBuf};
use std::time::Instant;
use transport::{Effort, Fineness, Layer, Method, Rendered, Room, SolvedLight, render};

const SIZE: [usize; 2] = [400, 500];
/// Relative error, root mean square over the face, that is asked for.
const ASKED: f64 = 0.02;
/// How far from between the eyes the skin still counts as face, in metres.
const FACE: f32 = 0.14;
/// Passes of each of the two halves of the referee's picture.
const REFEREE_PASSES: usize = 96;

fn main() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("independent");
    for (case, setup) in [
        ("bounce", oracle::white_wall().portrait()),
        ("direct", oracle::direct().portrait()),
    ] {
        let line = measure(case, &setup, &folder.join(case));
        println!("{line}");
    }
}

fn measure(case: &str, setup: &Setup, folder: &Path) -> serde_json::Value {
    let description = oracle::export(folder, setup, SIZE);
    std::fs::write(folder.join("scene.json"), description.to_string()).unwrap();

    let (begun, work) = (Instant::now(), cpu_seconds());
    let room = Room::new(setup.geometry.clone(), Fineness::PROOF, 1);
    let light = room.solve(&setup.source);
    let (solve_wall, solve_cpu) = (begun.elapsed().as_secs_f64(), cpu_seconds() - work);

    let face = face_mask(&room, setup);
    std::fs::write(
        folder.join("face.u8"),
        face.iter().map(|&f| u8::from(f)).collect::<Vec<u8>>(),
    )
    .unwrap();

    let stop = Effort {
        most_passes: 4096,
        error: ASKED as f32,
    };
    let (begun, work) = (Instant::now(), cpu_seconds());
    let first = picture(&room, setup, &light, Method::Solved, stop, 1);
    let (wall, cpu) = (begun.elapsed().as_secs_f64(), cpu_seconds() - work);

    // The same again with other random numbers: half the difference is the error of one of them.
    let same = Effort {
        most_passes: first.progress.passes,
        error: 0.0,
    };
    let second = picture(&room, setup, &light, Method::Solved, same, 77_000_003);
    let long = Effort {
        most_passes: REFEREE_PASSES,
        error: 0.0,
    };
    let begun = Instant::now();
    let truth =
        [3_000_017u64, 9_000_011].map(|seed| picture(&room, setup, &light, Method::Referee, long, seed));
    let referee_wall = begun.elapsed().as_secs_f64();

    let pairs = error_of_pairs(&first.layer, &second.layer, &face);
    let against = error_against(&first.layer, [&truth[0].layer, &truth[1].layer], &face);
    let whole = face_mean(&first.layer, &face);
    let true_whole = 0.5 * (face_mean(&truth[0].layer, &face) + face_mean(&truth[1].layer, &face));
    json!({
        "program": "ours",
        "case": case,
        "triangles": setup.geometry.triangles.len(),
        "face_pixels": face.iter().filter(|&&f| f).count(),
        "passes": first.progress.passes,
        "solve_wall_s": solve_wall,
        "solve_cpu_s": solve_cpu,
        "wall_s": wall,
        "cpu_s": cpu,
        "error_it_claims": first.progress.error,
        "error_of_pairs": pairs,
        "error_against_referee": against,
        "mean_against_referee": whole / true_whole - 1.0,
        "error_of_referee": error_of_pairs(&truth[0].layer, &truth[1].layer, &face) / 2f64.sqrt(),
        "referee_wall_s": referee_wall,
        // The render part shrinks with the square of the error; solving the room does not.
        "cpu_s_to_2_percent_by_pairs": solve_cpu + cpu * (pairs / ASKED).powi(2),
    })
}

fn picture(
    room: &Room,
    setup: &Setup,
    light: &SolvedLight,
    method: Method,
    effort: Effort,
    seed: u64,
) -> Rendered {
    render(
        room,
        &setup.source,
        light,
        &setup.view,
        SIZE,
        method,
        effort,
        seed,
        &mut |_| true,
    )
}

/// The pixels whose middle shows the skin of the face.
fn face_mask(room: &Room, setup: &Setup) -> Vec<bool> {
    let aspect = SIZE[0] as f32 / SIZE[1] as f32;
    (0..SIZE[0] * SIZE[1])
        .map(|pixel| {
            let at = glam::Vec2::new(
                ((pixel % SIZE[0]) as f32 + 0.5) / SIZE[0] as f32,
                ((pixel / SIZE[0]) as f32 + 0.5) / SIZE[1] as f32,
            );
            let direction = setup.view.direction(at, aspect);
            room.tracer
                .closest(setup.view.position, direction)
                .is_some_and(|hit| {
                    let object = room.geometry.object[hit.triangle as usize] as usize;
                    let point = setup.view.position + direction * hit.distance;
                    matches!(room.geometry.objects[object].kind, ObjectKind::Sitter(_))
                        && room.geometry.material_of(hit.triangle).name.starts_with("skin")
                        && point.distance(setup.sitters[0].face) < FACE
                })
        })
        .collect()
}

/// Mean over the bands of every pixel of the face.
fn face_values<'a>(layer: &'a Layer, face: &'a [bool]) -> impl Iterator<Item = f64> + 'a {
    layer
        .pixels
        .iter()
        .zip(face)
        .filter(|(_, face)| **face)
        .map(|(colour, _)| mean_of(colour))
}

fn face_mean(layer: &Layer, face: &[bool]) -> f64 {
    face_values(layer, face).sum::<f64>() / face_values(layer, face).count() as f64
}

/// Root of the mean of `square(a, b, mean)` over the pixels of the face that are not nearly black.
fn error_of_pairs(a: &Layer, b: &Layer, face: &[bool]) -> f64 {
    let floor = 0.1 * face_mean(a, face);
    let (mut sum, mut n) = (0.0, 0.0);
    for (a, b) in face_values(a, face).zip(face_values(b, face)) {
        let mean = 0.5 * (a + b);
        if mean > floor {
            sum += 0.5 * ((a - b) / mean).powi(2);
            n += 1.0;
        }
    }
    f64::sqrt(sum / n)
}

/// Relative error against a reference that is noisy itself: the two halves of the reference have
/// independent errors, so in the product of the differences to each only our own error stays. The lowest
/// and highest value within two standard errors of that mean product.
fn error_against(ours: &Layer, halves: [&Layer; 2], face: &[bool]) -> [f64; 2] {
    let floor = 0.1 * face_mean(ours, face);
    let truth = face_values(halves[0], face).zip(face_values(halves[1], face));
    let products: Vec<f64> = face_values(ours, face)
        .zip(truth)
        .filter(|(value, _)| *value > floor)
        .map(|(value, (a, b))| (value - a) * (value - b) / (value * value))
        .collect();
    let n = products.len() as f64;
    let mean = products.iter().sum::<f64>() / n;
    let variance = products.iter().map(|p| (p - mean).powi(2)).sum::<f64>() / (n - 1.0);
    let doubt = 2.0 * (variance / n).sqrt();
    [mean - doubt, mean + doubt].map(|square| square.max(0.0).sqrt())
}

/// Processor time of this process over all threads, where the system tells it: on a shared machine it
/// says more than the clock on the wall.
fn cpu_seconds() -> f64 {
    let Ok(stat) = std::fs::read_to_string("/proc/self/stat") else {
        return f64::NAN;
    };
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks: f64 = after_name
        .split_whitespace()
        .skip(11)
        .take(2)
        .filter_map(|t| t.parse::<f64>().ok())
        .sum();
    ticks / 100.0
}
