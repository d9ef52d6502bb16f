//! Why a way of lighting is the answer, or is not.

use crate::voice::{Voice, said};
use answer::{Cast, KeyReading, Reason, Verdict, Why};

/// Why, or why not, without a full stop. The answer's own reason is its reading; without one there is little to say.
pub(crate) fn sentence(voice: Voice, why: &Why, key: Option<&KeyReading>) -> String {
    match why {
        Why::Chosen { noted } => {
            let Some(key) = key else {
                return voice.pick("this is the answer", "das ist die Antwort").to_owned();
            };
            let from = voice.told_from_nose(key.azimuth_deg, key.elevation_deg);
            let ratio = voice.ratio(key.ratio);
            let cast = voice.signed(key.cast.shift.value(), 0);
            let full = full_power(voice, key.full_power_aperture);
            let notes = match noted {
                true => voice.pick("; see the notes", "; siehe „Gut zu wissen“"),
                false => "",
            };
            said!(
                voice;
                "key {from}, cheeks {ratio}, cast {cast} mired; {full}{notes}";
                "Hauptlicht {from}, Wangen {ratio}, Farbstich {cast} Mired; {full}{notes}"
            )
        }
        Why::Not {
            reasons,
            against_answer,
            full_power_aperture,
        } => {
            let mut words: Vec<String> = reasons.iter().map(|one| reason(voice, one)).collect();
            words.extend(against_answer.map(|stops| {
                let amount = voice.stops(stops.value());
                if stops.value() < 0.0 {
                    said!(voice; "{amount} weaker"; "{amount} schwächer")
                } else {
                    said!(voice; "{amount} stronger"; "{amount} stärker")
                }
            }));
            let full = full_power(voice, *full_power_aperture);
            format!("{} ({full})", words.join("; ")).trim_start().to_owned()
        }
    }
}

/// "f/5.7 at full power, ISO 100". Apertures are written the same in both languages.
fn full_power(voice: Voice, aperture: f64) -> String {
    let aperture = if aperture.is_finite() {
        format!("f/{aperture:.1}")
    } else {
        "–".to_owned()
    };
    said!(voice; "{aperture} at full power, ISO 100"; "{aperture} bei voller Leistung, ISO 100")
}

fn reason(voice: Voice, reason: &Reason) -> String {
    let degrees = |value: f64| voice.plain(value.abs(), 0);
    match reason {
        Reason::UnusableCast { cast: of } => {
            let cast = cast(voice, of);
            said!(voice; "{cast}: unusable for neutral skin"; "{cast}; für neutrale Haut nicht zu brauchen")
        }
        Reason::Cast { cast: of } => cast(voice, of),
        Reason::Flat { azimuth_deg, ratio } => {
            let (azimuth, ratio) = (degrees(*azimuth_deg), voice.ratio(*ratio));
            said!(
                voice;
                "flat: comes from only {azimuth}° beside the nose, cheeks {ratio}";
                "flach: kommt aus nur {azimuth}° neben der Nase, Wangen {ratio}"
            )
        }
        Reason::FromBehind { azimuth_deg } => {
            let azimuth = degrees(*azimuth_deg);
            said!(voice; "comes from behind ({azimuth}° round)"; "kommt von hinten ({azimuth}° herum)")
        }
        Reason::Beside { azimuth_deg } => {
            let azimuth = degrees(*azimuth_deg);
            said!(voice; "comes from {azimuth}° beside the nose"; "kommt aus {azimuth}° neben der Nase")
        }
        Reason::OtherSide { azimuth_deg } => {
            let (azimuth, side) = (degrees(*azimuth_deg), voice.side(*azimuth_deg));
            said!(
                voice;
                "lights the other side ({azimuth}° {side})";
                "beleuchtet die andere Seite ({azimuth}° {side})"
            )
        }
        Reason::FromBelow { below_deg } => {
            let below = degrees(*below_deg);
            said!(
                voice;
                "comes from below ({below}°), like a torch under the chin";
                "kommt von unten ({below}°), wie eine Taschenlampe unter dem Kinn"
            )
        }
        Reason::Steep { elevation_deg } => {
            let down = degrees(*elevation_deg);
            said!(
                voice;
                "comes steeply, {down}° down: shadow in the eye sockets";
                "kommt steil, {down}° von oben: Schatten in den Augenhöhlen"
            )
        }
        Reason::Above { elevation_deg } if elevation_deg.abs() < 0.5 => voice
            .pick("comes level with the eyes", "kommt in Augenhöhe")
            .to_owned(),
        Reason::Above { elevation_deg } => {
            let height = voice.elevation(*elevation_deg);
            said!(voice; "comes {height}"; "kommt aus {height}")
        }
        Reason::HollowEyes { sockets } => {
            let level = voice.signed_stops(sockets.value());
            said!(
                voice;
                "leaves the eyes dark ({level} against the cheek below)";
                "lässt die Augen dunkel ({level} gegen die Wange darunter)"
            )
        }
        Reason::SmallAndHard => voice
            .pick(
                "small and hard: crisp nose shadow",
                "klein und hart: scharfer Nasenschatten",
            )
            .to_owned(),
        Reason::TooSoft => voice
            .pick(
                "too soft for the crisp shadow asked",
                "zu weich für den scharfen Schatten, der gewünscht ist",
            )
            .to_owned(),
        Reason::Short { by } => {
            let stops = voice.stops(by.value());
            said!(
                voice;
                "{stops} short of what is asked in hand";
                "{stops} weniger als die gewünschte Reserve"
            )
        }
        Reason::Uneven => voice
            .pick("uneven over the faces", "ungleich von Gesicht zu Gesicht")
            .to_owned(),
        Reason::AsGoodButHeld => voice
            .pick(
                "would do as well, but needs a pair of hands",
                "ginge ebenso, aber jemand muss es halten",
            )
            .to_owned(),
        Reason::NearlyAsGood => voice
            .pick("would do nearly as well", "ginge fast ebenso gut")
            .to_owned(),
    }
}

