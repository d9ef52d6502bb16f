//! Signs that several drawings share: the beam, the lit patch, arrows, the clock, dimensions, angles, the scale.

use crate::label::{Hand, Labels};
use crate::svg::{Svg, ink, num, text_width};
use crate::voice::Voice;
use glam::Vec2;

pub(crate) const BEAM: [(&str, &str); 5] = [
    ("fill", ink::GLOW),
    ("fill-opacity", "0.1"),
    ("stroke", ink::GLOW),
    ("stroke-opacity", "0.7"),
    ("stroke-dasharray", "7 4"),
];
pub(crate) const LIT: [(&str, &str); 3] = [
    ("fill", "url(#lit)"),
    ("stroke", ink::GLOW),
    ("stroke-width", "1.4"),
];
pub(crate) const FALLOFF: [(&str, &str); 5] = [
    ("fill", "none"),
    ("stroke", ink::SOFT),
    ("stroke-width", "1.3"),
    ("stroke-dasharray", "1.5 5"),
    ("stroke-linecap", "round"),
];
/// A side without a wall.
pub(crate) const OPEN_SIDE: [(&str, &str); 3] = [
    ("stroke", ink::SOFT),
    ("stroke-width", "1.2"),
    ("stroke-dasharray", "2 5"),
];

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

/// The zigzag of a drawing that goes on beyond its edge.
pub(crate) fn draw_break(svg: &mut Svg, from: Vec2, to: Vec2) {
    let along = (to - from).normalize_or_zero();
    let across = Vec2::new(-along.y, along.x) * 7.0;
    let middle = from.lerp(to, 0.5);
    let points = [
        from,
        middle - along * 12.0,
        middle - along * 4.0 + across,
        middle + along * 4.0 - across,
        middle + along * 12.0,
        to,
    ];
    svg.path(
        &points,
        false,
        &[("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.2")],
    );
}

/// A line of light with a head.
pub(crate) fn arrow(svg: &mut Svg, from: Vec2, to: Vec2) {
    let along = (to - from).normalize_or_zero();
    let across = Vec2::new(-along.y, along.x);
    let neck = to - along * 11.0;
    svg.line(from, neck, &[("stroke", ink::GLOW), ("stroke-width", "2.6")]);
    svg.path(
        &[to, neck + across * 5.0, neck - across * 5.0],
        true,
        &[("fill", ink::GLOW)],
    );
}

/// The flash: a diamond, so that it cannot be taken for a person or the camera.
pub(crate) fn draw_flash(svg: &mut Svg, at: Vec2) {
    let points = [
        Vec2::new(0.0, -8.0),
        Vec2::new(6.5, 0.0),
        Vec2::new(0.0, 8.0),
        Vec2::new(-6.5, 0.0),
    ]
    .map(|p| at + p);
    svg.path(
        &points,
        true,
        &[
            ("fill", ink::GLOW),
            ("stroke", ink::SHEET),
            ("stroke-width", "2"),
            ("data-what", "flash"),
        ],
    );
}

/// Direction on the sheet in which a clock hour lies, the camera being at 6.
pub(crate) fn hour_direction(to_camera: Vec2, hour: f32) -> Vec2 {
    // On the sheet y runs down, so a turn from x towards y looks clockwise, as a clock runs.
    Vec2::from_angle((hour - 6.0) * std::f32::consts::TAU / 12.0).rotate(to_camera)
}

/// A ring with a stroke for every hour.
pub(crate) fn clock_face(svg: &mut Svg, centre: Vec2, radius: f32, to_camera: Vec2) {
    svg.circle(
        centre,
        radius,
        &[
            ("fill", "none"),
            ("stroke", ink::LINE),
            ("stroke-width", "1"),
            ("stroke-opacity", "0.7"),
        ],
    );
    // A small face has room for the quarters only.
    for hour in (1..=12).filter(|hour| hour % 3 == 0 || radius > 20.0) {
        let direction = hour_direction(to_camera, hour as f32);
        let inward = (if hour % 3 == 0 { 0.14 } else { 0.07 } * radius).clamp(3.0, 8.0);
        let ends = (
            centre + direction * radius,
            centre + direction * (radius - inward),
        );
        svg.line(ends.0, ends.1, &[("stroke", ink::SOFT), ("stroke-width", "1.3")]);
    }
}

/// A scale bar with its length.
pub(crate) fn scale_bar(svg: &mut Svg, right_end: Vec2, scale: f32, voice: Voice) {
    let (metres, words) = voice.scale_bar();
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

/// A level or upright line with a short stroke at either end, broken by its words.
pub(crate) fn dimension(svg: &mut Svg, from: Vec2, to: Vec2, words: &str, labels: &mut Labels) {
    let along = (to - from).normalize_or_zero();
    let tick = Vec2::new(-along.y, along.x) * 4.0 + along * 4.0;
    let middle = 0.5 * (from + to);
    let gap = along * (0.5 * text_width(words, Hand::SMALL.size) + 3.0);
    let turned = along.y.abs() > along.x.abs();
    let broken = labels.at(middle, words, Hand::SMALL, turned);
    let ends = if broken {
        vec![(from, middle - gap), (middle + gap, to)]
    } else {
        vec![(from, to)]
    };
    for (a, b) in ends {
        svg.line(a, b, &[("stroke", ink::LINE), ("stroke-width", "1")]);
    }
    for end in [from, to] {
        svg.line(
            end - tick,
            end + tick,
            &[("stroke", ink::SOFT), ("stroke-width", "1.2")],
        );
    }
}

/// An arc between two directions around a point, as SVG writes it.
pub(crate) fn arc(centre: Vec2, radius: f32, from: Vec2, to: Vec2) -> String {
    let (a, b) = (centre + from * radius, centre + to * radius);
    let sweep = u8::from(from.perp_dot(to) > 0.0);
    let r = num(radius);
    format!(
        "M{} {}A{r} {r} 0 0 {sweep} {} {}",
        num(a.x),
        num(a.y),
        num(b.x),
        num(b.y)
    )
}

/// Degrees as they stand beside an arc.
pub(crate) fn degrees(voice: Voice, value: f64) -> String {
    format!("{}°", voice.plain(value.abs(), 0))
}
