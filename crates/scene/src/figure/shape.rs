//! From a recipe to one morphed and sized shape, still with raised arms and facing straight ahead.

use glam::{Quat, Vec3};

use super::noise::step;
use super::people::{Joint, People, Shape};
use super::recipe::{BodyNumber, FigureError, FigureRecipe};

/// Morph names and amounts of a recipe.
fn amounts(recipe: &FigureRecipe, people: &People) -> Result<Vec<(String, f32)>, FigureError> {
    let mut list = Vec::new();
    let [child, young, old, baby] = ages(recipe.age_years);
    let total: f32 = recipe.ancestry.iter().sum();
    let sexes = [("female", 1.0 - recipe.masculinity), ("male", recipe.masculinity)];
    list.push(("baby".to_owned(), baby));
    list.push(("smile+".to_owned(), CALM_SMILE));
    list.push(("ear size+".to_owned(), EARS_LARGER));
    list.push(("ear wing+".to_owned(), EARS_WIDER));
    // Lids sink a little with age.
    list.push(("eye opening-".to_owned(), 0.35 * old));
    list.push(("head age+".to_owned(), 0.5 * old));
    for (sex, by_sex) in sexes {
        for (age, by_age) in [("child", child), ("young", young), ("old", old)] {
            for (ancestry, weight) in ["african", "asian", "caucasian"].into_iter().zip(recipe.ancestry) {
                list.push((
                    format!("{ancestry}-{sex}-{age}"),
                    by_sex * by_age * weight / total,
                ));
            }
            let build = if recipe.build < 0.0 { "thin" } else { "heavy" };
            list.push((
                format!("{sex}-{age}-{build}"),
                by_sex * by_age * recipe.build.abs(),
            ));
        }
    }
    for (name, amount) in &recipe.face.sliders {
        let sign = if *amount < 0.0 { '-' } else { '+' };
        if !people.sliders().any(|known| known == name) {
            return Err(FigureError::UnknownSlider(name.clone()));
        }
        if !(-1.0..=1.0).contains(amount) {
            return Err(FigureError::OutOfRange {
                what: BodyNumber::FaceSlider,
                value: *amount,
                low: -1.0,
                high: 1.0,
            });
        }
        let morph = format!("{name}{sign}");
        if people.has(&morph) {
            list.push((morph, amount.abs()));
        }
    }
    list.retain(|(_, amount)| *amount > 0.0);
    Ok(list)
}

/// Weights of child, young, old and baby shapes, which the data gives for 10, 25, 90 years and 1 year.
fn ages(years: f32) -> [f32; 4] {
    let between = |low: f32, high: f32| ((years - low) / (high - low)).clamp(0.0, 1.0);
    let (grown, matured, aged) = (between(1.0, 10.0), between(10.0, 25.0), between(25.0, 90.0));
    [grown * (1.0 - matured), matured * (1.0 - aged), aged, 1.0 - grown]
}

/// Typical stature in metres. Adults: ANSUR II means (Gordon et al. 2014); growth and shrinking with age are ours,
/// rounded from memory of usual growth charts.
pub(super) fn typical_stature(age: f32, masculinity: f32) -> f32 {
    const YEARS: [f32; 10] = [3.0, 5.0, 7.0, 9.0, 11.0, 13.0, 15.0, 18.0, 50.0, 90.0];
    const FEMALE: [f32; 10] = [0.94, 1.08, 1.21, 1.33, 1.44, 1.56, 1.61, 1.6285, 1.6285, 1.57];
    const MALE: [f32; 10] = [0.95, 1.09, 1.22, 1.33, 1.43, 1.56, 1.69, 1.7562, 1.7562, 1.70];
    let at = |table: &[f32; 10]| {
        let k = YEARS
            .iter()
            .rposition(|y| *y <= age)
            .unwrap_or(0)
            .min(YEARS.len() - 2);
        let t = ((age - YEARS[k]) / (YEARS[k + 1] - YEARS[k])).clamp(0.0, 1.0);
        table[k] + t * (table[k + 1] - table[k])
    };
    at(&FEMALE) * (1.0 - masculinity) + at(&MALE) * masculinity
}

/// Factors on the source's head breadth, depth and height, for women and men, so that the average adults have the head
/// breadth, head length and face length of ANSUR II. Ours, found by measuring the morphed surface.
const HEAD_FEMALE: Vec3 = Vec3::new(1.09, 1.045, 1.07);
const HEAD_MALE: Vec3 = Vec3::new(1.095, 0.985, 1.055);

/// How much narrower than the skull's factor says the sides of the face are; ours, from the bizygomatic breadth of ANSUR II.
const FACE_NARROWER: f32 = 0.085;

/// The same for the jaw; ours, by eye.
const JAW_NARROWER: f32 = 0.045;

/// How much of the smile everybody has: a resting face without any looks cross. Ours.
const CALM_SMILE: f32 = 0.18;