/// A cast: "about 115 mired warm", "mostly green".
pub(crate) fn cast(voice: Voice, cast: &Cast) -> String {
    /// A Duv that shows beside a cast in mired, and one that shows more than anything else (ours).
    const BESIDE: f64 = 0.004;
    const ABOVE_ALL: f64 = 0.006;
    /// So many mired are seen as much as a Duv of one (ours: 0.010 as much as 25 mired).
    const MIRED_OF_DUV: f64 = 2500.0;
    let (shift, duv) = (cast.shift.value(), cast.duv.value());
    let (hue, off) = (voice.hue(duv), voice.signed(duv, 3));
    if duv.abs() > ABOVE_ALL && shift.abs() < MIRED_OF_DUV * duv.abs() {
        let mired = voice.signed(shift, 0);
        return said!(
            voice;
            "mostly {hue} (Duv {off}) rather than warm or cold ({mired} mired): the kelvin setting cannot remove it, only \
             tint or a gel can";
            "vor allem {hue} (Duv {off}), weniger warm oder kalt ({mired} Mired): Mit Kelvin geht das nicht weg, nur mit dem \
             Farbstich-Regler oder einer Folie"
        );
    }
    let mired = voice.mired(shift);
    let mired = if shift.abs() < 0.5 {
        mired
    } else {
        said!(voice; "about {mired}"; "etwa {mired}")
    };
    if duv.abs() > BESIDE {
        said!(voice; "{mired} and {hue} (Duv {off})"; "{mired} und {hue} (Duv {off})")
    } else {
        mired
    }
}

