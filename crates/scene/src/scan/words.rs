//! What a piece of a scan is, by its name.

use super::mesh::Piece;
use crate::OpeningKind;

/// What a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// Part of a wall.
    Wall,
    /// The floor.
    Floor,
    /// The ceiling.
    Ceiling,
    /// A window or door.
    Opening(OpeningKind),
    /// A thing in the room, or its name says nothing.
    Thing,
}

// Words for the parts of a room in a few languages, without capital letters. A word counts where a part of a
// name is it, ends with it (compounds such as "innenwand") or begins with it ("wallnorth").

/// Things that are in a room; they are looked for first, because their names often hold the others' words
/// ("floor lamp", "cupboard door", "window sill").
const THINGS: &[&str] = &[
    "lamp",
    "light",
    "cupboard",
    "cabinet",
    "wardrobe",
    "shelf",
    "shelves",
    "shelving",
    "bookcase",
    "fridge",
    "refrigerator",
    "oven",
    "stove",
    "sill",
    "handle",
    "hinge",
    "knob",
    "curtain",
    "drape",
    "rug",
    "mat",
    "carpet",
    "mirror",
    "picture",
    "poster",
    "board",
    "skirting",
    "radiator",
    "heater",
    "table",
    "chair",
    "sofa",
    "couch",
    "bed",
    "desk",
    "bench",
    "stool",
    "piano",
    "plant",
    "television",
    "tv",
    "screen",
    "clock",
    "storage",
    "sink",
    "basin",
    "toilet",
    "bathtub",
    "fireplace",
    "stairs",
    "bell",
    "schrank",
    "regal",
    "lampe",
    "tisch",
    "stuhl",
    "bett",
    "vorhang",
    "teppich",
    "spiegel",
    "bild",
    "armoire",
    "placard",
    "etagere",
    "étagère",
    "canape",
    "canapé",
    "chaise",
    "rideau",
    "tapis",
    "armario",
    "estante",
    "mesa",
    "silla",
    "cama",
    "cortina",
    "espejo",
    "armadio",
    "scaffale",
    "tavolo",
    "sedia",
    "letto",
    "tenda",
    "specchio",
    "kast",
    "tafel",
    "stoel",
    "gordijn",
    "bord",
    "stol",
    "skap",
    "skåp",
    "szafa",
    "stół",
    "krzesło",
    "шкаф",
    "стол",
    "стул",
];
const CEILINGS: &[&str] = &[
    "ceiling",
    "roof",
    "decke",
    "zimmerdecke",
    "plafond",
    "techo",
    "soffitto",
    "teto",
    "innertak",
    "tak",
    "katto",
    "sufit",
    "strop",
    "потолок",
    "天井",
    "天花板",
];
const FLOORS: &[&str] = &[
    "floor",
    "flooring",
    "ground",
    "boden",
    "fussboden",
    "fußboden",
    "sol",
    "plancher",
    "suelo",
    "piso",
    "pavimento",
    "chao",
    "chão",
    "vloer",
    "golv",
    "gulv",
    "lattia",
    "podloga",
    "podłoga",
    "podlaha",
    "пол",
    "床",
    "地板",
];
const WINDOWS: &[&str] = &[
    "window", "windows", "pane", "glazing", "skylight", "fenster", "fenetre", "fenêtre", "ventana",
    "finestra", "janela", "raam", "venster", "fonster", "fönster", "vindu", "vindue", "ikkuna", "okno",
    "окно", "窓", "窗",
];
const DOORS: &[&str] = &[
    "door",
    "doors",
    "doorway",
    "tur",
    "tür",
    "tuer",
    "porte",
    "puerta",
    "porta",
    "deur",
    "dorr",
    "dörr",
    "dør",
    "ovi",
    "drzwi",
    "dvere",
    "dveře",
    "дверь",
    "ドア",
    "门",
];
const OPENINGS: &[&str] = &[
    "opening",
    "archway",
    "arch",
    "passage",
    "offnung",
    "öffnung",
    "oeffnung",
    "durchgang",
    "ouverture",
    "abertura",
    "apertura",
    "doorgang",
    "åpning",
    "åbning",
    "öppning",
];
const WALLS: &[&str] = &[
    "wall",
    "walls",
    "wand",
    "wande",
    "wände",
    "waende",
    "mur",
    "murs",
    "cloison",
    "pared",
    "paredes",
    "muro",
    "parete",
    "pareti",
    "parede",
    "paredes",
    "muur",
    "muren",
    "vegg",
    "vägg",
    "væg",
    "seina",
    "seinä",
    "sciana",
    "ściana",
    "stena",
    "стена",
    "壁",
    "墙",
];
/// Words that end or begin with one of the above and mean something else.
const OTHERS: &[&str] = &[
    "indoor",
    "indoors",
    "outdoor",
    "outdoors",
    "panel",
    "panels",
    "background",
    "architecture",
    "architectural",
];

