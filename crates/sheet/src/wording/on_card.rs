//! What stands on the card beside the lines of the answer: heads, likely changes, and the words of its controls.

use crate::voice::{Voice, said};
use answer::Between;
use units::Stops;

/// Months, as a date names them.
const MONTHS: [(&str, &str); 12] = [
    ("January", "Januar"),
    ("February", "Februar"),
    ("March", "März"),
    ("April", "April"),
    ("May", "Mai"),
    ("June", "Juni"),
    ("July", "Juli"),
    ("August", "August"),
    ("September", "September"),
    ("October", "Oktober"),
    ("November", "November"),
    ("December", "Dezember"),
];

/// When a card was made, by the clock of the place where that was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// Year.
    pub year: i16,
    /// Month, from 1.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// What the clock showed: "16:20".
    pub clock: String,
}

impl Made {
    /// "Made 25 November 2026, 16:20."
    pub(crate) fn words(&self, voice: Voice) -> String {
        let (year, day, clock) = (self.year, self.day, &self.clock);
        let month = usize::from(self.month.clamp(1, 12)) - 1;
        let month = voice.pick(MONTHS[month].0, MONTHS[month].1);
        said!(
            voice;
            "Made {day} {month} {year}, {clock}.";
            "Gemacht am {day}. {month} {year}, {clock} Uhr."
        )
    }
}

/// Title of a file with several cards.
pub(crate) fn several(voice: Voice, first: &str, more: usize) -> String {
    said!(voice; "{first} and {more} more"; "{first} und {more} weitere")
}

/// Title of a file without a card.
pub(crate) fn no_set_up(voice: Voice) -> &'static str {
    voice.pick("No set-up", "Kein Bild")
}

/// Head of a printed page, for a person who does not see it.
pub(crate) fn page_title(voice: Voice, title: &str, number: usize) -> String {
    said!(voice; "{title}, page {number}"; "{title}, Seite {number}")
}

/// What a printed page is.
pub(crate) fn page_described(voice: Voice) -> &'static str {
    voice.pick(
        "A card for the day of the shoot.",
        "Eine Karte für den Tag der Aufnahme.",
    )
}

/// Names of the three lines, for a person who does not see them: camera, flash, where.
pub(crate) fn three_lines(voice: Voice) -> [&'static str; 3] {
    [
        voice.pick("Camera", "Kamera"),
        voice.pick("Flash", "Blitz"),
        voice.pick("Where", "Wohin"),
    ]
}

/// Head of the drawings.
pub(crate) fn drawing(voice: Voice) -> &'static str {
    voice.pick("Drawing", "Zeichnung")
}

/// Head of the assistant's lines.
pub(crate) fn for_the_assistant(voice: Voice) -> &'static str {
    voice.pick("For the assistant", "Für die Assistenz")
}

/// Head of the cautions.
pub(crate) fn take_care(voice: Voice) -> &'static str {
    voice.pick("Take care", "Vorsicht")
}

/// Head of the lights that are told.
pub(crate) fn if_the_light_has_changed(voice: Voice) -> &'static str {
    voice.pick("If the light has changed", "Wenn sich das Licht geändert hat")
}

/// Head of the distances that are told.
pub(crate) fn if_another_distance(voice: Voice, between: Between) -> String {
    let between = match between {
        Between::FlashAndFace => voice.pick("flash to face", "vom Blitz zum Gesicht"),
        Between::BoardAndFace => voice.pick("board to face", "von der Tafel zum Gesicht"),
        Between::FlashAndSpot => voice.pick("flash to lit spot", "vom Blitz zum Lichtfleck"),
        Between::SpotAndFace => voice.pick("lit spot to face", "vom Lichtfleck zum Gesicht"),
    };
    said!(
        voice;
        "If it is another distance from {between}";
        "Bei anderem Abstand {between}"
    )
}

/// Name of a distance over its control.
pub(crate) fn dial(voice: Voice, between: Between) -> &'static str {
    match between {
        Between::FlashAndFace => voice.pick("Flash to face, about", "Blitz zum Gesicht, etwa"),
        Between::BoardAndFace => voice.pick("Board to face, about", "Tafel zum Gesicht, etwa"),
        Between::FlashAndSpot => voice.pick("Flash to lit spot, about", "Blitz zum Lichtfleck, etwa"),
        Between::SpotAndFace => voice.pick("Lit spot to face, about", "Lichtfleck zum Gesicht, etwa"),
    }
}

/// A distance that may turn out to be so much.
pub(crate) fn about_so_far(voice: Voice, distance: &str) -> String {
    said!(voice; "about {distance}"; "etwa {distance}")
}

