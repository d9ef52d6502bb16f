//! How far the first frame may be off: stated spreads of the inputs, carried through the solved room.

use crate::practice::spread;
use answer::{Assumed, Carrier, Guess, Job, Route, Uncertainty, UncertaintyPart};
use colour::{LightColour, Spectrum};
use scene::ObjectKind;
use transport::{Meter, Operator, Room, SolvedLight};
use units::GuideBasis;

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
    let flash = &job.bag.flash;
    let guide = match flash.basis() {
        GuideBasis::Measured => Assumed::MeasuredGuide,
        GuideBasis::Claimed => Assumed::ClaimedGuide,
    };
    let mut parts = vec![part(Guess::FlashStrength, guide, flash.spread().guide_stops)];
    parts.extend(paint_parts(route, shares));
    // Light that comes straight falls off with the square of its way.
    let paced = Assumed::Paced {
        share: spread::DISTANCE,
    };
    let by_distance = 2.0 * (1.0 + spread::DISTANCE).log2();
    match route {
        Route::Direct => parts.push(part(Guess::DistanceToFace, paced, by_distance)),
        Route::HeldBoard { name, .. } => {
            let wander = 2.0 * (1.0 + spread::HELD_BOARD_M / legs_m[1].max(0.3)).log2();
            let board = || name.clone();
            let held = Assumed::HeldAt {
                metres: spread::HELD_BOARD_M,
            };
            let leaning = Assumed::HeldLeaning {
                degrees: spread::HELD_BOARD_LEAN_DEG,
            };
            parts.push(part(Guess::BoardToFace { board: board() }, held, wander));
            parts.push(part(
                Guess::BoardLean { board: board() },
                leaning,
                spread::HELD_BOARD_LEAN_STOPS,
            ));
            parts.push(part(Guess::FlashToBoard, paced, by_distance));
        }
        Route::Bounce { .. } | Route::Standing { .. } | Route::Open => {
            let sizes = [Guess::RoomWidth, Guess::RoomLength, Guess::CeilingHeight];
            for (size, per) in sizes.into_iter().zip(per_size) {
                parts.push(part(size, paced, per.abs() * (1.0 + spread::DISTANCE).log2()));
            }
            parts.push(part(
                Guess::NotDescribed,
                Assumed::OrdinaryRoom,
                spread::FURNISHING_STOPS,
            ));
        }
    }
    parts.retain(|p| p.stops >= spread::NOT_COUNTED || p.input == Guess::FlashStrength);
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
    pub of: Carrier,
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
        let of = match object.kind {
            ObjectKind::RoomFace(face) => Carrier::Face { face },
            ObjectKind::Sitter(_) => continue,
            _ => Carrier::Named {
                name: object.name.clone(),
            },
        };
        match shares.iter_mut().find(|s| s.of == of) {
            Some(held) => held.share += part,
            None => shares.push(PaintShare {
                of,
                kind: object.kind,
                share: part,
            }),
        }
    }
    shares
}

/// One part for every surface whose paint matters. A board of the bag is known better than a wall.
fn paint_parts(route: &Route, shares: &[PaintShare]) -> Vec<UncertaintyPart> {
    let is_own_board = |of: &Carrier| match (route, of) {
        (Route::HeldBoard { name: board, .. }, Carrier::Named { name }) => name == board,
        _ => false,
    };
    shares
        .iter()
        .filter(|s| !is_own_board(&s.of) && !matches!(s.kind, ObjectKind::Opening(_)))
        .map(|s| {
            let of = s.of.clone();
            let by_eye = Assumed::ByEye { share: spread::PAINT };
            part(
                Guess::Paint { of },
                by_eye,
                s.share * (1.0 + spread::PAINT).log2(),
            )
        })
        .collect()
}

fn part(input: Guess, assumed: Assumed, stops: f64) -> UncertaintyPart {
    UncertaintyPart {
        input,
        assumed,
        stops,
    }
}
