//! `[[sitter]]`: who is to be lit, where they are and which way they look.

use super::camera::{CameraRead, inner};
use super::nearest::plain;
use super::place::{Clock, distance, height, hour};
use super::problem::Span;
use super::section::{Entry, Section, number_of};
use super::words::Noun;
use crate::both;
use colour::person::{self, ClothTone, HairTone, IrisTone};
use colour::{Reflectance, SkinTone};
use glam::{Vec2, Vec3};
use scene::figure::{FaceShape, FigureRecipe, Garment, HairStyle, KeptFigure, Posture};
use scene::{BoxRoom, Sitter, SitterColours};

/// Ages of the people that can be drawn, in years; babies need other care than a flash.
const AGES: (f64, f64) = (4.0, 90.0);

/// A word for a person: how masculine the figure is, and the age if none is said.
pub(crate) const FIGURES: &[(&str, (f32, f32))] = &[
    ("woman", (0.05, 40.0)),
    ("man", (0.95, 40.0)),
    ("person", (0.5, 40.0)),
    ("girl", (0.1, 11.0)),
    ("boy", (0.9, 11.0)),
    ("child", (0.5, 11.0)),
];

/// Words for how somebody is built.
pub(crate) const BUILDS: &[(&str, f32)] = &[
    ("very slim", -0.9),
    ("slim", -0.5),
    ("thin", -0.5),
    ("medium", 0.0),
    ("average", 0.0),
    ("stocky", 0.4),
    ("heavy", 0.6),
    ("very heavy", 0.9),
];

pub(crate) const HAIR_STYLES: &[(&str, HairStyle)] = &[
    ("short", HairStyle::Short),
    ("bob", HairStyle::Bob),
    ("long", HairStyle::Bob),
    ("bald", HairStyle::Bald),
];

pub(crate) const CLOTHES: &[(&str, Garment)] = &[
    ("jersey", Garment::Crew),
    ("t-shirt", Garment::Crew),
    ("v-neck", Garment::VNeck),
    ("tunic", Garment::Tunic),
    ("uniform", Garment::Tunic),
];

/// A sitter, and the lines that say who and where.
pub(crate) struct SitterRead {
    pub value: Sitter,
    pub name: Span,
    pub left: Span,
    pub behind: Span,
}

