//! What a figure is made of: materials, named places, and the triangles themselves.

use glam::Vec3;

/// What a triangle is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Bare skin.
    Skin,
    /// White of the eye.
    Sclera,
    /// Iris.
    Iris,
    /// Pupil.
    Pupil,
    /// Teeth.
    Teeth,
    /// Tongue.
    Tongue,
    /// Lashes.
    Lash,
    /// Hair of head and brows.
    Hair,
    /// Cloth of a cap, with its peak.
    Cap,
    /// Jersey or tunic.
    Top,
    /// Trousers.
    Trousers,
    /// Shoes.
    Shoes,
    /// Buttons, and the piping of a cap.
    Trim,
}

/// A place on the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landmark {
    /// Metres, in the figure's axes.
    pub position: Vec3,
    /// Unit normal of the surface there.
    pub normal: Vec3,
}

macro_rules! landmarks {
    ($($(#[$doc:meta])* $name:ident $variant:ident),* $(,)?) => {
        /// Named places; left and right are the sitter's own.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct Landmarks { $($(#[$doc])* pub $name: Landmark),* }

        /// The name of a place on the head; left and right are the sitter's own.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum LandmarkName { $($(#[$doc])* $variant),* }

        impl LandmarkName {
            /// The name as an identifier: `nose_tip`.
            pub fn identifier(self) -> &'static str {
                match self { $(Self::$variant => stringify!($name)),* }
            }
        }

        impl Landmarks {
            /// Every place with its name.
            pub fn iter(&self) -> impl Iterator<Item = (LandmarkName, Landmark)> + use<> {
                [$((LandmarkName::$variant, self.$name)),*].into_iter()
            }

            pub(super) fn each(&mut self, mut change: impl FnMut(&mut Landmark)) { $(change(&mut self.$name);)* }
        }
    };
}

landmarks! {
    /// Foremost point of the nose.
    nose_tip NoseTip,
    /// Where the nose's foot meets the upper lip.
    under_nose UnderNose,
    /// Upper cheek below the left eye.
    cheek_upper_left CheekUpperLeft,
    /// Upper cheek below the right eye.
    cheek_upper_right CheekUpperRight,
    /// Left flank of the nose, half way up.
    nose_side_left NoseSideLeft,
    /// Right flank of the nose, half way up.
    nose_side_right NoseSideRight,
    /// Between the brows (the glabella).
    brow Brow,
    /// Hollow between left eye and nose, under the brow: the first place to fall into shade.
    eye_socket_left EyeSocketLeft,
    /// Hollow between right eye and nose, under the brow.
    eye_socket_right EyeSocketRight,
    /// Foremost point of the upper lip.
    lip_upper LipUpper,
    /// Foremost point of the lower lip.
    lip_lower LipLower,
    /// Foremost point of the chin.
    chin Chin,
    /// Outermost point of the left ear.
    ear_left EarLeft,
    /// Outermost point of the right ear.
    ear_right EarRight,
    /// Middle of the forehead.
    forehead Forehead,
    /// Middle of the left pupil.
    eye_left EyeLeft,
    /// Middle of the right pupil.
    eye_right EyeRight,
    /// Top of the head, on the skin under any hair.
    vertex Vertex,
    /// Deepest point of the nose's root between the eyes (the sellion); its normal is the way the face looks.
    face_centre FaceCentre,
}

/// A sitter as triangles.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Vertices in metres.
    pub positions: Vec<Vec3>,
    /// Smooth unit normal at each vertex. Locks of hair are strips without a back: light them from both sides.
    pub normals: Vec<Vec3>,
    /// Corners of each triangle, anticlockwise from outside.
    pub triangles: Vec<[u32; 3]>,
    /// Material of each triangle.
    pub parts: Vec<Part>,
    /// How much of lip colour, hair colour and redness is laid over each vertex, 0 to 1. On the iris the second darkens
    /// towards rim and pupil; on the white of the eye the third is the pink of its edges.
    pub blend: Vec<[f32; 3]>,
    /// Named places.
    pub landmarks: Landmarks,
}
