//! `[ask]`: the picture that is wanted.

use super::ask_colour;
use super::bag::BagRead;
use super::camera::inner;
use super::differences::difference;
use super::limits;
use super::musts;
use super::nearest::{nearest, plain};
use super::parts::KEY;
use super::place::inline_point;
use super::problem::{Problem, Span};
use super::quoting::shown;
use super::section::{Entry, Said, Section, find_word};
use super::words::{Noun, did_you_mean_first};
use super::zones;
use crate::both;
use answer::{AmbientWish, Ask, FlashStand, KeyWish, Side, Softness, ZoneWish};
use scene::BoxRoom;
use toml::de::DeValue;
use units::{Degrees, FNumber, Iso, Kelvin, Metres, ShutterTime, Stops};

/// A lighting pattern by its angles from the nose.
pub(crate) struct Pattern {
    pub azimuth: (f64, f64),
    pub elevation: (f64, f64),
}

const fn pattern(azimuth: (f64, f64), elevation: (f64, f64)) -> Pattern {
    Pattern { azimuth, elevation }
}

/// Patterns with the range of their azimuth and elevation in degrees from the nose (common practice);
/// "side" is ours, for someone who only says that the light comes from one side.
pub(crate) const PATTERNS: &[(&str, Pattern)] = &[
    ("loop", pattern((25.0, 45.0), (20.0, 45.0))),
    ("Rembrandt", pattern((45.0, 65.0), (35.0, 55.0))),
    ("split", pattern((80.0, 100.0), (0.0, 30.0))),
    ("butterfly", pattern((0.0, 10.0), (25.0, 50.0))),
    ("flat", pattern((0.0, 15.0), (0.0, 20.0))),
    ("side", pattern((30.0, 60.0), (15.0, 20.0))),
];

/// Which side the light may come from.
const SIDES: &[(&str, Option<Side>)] = &[
    ("left", Some(Side::Left)),
    ("right", Some(Side::Right)),
    ("either", None),
    ("camera left", Some(Side::Left)),
    ("camera right", Some(Side::Right)),
    ("the left", Some(Side::Left)),
    ("the right", Some(Side::Right)),
    ("either side", None),
    ("any", None),
];

/// Where the flash may be, when it is not said by a point.
const STANDS: &[(&str, FlashStand)] = &[
    ("on camera", FlashStand::OnCamera),
    ("on the camera", FlashStand::OnCamera),
    ("camera", FlashStand::OnCamera),
    ("anywhere", FlashStand::Anywhere),
    ("any", FlashStand::Anywhere),
];

/// The ask with the places that cross-checks point at.
pub(crate) struct AskRead {
    pub ask: Ask,
    pub aperture: Option<Said<FNumber>>,
    pub apertures: Option<Said<(FNumber, FNumber)>>,
    pub zones: Vec<Said<ZoneWish>>,
    pub shutter: Option<Said<ShutterTime>>,
    pub iso: Option<Said<Iso>>,
    pub ambient: Option<Span>,
    pub in_hand: Option<Said<Stops>>,
    pub evenness: Option<Span>,
    pub fill: Option<Span>,
    pub recycle: Option<Said<f64>>,
    pub stand: Option<Span>,
}

