//! The notation on every sheet: stops, lengths, powers, sides, casts.

use units::{METRES_PER_FOOT, Metres, PowerFraction};

/// Metres or feet; one sheet uses one of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lengths {
    Metres,
    Feet,
}

impl Lengths {
    pub(crate) fn new(feet: bool) -> Self {
        if feet { Self::Feet } else { Self::Metres }
    }

    /// A length to the decimetre (a paced distance is no better), or to the inch.
    pub(crate) fn about(self, metres: f64) -> String {
        self.print(metres, 1)
    }

    /// A length to the centimetre, or to the inch: room sizes and heights that were measured.
    pub(crate) fn exact(self, metres: f64) -> String {
        let text = self.print(metres, 2);
        match text.strip_suffix("0 m") {
            Some(shorter) if self == Self::Metres => format!("{shorter} m"),
            _ => text,
        }
    }

    fn print(self, metres: f64, decimals: usize) -> String {
        match (self, Metres::new(metres.max(0.0))) {
            (_, Err(_)) => "–".to_owned(),
            (Self::Metres, Ok(length)) => format!("{:.decimals$} m", length.value()),
            (Self::Feet, Ok(length)) => length.to_feet_text(),
        }
    }

    /// Words that were written in metres, in this sheet's unit.
    ///
    /// Guide numbers stay in metres, because that is their unit by convention.
    pub(crate) fn reword(self, text: &str) -> String {
        if self == Self::Metres {
            return text.to_owned();
        }
        let words: Vec<&str> = text.split(' ').collect();
        let mut out: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
        let mut dropped = vec![false; words.len()];
        for index in 0..words.len() {
            let (unit, after) = split_unit(words[index]);
            let Some(in_metres) = unit else { continue };
            if index == 0 || number(words[index - 1]).is_none() || index >= 2 && words[index - 2] == "GN" {
                continue;
            }
            // "0.7 x 1.0 m" and "1.0 to 1.4 m": one unit holds for all the numbers before it.
            let mut at = index - 1;
            loop {
                if let Some(value) = number(words[at]) {
                    out[at] = Self::Feet.print(value * in_metres, 1);
                }
                // "and" joins two lengths behind "between" only: "at half past 7 and 1.2 m away" has one.
                let linked = at >= 2
                    && match words[at - 1] {
                        "x" | "×" | "to" | "by" => true,
                        "and" => at >= 3 && words[at - 3] == "between",
                        _ => false,
                    };
                if !linked || number(words[at - 2]).is_none() {
                    break;
                }
                at -= 2;
            }
            let last = format!("{}{after}", out[index - 1]);
            out[index - 1] = last;
            dropped[index] = true;
        }
        let kept: Vec<String> = out
            .into_iter()
            .zip(dropped)
            .filter(|(_, gone)| !gone)
            .map(|(word, _)| word)
            .collect();
        kept.join(" ")
    }

    /// Length of one step of the scale bar in metres: a metre, or three feet.
    pub(crate) fn scale_bar(self) -> (f64, &'static str) {
        match self {
            Self::Metres => (1.0, "1 m"),
            Self::Feet => (3.0 * METRES_PER_FOOT, "3 ft"),
        }
    }
}

/// A word that begins with a unit of length: its metres, and what follows it.
fn split_unit(word: &str) -> (Option<f64>, &str) {
    let letters = word.find(|c: char| !c.is_alphabetic()).unwrap_or(word.len());
    let unit = match &word[..letters] {
        "m" => Some(1.0),
        "cm" => Some(0.01),
        _ => None,
    };
    // "lx·m" and the like are no lengths.
    let after = &word[letters..];
    if after.starts_with(['·', '/', '²', '-']) {
        (None, after)
    } else {
        (unit, after)
    }
}

fn number(word: &str) -> Option<f64> {
    let plain = word.trim_start_matches('(');
    (plain.starts_with(|c: char| c.is_ascii_digit()) && plain.len() == word.len())
        .then(|| plain.parse().ok())?
}

/// A signed number with a real minus sign, never "−0.00".
pub(crate) fn signed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let text = format!("{:.decimals$}", value.abs());
    if text.bytes().all(|b| b == b'0' || b == b'.') {
        return text;
    }
    format!("{}{text}", if value < 0.0 { '−' } else { '+' })
}

/// Hundredths as a signed number with two decimals.
pub(crate) fn signed_hundredths(value: i64) -> String {
    signed(value as f64 / 100.0, 2)
}

/// A number without a sign.
pub(crate) fn plain(value: f64, decimals: usize) -> String {
    if value.is_finite() {
        format!("{value:.decimals$}")
    } else {
        "–".to_owned()
    }
}

