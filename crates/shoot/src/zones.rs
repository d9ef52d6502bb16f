//! `[[zone]]`, `[[later]]` and the wishes for zones: what the flash does not reach, and how it will change.

use super::differences::difference;
use super::nearest::{nearest, plain};
use super::parts::ZONE_WISH;
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Entry, Log, Said, Section};
use super::words::{Noun, did_you_mean, write_it_like};
use crate::both;
use answer::{Later, Zone, ZoneWish};
use toml::de::DeValue;
use units::{Ev, FNumber, Iso, Kelvin, ShutterTime, Stops};

/// Levels that a piece of a picture may have (ours: a night sky to snow in the sun).
const LEVELS: (f64, f64) = (-6.0, 20.0);
/// Where a zone can be wished, in stops from normal (ours: black below, white above).
const WISHES: (f64, f64) = (-6.0, 4.0);
/// Changes of the light that can be followed, in stops (ours: dusk to night, a cloud that goes).
const CHANGES: (f64, f64) = (-8.0, 4.0);
/// Filters that there are, in stops.
const FILTERS: (f64, f64) = (0.3, 12.0);
/// More filters than this are not in one bag (ours).
const MOST_FILTERS: usize = 12;

/// A zone by settings at which it is normal, or by a reflected reading.
pub(crate) fn zone(section: &Section<'_>) -> Option<Said<Zone>> {
    section.close(super::parts::ALL);
    let name = section.name("zone");
    let kelvin = match section.entry("colour") {
        Some(entry) => Some(entry.quantity::<Kelvin>()?.value),
        None => None,
    };
    let normal = match (section.entry("normal_at"), section.entry("reading")) {
        (Some(settings), Some(reading)) => {
            section.log.problem(
                Problem::new(both!(
                    "normal_at and reading are both given, but each says how bright the zone is";
                    "normal_at und reading sind beide angegeben, aber jedes sagt, wie hell die Zone ist"
                ))
                .at(reading.key_span, both!("a reading"; "ein Messwert"))
                .at(
                    settings.key_span,
                    both!("settings at which it is normal"; "Einstellungen, bei denen sie normal ist"),
                )
                .help(both!("Keep one of the two lines."; "Eine der beiden Zeilen behalten.")),
            );
            return None;
        }
        (Some(settings), None) => normal_at(&settings)?,
        (None, reading) => {
            let reading = reading.or_else(|| section.need("normal_at", "\"f/4 1/200 ISO 100\""))?;
            reading.quantity::<Ev>()?.value
        }
    };
    if !(LEVELS.0..=LEVELS.1).contains(&normal.value()) {
        section.log.problem(
            Problem::new(both!("\"{}\" at {} is not a light level that can be worked with", name.value, normal; "\"{}\" bei {}: Mit diesem Lichtwert lässt sich nicht arbeiten"))
                .at(section.span.clone(), both!("from EV -6 to EV 20 can be used"; "möglich: von EV -6 bis EV 20"))
                .help(both!(
                    "Read it through the camera: sunlit things are about EV 15 at ISO 100, a sky at dusk EV 6 to 12.";
                    "Durch die Kamera messen: Besonntes hat bei ISO 100 etwa EV 15, ein Himmel in der Dämmerung EV 6 bis 12."
                )),
        );
        return None;
    }
    let zone = Zone {
        name: name.value,
        normal,
        kelvin,
    };
    Some(Said {
        value: zone,
        span: name.span,
    })
}

/// "f/4 1/200 ISO 100" as the light level for which these settings are right.
fn normal_at(entry: &Entry<'_>) -> Option<Ev> {
    let example = "\"f/4 1/200 ISO 100\"";
    let text = entry.text(
        both!(
            "aperture, shutter and ISO in quotes";
            "eine Angabe von Blende, Verschlusszeit und ISO in Anführungszeichen"
        ),
        example,
    )?;
    let spaced = text.replace(['·', ','], " ");
    let settings = spaced
        .trim()
        .split_once(char::is_whitespace)
        .and_then(|(aperture, rest)| {
            let at = rest.to_lowercase().find("iso")?;
            Some(camera::Settings {
                aperture: aperture.parse::<FNumber>().ok()?,
                shutter: rest.get(..at)?.trim().parse::<ShutterTime>().ok()?,
                iso: rest.get(at..)?.trim().parse::<Iso>().ok()?,
            })
        });
    if settings.is_none() {
        entry.refuse(
            both!(
                "{} is not aperture, shutter and ISO", shown(text);
                "{} ist nicht Blende, Verschlusszeit und ISO"
            ),
            both!("three settings, in this order"; "drei Einstellungen, in dieser Reihenfolge"),
            both!(
                "Write the settings at which it comes out normal:  normal_at = {example}";
                "Die Einstellungen schreiben, bei denen es normal herauskommt:  normal_at = {example}"
            ),
        );
    }
    settings.map(|settings| settings.ev())
}

