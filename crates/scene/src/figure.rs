//! Sitters as surfaces (draft).
#![allow(missing_docs)]
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

#[derive(Debug, Clone, thiserror::Error, PartialEq)]
pub enum FigureError {
    #[error("{0}")]
    Data(&'static str),
    #[error("there is no face slider named {0}")]
    UnknownSlider(String),
    #[error("{what} must lie between {low} and {high}, not {value}")]
    OutOfRange {
        what: &'static str,
        value: f32,
        low: f32,
        high: f32,
    },
}

#[derive(Debug, Clone, Default, PartialEq)]
pub struct FaceShape {
    pub sliders: Vec<(String, f32)>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Posture {
    Standing,
    Sitting,
}
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HairStyle {
    Bald,
    Short,
    Bob,
    Cap,
}
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Garment {
    Crew,
    VNeck,
    Tunic,
}
#[derive(Debug, Clone, PartialEq)]
pub struct FigureRecipe {
    pub age_years: f32,
    pub masculinity: f32,
    pub ancestry: [f32; 3],
    pub build: f32,
    pub stature_m: Option<f32>,
    pub face: FaceShape,
    pub posture: Posture,
    pub hair: HairStyle,
    pub garment: Garment,
    pub head_turn_deg: f32,
    pub head_tilt_deg: f32,
    pub head_nod_deg: f32,
}
impl Default for FigureRecipe {
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

/// Names of all face sliders.
pub fn face_sliders() -> Result<Vec<&'static str>, FigureError> {
    Ok(People::stored()?.sliders().collect())
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    Skin,
    Sclera,
    Iris,
    Pupil,
    Teeth,
    Tongue,
    Lash,
    Hair,
    Cap,
    Top,
    Trousers,
    Shoes,
    Trim,
}
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landmark {
    pub position: Vec3,
    pub normal: Vec3,
}
macro_rules! landmarks {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct Landmarks { $($(#[$doc])* pub $name: Landmark),* }
        impl Landmarks {
            pub fn iter(&self) -> impl Iterator<Item = (&'static str, Landmark)> + use<> {
                [$((stringify!($name), self.$name)),*].into_iter()
            }
            fn each(&mut self, mut change: impl FnMut(&mut Landmark)) { $(change(&mut self.$name);)* }
        }
    };
}
landmarks! {
    nose_tip, under_nose, cheek_upper_left, cheek_upper_right, nose_side_left, nose_side_right, brow, eye_socket_left, eye_socket_right,
    lip_upper, lip_lower, chin, ear_left, ear_right, forehead, eye_left, eye_right, vertex, face_centre,
}
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    pub positions: Vec<Vec3>,
    pub normals: Vec<Vec3>,
    pub triangles: Vec<[u32; 3]>,
    pub parts: Vec<Part>,
    pub blend: Vec<[f32; 3]>,
    pub landmarks: Landmarks,
}

pub fn build(recipe: &FigureRecipe) -> Result<Figure, FigureError> {
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
