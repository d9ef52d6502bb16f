//! A day out of doors on one sheet: the sun's way over the place, seen from above with the camera at the bottom, and the
//! levels from midnight to midnight.

mod data;
mod table;

use crate::label::{Area, Hand, Labels};
use crate::svg::{Svg, fit, ink};
use crate::voice::Voice;
use crate::wording::on_day;
pub use data::{DayDrawing, DayMark, DayObstacle, DayPoint, DaySetting};
use glam::Vec2;
pub use on_day::DayEvent;
pub use table::{DayLook, DayTable, day_text};

const SIZE: Vec2 = Vec2::new(1280.0, 700.0);
/// Middle and radius of the sky seen from above.
const MIDDLE: Vec2 = Vec2::new(330.0, 385.0);
const RADIUS: f32 = 235.0;
/// Where words around the sky may stand.
const SKY_WORDS: (Vec2, Vec2) = (Vec2::new(20.0, 84.0), Vec2::new(665.0, 690.0));
/// The chart of levels.
const CHART: (Vec2, Vec2) = (Vec2::new(710.0, 130.0), Vec2::new(1225.0, 600.0));
/// Levels that the chart holds; what lies outside is left out.
const LEVELS: (f64, f64) = (-4.0, 16.0);
/// The sky of the blue hour, dark enough for words on it.
const DUSK: &str = "#3c4f6e";
const GOLD: &str = "#6e5a33";

/// Draws a day.
pub fn day_svg(day: &DayDrawing, voice: Voice) -> String {
    let (place, weather) = (day.setting.place(voice), day.setting.weather(voice));
    let mut svg = Svg::new(SIZE, &day.title, &on_day::described(voice, &place));
    svg.rectangle(Vec2::ZERO, SIZE, &[("fill", ink::SHEET)]);
    let mut heading = |y: f32, size: (f32, &str), fill: &str, words: &str| {
        let words = fit(words, size.0, SIZE.x - 100.0);
        svg.text(
            Vec2::new(50.0, y),
            &words,
            &[("font-size", size.1), ("fill", fill)],
        );
    };
    heading(46.0, (22.0, "22"), ink::INK, &day.title);
    heading(70.0, (14.0, "14"), ink::SOFT, &format!("{place}; {weather}"));
    sky_from_above(&mut svg, day, voice);
    levels(&mut svg, day);
    legend(&mut svg, voice);
    svg.finish()
}

/// Where a point of the sky lies: the horizon is the rim, overhead the middle, the camera's line points up.
fn on_sky(day: &DayDrawing, bearing_deg: f64, height_deg: f64) -> Vec2 {
    let turn = (bearing_deg - day.setting.camera_looks_deg).to_radians() as f32;
    let out = RADIUS * ((90.0 - height_deg) / 90.0) as f32;
    MIDDLE + Vec2::new(turn.sin(), -turn.cos()) * out
}

fn arc(day: &DayDrawing, from: f64, to: f64, height: f64) -> Vec<Vec2> {
    let width = (to - from).rem_euclid(360.0);
    let steps = (width / 2.0).ceil().max(1.0) as u32;
    (0..=steps)
        .map(|k| on_sky(day, from + width * f64::from(k) / f64::from(steps), height))
        .collect()
}

fn sky_from_above(svg: &mut Svg, day: &DayDrawing, voice: Voice) {
    svg.circle(MIDDLE, RADIUS, &[("fill", ink::FLOOR), ("stroke", ink::LINE)]);
    for height in [30.0, 60.0] {
        svg.circle(
            MIDDLE,
            RADIUS * (1.0 - height / 90.0),
            &[
                ("fill", "none"),
                ("stroke", ink::LINE),
                ("stroke-dasharray", "2 5"),
                ("stroke-width", "0.8"),
            ],
        );
    }
    for obstacle in &day.skyline {
        let mut outline = arc(day, obstacle.from_deg, obstacle.to_deg, 0.0);
        outline.extend(
            arc(day, obstacle.from_deg, obstacle.to_deg, obstacle.height_deg)
                .into_iter()
                .rev(),
        );
        svg.path(&outline, true, &[("fill", ink::BODY), ("stroke", ink::LINE)]);
    }
    for bearing in QUARTERS {
        svg.line(
            on_sky(day, bearing, 0.0),
            on_sky(day, bearing, -3.0),
            &[("stroke", ink::SOFT)],
        );
    }
    sun_way(svg, day);
    place_in_the_middle(svg);
    sky_words(day, voice).draw(svg);
}

/// Bearings of north, east, south and west.
const QUARTERS: [f64; 4] = [0.0, 90.0, 180.0, 270.0];

/// Radius of the ring that marks a moment.
const RING: f32 = 6.0;

