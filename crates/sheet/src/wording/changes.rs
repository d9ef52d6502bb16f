//! A useful no: what is short, and the changes that would make the ask possible.

use super::lines::{exposing, step};
use super::nouns::{named, way};
use super::wishes::{missed, side_words};
use crate::voice::{Voice, said};
use answer::{Brought, Change, Shortfall, Softness, Then};

/// The one sentence names no more misses than this.
const MOST_MISSES: usize = 3;

/// What is lacking and by how much, in one sentence.
pub(crate) fn shortfall(voice: Voice, shortfall: &Shortfall) -> String {
    let missed: Vec<String> = shortfall
        .missed
        .iter()
        .take(MOST_MISSES)
        .map(|wish| missed(voice, wish))
        .collect();
    let missed = missed.join("; ");
    match shortfall.impossible {
        true => said!(
            voice;
            "This picture cannot be had as it was asked: {missed}.";
            "So, wie du es wünschst, geht dieses Bild nicht: {missed}."
        ),
        false => said!(
            voice;
            "This is what comes nearest. Missed: {missed}.";
            "Das kommt dem Wunsch am nächsten. Verfehlt: {missed}."
        ),
    }
}

/// What to change.
pub(crate) fn what(voice: Voice, change: &Change) -> String {
    match change {
        Change::Both { first, second } => {
            let (first, second) = (what(voice, first), what(voice, second));
            said!(voice; "{first}, and {second}"; "{first} und {second}")
        }
        Change::RaiseSpeed { to, .. } => said!(voice; "raise the speed to {to}"; "auf {to} erhöhen"),
        Change::AllowSpeeds { to, .. } => said!(voice; "allow speeds up to {to}"; "bis {to} zulassen"),
        Change::LowerSpeed { to, .. } => said!(voice; "lower the speed to {to}"; "auf {to} senken"),
        Change::OpenUp { to, .. } => said!(voice; "open up to {to}"; "auf {to} öffnen"),
        Change::StopDown { to, .. } => said!(voice; "stop down to {to}"; "auf {to} schließen"),
        Change::KeepInHand { to, .. } => {
            let left = voice.stops(to.value());
            said!(voice; "keep only {left} in hand"; "nur {left} Reserve behalten")
        }
        Change::WaitLonger { to_s, .. } => {
            let wait = voice.plain(*to_s, 1);
            said!(voice; "wait {wait} s between frames"; "{wait} s von Bild zu Bild warten")
        }
        Change::DimAmbient { stops } => {
            let stops = voice.stops(stops.value());
            said!(
                voice;
                "bring the ambient down by {stops}: curtains, fewer lamps";
                "das vorhandene Licht um {stops} dunkler machen: Vorhänge, weniger Lampen"
            )
        }
        Change::AllowCast { to, .. } => {
            let mired = voice.plain(to.value(), 0);
            said!(
                voice;
                "let the skin be up to {mired} mired off";
                "der Haut bis zu {mired} Mired Farbstich lassen"
            )
        }
        Change::AnySkin => voice
            .pick(
                "let the skin take the colour of the surface",
                "die Haut die Farbe der Fläche annehmen lassen",
            )
            .to_owned(),
        Change::AllowAngle { to_deg, .. } => {
            let degrees = voice.plain(*to_deg, 0);
            said!(
                voice;
                "let the key come from up to {degrees}° beside the angle asked for";
                "das Hauptlicht bis zu {degrees}° neben dem gewünschten Winkel zulassen"
            )
        }
        Change::OtherSide { side } => {
            let side = side_words(voice, *side);
            said!(voice; "let the key come from {side}"; "das Hauptlicht von {side} kommen lassen")
        }
        Change::KeyHeight { to_deg, .. } => {
            let height = voice.elevation(*to_deg);
            said!(voice; "take the key {height}"; "das Hauptlicht {height} nehmen")
        }
        Change::AnySoftness { asked } => match asked {
            Softness::Hard => voice.pick("accept soft light", "weiches Licht annehmen"),
            Softness::Soft | Softness::Any => voice.pick("accept hard light", "hartes Licht annehmen"),
        }
        .to_owned(),
        Change::SettleRatio { to, .. } => {
            let ratio = voice.ratio(to.value());
            said!(
                voice;
                "settle for a ratio of {ratio}";
                "mit einem Verhältnis von {ratio} zufrieden sein"
            )
        }
        Change::FacesDiffer { to, .. } => {
            let stops = voice.stops(to.value());
            said!(
                voice;
                "let the faces differ by {stops}";
                "die Gesichter um {stops} verschieden hell sein lassen"
            )
        }
        Change::SettleBackground { to, .. } => {
            let stops = voice.signed_stops(to.value());
            said!(
                voice;
                "settle for a background at {stops}";
                "mit einem Hintergrund bei {stops} zufrieden sein"
            )
        }
        Change::HoldBoard { board } => {
            let board = named(voice, board).acc;
            said!(voice; "have someone hold {board}"; "jemanden {board} halten lassen")
        }
        Change::FlashOffCamera { bring_stand: false } => voice
            .pick("take the flash off the camera", "den Blitz von der Kamera nehmen")
            .to_owned(),
        Change::FlashOffCamera { bring_stand: true } => voice
            .pick(
                "put the flash on a stand, off the camera",
                "den Blitz auf ein Stativ stellen, weg von der Kamera",
            )
            .to_owned(),
        Change::FlashElsewhere { bring_stand: false } => voice
            .pick("let the flash stand elsewhere", "den Blitz anderswo aufstellen")
            .to_owned(),
        Change::FlashElsewhere { bring_stand: true } => voice
            .pick(
                "put the flash on a stand, elsewhere",
                "den Blitz anderswo auf ein Stativ stellen",
            )
            .to_owned(),
        Change::Bring { thing } => bring(voice, *thing),
        Change::MoveSitter { right_m, away_m, .. } => {
            let step = step(voice, f64::from(*right_m), f64::from(*away_m)).unwrap_or_default();
            said!(voice; "move the sitter {step}"; "die Person {step} rücken")
        }
    }
}

