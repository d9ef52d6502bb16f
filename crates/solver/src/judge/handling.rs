//! What a way takes to carry out: hands, stands, flags, and settings away from the plain ones, in points.

use crate::judge::exposure::hand_held;
use crate::place::boards::flag_half_angle_deg;
use crate::practice::{
    BEYOND_BALANCE_MIRED, COMFORTABLE_BOARD_M, GRAINY_ISO, SLOWEST_HAND_HELD_S, UNUSABLE_DUV, fault, taste,
};
use crate::ways::way::Way;
use answer::{Cast, Fault, FaultPoints, Job, KeyReading, Route, Settings};
use units::FNumber;

fn of(fault: Fault, points: f64) -> FaultPoints {
    FaultPoints { fault, points }
}

/// Points of light that has taken the colour of a surface, though a balance cures it: clothes and background show it.
fn cast_points(cast: &Cast) -> f64 {
    (cast.shift.value() / BEYOND_BALANCE_MIRED).powi(2) + (cast.duv.value() / UNUSABLE_DUV).powi(2)
}

/// Whether a cast rules a way out for skin that should stay neutral.
pub(crate) fn cast_unusable(job: &Job, key: &KeyReading) -> bool {
    let most = job.ask.cast_limit.value().max(BEYOND_BALANCE_MIRED);
    job.ask.neutral_skin && (key.cast.shift.value().abs() > most || key.cast.duv.value().abs() > UNUSABLE_DUV)
}

/// What it takes to hold flash and board, and what that costs the light.
pub(crate) fn handling(job: &Job, way: &Way, key: &KeyReading, power: f64) -> Vec<FaultPoints> {
    let (upper, each) = fault::USED;
    let used = (upper - power).clamp(0.0, upper);
    let mut faults = vec![of(Fault::Power, each * used)];
    if job.ask.neutral_skin {
        faults.push(of(Fault::Cast, cast_points(&key.cast)));
    }
    if way.flagged {
        let cuts = match flag_is_in_the_beam(job, way) {
            true => fault::FLAG_IN_BEAM,
            false => 0.0,
        };
        faults.push(of(Fault::NeedsFlag, fault::FLAG + cuts));
    }
    if way.place > 0 {
        faults.push(match job.bag.stand {
            true => of(Fault::NeedsStand, fault::STAND),
            false => of(Fault::NeedsHandForFlash, fault::HANDS),
        });
    }
    faults.extend(holding_a_board(job, way));
    faults
}

/// Whether the card that keeps the head's own light off the face also stands in the beam.
fn flag_is_in_the_beam(job: &Job, way: &Way) -> bool {
    let face = job.sitters[0].face();
    let away = (way.target - way.flash)
        .angle_between(face - way.flash)
        .to_degrees();
    // The nominal beam covers 18 mm to each side of the axis at its zoom.
    let beam = (18.0 / way.zoom_mm).atan().to_degrees() as f32;
    let [width, height] = job.bag.flash.window_of(way.dress);
    away - flag_half_angle_deg(way.flash, face, width.max(height) as f32) < beam
}

fn holding_a_board(job: &Job, way: &Way) -> Vec<FaultPoints> {
    let Route::HeldBoard {
        board,
        centre,
        to_face_m,
        ..
    } = &way.route
    else {
        return Vec::new();
    };
    // A beam tighter than the board gains little and must be aimed exactly.
    let side = f64::from(job.bag.boards[*board].size.min_element());
    let filling = 18.0 / (0.5 * side / f64::from((*centre - way.flash).length().max(0.2)));
    let tighter = (way.zoom_mm / filling).log2().max(0.0);
    let (metres, points) = fault::CROWDS;
    let nearer = (COMFORTABLE_BOARD_M - to_face_m).max(0.0);
    vec![
        of(Fault::NeedsHands, fault::HANDS),
        of(Fault::TightBeam, fault::TIGHT * tighter),
        of(Fault::CrowdsSitter, points * nearer / metres),
    ]
}

/// What settings cost that are not the plain ones: a shutter that shows movement, a speed that shows noise, another
/// aperture than the plain one, a filter to put on.
pub(crate) fn tasteful(job: &Job, plain: FNumber, settings: &Settings) -> [FaultPoints; 4] {
    let ask = &job.ask;
    let away = match ask.apertures {
        Some(_) => 0.0,
        None => settings.aperture.stops_darker_than(plain).value().abs(),
    };
    let slower = settings.shutter.stops_longer_than(job.body.sync).value().max(0.0);
    let shaky = match hand_held(settings.shutter) {
        true => 0.0,
        false => taste::SHAKY.0 + taste::SHAKY.1 * (settings.shutter.value() / SLOWEST_HAND_HELD_S).log2(),
    };
    let least = ask.iso.unwrap_or(job.body.least_iso);
    let faster = settings.iso.stops_faster_than(least).value().max(0.0);
    let grainy = (settings.iso.value() / GRAINY_ISO).log2().clamp(0.0, faster);
    let filter = match settings.nd.value() > 0.0 {
        true => taste::FILTER,
        false => 0.0,
    };
    [
        of(Fault::SlowShutter, taste::SLOWER * slower + shaky),
        of(Fault::HighSpeed, taste::SPEED * faster + taste::GRAIN * grainy),
        of(Fault::OddAperture, taste::APERTURE * away),
        of(Fault::Filter, filter),
    ]
}
