//! Our light against an independent general-purpose renderer: the same triangles, the same beam, the same
//! meters and the same camera, and nothing else in common.
//!
//! Seven scenes are built by [`scene::assemble`], made matt on both sides, written out and rendered by
//! Mitsuba 3 through `oracle/renderer.py`. A reading or a part of a picture agrees when it lies within 2 %
//! and three standard errors of both programs; the errors themselves must be small enough for that to
//! mean something.
//!
//! What is left out, and why: coats and overlays (the other program defines glossy layers differently, so
//! they are tested against published values elsewhere) and the size of the flash's window (a point gives
//! both programs the same shadow edge).

mod oracle;

use glam::Vec3;
use light::HeadDress;
use oracle::{CHANNELS, Setup};
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;
use transport::{
    Effort, Fineness, Guide, Layer, Meter, Method, PlacedFlash, Receptor, Room, SolvedLight, SolvedMeter,
    Source, read_meters, render,
};

/// Systematic difference that is allowed, as a share of the other program's value.
const ALLOWED: f64 = 0.02;
/// Standard errors that are allowed on top.
const SIGMAS: f64 = 3.0;
/// Neither program's standard error of a meter may be larger than this share of its reading.
const LARGEST_ERROR: f64 = 0.01;
/// Size of the pictures of the face in pixels, and of the blocks in which they are compared.
const PICTURE: [usize; 2] = [96, 120];
const BLOCK: usize = 8;
/// Independent repeats of each of our pictures, and passes in each.
const REPEATS: usize = 16;
const PASSES: usize = 6;
/// Half the smallest step that the photographer can set, a third of a stop: what the solved room must
/// keep to at every meter.
const HALF_A_THIRD: f64 = 1.0 / 6.0;
/// Reflectances that are sent there and back.
const SENT: [f64; 3] = [0.03, 0.41, 0.97];

/// Everything that was measured, by both.
struct Comparison {
    setups: Vec<Setup>,
    bare: Bare,
    answer: Value,
}

/// A flash and meters in empty space.
struct Bare {
    flash: PlacedFlash,
    meters: Vec<(String, Meter)>,
}

/// The other program is started once, whichever test asks first.
fn comparison() -> &'static Comparison {
    static DONE: OnceLock<Result<Comparison, String>> = OnceLock::new();
    match DONE.get_or_init(ask_the_other_renderer) {
        Ok(comparison) => comparison,
        Err(reason) => panic!("{reason}"),
    }
}

fn ask_the_other_renderer() -> Result<Comparison, String> {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("independent_renderer");
    let setups = oracle::setups();
    let bare = Bare::new();
    let mut scenes: Vec<Value> = setups
        .iter()
        .enumerate()
        .map(|(index, setup)| oracle::export(&folder.join(index.to_string()), setup, PICTURE))
        .collect();
    scenes.push(oracle::export_bare(&folder.join("bare"), "bare", &bare.flash, &bare.meters));
    let request = json!({
        "reflectances": SENT,
        "effort": {
            "vectorised": { "meter_paths": 8192, "picture_samples": 16, "repeats": 32 },
            "scalar": { "meter_paths": 512, "picture_samples": 4, "repeats": 32 },
        },
        "scenes": scenes,
    });
    let (asked, answered) = (folder.join("request.json"), folder.join("answer.json"));
    std::fs::write(&asked, request.to_string()).unwrap();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/oracle/renderer.py");
    let install = "The independent renderer that our light is compared with is missing: \
                   run `pip install -r requirements-oracle.txt` (Python 3) and test again.";
    let ran = Command::new("python3")
        .arg(script)
        .args([&asked, &answered])
        .output()
        .map_err(|_| install.to_owned())?;
    let complaint = String::from_utf8_lossy(&ran.stderr);
    if complaint.contains("missing:") {
        return Err(install.to_owned());
    }
    if !ran.status.success() {
        return Err(format!("The independent renderer stopped:\n{complaint}"));
    }
    let answer: Value = serde_json::from_str(&std::fs::read_to_string(answered).unwrap()).unwrap();
    eprintln!("{} as {}", answer["renderer"], answer["variant"]);
    for scene in answer["scenes"].as_array().unwrap() {
        eprintln!("  {}: {:.1} s, of which meters {:.1} s", scene["name"], number(&scene["seconds"]), number(&scene["meter_seconds"]));
    }
    Ok(Comparison {
        setups,
        bare,
        answer,
    })
}

