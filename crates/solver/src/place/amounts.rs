//! What the meters of a place read, as the eye weighs it.

use crate::place::meters::{AtMeters, SEEN_BEHIND};
use colour::Spectrum;
use glam::Vec3;
use scene::figure::LandmarkName;

/// Luminous amounts at the meters of a place: of a flash at full power in lx s, of light that stays in lx.
#[derive(Clone, Debug, Default)]
pub(crate) struct Amounts {
    /// Dome towards the camera at the first face.
    pub dome: f32,
    /// Light vector there.
    pub vector: Vec3,
    /// Cheeks on the camera's left and right.
    pub cheeks: [f32; 2],
    /// Eye sockets on the camera's left and right.
    pub sockets: [f32; 2],
    /// The cheeks below them.
    pub below_eyes: [f32; 2],
    /// On what is seen behind everyone, an equal part of it each.
    pub background: [f32; SEEN_BEHIND],
    /// Dome at every other sitter.
    pub others: Vec<f32>,
    /// Landmarks of the first face; only filled for the finished answer.
    pub landmarks: Vec<(LandmarkName, f32)>,
    /// The skin of the first face that the camera sees, with its normals; only filled for the finished answer.
    pub skin: Vec<(Vec3, f32)>,
}

impl Amounts {
    /// What meters read of light in a colour whose bands weigh this much for the eye.
    pub fn of(at: &AtMeters<Spectrum>, weights: &Spectrum) -> Self {
        Amounts::luminous(&at.map(|light| light.dot(weights)))
    }

    /// Sorts what the meters read.
    pub fn luminous(at: &AtMeters<f32>) -> Self {
        Amounts {
            dome: at.dome,
            vector: Vec3::from_array(at.along),
            cheeks: at.cheeks,
            sockets: at.sockets,
            below_eyes: at.below_eyes,
            background: at.background,
            others: at.others.clone(),
            landmarks: Vec::new(),
            skin: Vec::new(),
        }
    }

    /// The same light this many times as strong.
    pub fn times(&self, factor: f32) -> Self {
        let mut more = Amounts {
            others: vec![0.0; self.others.len()],
            landmarks: self.landmarks.iter().map(|(at, _)| (*at, 0.0)).collect(),
            skin: self.skin.iter().map(|(normal, _)| (*normal, 0.0)).collect(),
            ..Amounts::default()
        };
        more.add(self, factor);
        more
    }

    /// Adds other light at the same meters, this many times.
    pub fn add(&mut self, other: &Amounts, factor: f32) {
        let pairs = |ours: &mut [f32], theirs: &[f32]| {
            ours.iter_mut()
                .zip(theirs)
                .for_each(|(ours, theirs)| *ours += factor * theirs)
        };
        self.dome += factor * other.dome;
        self.vector += factor * other.vector;
        pairs(&mut self.cheeks, &other.cheeks);
        pairs(&mut self.sockets, &other.sockets);
        pairs(&mut self.below_eyes, &other.below_eyes);
        pairs(&mut self.background, &other.background);
        for (ours, theirs) in self.others.iter_mut().zip(&other.others) {
            *ours += factor * theirs;
        }
        for ((_, ours), (_, theirs)) in self.landmarks.iter_mut().zip(&other.landmarks) {
            *ours += factor * theirs;
        }
        for ((_, ours), (_, theirs)) in self.skin.iter_mut().zip(&other.skin) {
            *ours += factor * theirs;
        }
    }

    /// Takes away what a card beside the head keeps off; a meter cannot read less than nothing.
    pub fn take(&mut self, spill: &Amounts) {
        let pairs = |ours: &mut [f32; 2], theirs: [f32; 2]| {
            ours.iter_mut()
                .zip(theirs)
                .for_each(|(ours, theirs)| *ours = (*ours - theirs).max(0.0))
        };
        self.dome = (self.dome - spill.dome).max(0.0);
        self.vector -= spill.vector;
        pairs(&mut self.cheeks, spill.cheeks);
        pairs(&mut self.sockets, spill.sockets);
        pairs(&mut self.below_eyes, spill.below_eyes);
    }
}

/// The finished picture at the meters: the flash at a power and the light that stays, through one shutter.
#[derive(Clone, Copy)]
pub(crate) struct Finished<'a> {
    pub flash: &'a Amounts,
    /// Part of full power.
    pub power: f32,
    pub ambient: &'a Amounts,
    /// Shutter in seconds.
    pub seconds: f32,
}

