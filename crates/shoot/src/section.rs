//! Reading the parts of a shoot file: which keys they have, what was written, and where.

use super::beside::Beside;
use super::lower_errors;
use super::nearest::{nearest, plain};
use super::parts::{Part, SETUP};
use super::problem::{Identity, Problem, Span};
use super::quoting::{cut, shorten, shown};
use super::words::{
    Noun, Words, did_you_mean, did_you_mean_first, did_you_mean_line, in_decimals, write_it_like,
};
use super::written::Written;
use crate::both;
use light::FlashUnit;
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use units::{Examples, Metres, Quantity, Reason, UnitError, limits};

/// Of a part that is full of unknown keys the first ones show what is wrong.
const MOST_UNKNOWN_KEYS: usize = 20;

/// More of a kind than this is no longer a description of a room (ours).
const MOST_OF_A_KIND: usize = 100;

/// A value with the place where it was said.
#[derive(Clone, Debug)]
pub(crate) struct Said<T> {
    pub value: T,
    pub span: Span,
}

/// Everything that was found while reading.
#[derive(Debug, Default)]
pub(crate) struct Log<'a> {
    problems: RefCell<Vec<Problem>>,
    /// What was told already: a part that several set-ups share is read for each of them.
    told: RefCell<HashSet<Identity>>,
    warnings: RefCell<Vec<(usize, Words)>>,
    /// Whether the file's first length is in feet, and where that was said.
    system: RefCell<Option<(bool, Span)>>,
    mixed: Cell<bool>,
    /// Where the problems stand that are not worth a sentence each.
    untold: RefCell<BTreeSet<usize>>,
    /// The flashes that were read, by where they stand: to prove that one can be takes longer than all the rest.
    flashes: RefCell<BTreeMap<usize, Option<FlashUnit>>>,
    /// Where the files that it names are looked for.
    beside: Option<&'a dyn Beside>,
}

impl<'a> Log<'a> {
    /// For a file that lies beside others; none for a text by itself.
    pub fn beside(beside: Option<&'a dyn Beside>) -> Self {
        Log {
            beside,
            ..Log::default()
        }
    }

    /// Where the files that this one names are looked for.
    pub fn neighbours(&self) -> Option<&'a dyn Beside> {
        self.beside
    }

    /// Notes a problem, once even if it is met again.
    pub fn problem(&self, problem: Problem) {
        if self.told.borrow_mut().insert(problem.identity()) {
            self.problems.borrow_mut().push(problem);
        }
    }

    pub fn warn(&self, span: &Span, words: Words) {
        self.warnings.borrow_mut().push((span.start, words));
    }

    /// The flash that stands at a place, read once however many set-ups have it.
    pub fn flash_once(&self, place: usize, read: impl FnOnce() -> Option<FlashUnit>) -> Option<FlashUnit> {
        if let Some(known) = self.flashes.borrow().get(&place) {
            return known.clone();
        }
        let flash = read();
        self.flashes.borrow_mut().insert(place, flash.clone());
        flash
    }

    pub fn has_problems(&self) -> bool {
        !self.problems.borrow().is_empty()
    }

    pub fn uses_feet(&self) -> bool {
        self.system.borrow().as_ref().is_some_and(|(feet, _)| *feet)
    }

    /// The warnings since the last time, with their byte positions.
    pub fn take_warnings(&self) -> Vec<(usize, Words)> {
        self.warnings.take()
    }

    /// Problems with the number of those left out.
    pub fn finish(self) -> (Vec<Problem>, usize) {
        (self.problems.into_inner(), self.untold.into_inner().len())
    }

    /// A length in the unit of this file, with the decimal sign of each language.
    pub fn length(&self, metres: f64) -> Words {
        in_decimals(self.written_length(metres))
    }

    /// A length as this file writes it.
    pub fn written_length(&self, metres: f64) -> String {
        match Metres::new(metres.abs()) {
            Ok(length) if self.uses_feet() => length.to_feet_text(),
            _ => {
                let rounded = (metres.abs() * 100.0).round() / 100.0;
                let whole = rounded.fract() == 0.0 && (1.0..10.0).contains(&rounded);
                if whole {
                    format!("{rounded:.1} m")
                } else {
                    format!("{rounded} m")
                }
            }
        }
    }

    /// The first length decides; where both units stand in one file, one of them is soon a slip.
    fn note_system(&self, text: &str, span: &Span) {
        let Some(feet) = is_in_feet(text) else { return };
        let mut system = self.system.borrow_mut();
        let Some((first_feet, first)) = system.clone() else {
            *system = Some((feet, span.clone()));
            return;
        };
        if first_feet == feet || self.mixed.replace(true) {
            return;
        }
        let (in_feet, in_metres) = (both!("feet"; "Fuß"), both!("metres"; "Meter"));
        let (here, there) = if feet {
            (in_feet, in_metres)
        } else {
            (in_metres, in_feet)
        };
        self.problem(
            Problem::new(both!("this file mixes metres and feet"; "diese Datei mischt Meter und Fuß"))
                .at(span.clone(), both!("{} here", here; "hier {}"))
                .at(first, both!("{} here", there; "hier {}"))
                .help(both!(
                    "Use one of them throughout; the first length is in {0}, so write this one in {0} too.", there;
                    "Durchgehend eins von beiden verwenden; die erste Länge steht in {0}, also auch diese in {0} schreiben."
                )),
        );
    }
}

