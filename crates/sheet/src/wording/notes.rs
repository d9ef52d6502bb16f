//! What the photographer should do or know.

use super::colouring::{SEEN_DUV, shift_of_gel};
use super::lines::nd;
use super::nouns::{carrier, light, named, way};
use super::why::cast;
use super::wishes::side_words;
use crate::fitting::clean;
use crate::voice::{Voice, said};
use answer::{
    Cast, Clash, Exclusion, FrameEdge, FrameFall, GelTurn, Greenness, LevelTarget, LightName, LightThing,
    Note, Side, SidesCure, SidesVerdict, TemptedLight, WayId, Yielding,
};
use units::{Duv, Iso, Kelvin, Metres, MiredShift, ShutterTime, Stops};

/// A note: one or more whole sentences.
pub(crate) fn note(voice: Voice, note: &Note) -> String {
    match note {
        Note::Excluded { clash } => excluded(voice, clash),
        Note::LightIsKey {
            light: key,
            share,
            under,
            not_from,
        } => light_is_key(voice, key, *share, *under, *not_from),
        Note::FallsShort { stops } => falls_short(voice, *stops),
        Note::LeastPowerTooMuch { stops } => least_power_too_much(voice, *stops),
        Note::ThereTooMuch { stops } => there_too_much(voice, *stops),
        Note::LittleInHand { left, fewer } => little_in_hand(voice, *left, *fewer),
        Note::BlackShadow { ratio } => black_shadow(voice, *ratio),
        Note::BeamFallsOff { falls, may_zoom } => beam_falls_off(voice, falls, *may_zoom),
        Note::CastShadow { side, deep, behind_m } => cast_shadow(voice, *side, *deep, *behind_m),
        Note::BurnsFirst {
            thing,
            over_grey,
            left,
        } => burns_first(voice, thing, *over_grey, *left),
        Note::TwoLights { flash_deg, there_deg } => two_lights(voice, *flash_deg, *there_deg),
        Note::HairMerges { hair } => hair_merges(voice, *hair),
        Note::NearFullPower { wait_s, iso, ambient } => near_full_power(voice, *wait_s, *iso, *ambient),
        Note::BeyondSync { shutter, sync } => beyond_sync(voice, *shutter, *sync),
        Note::FlagHead { away_deg } => flag_head(voice, *away_deg),
        Note::BlockSpill { under } => block_spill(voice, *under),
        Note::SpillStaysUnder { away_deg, under } => spill_stays_under(voice, *away_deg, *under),
        Note::SpillMissesFace { away_deg } => spill_misses_face(voice, *away_deg),
        Note::ZoomHelpsPanel { gain } => zoom_helps_panel(voice, *gain),
        Note::ZoomHardlyMatters { gain } => zoom_hardly_matters(voice, *gain),
        Note::SharedShares { light, apart, sides } => shared_shares(voice, light, *apart, *sides),
        Note::BalanceCompromise { light, apart } => balance_compromise(voice, light, *apart),
        Note::BalanceServes { light, apart } => balance_serves(voice, light, *apart),
        Note::GelWorn {
            gel,
            turns,
            left,
            loss,
        } => gel_worn(voice, gel, *turns, *left, *loss),
        Note::GelToBuy {
            gel,
            shift,
            duv,
            than,
            loss,
        } => gel_to_buy(voice, gel, (*shift, *duv), than.as_deref(), *loss),
        Note::SidesApart { apart, verdict, cure } => sides_apart(voice, *apart, *verdict, *cure),
        Note::GreenLamps {
            lamps,
            under,
            share,
            warmer,
            greener,
            matters,
        } => {
            let stated = green_lamps(voice, lamps, *under, *share, (*warmer, *greener));
            format!("{stated}{}", greenness(voice, *matters))
        }
        Note::TemptingWall {
            way,
            light,
            balance_k,
            cast,
        } => tempting_wall(voice, way, light.as_ref(), *balance_k, cast),
        Note::DeepSetEyes => deep_set_eyes(voice),
        Note::DaylightOff { stops, spread } => daylight_off(voice, *stops, *spread),
        Note::ShutterLeavesFlash => shutter_leaves_flash(voice),
        Note::FilterTakesBoth { nd } => filter_takes_both(voice, *nd),
        Note::NoHighSpeedSync => no_high_speed_sync(voice).to_owned(),
        Note::OpenShade => open_shade(voice),
        Note::DepthCannotBeHad { depth_m } => depth_cannot_be_had(voice, *depth_m),
        Note::AmbientStays {
            under,
            shutter,
            fastest,
        } => ambient_stays(voice, *under, *shutter, *fastest),
        Note::AmbientOff { off } => ambient_off(voice, *off),
        Note::SlowForAPerson { shutter } => {
            format!("{} {}", slow_for_a_person(voice, *shutter), ghosts(voice))
        }
        Note::TooBright {
            target,
            off,
            shutter,
            fastest,
        } => too_bright(voice, target, *off, *shutter, *fastest),
        Note::TooDark { target, off } => too_dark(voice, target, *off),
    }
}

