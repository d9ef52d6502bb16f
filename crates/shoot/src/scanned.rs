//! From a scan to the text of a part `[place]`, as somebody would write it and can go on writing it.

use colour::upsample;
use scene::scan::{Scan, ScannedThing};
use scene::{Face, Opening, OpeningKind};
use std::fmt::Write as _;

/// Remarks are wrapped at this many letters.
const WIDTH: usize = 100;
/// More than this comes back from no surface, as in `surface`.
const MOST: f32 = 0.98;

/// The part `[place]` of a scan, to be pasted into a shoot file. Lengths are rounded to the centimetre; what was
/// guessed stands in remarks. `source` is what the scan's file is called.
pub fn place_text(scan: &Scan, source: &str) -> String {
    let mut text = String::new();
    remark(
        &mut text,
        &format!("The place of a shoot, from the scan {}.", plain(source)),
    );
    remark(
        &mut text,
        "Put it into a shoot file instead of its part [place]. A scan shows shapes; check the remarks:",
    );
    for sentence in &scan.told {
        remark(&mut text, &format!("- {}", plain(sentence)));
    }
    let room = scan.room.to_array().map(centimetres);
    let [width, length, height] = room.map(metres);
    let _ = writeln!(
        text,
        "\n[place]\nroom = \"{length} x {width} x {height} m\"  # length x width x ceiling"
    );
    for (face, key) in [
        (Face::Left, "left"),
        (Face::Right, "right"),
        (Face::BehindCamera, "behind_camera"),
        (Face::BehindSitter, "behind_sitter"),
        (Face::Ceiling, "ceiling"),
        (Face::Floor, "floor"),
    ] {
        let usual = if face == Face::Floor {
            "wood floor"
        } else {
            "white paint"
        };
        let _ = match scan.faces[face.index()] {
            Some(colour) => {
                let name = format!("scanned {}", face.words());
                writeln!(text, "{key} = {}  # a guess", surface(&name, colour))
            }
            None => writeln!(
                text,
                "# {key} = \"{usual}\"  # no colour in the scan: say what it is"
            ),
        };
    }
    for hole in holes(&scan.openings, room) {
        write_opening(&mut text, &hole);
    }
    for thing in &scan.furniture {
        write_thing(&mut text, thing, room);
    }
    text
}

/// Whole centimetres, so that edges that meet still meet when they are rounded.
fn centimetres(metres: f32) -> i64 {
    (f64::from(metres) * 100.0).round() as i64
}

fn metres(centimetres: i64) -> String {
    format!("{}.{:02}", centimetres / 100, centimetres % 100)
}

/// Both ends of an extent in centimetres, within 0 and a limit and at least 1 cm apart.
fn ends(from: f32, to: f32, limit: i64) -> (i64, i64) {
    let from = centimetres(from).clamp(0, limit - 1);
    (from, centimetres(to).clamp(from + 1, limit))
}

/// An opening in whole centimetres: both ends along its wall and up it.
struct Hole<'a> {
    opening: &'a Opening,
    wall: &'static str,
    ends: [(i64, i64); 2],
}

/// The openings in whole centimetres. Two that touch may overlap by one when they are rounded; the later one
/// then begins where the earlier ends.
fn holes(openings: &[Opening], [width, length, height]: [i64; 3]) -> Vec<Hole<'_>> {
    let mut holes: Vec<Hole<'_>> = Vec::new();
    for opening in openings {
        let (wall, limit) = match opening.face {
            Face::Left => ("left", length),
            Face::Right => ("right", length),
            Face::BehindCamera => ("behind camera", width),
            // Scans have openings in walls alone.
            Face::BehindSitter | Face::Ceiling | Face::Floor => ("behind sitter", width),
        };
        let (from, to) = (opening.from, opening.from + opening.size);
        let mut extent = [ends(from.x, to.x, limit), ends(from.y, to.y, height)];
        for other in holes.iter().filter(|other| other.wall == wall) {
            let shared = |axis: usize| {
                let ((a, b), (c, d)): ((i64, i64), (i64, i64)) = (extent[axis], other.ends[axis]);
                b.min(d) - a.max(c)
            };
            let axis = usize::from(shared(1) < shared(0));
            if shared(axis) == 1 {
                if extent[axis].0 < other.ends[axis].0 {
                    extent[axis].1 -= 1;
                } else {
                    extent[axis].0 += 1;
                }
            }
        }
        holes.push(Hole {
            opening,
            wall,
            ends: extent,
        });
    }
    holes
}