/// `None` when the text says no unit.
pub(crate) fn is_in_feet(text: &str) -> Option<bool> {
    let letters: String = text
        .chars()
        .map(|c| {
            if c.is_alphabetic() || "'\"′″’”".contains(c) {
                c
            } else {
                ' '
            }
        })
        .collect();
    let letters = letters.to_lowercase();
    let mut words = letters.split_whitespace().filter(|word| *word != "x");
    words.find_map(|word| match word {
        "m" | "cm" | "mm" | "metre" | "metres" | "meter" | "meters" => Some(false),
        "ft" | "foot" | "feet" | "in" | "inch" | "inches" | "'" | "\"" | "′" | "″" | "’" | "”" => {
            Some(true)
        }
        _ => None,
    })
}

/// A set-up through whose eyes the file is read.
pub(crate) struct Seen<'a> {
    pub name: &'a str,
    pub section: &'a Section<'a>,
    /// Parts that the other set-ups lack as well.
    pub lacked_by_all: &'a [&'static str],
}

/// One table of the file while it is read.
#[derive(Clone)]
pub(crate) struct Section<'a> {
    pub part: &'static Part,
    table: &'a DeTable<'a>,
    /// The set-up whose own parts stand before those of the file; only of the whole file.
    set_up: Option<&'a Seen<'a>>,
    /// Whether it stands inside a set-up.
    within_set_up: bool,
    pub span: Span,
    pub log: &'a Log<'a>,
    /// Position among its like, from 1.
    number: usize,
}

impl<'a> Section<'a> {
    pub fn new(part: &'static Part, table: &'a DeTable<'a>, span: Span, log: &'a Log<'a>) -> Self {
        Section {
            part,
            table,
            set_up: None,
            within_set_up: false,
            span,
            log,
            number: 1,
        }
    }