pub(crate) fn read(
    section: &Section<'_>,
    room: Option<&BoxRoom>,
    bag: Option<&BagRead>,
    other_light: bool,
) -> Option<AskRead> {
    section.close(super::parts::ALL);
    let (range, single): (Option<Entry<'_>>, Option<Entry<'_>>) = match section.entry("aperture") {
        Some(entry) if entry.value.as_str().is_some_and(|text| text.contains(" to ")) => (Some(entry), None),
        other => (None, other),
    };
    let aperture = single.map(|entry| entry.quantity::<FNumber>());
    let apertures = range.map(|entry| zones::aperture_range(&entry));
    let zone_wishes = section.entry("zone").map(|entry| zones::wishes(&entry));
    let depth = section
        .entry("depth")
        .map(|entry| entry.length(Noun::eine("a depth that is sharp", "Schärfentiefe"), 0.01, 20.0));
    let shutter = section
        .entry("shutter")
        .map(|entry| entry.quantity::<ShutterTime>());
    let iso = section.entry("iso").map(|entry| entry.quantity::<Iso>());
    let ambient = section.entry("ambient").map(|entry| ambient(&entry));
    let key = key(section);
    let softness = section.entry("softness").map_or(Some(Softness::Soft), |entry| {
        let words = [
            ("soft", Softness::Soft),
            ("hard", Softness::Hard),
            ("any", Softness::Any),
        ];
        entry
            .word(Noun::eine("a softness", "Weichheit"), &words)
            .map(|said| said.value)
    });
    let limits = limits::read(section);
    let musts = musts::read(section);
    let in_hand = section.entry("in_hand").map(|entry| in_hand(&entry));
    let white_balance = section.entry("white_balance").map(|entry| white_balance(&entry));
    let coloured = ask_colour::asked(section, bag, other_light);
    let stand = section.entry("flash").map(|entry| stand(&entry, room));
    if let (Some(aperture), Some(depth)) = (section.entry("aperture"), section.entry("depth")) {
        section.log.problem(
            Problem::new(both!(
                "aperture and depth are both given, but each fixes the other";
                "aperture und depth sind beide angegeben, aber jedes legt das andere fest"
            ))
            .at(
                depth.key_span,
                both!("the depth that must be sharp"; "die Tiefe, die scharf sein muss"),
            )
            .at(aperture.key_span, both!("the aperture"; "die Blende"))
            .help(both!(
                "Keep one: aperture if you know it, depth if the aperture should be worked out.";
                "Eins behalten: aperture, wenn sie feststeht, depth, wenn die Blende berechnet werden soll."
            )),
        );
    }
    let (aperture, depth, shutter, iso) = (inner(aperture)?, inner(depth)?, inner(shutter)?, inner(iso)?);
    let (ambient, in_hand, stand) = (inner(ambient)?, inner(in_hand)?, inner(stand)?);
    let (limits, coloured, musts) = (limits?, coloured?, musts?);
    let (apertures, zone_wishes) = (inner(apertures)?, inner(zone_wishes)?.unwrap_or_default());
    let ask = Ask {
        aperture: aperture.as_ref().map(|said| said.value),
        apertures: apertures.as_ref().map(|said| said.value),
        // Filled in once the zones are known by name.
        zones: Vec::new(),
        depth: match &depth {
            Some(said) => Some(Metres::new(said.value.into()).ok()?),
            None => None,
        },
        shutter: shutter.as_ref().map(|said| said.value),
        iso: iso.as_ref().map(|said| said.value),
        ambient: ambient.as_ref().map_or(AmbientWish::Any, |said| said.value),
        key: key?,
        softness: softness?,
        neutral_skin: limits.neutral_skin,
        cast_limit: limits.cast,
        ratio: limits.ratio,
        evenness: limits.evenness.as_ref().map(|said| said.value),
        background: limits.background,
        fill: limits.fill.as_ref().map(|said| said.value),
        recycle_s: limits.recycle.as_ref().map(|said| said.value),
        may_move_m: limits.may_move_m,
        in_hand: in_hand.as_ref().map_or(Stops(1.0), |said| said.value),
        white_balance: inner(white_balance)?,
        tint: coloured.tint,
        colour: coloured.colour,
        gel: coloured.gel,
        stand: stand.as_ref().map_or(FlashStand::OnCamera, |said| said.value),
        musts,
    };
    Some(AskRead {
        ask,
        aperture,
        apertures,
        zones: zone_wishes,
        shutter,
        iso,
        ambient: ambient.map(|said| said.span),
        in_hand,
        evenness: limits.evenness.map(|said| said.span),
        fill: limits.fill.map(|said| said.span),
        recycle: limits.recycle,
        stand: stand.map(|said| said.span),
    })
}

/// Looks by the level of the ambient light in stops (common practice).
pub(crate) const LOOKS: &[(&str, f64)] = &[
    ("natural", 0.0),
    ("polished", -1.0),
    ("dramatic", -2.0),
    ("night", -3.0),
];

