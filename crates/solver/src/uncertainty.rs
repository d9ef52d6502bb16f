//! How far the first frame may be off: stated spreads of the inputs, carried through the solved room.

use crate::Job;
use crate::answer::{Route, Uncertainty, UncertaintyPart};
use colour::LightColour;
use scene::{Face, ObjectKind};
use transport::{Meter, Room, SolvedLight, Source, read_light};

/// Paced and guessed distances: one standard deviation as a share (common practice: 10 to 15 % at worst).
const DISTANCE_SPREAD: f64 = 0.06;
/// Reflectance of a wall judged by eye, with what hangs on it: one standard deviation as a share (ours).
const PAINT_SPREAD: f64 = 0.20;
/// Furniture and people that were not described, in a room that carries the light (ours, in stops).
const FURNISHING_STOPS: f64 = 0.22;
/// A board held by hand wanders by this much, in metres (ours).
const HELD_BOARD_M: f64 = 0.10;
/// A board held by hand leans by about 8°, which moves its light by about this much (ours, in stops).
const HELD_BOARD_LEAN_STOPS: f64 = 0.2;
/// Nine in ten of a normal distribution lie within this many standard deviations.
const NINE_IN_TEN: f64 = 1.645;

/// What the spreads do to the exposure of a solved way.
pub(crate) fn uncertainty(
    job: &Job,
    route: &Route,
    room: &Room,
    source: &Source,
    dome: &Meter,
    dose: f64,
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
    let distances = 2.0 * (1.0 + DISTANCE_SPREAD).log2();
    match route {
        Route::Direct => parts.push(part("distance to the face", "paced, about 6 %", distances)),
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
                distances,
            ));
        }
        Route::Bounce { face, .. } => {
            let colour = job.bag.flash.colour();
            let paint = paint_stops(room, source, dome, dose, colour, *face);
            parts.push(part(
                &format!("paint of the {}", face.words()),
                "judged by eye, about 20 %",
                paint,
            ));
            parts.push(part(
                "size of the room and distances",
                "paced, about 6 %",
                distances,
            ));
            parts.push(part(
                "furniture and people not described",
                "an ordinary furnished room",
                FURNISHING_STOPS,
            ));
        }
        Route::Standing { name } => {
            parts.push(part(
                &format!("surface of {name}"),
                "judged by eye, about 20 %",
                (1.0 + PAINT_SPREAD).log2(),
            ));
            parts.push(part("distances", "paced, about 6 %", distances));
            parts.push(part(
                "furniture and people not described",
                "an ordinary furnished room",
                FURNISHING_STOPS,
            ));
        }
    }
    parts.sort_by(|a, b| b.stops.total_cmp(&a.stops));
    let deviation = parts.iter().map(|p| p.stops * p.stops).sum::<f64>().sqrt();
    Uncertainty {
        stops: NINE_IN_TEN * deviation,
        parts,
    }
}

fn part(input: &str, spread: &str, stops: f64) -> UncertaintyPart {
    UncertaintyPart {
        input: input.to_owned(),
        spread: spread.to_owned(),
        stops,
    }
}

/// Stops by which the exposure rises when the face that carries the light is lighter by its spread: the
/// room is solved again with it.
fn paint_stops(
    room: &Room,
    source: &Source,
    dome: &Meter,
    dose: f64,
    colour: &LightColour,
    face: Face,
) -> f64 {
    let lighter: SolvedLight = room.solve_scaled(source, &|object| {
        if room.geometry.objects[object].kind == ObjectKind::RoomFace(face) {
            1.0 + PAINT_SPREAD as f32
        } else {
            1.0
        }
    });
    let after = f64::from(colour.luminous(&read_light(room, source, &lighter, dome, 4096)));
    (after.max(1e-12) / dose.max(1e-12)).log2().abs()
}
