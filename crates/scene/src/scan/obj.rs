//! Reading OBJ text. Materials are known by their names alone: their file is another one.

use super::mesh::{Facet, MOST_TRIANGLES, Mesh, Piece};
use super::refusal::{Damage, ScanError};
use glam::Vec3;
use std::borrow::Cow;
use std::cell::Cell;
use std::collections::{BTreeSet, HashMap};
use std::io::{BufReader, Cursor, Read as _};
use tobj::LoadOptions;

/// More materials than a scan has (ours).
const MOST_MATERIALS: usize = 10_000;

/// Whether some bytes look like OBJ: one of the first lines places a point or names a thing.
pub(super) fn looks_like(bytes: &[u8]) -> bool {
    bytes.split(|byte| *byte == b'\n').take(2000).any(|line| {
        [&b"v "[..], b"o ", b"g ", b"f ", b"mtllib "]
            .iter()
            .any(|start| line.starts_with(start))
    })
}

/// What must be known before the text is read in earnest.
struct Tally {
    materials: BTreeSet<String>,
    triangles: usize,
}

/// Counts the triangles, so that a file that is too large is refused before it fills the memory, and collects
/// the names of materials.
fn tally(text: &str) -> Result<Tally, ScanError> {
    let mut tally = Tally {
        materials: BTreeSet::new(),
        triangles: 0,
    };
    let mut points = 0_usize;
    for line in text.lines() {
        let line = line.trim_start();
        let Some((key, rest)) = line.split_once(char::is_whitespace) else {
            continue;
        };
        match key {
            "f" => tally.triangles += rest.split_whitespace().count().saturating_sub(2),
            "v" | "vt" | "vn" => points += 1,
            "usemtl" if tally.materials.len() < MOST_MATERIALS => {
                tally.materials.insert(rest.trim().to_owned());
            }
            _ => {}
        }
        if tally.triangles > MOST_TRIANGLES || points > 4 * MOST_TRIANGLES {
            return Err(ScanError::TooManyTriangles);
        }
    }
    Ok(tally)
}

/// Reads a file whose unit and upward axis are not known.
///
/// # Errors
/// Everything that keeps it from being read.
pub(super) fn read(bytes: &[u8]) -> Result<Mesh, ScanError> {
    let text: Cow<'_, str> = String::from_utf8_lossy(bytes);
    let tally = tally(&text)?;
    let names: Vec<String> = tally.materials.into_iter().collect();
    let known: HashMap<String, usize> = names.iter().cloned().zip(0..).collect();
    // Names of materials only count for the reader below once a file of materials was named.
    let text = Cursor::new("mtllib names\n").chain(Cursor::new(text.as_bytes()));
    // Once is enough: every further line of that kind would give them all again, under other numbers.
    let given = Cell::new(false);
    let options = LoadOptions {
        triangulate: true,
        ignore_points: true,
        ignore_lines: true,
        ..LoadOptions::default()
    };
    let (models, _) = tobj::load_obj_buf(&mut BufReader::new(text), &options, |_| {
        if given.replace(true) {
            return Ok((Vec::new(), Default::default()));
        }
        let materials = names.iter().map(|name| tobj::Material {
            name: name.clone(),
            ..tobj::Material::default()
        });
        Ok((materials.collect(), known.clone().into_iter().collect()))
    })
    .map_err(|error| ScanError::Damaged(reason(&error)))?;
    let mut mesh = Mesh::default();
    for model in models {
        let shape = &model.mesh;
        let material = shape.material_id.and_then(|index| names.get(index)).cloned();
        let named = !model.name.trim().is_empty() && model.name != "unnamed_object";
        let piece = mesh.add_piece(Piece {
            names: named
                .then(|| model.name.chars().take(80).collect())
                .into_iter()
                .collect(),
            material,
        });
        let point = |list: &[f32], corner: u32| {
            let start = corner as usize * 3;
            list.get(start..start + 3).map(Vec3::from_slice)
        };
        for corners in shape.indices.chunks_exact(3) {
            let [a, b, c] = [corners[0], corners[1], corners[2]];
            let Some(places) = all([a, b, c].map(|corner| point(&shape.positions, corner))) else {
                return Err(ScanError::Damaged(Damage::FaceWithoutPoint));
            };
            let colours = all([a, b, c].map(|corner| point(&shape.vertex_color, corner)));
            mesh.add(Facet {
                corners: places,
                piece,
                colour: colours.and_then(mean_colour),
            })?;
        }
    }
    Ok(mesh)
}

fn all(three: [Option<Vec3>; 3]) -> Option<[Vec3; 3]> {
    let [a, b, c] = three;
    Some([a?, b?, c?])
}

/// Colours of points are written as in a picture, encoded for a screen (a habit; OBJ itself knows none).
fn mean_colour(corners: [Vec3; 3]) -> Option<Vec3> {
    let mean = (corners[0] + corners[1] + corners[2]) / 3.0;
    let linear = mean
        .to_array()
        .map(|part| colour::decode_srgb(f64::from(part.clamp(0.0, 1.0))) as f32);
    mean.is_finite().then(|| Vec3::from(linear))
}

/// What is wrong, in a sentence.
fn reason(error: &tobj::LoadError) -> Damage {
    use tobj::LoadError as E;
    match error {
        E::PositionParseError => Damage::NotAPoint,
        E::NormalParseError => Damage::NotANormal,
        E::TexcoordParseError => Damage::NotAPlaceInAPicture,
        E::FaceParseError => Damage::NotAFace,
        E::FaceVertexOutOfBounds
        | E::FaceTexCoordOutOfBounds
        | E::FaceNormalOutOfBounds
        | E::FaceColorOutOfBounds => Damage::FaceWithoutPoint,
        _ => Damage::NotItsText,
    }
}
