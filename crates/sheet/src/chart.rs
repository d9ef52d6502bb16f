//! The stops chart: where the stops go, from what the flash can do to what arrives at the face.

use crate::fitting::clean;
use crate::svg::{Svg, fit, ink, num};
use crate::voice::Voice;
use crate::wording::{self, on_drawings};
use answer::{Answer, ChartKind, ChartLine};
use glam::Vec2;

/// A line of the chart as it is printed.
pub(crate) struct Row {
    /// What it is.
    pub(crate) label: String,
    /// What is printed, in hundredths of a stop.
    pub(crate) hundredths: i64,
    /// Whether there was a number to print.
    pub(crate) finite: bool,
    /// Running total before it; 0 for a result.
    pub(crate) before: i64,
    /// Running total after it.
    pub(crate) after: i64,
    /// What kind of line.
    pub(crate) kind: ChartKind,
}

impl Row {
    /// What is printed.
    pub(crate) fn number(&self, voice: Voice) -> String {
        if self.finite {
            voice.signed_hundredths(self.hundredths)
        } else {
            "–".to_owned()
        }
    }
}

/// The chart's numbers in hundredths of a stop, rounded so that what is printed adds up as printed.
///
/// Every line is rounded to the nearest hundredth; what is then missing from a result is given to the lines whose
/// rounding was furthest off (largest remainder), so that no line is off by more than a hundredth. Lines that are
/// not numbers count as 0. Where lines truly miss their result by more than half a hundredth, nothing is bent; the
/// sheet prints the difference as a line of its own.
///
/// ```
/// use answer::{ChartItem, ChartKind::*, ChartLine};
/// let line = |stops, kind| ChartLine { item: ChartItem::Spill, stops, kind };
/// // 1.004 + 1.004 + 1.004 is 3.01, but 1.00 + 1.00 + 1.00 is not.
/// let chart = [line(1.004, Start), line(1.004, Gain), line(1.004, Gain), line(3.012, Result)];
/// assert_eq!(sheet::balanced_hundredths(&chart), [101, 100, 100, 301]);
/// ```
pub fn balanced_hundredths(chart: &[ChartLine]) -> Vec<i64> {
    let finite = |line: &ChartLine| {
        if line.stops.is_finite() {
            line.stops * 100.0
        } else {
            0.0
        }
    };
    let mut printed: Vec<i64> = chart.iter().map(|line| finite(line).round() as i64).collect();
    let (mut first, mut true_total, mut printed_total) = (0, 0.0, 0);
    for (index, line) in chart.iter().enumerate() {
        if line.kind != ChartKind::Result {
            true_total += finite(line);
            continue;
        }
        let parts: Vec<usize> = (first..index).collect();
        let missing = printed[index] - printed_total - parts.iter().map(|&part| printed[part]).sum::<i64>();
        let honest = (true_total - finite(line)).abs() <= 0.5 + 1e-9;
        if honest && !parts.is_empty() {
            share_out(missing, &parts, chart, &mut printed);
        }
        printed_total += parts.iter().map(|&part| printed[part]).sum::<i64>();
        first = index + 1;
    }
    printed
}

/// Gives the missing hundredths, one each, to the lines whose rounding was furthest off in that direction.
fn share_out(missing: i64, parts: &[usize], chart: &[ChartLine], printed: &mut [i64]) {
    let direction = missing.signum();
    let remainder =
        |part: usize| (chart[part].stops * 100.0 - (chart[part].stops * 100.0).round()) * direction as f64;
    let mut order: Vec<usize> = parts
        .iter()
        .copied()
        .filter(|&part| chart[part].stops.is_finite())
        .collect();
    order.sort_by(|&a, &b| remainder(b).total_cmp(&remainder(a)));
    for &part in order.iter().cycle().take(missing.unsigned_abs() as usize) {
        printed[part] += direction;
    }
}

/// The chart's lines with running totals, and a line for any stops that were not accounted for.
pub(crate) fn rows(chart: &[ChartLine], voice: Voice) -> Vec<Row> {
    let printed = balanced_hundredths(chart);
    let mut rows = Vec::new();
    let mut total = 0;
    for (line, hundredths) in chart.iter().zip(printed) {
        let finite = line.stops.is_finite();
        let label = clean(&wording::chart::label(voice, &line.item));
        if line.kind == ChartKind::Result {
            if finite && total != hundredths {
                let gap = hundredths - total;
                let kind = if gap < 0 { ChartKind::Loss } else { ChartKind::Gain };
                let label = on_drawings::not_accounted_for(voice).to_owned();
                rows.push(Row {
                    label,
                    hundredths: gap,
                    finite: true,
                    before: total,
                    after: hundredths,
                    kind,
                });
                total = hundredths;
            }
            rows.push(Row {
                label,
                hundredths,
                finite,
                before: 0,
                after: hundredths,
                kind: line.kind,
            });
        } else {
            rows.push(Row {
                label,
                hundredths,
                finite,
                before: total,
                after: total + hundredths,
                kind: line.kind,
            });
            total += hundredths;
        }
    }
    rows
}

