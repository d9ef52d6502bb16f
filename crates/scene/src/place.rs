//! The place: a box room with openings, blocks of furniture and boards.

use crate::{Coordinate, Face, Material, OpeningMisfit, Placed, SceneError, Surroundings};
use colour::Spectrum;
use glam::{Vec2, Vec3};

/// A box room with a material on every face.
#[derive(Clone, Debug)]
pub struct BoxRoom {
    /// Extent along x (width), y (length) and z (height) in metres.
    pub size: Vec3,
    /// Material of each face, in the order of [`Face::ALL`].
    pub materials: [Material; 6],
}

impl BoxRoom {
    /// A room of one material; `size` is width (x), length (y), height (z) in metres.
    pub fn uniform(size: [f32; 3], material: Material) -> Self {
        BoxRoom {
            size: Vec3::from(size),
            materials: std::array::from_fn(|_| material.clone()),
        }
    }

    /// The material of a face.
    pub fn material(&self, face: Face) -> &Material {
        &self.materials[face.index()]
    }

    /// Corner and two edge vectors of a face; edge₁ × edge₂ points into the room.
    pub fn face_frame(&self, face: Face) -> (Vec3, Vec3, Vec3) {
        let Vec3 { x, y, z } = self.size;
        match face {
            Face::Left => (Vec3::ZERO, Vec3::Y * y, Vec3::Z * z),
            Face::Right => (Vec3::new(x, y, 0.0), Vec3::NEG_Y * y, Vec3::Z * z),
            Face::BehindCamera => (Vec3::new(x, 0.0, 0.0), Vec3::NEG_X * x, Vec3::Z * z),
            Face::BehindSitter => (Vec3::new(0.0, y, 0.0), Vec3::X * x, Vec3::Z * z),
            Face::Ceiling => (Vec3::new(0.0, 0.0, z), Vec3::Y * y, Vec3::X * x),
            Face::Floor => (Vec3::ZERO, Vec3::X * x, Vec3::Y * y),
        }
    }

    /// The middle of a face.
    pub fn face_centre(&self, face: Face) -> Vec3 {
        let (corner, a, b) = self.face_frame(face);
        corner + 0.5 * (a + b)
    }

    /// Area of all six faces in m².
    ///
    /// ```
    /// use scene::{BoxRoom, Material};
    /// let white = Material::matt("white", colour::Spectrum::splat(0.8));
    /// assert_eq!(BoxRoom::uniform([1.0, 2.0, 3.0], white).area(), 22.0);
    /// ```
    pub fn area(&self) -> f32 {
        let Vec3 { x, y, z } = self.size;
        2.0 * (x * y + y * z + z * x)
    }

    /// Whether a point lies inside the room, at least `margin` metres from every face.
    pub fn contains(&self, point: Vec3, margin: f32) -> bool {
        (point.cmpge(Vec3::splat(margin)) & point.cmple(self.size - Vec3::splat(margin))).all()
    }
}

/// What an opening is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningKind {
    /// A window: glass, sends back little of the flash, may let ambient in.
    Window,
    /// A window with a net curtain before it, which scatters most of what it lets in.
    NetCurtain,
    /// A doorway into a darker space.
    Doorway,
    /// Nothing at all: an open door or gate, or a whole side of the place that has no wall.
    Open,
}

/// What an opening does to light that comes in through it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// Share that passes straight on.
    pub clear: f32,
    /// Share that is scattered evenly into the room.
    pub scattered: f32,
}

impl OpeningKind {
    /// What passes in from outdoors. Double glazing passes about 0.80 of daylight (common practice; the two
    /// panes' Fresnel losses and a little absorption). A net curtain before it leaves 0.12 straight on and
    /// scatters 0.36 (ours, for white voile). A doorway leads to a darker space, not outdoors.
    pub fn passage(self) -> Passage {
        let (clear, scattered) = match self {
            OpeningKind::Window => (0.80, 0.0),
            OpeningKind::NetCurtain => (0.12, 0.36),
            OpeningKind::Doorway => (0.0, 0.0),
            OpeningKind::Open => (1.0, 0.0),
        };
        Passage { clear, scattered }
    }
}