/// A later time.
pub(crate) fn later(section: &Section<'_>) -> Option<Said<Later>> {
    section.close(super::parts::ALL);
    let name = section.name("later");
    let entry = section.need("ambient", "\"2 stops down\"")?;
    let words = ["1 stop down", "2 stops down", "-1 stop", "1 stop up"];
    let change = difference(
        &entry,
        Noun::eine("a change of the ambient light", "Änderung des vorhandenen Lichts"),
        &both!("it is now"; "jetzt"),
        &words,
    )?;
    if !(CHANGES.0..=CHANGES.1).contains(&change.value()) {
        entry.refuse(
            both!("a change of {} is another picture", change; "eine Änderung um {} ist ein anderes Bild"),
            both!(
                "from {} stops to +{} stops can be used", CHANGES.0, CHANGES.1;
                "möglich: von {} bis +{} Blenden"
            ),
            both!(
                "Light falls about a stop in 10 to 15 minutes before sunset and a stop in 4 to 7 minutes after it.";
                "Das Licht fällt vor Sonnenuntergang um etwa eine Blende in 10 bis 15 Minuten, danach um eine Blende in 4 bis 7 Minuten."
            ),
        );
        return None;
    }
    Some(Said {
        value: Later {
            name: name.value,
            ambient: change,
        },
        span: name.span,
    })
}

/// `{ name = "sky", at = "-1 stop" }`, or a list of them.
pub(crate) fn wishes(entry: &Entry<'_>) -> Option<Vec<Said<ZoneWish>>> {
    match entry.value {
        DeValue::Array(list) => {
            let wishes = list.iter().map(|item| wish(&entry.item(item)));
            // Every one is read, so that every mistake is told.
            wishes.collect::<Vec<_>>().into_iter().collect()
        }
        _ => Some(vec![wish(entry)?]),
    }
}

fn wish(entry: &Entry<'_>) -> Option<Said<ZoneWish>> {
    let Some(section) = Section::inline(entry, &ZONE_WISH) else {
        entry.refuse(
            both!(
                "a wish for a zone says which zone and where it should be";
                "ein Wunsch für eine Zone sagt, welche Zone und wo sie liegen soll"
            ),
            both!("not such a wish"; "kein solcher Wunsch"),
            write_it_like("zone = { name = \"sky\", at = \"-1 stop\" }"),
        );
        return None;
    };
    section.close(super::parts::ALL);
    let name = section.need("name", "\"sky\"");
    let at = section.need("at", "\"-1 stop\"");
    let name = name.and_then(|entry| {
        let text = entry.text(both!("the name of a zone"; "ein Name einer Zone"), "\"sky\"")?;
        Some(text.trim().to_owned())
    });
    let at = at.and_then(|entry| {
        let normal = matches!(entry.value.as_str().map(plain).as_deref(), Some("normal"));
        let words = ["normal", "-1 stop", "1 stop under", "+1 stop"];
        let stops = if normal {
            Stops(0.0)
        } else {
            difference(
                &entry,
                Noun::ein("a wish for a zone", "Wunsch für eine Zone"),
                &both!("normal"; "normal"),
                &words,
            )?
        };
        if !(WISHES.0..=WISHES.1).contains(&stops.value()) {
            entry.refuse(
                both!("a zone at {} is not a picture", stops; "eine Zone bei {} gibt kein Bild"),
                both!(
                    "from {} stops to +{} stops can be used", WISHES.0, WISHES.1;
                    "möglich: von {} bis +{} Blenden"
                ),
                both!(
                    "One stop under gives a sky colour, three make it night.";
                    "Eine Blende darunter gibt einem Himmel Farbe, drei machen ihn zur Nacht."
                ),
            );
            return None;
        }
        Some(stops)
    });
    Some(Said {
        value: ZoneWish { name: name?, at: at? },
        span: entry.span.clone(),
    })
}