/// Two wishes of which one gives way.
fn excluded(voice: Voice, clash: &Clash) -> String {
    let why = exclusion(voice, &clash.because);
    let weaker = giving_way(voice, clash.gives_way);
    said!(voice; "{why}: {weaker} gives way."; "{why}: Nachgeben muss {weaker}.")
}

/// Why two wishes exclude each other, without its end.
fn exclusion(voice: Voice, because: &Exclusion) -> String {
    match because {
        Exclusion::EvenFromTheSide { azimuth_deg, ratio } => {
            let (azimuth, ratio) = (voice.plain(*azimuth_deg, 0), voice.ratio(ratio.value()));
            said!(
                voice;
                "A key from {azimuth}° leaves the far side of the face in shade, and {ratio} wants both sides lit";
                "Ein Hauptlicht aus {azimuth}° lässt die abgewandte Gesichtsseite im Schatten, und {ratio} will beide Seiten hell"
            )
        }
        Exclusion::UnevenFromTheFront { azimuth_deg, ratio } => {
            let (azimuth, ratio) = (voice.plain(*azimuth_deg, 0), voice.ratio(ratio.value()));
            said!(
                voice;
                "A key from {azimuth}° lights both sides of the face alike, and {ratio} wants one of them darker";
                "Ein Hauptlicht aus {azimuth}° macht beide Gesichtsseiten gleich hell, und {ratio} will eine davon dunkler"
            )
        }
        Exclusion::SideOfTheMiddle { side } => {
            let side = side_words(voice, *side);
            said!(
                voice;
                "A key above the nose comes from no side, so it cannot come from {side}";
                "Ein Hauptlicht über der Nase kommt von keiner Seite, also auch nicht von {side}"
            )
        }
        Exclusion::DeepGelOnNeutralSkin { gel } => {
            let gel = clean(gel);
            said!(
                voice;
                "No white balance makes skin neutral under {gel}";
                "Unter {gel} macht kein Weißabgleich die Haut neutral"
            )
        }
        Exclusion::SoftFromAHead { metres } => {
            let far = voice.about(*metres);
            said!(
                voice;
                "A small head {far} away is hard light, and there is nothing here to bounce from or to shine through";
                "Ein kleiner Blitzkopf in {far} Abstand ist hartes Licht, und hier gibt es nichts, worüber oder wodurch er \
                 leuchten könnte"
            )
        }
    }
}

/// What gives way.
fn giving_way(voice: Voice, wish: Yielding) -> &'static str {
    match wish {
        Yielding::Ratio => voice.pick("the ratio", "das Verhältnis"),
        Yielding::Direction => voice.pick("the direction of the key", "die Richtung des Hauptlichts"),
        Yielding::Side => voice.pick("the side", "die Seite"),
        Yielding::NeutralSkin => voice.pick("neutral skin", "die neutrale Haut"),
        Yielding::Softness => voice.pick("softness", "die Weichheit"),
    }
}

/// A light that is there as the key, and the flash as what fills.
fn light_is_key(voice: Voice, key: &LightName, share: f64, under: Stops, not_from: Option<Side>) -> String {
    let (key, share) = (light(voice, key).bare, voice.plain(100.0 * share, 0));
    let under = voice.stops(under.value());
    let mut words = said!(
        voice;
        "The key is the light that is there ({key}): it makes {share} % of the light on the face, and the flash fills, {under} \
         under it.";
        "Hauptlicht ist, was schon da ist ({key}): Es macht {share} % des Lichts im Gesicht, und der Blitz hellt auf, {under} \
         darunter."
    );
    if let Some(side) = not_from {
        let side = side_words(voice, side);
        words.push_str(&said!(
            voice;
            " So it does not come from {side}: turn the sitter, or keep that light out.";
            " Von {side} kommt es also nicht: Dreh die Person oder halte dieses Licht heraus."
        ));
    }
    words
}

/// A flash that is too weak; a card says the same of a changed light.
pub(crate) fn falls_short(voice: Voice, stops: Stops) -> String {
    let stops = voice.stops(stops.value());
    said!(
        voice;
        "Full power falls {stops} short: open up, raise the ISO, or bring the light nearer.";
        "Volle Leistung ist {stops} zu wenig: Öffne die Blende, erhöhe die ISO-Zahl oder hole das Licht näher heran."
    )
}

fn least_power_too_much(voice: Voice, stops: Stops) -> String {
    let stops = voice.stops(stops.value());
    said!(
        voice;
        "Even the least power is {stops} too much: stop down, lower the ISO, or move the flash away.";
        "Selbst die kleinste Leistung ist {stops} zu viel: Schließe die Blende, senke die ISO-Zahl oder geh mit dem Blitz \
         weiter weg."
    )
}

fn there_too_much(voice: Voice, stops: Stops) -> String {
    let stops = voice.stops(stops.value());
    said!(
        voice;
        "The light that is there is {stops} too much without any flash: stop down, lower the ISO, put ND on the lens, or \
         look for shade.";
        "Das vorhandene Licht ist ohne jeden Blitz {stops} zu viel: Schließe die Blende, senke die ISO-Zahl, nimm einen \
         Graufilter oder such Schatten."
    )
}

