//! The numbers under `[ask]` that an answer is held to: ratio, skin, evenness, background, waits and moves.

use super::camera::inner;
use super::differences::difference;
use super::nearest::plain;
use super::quoting::shown;
use super::section::{Entry, Said, Section, number_of};
use super::words::{Noun, Words, did_you_mean_line, write_it_like};
use crate::both;
use toml::de::DeValue;
use units::{MiredShift, Ratio, Seconds, Stops};

/// Cast that skin bears when it must stay neutral and nothing narrower is said (common practice: two lights
/// 40 mired apart are rejected on one face).
const NEUTRAL_CAST: MiredShift = MiredShift(40.0);
/// Casts that can be asked for, in mired: the first is what a careful eye sees, the last is daylight against
/// tungsten (common practice: a full orange gel is about 160).
const CAST_LIMITS: (f64, f64) = (5.0, 200.0);
/// Ratios that can be asked for; beyond five stops the shadow side is black (ours).
const RATIOS: (f64, f64) = (1.0, 32.0);
/// Stops between the brightest and the darkest face that can be asked for (ours: below a tenth no meter agrees
/// with another, beyond three stops one face is out of the picture).
const SPREADS: (f64, f64) = (0.1, 3.0);
/// Stops of the background against the face that can be asked for (ours: black below, white above).
const BACKGROUNDS: (f64, f64) = (-6.0, 3.0);
/// Where a flash that fills can lie against the light that is there, in stops (ours).
const FILLS: (f64, f64) = (-5.0, 0.0);
/// Waits between two frames that can be asked for, in seconds (ours: 20 frames a second to a slow group).
const WAITS: (f64, f64) = (0.05, 30.0);
/// Farther than this a sitter is not moved but set up anew, in metres (ours).
const FARTHEST_MOVE_M: f64 = 3.0;

/// What was read.
pub(crate) struct Limits {
    pub neutral_skin: bool,
    pub cast: MiredShift,
    pub ratio: Option<Ratio>,
    pub evenness: Option<Said<Stops>>,
    pub background: Option<Stops>,
    pub fill: Option<Said<Stops>>,
    pub recycle: Option<Said<f64>>,
    pub may_move_m: f32,
}

/// Reads all of them, so that every mistake is told; `None` if one was refused.
pub(crate) fn read(section: &Section<'_>) -> Option<Limits> {
    let skin = section
        .entry("skin")
        .map_or(Some((true, NEUTRAL_CAST)), |entry| skin(&entry));
    let ratio = section.entry("ratio").map(|entry| ratio(&entry));
    let evenness = section.entry("evenness").map(|entry| evenness(&entry));
    let background = section.entry("background").map(|entry| background(&entry));
    let fill = section.entry("fill").map(|entry| fill(&entry));
    let recycle = section.entry("recycle").map(|entry| wait(&entry));
    let may_move = section.entry("sitter_may_move").map(|entry| may_move(&entry));
    let (neutral_skin, cast) = skin?;
    Some(Limits {
        neutral_skin,
        cast,
        ratio: inner(ratio)?,
        evenness: inner(evenness)?,
        background: inner(background)?,
        fill: inner(fill)?,
        recycle: inner(recycle)?,
        may_move_m: inner(may_move)?.unwrap_or(0.0),
    })
}

/// `"neutral"`, `"any"` or `"within 25 mired"`: whether skin must stay neutral, and how strictly.
fn skin(entry: &Entry<'_>) -> Option<(bool, MiredShift)> {
    let text = match (entry.value, number_of(entry.value)) {
        (_, Some(number)) if number.is_finite() => {
            refuse_cast(entry, &number.to_string());
            return None;
        }
        _ => entry.text(
            both!("a wish for the skin in quotes"; "ein Wunsch für die Haut in Anführungszeichen"),
            "\"neutral\"",
        )?,
    };
    match plain(text).as_str() {
        "neutral" => return Some((true, NEUTRAL_CAST)),
        "any" => return Some((false, NEUTRAL_CAST)),
        _ => {}
    }
    let lower = text.trim().to_lowercase();
    let Some(amount) = lower.strip_prefix("within") else {
        if lower.starts_with(|c: char| c.is_ascii_digit()) {
            refuse_cast(entry, text);
        } else {
            entry.unknown_word(
                text,
                Noun::ein("a wish for the skin", "Wunsch für die Haut"),
                ["neutral", "any", "within 25 mired"],
            );
        }
        return None;
    };
    // A limit goes both ways, so it has no sign, unlike a shift.
    let Ok(cast) = format!("+{}", amount.trim()).parse::<MiredShift>() else {
        refuse_cast(entry, text);
        return None;
    };
    if !(CAST_LIMITS.0..=CAST_LIMITS.1).contains(&cast.value()) {
        entry.refuse(
            both!(
                "skin cannot be held within {} mired", cast.value();
                "innerhalb von {} Mired lässt sich Haut nicht halten"
            ),
            both!(
                "from {} to {} mired can be used", CAST_LIMITS.0, CAST_LIMITS.1;
                "möglich: von {} bis {} Mired"
            ),
            both!(
                "Plain \"neutral\" is within 40 mired, where a cast begins to show; write \"any\" if it does not matter.";
                "Einfach \"neutral\" heißt innerhalb von 40 Mired, wo ein Farbstich sichtbar wird; \"any\" schreiben, wenn es gleich ist."
            ),
        );
        return None;
    }
    Some((true, cast))
}