impl Finished<'_> {
    pub fn sum(&self, flash: f32, ambient: f32) -> f32 {
        self.power * flash + self.seconds * ambient
    }

    fn both(&self, flash: [f32; 2], ambient: [f32; 2]) -> [f64; 2] {
        [0, 1].map(|side| f64::from(self.sum(flash[side], ambient[side]).max(1e-9)))
    }

    /// At the dome, in lx s.
    pub fn dome(&self) -> f64 {
        f64::from(self.sum(self.flash.dome, self.ambient.dome).max(1e-9))
    }

    /// The flash's part of the light at the dome.
    pub fn flash_share(&self) -> f64 {
        f64::from(self.power * self.flash.dome) / self.dome()
    }

    /// Azimuth and elevation of the light vector, in degrees from a nose.
    pub fn direction(&self, facing: Vec3) -> (f64, f64) {
        let vector = self.power * self.flash.vector + self.seconds * self.ambient.vector;
        angles(vector, facing)
    }

    /// The lit cheek, which is the brighter one, and the other: where lights of two sides nearly balance, the light vector
    /// may lean to the darker of them.
    pub fn near_and_far(&self) -> [f64; 2] {
        let [left, right] = self.both(self.flash.cheeks, self.ambient.cheeks);
        [left.max(right), left.min(right)]
    }

    /// The lit cheek over the other, 1 or more.
    pub fn ratio(&self) -> f64 {
        let [near, far] = self.near_and_far();
        near / far
    }

    /// The eye sockets on the camera's left and right against the cheeks below them, in stops.
    fn sockets_against_cheeks(&self) -> [f64; 2] {
        let sockets = self.both(self.flash.sockets, self.ambient.sockets);
        let below = self.both(self.flash.below_eyes, self.ambient.below_eyes);
        [0, 1].map(|side| (sockets[side] / below[side]).log2())
    }

    /// The darker eye socket against the cheek below it, in stops.
    pub fn sockets(&self) -> f64 {
        let [left, right] = self.sockets_against_cheeks();
        left.min(right)
    }

    /// The eye socket on the lit side against the cheek below it, in stops.
    pub fn lit_socket(&self) -> f64 {
        let [left, right] = self.both(self.flash.cheeks, self.ambient.cheeks);
        self.sockets_against_cheeks()[usize::from(right > left)]
    }

    /// The background against the face, in stops: the level that half of what is seen lies above, so that neither the shadow
    /// of a sitter nor a pool of light passes for the whole of it.
    pub fn background(&self) -> f64 {
        let mut there: Vec<f32> = (0..SEEN_BEHIND)
            .map(|part| self.sum(self.flash.background[part], self.ambient.background[part]))
            .collect();
        there.sort_by(f32::total_cmp);
        let half = SEEN_BEHIND / 2;
        let middle = 0.5 * (there[half - 1] + there[half]);
        (f64::from(middle).max(1e-9) / self.dome()).log2()
    }

    /// At every other sitter, in lx s.
    pub fn others(&self) -> impl Iterator<Item = f64> {
        let pairs = self.flash.others.iter().enumerate();
        pairs.map(|(at, flash)| {
            let ambient = self.ambient.others.get(at).copied().unwrap_or_default();
            f64::from(self.sum(*flash, ambient).max(1e-9))
        })
    }

    /// Brightest minus darkest face, in stops, the first sitter included.
    pub fn spread(&self) -> f64 {
        let all = self.others().chain([self.dome()]);
        let (low, high) = all.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        (high / low).log2()
    }
}

/// The unit vector at an azimuth and height from a nose, in degrees: what [`angles`] takes apart.
pub(crate) fn towards(facing: Vec3, azimuth_deg: f64, elevation_deg: f64) -> Vec3 {
    let level =
        glam::Quat::from_rotation_z(azimuth_deg.to_radians() as f32) * facing.with_z(0.0).normalize_or_zero();
    let (sin, cos) = (elevation_deg.to_radians() as f32).sin_cos();
    level * cos + Vec3::Z * sin
}

/// Azimuth from the nose (positive to the right of a person who faces the sitter) and elevation of a
/// vector, in degrees.
///
/// A light vector that points from the sitter's nose to the camera's right, level:
/// azimuth 90, elevation 0.
pub(crate) fn angles(vector: Vec3, facing: Vec3) -> (f64, f64) {
    let right = Vec3::new(-facing.y, facing.x, 0.0);
    let azimuth = f64::from(vector.dot(right)).atan2(f64::from(vector.dot(facing)));
    let level = f64::from(vector.truncate().length());
    (
        azimuth.to_degrees(),
        f64::from(vector.z).atan2(level).to_degrees(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn azimuth_is_measured_from_the_nose() {
        let check = |vector: Vec3, facing: Vec3, expected: (f64, f64)| {
            let (azimuth, elevation) = angles(vector, facing);
            assert!(
                (azimuth - expected.0).abs() < 1e-4 && (elevation - expected.1).abs() < 1e-4,
                "{azimuth} {elevation}"
            );
        };
        check(Vec3::NEG_Y, Vec3::NEG_Y, (0.0, 0.0));
        check(Vec3::X, Vec3::NEG_Y, (90.0, 0.0));
        check(Vec3::new(-1.0, -1.0, 0.0), Vec3::NEG_Y, (-45.0, 0.0));
        check(Vec3::new(0.0, -1.0, 1.0), Vec3::NEG_Y, (0.0, 45.0));
        let back = angles(towards(Vec3::NEG_Y, -30.0, 20.0), Vec3::NEG_Y);
        assert!(
            (back.0 + 30.0).abs() < 1e-3 && (back.1 - 20.0).abs() < 1e-3,
            "{back:?}"
        );
        // A sitter who looks to the camera's right gets light from the camera on their own right.
        check(Vec3::NEG_Y, Vec3::X, (-90.0, 0.0));
    }
}