/// A sun below the horizon is shown on the rim, where its glow is.
fn mark_on_sky(day: &DayDrawing, mark: &DayMark) -> Vec2 {
    on_sky(day, mark.bearing_deg, mark.height_deg.clamp(0.0, 90.0))
}

/// The sun at the full hours while it is up, with what the clock shows.
fn full_hours(day: &DayDrawing) -> impl Iterator<Item = (Vec2, &str)> {
    let whole = |hour: f64| (hour - hour.round()).abs() < 1e-6;
    let up = day
        .points
        .iter()
        .filter(move |point| whole(point.hour) && point.height_deg > 0.0);
    up.filter_map(|point| {
        let words = day.clock_hours.get(point.hour.round() as usize)?;
        let hour = words.split(':').next().unwrap_or(words);
        Some((on_sky(day, point.bearing_deg, point.height_deg), hour))
    })
}

/// The pieces of the sun's way above the horizon, each with whether the sun is seen there.
fn way_of_the_sun(day: &DayDrawing) -> impl Iterator<Item = ([Vec2; 2], bool)> {
    day.points
        .windows(2)
        .filter(|pair| pair.iter().all(|point| point.height_deg > 0.0))
        .map(|pair| {
            let ends = [0, 1].map(|k| on_sky(day, pair[k].bearing_deg, pair[k].height_deg));
            (ends, pair.iter().all(|point| point.clear))
        })
}

/// All words over the sky: what must be read first takes its place first.
fn sky_words(day: &DayDrawing, voice: Voice) -> Labels {
    let mut labels = Labels::new(Area::new(SKY_WORDS.0, SKY_WORDS.1));
    for bearing in QUARTERS {
        let name = on_day::compass(voice, bearing);
        labels.at(on_sky(day, bearing, -8.0), name, Hand::STRONG, false);
    }
    // The sitter, the camera, and the line between them.
    labels.take(Area::new(
        MIDDLE - Vec2::new(12.0, 9.0),
        MIDDLE + Vec2::new(12.0, CAMERA_BELOW + 14.0),
    ));
    labels.at(
        MIDDLE + Vec2::new(0.0, CAMERA_BELOW + 26.0),
        on_day::camera(voice),
        Hand::SMALL,
        false,
    );
    for (ends, _) in way_of_the_sun(day) {
        labels.keep_off(ends[0], ends[1]);
    }
    let ring = Vec2::splat(2.0 * RING);
    for mark in &day.marks {
        labels.take(Area::around(mark_on_sky(day, mark), ring));
    }
    for mark in &day.marks {
        labels.near(
            mark_on_sky(day, mark),
            RING + 5.0,
            &mark.words(voice),
            Hand::PLAIN,
        );
    }
    for (at, hour) in full_hours(day) {
        labels.near(at, 7.0, hour, Hand::SMALL);
    }
    for obstacle in &day.skyline {
        let width = (obstacle.to_deg - obstacle.from_deg).rem_euclid(360.0);
        let top = on_sky(day, obstacle.from_deg + width / 2.0, obstacle.height_deg);
        labels.near(top, 6.0, &fit(&obstacle.name, 12.0, 130.0), Hand::SMALL);
    }
    for height in [30.0, 60.0] {
        let at = MIDDLE + Vec2::new(14.0, -RADIUS * (1.0 - height / 90.0) - 8.0);
        labels.at(at, &format!("{height}°"), Hand::SMALL, false);
    }
    labels
}

/// The sun's way above the horizon, thin where something hides it, with the full hours and the moments on it.
fn sun_way(svg: &mut Svg, day: &DayDrawing) {
    for (ends, seen) in way_of_the_sun(day) {
        svg.line(
            ends[0],
            ends[1],
            &[
                ("stroke", ink::GLOW),
                ("stroke-width", if seen { "3" } else { "1" }),
                ("stroke-linecap", "round"),
            ],
        );
    }
    for (at, _) in full_hours(day) {
        svg.circle(at, 3.5, &[("fill", ink::GLOW)]);
    }
    for mark in &day.marks {
        svg.circle(
            mark_on_sky(day, mark),
            RING,
            &[("fill", ink::SHEET), ("stroke", ink::GLOW), ("stroke-width", "2")],
        );
    }
}

/// How far below the sitter the camera is drawn, in pixels.
const CAMERA_BELOW: f32 = 62.0;

