//! Headings, names of rows and short remarks of the printed answer.

use super::nouns::{self, landmark, named};
use super::{on_card, on_drawings};
use crate::fitting::shorten;
use crate::voice::{Voice, said};
use answer::{
    Aim, Ambient, AmbientLevel, Answer, BehindReading, Evenness, FlashReading, Job, KeyReading,
    LandmarkLevel, LightName, Pattern, PatternRead, Route, SkinReading,
};
use units::{PowerFraction, Stops};

/// A part of the printed answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Heading {
    WouldHelp,
    /// What was tried in vain; the flag says whether something else helps.
    WouldNotHelp {
        something_helps: bool,
    },
    TakeCare,
    ToKnow,
    /// Other answers, by their number.
    Others(usize),
    Chart,
    Face,
    FlashColour,
    Exposure,
    Levels,
    Controls,
    Evenness,
    Asked,
    WhyNot,
    Doubt,
    Differences,
    Confirmation,
    Sums,
}

/// The words over a part.
pub(crate) fn heading(voice: Voice, heading: Heading) -> &'static str {
    match heading {
        Heading::WouldHelp => voice.pick(
            "What would help, the least first",
            "Was helfen würde, das Kleinste zuerst",
        ),
        Heading::WouldNotHelp {
            something_helps: true,
        } => voice.pick("What would not help", "Was nicht helfen würde"),
        Heading::WouldNotHelp {
            something_helps: false,
        } => voice.pick(
            "No single change helps; these were tried",
            "Keine Änderung hilft für sich allein; diese wurden versucht",
        ),
        Heading::TakeCare => on_card::take_care(voice),
        Heading::ToKnow => voice.pick("To know", "Gut zu wissen"),
        Heading::Others(1) => voice.pick("Another answer", "Eine andere Antwort"),
        Heading::Others(_) => voice.pick("Other answers", "Andere Antworten"),
        Heading::Chart => on_drawings::chart_title(voice),
        Heading::Face => voice.pick("The face", "Das Gesicht"),
        Heading::FlashColour => voice.pick("Colour against the bare flash", "Farbe gegen den nackten Blitz"),
        Heading::Exposure => voice.pick(
            "Exposure at the face (0 = an incident reading is exactly met)",
            "Belichtung im Gesicht (0 = eine Lichtmessung ist genau getroffen)",
        ),
        Heading::Levels => voice.pick("Flash and what is there", "Blitz und vorhandenes Licht"),
        Heading::Controls => voice.pick(
            "What each control changes, in stops",
            "Was jeder Regler ändert, in Blenden",
        ),
        Heading::Evenness => voice.pick(
            "From face to face, flash alone",
            "Von Gesicht zu Gesicht, nur der Blitz",
        ),
        Heading::Asked => voice.pick(
            "What you asked for, and what you get",
            "Was du wünschst und was du bekommst",
        ),
        Heading::WhyNot => voice.pick("Why not the others", "Warum nicht die anderen"),
        Heading::Doubt => voice.pick(
            "What the about is made of (one standard deviation each)",
            "Woraus das Etwa besteht (je eine Standardabweichung)",
        ),
        Heading::Differences => voice.pick(
            "If things are a little different, and nothing is changed",
            "Wenn etwas ein wenig anders ist und nichts geändert wird",
        ),
        Heading::Confirmation => voice.pick("Referee", "Gegenprobe"),
        Heading::Sums => voice.pick("The sums", "Die Rechnung"),
    }
}

/// "Colour against the balance of 5000 K M5".
pub(crate) fn against_balance(voice: Voice, balance: &str) -> String {
    said!(voice; "Colour against the balance of {balance}"; "Farbe gegen den Abgleich auf {balance}")
}

/// "Settings for dusk".
pub(crate) fn settings_for(voice: Voice, later: &str) -> String {
    let later = named(voice, later).bare;
    said!(voice; "Settings for {later}"; "Einstellungen für {later}")
}

/// An entry of the printed answer: a name with something to say about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Entry {
    Key,
    Cheeks,
    Softness,
    Pattern,
    FlashAlone,
    EyeSockets,
    Skin,
    Behind,
    Spill,
    PointByPoint,
    Metered,
    AllItsLight,
    FirstBounce,
    Balance,
    SharesOfLight,
    AmbientAlone,
    Together,
    PowerForFlash,
    PowerForSum,
    ShareOfFlash,
    RightFor,
    Sharp,
    Reach,
}