/// "out", "any", "dramatic", "-2 stops", "2 stops under".
fn ambient(entry: &Entry<'_>) -> Option<Said<AmbientWish>> {
    let wish = match entry.value.as_str().map(plain).as_deref() {
        Some("out") => AmbientWish::Out,
        Some("any") => AmbientWish::Any,
        _ => {
            if let Some(look) = entry.value.as_str().and_then(|text| find_word(text, LOOKS)) {
                return checked_offset(entry, Stops(look));
            }
            let words = [
                "out", "any", "natural", "polished", "dramatic", "night", "-1 stop", "-2 stops",
            ];
            let stops = difference(
                entry,
                Noun::ein("a wish for the ambient light", "Wunsch für das vorhandene Licht"),
                &both!("normal"; "normal"),
                &words,
            )?;
            return checked_offset(entry, stops);
        }
    };
    Some(Said {
        value: wish,
        span: entry.span.clone(),
    })
}

fn checked_offset(entry: &Entry<'_>, stops: Stops) -> Option<Said<AmbientWish>> {
    if !(-6.0..=2.0).contains(&stops.value()) {
        entry.refuse(
            both!("ambient light at {} is not a picture", stops; "vorhandenes Licht bei {} gibt kein Bild"),
            both!("from -6 stops to +2 stops can be used"; "möglich: von -6 bis +2 Blenden"),
            both!(
                "Write  ambient = \"out\"  if it should not be seen at all.";
                "ambient = \"out\" schreiben, wenn es gar nicht zu sehen sein soll."
            ),
        );
        return None;
    }
    Some(Said {
        value: AmbientWish::Offset(stops),
        span: entry.span.clone(),
    })
}

/// The key from its pattern or its angles, and its side from either place.
fn key(section: &Section<'_>) -> Option<KeyWish> {
    let from = section.entry("from").map(|entry| side(&entry));
    let from = inner(from);
    let Some(entry) = section.entry("key") else {
        return Some(wish(&PATTERNS[0].1, from?.and_then(|said| said.value)));
    };
    let (wish, inside) = match entry.value {
        DeValue::Table(_) => angles(&entry)?,
        _ => named(&entry)?,
    };
    let from = from?;
    if let (Some(outer), Some(inside)) = (&from, &inside)
        && outer.value != inside.value
    {
        let words = |side: Option<Side>| match side {
            Some(Side::Left) => both!("from the left"; "von links"),
            Some(Side::Right) => both!("from the right"; "von rechts"),
            None => both!("from either side"; "von einer der beiden Seiten"),
        };
        section.log.problem(
            Problem::new(both!(
                "the key cannot come from two sides at once";
                "das Hauptlicht kann nicht von zwei Seiten zugleich kommen"
            ))
            .at(outer.span.clone(), words(outer.value))
            .at(inside.span.clone(), words(inside.value))
            .help(both!(
                "Keep one of the two; the sides are the camera's.";
                "Eine der beiden behalten; gemeint sind die Seiten der Kamera."
            )),
        );
        return None;
    }
    Some(KeyWish {
        side: from.or(inside).and_then(|said| said.value),
        ..wish
    })
}

fn wish(pattern: &Pattern, side: Option<Side>) -> KeyWish {
    let middle = |(from, to): (f64, f64)| 0.5 * (from + to);
    KeyWish {
        side,
        azimuth_deg: middle(pattern.azimuth),
        elevation_deg: middle(pattern.elevation),
        azimuth_tolerance_deg: 0.5 * (pattern.azimuth.1 - pattern.azimuth.0),
    }
}

type KeyAndSide = (KeyWish, Option<Said<Option<Side>>>);