fn little_in_hand(voice: Voice, left: Stops, fewer: Stops) -> String {
    let (left, fewer) = (voice.stops(left.value()), voice.stops(fewer.value()));
    said!(
        voice;
        "Only {left} left in hand, {fewer} less than asked: recycling will be slow and the flash will get warm.";
        "Nur {left} Reserve, {fewer} weniger als gewünscht: Der Blitz lädt langsam und wird warm."
    )
}

/// A shadow side without detail.
fn black_shadow(voice: Voice, ratio: f64) -> String {
    let (under, ratio) = (voice.stops(ratio.log2()), voice.ratio(ratio));
    said!(
        voice;
        "The shadow side of the face is {under} under the lit one ({ratio}), nearly black in the picture. A white board close \
         to that side brings it up; leave it so where that is the look.";
        "Die Schattenseite des Gesichts liegt {under} unter der Lichtseite ({ratio}), im Bild fast schwarz. Ein weißes Brett \
         nah an dieser Seite hellt sie auf; lass es so, wenn das der Look ist."
    )
}

/// Where the beam does not cover the frame.
fn beam_falls_off(voice: Voice, falls: &[FrameFall], may_zoom: bool) -> String {
    let each = falls.iter().map(|fall| {
        let (edge, under) = (edge_words(voice, fall.edge), voice.stops(fall.under.value()));
        said!(voice; "{under} at {edge}"; "{under} {edge}")
    });
    let all = voice.list(&each.collect::<Vec<_>>());
    let cure = match may_zoom {
        true => voice.pick(
            "A wider zoom or more distance covers more.",
            "Eine weitere Zoomstellung oder mehr Abstand deckt mehr ab.",
        ),
        false => voice.pick("More distance covers more.", "Mehr Abstand deckt mehr ab."),
    };
    said!(
        voice;
        "The beam does not cover the frame; it is weaker than at the face by {all}. {cure}";
        "Der Strahl deckt das Bild nicht ab; gegen das Gesicht fehlen {all}. {cure}"
    )
}

fn edge_words(voice: Voice, edge: FrameEdge) -> &'static str {
    match edge {
        FrameEdge::Left => voice.pick("the left edge", "am linken Rand"),
        FrameEdge::Right => voice.pick("the right edge", "am rechten Rand"),
        FrameEdge::Top => voice.pick("the upper edge", "am oberen Rand"),
        FrameEdge::Bottom => voice.pick("the lower edge", "am unteren Rand"),
    }
}

/// The sitter's shadow on what is behind them.
fn cast_shadow(voice: Voice, side: Option<Side>, deep: Stops, behind_m: f64) -> String {
    let (deep, behind) = (voice.stops(deep.value()), voice.about(behind_m));
    let place = match side {
        Some(side) => {
            let side = side_words(voice, side);
            said!(voice; "{side} of the head"; "{side} vom Kopf")
        }
        None => voice.pick("around the head", "um den Kopf").to_owned(),
    };
    said!(
        voice;
        "The sitter's shadow shows {place}, {behind} behind the face, about {deep} deep. A higher flash, or more \
         distance to what is behind, takes it out of the picture.";
        "Der Schatten der Person ist {place} zu sehen, {behind} hinter dem Gesicht, etwa {deep} tief. Ein höherer Blitz \
         oder mehr Abstand zum Hintergrund nimmt ihn aus dem Bild."
    )
}

/// Nearer to saturation than this nothing brighter is advised, in stops (ours: what a first frame may be off).
const NO_BRIGHTER: f64 = 2.0 / 3.0;

/// The light thing that burns out first.
fn burns_first(voice: Voice, thing: &LightThing, over_grey: Stops, left: Stops) -> String {
    let (thing, over) = (light_thing(voice, thing), voice.stops(over_grey.value()));
    let apart = voice.stops(left.value().abs());
    if left.value() > 0.0 {
        let advice = match left.value() < NO_BRIGHTER {
            true => voice.pick(" Expose no brighter than this.", " Belichte nicht heller als so."),
            false => "",
        };
        return said!(
            voice;
            "First to burn out is {thing}: its brightest part lies {over} above mid-grey, {apart} before detail ends.{advice}";
            "Als Erstes brennt {thing} aus: Die hellste Stelle liegt {over} über Mittelgrau, {apart} vor dem Ende der \
             Zeichnung.{advice}"
        );
    }
    said!(
        voice;
        "The brightest part of {thing} burns out: it lies {over} above mid-grey, {apart} past where detail ends. Where that \
         matters, expose so much less and lift the face afterwards, or keep some light off it.";
        "Die hellste Stelle brennt aus ({thing}): Sie liegt {over} über Mittelgrau, {apart} jenseits der Zeichnung. Wo das \
         wichtig ist, belichte um so viel knapper und hebe das Gesicht später an, oder halte dort etwas Licht ab."
    )
}

