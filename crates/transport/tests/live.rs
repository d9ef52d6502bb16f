//! The live picture: against the proof, against what linear light guarantees, and against the solver's own
//! numbers. The limits of the agreement are ours: what was measured, and some room.

mod harness;
mod oracle;

use colour::{SkinTone, Spectrum};
use glam::{Vec2, Vec3};
use harness::{bright_room, matt, sitter};
use light::{Beam, FlashUnit, HeadDress};
use oracle::{Setup, mean_of};
use scene::{BoxRoom, Geometry, ObjectKind, Place, Viewpoint, assemble};
use transport::{Effort, Fineness, Layer, LiveView, Method, Observer, PlacedFlash, Room, Source, render};
use units::IntensityTime;

/// Where the flash is in most of these tests: beside the camera.
const PLACE: Vec3 = Vec3::new(1.95, 1.6, 1.75);
const SMALL: [usize; 2] = [100, 120];

fn aimed(zoom: f64, dress: HeadDress, target: Vec3) -> PlacedFlash {
    let beam = FlashUnit::medium().beam(zoom, dress).unwrap();
    PlacedFlash::aimed(beam, PLACE, target, [0.0, 0.0])
}

/// Into the white wall on the left, up at the ceiling with a card, and straight at the face.
fn three_aims() -> [(&'static str, PlacedFlash); 3] {
    [
        (
            "left wall",
            aimed(50.0, HeadDress::Bare, Vec3::new(0.0, 2.9, 1.9)),
        ),
        (
            "ceiling",
            aimed(24.0, HeadDress::BounceCard, Vec3::new(2.1, 2.2, 2.6)),
        ),
        ("direct", aimed(70.0, HeadDress::Bare, Vec3::new(2.3, 3.7, 1.6))),
    ]
}

/// A face with its coat, lips and brows in a bright room.
fn coated() -> (Geometry, Viewpoint) {
    let mut person = sitter(2.3, 3.7, 0.0, SkinTone::Light);
    person.face_height = 1.6;
    let stage = assemble(&Place::new(bright_room([4.4, 5.5, 2.6])), &[person]).unwrap();
    let view = Viewpoint {
        look_at: stage.sitters[0].face,
        ..oracle::white_wall().view
    };
    (stage.geometry, view)
}

/// A room for searching and a view of it.
fn prepared(geometry: Geometry, view: &Viewpoint, size: [usize; 2]) -> (Room, LiveView) {
    let room = Room::new(geometry, Fineness::LIVE, 1);
    let [(_, flash), ..] = three_aims();
    let live = LiveView::new(&room, view, size, &flash, 1);
    (room, live)
}

/// Relative difference of two pictures, as the largest of any pixel and band against the picture's mean.
fn difference(a: &Layer, b: &Layer) -> f64 {
    let mean = a.pixels.iter().map(mean_of).sum::<f64>() / a.pixels.len() as f64;
    let largest = a
        .pixels
        .iter()
        .zip(&b.pixels)
        .flat_map(|(a, b)| a.zip(b, |a, b| (a - b).abs()).0)
        .fold(0.0, f32::max);
    f64::from(largest) / mean
}

#[test]
fn two_beams_add_up() {
    // A dome is an even bulb and a cosine lamp in one (crates/light/src/beam.rs: 45 % of the light each).
    let (geometry, view) = coated();
    let (room, live) = prepared(geometry, &view, SMALL);
    let target = Vec3::new(0.0, 2.9, 1.9);
    let dome = aimed(24.0, HeadDress::Dome, target);
    let part = |beam: Beam| PlacedFlash { beam, ..dome.clone() };
    let share = 0.45 * dome.beam.total() / std::f64::consts::PI;
    let bulb = part(Beam::even(IntensityTime::new(0.25 * share).unwrap()));
    let lamp = part(Beam::cosine_power(IntensityTime::new(share).unwrap(), 1.0));
    let both = live.layer(&room, &dome);
    let mut sum = live.layer(&room, &bulb);
    let other = live.layer(&room, &lamp);
    for (pixel, more) in sum.pixels.iter_mut().zip(&other.pixels) {
        *pixel += *more;
    }
    let difference = difference(&both, &sum);
    assert!(difference < 1e-4, "{difference}");
}

#[test]
fn a_beam_turned_away_in_a_black_room_shows_nothing() {
    let mut person = sitter(2.3, 3.7, 0.0, SkinTone::Light);
    person.face_height = 1.6;
    let black = BoxRoom::uniform([4.4, 5.5, 2.6], matt(0.0));
    let stage = assemble(&Place::new(black), &[person]).unwrap();
    let (room, live) = prepared(stage.geometry, &oracle::white_wall().view, SMALL);
    let away = aimed(50.0, HeadDress::Bare, PLACE - Vec3::Y);
    assert!(
        live.layer(&room, &away)
            .pixels
            .iter()
            .all(|p| *p == Spectrum::ZERO)
    );
    // The same place and beam towards the face do light it.
    let face = aimed(50.0, HeadDress::Bare, Vec3::new(2.3, 3.7, 1.6));
    assert!(
        live.layer(&room, &face)
            .pixels
            .iter()
            .any(|p| *p != Spectrum::ZERO)
    );
}

#[test]
fn three_numbers_are_the_weighed_layer() {
    let (geometry, view) = coated();
    let (room, live) = prepared(geometry, &view, SMALL);
    let observer: Observer =
        std::array::from_fn(|c| Spectrum::from_fn(|band| 1.0 / (1.0 + (band as f32 - 4.0 * c as f32).abs())));
    for (name, aim) in three_aims() {
        let layer = live.layer(&room, &aim);
        let picture = live.tristimulus(&room, &aim, &observer);
        assert_eq!(picture.len(), SMALL[0] * SMALL[1]);
        for (pixel, numbers) in layer.pixels.iter().zip(&picture) {
            for (number, weights) in numbers.iter().zip(&observer) {
                let expected = pixel.dot(weights);
                assert!(
                    (number - expected).abs() <= 2e-4 * expected.abs() + 1e-6,
                    "{name}: {number} is not {expected}"
                );
            }
        }
    }
}

/// Patches and bounces are the search's own: the same irradiance, and the same radiosity to 1 % of any
/// patch and 0.1 % in all, in a room so bright that light goes on for long.
#[test]
fn the_room_is_solved_as_the_solver_does() {
    let (geometry, camera) = coated();
    let (room, live) = prepared(geometry, &camera, SMALL);
    for (name, aim) in three_aims() {
        let irradiance = live.patch_irradiance(&aim);
        for (ours, theirs) in irradiance.iter().zip(room.direct_from(&aim)) {
            assert!(
                (ours - theirs).abs() <= 1e-4 * theirs + 1e-6,
                "{name}: {ours} is not {theirs}"
            );
        }
        let ours = live.radiosity(&room, &irradiance);
        let theirs = room.solve(&Source::Flash(aim)).radiosity;
        let (mut square, mut all) = (0.0, 0.0);
        for (ours, theirs) in ours.iter().zip(&theirs) {
            let (ours, theirs) = (mean_of(ours), mean_of(theirs));
            assert!(
                (ours - theirs).abs() <= 0.01 * theirs,
                "{name}: {ours} is not {theirs}"
            );
            square += (ours - theirs).powi(2);
            all += theirs.powi(2);
        }
        assert!(
            f64::sqrt(square / all) < 1e-3,
            "{name}: {}",
            (square / all).sqrt()
        );
    }
}

#[test]
fn threads_do_not_matter() {
    let (geometry, view) = coated();
    let picture = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.unwrap().install(|| {
            let (room, live) = prepared(geometry.clone(), &view, SMALL);
            let [(_, aim), ..] = three_aims();
            let layer = live.layer(&room, &aim);
            (live.receivers(), live.links(), layer.pixels)
        })
    };
    let one = picture(1);
    assert!(one.2.iter().any(|p| *p != Spectrum::ZERO));
    assert!(one == picture(3));
}