fn write_opening(text: &mut String, hole: &Hole<'_>) {
    let kind = match hole.opening.kind {
        OpeningKind::Window => "window",
        OpeningKind::NetCurtain => "net curtain",
        OpeningKind::Doorway => "doorway",
        OpeningKind::Open => "open",
    };
    let [(left, right), (low, high)] = hole.ends;
    let _ = write!(
        text,
        "\n[[place.opening]]\nname = {}\nwall = \"{}\"\nfrom_left_end = \"{} m\"\nfrom_floor = \"{} m\"\n\
         size = \"{} x {} m\"\nkind = \"{kind}\"\n",
        quoted(&hole.opening.name),
        hole.wall,
        metres(left),
        metres(low),
        metres(right - left),
        metres(high - low)
    );
}

fn write_thing(text: &mut String, thing: &ScannedThing, room: [i64; 3]) {
    let [x, y, z] = [0, 1, 2].map(|axis| ends(thing.min[axis], thing.max[axis], room[axis]));
    let _ = write!(
        text,
        "\n[[place.furniture]]\nname = {}\nsize = \"{} x {} x {} m\"\nfrom_left = \"{} m\"\nfrom_behind = \"{} m\"\n",
        quoted(&thing.name),
        metres(x.1 - x.0),
        metres(y.1 - y.0),
        metres(z.1 - z.0),
        metres(x.0),
        metres(y.0)
    );
    if z.0 > 0 {
        let _ = writeln!(text, "from_floor = \"{} m\"", metres(z.0));
    }
    if let Some(colour) = thing.colour {
        let name = format!("scanned {}", thing.name);
        let _ = writeln!(text, "surface = {}  # a guess", surface(&name, colour));
    }
}

/// A surface of a linear colour; one that no real surface has becomes a grey of the same luminance.
fn surface(name: &str, colour: [f32; 3]) -> String {
    let [r, g, b] = colour.map(|part| (part.clamp(0.01, MOST) * 100.0).round() / 100.0);
    let name = quoted(name);
    if upsample::reflectance_from_linear_srgb([r, g, b].map(f64::from)).is_ok() {
        return format!("{{ name = {name}, rgb = [{r:.2}, {g:.2}, {b:.2}] }}");
    }
    // Luminance of linear sRGB (IEC 61966-2-1).
    let grey = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    format!("{{ name = {name}, reflectance = {grey:.2} }}")
}

fn quoted(name: &str) -> String {
    toml_edit::Value::from(name).to_string()
}

/// Without anything that would end a remark.
fn plain(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect()
}

fn remark(text: &mut String, sentence: &str) {
    let (mut line, mut start) = (String::from("#"), true);
    for word in sentence.split_whitespace() {
        if !start && line.chars().count() + 1 + word.chars().count() > WIDTH {
            let _ = writeln!(text, "{line}");
            // What goes on is set in, so that the beginnings of sentences are seen.
            line = String::from("#  ");
        }
        line.push(' ');
        line.push_str(word);
        start = false;
    }
    let _ = writeln!(text, "{line}");
}

#[cfg(test)]
mod tests {
    use super::place_text;
    use crate as shoot;
    use glam::{Vec2, Vec3};
    use scene::scan::{Scan, ScannedThing};
    use scene::{Face, Opening, OpeningKind};