fn light_thing(voice: Voice, thing: &LightThing) -> String {
    let whose = |what: String, sitter: &Option<String>| match sitter {
        Some(sitter) => {
            let sitter = clean(sitter);
            said!(voice; "{what} of {sitter}"; "{what} von {sitter}")
        }
        None => what,
    };
    match thing {
        LightThing::Top { sitter } => whose(voice.pick("the top", "das Oberteil").to_owned(), sitter),
        LightThing::Trousers { sitter } => whose(
            voice
                .pick("the trousers or skirt", "die Hose oder der Rock")
                .to_owned(),
            sitter,
        ),
        LightThing::Cap { sitter } => whose(voice.pick("the cap", "die Mütze").to_owned(), sitter),
        LightThing::Surface { of } => carrier(voice, of).the,
    }
}

/// A face that two lights make.
fn two_lights(voice: Voice, flash_deg: f64, there_deg: f64) -> String {
    let [flash, there] = [flash_deg, there_deg].map(|deg| voice.azimuth(deg));
    said!(
        voice;
        "Two lights make this face: the flash, {flash}, and the light that is there, {there}. Its shading shows both; for one \
         clear pattern keep one of them two stops under the other.";
        "Zwei Lichter formen dieses Gesicht: der Blitz, {flash}, und das vorhandene Licht, {there}. Die Schattierung zeigt beide; \
         für ein klares Muster halte eines zwei Blenden unter dem anderen."
    )
}

/// Hair that looks like what is behind it.
fn hair_merges(voice: Voice, hair: Stops) -> String {
    let apart = voice.stops(hair.value().abs());
    let words = match hair.value() < 0.0 {
        true => said!(voice; "{apart} darker than"; "{apart} dunkler als"),
        false => said!(voice; "{apart} lighter than"; "{apart} heller als"),
    };
    said!(
        voice;
        "The hair merges into what is behind it: it is only {words} that. A step to where it is lighter or darker behind the \
         head, or a little light on the hair from behind, parts them.";
        "Das Haar geht im Hintergrund unter: Es ist nur {words} dieser. Ein Schritt dorthin, wo es hinter dem Kopf heller oder \
         dunkler ist, oder etwas Licht von hinten aufs Haar trennt sie."
    )
}

fn near_full_power(voice: Voice, wait_s: f64, iso: Iso, ambient: Option<Stops>) -> String {
    let wait = voice.plain(wait_s, 1);
    let ambient = ambient.map_or_else(String::new, |level| {
        let level = voice.signed_stops(level.value());
        said!(
            voice;
            ", and puts the light that is there at {level}";
            " und bringt das vorhandene Licht auf {level}"
        )
    });
    said!(
        voice;
        "Near full power: watch the recycling, about {wait} s after each frame. {iso} leaves a stop more in hand{ambient}.";
        "Fast volle Leistung: Achte auf die Ladezeit, etwa {wait} s nach jedem Bild. {iso} lässt eine Blende mehr \
         Reserve{ambient}."
    )
}

fn beyond_sync(voice: Voice, shutter: ShutterTime, sync: ShutterTime) -> String {
    let (shutter, sync) = (voice.shutter(shutter), voice.shutter(sync));
    said!(
        voice;
        "{shutter} is faster than the sync speed of {sync}: part of the frame will miss the flash.";
        "{shutter} ist kürzer als die Synchronzeit von {sync}: Ein Teil des Bildes bekommt den Blitz nicht."
    )
}

/// The rule about a head that is turned too little away, in common practice's 70 degrees, without its end.
fn spill_rule(voice: Voice) -> &'static str {
    voice.pick(
        "If the head is turned less than about 70° away from the face, block the direct spill with a card or a hand on the \
         sitter's side",
        "Ist der Blitzkopf weniger als etwa 70° vom Gesicht weggedreht, decke sein direktes Streulicht zur Person hin mit \
         einer Karte oder der Hand ab",
    )
}

fn flag_head(voice: Voice, away_deg: f64) -> String {
    let (away, rule) = (voice.plain(away_deg, 0), spill_rule(voice));
    said!(
        voice;
        "Flag the head: a dark card a hand's length from it, between the head and the face, or its direct spill would show as \
         a hard shadow ({away}° away from the face). {rule}.";
        "Decke den Blitzkopf ab: mit einer schwarzen Karte, eine Handlänge davor, zwischen Blitzkopf und Gesicht. Sonst zeigt \
         sich sein direktes Streulicht als harter Schatten ({away}° vom Gesicht weg). {rule}."
    )
}

fn block_spill(voice: Voice, under: Stops) -> String {
    let (stops, rule) = (voice.stops(under.value()), spill_rule(voice));
    let level = match under.value() < -0.05 {
        true => said!(
            voice;
            "is {stops} over the bounce";
            "liegt {stops} über dem zurückgeworfenen Licht"
        ),
        false => said!(
            voice;
            "is only {stops} under the bounce";
            "liegt nur {stops} unter dem zurückgeworfenen Licht"
        ),
    };
    said!(
        voice;
        "Block the head on the sitter's side: its direct spill {level}. {rule}.";
        "Decke den Blitzkopf zur Person hin ab: Sein direktes Streulicht {level}. {rule}."
    )
}