/// `"loop"` or `"loop from left"`.
fn named(entry: &Entry<'_>) -> Option<KeyAndSide> {
    let text = entry.text(
        both!("a pattern in quotes"; "ein Lichtmuster in Anführungszeichen"),
        "\"loop\"",
    )?;
    let (word, from) = match text.split_once(" from ") {
        Some((word, from)) => (word, Some(from)),
        None => (text, None),
    };
    let Some(pattern) = PATTERNS
        .iter()
        .find(|(name, _)| plain(name) == plain(word))
        .map(|(_, pattern)| pattern)
    else {
        entry.unknown_word(
            word,
            Noun::ein("a pattern", "Lichtmuster"),
            PATTERNS.iter().map(|(name, _)| *name),
        );
        return None;
    };
    let inside = match from {
        None => None,
        Some(from) => Some(Said {
            value: known_side(entry, from)?,
            span: entry.span.clone(),
        }),
    };
    Some((wish(pattern, None), inside))
}

/// `{ from = "left", azimuth = "45 deg", elevation = "20 deg" }`.
fn angles(entry: &Entry<'_>) -> Option<KeyAndSide> {
    let section = Section::inline(entry, &KEY)?;
    section.close(super::parts::ALL);
    let inside = inner(section.entry("from").map(|entry| side(&entry)));
    let bounded = |key, from: f64, to: f64, what: Noun| {
        let entry = section.entry(key)?;
        Some(entry.quantity::<Degrees>().and_then(|said| {
            let value = said.value.value();
            if !(from..=to).contains(&value) {
                entry.refuse(
                    both!("{} cannot be {}", said.value, what.none(); "{} kann {} sein"),
                    both!("from {}° to {}° can be used", from, to; "möglich: von {}° bis {}°"),
                    both!(
                        "Angles are told from the nose: azimuth 0 is at the nose, 90 is from the side; elevation is above the eyes.";
                        "Winkel zählen von der Nase aus: azimuth 0 ist vor der Nase, 90 von der Seite; elevation zählt über den Augen."
                    ),
                );
                return None;
            }
            Some(value)
        }))
    };
    if section.entry("azimuth").is_none() {
        section.missing("azimuth", "\"45 deg\"");
        return None;
    }
    let azimuth = bounded(
        "azimuth",
        0.0,
        180.0,
        Noun::ein(
            "an azimuth; the side is said with from",
            "Winkel um den Kopf (die Seite sagt from)",
        ),
    );
    let elevation = bounded(
        "elevation",
        -30.0,
        90.0,
        Noun::eine("an elevation", "Höhe über den Augen"),
    );
    let tolerance = bounded("tolerance", 1.0, 90.0, Noun::eine("a tolerance", "Toleranz"));
    let wish = KeyWish {
        side: None,
        azimuth_deg: inner(azimuth)??,
        elevation_deg: inner(elevation)?.unwrap_or(20.0),
        azimuth_tolerance_deg: inner(tolerance)?.unwrap_or(15.0),
    };
    Some((wish, inside?))
}

fn side(entry: &Entry<'_>) -> Option<Said<Option<Side>>> {
    let text = entry.text(Noun::eine("a side", "Seite"), "\"left\"")?;
    Some(Said {
        value: known_side(entry, text)?,
        span: entry.span.clone(),
    })
}

fn known_side(entry: &Entry<'_>, text: &str) -> Option<Option<Side>> {
    let found = find_word(text, SIDES);
    if found.is_some() {
        return found;
    }
    let words = plain(text);
    if words.contains("left") && words.contains("right") {
        entry.refuse(
            both!(
                "the key cannot come from two sides at once";
                "das Hauptlicht kann nicht von zwei Seiten zugleich kommen"
            ),
            both!("left and right"; "links und rechts"),
            both!(
                "There is one flash: write \"left\", \"right\", or \"either\" if it does not matter.";
                "Es gibt einen Blitz: \"left\", \"right\" schreiben, oder \"either\", wenn es gleich ist."
            ),
        );
    } else {
        entry.unknown_word(text, Noun::eine("a side", "Seite"), ["left", "right", "either"]);
    }
    None
}