/// A rectangular opening in a wall, in metres along the wall from its left end (seen from inside the
/// room) and up from the floor.
#[derive(Clone, Debug)]
pub struct Opening {
    /// What the photographer calls it.
    pub name: String,
    /// The wall it is in; the ceiling only when it is open.
    pub face: Face,
    /// Left end and lower edge, seen from inside.
    pub from: Vec2,
    /// Width and height.
    pub size: Vec2,
    /// Window or doorway.
    pub kind: OpeningKind,
}

impl Opening {
    /// What an opening sends back of the light that meets it: 8 % for two panes of glass
    /// (Fresnel, n = 1.5, two surfaces), 3 % for a doorway into a dark room (common practice), 35 % for a net
    /// curtain (ours), nothing where there is nothing.
    pub fn reflectance(&self) -> Spectrum {
        Spectrum::splat(match self.kind {
            OpeningKind::Window => 0.08,
            OpeningKind::NetCurtain => 0.35,
            OpeningKind::Doorway => 0.03,
            OpeningKind::Open => 0.0,
        })
    }

    /// A whole face of the room that is open to the outdoors.
    pub fn whole(room: &BoxRoom, face: Face) -> Self {
        let (_, along, up) = room.face_frame(face);
        Opening {
            name: match face {
                Face::Left => "open on the left",
                Face::Right => "open on the right",
                Face::BehindCamera => "open behind the camera",
                Face::BehindSitter => "open behind the sitter",
                Face::Ceiling => "open sky",
                Face::Floor => "open below",
            }
            .to_owned(),
            face,
            from: Vec2::ZERO,
            size: Vec2::new(along.length(), up.length()),
            kind: OpeningKind::Open,
        }
    }

    /// Whether it takes up its whole face.
    pub fn fills(&self, room: &BoxRoom) -> bool {
        let (_, along, up) = room.face_frame(self.face);
        self.size.x * self.size.y > 0.99 * along.length() * up.length()
    }

    /// Corner and edges in the world; edge₁ × edge₂ points into the room.
    pub fn frame(&self, room: &BoxRoom) -> (Vec3, Vec3, Vec3) {
        let (corner, along, up) = room.face_frame(self.face);
        // The first edge of a wall runs from left to right for someone in the room looking at it.
        let (along_unit, up_unit) = (along.normalize(), up.normalize());
        let start = corner + along_unit * self.from.x + up_unit * self.from.y;
        (start, along_unit * self.size.x, up_unit * self.size.y)
    }

    /// Checks that the opening lies in its wall.
    ///
    /// # Errors
    /// An opening in ceiling or floor, of no size, or reaching beyond the wall.
    pub fn check(&self, room: &BoxRoom) -> Result<(), SceneError> {
        let fail = |reason: OpeningMisfit| {
            Err(SceneError::OpeningDoesNotFit {
                name: self.name.clone(),
                reason,
            })
        };
        let open_ceiling = self.face == Face::Ceiling && self.kind == OpeningKind::Open;
        if matches!(self.face, Face::Ceiling | Face::Floor) && !open_ceiling {
            return fail(OpeningMisfit::NotInAWall(self.face));
        }
        let (_, along, up) = room.face_frame(self.face);
        let (length, height) = (along.length(), up.length());
        if self.from.x < 0.0 || self.from.x + self.size.x > length + 1e-4 {
            return fail(OpeningMisfit::BeyondTheEnd {
                from: f64::from(self.from.x),
                to: f64::from(self.from.x + self.size.x),
                length: f64::from(length),
            });
        }
        if self.from.y < 0.0 || self.from.y + self.size.y > height + 1e-4 {
            return fail(OpeningMisfit::BeyondTheTop {
                from: f64::from(self.from.y),
                to: f64::from(self.from.y + self.size.y),
                height: f64::from(height),
            });
        }
        Ok(())
    }
}