    /// The file as one of its set-ups sees it: parts of the set-up's own in the place of the common ones.
    pub fn seen_by(&self, set_up: &'a Seen<'a>) -> Section<'a> {
        Section {
            set_up: Some(set_up),
            ..self.clone()
        }
    }

    /// The set-up through whose eyes this file is seen.
    pub fn set_up(&self) -> Option<&'a Seen<'a>> {
        self.set_up
    }

    /// Position among its like, from 1.
    pub fn number(&self) -> usize {
        self.number
    }

    /// How its heading is written where it stands: a part of a set-up says so.
    pub fn title(&self) -> Words {
        if self.part.title.starts_with('[') {
            Words::same(written_title(self.part, self.within_set_up))
        } else {
            self.part.words()
        }
    }

    /// What was written for a key, if anything.
    pub fn entry(&self, key: &'static str) -> Option<Entry<'a>> {
        debug_assert!(
            self.part.keys.contains(&key),
            "{key} is missing from the keys of {}",
            self.part.title
        );
        let own = self
            .set_up
            .filter(|_| SETUP.keys.contains(&key))
            .and_then(|set_up| set_up.section.table.get_key_value(key));
        let (name, value) = own.or_else(|| self.table.get_key_value(key))?;
        Some(Entry {
            key,
            key_span: name.span(),
            value: value.get_ref(),
            span: value.span(),
            within_set_up: self.within_set_up || own.is_some(),
            log: self.log,
        })
    }

    /// What was written for a key that cannot be left out.
    pub fn need(&self, key: &'static str, example: &str) -> Option<Entry<'a>> {
        let entry = self.entry(key);
        if entry.is_none() {
            self.missing(key, example);
        }
        entry
    }

    /// Says that a key is missing, with a line that could be added.
    pub fn missing(&self, key: &'static str, example: &str) {
        if self.is_misspelt(key) {
            return;
        }
        self.log.problem(
            Problem::new(both!("{} has no \"{key}\"", self.title(); "{} hat kein \"{key}\""))
                .at(self.span.clone(), both!("missing here"; "fehlt hier"))
                .help(both!("Add a line like:  {key} = {example}"; "Eine Zeile hinzufügen wie:  {key} = {example}")),
        );
    }

    /// The name of the thing that this part describes, or a word for it.
    pub fn name(&self, otherwise: &str) -> Said<String> {
        let counted = if self.number > 1 {
            format!("{otherwise} {}", self.number)
        } else {
            otherwise.to_owned()
        };
        let fallback = || Said {
            value: counted.clone(),
            span: self.span.clone(),
        };
        let Some(entry) = self.entry("name") else {
            return fallback();
        };
        match entry.text(
            both!("a name in quotes"; "ein Name in Anführungszeichen"),
            "\"window\"",
        ) {
            Some(text) if text.trim().is_empty() => {
                entry.refuse(
                    both!("a name cannot be empty"; "ein Name darf nicht leer sein"),
                    both!("nothing here"; "hier steht nichts"),
                    both!(
                        "Leave the line out, or write what you call it.";
                        "Die Zeile weglassen, oder schreiben, wie es heißt."
                    ),
                );
                fallback()
            }
            Some(text) if text.chars().count() > 60 => {
                entry.refuse(
                    both!("this name is too long to print"; "dieser Name ist zu lang zum Drucken"),
                    both!("more than 60 letters"; "mehr als 60 Buchstaben"),
                    both!("Use a few words."; "Mit wenigen Worten auskommen."),
                );
                fallback()
            }
            Some(text) => Said {
                value: text.trim().to_owned(),
                span: entry.span,
            },
            None => fallback(),
        }
    }

    /// A single part, such as `[camera]`.
    pub fn part(&self, key: &'static str, part: &'static Part) -> Option<Section<'a>> {
        let entry = self.entry(key)?;
        let title = written_title(part, entry.within_set_up);
        match entry.value {
            DeValue::Table(table) => Some(Section {
                within_set_up: entry.within_set_up,
                ..Section::new(part, table, entry.span, self.log)
            }),
            DeValue::Array(list) if list.iter().all(|item| item.get_ref().is_table()) && !list.is_empty() => {
                // Say it of the second heading, because the first alone would have been meant as the part.
                let place = list.get(1).or(list.first()).map_or(entry.span, Spanned::span);
                self.log.problem(
                    Problem::new(both!("there is only one {title}"; "es gibt nur ein {title}"))
                        .at(place, both!("this heading makes a list of it"; "diese Überschrift macht eine Liste daraus"))
                        .help(both!(
                            "Write the heading once, with single brackets: {title}";
                            "Die Überschrift einmal schreiben, mit einfachen Klammern: {title}"
                        )),
                );
                None
            }
            _ => {
                entry.refuse(
                    both!("\"{key}\" is a part of its own"; "\"{key}\" ist ein eigener Teil"),
                    both!("this is a single value"; "das ist ein einzelner Wert"),
                    both!(
                        "Start the part with a line that says {title} and put its keys below it.";
                        "Den Teil mit der Zeile {title} beginnen und seine Schlüssel darunter schreiben."
                    ),
                );
                None
            }
        }
    }

    /// A part that may come several times, such as `[[sitter]]`.
    pub fn parts(&self, key: &'static str, part: &'static Part) -> Vec<Section<'a>> {
        let Some(entry) = self.entry(key) else {
            return Vec::new();
        };
        let title = written_title(part, entry.within_set_up);
        if let DeValue::Array(list) = entry.value
            && list.iter().all(|item| item.get_ref().is_table())
        {
            if list.len() > MOST_OF_A_KIND {
                entry.refuse(
                    both!("{} parts {title} are too many", list.len(); "{} Teile {title} sind zu viele"),
                    both!("the first of them"; "der erste davon"),
                    both!(
                        "At most {MOST_OF_A_KIND} of a kind are read; describe those that matter for the light.";
                        "Höchstens {MOST_OF_A_KIND} von einer Art werden gelesen; die beschreiben, die für das Licht zählen."
                    ),
                );
                return Vec::new();
            }
            let sections = list.iter().enumerate().filter_map(|(index, item)| {
                let table = item.get_ref().as_table()?;
                Some(Section {
                    number: index + 1,
                    within_set_up: entry.within_set_up,
                    ..Section::new(part, table, item.span(), self.log)
                })
            });
            return sections.collect();
        }
        let single = title.trim_start_matches('[').trim_end_matches(']');
        entry.refuse(
            both!(
                "{title} needs two brackets on each side, because there can be several";
                "{title} braucht auf jeder Seite zwei Klammern, denn davon kann es mehrere geben"
            ),
            both!("not a list of parts"; "keine Liste von Teilen"),
            both!(
                "Write the heading as [[{single}]], once for each.";
                "Die Überschrift als [[{single}]] schreiben, für jeden einmal."
            ),
        );
        Vec::new()
    }

    /// A table written in one line, such as `key = { azimuth = "45 deg" }`.
    pub fn inline(entry: &Entry<'a>, part: &'static Part) -> Option<Section<'a>> {
        let table = entry.value.as_table()?;
        Some(Section::new(part, table, entry.span.clone(), entry.log))
    }

    /// Refuses the keys that this part does not have.
    pub fn close(&self, all_parts: &[&'static Part]) {
        let mut told = 0;
        for key in self.table.keys() {
            let name = key.get_ref().as_ref();
            if self.part.keys.contains(&name) {
                continue;
            }
            told += 1;
            if told > MOST_UNKNOWN_KEYS {
                self.log.untold.borrow_mut().insert(key.span().start);
                continue;
            }
            self.log.problem(
                Problem::new(
                    both!("{} has no key {}", self.title(), shown(name); "{} hat keinen Schlüssel {}"),
                )
                .at(key.span(), both!("not known here"; "hier nicht bekannt"))
                .help(self.unknown_key_help(name, all_parts)),
            );
        }
    }

    /// Whether a key is there under a name that is not quite its own: that is one mistake, and it is told
    /// where it stands.
    pub fn is_misspelt(&self, key: &'static str) -> bool {
        let own = self.set_up.is_some_and(|set_up| set_up.section.is_misspelt(key));
        own || self
            .unknown_keys()
            .any(|name| meant_key(name, self.part.keys) == Some(key))
    }

    /// The keys that this part does not have.
    pub fn unknown_keys(&self) -> impl Iterator<Item = &'a str> {
        let known = self.part.keys;
        let names = self.table.keys().map(|key| key.get_ref().as_ref());
        names
            .filter(move |name| !known.contains(name))
            .take(MOST_UNKNOWN_KEYS)
    }

    fn unknown_key_help(&self, name: &str, all_parts: &[&'static Part]) -> Words {
        let known = self.part.keys;
        if let Some(meant) = meant_key(name, known) {
            return did_you_mean(meant);
        }
        let exact = plain(name).replace(' ', "_");
        match all_parts.iter().find(|part| part.keys.contains(&exact.as_str())) {
            Some(home) => both!(
                "\"{exact}\" belongs under {}. Known here: {}.", home.words(), known.join(", ");
                "\"{exact}\" hat seinen Platz anderswo ({}). Hier bekannt: {}."
            ),
            None => both!("Known here: {}.", known.join(", "); "Hier bekannt: {}."),
        }
    }
}

