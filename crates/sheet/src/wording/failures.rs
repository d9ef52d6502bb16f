//! Why there is no answer at all.

use super::nouns::named;
use crate::fitting::clean;
use crate::voice::{Language, Voice, said};
use answer::Failure;
use light::LightError;
use scene::SceneError;
use units::UnitError;

/// Why there is no answer, and what to do about it.
pub(crate) fn failure(voice: Voice, failure: &Failure) -> String {
    match failure {
        Failure::Scene(error) => scene(voice, error),
        Failure::Light(error) => light(voice, error),
        Failure::Unit(error) => unit(voice, error),
        Failure::NoSitter => voice
            .pick(
                "There is no sitter, so there is no face to light; add at least one.",
                "Es ist keine Person da und darum kein Gesicht, das beleuchtet werden könnte; füge mindestens eine hinzu.",
            )
            .to_owned(),
        Failure::FlashOutside => voice
            .pick(
                "The flash would be outside the room; move it, or the camera it sits on, inside the walls.",
                "Der Blitz stünde außerhalb des Raums; rücke ihn oder die Kamera, auf der er sitzt, in den Raum.",
            )
            .to_owned(),
        Failure::NoLight { sitter } => {
            let sitter = named(voice, sitter).bare;
            said!(
                voice;
                "No light of this flash can reach the face of {sitter}; check where the camera and the furniture stand.";
                "Kein Licht dieses Blitzes erreicht das Gesicht von {sitter}; prüfe, wo Kamera und Möbel stehen."
            )
        }
        Failure::Stopped => voice
            .pick(
                "The work was stopped before there was an answer.",
                "Die Arbeit wurde angehalten, bevor es eine Antwort gab.",
            )
            .to_owned(),
    }
}

/// A place that cannot be built. Which thing it is stands in the scene's own words, which are English; a German sentence does
/// without them.
fn scene(voice: Voice, error: &SceneError) -> String {
    match error {
        SceneError::OutsideRoom {
            what,
            coordinate,
            value,
            limit,
        } => {
            let (what, limit) = (clean(what), voice.exact(*limit));
            // A length below zero has no spelling of its own.
            let sign = if *value < 0.0 { "−" } else { "" };
            let value = format!("{sign}{}", voice.exact(value.abs()));
            said!(
                voice;
                "Outside the room: {what}. Its {coordinate} is {value}, but the room reaches from 0 to {limit} there.";
                "Etwas steht außerhalb des Raums: bei {value}, wo der Raum von 0 bis {limit} reicht."
            )
        }
        SceneError::OpeningDoesNotFit { name, reason } => {
            let (name, reason) = (named(voice, name).bare, clean(reason));
            said!(
                voice;
                "The opening {name} does not fit its wall: {reason}.";
                "Die Öffnung {name} passt nicht in ihre Wand."
            )
        }
        SceneError::Figure { name, reason } => {
            let (name, reason) = (named(voice, name).bare, clean(reason));
            said!(
                voice;
                "The body of {name} could not be made: {reason}.";
                "Der Körper von {name} ließ sich nicht bauen."
            )
        }
        SceneError::Overlap { first, second, least } => {
            let (first, second, least) = (clean(first), clean(second), voice.about(*least));
            said!(
                voice;
                "In the same place: {first} and {second}; move one of them at least {least} away.";
                "Zwei Dinge oder Personen stehen am selben Fleck; rücke eines mindestens {least} weg."
            )
        }
    }
}

