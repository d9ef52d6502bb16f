//! What is said of a day out of doors: its events, its weather, and what stands on its drawing and in its table.

use super::nouns;
use crate::fitting::clean;
use crate::voice::{Language, Voice, said};
use light::{MoonPhase, SkyKind, SunLevel, Weather};

/// Something that happens on a day.
#[derive(Clone, Debug, PartialEq)]
pub enum DayEvent {
    /// The sun passes a level.
    Sun {
        /// The level.
        level: SunLevel,
        /// Whether it goes up.
        rising: bool,
    },
    /// Golden light begins or ends.
    Golden {
        /// Whether it begins.
        begins: bool,
    },
    /// Blue light begins or ends.
    Blue {
        /// Whether it begins.
        begins: bool,
    },
    /// The sun is highest.
    SunHighest,
    /// The sun goes behind something on the horizon, or comes out from behind it.
    Hidden {
        /// Its name.
        behind: String,
        /// Whether the sun comes out.
        comes_out: bool,
    },
    /// The moon rises or sets.
    Moon {
        /// Whether it rises.
        rising: bool,
    },
    /// The picture is taken.
    Picture,
}

impl DayEvent {
    /// What happens, in words.
    pub fn words(&self, voice: Voice) -> String {
        match self {
            DayEvent::Sun { level, rising } => sun(voice, *level, *rising).to_owned(),
            DayEvent::Golden { begins: true } => {
                said!(voice; "golden light begins"; "goldenes Licht beginnt")
            }
            DayEvent::Golden { begins: false } => said!(voice; "golden light ends"; "goldenes Licht endet"),
            DayEvent::Blue { begins: true } => said!(voice; "blue light begins"; "blaues Licht beginnt"),
            DayEvent::Blue { begins: false } => said!(voice; "blue light ends"; "blaues Licht endet"),
            DayEvent::SunHighest => said!(voice; "sun highest"; "Sonne am höchsten"),
            DayEvent::Hidden { behind, comes_out } => {
                let name = nouns::quoted(voice, &clean(behind));
                match comes_out {
                    true => said!(voice; "sun comes out from {name}"; "Sonne kommt hinter {name} hervor"),
                    false => said!(voice; "sun goes behind {name}"; "Sonne geht hinter {name}"),
                }
            }
            DayEvent::Moon { rising: true } => said!(voice; "moon rises"; "Mond geht auf"),
            DayEvent::Moon { rising: false } => said!(voice; "moon sets"; "Mond geht unter"),
            DayEvent::Picture => said!(voice; "picture"; "Bild"),
        }
    }
}

fn sun(voice: Voice, level: SunLevel, rising: bool) -> &'static str {
    match (level, rising) {
        (SunLevel::Astronomical, true) => voice.pick("night ends", "Ende der Nacht"),
        (SunLevel::Nautical, true) => voice.pick("nautical dawn", "nautische Dämmerung beginnt"),
        (SunLevel::Civil, true) => voice.pick("civil dawn", "bürgerliche Dämmerung beginnt"),
        (SunLevel::Horizon, true) => voice.pick("sunrise", "Sonnenaufgang"),
        (SunLevel::Horizon, false) => voice.pick("sunset", "Sonnenuntergang"),
        (SunLevel::Civil, false) => voice.pick("civil dusk ends", "bürgerliche Dämmerung endet"),
        (SunLevel::Nautical, false) => voice.pick("nautical dusk ends", "nautische Dämmerung endet"),
        (SunLevel::Astronomical, false) => voice.pick("night begins", "Beginn der Nacht"),
    }
}

/// The sixteen points of the compass, from north through east.
const COMPASS: [(&str, &str); 16] = [
    ("N", "N"),
    ("NNE", "NNO"),
    ("NE", "NO"),
    ("ENE", "ONO"),
    ("E", "O"),
    ("ESE", "OSO"),
    ("SE", "SO"),
    ("SSE", "SSO"),
    ("S", "S"),
    ("SSW", "SSW"),
    ("SW", "SW"),
    ("WSW", "WSW"),
    ("W", "W"),
    ("WNW", "WNW"),
    ("NW", "NW"),
    ("NNW", "NNW"),
];

