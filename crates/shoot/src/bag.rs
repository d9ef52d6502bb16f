//! `[bag]`: the flash, boards, a stand, and who can help.

use super::camera::inner;
use super::fronts;
use super::lower_errors;
use super::parts::{BAG_BOARD, FLASH};
use super::place::board_size;
use super::problem::{Problem, Span};
use super::quoting::shown;
use super::section::{Entry, Log, Said, Section, number_of};
use super::surface;
use super::words::{Noun, Words, write_it_like};
use crate::both;
use answer::{Bag, Board};
use glam::Vec2;
use light::{FlashUnit, GelFamily, HeadDress, LightError};
use toml::de::DeValue;
use units::{GuideBasis, GuideNumber, Kelvin, PowerFraction, Seconds, ZoomMm};

/// Lumen seconds in one f-number² × metre² × steradian at ISO 100.
const LUMEN_SECONDS: f64 = light::INCIDENT_CONSTANT / 100.0;

/// More people than this do not work on one portrait with one small flash (ours).
const MOST_HELPERS: f64 = 4.0;

/// Seconds after a full flash until a small flash is ready again (ours: the quickest on an outside battery, and
/// cells that are nearly flat).
const RECYCLE_SECONDS: (f64, f64) = (0.1, 30.0);

/// Typical flashes, for those who do not know the figures of theirs.
pub(crate) const FLASH_KINDS: &[(&str, &str)] =
    &[("small", "small"), ("medium", "medium"), ("large", "large")];

/// The bag, and the names in it.
pub(crate) struct BagRead {
    pub bag: Bag,
    pub boards: Vec<Said<String>>,
    /// Where the time to recycle is said.
    pub recycle: Option<Span>,
}

pub(crate) fn read(section: Option<&Section<'_>>) -> Option<BagRead> {
    let Some(section) = section else {
        let flash = FlashUnit::medium();
        let bag = Bag {
            flash,
            nd: Vec::new(),
            dresses: vec![HeadDress::Bare],
            boards: Vec::new(),
            helpers: 0,
            stand: false,
            gels: Vec::new(),
            gel_family: GelFamily::Straw,
        };
        return Some(BagRead {
            bag,
            boards: Vec::new(),
            recycle: None,
        });
    };
    section.close(super::parts::ALL);
    let flash_part = section.part("flash", &FLASH);
    let (flash, dresses) = match &flash_part {
        Some(part) => {
            part.close(super::parts::ALL);
            let flash = part.log.flash_once(part.span.start, || flash(part));
            (flash, dresses(part))
        }
        None => (Some(FlashUnit::medium()), Some(vec![HeadDress::Bare])),
    };
    let boards: Vec<_> = section
        .parts("board", &BAG_BOARD)
        .iter()
        .filter_map(|part| {
            part.close(super::parts::ALL);
            board(part)
        })
        .collect();
    let gels = super::gels::read(section);
    let helpers = helpers(section);
    let nd = section.entry("nd").map(|entry| super::zones::filters(&entry));
    let stand = section
        .entry("stand")
        .map_or(Some(false), |entry| entry.yes_or_no());
    let names = boards
        .iter()
        .map(|board| Said {
            value: board.value.name.clone(),
            span: board.span.clone(),
        })
        .collect();
    let (gels, gel_family) = gels?;
    let bag = Bag {
        flash: flash?,
        nd: inner(nd)?.unwrap_or_default(),
        dresses: dresses?,
        boards: boards.into_iter().map(|board| board.value).collect(),
        helpers: helpers?,
        stand: stand?,
        gels,
        gel_family,
    };
    let recycle = flash_part.and_then(|part| part.entry("recycle"));
    Some(BagRead {
        bag,
        boards: names,
        recycle: recycle.map(|entry| entry.span),
    })
}