fn bring(voice: Voice, thing: Brought) -> String {
    match thing {
        Brought::Filter { stops } => {
            let stops = voice.stops(stops.value());
            said!(voice; "bring an ND filter of {stops}"; "einen Graufilter von {stops} mitbringen")
        }
        Brought::Umbrella { width_m, .. } => {
            let wide = voice.round(width_m);
            said!(
                voice;
                "bring a white umbrella ({wide} wide) on a stand";
                "einen weißen Durchlichtschirm ({wide} breit) auf einem Stativ mitbringen"
            )
        }
        Brought::Card { width_m, height_m } => {
            let [wide, high] =
                [width_m, height_m].map(|side| voice.round(f64::from((side * 100.0).round()) / 100.0));
            said!(
                voice;
                "bring a white card, {wide} by {high}, and someone to hold it";
                "eine weiße Platte mitbringen, {wide} mal {high}, und jemanden, der sie hält"
            )
        }
    }
}

/// What a change costs the look or the work.
pub(crate) fn cost(voice: Voice, change: &Change) -> String {
    let fixed = |english: &str, german: &str| voice.pick(english, german).to_owned();
    match change {
        Change::Both { first, second } => format!("{}; {}", cost(voice, first), cost(voice, second)),
        Change::RaiseSpeed { from, to } | Change::AllowSpeeds { from, to } => {
            let stops = voice.stops(to.stops_faster_than(*from).value());
            said!(
                voice;
                "{stops} more noise; the ambient rises with it unless the shutter follows";
                "{stops} mehr Rauschen; das vorhandene Licht wird mit heller, wenn die Verschlusszeit nicht folgt"
            )
        }
        Change::LowerSpeed { from, to } => more_flash(voice, from.stops_faster_than(*to).value()),
        Change::OpenUp { sharp_m, .. } => depth(voice, *sharp_m),
        Change::StopDown { from, to, sharp_m } => {
            let flash = more_flash(voice, to.stops_darker_than(*from).value());
            format!("{}; {flash}", depth(voice, *sharp_m))
        }
        Change::KeepInHand {
            ready_s: [now, then], ..
        } => {
            let [now, then] = [now, then].map(|seconds| voice.plain(*seconds, 1));
            said!(
                voice;
                "the flash is ready after about {then} s instead of {now} s, gets warmer, and nothing is left for a cloud or a \
                 darker suit";
                "der Blitz ist nach etwa {then} s bereit statt nach {now} s, wird wärmer, und für eine Wolke oder einen \
                 dunkleren Anzug bleibt nichts"
            )
        }
        Change::WaitLonger { from_s, to_s } => {
            let longer = voice.plain(to_s - from_s, 1);
            said!(voice; "{longer} s longer between frames"; "{longer} s länger von Bild zu Bild")
        }
        Change::DimAmbient { .. } => fixed(
            "the room is dimmer to work in; pupils open",
            "im Raum ist es beim Arbeiten dunkler; die Pupillen werden weit",
        ),
        Change::AllowCast { .. } => fixed(
            "a cast on skin that white balance takes out only for all the light together",
            "einen Farbstich auf der Haut, den der Weißabgleich nur aus allem Licht zugleich herausnimmt",
        ),
        Change::AnySkin => fixed("green or magenta on skin", "Grün oder Magenta auf der Haut"),
        Change::AllowAngle { .. } => fixed(
            "another pattern on the face than the one asked for",
            "ein anderes Muster im Gesicht als das gewünschte",
        ),
        Change::OtherSide { .. } => fixed(
            "the other half of the face is lit",
            "die andere Gesichtshälfte ist beleuchtet",
        ),
        Change::KeyHeight { .. } => fixed(
            "shadows fall at another slope than asked",
            "die Schatten fallen steiler oder flacher als gewünscht",
        ),
        Change::AnySoftness { .. } => fixed("another edge to every shadow", "andere Schattenkanten"),
        Change::SettleRatio { from, to } => match to.value() > from.value() {
            true => fixed("deeper shadows", "tiefere Schatten"),
            false => fixed("flatter modelling", "flacheres Licht"),
        },
        Change::FacesDiffer { .. } => fixed(
            "the faces furthest from the light need lifting afterwards",
            "die Gesichter, die am weitesten vom Licht weg sind, müssen nachher aufgehellt werden",
        ),
        Change::SettleBackground { from, to } => match to.value() > from.value() {
            true => fixed("a brighter background", "einen helleren Hintergrund"),
            false => fixed("a darker background", "einen dunkleren Hintergrund"),
        },
        Change::HoldBoard { .. } => fixed(
            "a pair of hands for as long as it takes",
            "zwei Hände, so lange es dauert",
        ),
        Change::FlashOffCamera { .. } => fixed(
            "a trigger, and a stand to weigh down or a hand to hold it",
            "einen Auslöser und ein beschwertes Stativ oder eine Hand, die den Blitz hält",
        ),
        Change::FlashElsewhere { bring_stand: false } => fixed(
            "another place for what holds it, the stand or the hand",
            "einen anderen Platz für das Stativ oder die Hand, die den Blitz hält",
        ),
        Change::FlashElsewhere { bring_stand: true } => fixed(
            "a stand to weigh down, in another place",
            "ein beschwertes Stativ an einem anderen Platz",
        ),
        Change::Bring { thing } => match thing {
            Brought::Filter { stops } => more_flash(voice, stops.value()),
            Brought::Umbrella { loss, .. } => {
                let loss = voice.stops(loss.value());
                said!(
                    voice;
                    "{loss} of the flash, a trigger, and a stand to weigh down; wind tips it over";
                    "{loss} vom Blitz, einen Auslöser und ein beschwertes Stativ; bei Wind fällt er um"
                )
            }
            Brought::Card { .. } => fixed(
                "a pair of hands for as long as it takes",
                "zwei Hände, so lange es dauert",
            ),
        },
        Change::MoveSitter { .. } => fixed(
            "another background behind the head; turn the camera with them",
            "einen anderen Hintergrund hinter dem Kopf; drehe die Kamera mit",
        ),
    }
}