/// A flash or a sky that cannot be built. Guide numbers are in metres by convention.
fn light(voice: Voice, error: &LightError) -> String {
    match error {
        LightError::NoGuideNumber => voice
            .pick(
                "This flash has no guide number, so its strength is unknown; give at least one.",
                "Dieser Blitz hat keine Leitzahl, darum ist seine Stärke unbekannt; gib mindestens eine an.",
            )
            .to_owned(),
        LightError::RepeatedZoom { zoom } => {
            let zoom = voice.plain(*zoom, 0);
            said!(
                voice;
                "Two guide numbers are given for zoom {zoom}; keep one of them.";
                "Für Zoom {zoom} sind zwei Leitzahlen angegeben; behalte eine davon."
            )
        }
        LightError::FallingGuideNumber {
            wide,
            wide_zoom,
            long,
            long_zoom,
        } => {
            let [wide, wide_zoom, long, long_zoom] =
                [wide, wide_zoom, long, long_zoom].map(|number| voice.plain(*number, 0));
            said!(
                voice;
                "The guide number falls from {wide} at zoom {wide_zoom} to {long} at zoom {long_zoom}; zooming in makes a beam \
                 narrower and stronger, so one of the two is mistyped.";
                "Die Leitzahl fällt von {wide} bei Zoom {wide_zoom} auf {long} bei Zoom {long_zoom}; ein engerer Strahl ist \
                 stärker, also ist eine der beiden vertippt."
            )
        }
        LightError::ZoomOutOfRange { asked, from, to } => {
            let [asked, from, to] = [asked, from, to].map(|zoom| voice.plain(*zoom, 0));
            said!(
                voice;
                "This flash zooms from {from} to {to} mm, so zoom {asked} cannot be set.";
                "Dieser Blitz zoomt von {from} bis {to} mm; Zoom {asked} lässt sich nicht einstellen."
            )
        }
        LightError::TotalDoesNotFit { guide, zoom, .. } => {
            let [guide, zoom] = [guide, zoom].map(|number| voice.plain(*number, 0));
            said!(
                voice;
                "The total light of this flash cannot go with GN {guide} m at zoom {zoom}; one of the two is mistyped.";
                "Die gesamte Lichtmenge dieses Blitzes passt nicht zu Leitzahl {guide} bei Zoom {zoom}; eine der beiden ist \
                 vertippt."
            )
        }
        LightError::OutsideTheYears => voice
            .pick(
                "Sun and moon are worked out from 1900 to 2100, for dates and times that exist.",
                "Sonne und Mond werden von 1900 bis 2100 berechnet, für Tage und Zeiten, die es gibt.",
            )
            .to_owned(),
        LightError::NotOnEarth {
            latitude_deg,
            longitude_deg,
        } => {
            let [latitude, longitude] =
                [latitude_deg, longitude_deg].map(|degrees| voice.signed(*degrees, 2));
            said!(
                voice;
                "Latitude {latitude}, longitude {longitude} is nowhere on Earth.";
                "Breite {latitude}, Länge {longitude} gibt es auf der Erde nicht."
            )
        }
        LightError::NoSuchSky(number) => said!(
            voice;
            "There is no standard sky {number}; the standard has 1 to 15, and 16 is the traditional overcast sky.";
            "Einen Normhimmel {number} gibt es nicht; die Norm hat 1 bis 15, und 16 ist der herkömmliche bedeckte Himmel."
        ),
        LightError::Colour(error) => match voice.language {
            Language::English => format!(
                "The colour of a light cannot be made: {}.",
                clean(&error.to_string())
            ),
            Language::German => "Die Farbe eines Lichts lässt sich so nicht bilden.".to_owned(),
        },
    }
}

fn unit(voice: Voice, error: &UnitError) -> String {
    match error {
        UnitError::NotUnderstood { given, .. } => {
            let given = clean(given);
            said!(voice; "\"{given}\" cannot be read."; "„{given}“ ist nicht zu lesen.")
        }
        UnitError::OutOfRange { given, .. } => {
            let given = voice.signed(*given, 2);
            said!(
                voice;
                "A number left what is possible: {given}. Look for a size or a strength that is far from ordinary.";
                "Eine Zahl liegt außerhalb dessen, was möglich ist: {given}. Such nach einer Größe oder Stärke, die weit vom \
                 Üblichen liegt."
            )
        }
        UnitError::NotFinite { .. } => voice
            .pick(
                "A calculation went wrong: it came to no ordinary number. Look for a size or a strength that is far from ordinary.",
                "Eine Rechnung ging nicht auf: Heraus kam keine gewöhnliche Zahl. Such nach einer Größe oder Stärke, die weit \
                 vom Üblichen liegt.",
            )
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};

    #[test]
    fn a_failure_says_what_to_do() {
        let says =
            |of: Failure, english: &str, german: &str| check(|voice| failure(voice, &of), english, german);
        says(
            Failure::NoSitter,
            "There is no sitter, so there is no face to light; add at least one.",
            "Es ist keine Person da und darum kein Gesicht, das beleuchtet werden könnte; füge mindestens eine hinzu.",
        );
        says(
            Failure::NoLight {
                sitter: "Ottoline".to_owned(),
            },
            "No light of this flash can reach the face of Ottoline; check where the camera and the furniture stand.",
            "Kein Licht dieses Blitzes erreicht das Gesicht von „Ottoline“; prüfe, wo Kamera und Möbel stehen.",
        );
        says(
            Failure::Stopped,
            "The work was stopped before there was an answer.",
            "Die Arbeit wurde angehalten, bevor es eine Antwort gab.",
        );
        says(
            Failure::Light(LightError::ZoomOutOfRange {
                asked: 200.0,
                from: 24.0,
                to: 105.0,
            }),
            "This flash zooms from 24 to 105 mm, so zoom 200 cannot be set.",
            "Dieser Blitz zoomt von 24 bis 105 mm; Zoom 200 lässt sich nicht einstellen.",
        );
        let outside = Failure::Scene(SceneError::OutsideRoom {
            what: "the furniture \"piano\"".to_owned(),
            coordinate: "height",
            value: -0.5,
            limit: 2.6,
        });
        check_in_feet(|voice| failure(voice, &outside), &["8 ft 6"], &[" m "]);
        says(
            outside,
            "Outside the room: the furniture \"piano\". Its height is −0.5 m, but the room reaches from 0 to 2.6 m there.",
            "Etwas steht außerhalb des Raums: bei −0,5 m, wo der Raum von 0 bis 2,6 m reicht.",
        );
    }
}