/// `assistant = true` for one pair of hands, or how many there are.
fn helpers(section: &Section<'_>) -> Option<u32> {
    match (section.entry("assistant"), section.entry("helpers")) {
        (None, None) => Some(0),
        (Some(assistant), None) => assistant.yes_or_no().map(u32::from),
        (None, Some(helpers)) => number_of_helpers(&helpers),
        (Some(assistant), Some(helpers)) => {
            section.log.problem(
                Problem::new(both!(
                    "assistant and helpers are both given, but each says who can help";
                    "assistant und helpers sind beide angegeben, aber jedes sagt, wer helfen kann"
                ))
                .at(helpers.key_span, both!("how many there are"; "wie viele da sind"))
                .at(
                    assistant.key_span,
                    both!("whether there is one"; "ob jemand da ist"),
                )
                .help(both!(
                    "Keep helpers; assistant = true is another way to write helpers = 1.";
                    "helpers behalten; assistant = true ist eine andere Schreibweise für helpers = 1."
                )),
            );
            None
        }
    }
}

fn number_of_helpers(entry: &Entry<'_>) -> Option<u32> {
    let number = number_of(entry.value);
    if let Some(number) = number.filter(|number| number.is_finite() && number.fract() != 0.0) {
        entry.refuse(
            both!("{} cannot be a number of people", number; "{} kann keine Zahl von Menschen sein"),
            both!("a whole number belongs here"; "hierher gehört eine ganze Zahl"),
            write_it_like(&format!("helpers = {}", number.trunc().clamp(1.0, MOST_HELPERS))),
        );
        return None;
    }
    let said = entry.number(
        Noun::eine("a number of people who can help", "Zahl von Helfern"),
        0.0,
        MOST_HELPERS,
        "2",
    )?;
    Some(said.value as u32)
}

fn board(section: &Section<'_>) -> Option<Said<Board>> {
    let name = section.name("board");
    let size = board_size(section);
    let material = surface::said_or(section, "surface", "white board");
    let board = Board {
        name: name.value,
        size: Vec2::from(size?.value),
        material: material?,
    };
    Some(Said {
        value: board,
        span: name.span,
    })
}

fn dresses(section: &Section<'_>) -> Option<Vec<HeadDress>> {
    let has = |key| {
        section
            .entry(key)
            .is_some_and(|entry| entry.yes_or_no() == Some(true))
    };
    let mut dresses = vec![HeadDress::Bare];
    dresses.extend(has("dome").then_some(HeadDress::Dome));
    dresses.extend(has("bounce_card").then_some(HeadDress::BounceCard));
    dresses.extend(fronts::read(section)?);
    Some(dresses)
}

fn flash(section: &Section<'_>) -> Option<FlashUnit> {
    let (kind, numbers) = (section.entry("kind"), section.entry("guide_numbers"));
    if let (Some(kind), Some(numbers)) = (&kind, &numbers) {
        section.log.problem(
            Problem::new(both!(
                "a flash has either a kind or guide numbers, not both";
                "ein Blitz hat entweder eine Art oder Leitzahlen, nicht beides"
            ))
                .at(kind.key_span.clone(), both!("a typical flash of this kind"; "ein üblicher Blitz dieser Art"))
                .at(numbers.key_span.clone(), both!("a flash that is known exactly"; "ein genau bekannter Blitz"))
                .help(both!(
                    "Keep guide_numbers if you trust them; kind is for when you do not know them.";
                    "guide_numbers behalten, wenn sie vertrauenswürdig sind; kind ist für den Fall, dass sie nicht bekannt sind."
                )),
        );
        return None;
    }
    let guide = match (&kind, &numbers) {
        (_, Some(entry)) => guide_numbers(entry),
        (Some(entry), None) => entry
            .word(Noun::eine("a kind of flash", "Art von Blitz"), FLASH_KINDS)
            .map(|said| guide_of(&generic(said.value))),
        (None, None) => Some(guide_of(&FlashUnit::medium())),
    };
    let colour = section.entry("colour").map(|entry| colour(&entry));
    let total = section.entry("total_light").map(|entry| total_light(&entry));
    let least = section.entry("least_power").map(|entry| least_power(&entry));
    let recycle = section.entry("recycle").map(|entry| recycle(&entry));
    let name = match (&kind, section.entry("name")) {
        (Some(kind), None) => format!("{} flash", kind.value.as_str().unwrap_or("medium")),
        _ => section.name("flash").value,
    };
    let (guide, colour, total) = (guide?, inner(colour)?, inner(total)?);
    let (least, recycle) = (inner(least)?, inner(recycle)?);
    let kelvin = colour.map_or(Kelvin::new(5600.0).ok()?, |said| said.value);
    let place = numbers.as_ref().or(kind.as_ref());
    let flash = FlashUnit::new(&name, &guide, kelvin, total.as_ref().map(|said| said.value));
    let flash = match flash {
        Ok(flash) => flash,
        Err(error) => {
            refuse_flash(section, place, total.as_ref(), &error);
            return None;
        }
    };
    // A generic flash is known to have beams; one that was described may contradict itself.
    if numbers.is_some() || total.is_some() {
        let impossible = flash
            .zooms()
            .find_map(|zoom| flash.beam(zoom, HeadDress::Bare).err());
        if let Some(error) = impossible {
            refuse_flash(section, place, total.as_ref(), &error);
            return None;
        }
    }
    let flash = match least {
        Some(stops) => flash.with_least_power(stops),
        None => flash,
    };
    Some(match recycle {
        Some(full_s) => flash.with_recycle(full_s),
        None => flash,
    })
}

