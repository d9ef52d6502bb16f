//! Where the stops go.

use crate::ways::fine::Fine;
use crate::ways::way::own_reflectance;
use answer::{Aim, ChartItem, ChartKind, ChartLine, Exposure, FlashSetting, Job, Route, Settings, WayId};
use transport::Source;
use units::LuminousExposure;

/// One line for each gain and loss; each is the difference of two computed levels, so that they add up.
pub(crate) fn chart(
    job: &Job,
    fine: &Fine,
    aim: &Aim,
    settings: &Settings,
    flash_line: &FlashSetting,
    exposure: &Exposure,
    dose: f64,
) -> Vec<ChartLine> {
    let level = |q: f64| {
        camera::flash_exposure(
            LuminousExposure(q.max(1e-12)),
            settings.aperture,
            settings.speed(),
        )
        .value()
    };
    let flash = match &fine.source {
        Source::Flash(flash) => flash,
        _ => return Vec::new(),
    };
    let line = |item: ChartItem, stops: f64| ChartLine {
        item,
        stops,
        kind: if stops < 0.0 {
            ChartKind::Loss
        } else {
            ChartKind::Gain
        },
    };
    let way = || WayId::of(&aim.route, flash_line.dress);
    let gel_loss = job.bag.flash.gel_loss_stops();
    let front = flash_line
        .dress
        .soft_front()
        .map_or(0.0, |front| front.loss_stops());
    let one_metre = level(flash.beam.axis_intensity_time().value()) + gel_loss;
    let path = aim.legs_m[0] + aim.legs_m[1];
    let travelled = one_metre - gel_loss - 2.0 * path.log2();
    let mut chart = vec![ChartLine {
        item: ChartItem::FullFlash {
            zoom_mm: flash_line.zoom_mm,
            aperture: settings.aperture,
            iso: settings.iso,
        },
        stops: one_metre + settings.nd.value() + front,
        kind: ChartKind::Start,
    }];
    if front > 0.0 {
        chart.push(line(ChartItem::Front { way: way() }, -front));
    }
    let nd = settings.nd;
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
    let whole = level(dose);
    if matches!(aim.route, Route::Direct) {
        let direct = level(f64::from(fine.face.direct));
        chart.push(line(ChartItem::PlaceInBeam, direct - travelled));
        chart.push(line(ChartItem::RoomSendsBack, whole - direct));
    } else {
        let colour = job.bag.flash.colour();
        let first = level(f64::from(colour.luminous(&fine.face.first)));
        let kept = surface_reflectance(job, &aim.route).log2();
        let keeps = ChartItem::Keeps {
            way: way(),
            share: kept.exp2(),
        };
        chart.push(line(keeps, kept));
        chart.push(line(ChartItem::Scatter, first - travelled - kept));
        let spill = f64::from(fine.face.direct);
        let without_spill = level((dose - spill).max(1e-12));
        chart.push(line(ChartItem::LaterBounces, without_spill - first));
        if spill > 0.0 && whole - without_spill > 5e-4 {
            chart.push(line(ChartItem::Spill, whole - without_spill));
        }
    }
    chart.push(line(
        ChartItem::Power {
            power: flash_line.power,
        },
        exposure.flash_alone.value() - whole,
    ));
    if let Some(ambient) = exposure.ambient_alone
        && ambient.value() > -12.0
    {
        // Light adds as amounts, so what a source adds depends on what is there before it; the order is the
        // file's, and the lines add up to the whole.
        let all_lx: f64 = fine.place.ambients.iter().map(|there| there.dome_lx).sum();
        let mut so_far = exposure.flash_alone.value().exp2();
        for there in &fine.place.ambients {
            let more = so_far + ambient.value().exp2() * there.dome_lx / all_lx;
            let light = there.name.clone();
            chart.push(line(ChartItem::Ambient { light }, (more / so_far).log2()));
            so_far = more;
        }
    }
    let sum = chart.iter().map(|l| l.stops).sum();
    chart.push(ChartLine {
        item: ChartItem::AtTheFace,
        stops: sum,
        kind: ChartKind::Result,
    });
    chart
}

/// Luminous reflectance, under the flash, of what carries the light.
fn surface_reflectance(job: &Job, route: &Route) -> f64 {
    f64::from(job.bag.flash.colour().luminous(&own_reflectance(job, route))).max(1e-4)
}