fn spill_stays_under(voice: Voice, away_deg: f64, under: Stops) -> String {
    let (away, under, rule) = (
        voice.plain(away_deg, 0),
        voice.stops(under.value()),
        spill_rule(voice),
    );
    said!(
        voice;
        "{rule}; here it is turned {away}° away and the spill stays {under} under.";
        "{rule}; hier ist er {away}° weggedreht, und das Streulicht bleibt {under} darunter."
    )
}

fn spill_misses_face(voice: Voice, away_deg: f64) -> String {
    let (away, rule) = (voice.plain(away_deg, 0), spill_rule(voice));
    said!(
        voice;
        "{rule}; here it is turned {away}° away and nothing of the beam meets the face.";
        "{rule}; hier ist er {away}° weggedreht, und nichts vom Strahl trifft das Gesicht."
    )
}

fn zoom_helps_panel(voice: Voice, gain: Stops) -> String {
    let gain = voice.signed_stops(gain.value());
    said!(
        voice;
        "A small panel is better with the head zoomed in (here {gain} from zoom 50 to 105); a wall is not: it becomes the lamp \
         whatever the zoom.";
        "Für eine kleine Tafel ist ein enger Zoom besser (hier {gain} von Zoom 50 bis 105), für eine Wand nicht: Sie wird bei \
         jedem Zoom selbst zur Lampe."
    )
}

fn zoom_hardly_matters(voice: Voice, gain: Stops) -> String {
    let gain = voice.signed_stops(gain.value());
    said!(
        voice;
        "The zoom hardly matters on a wall ({gain} from 50 to 105): the wall becomes the lamp. Only a small panel gains from \
         zooming in.";
        "Auf einer Wand macht der Zoom wenig aus ({gain} von 50 bis 105): Die Wand wird selbst zur Lampe. Nur eine kleine Tafel \
         gewinnt durch einen engen Zoom."
    )
}

fn shared_shares(voice: Voice, name: &LightName, apart: MiredShift, sides: MiredShift) -> String {
    let (name, apart) = (light(voice, name).bare, voice.plain(apart.value(), 0));
    let sides = voice.plain(sides.value(), 0);
    said!(
        voice;
        "Flash and {name} differ by about {apart} mired where they arrive, but reach both sides of the face in such shares that \
         these lie only {sides} mired apart: one balance serves.";
        "Blitz und {name} liegen dort, wo sie ankommen, etwa {apart} Mired auseinander, erreichen aber beide Gesichtshälften \
         so, dass diese nur {sides} Mired auseinanderliegen: Ein Abgleich genügt."
    )
}

fn balance_compromise(voice: Voice, name: &LightName, apart: MiredShift) -> String {
    let (name, apart) = (light(voice, name).bare, voice.plain(apart.value(), 0));
    said!(
        voice;
        "Flash and {name} differ by about {apart} mired: one balance is a compromise, and the two sides of the face will differ \
         a little.";
        "Blitz und {name} liegen etwa {apart} Mired auseinander: Ein Abgleich ist ein Kompromiss, und die beiden \
         Gesichtshälften werden sich ein wenig unterscheiden."
    )
}

fn balance_serves(voice: Voice, name: &LightName, apart: MiredShift) -> String {
    let (name, apart) = (light(voice, name).bare, voice.plain(apart.value(), 0));
    said!(
        voice;
        "Flash and {name} differ by only about {apart} mired, so one white balance serves both sides of the face.";
        "Blitz und {name} liegen nur etwa {apart} Mired auseinander, darum genügt ein Weißabgleich für beide Gesichtshälften."
    )
}

fn gel_worn(
    voice: Voice,
    gel: &str,
    turns: Option<GelTurn>,
    left: Option<MiredShift>,
    loss: Stops,
) -> String {
    let (gel, loss) = (clean(gel), voice.stops(loss.value()));
    let turns = match turns {
        Some(turn) => {
            let (shift, kelvin) = (
                shift_of_gel(voice, turn.shift, turn.duv),
                voice.plain(turn.kelvin.value(), 0),
            );
            said!(
                voice;
                "{shift}, so its light has {kelvin} K";
                "{shift}, damit hat sein Licht {kelvin} K"
            )
        }
        None => voice.pick("a deep colour", "eine kräftige Farbe").to_owned(),
    };
    let left = left.map_or_else(String::new, |left| {
        let left = voice.plain(left.value().abs(), 0);
        said!(
            voice;
            ", and where both arrive it lies {left} mired from the light that is there";
            ", und wo beide ankommen, liegt es {left} Mired neben dem vorhandenen Licht"
        )
    });
    said!(
        voice;
        "The flash wears {gel}: {turns}{left}; it costs {loss}.";
        "Folie {gel} vor dem Blitz: {turns}{left}; das kostet {loss}."
    )
}

