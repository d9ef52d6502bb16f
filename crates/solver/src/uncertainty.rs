//! How far the first frame may be off: stated spreads of the inputs, carried through the solved room.

use crate::Job;
use crate::answer::{Route, Uncertainty, UncertaintyPart};
use colour::{LightColour, Spectrum};
use scene::ObjectKind;
use transport::{Meter, Operator, Room, SolvedLight};

/// Paced and guessed distances: one standard deviation as a share (common practice: 10 to 15 % at worst).
pub(crate) const DISTANCE_SPREAD: f64 = 0.06;
/// Reflectance of a wall judged by eye, with what hangs on it: one standard deviation as a share (ours).
pub(crate) const PAINT_SPREAD: f64 = 0.20;
/// Furniture and people that were not described, in a room that carries the light (ours, in stops).
const FURNISHING_STOPS: f64 = 0.22;
/// A board held by hand wanders by this much, in metres (ours).
const HELD_BOARD_M: f64 = 0.10;
/// A board held by hand leans by about 8°, which moves its light by about this much (ours, in stops).
const HELD_BOARD_LEAN_STOPS: f64 = 0.2;
/// Parts below this are not told and do not count, in stops.
const NOT_WORTH_TELLING: f64 = 0.01;
/// Nine in ten of a normal distribution lie within this many standard deviations.
const NINE_IN_TEN: f64 = 1.645;

/// What the spreads do to the exposure of a solved way.
pub(crate) fn uncertainty(
    job: &Job,
    route: &Route,
    shares: &[PaintShare],
    per_size: [f64; 3],
    legs_m: [f64; 2],
) -> Uncertainty {
    let mut parts = vec![UncertaintyPart {
        input: "strength of the flash".to_owned(),
        spread: format!(
            "guide number {}",
            match job.bag.flash.basis() {
                units::GuideBasis::Measured => "measured by its owner",
                units::GuideBasis::Claimed => "as printed by its maker",
            }
        ),
        stops: job.bag.flash.spread().guide_stops,
    }];
    parts.extend(paint_parts(route, shares));
    match route {
        Route::Direct => {
            let distance = 2.0 * (1.0 + DISTANCE_SPREAD).log2();
            parts.push(part("distance to the face", "paced, about 6 %", distance));
        }
        Route::HeldBoard { name, .. } => {
            let wander = 2.0 * (1.0 + HELD_BOARD_M / legs_m[1].max(0.3)).log2();
            parts.push(part(
                &format!("distance from {name} to the face"),
                "held by hand, 10 cm either way",
                wander,
            ));
            parts.push(part(
                &format!("lean of {name}"),
                "held by hand, about 8°",
                HELD_BOARD_LEAN_STOPS,
            ));
            parts.push(part(
                "distance from flash to board",
                "paced, about 6 %",
                2.0 * (1.0 + DISTANCE_SPREAD).log2(),
            ));
        }
        Route::Bounce { .. } | Route::Standing { .. } => {
            for (name, per) in ["width of the room", "length of the room", "height of the ceiling"]
                .iter()
                .zip(per_size)
            {
                let stops = per.abs() * (1.0 + DISTANCE_SPREAD).log2();
                parts.push(part(name, "paced, about 6 %", stops));
            }
            parts.push(part(
                "furniture and people not described",
                "an ordinary furnished room",
                FURNISHING_STOPS,
            ));
        }
    }
    parts.retain(|p| p.stops >= NOT_WORTH_TELLING || p.input.starts_with("strength"));
    parts.sort_by(|a, b| b.stops.total_cmp(&a.stops));
    let deviation = parts.iter().map(|p| p.stops * p.stops).sum::<f64>().sqrt();
    Uncertainty {
        stops: NINE_IN_TEN * deviation,
        parts,
    }
}

/// How much one surface matters: how often, on the average, the light at the face has been on it.
#[derive(Clone, Debug)]
pub(crate) struct PaintShare {
    pub name: String,
    pub kind: ObjectKind,
    /// Relative change of the exposure over relative change of the reflectance.
    pub share: f64,
}

/// The share of every surface in the exposure at a meter, exactly and for all surfaces at once: the light
/// that leaves a patch times what it matters, which is what the reading would lose were the patch black
/// for a moment. (The derivative of a linear balance by the adjoint: Lewins 1965, from memory.)
pub(crate) fn paint_shares(
    room: &Room,
    light: &SolvedLight,
    dome: &Meter,
    colour: &LightColour,
    dose: f64,
) -> Vec<PaintShare> {
    let operator = Operator::solve(room, &[*dome]);
    let weights = colour.luminous_weights();
    let mut shares: Vec<PaintShare> = Vec::new();
    for (index, patch) in room.patches.list.iter().enumerate() {
        let object = &room.geometry.objects[patch.object as usize];
        let arriving = light.indirect[index] + Spectrum::splat(light.direct[index]);
        let leaving = patch.reflectance * arriving * patch.area;
        let part = f64::from((operator.importance(index)[0] * leaving).dot(&weights)) / dose.max(1e-12);
        let name = match object.kind {
            ObjectKind::RoomFace(face) => face.words().to_owned(),
            ObjectKind::Sitter(_) => continue,
            _ => object.name.clone(),
        };
        match shares.iter_mut().find(|s| s.name == name) {
            Some(held) => held.share += part,
            None => shares.push(PaintShare {
                name,
                kind: object.kind,
                share: part,
            }),
        }
    }
    shares
}

/// One part for every surface whose paint matters. A board of the bag is known better than a wall.
fn paint_parts(route: &Route, shares: &[PaintShare]) -> Vec<UncertaintyPart> {
    let own_board = match route {
        Route::HeldBoard { name, .. } => Some(name),
        _ => None,
    };
    shares
        .iter()
        .filter(|s| own_board != Some(&s.name) && !matches!(s.kind, ObjectKind::Opening(_)))
        .map(|s| {
            part(
                &format!("paint of the {}", s.name),
                "judged by eye, about 20 %",
                s.share * (1.0 + PAINT_SPREAD).log2(),
            )
        })
        .collect()
}

fn part(input: &str, spread: &str, stops: f64) -> UncertaintyPart {
    UncertaintyPart {
        input: input.to_owned(),
        spread: spread.to_owned(),
        stops,
    }
}