/// Wishes must speak of zones that there are, and of each once. Names are compared as they are read aloud, and
/// the wish takes the zone's own spelling.
pub(crate) fn resolve(log: &Log, wishes: &[Said<ZoneWish>], zones: &[Said<Zone>]) -> Vec<ZoneWish> {
    let mut found: Vec<ZoneWish> = Vec::new();
    for said in wishes {
        let wanted = &said.value.name;
        let zone = zones.iter().find(|zone| plain(&zone.value.name) == plain(wanted));
        let Some(zone) = zone else {
            let names = zones.iter().map(|zone| zone.value.name.as_str());
            let help = match nearest(wanted, names) {
                Some(meant) => did_you_mean(meant),
                None if zones.is_empty() => both!(
                    "Describe it under [[zone]] with this name and normal_at = \"f/4 1/200 ISO 100\".";
                    "Sie unter [[zone]] mit diesem Namen und normal_at = \"f/4 1/200 ISO 100\" beschreiben."
                ),
                None => both!(
                    "Describe it under [[zone]] with this name and normal_at = \"f/4 1/200 ISO 100\", or use the name of one \
                     that is there.";
                    "Sie unter [[zone]] mit diesem Namen und normal_at = \"f/4 1/200 ISO 100\" beschreiben, oder den Namen einer \
                     vorhandenen verwenden."
                ),
            };
            log.problem(
                Problem::new(both!("there is no zone {}", shown(wanted); "es gibt keine Zone {}"))
                    .at(said.span.clone(), both!("not described"; "nicht beschrieben"))
                    .help(help),
            );
            continue;
        };
        if found.iter().any(|wish| wish.name == zone.value.name) {
            log.problem(
                Problem::new(both!(
                    "there are two wishes for the zone {}", shown(wanted);
                    "für die Zone {} gibt es zwei Wünsche"
                ))
                .at(said.span.clone(), both!("the second one"; "der zweite"))
                .help(both!("Keep one of them."; "Einen davon behalten.")),
            );
            continue;
        }
        found.push(ZoneWish {
            name: zone.value.name.clone(),
            at: said.value.at,
        });
    }
    found
}

/// `nd = ["3 stops", "6 stops"]`.
pub(crate) fn filters(entry: &Entry<'_>) -> Option<Vec<Stops>> {
    match entry.value {
        DeValue::Array(list) if list.len() <= MOST_FILTERS => {
            let read = list.iter().map(|item| filter(&entry.item(item)));
            let mut filters: Vec<Stops> = read.collect::<Vec<_>>().into_iter().collect::<Option<_>>()?;
            filters.sort_by(|a, b| a.value().total_cmp(&b.value()));
            filters.dedup();
            Some(filters)
        }
        DeValue::Array(_) => {
            entry.refuse(
                both!(
                    "more than {MOST_FILTERS} filters are not carried in one bag";
                    "mehr als {MOST_FILTERS} Filter trägt niemand in einer Tasche"
                ),
                both!("too many"; "zu viele"),
                both!("Keep those that you use."; "Die behalten, die gebraucht werden."),
            );
            None
        }
        _ => Some(vec![filter(entry)?]),
    }
}

fn filter(entry: &Entry<'_>) -> Option<Stops> {
    let said = entry.quantity::<Stops>()?;
    if !(FILTERS.0..=FILTERS.1).contains(&said.value.value()) {
        entry.refuse(
            both!("there is no ND filter of {}", said.value; "einen Graufilter von {} gibt es nicht"),
            both!("from {} to {} stops can be used", FILTERS.0, FILTERS.1; "möglich: von {} bis {} Blenden"),
            both!(
                "Write how many stops it takes, without a sign: nd = [\"3 stops\", \"6 stops\"]; a factor of 64 is 6 stops.";
                "Schreiben, wie viele Blenden er nimmt, ohne Vorzeichen: nd = [\"3 stops\", \"6 stops\"]; ein Faktor von 64 sind 6 Blenden."
            ),
        );
        return None;
    }
    Some(said.value)
}

/// "f/2 to f/3.2": from the widest to the smallest that will do.
pub(crate) fn aperture_range(entry: &Entry<'_>) -> Option<Said<(FNumber, FNumber)>> {
    let text = entry.value.as_str()?;
    let read = |part: &str| part.trim().parse::<FNumber>().ok();
    let range = text
        .split_once(" to ")
        .and_then(|(from, to)| Some((read(from)?, read(to)?)));
    let Some((from, to)) = range else {
        entry.refuse(
            both!("{} is not a range of apertures", shown(text); "{} ist kein Blendenbereich"),
            both!("two apertures with \"to\" between them"; "zwei Blenden mit \"to\" dazwischen"),
            both!(
                "Write the widest and the smallest that will do:  aperture = \"f/2 to f/3.2\"";
                "Die weiteste und die kleinste schreiben, die in Frage kommt:  aperture = \"f/2 to f/3.2\""
            ),
        );
        return None;
    };
    if from.value() > to.value() {
        entry.refuse(
            both!("the range of apertures is the wrong way round"; "der Blendenbereich steht verkehrt herum"),
            both!("the wider one comes first"; "die weitere steht vorn"),
            both!("Write:  aperture = \"{to} to {from}\""; "Schreiben:  aperture = \"{to} to {from}\""),
        );
        return None;
    }
    Some(Said {
        value: (from, to),
        span: entry.span.clone(),
    })
}
