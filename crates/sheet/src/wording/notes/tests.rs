//! Every note with its words in both languages.

use super::*;
use crate::wording::tests::{check, check_in_feet};
use answer::{Carrier, Side};
use scene::Face;
use units::Ratio;

fn says(of: Note, english: &str, german: &str) {
    check(|voice| note(voice, &of), english, german);
}

fn shutter(seconds: f64) -> ShutterTime {
    ShutterTime::new(seconds).expect("a shutter")
}

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("in range")
}

fn lamps() -> LightName {
    LightName::Given {
        name: "lamps".to_owned(),
    }
}

#[test]
fn wishes_that_exclude_each_other() {
    let check = |because: Exclusion, gives_way: Yielding, english: &str, german: &str| {
        let clash = Clash { because, gives_way };
        says(Note::Excluded { clash }, english, german);
    };
    let ratio = |to_one: f64| Ratio::new(to_one).expect("a ratio");
    check(
        Exclusion::EvenFromTheSide {
            azimuth_deg: 90.0,
            ratio: ratio(1.0),
        },
        Yielding::Ratio,
        "A key from 90° leaves the far side of the face in shade, and 1:1 wants both sides lit: the ratio gives way.",
        "Ein Hauptlicht aus 90° lässt die abgewandte Gesichtsseite im Schatten, und 1:1 will beide Seiten hell: Nachgeben muss \
         das Verhältnis.",
    );
    check(
        Exclusion::UnevenFromTheFront {
            azimuth_deg: 5.0,
            ratio: ratio(4.0),
        },
        Yielding::Direction,
        "A key from 5° lights both sides of the face alike, and 4:1 wants one of them darker: the direction of the key gives \
         way.",
        "Ein Hauptlicht aus 5° macht beide Gesichtsseiten gleich hell, und 4:1 will eine davon dunkler: Nachgeben muss die \
         Richtung des Hauptlichts.",
    );
    check(
        Exclusion::SideOfTheMiddle { side: Side::Left },
        Yielding::Side,
        "A key above the nose comes from no side, so it cannot come from camera left: the side gives way.",
        "Ein Hauptlicht über der Nase kommt von keiner Seite, also auch nicht von kameralinks: Nachgeben muss die Seite.",
    );
    check(
        Exclusion::DeepGelOnNeutralSkin {
            gel: "red".to_owned(),
        },
        Yielding::NeutralSkin,
        "No white balance makes skin neutral under red: neutral skin gives way.",
        "Unter red macht kein Weißabgleich die Haut neutral: Nachgeben muss die neutrale Haut.",
    );
    check(
        Exclusion::SoftFromAHead { metres: 3.0 },
        Yielding::Softness,
        "A small head 3.0 m away is hard light, and there is nothing here to bounce from or to shine through: softness gives \
         way.",
        "Ein kleiner Blitzkopf in 3,0 m Abstand ist hartes Licht, und hier gibt es nichts, worüber oder wodurch er leuchten \
         könnte: Nachgeben muss die Weichheit.",
    );
}

#[test]
fn a_light_that_is_there_as_the_key() {
    let key = |not_from| Note::LightIsKey {
        light: lamps(),
        share: 0.76,
        under: Stops(1.66),
        not_from,
    };
    says(
        key(None),
        "The key is the light that is there (lamps): it makes 76 % of the light on the face, and the flash fills, 1.7 stops \
         under it.",
        "Hauptlicht ist, was schon da ist („lamps“): Es macht 76 % des Lichts im Gesicht, und der Blitz hellt auf, 1,7 Blenden \
         darunter.",
    );
    says(
        key(Some(Side::Right)),
        "The key is the light that is there (lamps): it makes 76 % of the light on the face, and the flash fills, 1.7 stops \
         under it. So it does not come from camera right: turn the sitter, or keep that light out.",
        "Hauptlicht ist, was schon da ist („lamps“): Es macht 76 % des Lichts im Gesicht, und der Blitz hellt auf, 1,7 Blenden \
         darunter. Von kamerarechts kommt es also nicht: Dreh die Person oder halte dieses Licht heraus.",
    );
}

