//! What the crates below refuse, in the words of this one.
//!
//! Those crates say in types what is wrong, because they do not know who reads it. Each match is exhaustive, so that a new way
//! to be wrong does not compile before it has its words here.

use super::words::{Noun, Words};
use crate::both;
use colour::{ColourError, CurveFault, Primary};
use light::{GelCurveFault, GelError, LightError, Misfit};
use units::{Examples, Quantity, Reason, UnitError};

/// A quantity with its article.
pub(crate) fn quantity(quantity: Quantity) -> Noun {
    match quantity {
        Quantity::Length => Noun::eine("a length", "Länge"),
        Quantity::Side => Noun::eine("a side of a size", "Seite einer Größe"),
        Quantity::FocalLength => Noun::eine("a focal length", "Brennweite"),
        Quantity::Angle => Noun::ein("an angle", "Winkel"),
        Quantity::FNumber => Noun::eine("an f-number", "Blendenzahl"),
        Quantity::ShutterTime => Noun::eine("a shutter time", "Belichtungszeit"),
        Quantity::Time => Noun::eine("a time", "Zeit"),
        Quantity::Iso => Noun::eine("an ISO sensitivity", "ISO-Empfindlichkeit"),
        Quantity::Power => Noun::eine("a power below full", "Teilleistung"),
        Quantity::Stops => Noun::ein("a difference in stops", "Unterschied in Blenden"),
        Quantity::ExposureValue => Noun::ein("an exposure value", "Lichtwert"),
        Quantity::Illuminance => Noun::eine("an illuminance", "Beleuchtungsstärke"),
        Quantity::LuminousExposure => Noun::eine("a luminous exposure", "Belichtung"),
        Quantity::Luminance => Noun::eine("a luminance", "Leuchtdichte"),
        Quantity::LuminousIntensity => Noun::eine("a luminous intensity", "Lichtstärke"),
        Quantity::FlashIntensity => Noun::eine("a flash intensity", "Blitzstärke"),
        Quantity::GuideNumber => Noun::eine("a guide number", "Leitzahl"),
        Quantity::Zoom => Noun::eine("a flash zoom", "Zoomstellung eines Blitzes"),
        Quantity::ColourTemperature => Noun::eine("a colour temperature", "Farbtemperatur"),
        Quantity::ReciprocalTemperature => {
            Noun::eine("a reciprocal colour temperature", "reziproke Farbtemperatur")
        }
        Quantity::MiredShift => Noun::eine("a mired shift", "Verschiebung in Mired"),
        Quantity::Duv => Noun::ein("a Duv", "Duv-Wert"),
        Quantity::Ratio => Noun::ein("a lighting ratio", "Beleuchtungskontrast"),
    }
}

/// Spellings that work, which are the notation of the file in every language.
pub(crate) fn examples(examples: Examples) -> Words {
    match examples.0 {
        [] => Words::default(),
        [only] => Words::same(*only),
        [most @ .., last] => {
            let most = most.join(", ");
            both!("{most} or {last}"; "{most} oder {last}")
        }
    }
}

/// The unit behind a bound of a quantity.
pub(crate) fn unit(quantity: Quantity, unit: &'static str) -> Words {
    match quantity {
        Quantity::Stops | Quantity::Power => both!("{unit}"; " Blenden"),
        Quantity::MiredShift | Quantity::ReciprocalTemperature => both!("{unit}"; " Mired"),
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
        | Quantity::Ratio => Words::same(unit),
    }
}

