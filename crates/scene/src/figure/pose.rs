//! Poses: each limb turns about its joint, every vertex by its own share of the angle.

use glam::{Quat, Vec3};

use super::people::{Joint, People, Shape, Shares};
use super::recipe::{FigureRecipe, Posture};

/// Full turns of the left limbs.
#[derive(Clone, Copy, Debug)]
struct Limbs {
    shoulder: Quat,
    elbow: Quat,
    hip: Quat,
    knee: Quat,
}

/// The turns that bring each limb of the left side into its direction (x outwards, -y forwards, z up).
fn limbs(shape: &Shape, posture: Posture) -> Limbs {
    let towards = |from, to| (shape.joint(to) - shape.joint(from)).normalize();
    let upper = towards(Joint::Shoulder, Joint::Elbow);
    let fore = towards(Joint::Elbow, Joint::Wrist);
    let thigh = towards(Joint::Hip, Joint::Knee);
    let shin = towards(Joint::Knee, Joint::Ankle);
    let [upper_to, fore_to, thigh_to, shin_to] = match posture {
        Posture::Standing => [
            Vec3::new(0.17, 0.05, -1.0),
            Vec3::new(0.04, -0.26, -1.0),
            thigh,
            shin,
        ],
        Posture::Sitting => [
            Vec3::new(0.16, -0.26, -1.0),
            Vec3::new(-0.10, -1.0, -0.42),
            Vec3::new(0.14, -1.0, -0.04),
            Vec3::new(0.02, 0.06, -1.0),
        ],
    };
    let shoulder = Quat::from_rotation_arc(upper, upper_to.normalize());
    let elbow = Quat::from_rotation_arc(fore, shoulder.inverse() * fore_to.normalize());
    let hip = Quat::from_rotation_arc(thigh, thigh_to.normalize());
    let knee = Quat::from_rotation_arc(shin, hip.inverse() * shin_to.normalize());
    Limbs {
        shoulder,
        elbow,
        hip,
        knee,
    }
}

/// Turns arms and legs into the posture and sets the soles on the floor.
pub(super) fn pose_limbs(shape: &mut Shape, people: &People, posture: Posture) {
    let angles = limbs(shape, posture);
    let rest = shape.clone();
    let turn = |p: Vec3, share: Shares, right: bool| {
        let side = if right {
            Vec3::new(-1.0, 1.0, 1.0)
        } else {
            Vec3::ONE
        };
        turn_left(p * side, share, &rest, angles) * side
    };
    for (v, p) in shape.positions.iter_mut().enumerate() {
        *p = turn(*p, people.shares[v], people.is_right(v));
    }
    let none = Shares::default();
    for (joint, share) in [
        (
            Joint::Elbow,
            Shares {
                shoulder: 1.0,
                ..none
            },
        ),
        (
            Joint::Wrist,
            Shares {
                shoulder: 1.0,
                elbow: 1.0,
                ..none
            },
        ),
        (Joint::Knee, Shares { hip: 1.0, ..none }),
        (
            Joint::Ankle,
            Shares {
                hip: 1.0,
                knee: 1.0,
                ..none
            },
        ),
    ] {
        *shape.joint_mut(joint) = turn(shape.joint(joint), share, false);
    }
    if posture == Posture::Sitting {
        let lowest = shape.positions.iter().fold(f32::MAX, |low, p| low.min(p.z));
        for p in shape.positions.iter_mut().chain(shape.joints.iter_mut()) {
            p.z -= lowest;
        }
    }
}

/// The pose of one vertex of the left side; outer joints first, so that each pivot is still where it was.
fn turn_left(p: Vec3, share: Shares, rest: &Shape, limbs: Limbs) -> Vec3 {
    let about = |p: Vec3, joint: Joint, turn: Quat| rest.joint(joint) + turn * (p - rest.joint(joint));
    let part = |turn: Quat, share: f32| Quat::IDENTITY.slerp(turn, share);
    let mut p = p;
    if share.shoulder > 0.0 {
        p = about(p, Joint::Elbow, part(limbs.elbow, share.elbow));
        p = about(p, Joint::Shoulder, part(limbs.shoulder, share.shoulder));
    }
    if share.hip > 0.0 {
        p = about(p, Joint::Knee, part(limbs.knee, share.knee));
        p = about(p, Joint::Hip, part(limbs.hip, share.hip));
    }
    p
}

/// The turn of neck and head.
pub(super) struct HeadTurn {
    neck: Vec3,
    head: Vec3,
    half: Quat,
}

impl HeadTurn {
    /// Half of each angle is taken by the neck, half by the joint of head and neck.
    pub fn new(recipe: &FigureRecipe, shape: &Shape) -> Self {
        let radians = |degrees: f32| degrees.to_radians() / 2.0;
        let half = Quat::from_rotation_z(radians(recipe.head_turn_deg))
            * Quat::from_rotation_y(radians(recipe.head_tilt_deg))
            * Quat::from_rotation_x(radians(recipe.head_nod_deg));
        Self {
            neck: shape.joint(Joint::Neck),
            head: shape.joint(Joint::Head),
            half,
        }
    }

    /// Place of a point that follows neck and head by these shares.
    pub fn point(&self, p: Vec3, neck: f32, head: f32) -> Vec3 {
        let p = self.head + Quat::IDENTITY.slerp(self.half, head) * (p - self.head);
        self.neck + Quat::IDENTITY.slerp(self.half, neck) * (p - self.neck)
    }

    /// Direction that follows neck and head.
    pub fn direction(&self, d: Vec3, neck: f32, head: f32) -> Vec3 {
        Quat::IDENTITY.slerp(self.half, neck) * (Quat::IDENTITY.slerp(self.half, head) * d)
    }
}
