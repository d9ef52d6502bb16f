//! The key beside the lower half of the map.

use super::grade::{EDGE, SHADES, WORTHS, draw_piece, hex, sample_points, worth_of};
use super::marks::{draw_aim, draw_open_flash, draw_other_aim, face_of, flash_elsewhere, outline_opening};
use super::net::{AWAY, KEY, MARGIN, Net, WIDTH};
use crate::fitting::shorten;
use crate::label::Area;
use crate::svg::{Svg, ink, wrap};
use crate::voice::Voice;
use crate::wording::on_map::{self, Worth};
use crate::{plan, symbols};
use answer::{Answer, Job, MapCell};
use glam::Vec2;
use scene::{Face, OpeningKind};

/// The key while it is set, line by line.
struct Key<'a> {
    svg: &'a mut Svg,
    voice: Voice,
    left: f32,
    width: f32,
    y: f32,
}

impl Key<'_> {
    fn heading(&mut self, words: &str) {
        self.y += 8.0;
        self.svg.text(
            Vec2::new(self.left, self.y),
            words,
            &[("fill", ink::SOFT), ("font-size", "15"), ("font-weight", "600")],
        );
        self.y += 26.0;
    }

    /// A sample with its words; the sample is drawn around the given point.
    fn row(&mut self, words: &str, sample: impl FnOnce(&mut Svg, Vec2)) {
        let lines = wrap(words, 14.5, self.width - 44.0, 4);
        sample(self.svg, Vec2::new(self.left + 15.0, self.y - 4.0));
        for line in &lines {
            self.svg.text(
                Vec2::new(self.left + 44.0, self.y),
                line,
                &[("fill", ink::INK), ("font-size", "14.5")],
            );
            self.y += 19.0;
        }
        self.y += 12.0;
    }

    fn note(&mut self, words: &str) {
        for line in wrap(words, 14.5, self.width, 8) {
            self.svg.text(
                Vec2::new(self.left, self.y),
                &line,
                &[("fill", ink::SOFT), ("font-size", "14.5")],
            );
            self.y += 19.0;
        }
        self.y += 10.0;
    }
}

/// Draws the key; returns where it ends.
pub(super) fn draw_key(
    svg: &mut Svg,
    net: &Net,
    job: &Job,
    answer: &Answer,
    best: f64,
    voice: Voice,
    left_over: &[String],
) -> f32 {
    let (front, right) = (net.area(Face::BehindSitter), net.area(Face::Right));
    let left = front.max.x + KEY.1;
    let mut key = Key {
        svg,
        voice,
        left,
        width: WIDTH - MARGIN - left,
        y: right.max.y + 44.0,
    };
    key.heading(on_map::aiming_there(voice));
    key_of_uses(&mut key, answer, best);
    key_of_shades(&mut key);
    key.heading(on_map::in_the_room(voice));
    key.y += 8.0;
    key_of_marks(&mut key, job, answer);
    if plan::numbered(job) {
        let names: Vec<String> = job
            .sitters
            .iter()
            .enumerate()
            .map(|(index, sitter)| format!("{} {}", index + 1, shorten(&sitter.name, 24)))
            .collect();
        key.note(&names.join(" · "));
    }
    if !left_over.is_empty() {
        key.note(&on_map::not_named(voice, &left_over.join("; ")));
    }
    key.y
}

fn key_of_uses(key: &mut Key, answer: &Answer, best: f64) {
    for worth in WORTHS {
        let count = answer
            .map
            .cells
            .iter()
            .filter(|cell| worth_of(cell, best) == worth)
            .count();
        let words = match count {
            0 => on_map::nowhere(key.voice, worth),
            _ => on_map::worth(key.voice, worth).to_owned(),
        };
        key.row(&words, |svg, at| {
            let style = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "1.2")];
            svg.start("g", &style);
            let area = Area::around(at, Vec2::new(30.0, 24.0));
            draw_piece(svg, area, sample_points(worth), worth);
            svg.end();
        });
    }
    let good = |cell: &MapCell| matches!(worth_of(cell, best), Worth::AsGood | Worth::WouldDo);
    if answer.map.cells.iter().any(good) {
        key.row(on_map::around(key.voice), |svg, at| {
            svg.line(at - Vec2::X * 14.0, at + Vec2::X * 14.0, &EDGE);
        });
    }
    key.row(on_map::not_from_here(key.voice), |svg, at| {
        let area = Area::around(at, Vec2::new(30.0, 24.0));
        svg.rectangle(area.min, area.size(), &AWAY);
    });
}

/// The shades with their points.
fn key_of_shades(key: &mut Key) {
    let step = (key.width / SHADES.len() as f32).min(46.0);
    let top = key.y - 10.0;
    for (index, (points, colour)) in SHADES.into_iter().enumerate() {
        let corner = Vec2::new(key.left + step * index as f32, top);
        key.svg.rectangle(
            corner,
            Vec2::new(step, 16.0),
            &[("fill", &hex(colour)), ("stroke", ink::SHEET)],
        );
        key.svg.text(
            corner + Vec2::new(0.5 * step, 32.0),
            &key.voice.plain(points, if points.fract() > 0.0 { 1 } else { 0 }),
            &[
                ("fill", ink::SOFT),
                ("font-size", "12"),
                ("text-anchor", "middle"),
            ],
        );
    }
    key.y = top + 52.0;
    key.note(on_map::points(key.voice));
    key.y += 6.0;
}

fn key_of_marks(key: &mut Key, job: &Job, answer: &Answer) {
    let voice = key.voice;
    match face_of(&answer.aim) {
        Some(_) => {
            key.row(on_map::answer_aims(voice), draw_aim);
            key.y += 8.0;
        }
        None => key.note(&on_map::answer_aims_elsewhere(voice, &answer.aim.route)),
    }
    for (index, other) in answer.alternatives.iter().enumerate() {
        if face_of(&other.aim).is_some() {
            key.row(&on_map::other_answer(voice, &other.way), |svg, at| {
                draw_other_aim(svg, at, index);
            });
        } else {
            key.note(&on_map::other_answer_elsewhere(voice, &other.way));
        }
    }
    let elsewhere = flash_elsewhere(answer).is_some();
    key.row(on_map::map_flash(voice, !elsewhere), symbols::draw_flash);
    if elsewhere {
        key.row(on_map::answer_flash_key(voice), draw_open_flash);
    }
    for kind in [
        OpeningKind::Window,
        OpeningKind::NetCurtain,
        OpeningKind::Doorway,
        OpeningKind::Open,
    ] {
        if job.place.openings.iter().any(|opening| opening.kind == kind) {
            key.row(on_map::opening(voice, kind), |svg, at| {
                outline_opening(svg, Area::around(at, Vec2::new(28.0, 20.0)), kind);
            });
        }
    }
}
