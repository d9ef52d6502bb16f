//! `rushlight proof`: a computed picture of the answer.

use super::{Failure, SEED, load, solve};
use crate::cli::{LightChoice, ProofArgs};
use crate::output::{self, WriteError};
use crate::shoot::Shoot;
use camera::{Development, LayerLight, ToneCurve, develop};
use colour::{BANDS, LightColour, WhiteBalance};
use indicatif::{ProgressBar, ProgressStyle};
use scene::{Geometry, Stage};
use solver::{Answer, Job};
use std::io::Cursor;
use std::path::Path;
use std::time::Instant;
use transport::{Effort, Fineness, Layer, Method, Progress, Room, Source, render};

/// No picture needs more passes than this; the quality or the time ends it long before.
const MOST_PASSES: usize = 4_096;

/// A rendered light with what weighs it into the picture.
struct RenderedLight {
    name: String,
    layer: Layer,
    colour: LightColour,
    /// What multiplies the layer into a dose: part of full power, or scale times shutter time.
    dose: f64,
    is_flash: bool,
}

/// Computes and writes a proof.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or a picture that could not be written.
pub fn run(args: &ProofArgs) -> Result<(), Failure> {
    let shoot = load(Some(&args.shoot))?;
    let answer = solve(&shoot)?;
    let lights = render_lights(&shoot, &answer, args)?;
    if let Some(path) = &args.layers {
        write_layers(path, &lights)?;
    }
    let shown: Vec<LayerLight> = lights
        .iter()
        .filter(|light| match args.light {
            LightChoice::Both => true,
            LightChoice::Flash => light.is_flash,
            LightChoice::Ambient => !light.is_flash,
        })
        .map(|light| LayerLight {
            layer: &light.layer,
            colour: &light.colour,
            dose: light.dose,
        })
        .collect();
    if shown.is_empty() {
        return Err(Failure::Ours(
            "this shoot has no [[ambient]] light, so a proof of the ambient alone would be black".to_owned(),
        ));
    }
    let development = Development {
        balance: WhiteBalance {
            kelvin: answer.settings.white_balance,
            tint: answer.settings.tint,
        },
        curve: if args.no_curve {
            ToneCurve::Linear
        } else {
            ToneCurve::Portrait
        },
    };
    let picture = develop(&shown, &answer.settings.exposing(), &development);
    let mut png = Cursor::new(Vec::new());
    image::write_buffer_with_format(
        &mut png,
        &picture.srgb8(),
        picture.width as u32,
        picture.height as u32,
        image::ExtendedColorType::Rgb8,
        image::ImageFormat::Png,
    )
    .map_err(|error| Failure::Ours(format!("the picture could not be encoded: {error}")))?;
    output::write_file(&args.out, png.get_ref())?;
    Ok(())
}

/// Renders every light that the picture or the layer file needs.
fn render_lights(shoot: &Shoot, answer: &Answer, args: &ProofArgs) -> Result<Vec<RenderedLight>, Failure> {
    let job = &shoot.job.as_answered(answer);
    let (stage, flash) = solver::scene_of(job, answer)?;
    let room = solved_room(job, &stage, args.matt);
    let shutter = answer.settings.shutter.value();
    let mut wanted: Vec<(String, Source, LightColour, f64, bool)> = Vec::new();
    let everything = args.layers.is_some();
    if everything || args.light != LightChoice::Ambient {
        let power = answer.flash.power.fraction();
        wanted.push(("flash".to_owned(), flash, *job.bag.flash.colour(), power, true));
    }
    if everything || args.light != LightChoice::Flash {
        for (name, source, colour, scale) in solver::ambient_layers(job, &stage, &room) {
            wanted.push((name, source, colour, f64::from(scale) * shutter, false));
        }
    }
    let count = wanted.len();
    let share = args.seconds.map(|all| all / count.max(1) as u32);
    let lights = wanted.into_iter().map(|(name, source, colour, dose, is_flash)| {
        let layer = render_one(&room, &source, job, args, &name, share);
        RenderedLight {
            name,
            layer,
            colour,
            dose,
            is_flash,
        }
    });
    Ok(lights.collect())
}