/// The point of the compass that is nearest to a bearing.
pub(crate) fn compass(voice: Voice, bearing_deg: f64) -> &'static str {
    let (english, german) = COMPASS[((bearing_deg / 22.5).round() as i64).rem_euclid(16) as usize];
    voice.pick(english, german)
}

/// Place, date and zone: "52.10 N, 5.12 E; 2026-12-12, Europe/Amsterdam".
pub(crate) fn place(voice: Voice, latitude_deg: f64, longitude_deg: f64, date: &str, zone: &str) -> String {
    let side = |degrees: f64, positive_bearing: f64| {
        let bearing = if degrees < 0.0 {
            positive_bearing + 180.0
        } else {
            positive_bearing
        };
        format!("{} {}", voice.plain(degrees.abs(), 2), compass(voice, bearing))
    };
    // A decimal comma and a comma between two numbers would run into one another.
    let between = voice.pick(",", ";");
    format!(
        "{}{between} {}; {date}, {zone}",
        side(latitude_deg, 0.0),
        side(longitude_deg, 90.0)
    )
}

/// Weather and ground: "clear sky, over grass".
pub(crate) fn weather(voice: Voice, weather: Weather, sky: Option<SkyKind>, ground: &str) -> String {
    let name = match weather {
        Weather::Clear => voice.pick("clear sky", "klarer Himmel"),
        Weather::Hazy => voice.pick("hazy sky", "dunstiger Himmel"),
        Weather::PartlyCloudy => voice.pick("partly cloudy sky", "wechselnd bewölkter Himmel"),
        Weather::BrightOvercast => voice.pick("bright overcast sky", "hell bedeckter Himmel"),
        Weather::HeavyOvercast => voice.pick("heavy overcast sky", "dunkel bedeckter Himmel"),
    };
    let pattern = sky.map_or_else(String::new, |kind| {
        let (number, described) = (kind.number(), sky_kind(voice, kind));
        said!(voice; ", CIE sky {number} ({described})"; ", CIE-Himmel {number} ({described})")
    });
    let ground = match voice.language {
        Language::English => clean(ground),
        Language::German => nouns::quote(&clean(ground)),
    };
    said!(voice; "{name}{pattern}, over {ground}"; "{name}{pattern}, über {ground}")
}

/// What the standard calls a sky (ISO 15469; the German is ours).
fn sky_kind(voice: Voice, kind: SkyKind) -> &'static str {
    let german = match kind.number() {
        1 => "bedeckt, steiler Verlauf",
        2 => "bedeckt, steiler Verlauf, zur Sonne hin etwas heller",
        3 => "bedeckt, mäßiger Verlauf",
        4 => "bedeckt, mäßiger Verlauf, zur Sonne hin etwas heller",
        5 => "gleichmäßig",
        6 => "teils bewölkt, ohne Verlauf, zur Sonne hin etwas heller",
        7 => "teils bewölkt, ohne Verlauf, um die Sonne heller",
        8 => "teils bewölkt, ohne Verlauf, deutlicher Hof",
        9 => "teils bewölkt, Sonne verdeckt",
        10 => "teils bewölkt, um die Sonne heller",
        11 => "weißblau, deutlicher Hof",
        12 => "klar, wenig Trübung",
        13 => "klar, verschmutzte Luft",
        14 => "wolkenlos und trüb, breiter Hof",
        15 => "weißblau und trüb, breiter Hof",
        _ => "herkömmlich bedeckt, 1 zu 3",
    };
    voice.pick(kind.description(), german)
}

/// How the camera looks, and how the table is to be read.
pub(crate) fn camera_looks(voice: Voice, bearing_deg: f64, spread_stops: f64) -> String {
    let (point, degrees, spread) = (
        compass(voice, bearing_deg),
        voice.plain(bearing_deg, 0),
        voice.plain(spread_stops, 1),
    );
    said!(
        voice;
        "Camera looks {point} ({degrees} deg). Times are those of local clocks, levels are EV at ISO 100, about ±{spread} stops.";
        "Die Kamera blickt nach {point} ({degrees}°). Zeiten sind Ortszeit, Helligkeiten EV bei ISO 100, auf etwa ±{spread} Blenden genau."
    )
}