/// Reads one sitter.
pub(crate) fn read(
    section: &Section<'_>,
    room: Option<&BoxRoom>,
    camera: Option<&CameraRead>,
) -> Option<SitterRead> {
    section.close(super::parts::ALL);
    let name = section.name("sitter");
    let left = distance(section, "from_left", room, 0);
    let behind = distance(section, "from_behind", room, 1);
    let person = section.entry("figure").map_or(Some((0.5, 40.0)), |entry| {
        entry
            .word(Noun::eine("a figure", "Figur"), FIGURES)
            .map(|said| said.value)
    });
    let age = section.entry("age").map(|entry| {
        let said = entry.number(
            Noun::ein("an age in years", "Alter in Jahren"),
            AGES.0,
            AGES.1,
            "35",
        )?;
        Some(said.value as f32)
    });
    let stature = section
        .entry("stature")
        .map(|entry| entry.length(Noun::eine("the stature of a person", "Körpergröße"), 0.8, 2.3));
    let posture = section.entry("posture").map(|entry| {
        let words = [
            ("standing", Posture::Standing),
            ("sitting", Posture::Sitting),
            ("seated", Posture::Sitting),
        ];
        entry
            .word(Noun::eine("a posture", "Haltung"), &words)
            .map(|said| said.value)
    });
    let face = section
        .entry("face_height")
        .map(|entry| face_height(&entry, room));
    let build = section.entry("build").map_or(Some(0.0), |entry| build(&entry));
    let hair = section.entry("hair").map_or(Some(HairStyle::Short), |entry| {
        entry
            .word(Noun::eine("a way to wear the hair", "Frisur"), HAIR_STYLES)
            .map(|said| said.value)
    });
    let garment = section.entry("clothes").map_or(Some(Garment::Crew), |entry| {
        entry
            .word(Noun::ein("clothes", "Kleidungsstück"), CLOTHES)
            .map(|said| said.value)
    });
    let colours = colours(section);
    let facing = section.entry("faces");
    let at = Vec2::new(left?, behind?);
    let facing = facing_of(facing.as_ref(), at, camera);
    let ((masculinity, usual_age), stature, age) = (person?, inner(stature)?, inner(age)?);
    let age_years = age.unwrap_or(usual_age);
    let stature_m = stature.map(|said| said.value);
    let tall = stature_m.unwrap_or_else(|| usual_stature(age_years, masculinity));
    let (face, posture) = (inner(face)?, inner(posture)?);
    let (face_height, posture) = match (face, posture) {
        // No one stands with the face this low, so a sitter without a posture sits.
        (Some(face), None) if face < 0.8 * tall => (face, Posture::Sitting),
        (Some(face), posture) => (face, posture.unwrap_or(Posture::Standing)),
        (None, Some(Posture::Sitting)) => (0.45 + 0.455 * tall, Posture::Sitting),
        (None, _) => (0.935 * tall, Posture::Standing),
    };
    let colours = colours?;
    let recipe = FigureRecipe {
        age_years,
        masculinity,
        // Without a portrait of the sitter the mean of all faces is the fairest guess.
        ancestry: [1.0 / 3.0; 3],
        build: build?,
        stature_m,
        face: FaceShape::default(),
        posture,
        hair: if colours.1 { HairStyle::Cap } else { hair? },
        garment: garment?,
        head_turn_deg: 0.0,
        head_tilt_deg: 0.0,
        head_nod_deg: 0.0,
    };
    let sitter = Sitter {
        name: name.value,
        stand: at.extend(0.0),
        face_height,
        facing: facing?,
        recipe,
        colours: colours.0,
        figure: KeptFigure::default(),
    };
    let line = |key| {
        section
            .entry(key)
            .map_or(section.span.clone(), |entry| entry.span)
    };
    Some(SitterRead {
        value: sitter,
        name: name.span,
        left: line("from_left"),
        behind: line("from_behind"),
    })
}

/// Stature in metres when none is said (ours, rounded from common growth charts and adult means); used only
/// to find the height of the face.
fn usual_stature(age: f32, masculinity: f32) -> f32 {
    let grown = 1.63 + 0.13 * masculinity;
    if age >= 17.0 {
        grown
    } else {
        (0.75 + 0.062 * age).min(grown)
    }
}

fn face_height(entry: &Entry<'_>, room: Option<&BoxRoom>) -> Option<f32> {
    let value = height(entry, room)?;
    if !(0.3..=2.4).contains(&value) {
        entry.refuse(
            both!("a face cannot be at this height"; "ein Gesicht kann nicht auf dieser Höhe sein"),
            both!(
                "from {} to {} can be used", entry.log.length(0.3), entry.log.length(2.4);
                "möglich: von {} bis {}"
            ),
            both!(
                "face_height is from the floor to between the eyes: about 1.6 m standing, 1.2 m sitting.";
                "face_height geht vom Boden bis zwischen die Augen: stehend etwa 1,6 m, sitzend 1,2 m."
            ),
        );
        return None;
    }
    Some(value)
}

fn build(entry: &Entry<'_>) -> Option<f32> {
    if number_of(entry.value).is_some() {
        return entry
            .number(Noun::ein("a build", "Körperbau"), -1.0, 1.0, "0.2")
            .map(|said| said.value as f32);
    }
    entry
        .word(Noun::ein("a build", "Körperbau"), BUILDS)
        .map(|said| said.value)
}

/// Radians from the wall behind the camera, positive towards the camera's right.
fn facing_of(entry: Option<&Entry<'_>>, at: Vec2, camera: Option<&CameraRead>) -> Option<f32> {
    let to_camera = (camera?.at - at).extend(0.0);
    let clock = Clock {
        middle: at.extend(0.0),
        to_camera,
    };
    let direction = match entry {
        None => to_camera,
        Some(entry) => direction(entry, &clock)?,
    };
    let direction = direction.truncate().try_normalize().unwrap_or(Vec2::NEG_Y);
    Some(direction.x.atan2(-direction.y))
}