/// Proposes the whole wish around a number that stands alone.
fn refuse_cast(entry: &Entry<'_>, text: &str) {
    let number = text
        .trim()
        .trim_start_matches(|c: char| c.is_alphabetic() || c == ' ')
        .split(|c: char| !(c.is_ascii_digit() || c == '.'))
        .next()
        .filter(|number| number.len() <= 6 && number.parse::<f64>().is_ok())
        .unwrap_or("25");
    entry.refuse(
        both!("{} is not a wish for the skin", shown(text); "{} ist kein Wunsch für die Haut"),
        both!("a limit is written as \"within … mired\""; "eine Grenze schreibt sich \"within … mired\""),
        did_you_mean_line(&format!("skin = \"within {number} mired\"")),
    );
}

fn ratio(entry: &Entry<'_>) -> Option<Ratio> {
    let said = entry.quantity::<Ratio>()?;
    if !(RATIOS.0..=RATIOS.1).contains(&said.value.value()) {
        entry.refuse(
            both!("{} is not a portrait", said.value; "{} gibt kein Porträt"),
            both!("from {}:1 to {}:1 can be used", RATIOS.0, RATIOS.1; "möglich: von {}:1 bis {}:1"),
            both!(
                "It is the near side of the face over the far side: \"2:1\" is gentle, \"3:1\" usual, \"8:1\" dramatic.";
                "Gemeint ist die nahe Seite des Gesichts gegen die ferne: \"2:1\" ist sanft, \"3:1\" üblich, \"8:1\" dramatisch."
            ),
        );
        return None;
    }
    Some(said.value)
}

/// `"1/3 stop"`, also as it is spoken: `"within 1/3 stop"`.
fn evenness(entry: &Entry<'_>) -> Option<Said<Stops>> {
    let DeValue::String(text) = entry.value else {
        // Whatever else it is, it is refused with the right words.
        entry.quantity::<Stops>()?;
        return None;
    };
    let amount = text.trim();
    let amount = amount.strip_prefix("within ").unwrap_or(amount);
    let Ok(stops) = amount.parse::<Stops>() else {
        entry.refuse(
            both!(
                "{} is not a difference between faces", shown(text);
                "{} ist kein Unterschied zwischen Gesichtern"
            ),
            both!("a number of stops belongs here"; "hierher gehört eine Zahl von Blenden"),
            write_it_like("evenness = \"1/3 stop\""),
        );
        return None;
    };
    if !(SPREADS.0..=SPREADS.1).contains(&stops.value()) {
        entry.refuse(
            both!(
                "{} cannot be asked of several faces", shown(text);
                "{} lässt sich von mehreren Gesichtern nicht verlangen"
            ),
            both!("from {} to {} stops can be used", SPREADS.0, SPREADS.1; "möglich: von {} bis {} Blenden"),
            both!(
                "It is the most that the brightest face may be above the darkest; \"1/3 stop\" is hardly seen.";
                "Gemeint ist, wie weit das hellste Gesicht höchstens über dem dunkelsten liegen darf; \"1/3 stop\" sieht man kaum."
            ),
        );
        return None;
    }
    Some(Said {
        value: stops,
        span: entry.span.clone(),
    })
}

/// No difference in one of these words, or a difference in stops whose direction is said; `words` are proposed for any other.
fn same_or_difference(
    entry: &Entry<'_>,
    same: &[&str],
    what: Noun,
    than: &Words,
    words: &[&str],
) -> Option<Stops> {
    let text = entry.value.as_str().map(plain);
    match text.is_some_and(|text| same.contains(&text.as_str())) {
        true => Some(Stops(0.0)),
        false => difference(entry, what, than, words),
    }
}