#[test]
fn a_shadow_side_without_detail() {
    says(
        Note::BlackShadow { ratio: 16.0 },
        "The shadow side of the face is 4 stops under the lit one (16:1), nearly black in the picture. A white board close to \
         that side brings it up; leave it so where that is the look.",
        "Die Schattenseite des Gesichts liegt 4 Blenden unter der Lichtseite (16:1), im Bild fast schwarz. Ein weißes Brett \
         nah an dieser Seite hellt sie auf; lass es so, wenn das der Look ist.",
    );
}

#[test]
fn what_lies_beyond_the_face() {
    let fall = |edge, under: f64| FrameFall {
        edge,
        under: Stops(under),
    };
    says(
        Note::BeamFallsOff {
            falls: vec![fall(FrameEdge::Left, 1.2), fall(FrameEdge::Bottom, 2.0)],
            may_zoom: true,
        },
        "The beam does not cover the frame; it is weaker than at the face by 1.2 stops at the left edge and 2 stops at the \
         lower edge. A wider zoom or more distance covers more.",
        "Der Strahl deckt das Bild nicht ab; gegen das Gesicht fehlen 1,2 Blenden am linken Rand und 2 Blenden am unteren \
         Rand. Eine weitere Zoomstellung oder mehr Abstand deckt mehr ab.",
    );
    says(
        Note::BeamFallsOff {
            falls: vec![fall(FrameEdge::Top, 1.0)],
            may_zoom: false,
        },
        "The beam does not cover the frame; it is weaker than at the face by 1 stop at the upper edge. More distance covers \
         more.",
        "Der Strahl deckt das Bild nicht ab; gegen das Gesicht fehlen 1 Blende am oberen Rand. Mehr Abstand deckt mehr ab.",
    );
    let shadow = |side| Note::CastShadow {
        side,
        deep: Stops(1.3),
        behind_m: 1.5,
    };
    says(
        shadow(Some(Side::Left)),
        "The sitter's shadow shows camera left of the head, 1.5 m behind the face, about 1.3 stops deep. A higher flash, or \
         more distance to what is behind, takes it out of the picture.",
        "Der Schatten der Person ist kameralinks vom Kopf zu sehen, 1,5 m hinter dem Gesicht, etwa 1,3 Blenden tief. Ein \
         höherer Blitz oder mehr Abstand zum Hintergrund nimmt ihn aus dem Bild.",
    );
    says(
        shadow(None),
        "The sitter's shadow shows around the head, 1.5 m behind the face, about 1.3 stops deep. A higher flash, or more \
         distance to what is behind, takes it out of the picture.",
        "Der Schatten der Person ist um den Kopf zu sehen, 1,5 m hinter dem Gesicht, etwa 1,3 Blenden tief. Ein höherer Blitz \
         oder mehr Abstand zum Hintergrund nimmt ihn aus dem Bild.",
    );
}

#[test]
fn two_lights_from_apart() {
    says(
        Note::TwoLights {
            flash_deg: 12.0,
            there_deg: -115.0,
        },
        "Two lights make this face: the flash, 12° camera right of the nose, and the light that is there, 115° camera left of the \
         nose. Its shading shows both; for one clear pattern keep one of them two stops under the other.",
        "Zwei Lichter formen dieses Gesicht: der Blitz, 12° kamerarechts von der Nase, und das vorhandene Licht, 115° kameralinks \
         von der Nase. Die Schattierung zeigt beide; für ein klares Muster halte eines zwei Blenden unter dem anderen.",
    );
}

#[test]
fn hair_that_merges() {
    says(
        Note::HairMerges { hair: Stops(-0.2) },
        "The hair merges into what is behind it: it is only 0.2 stop darker than that. A step to where it is lighter or darker \
         behind the head, or a little light on the hair from behind, parts them.",
        "Das Haar geht im Hintergrund unter: Es ist nur 0,2 Blende dunkler als dieser. Ein Schritt dorthin, wo es hinter dem \
         Kopf heller oder dunkler ist, oder etwas Licht von hinten aufs Haar trennt sie.",
    );
}