fn gel_to_buy(
    voice: Voice,
    gel: &str,
    (shift, duv): (MiredShift, Duv),
    than: Option<&str>,
    loss: Stops,
) -> String {
    let (gel, loss) = (clean(gel), voice.stops(loss.value()));
    let shift = shift_of_gel(voice, shift, duv);
    let instead = match than.map(clean) {
        Some(than) => said!(voice; "better than the {than}"; "besser als {than}"),
        None => said!(voice; "which is not in the bag"; "die nicht in der Tasche ist"),
    };
    said!(
        voice;
        "A {gel} on the flash ({shift}), {instead}, would bring its light and the light that is there together; it costs {loss}.";
        "Die Folie {gel} vor dem Blitz ({shift}), {instead}, brächte sein Licht und das vorhandene zusammen; das kostet {loss}."
    )
}

fn sides_apart(voice: Voice, apart: MiredShift, verdict: SidesVerdict, cure: SidesCure) -> String {
    let apart = voice.plain(apart.value(), 0);
    let verdict = match verdict {
        SidesVerdict::Compromise => {
            voice.pick("one balance is a compromise", "Ein Abgleich ist ein Kompromiss")
        }
        SidesVerdict::NoBalance => {
            voice.pick("no single balance serves both", "Kein Abgleich passt für beide")
        }
    };
    let cure = match cure {
        SidesCure::CoverWalls => voice.pick(
            "Most of it is the flash's own light off coloured walls: a white board on the shadow side covers them.",
            "Das meiste davon ist Blitzlicht, das von farbigen Wänden kommt: Eine weiße Tafel auf der Schattenseite verdeckt \
             sie.",
        ),
        SidesCure::FillShadow => voice.pick(
            "The light that is there is far under, but fills the shadow side: a white board there, or a gel that makes the flash \
             alike, cures it.",
            "Das vorhandene Licht liegt weit darunter, hellt aber die Schattenseite auf: Dagegen hilft dort eine weiße Tafel \
             oder eine Folie, die den Blitz angleicht.",
        ),
        SidesCure::MatchLights => voice.pick(
            "Make the lights alike with a gel, or bring the light that is there three stops under, where its colour can be \
             ignored.",
            "Gleiche die Lichter mit einer Folie an, oder bringe das vorhandene Licht drei Blenden darunter, wo seine Farbe \
             nicht mehr zählt.",
        ),
    };
    said!(
        voice;
        "The two sides of the face are {apart} mired apart: {verdict}. {cure}";
        "Die beiden Gesichtshälften liegen {apart} Mired auseinander: {verdict}. {cure}"
    )
}

/// Greenish lamps and their part of the light, without what follows from it.
fn green_lamps(
    voice: Voice,
    lamps: &[LightName],
    under: Stops,
    share: f64,
    (warmer, greener): (MiredShift, Duv),
) -> String {
    let lamps: Vec<String> = lamps.iter().map(|lamp| light(voice, lamp).dat).collect();
    let (lamps, under) = (voice.list(&lamps), voice.stops_under(under.value()));
    let share = voice.plain(100.0 * share, 0);
    let (warmer, greener) = (voice.signed(warmer.value(), 0), voice.signed(greener.value(), 4));
    said!(
        voice;
        "Greenish light from {lamps}, {under}: {share} % of the light on the face, which moves its colour by {warmer} \
         mired and Duv {greener}";
        "Grünliches Licht von {lamps}, {under}: {share} % des Lichts im Gesicht; das verschiebt seine Farbe um \
         {warmer} Mired und Duv {greener}"
    )
}

/// Whether green light matters, behind what it is.
fn greenness(voice: Voice, matters: Greenness) -> String {
    match matters {
        Greenness::BelowSeen => voice
            .pick(
                ": below what is seen, so no green gel is needed.",
                ". Das sieht man nicht; eine grüne Folie braucht es nicht.",
            )
            .to_owned(),
        Greenness::HardlySeen => voice
            .pick(
                ": hardly seen, so no green gel is needed.",
                ". Das sieht man kaum; eine grüne Folie braucht es nicht.",
            )
            .to_owned(),
        Greenness::GelMatches => voice
            .pick(
                "; the green gel on the flash makes both alike, and the tint of the balance takes it out.",
                "; die grüne Folie vor dem Blitz gleicht beide an, und der Farbstich-Regler des Abgleichs nimmt es heraus.",
            )
            .to_owned(),
        Greenness::Shows { match_duv } => {
            let duv = voice.signed(match_duv.value(), 3);
            said!(
                voice;
                ": that shows. A green gel on the flash (Duv {duv} would match) and magenta in the balance make both alike, or \
                 bring the lamps three stops under.";
                ". Das sieht man. Eine grüne Folie vor dem Blitz (Duv {duv} würde passen) und Magenta im Abgleich gleichen \
                 beide an, oder bringe die Lampen drei Blenden darunter."
            )
        }
    }
}

