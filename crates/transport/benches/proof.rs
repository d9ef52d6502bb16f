//! How long a proof takes until the face is right to 2 %, and whether it is.
//!
//! Two portraits of 400 x 500 pixels, bounced and direct. The error is found twice: from two independent
//! renderings, as for any other renderer, and against the referee, which also sees what the solved room
//! gets wrong. The scenes are left in the target folder for the programs in benches/independent. One JSON
//! line per scene.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

mod clock;
#[path = "../tests/oracle/mod.rs"]
mod oracle;

use clock::cpu_seconds;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use oracle::{Setup, mean_of};
use scene::{ObjectKind, Viewpoint};
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
const REFEREE_PASSES: usize = 128;
/// Passes of the proof that is compared with it.
const CLEAN_PASSES: usize = 4;
/// Size of the middle of the picture that is compared with the referee.
const NEAR_SIZE: [usize; 2] = [100, 125];

/// Error of a preview.
const PREVIEW: f64 = 0.05;
/// Edge of the blocks over which pixels are averaged to see what is wrong beyond noise.
const BLOCK: usize = 8;

/// Where the referee's pictures come from.
#[derive(Clone, Copy, PartialEq)]
enum Truth {
    /// Nowhere.
    Without,
    /// From an earlier run.
    Reused,
    Rendered,
}

fn main() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("independent");
    let told = |word: &str| std::env::args().any(|argument| argument == word);
    let truth = match (told("quick"), told("reuse")) {
        (true, _) => Truth::Without,
        (false, true) => Truth::Reused,
        (false, false) => Truth::Rendered,
    };
    for (case, setup) in [
        ("bounce", oracle::white_wall().portrait()),
        ("direct", oracle::direct().portrait()),
    ] {
        let line = measure(case, &mark_skin(setup), &folder.join(case), truth);
        println!("{line}");
    }
}

/// The scenes have lost the overlays by which skin is known; overlays of the skin's own colour bring the
/// mark back and change no light.
fn mark_skin(mut setup: Setup) -> Setup {
    for material in &mut setup.geometry.materials {
        if material.name.starts_with("skin") {
            material.overlays = Some(Box::new([material.reflectance; 3]));
        }
    }
    setup
}

fn measure(case: &str, setup: &Setup, folder: &Path, truth: Truth) -> serde_json::Value {
    let description = oracle::export(folder, setup, SIZE);
    std::fs::write(folder.join("scene.json"), description.to_string()).unwrap();

    let (begun, work) = (Instant::now(), cpu_seconds());
    let room = Room::new(setup.geometry.clone(), Fineness::PROOF, 1);
    let light = room.solve(&setup.source);
    let (solve_wall, solve_cpu) = (begun.elapsed().as_secs_f64(), cpu_seconds() - work);

    let skin = mask(&room, &setup.view, SIZE, &|triangle, _| {
        room.geometry.material_of(triangle).overlays.is_some()
    });
    let face = face_mask(&room, setup, &setup.view, SIZE);
    std::fs::write(
        folder.join("face.u8"),
        face.iter().map(|&f| u8::from(f)).collect::<Vec<u8>>(),
    )
    .unwrap();

    let mut line = json!({
        "program": "ours",
        "case": case,
        "triangles": setup.geometry.triangles.len(),
        "face_pixels": face.iter().filter(|&&f| f).count(),
        "solve_wall_s": solve_wall,
        "solve_cpu_s": solve_cpu,
    });
    for (name, asked) in [("preview", PREVIEW), ("proof", ASKED)] {
        let (told, first) = to_error(&room, setup, &light, asked, [&face, &skin]);
        keep(&folder.join(format!("{name}.f32")), &first.layer);
        line[name] = told;
        if name == "proof" && truth != Truth::Without {
            line["referee"] = against_referee(&room, setup, &light, folder, truth);
        }
    }
    line
}

/// What it costs to reach an error.
fn to_error(
    room: &Room,
    setup: &Setup,
    light: &SolvedLight,
    asked: f64,
    [face, skin]: [&[bool]; 2],
) -> (serde_json::Value, Rendered) {
    let stop = Effort {
        most_passes: 4096,
        error: asked as f32,
        plain: true,
    };
    let (begun, work) = (Instant::now(), cpu_seconds());
    let first = picture(room, setup, light, (&setup.view, SIZE), Method::Solved, stop, 1);
    let (wall, cpu) = (begun.elapsed().as_secs_f64(), cpu_seconds() - work);
    // The same again with other random numbers: half the difference is the error of one of them.
    let second = picture(
        room,
        setup,
        light,
        (&setup.view, SIZE),
        Method::Solved,
        stop,
        77_000_003,
    );
    let pairs = error_of_pairs(&first.layer, &second.layer, face);
    let told = json!({
        "passes": first.progress.passes,
        "wall_s": wall,
        "cpu_s": cpu,
        "error_it_claims": first.progress.error,
        "error_of_pairs_on_skin": error_of_pairs(&first.layer, &second.layer, skin),
        "error_of_pairs": pairs,
        // The noise of a rendering shrinks with the square of the error.
        "cpu_s_by_pairs": cpu * (pairs / asked).powi(2),
    });
    (told, first)
}

