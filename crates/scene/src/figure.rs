//! Sitters as surfaces: a recipe (age, sex, ancestry, build, hair, clothes) becomes triangles with smooth normals, a
//! material slot for each triangle, soft overlays for lips, brows and redness, and named places on the face.
//!
//! The bodies are morphs of one openly licensed (CC0) base shape, stored in `data/people`; sizes are brought to the adult means of
//! ANSUR II (Gordon et al. 2014). Eyeballs, lashes, brows, hair, caps, collars, folds and hems are made here. Nothing in here is
//! random: the same recipe always gives the same figure, and no figure is a likeness of anybody.
//!
//! Figures are in metres, z up, standing on z = 0, facing -y; the sitter's own left is +x.
//!
//! ```
//! use scene::figure::{FigureRecipe, Part, build};
//!
//! let figure = build(&FigureRecipe { age_years: 45.0, masculinity: 1.0, ..FigureRecipe::default() })?;
//! // The mean stature of the survey's men is 1.756 m; hair adds a centimetre or two above the skin.
//! assert!((figure.landmarks.vertex.position.z - 1.756).abs() < 0.02);
//! assert!(figure.landmarks.eye_left.position.x > 0.0);
//! assert!(figure.parts.contains(&Part::Hair));
//! # Ok::<(), scene::figure::FigureError>(())
//! ```

mod clothing;
mod draft;
mod eyes;
mod hair;
mod head;
mod noise;
mod people;
mod pose;
mod shape;
mod surface;

use draft::Draft;
use glam::Vec3;
use people::{Group, People};
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

/// Why a figure could not be made.
#[derive(Debug, Clone, thiserror::Error, PartialEq)]
pub enum FigureError {
    /// The stored people data is damaged.
    #[error("{0}")]
    Data(&'static str),
    /// A face slider that does not exist; [`face_sliders`] lists those that do.
    #[error("there is no face slider named \"{0}\"")]
    UnknownSlider(String),
    /// A number outside what bodies can be.
    #[error("{what} must lie between {low} and {high}, not {value}")]
    OutOfRange {
        /// What the number is for.
        what: &'static str,
        /// The number given.
        value: f32,
        /// Lowest allowed.
        low: f32,
        /// Highest allowed.
        high: f32,
    },
}

/// How a face differs from the mean of its age, sex and ancestry.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FaceShape {
    /// Slider names (see [`face_sliders`]) with amounts from -1 to 1; beyond about 0.6 a face turns into a caricature.
    pub sliders: Vec<(String, f32)>,
}

impl FaceShape {
    /// One of many moderate faces, told apart by a number: for groups in which nobody should look like anybody else.
    #[must_use]
    pub fn numbered(number: u32) -> Self {
        const VARIED: [(&str, f32); 26] = [
            ("head round", 0.5),
            ("head oval", 0.5),
            ("head square", 0.4),
            ("head fullness", 0.35),
            ("forehead height", 0.5),
            ("forehead slope", 0.4),
            ("brow height", 0.5),
            ("brow slant", 0.4),
            ("eye size", 0.3),
            ("eye spacing", 0.4),
            ("eye outer corner", 0.5),
            ("eye fold", 0.4),
            ("nose width", 0.5),
            ("nose length", 0.5),
            ("nose depth", 0.4),
            ("nose hump", 0.5),
            ("nose point", 0.5),
            ("mouth width", 0.5),
            ("mouth height", 0.3),
            ("upper lip", 0.5),
            ("lower lip", 0.5),
            ("chin width", 0.5),
            ("chin height", 0.4),
            ("chin prominence", 0.4),
            ("cheek bones", 0.5),
            ("ear wing", 0.4),
        ];
        let amount = |k: usize| {
            let seed = number.wrapping_mul(101).wrapping_add(7 * k as u32 + 90_001);
            // The sum of two is small more often than large.
            noise::hash(seed) + noise::hash(seed ^ 0x5555) - 1.0
        };
        Self {
            sliders: VARIED
                .iter()
                .enumerate()
                .map(|(k, (name, most))| ((*name).to_owned(), most * amount(k)))
                .collect(),
        }
    }
}