/// Why a text is no such quantity.
pub(crate) fn reason(reason: &Reason) -> Words {
    match reason {
        Reason::ShiftWithoutSign => both!(
            "a shift needs its sign: + is warmer, - is cooler";
            "eine Verschiebung braucht ihr Vorzeichen: + ist wärmer, - ist kühler"
        ),
        Reason::TooMuch(rest) => both!("\"{rest}\" is one thing too many"; "\"{rest}\" ist eins zu viel"),
        Reason::NoFStop => both!("it must begin with f/"; "muss mit f/ beginnen"),
        Reason::NoIso => both!("it must begin with ISO"; "muss mit ISO beginnen"),
        Reason::NoZoomWord => both!("it must begin with zoom"; "muss mit zoom beginnen"),
        Reason::NoGn => both!("it must begin with GN"; "muss mit GN beginnen"),
        Reason::SecondsOrFraction(number) => both!(
            "it could be 1/{number} or {number} s";
            "könnte 1/{number} oder {number} s heißen"
        ),
        Reason::NotSeconds(unit) => both!("\"{unit}\" is not seconds"; "\"{unit}\" sind keine Sekunden"),
        Reason::DividedByZero => both!(
            "nothing can be divided by zero";
            "durch null lässt sich nicht teilen"
        ),
        Reason::PowerWithoutOne => both!("a power begins with 1/"; "eine Leistung beginnt mit 1/"),
        Reason::NotAPowerStep(step) => both!(
            "1/{step} is not a step of a flash; the steps are 1/1, 1/2, 1/4, 1/8 and so on";
            "1/{step} ist keine Stufe eines Blitzes; die Stufen sind 1/1, 1/2, 1/4, 1/8 und so weiter"
        ),
        Reason::PartWithoutSign(part) => both!(
            "\"{part}\" needs + or - before it";
            "\"{part}\" braucht + oder - davor"
        ),
        Reason::PartTooLarge => both!(
            "the part after the step is at most one stop";
            "der Teil hinter der Stufe ist höchstens eine Blende"
        ),
        Reason::MoreThanFull => both!(
            "no flash gives more than full power, 1/1";
            "kein Blitz gibt mehr als volle Leistung, 1/1"
        ),
        Reason::NoZoom => both!(
            "the zoom it holds for is missing";
            "der Zoom fehlt, für den sie gilt"
        ),
        Reason::MetresOrFeet => both!(
            "metres or feet? The unit is missing";
            "Meter oder Fuß? Die Einheit fehlt"
        ),
        Reason::NeitherMetresNorFeet(unit) => both!(
            "\"{unit}\" is neither m nor ft";
            "\"{unit}\" ist weder m noch ft"
        ),
        Reason::NoBasis => both!(
            "say (claimed) or (measured)";
            "(claimed) oder (measured) dazuschreiben"
        ),
        Reason::UnknownBasis(basis) => both!(
            "\"{basis}\" is neither claimed nor measured";
            "\"{basis}\" ist weder claimed noch measured"
        ),
        Reason::NotASizeOfSides(count) => both!(
            "two or three numbers with x between them are needed, not {count}";
            "nötig sind zwei oder drei Zahlen mit x dazwischen, nicht {count}"
        ),
        Reason::NoNumberBesideX => both!(
            "a number is missing beside an x";
            "neben einem x fehlt eine Zahl"
        ),
        Reason::NoLastUnit => both!(
            "the unit is missing after the last number";
            "hinter der letzten Zahl fehlt die Einheit"
        ),
        Reason::SomeUnits => both!(
            "give one unit at the end, or a unit after every number";
            "eine Einheit am Ende nennen, oder eine hinter jeder Zahl"
        ),
        Reason::FeetAndInchesOnce => both!(
            "feet with inches need the unit after every number";
            "Fuß mit Zoll brauchen die Einheit hinter jeder Zahl"
        ),
        Reason::NoUnit => both!("the unit is missing"; "die Einheit fehlt"),
        Reason::NotALengthUnit(unit) => both!(
            "\"{unit}\" is not a unit of length";
            "\"{unit}\" ist keine Längeneinheit"
        ),
        Reason::NotItsUnit(unit) => both!(
            "\"{unit}\" is not a unit of it";
            "\"{unit}\" ist keine Einheit dafür"
        ),
        Reason::NoInchMark => both!(
            "the second number needs \"in\" after it";
            "hinter die zweite Zahl gehört \"in\""
        ),
        Reason::TwelveInches => both!(
            "twelve inches or more are written as a foot";
            "zwölf Zoll und mehr schreibt man als Fuß"
        ),
        Reason::NoColon => both!(
            "two numbers with a colon between them are needed";
            "nötig sind zwei Zahlen mit einem Doppelpunkt dazwischen"
        ),
        Reason::RatioToNothing => both!(
            "the second number must be more than nothing";
            "die zweite Zahl muss mehr als nichts sein"
        ),
        Reason::SmallerFirst => both!("the larger number comes first"; "die größere Zahl steht vorn"),
        Reason::Nothing => both!("nothing is written"; "hier steht nichts"),
        Reason::NoNumberFirst => both!(
            "it does not begin with a number";
            "beginnt nicht mit einer Zahl"
        ),
        Reason::DecimalComma => both!(
            "decimals are written with a point, and thousands without a mark";
            "Dezimalen stehen hinter einem Punkt, Tausender ohne Zeichen"
        ),
        Reason::NotANumber(number) => both!("\"{number}\" is not a number"; "\"{number}\" ist keine Zahl"),
        Reason::NoEv => both!("the letters EV are missing"; "die Buchstaben EV fehlen"),
    }
}