/// How far a picture is from the referee's.
fn against_referee(
    room: &Room,
    setup: &Setup,
    light: &SolvedLight,
    folder: &Path,
    truth: Truth,
) -> serde_json::Value {
    let long = |most_passes| Effort {
        most_passes,
        error: 0.0,
        plain: true,
    };
    let near = near(setup);
    let face = &face_mask(room, setup, &near, NEAR_SIZE);
    let look = |method, effort, seed| picture(room, setup, light, (&near, NEAR_SIZE), method, effort, seed);
    let begun = Instant::now();
    let [a, b] = &[3_000_017u64, 9_000_011].map(|seed| {
        let path = folder.join(format!("referee-{seed}.f32"));
        if truth == Truth::Reused {
            return kept(&path);
        }
        let layer = look(Method::Referee, long(REFEREE_PASSES), seed).layer;
        keep(&path, &layer);
        layer
    });
    let wall = begun.elapsed().as_secs_f64();
    let asked = Effort {
        most_passes: 4096,
        error: ASKED as f32,
        plain: true,
    };
    let ours = look(Method::Solved, asked, 1).layer;
    // A long rendering of our own leaves little but what the solved room gets wrong.
    let clean = look(Method::Solved, long(CLEAN_PASSES), 5).layer;
    let blocks = |layer: &Layer| block_means(layer, face);
    let values = |layer: &Layer| face_values(layer, face).collect();
    let true_whole = 0.5 * (face_mean(a, face) + face_mean(b, face));
    json!({
        "error_against_referee": error_against(values(&ours), [values(a), values(b)]),
        "bias_of_blocks": error_against(blocks(&clean), [blocks(a), blocks(b)]),
        "mean_against_referee": face_mean(&clean, face) / true_whole - 1.0,
        "error_of_referee": error_of_pairs(a, b, face) / 2f64.sqrt(),
        "referee_wall_s": wall,
    })
}

/// The middle of the picture, where the face is, at the same scale.
fn near(setup: &Setup) -> Viewpoint {
    let mut view = setup.view;
    view.focal_mm *= (SIZE[0] / NEAR_SIZE[0]) as f32;
    view
}

/// Means of the whole blocks of pixels that lie on the face.
fn block_means(layer: &Layer, face: &[bool]) -> Vec<f64> {
    let mut means = Vec::new();
    for y in (0..layer.height - BLOCK + 1).step_by(BLOCK) {
        for x in (0..layer.width - BLOCK + 1).step_by(BLOCK) {
            let within = (0..BLOCK * BLOCK).map(|i| (y + i / BLOCK) * layer.width + x + i % BLOCK);
            if within.clone().all(|pixel| face[pixel]) {
                let sum: f64 = within.map(|pixel| mean_of(&layer.pixels[pixel])).sum();
                means.push(sum / (BLOCK * BLOCK) as f64);
            }
        }
    }
    means
}

/// Writes the mean over the bands of every pixel.
fn keep(path: &Path, layer: &Layer) {
    let bytes: Vec<u8> = layer
        .pixels
        .iter()
        .flat_map(|pixel| (mean_of(pixel) as f32).to_le_bytes())
        .collect();
    std::fs::write(path, bytes).unwrap();
}

/// Reads what [`keep`] wrote.
fn kept(path: &Path) -> Layer {
    let bytes = std::fs::read(path).expect("run the whole benchmark once to have the referee's pictures");
    Layer {
        width: NEAR_SIZE[0],
        height: NEAR_SIZE[1],
        pixels: bytes
            .chunks_exact(4)
            .map(|b| Spectrum::splat(f32::from_le_bytes([b[0], b[1], b[2], b[3]])))
            .collect(),
    }
}

fn picture(
    room: &Room,
    setup: &Setup,
    light: &SolvedLight,
    (view, size): (&Viewpoint, [usize; 2]),
    method: Method,
    effort: Effort,
    seed: u64,
) -> Rendered {
    render(
        room,
        &setup.source,
        light,
        view,
        size,
        method,
        effort,
        seed,
        &mut |_| true,
    )
}

/// The pixels whose middle shows the skin of the face.
fn face_mask(room: &Room, setup: &Setup, view: &Viewpoint, size: [usize; 2]) -> Vec<bool> {
    mask(room, view, size, &|triangle, point| {
        let object = room.geometry.object[triangle as usize] as usize;
        matches!(room.geometry.objects[object].kind, ObjectKind::Sitter(_))
            && room.geometry.material_of(triangle).name.starts_with("skin")
            && point.distance(setup.sitters[0].face) < FACE
    })
}

/// The pixels whose middle shows what is chosen by its triangle and place.
fn mask(room: &Room, view: &Viewpoint, size: [usize; 2], chosen: &dyn Fn(u32, Vec3) -> bool) -> Vec<bool> {
    let [width, height] = size;
    let aspect = width as f32 / height as f32;
    (0..width * height)
        .map(|pixel| {
            let at = Vec2::new(
                ((pixel % width) as f32 + 0.5) / width as f32,
                ((pixel / width) as f32 + 0.5) / height as f32,
            );
            let direction = view.direction(at, aspect);
            room.tracer
                .closest(view.position, direction)
                .is_some_and(|hit| chosen(hit.triangle, view.position + direction * hit.distance))
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
fn error_against(ours: Vec<f64>, halves: [Vec<f64>; 2]) -> [f64; 2] {
    let floor = 0.1 * ours.iter().sum::<f64>() / ours.len() as f64;
    let products: Vec<f64> = ours
        .iter()
        .zip(halves[0].iter().zip(&halves[1]))
        .filter(|(value, _)| **value > floor)
        .map(|(value, (a, b))| (value - a) * (value - b) / (value * value))
        .collect();
    let n = products.len() as f64;
    let mean = products.iter().sum::<f64>() / n;
    let variance = products.iter().map(|p| (p - mean).powi(2)).sum::<f64>() / (n - 1.0);
    let doubt = 2.0 * (variance / n).sqrt();
    [mean - doubt, mean + doubt].map(|square| square.max(0.0).sqrt())
}