/// Lowest and highest running total, with 0 always between them.
pub(crate) fn span(rows: &[Row]) -> (i64, i64) {
    let ends = || rows.iter().flat_map(|row| [row.before, row.after]);
    (ends().min().unwrap_or(0).min(0), ends().max().unwrap_or(0).max(0))
}

const WIDTH: f32 = 880.0;
const ROW: f32 = 30.0;
const NUMBER_RIGHT: f32 = 496.0;
/// Room for what a line is; German needs more than English.
const LABEL: f32 = 410.0;
const BARS: (f32, f32) = (516.0, 856.0);

/// The stops chart as SVG: a waterfall with a number on every line.
///
/// Gains are solid, losses hatched, results outlined, and every number has its sign, so that nothing is told by
/// colour alone. The printed numbers add up exactly, as [`balanced_hundredths`] explains.
pub fn stops_chart_svg(answer: &Answer, voice: Voice) -> String {
    let rows = rows(&answer.chart, voice);
    let height = 58.0 + ROW * rows.len() as f32 + 14.0;
    let size = Vec2::new(WIDTH, height);
    let title = on_drawings::chart_title(voice);
    let mut svg = Svg::new(size, title, &description(&rows, voice));
    loss_pattern(&mut svg);
    svg.rectangle(Vec2::ZERO, size, &[("fill", ink::SHEET)]);
    svg.text(
        Vec2::new(24.0, 34.0),
        title,
        &[("fill", ink::INK), ("font-size", "16"), ("font-weight", "600")],
    );
    let (low, high) = span(&rows);
    let scale = (BARS.1 - BARS.0) / (high - low).max(1) as f32;
    let x = |hundredths: i64| BARS.0 + (hundredths - low) as f32 * scale;
    let top = 50.0;
    let bottom = top + ROW * rows.len() as f32;
    svg.line(
        Vec2::new(x(0), top),
        Vec2::new(x(0), bottom),
        &[("stroke", ink::LINE), ("stroke-width", "1")],
    );
    for (index, row) in rows.iter().enumerate() {
        draw_row(&mut svg, row, voice, top + ROW * index as f32, &x);
        if index + 1 < rows.len() {
            let y = top + ROW * index as f32 + 23.0;
            let joint = x(row.after);
            svg.line(
                Vec2::new(joint, y),
                Vec2::new(joint, y + 14.0),
                &[
                    ("stroke", ink::LINE),
                    ("stroke-width", "1"),
                    ("stroke-dasharray", "2 2"),
                ],
            );
        }
    }
    svg.finish()
}

/// Hatching of what is lost.
fn loss_pattern(svg: &mut Svg) {
    svg.start("defs", &[]);
    svg.start(
        "pattern",
        &[
            ("id", "loss"),
            ("width", "6"),
            ("height", "6"),
            ("patternUnits", "userSpaceOnUse"),
        ],
    );
    svg.drawn(
        "M-1 1L1 -1M0 6L6 0M5 7L7 5",
        &[("stroke", ink::SOFT), ("stroke-width", "1.6")],
    );
    svg.end();
    svg.end();
}

fn draw_row(svg: &mut Svg, row: &Row, voice: Voice, y: f32, x: &impl Fn(i64) -> f32) {
    let result = row.kind == ChartKind::Result;
    let (weight, base) = (if result { "600" } else { "400" }, y + 19.5);
    if result {
        svg.line(
            Vec2::new(24.0, y + 1.0),
            Vec2::new(BARS.1, y + 1.0),
            &[("stroke", ink::LINE)],
        );
    }
    let style = [("fill", ink::INK), ("font-size", "14"), ("font-weight", weight)];
    svg.text(Vec2::new(24.0, base), &fit(&row.label, 14.0, LABEL), &style);
    let mut style = style.to_vec();
    style.push(("text-anchor", "end"));
    svg.text(Vec2::new(NUMBER_RIGHT, base), &row.number(voice), &style);
    let (from, to) = (x(row.before.min(row.after)), x(row.before.max(row.after)));
    let (corner, size) = (Vec2::new(from, y + 7.0), Vec2::new((to - from).max(1.5), 16.0));
    let bar: &[(&str, &str)] = match row.kind {
        ChartKind::Start | ChartKind::Gain => &[("fill", ink::GLOW), ("rx", "1.5")],
        ChartKind::Loss => &[("fill", "url(#loss)"), ("stroke", ink::SOFT), ("rx", "1.5")],
        ChartKind::Result => &[("fill", ink::INK), ("rx", "1.5")],
    };
    svg.rectangle(corner, size, bar);
    if matches!(row.kind, ChartKind::Gain | ChartKind::Loss) && size.x > 14.0 {
        draw_head(svg, row, corner, size);
    }
}

