//! Frames per second while the flash is being turned, with one sitter and with two, matt and coated, and
//! how long the view takes to prepare. Pictures of 500 x 600 pixels; every frame has another aim. One JSON line.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

mod clock;
#[path = "../tests/harness/mod.rs"]
mod harness;
#[path = "../tests/oracle/mod.rs"]
mod oracle;

use clock::cpu_seconds;
use colour::Spectrum;
use glam::Vec3;
use oracle::Setup;
use serde_json::{Value, json};
use std::time::Instant;
use transport::{Fineness, LiveView, Observer, PlacedFlash, Room, Source};

const SIZE: [usize; 2] = [500, 600];
const FRAMES: usize = 120;

fn main() {
    let line = json!({
        "program": "ours",
        "pixels": SIZE,
        "threads": std::thread::available_parallelism().map_or(0, usize::from),
        "one_sitter": measure(&oracle::white_wall().portrait()),
        "one_coated_sitter": measure(&coated()),
        "two_sitters": measure(&two_people()),
    });
    println!("{line}");
}

/// A face with its coat, lips and brows in a bright room, seen and lit as the first scene.
fn coated() -> Setup {
    let mut setup = oracle::white_wall().portrait();
    let mut person = harness::sitter(2.3, 3.7, 0.0, colour::SkinTone::Light);
    person.face_height = 1.6;
    let place = scene::Place::new(harness::bright_room([4.4, 5.5, 2.6]));
    setup.geometry = scene::assemble(&place, &[person]).unwrap().geometry;
    setup
}

fn two_people() -> Setup {
    let scene = oracle::setups()
        .into_iter()
        .find(|setup| setup.sitters.len() == 2);
    scene.expect("one of the scenes has two people").portrait()
}

fn measure(setup: &Setup) -> Value {
    let Source::Flash(flash) = &setup.source else {
        panic!("the scene is lit by a flash");
    };
    let begun = Instant::now();
    let room = Room::new(setup.geometry.clone(), Fineness::LIVE, 1);
    let solve = begun.elapsed().as_secs_f64();
    let (begun, work) = (Instant::now(), cpu_seconds());
    let live = LiveView::new(&room, &setup.view, SIZE, flash, 1);
    let (prepare, prepare_cpu) = (begun.elapsed().as_secs_f64(), cpu_seconds() - work);

    // Three channels of five bands stand for an observer; what the weights are costs nothing.
    let observer: Observer =
        std::array::from_fn(|channel| Spectrum::from_fn(|band| f32::from(u8::from(band / 5 == 2 - channel))));
    let tristimulus = times(flash, |aim| {
        let picture = live.tristimulus(&room, aim, &observer);
        picture[SIZE[0] * SIZE[1] / 2][0]
    });
    let layer = times(flash, |aim| live.layer(&room, aim).pixels[0].0[0]);
    let bounces = times(flash, |aim| {
        live.radiosity(&room, &live.patch_irradiance(aim))[0].0[0]
    });
    json!({
        "patches": room.patches.list.len(),
        "receivers": live.receivers(),
        "links": live.links(),
        "room_s": solve,
        "prepare_s": prepare,
        "prepare_cpu_s": prepare_cpu,
        "tristimulus_ms": tristimulus,
        "tristimulus_frames_per_s": 1e3 / tristimulus["median"].as_f64().unwrap(),
        "layer_ms": layer,
        "layer_frames_per_s": 1e3 / layer["median"].as_f64().unwrap(),
        "of_which_bounces_ms": bounces["median"],
    })
}

/// Median and slowest of the times of frames whose aims go round the room and up and down.
fn times(flash: &PlacedFlash, mut frame: impl FnMut(&PlacedFlash) -> f32) -> Value {
    let work = cpu_seconds();
    let mut checksum = 0.0;
    let mut milliseconds: Vec<f64> = (0..FRAMES)
        .map(|index| {
            let turn = index as f32 / FRAMES as f32 * std::f32::consts::TAU;
            let towards = Vec3::new(turn.sin(), turn.cos(), 0.8 * (3.0 * turn).sin());
            let target = flash.position + towards;
            let aim = PlacedFlash::aimed(flash.beam.clone(), flash.position, target, [0.0, 0.0]);
            let begun = Instant::now();
            checksum += frame(&aim);
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    assert!(checksum.is_finite());
    let cpu = (cpu_seconds() - work) * 1e3 / FRAMES as f64;
    milliseconds.sort_by(f64::total_cmp);
    json!({
        "median": milliseconds[FRAMES / 2],
        "fastest": milliseconds[0],
        "slowest": milliseconds[FRAMES - 1],
        "cpu": cpu,
    })
}
