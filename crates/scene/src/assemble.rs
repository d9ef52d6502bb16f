//! From the described place and people to one geometry.

use crate::figure::{Figure, Landmark, LandmarkName, Part};
use crate::{
    BoxRoom, Face, Geometry, Material, ObjectKind, Opening, Place, Placed, SceneError, Sitter, SitterColours,
};
use colour::Spectrum;
use glam::Vec3;

/// Refractive index of the skin's oil film (trade-independent: optics texts give 1.37 to 1.45).
const SKIN_INDEX: f32 = 1.4;
/// Roughness of a face that has not been powdered: about 0.3 to 0.4 fits the broad sheen of skin (ours).
const SKIN_ROUGHNESS: f32 = 0.38;

/// A sitter in the finished scene.
#[derive(Clone, Debug)]
pub struct SitterObject {
    /// Name as given.
    pub name: String,
    /// Index of the object in the geometry.
    pub object: usize,
    /// Landmarks of the face by name, in world coordinates.
    pub landmarks: Vec<(LandmarkName, Landmark)>,
    /// Between the eyes, in world coordinates.
    pub face: Vec3,
    /// Unit direction of the nose, level.
    pub facing: Vec3,
    /// Top of the head above the floor in metres.
    pub crown_m: f32,
}

/// Geometry plus what must be known about it to meter and to speak about it.
#[derive(Clone, Debug)]
pub struct Stage {
    /// All triangles.
    pub geometry: Geometry,
    /// The people in it.
    pub sitters: Vec<SitterObject>,
}

/// Builds the scene of a place and its sitters.
///
/// # Errors
/// Anything outside the room, an opening that does not fit, people in the same place, or a figure that
/// cannot be made.
pub fn assemble(place: &Place, sitters: &[Sitter]) -> Result<Stage, SceneError> {
    place.check()?;
    check_sitters(place, sitters)?;
    let mut geometry = Geometry::default();
    for face in Face::ALL {
        add_face(&mut geometry, &place.room, face, &place.openings);
    }
    for (index, block) in place.blocks.iter().enumerate() {
        add_block(&mut geometry, block, index);
    }
    for (index, panel) in place.panels.iter().enumerate() {
        add_panel(&mut geometry, panel, index);
    }
    let sitters = sitters
        .iter()
        .enumerate()
        .map(|(index, sitter)| add_sitter(&mut geometry, sitter, index))
        .collect::<Result<_, _>>()?;
    Ok(Stage { geometry, sitters })
}

/// People must stand in the room and not inside one another.
fn check_sitters(place: &Place, sitters: &[Sitter]) -> Result<(), SceneError> {
    for (index, sitter) in sitters.iter().enumerate() {
        place.inside(|| Placed::SitterFace(sitter.name.clone()), sitter.face())?;
        for other in &sitters[..index] {
            if (sitter.stand - other.stand).truncate().length() < 0.3 {
                return Err(SceneError::Overlap {
                    first: other.name.clone(),
                    second: sitter.name.clone(),
                    least: 0.3,
                });
            }
        }
    }
    Ok(())
}

/// One face of the room, cut into a grid by its openings so that no two triangles overlap.
fn add_face(geometry: &mut Geometry, room: &BoxRoom, face: Face, openings: &[Opening]) {
    let (corner, along, up) = room.face_frame(face);
    let (length, height) = (along.length(), up.length());
    let here: Vec<(usize, &Opening)> = openings
        .iter()
        .enumerate()
        .filter(|(_, o)| o.face == face)
        .collect();
    let cuts = |start: fn(&Opening) -> f32, size: fn(&Opening) -> f32, end: f32| {
        let mut at: Vec<f32> = here
            .iter()
            .flat_map(|(_, o)| [start(o), start(o) + size(o)])
            .collect();
        at.extend([0.0, end]);
        at.sort_by(f32::total_cmp);
        at.dedup_by(|a, b| (*a - *b).abs() < 1e-4);
        at
    };
    let across = cuts(|o| o.from.x, |o| o.size.x, length);
    let upward = cuts(|o| o.from.y, |o| o.size.y, height);
    let (along, up) = (along / length, up / height);
    let wall = geometry.add_material(room.material(face).clone());
    let mut cells: Vec<(Option<usize>, (Vec3, Vec3, Vec3))> = Vec::new();
    for x in across.windows(2) {
        for y in upward.windows(2) {
            let (mx, my) = (0.5 * (x[0] + x[1]), 0.5 * (y[0] + y[1]));
            let inside = |o: &Opening| {
                mx > o.from.x && mx < o.from.x + o.size.x && my > o.from.y && my < o.from.y + o.size.y
            };
            let opening = here.iter().find(|(_, o)| inside(o)).map(|(index, _)| *index);
            let frame = (
                corner + along * x[0] + up * y[0],
                along * (x[1] - x[0]),
                up * (y[1] - y[0]),
            );
            cells.push((opening, frame));
        }
    }
    for (opening, frame) in cells {
        match opening {
            None => geometry.add_rectangle(face.words(), ObjectKind::RoomFace(face), frame, wall),
            Some(index) => {
                let opening = &openings[index];
                let material = geometry.add_material(Material::matt(&opening.name, opening.reflectance()));
                geometry.add_rectangle(&opening.name, ObjectKind::Opening(index), frame, material);
            }
        }
    }
}

fn add_block(geometry: &mut Geometry, block: &crate::Block, index: usize) {
    let material = geometry.add_material(block.material.clone());
    let inner = BoxRoom::uniform((block.max - block.min).into(), block.material.clone());
    for face in Face::ALL {
        let (corner, a, b) = inner.face_frame(face);
        // The room's faces look inward; a block is the same box seen from outside.
        geometry.add_rectangle(
            &block.name,
            ObjectKind::Block(index),
            (block.min + corner, b, a),
            material,
        );
    }
}