/// A quantity that cannot be, where only the reason is told.
pub(crate) fn of_a_side(error: &UnitError) -> Words {
    match error {
        UnitError::NotUnderstood { reason: why, .. } => reason(why).each(super::quoting::shorten),
        UnitError::OutOfRange { .. } => both!(
            "a side must be more than nothing and less than 10 km";
            "eine Seite muss mehr als nichts und weniger als 10 km messen"
        ),
        UnitError::NotFinite { .. } => both!(
            "a side is not an ordinary number";
            "eine Seite ist keine gewöhnliche Zahl"
        ),
    }
}

/// Why a total of light does not go with a guide number.
pub(crate) fn misfit(misfit: Misfit) -> Words {
    match misfit {
        Misfit::TooMuch => both!(
            "the light would have to be spread wider than the whole front of the head";
            "das Licht müsste breiter gestreut sein als die ganze Front des Kopfs"
        ),
        Misfit::TooLittle => both!(
            "even a beam far narrower than the zoom says holds more light";
            "selbst ein viel engerer Strahl, als der Zoom sagt, enthält mehr Licht"
        ),
    }
}

/// A light that cannot be built.
pub(crate) fn light(error: &LightError) -> Words {
    match error {
        LightError::NoGuideNumber => both!(
            "this flash has no guide number, so its strength is unknown; give at least one, such as \"GN 36 m at zoom 50 (measured)\"";
            "dieser Blitz hat keine Leitzahl, seine Stärke ist also unbekannt; mindestens eine angeben, etwa \"GN 36 m at zoom 50 (measured)\""
        ),
        LightError::Colour(error) => colour(error),
        LightError::RepeatedZoom { zoom } => both!(
            "two guide numbers are given for zoom {}", zoom;
            "für Zoom {} sind zwei Leitzahlen angegeben"
        ),
        LightError::FallingGuideNumber {
            wide,
            wide_zoom,
            long,
            long_zoom,
        } => both!(
            "the guide number falls from {wide:.0} m at zoom {} to {long:.0} m at zoom {}", wide_zoom, long_zoom;
            "die Leitzahl fällt von {wide:.0} m bei Zoom {} auf {long:.0} m bei Zoom {}"
        ),
        LightError::ZoomOutOfRange { asked, from, to } => both!(
            "this flash zooms from {} to {} mm, so zoom {} cannot be set", from, to, asked;
            "dieser Blitz zoomt von {} bis {} mm, Zoom {} lässt sich also nicht einstellen"
        ),
        LightError::TotalDoesNotFit { zoom, reason, .. } => both!(
            "the total light does not go with the guide number at zoom {}: {}", zoom, misfit(*reason);
            "das Gesamtlicht passt nicht zur Leitzahl bei Zoom {}: {}"
        ),
        LightError::OutsideTheYears => both!(
            "sun and moon are worked out from 1900 to 2100, for dates and times that exist";
            "Sonne und Mond werden von 1900 bis 2100 berechnet, für Tage und Zeiten, die es gibt"
        ),
        LightError::NotOnEarth {
            latitude_deg,
            longitude_deg,
        } => both!(
            "latitude {}, longitude {} is nowhere on Earth; latitudes go from -90 to 90, longitudes from -180 to 180 degrees",
            latitude_deg, longitude_deg;
            "Breite {}, Länge {} liegt nirgends auf der Erde; Breiten gehen von -90 bis 90, Längen von -180 bis 180 Grad"
        ),
        LightError::NoSuchSky(number) => both!(
            "there is no standard sky {number}; the standard has 1 to 15, and 16 is the traditional overcast sky";
            "einen Standardhimmel {number} gibt es nicht; die Norm hat 1 bis 15, und 16 ist der hergebrachte bedeckte Himmel"
        ),
    }
}