/// A typical flash of a kind.
fn generic(kind: &str) -> FlashUnit {
    match kind {
        "small" => FlashUnit::small(),
        "large" => FlashUnit::large(),
        _ => FlashUnit::medium(),
    }
}

/// The guide numbers of a typical flash, so that its colour or its total can be another.
fn guide_of(flash: &FlashUnit) -> Vec<GuideNumber> {
    let number = |zoom| {
        let metres = flash.guide_number_m(zoom).ok()?;
        GuideNumber::new(metres, ZoomMm::new(zoom).ok()?, flash.basis()).ok()
    };
    flash.zooms().filter_map(number).collect()
}

fn refuse_flash(
    section: &Section<'_>,
    place: Option<&Entry<'_>>,
    total: Option<&Said<f64>>,
    error: &LightError,
) {
    let span = place.map_or(section.span.clone(), |entry| entry.span.clone());
    let (fault, remedy) = lower_errors::light(error);
    let problem = match error {
        LightError::TotalDoesNotFit { .. } => {
            let span = total.map_or(span, |said| said.span.clone());
            Problem::new(fault)
                .at(span, both!("too little or too much light"; "zu wenig oder zu viel Licht"))
                .help(both!(
                    "Leave total_light out; it is then worked out from the widest zoom. Or check the guide numbers.";
                    "total_light weglassen; es wird dann aus der weitesten Zoomstellung berechnet. Oder die Leitzahlen prüfen."
                ))
        }
        LightError::RepeatedZoom { .. } => Problem::new(fault)
            .at(span, both!("two of one zoom"; "zwei für einen Zoom"))
            .help(remedy),
        LightError::FallingGuideNumber { .. } => Problem::new(fault)
            .at(
                span,
                both!("less at the longer zoom"; "weniger bei längerem Zoom"),
            )
            .help(remedy),
        _ => Problem::new(fault)
            .at(span, both!("here"; "hier"))
            .help(both!("Check the figures of the flash."; "Die Angaben zum Blitz prüfen.")),
    };
    section.log.problem(problem);
}

