//! What the crates below refuse: a quantity, a colour, a light. They say in types what is wrong, because they do not know who
//! reads it.
//!
//! The shoot file is refused in these words, and so is a job that turns out to be impossible later. Each match is exhaustive, so
//! that a new way to be wrong does not compile before it has its words here. What is quoted from a shoot file, or could be
//! written into it, has straight quotation marks in both languages, as it has there.

use crate::fitting::{capitalised, clean};
use crate::voice::{Voice, said};
use colour::{ColourError, CurveFault, Primary};
use light::{LightError, Misfit};
use units::{Examples, Quantity, Reason, UnitError};

/// What is wrong, and what to do about it, each without a capital at its head and a mark at its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// What is wrong.
    pub fault: String,
    /// What to do about it, where the fault does not say it already.
    pub remedy: Option<String>,
}

impl Refused {
    /// With nothing to add about what to do.
    pub(crate) fn fault(fault: String) -> Self {
        Refused { fault, remedy: None }
    }

    /// With what to do.
    pub(crate) fn remedy(self, remedy: impl Into<String>) -> Self {
        Refused {
            remedy: Some(remedy.into()),
            ..self
        }
    }

    /// Both in one clause.
    pub fn clause(&self) -> String {
        match &self.remedy {
            None => self.fault.clone(),
            Some(remedy) => format!("{}; {remedy}", self.fault),
        }
    }

    /// Both in one sentence.
    pub fn sentence(&self) -> String {
        sentence_of(&self.clause())
    }
}

/// A clause as a sentence by itself: with a capital at its head and a full stop at its end.
pub fn sentence_of(clause: &str) -> String {
    format!("{}.", capitalised(clause))
}

/// What a quantity is called: in English with its article, in German the article and the noun.
fn called(quantity: Quantity) -> (&'static str, &'static str, &'static str) {
    match quantity {
        Quantity::Length => ("a length", "eine", "Länge"),
        Quantity::Side => ("a side of a size", "eine", "Seite einer Größe"),
        Quantity::FocalLength => ("a focal length", "eine", "Brennweite"),
        Quantity::Angle => ("an angle", "ein", "Winkel"),
        Quantity::FNumber => ("an f-number", "eine", "Blendenzahl"),
        Quantity::ShutterTime => ("a shutter time", "eine", "Verschlusszeit"),
        Quantity::Time => ("a time", "eine", "Zeit"),
        Quantity::Iso => ("an ISO sensitivity", "eine", "ISO-Empfindlichkeit"),
        Quantity::Power => ("a power below full", "eine", "Teilleistung"),
        Quantity::Stops => ("a difference in stops", "ein", "Unterschied in Blenden"),
        Quantity::ExposureValue => ("an exposure value", "ein", "Lichtwert"),
        Quantity::Illuminance => ("an illuminance", "eine", "Beleuchtungsstärke"),
        Quantity::LuminousExposure => ("a luminous exposure", "eine", "Belichtung"),
        Quantity::Luminance => ("a luminance", "eine", "Leuchtdichte"),
        Quantity::LuminousIntensity => ("a luminous intensity", "eine", "Lichtstärke"),
        Quantity::FlashIntensity => ("a flash intensity", "eine", "Blitzstärke"),
        Quantity::GuideNumber => ("a guide number", "eine", "Leitzahl"),
        Quantity::Zoom => ("a flash zoom", "eine", "Zoomstellung eines Blitzes"),
        Quantity::ColourTemperature => ("a colour temperature", "eine", "Farbtemperatur"),
        Quantity::ReciprocalTemperature => (
            "a reciprocal colour temperature",
            "eine",
            "reziproke Farbtemperatur",
        ),
        Quantity::MiredShift => ("a mired shift", "eine", "Verschiebung in Mired"),
        Quantity::Duv => ("a Duv", "ein", "Duv-Wert"),
        Quantity::Ratio => ("a lighting ratio", "ein", "Verhältnis"),
    }
}

