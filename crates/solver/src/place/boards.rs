//! Boards, flags and lamps that are brought into the place.

use answer::{Aim, Ambient, AmbientFrom, Failure, Job, Route};
use colour::Spectrum;
use glam::{Vec2, Vec3};
use light::LampFacing;
use rayon::prelude::*;
use scene::{Material, Panel, Stage, assemble};

/// The place of a job with the lamps that its ambient lights need.
pub(crate) fn furnished(job: &Job) -> scene::Place {
    let mut place = job.place.clone();
    for ambient in &job.ambients {
        if let AmbientFrom::Lamp(at) = ambient.from {
            let face = job.sitters.first().map_or(at - Vec3::Z, scene::Sitter::face);
            place.panels.push(lamp_panel(ambient, at, face, place.room.size));
        }
    }
    place
}

/// The square that stands for a lamp at a point.
fn lamp_panel(ambient: &Ambient, at: Vec3, face: Vec3, room: Vec3) -> Panel {
    let edge = ambient.lamp.edge_m;
    let half = 0.5 * edge + 0.01;
    let (normal, up, reach) = match ambient.lamp.facing {
        LampFacing::Down => (Vec3::NEG_Z, Vec3::Y, Vec3::new(half, half, 0.02)),
        // However it leans, no corner is further from the middle than half the diagonal.
        LampFacing::Sitter => {
            let normal = (face - at).try_normalize().unwrap_or(Vec3::NEG_Z);
            let up = if normal.z.abs() > 0.9 { Vec3::Y } else { Vec3::Z };
            (normal, up, Vec3::splat(half * std::f32::consts::SQRT_2))
        }
    };
    Panel {
        name: ambient.name.clone(),
        centre: at.clamp(reach.min(0.5 * room), (room - reach).max(0.5 * room)),
        normal,
        up,
        size: Vec2::splat(edge),
        front: Material::matt(&ambient.name, Spectrum::splat(0.3)),
        back: None,
        held: false,
    }
}

/// The place of a job with its people, lamps and these boards.
pub(crate) fn stage_with(job: &Job, panels: &[Panel]) -> Result<Stage, Failure> {
    let mut place = furnished(job);
    place.panels.extend_from_slice(panels);
    // Figures are made several at a time and kept; what is wrong with one is told where the scene is put together.
    job.sitters.par_iter().for_each(|sitter| {
        let _made_or_told_below = sitter.figure.of(&sitter.recipe);
    });
    Ok(assemble(&place, &job.sitters)?)
}

/// The boards that a way brings into the place: a flag beside the head, and the board that is held.
pub(crate) fn panels_of(job: &Job, aim: &Aim) -> Vec<Panel> {
    let flag = aim
        .flagged
        .then(|| flag_panel(aim.flash, job.sitters[0].face(), job.place.room.size));
    let held = match &aim.route {
        Route::HeldBoard {
            board,
            centre,
            normal,
            ..
        } => Some(held_panel(job, *board, *centre, *normal)),
        _ => None,
    };
    flag.into_iter().chain(held).collect()
}

/// A held board as a thing in the place.
pub(crate) fn held_panel(job: &Job, index: usize, centre: Vec3, normal: Vec3) -> Panel {
    let board = &job.bag.boards[index];
    Panel {
        name: board.name.clone(),
        centre,
        normal,
        up: Vec3::Z,
        size: board.size,
        front: board.material.clone(),
        back: None,
        held: true,
    }
}

/// Corner and edges of a held board.
pub(crate) fn board_frame(job: &Job, index: usize, centre: Vec3, normal: Vec3) -> (Vec3, Vec3, Vec3) {
    held_panel(job, index, centre, normal).frame()
}

/// How far from the head a flag is held, in metres.
const FLAG_REACH_M: f32 = 0.16;

/// Edge of the flag that shades a face from a head: at its place, half a person's width at the sitter's distance shrinks
/// by this much.
fn flag_size_m(flash: Vec3, face: Vec3) -> f32 {
    let cover = 2.2 * 0.35 * FLAG_REACH_M / (face - flash).length().max(0.5);
    cover.clamp(0.08, 0.25)
}

/// Half the angle in which such a flag stands before some part of a window this wide, in degrees.
pub(crate) fn flag_half_angle_deg(flash: Vec3, face: Vec3, window_m: f32) -> f32 {
    (0.5 * (flag_size_m(flash, face) + window_m) / FLAG_REACH_M)
        .atan()
        .to_degrees()
}

/// A flag: a black card held beside the head between it and the sitter's face, large enough to shade the
/// whole head and shoulders of a person (ours). Under a low ceiling or in a corner it moves aside just far
/// enough to stay in a room of this size.
fn flag_panel(flash: Vec3, face: Vec3, room: Vec3) -> Panel {
    let towards = (face - flash).try_normalize().unwrap_or(Vec3::Y);
    let size = flag_size_m(flash, face);
    // However it leans, no corner is further from the middle than half the diagonal.
    let reach = Vec3::splat(0.5 * std::f32::consts::SQRT_2 * size);
    Panel {
        name: "flag".to_owned(),
        centre: (flash + towards * FLAG_REACH_M).clamp(reach, room - reach),
        normal: -towards,
        up: Vec3::Z,
        size: Vec2::splat(size),
        front: Material::matt("flag", Spectrum::splat(0.04)),
        back: None,
        held: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use scene::{BoxRoom, Material, Place};

    /// A flag beside a head in a corner, under the ceiling or on the floor stays in the room.
    #[test]
    fn the_flag_stays_in_the_room() {
        let size = Vec3::new(3.0, 4.0, 2.2);
        let white = Material::matt("white", Spectrum::splat(0.8));
        let face = Vec3::new(1.5, 3.0, 1.5);
        for flash in [
            Vec3::new(1.5, 1.0, 2.15),
            Vec3::new(0.02, 0.02, 2.18),
            Vec3::new(2.98, 3.9, 0.02),
            Vec3::new(1.5, 2.7, 1.5),
        ] {
            let mut place = Place::new(BoxRoom::uniform(size.into(), white.clone()));
            place.panels.push(flag_panel(flash, face, size));
            assert_eq!(place.check(), Ok(()), "flash at {flash}");
        }
    }
}
