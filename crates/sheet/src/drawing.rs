//! The sheet with two drawings: from above, and from the side along the light.

use crate::fitting::shorten;
use crate::label::Area;
use crate::path::{LightPath, Surface};
use crate::svg::{Svg, ink, wrap};
use crate::symbols;
use crate::voice::Voice;
use crate::wording::{aim, on_drawings};
use crate::{plan, section};
use answer::{Answer, Job};
use glam::Vec2;

/// Width of the sheet in pixels.
const WIDTH: f32 = 1280.0;
const MARGIN: f32 = 40.0;
/// Most room for the plan.
const PLAN: Vec2 = Vec2::new(720.0, 700.0);
/// Space between the two drawings.
const GUTTER: f32 = 44.0;
/// Most height of the side view.
const SIDE_HEIGHT: f32 = 420.0;
/// From line to line below the title.
const HEAD_ROW: f32 = 24.0;
/// From line to line below the drawings.
const FOOT_ROW: f32 = 22.0;

/// Two drawings on one neutral sheet: the place from above, and the light's way from the side.
///
/// Without an answer only what was described is drawn. The plan is to scale (a long hall is cut, with break lines);
/// the side view is laid along the light, so that its heights, angles and lengths are true. Nothing is told by colour
/// alone, labels never cover one another, and names may hold any character.
pub fn drawing_svg(job: &Job, answer: Option<&Answer>, voice: Voice) -> String {
    let moved = answer.map(|answer| job.as_answered(answer));
    let job = moved.as_ref().unwrap_or(job);
    let path = answer.and_then(|answer| LightPath::new(job, answer));
    let path = path.as_ref();
    let head = Head::new(job, answer, voice);
    let top = head.bottom() + 26.0;
    let corner = Vec2::new(MARGIN, top);
    let view = plan::View::new(job, path, Area::new(corner, corner + PLAN));
    let side_left = view.outer.max.x + GUTTER;
    let side_area = Area::new(
        Vec2::new(side_left, top),
        Vec2::new(WIDTH - MARGIN, top + SIDE_HEIGHT),
    );
    let side = section::View::new(job, path, side_area);

    let key = key_rows(answer, path, voice);
    let key_width = WIDTH - MARGIN - side_left;
    let key_top = side.outer.max.y + 40.0;
    // The height is known only when all labels have found a place or not, so the drawings are made first.
    let mut body = Svg::part();
    let mut left_over = plan::draw(&mut body, &view, job, answer, path, voice);
    left_over.extend(section::draw(&mut body, &side, job, answer, path, voice));
    let key_bottom = draw_key(&mut body, &key, Vec2::new(side_left, key_top), key_width);
    let foot_top = view.outer.max.y.max(key_bottom + 10.0) + 6.0;
    let foot = foot_lines(job, &left_over, voice);
    let size = Vec2::new(WIDTH, foot_top + FOOT_ROW * foot.len() as f32 + MARGIN);

    let mut svg = Svg::new(size, &head.title, &description(job, answer, voice));
    definitions(&mut svg, &view);
    svg.rectangle(Vec2::ZERO, size, &[("fill", ink::SHEET)]);
    head.draw(&mut svg);
    // Whoever shows one view alone cuts the drawing where these captions stand.
    let caption = [
        ("class", "view-title"),
        ("fill", ink::SOFT),
        ("font-size", "14"),
        ("font-weight", "600"),
    ];
    let (plan_words, side_words) = (
        on_drawings::from_above(voice),
        on_drawings::from_the_side(voice, path.is_some()),
    );
    svg.text(Vec2::new(MARGIN, top - 20.0), plan_words, &caption);
    svg.text(Vec2::new(side_left, top - 20.0), side_words, &caption);
    svg.append(body);
    let mut at = Vec2::new(MARGIN, foot_top + 14.0);
    for line in &foot {
        svg.text(at, line, &[("fill", ink::SOFT), ("font-size", "13")]);
        at.y += FOOT_ROW;
    }
    svg.finish()
}

/// The words above the drawings.
struct Head {
    title: String,
    subtitle: Vec<String>,
    /// Colour of the lines below the title.
    fill: &'static str,
}

impl Head {
    fn new(job: &Job, answer: Option<&Answer>, voice: Voice) -> Self {
        let subtitle = match answer {
            Some(answer) => aim::line(voice, &answer.aim),
            None => on_drawings::as_described(voice).to_owned(),
        };
        Self {
            title: match job.title.trim() {
                "" => on_drawings::untitled(voice).to_owned(),
                title => shorten(title, 90),
            },
            subtitle: wrap(&subtitle, 16.0, WIDTH - 2.0 * MARGIN, 3),
            fill: if answer.is_some() { ink::GLOW } else { ink::SOFT },
        }
    }

    fn bottom(&self) -> f32 {
        68.0 + HEAD_ROW * self.subtitle.len() as f32 + 24.0
    }

