//! The meters that are held at the faces and on the background.

use answer::Job;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::Stage;
use scene::figure::LandmarkName;
use transport::{Hit, Meter, Receptor, Room};

/// How far in front of the face a meter is held, in metres.
const METER_REACH: f32 = 0.13;
/// How far a cheek meter turns from the nose, in radians: the near and the far side of a face are read at
/// about 50° (ours), where the lit and the shadow side differ as the eye sees them.
const CHEEK_TURN: f32 = 50.0 / 180.0 * std::f32::consts::PI;
/// How far a cheek meter is held off the skin, in metres.
const CHEEK_LIFT: f32 = 0.02;
/// How far a flat meter is lifted off the skin, in metres.
pub(crate) const SKIN_LIFT: f32 = 0.0015;
/// Meters on what is seen behind everyone.
pub(crate) const SEEN_BEHIND: usize = 6;
/// Surfaces of people that a look goes through at most.
const MOST_PEOPLE_DEEP: usize = 24;
/// Columns and rows of looks through the frame that find what is seen behind everyone.
const LOOKS: [usize; 2] = [9, 12];

/// One thing for each meter of a survey: the meter itself, or what it reads.
#[derive(Clone, Debug)]
pub(crate) struct AtMeters<T> {
    /// Dome towards the camera at the first face: what the exposure is judged by.
    pub dome: T,
    /// Light vector along x, y and z.
    pub along: [T; 3],
    /// Cheeks on the camera's left and on the camera's right.
    pub cheeks: [T; 2],
    /// Eye sockets, on the camera's left and right.
    pub sockets: [T; 2],
    /// The cheeks below them, as the skin lies.
    pub below_eyes: [T; 2],
    /// What is seen behind everyone, an equal part of it each.
    pub background: [T; SEEN_BEHIND],
    /// Dome towards the camera at every other sitter.
    pub others: Vec<T>,
}

impl<T: Copy> AtMeters<T> {
    /// The same of something made of each.
    pub fn map<U>(&self, mut make: impl FnMut(T) -> U) -> AtMeters<U> {
        AtMeters {
            dome: make(self.dome),
            along: self.along.map(&mut make),
            cheeks: self.cheeks.map(&mut make),
            sockets: self.sockets.map(&mut make),
            below_eyes: self.below_eyes.map(&mut make),
            background: self.background.map(&mut make),
            others: self.others.iter().copied().map(make).collect(),
        }
    }

    /// Everything in the order in which an operator holds its meters.
    pub fn in_order(&self) -> Vec<T> {
        let mut all = vec![self.dome];
        all.extend(self.along);
        all.extend(self.cheeks);
        all.extend(self.sockets);
        all.extend(self.below_eyes);
        all.extend(self.background);
        all.extend(&self.others);
        all
    }

    /// What an operator with a survey's meters returns, in its order.
    pub fn of(in_order: &[T]) -> Self {
        let &[
            dome,
            x,
            y,
            z,
            left,
            right,
            left_eye,
            right_eye,
            below_left,
            below_right,
            ref rest @ ..,
        ] = in_order
        else {
            unreachable!("a survey has ten meters at the first face")
        };
        let (&background, others) = rest
            .split_first_chunk()
            .expect("a survey has meters on the background");
        AtMeters {
            dome,
            along: [x, y, z],
            cheeks: [left, right],
            sockets: [left_eye, right_eye],
            below_eyes: [below_left, below_right],
            background,
            others: others.to_vec(),
        }
    }
}

impl AtMeters<Meter> {
    /// What each meter reads, several at a time.
    pub fn read<T: Copy + Send>(&self, read: impl Fn(Meter) -> T + Send + Sync) -> AtMeters<T> {
        let readings: Vec<T> = self.in_order().into_par_iter().map(read).collect();
        AtMeters::of(&readings)
    }

    /// The meters of a place.
    pub fn new(job: &Job, stage: &Stage, room: &Room, points: &FacePoints) -> Self {
        let camera = job.viewpoint.position;
        let others = 1..stage.sitters.len();
        AtMeters {
            dome: points.dome,
            along: points.along,
            cheeks: points.cheeks,
            // The sitter's own right is the camera's left.
            sockets: [LandmarkName::EyeSocketRight, LandmarkName::EyeSocketLeft]
                .map(|at| points.landmark(at)),
            below_eyes: [LandmarkName::CheekUpperRight, LandmarkName::CheekUpperLeft]
                .map(|at| points.landmark(at)),
            background: background_points(job, stage, room),
            others: others.map(|i| face_points(stage, i, camera).dome).collect(),
        }
    }
}

/// The meters that a sitter's face is read with, by name.
pub(crate) struct FacePoints {
    pub dome: Meter,
    pub along: [Meter; 3],
    /// Flat meters at the cheeks on the camera's left and right, turned to the side as a hand-held meter
    /// would be.
    pub cheeks: [Meter; 2],
    pub landmarks: Vec<(LandmarkName, Meter)>,
    /// Those of the landmarks that the camera sees; only filled for the finished answer.
    pub seen: Vec<(LandmarkName, Meter)>,
    /// Flat meters on the skin that the camera sees, with its normals; only filled for the finished answer.
    pub skin: Vec<(Vec3, Meter)>,
}