impl Bare {
    /// A narrow beam, because its edge is the hardest to pass through a table, and meters from its axis to
    /// where it has faded, near and far, square to it and tilted.
    fn new() -> Self {
        let position = Vec3::new(0.3, -0.2, 0.1);
        let flash = PlacedFlash::aimed(
            oracle::beam(105.0, HeadDress::Bare),
            position,
            position + Vec3::new(0.8, 1.0, 0.4),
            [0.0, 0.0],
        );
        let meters = [0.0f32, 3.0, 6.0, 9.0, 12.0, 16.0, 22.0, 30.0, 42.0, 55.0, 68.0, 78.0]
            .into_iter()
            .enumerate()
            .map(|(index, degrees)| {
                let turn = 0.7 + 1.9 * index as f32;
                let (sin, cos) = degrees.to_radians().sin_cos();
                let direction = flash.world_from_head * Vec3::new(sin * turn.cos(), sin * turn.sin(), cos);
                let meter = Meter {
                    position: position + direction * (0.6 + 0.3 * index as f32),
                    receptor: Receptor::Flat((-direction + 0.4 * direction.any_orthonormal_vector()).normalize()),
                };
                (format!("{degrees}° off the axis"), meter)
            })
            .collect();
        Bare { flash, meters }
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// A value and its standard error.
#[derive(Clone, Copy, Debug)]
struct Estimate {
    mean: f64,
    error: f64,
}

impl Estimate {
    fn of(value: &Value, channel: usize) -> Self {
        Estimate {
            mean: number(&value["mean"][channel]),
            error: number(&value["standard_error"][channel]),
        }
    }

    /// Difference to the other program's value in standard errors of both.
    fn sigmas_from(self, theirs: Estimate) -> f64 {
        (self.mean - theirs.mean) / self.error.hypot(theirs.error).max(1e-12)
    }

    fn agrees_with(self, theirs: Estimate, sigmas: f64) -> bool {
        let noise = sigmas * self.error.hypot(theirs.error);
        (self.mean - theirs.mean).abs() <= ALLOWED * theirs.mean + noise
    }
}

/// One scene made ready on our side.
struct Ours<'a> {
    setup: &'a Setup,
    room: Room,
    light: SolvedLight,
}

impl<'a> Ours<'a> {
    fn new(setup: &'a Setup) -> Self {
        let room = Room::new(setup.geometry.clone(), Fineness::PROOF, 11);
        let light = room.solve(&setup.source);
        Ours { setup, room, light }
    }

    fn meters(&self) -> Vec<Meter> {
        self.setup.meters.iter().map(|(_, meter)| *meter).collect()
    }

    /// The referee's readings, meter by meter and channel by channel.
    fn referee(&self) -> Vec<[Estimate; 3]> {
        let guide = Guide::new(&self.room, &self.light.radiosity);
        let radiosity = Some(&self.light.radiosity[..]);
        read_meters(
            &self.room,
            &self.setup.source,
            Some(&guide),
            radiosity,
            &self.meters(),
            1 << 15,
            23,
        )
        .iter()
        .map(|reading| {
            CHANNELS.map(|band| Estimate {
                mean: reading.mean.0[band].into(),
                error: reading.standard_error.0[band].into(),
            })
        })
        .collect()
    }

    /// The solved room's readings.
    fn solved(&self) -> Vec<[f64; 3]> {
        SolvedMeter::solve(&self.room, &self.meters(), 4096)
            .iter()
            .map(|meter| {
                let reading = match &self.setup.source {
                    Source::Flash(flash) => meter.read_flash(&self.room, flash, &self.light.direct),
                    _ => meter.read_glow(&self.light.glow),
                };
                CHANNELS.map(|band| reading.0[band].into())
            })
            .collect()
    }