    fn draw(&self, svg: &mut Svg) {
        svg.text(
            Vec2::new(MARGIN, 54.0),
            &self.title,
            &[("fill", ink::INK), ("font-size", "22"), ("font-weight", "600")],
        );
        for (index, line) in self.subtitle.iter().enumerate() {
            let at = Vec2::new(MARGIN, 82.0 + HEAD_ROW * index as f32);
            svg.text(at, line, &[("fill", self.fill), ("font-size", "16")]);
        }
    }
}

/// Hatching of the lit patch and the clip of the room.
pub(crate) fn definitions(svg: &mut Svg, view: &plan::View) {
    svg.start("defs", &[]);
    svg.start("clipPath", &[("id", "room")]);
    svg.rectangle(view.inner.min, view.inner.size(), &[]);
    svg.end();
    symbols::lit_pattern(svg);
    svg.end();
}

/// A line of the key: how it is drawn, and what it means.
struct KeyRow {
    sample: Sample,
    words: String,
}

#[derive(Clone, Copy, PartialEq)]
enum Sample {
    Path,
    Beam,
    Lit,
    Falloff,
    Clock,
}

/// From row to row of the key, and from line to line within one.
const KEY_ROW: f32 = 25.0;
const KEY_LINE: f32 = 17.0;
/// Where the words of the key begin, behind their samples.
const KEY_INDENT: f32 = 54.0;

fn key_rows(answer: Option<&Answer>, path: Option<&LightPath>, voice: Voice) -> Vec<KeyRow> {
    let (Some(answer), Some(path)) = (answer, path) else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    let mut row = |sample, words: String| rows.push(KeyRow { sample, words });
    let legs = match path.surface {
        Surface::Nothing => &answer.aim.legs_m[..1],
        _ => &answer.aim.legs_m[..],
    };
    row(Sample::Path, on_drawings::key_way(voice, legs));
    row(Sample::Beam, on_drawings::key_beam(voice, answer.flash.zoom_mm));
    if matches!(path.surface, Surface::Room(_)) {
        row(Sample::Lit, on_drawings::key_patch(voice).to_owned());
    }
    row(Sample::Falloff, on_drawings::key_falloff(voice).to_owned());
    if answer.aim.light_from_clock.is_finite() {
        row(
            Sample::Clock,
            on_drawings::key_clock(voice, answer.aim.light_from_clock),
        );
    }
    rows
}

/// Draws the key within a width; returns where it ends.
fn draw_key(svg: &mut Svg, rows: &[KeyRow], at: Vec2, width: f32) -> f32 {
    let mut middle = at + Vec2::new(0.0, 4.0);
    for row in rows {
        draw_sample(svg, row.sample, middle);
        let lines = wrap(&row.words, 13.0, width - KEY_INDENT, 3);
        for (index, line) in lines.iter().enumerate() {
            let below = Vec2::new(KEY_INDENT, 4.6 + KEY_LINE * index as f32);
            svg.text(middle + below, line, &[("fill", ink::INK), ("font-size", "13")]);
        }
        middle.y += KEY_ROW + KEY_LINE * (lines.len() - 1) as f32;
    }
    middle.y - 4.0
}

/// What a row of the key is about, drawn from a point to the right.
fn draw_sample(svg: &mut Svg, sample: Sample, left: Vec2) {
    let right = left + Vec2::new(40.0, 0.0);
    match sample {
        Sample::Path => symbols::arrow(svg, left, right),
        Sample::Beam => {
            let wedge = [left, right - Vec2::new(0.0, 8.0), right + Vec2::new(0.0, 8.0)];
            svg.path(&wedge, true, &symbols::BEAM);
        }
        Sample::Lit => {
            let corner = left - Vec2::new(0.0, 6.0);
            svg.rectangle(corner, Vec2::new(40.0, 12.0), &symbols::LIT);
        }
        Sample::Falloff => svg.line(left, right, &symbols::FALLOFF),
        Sample::Clock => symbols::clock_face(svg, left + Vec2::new(20.0, 0.0), 8.0, Vec2::Y),
    }
}

/// Names of numbered sitters, and names that found no place.
fn foot_lines(job: &Job, left_over: &[String], voice: Voice) -> Vec<String> {
    let mut lines = Vec::new();
    let width = WIDTH - 2.0 * MARGIN;
    if plan::numbered(job) {
        let sitters = job.sitters.iter().enumerate();
        let names: Vec<String> = sitters
            .map(|(index, sitter)| on_drawings::numbered(voice, index, &sitter.name))
            .collect();
        lines.extend(wrap(&names.join("  ·  "), 13.0, width, 6));
    }
    if !left_over.is_empty() {
        let words = on_drawings::left_over(voice, &left_over.join("; "));
        lines.extend(wrap(&words, 13.0, width, 3));
    }
    lines
}

/// What a person learns who does not see the drawing.
pub(crate) fn description(job: &Job, answer: Option<&Answer>, voice: Voice) -> String {
    let mut sentences = vec![on_drawings::place_described(voice, job)];
    if let Some(answer) = answer {
        sentences.push(aim::line(voice, &answer.aim));
        sentences.push(on_drawings::light_described(
            voice,
            answer.aim.light_from_clock,
            answer.key.elevation_deg,
        ));
    }
    sentences.join(" ")
}