/// The name of an entry.
pub(crate) fn entry(voice: Voice, entry: Entry) -> &'static str {
    match entry {
        Entry::Key => voice.pick("key", "Hauptlicht"),
        Entry::Cheeks => voice.pick("near cheek : far cheek", "nahe : ferne Wange"),
        Entry::Softness => voice.pick("softness", "Weichheit"),
        Entry::Pattern => voice.pick("pattern", "Muster"),
        Entry::FlashAlone => voice.pick("flash alone", "Blitz allein"),
        Entry::EyeSockets => voice.pick("eye sockets", "Augenhöhlen"),
        Entry::Skin => voice.pick("skin that is seen", "Haut im Bild"),
        Entry::Behind => voice.pick("behind the sitter", "hinter der Person"),
        Entry::Spill => voice.pick("spill", "Streulicht"),
        Entry::PointByPoint => voice.pick("point by point", "Punkt für Punkt"),
        Entry::Metered => voice.pick("metered", "gemessen"),
        Entry::AllItsLight => voice.pick("all its light at the face", "all sein Licht im Gesicht"),
        Entry::FirstBounce => voice.pick("its first bounce alone", "nur die erste Reflexion"),
        Entry::Balance => voice.pick("balance", "Abgleich"),
        Entry::SharesOfLight => voice.pick("of the light at the face", "vom Licht im Gesicht"),
        Entry::AmbientAlone => voice.pick("ambient alone", "vorhandenes Licht allein"),
        Entry::Together => voice.pick(
            "flash and ambient together",
            "Blitz und vorhandenes Licht zusammen",
        ),
        Entry::PowerForFlash => voice.pick("power for flash alone at 0", "Leistung, Blitz allein auf 0"),
        Entry::PowerForSum => voice.pick("power for the sum at 0", "Leistung für die Summe auf 0"),
        Entry::ShareOfFlash => voice.pick("of the light on the face", "vom Licht im Gesicht"),
        Entry::RightFor => voice.pick("settings are right for", "Einstellung passt für"),
        Entry::Sharp => voice.pick("sharp", "scharf"),
        Entry::Reach => voice.pick("largest flash distance", "größter Blitzabstand"),
    }
}

/// "flash alone at 1/8 +0.7".
pub(crate) fn flash_alone(voice: Voice, power: PowerFraction) -> String {
    let power = power.nearest_third();
    said!(voice; "flash alone at {power}"; "Blitz allein bei {power}")
}

/// A light that is there and how its level is known: "lamps, as you metered it", "sun, as computed".
pub(crate) fn as_known(voice: Voice, job: &Job, light: &LightName) -> String {
    let name = shorten(&nouns::light(voice, light).bare, 20);
    let metered = |given: &str| {
        let by_meter = |ambient: &Ambient| matches!(ambient.reading, AmbientLevel::Reading(_));
        job.ambients
            .iter()
            .any(|ambient| ambient.name == given && by_meter(ambient))
    };
    let scaled = job
        .outdoors
        .as_ref()
        .is_some_and(|outdoors| outdoors.reading.is_some());
    match light {
        LightName::Given { name: given } if metered(given) => {
            said!(voice; "{name}, as you metered it"; "{name}, wie du es gemessen hast")
        }
        LightName::Sky | LightName::Sun | LightName::Moon if scaled => {
            said!(voice; "{name}, scaled to your reading"; "{name}, deiner Messung angepasst")
        }
        _ => said!(voice; "{name}, as computed"; "{name}, wie berechnet"),
    }
}

/// No light at all.
pub(crate) fn none(voice: Voice) -> &'static str {
    voice.pick("none", "keines")
}

/// Where the key comes from, from the nose and seen from above.
pub(crate) fn key_from(voice: Voice, key: &KeyReading, aim: &Aim) -> String {
    let from = voice.told_from_nose(key.azimuth_deg, key.elevation_deg);
    if !aim.light_from_clock.is_finite() {
        return from;
    }
    let hour = voice.clock(aim.light_from_clock);
    said!(
        voice;
        "{from}; seen from above it comes from about {hour}, with the camera at 6";
        "{from}; von oben gesehen kommt es von etwa {hour}, mit der Kamera auf 6"
    )
}