/// A quantity with its article: "a length", "eine Länge".
pub fn quantity(voice: Voice, quantity: Quantity) -> String {
    let (english, article, german) = called(quantity);
    said!(voice; "{english}"; "{article} {german}")
}

/// What something is not: behind "is not" and "cannot be" in English, behind "ist" and "kann" in German: "a length", "keine
/// Länge".
pub fn no_quantity(voice: Voice, quantity: Quantity) -> String {
    let (english, article, german) = called(quantity);
    said!(voice; "{english}"; "k{article} {german}")
}

/// Spellings that work, which are the notation of the file in every language.
pub fn examples(voice: Voice, examples: Examples) -> String {
    match examples.0 {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [most @ .., last] => {
            let most = most.join(", ");
            said!(voice; "{most} or {last}"; "{most} oder {last}")
        }
    }
}

/// The unit behind a bound of a quantity.
pub fn unit(voice: Voice, quantity: Quantity, unit: &'static str) -> &'static str {
    match quantity {
        Quantity::Stops | Quantity::Power => voice.pick(unit, " Blenden"),
        Quantity::MiredShift | Quantity::ReciprocalTemperature => voice.pick(unit, " Mired"),
        Quantity::Length
        | Quantity::Side
        | Quantity::FocalLength
        | Quantity::Angle
        | Quantity::FNumber
        | Quantity::ShutterTime
        | Quantity::Time
        | Quantity::Iso
        | Quantity::ExposureValue
        | Quantity::Illuminance
        | Quantity::LuminousExposure
        | Quantity::Luminance
        | Quantity::LuminousIntensity
        | Quantity::FlashIntensity
        | Quantity::GuideNumber
        | Quantity::Zoom
        | Quantity::ColourTemperature
        | Quantity::Duv
        | Quantity::Ratio => unit,
    }
}

/// That a text is no such quantity; [`reason`] says why.
pub fn not_understood(voice: Voice, text: &str, of: Quantity) -> String {
    let no = no_quantity(voice, of);
    said!(voice; "{text} is not {no}"; "{text} ist {no}")
}

/// That no such quantity can be; the range says why.
pub fn not_possible(voice: Voice, text: &str, of: Quantity) -> String {
    let (english, _, german) = called(of);
    said!(voice; "{text} is not possible as {english}"; "{text} ist als {german} nicht möglich")
}

/// Why a text is no such quantity.
pub fn reason(voice: Voice, reason: &Reason) -> String {
    match reason {
        Reason::ShiftWithoutSign => {
            said!(voice; "a shift needs its sign: + is warmer, - is cooler"; "eine Verschiebung braucht ihr Vorzeichen: + ist wärmer, - ist kühler")
        }
        Reason::TooMuch(rest) => {
            said!(voice; "\"{rest}\" is one thing too many"; "\"{rest}\" ist eins zu viel")
        }
        Reason::NoFStop => said!(voice; "it must begin with f/"; "muss mit f/ beginnen"),
        Reason::NoIso => said!(voice; "it must begin with ISO"; "muss mit ISO beginnen"),
        Reason::NoZoomWord => said!(voice; "it must begin with zoom"; "muss mit zoom beginnen"),
        Reason::NoGn => said!(voice; "it must begin with GN"; "muss mit GN beginnen"),
        Reason::SecondsOrFraction(number) => {
            said!(voice; "it could be 1/{number} or {number} s"; "könnte 1/{number} oder {number} s heißen")
        }
        Reason::NotSeconds(unit) => {
            said!(voice; "\"{unit}\" is not seconds"; "\"{unit}\" sind keine Sekunden")
        }
        Reason::DividedByZero => {
            said!(voice; "nothing can be divided by zero"; "durch null lässt sich nicht teilen")
        }
        Reason::PowerWithoutOne => said!(voice; "a power begins with 1/"; "eine Leistung beginnt mit 1/"),
        Reason::NotAPowerStep(step) => {
            said!(voice; "1/{step} is not a step of a flash; the steps are 1/1, 1/2, 1/4, 1/8 and so on"; "1/{step} ist keine Stufe eines Blitzes; die Stufen sind 1/1, 1/2, 1/4, 1/8 und so weiter")
        }
        Reason::PartWithoutSign(part) => {
            said!(voice; "\"{part}\" needs + or - before it"; "\"{part}\" braucht + oder - davor")
        }
        Reason::PartTooLarge => {
            said!(voice; "the part after the step is at most one stop"; "der Teil hinter der Stufe ist höchstens eine Blende")
        }
        Reason::MoreThanFull => {
            said!(voice; "no flash gives more than full power, 1/1"; "kein Blitz gibt mehr als volle Leistung, 1/1")
        }
        Reason::NoZoom => {
            said!(voice; "the zoom it holds for is missing"; "der Zoom fehlt, für den sie gilt")
        }
        Reason::MetresOrFeet => {
            said!(voice; "metres or feet? The unit is missing"; "Meter oder Fuß? Die Einheit fehlt")
        }
        Reason::NeitherMetresNorFeet(unit) => {
            said!(voice; "\"{unit}\" is neither m nor ft"; "\"{unit}\" ist weder m noch ft")
        }
        Reason::NoBasis => {
            said!(voice; "say (claimed) or (measured)"; "(claimed) oder (measured) dazuschreiben")
        }
        Reason::UnknownBasis(basis) => {
            said!(voice; "\"{basis}\" is neither claimed nor measured"; "\"{basis}\" ist weder claimed noch measured")
        }
        Reason::NotASizeOfSides(count) => {
            said!(voice; "two or three numbers with x between them are needed, not {count}"; "nötig sind zwei oder drei Zahlen mit x dazwischen, nicht {count}")
        }
        Reason::NoNumberBesideX => {
            said!(voice; "a number is missing beside an x"; "neben einem x fehlt eine Zahl")
        }
        Reason::NoLastUnit => {
            said!(voice; "the unit is missing after the last number"; "hinter der letzten Zahl fehlt die Einheit")
        }
        Reason::SomeUnits => {
            said!(voice; "give one unit at the end, or a unit after every number"; "eine Einheit am Ende nennen, oder eine hinter jeder Zahl")
        }
        Reason::FeetAndInchesOnce => {
            said!(voice; "feet with inches need the unit after every number"; "Fuß mit Zoll brauchen die Einheit hinter jeder Zahl")
        }
        Reason::NoUnit => said!(voice; "the unit is missing"; "die Einheit fehlt"),
        Reason::NotALengthUnit(unit) => {
            said!(voice; "\"{unit}\" is not a unit of length"; "\"{unit}\" ist keine Längeneinheit")
        }
        Reason::NotItsUnit(unit) => {
            said!(voice; "\"{unit}\" is not a unit of it"; "\"{unit}\" ist keine Einheit dafür")
        }
        Reason::NoInchMark => {
            said!(voice; "the second number needs \"in\" after it"; "hinter die zweite Zahl gehört \"in\"")
        }
        Reason::TwelveInches => {
            said!(voice; "twelve inches or more are written as a foot"; "zwölf Zoll und mehr schreibt man als Fuß")
        }
        Reason::NoColon => {
            said!(voice; "two numbers with a colon between them are needed"; "nötig sind zwei Zahlen mit einem Doppelpunkt dazwischen")
        }
        Reason::RatioToNothing => {
            said!(voice; "the second number must be more than nothing"; "die zweite Zahl muss mehr als nichts sein")
        }
        Reason::SmallerFirst => said!(voice; "the larger number comes first"; "die größere Zahl steht vorn"),
        Reason::Nothing => said!(voice; "nothing is written"; "hier steht nichts"),
        Reason::NoNumberFirst => {
            said!(voice; "it does not begin with a number"; "beginnt nicht mit einer Zahl")
        }
        Reason::DecimalComma => {
            said!(voice; "decimals are written with a point, and thousands without a mark"; "Dezimalen stehen hinter einem Punkt, Tausender ohne Zeichen")
        }
        Reason::NotANumber(number) => {
            said!(voice; "\"{number}\" is not a number"; "\"{number}\" ist keine Zahl")
        }
        Reason::NoEv => said!(voice; "the letters EV are missing"; "die Buchstaben EV fehlen"),
    }
}

/// A quantity that cannot be, which came out of a calculation or was written somewhere.
pub(crate) fn of_a_quantity(voice: Voice, error: &UnitError) -> Refused {
    match error {
        UnitError::NotUnderstood {
            quantity,
            given,
            reason: why,
            example,
        } => {
            let fault = not_understood(voice, &format!("\"{}\"", clean(given)), *quantity);
            let (why, like) = (reason(voice, why), examples(voice, *example));
            Refused::fault(format!("{fault}: {why}"))
                .remedy(said!(voice; "write it like {like}"; "schreib es so: {like}"))
        }
        UnitError::OutOfRange {
            quantity,
            given,
            lowest,
            highest,
            unit: of,
            ..
        } => {
            let of = unit(voice, *quantity, of);
            let [given, lowest, highest] =
                [given, lowest, highest].map(|number| format!("{}{of}", voice.written(*number)));
            let fault = not_possible(voice, &given, *quantity);
            Refused::fault(said!(
                voice;
                "{fault}: it must be between {lowest} and {highest}";
                "{fault}: Der Wert muss zwischen {lowest} und {highest} liegen"
            ))
            .remedy(far_from_ordinary(voice))
        }
        UnitError::NotFinite { quantity: of, .. } => {
            let one = quantity(voice, *of);
            Refused::fault(said!(
                voice;
                "a calculation went wrong: {one} came to no ordinary number";
                "eine Rechnung ging nicht auf: Für {one} kam keine gewöhnliche Zahl heraus"
            ))
            .remedy(far_from_ordinary(voice))
        }
    }
}

/// Where to look for what led a calculation astray.
fn far_from_ordinary(voice: Voice) -> &'static str {
    voice.pick(
        "look for a size or a strength that is far from ordinary",
        "such nach einer Größe oder Stärke, die weit vom Üblichen liegt",
    )
}