/// A colour that cannot be.
pub(crate) fn colour(error: &ColourError) -> Words {
    match error {
        ColourError::NotAReflectance { band, value } => both!(
            "a reflectance must lie between 0 and 1 in every band, but band {} is {}", band, value;
            "ein Reflexionsgrad muss in jedem Band zwischen 0 und 1 liegen, aber Band {} hat {}"
        ),
        ColourError::NotAColour { channel, value } => {
            let channel = match channel {
                Primary::Red => both!("red"; "Rot"),
                Primary::Green => both!("green"; "Grün"),
                Primary::Blue => both!("blue"; "Blau"),
            };
            both!(
                "each part of a linear RGB reflectance must lie between 0 and 1, but the {} part is {}", channel, value;
                "jeder Teil eines linearen RGB-Reflexionsgrads muss zwischen 0 und 1 liegen, aber {} hat {}"
            )
        }
        ColourError::NoReflectance([r, g, b]) => both!(
            "no smooth reflectance was found for linear RGB ({r}, {g}, {b}); a less saturated colour may do";
            "für das lineare RGB ({r}, {g}, {b}) fand sich kein glatter Reflexionsgrad; eine weniger gesättigte Farbe mag gehen"
        ),
        ColourError::OutsideDaylight(kelvin) => both!(
            "the daylight series holds from 4000 K to 25000 K, and {} K is outside; use a lamp colour instead", kelvin;
            "die Tageslichtreihe gilt von 4000 K bis 25000 K, und {} K liegt außerhalb; stattdessen eine Lampenfarbe nehmen"
        ),
        ColourError::NoSuchLight { kelvin, duv } => both!(
            "no light of {} K with Duv {} could be made; Duv between -0.02 and +0.02 is usual for lamps", kelvin, duv;
            "ein Licht von {} K mit Duv {} lässt sich nicht bilden; bei Lampen ist ein Duv zwischen -0,02 und +0,02 üblich"
        ),
        ColourError::BadCurve(fault) => {
            let fault = match fault {
                CurveFault::NotAsManyValues => both!(
                    "there are not as many values as wavelengths";
                    "es sind nicht so viele Werte wie Wellenlängen"
                ),
                CurveFault::TooFewPoints => both!(
                    "there are fewer than two points";
                    "es sind weniger als zwei Punkte"
                ),
                CurveFault::NotFinite => both!(
                    "some number is missing or infinite";
                    "eine Zahl fehlt oder ist unendlich"
                ),
                CurveFault::NotRising => both!(
                    "the wavelengths do not rise";
                    "die Wellenlängen steigen nicht"
                ),
            };
            both!(
                "a spectral curve needs at least two points with rising wavelengths and finite values: {}", fault;
                "eine Spektralkurve braucht mindestens zwei Punkte mit steigenden Wellenlängen und endlichen Werten: {}"
            )
        }
        ColourError::NoLight => both!(
            "a light needs some power between 400 and 700 nm and none below zero";
            "ein Licht braucht etwas Leistung zwischen 400 und 700 nm und keine unter null"
        ),
        ColourError::NotASkinTone { written, known } => both!(
            "\"{written}\" is not a skin tone; the tones are {known}";
            "\"{written}\" ist kein Hautton; die Töne sind {known}"
        ),
        ColourError::OutsideSkin(lightness, from, to) => both!(
            "skin of lightness L* {} is beyond what the data and the model cover, {} to {}", lightness, from, to;
            "Haut der Helligkeit L* {} liegt außerhalb dessen, was Daten und Modell abdecken, {} bis {}"
        ),
    }
}

