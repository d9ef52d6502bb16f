//! A scan of a room (glTF 2.0 or OBJ) as a box-shaped place: walls, openings, furniture.
//!
//! Light is computed in a box room with boxes in it. A scan is a heap of triangles, perhaps with names. This
//! module finds the box in the heap, and tells in sentences all that it guessed, turned or left out, because
//! a person who knows the room can put it right in a minute.
//!
//! A file comes from a stranger: it is read from bytes alone, nothing else is opened, and sizes, counts and
//! indices are checked before they are used. Shares and distances that separate one thing from another are ours.
//!
//! ```
//! use scene::scan::read_scan;
//! // Three sides of a room as text: floor, and two walls.
//! let room = "v 0 0 0\nv 4 0 0\nv 4 2.5 0\nv 0 2.5 0\nv 0 0 -5\nv 4 0 -5\nv 4 2.5 -5\nv 0 2.5 -5\n\
//!             f 1 2 6 5\nf 4 8 7 3\nf 1 5 8 4\nf 2 3 7 6\nf 1 4 3 2\nf 5 6 7 8\n";
//! let scan = read_scan("room.obj", room.as_bytes()).expect("a room");
//! assert!((scan.room - glam::Vec3::new(4.0, 5.0, 2.5)).length() < 0.01);
//! ```

mod found;
mod furniture;
mod gltf;
mod mesh;
mod obj;
mod openings;
mod refusal;
mod shell;
mod words;

pub use found::{Scan, ScannedThing};
pub use refusal::{Damage, ScanError};
pub use shell::Up;

use crate::Face;
use glam::Vec3;
use mesh::{Facet, Mesh};
use shell::Roles;
use words::{Role, counted};

/// Larger files are not read (ours): a scan of a room has a few megabytes without its pictures.
pub const MOST_BYTES: usize = 64 << 20;

/// More objects and groups than a scan of a room has (ours).
const MOST_PIECES: usize = 100_000;

/// What the user knows about a file that would be guessed otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Known {
    /// Length of the file's unit in metres, above 0.
    pub unit_m: Option<f32>,
    /// Which axis points up.
    pub up: Option<Up>,
}

/// Reads a scan, guessing what the file does not say. `name` is the file's, for its ending; what is in the file
/// counts more.
///
/// # Errors
/// A file that is no scan, is damaged, too large or compressed, or in which there is no room.
pub fn read_scan(name: &str, bytes: &[u8]) -> Result<Scan, ScanError> {
    read_scan_knowing(name, bytes, Known::default())
}

/// Reads a scan of which something is known.
///
/// # Errors
/// As [`read_scan`].
pub fn read_scan_knowing(name: &str, bytes: &[u8], known: Known) -> Result<Scan, ScanError> {
    if bytes.len() > MOST_BYTES {
        return Err(ScanError::TooLarge);
    }
    let is_obj_name = name.to_lowercase().ends_with(".obj");
    let (mut mesh, is_obj) = if gltf::looks_like(bytes) && !is_obj_name || bytes.starts_with(b"glTF") {
        (gltf::read(bytes)?, false)
    } else if is_obj_name || obj::looks_like(bytes) {
        (obj::read(bytes)?, true)
    } else {
        return Err(ScanError::UnknownKind);
    };
    if mesh.facets.is_empty() {
        return Err(ScanError::NoSurfaces {
            has_points: mesh.has_points,
        });
    }
    if mesh.pieces.len() > MOST_PIECES {
        return Err(ScanError::TooManyParts);
    }
    let roles = Roles(mesh.pieces.iter().map(words::role).collect());
    let mut scan = Scan {
        room: Vec3::ZERO,
        faces: [None; 6],
        openings: Vec::new(),
        furniture: Vec::new(),
        told: Vec::new(),
    };
    if mesh.broken > 0 {
        scan.told.push(format!(
            "{} with coordinates that are no numbers left out.",
            counted(mesh.broken, "triangle", "triangles")
        ));
    }
    place(&mut mesh, &roles, known, is_obj, &mut scan)?;
    mesh.facets.sort_by_key(|facet| facet.piece);
    let by_piece: Vec<(usize, &[Facet])> = mesh
        .facets
        .chunk_by(|a, b| a.piece == b.piece)
        .map(|facets| (facets[0].piece as usize, facets))
        .collect();
    colour_faces(&mesh, &roles, &mut scan);
    let elsewhere = openings::named(&mesh, &roles, &by_piece, &mut scan);
    furniture::find(&mesh, &roles, &by_piece, &elsewhere, &mut scan);
    if !roles.0.iter().any(|role| matches!(role, Role::Opening(_))) {
        openings::holes(&mesh, &mut scan);
    }
    tell_colours(&mesh, &mut scan);
    Ok(scan)
}