/// Why a total of light does not go with a guide number.
fn misfit(voice: Voice, misfit: Misfit) -> &'static str {
    match misfit {
        Misfit::TooMuch => voice.pick(
            "the light would have to be spread wider than the whole front of the head",
            "Das Licht müsste breiter gestreut sein als die ganze Front des Kopfs",
        ),
        Misfit::TooLittle => voice.pick(
            "even a beam far narrower than the zoom says holds more light",
            "Selbst ein viel engerer Strahl, als der Zoom sagt, enthält mehr Licht",
        ),
    }
}

/// A flash or a sky that cannot be. Guide numbers are in metres by convention.
pub fn light(voice: Voice, error: &LightError) -> Refused {
    match error {
        LightError::NoGuideNumber => Refused::fault(
            voice
                .pick(
                    "this flash has no guide number, so its strength is unknown",
                    "dieser Blitz hat keine Leitzahl, seine Stärke ist also unbekannt",
                )
                .to_owned(),
        )
        .remedy(voice.pick(
            "give at least one, such as \"GN 36 m at zoom 50 (measured)\"",
            "gib mindestens eine an, etwa \"GN 36 m at zoom 50 (measured)\"",
        )),
        LightError::Colour(error) => {
            let Refused { fault, remedy } = colour(voice, error);
            let whole = capitalised(&fault);
            let fault = said!(
                voice;
                "the colour of a light cannot be made: {fault}";
                "die Farbe eines Lichts lässt sich nicht bilden: {whole}"
            );
            Refused { fault, remedy }
        }
        LightError::RepeatedZoom { zoom } => {
            let zoom = voice.written(*zoom);
            Refused::fault(said!(
                voice;
                "two guide numbers are given for zoom {zoom}";
                "für Zoom {zoom} sind zwei Leitzahlen angegeben"
            ))
            .remedy(voice.pick("keep one of them", "behalte eine davon"))
        }
        LightError::FallingGuideNumber {
            wide,
            wide_zoom,
            long,
            long_zoom,
        } => {
            let [wide, long] = [wide, long].map(|number| voice.plain(*number, 0));
            let [wide_zoom, long_zoom] = [wide_zoom, long_zoom].map(|zoom| voice.written(*zoom));
            Refused::fault(said!(
                voice;
                "the guide number falls from {wide} m at zoom {wide_zoom} to {long} m at zoom {long_zoom}";
                "die Leitzahl fällt von {wide} m bei Zoom {wide_zoom} auf {long} m bei Zoom {long_zoom}"
            ))
            .remedy(voice.pick(
                "a narrower beam is stronger, so one of the two is mistyped: check them against the table in the flash's manual",
                "ein engerer Strahl ist stärker, also ist eine der beiden vertippt: vergleiche sie mit der Tabelle in der \
                 Anleitung des Blitzes",
            ))
        }
        LightError::ZoomOutOfRange { asked, from, to } => {
            let [asked, from, to] = [asked, from, to].map(|zoom| voice.written(*zoom));
            Refused::fault(said!(
                voice;
                "this flash zooms from {from} to {to} mm, so zoom {asked} cannot be set";
                "dieser Blitz zoomt von {from} bis {to} mm, Zoom {asked} lässt sich also nicht einstellen"
            ))
        }
        LightError::TotalDoesNotFit {
            guide, zoom, reason, ..
        } => {
            let (guide, zoom) = (voice.plain(*guide, 0), voice.written(*zoom));
            let why = misfit(voice, *reason);
            Refused::fault(said!(
                voice;
                "the total light does not go with GN {guide} m at zoom {zoom}: {why}";
                "das Gesamtlicht passt nicht zu Leitzahl {guide} bei Zoom {zoom}: {why}"
            ))
            .remedy(voice.pick(
                "one of the two is mistyped",
                "eine der beiden Angaben ist vertippt",
            ))
        }
        LightError::OutsideTheYears => Refused::fault(
            voice
                .pick(
                    "sun and moon are worked out from 1900 to 2100, for dates and times that exist",
                    "Sonne und Mond werden von 1900 bis 2100 berechnet, für Tage und Zeiten, die es gibt",
                )
                .to_owned(),
        ),
        LightError::NotOnEarth {
            latitude_deg,
            longitude_deg,
        } => {
            let [latitude, longitude] = [latitude_deg, longitude_deg].map(|degrees| voice.written(*degrees));
            Refused::fault(said!(
                voice;
                "latitude {latitude}, longitude {longitude} is nowhere on Earth";
                "Breite {latitude}, Länge {longitude} liegt nirgends auf der Erde"
            ))
            .remedy(voice.pick(
                "latitudes go from −90 to 90, longitudes from −180 to 180 degrees",
                "Breiten gehen von −90 bis 90, Längen von −180 bis 180 Grad",
            ))
        }
        LightError::NoSuchSky(number) => Refused::fault(said!(
            voice;
            "there is no standard sky {number}";
            "einen Normhimmel {number} gibt es nicht"
        ))
        .remedy(voice.pick(
            "the standard has 1 to 15, and 16 is the traditional overcast sky",
            "die Norm hat 1 bis 15, und 16 ist der herkömmliche bedeckte Himmel",
        )),
    }
}