/// "loop; 5° further it would be Rembrandt".
pub(crate) fn pattern(voice: Voice, read: PatternRead) -> String {
    let (is, next) = (pattern_name(voice, read.is), pattern_name(voice, read.next));
    let degrees = voice.plain(read.next_deg, 0);
    said!(voice; "{is}; {degrees}° further it would be {next}"; "{is}; {degrees}° weiter wäre es {next}")
}

fn pattern_name(voice: Voice, pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Flat => voice.pick("flat light", "flaches Licht"),
        Pattern::Butterfly => voice.pick("butterfly", "Schmetterlingslicht"),
        Pattern::Loop => voice.pick("loop", "Loop-Licht"),
        Pattern::Rembrandt => voice.pick("Rembrandt", "Rembrandtlicht"),
        Pattern::Split => voice.pick("split", "Seitenlicht"),
        Pattern::Rim => voice.pick("rim light", "Kantenlicht"),
        Pattern::Under => voice.pick("light from below", "Licht von unten"),
        Pattern::Top => voice.pick("light from overhead", "Licht von oben"),
    }
}

/// What the flash alone does, where light that is there does the rest.
pub(crate) fn flash_by_itself(voice: Voice, flash: &FlashReading) -> String {
    let from = voice.told_from_nose(flash.azimuth_deg, flash.elevation_deg);
    let (ratio, share) = (voice.ratio(flash.ratio), voice.plain(100.0 * flash.share, 0));
    said!(
        voice;
        "{from}, cheeks {ratio}; it makes {share} % of the light on the face";
        "{from}, Wangen {ratio}; er macht {share} % des Lichts auf dem Gesicht"
    )
}

/// "5:1 (+0.6 and −1.7 stops against the dome reading)".
pub(crate) fn cheeks(voice: Voice, key: &KeyReading) -> String {
    let ratio = voice.ratio(key.ratio);
    let [near, far] = [key.near_cheek, key.far_cheek].map(|stops| voice.signed(stops.value(), 1));
    said!(
        voice;
        "{ratio} ({near} and {far} stops against the dome reading)";
        "{ratio} ({near} und {far} Blenden gegen die Lichtmessung)"
    )
}

/// The half is the ask's own meaning of soft; the tenth for crisp is ours.
pub(crate) fn softness(voice: Voice, key: &KeyReading) -> String {
    let words = match key.softness {
        width if width >= 0.5 => voice.pick("soft", "weich"),
        width if width >= 0.1 => voice.pick("between soft and crisp", "zwischen weich und hart"),
        _ => voice.pick("crisp shadows", "scharfe Schatten"),
    };
    let times = voice.plain(key.softness, 2);
    said!(
        voice;
        "{words}: the lit patch is {times} times as wide as it is far away";
        "{words}: der beleuchtete Fleck ist {times}-mal so breit, wie er weit weg ist"
    )
}

/// Whether the light reaches the eyes: a stop and a half under the cheeks below them they go dark (common practice).
pub(crate) fn sockets(voice: Voice, key: &KeyReading) -> String {
    let dark = |socket: Stops| socket.value() < -1.5;
    let level = voice.signed_stops(key.sockets.value());
    if dark(key.sockets) && !dark(key.lit_socket) {
        let lit = voice.signed_stops(key.lit_socket.value());
        return said!(
            voice;
            "{lit} against the cheek below on the lit side, which stays open; {level} on the shadow side, which goes dark";
            "{lit} gegen die Wange darunter auf der Lichtseite, die hell bleibt; {level} auf der Schattenseite, die dunkel wird"
        );
    }
    let words = match dark(key.sockets) {
        true => voice.pick("they go dark", "sie werden dunkel"),
        false => voice.pick("they stay open", "sie bleiben hell"),
    };
    said!(
        voice;
        "{level} against the cheek below, the darker one: {words}";
        "{level} gegen die Wange darunter, die dunklere: {words}"
    )
}

/// The skin that the camera sees, and what its shading says of the light.
pub(crate) fn skin(voice: Voice, skin: &SkinReading) -> String {
    let (lit, darkest) = (
        voice.signed_stops(skin.lit.value()),
        voice.signed_stops(skin.darkest.value()),
    );
    let from = voice.told_from_nose(skin.azimuth_deg, skin.elevation_deg);
    said!(
        voice;
        "the lit part {lit}, the darkest tenth {darkest} against the dome reading; the light by its shading: {from}";
        "der beleuchtete Teil {lit}, das dunkelste Zehntel {darkest} gegen die Lichtmessung; das Licht nach der Schattierung: \
         {from}"
    )
}