fn tempting_wall(
    voice: Voice,
    wall: &WayId,
    there: Option<&TemptedLight>,
    balance_k: [Kelvin; 2],
    of: &Cast,
) -> String {
    let the = way(voice, wall).the;
    let mixed = there.and_then(|there| Some((light(voice, &there.light).the, there.apart?)));
    let mixed = mixed.map_or_else(String::new, |(light, apart)| {
        let apart = voice.plain(apart.value().abs(), 0);
        said!(
            voice;
            " ({light} and this bounce would be about {apart} mired apart: no single balance serves both)";
            " ({light} und dieses Licht lägen etwa {apart} Mired auseinander: Kein Abgleich passt für beide)"
        )
    });
    let shut = match there.map(|there| light(voice, &there.light).acc) {
        Some(light) => said!(
            voice;
            "shut out {light} or gel the look on purpose";
            "halte {light} fern oder färbe das Bild bewusst mit einer Folie"
        ),
        None => said!(
            voice;
            "gel the look on purpose";
            "färbe das Bild bewusst mit einer Folie"
        ),
    };
    let tint = match of.duv.value() {
        green if green > SEEN_DUV => voice.pick(" with a little magenta", " mit etwas Magenta"),
        magenta if magenta < -SEEN_DUV => voice.pick(" with a little green", " mit etwas Grün"),
        _ => "",
    };
    let (range, cast) = (kelvins(voice, balance_k), cast(voice, of));
    said!(
        voice;
        "If {the} must be used all the same{mixed}: {shut}, then one white balance near {range}{tint}. Its cast: {cast}.";
        "Wenn es doch {the} sein muss{mixed}, {shut} und nimm dann einen Weißabgleich um {range}{tint}. Der Farbstich dabei: \
         {cast}."
    )
}

/// "4100 to 4800 K", to the hundred.
fn kelvins(voice: Voice, [from, to]: [Kelvin; 2]) -> String {
    let hundreds = |kelvin: Kelvin| voice.plain((kelvin.value() / 100.0).round() * 100.0, 0);
    let (from, to) = (hundreds(from), hundreds(to));
    if from == to {
        format!("{from} K")
    } else {
        said!(voice; "{from} to {to} K"; "{from} bis {to} K")
    }
}

fn deep_set_eyes(voice: Voice) -> String {
    voice
        .pick(
            "Deep-set eyes will go dark under so steep a light: chin up a little, or a white card at the chest.",
            "Tief liegende Augen werden unter so steilem Licht dunkel: das Kinn etwas hoch, oder eine weiße Karte vor die Brust.",
        )
        .to_owned()
}

fn daylight_off(voice: Voice, stops: Stops, spread: Stops) -> String {
    let (off, spread) = (voice.stops(stops.value()), voice.stops(spread.value()));
    let side = match stops.value() > 0.0 {
        true => voice.pick("brighter", "heller"),
        false => voice.pick("darker", "dunkler"),
    };
    said!(
        voice;
        "The daylight that you metered is {off} {side} than computed for this sky, and skies like it spread by about {spread}: \
         look at the weather, the time and what stands before the sky. Your reading is used.";
        "Das Tageslicht, das du gemessen hast, ist {off} {side} als für diesen Himmel berechnet, und solche Himmel streuen um \
         etwa {spread}: Sieh nach dem Wetter, der Zeit und nach dem, was vor dem Himmel steht. Es gilt deine Messung."
    )
}

fn shutter_leaves_flash(voice: Voice) -> String {
    voice
        .pick(
            "The shutter does not change the flash part at or below sync; it moves only what is there without the flash.",
            "Bis zur Synchronzeit ändert die Verschlusszeit nichts am Blitz; sie bewegt nur, was ohne Blitz da ist.",
        )
        .to_owned()
}

fn filter_takes_both(voice: Voice, filter: Stops) -> String {
    let filter = nd(voice, filter);
    said!(
        voice;
        "{filter} on the lens takes from flash and ambient alike, so the fastest synced shutter serves the flash best. Focus \
         and compose before fitting it, or check that focus works with it; its tint needs a white-balance frame.";
        "{filter} vor dem Objektiv nimmt Blitz und vorhandenem Licht gleich viel, darum dient dem Blitz die Synchronzeit am \
         besten. Stelle scharf und wähle den Ausschnitt, bevor du den Graufilter aufsetzt, oder prüfe, ob es auch damit \
         scharf wird; sein Farbstich braucht ein Bild für den Weißabgleich."
    )
}

fn no_high_speed_sync(voice: Voice) -> &'static str {
    voice.pick(
        "High-speed sync is not considered.",
        "Blitzen mit kürzeren Zeiten als der Synchronzeit ist nicht bedacht.",
    )
}

/// Three stops lie between the sun and open shade (common practice).
fn open_shade(voice: Voice) -> String {
    let saved = voice.stops(3.0);
    said!(
        voice;
        "Another way in the sun: one step into open shade saves about {saved}.";
        "In der Sonne geht es auch anders: Ein Schritt in den offenen Schatten spart etwa {saved}."
    )
}

fn depth_cannot_be_had(voice: Voice, depth: Metres) -> String {
    let depth = voice.exact(depth.value());
    said!(
        voice;
        "A depth of {depth} cannot be had with this lens at this distance; f/16 comes nearest. Step back or use a shorter lens.";
        "{depth} Tiefe werden mit diesem Objektiv in diesem Abstand nicht scharf; f/16 kommt am nächsten. Geh zurück oder nimm \
         ein kürzeres Objektiv."
    )
}

