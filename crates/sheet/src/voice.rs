//! How a sheet speaks: its language, its unit of length, its decimal sign, and the notation of the trade in both languages.
//!
//! Every sentence that a person reads is made in `wording`, from data, with one of these voices. The two languages stand
//! side by side in [`said!`], so that a sentence without its translation does not compile.

pub use answer::Language;
use units::{METRES_PER_FOOT, Metres, PowerFraction, ShutterTime};

/// Metres or feet; one sheet uses one of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lengths {
    /// Metres.
    #[default]
    Metres,
    /// Feet and inches.
    Feet,
}

/// How a sheet speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Voice {
    /// Its language.
    pub language: Language,
    /// Its unit of length.
    pub lengths: Lengths,
}

/// A sentence in the language of a voice: `said!(voice; "in {hand} hand"; "{hand} Reserve")`. Both languages are always there.
macro_rules! said {
    ($voice:expr; $english:literal; $german:literal $(,)?) => {
        match $voice.language {
            $crate::voice::Language::English => format!($english),
            $crate::voice::Language::German => format!($german),
        }
    };
}
pub(crate) use said;

impl Voice {
    /// A voice of a language, in feet or in metres.
    pub fn new(language: Language, feet: bool) -> Self {
        Voice {
            language,
            lengths: if feet { Lengths::Feet } else { Lengths::Metres },
        }
    }

    /// One of two fixed texts.
    pub(crate) fn pick<'a>(self, english: &'a str, german: &'a str) -> &'a str {
        match self.language {
            Language::English => english,
            Language::German => german,
        }
    }

    /// The decimal sign in a number that is written with a point.
    fn decimals(self, number: String) -> String {
        match self.language {
            Language::English => number,
            Language::German => number.replace('.', ","),
        }
    }

    /// A number without a sign.
    pub(crate) fn plain(self, value: f64, decimals: usize) -> String {
        if value.is_finite() {
            self.decimals(format!("{value:.decimals$}"))
        } else {
            "–".to_owned()
        }
    }

    /// A number as it was written: with all its decimals and no more, and with a real minus sign.
    pub(crate) fn written(self, value: impl std::fmt::Display) -> String {
        self.decimals(value.to_string().replace('-', "−"))
    }

    /// A signed number with a real minus sign, never "−0.00".
    pub(crate) fn signed(self, value: f64, decimals: usize) -> String {
        if !value.is_finite() {
            return "–".to_owned();
        }
        let text = format!("{:.decimals$}", value.abs());
        if text.bytes().all(|b| b == b'0' || b == b'.') {
            return self.decimals(text);
        }
        let sign = if value < 0.0 { '−' } else { '+' };
        self.decimals(format!("{sign}{text}"))
    }

    /// Hundredths as a signed number with two decimals.
    pub(crate) fn signed_hundredths(self, value: i64) -> String {
        self.signed(value as f64 / 100.0, 2)
    }

    /// An amount of stops with its noun, without a sign: "0.7 stop", "2.3 stops", "1 stop"; "0,7 Blende", "2,3 Blenden".
    pub(crate) fn stops(self, value: f64) -> String {
        let (number, noun) = (self.bare_stops(value), self.stops_noun(value));
        format!("{number} {noun}")
    }

    /// The number of [`Voice::stops`]: one decimal, and none where it would be a nought.
    fn bare_stops(self, value: f64) -> String {
        if !value.is_finite() {
            return "–".to_owned();
        }
        let text = format!("{:.1}", value.abs());
        self.decimals(text.strip_suffix(".0").unwrap_or(&text).to_owned())
    }

