//! `rushlight proof`: a computed picture of the answer.

use super::asked::{load, solve_with_place};
use super::failure::Failure;
use super::layers::{self, About, StoredLight};
use crate::cli::{LightChoice, ProofArgs};
use crate::output;
use answer::{Answer, Job};
use camera::{Development, LayerLight, Picture, RawLayer, ToneCurve, develop, develop_raw};
use colour::WhiteBalance;
use indicatif::{ProgressBar, ProgressStyle};
use light::{FlashUnit, Gel};
use server::answering::SEED;
use server::lights::{Care, ProofLight, lights_in, lights_of, written_name};
use server::png::png;
use sheet::Voice;
use shoot::{Shoot, both};
use solver::Solved;
use std::path::Path;
use std::time::Instant;
use transport::{Effort, Glance, Layer, Method, Progress, Room, Source, render};
use units::{Duv, Iso, Kelvin};

/// No picture needs more passes than this; the quality or the time ends it long before.
const MOST_PASSES: usize = 4_096;

/// A light of the picture, with what was rendered of it.
struct RenderedLight {
    light: ProofLight,
    layer: Layer,
}

/// Computes and writes a proof.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or a picture that could not be written.
pub fn run(args: &ProofArgs) -> Result<(), Failure> {
    let shoot = load(Some(&args.shoot), args.setup.as_deref())?;
    if let Some(from) = &args.from {
        return develop_again(&shoot.job, from, args);
    }
    if args.light == LightChoice::Ambient && shoot.job.ambients.is_empty() && shoot.job.outdoors.is_none() {
        return Err(nothing_without_flash());
    }
    let voice = args.speech.of(&shoot);
    let solved = solve_with_place(&shoot, voice)?;
    let lights = render_lights(&shoot, &solved, args, voice)?;
    let answer = solved.answer;
    if let Some(path) = &args.layers {
        let passes = (-shoot.job.as_answered(&answer).bag.flash.gel_loss_stops()).exp2();
        layers::write(path, &stored(&lights, passes, &answer))?;
    }
    let shown: Vec<LayerLight> = lights
        .iter()
        .filter(|rendered| is_shown(args.light, rendered.light.is_flash()))
        .map(|rendered| LayerLight {
            layer: &rendered.layer,
            colour: &rendered.light.colour,
            dose: rendered.light.dose,
        })
        .collect();
    if shown.is_empty() {
        return Err(nothing_without_flash());
    }
    let settings = &answer.settings;
    let development = development(args, settings.white_balance, settings.tint);
    write_picture(&args.out, &develop(&shown, &settings.exposing(), &development))
}

fn nothing_without_flash() -> Failure {
    Failure::Missing(both!(
        "this shoot has no [[ambient]] light, so a proof of the ambient alone would be black";
        "dieser Auftrag hat kein Licht [[ambient]], ein Probebild des vorhandenen Lichts allein wäre also schwarz"
    ))
}

/// Balance and curve of a picture.
fn development(args: &ProofArgs, kelvin: Kelvin, tint: Duv) -> Development {
    Development {
        balance: WhiteBalance { kelvin, tint },
        curve: if args.no_curve {
            ToneCurve::Linear
        } else {
            ToneCurve::Portrait
        },
    }
}

fn write_picture(path: &Path, picture: &Picture) -> Result<(), Failure> {
    let bytes =
        png(picture).map_err(|error| Failure::Ours(format!("the picture could not be encoded: {error}")))?;
    output::write_file(path, &bytes)?;
    Ok(())
}

/// Develops stored lights again, with what is asked for instead of what was set.
fn develop_again(job: &Job, from: &Path, args: &ProofArgs) -> Result<(), Failure> {
    let mut lights = layers::read(from)?;
    if let Some(gel) = &args.gel {
        let flash = gelled(job, gel)?;
        lights = lights
            .into_iter()
            .map(|light| {
                if light.about.flash {
                    light.through_gel_of(&flash)
                } else {
                    light
                }
            })
            .collect();
    }
    let was = lights.first().and_then(|light| light.about.set());
    let was = was.ok_or_else(|| Failure::BadLayers(format!("{} has no light in it", from.display())))?;
    let exposing = camera::Settings {
        aperture: args.aperture.unwrap_or(was.exposing.aperture),
        shutter: args.shutter.unwrap_or(was.exposing.shutter),
        iso: args.iso.unwrap_or(was.exposing.iso),
    };
    let (power, shutter) = (args.power.unwrap_or(was.power), exposing.shutter);
    if !camera::within_sync(shutter, job.body.sync) && args.light != LightChoice::Ambient {
        return Err(Failure::BadLayers(format!(
            "{shutter} is faster than the sync speed of {}, so part of the frame would get no flash",
            job.body.sync
        )));
    }
    let weight = |flash: bool| {
        if flash {
            power.fraction() / was.power.fraction()
        } else {
            shutter.value() / was.exposing.shutter.value()
        }
    };
    let shown: Vec<(RawLayer, f64)> = lights
        .iter()
        .filter(|light| is_shown(args.light, light.about.flash))
        .map(|light| {
            let raw = RawLayer::new(&light.layer, &light.about.seen());
            (raw, weight(light.about.flash))
        })
        .collect();
    if shown.is_empty() {
        return Err(Failure::BadLayers(format!(
            "{} has no such light in it",
            from.display()
        )));
    }
    let shown: Vec<(&RawLayer, f64)> = shown.iter().map(|(raw, dose)| (raw, *dose)).collect();
    // The filter on the lens stays where it is.
    let speed = exposing.iso.value() * (-was.nd_stops).exp2();
    let behind_filter = camera::Settings {
        iso: Iso::new(speed).unwrap_or(exposing.iso),
        ..exposing
    };
    let (kelvin, tint) = match args.white_balance {
        Some(kelvin) => (kelvin, args.tint.unwrap_or(Duv(0.0))),
        None => (was.kelvin, args.tint.unwrap_or(was.tint)),
    };
    let picture = develop_raw(&shown, &behind_filter, &development(args, kelvin, tint));
    write_picture(&args.out, &picture)
}

