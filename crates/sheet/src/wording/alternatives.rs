//! Why one might prefer another answer.

use crate::voice::{Voice, said};
use answer::Preference;

/// The one reason to prefer another answer.
pub(crate) fn prefer(voice: Voice, preference: &Preference) -> String {
    match preference {
        Preference::MoreInHand { stops } => {
            let stops = voice.stops(stops.value());
            said!(
                voice;
                "{stops} more in hand: quicker recycling, a cooler flash";
                "{stops} mehr Reserve: kürzere Pausen, ein kühlerer Blitz"
            )
        }
        Preference::Softer { times } => {
            let times = voice.plain(*times, 1);
            said!(
                voice;
                "softer: the light is {times} times as wide";
                "weicher: Das Licht ist {times}-mal so breit"
            )
        }
        Preference::CleanerSkin { less } => {
            let less = voice.plain(less.value(), 0);
            said!(
                voice;
                "cleaner skin: {less} mired less cast";
                "reinere Haut: {less} Mired weniger Farbstich"
            )
        }
        Preference::NearerAngle { degrees } => {
            let degrees = voice.plain(*degrees, 0);
            said!(
                voice;
                "{degrees}° nearer to the angle asked for";
                "{degrees}° näher am gewünschten Winkel"
            )
        }
        Preference::Gentler { ratio, instead_of } => {
            let (ratio, instead) = (voice.ratio(*ratio), voice.ratio(*instead_of));
            said!(
                voice;
                "gentler: cheeks {ratio} instead of {instead}";
                "sanfter: Wangen {ratio} statt {instead}"
            )
        }
        Preference::MoreDrama { ratio, instead_of } => {
            let (ratio, instead) = (voice.ratio(*ratio), voice.ratio(*instead_of));
            said!(
                voice;
                "more drama: cheeks {ratio} instead of {instead}";
                "mehr Drama: Wangen {ratio} statt {instead}"
            )
        }
        Preference::NoHands => voice
            .pick("nobody has to hold anything", "niemand muss etwas halten")
            .to_owned(),
        Preference::NoFlag => voice
            .pick(
                "the head needs no flag",
                "der Blitzkopf muss nicht abgedeckt werden",
            )
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::check;
    use units::{MiredShift, Stops};

    #[test]
    fn another_answer_has_one_reason() {
        let says =
            |of: Preference, english: &str, german: &str| check(|voice| prefer(voice, &of), english, german);
        says(
            Preference::MoreInHand { stops: Stops(1.04) },
            "1 stop more in hand: quicker recycling, a cooler flash",
            "1 Blende mehr Reserve: kürzere Pausen, ein kühlerer Blitz",
        );
        says(
            Preference::Softer { times: 1.52 },
            "softer: the light is 1.5 times as wide",
            "weicher: Das Licht ist 1,5-mal so breit",
        );
        says(
            Preference::CleanerSkin {
                less: MiredShift(14.2),
            },
            "cleaner skin: 14 mired less cast",
            "reinere Haut: 14 Mired weniger Farbstich",
        );
        says(
            Preference::NearerAngle { degrees: 8.0 },
            "8° nearer to the angle asked for",
            "8° näher am gewünschten Winkel",
        );
        says(
            Preference::Gentler {
                ratio: 2.1,
                instead_of: 5.0,
            },
            "gentler: cheeks 2.1:1 instead of 5:1",
            "sanfter: Wangen 2,1:1 statt 5:1",
        );
        says(
            Preference::NoHands,
            "nobody has to hold anything",
            "niemand muss etwas halten",
        );
    }
}
