//! The assembled scene: triangles, materials and the objects they belong to.

use crate::{Face, Material};
use glam::Vec3;

/// What an object is to the photographer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ObjectKind {
    /// A face of the room.
    RoomFace(Face),
    /// An opening, by its position in the place's list.
    Opening(usize),
    /// Furniture, by its position in the place's list.
    Block(usize),
    /// A board, by its position in the place's list.
    Panel(usize),
    /// A sitter, by position in the list of sitters.
    Sitter(usize),
}

/// A run of triangles that belong together.
#[derive(Clone, Debug)]
pub struct Object {
    /// Name for messages and layers.
    pub name: String,
    /// What it is.
    pub kind: ObjectKind,
    /// First triangle.
    pub first: u32,
    /// Number of triangles.
    pub count: u32,
    /// For a flat rectangle: corner and two edges, edge₁ × edge₂ along the front.
    pub rectangle: Option<[Vec3; 3]>,
}

/// All triangles of the scene.
#[derive(Clone, Debug, Default)]
pub struct Geometry {
    /// Vertex positions in metres.
    pub positions: Vec<Vec3>,
    /// Unit shading normals, one per vertex.
    pub normals: Vec<Vec3>,
    /// Weights of the three overlay colours, one triple per vertex.
    pub overlay: Vec<[f32; 3]>,
    /// Corner indices; anticlockwise seen from the front.
    pub triangles: Vec<[u32; 3]>,
    /// Material of each triangle.
    pub material: Vec<u16>,
    /// Object of each triangle.
    pub object: Vec<u32>,
    /// The materials.
    pub materials: Vec<Material>,
    /// The objects.
    pub objects: Vec<Object>,
}

impl Geometry {
    /// Adds a material and returns its index.
    ///
    /// # Panics
    /// With more than 65,535 materials, which no described place reaches.
    pub fn add_material(&mut self, material: Material) -> u16 {
        self.materials.push(material);
        u16::try_from(self.materials.len() - 1).expect("fewer than 65,536 materials")
    }

    /// Adds a flat rectangle as an object of its own.
    pub fn add_rectangle(&mut self, name: &str, kind: ObjectKind, frame: (Vec3, Vec3, Vec3), material: u16) {
        let first = self.triangles.len() as u32;
        self.push_quad(frame, material);
        self.close_object(name, kind, first, Some([frame.0, frame.1, frame.2]));
    }

    /// Adds the two triangles of a rectangle to the object that is being built.
    pub(crate) fn push_quad(&mut self, (corner, a, b): (Vec3, Vec3, Vec3), material: u16) {
        let normal = a.cross(b).normalize();
        let base = self.positions.len() as u32;
        self.positions
            .extend([corner, corner + a, corner + a + b, corner + b]);
        self.normals.extend([normal; 4]);
        self.overlay.extend([[0.0; 3]; 4]);
        self.triangles
            .extend([[base, base + 1, base + 2], [base, base + 2, base + 3]]);
        self.material.extend([material; 2]);
    }

    /// Declares all triangles from `first` to the end as one object.
    pub(crate) fn close_object(
        &mut self,
        name: &str,
        kind: ObjectKind,
        first: u32,
        rectangle: Option<[Vec3; 3]>,
    ) {
        let index = self.objects.len() as u32;
        let count = self.triangles.len() as u32 - first;
        self.object.extend(std::iter::repeat_n(index, count as usize));
        self.objects.push(Object {
            name: name.to_owned(),
            kind,
            first,
            count,
            rectangle,
        });
    }

    /// The corners of a triangle.
    #[inline]
    pub fn corners(&self, triangle: u32) -> [Vec3; 3] {
        self.triangles[triangle as usize].map(|i| self.positions[i as usize])
    }

    /// Unit normal of the flat triangle.
    #[inline]
    pub fn flat_normal(&self, triangle: u32) -> Vec3 {
        let [a, b, c] = self.corners(triangle);
        (b - a).cross(c - a).normalize_or_zero()
    }

    /// The material of a triangle.
    #[inline]
    pub fn material_of(&self, triangle: u32) -> &Material {
        &self.materials[self.material[triangle as usize] as usize]
    }
}
