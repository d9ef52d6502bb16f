//! A free board that the flash lights: tried at many places without being built into the room.

use crate::leg::Leg;
use crate::operator::Operator;
use crate::room::Room;
use crate::source::PlacedFlash;
use crate::surface::LIFT;
use colour::Spectrum;
use glam::Vec3;

/// Points across and up a board at which it is lit and from which it shines.
const GRID: usize = 6;
/// Rays by which each of them finds what it lights in the room.
const RAYS: usize = 36;

/// Root mean square distance from the middle of a square, as a share of its edge: 1/√6.
const SQUARE_SPREAD: f32 = 0.408;
/// A point nearer to a board than this, in metres, counts as this far off when the lit width is divided by the distance.
const NEAREST: f32 = 0.05;

/// A board held somewhere, with what light leaving it does to the meters of an operator.
///
/// The room does not know the board: that it takes some of the room's own light away and gives some back
/// is left out, which is a matter of its area against the room's.
pub struct HeldBoard {
    corner: Vec3,
    a: Vec3,
    b: Vec3,
    normal: Vec3,
    reflectance: Spectrum,
    points: Vec<Vec3>,
    /// For every point, what a unit of light leaving it brings to every meter; and straight.
    importance: Vec<(Vec<Spectrum>, Vec<f32>)>,
    /// For every point, whether the flash's place sees it.
    seen: Vec<bool>,
}

impl HeldBoard {
    /// A board (corner and edges; edge₁ × edge₂ along its front) that a flash at `flash` will light.
    pub fn new(
        room: &Room,
        operator: &Operator,
        (corner, a, b): (Vec3, Vec3, Vec3),
        reflectance: Spectrum,
        flash: Vec3,
    ) -> Self {
        let normal = a.cross(b).normalize_or_zero();
        let points: Vec<Vec3> = (0..GRID * GRID)
            .map(|i| {
                let s = ((i % GRID) as f32 + 0.5) / GRID as f32;
                let t = ((i / GRID) as f32 + 0.5) / GRID as f32;
                corner + a * s + b * t + normal * LIFT
            })
            .collect();
        let importance = points
            .iter()
            .enumerate()
            .map(|(index, &at)| operator.gather(room, at, normal, RAYS, index as u64))
            .collect();
        let seen = points
            .iter()
            .map(|&at| (flash - at).dot(normal) > 0.0 && room.tracer.sees_flash(at, flash))
            .collect();
        HeldBoard {
            corner,
            a,
            b,
            normal,
            reflectance,
            points,
            importance,
            seen,
        }
    }

    /// Irradiance at every point of the board, in lx s at full power.
    fn irradiance(&self, flash: &PlacedFlash) -> Vec<f32> {
        self.points
            .iter()
            .zip(&self.seen)
            .map(|(&point, &seen)| {
                if !seen {
                    return 0.0;
                }
                let leg = Leg::between(point, flash.position);
                flash.intensity(-leg.direction) * leg.cos_leaving(self.normal) / leg.distance2
            })
            .collect()
    }

    /// Area that one point stands for.
    fn cell(&self) -> f32 {
        self.a.cross(self.b).length() / (GRID * GRID) as f32
    }

    /// What the board does under a flash.
    pub fn lit(&self, flash: &PlacedFlash) -> LitBoard {
        let irradiance = self.irradiance(flash);
        let cell = self.cell();
        let meters = self.importance.first().map_or(0, |(all, _)| all.len());
        let mut readings = vec![Spectrum::ZERO; meters];
        let mut straight = vec![0.0f32; meters];
        for (&e, (all, first)) in irradiance.iter().zip(&self.importance) {
            let leaving = self.reflectance * (e * cell);
            for (sum, w) in readings.iter_mut().zip(all) {
                *sum += *w * leaving;
            }
            for (sum, g) in straight.iter_mut().zip(first) {
                *sum += g * e * cell;
            }
        }
        LitBoard {
            readings,
            first: straight.first().map_or(Spectrum::ZERO, |&g| self.reflectance * g),
            caught: irradiance.iter().sum::<f32>() * cell,
            width: self.width(&irradiance),
        }
    }

    /// Edge of the evenly lit square that spreads its light as far as the lit part of the board (see
    /// [`SQUARE_SPREAD`]), and its middle.
    fn width(&self, irradiance: &[f32]) -> Option<(f32, Vec3)> {
        let total: f32 = irradiance.iter().sum();
        if total <= 0.0 {
            return None;
        }
        let weighed = || self.points.iter().zip(irradiance);
        let centre = weighed().map(|(point, &e)| *point * (e / total)).sum::<Vec3>();
        let spread: f32 = weighed()
            .map(|(point, &e)| (*point - centre).length_squared() * (e / total))
            .sum();
        Some((spread.sqrt() / SQUARE_SPREAD, centre))
    }

    /// Whether the board is met on a ray before `reach` metres.
    #[inline]
    pub(crate) fn shades(&self, from: Vec3, direction: Vec3, reach: f32) -> bool {
        self.between(from, from + direction * reach)
    }

    /// Whether the segment between two points goes through the board.
    #[inline]
    pub(crate) fn between(&self, from: Vec3, to: Vec3) -> bool {
        let (start, end) = (
            (from - self.corner).dot(self.normal),
            (to - self.corner).dot(self.normal),
        );
        if start * end >= 0.0 {
            return false;
        }
        let at = from + (to - from) * (start / (start - end)) - self.corner;
        let s = at.dot(self.a) / self.a.length_squared();
        let t = at.dot(self.b) / self.b.length_squared();
        (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)
    }
}

/// What a lit board does to the meters.
#[derive(Clone, Debug)]
pub struct LitBoard {
    /// Reading of every meter of light that has been on the board, all later bounces counted.
    pub readings: Vec<Spectrum>,
    /// What reaches the first meter straight from the board.
    pub first: Spectrum,
    /// Light that the board catches, in lm s at full power.
    pub caught: f32,
    /// Edge of the evenly lit square that spreads as far, and its middle; `None` when it is dark.
    width: Option<(f32, Vec3)>,
}

impl LitBoard {
    /// Width of the lit part of the board over its distance from a point.
    pub fn width_over_distance(&self, from: Vec3) -> f32 {
        self.width
            .map_or(0.0, |(edge, centre)| edge / (centre - from).length().max(NEAREST))
    }
}
