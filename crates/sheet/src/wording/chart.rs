//! Where the stops go, line by line.

use super::lines::nd;
use super::nouns::{light, way};
use crate::fitting::clean;
use crate::voice::{Voice, said};
use answer::{ChartItem, WayId};
use units::PowerFraction;

/// What a line of the stops chart counts.
pub(crate) fn label(voice: Voice, item: &ChartItem) -> String {
    match item {
        ChartItem::FullFlash {
            zoom_mm,
            aperture,
            iso,
        } => {
            let (one_metre, zoom) = (voice.round(1.0), voice.plain(*zoom_mm, 0));
            said!(
                voice;
                "full flash at {one_metre}, zoom {zoom}, {aperture} {iso}";
                "voller Blitz auf {one_metre}, Zoom {zoom}, {aperture} {iso}"
            )
        }
        ChartItem::Front { way: front } => match front {
            WayId::Umbrella => voice.pick("umbrella", "Schirm").to_owned(),
            WayId::Softbox => voice.pick("softbox", "Softbox").to_owned(),
            other => way(voice, other).bare,
        },
        ChartItem::Filter { nd: filter } => nd(voice, *filter),
        ChartItem::Gel { name } => {
            let name = clean(name);
            said!(voice; "gel {name}"; "Folie {name}")
        }
        ChartItem::Travel { metres } => {
            let far = voice.about(*metres);
            said!(voice; "{far} of travel"; "{far} Lichtweg")
        }
        ChartItem::PlaceInBeam => voice
            .pick(
                "place in the beam, angle to the camera",
                "Platz im Strahl, Winkel zur Kamera",
            )
            .to_owned(),
        ChartItem::RoomSendsBack => voice
            .pick("what the room sends back", "was der Raum zurückgibt")
            .to_owned(),
        ChartItem::Keeps { way: carrier, share } => {
            let (carrier, share) = (keeper(voice, carrier), voice.plain(100.0 * share, 0));
            said!(
                voice;
                "{carrier} keeps {share} % of the light";
                "{carrier}: {share} % des Lichts kommen zurück"
            )
        }
        ChartItem::Scatter => voice
            .pick(
                "matt surface scatters it all ways",
                "matte Fläche streut es nach allen Seiten",
            )
            .to_owned(),
        ChartItem::LaterBounces => voice
            .pick("later bounces of the room", "was der Raum danach noch zurückgibt")
            .to_owned(),
        ChartItem::Spill => voice
            .pick("direct spill of the head", "direktes Streulicht des Blitzkopfs")
            .to_owned(),
        ChartItem::Power { power: set } => power(voice, *set),
        ChartItem::Ambient { light: name } => {
            let name = light(voice, name).bare;
            said!(voice; "ambient: {name}"; "vorhandenes Licht: {name}")
        }
        ChartItem::AtTheFace => voice
            .pick(
                "at the face, against an exact reading",
                "im Gesicht, gegen eine genaue Messung",
            )
            .to_owned(),
    }
}

/// What keeps light is the surface itself: a board that is held is called by its name alone.
fn keeper(voice: Voice, carrier: &WayId) -> String {
    match carrier {
        WayId::HeldBoard { name } | WayId::Standing { name } => super::nouns::named(voice, name).bare,
        other => way(voice, other).bare,
    }
}

/// "power 1/8 +0.7".
pub(crate) fn power(voice: Voice, power: PowerFraction) -> String {
    let power = power.nearest_third();
    said!(voice; "power {power}"; "Leistung {power}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};
    use answer::LightName;
    use scene::Face;
    use units::Stops;

    #[test]
    fn every_line_of_the_chart_has_its_label() {
        let says = |item: ChartItem, english: &str, german: &str| {
            check(|voice| label(voice, &item), english, german)
        };
        let full = ChartItem::FullFlash {
            zoom_mm: 50.0,
            aperture: "f/4".parse().expect("an aperture"),
            iso: "ISO 400".parse().expect("a speed"),
        };
        check_in_feet(|voice| label(voice, &full), &["3 ft 3"], &[" m "]);
        says(
            full,
            "full flash at 1 m, zoom 50, f/4 ISO 400",
            "voller Blitz auf 1 m, Zoom 50, f/4 ISO 400",
        );
        says(ChartItem::Front { way: WayId::Umbrella }, "umbrella", "Schirm");
        says(ChartItem::Filter { nd: Stops(3.0) }, "ND 3 stops", "ND 3 Blenden");
        says(
            ChartItem::Gel {
                name: "1/2 CTO".to_owned(),
            },
            "gel 1/2 CTO",
            "Folie 1/2 CTO",
        );
        says(
            ChartItem::Travel { metres: 5.04 },
            "5.0 m of travel",
            "5,0 m Lichtweg",
        );
        says(
            ChartItem::Keeps {
                way: WayId::Face { face: Face::Left },
                share: 0.8,
            },
            "left wall keeps 80 % of the light",
            "linke Wand: 80 % des Lichts kommen zurück",
        );
        says(
            ChartItem::Keeps {
                way: WayId::HeldBoard {
                    name: "white board".to_owned(),
                },
                share: 0.88,
            },
            "white board keeps 88 % of the light",
            "„white board“: 88 % des Lichts kommen zurück",
        );
        says(
            ChartItem::Power {
                power: PowerFraction::from_thirds_below_full(7).expect("a power"),
            },
            "power 1/8 +0.7",
            "Leistung 1/8 +0.7",
        );
        says(
            ChartItem::Ambient {
                light: LightName::Moon,
            },
            "ambient: moon",
            "vorhandenes Licht: Mond",
        );
        says(
            ChartItem::AtTheFace,
            "at the face, against an exact reading",
            "im Gesicht, gegen eine genaue Messung",
        );
    }
}
