//! The sheet with two drawings: from above, and from the side along the light.

use crate::label::Area;
use crate::path::LightPath;
use crate::svg::{Svg, fit, ink, num, text_width};
use crate::words::{Lengths, clean, clock, plain, shorten};
use crate::{plan, section};
use glam::Vec2;
use solver::{Answer, Job};

/// Width of the sheet in pixels.
const WIDTH: f32 = 1280.0;
const MARGIN: f32 = 40.0;
/// Most room for the plan.
const PLAN: Vec2 = Vec2::new(720.0, 700.0);
/// Space between the two drawings.
const GUTTER: f32 = 44.0;

/// Two drawings on one neutral sheet: the place from above, and the light's way from the side.
///
/// Without an answer only what was described is drawn. The plan is to scale (a long hall is cut, with break lines);
/// the side view is laid along the light, so that its heights, angles and lengths are true. Nothing is told by colour
/// alone, labels never cover one another, and names may hold any character. Lengths are in metres or in feet.
pub fn drawing_svg(job: &Job, answer: Option<&Answer>, feet: bool) -> String {
    let moved = answer.map(|answer| job.as_answered(answer));
    let job = moved.as_ref().unwrap_or(job);
    let lengths = Lengths::new(feet);
    let path = answer.and_then(|answer| LightPath::new(job, answer));
    let title = shorten(
        if job.title.trim().is_empty() {
            "Untitled set-up"
        } else {
            &job.title
        },
        90,
    );
    let words = answer.map(|answer| clean(&lengths.reword(&answer.aim.words)));
    let subtitle = wrap(
        words.as_deref().unwrap_or("The place as it was described"),
        16.0,
        WIDTH - 2.0 * MARGIN,
        3,
    );
    let top = 68.0 + 24.0 * subtitle.len() as f32 + 24.0;

    let view = plan::View::new(
        job,
        path.as_ref(),
        Area::new(
            Vec2::new(MARGIN, top + 26.0),
            Vec2::new(MARGIN, top + 26.0) + PLAN,
        ),
    );
    let side_left = view.outer.max.x + GUTTER;
    let side_area = Area::new(
        Vec2::new(side_left, top + 26.0),
        Vec2::new(WIDTH - MARGIN, top + 26.0 + 420.0),
    );
    let side = section::View::new(job, path.as_ref(), side_area);

    let key = key_rows(answer, path.as_ref(), lengths);
    let key_top = side.outer.max.y + 40.0;
    let key_bottom = key_top + KEY_ROW * key.len() as f32 + 10.0;
    let foot_top = view.outer.max.y.max(key_bottom) + 6.0;
    // The height is known only when all labels have found a place or not, so the drawings are made first.
    let mut body = Svg::part();
    let left_over = {
        let mut left_over = plan::draw(&mut body, &view, job, answer, path.as_ref(), lengths);
        left_over.extend(section::draw(
            &mut body,
            &side,
            job,
            answer,
            path.as_ref(),
            lengths,
        ));
        left_over
    };
    draw_key(&mut body, &key, Vec2::new(side_left, key_top));
    let foot = foot_lines(job, &left_over);
    let height = foot_top + 22.0 * foot.len() as f32 + MARGIN;

    let mut svg = Svg::new(
        Vec2::new(WIDTH, height),
        &title,
        &description(job, answer, lengths),
    );
    definitions(&mut svg, &view);
    svg.rectangle(Vec2::ZERO, Vec2::new(WIDTH, height), &[("fill", ink::SHEET)]);
    svg.text(
        Vec2::new(MARGIN, 54.0),
        &title,
        &[("fill", ink::INK), ("font-size", "22"), ("font-weight", "600")],
    );
    for (index, line) in subtitle.iter().enumerate() {
        let fill = if answer.is_some() { ink::GLOW } else { ink::SOFT };
        svg.text(
            Vec2::new(MARGIN, 82.0 + 24.0 * index as f32),
            line,
            &[("fill", fill), ("font-size", "16")],
        );
    }
    let caption = [("fill", ink::SOFT), ("font-size", "14"), ("font-weight", "600")];
    svg.text(Vec2::new(MARGIN, top + 6.0), "From above", &caption);
    let words = if path.is_some() {
        "From the side, along the light"
    } else {
        "From the side"
    };
    svg.text(Vec2::new(side_left, top + 6.0), words, &caption);
    svg.append(body);
    let mut at = Vec2::new(MARGIN, foot_top + 14.0);
    for line in &foot {
        svg.text(at, line, &[("fill", ink::SOFT), ("font-size", "13")]);
        at.y += 22.0;
    }
    svg.finish()
}

/// Hatching of the lit patch and the clip of the room.
pub(crate) fn definitions(svg: &mut Svg, view: &plan::View) {
    svg.start("defs", &[]);
    svg.start("clipPath", &[("id", "room")]);
    svg.rectangle(view.inner.min, view.inner.size(), &[]);
    svg.end();
    lit_pattern(svg);
    svg.end();
}