/// How much of the morphs of larger and of wider standing ears everybody has, so that ears are as long and stand off as far as
/// in ANSUR II; ours.
const EARS_LARGER: f32 = 0.25;
const EARS_WIDER: f32 = 0.4;

/// Metres by which the source's legs are too short for grown people's sitting height in ANSUR II; ours.
const LEGS_FEMALE: f32 = 0.052;
const LEGS_MALE: f32 = 0.022;

/// Metres by which the source's knees are too high for grown people's thighs and knees in ANSUR II; ours.
const KNEES_LOWER: f32 = 0.028;

/// The morphed shape in metres, ground at z = 0, at its full stature.
pub(super) fn shape(recipe: &FigureRecipe, people: &People) -> Result<Shape, FigureError> {
    let mut shape = people.morphed(&amounts(recipe, people)?);
    let typical = typical_stature(recipe.age_years, recipe.masculinity);
    let stature = recipe.stature_m.unwrap_or(typical);
    // A tall person's head is a little larger, by far not in proportion.
    let head = HEAD_FEMALE.lerp(HEAD_MALE, recipe.masculinity) * (stature / typical).powf(0.35);
    let ground = Vec3::Z * shape.joint(Joint::Ground).z;
    shape
        .positions
        .iter_mut()
        .chain(shape.joints.iter_mut())
        .for_each(|p| *p -= ground);
    proportion(&mut shape, people, recipe);
    let pivot = shape.joint(Joint::Head);
    let eye = shape.joint(Joint::Eye);
    let top = shape
        .positions
        .iter()
        .zip(&people.shares)
        .filter(|(_, s)| s.head > 0.5)
        .fold(0.0_f32, |top, (p, _)| top.max(p.z));
    let body = (stature - head.z * (top - pivot.z)) / pivot.z;
    let place = |p: Vec3, share: f32| {
        let mut of_head = p;
        // The skull is broadened more than the face below the brow.
        let face = step(eye.z + 0.035, eye.z - 0.005, p.z) * step(0.036, 0.066, p.x.abs());
        of_head.x *= 1.0 - FACE_NARROWER * face;
        // So is it more than the jaw.
        of_head.x *= 1.0 - JAW_NARROWER * step(eye.z - 0.030, eye.z - 0.085, p.z);
        (p * body).lerp(pivot * body + (of_head - pivot) * head, share)
    };
    for (p, share) in shape.positions.iter_mut().zip(&people.shares) {
        *p = place(*p, 0.35 * share.neck + 0.65 * share.head);
    }
    for (i, joint) in shape.joints.iter_mut().enumerate() {
        let of_head = i == Joint::Mouth as usize || i == Joint::Eye as usize;
        let share = if of_head { 1.0 } else { 0.0 };
        *joint = place(*joint, share);
    }
    Ok(shape)
}

/// Lengthens the legs at the cost of the trunk and the thighs at the cost of the shins, so that grown people sit as in ANSUR II,
/// and sets the legs closer.
fn proportion(shape: &mut Shape, people: &People, recipe: &FigureRecipe) {
    let grown = step(11.0, 18.0, recipe.age_years);
    let longer = (LEGS_FEMALE + (LEGS_MALE - LEGS_FEMALE) * recipe.masculinity) * grown;
    let (hip, neck) = (shape.joint(Joint::Hip).z, shape.joint(Joint::Neck).z);
    for p in shape.positions.iter_mut().chain(shape.joints.iter_mut()) {
        let t = (p.z - hip) / (neck - hip);
        p.z += longer * if t < 0.0 { p.z / hip } else { (1.0 - t).max(0.0) };
    }
    let [hip, knee, ankle] = [Joint::Hip, Joint::Knee, Joint::Ankle].map(|joint| shape.joint(joint).z);
    for p in shape.positions.iter_mut().chain(shape.joints.iter_mut()) {
        p.z -= KNEES_LOWER * grown * step(ankle, knee, p.z) * step(hip, knee, p.z);
    }
    let hip = shape.joint(Joint::Hip);
    let ankle = shape.joint(Joint::Ankle) - hip;
    // The source stands astride; people before a camera stand with the feet under the hips.
    let closer = 0.75 * ankle.x.atan2(-ankle.z);
    let stance = |p: Vec3, share: f32, side: f32| {
        let pivot = Vec3::new(hip.x * side, hip.y, hip.z);
        pivot + Quat::from_rotation_y(closer * share * side) * (p - pivot)
    };
    for (v, p) in shape.positions.iter_mut().enumerate() {
        *p = stance(
            *p,
            people.shares[v].hip,
            if people.is_right(v) { -1.0 } else { 1.0 },
        );
    }
    for joint in [Joint::Knee, Joint::Ankle] {
        *shape.joint_mut(joint) = stance(shape.joint(joint), 1.0, 1.0);
    }
    let sole = shape.positions.iter().fold(f32::MAX, |low, p| low.min(p.z));
    shape
        .positions
        .iter_mut()
        .chain(shape.joints.iter_mut())
        .for_each(|p| p.z -= sole);
}