    /// The noun behind an amount that is shown with one decimal: one stop or part of one, otherwise several.
    fn stops_noun(self, value: f64) -> &'static str {
        let tenths = (value.abs() * 10.0).round();
        self.stop_or_stops(tenths > 0.0 && tenths <= 10.0)
    }

    /// The noun of one stop or of several.
    fn stop_or_stops(self, one: bool) -> &'static str {
        match one {
            true => self.pick("stop", "Blende"),
            false => self.pick("stops", "Blenden"),
        }
    }

    /// How far light is under other light: "3.2 stops under", "6 stops over", never with a sign.
    pub(crate) fn stops_under(self, under: f64) -> String {
        let stops = self.stops(under);
        match under < -0.05 {
            true => said!(self; "{stops} over"; "{stops} darüber"),
            false => said!(self; "{stops} under"; "{stops} darunter"),
        }
    }

    /// An amount of stops with its sign and its noun: "+0.7 stop", "−2.3 stops".
    pub(crate) fn signed_stops(self, value: f64) -> String {
        format!("{} {}", self.signed(value, 1), self.stops_noun(value))
    }

    /// Two decimals with the noun: "2.46 stops".
    pub(crate) fn stops_at_two(self, value: f64) -> String {
        let noun = self.stop_or_stops((0.005..1.005).contains(&value.abs()));
        format!("{} {noun}", self.plain(value.abs(), 2))
    }

    /// An uncertainty in thirds, as it is spoken: "1/3 stop", "2/3 stop", "1 stop", "1 1/3 stops".
    pub(crate) fn stops_in_thirds(self, value: f64) -> String {
        if !value.is_finite() {
            return self
                .pick("an unknown number of stops", "eine unbekannte Zahl von Blenden")
                .to_owned();
        }
        let thirds = (value.abs() * 3.0).round().max(1.0) as u64;
        let (whole, part) = (thirds / 3, ["", "1/3", "2/3"][(thirds % 3) as usize]);
        let (one, many) = (self.stop_or_stops(true), self.stop_or_stops(false));
        match (whole, part) {
            (0, part) => format!("{part} {one}"),
            (1, "") => format!("1 {one}"),
            (whole, "") => format!("{whole} {many}"),
            (whole, part) => format!("{whole} {part} {many}"),
        }
    }

    /// A length to the decimetre (a paced distance is no better), or to the half inch.
    pub(crate) fn about(self, metres: f64) -> String {
        self.length(metres, 1)
    }

    /// A length to the centimetre, or to the half inch: room sizes and heights that were measured.
    pub(crate) fn exact(self, metres: f64) -> String {
        let text = self.length(metres, 2);
        match text.strip_suffix("0 m") {
            Some(shorter) if self.lengths == Lengths::Metres => format!("{shorter} m"),
            _ => text,
        }
    }

    /// A length that is a round number, such as a distance to keep: "1 m", "1.5 m", "3 ft 3 in".
    pub(crate) fn round(self, metres: f64) -> String {
        match self.lengths {
            Lengths::Metres => format!("{} m", self.decimals(metres.to_string())),
            Lengths::Feet => self.length(metres, 1),
        }
    }

    /// A short length: whole centimetres, or to the half inch.
    pub(crate) fn short(self, metres: f64) -> String {
        match self.lengths {
            Lengths::Metres => format!("{} cm", self.plain(metres * 100.0, 0)),
            Lengths::Feet => self.length(metres, 2),
        }
    }

    fn length(self, metres: f64, decimals: usize) -> String {
        match (self.lengths, Metres::new(metres.max(0.0))) {
            (_, Err(_)) => "–".to_owned(),
            (Lengths::Metres, Ok(length)) => format!("{} m", self.plain(length.value(), decimals)),
            (Lengths::Feet, Ok(length)) => self.decimals(length.to_feet_text()),
        }
    }

    /// Length of one step of the scale bar in metres: a metre, or three feet.
    pub(crate) fn scale_bar(self) -> (f64, &'static str) {
        match self.lengths {
            Lengths::Metres => (1.0, "1 m"),
            Lengths::Feet => (3.0 * METRES_PER_FOOT, "3 ft"),
        }
    }

    /// A ratio to one: "4:1", "3.1:1".
    pub(crate) fn ratio(self, value: f64) -> String {
        let number = self.plain(value, 1);
        let whole = number.strip_suffix(".0").or_else(|| number.strip_suffix(",0"));
        format!("{}:1", whole.unwrap_or(&number))
    }

    /// A power given in exact stops below full: the nearest third first, the exact value after it.
    pub(crate) fn power(self, exact_stops_below_full: f64) -> String {
        let exact = exact_stops_below_full;
        if !exact.is_finite() {
            return "–".to_owned();
        }
        if exact < -0.005 {
            let short = self.stops_at_two(-exact);
            return said!(self; "full power is {short} short"; "bei voller Leistung fehlen {short}");
        }
        let below = self.stops_at_two(exact.max(0.0));
        match PowerFraction::from_stops_below_full(exact.max(0.0)) {
            Ok(power) => {
                let power = power.nearest_third();
                said!(self; "{power} (exactly {below} below full)"; "{power} (genau {below} unter voller Leistung)")
            }
            Err(_) => said!(
                self;
                "{below} below full, less than a flash can give";
                "{below} unter voller Leistung, weniger als ein Blitz kann"
            ),
        }
    }

    /// A shutter time as engraved. The notation is the same in both languages; seconds have the language's decimal sign.
    pub(crate) fn shutter(self, shutter: ShutterTime) -> String {
        self.decimals(shutter.to_string())
    }

    /// A clock direction to the half hour: "9 o'clock", "half past 7"; "9 Uhr", "halb 8".
    pub(crate) fn clock(self, hour: f64) -> String {
        if !hour.is_finite() {
            return self.pick("no one direction", "keiner einen Richtung").to_owned();
        }
        let halves = (hour.rem_euclid(12.0) * 2.0).round() as u64 % 24;
        let whole = if halves / 2 == 0 { 12 } else { halves / 2 };
        let next = whole % 12 + 1;
        if halves % 2 == 1 {
            said!(self; "half past {whole}"; "halb {next}")
        } else {
            said!(self; "{whole} o'clock"; "{whole} Uhr")
        }
    }

    /// The camera's side on which a clock hour lies, to the half hour; `None` for 6 and 12, which lie on neither.
    pub(crate) fn side_of_clock(self, hour: f64) -> Option<&'static str> {
        let halves = (hour.rem_euclid(12.0) * 2.0).round() as u64 % 24;
        match halves {
            _ if !hour.is_finite() => None,
            0 | 12 => None,
            1..12 => Some(self.side(1.0)),
            _ => Some(self.side(-1.0)),
        }
    }

    /// A shift in mired: "12 mired warm", "8 mired cold", "no shift".
    pub(crate) fn mired(self, shift: f64) -> String {
        if !shift.is_finite() {
            return "–".to_owned();
        }
        if shift.abs() < 0.5 {
            return self.pick("no shift", "kein Farbstich").to_owned();
        }
        let amount = self.plain(shift.abs(), 0);
        if shift < 0.0 {
            said!(self; "{amount} mired cold"; "{amount} Mired kalt")
        } else {
            said!(self; "{amount} mired warm"; "{amount} Mired warm")
        }
    }

    /// Green or magenta. The steps are ours: skin shows it from about 0.002, and everyone sees it from about 0.006.
    pub(crate) fn tint(self, duv: f64) -> String {
        if !duv.is_finite() {
            return "–".to_owned();
        }
        let side = self.hue(duv);
        let amount = self.signed(duv, 4);
        match duv.abs() {
            d if d < 0.002 => said!(
                self;
                "neither green nor magenta (Duv {amount})";
                "weder grün noch magenta (Duv {amount})"
            ),
            d if d < 0.006 => said!(self; "a little {side} (Duv {amount})"; "etwas {side} (Duv {amount})"),
            _ => said!(self; "clearly {side} (Duv {amount})"; "deutlich {side} (Duv {amount})"),
        }
    }

    /// "green" or "magenta", by the sign of a Duv.
    pub(crate) fn hue(self, duv: f64) -> &'static str {
        if duv > 0.0 {
            self.pick("green", "grün")
        } else {
            "magenta"
        }
    }

    /// Direction aside: "46° camera right of the nose".
    pub(crate) fn azimuth(self, degrees: f64) -> String {
        if degrees.abs() < 0.5 {
            return self.pick("straight along the nose", "gerade von vorn").to_owned();
        }
        let (amount, side) = (self.plain(degrees.abs(), 0), self.side(degrees));
        said!(self; "{amount}° {side} of the nose"; "{amount}° {side} von der Nase")
    }

    /// Height of a direction: "17° above the eyes".
    pub(crate) fn elevation(self, degrees: f64) -> String {
        let amount = self.plain(degrees.abs(), 0);
        if degrees.abs() < 0.5 {
            self.pick("level with the eyes", "in Augenhöhe").to_owned()
        } else if degrees < 0.0 {
            said!(self; "{amount}° below the eyes"; "{amount}° unter den Augen")
        } else {
            said!(self; "{amount}° above the eyes"; "{amount}° über den Augen")
        }
    }

    /// A direction told from the nose: "46° camera right of the nose, 17° above the eyes".
    pub(crate) fn told_from_nose(self, azimuth_deg: f64, elevation_deg: f64) -> String {
        format!("{}, {}", self.azimuth(azimuth_deg), self.elevation(elevation_deg))
    }

    /// The camera's side by the sign of an angle: "camera left", "kamerarechts".
    pub(crate) fn side(self, azimuth_deg: f64) -> &'static str {
        if azimuth_deg < 0.0 {
            self.pick("camera left", "kameralinks")
        } else {
            self.pick("camera right", "kamerarechts")
        }
    }

    /// Parts of a sentence in a row: "a, b and c".
    pub(crate) fn list(self, parts: &[String]) -> String {
        let and = self.pick(" and ", " und ");
        match parts {
            [] => String::new(),
            [one] => one.clone(),
            [most @ .., last] => format!("{}{and}{last}", most.join(", ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn voice(code: &str, feet: bool) -> Voice {
        Voice::new(Language::of_code(code).expect("a language"), feet)
    }

    #[test]
    fn numbers_are_printed_as_they_are_spoken() {
        let check = |say: &dyn Fn(Voice) -> String, english: &str, german: &str| {
            assert_eq!(say(voice("en", false)), english);
            assert_eq!(say(voice("de", false)), german);
        };
        check(&|v| v.signed(-0.004, 2), "0.00", "0,00");
        check(&|v| v.signed(-1.25, 1), "−1.2", "−1,2");
        check(&|v| v.signed(f64::NAN, 1), "–", "–");
        check(&|v| v.stops(1.0), "1 stop", "1 Blende");
        check(&|v| v.stops(0.96), "1 stop", "1 Blende");
        check(&|v| v.stops(0.04), "0 stops", "0 Blenden");
        check(&|v| v.stops(2.333), "2.3 stops", "2,3 Blenden");
        check(&|v| v.stops_in_thirds(0.6), "2/3 stop", "2/3 Blende");
        check(&|v| v.stops_in_thirds(0.05), "1/3 stop", "1/3 Blende");
        check(&|v| v.stops_in_thirds(1.3), "1 1/3 stops", "1 1/3 Blenden");
        check(
            &|v| v.power(2.46),
            "1/8 +0.7 (exactly 2.46 stops below full)",
            "1/8 +0.7 (genau 2,46 Blenden unter voller Leistung)",
        );
        check(
            &|v| v.power(-0.8),
            "full power is 0.80 stop short",
            "bei voller Leistung fehlen 0,80 Blende",
        );
        check(&|v| v.ratio(4.0), "4:1", "4:1");
        check(&|v| v.ratio(3.12), "3.1:1", "3,1:1");
        check(&|v| v.ratio(f64::INFINITY), "–:1", "–:1");
        check(&|v| v.clock(8.4), "half past 8", "halb 9");
        check(&|v| v.clock(12.4), "half past 12", "halb 1");
        check(&|v| v.clock(0.1), "12 o'clock", "12 Uhr");
        check(&|v| v.clock(11.9), "12 o'clock", "12 Uhr");
        check(&|v| v.mired(-8.2), "8 mired cold", "8 Mired kalt");
        check(
            &|v| v.tint(0.0125),
            "clearly green (Duv +0.0125)",
            "deutlich grün (Duv +0,0125)",
        );
        check(&|v| v.exact(2.6), "2.6 m", "2,6 m");
        check(&|v| v.exact(2.65), "2.65 m", "2,65 m");
        check(&|v| v.exact(10.0), "10.0 m", "10,0 m");
        check(&|v| v.round(1.0), "1 m", "1 m");
        check(&|v| v.round(1.5), "1.5 m", "1,5 m");
        check(&|v| v.short(0.124), "12 cm", "12 cm");
        assert_eq!(voice("en", true).exact(2.6), "8 ft 6 in");
        let parts = ["a", "b", "c"].map(str::to_owned);
        check(&|v| v.list(&parts), "a, b and c", "a, b und c");
    }
}