fn in_hand(entry: &Entry<'_>) -> Option<Said<Stops>> {
    let said = entry.quantity::<Stops>()?;
    if said.value.value() < 0.0 {
        entry.refuse(
            both!(
                "less than nothing cannot be kept in hand";
                "weniger als nichts lässt sich nicht in Reserve halten"
            ),
            both!("0 or more"; "0 oder mehr"),
            both!(
                "Write  in_hand = \"1 stop\", or \"0 stops\" to allow full power.";
                "in_hand = \"1 stop\" schreiben, oder \"0 stops\", um volle Leistung zu erlauben."
            ),
        );
        return None;
    }
    Some(said)
}

fn white_balance(entry: &Entry<'_>) -> Option<Kelvin> {
    let said = entry.quantity::<Kelvin>()?;
    if !(2000.0..=12_000.0).contains(&said.value.value()) {
        entry.refuse(
            both!("cameras cannot be balanced for {}", said.value; "keine Kamera lässt sich auf {} abgleichen"),
            both!("from 2000 K to 12000 K can be used"; "möglich: von 2000 K bis 12000 K"),
            both!(
                "Flash is near \"5600 K\"; leave the line out to have it worked out.";
                "Blitzlicht liegt nahe \"5600 K\"; die Zeile weglassen, um den Wert berechnen zu lassen."
            ),
        );
        return None;
    }
    Some(said.value)
}

/// `"on camera"`, `"anywhere"` or a point.
fn stand(entry: &Entry<'_>, room: Option<&BoxRoom>) -> Option<Said<FlashStand>> {
    let DeValue::String(text) = entry.value else {
        return inline_point(entry, room).map(|said| Said {
            value: FlashStand::At(said.value),
            span: entry.span.clone(),
        });
    };
    let Some(stand) = find_word(text, STANDS) else {
        let meant = did_you_mean_first(nearest(text, ["on camera", "anywhere"]));
        entry.refuse(
            both!("{} is not a place for the flash", shown(text); "{} ist kein Platz für den Blitz"),
            both!("not known"; "nicht bekannt"),
            both!(
                "{}Write \"on camera\", \"anywhere\", or a point:  flash = {{ from_left = \"1.0 m\", from_behind = \"2.0 m\", height = \"2.2 m\" }}",
                meant;
                "{}\"on camera\", \"anywhere\" oder einen Punkt schreiben:  flash = {{ from_left = \"1.0 m\", from_behind = \"2.0 m\", height = \"2.2 m\" }}"
            ),
        );
        return None;
    };
    Some(Said {
        value: stand,
        span: entry.span.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::PATTERNS;
    use serde_json::Value;

    /// Patterns of the check data that no word of a shoot file asks for: the key never comes from behind or from below.
    const NOT_ASKED_FOR: [&str; 2] = ["rim_or_kicker", "under"];

    /// Typical places of the key, from `checks/rigging_patterns.json`: each lies in the range of its own pattern alone.
    #[test]
    fn patterns_are_where_they_usually_are() {
        let text = include_str!(concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/../../checks/rigging_patterns.json"
        ));
        let file: Value = serde_json::from_str(text).expect("the check data are JSON");
        let cases = file["cases"].as_array().expect("a list of cases");
        let (mut compared, mut left_out) = (0, 0);
        for case in cases.iter().filter(|case| case["group"] == "pattern_typical") {
            let number = |key: &str| case[key].as_f64().expect("degrees");
            let within = |(from, to): (f64, f64), degrees: f64| (from..=to).contains(&degrees);
            let (azimuth, elevation) = (
                number("light_azimuth_from_nose_deg"),
                number("light_elevation_above_eyes_deg"),
            );
            let found: Vec<String> = PATTERNS
                .iter()
                .filter(|(_, range)| within(range.azimuth, azimuth) && within(range.elevation, elevation))
                .map(|(name, _)| name.to_lowercase())
                .collect();
            let expected = case["pattern"].as_str().expect("a name");
            if NOT_ASKED_FOR.contains(&expected) {
                assert!(found.is_empty(), "{}: {found:?}", case["id"]);
                left_out += 1;
            } else {
                assert_eq!(found, [expected], "{}", case["id"]);
                compared += 1;
            }
        }
        assert_eq!((compared, left_out), (9, 4));
    }
}
