//! Names of what stands in the place and closes it, and the room's dimensions.

use super::things::opening_ends;
use super::view::{View, WALL};
use crate::fitting::shorten;
use crate::label::{Area, Hand, Labels};
use crate::svg::{Svg, fit, text_width};
use crate::swatch::surface_words;
use crate::symbols::dimension;
use crate::voice::Voice;
use crate::wording::{nouns, on_drawings};
use answer::Job;
use glam::{Vec2, Vec3};
use scene::{Block, Face};

pub(super) fn name_things(view: &View, job: &Job, voice: Voice, labels: &mut Labels) {
    for panel in &job.place.panels {
        labels.near(
            view.at(panel.centre),
            10.0,
            &shorten(&panel.name, 24),
            Hand::SMALL,
        );
    }
    for block in &job.place.blocks {
        name_block(view, block, voice, labels);
    }
}

/// A block's name stands in it, level or turned, with its height if there is space; else beside it.
fn name_block(view: &View, block: &Block, voice: Voice, labels: &mut Labels) {
    let clip = |point: Vec3| view.at(point).clamp(view.inner.min, view.inner.max);
    let (a, b) = (clip(block.min), clip(block.max));
    let (centre, size) = (0.5 * (a + b), (a - b).abs());
    let name = shorten(&block.name, 24);
    let tall = on_drawings::tall(voice, &name, block.max.z);
    for words in [&tall, &name] {
        let needed = Vec2::new(text_width(words, Hand::SMALL.size), Hand::SMALL.size * 1.5);
        for turned in [false, true] {
            let space = if turned { Vec2::new(size.y, size.x) } else { size };
            if needed.cmple(space - 6.0).all() && labels.at(centre, words, Hand::SMALL, turned) {
                return;
            }
        }
    }
    labels.take(Area::around(centre, size));
    labels.near(centre, 0.5 * size.min_element() + 4.0, &name, Hand::SMALL);
}

pub(super) fn name_walls(view: &View, job: &Job, voice: Voice, labels: &mut Labels) {
    for opening in job
        .place
        .openings
        .iter()
        .filter(|opening| view.shows(opening.face) && !opening.fills(&job.place.room))
    {
        let (from, to) = opening_ends(view, job, opening);
        let (_, _, out) = view.wall(opening.face);
        if (to - from).length() > 4.0 {
            let words = fit(&opening.name, 12.0, (to - from).length().max(130.0));
            let middle = from.lerp(to, 0.5) + out * (WALL + 11.0);
            if !labels.at(middle, &words, Hand::SMALL, out.x != 0.0) {
                labels.near(middle, 2.0, &words, Hand::SMALL);
            }
        }
    }
    for face in [Face::Left, Face::Right, Face::BehindCamera, Face::BehindSitter] {
        let full = surface_words(voice, job, face);
        if !view.shows(face) {
            labels.leave_over(&full);
            continue;
        }
        let (from, to, out) = view.wall(face);
        let mut place = |words: &str| {
            [0.5, 0.35, 0.65, 0.25, 0.75, 0.18, 0.82].into_iter().any(|t| {
                labels.at(
                    from.lerp(to, t) + out * (WALL + 12.0),
                    words,
                    Hand::PLAIN,
                    out.x != 0.0,
                )
            })
        };
        if !place(&full) {
            place(&nouns::face(voice, face).bare);
            labels.leave_over(&full);
        }
    }
}

/// Dimension lines for width and length of the room.
pub(super) fn draw_dimensions(svg: &mut Svg, view: &View, voice: Voice, labels: &mut Labels) {
    let Area { min, max } = view.inner;
    let whole = |shown: f32, room: f32| {
        let words = voice.exact(f64::from(room));
        if shown < room {
            on_drawings::in_all(voice, &words)
        } else {
            words
        }
    };
    let shown = view.shown.size();
    let y = max.y + WALL + 34.0;
    dimension(
        svg,
        Vec2::new(min.x, y),
        Vec2::new(max.x, y),
        &whole(shown.x, view.room.x),
        labels,
    );
    let x = min.x - WALL - 34.0;
    dimension(
        svg,
        Vec2::new(x, max.y),
        Vec2::new(x, min.y),
        &whole(shown.y, view.room.y),
        labels,
    );
}
