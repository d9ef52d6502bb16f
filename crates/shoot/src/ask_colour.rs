//! What is asked of the colour: `colour`, `gel` and `tint` under `[ask]`.

use super::bag::BagRead;
use super::camera::inner;
use super::nearest::{nearest, plain};
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Entry, Said, Section};
use super::words::{Noun, did_you_mean_first, write_it_like};
use crate::both;
use answer::{ColourWish, GelWish};
use colour::{MOST_TINT_STEPS, TINT_STEP_DUV};
use light::Gel;
use units::{Duv, MiredShift};

/// Shifts that can be asked for, in mired: the first is what a careful eye sees, the last is beyond the
/// strongest gel (ours).
const SHIFTS: (f64, f64) = (5.0, 200.0);
/// How far "ambient blue" goes when it is not said: about a half blue gel (ours), in mired.
const USUAL_SHIFT: f64 = 80.0;

/// What is asked of the colour.
pub(crate) struct ColourAsked {
    pub colour: Option<ColourWish>,
    pub gel: GelWish,
    pub tint: Option<Duv>,
}

/// Reads all of them, so that every mistake is told; `None` if one was refused.
pub(crate) fn asked(ask: &Section<'_>, bag: Option<&BagRead>, other_light: bool) -> Option<ColourAsked> {
    let colour = ask.entry("colour").map(|entry| colour(&entry, other_light));
    let gel = ask.entry("gel").map(|entry| insisted(&entry, bag?));
    let tint = ask.entry("tint").map(|entry| tint(&entry));
    let (colour, gel, tint) = (inner(colour)?, inner(gel)?, inner(tint)?);
    contradictions(ask, colour.as_ref(), gel.as_ref())?;
    Some(ColourAsked {
        colour: colour.map(|said| said.value),
        gel: gel.unwrap_or_default(),
        tint,
    })
}

fn contradictions(ask: &Section<'_>, colour: Option<&Said<ColourWish>>, gel: Option<&GelWish>) -> Option<()> {
    let Some(Said { value: wish, span }) = colour else {
        return Some(());
    };
    let span = span.clone();
    if let (Some(skin), true) = (ask.entry("skin"), wish.skin.value() != 0.0)
        && skin.value.as_str().is_some_and(|text| plain(text) == "neutral")
    {
        ask.log.problem(
            Problem::new(both!(
                "skin cannot be neutral and not neutral at once";
                "Haut kann nicht neutral und zugleich nicht neutral sein"
            ))
            .at(skin.span, both!("neutral"; "neutral"))
            .at(span, both!("not neutral"; "nicht neutral"))
            .help(both!(
                "Leave skin out; walls are kept from colouring it all the same.";
                "skin weglassen; Wände färben sie trotzdem nicht."
            )),
        );
        return None;
    }
    let fixed = ask.entry("white_balance").zip(ask.entry("gel"));
    if let (Some((balance, gel_entry)), Some(_)) = (fixed, gel) {
        ask.log.problem(
            Problem::new(both!(
                "gel and white_balance are both fixed, so nothing is left to choose for the colour";
                "gel und white_balance stehen beide fest, für die Farbe bleibt also nichts zu wählen"
            ))
            .at(span, both!("the wish"; "der Wunsch"))
            .at(gel_entry.span, both!("fixed"; "steht fest"))
            .at(balance.span, both!("fixed"; "steht fest"))
            .help(both!("Leave one of the three lines out."; "Eine der drei Zeilen weglassen.")),
        );
        return None;
    }
    Some(())
}

/// A wish: `"neutral"`, `"match the lamps"`, `"skin warm by 35 mired"`, `"room warm by 40 mired"`, `"ambient blue"`.
fn colour(entry: &Entry<'_>, other_light: bool) -> Option<Said<ColourWish>> {
    const EXAMPLES: [&str; 5] = [
        "neutral",
        "match the lamps",
        "skin warm by 35 mired",
        "room warm by 40 mired",
        "ambient blue",
    ];
    let text = entry.text(
        both!("a wish for the colour in quotes"; "ein Farbwunsch in Anführungszeichen"),
        "\"neutral\"",
    )?;
    let said = |value| {
        Some(Said {
            value,
            span: entry.span.clone(),
        })
    };
    let words = plain(text);
    let wish = match words.as_str() {
        "neutral" => {
            return said(ColourWish {
                room: Some(MiredShift(0.0)),
                ..ColourWish::default()
            });
        }
        "match the lamps" | "match lamps" => Some(ColourWish {
            room: Some(MiredShift(0.0)),
            match_lamps: true,
            ..ColourWish::default()
        }),
        _ => shifted(entry, &words)?,
    };
    let Some(wish) = wish else {
        let meant = did_you_mean_first(nearest(text, EXAMPLES));
        entry.refuse(
            both!("{} is not a wish for the colour", shown(text); "{} ist kein Farbwunsch"),
            both!("not known"; "nicht bekannt"),
            both!("{}Write one of: {}.", meant, EXAMPLES.join(", "); "{}Eins davon schreiben: {}."),
        );
        return None;
    };
    if wish.room.is_some() && !other_light {
        entry.refuse(
            both!(
                "there is no light but the flash, so the room cannot have another colour";
                "es gibt kein Licht außer dem Blitz, der Raum kann also keine andere Farbe haben"
            ),
            both!("no [[ambient]] is described"; "kein [[ambient]] ist beschrieben"),
            both!(
                "Describe the light that is there under [[ambient]], or write  colour = \"neutral\"";
                "Das vorhandene Licht unter [[ambient]] beschreiben, oder  colour = \"neutral\"  schreiben."
            ),
        );
        return None;
    }
    said(wish)
}

