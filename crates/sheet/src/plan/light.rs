//! The light's way from above: beam, lit patch, falloff, flag, and the sun.

use super::people::body_radius;
use super::things::draw_board;
use super::view::{View, WALL};
use crate::label::{Area, Hand, Labels};
use crate::path::{LightPath, Surface, hull};
use crate::svg::{Svg, ink};
use crate::symbols::{BEAM, FALLOFF, LIT, arrow, degrees, draw_flash};
use crate::voice::Voice;
use crate::wording::on_drawings;
use answer::{Answer, Job, Route};
use glam::Vec2;
use scene::Face;

/// The falloff lines that are drawn, in stops against the face.
const FALLOFF_STOPS: [f32; 4] = [1.0, 0.0, -1.0, -2.0];

pub(super) fn draw_falloff(svg: &mut Svg, view: &View, path: &LightPath) {
    let centre = view.at(path.source());
    for radius in FALLOFF_STOPS
        .into_iter()
        .filter_map(|stops| path.falloff_radius(stops))
    {
        svg.circle(centre, radius * view.scale, &FALLOFF);
    }
}

pub(super) fn draw_beam(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    let mut points: Vec<Vec2> = path.rim.iter().map(|&point| view.at(point)).collect();
    points.push(view.at(path.flash));
    svg.path(&hull(&points), true, &BEAM);
    // A patch on ceiling or floor has an outline seen from above; one on a wall is drawn with the wall.
    if let Surface::Room(Face::Ceiling | Face::Floor) = path.surface {
        let outline: Vec<Vec2> = path
            .patch(&job.place.room)
            .into_iter()
            .map(|point| view.at(point))
            .collect();
        svg.path(&hull(&outline), true, &LIT);
    }
}

pub(super) fn draw_patch(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    match &path.surface {
        Surface::Board(board) => draw_board(svg, view, board),
        Surface::Room(face) if view.shows(*face) => {
            let (_, _, out) = view.wall(*face);
            let along = Vec2::new(-out.y, out.x);
            let patch = path.patch(&job.place.room);
            let ends = patch.iter().map(|&point| view.at(point).dot(along));
            let (low, high) = ends.fold((f32::INFINITY, f32::NEG_INFINITY), |(l, h), v| {
                (l.min(v), h.max(v))
            });
            if low > high {
                return;
            }
            // The patch lies on the wall's inner face: a hatched strip, with the wall's own colour kept beside it.
            let base = view.wall(*face).0.dot(out);
            let point = |along_part: f32, out_part: f32| along * along_part + out * (base + out_part);
            let (a, b) = (point(low, 1.0), point(high, -7.0));
            let (corner, far) = (
                a.min(b).max(view.inner.min - WALL),
                a.max(b).min(view.inner.max + WALL),
            );
            svg.rectangle(corner, far - corner, &[("fill", ink::SHEET)]);
            svg.rectangle(corner, far - corner, &LIT);
        }
        _ => {}
    }
}

pub(super) fn draw_path(svg: &mut Svg, view: &View, path: &LightPath, labels: &mut Labels) {
    let (flash, face) = (view.at(path.flash), view.at(path.face));
    let short = (face - view.at(path.source())).normalize_or_zero() * (body_radius(view) + 3.0);
    svg.start("g", &[("data-what", "light")]);
    match path.surface {
        Surface::Nothing => {
            arrow(svg, flash, face - short);
            labels.keep_off(flash, face);
        }
        _ => {
            let target = view.at(path.target);
            svg.line(flash, target, &[("stroke", ink::GLOW), ("stroke-width", "1.8")]);
            arrow(svg, target, face - short);
            labels.keep_off(flash, target);
            labels.keep_off(target, face);
        }
    }
    svg.end();
}

/// The flash, with a flag before it where there is one.
pub(super) fn draw_head(svg: &mut Svg, view: &View, path: &LightPath, voice: Voice, labels: &mut Labels) {
    let flash = view.at(path.flash);
    if path.flagged {
        draw_flag(svg, flash, view.at(path.face), voice, labels);
    }
    draw_flash(svg, flash);
    labels.take(Area::around(flash, Vec2::splat(18.0)));
}

/// A flag: a black card between head and face.
fn draw_flag(svg: &mut Svg, flash: Vec2, face: Vec2, voice: Voice, labels: &mut Labels) {
    let way = (face - flash).normalize_or(Vec2::NEG_Y);
    let (middle, across) = (flash + way * 15.0, Vec2::new(-way.y, way.x) * 11.0);
    svg.line(
        middle - across,
        middle + across,
        &[("stroke", ink::INK), ("stroke-width", "6")],
    );
    svg.line(
        middle - across * 0.88,
        middle + across * 0.88,
        &[("stroke", "#000000"), ("stroke-width", "3.6")],
    );
    labels.take(Area::around(middle, across.abs() * 2.0 + 6.0));
    labels.near(middle + across, 5.0, on_drawings::flag(voice), Hand::SMALL);
}