/// Brings everything into the world of a place: metres, z up, walls square, the longer side along y.
fn place(
    mesh: &mut Mesh,
    roles: &Roles,
    known: Known,
    is_obj: bool,
    scan: &mut Scan,
) -> Result<(), ScanError> {
    let up = known.up.unwrap_or_else(|| {
        if !is_obj {
            return Up::Y;
        }
        let up = shell::guess_up(&mesh.facets, roles);
        let axis = if up == Up::Y { "y" } else { "z" };
        scan.told.push(format!(
            "OBJ does not say which way is up; {axis} was taken, because most level surface lies that way."
        ));
        up
    });
    shell::stand_up(&mut mesh.facets, up);
    let unit = known.unit_m.filter(|unit| *unit > 0.0).unwrap_or_else(|| {
        let unit = shell::guess_unit(&mesh.facets);
        match (unit == 1.0, is_obj) {
            (true, false) => {}
            (true, true) => scan
                .told
                .push("OBJ does not say its unit; metres were taken.".to_owned()),
            (false, _) => scan.told.push(format!(
                "In metres the room would be longer than 100 m; the numbers were taken as {}.",
                if unit > 0.005 {
                    "centimetres"
                } else {
                    "millimetres"
                }
            )),
        }
        unit
    });
    shell::scale(&mut mesh.facets, unit);
    scan.room = shell::square(&mut mesh.facets, roles, &mut scan.told)?;
    scan.told.push(format!(
        "The scan does not say where the camera stands: the longer side, {:.2} m, was taken as the length from camera to \
         sitter. Turn the place by quarters if it is another way round.",
        scan.room.y
    ));
    Ok(())
}

/// The mean colour of what lies at each face of the room.
fn colour_faces(mesh: &Mesh, roles: &Roles, scan: &mut Scan) {
    let room = scan.room;
    let mut paints = [furniture::Paint::default(); 6];
    let wanted = |face: Face| match face {
        Face::Floor => Role::Floor,
        Face::Ceiling => Role::Ceiling,
        _ => Role::Wall,
    };
    // Where walls are called so, the back of a cupboard at a wall is none of it.
    let named = Face::ALL.map(|face| roles.0.contains(&wanted(face)));
    for facet in &mesh.facets {
        let role = roles.of(facet);
        if matches!(role, Role::Opening(_)) {
            continue;
        }
        let centre = facet.centre();
        let (normal, _) = facet.normal_and_area();
        for face in Face::ALL {
            let inward = face.inward();
            let corner = if inward.min_element() < 0.0 {
                room
            } else {
                Vec3::ZERO
            };
            let lies_there =
                (centre - corner).dot(inward).abs() < 0.12 && normal.dot(inward).abs() > shell::FACING;
            if lies_there && (!named[face.index()] || role == wanted(face)) {
                paints[face.index()].add(facet);
            }
        }
    }
    for face in Face::ALL {
        let across = (Vec3::ONE - face.inward().abs()) * room + face.inward().abs();
        let paint = &paints[face.index()];
        // A few triangles of something else do not colour a wall.
        if paint.surface() > 0.05 * across.element_product() {
            scan.faces[face.index()] = paint.mean();
        }
    }
}

fn tell_colours(mesh: &Mesh, scan: &mut Scan) {
    let any =
        scan.faces.iter().any(Option::is_some) || scan.furniture.iter().any(|thing| thing.colour.is_some());
    if any {
        scan.told.push(
            "Reflectances are the colours of the scan, which are a guess: they hold the light of the day they were taken \
             in. Name the paint where you know it."
                .to_owned(),
        );
    }
    if mesh.textured {
        scan.told.push(
            "Colours that lie in pictures of the scan were not read; those surfaces are taken as usual."
                .to_owned(),
        );
    }
}