/// The sitter in the middle, and from where the camera looks.
fn place_in_the_middle(svg: &mut Svg) {
    svg.circle(MIDDLE, 7.0, &[("fill", ink::INK)]);
    let camera = MIDDLE + Vec2::new(0.0, CAMERA_BELOW);
    svg.line(
        camera,
        MIDDLE + Vec2::new(0.0, 12.0),
        &[("stroke", ink::INK), ("stroke-dasharray", "4 4")],
    );
    svg.rectangle(
        camera - Vec2::new(11.0, 0.0),
        Vec2::new(22.0, 13.0),
        &[("fill", ink::INK), ("rx", "2")],
    );
}

fn on_chart(day: &DayDrawing, hour: f64, level: f64) -> Vec2 {
    let (from, to) = CHART;
    let along = (hour / day.hours) as f32;
    let up = ((level - LEVELS.0) / (LEVELS.1 - LEVELS.0)) as f32;
    Vec2::new(from.x + (to.x - from.x) * along, to.y - (to.y - from.y) * up)
}

fn levels(svg: &mut Svg, day: &DayDrawing) {
    let (from, to) = CHART;
    svg.rectangle(from, to - from, &[("fill", ink::FLOOR)]);
    for (stretches, fill) in [(&day.golden, GOLD), (&day.blue, DUSK)] {
        for (begin, end) in stretches {
            let (left, right) = (on_chart(day, *begin, 0.0).x, on_chart(day, *end, 0.0).x);
            svg.rectangle(
                Vec2::new(left, from.y),
                Vec2::new(right - left, to.y - from.y),
                &[("fill", fill)],
            );
        }
    }
    level_scales(svg, day);
    for mark in &day.marks {
        let (top, foot) = (
            on_chart(day, mark.hour, LEVELS.1),
            on_chart(day, mark.hour, LEVELS.0),
        );
        let style = [
            ("stroke", ink::INK),
            ("stroke-dasharray", "3 4"),
            ("stroke-width", "0.8"),
        ];
        svg.line(top, foot, &style);
    }
    let away = curve(day, |point| point.away_ev);
    let facing = curve(day, |point| point.facing_ev);
    for (run, colour) in away
        .iter()
        .map(|run| (run, ink::SOFT))
        .chain(facing.iter().map(|run| (run, ink::GLOW)))
    {
        svg.path(
            run,
            false,
            &[("fill", "none"), ("stroke", colour), ("stroke-width", "2.5")],
        );
    }
}

/// Levels at the left, the clock below.
fn level_scales(svg: &mut Svg, day: &DayDrawing) {
    for level in (LEVELS.0 as i32..=LEVELS.1 as i32).step_by(2) {
        let at = on_chart(day, 0.0, f64::from(level));
        let style = [("stroke", ink::LINE), ("stroke-width", "0.5")];
        svg.line(at, Vec2::new(CHART.1.x, at.y), &style);
        svg.text(
            at + Vec2::new(-8.0, 4.0),
            &format!("{level}"),
            &[("text-anchor", "end"), ("font-size", "12"), ("fill", ink::SOFT)],
        );
    }
    for (hour, words) in day.clock_hours.iter().enumerate().step_by(3) {
        let at = on_chart(day, hour as f64, LEVELS.0);
        svg.text(
            at + Vec2::new(0.0, 20.0),
            words,
            &[
                ("text-anchor", "middle"),
                ("font-size", "12"),
                ("fill", ink::SOFT),
            ],
        );
    }
}

/// Runs of points whose level lies within the chart.
fn curve(day: &DayDrawing, level: impl Fn(&DayPoint) -> f64) -> Vec<Vec<Vec2>> {
    let inside = |point: &DayPoint| (LEVELS.0..=LEVELS.1).contains(&level(point));
    day.points
        .chunk_by(|a, b| inside(a) == inside(b))
        .filter(|run| run.first().is_some_and(inside))
        .map(|run| run.iter().map(|p| on_chart(day, p.hour, level(p))).collect())
        .collect()
}

fn legend(svg: &mut Svg, voice: Voice) {
    let top = CHART.0 - Vec2::new(0.0, 16.0);
    svg.text(top, on_day::levels(voice), &[("fill", ink::INK)]);
    let foot = Vec2::new(CHART.0.x, CHART.1.y + 52.0);
    let samples = [(ink::GLOW, false), (ink::SOFT, false), (GOLD, true), (DUSK, true)];
    for (index, ((colour, wide), words)) in samples.into_iter().zip(on_day::legend(voice)).enumerate() {
        let at = foot + Vec2::new(130.0 * index as f32, 0.0);
        let (up, height) = if wide { (9.0, 11.0) } else { (5.0, 3.0) };
        svg.rectangle(
            at - Vec2::new(0.0, up),
            Vec2::new(18.0, height),
            &[("fill", colour)],
        );
        svg.text(
            at + Vec2::new(25.0, 0.0),
            words,
            &[("font-size", "12"), ("fill", ink::SOFT)],
        );
    }
}