/// What is seen behind everyone, and how the sitter stands off against it.
pub(crate) fn behind(voice: Voice, behind: &BehindReading) -> String {
    let mut told = Vec::new();
    told.extend(behind.light.map(|light| {
        let light = voice.signed_stops(light.value());
        said!(voice; "light {light} against the face"; "Licht {light} gegen das Gesicht")
    }));
    told.extend(behind.tone.map(|tone| {
        let tone = voice.signed_stops(tone.value());
        said!(voice; "its tone {tone} against mid-grey"; "der Ton {tone} gegen Mittelgrau")
    }));
    let against = |part: &'static str, apart: Option<Stops>| {
        apart.map(|apart| {
            let stops = voice.stops(apart.value().abs());
            let words = match apart.value() < 0.0 {
                true => voice.pick("darker than what is beside it", "dunkler als das daneben"),
                false => voice.pick("lighter than what is beside it", "heller als das daneben"),
            };
            format!("{part} {stops} {words}")
        })
    };
    told.extend(against(voice.pick("hair", "Haar"), behind.hair));
    told.extend(against(
        voice.pick("clothes on the shoulders", "Kleidung auf den Schultern"),
        behind.shoulders,
    ));
    told.join("; ")
}

/// What the bare head sends to the face past its bounce; `None` for light that is meant to come straight from the head.
pub(crate) fn spill(voice: Voice, answer: &Answer) -> Option<String> {
    match (&answer.aim.route, answer.key.spill) {
        (Route::Direct, _) => None,
        (_, Some(spill)) => {
            let level = voice.signed_stops(spill.value());
            Some(said!(
                voice;
                "the bare head reaches the face {level} against the bounce";
                "der nackte Blitzkopf erreicht das Gesicht, {level} gegen das zurückgeworfene Licht"
            ))
        }
        (_, None) if answer.aim.flagged => Some(said!(
            voice;
            "the head is flagged: its direct light does not reach the face";
            "der Blitzkopf ist abgedeckt: sein direktes Licht erreicht das Gesicht nicht"
        )),
        (_, None) => Some(said!(
            voice;
            "no light of the bare head reaches the face";
            "kein direktes Licht des Blitzkopfs erreicht das Gesicht"
        )),
    }
}

/// Every landmark with its level; left and right are the sitter's own.
pub(crate) fn landmarks(voice: Voice, levels: &[LandmarkLevel]) -> String {
    let each = levels.iter().map(|level| {
        format!(
            "{} {}",
            landmark(voice, level.at),
            voice.signed(level.level.value(), 1)
        )
    });
    let each = each.collect::<Vec<_>>().join(", ");
    said!(
        voice;
        "{each} (left and right are the sitter's own)";
        "{each} (links und rechts von der Person aus)"
    )
}

/// Who was metered, and how.
pub(crate) fn metered(voice: Voice, sitter: &str) -> String {
    let sitter = named(voice, sitter).bare;
    said!(voice; "{sitter}; dome towards the camera"; "{sitter}; Kalotte zur Kamera")
}

/// "0.7 stop from Ebenezer (brightest) to Araminta (darkest)."
pub(crate) fn evenness(voice: Voice, evenness: &Evenness) -> String {
    let spread = voice.stops(evenness.spread.value());
    let [bright, dark] = [&evenness.brightest, &evenness.darkest].map(|name| named(voice, name).bare);
    said!(
        voice;
        "{spread} from {bright} (brightest) to {dark} (darkest).";
        "{spread} von {bright} (am hellsten) bis {dark} (am dunkelsten)."
    )
}

/// Where the map with every reason comes from.
pub(crate) fn see_the_map(voice: Voice) -> &'static str {
    voice.pick(
        "Every part of the room with its reason is on the map: rushlight map SHOOT.toml -o map.svg",
        "Jeder Teil des Raums steht mit seinem Grund auf der Karte: rushlight map AUFTRAG.toml -o karte.svg",
    )
}

/// Heads of the table of differences: what happens to the exposure, to the key, to the colour.
pub(crate) fn difference_heads(voice: Voice) -> [&'static str; 3] {
    [
        voice.pick("exposure", "Belichtung"),
        voice.pick("the key goes", "Hauptlicht"),
        voice.pick("colour", "Farbe"),
    ]
}