/// How the heading of a part is written, in a set-up or for all of them.
fn written_title(part: &'static Part, within_set_up: bool) -> Cow<'static, str> {
    let brackets = part.title.chars().take_while(|c| *c == '[').count();
    if brackets == 0 || !within_set_up {
        return Cow::Borrowed(part.title);
    }
    let (open, rest) = part.title.split_at(brackets);
    Cow::Owned(format!("{open}setup.{rest}"))
}

/// The key that a misspelt or everyday one was probably meant to be.
fn meant_key(name: &str, known: &'static [&'static str]) -> Option<&'static str> {
    nearest(name, known.iter().copied()).or_else(|| everyday_name(name, known))
}

/// What people write first, and the key that it is here.
const EVERYDAY_NAMES: &[(&str, &str)] = &[
    ("x", "from_left"),
    ("left distance", "from_left"),
    ("y", "from_behind"),
    ("distance", "from_behind"),
    ("from back", "from_behind"),
    ("from camera", "from_behind"),
    ("z", "height"),
    ("eye level", "face_height"),
    ("height", "face_height"),
    ("tall", "stature"),
    ("dimensions", "size"),
    ("width", "size"),
    ("colour", "surface"),
    ("color", "surface"),
    ("color", "colour"),
    ("material", "surface"),
    ("paint", "surface"),
    ("kelvin", "colour"),
    ("temperature", "colour"),
    ("wb", "white_balance"),
    ("f stop", "aperture"),
    ("fstop", "aperture"),
    ("f number", "aperture"),
    ("shutter speed", "shutter"),
    ("speed", "shutter"),
    ("sensitivity", "iso"),
    ("focal length", "lens"),
    ("sync speed", "sync"),
    ("x sync", "sync"),
    ("max aperture", "widest"),
    ("orientation", "landscape"),
    ("facing", "faces"),
    ("looks", "faces"),
    ("look", "faces"),
    ("gn", "guide_numbers"),
    ("guide number", "guide_numbers"),
    ("model", "kind"),
    ("hands", "helpers"),
    ("tripod", "stand"),
    ("wait", "recycle"),
    ("charge time", "recycle"),
    ("lighting ratio", "ratio"),
    ("contrast", "ratio"),
    ("spread", "evenness"),
    ("fill light", "fill"),
    ("flash under", "fill"),
    ("backdrop", "behind_sitter"),
    ("backdrop", "background"),
    ("background", "behind_sitter"),
    ("cast", "skin"),
    ("may move", "sitter_may_move"),
    ("move", "sitter_may_move"),
    ("ev", "reading"),
    ("level", "reading"),
    ("pattern", "key"),
    ("direction", "from"),
    ("side", "from"),
    ("margin", "in_hand"),
    ("room size", "room"),
    ("title", "shoot"),
    ("title", "name"),
    ("shoot", "name"),
    ("picture", "setup"),
    ("pictures", "setup"),
    ("sitters", "sitter"),
    ("subject", "sitter"),
    ("person", "sitter"),
    ("people", "sitter"),
    ("wish", "ask"),
    ("light", "ambient"),
    ("lamps", "ambient"),
    ("location", "place"),
    ("flash", "bag"),
    ("window", "opening"),
    ("door", "opening"),
    ("panel", "board"),
    ("reflector", "board"),
    ("gender", "figure"),
    ("sex", "figure"),
    ("shirt", "top"),
    ("jacket", "top"),
    ("hair colour", "hair"),
    ("hair color", "hair"),
    ("skin tone", "skin"),
    ("front", "left"),
    ("brolly", "umbrella"),
    ("soft box", "softbox"),
    ("sky", "zone"),
    ("zones", "zone"),
    ("filter", "nd"),
    ("filters", "nd"),
    ("nd filters", "nd"),
    ("normal", "normal_at"),
    ("stops", "at"),
];