    /// Independent pictures by one method.
    fn pictures(&self, method: Method) -> Vec<Layer> {
        let effort = Effort {
            most_passes: PASSES,
            error: 0.0,
        };
        (0..REPEATS as u64)
            .map(|repeat| {
                render(
                    &self.room,
                    &self.setup.source,
                    &self.light,
                    &self.setup.view,
                    PICTURE,
                    method,
                    effort,
                    1 + 1_000_003 * repeat,
                    &mut |_| true,
                )
                .layer
            })
            .collect()
    }
}

fn theirs(index: usize) -> &'static Value {
    &comparison().answer["scenes"][index]
}

#[test]
fn reflectances_arrive_there_untouched() {
    let arrived = comparison().answer["reflectances"].as_array().unwrap();
    for (sent, arrived) in SENT.iter().zip(arrived) {
        assert!((number(arrived) - sent).abs() < 1e-6, "{sent} became {arrived}");
    }
}

/// In empty space the illuminance is I cos θ / d², with our own intensity.
#[test]
fn the_beam_there_is_the_beam_here() {
    let Comparison { bare, answer, .. } = comparison();
    let scene = answer["scenes"].as_array().unwrap().last().unwrap();
    for (index, (name, meter)) in bare.meters.iter().enumerate() {
        let towards = bare.flash.position - meter.position;
        let direction = towards.normalize();
        let expected = f64::from(
            bare.flash.intensity(-direction) * meter.receptor.weight(direction) / towards.length_squared(),
        );
        assert!(expected > 1e-3, "{name}: nothing to compare");
        for channel in 0..3 {
            let found = Estimate::of(&scene["meters"][index], channel);
            assert!(
                (found.mean / expected - 1.0).abs() < 0.005,
                "{name}: {} there, {expected} here",
                found.mean
            );
        }
    }
}

#[test]
fn the_referee_reads_what_the_other_renderer_reads() {
    let mut wrong = Vec::new();
    let mut compared = 0;
    for (index, setup) in comparison().setups.iter().enumerate() {
        let ours = Ours::new(setup).referee();
        eprintln!("{}", setup.name);
        for (place, (name, _)) in setup.meters.iter().enumerate() {
            let mut line = format!("  {name:32}");
            for channel in 0..3 {
                let here = ours[place][channel];
                let there = Estimate::of(&theirs(index)["meters"][place], channel);
                line += &format!(
                    "  {:9.4} ±{:.2}% | {:9.4} ±{:.2}% ({:+.2}%)",
                    here.mean,
                    100.0 * here.error / here.mean,
                    there.mean,
                    100.0 * there.error / there.mean,
                    100.0 * (here.mean / there.mean - 1.0)
                );
                let sharp = here.error <= LARGEST_ERROR * here.mean && there.error <= LARGEST_ERROR * there.mean;
                if !here.agrees_with(there, SIGMAS) || !sharp {
                    wrong.push(format!("{}, {name}, channel {channel}: {here:?} here, {there:?} there", setup.name));
                }
                compared += 1;
            }
            eprintln!("{line}");
        }
    }
    assert!(wrong.is_empty(), "of {compared}:\n{}", wrong.join("\n"));
}