/// An arrowhead that says which way a bar goes, for eyes that see no difference in its filling.
fn draw_head(svg: &mut Svg, row: &Row, corner: Vec2, size: Vec2) {
    let (tip, way) = if row.after < row.before {
        (corner.x + 4.0, 1.0)
    } else {
        (corner.x + size.x - 4.0, -1.0)
    };
    let middle = corner.y + 0.5 * size.y;
    let head = format!(
        "M{} {}L{} {}L{} {}",
        num(tip + way * 4.5),
        num(middle - 4.5),
        num(tip),
        num(middle),
        num(tip + way * 4.5),
        num(middle + 4.5)
    );
    let stroke = if row.kind == ChartKind::Gain {
        ink::SHEET
    } else {
        ink::INK
    };
    for (stroke, width) in [(ink::SHEET, "5"), (stroke, "1.8")] {
        let style = [
            ("fill", "none"),
            ("stroke", stroke),
            ("stroke-width", width),
            ("stroke-linecap", "round"),
        ];
        svg.drawn(&head, &style);
    }
}

fn description(rows: &[Row], voice: Voice) -> String {
    let lines: Vec<String> = rows
        .iter()
        .map(|row| format!("{}: {}", row.label, row.number(voice)))
        .collect();
    on_drawings::chart_described(voice, &lines.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use ChartKind::{Gain, Loss, Result, Start};
    use answer::ChartItem;

    fn line(stops: f64, kind: ChartKind) -> ChartLine {
        ChartLine {
            item: ChartItem::Spill,
            stops,
            kind,
        }
    }

    #[test]
    fn printed_numbers_add_up_and_stay_within_a_hundredth() {
        let check = |parts: &[f64]| {
            let mut chart: Vec<ChartLine> = parts
                .iter()
                .map(|&p| line(p, if p < 0.0 { Loss } else { Gain }))
                .collect();
            chart.push(line(parts.iter().sum(), Result));
            let printed = balanced_hundredths(&chart);
            let (result, lines) = printed.split_last().expect("there is a result");
            assert_eq!(lines.iter().sum::<i64>(), *result, "{parts:?}");
            assert_eq!(*result, (parts.iter().sum::<f64>() * 100.0).round() as i64);
            for (part, printed) in parts.iter().zip(lines) {
                assert!(
                    (part * 100.0 - *printed as f64).abs() < 1.0 + 1e-9,
                    "{part} became {printed}"
                );
            }
        };
        check(&[8.333_33, -4.643_86, -1.333_33, -2.333_33]);
        check(&[1.004, 1.004, 1.004]);
        check(&[0.005, 0.005, 0.005, 0.005]);
        check(&[-0.004_9; 9]);
        check(&[3.0]);
        check(&[0.336, 0.336, -0.667, 5.115, -3.149, 0.996, -0.332]);
    }

    #[test]
    fn a_second_result_adds_up_as_well() {
        let chart = [
            line(1.114, Start),
            line(1.114, Gain),
            line(2.228, Result),
            line(-0.334, Loss),
            line(1.894, Result),
        ];
        let printed = balanced_hundredths(&chart);
        assert_eq!(printed[0] + printed[1], printed[2]);
        assert_eq!(printed[2] + printed[3], printed[4]);
    }

    #[test]
    fn what_does_not_add_up_is_said_and_not_hidden() {
        let rows = rows(
            &[line(2.0, Start), line(-0.5, Loss), line(1.2, Result)],
            Voice::default(),
        );
        let label = &*wording::chart::label(Voice::default(), &ChartItem::Spill);
        let labels: Vec<(&str, i64)> = rows
            .iter()
            .map(|row| (row.label.as_str(), row.hundredths))
            .collect();
        assert_eq!(
            labels,
            [
                (label, 200),
                (label, -50),
                ("not accounted for", -30),
                (label, 120)
            ]
        );
    }

    #[test]
    fn a_line_without_a_number_is_a_dash() {
        let rows = rows(
            &[line(2.0, Start), line(f64::NEG_INFINITY, Loss), line(2.0, Result)],
            Voice::default(),
        );
        assert_eq!(rows[1].number(Voice::default()), "–");
        assert_eq!(rows[2].number(Voice::default()), "+2.00");
    }
}