fn guide_numbers(entry: &Entry<'_>) -> Option<Vec<GuideNumber>> {
    let example = "guide_numbers = [\"GN 36 m at zoom 50 (measured)\"]";
    let items = match entry.value {
        DeValue::Array(list) if list.len() <= 30 => list,
        DeValue::Array(_) => {
            entry.refuse(
                both!(
                    "a flash has no more than 30 zoom settings";
                    "ein Blitz hat nicht mehr als 30 Zoomstellungen"
                ),
                both!("too many"; "zu viele"),
                both!("Keep those that you use."; "Die behalten, die gebraucht werden."),
            );
            return None;
        }
        _ => {
            entry.refuse(
                both!(
                    "guide_numbers needs a list in square brackets";
                    "zu guide_numbers gehört eine Liste in eckigen Klammern"
                ),
                both!("not a list"; "keine Liste"),
                write_it_like(example),
            );
            return None;
        }
    };
    if items.is_empty() {
        entry.refuse(
            both!("this list of guide numbers is empty"; "diese Liste der Leitzahlen ist leer"),
            both!("nothing here"; "hier steht nichts"),
            write_it_like(example),
        );
        return None;
    }
    let mut found = Vec::new();
    for item in items {
        let one = entry.item(item);
        let text = one.text(
            both!("guide numbers in quotes"; "eine Liste von Leitzahlen in Anführungszeichen"),
            &example["guide_numbers = ".len()..],
        )?;
        match text.parse::<GuideNumber>() {
            Ok(number) => found.push((number, item.span())),
            Err(error) => {
                one.refuse_quantity(text, &error, |number| {
                    format!("GN {number} m at zoom 50 (claimed)")
                });
                return None;
            }
        }
    }
    let (first, first_span) = found.first()?.clone();
    if let Some((other, span)) = found.iter().find(|(number, _)| number.basis != first.basis) {
        let words = |basis| {
            if basis == GuideBasis::Claimed {
                both!("claimed by the maker"; "vom Hersteller angegeben")
            } else {
                both!("measured"; "gemessen")
            }
        };
        entry.log.problem(
            Problem::new(
                both!(
                    "claimed and measured guide numbers cannot be mixed, because claimed ones are hopeful";
                    "angegebene und gemessene Leitzahlen lassen sich nicht mischen, denn die angegebenen sind optimistisch"
                ),
            )
            .at(span.clone(), words(other.basis))
            .at(first_span, words(first.basis))
            .help(both!(
                "Keep the measured ones if you have any; otherwise mark all of them (claimed).";
                "Die gemessenen behalten, wenn es welche gibt; sonst alle mit (claimed) kennzeichnen."
            )),
        );
        return None;
    }
    Some(found.into_iter().map(|(number, _)| number).collect())
}

fn colour(entry: &Entry<'_>) -> Option<Said<Kelvin>> {
    let said = entry.quantity::<Kelvin>()?;
    if !(4500.0..=7500.0).contains(&said.value.value()) {
        entry.refuse(
            both!("no flash has this colour by itself"; "kein Blitz hat von sich aus diese Farbe"),
            both!("from 4500 K to 7500 K can be used"; "möglich: von 4500 K bis 7500 K"),
            both!(
                "Most are near \"5600 K\". Give the colour of the bare flash, without any gel.";
                "Die meisten liegen nahe \"5600 K\". Die Farbe des nackten Blitzes angeben, ohne Folie."
            ),
        );
        return None;
    }
    Some(said)
}

fn least_power(entry: &Entry<'_>) -> Option<f64> {
    let said = entry.quantity::<PowerFraction>()?;
    let stops = said.value.stops_below_full();
    if !(1.0..=9.0).contains(&stops) {
        entry.refuse(
            both!("no flash has this as its least power"; "kein Blitz hat dies als kleinste Leistung"),
            both!("from 1/2 to 1/512 can be used"; "möglich: von 1/2 bis 1/512"),
            both!(
                "It is the smallest fraction on the display, most often \"1/128\".";
                "Gemeint ist der kleinste Bruch auf der Anzeige, meist \"1/128\"."
            ),
        );
        return None;
    }
    Some(stops)
}

fn recycle(entry: &Entry<'_>) -> Option<f64> {
    let said = entry.quantity::<Seconds>()?;
    if !(RECYCLE_SECONDS.0..=RECYCLE_SECONDS.1).contains(&said.value.value()) {
        entry.refuse(
            both!(
                "{} cannot be how long a small flash recycles", said.value;
                "{} kann nicht die Ladezeit eines kleinen Blitzes sein"
            ),
            both!(
                "from {} s to {} s can be used", RECYCLE_SECONDS.0, RECYCLE_SECONDS.1;
                "möglich: von {} s bis {} s"
            ),
            both!(
                "It is the wait after a full flash until the ready lamp comes on, most often 2.5 to 3.5 s on fresh cells.";
                "Gemeint ist die Wartezeit nach voller Leistung, bis die Bereitschaftslampe leuchtet, mit frischen Zellen meist 2,5 bis 3,5 s."
            ),
        );
        return None;
    }
    Some(said.value.value())
}

