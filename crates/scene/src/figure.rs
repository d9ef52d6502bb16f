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
mod parts;
mod people;
mod pose;
mod recipe;
mod shape;
mod surface;

pub use parts::{Figure, Landmark, LandmarkName, Landmarks, Part};
pub use recipe::{BodyNumber, DataFault, FaceShape, FigureError, FigureRecipe, Garment, HairStyle, Posture};

use draft::Draft;
use head::Head;
use people::{Group, People, Shape};
use pose::HeadTurn;
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

/// Names of all face sliders.
///
/// # Errors
/// If the stored people data is damaged.
pub fn face_sliders() -> Result<Vec<&'static str>, FigureError> {
    Ok(People::stored()?.sliders().collect())
}

/// A figure that is made when it is first asked for and kept until another recipe comes: a sitter who moves from scene to
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
        // A second thread waits while the figure is being made, instead of making another one.
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
    let turn = HeadTurn::new(recipe, &shape);
    let head = Head::new(&shape, people);
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
    add_inner_parts(&mut draft, &shape, people);
    clothing::dress(&mut draft, &shape, &rest, people, &neckline);
    hair::grow(&mut draft, recipe.hair, &head, &scalp);
    add_brows_and_lashes(&mut draft, recipe, &shape, people, &head);
    draft.finish_normals();
    draft.drop_unused();
    let mut landmarks = head.landmarks;
    landmarks.each(|mark| {
        mark.position = turn.point(mark.position, 1.0, 1.0);
        mark.normal = turn.direction(mark.normal, 1.0, 1.0);
    });
    turn_head(&mut draft, &turn);
    Ok(Figure {
        positions: draft.positions,
        normals: draft.normals,
        triangles: draft.triangles,
        parts: draft.parts,
        blend: draft.blend,
        landmarks,
    })
}

/// Adds teeth, tongue and hands, which are patches of the base shape.
fn add_inner_parts(draft: &mut Draft, shape: &Shape, people: &People) {
    for (group, part) in [
        (Group::UpperTeeth, Part::Teeth),
        (Group::LowerTeeth, Part::Teeth),
        (Group::Tongue, Part::Tongue),
        (Group::Hand, Part::Skin),
    ] {
        let surface = head::patch(shape, people, &[group]);
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
}

/// Adds brows, which thicken from childhood on, and lashes.
fn add_brows_and_lashes(
    draft: &mut Draft,
    recipe: &FigureRecipe,
    shape: &Shape,
    people: &People,
    head: &Head,
) {
    let age = noise::step(3.0, 18.0, recipe.age_years);
    hair::brows(
        draft,
        head,
        (0.45 + 0.2 * recipe.masculinity + 0.35 * age).min(1.0),
    );
    hair::lashes(
        draft,
        head,
        &eyes::rim(shape, people, Group::UpperLash),
        &eyes::rim(shape, people, Group::LowerLash),
        0.0085 - 0.0025 * recipe.masculinity,
    );
}

/// Turns the head and lets the neck follow.
fn turn_head(draft: &mut Draft, turn: &HeadTurn) {
    for ((p, n), follow) in draft
        .positions
        .iter_mut()
        .zip(&mut draft.normals)
        .zip(&draft.follow)
    {
        *p = turn.point(*p, follow[0], follow[1]);
        *n = turn.direction(*n, follow[0], follow[1]);
    }
}
