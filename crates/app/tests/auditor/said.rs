//! What an answer says: every field of the published JSON that the auditor reads is named in this file, and nowhere else
//! but for the numbers that `lies.rs` changes.

use crate::parts::{
    About, Aim, Alternative, Camera, Caution, Change, ChartLine, Considered, Faces, Flash, Note, Offer,
    Prefer, Reading, Route, State, Then, Wish,
};
use crate::shoot::{FACES, Point};
use serde_json::Value;

/// An answer as JSON.
pub struct Said(Value);

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

fn word(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

fn items(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}

fn point(value: &Value) -> Point {
    ["from_left", "from_behind", "height"].map(|axis| number(&value[axis]))
}

fn face(value: &Value) -> Option<usize> {
    FACES.iter().position(|face| value.as_str() == Some(*face))
}

fn camera(value: &Value) -> Camera {
    Camera {
        f_number: number(&value["f_number"]),
        shutter_s: number(&value["shutter_s"]),
        iso: number(&value["iso"]),
        nd: number(&value["nd_stops"]),
        kelvin: number(&value["white_balance_k"]),
        tint_duv: number(&value["tint_duv"]),
    }
}

fn flash(value: &Value) -> Flash {
    Flash {
        below_full: number(&value["stops_below_full"]),
        exact: number(&value["exact_stops_below_full"]),
        zoom_mm: number(&value["zoom_mm"]),
        dress: word(&value["dress"]),
        in_hand: number(&value["in_hand_stops"]),
    }
}

fn aim(value: &Value) -> Aim {
    let route = &value["route"];
    let name = || word(&route["name"]);
    Aim {
        flash: point(&value["flash_m"]),
        target: point(&value["aim_m"]),
        above_eyes: number(&value["target_above_eyes_m"]),
        clock: number(&value["light_from_clock"]),
        turn_deg: number(&value["turn_deg"]),
        tilt_deg: number(&value["tilt_deg"]),
        legs: [0, 1].map(|leg| number(&value["legs_m"][leg])),
        flagged: value["flagged"] == true,
        route: match route["by"].as_str() {
            Some("bounce") => Route::Bounce {
                face: face(&route["face"]).expect("a face of the room has a known name"),
                corner_with: face(&route["corner_with"]),
            },
            Some("standing") => Route::Standing { name: name() },
            Some("held_board") => Route::HeldBoard {
                name: name(),
                normal: [0, 1, 2].map(|axis| number(&route["normal"][axis])),
                to_face: number(&route["to_face_m"]),
            },
            Some("open") => Route::Open,
            Some("direct") => Route::Direct,
            other => panic!("the auditor does not know the route {other:?}"),
        },
    }
}

fn reading(value: &Value) -> Reading {
    Reading {
        azimuth: number(&value["azimuth_deg"]),
        elevation: number(&value["elevation_deg"]),
        full_power_f_number: number(&value["full_power_aperture"]),
        near_cheek: number(&value["near_cheek_stops"]),
        far_cheek: number(&value["far_cheek_stops"]),
        ratio: number(&value["ratio"]),
        sockets: number(&value["sockets_stops"]),
        lit_socket: number(&value["lit_socket_stops"]),
        cast_mired: number(&value["cast"]["mired"]),
        softness: number(&value["softness"]),
        lit_skin: number(&value["skin"]["lit_stops"]),
        landmarks: items(&value["landmarks"])
            .map(|mark| (word(&mark["name"]), number(&mark["stops"])))
            .collect(),
    }
}

fn prefer(value: &Value) -> Prefer {
    let told = |field: &str| number(&value[field]);
    match value["reason"].as_str().unwrap_or_default() {
        "more_in_hand" => Prefer::MoreInHand(told("stops")),
        "softer" => Prefer::Softer(told("times")),
        "cleaner_skin" => Prefer::CleanerSkin(told("less")),
        "nearer_angle" => Prefer::NearerAngle(told("degrees")),
        "gentler" | "more_drama" => Prefer::Ratio(told("ratio"), told("instead_of")),
        _ => Prefer::Plain,
    }
}

fn change(value: &Value) -> Change {
    let to = |field: &str| number(&value[field]);
    match value["change"].as_str().unwrap_or_default() {
        "raise_speed" | "lower_speed" => Change::Speed(to("to")),
        "allow_speeds" => Change::AllowSpeeds(to("to")),
        "open_up" | "stop_down" => Change::Aperture(to("to")),
        "keep_in_hand" => Change::KeepInHand(to("to")),
        "wait_longer" => Change::WaitLonger(to("to_s")),
        "dim_ambient" => Change::DimAmbient(to("stops")),
        "allow_cast" => Change::AllowCast(to("to")),
        "any_skin" => Change::AnySkin,
        "allow_angle" => Change::AllowAngle(to("to_deg")),
        "other_side" => Change::OtherSide,
        "key_height" => Change::KeyHeight(to("to_deg")),
        "any_softness" => Change::AnySoftness,
        "settle_ratio" => Change::Ratio(to("to")),
        "faces_differ" => Change::FacesDiffer(to("to")),
        "settle_background" => Change::Background(to("to")),
        "hold_board" => Change::HoldBoard,
        "bring" => {
            let thing = &value["thing"];
            match thing["is"].as_str().unwrap_or_default() {
                "filter" => Change::BringFilter(number(&thing["stops"])),
                "umbrella" => Change::BringUmbrella,
                "card" => Change::BringCard([number(&thing["width_m"]), number(&thing["height_m"])]),
                other => Change::Other(other.to_owned()),
            }
        }
        "both" => Change::Both(Box::new(["first", "second"].map(|one| change(&value[one])))),
        "flash_off_camera" | "flash_elsewhere" => Change::FlashOffCamera(value["bring_stand"] == true),
        "move_sitter" => Change::MoveSitters([0, 1, 2].map(|axis| number(&value["by_m"][axis]))),
        other => Change::Other(other.to_owned()),
    }
}

/// A way by everything that tells it from others, in one word.
fn way(value: &Value) -> String {
    value.to_string()
}

fn wish(value: &Value) -> Wish {
    let asked = &value["asked"];
    let (about, amount) = match asked["wish"].as_str().unwrap_or_default() {
        "exposed" => (About::Exposed, ""),
        "in_hand" => (About::InHand, "stops"),
        "recycle" => (About::Recycle, "seconds"),
        "neutral_skin" => (About::SkinCast, ""),
        "no_green_magenta" => (About::SkinGreen, ""),
        "key_from" => {
            let side = asked["side"].as_str().map(str::to_owned);
            (
                About::Direction(side, number(&asked["tolerance_deg"])),
                "azimuth_deg",
            )
        }
        "key_height" => (About::Height, "elevation_deg"),
        "open_eyes" => (About::OpenEyes(asked["lit_side"] == true), "stops"),
        "soft" => (About::Soft, ""),
        "hard" => (About::Hard, ""),
        "ratio" => (About::Ratio, "ratio"),
        "faces_within" => (About::Evenness, "stops"),
        "background" => (About::Background, "stops"),
        "ambient_out" => (About::AmbientOut, ""),
        "ambient_at" => (About::AmbientAt, "stops"),
        "flash_under" => (About::FlashUnder, "stops"),
        "zone" => (About::Zone(word(&asked["name"])), "stops"),
        "skin" => (About::SkinColour, "mired"),
        "room" => (About::RoomColour, "mired"),
        other => (About::Other(other.to_owned()), ""),
    };
    Wish {
        about,
        asked: number(&asked[amount]),
        found: number(&value["found"]),
        off: number(&value["off"]),
        tolerance: number(&value["tolerance"]),
        points: number(&value["points"]),
        state: match value["state"].as_str() {
            Some("kept") => State::Kept,
            Some("nearly") => State::Nearly,
            _ => State::Missed,
        },
        must: value["must"] == true,
    }
}

fn note(value: &Value) -> Note {
    let told = |field: &str| number(&value[field]);
    match value["note"].as_str().unwrap_or_default() {
        "falls_short" => Note::FallsShort(told("stops")),
        "least_power_too_much" => Note::LeastPowerTooMuch(told("stops")),
        "there_too_much" => Note::ThereTooMuch(told("stops")),
        "little_in_hand" => Note::LittleInHand {
            left: told("left"),
            fewer: told("fewer"),
        },
        "near_full_power" => Note::NearFullPower {
            wait_s: told("wait_s"),
            iso: told("iso"),
        },
        "slow_for_a_person" => Note::SlowForAPerson(told("shutter_s")),
        "filter_takes_both" => Note::FilterTakesBoth(told("nd")),
        "ambient_stays" => Note::AmbientStays(told("under")),
        "gel_worn" => Note::GelWorn(word(&value["gel"])),
        "flag_head" => Note::FlagHead(told("away_deg")),
        "spill_stays_under" => Note::SpillStaysUnder(told("away_deg")),
        "spill_misses_face" => Note::SpillMissesFace(told("away_deg")),
        "deep_set_eyes" => Note::DeepSetEyes,
        _ => Note::Other,
    }
}

fn caution(value: &Value) -> Caution {
    match value["caution"].as_str().unwrap_or_default() {
        "dazzles" => Caution::Dazzles {
            metres: number(&value["metres"]),
            keep_m: number(&value["keep_m"]),
        },
        "hot_flash" => Caution::HotFlash,
        _ => Caution::Other,
    }
}

impl Said {
    /// Reads the JSON of an answer.
    pub fn read(text: &str) -> Result<Self, String> {
        serde_json::from_str(text)
            .map(Said)
            .map_err(|error| format!("no JSON: {error}"))
    }

    /// The same with one number moved.
    pub fn with_moved(&self, pointer: &str, by: f64) -> Said {
        let mut moved = self.0.clone();
        let value = moved.pointer_mut(pointer);
        let value = value.unwrap_or_else(|| panic!("the answer has nothing at {pointer}"));
        *value = (number(value) + by).into();
        Said(moved)
    }

    pub fn camera(&self) -> Camera {
        camera(&self.0["camera"])
    }

    pub fn flash(&self) -> Flash {
        flash(&self.0["flash"])
    }

    pub fn aim(&self) -> Aim {
        aim(&self.0["chosen"])
    }

    /// The reading of the key.
    pub fn reading(&self) -> Reading {
        reading(&self.0["key"])
    }

    /// Where the first sitter must stand instead.
    pub fn moved_to(&self) -> Option<Point> {
        let moved = &self.0["moved_to_m"];
        moved.is_object().then(|| point(moved))
    }

    pub fn wishes(&self) -> Vec<Wish> {
        items(&self.0["wishes"]).map(wish).collect()
    }

    /// Whether the picture cannot be had, and what the answer lacks; nothing where it lacks nothing.
    pub fn shortfall(&self) -> Option<(bool, Vec<Wish>)> {
        let shortfall = &self.0["shortfall"];
        let missed = items(&shortfall["missed"]).map(wish).collect();
        shortfall
            .is_object()
            .then(|| (shortfall["impossible"] == true, missed))
    }

    /// The sum that the search makes least.
    pub fn points(&self) -> f64 {
        number(&self.0["points"])
    }

    pub fn offers(&self) -> Vec<Offer> {
        let then = |value: &Value| Then {
            way: way(&value["way"]),
            camera: camera(&value["camera"]),
            below_full: number(&value["stops_below_full"]),
            zoom_mm: number(&value["zoom_mm"]),
            in_hand: number(&value["in_hand_stops"]),
        };
        items(&self.0["shortfall"]["changes"])
            .map(|offer| Offer {
                change: change(&offer["change"]),
                then: then(&offer["then"]),
            })
            .collect()
    }

    /// This answer in the few things that a change tells of its own.
    pub fn in_short(&self) -> Then {
        let flash = self.flash();
        let chosen = self.considered().into_iter().find(|considered| considered.chosen);
        Then {
            way: chosen.map_or_else(String::new, |chosen| chosen.way),
            camera: self.camera(),
            below_full: flash.below_full,
            zoom_mm: flash.zoom_mm,
            in_hand: flash.in_hand,
        }
    }

    pub fn considered(&self) -> Vec<Considered> {
        items(&self.0["surfaces"])
            .map(|surface| Considered {
                way: way(&surface["way"]),
                chosen: surface["verdict"] == "chosen",
                points: items(&surface["score"])
                    .map(|fault| number(&fault["points"]))
                    .sum(),
                reading: surface["key"].is_object().then(|| reading(&surface["key"])),
                against_answer: number(&surface["why"]["against_answer_stops"]),
            })
            .collect()
    }

    pub fn alternatives(&self) -> Vec<Alternative> {
        items(&self.0["alternatives"])
            .map(|other| Alternative {
                way: way(&other["way"]),
                camera: camera(&other["camera"]),
                flash: flash(&other["flash"]),
                aim: aim(&other["chosen"]),
                reading: reading(&other["key"]),
                prefer: prefer(&other["prefer"]),
            })
            .collect()
    }

    /// The fewest points of any piece of the room map, and where the map's flash is.
    pub fn best_of_map(&self) -> (f64, Point) {
        let map = &self.0["map"];
        let points = items(&map["cells"]).map(|cell| number(&cell["points"]));
        (points.fold(f64::INFINITY, f64::min), point(&map["flash_m"]))
    }

    /// Flash alone, ambient alone (NaN in darkness) and both together, against an exact exposure.
    pub fn exposure(&self) -> [f64; 3] {
        ["flash_alone_stops", "ambient_alone_stops", "total_stops"]
            .map(|part| number(&self.0["exposure"][part]))
    }

    /// Exact power for which the flash alone, and for which both together, expose exactly.
    pub fn exact_powers(&self) -> [f64; 2] {
        ["power_for_flash_alone_stops", "power_for_total_stops"].map(|part| number(&self.0["exposure"][part]))
    }

    /// Each given light by name, as it was metered against the settings.
    pub fn as_metered(&self) -> Vec<(String, f64)> {
        items(&self.0["exposure"]["ambient_as_metered"])
            .map(|light| (word(&light["light"]["name"]), number(&light["stops"])))
            .collect()
    }

    pub fn chart(&self) -> Vec<ChartLine> {
        items(&self.0["chart"])
            .map(|line| ChartLine {
                item: word(&line["item"]["is"]),
                kind: word(&line["kind"]),
                stops: number(&line["stops"]),
            })
            .collect()
    }

    pub fn flash_share(&self) -> f64 {
        number(&self.0["balance"]["flash_share"])
    }

    pub fn settings_ev(&self) -> f64 {
        number(&self.0["balance"]["settings_ev"])
    }

    /// Each zone's level by its name.
    pub fn zones(&self) -> Vec<(String, f64)> {
        items(&self.0["balance"]["zones"])
            .map(|zone| (word(&zone["name"]), number(&zone["level_stops"])))
            .collect()
    }

    /// Each control by its name: what its step does to flash, ambient and face.
    pub fn controls(&self) -> Vec<(String, [f64; 3])> {
        items(&self.0["balance"]["controls"])
            .map(|control| {
                let steps = ["flash_stops", "ambient_stops", "face_stops"].map(|part| number(&control[part]));
                (word(&control["control"]["is"]), steps)
            })
            .collect()
    }

    /// Shares of the light at the face: the flash's, and those of the lights that are there.
    pub fn shares(&self) -> (f64, Vec<f64>) {
        let sources = &self.0["colour"]["sources"];
        let share = |source: &Value| number(&source["share"]);
        let is_flash = |source: &&Value| source["source"]["is"] == "flash";
        let flash = items(sources).find(is_flash).map_or(0.0, share);
        let others = items(sources).filter(|source| !is_flash(source)).map(share);
        (flash, others.collect())
    }

    /// The colour of a part of the picture against the balance, in mired: `lit_side`, `shadow_side`, `background`.
    pub fn colour_of(&self, part: &str) -> f64 {
        let mut zones = items(&self.0["colour"]["zones"]);
        zones
            .find(|zone| zone["part"]["is"] == part)
            .map_or(f64::NAN, |zone| number(&zone["mired"]))
    }

    /// Green (+) or magenta (−) of the lit side of the face against the balance, as Duv.
    pub fn green_of_lit_side(&self) -> f64 {
        let mut zones = items(&self.0["colour"]["zones"]);
        zones
            .find(|zone| zone["part"]["is"] == "lit_side")
            .map_or(f64::NAN, |zone| number(&zone["duv"]))
    }

    /// The gel that the flash wears.
    pub fn gel(&self) -> Option<String> {
        self.0["colour"]["gel"]["name"].as_str().map(str::to_owned)
    }

    /// How several faces are lit; nothing where there is one.
    pub fn faces(&self) -> Option<Faces> {
        let even = &self.0["evenness"];
        let each = items(&even["each"]).map(|face| (word(&face["name"]), number(&face["stops"])));
        even.is_object().then(|| Faces {
            spread: number(&even["spread_stops"]),
            brightest: word(&even["brightest"]),
            darkest: word(&even["darkest"]),
            each: each.collect(),
        })
    }

    /// How far the first frame may be off, and the parts of that as standard deviations.
    pub fn doubt(&self) -> (f64, Vec<f64>) {
        let doubt = &self.0["uncertainty"];
        let parts = items(&doubt["parts"]).map(|part| number(&part["standard_deviation_stops"]));
        (number(&doubt["within_stops"]), parts.collect())
    }

    /// The referee: its exposure minus the answer's, its standard error, its azimuth and its elevation.
    pub fn referee(&self) -> [f64; 4] {
        [
            "difference_stops",
            "standard_error_stops",
            "azimuth_deg",
            "elevation_deg",
        ]
        .map(|part| number(&self.0["referee"][part]))
    }

    pub fn notes(&self) -> Vec<Note> {
        items(&self.0["notes"]).map(note).collect()
    }

    pub fn cautions(&self) -> Vec<Caution> {
        items(&self.0["cautions"]).map(caution).collect()
    }

    /// The three lines and what is said of their doubt.
    pub fn lines(&self) -> [String; 4] {
        ["camera", "flash", "aim", "about"].map(|line| word(&self.0["told"]["lines"][line]))
    }

    /// Every sentence with the place where it stands.
    pub fn sentences(&self) -> Vec<(String, String)> {
        let mut all = Vec::new();
        collect_texts(&self.0["told"], "", &mut all);
        all
    }

    /// The answer without its words.
    pub fn data(&self) -> Value {
        let mut data = self.0.clone();
        if let Some(fields) = data.as_object_mut() {
            fields.remove("told");
        }
        data
    }
}

fn collect_texts(value: &Value, at: &str, all: &mut Vec<(String, String)>) {
    match value {
        Value::String(text) => all.push((at.to_owned(), text.clone())),
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                collect_texts(item, &format!("{at}[{index}]"), all);
            }
        }
        Value::Object(fields) => {
            for (name, field) in fields {
                collect_texts(field, &format!("{at}.{name}"), all);
            }
        }
        _ => {}
    }
}