fn more_flash(voice: Voice, stops: f64) -> String {
    let stops = voice.stops(stops);
    said!(voice; "{stops} more of the flash"; "{stops} mehr vom Blitz")
}

/// What another aperture does to the depth that is sharp, now and then.
fn depth(voice: Voice, sharp_m: Option<[f64; 2]>) -> String {
    match sharp_m.map(|depths| depths.map(|depth| voice.short(depth))) {
        Some([now, then]) => said!(
            voice;
            "{then} are sharp instead of {now}";
            "{then} sind scharf statt {now}"
        ),
        None => voice
            .pick("another depth of field", "eine andere Schärfentiefe")
            .to_owned(),
    }
}

/// The answer that a change leads to: "left wall, f/4 · 1/160 · ISO 800, 1/4 at zoom 50, 1.2 stops in hand".
pub(crate) fn then(voice: Voice, then: &Then) -> String {
    let (way, camera) = (way(voice, &then.way).bare, exposing(voice, &then.settings));
    let (power, zoom) = (then.power.nearest_third(), voice.plain(then.zoom_mm, 0));
    let hand = super::lines::in_hand(voice, then.in_hand);
    said!(
        voice;
        "{way}, {camera}, {power} at zoom {zoom}, {hand}";
        "{way}, {camera}, {power} bei Zoom {zoom}, {hand}"
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};
    use answer::{Judgement, Settings, Side, WayId, Wish};
    use glam::Vec3;
    use units::{Duv, Kelvin, MiredShift, PowerFraction, Ratio, ShutterTime, Stops};

    fn offers(change: Change, english: [&str; 2], german: [&str; 2]) {
        check(|voice| what(voice, &change), english[0], german[0]);
        check(|voice| cost(voice, &change), english[1], german[1]);
    }

    #[test]
    fn a_shortfall_says_what_is_lacking() {
        let mut short = Shortfall {
            impossible: true,
            missed: vec![
                Judgement::new(Wish::Exposed, -1.6, 1.6, 0.34, 1.0).as_must(true),
                Judgement::new(Wish::Recycle { seconds: 2.0 }, 4.8, 2.8, 0.2, 1.0),
            ],
            changes: vec![],
            tried: vec![],
        };
        check(
            |voice| shortfall(voice, &short),
            "This picture cannot be had as it was asked: the face comes out 1.6 stops too dark even at full power; 2.8 s too \
             slow for 2.0 s between frames (4.8 s).",
            "So, wie du es wünschst, geht dieses Bild nicht: das Gesicht wird selbst bei voller Leistung 1,6 Blenden zu \
             dunkel; 2,8 s zu langsam für „2,0 s von Bild zu Bild“ (4,8 s).",
        );
        short.impossible = false;
        short.missed = vec![Judgement::new(Wish::Soft, 0.1, 2.3, 1.0, 1.0)];
        check(
            |voice| shortfall(voice, &short),
            "This is what comes nearest. Missed: not soft light (0.10 wide for its distance).",
            "Das kommt dem Wunsch am nächsten. Verfehlt: kein weiches Licht (Breite durch Abstand: 0,10).",
        );
    }

    #[test]
    fn things_to_bring_say_what_they_cost() {
        let bring = |thing: Brought| Change::Bring { thing };
        offers(
            bring(Brought::Filter { stops: Stops(3.0) }),
            ["bring an ND filter of 3 stops", "3 stops more of the flash"],
            [
                "einen Graufilter von 3 Blenden mitbringen",
                "3 Blenden mehr vom Blitz",
            ],
        );
        offers(
            bring(Brought::Umbrella {
                loss: Stops(1.7),
                width_m: 1.0,
            }),
            [
                "bring a white umbrella (1 m wide) on a stand",
                "1.7 stops of the flash, a trigger, and a stand to weigh down; wind tips it over",
            ],
            [
                "einen weißen Durchlichtschirm (1 m breit) auf einem Stativ mitbringen",
                "1,7 Blenden vom Blitz, einen Auslöser und ein beschwertes Stativ; bei Wind fällt er um",
            ],
        );
        offers(
            bring(Brought::Card {
                width_m: 1.0,
                height_m: 1.2,
            }),
            [
                "bring a white card, 1 m by 1.2 m, and someone to hold it",
                "a pair of hands for as long as it takes",
            ],
            [
                "eine weiße Platte mitbringen, 1 m mal 1,2 m, und jemanden, der sie hält",
                "zwei Hände, so lange es dauert",
            ],
        );
    }

    #[test]
    fn changes_of_exposure_say_what_they_cost() {
        let iso = |text: &str| text.parse().expect("a speed");
        let aperture = |text: &str| text.parse().expect("an aperture");
        offers(
            Change::RaiseSpeed {
                from: iso("ISO 400"),
                to: iso("ISO 800"),
            },
            [
                "raise the speed to ISO 800",
                "1 stop more noise; the ambient rises with it unless the shutter follows",
            ],
            [
                "auf ISO 800 erhöhen",
                "1 Blende mehr Rauschen; das vorhandene Licht wird mit heller, wenn die Verschlusszeit nicht folgt",
            ],
        );
        offers(
            Change::StopDown {
                from: aperture("f/4"),
                to: aperture("f/5.6"),
                sharp_m: Some([0.2, 0.284]),
            },
            [
                "stop down to f/5.6",
                "28 cm are sharp instead of 20 cm; 1 stop more of the flash",
            ],
            [
                "auf f/5.6 schließen",
                "28 cm sind scharf statt 20 cm; 1 Blende mehr vom Blitz",
            ],
        );
        let wider = Change::OpenUp {
            from: aperture("f/4"),
            to: aperture("f/2.8"),
            sharp_m: Some([0.4, 0.2]),
        };
        check_in_feet(|voice| cost(voice, &wider), &["in"], &[" cm"]);
        offers(
            Change::OpenUp {
                from: aperture("f/4"),
                to: aperture("f/2.8"),
                sharp_m: None,
            },
            ["open up to f/2.8", "another depth of field"],
            ["auf f/2.8 öffnen", "eine andere Schärfentiefe"],
        );
        offers(
            Change::KeepInHand {
                from: Stops(1.0),
                to: Stops(0.333),
                ready_s: [2.0, 3.2],
            },
            [
                "keep only 0.3 stop in hand",
                "the flash is ready after about 3.2 s instead of 2.0 s, gets warmer, and nothing is left for a cloud or a \
                 darker suit",
            ],
            [
                "nur 0,3 Blende Reserve behalten",
                "der Blitz ist nach etwa 3,2 s bereit statt nach 2,0 s, wird wärmer, und für eine Wolke oder einen dunkleren \
                 Anzug bleibt nichts",
            ],
        );
        offers(
            Change::WaitLonger {
                from_s: 1.0,
                to_s: 2.5,
            },
            ["wait 2.5 s between frames", "1.5 s longer between frames"],
            ["2,5 s von Bild zu Bild warten", "1,5 s länger von Bild zu Bild"],
        );
    }

    #[test]
    fn changes_of_the_look_say_what_they_cost() {
        let ratio = |to_one| Ratio::new(to_one).expect("a ratio");
        offers(
            Change::AllowCast {
                from: MiredShift(15.0),
                to: MiredShift(30.0),
            },
            [
                "let the skin be up to 30 mired off",
                "a cast on skin that white balance takes out only for all the light together",
            ],
            [
                "der Haut bis zu 30 Mired Farbstich lassen",
                "einen Farbstich auf der Haut, den der Weißabgleich nur aus allem Licht zugleich herausnimmt",
            ],
        );
        offers(
            Change::OtherSide { side: Side::Right },
            [
                "let the key come from camera right",
                "the other half of the face is lit",
            ],
            [
                "das Hauptlicht von kamerarechts kommen lassen",
                "die andere Gesichtshälfte ist beleuchtet",
            ],
        );
        offers(
            Change::KeyHeight {
                from_deg: 20.0,
                to_deg: -10.0,
            },
            [
                "take the key 10° below the eyes",
                "shadows fall at another slope than asked",
            ],
            [
                "das Hauptlicht 10° unter den Augen nehmen",
                "die Schatten fallen steiler oder flacher als gewünscht",
            ],
        );
        offers(
            Change::AnySoftness {
                asked: Softness::Hard,
            },
            ["accept soft light", "another edge to every shadow"],
            ["weiches Licht annehmen", "andere Schattenkanten"],
        );
        offers(
            Change::SettleRatio {
                from: ratio(4.0),
                to: ratio(2.52),
            },
            ["settle for a ratio of 2.5:1", "flatter modelling"],
            ["mit einem Verhältnis von 2,5:1 zufrieden sein", "flacheres Licht"],
        );
        offers(
            Change::SettleBackground {
                from: Stops(-1.0),
                to: Stops(-0.5),
            },
            ["settle for a background at −0.5 stop", "a brighter background"],
            [
                "mit einem Hintergrund bei −0,5 Blende zufrieden sein",
                "einen helleren Hintergrund",
            ],
        );
    }

    #[test]
    fn changes_of_place_and_bag_say_what_they_cost() {
        let moved = Change::MoveSitter {
            by: Vec3::X,
            right_m: 0.25,
            away_m: 0.0,
        };
        offers(
            moved.clone(),
            [
                "move the sitter 0.2 m to camera right",
                "another background behind the head; turn the camera with them",
            ],
            [
                "die Person 0,2 m nach kamerarechts rücken",
                "einen anderen Hintergrund hinter dem Kopf; drehe die Kamera mit",
            ],
        );
        check_in_feet(|voice| what(voice, &moved), &["in"], &[" m "]);
        offers(
            Change::HoldBoard {
                board: "white board".to_owned(),
            },
            [
                "have someone hold the white board",
                "a pair of hands for as long as it takes",
            ],
            [
                "jemanden „white board“ halten lassen",
                "zwei Hände, so lange es dauert",
            ],
        );
        offers(
            Change::FlashOffCamera { bring_stand: true },
            [
                "put the flash on a stand, off the camera",
                "a trigger, and a stand to weigh down or a hand to hold it",
            ],
            [
                "den Blitz auf ein Stativ stellen, weg von der Kamera",
                "einen Auslöser und ein beschwertes Stativ oder eine Hand, die den Blitz hält",
            ],
        );
        // A flash that stands off the camera is not taken off it.
        offers(
            Change::FlashElsewhere { bring_stand: false },
            [
                "let the flash stand elsewhere",
                "another place for what holds it, the stand or the hand",
            ],
            [
                "den Blitz anderswo aufstellen",
                "einen anderen Platz für das Stativ oder die Hand, die den Blitz hält",
            ],
        );
        offers(
            Change::FlashElsewhere { bring_stand: true },
            [
                "put the flash on a stand, elsewhere",
                "a stand to weigh down, in another place",
            ],
            [
                "den Blitz anderswo auf ein Stativ stellen",
                "ein beschwertes Stativ an einem anderen Platz",
            ],
        );
    }

    #[test]
    fn where_a_change_leads_is_one_line() {
        let leads = Then {
            way: WayId::Face {
                face: scene::Face::Left,
            },
            settings: Settings {
                aperture: "f/4".parse().expect("an aperture"),
                shutter: ShutterTime::new(1.0 / 160.0).expect("a shutter"),
                iso: "ISO 800".parse().expect("a speed"),
                nd: Stops(0.0),
                white_balance: Kelvin::new(5000.0).expect("in range"),
                tint: Duv(0.0),
            },
            power: PowerFraction::from_thirds_below_full(6).expect("a power"),
            zoom_mm: 50.0,
            in_hand: Stops(1.2),
        };
        check(
            |voice| then(voice, &leads),
            "left wall, f/4 · 1/160 · ISO 800, 1/4 at zoom 50, 1.2 stops in hand",
            "linke Wand, f/4 · 1/160 · ISO 800, 1/4 bei Zoom 50, 1,2 Blenden Reserve",
        );
    }
}