/// `"700 m2 sr"` (f-number² × metre² × steradian at ISO 100 and full power) or `"1750 lm s"`.
fn total_light(entry: &Entry<'_>) -> Option<Said<f64>> {
    let help = both!(
        "Write it like \"700 m2 sr\" (guide number squared times solid angle) or \"1750 lm s\", or leave it out.";
        "Etwa \"700 m2 sr\" schreiben (Leitzahl im Quadrat mal Raumwinkel) oder \"1750 lm s\", oder weglassen."
    );
    if number_of(entry.value).is_some() {
        entry.refuse(
            both!(
                "\"total_light\" says a number, but not of what";
                "\"total_light\" nennt eine Zahl, aber nicht wovon"
            ),
            both!("in quotes, with its unit"; "in Anführungszeichen, mit Einheit"),
            help,
        );
        return None;
    }
    let text = entry.text(
        both!("an amount of light in quotes"; "eine Lichtmenge in Anführungszeichen"),
        "\"700 m2 sr\"",
    )?;
    let amount = text.trim().strip_suffix("at ISO 100").unwrap_or(text).trim();
    let factor = |unit: &str| match unit.trim() {
        "m2 sr" | "m² sr" => Some(LUMEN_SECONDS),
        "lm s" => Some(1.0),
        _ => None,
    };
    let split = amount
        .find(|c: char| !(c.is_ascii_digit() || c == '.'))
        .unwrap_or(amount.len());
    let (number, unit) = amount.split_at(split);
    let Some(value) = number
        .parse::<f64>()
        .ok()
        .zip(factor(unit))
        .map(|(number, factor)| number * factor)
    else {
        entry.refuse(
            both!("{} is not an amount of light", shown(text); "{} ist keine Lichtmenge"),
            both!("number and unit"; "Zahl und Einheit"),
            help,
        );
        return None;
    };
    if !(10.0..=100_000.0).contains(&value) {
        entry.refuse(
            both!(
                "{} cannot be the light of a small flash", shown(text);
                "{} kann nicht das Licht eines kleinen Blitzes sein"
            ),
            both!("from 10 lm s to 100000 lm s can be used"; "möglich: von 10 lm s bis 100000 lm s"),
            help,
        );
        return None;
    }
    Some(Said {
        value,
        span: entry.span.clone(),
    })
}

/// Stops that must stay in hand, against what the flash can do at all.
pub(crate) fn check_in_hand(log: &Log, bag: &BagRead, in_hand: Option<&Said<units::Stops>>) {
    let Some(said) = in_hand else { return };
    let range = bag.bag.flash.least_power_stops();
    if said.value.value() > range {
        log.problem(
            Problem::new(both!(
                "{} in hand is more than the whole range of the flash", plain_stops(said.value.value());
                "{} Reserve sind mehr als der ganze Regelbereich des Blitzes"
            ))
            .at(
                said.span.clone(),
                both!(
                    "the flash goes {range:.0} stops down from full power";
                    "der Blitz geht von voller Leistung {range:.0} Blenden hinunter"
                ),
            )
            .help(both!(
                "One stop in hand is usual: it halves recycling, and leaves room for a correction.";
                "Eine Blende Reserve ist üblich: Sie halbiert die Ladezeit und lässt Raum für eine Korrektur."
            )),
        );
    }
}

/// "1 stop", "2 stops", without a sign.
fn plain_stops(stops: f64) -> Words {
    let amount = (stops.abs() * 10.0).round() / 10.0;
    if stops.abs() == 1.0 {
        both!("{} stop", amount; "{} Blende")
    } else {
        both!("{} stops", amount; "{} Blenden")
    }
}