fn everyday_name(name: &str, known: &[&'static str]) -> Option<&'static str> {
    let name = plain(name);
    EVERYDAY_NAMES
        .iter()
        .find(|(said, key)| *said == name && known.contains(key))
        .map(|(_, key)| *key)
}

/// What was written for one key.
#[derive(Clone)]
pub(crate) struct Entry<'a> {
    pub key: &'static str,
    pub key_span: Span,
    pub value: &'a DeValue<'a>,
    pub span: Span,
    /// Whether it stands inside a set-up.
    pub within_set_up: bool,
    pub log: &'a Log<'a>,
}

impl<'a> Entry<'a> {
    /// An item of the list that was written here: an entry of its own, so that a mistake is shown where it is.
    pub fn item(&self, item: &'a Spanned<DeValue<'a>>) -> Entry<'a> {
        Entry {
            span: item.span(),
            value: item.get_ref(),
            ..self.clone()
        }
    }

    /// Says what is wrong with the value.
    pub fn refuse(&self, message: Words, label: Words, help: Words) {
        self.log
            .problem(Problem::new(message).at(self.span.clone(), label).help(help));
    }

    /// The text between the quotes; anything else is refused with an example.
    pub fn text(&self, what: impl Into<Words>, example: &str) -> Option<&'a str> {
        if let DeValue::String(text) = self.value {
            return Some(text.as_ref());
        }
        let what: Words = what.into();
        self.refuse(
            both!("\"{}\" needs {}", self.key, what; "zu \"{}\" gehört {}"),
            both!("this is {}", kind_of(self.value); "das ist {}"),
            write_it_like(&format!("{} = {example}", self.key)),
        );
        None
    }

    /// A quantity in the trade's notation.
    pub fn quantity<T: Written>(&self) -> Option<Said<T>> {
        let text = match self.value {
            DeValue::String(text) => text.as_ref(),
            DeValue::Integer(_) | DeValue::Float(_) => {
                self.refuse_bare_number(T::LIMIT.quantity, T::LIMIT.example, T::with_unit);
                return None;
            }
            _ => {
                let what = lower_errors::quantity(T::LIMIT.quantity);
                self.text(
                    both!("{} in quotes", what; "{} in Anführungszeichen"),
                    &format!("\"{}\"", T::EXAMPLE),
                )?;
                return None;
            }
        };
        match T::read(text) {
            Ok(value) => Some(Said {
                value,
                span: self.span.clone(),
            }),
            Err(error) => {
                self.refuse_quantity(text, &error, T::with_unit);
                None
            }
        }
    }

    fn refuse_bare_number(&self, quantity: Quantity, example: Examples, with_unit: fn(&str) -> String) {
        let quantity = lower_errors::quantity(quantity);
        let example = lower_errors::examples(example);
        let number = match self.value {
            DeValue::Integer(number) => number.to_string(),
            DeValue::Float(number) => number.as_str().to_owned(),
            _ => return,
        };
        let finite = number.parse::<f64>().is_ok_and(f64::is_finite);
        if !finite {
            self.refuse(
                both!("\"{}\" is not an ordinary number", self.key; "\"{}\" ist keine gewöhnliche Zahl"),
                both!("this should be {}", quantity; "das sollte {} sein"),
                both!("Write it in quotes, like {}.", example; "In Anführungszeichen schreiben, etwa {}."),
            );
            return;
        }
        self.refuse(
            both!("\"{}\" says a number, but not of what", self.key; "\"{}\" nennt eine Zahl, aber nicht wovon"),
            both!("{} belongs here, in quotes", quantity; "hierher gehört {}, in Anführungszeichen"),
            did_you_mean_line(&format!("{} = \"{}\"", self.key, with_unit(&number))),
        );
    }

    /// Says why a text is no such quantity; a bare number gets its unit proposed.
    pub fn refuse_quantity(&self, text: &str, error: &UnitError, with_unit: fn(&str) -> String) {
        let bare = text.trim();
        let is_number = bare.parse::<f64>().is_ok_and(f64::is_finite);
        match error {
            UnitError::NotUnderstood {
                quantity,
                reason,
                example,
                ..
            } => {
                let help = if is_number {
                    did_you_mean_line(&format!("{} = \"{}\"", self.key, with_unit(bare)))
                } else if matches!(reason, Reason::DecimalComma) && bare.matches(',').count() == 1 {
                    let meant = shorten(&bare.replace(',', "."));
                    did_you_mean_line(&format!("{} = \"{meant}\"", self.key))
                } else {
                    let example = lower_errors::examples(*example);
                    both!("Write it like {}.", example; "So schreiben: {}.")
                };
                let message = lower_errors::not_understood(&shown(text), *quantity);
                let reason = lower_errors::reason(reason);
                if reason.longest() <= SHORT_REASON {
                    self.refuse(message, reason, help);
                } else {
                    let reason = reason.each(|reason| cut(reason, 160));
                    self.refuse(
                        both!("{}: {}", message, reason; "{}: {}"),
                        both!("here"; "hier"),
                        help,
                    );
                }
            }
            UnitError::OutOfRange {
                quantity,
                lowest,
                highest,
                unit,
                example,
                ..
            } => {
                let unit = lower_errors::unit(*quantity, unit);
                self.refuse(
                    lower_errors::not_possible(&shown(text), *quantity),
                    both!(
                        "from {}{} to {}{} can be used", lowest, unit, highest, unit;
                        "möglich: von {}{} bis {}{}"
                    ),
                    both!(
                        "Check the number and its unit; it is written like {}.", lower_errors::examples(*example);
                        "Zahl und Einheit prüfen; so schreibt man es: {}."
                    ),
                );
            }
            UnitError::NotFinite {
                quantity, example, ..
            } => {
                let noun = lower_errors::no_quantity(*quantity);
                self.refuse(
                    both!(
                        "{} is not an ordinary number, so it cannot be {}", shown(text), noun;
                        "{} ist keine gewöhnliche Zahl, kann also {} sein"
                    ),
                    both!("this cannot be measured"; "so etwas lässt sich nicht messen"),
                    both!("Write it like {}.", lower_errors::examples(*example); "So schreiben: {}."),
                );
            }
        }
    }

    /// A length within bounds, in metres.
    pub fn length(&self, what: Noun, from: f64, to: f64) -> Option<Said<f32>> {
        if let DeValue::String(text) = self.value {
            self.log.note_system(text, &self.span);
        }
        let negative = self
            .value
            .as_str()
            .is_some_and(|text| text.trim().starts_with(['-', '\u{2212}']));
        let with_unit: fn(&str) -> String = if self.log.uses_feet() {
            |number| format!("{number} ft")
        } else {
            |number| format!("{number} m")
        };
        let text = match self.value {
            DeValue::String(text) => text.as_ref(),
            DeValue::Integer(_) | DeValue::Float(_) => {
                self.refuse_bare_number(limits::METRES.quantity, limits::METRES.example, with_unit);
                return None;
            }
            _ => {
                self.text(
                    both!("a length in quotes"; "eine Länge in Anführungszeichen"),
                    &format!("\"{}\"", self.log.written_length(2.0)),
                )?;
                return None;
            }
        };
        match text.parse::<Metres>() {
            Ok(length) if (from..=to).contains(&length.value()) => Some(Said {
                value: length.value() as f32,
                span: self.span.clone(),
            }),
            Err(error @ (UnitError::NotUnderstood { .. } | UnitError::NotFinite { .. })) => {
                self.refuse_quantity(text, &error, with_unit);
                None
            }
            _ => {
                let help = if negative {
                    both!(
                        "Lengths are measured from the wall or the floor into the room, so they are never below zero.";
                        "Längen werden von der Wand oder vom Boden aus in den Raum gemessen, sind also nie kleiner als null."
                    )
                } else {
                    both!("Check the decimal point and the unit."; "Dezimalpunkt und Einheit prüfen.")
                };
                self.refuse(
                    both!("{} cannot be {}", shown(text), what.none(); "{} kann {} sein"),
                    both!(
                        "from {} to {} can be used", self.log.length(from), self.log.length(to);
                        "möglich: von {} bis {}"
                    ),
                    help,
                );
                None
            }
        }
    }

    /// A size: two or three sides within bounds, in metres.
    pub fn size<const N: usize>(
        &self,
        order: &Words,
        example: &str,
        from: f64,
        to: f64,
    ) -> Option<Said<[f32; N]>> {
        let text = match self.value {
            DeValue::Integer(_) | DeValue::Float(_) => {
                self.refuse(
                    both!(
                        "\"{}\" needs {} numbers and a unit, in quotes", self.key, number_word(N);
                        "zu \"{}\" gehören {} Zahlen und eine Einheit, in Anführungszeichen"
                    ),
                    order.clone(),
                    write_it_like(&format!("{} = \"{example}\"", self.key)),
                );
                return None;
            }
            _ => self.text(
                both!("a size in quotes"; "eine Größe in Anführungszeichen"),
                &format!("\"{example}\""),
            )?,
        };
        self.log.note_system(text, &self.span);
        let sides = match units::parse_size(text) {
            Ok(sides) => sides,
            Err(error) => {
                let reason = lower_errors::of_a_side(&error);
                self.refuse(
                    both!("{} is not a size: {}", shown(text), reason; "{} ist keine Größe: {}"),
                    order.clone(),
                    write_it_like(&format!("{} = \"{example}\"", self.key)),
                );
                return None;
            }
        };
        let Ok(sides) = <[Metres; N]>::try_from(sides) else {
            self.refuse(
                both!("\"{}\" needs {} numbers", self.key, number_word(N); "zu \"{}\" gehören {} Zahlen"),
                order.clone(),
                write_it_like(&format!("{} = \"{example}\"", self.key)),
            );
            return None;
        };
        if let Some(side) = sides.iter().find(|side| !(from..=to).contains(&side.value())) {
            self.refuse(
                both!(
                    "{} cannot be: one side is {}", shown(text), self.log.length(side.value());
                    "{} geht nicht: eine Seite misst {}"
                ),
                both!(
                    "each side can be from {} to {}", self.log.length(from), self.log.length(to);
                    "jede Seite kann {} bis {} messen"
                ),
                both!("Check the decimal point and the unit."; "Dezimalpunkt und Einheit prüfen."),
            );
            return None;
        }
        Some(Said {
            value: sides.map(|side| side.value() as f32),
            span: self.span.clone(),
        })
    }

    /// `true` or `false`.
    pub fn yes_or_no(&self) -> Option<bool> {
        if let DeValue::Boolean(value) = self.value {
            return Some(*value);
        }
        let meant = match self.value.as_str().map(plain).as_deref() {
            Some("yes" | "true" | "on") => Some(true),
            Some("no" | "false" | "off") => Some(false),
            _ => None,
        };
        let words = match meant {
            Some(meant) => Words::same(format!("\"{meant}\"")),
            None => both!("\"true\" or \"false\""; "\"true\" oder \"false\""),
        };
        let example = meant.unwrap_or(true);
        self.refuse(
            both!(
                "\"{}\" is either true or false", self.key;
                "\"{}\" ist entweder true oder false"
            ),
            both!("neither of the two"; "keins von beiden"),
            both!(
                "Write {} without quotes:  {} = {example}", words, self.key;
                "{} ohne Anführungszeichen schreiben:  {} = {example}"
            ),
        );
        None
    }

    /// One of a few words, compared without regard to case, hyphens and underscores.
    pub fn word<T: Clone + PartialEq>(&self, what: Noun, words: &[(&str, T)]) -> Option<Said<T>> {
        let first = words.first().map_or("", |(word, _)| *word);
        let text = self.text(what, &format!("\"{first}\""))?;
        let found = find_word(text, words);
        if found.is_none() {
            self.unknown_word(text, what, first_of_its_kind(words));
        }
        found.map(|value| Said {
            value,
            span: self.span.clone(),
        })
    }

    /// Says that a word is not one of those known.
    pub fn unknown_word<'w>(&self, text: &str, what: Noun, words: impl IntoIterator<Item = &'w str> + Clone) {
        let list: Vec<&str> = words.clone().into_iter().collect();
        let meant = did_you_mean_first(nearest(text, words));
        let help = both!("{}Known: {}.", meant, list.join(", "); "{}Bekannt: {}.");
        self.refuse(
            both!("{} is not known as {}", shown(text), what.one(); "{} ist nicht bekannt; hierher gehört {}"),
            both!("not known"; "nicht bekannt"),
            help,
        );
    }

    /// A plain number within bounds.
    pub fn number(&self, what: Noun, from: f64, to: f64, example: &str) -> Option<Said<f64>> {
        let number = number_of(self.value).filter(|number| number.is_finite());
        if let Some(value) = number
            && (from..=to).contains(&value)
        {
            return Some(Said {
                value,
                span: self.span.clone(),
            });
        }
        let message = match number {
            Some(value) => both!("{} cannot be {}", value, what.none(); "{} kann {} sein"),
            None => both!(
                "\"{}\" needs {}, as a plain number", self.key, what.one();
                "zu \"{}\" gehört {}, als einfache Zahl"
            ),
        };
        self.refuse(
            message,
            both!("from {} to {} can be used", from, to; "möglich: von {} bis {}"),
            write_it_like(&format!("{} = {example}", self.key)),
        );
        None
    }
}

