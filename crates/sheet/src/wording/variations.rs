//! Other light than planned: what is touched, and what other settings cannot keep.

use super::lines::nd;
use super::notes::{falls_short, slow_for_a_person};
use crate::voice::{Voice, said};
use answer::{Loss, Settings};
use units::PowerFraction;

/// What is touched between two settings of camera and flash: "shutter 1/50, all else untouched".
pub(crate) fn changed(
    voice: Voice,
    (before, power_before): (&Settings, PowerFraction),
    (after, power_after): (&Settings, PowerFraction),
) -> String {
    let mut parts = Vec::new();
    if after.shutter != before.shutter {
        let shutter = voice.shutter(after.shutter);
        parts.push(said!(voice; "shutter {shutter}"; "Verschlusszeit {shutter}"));
    }
    if after.iso != before.iso {
        parts.push(after.iso.to_string());
    }
    if after.aperture != before.aperture {
        parts.push(after.aperture.to_string());
    }
    if after.nd != before.nd {
        parts.push(match after.nd {
            none if none.value() <= 0.0 => voice.pick("no ND filter", "kein Graufilter").to_owned(),
            filter => nd(voice, filter),
        });
    }
    if power_after != power_before {
        parts.push(super::chart::power(voice, power_after));
    }
    if parts.is_empty() {
        return voice.pick("nothing to change", "nichts zu ändern").to_owned();
    }
    let parts = parts.join(", ");
    said!(voice; "{parts}, all else untouched"; "{parts}, alles andere bleibt")
}

/// Everything that is lost, in sentences; empty where nothing is.
pub(crate) fn losses(voice: Voice, losses: &[Loss]) -> String {
    let each = losses.iter().map(|lost| loss(voice, lost));
    each.collect::<Vec<_>>().join(" ")
}

fn loss(voice: Voice, loss: &Loss) -> String {
    match loss {
        Loss::AmbientBrighter { stops } => {
            let stops = voice.stops(stops.value());
            // A filter is no help: it takes from the flash as well.
            said!(
                voice;
                "The light that is there comes out {stops} brighter than planned, for the flash is at its most: bring the flash \
                 nearer, or find shade.";
                "Das vorhandene Licht wird {stops} heller als geplant, denn der Blitz gibt schon alles: Hole ihn näher heran \
                 oder such Schatten."
            )
        }
        Loss::AmbientDarker { stops } => {
            let stops = voice.stops(stops.value());
            said!(
                voice;
                "The light that is there comes out {stops} darker than planned.";
                "Das vorhandene Licht wird {stops} dunkler als geplant."
            )
        }
        Loss::FlashShort { stops } => falls_short(voice, *stops),
        Loss::FaceTooBright { stops } => {
            let stops = voice.stops(stops.value());
            said!(
                voice;
                "The face comes out {stops} too bright: the light that is there is enough without the flash.";
                "Das Gesicht wird {stops} zu hell: Das vorhandene Licht genügt ohne Blitz."
            )
        }
        Loss::OtherAperture { aperture, instead_of } => {
            let smaller = aperture.value() > instead_of.value();
            let depth = match smaller {
                true => voice.pick("more is sharp", "Es wird mehr scharf"),
                false => voice.pick("less is sharp", "Es wird weniger scharf"),
            };
            said!(
                voice;
                "{aperture} instead of {instead_of}: {depth}.";
                "{aperture} statt {instead_of}: {depth}."
            )
        }
        Loss::SlowForAPerson { shutter } => slow_for_a_person(voice, *shutter),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{answer, check};
    use units::{ShutterTime, Stops};

    #[test]
    fn only_what_is_touched_is_named() {
        let answer = answer();
        let now = (&answer.settings, answer.flash.power);
        check(
            |voice| changed(voice, now, now),
            "nothing to change",
            "nichts zu ändern",
        );
        let then = Settings {
            shutter: ShutterTime::new(0.5).expect("a shutter"),
            iso: "ISO 800".parse().expect("a speed"),
            aperture: "f/5.6".parse().expect("an aperture"),
            nd: Stops(3.0),
            ..answer.settings
        };
        let power = PowerFraction::from_thirds_below_full(3).expect("a power");
        check(
            |voice| changed(voice, now, (&then, power)),
            "shutter 0.5 s, ISO 800, f/5.6, ND 3 stops, power 1/2, all else untouched",
            "Verschlusszeit 0,5 s, ISO 800, f/5.6, ND 3 Blenden, Leistung 1/2, alles andere bleibt",
        );
        check(
            |voice| {
                changed(
                    voice,
                    (&then, power),
                    (
                        &Settings {
                            nd: Stops(0.0),
                            ..then
                        },
                        power,
                    ),
                )
            },
            "no ND filter, all else untouched",
            "kein Graufilter, alles andere bleibt",
        );
    }

    #[test]
    fn losses_are_whole_sentences() {
        let aperture = |text: &str| text.parse().expect("an aperture");
        check(
            |voice| {
                losses(
                    voice,
                    &[
                        Loss::AmbientBrighter { stops: Stops(1.04) },
                        Loss::OtherAperture {
                            aperture: aperture("f/8"),
                            instead_of: aperture("f/4"),
                        },
                    ],
                )
            },
            "The light that is there comes out 1 stop brighter than planned, for the flash is at its most: bring the flash \
             nearer, or find shade. f/8 instead of f/4: more is sharp.",
            "Das vorhandene Licht wird 1 Blende heller als geplant, denn der Blitz gibt schon alles: Hole ihn näher heran oder \
             such Schatten. f/8 statt f/4: Es wird mehr scharf.",
        );
        check(
            |voice| losses(voice, &[Loss::FlashShort { stops: Stops(0.7) }]),
            "Full power falls 0.7 stop short: open up, raise the ISO, or bring the light nearer.",
            "Volle Leistung ist 0,7 Blende zu wenig: Öffne die Blende, erhöhe die ISO-Zahl oder hole das Licht näher heran.",
        );
        check(
            |voice| {
                losses(
                    voice,
                    &[
                        Loss::FaceTooBright { stops: Stops(2.0) },
                        Loss::AmbientDarker { stops: Stops(0.5) },
                    ],
                )
            },
            "The face comes out 2 stops too bright: the light that is there is enough without the flash. The light that is there \
             comes out 0.5 stop darker than planned.",
            "Das Gesicht wird 2 Blenden zu hell: Das vorhandene Licht genügt ohne Blitz. Das vorhandene Licht wird 0,5 Blende \
             dunkler als geplant.",
        );
        assert_eq!(losses(Voice::default(), &[]), "");
    }
}