/// Standing with hanging arms, or sitting upright with the hands on the thighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Posture {
    /// Feet under the hips, arms at the sides.
    Standing,
    /// Thighs level, shins upright: on a chair that fits, which is not part of the figure.
    Sitting,
}

/// Ways to wear the hair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HairStyle {
    /// None, or shaved.
    Bald,
    /// Short all round; a little fuller on women. The hairline of men goes back with age.
    Short,
    /// Parted and hanging to the chin.
    Bob,
    /// Short, under a bandsman's peaked cap.
    Cap,
}

/// What is worn above the trousers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Garment {
    /// A jersey with a round neck.
    Crew,
    /// A jersey with a V-shaped neck.
    VNeck,
    /// A buttoned tunic with a standing collar.
    Tunic,
}

/// Everything that makes one sitter look different from another, but for colours.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureRecipe {
    /// Age in years, 3 to 90.
    pub age_years: f32,
    /// 0 is the average woman or girl, 1 the average man or boy.
    pub masculinity: f32,
    /// Weights of African, Asian and European ancestry, each at least 0 and not all 0.
    pub ancestry: [f32; 3],
    /// -1 is very thin, 0 average, 1 very heavy.
    pub build: f32,
    /// Stature in metres (0.7 to 2.3), without shoes and hair; `None` takes what is usual for age and sex.
    pub stature_m: Option<f32>,
    /// Departures from the mean face.
    pub face: FaceShape,
    /// Standing or sitting.
    pub posture: Posture,
    /// Hair or cap.
    pub hair: HairStyle,
    /// Clothing of the upper body.
    pub garment: Garment,
    /// Turn of the head in degrees about the upright, -60 to 60; positive towards the sitter's own left.
    pub head_turn_deg: f32,
    /// Tilt of the head in degrees, -30 to 30; positive towards the sitter's own left shoulder.
    pub head_tilt_deg: f32,
    /// Nod of the head in degrees, -30 to 30; positive down.
    pub head_nod_deg: f32,
}

impl Default for FigureRecipe {
    /// A thirty-year-old between all means, standing, with short hair and a round-necked jersey.
    fn default() -> Self {
        Self {
            age_years: 30.0,
            masculinity: 0.5,
            ancestry: [1.0 / 3.0; 3],
            build: 0.0,
            stature_m: None,
            face: FaceShape::default(),
            posture: Posture::Standing,
            hair: HairStyle::Short,
            garment: Garment::Crew,
            head_turn_deg: 0.0,
            head_tilt_deg: 0.0,
            head_nod_deg: 0.0,
        }
    }
}

impl FigureRecipe {
    fn check(&self) -> Result<(), FigureError> {
        let within = |what, value: f32, low, high| {
            if (low..=high).contains(&value) {
                Ok(())
            } else {
                Err(FigureError::OutOfRange {
                    what,
                    value,
                    low,
                    high,
                })
            }
        };
        within("age in years", self.age_years, 3.0, 90.0)?;
        within("masculinity", self.masculinity, 0.0, 1.0)?;
        within("build", self.build, -1.0, 1.0)?;
        within("stature in metres", self.stature_m.unwrap_or(1.0), 0.7, 2.3)?;
        within("head turn in degrees", self.head_turn_deg, -60.0, 60.0)?;
        within("head tilt in degrees", self.head_tilt_deg, -30.0, 30.0)?;
        within("head nod in degrees", self.head_nod_deg, -30.0, 30.0)?;
        for weight in self.ancestry {
            within("ancestry weight", weight, 0.0, f32::MAX)?;
        }
        within(
            "sum of ancestry weights",
            self.ancestry.iter().sum(),
            1e-6,
            f32::MAX,
        )
    }
}

/// Names of all face sliders.
///
/// # Errors
/// If the stored people data is damaged.
pub fn face_sliders() -> Result<Vec<&'static str>, FigureError> {
    Ok(People::stored()?.sliders().collect())
}

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

            fn each(&mut self, mut change: impl FnMut(&mut Landmark)) { $(change(&mut self.$name);)* }
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

/// A figure that is made when it is first asked for and kept until another recipe comes: whoever moves from scene to
/// scene is not made anew for each. Clones share what they keep.
#[derive(Clone, Default)]
pub struct KeptFigure(Arc<Mutex<Option<Kept>>>);