#[test]
#[should_panic(expected = "was prepared for a flash at")]
fn another_place_is_refused() {
    let (room, live) = prepared(
        oracle::white_wall().geometry,
        &oracle::white_wall().view,
        [20, 24],
    );
    let [(_, mut aim), ..] = three_aims();
    aim.position.x += 0.1;
    live.layer(&room, &aim);
}

/// Pictures for the comparison with the proof: a tight portrait, so that the face has some 150 blocks.
const SIZE: [usize; 2] = [200, 240];
const BLOCK: usize = 8;
/// How far from between the eyes the skin still counts as face, in metres.
const FACE: f32 = 0.14;

/// How the live picture of a face differs from the proof's, by blocks of 8 x 8 pixels: the mean, the root
/// mean square and the largest relative difference. The proof solves the room finely and takes no part of
/// the live picture.
fn on_face(geometry: &Geometry, view: &Viewpoint, flash: &PlacedFlash) -> [f64; 3] {
    let room = Room::new(geometry.clone(), Fineness::LIVE, 1);
    let live = LiveView::new(&room, view, SIZE, flash, 1).layer(&room, flash);
    let fine = Room::new(geometry.clone(), Fineness::PROOF, 1);
    let source = Source::Flash(flash.clone());
    let light = fine.solve(&source);
    let effort = Effort {
        most_passes: 12,
        error: 0.0,
        plain: true,
    };
    let proof = render(
        &fine,
        &source,
        &light,
        view,
        SIZE,
        Method::Solved,
        effort,
        5,
        &mut |_| true,
    );
    let face = face_mask(&room, view);
    let (ours, theirs) = (blocks(&live, &face), blocks(&proof.layer, &face));
    assert!(ours.len() > 60, "{} blocks show nothing", ours.len());
    let mean = theirs.iter().sum::<f64>() / theirs.len() as f64;
    // A block that is nearly black says little by its relative difference.
    let relative = || ours.iter().zip(&theirs).map(|(a, b)| (a - b) / b.max(0.1 * mean));
    let n = ours.len() as f64;
    [
        ours.iter().sum::<f64>() / theirs.iter().sum::<f64>() - 1.0,
        (relative().map(|d| d * d).sum::<f64>() / n).sqrt(),
        relative().map(f64::abs).fold(0.0, f64::max),
    ]
}

