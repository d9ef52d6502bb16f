//! Trying one aim of the flash after another from the same place.
//!
//! What the flash's place can see does not change with its aim, so it is found once; an aim then costs a
//! pass over the patches' sample points, without a ray.

use crate::meter::Meter;
use crate::room::Room;
use crate::source::PlacedFlash;
use crate::surface::LIFT;
use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;
use std::f32::consts::PI;

/// What can be lit from one place: direction and geometry factor of every sample point of every patch.
pub struct ViewFromFlash {
    position: Vec3,
    /// Unit direction from the flash and cos θ / r² at the sample; a zero factor where it cannot be seen.
    rays: Vec<(Vec3, f32)>,
}

impl ViewFromFlash {
    /// Finds what can be seen from a place.
    pub fn new(room: &Room, position: Vec3) -> Self {
        let rays = room
            .patches
            .samples
            .par_iter()
            .map(|sample| {
                let towards = sample.position - position;
                let distance2 = towards.length_squared().max(1e-9);
                let direction = towards / distance2.sqrt();
                let cos = -direction.dot(sample.normal);
                if cos <= 0.0
                    || room
                        .tracer
                        .blocked(sample.position + sample.normal * LIFT, position, 1e-5)
                {
                    return (direction, 0.0);
                }
                (direction, cos / distance2)
            })
            .collect();
        ViewFromFlash { position, rays }
    }

    /// The place of the flash.
    pub fn position(&self) -> Vec3 {
        self.position
    }

    /// Direct irradiance of every patch in lx s at full power, with a board in the way or not.
    pub fn irradiance(&self, room: &Room, flash: &PlacedFlash, board: Option<&LitBoard>) -> Vec<f32> {
        room.patches
            .list
            .iter()
            .map(|patch| {
                let (first, count) = (patch.samples.0 as usize, patch.samples.1 as usize);
                let mut sum = 0.0;
                for (index, &(direction, factor)) in self.rays[first..first + count].iter().enumerate() {
                    if factor == 0.0 {
                        continue;
                    }
                    let shaded = board.is_some_and(|b| {
                        b.crosses(self.position, room.patches.samples[first + index].position)
                    });
                    if !shaded {
                        sum += flash.intensity(direction) * factor;
                    }
                }
                sum / count as f32
            })
            .collect()
    }
}

/// Points across and up a board at which it is lit and from which it shines.
const BOARD_GRID: usize = 6;

/// A free board that the flash lights: it is tried without being built into the room.
pub struct LitBoard {
    corner: Vec3,
    a: Vec3,
    b: Vec3,
    normal: Vec3,
    reflectance: Spectrum,
    /// Irradiance at each grid point, in lx s at full power.
    irradiance: Vec<f32>,
}

impl LitBoard {
    /// A board (corner and edges; edge₁ × edge₂ along its front) under a flash.
    pub fn new(room: &Room, frame: (Vec3, Vec3, Vec3), reflectance: Spectrum, flash: &PlacedFlash) -> Self {
        let (corner, a, b) = frame;
        let normal = a.cross(b).normalize_or_zero();
        let mut board = LitBoard {
            corner,
            a,
            b,
            normal,
            reflectance,
            irradiance: Vec::new(),
        };
        board.irradiance = board
            .points()
            .map(|point| {
                let towards = flash.position - point;
                let distance2 = towards.length_squared();
                let direction = towards / distance2.sqrt();
                let cos = direction.dot(normal);
                if cos <= 0.0 || room.tracer.blocked(point, flash.position, 1e-4) {
                    return 0.0;
                }
                flash.intensity(-direction) * cos / distance2
            })
            .collect();
        board
    }

    fn points(&self) -> impl Iterator<Item = Vec3> + '_ {
        (0..BOARD_GRID * BOARD_GRID).map(|i| {
            let s = ((i % BOARD_GRID) as f32 + 0.5) / BOARD_GRID as f32;
            let t = ((i / BOARD_GRID) as f32 + 0.5) / BOARD_GRID as f32;
            self.corner + self.a * s + self.b * t
        })
    }

    /// Area that one grid point stands for.
    fn cell(&self) -> f32 {
        self.a.cross(self.b).length() / (BOARD_GRID * BOARD_GRID) as f32
    }

    /// Light that the board catches, in lm s at full power.
    pub fn caught(&self) -> f32 {
        self.irradiance.iter().sum::<f32>() * self.cell()
    }

    /// Whether the segment between two points goes through the board.
    #[inline]
    fn crosses(&self, from: Vec3, to: Vec3) -> bool {
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

    /// What a meter reads of the board itself, without the room.
    pub fn read(&self, room: &Room, meter: &Meter) -> Spectrum {
        let mut sum = 0.0;
        for (point, &irradiance) in self.points().zip(&self.irradiance) {
            let towards = point - meter.position;
            let distance2 = towards.length_squared();
            let direction = towards / distance2.sqrt();
            let cos = -direction.dot(self.normal);
            if irradiance > 0.0 && cos > 0.0 && !room.tracer.blocked(meter.position, point, 1e-4) {
                sum += irradiance * cos / distance2 * meter.receptor.weight(direction);
            }
        }
        self.reflectance * (sum * self.cell() / PI)
    }

    /// Adds what the board throws onto the patches to their irradiance, taken as neutral: the first leg
    /// of the room's share, which is small beside the board itself.
    pub fn throw_onto(&self, room: &Room, irradiance: &mut [f32]) {
        let centre = self.corner + 0.5 * (self.a + self.b);
        let flux = self.caught() * self.reflectance.mean();
        for (patch, e) in room.patches.list.iter().zip(irradiance) {
            let towards = patch.centre - centre;
            let distance2 = towards.length_squared().max(0.05);
            let direction = towards / distance2.sqrt();
            let (leaving, arriving) = (direction.dot(self.normal), -direction.dot(patch.normal));
            if leaving > 0.0 && arriving > 0.0 {
                *e += flux * leaving * arriving / (PI * distance2);
            }
        }
    }

    /// Width of the lit part of the board over its distance from a point: the edge of an evenly lit square
    /// that would spread its light as far (its root mean square radius is 0.408 of its edge).
    pub fn width_over_distance(&self, from: Vec3) -> f32 {
        let total: f32 = self.irradiance.iter().sum();
        if total <= 0.0 {
            return 0.0;
        }
        let weighed = || self.points().zip(&self.irradiance);
        let centre = weighed().map(|(point, &e)| point * (e / total)).sum::<Vec3>();
        let spread: f32 = weighed()
            .map(|(point, &e)| (point - centre).length_squared() * (e / total))
            .sum();
        spread.sqrt() / 0.408 / (centre - from).length().max(0.05)
    }

    /// Light straight from the head at a meter, unless the board or something else is in the way.
    pub fn spill(&self, room: &Room, meter: &Meter, flash: &PlacedFlash) -> f32 {
        if self.crosses(flash.position, meter.position) {
            0.0
        } else {
            meter.read_direct(room, flash)
        }
    }
}