#[test]
fn what_burns_out_first() {
    let first = |thing, left: f64| Note::BurnsFirst {
        thing,
        over_grey: Stops(2.963 - left),
        left: Stops(left),
    };
    says(
        first(LightThing::Top { sitter: None }, 0.4),
        "First to burn out is the top: its brightest part lies 2.6 stops above mid-grey, 0.4 stop before detail ends. Expose \
         no brighter than this.",
        "Als Erstes brennt das Oberteil aus: Die hellste Stelle liegt 2,6 Blenden über Mittelgrau, 0,4 Blende vor dem Ende der \
         Zeichnung. Belichte nicht heller als so.",
    );
    let sitter = Some("Anna".to_owned());
    says(
        first(LightThing::Top { sitter }, 1.2),
        "First to burn out is the top of Anna: its brightest part lies 1.8 stops above mid-grey, 1.2 stops before detail ends.",
        "Als Erstes brennt das Oberteil von Anna aus: Die hellste Stelle liegt 1,8 Blenden über Mittelgrau, 1,2 Blenden vor \
         dem Ende der Zeichnung.",
    );
    let of = Carrier::Face {
        face: Face::BehindSitter,
    };
    says(
        first(LightThing::Surface { of }, -0.5),
        "The brightest part of the wall behind the sitter burns out: it lies 3.5 stops above mid-grey, 0.5 stop past where \
         detail ends. Where that matters, expose so much less and lift the face afterwards, or keep some light off it.",
        "Die hellste Stelle brennt aus (die Wand hinter der Person): Sie liegt 3,5 Blenden über Mittelgrau, 0,5 Blende \
         jenseits der Zeichnung. Wo das wichtig ist, belichte um so viel knapper und hebe das Gesicht später an, oder halte \
         dort etwas Licht ab.",
    );
}

#[test]
fn power_that_does_not_fit() {
    says(
        Note::FallsShort { stops: Stops(1.0) },
        "Full power falls 1 stop short: open up, raise the ISO, or bring the light nearer.",
        "Volle Leistung ist 1 Blende zu wenig: Öffne die Blende, erhöhe die ISO-Zahl oder hole das Licht näher heran.",
    );
    says(
        Note::LeastPowerTooMuch { stops: Stops(0.6) },
        "Even the least power is 0.6 stop too much: stop down, lower the ISO, or move the flash away.",
        "Selbst die kleinste Leistung ist 0,6 Blende zu viel: Schließe die Blende, senke die ISO-Zahl oder geh mit dem Blitz \
         weiter weg.",
    );
    says(
        Note::ThereTooMuch { stops: Stops(0.6) },
        "The light that is there is 0.6 stop too much without any flash: stop down, lower the ISO, put ND on the lens, or look \
         for shade.",
        "Das vorhandene Licht ist ohne jeden Blitz 0,6 Blende zu viel: Schließe die Blende, senke die ISO-Zahl, nimm einen \
         Graufilter oder such Schatten.",
    );
    says(
        Note::LittleInHand {
            left: Stops(0.3),
            fewer: Stops(0.7),
        },
        "Only 0.3 stop left in hand, 0.7 stop less than asked: recycling will be slow and the flash will get warm.",
        "Nur 0,3 Blende Reserve, 0,7 Blende weniger als gewünscht: Der Blitz lädt langsam und wird warm.",
    );
    let near = |ambient| Note::NearFullPower {
        wait_s: 2.75,
        iso: "ISO 800".parse().expect("a speed"),
        ambient,
    };
    says(
        near(Some(Stops(-2.0))),
        "Near full power: watch the recycling, about 2.8 s after each frame. ISO 800 leaves a stop more in hand, and puts the \
         light that is there at −2.0 stops.",
        "Fast volle Leistung: Achte auf die Ladezeit, etwa 2,8 s nach jedem Bild. ISO 800 lässt eine Blende mehr Reserve und \
         bringt das vorhandene Licht auf −2,0 Blenden.",
    );
    says(
        near(None),
        "Near full power: watch the recycling, about 2.8 s after each frame. ISO 800 leaves a stop more in hand.",
        "Fast volle Leistung: Achte auf die Ladezeit, etwa 2,8 s nach jedem Bild. ISO 800 lässt eine Blende mehr Reserve.",
    );
}