/// The shoot's flash with the gel that is asked for: one of the bag, or by name one of the family that it speaks of.
fn gelled(job: &Job, name: &str) -> Result<FlashUnit, Failure> {
    let wrong = |why: String| Failure::BadLayers(format!("--gel \"{name}\": {why}"));
    let mut layers: Vec<Gel> = Vec::new();
    for one in name.split('+').map(str::trim).filter(|one| *one != "none") {
        let owned = job.bag.gels.iter().find(|gel| gel.is_called(one)).cloned();
        layers.push(match owned {
            Some(gel) => gel,
            None => Gel::named(one, job.bag.gel_family).map_err(|error| wrong(error.to_string()))?,
        });
    }
    let on = layers.into_iter().reduce(|below, above| below.with(&above));
    let flash = job.bag.flash.clone().with_gel(on);
    flash.map_err(|error| wrong(error.to_string()))
}

fn is_shown(choice: LightChoice, flash: bool) -> bool {
    match choice {
        LightChoice::Both => true,
        LightChoice::Flash => flash,
        LightChoice::Ambient => !flash,
    }
}

/// Every light as it lies in the picture's dose.
fn stored(lights: &[RenderedLight], passes: f64, answer: &Answer) -> Vec<StoredLight> {
    let store = |RenderedLight { light, layer }: &RenderedLight| {
        let power = light.colour.bands * light.dose as f32;
        let pixels = layer.pixels.iter().map(|pixel| *pixel * power);
        StoredLight {
            layer: Layer {
                pixels: pixels.collect(),
                ..*layer
            },
            about: About::new(
                written_name(&light.name),
                light.is_flash(),
                &light.colour,
                if light.is_flash() { passes } else { 1.0 },
                answer,
            ),
        }
    };
    lights.iter().map(store).collect()
}

/// Renders every light that the picture or the layer file needs.
fn render_lights(
    shoot: &Shoot,
    solved: &Solved,
    args: &ProofArgs,
    voice: Voice,
) -> Result<Vec<RenderedLight>, Failure> {
    let job = &shoot.job.as_answered(&solved.answer);
    let matt;
    // Without gloss the light goes other ways, so that a matt picture has a room of its own.
    let (room, lights) = if args.matt {
        let (own, lights) =
            lights_of(job, &solved.answer, Care::Proof, true, SEED).map_err(Failure::lighting(voice))?;
        matt = own;
        (&matt, lights)
    } else {
        (&solved.place.room, lights_in(job, solved))
    };
    let everything = args.layers.is_some();
    let wanted: Vec<ProofLight> = lights
        .into_iter()
        .filter(|light| everything || is_shown(args.light, light.is_flash()))
        .collect();
    let count = wanted.len();
    let share = args.seconds.map(|all| all / count.max(1) as u32);
    let lights = wanted.into_iter().map(|light| RenderedLight {
        layer: render_one(
            room,
            &light.source,
            job,
            args,
            sheet::words_of_source(voice, &light.name),
            &Until {
                error: args.quality * light.noise_allowance(&solved.answer),
                time: share,
            },
        ),
        light,
    });
    Ok(lights.collect())
}

/// When a light is good enough.
struct Until {
    /// Noise, as a part of its brightness.
    error: f64,
    /// The time it has, instead.
    time: Option<std::time::Duration>,
}

/// Renders one light with a progress bar on the screen.
fn render_one(
    room: &Room,
    source: &Source,
    job: &Job,
    args: &ProofArgs,
    name: String,
    until: &Until,
) -> Layer {
    let light = room.solve(source);
    let bar = ProgressBar::new(100);
    if let Ok(style) = ProgressStyle::with_template("{msg:12} [{bar:40}] {percent} %  {elapsed}") {
        bar.set_style(style.progress_chars("=> "));
    }
    bar.set_message(name);
    let started = Instant::now();
    let time = until.time;
    let target = if time.is_some() { 0.0 } else { until.error };
    let mut go_on = |glance: &Glance| {
        bar.set_position((100.0 * done(glance.progress, target, started, time)) as u64);
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
            plain: args.plain,
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A half warm gel of the amber family is a good deal warmer than one of the straw family (common practice: +109
    /// and +81 mired), and a bag means its own.
    #[test]
    fn a_gel_that_is_not_in_the_bag_is_of_its_family() {
        let check = |family: &str, expected: f64| {
            let text = shoot::DEMO.replacen("[bag]\n", &format!("[bag]\ngel_family = \"{family}\"\n"), 1);
            let job = shoot::parse("demo", &text).expect("a good shoot file").job;
            assert!(job.bag.gels.is_empty(), "the gel is not in the bag");
            let flash = gelled(&job, "1/2 CTO").unwrap_or_else(|_| panic!("a gel of the {family} family"));
            let gel = flash.gel().expect("it is on the flash");
            let found = flash.behind(gel).expect("a light").shift.value();
            assert!((found - expected).abs() < 3.0, "{family}: {found}");
        };
        check("straw", 81.0);
        check("amber", 109.0);
    }
}