/// An amount of stops with its noun, without a sign: "0.7 stop", "2.3 stops", "1 stop".
pub(crate) fn stops(value: f64) -> String {
    if !value.is_finite() {
        return "– stops".to_owned();
    }
    let text = format!("{:.1}", value.abs());
    let short = text.strip_suffix(".0").unwrap_or(&text);
    let many = short
        .parse::<f64>()
        .is_ok_and(|number| number > 1.0 || number == 0.0);
    format!("{short} {}", if many { "stops" } else { "stop" })
}

/// An uncertainty in thirds, as it is spoken: "1/3 stop", "2/3 stop", "1 stop", "1 1/3 stops".
pub(crate) fn stops_in_thirds(value: f64) -> String {
    if !value.is_finite() {
        return "an unknown number of stops".to_owned();
    }
    let thirds = (value.abs() * 3.0).round().max(1.0) as u64;
    let (whole, part) = (thirds / 3, ["", "1/3", "2/3"][(thirds % 3) as usize]);
    match (whole, part) {
        (0, part) => format!("{part} stop"),
        (1, "") => "1 stop".to_owned(),
        (whole, "") => format!("{whole} stops"),
        (whole, part) => format!("{whole} {part} stops"),
    }
}

/// A power given in exact stops below full: the nearest third first, the exact value after it.
pub(crate) fn power(exact_stops_below_full: f64) -> String {
    let exact = exact_stops_below_full;
    if !exact.is_finite() {
        return "–".to_owned();
    }
    if exact < -0.005 {
        return format!("full power is {} short", stops_at_two(-exact));
    }
    match PowerFraction::from_stops_below_full(exact.max(0.0)) {
        Ok(power) => format!(
            "{} (exactly {} below full)",
            power.nearest_third(),
            stops_at_two(exact.max(0.0))
        ),
        Err(_) => format!("{} below full, less than a flash can give", stops_at_two(exact)),
    }
}

/// Two decimals with the noun: "2.46 stops".
pub(crate) fn stops_at_two(value: f64) -> String {
    let noun = if value.abs() > 1.004 || value.abs() < 0.005 {
        "stops"
    } else {
        "stop"
    };
    format!("{} {noun}", plain(value.abs(), 2))
}

/// A direction told from the nose: "46° camera right of the nose, 17° above the eyes".
pub(crate) fn from_nose(azimuth_deg: f64, elevation_deg: f64) -> String {
    format!("{}, {}", azimuth(azimuth_deg), elevation(elevation_deg))
}

/// Direction aside: "46° camera right of the nose".
pub(crate) fn azimuth(degrees: f64) -> String {
    let side = if degrees < 0.0 { "left" } else { "right" };
    if degrees.abs() < 0.5 {
        "straight along the nose".to_owned()
    } else {
        format!("{}° camera {side} of the nose", plain(degrees.abs(), 0))
    }
}

/// Height of a direction: "17° above the eyes".
pub(crate) fn elevation(degrees: f64) -> String {
    let side = if degrees < 0.0 { "below" } else { "above" };
    if degrees.abs() < 0.5 {
        "level with the eyes".to_owned()
    } else {
        format!("{}° {side} the eyes", plain(degrees.abs(), 0))
    }
}

/// A clock direction to the half hour: "9 o'clock", "half past 7".
pub(crate) fn clock(hour: f64) -> String {
    if !hour.is_finite() {
        return "no one direction".to_owned();
    }
    let halves = (hour.rem_euclid(12.0) * 2.0).round() as u64 % 24;
    let whole = if halves / 2 == 0 { 12 } else { halves / 2 };
    if halves % 2 == 1 {
        format!("half past {whole}")
    } else {
        format!("{whole} o'clock")
    }
}

/// A shift in mired: "12 mired warm", "8 mired cold", "no shift".
pub(crate) fn mired(shift: f64) -> String {
    let side = if shift < 0.0 { "cold" } else { "warm" };
    if !shift.is_finite() {
        "–".to_owned()
    } else if shift.abs() < 0.5 {
        "no shift".to_owned()
    } else {
        format!("{} mired {side}", plain(shift.abs(), 0))
    }
}

/// Green or magenta. The steps are ours: skin shows it from about 0.002, and everyone sees it from about 0.006.
pub(crate) fn tint(duv: f64) -> String {
    if !duv.is_finite() {
        return "–".to_owned();
    }
    let side = if duv > 0.0 { "green" } else { "magenta" };
    let amount = signed(duv, 4);
    match duv.abs() {
        d if d < 0.002 => format!("neither green nor magenta (Duv {amount})"),
        d if d < 0.006 => format!("a little {side} (Duv {amount})"),
        _ => format!("clearly {side} (Duv {amount})"),
    }
}