/// What is wrong with a measured curve of a gel, and what to do about it.
pub(crate) fn gel_curve(fault: &GelCurveFault) -> (Words, Words) {
    let numbers = || both!("Check the numbers."; "Die Zahlen prüfen.");
    let reach = || {
        both!(
            "It must reach from 400 to 700 nm; measure the rest, or use a named gel.";
            "Sie muss von 400 bis 700 nm reichen; den Rest messen, oder eine benannte Folie nehmen."
        )
    };
    match fault {
        GelCurveFault::TooShort => (
            both!(
                "there are fewer than two rows of numbers";
                "es sind weniger als zwei Zeilen mit Zahlen"
            ),
            both!(
                "Write a wavelength in nm and a transmittance on each line, such as  550,0.83";
                "In jede Zeile eine Wellenlänge in nm und einen Transmissionsgrad schreiben, etwa  550,0.83"
            ),
        ),
        GelCurveFault::BeginsLate(nm) => (
            both!("the curve begins at {} nm", nm; "die Kurve beginnt bei {} nm"),
            reach(),
        ),
        GelCurveFault::EndsEarly(nm) => (
            both!("the curve ends at {} nm", nm; "die Kurve endet bei {} nm"),
            reach(),
        ),
        GelCurveFault::NotAPair => (
            both!(
                "this is not a wavelength and a transmittance";
                "das sind nicht Wellenlänge und Transmissionsgrad"
            ),
            both!(
                "Write two numbers parted by a comma, such as  550,0.83";
                "Zwei Zahlen schreiben, durch ein Komma getrennt, etwa  550,0.83"
            ),
        ),
        GelCurveFault::TooManyRows => (
            both!(
                "there are more than {} rows", GelCurveFault::MOST_ROWS;
                "es sind mehr als {} Zeilen"
            ),
            both!(
                "One row for each nanometre is enough.";
                "Eine Zeile für jeden Nanometer genügt."
            ),
        ),
        GelCurveFault::LessThanNothing(value) => (
            both!(
                "a transmittance of {}: no gel lets through less than nothing", value;
                "ein Transmissionsgrad von {}: keine Folie lässt weniger als nichts durch"
            ),
            both!(
                "Take the dark reading off, and write 0 where nothing is left.";
                "Den Dunkelwert abziehen, und 0 schreiben, wo nichts übrig bleibt."
            ),
        ),
        GelCurveFault::MoreThanEverything(value) => (
            both!(
                "a transmittance of {}: no gel lets through more than everything, which is 1", value;
                "ein Transmissionsgrad von {}: keine Folie lässt mehr als alles durch, und das ist 1"
            ),
            both!("Divide percents by 100."; "Prozente durch 100 teilen."),
        ),
        GelCurveFault::NotLight(nm) => (
            both!(
                "{} is no wavelength of light in nm", nm;
                "{} ist keine Wellenlänge von Licht in nm"
            ),
            both!(
                "Visible light has 380 to 780 nm.";
                "Sichtbares Licht hat 380 bis 780 nm."
            ),
        ),
        GelCurveFault::NotRising { nm, before } => (
            both!("{} nm comes after {} nm", nm, before; "{} nm kommt nach {} nm"),
            both!(
                "Sort the rows by wavelength, each once.";
                "Die Zeilen nach der Wellenlänge ordnen, jede einmal."
            ),
        ),
        GelCurveFault::Hole { from, to } => (
            both!(
                "nothing is said between {} and {} nm", from, to;
                "zwischen {} und {} nm steht nichts"
            ),
            both!(
                "Give a value at least every 20 nm.";
                "Mindestens alle 20 nm einen Wert angeben."
            ),
        ),
        GelCurveFault::Curve(error) => (colour(error), numbers()),
        GelCurveFault::Gel(error) => (gel(error), numbers()),
    }
}

/// A gel that cannot be.
fn gel(error: &GelError) -> Words {
    match error {
        GelError::Unknown { name, known } => both!(
            "no gel of this family is called \"{name}\"; there are {known}";
            "keine Folie dieser Familie heißt \"{name}\"; es gibt {known}"
        ),
        GelError::NotATransmittance(value) => both!(
            "a gel lets through between nothing (0) and everything (1), not {}", value;
            "eine Folie lässt zwischen nichts (0) und allem (1) durch, nicht {}"
        ),
    }
}
