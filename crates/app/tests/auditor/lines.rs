//! The first two lines and the printed chart, read as a photographer reads them, against the data.

use crate::findings::Findings;
use crate::said::Said;

/// What engraving rounds away of apertures and times, in stops.
const ENGRAVED: f64 = 0.1;

/// The camera line and the flash line.
pub fn check(said: &Said, findings: &mut Findings) {
    let [camera, flash, ..] = said.lines();
    camera_line(&camera, said, findings);
    flash_line(&flash, said, findings);
}

fn camera_line(line: &str, said: &Said, findings: &mut Findings) {
    let set = said.camera();
    let part = |begins: &str| line.split(" · ").find_map(|part| part.strip_prefix(begins));
    let number = |begins: &str| part(begins).and_then(first_number).unwrap_or(f64::NAN);
    let mut same =
        |said: f64, is: f64, within: f64| findings.same("line one: against the data", line, said, is, within);
    same(2.0 * (number("f/") / set.f_number).log2(), 0.0, ENGRAVED);
    same((time(line) / set.shutter_s).log2(), 0.0, ENGRAVED);
    same(number("ISO "), set.iso, 0.5);
    same(part("ND ").and_then(first_number).unwrap_or(0.0), set.nd, 0.05);
    let balance = line.split(" · ").last().unwrap_or_default();
    same(first_number(balance).unwrap_or(f64::NAN), set.kelvin, 50.0);
    // Green light needs magenta on the camera.
    let tint = balance.split_once(" K ").map_or(0.0, |(_, tint)| {
        let steps = first_number(&tint[1..]).unwrap_or(f64::NAN);
        if tint.starts_with('G') { -steps } else { steps }
    });
    same(tint, (set.tint_duv / 0.002).round(), 0.0);
}

fn flash_line(line: &str, said: &Said, findings: &mut Findings) {
    let set = said.flash();
    let mut parts = line.split(" · ");
    let power = parts.next().and_then(below_full).unwrap_or(f64::NAN);
    let mut same =
        |said: f64, is: f64, within: f64| findings.same("line two: against the data", line, said, is, within);
    same(power, set.below_full, 0.05);
    let zoom = parts
        .next()
        .and_then(|zoom| zoom.strip_prefix("zoom "))
        .and_then(first_number);
    same(zoom.unwrap_or(f64::NAN), set.zoom_mm, 0.5);
    let hand = line.split(" · ").last().unwrap_or_default();
    let told = first_number(hand).unwrap_or(f64::NAN);
    same(
        if hand.ends_with("short") { -told } else { told },
        set.in_hand,
        0.051,
    );
}

/// The chart of the English text adds up as it is printed.
pub fn printed_chart(text: &str, findings: &mut Findings) {
    let lines = text
        .lines()
        .skip_while(|line| *line != "Where the stops go")
        .skip(1);
    let hundredths: Vec<i64> = lines
        .take_while(|line| !line.is_empty())
        .filter_map(hundredths)
        .collect();
    let Some((result, parts)) = hundredths.split_last() else {
        findings.holds("printed chart: none", false, String::new);
        return;
    };
    let sum: i64 = parts.iter().sum();
    findings.holds("printed chart: does not add up", sum == *result, || {
        format!("{parts:?} make {sum}, not {result}")
    });
}

/// The amount of a chart's line in hundredths of a stop: the last number with two decimals that stands by itself.
fn hundredths(line: &str) -> Option<i64> {
    line.split_whitespace().rev().find_map(|word| {
        let plain = word.replace('−', "-");
        let (_, decimals) = plain.split_once('.')?;
        let value: f64 = plain.parse().ok().filter(|_| decimals.len() == 2)?;
        Some((value * 100.0).round() as i64)
    })
}

/// Stops below full of "1/8 +0.7".
fn below_full(text: &str) -> Option<f64> {
    let (fraction, more) = text.split_once(' ').unwrap_or((text, "0"));
    let below: f64 = fraction.strip_prefix("1/")?.parse().ok()?;
    Some(below.log2() - more.trim_start_matches('+').parse::<f64>().ok()?)
}

/// Seconds of the shutter time in a camera line.
fn time(line: &str) -> f64 {
    let part = line.split(" · ").nth(1).unwrap_or_default();
    match part.strip_prefix("1/") {
        Some(below) => 1.0 / first_number(below).unwrap_or(f64::NAN),
        None => first_number(part).unwrap_or(f64::NAN),
    }
}

/// The number at the beginning of a text.
pub fn first_number(text: &str) -> Option<f64> {
    let digits: String = text
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    digits.parse().ok()
}

#[test]
fn lines_are_read() {
    assert!((below_full("1/8 +0.7").unwrap_or_default() - 2.3).abs() < 1e-9);
    assert_eq!(below_full("1/1"), Some(0.0));
    assert_eq!(time("f/4 · 1/160 · ISO 160"), 1.0 / 160.0);
    assert_eq!(time("f/4 · 0.5 s · ISO 160"), 0.5);
    assert_eq!(hundredths("  power 1/2    −1.00   ░░░"), Some(-100));
    assert_eq!(
        hundredths("  full flash at 1 m, f/5.6 ISO 400   +7.55   ████"),
        Some(755)
    );
}