/// `"-1 stop"`, `"1 stop down"` or `"same"`.
fn background(entry: &Entry<'_>) -> Option<Stops> {
    let stops = same_or_difference(
        entry,
        &["same", "the same", "as the face"],
        Noun::ein("a wish for the background", "Wunsch für den Hintergrund"),
        &both!("the face"; "das Gesicht"),
        &["same", "-1 stop", "1 stop down", "+1 stop"],
    )?;
    if !(BACKGROUNDS.0..=BACKGROUNDS.1).contains(&stops.value()) {
        entry.refuse(
            both!("a background at {} against the face is not a picture", stops; "ein Hintergrund bei {} gegen das Gesicht gibt kein Bild"),
            both!(
                "from {} stops to +{} stops can be used", BACKGROUNDS.0, BACKGROUNDS.1;
                "möglich: von {} bis +{} Blenden"
            ),
            both!(
                "Two stops down is dark, \"same\" is as light as the face; leave the line out if it does not matter.";
                "Zwei Blenden darunter ist dunkel, \"same\" so hell wie das Gesicht; die Zeile weglassen, wenn es gleich ist."
            ),
        );
        return None;
    }
    Some(stops)
}

/// `"1.5 stops down"`: how far the flash stays under the light that is there.
fn fill(entry: &Entry<'_>) -> Option<Said<Stops>> {
    let stops = same_or_difference(
        entry,
        &["same"],
        Noun::ein("a wish for the fill", "Wunsch für die Aufhellung"),
        &both!("the light that is there"; "das vorhandene Licht"),
        &["same", "-1 stop", "1 stop down", "-2 stops"],
    )?;
    if !(FILLS.0..=FILLS.1).contains(&stops.value()) {
        entry.refuse(
            both!("a flash at {} against the light that is there does not fill", stops; "ein Blitz bei {} gegen das vorhandene Licht hellt nicht auf"),
            both!(
                "from {} stops to 0 stops can be used", FILLS.0;
                "möglich: von {} bis 0 Blenden"
            ),
            both!(
                "A stop and a half down is a usual fill, \"same\" is as bright as what is there; leave the line out if the flash is the key.";
                "Anderthalb Blenden darunter ist eine übliche Aufhellung, \"same\" so hell wie das, was da ist; die Zeile weglassen, wenn der Blitz das Hauptlicht ist."
            ),
        );
        return None;
    }
    Some(Said {
        value: Stops(-stops.value()),
        span: entry.span.clone(),
    })
}

/// The longest wait between two frames, in seconds.
fn wait(entry: &Entry<'_>) -> Option<Said<f64>> {
    let said = entry.quantity::<Seconds>()?;
    let seconds = said.value.value();
    if !(WAITS.0..=WAITS.1).contains(&seconds) {
        entry.refuse(
            both!(
                "{} cannot be the longest wait between two frames", said.value;
                "{} kann nicht die längste Pause zwischen zwei Bildern sein"
            ),
            both!("from {} s to {} s can be used", WAITS.0, WAITS.1; "möglich: von {} s bis {} s"),
            both!(
                "It is how soon the flash must be ready again; for two frames in a second write \"0.5 s\".";
                "Gemeint ist, wie bald der Blitz wieder bereit sein muss; für zwei Bilder in der Sekunde \"0.5 s\" schreiben."
            ),
        );
        return None;
    }
    Some(Said {
        value: seconds,
        span: said.span,
    })
}

/// How far the first sitter may be moved, in metres.
fn may_move(entry: &Entry<'_>) -> Option<f32> {
    let signed = entry.value.as_str().map(str::trim);
    if signed.is_some_and(|text| text.starts_with(['-', '\u{2212}'])) {
        entry.refuse(
            both!(
                "a sitter cannot be moved by less than nothing";
                "eine Person lässt sich nicht um weniger als nichts bewegen"
            ),
            both!("any way that serves, so without a sign"; "in jede Richtung, die hilft, also ohne Vorzeichen"),
            both!(
                "Write how far they may be moved from where they stand, or leave the line out if they must stay.";
                "Schreiben, wie weit sie von ihrem Platz wegrücken darf, oder die Zeile weglassen, wenn sie bleiben muss."
            ),
        );
        return None;
    }
    let said = entry.length(
        Noun::ein("how far a sitter is moved", "Weg, den eine Person rückt"),
        0.0,
        FARTHEST_MOVE_M,
    )?;
    Some(said.value)
}