/// Names that programs give to pieces by themselves.
const EMPTY_NAMES: &[&str] = &[
    "mesh",
    "object",
    "node",
    "default",
    "group",
    "geometry",
    "geom",
    "scan",
    "model",
    "root",
    "scene",
    "shape",
    "primitive",
    "unnamed",
    "none",
    "null",
    "material",
    "part",
    "polygon",
    "textured",
    "cube",
    "box",
    "obj",
    "world",
    "room",
    "export",
    "texture",
    "lod",
];

/// The parts of a name: cut at everything but letters and before a capital letter that follows a small one.
fn parts(name: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut after_small = false;
    for letter in name.chars() {
        if !letter.is_alphabetic() || (after_small && letter.is_uppercase()) {
            parts.push(String::new());
        }
        if letter.is_alphabetic() {
            parts
                .last_mut()
                .expect("never empty")
                .extend(letter.to_lowercase());
        }
        after_small = letter.is_lowercase();
    }
    parts.retain(|part| !part.is_empty());
    parts
}

fn has(parts: &[String], words: &[&str]) -> bool {
    parts.iter().any(|part| {
        words.iter().any(|word| {
            let long = word.chars().count() >= 4;
            part == word
                || part.strip_suffix('s') == Some(word)
                || (long && (part.ends_with(word) || part.starts_with(word)))
                || (!word.is_ascii() && part.contains(word))
        })
    })
}

/// What one name says.
fn role_of_name(name: &str) -> Option<Role> {
    let mut parts = parts(name);
    parts.retain(|part| !OTHERS.contains(&part.as_str()));
    let kinds = [
        (THINGS, Role::Thing),
        (WINDOWS, Role::Opening(OpeningKind::Window)),
        (DOORS, Role::Opening(OpeningKind::Doorway)),
        (OPENINGS, Role::Opening(OpeningKind::Doorway)),
        (CEILINGS, Role::Ceiling),
        (FLOORS, Role::Floor),
        (WALLS, Role::Wall),
    ];
    kinds
        .iter()
        .find(|(words, _)| has(&parts, words))
        .map(|(_, role)| *role)
}

/// What a piece is: its own name counts before its parents', and both before its material's.
pub(super) fn role(piece: &Piece) -> Role {
    piece
        .names
        .iter()
        .chain(&piece.material)
        .find_map(|name| role_of_name(name))
        .unwrap_or(Role::Thing)
}

/// Whether a name says something about its piece.
fn says_something(name: &str) -> bool {
    parts(name).iter().any(|part| {
        let part = part.strip_suffix('s').unwrap_or(part);
        part.chars().count() > 1 && !EMPTY_NAMES.contains(&part)
    })
}

/// Whether a person named a piece or what it belongs to; a material counts if it is of a thing that is known.
pub(super) fn is_named(piece: &Piece) -> bool {
    piece.names.iter().any(|name| says_something(name))
        || piece
            .material
            .as_ref()
            .is_some_and(|name| role_of_name(name).is_some())
}