#[test]
fn a_head_that_spills_or_zooms() {
    says(
        Note::SpillStaysUnder {
            away_deg: 88.0,
            under: Stops(4.2),
        },
        "If the head is turned less than about 70° away from the face, block the direct spill with a card or a hand on the \
         sitter's side; here it is turned 88° away and the spill stays 4.2 stops under.",
        "Ist der Blitzkopf weniger als etwa 70° vom Gesicht weggedreht, decke sein direktes Streulicht zur Person hin mit einer \
         Karte oder der Hand ab; hier ist er 88° weggedreht, und das Streulicht bleibt 4,2 Blenden darunter.",
    );
    says(
        Note::BlockSpill { under: Stops(1.0) },
        "Block the head on the sitter's side: its direct spill is only 1 stop under the bounce. If the head is turned less than \
         about 70° away from the face, block the direct spill with a card or a hand on the sitter's side.",
        "Decke den Blitzkopf zur Person hin ab: Sein direktes Streulicht liegt nur 1 Blende unter dem zurückgeworfenen Licht. \
         Ist der Blitzkopf weniger als etwa 70° vom Gesicht weggedreht, decke sein direktes Streulicht zur Person hin mit einer \
         Karte oder der Hand ab.",
    );
    let stays = |under| Note::AmbientStays {
        under: Stops(under),
        shutter: shutter(1.0 / 160.0),
        fastest: true,
    };
    says(
        Note::AmbientStays {
            under: Stops(1.2),
            shutter: shutter(1.0 / 60.0),
            fastest: false,
        },
        "The light that is there is only 1.2 stops under at 1/60: a faster shutter darkens it, and the flash has to make up for \
         that.",
        "Das vorhandene Licht liegt bei 1/60 nur 1,2 Blenden darunter: Eine kürzere Zeit macht es dunkler, und der Blitz muss \
         das ausgleichen.",
    );
    says(
        stays(1.2),
        "The light that is there is only 1.2 stops under at 1/160, the fastest clean shutter: dim it, shade it, or stop down.",
        "Das vorhandene Licht liegt bei 1/160, der kürzesten sauberen Zeit, nur 1,2 Blenden darunter: Dimme es, halte es ab oder \
         schließe die Blende.",
    );
    says(
        stays(-6.0),
        "The light that is there is 6 stops brighter than the exposure at 1/160, the fastest clean shutter: dim it, shade it, or \
         stop down.",
        "Das vorhandene Licht liegt bei 1/160, der kürzesten sauberen Zeit, 6 Blenden über der Belichtung: Dimme es, halte es ab \
         oder schließe die Blende.",
    );
    // Spill over the bounce is not told with a minus, nor as under it.
    let over = Note::BlockSpill { under: Stops(-6.0) };
    check(
        |voice| {
            note(voice, &over)
                .split_once('.')
                .expect("a full stop")
                .0
                .to_owned()
        },
        "Block the head on the sitter's side: its direct spill is 6 stops over the bounce",
        "Decke den Blitzkopf zur Person hin ab: Sein direktes Streulicht liegt 6 Blenden über dem zurückgeworfenen Licht",
    );
    says(
        Note::ZoomHardlyMatters { gain: Stops(0.04) },
        "The zoom hardly matters on a wall (0.0 stops from 50 to 105): the wall becomes the lamp. Only a small panel gains from \
         zooming in.",
        "Auf einer Wand macht der Zoom wenig aus (0,0 Blenden von 50 bis 105): Die Wand wird selbst zur Lampe. Nur eine kleine \
         Tafel gewinnt durch einen engen Zoom.",
    );
}

