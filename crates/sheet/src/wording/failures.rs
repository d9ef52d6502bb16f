//! Why there is no answer at all.

use super::nouns::{named, quoted};
use super::refusals::{self, Refused};
use crate::fitting::clean;
use crate::voice::{Voice, said};
use answer::Failure;
use scene::figure::{BodyNumber, FigureError};
use scene::{Coordinate, Face, OpeningMisfit, Placed, SceneError};

/// Why there is no answer, and what to do about it.
pub(crate) fn failure(voice: Voice, failure: &Failure) -> String {
    match failure {
        Failure::Scene(error) => scene(voice, error).sentence(),
        Failure::Light(error) => refusals::light(voice, error).sentence(),
        Failure::Unit(error) => refusals::of_a_quantity(voice, error).sentence(),
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

/// A place that cannot be built.
fn scene(voice: Voice, error: &SceneError) -> Refused {
    match error {
        SceneError::OutsideRoom {
            what,
            coordinate,
            value,
            limit,
        } => {
            let (what, coordinate) = (placed(voice, what), coordinate_of(voice, *coordinate));
            let (value, limit) = (signed_length(voice, *value), voice.exact(*limit));
            Refused::fault(said!(
                voice;
                "{what} is outside the room: {coordinate} is {value}, but the room reaches from 0 to {limit} there";
                "{what} liegt außerhalb des Raums: {coordinate} ist {value}, aber der Raum reicht dort von 0 bis {limit}"
            ))
            .remedy(voice.pick(
                "check the position, and the size of the room",
                "prüfe die Lage und die Größe des Raums",
            ))
        }
        SceneError::OpeningDoesNotFit { name, reason } => opening(voice, name, *reason),
        SceneError::Figure { name, reason } => {
            let name = named(voice, name).bare;
            let Refused { fault, remedy } = figure(voice, reason);
            let fault = said!(
                voice;
                "the body of {name} could not be made: {fault}";
                "der Körper von {name} ließ sich nicht bilden: {fault}"
            );
            Refused { fault, remedy }
        }
        SceneError::Overlap { first, second, least } => {
            let [first, second] = [first, second].map(|name| named(voice, name).bare);
            let least = voice.about(*least);
            Refused::fault(said!(
                voice;
                "{first} and {second} are in the same place";
                "{first} und {second} stehen am selben Fleck"
            ))
            .remedy(said!(
                voice;
                "move one of them at least {least} away";
                "rücke eine der beiden Personen mindestens {least} weg"
            ))
        }
    }
}

/// What stands somewhere, by its name.
fn placed(voice: Voice, what: &Placed) -> String {
    let in_quotes = |name: &str| quoted(voice, &clean(name));
    match what {
        Placed::Furniture(name) => {
            let name = in_quotes(name);
            said!(voice; "the furniture {name}"; "das Möbel {name}")
        }
        Placed::BoardCorner(name) => {
            let name = in_quotes(name);
            said!(voice; "a corner of the board {name}"; "eine Ecke der Tafel {name}")
        }
        Placed::SitterFace(name) => {
            let name = named(voice, name).bare;
            said!(voice; "the face of {name}"; "das Gesicht von {name}")
        }
    }
}

/// What a coordinate says of a thing.
fn coordinate_of(voice: Voice, coordinate: Coordinate) -> &'static str {
    match coordinate {
        Coordinate::FromLeft => voice.pick(
            "the distance from the left wall",
            "Der Abstand von der linken Wand",
        ),
        Coordinate::FromBehindCamera => voice.pick(
            "the distance from the wall behind the camera",
            "Der Abstand von der Wand hinter der Kamera",
        ),
        Coordinate::Height => voice.pick("the height", "Die Höhe"),
    }
}

/// A length that may be below zero, which has no spelling of its own.
fn signed_length(voice: Voice, metres: f64) -> String {
    let sign = if metres < 0.0 { "−" } else { "" };
    format!("{sign}{}", voice.exact(metres.abs()))
}

/// An opening that does not fit its wall.
fn opening(voice: Voice, name: &str, misfit: OpeningMisfit) -> Refused {
    let why = match misfit {
        OpeningMisfit::NotInAWall(Face::Floor) => voice
            .pick(
                "openings are in walls, not in the floor",
                "Öffnungen sind in Wänden, nicht im Boden",
            )
            .to_owned(),
        OpeningMisfit::NotInAWall(face) => {
            let face = super::nouns::face(voice, face).dat;
            said!(voice; "openings are in walls, not in {face}"; "Öffnungen sind in Wänden, nicht in {face}")
        }
        OpeningMisfit::BeyondTheEnd { from, to, length } => {
            let [from, to, length] = [from, to, length].map(|metres| signed_length(voice, metres));
            said!(
                voice;
                "it reaches from {from} to {to} along a wall that is {length} long";
                "Sie reicht von {from} bis {to}, und die Wand ist {length} lang"
            )
        }
        OpeningMisfit::BeyondTheTop { from, to, height } => {
            let [from, to, height] = [from, to, height].map(|metres| signed_length(voice, metres));
            said!(
                voice;
                "it reaches from {from} to {to} up a wall that is {height} high";
                "Sie reicht in der Höhe von {from} bis {to}, und die Wand ist {height} hoch"
            )
        }
    };
    let name = quoted(voice, &clean(name));
    Refused::fault(said!(
        voice;
        "the opening {name} does not fit its wall: {why}";
        "die Öffnung {name} passt nicht in ihre Wand: {why}"
    ))
    .remedy(voice.pick("move it or make it smaller", "versetze oder verkleinere sie"))
}

/// A body that cannot be.
fn figure(voice: Voice, error: &FigureError) -> Refused {
    match error {
        FigureError::Data(_) => Refused::fault(
            voice
                .pick(
                    "the shapes of bodies that the program carries are damaged",
                    "Die Körperformen, die das Programm mitbringt, sind beschädigt",
                )
                .to_owned(),
        )
        .remedy(voice.pick("install it anew", "installiere es neu")),
        FigureError::UnknownSlider(name) => {
            let name = quoted(voice, &clean(name));
            Refused::fault(said!(
                voice;
                "there is no feature of a face called {name}";
                "Ein Gesichtsmerkmal {name} gibt es nicht"
            ))
        }
        FigureError::OutOfRange {
            what,
            value,
            low,
            high,
        } => Refused::fault(body_number(voice, *what, *value, [*low, *high])),
    }
}

/// A number of a body that is outside its range.
fn body_number(voice: Voice, what: BodyNumber, value: f32, range: [f32; 2]) -> String {
    let what = match what {
        BodyNumber::Age => voice.pick("the age in years", "Das Alter in Jahren"),
        BodyNumber::Masculinity => voice.pick(
            "the share of the man's or boy's form",
            "Der Anteil der Form von Mann oder Junge",
        ),
        BodyNumber::Build => voice.pick("the build", "Der Körperbau"),
        BodyNumber::Stature => voice.pick("the stature in metres", "Die Körpergröße in Metern"),
        BodyNumber::HeadTurn => {
            voice.pick("the turn of the head in degrees", "Die Drehung des Kopfs in Grad")
        }
        BodyNumber::HeadTilt => {
            voice.pick("the tilt of the head in degrees", "Die Neigung des Kopfs in Grad")
        }
        BodyNumber::HeadNod => voice.pick("the nod of the head in degrees", "Das Nicken des Kopfs in Grad"),
        BodyNumber::FaceSlider => voice.pick("a feature of the face", "Ein Merkmal des Gesichts"),
        // The sum and the weights have no upper bound that means anything.
        BodyNumber::AncestryWeight | BodyNumber::AncestrySum => {
            return voice
                .pick(
                    "no weight of ancestry may be below zero, and they may not all be zero",
                    "Kein Gewicht der Herkunft darf unter null liegen, und nicht alle dürfen null sein",
                )
                .to_owned();
        }
    };
    let value = voice.written(value);
    let [low, high] = range.map(|bound| voice.written(bound));
    said!(
        voice;
        "{what} must lie between {low} and {high}, not at {value}";
        "{what} muss zwischen {low} und {high} liegen, nicht bei {value}"
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};
    use colour::ColourError;
    use light::LightError;
    use units::Metres;

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
            "Dieser Blitz zoomt von 24 bis 105 mm, Zoom 200 lässt sich also nicht einstellen.",
        );
    }

    #[test]
    fn a_place_that_cannot_stand_is_told_with_its_numbers() {
        let says = |of: SceneError, english: &str, german: &str| {
            let of = Failure::Scene(of);
            check(|voice| failure(voice, &of), english, german);
        };
        let outside = SceneError::OutsideRoom {
            what: Placed::Furniture("piano".to_owned()),
            coordinate: Coordinate::Height,
            value: -0.5,
            limit: 2.6,
        };
        let told = |voice| failure(voice, &Failure::Scene(outside.clone()));
        check_in_feet(told, &["8 ft 6"], &[" m "]);
        says(
            outside.clone(),
            "The furniture \"piano\" is outside the room: the height is −0.5 m, but the room reaches from 0 to 2.6 m there; \
             check the position, and the size of the room.",
            "Das Möbel „piano“ liegt außerhalb des Raums: Die Höhe ist −0,5 m, aber der Raum reicht dort von 0 bis 2,6 m; \
             prüfe die Lage und die Größe des Raums.",
        );
        says(
            SceneError::OpeningDoesNotFit {
                name: "bay".to_owned(),
                reason: OpeningMisfit::BeyondTheEnd {
                    from: 3.0,
                    to: 5.5,
                    length: 4.0,
                },
            },
            "The opening \"bay\" does not fit its wall: it reaches from 3.0 m to 5.5 m along a wall that is 4.0 m long; move it or \
             make it smaller.",
            "Die Öffnung „bay“ passt nicht in ihre Wand: Sie reicht von 3,0 m bis 5,5 m, und die Wand ist 4,0 m lang; versetze oder \
             verkleinere sie.",
        );
        says(
            SceneError::Figure {
                name: "Ottoline".to_owned(),
                reason: FigureError::OutOfRange {
                    what: BodyNumber::Stature,
                    value: 2.75,
                    low: 0.7,
                    high: 2.3,
                },
            },
            "The body of Ottoline could not be made: the stature in metres must lie between 0.7 and 2.3, not at 2.75.",
            "Der Körper von „Ottoline“ ließ sich nicht bilden: Die Körpergröße in Metern muss zwischen 0,7 und 2,3 liegen, \
             nicht bei 2,75.",
        );
        says(
            SceneError::Overlap {
                first: "Ottoline".to_owned(),
                second: "Ulf".to_owned(),
                least: 0.3,
            },
            "Ottoline and Ulf are in the same place; move one of them at least 0.3 m away.",
            "„Ottoline“ und „Ulf“ stehen am selben Fleck; rücke eine der beiden Personen mindestens 0,3 m weg.",
        );
    }

    #[test]
    fn what_is_no_light_or_no_quantity_is_told_in_one_sentence() {
        let says =
            |of: Failure, english: &str, german: &str| check(|voice| failure(voice, &of), english, german);
        says(
            Failure::Light(LightError::Colour(ColourError::OutsideDaylight(3200.5))),
            "The colour of a light cannot be made: the daylight series holds from 4000 K to 25000 K, and 3200.5 K is outside; \
             use a lamp colour instead.",
            "Die Farbe eines Lichts lässt sich nicht bilden: Die Tageslichtreihe gilt von 4000 K bis 25000 K, und 3200,5 K \
             liegt außerhalb; nimm stattdessen eine Lampenfarbe.",
        );
        says(
            Failure::Light(LightError::NotOnEarth {
                latitude_deg: -91.5,
                longitude_deg: 5.0,
            }),
            "Latitude −91.5, longitude 5 is nowhere on Earth; latitudes go from −90 to 90, longitudes from −180 to 180 degrees.",
            "Breite −91,5, Länge 5 liegt nirgends auf der Erde; Breiten gehen von −90 bis 90, Längen von −180 bis 180 Grad.",
        );
        says(
            Failure::Unit(Metres::new(-3.5).expect_err("no length")),
            "−3.5 m is not possible as a length: it must be between 0 m and 10000 m; look for a size or a strength that is far \
             from ordinary.",
            "−3,5 m ist als Länge nicht möglich: Der Wert muss zwischen 0 m und 10000 m liegen; such nach einer Größe oder \
             Stärke, die weit vom Üblichen liegt.",
        );
    }
}
