//! What the crates below refuse, in every language at once.
//!
//! What can be refused elsewhere too is worded there ([`sheet::refusals`]) and only collected here. What is wrong with the curve
//! of a gel is found nowhere but in a shoot file, and has its words here.

use super::words::Words;
use crate::both;
use colour::ColourError;
use light::{GelCurveFault, GelError, LightError};
use sheet::Voice;
use sheet::refusals::{self, Refused};
use units::{Examples, Quantity, Reason, UnitError};

/// What is said with the voice of each language.
fn in_each(say: impl Fn(Voice) -> String) -> Words {
    Words::in_each(|language| say(Voice::new(language, false)))
}

/// A quantity with its article.
pub(crate) fn quantity(quantity: Quantity) -> Words {
    in_each(|voice| refusals::quantity(voice, quantity))
}

/// What something is not, or cannot be.
pub(crate) fn no_quantity(quantity: Quantity) -> Words {
    in_each(|voice| refusals::no_quantity(voice, quantity))
}

/// Spellings that work.
pub(crate) fn examples(examples: Examples) -> Words {
    in_each(|voice| refusals::examples(voice, examples))
}

/// The unit behind a bound of a quantity.
pub(crate) fn unit(quantity: Quantity, unit: &'static str) -> Words {
    in_each(|voice| refusals::unit(voice, quantity, unit).to_owned())
}

/// That a text is no such quantity.
pub(crate) fn not_understood(text: &str, quantity: Quantity) -> Words {
    in_each(|voice| refusals::not_understood(voice, text, quantity))
}

/// That no such quantity can be.
pub(crate) fn not_possible(text: &str, quantity: Quantity) -> Words {
    in_each(|voice| refusals::not_possible(voice, text, quantity))
}

/// Why a text is no such quantity.
pub(crate) fn reason(reason: &Reason) -> Words {
    in_each(|voice| refusals::reason(voice, reason))
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

/// A light that cannot be built: what is wrong, and what to do where that is known.
pub(crate) fn light(error: &LightError) -> (Words, Words) {
    let told = |voice| refusals::light(voice, error);
    (
        in_each(|voice| told(voice).fault),
        in_each(|voice| remedy(&told(voice))),
    )
}

/// What to do, as a sentence; nothing where the fault says it already.
fn remedy(refused: &Refused) -> String {
    refused
        .remedy
        .as_deref()
        .map_or_else(String::new, refusals::sentence_of)
}

/// A colour that cannot be, with what to do in the same sentence.
fn colour(error: &ColourError) -> Words {
    in_each(|voice| refusals::colour(voice, error).clause())
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