/// Text that cannot steer a terminal or turn the reading direction of what follows it.
pub(crate) fn clean(text: &str) -> String {
    let steers = |c: char| {
        c.is_control()
            || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}')
    };
    text.chars().map(|c| if steers(c) { ' ' } else { c }).collect()
}

/// At most so many columns of text, the last an ellipsis where something was left off.
pub(crate) fn shorten(text: &str, most_columns: usize) -> String {
    let text = clean(text);
    let text = text.trim();
    if columns(text) <= most_columns {
        return text.to_owned();
    }
    let mut out = String::new();
    let mut used = 0;
    for c in text.chars() {
        used += char_columns(c);
        if used + 1 > most_columns {
            break;
        }
        out.push(c);
    }
    format!("{}…", out.trim_end())
}

/// Columns that a text takes in a terminal.
pub(crate) fn columns(text: &str) -> usize {
    text.chars().map(char_columns).sum()
}

/// Two columns for East Asian wide characters and emoji, none for marks that join the character before.
fn char_columns(c: char) -> usize {
    match c as u32 {
        0x300..=0x36f | 0x200b..=0x200d | 0x20d0..=0x20ff | 0xfe00..=0xfe0f => 0,
        0x1100..=0x115f
        | 0x2e80..=0xa4cf
        | 0xac00..=0xd7a3
        | 0xf900..=0xfaff
        | 0xfe30..=0xfe6f
        | 0xff00..=0xff60 => 2,
        0xffe0..=0xffe6 | 0x1f300..=0x1faff | 0x20000..=0x3fffd => 2,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_reworded_for_those_who_think_in_feet() {
        let check = |input: &str, expected: &str| assert_eq!(Lengths::Feet.reword(input), expected);
        check("5.0 m of travel", "16 ft 5 in of travel");
        check("hold it 1.0 to 1.4 m away", "hold it 3 ft 3 in to 4 ft 7 in away");
        check("board 0.7 x 1.0 m, white", "board 2 ft 3.5 in x 3 ft 3 in, white");
        check(
            "between 1.0 and 1.4 m away",
            "between 3 ft 3 in and 4 ft 7 in away",
        );
        check(
            "at half past 7 and 1.2 m away",
            "at half past 7 and 3 ft 11 in away",
        );
        check("GN 36 m at zoom 50", "GN 36 m at zoom 50");
        check("12 cm up.", "4.5 in up.");
        check("m is no number, nor is 3 men", "m is no number, nor is 3 men");
        check("", "");
        assert_eq!(Lengths::Metres.reword("5.0 m of travel"), "5.0 m of travel");
    }

    #[test]
    fn numbers_are_printed_as_they_are_spoken() {
        let check = |given: String, expected: &str| assert_eq!(given, expected);
        check(signed(-0.004, 2), "0.00");
        check(signed(-1.25, 1), "−1.2");
        check(signed(f64::NAN, 1), "–");
        check(stops(1.0), "1 stop");
        check(stops(0.04), "0 stops");
        check(stops(2.333), "2.3 stops");
        check(stops_in_thirds(0.6), "2/3 stop");
        check(stops_in_thirds(0.05), "1/3 stop");
        check(stops_in_thirds(1.3), "1 1/3 stops");
        check(power(2.46), "1/8 +0.7 (exactly 2.46 stops below full)");
        check(power(-0.8), "full power is 0.80 stop short");
        check(power(0.0), "1/1 (exactly 0.00 stops below full)");
        check(clock(8.4), "half past 8");
        check(clock(0.1), "12 o'clock");
        check(clock(11.9), "12 o'clock");
        check(mired(-8.2), "8 mired cold");
        check(tint(0.0125), "clearly green (Duv +0.0125)");
        check(Lengths::Metres.exact(2.6), "2.6 m");
        check(Lengths::Metres.exact(2.65), "2.65 m");
        check(Lengths::Metres.exact(10.0), "10.0 m");
        check(Lengths::Feet.exact(2.6), "8 ft 6 in");
    }

    #[test]
    fn names_are_cleaned_and_shortened() {
        assert_eq!(clean("a\u{1b}[31mb\u{202e}"), "a [31mb ");
        assert_eq!(shorten("a long name indeed", 7), "a long…");
        assert_eq!(columns("🎺é"), 3);
    }
}