/// A recipe and what it made.
type Kept = (FigureRecipe, Arc<Figure>);

impl KeptFigure {
    /// The figure of this recipe, the same that [`build`] makes.
    ///
    /// # Errors
    /// Those of [`build`].
    pub fn of(&self, recipe: &FigureRecipe) -> Result<Arc<Figure>, FigureError> {
        // Whoever comes while the figure is being made waits for it, instead of making a second one.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((of, figure)) = kept.as_ref()
            && of == recipe
        {
            return Ok(Arc::clone(figure));
        }
        let figure = Arc::new(build(recipe)?);
        *kept = Some((recipe.clone(), Arc::clone(&figure)));
        Ok(figure)
    }
}

impl fmt::Debug for KeptFigure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("KeptFigure")
    }
}

/// Makes a figure.
///
/// # Errors
/// If a number of the recipe is out of its range, a slider is unknown, or the stored data is damaged.
pub fn build(recipe: &FigureRecipe) -> Result<Figure, FigureError> {
    recipe.check()?;
    let people = People::stored()?;
    let mut shape = shape::shape(recipe, people)?;
    let rest = shape.clone();
    pose::pose_limbs(&mut shape, people, recipe.posture);
    let turn = pose::HeadTurn::new(recipe, &shape);
    let head = head::Head::new(&shape, people);
    let mut draft = Draft::default();
    let neckline = clothing::Neckline::new(&shape, recipe.garment);
    let scalp = hair::Scalp::new(&head, recipe.masculinity, recipe.age_years);
    // A shaved head keeps only a shadow of its hair.
    let shadow = if recipe.hair == HairStyle::Bald {
        0.12 * recipe.masculinity
    } else {
        1.0
    };
    let overlay = head::overlay(&head, recipe.masculinity, recipe.age_years, |p| {
        shadow * scalp.roots(p)
    });
    let hidden = |p| neckline.above(p) < -0.02 || recipe.hair != HairStyle::Bald && scalp.is_deep(p);
    head.build(&mut draft, hidden, overlay);
    head.eye.build(&mut draft);
    head.eye.mirrored().build(&mut draft);
    for (group, part) in [
        (Group::UpperTeeth, Part::Teeth),
        (Group::LowerTeeth, Part::Teeth),
        (Group::Tongue, Part::Tongue),
        (Group::Hand, Part::Skin),
    ] {
        let surface = head::patch(&shape, people, &[group]);
        let normals = surface.normals();
        let base = draft.positions.len() as u32;
        for (point, normal) in surface.points.iter().zip(&normals) {
            draft.vertex_with(
                point.at,
                *normal,
                [0.0; 3],
                point.soft[head::NECK],
                point.soft[head::HEAD],
            );
        }
        for quad in &surface.quads {
            draft.quad(quad.map(|v| base + v), part);
        }
    }
    clothing::dress(&mut draft, &shape, &rest, people, &neckline);
    hair::grow(&mut draft, recipe.hair, &head, &scalp);
    let age = noise::step(3.0, 18.0, recipe.age_years);
    hair::brows(
        &mut draft,
        &head,
        (0.45 + 0.2 * recipe.masculinity + 0.35 * age).min(1.0),
    );
    hair::lashes(
        &mut draft,
        &head,
        &eyes::rim(&shape, people, Group::UpperLash),
        &eyes::rim(&shape, people, Group::LowerLash),
        0.0085 - 0.0025 * recipe.masculinity,
    );
    draft.finish_normals();
    draft.drop_unused();
    let mut landmarks = head.landmarks;
    landmarks.each(|mark| {
        mark.position = turn.point(mark.position, 1.0, 1.0);
        mark.normal = turn.direction(mark.normal, 1.0, 1.0);
    });
    for ((p, n), follow) in draft
        .positions
        .iter_mut()
        .zip(&mut draft.normals)
        .zip(&draft.follow)
    {
        *p = turn.point(*p, follow[0], follow[1]);
        *n = turn.direction(*n, follow[0], follow[1]);
    }
    Ok(Figure {
        positions: draft.positions,
        normals: draft.normals,
        triangles: draft.triangles,
        parts: draft.parts,
        blend: draft.blend,
        landmarks,
    })
}
