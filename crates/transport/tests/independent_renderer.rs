//! Our light against an independent general-purpose renderer: the same triangles, the same beam, the same
//! meters and the same camera, and nothing else in common.
//!
//! Eleven scenes, four of them by daylight, are built by [`scene::assemble`], made matt on both sides, written out and rendered by
//! Mitsuba 3 through `oracle/renderer.py`. A reading or a part of a picture agrees when it lies within 2 %
//! and three standard errors of both programs; the errors themselves must be small enough for that to
//! mean something.
//!
//! What is left out, and why:
//! - coats and overlays: the other program defines glossy layers differently, so they are tested against
//!   published values elsewhere;
//! - the size of the flash's window: a point gives both programs the same shadow edge;
//! - in the blocks of a picture, pixels where the smooth normal and the flat triangle disagree by more than
//!   [`LARGEST_TILT`], which is nearly all hair and no open skin: there we start rays on the smooth surface
//!   that the triangles stand for, the other program on the triangles, and neither is right. For the same
//!   reason pixels of people are left out on which the sun falls at less than 15 degrees. The mean of the whole picture
//!   has all of them in it.

mod oracle;

use glam::{Vec2, Vec3};
use light::HeadDress;
use oracle::{CHANNELS, Setup};
use scene::{Face, ObjectKind};
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;
use transport::{
    Effort, Fineness, Guide, Layer, Meter, Method, Operator, PlacedFlash, Receptor, Room, SolvedLight,
    Source, SurfacePoint, read_light, read_meters, render,
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
/// Independent repeats of each of our pictures.
const REPEATS: usize = 16;
/// Angle between the smooth and the flat normal, in degrees, up to which a pixel is compared in a block.
const LARGEST_TILT: f32 = 12.0;
/// Sine of the height above or below the horizon from which a picture of the outdoors is compared.
const EDGE_OF_THE_OUTDOORS: f32 = 0.015;
/// Cosine of the sun on a surface below which a pixel is not compared.
const GRAZING: f32 = 0.25;
/// Least number of pixels that a block must keep.
const LEAST_PIXELS: usize = 16;
/// Half the smallest step that the photographer can set, a third of a stop: what the solved room must
/// keep to at every meter.
const HALF_A_THIRD: f64 = 1.0 / 6.0;
/// Reflectances that are sent there and back.
const SENT: [f64; 3] = [0.03, 0.41, 0.97];

/// Everything that was measured, by both.
struct Comparison {
    ours: Vec<Ours>,
    bare: [Bare; 2],
    answer: Value,
}

/// A flash and meters in empty space.
struct Bare {
    name: &'static str,
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
    let bare = [
        // A narrow beam, because its edge is the hardest to pass through a table.
        Bare::new(
            "narrow beam",
            105.0,
            HeadDress::Bare,
            &[0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0],
        ),
        Bare::new(
            "dome",
            24.0,
            HeadDress::Dome,
            &[0.0, 15.0, 30.0, 50.0, 70.0, 85.0, 100.0, 130.0, 175.0],
        ),
    ];
    let mut scenes: Vec<Value> = setups
        .iter()
        .enumerate()
        .map(|(index, setup)| oracle::export(&folder.join(index.to_string()), setup, PICTURE))
        .collect();
    scenes.extend(
        bare.iter()
            .map(|bare| oracle::export_bare(&folder.join(bare.name), bare.name, &bare.flash, &bare.meters)),
    );
    let request = json!({
        "reflectances": SENT,
        "effort": {
            "vectorised": { "meter_samples": 512, "picture_samples": 32, "picture_repeats": 16 },
            "scalar": { "meter_samples": 512, "picture_samples": 8, "picture_repeats": 16 },
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
        eprintln!(
            "  {}: {:.1} s, of which meters {:.1} s",
            scene["name"],
            number(&scene["seconds"]),
            number(&scene["meter_seconds"])
        );
    }
    Ok(Comparison {
        ours: setups.into_iter().map(Ours::new).collect(),
        bare,
        answer,
    })
}

impl Bare {
    /// Meters at these angles from the axis, near and far, each tilted out of the beam.
    fn new(name: &'static str, zoom: f64, dress: HeadDress, angles: &[f32]) -> Self {
        let position = Vec3::new(0.3, -0.2, 0.1);
        let target = position + Vec3::new(0.8, 1.0, 0.4);
        let flash = PlacedFlash::aimed(oracle::beam(zoom, dress), position, target, [0.0, 0.0]);
        let meters = angles
            .iter()
            .enumerate()
            .map(|(index, degrees)| {
                let turn = 0.7 + 1.9 * index as f32;
                let (sin, cos) = degrees.to_radians().sin_cos();
                let direction = flash.world_from_head * Vec3::new(sin * turn.cos(), sin * turn.sin(), cos);
                let normal = (-direction + 0.4 * direction.any_orthonormal_vector()).normalize();
                let meter = Meter {
                    position: position + direction * (0.6 + 0.3 * index as f32),
                    receptor: Receptor::Flat(normal),
                };
                (format!("{name}, {degrees}° off the axis"), meter)
            })
            .collect();
        Bare { name, flash, meters }
    }
}

/// Fails with the first few of what is wrong.
fn nothing_is(wrong: &[String]) {
    let shown = &wrong[..wrong.len().min(12)];
    assert!(
        wrong.is_empty(),
        "{} disagreements, of which\n{}",
        wrong.len(),
        shown.join("\n")
    );
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

    fn agrees_with(self, theirs: Estimate, allowed: f64, sigmas: f64) -> bool {
        let noise = sigmas * self.error.hypot(theirs.error);
        (self.mean - theirs.mean).abs() <= allowed * theirs.mean + noise
    }
}

/// One scene made ready on our side.
struct Ours {
    setup: Setup,
    room: Room,
    /// The solved light of every source.
    lights: Vec<SolvedLight>,
}

impl Ours {
    fn new(setup: Setup) -> Self {
        let room = Room::new(setup.geometry.clone(), Fineness::PROOF, 11);
        let lights = setup.sources().map(|(source, _)| room.solve(source)).collect();
        Ours { setup, room, lights }
    }

    fn meters(&self) -> Vec<Meter> {
        self.setup.meters.iter().map(|(_, meter)| *meter).collect()
    }

    /// The referee's readings, meter by meter and channel by channel.
    fn referee(&self) -> Vec<[Estimate; 3]> {
        let meters = self.meters();
        let mut sums = vec![
            [Estimate {
                mean: 0.0,
                error: 0.0
            }; 3];
            meters.len()
        ];
        for ((source, weights), light) in self.setup.sources().zip(&self.lights) {
            let guide = Guide::new(&self.room, &light.radiosity);
            let radiosity = Some(&light.radiosity[..]);
            let readings = read_meters(
                &self.room,
                source,
                Some(&guide),
                radiosity,
                &meters,
                self.setup.effort << 15,
                23,
            );
            for (sum, reading) in sums.iter_mut().zip(&readings) {
                for ((sum, band), weight) in sum.iter_mut().zip(CHANNELS).zip(weights) {
                    sum.mean += f64::from(weight * reading.mean.0[band]);
                    sum.error = sum
                        .error
                        .hypot(f64::from(weight * reading.standard_error.0[band]));
                }
            }
        }
        sums
    }

    /// The solved room's readings.
    fn solved(&self) -> Vec<[f64; 3]> {
        let meters = self.meters();
        let operator = Operator::solve(&self.room, &meters);
        let read = |meter: usize, source: &Source, light: &SolvedLight| match source {
            Source::Flash(flash) => operator.read_flash(&self.room, meter, flash, &light.direct),
            Source::Outside(_) => read_light(&self.room, source, light, &meters[meter], 1 << 14),
            _ => operator.read_glow(&self.room, meter, &light.glow),
        };
        (0..meters.len())
            .map(|meter| {
                let mut sum = [0.0; 3];
                for ((source, weights), light) in self.setup.sources().zip(&self.lights) {
                    let reading = read(meter, source, light);
                    for ((sum, band), weight) in sum.iter_mut().zip(CHANNELS).zip(weights) {
                        *sum += f64::from(weight * reading.0[band]);
                    }
                }
                sum
            })
            .collect()
    }

    /// Independent pictures by one method.
    fn pictures(&self, method: Method) -> Vec<Layer> {
        let effort = Effort {
            // The proof is far less noisy.
            most_passes: if method == Method::Solved { 2 } else { 6 },
            error: 0.0,
            plain: true,
        };
        (0..REPEATS as u64)
            .map(|repeat| {
                let layers = self
                    .setup
                    .sources()
                    .zip(&self.lights)
                    .map(|((source, weights), light)| {
                        let layer = render(
                            &self.room,
                            source,
                            light,
                            &self.setup.view,
                            PICTURE,
                            method,
                            effort,
                            1 + 1_000_003 * repeat,
                            &mut |_| true,
                        )
                        .layer;
                        (layer, weights)
                    });
                sum_of(layers)
            })
            .collect()
    }
}

/// Layers added up, each weighed in the bands that are compared.
fn sum_of(layers: impl Iterator<Item = (Layer, [f32; 3])>) -> Layer {
    let weighed = layers.map(|(mut layer, weights)| {
        for pixel in &mut layer.pixels {
            for (band, weight) in CHANNELS.into_iter().zip(weights) {
                pixel.0[band] *= weight;
            }
        }
        layer
    });
    weighed
        .reduce(|mut sum, layer| {
            for (pixel, other) in sum.pixels.iter_mut().zip(layer.pixels) {
                *pixel += other;
            }
            sum
        })
        .expect("a setup has a source")
}

impl Ours {
    /// Whether the smooth and the flat normal agree all over a pixel of the picture, and it shows no edge of
    /// the outdoors: no outline of a person with the sky behind, and not the horizon, which the other program has as
    /// a picture with steps of a sixth of a degree.
    fn comparable(&self) -> Vec<bool> {
        let [width, height] = PICTURE;
        (0..width * height)
            .map(|pixel| {
                let looks = |places: &[(f32, f32)]| -> Vec<Look> {
                    places
                        .iter()
                        .map(|&(dx, dy)| self.look((pixel % width) as f32 + dx, (pixel / width) as f32 + dy))
                        .collect()
                };
                let within = looks(&[(0.1, 0.1), (0.9, 0.1), (0.5, 0.5), (0.1, 0.9), (0.9, 0.9)]);
                let around = looks(&[(-1.5, -1.5), (2.5, -1.5), (-1.5, 2.5), (2.5, 2.5)]);
                let is_sky = |look: &Look| *look == Look::Sky;
                let outline =
                    around.iter().chain(&within).any(is_sky) && !around.iter().chain(&within).all(is_sky);
                within.iter().all(|look| matches!(look, Look::Smooth | Look::Sky)) && !outline
            })
            .collect()
    }

    /// What is seen through a place of the picture, in pixels from its top left corner.
    fn look(&self, x: f32, y: f32) -> Look {
        let [width, height] = PICTURE.map(|side| side as f32);
        let view = &self.setup.view;
        let direction = view.direction(Vec2::new(x / width, y / height), width / height);
        let Some(hit) = self.room.tracer.closest(view.position, direction) else {
            return Look::Edge;
        };
        let object = self.room.geometry.object[hit.triangle as usize] as usize;
        if oracle::is_hole(&self.setup, object) {
            return match direction.z.abs() > EDGE_OF_THE_OUTDOORS {
                true => Look::Sky,
                false => Look::Edge,
            };
        }
        let point = SurfacePoint::new(&self.room.geometry, &hit, view.position, direction);
        // Where the sun grazes a rounded surface, the tilt between the two normals decides how much arrives.
        let rounded = point.normal.dot(point.flat) < 0.999_999;
        let grazed = rounded
            && self.setup.sources().any(|(source, _)| match source {
                Source::Outside(outside) => outside
                    .beam()
                    .is_some_and(|beam| beam.towards.dot(point.normal).abs() < GRAZING),
                _ => false,
            });
        match !grazed && point.normal.dot(point.flat) >= LARGEST_TILT.to_radians().cos() {
            true => Look::Smooth,
            false => Look::Edge,
        }
    }
}

/// What a ray of the camera meets.
#[derive(Clone, Copy, PartialEq)]
enum Look {
    /// A surface whose smooth and flat normals agree.
    Smooth,
    /// The outdoors, away from the horizon.
    Sky,
    /// What cannot be compared closely.
    Edge,
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
    let Comparison { ours, bare, .. } = comparison();
    for (index, bare) in bare.iter().enumerate() {
        let scene = theirs(ours.len() + index);
        for (place, (name, meter)) in bare.meters.iter().enumerate() {
            let towards = bare.flash.position - meter.position;
            let direction = towards.normalize();
            let expected = f64::from(
                bare.flash.intensity(-direction) * meter.receptor.weight(direction)
                    / towards.length_squared(),
            );
            assert!(expected > 1e-3, "{name}: nothing to compare");
            for channel in 0..3 {
                let found = Estimate::of(&scene["meters"][place], channel);
                assert!(
                    (found.mean / expected - 1.0).abs() < 0.005,
                    "{name}: {found:?} there, {expected} here"
                );
            }
        }
    }
}

#[test]
fn the_referee_reads_what_the_other_renderer_reads() {
    let mut wrong = Vec::new();
    let mut compared = 0;
    for (index, ours) in comparison().ours.iter().enumerate() {
        let setup = &ours.setup;
        let ours = ours.referee();
        eprintln!("{}", setup.name);
        for (place, (name, _)) in setup.meters.iter().enumerate() {
            let mut line = format!("  {name:32}");
            for (channel, &here) in ours[place].iter().enumerate() {
                let there = Estimate::of(&theirs(index)["meters"][place], channel);
                line += &format!(
                    "  {:9.4} ±{:.2}% | {:9.4} ±{:.2}% ({:+.2}%)",
                    here.mean,
                    100.0 * here.error / here.mean,
                    there.mean,
                    100.0 * there.error / there.mean,
                    100.0 * (here.mean / there.mean - 1.0)
                );
                let sharp =
                    here.error <= LARGEST_ERROR * here.mean && there.error <= LARGEST_ERROR * there.mean;
                if !here.agrees_with(there, ALLOWED, SIGMAS) || !sharp {
                    wrong.push(format!(
                        "{}, {name}, channel {channel}: {here:?} here, {there:?} there",
                        setup.name
                    ));
                }
                compared += 1;
            }
            eprintln!("{line}");
        }
    }
    assert!(compared > 200, "only {compared} readings were compared");
    nothing_is(&wrong);
}

#[test]
fn the_solved_room_keeps_within_half_a_settable_third() {
    let mut wrong = Vec::new();
    for (index, ours) in comparison().ours.iter().enumerate() {
        let setup = &ours.setup;
        let ours = ours.solved();
        let (mut squares, mut largest) = (0.0, 0.0f64);
        for (place, (name, _)) in setup.meters.iter().enumerate() {
            for (channel, here) in ours[place].iter().enumerate() {
                let there = Estimate::of(&theirs(index)["meters"][place], channel);
                let stops = (here / there.mean).log2();
                squares += stops * stops;
                largest = largest.max(stops.abs());
                if stops.abs() > HALF_A_THIRD {
                    wrong.push(format!(
                        "{}, {name}, channel {channel}: {stops:+.3} stops",
                        setup.name
                    ));
                }
            }
        }
        let spread = (squares / (3 * setup.meters.len()) as f64).sqrt();
        eprintln!(
            "{}: solved room {spread:.3} stops root mean square, {largest:.3} at most",
            setup.name
        );
    }
    nothing_is(&wrong);
}

/// Every pixel of a picture in one channel, with its standard error.
fn their_pixels(picture: &Value, channel: usize) -> Vec<Estimate> {
    let (mean, error) = (&picture["mean"], &picture["standard_error"]);
    (0..PICTURE[0] * PICTURE[1])
        .map(|pixel| Estimate {
            mean: number(&mean[3 * pixel + channel]),
            error: number(&error[3 * pixel + channel]),
        })
        .collect()
}

fn our_pixels(pictures: &[Layer], channel: usize) -> Vec<Estimate> {
    let n = pictures.len() as f64;
    (0..PICTURE[0] * PICTURE[1])
        .map(|pixel| {
            let values = || {
                pictures
                    .iter()
                    .map(|p| f64::from(p.pixels[pixel].0[CHANNELS[channel]]))
            };
            let mean = values().sum::<f64>() / n;
            let variance = values().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0);
            Estimate {
                mean,
                error: (variance / n).sqrt(),
            }
        })
        .collect()
}

/// The blocks of a picture: column and row, and the numbers of those of their pixels that can be compared.
fn blocks(comparable: &[bool]) -> Vec<([usize; 2], Vec<usize>)> {
    let [columns, rows] = [PICTURE[0] / BLOCK, PICTURE[1] / BLOCK];
    (0..columns * rows)
        .map(|block| {
            let place = [block % columns, block / columns];
            let pixels: Vec<usize> = (0..BLOCK * BLOCK)
                .map(|i| (place[1] * BLOCK + i / BLOCK) * PICTURE[0] + place[0] * BLOCK + i % BLOCK)
                .filter(|&pixel| comparable[pixel])
                .collect();
            (place, pixels)
        })
        .filter(|(_, pixels)| pixels.len() >= LEAST_PIXELS)
        .collect()
}

/// The mean of independent estimates.
fn mean_of(values: impl Iterator<Item = Estimate>) -> Estimate {
    let (mut sum, mut squares, mut n) = (0.0, 0.0, 0.0);
    for value in values {
        sum += value.mean;
        squares += value.error.powi(2);
        n += 1.0;
    }
    Estimate {
        mean: sum / n,
        error: f64::sqrt(squares) / n,
    }
}

/// With some 150 blocks in each of eleven pictures and three channels, a few lie beyond three standard
/// errors by chance alone; beyond this, one in about 150,000 does.
const BLOCK_SIGMAS: f64 = 4.5;

#[test]
fn the_referee_sees_what_the_other_renderer_sees() {
    pictures_agree(Method::Referee, ALLOWED);
}

/// The proof shortens every path with the solved room, and is held to the same limits as the referee.
#[test]
fn the_proof_sees_what_the_other_renderer_sees() {
    pictures_agree(Method::Solved, ALLOWED);
}

/// `allowed` is the systematic difference that a block may have; for the whole picture it is [`ALLOWED`].
fn pictures_agree(method: Method, allowed: f64) {
    let mut wrong = Vec::new();
    for (index, ours) in comparison().ours.iter().enumerate() {
        let blocks = blocks(&ours.comparable());
        assert!(
            blocks.len() > 90,
            "{}: too few blocks can be compared",
            ours.setup.name
        );
        let pictures = ours.pictures(method);
        for channel in 0..3 {
            let name = format!("{method:?}, {}, channel {channel}", ours.setup.name);
            let here = our_pixels(&pictures, channel);
            let there = their_pixels(&theirs(index)["picture"], channel);
            let whole = [&here, &there].map(|pixels| mean_of(pixels.iter().copied()));
            if !whole[0].agrees_with(whole[1], ALLOWED, SIGMAS) {
                wrong.push(format!(
                    "{name}, whole: {:?} here, {:?} there",
                    whole[0], whole[1]
                ));
            }
            let pairs: Vec<[Estimate; 2]> = blocks
                .iter()
                .map(|(_, block)| [&here, &there].map(|pixels| mean_of(block.iter().map(|&p| pixels[p]))))
                .collect();
            for ([a, b], (place, _)) in pairs.iter().zip(&blocks) {
                if !a.agrees_with(*b, allowed, BLOCK_SIGMAS) {
                    wrong.push(format!("{name}, block {place:?}: {a:?} here, {b:?} there"));
                }
            }
            tell(&name, whole, &pairs);
        }
    }
    nothing_is(&wrong);
}

/// One line about a picture, for a run of the test with its output shown.
fn tell(name: &str, [here, there]: [Estimate; 2], pairs: &[[Estimate; 2]]) {
    let mean_square = pairs.iter().map(|[a, b]| a.sigmas_from(*b).powi(2)).sum::<f64>() / pairs.len() as f64;
    let noise = |side: usize| 100.0 * median(pairs.iter().map(|pair| pair[side].error / pair[side].mean));
    let largest = pairs
        .iter()
        .map(|[a, b]| (a.mean / b.mean - 1.0).abs())
        .fold(0.0, f64::max);
    eprintln!(
        "{name}: whole {:+.2}% ({:+.1} σ); {} blocks, {:.2} σ root mean square, {:.1}% at most, noise of a \
         block {:.2}% here, {:.2}% there",
        100.0 * (here.mean / there.mean - 1.0),
        here.sigmas_from(there),
        pairs.len(),
        mean_square.sqrt(),
        100.0 * largest,
        noise(0),
        noise(1),
    );
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut sorted: Vec<f64> = values.collect();
    sorted.sort_by(f64::total_cmp);
    sorted[sorted.len() / 2]
}

/// The comparison must be able to fail: were our white wall a twentieth darker than the one the other
/// program was given, most meters would tell.
#[test]
fn a_slightly_darker_wall_would_be_noticed() {
    let mut setup = oracle::white_wall();
    let left = ObjectKind::RoomFace(Face::Left);
    let wall = setup
        .geometry
        .objects
        .iter()
        .find(|object| object.kind == left)
        .unwrap()
        .first;
    let material = setup.geometry.material[wall as usize] as usize;
    let colour = &mut setup.geometry.materials[material].reflectance;
    *colour *= 0.95;
    let darker = Ours::new(setup).referee();
    let noticed = darker
        .iter()
        .enumerate()
        .filter(|(place, here)| {
            let there = &theirs(0)["meters"][*place];
            (0..3).any(|channel| !here[channel].agrees_with(Estimate::of(there, channel), ALLOWED, SIGMAS))
        })
        .count();
    assert!(
        2 * noticed > darker.len(),
        "only {noticed} of {} meters noticed",
        darker.len()
    );
}