fn direction(entry: &Entry<'_>, clock: &Clock) -> Option<Vec3> {
    let text = match number_of(entry.value) {
        Some(number) => number.to_string(),
        None => entry
            .text(
                both!("\"camera\" or a clock hour"; "\"camera\" oder eine Uhrzeigerrichtung"),
                "\"7 o'clock\"",
            )?
            .to_owned(),
    };
    let by_word = match plain(&text).as_str() {
        "camera" | "the camera" => Some(6.0),
        "left" | "camera left" => Some(9.0),
        "right" | "camera right" => Some(3.0),
        "away" => Some(12.0),
        _ => hour(&text),
    };
    if by_word.is_none() {
        entry.refuse(
            both!(
                "{} is not a direction to look in", super::quoting::shown(&text);
                "{} ist keine Blickrichtung"
            ),
            both!("\"camera\" or a clock hour"; "\"camera\" oder eine Uhrzeigerrichtung"),
            both!(
                "Seen from above with the sitter in the middle, the camera is at 6, its left at 9 and its right at 3: faces = \"7 o'clock\"";
                "Von oben gesehen, mit der Person in der Mitte, ist die Kamera bei 6, ihre linke Seite bei 9 und ihre rechte bei 3: faces = \"7 o'clock\""
            ),
        );
    }
    Some(clock.direction(by_word?))
}

/// Colours, and whether a cap is worn.
fn colours(section: &Section<'_>) -> Option<(SitterColours, bool)> {
    let skin = section
        .entry("skin")
        .map_or(Some(SkinTone::Intermediate), |entry| {
            let words = SkinTone::ALL.map(|tone| (tone.name(), tone));
            entry
                .word(Noun::ein("a skin tone", "Hautton"), &words)
                .map(|said| said.value)
        });
    let tone =
        |key, what: Noun, usual: Reflectance, named: fn(&str) -> Option<Reflectance>, names: &[&str]| {
            let Some(entry) = section.entry(key) else {
                return Some(usual);
            };
            let text = entry.text(
                both!("{} in quotes", what.one(); "{} in Anführungszeichen"),
                &format!("\"{}\"", names[0]),
            )?;
            let found = named(text);
            if found.is_none() {
                entry.unknown_word(text, what, names.iter().copied());
            }
            found
        };
    let cloth = |key, usual: ClothTone| {
        let names: Vec<&str> = ClothTone::ALL.iter().map(|tone| tone.name()).collect();
        tone(
            key,
            Noun::eine("a colour of cloth", "Stofffarbe"),
            usual.reflectance(),
            |text| Some(ClothTone::named(text)?.reflectance()),
            &names,
        )
    };
    let hair_names: Vec<&str> = HairTone::ALL.iter().map(|tone| tone.name()).collect();
    let eye_names: Vec<&str> = IrisTone::ALL.iter().map(|tone| tone.name()).collect();
    let hair = tone(
        "hair_colour",
        Noun::eine("a colour of hair", "Haarfarbe"),
        HairTone::Brown.reflectance(),
        |text| Some(HairTone::named(text)?.reflectance()),
        &hair_names,
    );
    let iris = tone(
        "eyes",
        Noun::eine("a colour of eyes", "Augenfarbe"),
        IrisTone::Brown.reflectance(),
        |text| Some(IrisTone::named(text)?.reflectance()),
        &eye_names,
    );
    let (top, trousers, cap) = (
        cloth("top", ClothTone::Grey),
        cloth("trousers", ClothTone::Charcoal),
        cloth("cap", ClothTone::Navy),
    );
    let skin = skin?;
    let colours = SitterColours {
        skin: skin.reflectance().into(),
        lips: person::lips(skin).into(),
        hair: hair?.into(),
        iris: iris?.into(),
        top: top?.into(),
        trousers: trousers?.into(),
        cap: cap?.into(),
    };
    Some((colours, section.entry("cap").is_some()))
}