/// Where the sun or the moon stands, at the edge of what is shown, with a line towards the first sitter.
pub(super) fn draw_sun(svg: &mut Svg, view: &View, job: &Job, voice: Voice, labels: &mut Labels) {
    const EDGE: f32 = 30.0;
    let disc = job.outdoors.as_ref().and_then(|outdoors| outdoors.disc.as_ref());
    let (Some(disc), Some(first)) = (disc, job.sitters.first()) else {
        return;
    };
    let centre = view.at(first.stand);
    let ahead = view.at(first.stand + disc.towards.with_z(0.0)) - centre;
    let Some(towards) = ahead.try_normalize() else {
        return;
    };
    let inside = Area::new(
        view.inner.min + Vec2::splat(EDGE),
        view.inner.max - Vec2::splat(EDGE),
    );
    // How far one can go from the sitter before the nearest edge that lies ahead.
    let reach = |from: f32, step: f32, low: f32, high: f32| match step {
        step if step > 1e-4 => (high - from) / step,
        step if step < -1e-4 => (low - from) / step,
        _ => f32::MAX,
    };
    let far = reach(centre.x, towards.x, inside.min.x, inside.max.x).min(reach(
        centre.y,
        towards.y,
        inside.min.y,
        inside.max.y,
    ));
    if far < 2.0 * EDGE {
        return;
    }
    let at = centre + towards * far;
    let line = [
        ("stroke", ink::GLOW),
        ("stroke-width", "1.4"),
        ("stroke-dasharray", "7 5"),
    ];
    svg.line(
        at - towards * 20.0,
        at - towards * (0.5 * far).clamp(40.0, 110.0),
        &line,
    );
    svg.circle(at, 7.0, &[("fill", ink::GLOW)]);
    for ray in 0..8 {
        let direction = Vec2::from_angle(std::f32::consts::FRAC_PI_4 * ray as f32);
        svg.line(
            at + direction * 10.0,
            at + direction * 15.0,
            &[("stroke", ink::GLOW), ("stroke-width", "1.6")],
        );
    }
    labels.take(Area::around(at, Vec2::splat(32.0)));
    let height = f64::from(disc.towards.z.clamp(-1.0, 1.0).asin()).to_degrees();
    let words = on_drawings::in_the_sky(voice, &disc.light.name, &degrees(voice, height));
    labels.near(at, 18.0, &words, Hand::PLAIN);
}

pub(super) fn name_light(
    view: &View,
    job: &Job,
    answer: Option<&Answer>,
    path: Option<&LightPath>,
    voice: Voice,
    labels: &mut Labels,
) {
    let camera = job.viewpoint.position;
    let on_camera = path.is_some_and(|path| job.is_on_camera(path.flash));
    let words = on_drawings::camera(voice, camera.z, on_camera);
    labels.near(view.at(camera), 17.0, &words, Hand::PLAIN);
    let (Some(answer), Some(path)) = (answer, path) else {
        return;
    };
    if !on_camera {
        let words = on_drawings::flash(voice, path.flash.z);
        labels.near(view.at(path.flash), 11.0, &words, Hand::LIGHT);
    }
    let legs = answer.aim.legs_m;
    let (flash, face, target) = (view.at(path.flash), view.at(path.face), view.at(path.target));
    if matches!(path.surface, Surface::Nothing) {
        labels.along(flash, face, &voice.about(legs[0]), Hand::LIGHT);
        return;
    }
    labels.along(target, face, &voice.about(legs[1]), Hand::LIGHT);
    if (target - flash).length() > 30.0 {
        labels.along(flash, target, &voice.about(legs[0]), Hand::LIGHT);
    }
    match &answer.aim.route {
        Route::HeldBoard { name, centre, .. } => {
            let words = on_drawings::held(voice, name, centre.z);
            labels.near(view.at(*centre), 12.0, &words, Hand::PLAIN);
        }
        Route::Bounce {
            face: Face::Ceiling | Face::Floor,
            ..
        } => {
            labels.near(target, 8.0, on_drawings::aim_here(voice), Hand::LIGHT);
        }
        _ => {
            labels.near(
                target,
                12.0,
                &on_drawings::aim_up(voice, path.target.z),
                Hand::LIGHT,
            );
        }
    }
}

pub(super) fn name_falloff(view: &View, job: &Job, path: &LightPath, voice: Voice, labels: &mut Labels) {
    let centre = view.at(path.source());
    for stops in FALLOFF_STOPS {
        let Some(radius) = path.falloff_radius(stops) else {
            continue;
        };
        let words = if stops == 0.0 {
            "±0".to_owned()
        } else {
            voice.signed(f64::from(stops), 0)
        };
        // Anywhere on the circle will do; the first free place is taken, from the sitter's side on.
        let start = (view.at(path.face) - centre).to_angle();
        for step in 1..30 {
            let turn = (step as f32 * 0.5).ceil() * if step % 2 == 0 { 0.2 } else { -0.2 };
            let point = centre + Vec2::from_angle(start + turn) * radius * view.scale;
            let covered = job.place.blocks.iter().any(|block| {
                let (a, b) = (view.at(block.min), view.at(block.max));
                Area::new(a.min(b), a.max(b)).grown(8.0).has(point)
            });
            if view.inner.has(point) && !covered && labels.at(point, &words, Hand::SMALL, false) {
                break;
            }
        }
    }
}
