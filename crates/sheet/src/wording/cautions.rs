//! What could hurt someone, short and rare.

use crate::voice::{Voice, said};
use answer::Caution;

/// A caution, one sentence.
pub(crate) fn caution(voice: Voice, caution: &Caution) -> String {
    match caution {
        Caution::Dazzles { metres, keep_m } => {
            let (near, keep) = (voice.about(*metres), voice.round(*keep_m));
            said!(
                voice;
                "A bare flash {near} from open eyes dazzles: keep {keep} or more, and say when it will fire.";
                "Ein nackter Blitz {near} vor offenen Augen blendet: Bleib {keep} oder weiter weg, und sag, wann er kommt."
            )
        }
        Caution::SmallChildren { keep_m } => {
            let keep = voice.round(*keep_m);
            said!(
                voice;
                "Small children: bounce the flash or keep {keep} away, use the lowest power that serves, and stop when they turn \
                 away or a parent asks.";
                "Kleine Kinder: Blitze über eine Fläche oder bleib {keep} weg, nimm die kleinste Leistung, die reicht, und hör \
                 auf, wenn sie sich abwenden oder die Eltern es wollen."
            )
        }
        Caution::SunAhead => voice
            .pick(
                "The sun stands ahead of the lens: do not look at it through an optical finder, and do not leave the lens \
                 pointed at it.",
                "Die Sonne steht vor dem Objektiv: Sieh sie nicht durch einen optischen Sucher an, und lass das Objektiv nicht \
                 auf sie gerichtet.",
            )
            .to_owned(),
        Caution::HotFlash => voice
            .pick(
                "Near full power the flash gets hot and recycles slowly: rest it as its maker says, and stop if it smells.",
                "Nahe der vollen Leistung wird der Blitz heiß und lädt langsam: Lass ihn ruhen, wie sein Hersteller es sagt, und \
                 hör auf, wenn er riecht.",
            )
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};

    #[test]
    fn cautions_keep_people_away() {
        let near = Caution::Dazzles {
            metres: 0.83,
            keep_m: 1.0,
        };
        check(
            |voice| caution(voice, &near),
            "A bare flash 0.8 m from open eyes dazzles: keep 1 m or more, and say when it will fire.",
            "Ein nackter Blitz 0,8 m vor offenen Augen blendet: Bleib 1 m oder weiter weg, und sag, wann er kommt.",
        );
        check_in_feet(|voice| caution(voice, &near), &["2 ft 8.5 in"], &[" m "]);
        check_in_feet(
            |voice| caution(voice, &Caution::SmallChildren { keep_m: 1.5 }),
            &["4 ft 11 in"],
            &[" m "],
        );
        check(
            |voice| caution(voice, &Caution::HotFlash),
            "Near full power the flash gets hot and recycles slowly: rest it as its maker says, and stop if it smells.",
            "Nahe der vollen Leistung wird der Blitz heiß und lädt langsam: Lass ihn ruhen, wie sein Hersteller es sagt, und hör \
             auf, wenn er riecht.",
        );
    }
}
