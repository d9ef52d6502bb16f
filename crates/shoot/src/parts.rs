//! The parts of a shoot file and their keys: the one list that reading, suggestions and the reference share.

use super::words::Words;

/// A part of the file and the keys that it may have.
#[derive(Debug)]
pub struct Part {
    /// As its heading is written: `[camera]`, `[[sitter]]`.
    pub title: &'static str,
    /// What German calls it, where it has no heading.
    german: &'static str,
    /// The keys, in the order in which they are explained.
    pub keys: &'static [&'static str],
}

impl Part {
    /// A part as its heading is written, what German calls it, and its keys.
    pub(crate) const fn new(
        title: &'static str,
        german: &'static str,
        keys: &'static [&'static str],
    ) -> Self {
        Part { title, german, keys }
    }

    /// What it is called: its heading, or words for a part that has none.
    pub(crate) fn words(&self) -> Words {
        Words::of(self.title.to_owned(), self.german.to_owned())
    }
}

macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident: $title:literal $(/ $german:literal)? [$($key:literal),* $(,)?];)*) => {
        $($(#[$doc])* pub(crate) static $name: Part = Part::new($title, [$($german,)? $title][0], &[$($key),*]);)*
        /// Every part that a shoot file may have.
        pub static ALL: &[&Part] = &[$(&$name),*];
    };
}

parts! {
    /// Above the first heading.
    ROOT: "the file" / "die Datei" ["shoot", "format", "place", "camera", "sitter", "bag", "sky", "ambient", "zone", "later", "ask", "setup"];
    PLACE: "[place]" [
        "room", "left", "right", "behind_camera", "behind_sitter", "ceiling", "floor", "opening", "furniture", "board",
    ];
    SURFACE: "a surface" / "eine Oberfläche" ["name", "rgb", "reflectance"];
    OPENING: "[[place.opening]]" ["name", "wall", "from_left_end", "from_floor", "size", "kind"];
    FURNITURE: "[[place.furniture]]" ["name", "size", "from_left", "from_behind", "from_floor", "surface"];
    STANDING_BOARD: "[[place.board]]" [
        "name", "size", "from_left", "from_behind", "height", "faces", "tilt", "surface", "back", "held",
    ];
    CAMERA: "[camera]" [
        "from_left", "from_behind", "height", "lens", "landscape", "aim", "sync", "iso", "widest",
    ];
    POINT: "a point" / "ein Punkt" ["from_left", "from_behind", "height"];
    SITTER: "[[sitter]]" [
        "name", "from_left", "from_behind", "face_height", "faces", "figure", "age", "build", "stature", "posture",
        "skin", "hair", "hair_colour", "eyes", "clothes", "top", "trousers", "cap",
    ];
    BAG: "[bag]" ["flash", "board", "assistant", "helpers", "stand", "nd", "gels", "gel_family", "gel"];
    FLASH: "[bag.flash]" [
        "name", "kind", "guide_numbers", "total_light", "colour", "least_power", "recycle", "dome", "bounce_card", "umbrella",
        "softbox",
    ];
    SOFT_FRONT: "an umbrella or softbox" / "ein Schirm oder eine Softbox" ["loss", "size"];
    BAG_BOARD: "[[bag.board]]" ["name", "size", "surface"];
    BAG_GEL: "[[bag.gel]]" ["name", "curve"];
    AMBIENT: "[[ambient]]" [
        "name", "reading", "lamp", "lumen", "metered", "colour", "duv", "illuminant", "from", "height",
    ];
    ZONE: "[[zone]]" ["name", "normal_at", "reading", "colour"];
    LATER: "[[later]]" ["name", "ambient"];
    ASK: "[ask]" [
        "aperture", "depth", "shutter", "iso", "ambient", "zone", "key", "from", "softness", "ratio", "skin", "evenness",
        "background", "fill", "in_hand", "recycle", "white_balance", "tint", "colour", "gel", "flash", "sitter_may_move",
        "must",
    ];
    ZONE_WISH: "a wish for a zone" / "ein Wunsch für eine Zone" ["name", "at"];
    SKY: "[sky]" [
        "latitude", "longitude", "date", "time", "zone", "fold", "camera_looks", "weather", "cie_sky", "ground", "skyline",
    ];
    SKYLINE: "[[sky.skyline]]" ["name", "from", "to", "height", "distance", "surface"];
    KEY: "the key" / "das Hauptlicht" ["from", "azimuth", "elevation", "tolerance"];
    /// One picture of several: its name, and the parts that are its own.
    SETUP: "[[setup]]" ["name", "place", "camera", "sitter", "bag", "sky", "ambient", "zone", "later", "ask"];
}