/// A box of furniture standing square to the walls.
#[derive(Clone, Debug)]
pub struct Block {
    /// What the photographer calls it.
    pub name: String,
    /// Lowest corner.
    pub min: Vec3,
    /// Highest corner.
    pub max: Vec3,
    /// Its surface.
    pub material: Material,
}

/// A thin flat board: a reflector, a V-flat's leaf, a screen.
#[derive(Clone, Debug)]
pub struct Panel {
    /// What the photographer calls it.
    pub name: String,
    /// Centre in the world.
    pub centre: Vec3,
    /// Unit normal of the front.
    pub normal: Vec3,
    /// Direction of the height edge; made square to the normal.
    pub up: Vec3,
    /// Width and height in metres.
    pub size: Vec2,
    /// Front.
    pub front: Material,
    /// Back; `None` means the same as the front.
    pub back: Option<Material>,
    /// Whether a person holds it; their body is not part of the scene.
    pub held: bool,
}

impl Panel {
    /// Corner and edges; edge₁ × edge₂ is along the front normal.
    pub fn frame(&self) -> (Vec3, Vec3, Vec3) {
        let normal = self.normal.normalize();
        let up = (self.up - normal * self.up.dot(normal))
            .try_normalize()
            .unwrap_or_else(|| normal.any_orthonormal_vector());
        let across = up.cross(normal);
        let (a, b) = (across * self.size.x, up * self.size.y);
        (self.centre - 0.5 * (a + b), a, b)
    }
}

/// Everything that stands in the place, without the people.
#[derive(Clone, Debug)]
pub struct Place {
    /// The room.
    pub room: BoxRoom,
    /// Windows and doorways.
    pub openings: Vec<Opening>,
    /// Furniture.
    pub blocks: Vec<Block>,
    /// Boards.
    pub panels: Vec<Panel>,
    /// What lies around it, where that is known.
    pub surroundings: Option<Surroundings>,
}

impl Place {
    /// An empty room.
    pub fn new(room: BoxRoom) -> Self {
        Place {
            room,
            openings: Vec::new(),
            blocks: Vec::new(),
            panels: Vec::new(),
            surroundings: None,
        }
    }

    /// Whether a face of the room has no wall (or roof) at all.
    pub fn is_open(&self, face: Face) -> bool {
        self.openings.iter().any(|opening| {
            opening.face == face && opening.kind == OpeningKind::Open && opening.fills(&self.room)
        })
    }

    /// Whether any face is open.
    pub fn has_open_sides(&self) -> bool {
        Face::ALL.into_iter().any(|face| self.is_open(face))
    }

    /// What lies around it; open country of its own floor where nothing was said.
    pub fn around(&self) -> Surroundings {
        self.surroundings
            .clone()
            .unwrap_or_else(|| Surroundings::open(self.room.material(Face::Floor).clone()))
    }

    /// Checks that everything lies inside the room.
    ///
    /// # Errors
    /// The first thing that does not.
    pub fn check(&self) -> Result<(), SceneError> {
        for opening in &self.openings {
            opening.check(&self.room)?;
        }
        for block in &self.blocks {
            let what = || Placed::Furniture(block.name.clone());
            self.inside(what, block.min)?;
            self.inside(what, block.max)?;
        }
        for panel in &self.panels {
            let (corner, a, b) = panel.frame();
            for point in [corner, corner + a, corner + b, corner + a + b] {
                self.inside(|| Placed::BoardCorner(panel.name.clone()), point)?;
            }
        }
        Ok(())
    }

    /// Checks one point of something against the room.
    ///
    /// # Errors
    /// The coordinate that is outside.
    pub fn inside(&self, what: impl Fn() -> Placed, point: Vec3) -> Result<(), SceneError> {
        for (axis, coordinate) in Coordinate::ALL.into_iter().enumerate() {
            let (value, limit) = (f64::from(point[axis]), f64::from(self.room.size[axis]));
            if !(-1e-4..=limit + 1e-4).contains(&value) {
                return Err(SceneError::OutsideRoom {
                    what: what(),
                    coordinate,
                    value,
                    limit,
                });
            }
        }
        Ok(())
    }
}