fn ambient_stays(voice: Voice, under: Stops, shutter: ShutterTime, fastest: bool) -> String {
    let (stops, shutter) = (voice.stops(under.value()), voice.shutter(shutter));
    let level = match under.value() < -0.05 {
        true => said!(voice; "{stops} brighter than the exposure"; "{stops} über der Belichtung"),
        false => said!(voice; "only {stops} under"; "nur {stops} darunter"),
    };
    if !fastest {
        return said!(
            voice;
            "The light that is there is {level} at {shutter}: a faster shutter darkens it, and the flash has to make up for that.";
            "Das vorhandene Licht liegt bei {shutter} {level}: Eine kürzere Zeit macht es dunkler, und der Blitz muss das \
             ausgleichen."
        );
    }
    said!(
        voice;
        "The light that is there is {level} at {shutter}, the fastest clean shutter: dim it, shade it, or stop down.";
        "Das vorhandene Licht liegt bei {shutter}, der kürzesten sauberen Zeit, {level}: Dimme es, halte es ab oder schließe \
         die Blende."
    )
}

fn ambient_off(voice: Voice, off: Stops) -> String {
    let amount = voice.stops(off.value());
    if off.value() > 0.0 {
        said!(
            voice;
            "The room comes out {amount} brighter than asked: a smaller aperture, a lower ISO or ND brings it down.";
            "Der Raum wird {amount} heller als gewünscht: Eine kleinere Blende, eine kleinere ISO-Zahl oder ein Graufilter \
             macht ihn dunkler."
        )
    } else {
        said!(
            voice;
            "The room comes out {amount} darker than asked: a higher ISO or a tripod brings it up.";
            "Der Raum wird {amount} dunkler als gewünscht: Eine höhere ISO-Zahl oder ein Stativ macht ihn heller."
        )
    }
}

/// A shutter too slow for a person; a card says the same of a changed light.
pub(crate) fn slow_for_a_person(voice: Voice, shutter: ShutterTime) -> String {
    let shutter = voice.shutter(shutter);
    said!(
        voice;
        "{shutter} is slow for a person: use a support and ask the sitter to hold still.";
        "{shutter} ist lang für einen Menschen: Stütze die Kamera und bitte die Person, still zu halten."
    )
}

/// What a slow shutter makes of people who move although the flash is short.
fn ghosts(voice: Voice) -> &'static str {
    voice.pick(
        "Whoever moves leaves a ghost in the light that is there beside the sharp flash; second-curtain sync puts it behind \
         them.",
        "Wer sich bewegt, zieht im vorhandenen Licht eine Spur neben dem scharfen Blitzbild; mit Blitz auf den zweiten Vorhang \
         liegt sie dahinter.",
    )
}

/// What comes out at another level, at the head of a sentence.
fn target_words(voice: Voice, target: &LevelTarget) -> String {
    match target {
        LevelTarget::Zone { name } => named(voice, name).bare,
        LevelTarget::Ambient => voice
            .pick("Ambient light at the face", "Vorhandenes Licht im Gesicht")
            .to_owned(),
    }
}

fn too_bright(voice: Voice, target: &LevelTarget, off: Stops, shutter: ShutterTime, fastest: bool) -> String {
    let (target, off) = (target_words(voice, target), voice.stops(off.value()));
    let (shutter, not_considered) = (voice.shutter(shutter), no_high_speed_sync(voice));
    if !fastest {
        return said!(
            voice;
            "{target}: {off} brighter than asked. A faster shutter than {shutter}, a smaller aperture, a lower ISO or ND on the \
             lens brings it down, and the flash has to make up for that.";
            "{target}: {off} heller als gewünscht. Eine kürzere Zeit als {shutter}, eine kleinere Blende, eine kleinere ISO-Zahl \
             oder ein Graufilter macht es dunkler, und der Blitz muss das ausgleichen."
        );
    }
    said!(
        voice;
        "{target}: {off} brighter than asked. The shutter stays at {shutter}, the fastest with a clean flash frame; a smaller \
         aperture, a lower ISO or ND on the lens brings it down. {not_considered}";
        "{target}: {off} heller als gewünscht. Die Verschlusszeit bleibt bei {shutter}, der kürzesten, bei der der Blitz das \
         ganze Bild trifft; eine kleinere Blende, eine kleinere ISO-Zahl oder ein Graufilter macht es dunkler. \
         {not_considered}"
    )
}

fn too_dark(voice: Voice, target: &LevelTarget, off: Stops) -> String {
    let (target, off) = (target_words(voice, target), voice.stops(off.value()));
    said!(
        voice;
        "{target}: {off} darker than asked. A slower shutter, a wider aperture or a higher ISO brings it up, not more flash.";
        "{target}: {off} dunkler als gewünscht. Eine längere Zeit, eine größere Blende oder eine höhere ISO-Zahl macht es \
         heller, nicht mehr Blitz."
    )
}

#[cfg(test)]
mod tests;
