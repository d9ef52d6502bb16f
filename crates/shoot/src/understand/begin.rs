//! A shoot of one's own from a few fill-ins.

use crate::section::is_in_feet;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;
use toml_edit::Value;
use units::Metres;

/// What must be known of a room and a sitter to begin; every field in the notation of a shoot file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct StartForm {
    /// What the shoot is called.
    pub title: String,
    /// Length of the room, from behind the camera to behind the sitter: "5.5 m" or "18 ft".
    pub length: String,
    /// Its width.
    pub width: String,
    /// Up to its ceiling.
    pub ceiling: String,
    /// What its walls are made of.
    pub wall: String,
    /// What its ceiling is made of.
    pub ceiling_surface: String,
    /// From the camera to the sitter.
    pub sitter_distance: String,
    /// The sitter's skin.
    pub skin: String,
    /// The light that is there: the name of a usual light, or "dark".
    pub light: String,
    /// The pattern of the key light.
    pub look: String,
}

impl Default for StartForm {
    fn default() -> Self {
        StartForm {
            title: "My shoot".to_owned(),
            length: "5.5 m".to_owned(),
            width: "4.4 m".to_owned(),
            ceiling: "2.6 m".to_owned(),
            wall: "white paint".to_owned(),
            ceiling_surface: "white paint".to_owned(),
            sitter_distance: "2.0 m".to_owned(),
            skin: "intermediate".to_owned(),
            light: "living room evening".to_owned(),
            look: "loop".to_owned(),
        }
    }
}

/// The word for a place without any light.
const DARK: &str = "dark";

/// Who stands nearer to a wall than this throws a shadow on it that is seen (ours), in metres.
const OFF_THE_WALL_M: f64 = 1.2;

/// The text of a shoot from a few fill-ins: a room, one sitter who looks at the camera, a medium flash on it.
///
/// What is filled in wrongly is in the text as it was written, so that reading it says what is wrong.
pub fn begin(form: &StartForm) -> String {
    let said = |text: &str| Value::from(text.trim()).to_string();
    let size = format!(
        "{} x {} x {}",
        form.length.trim(),
        form.width.trim(),
        form.ceiling.trim()
    );
    let spots = Spots::of(form);
    let (wall, ceiling) = (said(&form.wall), said(&form.ceiling_surface));
    let mut text = String::from(
        "# Begun from a few fill-ins. Change whatever is different in your room; SHOOT_FILE.md explains every line.\n",
    );
    // Writing to a string cannot fail.
    if !form.title.trim().is_empty() {
        let _ = writeln!(text, "shoot = {}", said(&form.title));
    }
    let _ = write!(
        text,
        "\n[place]\n\
         room = {size}  # length (camera towards sitter) x width x ceiling\n\
         left = {wall}  # the camera's left\n\
         right = {wall}\n\
         behind_camera = {wall}\n\
         behind_sitter = {wall}\n\
         ceiling = {ceiling}\n\
         floor = \"wood floor\"\n\
         \n[camera]\n\
         from_left = {left}  # measured from the left wall\n\
         from_behind = {camera}  # measured from the wall behind the camera\n\
         lens = \"85 mm\"\n\
         sync = \"1/200\"\n\
         iso = \"100 to 6400\"\n\
         widest = \"f/2.8\"\n\
         \n[[sitter]]\n\
         name = \"the sitter\"\n\
         from_left = {left}\n\
         from_behind = {sitter}\n\
         faces = \"camera\"\n\
         skin = {skin}\n\
         \n[bag]\n\
         assistant = false  # true if somebody can hold a board or the flash\n\
         \n[bag.flash]\n\
         kind = \"medium\"  # better: its guide numbers\n",
        size = said(&size),
        left = said(&spots.left),
        camera = said(&spots.camera),
        sitter = said(&spots.sitter),
        skin = said(&form.skin),
    );
    let is_dark = form.light.trim().eq_ignore_ascii_case(DARK);
    if !is_dark {
        let _ = write!(
            text,
            "\n[[ambient]]\n\
             name = \"the light that is there\"\n\
             reading = {light}  # better: the reading of a meter at the face, such as \"EV 5\"\n\
             from = \"all round\"\n",
            light = said(&form.light),
        );
    }
    let _ = write!(
        text,
        "\n[ask]\nkey = {}\nsoftness = \"soft\"\nskin = \"neutral\"\n",
        said(&form.look)
    );
    if !is_dark {
        text.push_str("ambient = \"any\"  # or how far it should be down, such as \"-2 stops\"\n");
    }
    text.push_str("in_hand = \"1 stop\"\n");
    text
}

/// Where camera and sitter stand, as they are written.
struct Spots {
    left: String,
    camera: String,
    sitter: String,
}

impl Spots {
    /// In the middle of the room's width; along its length the sitter well off the wall behind, the camera too.
    fn of(form: &StartForm) -> Self {
        let read = |text: &str| text.trim().parse::<Metres>().map(Metres::value);
        let (length, width, apart) = (read(&form.length), read(&form.width), read(&form.sitter_distance));
        let feet = is_in_feet(&form.length) == Some(true);
        let written = |metres: f64| match Metres::new(metres) {
            Ok(length) if feet => length.to_feet_text(),
            _ => format!("{:.2} m", metres.max(0.0)),
        };
        let (Ok(length), Ok(width), Ok(apart)) = (length, width, apart) else {
            // What cannot be read is complained about where it stands; the rest is a place to go on from.
            return Spots {
                left: written(2.0),
                camera: written(1.5),
                sitter: written(3.5),
            };
        };
        let left_over = length - apart;
        let behind_sitter = (0.5 * left_over).max(OFF_THE_WALL_M).min(left_over - 0.3);
        let camera = (left_over - behind_sitter).max(0.3);
        Spots {
            left: written(0.5 * width),
            camera: written(camera),
            sitter: written(camera + apart),
        }
    }
}