/// Hatching of the lit patch.
pub(crate) fn lit_pattern(svg: &mut Svg) {
    svg.start(
        "pattern",
        &[
            ("id", "lit"),
            ("width", "7"),
            ("height", "7"),
            ("patternUnits", "userSpaceOnUse"),
        ],
    );
    svg.drawn(
        "M-1 1L1 -1M0 7L7 0M6 8L8 6",
        &[("stroke", ink::GLOW), ("stroke-width", "1.3")],
    );
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

const KEY_ROW: f32 = 25.0;

fn key_rows(answer: Option<&Answer>, path: Option<&LightPath>, lengths: Lengths) -> Vec<KeyRow> {
    let mut rows = Vec::new();
    let mut row = |sample, words: String| rows.push(KeyRow { sample, words });
    if let (Some(answer), Some(path)) = (answer, path) {
        let legs = answer.aim.legs_m;
        let direct = matches!(path.carrier, crate::path::Carrier::Nothing);
        let way = if direct {
            lengths.about(legs[0])
        } else {
            format!("{} and {}", lengths.about(legs[0]), lengths.about(legs[1]))
        };
        row(Sample::Path, format!("the light's way: {way}"));
        row(
            Sample::Beam,
            format!(
                "the beam at zoom {}; at its edge about one stop down",
                plain(answer.flash.zoom_mm, 0)
            ),
        );
        if matches!(path.carrier, crate::path::Carrier::Room(_)) {
            row(Sample::Lit, "what the beam lights first".to_owned());
        }
        row(
            Sample::Falloff,
            "equal falloff: stops against the face, by distance alone".to_owned(),
        );
        if answer.aim.light_from_clock.is_finite() {
            let words = format!(
                "light from about {}, with the camera at 6",
                clock(answer.aim.light_from_clock)
            );
            row(Sample::Clock, words);
        }
    }
    rows
}

fn draw_key(svg: &mut Svg, rows: &[KeyRow], at: Vec2) {
    for (index, row) in rows.iter().enumerate() {
        let middle = at + Vec2::new(0.0, KEY_ROW * index as f32 + 4.0);
        let (left, right) = (middle, middle + Vec2::new(40.0, 0.0));
        match row.sample {
            Sample::Path => plan::arrow(svg, left, right),
            Sample::Beam => {
                let wedge = [left, right - Vec2::new(0.0, 8.0), right + Vec2::new(0.0, 8.0)];
                svg.path(&wedge, true, &plan::BEAM);
            }
            Sample::Lit => {
                let corner = left - Vec2::new(0.0, 6.0);
                svg.rectangle(corner, Vec2::new(40.0, 12.0), &plan::LIT);
            }
            Sample::Falloff => svg.line(left, right, &plan::FALLOFF),
            Sample::Clock => plan::clock_face(svg, left + Vec2::new(20.0, 0.0), 8.0, Vec2::Y),
        }
        svg.text(
            middle + Vec2::new(54.0, 4.6),
            &row.words,
            &[("fill", ink::INK), ("font-size", "13")],
        );
    }
}

/// Names of numbered sitters, and names that found no place.
fn foot_lines(job: &Job, left_over: &[String]) -> Vec<String> {
    let mut lines = Vec::new();
    if plan::numbered(job) {
        let names: Vec<String> = job
            .sitters
            .iter()
            .enumerate()
            .map(|(index, sitter)| {
                let metered = if index == 0 { " (metered)" } else { "" };
                format!("{} {}{metered}", index + 1, shorten(&sitter.name, 28))
            })
            .collect();
        lines.extend(wrap(&names.join("  ·  "), 13.0, WIDTH - 2.0 * MARGIN, 6));
    }
    if !left_over.is_empty() {
        let words = format!("For want of space not in the drawing: {}.", left_over.join("; "));
        lines.extend(wrap(&words, 13.0, WIDTH - 2.0 * MARGIN, 3));
    }
    lines
}

/// What someone who does not see the drawing is told.
pub(crate) fn description(job: &Job, answer: Option<&Answer>, lengths: Lengths) -> String {
    let room = job.place.room.size;
    let side = |value: f32| lengths.exact(f64::from(value));
    let mut words = format!(
        "A room {} wide, {} long and {} high. ",
        side(room.x),
        side(room.y),
        side(room.z)
    );
    for (index, sitter) in job.sitters.iter().enumerate() {
        words.push_str(&format!(
            "{} {} from the left wall and {} from the wall behind the camera, eyes {} up. ",
            shorten(&sitter.name, 60),
            side(sitter.stand.x),
            side(sitter.stand.y),
            side(sitter.face_height)
        ));
        if index == 11 {
            words.push_str("And others. ");
            break;
        }
    }
    let camera = job.viewpoint.position;
    words.push_str(&format!(
        "Camera {} from the left wall and {} from the wall behind it, {} up.",
        side(camera.x),
        side(camera.y),
        side(camera.z)
    ));
    if let Some(answer) = answer {
        words.push_str(&format!(
            " {} The light reaches the face from about {}, {}.",
            clean(&lengths.reword(&answer.aim.words)),
            clock(answer.aim.light_from_clock),
            crate::words::elevation(answer.key.elevation_deg)
        ));
    }
    words
}

/// Lines of at most this width; the last one is cut when there is more than fits.
pub(crate) fn wrap(words: &str, size: f32, width: f32, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split_whitespace() {
        let last = lines.len() - 1;
        let longer = if lines[last].is_empty() {
            word.to_owned()
        } else {
            format!("{} {word}", lines[last])
        };
        if text_width(&longer, size) <= width || lines[last].is_empty() || lines.len() == most {
            lines[last] = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    lines.into_iter().map(|line| fit(&line, size, width)).collect()
}

/// A scale bar with its length.
pub(crate) fn scale_bar(svg: &mut Svg, right_end: Vec2, scale: f32, lengths: Lengths) {
    let (metres, words) = lengths.scale_bar();
    let from = right_end - Vec2::new(metres as f32 * scale, 0.0);
    let d = format!(
        "M{x} {top}V{y}H{end}V{top}",
        x = num(from.x),
        top = num(from.y - 5.0),
        y = num(from.y),
        end = num(right_end.x)
    );
    svg.drawn(
        &d,
        &[("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.4")],
    );
    let beside = Vec2::new(from.x - 8.0, from.y + 1.0);
    svg.text(
        beside,
        words,
        &[("fill", ink::SOFT), ("font-size", "12"), ("text-anchor", "end")],
    );
}