#[test]
fn colours_that_mix() {
    says(
        Note::BalanceServes {
            light: LightName::Sky,
            apart: MiredShift(21.0),
        },
        "Flash and sky differ by only about 21 mired, so one white balance serves both sides of the face.",
        "Blitz und Himmel liegen nur etwa 21 Mired auseinander, darum genügt ein Weißabgleich für beide Gesichtshälften.",
    );
    says(
        Note::SharedShares {
            light: lamps(),
            apart: MiredShift(150.0),
            sides: MiredShift(12.0),
        },
        "Flash and lamps differ by about 150 mired where they arrive, but reach both sides of the face in such shares that these \
         lie only 12 mired apart: one balance serves.",
        "Blitz und „lamps“ liegen dort, wo sie ankommen, etwa 150 Mired auseinander, erreichen aber beide Gesichtshälften so, \
         dass diese nur 12 Mired auseinanderliegen: Ein Abgleich genügt.",
    );
    says(
        Note::SidesApart {
            apart: MiredShift(61.0),
            verdict: SidesVerdict::NoBalance,
            cure: SidesCure::MatchLights,
        },
        "The two sides of the face are 61 mired apart: no single balance serves both. Make the lights alike with a gel, or bring \
         the light that is there three stops under, where its colour can be ignored.",
        "Die beiden Gesichtshälften liegen 61 Mired auseinander: Kein Abgleich passt für beide. Gleiche die Lichter mit einer \
         Folie an, oder bringe das vorhandene Licht drei Blenden darunter, wo seine Farbe nicht mehr zählt.",
    );
    let green = |matters| Note::GreenLamps {
        lamps: vec![lamps(), LightName::Sun],
        under: Stops(3.2),
        share: 0.07,
        warmer: MiredShift(5.0),
        greener: Duv(0.0012),
        matters,
    };
    says(
        green(Greenness::BelowSeen),
        "Greenish light from the lamps and the sun, 3.2 stops under: 7 % of the light on the face, which moves its colour by +5 \
         mired and Duv +0.0012: below what is seen, so no green gel is needed.",
        "Grünliches Licht von „lamps“ und der Sonne, 3,2 Blenden darunter: 7 % des Lichts im Gesicht; das verschiebt seine Farbe \
         um +5 Mired und Duv +0,0012. Das sieht man nicht; eine grüne Folie braucht es nicht.",
    );
    says(
        green(Greenness::Shows { match_duv: Duv(0.01) }),
        "Greenish light from the lamps and the sun, 3.2 stops under: 7 % of the light on the face, which moves its colour by +5 \
         mired and Duv +0.0012: that shows. A green gel on the flash (Duv +0.010 would match) and magenta in the balance make \
         both alike, or bring the lamps three stops under.",
        "Grünliches Licht von „lamps“ und der Sonne, 3,2 Blenden darunter: 7 % des Lichts im Gesicht; das verschiebt seine Farbe \
         um +5 Mired und Duv +0,0012. Das sieht man. Eine grüne Folie vor dem Blitz (Duv +0,010 würde passen) und Magenta im \
         Abgleich gleichen beide an, oder bringe die Lampen drei Blenden darunter.",
    );
}

#[test]
fn gels_that_are_worn_or_missed() {
    let turn = GelTurn {
        shift: MiredShift(81.0),
        duv: Duv(0.0),
        kelvin: kelvin(3790.0),
    };
    says(
        Note::GelWorn {
            gel: "1/2 CTO".to_owned(),
            turns: Some(turn),
            left: Some(MiredShift(-12.0)),
            loss: Stops(0.7),
        },
        "The flash wears 1/2 CTO: +81 mired, so its light has 3790 K, and where both arrive it lies 12 mired from the light that \
         is there; it costs 0.7 stop.",
        "Folie 1/2 CTO vor dem Blitz: +81 Mired, damit hat sein Licht 3790 K, und wo beide ankommen, liegt es 12 Mired neben dem \
         vorhandenen Licht; das kostet 0,7 Blende.",
    );
    says(
        Note::GelWorn {
            gel: "red".to_owned(),
            turns: None,
            left: None,
            loss: Stops(2.5),
        },
        "The flash wears red: a deep colour; it costs 2.5 stops.",
        "Folie red vor dem Blitz: eine kräftige Farbe; das kostet 2,5 Blenden.",
    );
    says(
        Note::GelToBuy {
            gel: "1/4 plus green".to_owned(),
            shift: MiredShift(2.0),
            duv: Duv(0.006),
            than: None,
            loss: Stops(0.2),
        },
        "A 1/4 plus green on the flash (+2 mired, Duv +0.006 green), which is not in the bag, would bring its light and the \
         light that is there together; it costs 0.2 stop.",
        "Die Folie 1/4 plus green vor dem Blitz (+2 Mired, Duv +0,006 grün), die nicht in der Tasche ist, brächte sein Licht und \
         das vorhandene zusammen; das kostet 0,2 Blende.",
    );
}