/// What to call a piece: the first of its names that says something, tidied.
pub(super) fn title(piece: &Piece, otherwise: &str) -> String {
    let name = piece
        .names
        .iter()
        .chain(&piece.material)
        .find(|name| says_something(name));
    let Some(name) = name else {
        return otherwise.to_owned();
    };
    let mut title = String::new();
    for letter in name.chars().take(40) {
        let letter = if letter.is_alphanumeric() || "-'().".contains(letter) {
            letter
        } else {
            ' '
        };
        if letter != ' ' || !(title.is_empty() || title.ends_with(' ')) {
            title.push(letter);
        }
    }
    let title = title.trim();
    if title.is_empty() {
        otherwise.to_owned()
    } else {
        title.to_owned()
    }
}

/// Makes a name different from those that are taken.
pub(super) fn unique(name: String, taken: &[String]) -> String {
    if !taken.contains(&name) {
        return name;
    }
    let other = (2..).map(|number| format!("{name} {number}"));
    other
        .into_iter()
        .find(|other| !taken.contains(other))
        .unwrap_or(name)
}

/// "1 thing" or "3 things".
pub(super) fn counted(number: usize, one: &str, more: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { more })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_say_what_a_piece_is() {
        let (window, door) = (
            Role::Opening(OpeningKind::Window),
            Role::Opening(OpeningKind::Doorway),
        );
        for (name, expected) in [
            ("Wall_1", Some(Role::Wall)),
            ("wall.north", Some(Role::Wall)),
            ("WallNorth", Some(Role::Wall)),
            ("Innenwand 3", Some(Role::Wall)),
            ("Floor0", Some(Role::Floor)),
            ("Fußboden", Some(Role::Floor)),
            ("CEILING", Some(Role::Ceiling)),
            ("Window-2", Some(window)),
            ("window glass", Some(window)),
            ("Fenêtre", Some(window)),
            ("Balkontür", Some(door)),
            ("Door.001", Some(door)),
            ("opening to hall", Some(door)),
            ("floor lamp", Some(Role::Thing)),
            ("FloorLamp_2", Some(Role::Thing)),
            ("cupboard_door", Some(Role::Thing)),
            ("window sill", Some(Role::Thing)),
            ("outdoor", None),
            ("panel", None),
            ("Architecture", None),
            ("Solid.3", None),
            ("mesh_0", None),
            ("Sofia", None),
            ("壁1", Some(Role::Wall)),
            ("", None),
        ] {
            assert_eq!(role_of_name(name), expected, "{name}");
        }
    }

    #[test]
    fn own_names_count_before_parents_and_materials() {
        let check = |names: &[&str], material: Option<&str>, expected: Role| {
            let piece = Piece {
                names: names.iter().map(|name| (*name).to_owned()).collect(),
                material: material.map(str::to_owned),
            };
            assert_eq!(role(&piece), expected, "{names:?} {material:?}");
        };
        let window = Role::Opening(OpeningKind::Window);
        check(&["Wardrobe", "Walls"], None, Role::Thing);
        check(&["Cube.003", "Windows"], None, window);
        check(&["Room"], Some("window glass"), window);
        check(&["Table"], Some("wood floor"), Role::Thing);
        check(&[], None, Role::Thing);
    }

    #[test]
    fn titles_are_tidy_and_different() {
        let check = |name: &str, expected: &str| {
            let piece = Piece {
                names: vec![name.to_owned()],
                material: None,
            };
            assert_eq!(title(&piece, "furniture"), expected);
        };
        check("Tall_Cupboard__1", "Tall Cupboard 1");
        check("mesh_12", "furniture");
        check("\"; rm\n= 3", "rm 3");
        check("__", "furniture");
        assert_eq!(unique("a".into(), &["a".into(), "a 2".into()]), "a 3");
    }
}