/// A day near the poles on which the sun stays up, or down.
pub(crate) fn sun_all_day(voice: Voice, up: bool) -> &'static str {
    match up {
        true => voice.pick(
            "The sun does not set on this day.",
            "Die Sonne geht an diesem Tag nicht unter.",
        ),
        false => voice.pick(
            "The sun does not rise on this day.",
            "Die Sonne geht an diesem Tag nicht auf.",
        ),
    }
}

/// "Moon: waxing gibbous, 83 % lit."
pub(crate) fn moon(voice: Voice, phase: MoonPhase, lit: f64) -> String {
    let phase = match phase {
        MoonPhase::New => voice.pick("new moon", "Neumond"),
        MoonPhase::WaxingCrescent => voice.pick("waxing crescent", "zunehmende Sichel"),
        MoonPhase::FirstQuarter => voice.pick("first quarter", "erstes Viertel"),
        MoonPhase::WaxingGibbous => voice.pick("waxing gibbous", "zunehmend, mehr als halb"),
        MoonPhase::Full => voice.pick("full moon", "Vollmond"),
        MoonPhase::WaningGibbous => voice.pick("waning gibbous", "abnehmend, mehr als halb"),
        MoonPhase::LastQuarter => voice.pick("last quarter", "letztes Viertel"),
        MoonPhase::WaningCrescent => voice.pick("waning crescent", "abnehmende Sichel"),
    };
    let lit = voice.plain(lit * 100.0, 0);
    said!(voice; "Moon: {phase}, {lit} % lit."; "Mond: {phase}, {lit} % beleuchtet.")
}

/// Two heads over the columns of the table.
pub(crate) fn table_heads(voice: Voice) -> [&'static str; 2] {
    match voice.language {
        Language::English => [
            "         sun                                      facing it     facing away     open     falls",
            "  time   height  fists  bearing     clock    EV      K      EV      K      ground   in 5 min",
        ],
        Language::German => [
            "         Sonne                                    zu ihr hin    von ihr weg     freier   fällt",
            "  Zeit   Höhe   Fäuste  Richtung      Uhr    EV      K      EV      K       Boden   in 5 min",
        ],
    }
}

/// Behind a row in which something hides the sun.
pub(crate) fn behind(voice: Voice, name: &str) -> String {
    let name = nouns::quoted(voice, &clean(name));
    said!(voice; "  behind {name}"; "  hinter {name}")
}

/// Over the row of the picture.
pub(crate) fn at_the_picture(voice: Voice) -> &'static str {
    voice.pick("At the moment of the picture:", "Im Augenblick des Bildes:")
}

/// What the drawing shows, for a person who does not see it.
pub(crate) fn described(voice: Voice, place: &str) -> String {
    said!(
        voice;
        "The sun's way on {place}, seen from above with the camera at the bottom, and levels through the day.";
        "Der Weg der Sonne, {place}, von oben gesehen mit der Kamera unten, und die Helligkeit über den Tag."
    )
}

/// Beside the camera on the drawing.
pub(crate) fn camera(voice: Voice) -> &'static str {
    voice.pick("camera", "Kamera")
}

/// Over the chart of levels.
pub(crate) fn levels(voice: Voice) -> &'static str {
    voice.pick(
        "EV at ISO 100 on an upright face",
        "EV bei ISO 100 auf ein aufrechtes Gesicht",
    )
}

/// Under the chart of levels: the two curves and the two lights.
pub(crate) fn legend(voice: Voice) -> [&'static str; 4] {
    [
        voice.pick("facing the sun", "zur Sonne hin"),
        voice.pick("facing away", "von ihr weg"),
        voice.pick("golden light", "goldenes Licht"),
        voice.pick("blue light", "blaues Licht"),
    ]
}