#[test]
fn a_wall_that_tempts() {
    let cast = Cast {
        shift: MiredShift(60.0),
        duv: Duv(0.003),
        kelvin: kelvin(4100.0),
    };
    let wall = |light| Note::TemptingWall {
        way: WayId::Face { face: Face::Left },
        light,
        balance_k: [kelvin(4120.0), kelvin(4790.0)],
        cast,
    };
    says(
        wall(Some(TemptedLight {
            light: LightName::Sky,
            apart: Some(MiredShift(-80.0)),
        })),
        "If the left wall must be used all the same (the sky and this bounce would be about 80 mired apart: no single balance \
         serves both): shut out the sky or gel the look on purpose, then one white balance near 4100 to 4800 K with a little \
         magenta. Its cast: about 60 mired warm.",
        "Wenn es doch die linke Wand sein muss (der Himmel und dieses Licht lägen etwa 80 Mired auseinander: Kein Abgleich passt \
         für beide), halte den Himmel fern oder färbe das Bild bewusst mit einer Folie und nimm dann einen Weißabgleich um 4100 \
         bis 4800 K mit etwas Magenta. Der Farbstich dabei: etwa 60 Mired warm.",
    );
    says(
        wall(None),
        "If the left wall must be used all the same: gel the look on purpose, then one white balance near 4100 to 4800 K with a \
         little magenta. Its cast: about 60 mired warm.",
        "Wenn es doch die linke Wand sein muss, färbe das Bild bewusst mit einer Folie und nimm dann einen Weißabgleich um 4100 bis \
         4800 K mit etwas Magenta. Der Farbstich dabei: etwa 60 Mired warm.",
    );
}

#[test]
fn settings_that_miss_the_wish() {
    says(
        Note::BeyondSync {
            shutter: shutter(1.0 / 500.0),
            sync: shutter(1.0 / 200.0),
        },
        "1/500 is faster than the sync speed of 1/200: part of the frame will miss the flash.",
        "1/500 ist kürzer als die Synchronzeit von 1/200: Ein Teil des Bildes bekommt den Blitz nicht.",
    );
    says(
        Note::SlowForAPerson {
            shutter: shutter(0.5),
        },
        "0.5 s is slow for a person: use a support and ask the sitter to hold still. Whoever moves leaves a ghost in the light \
         that is there beside the sharp flash; second-curtain sync puts it behind them.",
        "0,5 s ist lang für einen Menschen: Stütze die Kamera und bitte die Person, still zu halten. Wer sich bewegt, zieht im \
         vorhandenen Licht eine Spur neben dem scharfen Blitzbild; mit Blitz auf den zweiten Vorhang liegt sie dahinter.",
    );
    let deep = Note::DepthCannotBeHad {
        depth_m: Metres::new(1.5).expect("a length"),
    };
    check_in_feet(|voice| note(voice, &deep), &["4 ft 11 in"], &[" m "]);
    says(
        deep,
        "A depth of 1.5 m cannot be had with this lens at this distance; f/16 comes nearest. Step back or use a shorter lens.",
        "1,5 m Tiefe werden mit diesem Objektiv in diesem Abstand nicht scharf; f/16 kommt am nächsten. Geh zurück oder nimm ein \
         kürzeres Objektiv.",
    );
    says(
        Note::AmbientOff { off: Stops(-1.0) },
        "The room comes out 1 stop darker than asked: a higher ISO or a tripod brings it up.",
        "Der Raum wird 1 Blende dunkler als gewünscht: Eine höhere ISO-Zahl oder ein Stativ macht ihn heller.",
    );
    says(
        Note::TooDark {
            target: LevelTarget::Zone {
                name: "sky".to_owned(),
            },
            off: Stops(0.8),
        },
        "sky: 0.8 stop darker than asked. A slower shutter, a wider aperture or a higher ISO brings it up, not more flash.",
        "„sky“: 0,8 Blende dunkler als gewünscht. Eine längere Zeit, eine größere Blende oder eine höhere ISO-Zahl macht es \
         heller, nicht mehr Blitz.",
    );
    says(
        Note::DaylightOff {
            stops: Stops(-1.4),
            spread: Stops(0.5),
        },
        "The daylight that you metered is 1.4 stops darker than computed for this sky, and skies like it spread by about 0.5 \
         stop: look at the weather, the time and what stands before the sky. Your reading is used.",
        "Das Tageslicht, das du gemessen hast, ist 1,4 Blenden dunkler als für diesen Himmel berechnet, und solche Himmel \
         streuen um etwa 0,5 Blende: Sieh nach dem Wetter, der Zeit und nach dem, was vor dem Himmel steht. Es gilt deine \
         Messung.",
    );
    says(
        Note::OpenShade,
        "Another way in the sun: one step into open shade saves about 3 stops.",
        "In der Sonne geht es auch anders: Ein Schritt in den offenen Schatten spart etwa 3 Blenden.",
    );
}