/// One word for each meaning, which is enough to choose from: the first.
pub(crate) fn first_of_its_kind<'w, T: PartialEq>(words: &[(&'w str, T)]) -> Vec<&'w str> {
    let is_first = |(index, (_, value)): &(usize, &(&'w str, T))| {
        !words[..*index].iter().any(|(_, other)| other == value)
    };
    let first = words.iter().enumerate().filter(is_first);
    first.map(|(_, (word, _))| *word).collect()
}

/// The value of a known word.
pub(crate) fn find_word<T: Clone>(text: &str, words: &[(&str, T)]) -> Option<T> {
    let text = plain(text);
    words
        .iter()
        .find(|(word, _)| plain(word) == text)
        .map(|(_, value)| value.clone())
}

/// The number that a value holds; hexadecimal and the like are no numbers to a photographer.
pub(crate) fn number_of(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
        DeValue::Float(number) => number.as_str().parse().ok(),
        _ => None,
    }
}

/// What a value is, in words.
fn kind_of(value: &DeValue<'_>) -> Words {
    match value {
        DeValue::String(_) => both!("a text"; "ein Text"),
        DeValue::Integer(_) | DeValue::Float(_) => both!("a bare number"; "eine bloße Zahl"),
        DeValue::Boolean(_) => both!("true or false"; "true oder false"),
        DeValue::Datetime(_) => both!("a date"; "ein Datum"),
        DeValue::Array(_) => both!("a list"; "eine Liste"),
        DeValue::Table(_) => both!("a part of its own"; "ein eigener Teil"),
    }
}

fn number_word(count: usize) -> Words {
    match count {
        2 => both!("two"; "zwei"),
        _ => both!("three"; "drei"),
    }
}

/// Reasons up to this many letters fit under the snippet.
const SHORT_REASON: usize = 60;