#[test]
fn the_solved_room_keeps_within_half_a_settable_third() {
    let mut wrong = Vec::new();
    for (index, setup) in comparison().setups.iter().enumerate() {
        let ours = Ours::new(setup).solved();
        let (mut squares, mut largest) = (0.0, 0.0f64);
        for (place, (name, _)) in setup.meters.iter().enumerate() {
            for channel in 0..3 {
                let there = Estimate::of(&theirs(index)["meters"][place], channel);
                let stops = (ours[place][channel] / there.mean).log2();
                squares += stops * stops;
                largest = largest.max(stops.abs());
                if stops.abs() > HALF_A_THIRD {
                    wrong.push(format!("{}, {name}, channel {channel}: {stops:+.3} stops", setup.name));
                }
            }
        }
        let spread = (squares / (3 * setup.meters.len()) as f64).sqrt();
        eprintln!("{}: solved room {spread:.3} stops root mean square, {largest:.3} at most", setup.name);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Blocks of a picture and the whole of it, for one channel.
struct Blocks {
    blocks: Vec<Estimate>,
    whole: Estimate,
}

impl Blocks {
    /// From the mean and the squared standard error of every pixel; pixels are independent.
    fn new(pixel: impl Fn(usize) -> (f64, f64)) -> Self {
        let [columns, rows] = [PICTURE[0] / BLOCK, PICTURE[1] / BLOCK];
        let blocks: Vec<Estimate> = (0..columns * rows)
            .map(|block| {
                let (left, top) = (block % columns * BLOCK, block / columns * BLOCK);
                mean_of((0..BLOCK * BLOCK).map(|i| {
                    pixel((top + i / BLOCK) * PICTURE[0] + left + i % BLOCK)
                }))
            })
            .collect();
        let whole = mean_of(blocks.iter().map(|block| (block.mean, block.error.powi(2))));
        Blocks { blocks, whole }
    }

    fn theirs(picture: &Value, channel: usize) -> Self {
        Blocks::new(|pixel| {
            let at = 3 * pixel + channel;
            (
                number(&picture["mean"][at]),
                number(&picture["standard_error"][at]).powi(2),
            )
        })
    }

    fn ours(pictures: &[Layer], channel: usize) -> Self {
        let n = pictures.len() as f64;
        Blocks::new(|pixel| {
            let values = || pictures.iter().map(|p| f64::from(p.pixels[pixel].0[CHANNELS[channel]]));
            let mean = values().sum::<f64>() / n;
            let variance = values().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0);
            (mean, variance / n)
        })
    }
}

/// The mean of independent values given with their squared errors.
fn mean_of(values: impl Iterator<Item = (f64, f64)>) -> Estimate {
    let (mut sum, mut squares, mut n) = (0.0, 0.0, 0.0);
    for (value, square) in values {
        sum += value;
        squares += square;
        n += 1.0;
    }
    Estimate {
        mean: sum / n,
        error: f64::sqrt(squares) / n,
    }
}

/// With some two hundred blocks in each of seven pictures and three channels, a few lie beyond three
/// standard errors by chance alone; beyond this, one in about 150,000 does.
const BLOCK_SIGMAS: f64 = 4.5;

#[test]
fn the_referee_sees_what_the_other_renderer_sees() {
    pictures_agree(Method::Referee);
}

#[test]
fn the_proof_sees_what_the_other_renderer_sees() {
    pictures_agree(Method::Solved);
}

fn pictures_agree(method: Method) {
    let mut wrong = Vec::new();
    for (index, setup) in comparison().setups.iter().enumerate() {
        let pictures = Ours::new(setup).pictures(method);
        for channel in 0..3 {
            let here = Blocks::ours(&pictures, channel);
            let there = Blocks::theirs(&theirs(index)["picture"], channel);
            let pairs = || here.blocks.iter().zip(&there.blocks);
            let noise = |e: &Estimate| e.error / there.whole.mean;
            let spread = (pairs().map(|(a, b)| a.sigmas_from(*b).powi(2)).sum::<f64>() / pairs().count() as f64).sqrt();
            let outside: Vec<String> = pairs()
                .enumerate()
                .filter(|(_, (a, b))| !a.agrees_with(**b, BLOCK_SIGMAS))
                .map(|(block, (a, b))| format!("block {block}: {a:?} here, {b:?} there"))
                .collect();
            eprintln!(
                "{method:?} {} channel {channel}: whole {:+.2}% ({:+.1} σ), blocks {spread:.2} σ rms, {} outside, noise of a block here {:.2}%, there {:.2}%",
                setup.name,
                100.0 * (here.whole.mean / there.whole.mean - 1.0),
                here.whole.sigmas_from(there.whole),
                outside.len(),
                100.0 * median(here.blocks.iter().map(noise)),
                100.0 * median(there.blocks.iter().map(noise)),
            );
            if !here.whole.agrees_with(there.whole, SIGMAS) {
                wrong.push(format!("{} channel {channel}, whole: {:?} here, {:?} there", setup.name, here.whole, there.whole));
            }
            wrong.extend(outside.into_iter().map(|o| format!("{} channel {channel}, {o}", setup.name)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut sorted: Vec<f64> = values.collect();
    sorted.sort_by(f64::total_cmp);
    sorted[sorted.len() / 2]
}