/// What a way is good for, before its reasons.
pub(crate) fn verdict(voice: Voice, verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Chosen => voice.pick("the answer", "die Antwort"),
        Verdict::Possible => voice.pick("would do", "ginge"),
        Verdict::Poor => voice.pick("poor", "verdirbt das Bild"),
        Verdict::Unusable => voice.pick("no use here", "hier nutzlos"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, key};
    use units::{Duv, Kelvin, MiredShift, Stops};

    fn of_cast(mired: f64, duv: f64) -> Cast {
        Cast {
            shift: MiredShift(mired),
            duv: Duv(duv),
            kelvin: Kelvin::new(4000.0).expect("in range"),
        }
    }

    #[test]
    fn the_answer_is_told_by_its_reading() {
        check(
            |voice| sentence(voice, &Why::Chosen { noted: true }, Some(&key(-46.0, 17.0))),
            "key 46° camera left of the nose, 17° above the eyes, cheeks 5:1, cast +12 mired; f/4.7 at full power, ISO 100; \
             see the notes",
            "Hauptlicht 46° kameralinks von der Nase, 17° über den Augen, Wangen 5:1, Farbstich +12 Mired; f/4.7 bei voller \
             Leistung, ISO 100; siehe „Gut zu wissen“",
        );
        check(
            |voice| sentence(voice, &Why::Chosen { noted: false }, Some(&key(0.0, -50.0))),
            "key straight along the nose, 50° below the eyes, cheeks 5:1, cast +12 mired; f/4.7 at full power, ISO 100",
            "Hauptlicht gerade von vorn, 50° unter den Augen, Wangen 5:1, Farbstich +12 Mired; f/4.7 bei voller Leistung, \
             ISO 100",
        );
        check(
            |voice| sentence(voice, &Why::Chosen { noted: false }, None),
            "this is the answer",
            "das ist die Antwort",
        );
    }

    #[test]
    fn another_way_has_its_reasons() {
        let why = Why::Not {
            reasons: vec![
                Reason::UnusableCast {
                    cast: of_cast(115.0, 0.001),
                },
                Reason::Steep { elevation_deg: 43.0 },
            ],
            against_answer: Some(Stops(-1.0)),
            full_power_aperture: 5.66,
        };
        check(
            |voice| sentence(voice, &why, None),
            "about 115 mired warm: unusable for neutral skin; comes steeply, 43° down: shadow in the eye sockets; 1 stop \
             weaker (f/5.7 at full power, ISO 100)",
            "etwa 115 Mired warm; für neutrale Haut nicht zu brauchen; kommt steil, 43° von oben: Schatten in den \
             Augenhöhlen; 1 Blende schwächer (f/5.7 bei voller Leistung, ISO 100)",
        );
        let dark = Why::Not {
            reasons: vec![],
            against_answer: None,
            full_power_aperture: f64::NAN,
        };
        check(
            |voice| sentence(voice, &dark, None),
            "(– at full power, ISO 100)",
            "(– bei voller Leistung, ISO 100)",
        );
    }

    #[test]
    fn reasons_are_plain() {
        let said =
            |one: Reason, english: &str, german: &str| check(|voice| reason(voice, &one), english, german);
        said(
            Reason::Flat {
                azimuth_deg: 12.0,
                ratio: 1.12,
            },
            "flat: comes from only 12° beside the nose, cheeks 1.1:1",
            "flach: kommt aus nur 12° neben der Nase, Wangen 1,1:1",
        );
        said(
            Reason::FromBehind { azimuth_deg: 130.0 },
            "comes from behind (130° round)",
            "kommt von hinten (130° herum)",
        );
        said(
            Reason::Beside { azimuth_deg: 80.0 },
            "comes from 80° beside the nose",
            "kommt aus 80° neben der Nase",
        );
        said(
            Reason::OtherSide { azimuth_deg: 44.0 },
            "lights the other side (44° camera right)",
            "beleuchtet die andere Seite (44° kamerarechts)",
        );
        said(
            Reason::FromBelow { below_deg: 30.0 },
            "comes from below (30°), like a torch under the chin",
            "kommt von unten (30°), wie eine Taschenlampe unter dem Kinn",
        );
        said(
            Reason::Above { elevation_deg: 22.0 },
            "comes 22° above the eyes",
            "kommt aus 22° über den Augen",
        );
        said(
            Reason::Above { elevation_deg: 0.2 },
            "comes level with the eyes",
            "kommt in Augenhöhe",
        );
        said(
            Reason::HollowEyes { sockets: Stops(-2.1) },
            "leaves the eyes dark (−2.1 stops against the cheek below)",
            "lässt die Augen dunkel (−2,1 Blenden gegen die Wange darunter)",
        );
        said(
            Reason::Short { by: Stops(1.0) },
            "1 stop short of what is asked in hand",
            "1 Blende weniger als die gewünschte Reserve",
        );
        said(
            Reason::AsGoodButHeld,
            "would do as well, but needs a pair of hands",
            "ginge ebenso, aber jemand muss es halten",
        );
    }

    #[test]
    fn a_cast_is_warm_cold_or_green() {
        let said = |of: Cast, english: &str, german: &str| check(|voice| cast(voice, &of), english, german);
        said(
            of_cast(115.0, 0.001),
            "about 115 mired warm",
            "etwa 115 Mired warm",
        );
        said(
            of_cast(-20.0, 0.005),
            "about 20 mired cold and green (Duv +0.005)",
            "etwa 20 Mired kalt und grün (Duv +0,005)",
        );
        said(of_cast(0.0, 0.0), "no shift", "kein Farbstich");
        said(
            of_cast(3.0, -0.012),
            "mostly magenta (Duv −0.012) rather than warm or cold (+3 mired): the kelvin setting cannot remove it, only tint \
             or a gel can",
            "vor allem magenta (Duv −0,012), weniger warm oder kalt (+3 Mired): Mit Kelvin geht das nicht weg, nur mit dem \
             Farbstich-Regler oder einer Folie",
        );
    }
}
