//! Where the stops go.

use crate::explain::lines::Lines;
use crate::judge::exposure::full_power;
use crate::judge::judged::Judged;
use crate::place::ambient::all_lx;
use crate::ways::fine::Fine;
use crate::ways::way::own_reflectance;
use answer::{ChartItem, ChartKind, ChartLine, Job, Route, Settings, WayId};
use transport::{PlacedFlash, Source};

/// Light that is there and lies further under than this has no line, in stops (ours: it adds a three-thousandth).
const NO_LINE: f64 = -12.0;
/// Direct spill that adds less than this has no line, in stops.
const NO_SPILL: f64 = 5e-4;

/// One line for each gain and loss; each is the difference of two computed levels, so that they add up.
pub(crate) fn chart(job: &Job, fine: &Fine, chosen: &Judged, lines: &Lines) -> Vec<ChartLine> {
    let Source::Flash(flash) = &fine.source else {
        return Vec::new();
    };
    let (settings, dose) = (&chosen.settings, chosen.way.light.dose());
    let whole = level(settings, dose);
    let (mut chart, travelled) = until_the_face(job, flash, settings, lines);
    if matches!(lines.aim.route, Route::Direct) {
        let direct = level(settings, f64::from(fine.face.spill.dome));
        chart.push(line(ChartItem::PlaceInBeam, direct - travelled));
        chart.push(line(ChartItem::RoomSendsBack, whole - direct));
    } else {
        chart.extend(off_a_surface(job, fine, settings, lines, travelled));
    }
    let power = lines.flash.power;
    let flash_alone = lines.exposure.flash_alone.value();
    chart.push(line(ChartItem::Power { power }, flash_alone - whole));
    chart.extend(light_that_is_there(fine, lines));
    let sum = chart.iter().map(|line| line.stops).sum();
    chart.push(ChartLine {
        item: ChartItem::AtTheFace,
        stops: sum,
        kind: ChartKind::Result,
    });
    chart
}

/// A gain or a loss.
fn line(item: ChartItem, stops: f64) -> ChartLine {
    ChartLine {
        item,
        stops,
        kind: if stops < 0.0 {
            ChartKind::Loss
        } else {
            ChartKind::Gain
        },
    }
}

/// Stops of a dose in lx s against an exact exposure.
fn level(settings: &Settings, dose: f64) -> f64 {
    full_power(dose, settings.aperture, settings.speed())
}

fn way(lines: &Lines) -> WayId {
    WayId::of(&lines.aim.route, lines.flash.dress)
}

/// What comes of the full flash on its way to the face, by the inverse square of the whole way; with the level that is
/// left there.
fn until_the_face(
    job: &Job,
    flash: &PlacedFlash,
    settings: &Settings,
    lines: &Lines,
) -> (Vec<ChartLine>, f64) {
    let aim = &lines.aim;
    let gel_loss = job.bag.flash.gel_loss_stops();
    let dress = lines.flash.dress;
    let front = dress.soft_front().map_or(0.0, |front| front.loss_stops());
    let nd = settings.nd;
    let one_metre = level(settings, flash.beam.axis_intensity_time().value()) + gel_loss;
    let path = aim.legs_m[0] + aim.legs_m[1];
    let travelled = one_metre - gel_loss - 2.0 * path.log2();
    let mut chart = vec![ChartLine {
        item: ChartItem::FullFlash {
            zoom_mm: lines.flash.zoom_mm,
            aperture: settings.aperture,
            iso: settings.iso,
        },
        stops: one_metre + nd.value() + front,
        kind: ChartKind::Start,
    }];
    if front > 0.0 {
        chart.push(line(ChartItem::Front { way: way(lines) }, -front));
    }
    if nd.value() > 0.0 {
        chart.push(line(ChartItem::Filter { nd }, -nd.value()));
    }
    if let Some(gel) = job.bag.flash.gel() {
        let name = gel.name().to_owned();
        chart.push(line(ChartItem::Gel { name }, -gel_loss));
    }
    chart.push(line(
        ChartItem::Travel { metres: path },
        travelled - (one_metre - gel_loss),
    ));
    (chart, travelled)
}

/// What a surface and the room behind it make of the light, between what has travelled and the whole.
fn off_a_surface(
    job: &Job,
    fine: &Fine,
    settings: &Settings,
    lines: &Lines,
    travelled: f64,
) -> Vec<ChartLine> {
    let dose = fine.face.dose();
    let whole = level(settings, dose);
    let colour = job.bag.flash.colour();
    let first = level(settings, f64::from(colour.luminous(&fine.face.first)));
    let kept = surface_reflectance(job, &lines.aim.route).log2();
    let spill = f64::from(fine.face.spill.dome);
    let without_spill = level(settings, dose - spill);
    let keeps = ChartItem::Keeps {
        way: way(lines),
        share: kept.exp2(),
    };
    let mut chart = vec![
        line(keeps, kept),
        line(ChartItem::Scatter, first - travelled - kept),
        line(ChartItem::LaterBounces, without_spill - first),
    ];
    if spill > 0.0 && whole - without_spill > NO_SPILL {
        chart.push(line(ChartItem::Spill, whole - without_spill));
    }
    chart
}

/// What each of the lights that are there adds.
///
/// Light adds as amounts, so what a source adds depends on what is there before it; the order is the file's, and the
/// lines add up to the whole.
fn light_that_is_there(fine: &Fine, lines: &Lines) -> Vec<ChartLine> {
    let Some(ambient) = lines
        .exposure
        .ambient_alone
        .filter(|level| level.value() > NO_LINE)
    else {
        return Vec::new();
    };
    let ambients = &fine.place.ambients;
    let ambient_lx = all_lx(ambients);
    let mut so_far = lines.exposure.flash_alone.value().exp2();
    ambients
        .iter()
        .map(|there| {
            let light = there.name.clone();
            let more = so_far + ambient.value().exp2() * there.dome_lx / ambient_lx;
            let stops = (more / so_far).log2();
            so_far = more;
            line(ChartItem::Ambient { light }, stops)
        })
        .collect()
}

/// Luminous reflectance, under the flash, of what carries the light.
fn surface_reflectance(job: &Job, route: &Route) -> f64 {
    f64::from(job.bag.flash.colour().luminous(&own_reflectance(job, route))).max(1e-4)
}