/// The room of a picture, without gloss when that is asked.
fn solved_room(job: &Job, stage: &Stage, matt: bool) -> Room {
    let mut geometry: Geometry = stage.geometry.clone();
    if matt {
        geometry
            .materials
            .iter_mut()
            .for_each(|material| material.coat = None);
    }
    Room::new(geometry, Fineness::proof_in(job.place.room.area()), SEED)
}

/// Renders one light with a progress bar on the screen.
fn render_one(
    room: &Room,
    source: &Source,
    job: &Job,
    args: &ProofArgs,
    name: &str,
    time: Option<std::time::Duration>,
) -> Layer {
    let light = room.solve(source);
    let bar = ProgressBar::new(100);
    if let Ok(style) = ProgressStyle::with_template("{msg:12} [{bar:40}] {percent} %  {elapsed}") {
        bar.set_style(style.progress_chars("=> "));
    }
    bar.set_message(name.to_owned());
    let started = Instant::now();
    let target = if time.is_some() { 0.0 } else { args.quality };
    let mut go_on = |progress: Progress| {
        bar.set_position((100.0 * done(progress, target, started, time)) as u64);
        time.is_none_or(|limit| started.elapsed() < limit)
    };
    let rendered = render(
        room,
        source,
        &light,
        &job.viewpoint,
        [args.size.width as usize, args.size.height as usize],
        Method::Solved,
        Effort {
            most_passes: MOST_PASSES,
            error: target as f32,
        },
        SEED,
        &mut go_on,
    );
    bar.finish_and_clear();
    rendered.layer
}

/// Part of the work that is done: error falls with the square root of the passes.
fn done(progress: Progress, target: f64, started: Instant, time: Option<std::time::Duration>) -> f64 {
    if let Some(limit) = time {
        return (started.elapsed().as_secs_f64() / limit.as_secs_f64()).min(1.0);
    }
    progress
        .error
        .map_or(0.0, |error| (target / f64::from(error)).powi(2))
        .min(1.0)
}

/// Writes every light by itself to an OpenEXR file: radiance per band, as it lies in the picture's dose.
fn write_layers(path: &Path, lights: &[RenderedLight]) -> Result<(), Failure> {
    use exr::prelude::*;
    let exr_layers = lights.iter().enumerate().map(|(index, light)| {
        let size = (light.layer.width, light.layer.height);
        let channels: Vec<AnyChannel<FlatSamples>> = (0..BANDS)
            .map(|band| {
                let wavelength = colour::bands::centre_nm(band);
                let power = light.colour.bands.0[band] * light.dose as f32;
                let samples = light.layer.pixels.iter().map(|p| p.0[band] * power).collect();
                AnyChannel::new(
                    format!("S0.{:07.3}nm", wavelength).as_str(),
                    FlatSamples::F32(samples),
                )
            })
            .collect();
        let name = format!("{}.{}", index + 1, light.name);
        Layer::new(
            size,
            LayerAttributes::named(name.as_str()),
            Encoding::FAST_LOSSLESS,
            AnyChannels::sort(channels.into_iter().collect()),
        )
    });
    let attributes = ImageAttributes::new(IntegerBounds::from_dimensions((
        lights[0].layer.width,
        lights[0].layer.height,
    )));
    let picture = Image::from_layers(attributes, exr_layers.collect::<Vec<_>>());
    let mut bytes = Cursor::new(Vec::new());
    picture
        .write()
        .to_buffered(&mut bytes)
        .map_err(|error| Failure::Ours(format!("the layers could not be encoded: {error}")))?;
    let written: std::result::Result<(), WriteError> = output::write_file(path, bytes.get_ref());
    written?;
    Ok(())
}