/// `"room warm by 40 mired"`; the outer `None` when it was refused.
fn shifted(entry: &Entry<'_>, words: &str) -> Option<Option<ColourWish>> {
    let (head, amount) = match words.split_once(" by ") {
        Some((head, amount)) => (head, Some(amount)),
        None => (words, None),
    };
    let Some((what, side)) = head.split_once(' ') else {
        return Some(None);
    };
    let sign = match side {
        "warm" | "warmer" | "golden" | "orange" => 1.0,
        "blue" | "bluer" | "cool" | "cooler" | "cold" => -1.0,
        _ => return Some(None),
    };
    let amount = match amount {
        None => USUAL_SHIFT,
        // It has a side already, so it has no sign.
        Some(amount) => match format!("+{amount}").parse::<MiredShift>() {
            Ok(shift) if (SHIFTS.0..=SHIFTS.1).contains(&shift.value()) => shift.value(),
            _ => {
                entry.refuse(
                    both!(
                        "{} is not an amount that can be asked for", shown(amount);
                        "{} lässt sich nicht verlangen"
                    ),
                    both!("from {} to {} mired can be used", SHIFTS.0, SHIFTS.1; "möglich: von {} bis {} Mired"),
                    write_it_like(&format!("colour = \"{head} by 40 mired\"")),
                );
                return None;
            }
        },
    };
    let shift = MiredShift(sign * amount);
    Some(match what {
        "skin" | "face" => Some(ColourWish {
            skin: shift,
            ..ColourWish::default()
        }),
        "room" | "ambient" | "background" => Some(ColourWish {
            room: Some(shift),
            ..ColourWish::default()
        }),
        _ => None,
    })
}

/// `"1/2 CTO"`, `"1/2 CTO + 1/4 plus green"` or `"none"`.
fn insisted(entry: &Entry<'_>, bag: &BagRead) -> Option<GelWish> {
    let text = entry.text(
        both!("a gel in quotes"; "eine Folie in Anführungszeichen"),
        "\"1/2 CTO\"",
    )?;
    if matches!(plain(text).as_str(), "none" | "no" | "no gel") {
        return Some(GelWish::None);
    }
    let parts: Vec<&str> = text.split(" + ").map(str::trim).collect();
    if parts.len() > 2 {
        entry.refuse(
            both!("more than two gels on top of one another"; "mehr als zwei Folien übereinander"),
            both!("two at most"; "höchstens zwei"),
            both!(
                "Three sheets eat the light and melt; choose a stronger pair.";
                "Drei Folien fressen das Licht und schmelzen; ein stärkeres Paar wählen."
            ),
        );
        return None;
    }
    let gels = &bag.bag.gels;
    let mut layers: Vec<Gel> = Vec::new();
    for part in parts {
        let Some(gel) = gels.iter().find(|gel| gel.is_called(part)) else {
            if gels.is_empty() {
                entry.refuse(
                    both!("there is no {} in the bag", shown(part); "{} ist nicht in der Tasche"),
                    both!("the bag has no gels"; "in der Tasche sind keine Folien"),
                    both!(
                        "Add under [bag]:  gels = [\"{part}\"]";
                        "Unter [bag] hinzufügen:  gels = [\"{part}\"]"
                    ),
                );
            } else {
                entry.unknown_word(
                    part,
                    Noun::eine("a gel of the bag", "Folie aus der Tasche"),
                    gels.iter().map(Gel::name),
                );
            }
            return None;
        };
        layers.push(gel.clone());
    }
    let worn = layers.into_iter().reduce(|below, above| below.with(&above));
    worn.map(GelWish::This)
}

/// `"M5"` or `"G2"` as on the camera, `"0"`, or `"Duv +0.010"` of the light that becomes neutral.
fn tint(entry: &Entry<'_>) -> Option<Duv> {
    let text = entry.text(
        both!("a tint in quotes"; "eine Tönung in Anführungszeichen"),
        "\"M2\"",
    )?;
    let word = text.trim().to_lowercase();
    if word == "0" {
        return Some(Duv(0.0));
    }
    let sign = match word.chars().next() {
        Some('m') => 1.0,
        Some('g') => -1.0,
        _ => return entry.quantity::<Duv>().map(|said| said.value),
    };
    let letters = |c: char| c.is_alphabetic() || c.is_whitespace();
    let steps = word.trim_start_matches(letters).parse::<i32>();
    match steps {
        Ok(steps) if (0..=MOST_TINT_STEPS).contains(&steps) => {
            Some(Duv(sign * f64::from(steps) * TINT_STEP_DUV))
        }
        _ => {
            entry.refuse(
                both!("{} is not a tint", shown(text); "{} ist keine Tönung"),
                both!(
                    "from M{MOST_TINT_STEPS} to G{MOST_TINT_STEPS} can be used";
                    "möglich: von M{MOST_TINT_STEPS} bis G{MOST_TINT_STEPS}"
                ),
                both!(
                    "Write \"M3\" for three steps towards magenta, \"G3\" towards green, or leave it out.";
                    "\"M3\" für drei Schritte nach Magenta schreiben, \"G3\" nach Grün, oder weglassen."
                ),
            );
            None
        }
    }
}