/// A distance to five centimetres, or to the half inch, so that neighbours differ.
pub(crate) fn distance(voice: Voice, metres: f64) -> String {
    match voice.lengths {
        crate::voice::Lengths::Metres => {
            let metres = voice.plain((metres * 20.0).round() / 20.0, 2);
            format!("{metres} m")
        }
        crate::voice::Lengths::Feet => voice.about(metres),
    }
}

/// "as planned", "1 1/3 stops darker".
pub(crate) fn light(voice: Voice, by: Stops) -> String {
    let stops = voice.stops_in_thirds(by.value());
    match by.value() {
        by if by.abs() < 0.01 => voice.pick("as planned", "wie geplant").to_owned(),
        by if by < 0.0 => said!(voice; "{stops} darker"; "{stops} dunkler"),
        _ => said!(voice; "{stops} brighter"; "{stops} heller"),
    }
}

/// Marks what is little by a word as well: "LOW: 0.2 stop in hand".
pub(crate) fn low(voice: Voice, in_hand: &str) -> String {
    said!(voice; "LOW: {in_hand}"; "KNAPP: {in_hand}")
}

/// A power with what is left.
pub(crate) fn power(voice: Voice, power: &str, in_hand: &str) -> String {
    said!(voice; "power {power}, {in_hand}"; "Leistung {power}, {in_hand}")
}

/// Another way, for a shutter that is slow.
pub(crate) fn or_hand_held(voice: Voice, shutter: &str, camera: &str, power: &str) -> String {
    said!(
        voice;
        "{shutter} is slow for a person. Or hand-held: {camera}, {power}.";
        "{shutter} ist lang für einen Menschen. Oder aus der Hand: {camera}, {power}."
    )
}

/// The words that the card's script shows, by the names under which it looks them up. It puts its own amounts where a name
/// stands in braces.
pub(crate) fn of_the_script(voice: Voice) -> Vec<(&'static str, String)> {
    let then = power(voice, "{power}", "{hand}");
    let fixed = [
        ("light", voice.pick("Light", "Licht")),
        ("lightChanged", controls(voice).changed),
        (
            "distanceChanged",
            voice.pick("Distance changed", "Anderer Abstand"),
        ),
        ("darker", voice.pick("darker", "dunkler")),
        ("brighter", voice.pick("brighter", "heller")),
        ("nearer", voice.pick("nearer", "näher")),
        ("further", voice.pick("further", "weiter")),
        ("byOne", voice.pick("by 1 stop", "um 1 Blende")),
        ("byThird", voice.pick("by ⅓ stop", "um ⅓ Blende")),
        ("white", voice.pick("White", "Weiß")),
        ("black", voice.pick("Black", "Schwarz")),
        (
            "makeWhite",
            voice.pick("Make the ground white", "Auf Weiß umschalten"),
        ),
        (
            "makeBlack",
            voice.pick("Make the ground black", "Auf Schwarz umschalten"),
        ),
    ];
    let mut words: Vec<(&str, String)> = fixed
        .into_iter()
        .map(|(name, words)| (name, words.to_owned()))
        .collect();
    words.push(("then", format!("{{camera}}, {then}.")));
    words.push(("slow", or_hand_held(voice, "{shutter}", "{camera}", &then)));
    words
}

/// What the controls are called.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Controls {
    /// The panel on which a change is dialled in.
    pub change: &'static str,
    /// The way back to what was planned.
    pub planned: &'static str,
    /// Closes the panel.
    pub close: &'static str,
    /// The bar at the foot.
    pub set_ups: &'static str,
    /// To the set-up before.
    pub before: &'static str,
    /// To the next set-up.
    pub next: &'static str,
    /// Opens the panel.
    pub changed: &'static str,
    /// Changes the ground.
    pub ground: &'static str,
}

/// What the controls are called.
pub(crate) fn controls(voice: Voice) -> Controls {
    Controls {
        change: voice.pick("Light or distance has changed", "Licht oder Abstand ist anders"),
        planned: voice.pick("As planned", "Wie geplant"),
        close: voice.pick("Close", "Schließen"),
        set_ups: voice.pick("Set-ups", "Bilder"),
        before: voice.pick("Back to the set-up before", "Zurück zum vorigen Bild"),
        next: voice.pick("Next set-up", "Nächstes Bild"),
        changed: voice.pick("Light has changed", "Das Licht ist anders"),
        ground: voice.pick("black / white", "schwarz / weiß"),
    }
}