impl FacePoints {
    /// A landmark's meter.
    pub fn landmark(&self, name: LandmarkName) -> Meter {
        self.landmarks
            .iter()
            .find(|(known, _)| *known == name)
            .map_or(self.dome, |(_, meter)| *meter)
    }
}

/// The meters at the face of a sitter.
pub(crate) fn face_points(stage: &Stage, sitter: usize, camera: Vec3) -> FacePoints {
    let person = &stage.sitters[sitter];
    let towards = (camera - person.face).try_normalize().unwrap_or(person.facing);
    let held = person.face + person.facing * METER_REACH - Vec3::Z * 0.03;
    let meter = |receptor| Meter {
        position: held,
        receptor,
    };
    FacePoints {
        dome: meter(Receptor::Dome(towards)),
        along: [Vec3::X, Vec3::Y, Vec3::Z].map(|axis| meter(Receptor::Along(axis))),
        // The sitter's own left is the camera's right when they look at each other.
        cheeks: [
            (LandmarkName::CheekUpperRight, -1.0),
            (LandmarkName::CheekUpperLeft, 1.0),
        ]
        .map(|(name, side)| {
            let normal = glam::Quat::from_rotation_z(side * CHEEK_TURN) * person.facing;
            let skin = person.landmark(name).map_or(held, |mark| mark.position);
            Meter {
                position: skin + normal * CHEEK_LIFT,
                receptor: Receptor::Flat(normal),
            }
        }),
        seen: Vec::new(),
        skin: Vec::new(),
        landmarks: person
            .landmarks
            .iter()
            .map(|(name, mark)| {
                let position = mark.position + mark.normal * SKIN_LIFT;
                (
                    *name,
                    Meter {
                        position,
                        receptor: Receptor::Flat(mark.normal),
                    },
                )
            })
            .collect(),
    }
}

/// Flat meters on what the camera sees behind everyone, each standing for an equal part of it: the frame is looked through
/// point by point, up one column and down the next, and every so many of the points that lie further away than the first
/// face hold a meter.
pub(crate) fn background_points(job: &Job, stage: &Stage, room: &Room) -> [Meter; SEEN_BEHIND] {
    let view = &job.viewpoint;
    let (_, _, forward) = view.axes();
    let depth_of_face = (stage.sitters[0].face - view.position).dot(forward);
    let [columns, rows] = LOOKS;
    let looks = (0..columns).flat_map(|column| {
        (0..rows).map(move |row| match column % 2 {
            0 => (column, row),
            _ => (column, rows - 1 - row),
        })
    });
    let seen: Vec<Met> = looks
        .filter_map(|(column, row)| {
            let at =
                Vec2::new(column as f32 + 0.5, row as f32 + 0.5) / Vec2::new(columns as f32, rows as f32);
            behind_people(room, view.position, view.direction(at, view.aspect()))
        })
        .filter(|met| (met.at - view.position).dot(forward) > depth_of_face)
        .collect();
    std::array::from_fn(|part| {
        let (position, normal) = match seen.len() {
            // In the open nothing may be seen: what would stand half a metre behind the head.
            0 => (stage.sitters[0].face + forward * 0.5, -forward),
            count => {
                let met = seen[(2 * part + 1) * count / (2 * SEEN_BEHIND)];
                (met.at, met.normal)
            }
        };
        Meter {
            position,
            receptor: Receptor::Flat(normal),
        }
    })
}

/// What a look meets.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Met {
    /// A little off the surface.
    pub at: Vec3,
    /// The normal on the side that is seen.
    pub normal: Vec3,
    pub triangle: u32,
}

/// What a ray meets behind everyone: a person in its way is not the background.
pub(crate) fn behind_people(room: &Room, from: Vec3, direction: Vec3) -> Option<Met> {
    let mut start = from;
    for _ in 0..MOST_PEOPLE_DEEP {
        let hit = room.tracer.closest(start, direction)?;
        let at = start + direction * hit.distance;
        let object = room.geometry.object[hit.triangle as usize] as usize;
        if !matches!(room.geometry.objects[object].kind, scene::ObjectKind::Sitter(_)) {
            let (at, normal) = off_surface(room, &hit, at, direction);
            return Some(Met {
                at,
                normal,
                triangle: hit.triangle,
            });
        }
        start = at + direction * 0.02;
    }
    None
}

/// A little off the surface at a point that a look has met, with the normal on the side that is seen.
pub(crate) fn off_surface(room: &Room, hit: &Hit, at: Vec3, direction: Vec3) -> (Vec3, Vec3) {
    let normal = room.geometry.flat_normal(hit.triangle);
    let facing = match normal.dot(direction) < 0.0 {
        true => normal,
        false => -normal,
    };
    (at + facing * SKIN_LIFT, facing)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_come_back_where_their_meters_were() {
        let check = |count: usize| {
            let order: Vec<usize> = (0..count).collect();
            let at = AtMeters::of(&order);
            assert_eq!(at.in_order(), order);
            assert_eq!(at.others.len(), count - 10 - SEEN_BEHIND);
        };
        check(10 + SEEN_BEHIND);
        check(12 + SEEN_BEHIND);
    }
}