/// A colour that cannot be.
pub fn colour(voice: Voice, error: &ColourError) -> Refused {
    match error {
        ColourError::NotAReflectance { band, value } => {
            let value = voice.written(*value);
            Refused::fault(said!(
                voice;
                "a reflectance must lie between 0 and 1 in every band, but band {band} is {value}";
                "ein Reflexionsgrad muss in jedem Band zwischen 0 und 1 liegen, aber Band {band} hat {value}"
            ))
        }
        ColourError::NotAColour { channel, value } => {
            let channel = match channel {
                Primary::Red => voice.pick("red", "Rot"),
                Primary::Green => voice.pick("green", "Grün"),
                Primary::Blue => voice.pick("blue", "Blau"),
            };
            let value = voice.written(*value);
            Refused::fault(said!(
                voice;
                "each part of a linear RGB reflectance must lie between 0 and 1, but the {channel} part is {value}";
                "jeder Teil eines linearen RGB-Reflexionsgrads muss zwischen 0 und 1 liegen, aber {channel} hat {value}"
            ))
        }
        ColourError::NoReflectance(rgb) => {
            let [r, g, b] = rgb.map(|part| voice.written(part));
            Refused::fault(said!(
                voice;
                "no smooth reflectance was found for linear RGB ({r}; {g}; {b})";
                "für das lineare RGB ({r}; {g}; {b}) fand sich kein glatter Reflexionsgrad"
            ))
            .remedy(voice.pick(
                "a less saturated colour may do",
                "eine weniger gesättigte Farbe mag gehen",
            ))
        }
        ColourError::OutsideDaylight(kelvin) => {
            let kelvin = voice.written(*kelvin);
            Refused::fault(said!(
                voice;
                "the daylight series holds from 4000 K to 25000 K, and {kelvin} K is outside";
                "die Tageslichtreihe gilt von 4000 K bis 25000 K, und {kelvin} K liegt außerhalb"
            ))
            .remedy(voice.pick("use a lamp colour instead", "nimm stattdessen eine Lampenfarbe"))
        }
        ColourError::NoSuchLight { kelvin, duv } => {
            let [kelvin, duv] = [kelvin, duv].map(|number| voice.written(*number));
            Refused::fault(said!(
                voice;
                "no light of {kelvin} K with Duv {duv} could be made";
                "ein Licht von {kelvin} K mit Duv {duv} lässt sich nicht bilden"
            ))
            .remedy(voice.pick(
                "Duv between −0.02 and +0.02 is usual for lamps",
                "bei Lampen ist ein Duv zwischen −0,02 und +0,02 üblich",
            ))
        }
        ColourError::BadCurve(fault) => {
            let fault = curve(voice, *fault);
            Refused::fault(said!(
                voice;
                "a spectral curve needs at least two points with rising wavelengths and finite values: {fault}";
                "eine Spektralkurve braucht mindestens zwei Punkte mit steigenden Wellenlängen und endlichen Werten: {fault}"
            ))
        }
        ColourError::NoLight => Refused::fault(
            voice
                .pick(
                    "a light needs some power between 400 and 700 nm and none below zero",
                    "ein Licht braucht etwas Leistung zwischen 400 und 700 nm und keine unter null",
                )
                .to_owned(),
        ),
        ColourError::NotASkinTone { written, known } => {
            let written = clean(written);
            Refused::fault(said!(
                voice;
                "\"{written}\" is not a skin tone";
                "\"{written}\" ist kein Hautton"
            ))
            .remedy(said!(voice; "the tones are {known}"; "die Töne sind {known}"))
        }
        ColourError::OutsideSkin(lightness, from, to) => {
            let [lightness, from, to] = [lightness, from, to].map(|number| voice.written(*number));
            Refused::fault(said!(
                voice;
                "skin of lightness L* {lightness} is beyond what the data and the model cover, {from} to {to}";
                "Haut der Helligkeit L* {lightness} liegt außerhalb dessen, was Daten und Modell abdecken, {from} bis {to}"
            ))
        }
    }
}

/// What is wrong with the points of a curve.
fn curve(voice: Voice, fault: CurveFault) -> &'static str {
    match fault {
        CurveFault::NotAsManyValues => voice.pick(
            "there are not as many values as wavelengths",
            "Es sind nicht so viele Werte wie Wellenlängen",
        ),
        CurveFault::TooFewPoints => voice.pick(
            "there are fewer than two points",
            "Es sind weniger als zwei Punkte",
        ),
        CurveFault::NotFinite => voice.pick(
            "some number is missing or infinite",
            "Eine Zahl fehlt oder ist unendlich",
        ),
        CurveFault::NotRising => voice.pick("the wavelengths do not rise", "Die Wellenlängen steigen nicht"),
    }
}