/// The pixels whose middle shows the skin of a face.
fn face_mask(room: &Room, view: &Viewpoint) -> Vec<bool> {
    let extent = Vec2::new(SIZE[0] as f32, SIZE[1] as f32);
    (0..SIZE[0] * SIZE[1])
        .map(|pixel| {
            let at = Vec2::new((pixel % SIZE[0]) as f32 + 0.5, (pixel / SIZE[0]) as f32 + 0.5);
            let direction = view.direction(at / extent, extent.x / extent.y);
            room.tracer.closest(view.position, direction).is_some_and(|hit| {
                let object = room.geometry.object[hit.triangle as usize] as usize;
                let point = view.position + direction * hit.distance;
                matches!(room.geometry.objects[object].kind, ObjectKind::Sitter(_))
                    && room.geometry.material_of(hit.triangle).name.starts_with("skin")
                    && point.distance(view.look_at) < FACE
            })
        })
        .collect()
}

/// Mean over bands and pixels of every block of which at least half is face.
fn blocks(layer: &Layer, face: &[bool]) -> Vec<f64> {
    let mut means = Vec::new();
    for row in 0..SIZE[1] / BLOCK {
        for column in 0..SIZE[0] / BLOCK {
            let pixels = (0..BLOCK * BLOCK)
                .map(|i| (row * BLOCK + i / BLOCK) * SIZE[0] + column * BLOCK + i % BLOCK)
                .filter(|&pixel| face[pixel]);
            let values: Vec<f64> = pixels.map(|pixel| mean_of(&layer.pixels[pixel])).collect();
            if values.len() >= BLOCK * BLOCK / 2 {
                means.push(values.iter().sum::<f64>() / values.len() as f64);
            }
        }
    }
    means
}

/// Most of mean, root mean square and largest difference where the light comes by way of the room (measured
/// 0.011 to 0.018, 0.025 and 0.16) and where most of it comes straight or from one board (0.002, 0.013 and 0.08).
/// With the coat's image of the room spread evenly, the coated face lit straight had 0.025 rms and failed.
const BY_ROOM: [f64; 3] = [0.03, 0.035, 0.20];
const STRAIGHT: [f64; 3] = [0.01, 0.02, 0.12];

fn limits(name: &str) -> [f64; 3] {
    if name == "direct" { STRAIGHT } else { BY_ROOM }
}

fn agrees(name: &str, measured: [f64; 3], most: [f64; 3]) {
    let [mean, rms, largest] = measured;
    assert!(
        mean.abs() <= most[0] && rms <= most[1] && largest <= most[2],
        "{name}: on the face {mean:+.4} in the mean, {rms:.4} rms, {largest:.4} at most; allowed {most:?}"
    );
}

#[test]
fn a_matt_face_agrees_with_the_proof() {
    let setup = oracle::white_wall();
    for (name, aim) in three_aims() {
        agrees(name, on_face(&setup.geometry, &setup.view, &aim), limits(name));
    }
}

/// With gloss, lips and brows, and a window of 7 x 4 cm, whose shadows have soft edges.
#[test]
fn a_coated_face_agrees_with_the_proof() {
    let (geometry, view) = coated();
    for (name, mut aim) in three_aims() {
        aim.half_window = [0.035, 0.02];
        agrees(name, on_face(&geometry, &view, &aim), limits(name));
    }
}

/// A board near the face is lit and shines, and is no part of the room's shell.
#[test]
fn a_board_agrees_with_the_proof() {
    let board = |setup: &Setup| {
        let mut kinds = setup.geometry.objects.iter().map(|o| o.kind);
        setup.sitters.len() == 1 && kinds.any(|kind| matches!(kind, ObjectKind::Panel(_)))
    };
    let setup = oracle::setups().into_iter().find(board).unwrap();
    let Source::Flash(flash) = &setup.source else {
        panic!("the board is lit by a flash");
    };
    agrees("board", on_face(&setup.geometry, &setup.view, flash), STRAIGHT);
}
