//! How the answer moves when the place is a little different from its description.
//!
//! The place is solved again with one thing changed, coarsely, and so is the place as described; what counts
//! is the difference of the two, in which most of the coarseness cancels. Head, board, camera and
//! power stay as they are: that is what the photographer would find on the day.

use crate::place::amounts::{Amounts, Finished};
use crate::place::survey::Survey;
use crate::practice::what_if;
use crate::ways::compute::light_of;
use crate::ways::light::FaceLight;
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{AmbientFrom, Carrier, Difference, FlashStand, Job, Route, Sensitivity};
use glam::Vec3;
use rayon::prelude::*;
use scene::Face;
use transport::Fineness;
use units::{MiredShift, Stops};

/// Width and length of the room are scaled by this to find how much a paced size matters.
const SCALED: f32 = 1.06;

/// What was found out by solving again.
pub(crate) struct Moves {
    /// How the answer moves with each difference.
    pub sensitivities: Vec<Sensitivity>,
    /// Stops per logarithm to base 2 of width, length and height of the room, all that stands in it kept
    /// in proportion along width and length.
    pub per_size: [f64; 3],
}

/// Solves the place again with each thing changed.
pub(crate) fn moves(scout: &Scout<'_>, way: &Way) -> Moves {
    let job = scout.job;
    let changed = [darker(job, &way.route), nearer(job, way), lower(job)];
    let different: Vec<(Difference, Job)> = changed.into_iter().flatten().collect();
    let stretched = [0, 1].map(|axis| scaled_by(job, axis, SCALED));
    let variants: Vec<&Job> = std::iter::once(job)
        .chain(different.iter().map(|(_, variant)| variant))
        .chain(&stretched)
        .collect();
    let mut lights = lights(scout, way, &variants).into_iter();
    let Some(base) = lights.next().flatten() else {
        return Moves {
            sensitivities: Vec::new(),
            per_size: [0.67; 3],
        };
    };
    let colour = job.bag.flash.colour();
    let stops = |light: &FaceLight| (light.dose() / base.dose().max(1e-12)).log2();
    let facing = job.sitters[0].face_direction();
    // What moves is the flash's own light: the light that is there is read again on the day.
    let dark = Amounts::default();
    let reading = |light: &FaceLight| {
        let alone = Finished {
            flash: &light.amounts,
            power: 1.0,
            ambient: &dark,
            seconds: 0.0,
        };
        alone.reading(light, colour, &colour::Spectrum::ONE, facing)
    };
    let before = reading(&base);
    let mut moves = Moves {
        sensitivities: Vec::new(),
        per_size: [0.0; 3],
    };
    for ((what, _), light) in different.iter().zip(lights.by_ref()) {
        let Some(light) = light else { continue };
        if matches!(what, Difference::CeilingLower { .. }) {
            let height = f64::from(job.place.room.size.z);
            moves.per_size[2] = stops(&light) / ((height - what_if::LOWER_M) / height).log2();
        }
        let after = reading(&light);
        let turn = after.azimuth_deg - before.azimuth_deg;
        moves.sensitivities.push(Sensitivity {
            what: what.clone(),
            exposure: Stops(stops(&light)),
            azimuth_deg: (turn + 180.0).rem_euclid(360.0) - 180.0,
            elevation_deg: after.elevation_deg - before.elevation_deg,
            cast: MiredShift(after.cast.shift.value() - before.cast.shift.value()),
        });
    }
    for (per, light) in moves.per_size.iter_mut().zip(lights) {
        if let Some(light) = light {
            *per = stops(&light) / f64::from(SCALED).log2();
        }
    }
    moves
}

/// What the way does in each variant of the place; `None` where a person would stand in a wall, or a ceiling would be
/// below a head.
fn lights(scout: &Scout<'_>, way: &Way, variants: &[&Job]) -> Vec<Option<FaceLight>> {
    let Scout { job, beams, seed, .. } = *scout;
    variants
        .par_iter()
        .map(|variant| {
            let survey = Survey::new(variant, Fineness::SKETCH, seed).ok()?;
            light_of(
                &Scout::new(variant, &survey, beams, seed),
                &follow(job, variant, way),
            )
        })
        .collect()
}

