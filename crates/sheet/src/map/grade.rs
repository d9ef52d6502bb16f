//! How good a piece is, as a shade and as a mark.

use crate::label::Area;
use crate::svg::{Svg, ink, num};
use crate::wording::on_map::Worth;
use answer::{Answer, MapCell, Verdict};
use glam::Vec2;

/// Up to this many points behind the answer a piece is as good as the answer: half of one clear fault (ours).
const AS_GOOD: f64 = 0.5;

/// Shades by points, from the ask itself to what nobody wants. Their luminance falls all the way, so that the order
/// survives on grey paper and for every kind of sight.
pub(super) const SHADES: [(f64, [f64; 3]); 6] = [
    (0.0, [255.0, 232.0, 190.0]),
    (1.0, [235.0, 194.0, 132.0]),
    (2.5, [184.0, 140.0, 84.0]),
    (5.0, [130.0, 104.0, 74.0]),
    (10.0, [92.0, 82.0, 70.0]),
    (20.0, [66.0, 64.0, 61.0]),
];

/// Points of the answer itself; those of the best piece where the answer does not say.
pub(super) fn points_of_answer(answer: &Answer) -> f64 {
    let chosen = answer
        .surfaces
        .iter()
        .find(|surface| surface.verdict == Verdict::Chosen && !surface.score.is_empty());
    let best_cell = || {
        let points = answer.map.cells.iter().map(|cell| cell.points);
        points
            .filter(|points| points.is_finite())
            .fold(f64::MAX, f64::min)
    };
    chosen.map_or_else(best_cell, |surface| {
        surface.score.iter().map(|fault| fault.points).sum()
    })
}

/// Every grade, the best first.
pub(super) const WORTHS: [Worth; 4] = [Worth::AsGood, Worth::WouldDo, Worth::Spoils, Worth::Nothing];

/// What a piece is good for, beside an answer with so many points.
pub(super) fn worth_of(cell: &MapCell, best: f64) -> Worth {
    match cell.verdict {
        Verdict::Unusable => Worth::Nothing,
        Verdict::Poor => Worth::Spoils,
        Verdict::Chosen => Worth::AsGood,
        Verdict::Possible if cell.points <= best + AS_GOOD => Worth::AsGood,
        Verdict::Possible => Worth::WouldDo,
    }
}

/// Points by which the sample of a grade is shaded in the key.
pub(super) fn sample_points(worth: Worth) -> f64 {
    match worth {
        Worth::AsGood => 0.3,
        Worth::WouldDo => 1.6,
        Worth::Spoils => 5.0,
        Worth::Nothing => 20.0,
    }
}

/// The line around all that would do.
pub(super) const EDGE: [(&str, &str); 3] = [
    ("stroke", ink::INK),
    ("stroke-width", "2.4"),
    ("stroke-linecap", "square"),
];

/// The shade for so many points, as red, green and blue of sRGB.
fn shade(points: f64) -> [f64; 3] {
    let last = SHADES[SHADES.len() - 1];
    if !points.is_finite() || points >= last.0 {
        return last.1;
    }
    let points = points.max(0.0);
    let upper = SHADES
        .iter()
        .position(|(at, _)| *at > points)
        .unwrap_or(SHADES.len() - 1);
    let ((low, from), (high, to)) = (SHADES[upper - 1], SHADES[upper]);
    let part = (points - low) / (high - low);
    std::array::from_fn(|i| from[i] + (to[i] - from[i]) * part)
}

pub(super) fn hex([r, g, b]: [f64; 3]) -> String {
    format!("#{:02x}{:02x}{:02x}", r as u8, g as u8, b as u8)
}

/// The ink for a mark on a shade: dark on light, light on dark, and no louder than it must be on the darkest.
fn ink_on([_, green, _]: [f64; 3]) -> &'static str {
    match green {
        light if light > 115.0 => ink::SHEET,
        dark if dark < 70.0 => "#949494",
        _ => ink::SOFT,
    }
}

/// Pattern of what cannot be aimed at.
pub(super) fn definitions(svg: &mut Svg) {
    svg.start("defs", &[]);
    svg.start(
        "pattern",
        &[
            ("id", "away"),
            ("width", "9"),
            ("height", "9"),
            ("patternUnits", "userSpaceOnUse"),
        ],
    );
    svg.drawn(
        "M-1 1L1 -1M0 9L9 0M8 10L10 8",
        &[("stroke", "#5c5c5c"), ("stroke-width", "1")],
    );
    svg.end();
    svg.end();
}

/// A piece of a face: its shade, and the mark of what it is good for. Its line comes from what it is part of.
pub(super) fn draw_piece(svg: &mut Svg, area: Area, points: f64, worth: Worth) {
    let points = if worth == Worth::Nothing {
        f64::INFINITY
    } else {
        points
    };
    let colour = shade(points);
    svg.rectangle(
        area.min,
        area.size(),
        &[("class", "piece"), ("fill", &hex(colour))],
    );
    let reach = (0.19 * area.size().min_element()).min(4.5);
    draw_mark(svg, area.centre(), reach, worth, ink_on(colour));
}

/// A disc, a ring, a stroke or a cross.
fn draw_mark(svg: &mut Svg, at: Vec2, reach: f32, worth: Worth, ink: &str) {
    let (x, y) = (num(at.x), num(at.y));
    let (left, right) = (num(at.x - reach), num(at.x + reach));
    let (above, below) = (num(at.y - reach), num(at.y + reach));
    let stroke = format!("M{left} {below}L{right} {above}");
    match worth {
        Worth::AsGood => svg.circle(at, reach, &[("fill", ink)]),
        Worth::WouldDo => {
            let r = num(reach);
            let ring = format!("M{left} {y}A{r} {r} 0 1 0 {x} {above}A{r} {r} 0 0 0 {left} {y}");
            svg.drawn(&ring, &[("stroke", ink)]);
        }
        Worth::Spoils => svg.drawn(&stroke, &[("stroke", ink)]),
        Worth::Nothing => {
            let cross = format!("{stroke}M{left} {above}L{right} {below}");
            svg.drawn(&cross, &[("stroke", ink)]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shades_darken_with_every_point_and_marks_stand_out() {
        // Relative luminance and the least contrast of 3:1 for graphics, after WCAG 2.2 (W3C 2023).
        let luminance = |[r, g, b]: [f64; 3]| {
            let part = |value: f64| colour::decode_srgb(value / 255.0);
            0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b)
        };
        let ink_luminance = |name: &str| {
            let part = |at: usize| f64::from(u8::from_str_radix(&name[at..at + 2], 16).expect("hexadecimal"));
            luminance([part(1), part(3), part(5)])
        };
        let mut last = f64::INFINITY;
        for step in 0..=40 {
            let colour = shade(0.5 * f64::from(step));
            let light = luminance(colour);
            assert!(light < last, "{step}: {light} after {last}");
            last = light;
            let mark = ink_luminance(ink_on(colour));
            let contrast = (light.max(mark) + 0.05) / (light.min(mark) + 0.05);
            assert!(contrast >= 3.0, "{step}: {contrast}");
        }
        assert_eq!(shade(f64::NAN), SHADES[5].1);
    }
}