    fn scan() -> Scan {
        Scan {
            room: Vec3::new(4.404, 5.496, 2.6),
            faces: [
                Some([0.7, 0.6, 0.5]),
                None,
                // No real surface is as pure as this.
                Some([0.0, 0.0, 1.0]),
                Some([1.0, 1.0, 1.0]),
                None,
                Some([0.3, 0.2, 0.1]),
            ],
            openings: vec![
                Opening {
                    name: "Fenêtre \"1\"".to_owned(),
                    face: Face::Right,
                    from: Vec2::new(1.204, 0.9),
                    size: Vec2::new(1.301, 1.2),
                    kind: OpeningKind::Window,
                },
                Opening {
                    name: "next to it".to_owned(),
                    face: Face::Right,
                    from: Vec2::new(2.505, 0.0),
                    size: Vec2::new(5.496 - 2.505, 2.6),
                    kind: OpeningKind::Doorway,
                },
            ],
            furniture: vec![
                ScannedThing {
                    name: "cupboard".to_owned(),
                    min: Vec3::new(3.8, 4.0, 0.0),
                    max: Vec3::new(4.404, 5.496, 2.6),
                    colour: Some([0.5, 0.3, 0.15]),
                },
                ScannedThing {
                    name: "board on a wall".to_owned(),
                    min: Vec3::new(0.0, 1.0, 1.0),
                    max: Vec3::new(0.004, 2.0, 1.7),
                    colour: None,
                },
            ],
            told: vec!["One\nthing = \"evil\" and a sentence that is long enough to be wrapped at the end of a line, \
                        as sentences about scans are wont to be."
                .to_owned()],
        }
    }

    /// A whole shoot around a place.
    fn around(place: &str) -> String {
        format!(
            "{place}\n[camera]\nfrom_left = \"2.0 m\"\nfrom_behind = \"1.0 m\"\n[[sitter]]\nfrom_left = \"2.0 m\"\n\
             from_behind = \"3.0 m\"\n[ask]\naperture = \"f/4\"\nkey = \"loop\"\n"
        )
    }

    #[test]
    fn the_text_is_read_as_the_place_that_was_scanned() {
        for quarters in 0..4 {
            let scan = scan().turned(quarters);
            let text = place_text(&scan, "room\n.glb");
            let shoot = shoot::parse("scan.toml", &around(&text)).unwrap_or_else(|problems| {
                panic!(
                    "{}\n{text}",
                    problems.render(shoot::Language::English, 100, false)
                )
            });
            let place = &shoot.job.place;
            assert!((place.room.size - scan.room).abs().max_element() < 0.0051);
            assert_eq!(place.openings.len(), 2);
            for (read, given) in place.openings.iter().zip(&scan.openings) {
                assert_eq!(
                    (&read.name, read.face, read.kind),
                    (&given.name, given.face, given.kind)
                );
                assert!((read.from - given.from).abs().max_element() < 0.0051);
                assert!(
                    (read.from + read.size - given.from - given.size)
                        .abs()
                        .max_element()
                        < 0.0051
                );
            }
            for (read, given) in place.blocks.iter().zip(&scan.furniture) {
                assert_eq!(read.name, given.name);
                assert!((read.min - given.min).abs().max_element() < 0.0151, "{read:?}");
                assert!((read.max - given.max).abs().max_element() < 0.0151, "{read:?}");
            }
        }
    }

    #[test]
    fn openings_that_touch_never_overlap_when_rounded() {
        for step in 0..2000 {
            let (at, mut scan) = (1.0 + step as f32 * 0.0007, scan());
            scan.openings[0].size.x = at - scan.openings[0].from.x;
            // A hair less, as sums of such numbers are.
            scan.openings[1].from.x = at - 2e-7;
            scan.openings[1].size.x = 1.0;
            if scan.openings[0].size.x < 0.1 {
                continue;
            }
            let holes = super::holes(&scan.openings, [440, 550, 260]);
            assert!(holes[0].ends[0].1 <= holes[1].ends[0].0, "{at}");
        }
    }

    #[test]
    fn colours_are_written_as_surfaces_and_what_is_not_known_is_left_open() {
        let text = place_text(&scan(), "room.glb");
        for line in [
            "left = { name = \"scanned left wall\", rgb = [0.70, 0.60, 0.50] }",
            "# right = \"white paint\"",
            "behind_sitter = { name = \"scanned wall behind the sitter\", rgb = [0.98, 0.98, 0.98] }",
            "room = \"5.50 x 4.40 x 2.60 m\"",
        ] {
            assert!(
                text.lines().any(|found| found.starts_with(line)),
                "{line}\n{text}"
            );
        }
        assert!(text.lines().all(|line| line.chars().count() <= 110), "{text}");
        assert!(!text.lines().any(|line| line.starts_with("thing")), "{text}");
    }
}