/// The same head, pointed the same way, in a variant of the place: things keep their proportion.
fn follow(job: &Job, variant: &Job, way: &Way) -> Way {
    let ratio = variant.place.room.size / job.place.room.size;
    let level = Vec3::new(ratio.x, ratio.y, 1.0);
    let mut way = way.clone();
    way.target *= level;
    if let Route::HeldBoard { centre, .. } = &mut way.route {
        *centre *= level;
    }
    way
}

/// What carries the light a third darker.
fn darker(job: &Job, route: &Route) -> Option<(Difference, Job)> {
    let carrier = Carrier::of(route)?;
    let mut variant = job.clone();
    match route {
        Route::Bounce { face, .. } => {
            variant.place.room.materials[face.index()].reflectance *= what_if::DARKER;
        }
        Route::Standing { name } => {
            for block in variant.place.blocks.iter_mut().filter(|b| b.name == *name) {
                block.material.reflectance *= what_if::DARKER;
            }
            for panel in variant.place.panels.iter_mut().filter(|p| p.name == *name) {
                panel.front.reflectance *= what_if::DARKER;
            }
        }
        Route::HeldBoard { board, .. } => {
            variant.bag.boards[*board].material.reflectance *= what_if::DARKER;
        }
        Route::Direct | Route::Open => {}
    }
    Some((Difference::Darker { carrier }, variant))
}

/// The sitter half a metre nearer to what the light comes from.
fn nearer(job: &Job, way: &Way) -> Option<(Difference, Job)> {
    let face = job.sitters[0].face();
    let source = match way.route {
        Route::Direct => way.flash,
        _ => way.target,
    };
    let towards = (source - face).with_z(0.0).try_normalize()?;
    let mut variant = job.clone();
    for sitter in &mut variant.sitters {
        sitter.stand += towards * what_if::NEARER_M as f32;
    }
    let what = Difference::SitterNearer {
        to: way.id(),
        metres: what_if::NEARER_M,
    };
    Some((what, variant))
}

/// The ceiling 20 cm lower, where that leaves room for everyone.
fn lower(job: &Job) -> Option<(Difference, Job)> {
    let mut variant = job.clone();
    variant.place.room.size.z -= what_if::LOWER_M as f32;
    let height = variant.place.room.size.z;
    let tall = job.sitters.iter().any(|s| s.face_height + 0.15 > height);
    let what = Difference::CeilingLower {
        metres: what_if::LOWER_M,
    };
    (!tall).then_some((what, variant))
}

/// The room and where everything in it stands, stretched along one axis.
pub(crate) fn scaled_by(job: &Job, axis: usize, by: f32) -> Job {
    let mut variant = job.clone();
    variant.place.room.size[axis] *= by;
    for sitter in &mut variant.sitters {
        sitter.stand[axis] *= by;
    }
    variant.viewpoint.position[axis] *= by;
    variant.viewpoint.look_at[axis] *= by;
    if let FlashStand::At(at) = &mut variant.ask.stand {
        at[axis] *= by;
    }
    for block in &mut variant.place.blocks {
        block.min[axis] *= by;
        block.max[axis] *= by;
    }
    for panel in &mut variant.place.panels {
        panel.centre[axis] *= by;
    }
    for opening in &mut variant.place.openings {
        if opening.fills(&job.place.room) {
            opening.size = scene::Opening::whole(&variant.place.room, opening.face).size;
            continue;
        }
        let along_x = matches!(opening.face, Face::BehindCamera | Face::BehindSitter);
        if along_x == (axis == 0) {
            opening.from.x *= by;
            opening.size.x *= by;
        }
    }
    for ambient in &mut variant.ambients {
        if let AmbientFrom::Lamp(at) = &mut ambient.from {
            at[axis] *= by;
        }
    }
    variant
}