/// Heads of the table of controls: the flash's part, the ambient part, all light on the face.
pub(crate) fn control_heads(voice: Voice) -> [&'static str; 3] {
    [
        voice.pick("flash", "Blitz"),
        voice.pick("ambient", "vorhanden"),
        voice.pick("face", "Gesicht"),
    ]
}

/// What a change costs, and where it leads, as heads of its lines.
pub(crate) fn costs_and_then(voice: Voice) -> [&'static str; 2] {
    [voice.pick("costs:", "kostet:"), voice.pick("then:", "dann:")]
}

/// How the light of full power becomes the exposure, in the notation of a sum.
pub(crate) fn sums(voice: Voice, answer: &Answer) -> Vec<String> {
    let (settings, exposure) = (&answer.settings, &answer.exposure);
    let (aperture, full) = (settings.aperture.value(), answer.key.full_power_aperture);
    let over = 2.0 * (full / aperture).log2() + (settings.iso.value() / 100.0).log2() - settings.nd.value();
    let filter = match settings.nd.value() {
        nd if nd > 0.0 => format!(" - {}", super::lines::nd(voice, settings.nd)),
        _ => String::new(),
    };
    let (over, engraved) = (voice.signed(over, 2), settings.aperture.nearest_third());
    // Apertures are written alike in both languages.
    let [full, aperture] = [full, aperture].map(|number| format!("{number:.2}"));
    let iso = voice.plain(settings.iso.value(), 0);
    let mut sums = vec![said!(
        voice;
        "Full power gives f/{full} at ISO 100, dome towards the camera. At {engraved} and ISO {iso} that is 2 log2({full} / \
         {aperture}) + log2({iso} / 100){filter} = {over} stops over.";
        "Volle Leistung gibt f/{full} bei ISO 100, Kalotte zur Kamera. Bei {engraved} und ISO {iso} sind das 2 log2({full} / \
         {aperture}) + log2({iso} / 100){filter} = {over} Blenden darüber."
    )];
    let (power, below) = (
        answer.flash.power.nearest_third(),
        voice.stops_at_two(answer.flash.power.stops_below_full()),
    );
    let flash = voice.signed(exposure.flash_alone.value(), 2);
    sums.push(said!(
        voice;
        "At {power} the flash is {below} below full, which leaves {flash}.";
        "Bei {power} gibt der Blitz {below} weniger als voll; es bleiben {flash}."
    ));
    sums.extend(exposure.ambient_alone.map(|ambient: Stops| {
        let (ambient, total) = (
            voice.signed(ambient.value(), 2),
            voice.signed(exposure.total.value(), 2),
        );
        said!(
            voice;
            "Light adds, stops do not: log2(2^{flash} + 2^{ambient}) = {total}.";
            "Licht addiert sich, Blenden nicht: log2(2^{flash} + 2^{ambient}) = {total}."
        )
    }));
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{answer, check};
    use scene::figure::LandmarkName;

    #[test]
    fn only_what_was_metered_is_told_as_metered() {
        let mut job = crate::fixture::bounce_left().job;
        let lamps = LightName::Given {
            name: "lamps".to_owned(),
        };
        check(
            |voice| as_known(voice, &job, &lamps),
            "lamps, as you metered it",
            "„lamps“, wie du es gemessen hast",
        );
        check(
            |voice| as_known(voice, &job, &LightName::Sun),
            "sun, as computed",
            "Sonne, wie berechnet",
        );
        job.ambients[0].reading = AmbientLevel::Lumens(800.0);
        check(
            |voice| as_known(voice, &job, &lamps),
            "lamps, as computed",
            "„lamps“, wie berechnet",
        );
    }

    #[test]
    fn the_face_is_told_by_its_reading() {
        let answer = answer();
        check(
            |voice| key_from(voice, &answer.key, &answer.aim),
            "46° camera left of the nose, 17° above the eyes; seen from above it comes from about half past 7, with the camera \
             at 6",
            "46° kameralinks von der Nase, 17° über den Augen; von oben gesehen kommt es von etwa halb 8, mit der Kamera auf 6",
        );
        check(
            |voice| cheeks(voice, &answer.key),
            "5:1 (+0.6 and −1.7 stops against the dome reading)",
            "5:1 (+0,6 und −1,7 Blenden gegen die Lichtmessung)",
        );
        check(
            |voice| softness(voice, &answer.key),
            "soft: the lit patch is 0.61 times as wide as it is far away",
            "weich: der beleuchtete Fleck ist 0,61-mal so breit, wie er weit weg ist",
        );
        check(
            |voice| sockets(voice, &answer.key),
            "−0.6 stop against the cheek below, the darker one: they stay open",
            "−0,6 Blende gegen die Wange darunter, die dunklere: sie bleiben hell",
        );
        let of_rembrandt = KeyReading {
            sockets: Stops(-3.9),
            ..answer.key.clone()
        };
        check(
            |voice| sockets(voice, &of_rembrandt),
            "−0.3 stop against the cheek below on the lit side, which stays open; −3.9 stops on the shadow side, which goes \
             dark",
            "−0,3 Blende gegen die Wange darunter auf der Lichtseite, die hell bleibt; −3,9 Blenden auf der Schattenseite, die \
             dunkel wird",
        );
        let of_loop = SkinReading {
            points: 240,
            lit: Stops(-0.2),
            darkest: Stops(-2.9),
            azimuth_deg: -38.0,
            elevation_deg: 21.0,
        };
        check(
            |voice| skin(voice, &of_loop),
            "the lit part −0.2 stop, the darkest tenth −2.9 stops against the dome reading; the light by its shading: 38° camera \
             left of the nose, 21° above the eyes",
            "der beleuchtete Teil −0,2 Blende, das dunkelste Zehntel −2,9 Blenden gegen die Lichtmessung; das Licht nach der \
             Schattierung: 38° kameralinks von der Nase, 21° über den Augen",
        );
        let grey_wall = BehindReading {
            light: Some(Stops(-1.2)),
            tone: Some(Stops(0.4)),
            hair: Some(Stops(-2.3)),
            shoulders: None,
        };
        check(
            |voice| behind(voice, &grey_wall),
            "light −1.2 stops against the face; its tone +0.4 stop against mid-grey; hair 2.3 stops darker than what is beside it",
            "Licht −1,2 Blenden gegen das Gesicht; der Ton +0,4 Blende gegen Mittelgrau; Haar 2,3 Blenden dunkler als das daneben",
        );
        check(
            |voice| pattern(voice, answer.key.pattern),
            "loop; 3° further it would be Rembrandt",
            "Loop-Licht; 3° weiter wäre es Rembrandtlicht",
        );
        check(
            |voice| flash_by_itself(voice, &answer.key.flash),
            "46° camera left of the nose, 17° above the eyes, cheeks 5.6:1; it makes 95 % of the light on the face",
            "46° kameralinks von der Nase, 17° über den Augen, Wangen 5,6:1; er macht 95 % des Lichts auf dem Gesicht",
        );
        check(
            |voice| spill(voice, &answer).expect("a bounce"),
            "no light of the bare head reaches the face",
            "kein direktes Licht des Blitzkopfs erreicht das Gesicht",
        );
        let level = LandmarkLevel {
            at: LandmarkName::EyeSocketLeft,
            level: Stops(-0.4),
        };
        check(
            |voice| landmarks(voice, &[level]),
            "left eye socket −0.4 (left and right are the sitter's own)",
            "linke Augenhöhle −0,4 (links und rechts von der Person aus)",
        );
    }

    #[test]
    fn sums_are_written_out() {
        let answer = answer();
        check(
            |voice| sums(voice, &answer).join(" "),
            "Full power gives f/4.71 at ISO 100, dome towards the camera. At f/4 and ISO 400 that is 2 log2(4.71 / 4.00) + \
             log2(400 / 100) = +2.47 stops over. At 1/8 +0.7 the flash is 2.33 stops below full, which leaves +0.14. Light adds, \
             stops do not: log2(2^+0.14 + 2^−4.27) = +0.21.",
            "Volle Leistung gibt f/4.71 bei ISO 100, Kalotte zur Kamera. Bei f/4 und ISO 400 sind das 2 log2(4.71 / 4.00) + \
             log2(400 / 100) = +2,47 Blenden darüber. Bei 1/8 +0.7 gibt der Blitz 2,33 Blenden weniger als voll; es bleiben \
             +0,14. Licht addiert sich, Blenden nicht: log2(2^+0,14 + 2^−4,27) = +0,21.",
        );
    }
}