/// A board is two rectangles a millimetre apart, so that front and back can differ.
fn add_panel(geometry: &mut Geometry, panel: &crate::Panel, index: usize) {
    let (corner, a, b) = panel.frame();
    let half = panel.normal.normalize() * 0.0005;
    let front = geometry.add_material(panel.front.clone());
    let back = panel.back.clone().unwrap_or_else(|| panel.front.clone());
    let back = geometry.add_material(back);
    geometry.add_rectangle(
        &panel.name,
        ObjectKind::Panel(index),
        (corner + half, a, b),
        front,
    );
    geometry.add_rectangle(&panel.name, ObjectKind::Panel(index), (corner - half, b, a), back);
}

fn add_sitter(geometry: &mut Geometry, sitter: &Sitter, index: usize) -> Result<SitterObject, SceneError> {
    let figure = sitter
        .figure
        .of(&sitter.recipe)
        .map_err(|reason| SceneError::Figure {
            name: sitter.name.clone(),
            reason,
        })?;
    let turn = sitter.turn();
    let eyes = 0.5 * (figure.landmarks.eye_left.position + figure.landmarks.eye_right.position);
    let target = sitter.face();
    let place = |p: Vec3| turn * (p - eyes) + target;
    let base = geometry.positions.len() as u32;
    let first = geometry.triangles.len() as u32;
    let materials = part_materials(geometry, sitter, &figure);
    geometry.positions.extend(figure.positions.iter().map(|&p| {
        // A figure taller than the given face height allows loses its feet; the floor stays whole.
        let mut world = place(p);
        world.z = world.z.max(0.001);
        world
    }));
    geometry.normals.extend(figure.normals.iter().map(|&n| turn * n));
    geometry.overlay.extend(figure.blend.iter());
    geometry
        .triangles
        .extend(figure.triangles.iter().map(|t| t.map(|i| i + base)));
    geometry.material.extend(materials);
    geometry.close_object(&sitter.name, ObjectKind::Sitter(index), first, None);
    let crown = geometry.positions[base as usize..]
        .iter()
        .map(|p| p.z)
        .fold(0.0, f32::max);
    let landmarks = figure
        .landmarks
        .iter()
        .map(|(name, mark)| {
            (
                name,
                Landmark {
                    position: place(mark.position),
                    normal: turn * mark.normal,
                },
            )
        })
        .collect();
    Ok(SitterObject {
        name: sitter.name.clone(),
        object: geometry.objects.len() - 1,
        landmarks,
        face: target,
        facing: sitter.face_direction(),
        crown_m: crown,
    })
}

impl SitterObject {
    /// A landmark by its name.
    pub fn landmark(&self, name: LandmarkName) -> Option<Landmark> {
        self.landmarks
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, mark)| *mark)
    }
}

/// The material of every triangle of a figure; each part gets its material when it is first met.
fn part_materials(geometry: &mut Geometry, sitter: &Sitter, figure: &Figure) -> Vec<u16> {
    let mut slots: [Option<u16>; 32] = [None; 32];
    figure
        .parts
        .iter()
        .map(|&part| {
            *slots[part as usize].get_or_insert_with(|| geometry.add_material(part_material(sitter, part)))
        })
        .collect()
}

/// What a part of a person is made of.
fn part_material(sitter: &Sitter, part: Part) -> Material {
    let c = &sitter.colours;
    let name = |part: &str| format!("{} of {}", part, sitter.name);
    let matt = |part: &str, colour: Spectrum| Material::matt(&name(part), colour).smooth();
    match part {
        Part::Skin => skin(&name("skin"), c),
        Part::Sclera => matt("eye", Spectrum::splat(0.62)).coated(1.376, 0.06),
        Part::Iris => matt("iris", c.iris).coated(1.376, 0.06),
        Part::Pupil => matt("pupil", Spectrum::splat(0.01)).coated(1.376, 0.06),
        Part::Teeth => matt("teeth", Spectrum::splat(0.55)).coated(1.5, 0.15),
        Part::Tongue => matt("tongue", c.lips).coated(1.4, 0.25),
        Part::Lash => matt("lashes", c.hair * 0.5),
        Part::Hair => matt("hair", c.hair).coated(1.55, 0.35),
        Part::Cap => matt("cap", c.cap),
        Part::Top => matt("top", c.top),
        Part::Trim => matt("trim", c.top * 0.6),
        Part::Trousers => matt("trousers", c.trousers),
        Part::Shoes => matt("shoes", Spectrum::splat(0.04)).coated(1.5, 0.2),
    }
}

/// Skin: the measured reflectance contains the surface reflection, so the base is what remains under the
/// coat; lips, brow hair and flush lie over it.
fn skin(name: &str, colours: &SitterColours) -> Material {
    let surface = ((SKIN_INDEX - 1.0) / (SKIN_INDEX + 1.0)).powi(2);
    let under_coat =
        |measured: Spectrum| measured.map(|r| ((r - surface) / (1.0 - surface)).clamp(0.005, 0.95));
    let base = under_coat(colours.skin);
    // A flush lowers what blood absorbs: more in the green than in the red (ours, for looks only).
    let mut flush = base;
    for (band, value) in flush.0.iter_mut().enumerate() {
        *value *= if band < 9 { 0.78 } else { 0.97 };
    }
    let mut material = Material::matt(name, base)
        .coated(SKIN_INDEX, SKIN_ROUGHNESS)
        .smooth();
    material.overlays = Some(Box::new([under_coat(colours.lips), colours.hair, flush]));
    material
}
