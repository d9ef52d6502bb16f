//! The sources of a scene, each at unit strength.

use crate::leg::{Leg, Straight};
use crate::outside::Outside;
use crate::surface::SurfacePoint;
use crate::tracer::Tracer;
use colour::Spectrum;
use glam::{Mat3, Vec3};
use light::Beam;
use scene::{Geometry, ObjectKind};

/// A flash that has been given a place: its beam, where its window is and where it points.
#[derive(Clone, Debug)]
pub struct PlacedFlash {
    /// The beam, at full power.
    pub beam: Beam,
    /// Middle of the window in metres.
    pub position: Vec3,
    /// Columns: along the window's long side, along its short side, along the axis.
    pub world_from_head: Mat3,
    /// Half width and half height of the window in metres; zero makes it a point.
    pub half_window: [f32; 2],
}

impl PlacedFlash {
    /// A flash at `position` whose axis goes through `target`, its long side level.
    pub fn aimed(beam: Beam, position: Vec3, target: Vec3, window_m: [f64; 2]) -> Self {
        let axis = (target - position).try_normalize().unwrap_or(Vec3::Y);
        // Straight up or down, the long side stays across the room.
        let across = axis.cross(Vec3::Z).try_normalize().unwrap_or(Vec3::X);
        let up = across.cross(axis);
        PlacedFlash {
            beam,
            position,
            world_from_head: Mat3::from_cols(across, up, axis),
            half_window: [0.5 * window_m[0] as f32, 0.5 * window_m[1] as f32],
        }
    }

    /// Intensity in cd s towards a unit direction in the world.
    #[inline]
    pub fn intensity(&self, direction: Vec3) -> f32 {
        self.beam.intensity(self.world_from_head.transpose() * direction)
    }

    /// A point of the window; `u` are two numbers in 0..1.
    #[inline]
    pub fn window_point(&self, u: [f32; 2]) -> Vec3 {
        let (across, up) = (self.world_from_head.x_axis, self.world_from_head.y_axis);
        self.position
            + across * (self.half_window[0] * (2.0 * u[0] - 1.0))
            + up * (self.half_window[1] * (2.0 * u[1] - 1.0))
    }

    /// Mean over the window of what `of` makes of its points, where the window is not sampled: its middle stands for it,
    /// or nine points for a large front, which is wide for its distance.
    pub(crate) fn over_window(&self, of: impl Fn(Vec3) -> f32) -> f32 {
        if self.beam.dress().soft_front().is_none() {
            return of(self.position);
        }
        let thirds = [1.0 / 6.0, 0.5, 5.0 / 6.0];
        let points = thirds.into_iter().flat_map(|u| thirds.map(|v| [u, v]));
        points.map(|point| of(self.window_point(point))).sum::<f32>() / 9.0
    }

    /// A direction of the beam in the world, and its density per steradian.
    #[inline]
    pub fn sample_direction(&self, u: [f32; 2]) -> (Vec3, f32) {
        let (local, density) = self.beam.sample(u);
        (self.world_from_head * local, density)
    }

    /// Density per steradian of [`PlacedFlash::sample_direction`].
    #[inline]
    pub fn direction_density(&self, direction: Vec3) -> f32 {
        self.beam.density(self.world_from_head.transpose() * direction)
    }
}

/// Light that comes straight from a point of the flash's window to a surface point.
pub(crate) struct FromFlash {
    /// From the surface to the window.
    pub leg: Leg,
    /// Intensity towards the surface in cd s.
    pub intensity: f32,
}

impl FromFlash {
    /// The same as light of which only direction and strength matter.
    #[inline]
    pub(crate) fn straight(&self) -> Straight {
        Straight {
            direction: self.leg.direction,
            illuminance: self.intensity / self.leg.distance2,
        }
    }
}

impl PlacedFlash {
    /// What reaches a surface point straight from the window's point `within`; `None` in shade.
    #[inline]
    pub(crate) fn straight(
        &self,
        tracer: &Tracer,
        point: &SurfacePoint,
        within: [f32; 2],
    ) -> Option<FromFlash> {
        let window = self.window_point(within);
        let leg = Leg::between(point.position, window);
        if !point.above(leg.direction) {
            return None;
        }
        let intensity = self.intensity(-leg.direction);
        (intensity > 0.0 && tracer.sees_flash(point.start, window)).then_some(FromFlash { leg, intensity })
    }
}

/// One source at unit strength: one layer of the picture.
#[derive(Clone, Debug)]
pub enum Source {
    /// The flash at full power; transport gives lx s and cd s m⁻².
    Flash(PlacedFlash),
    /// Objects (openings, lamps) that shine evenly from their fronts with 1 cd m⁻²; transport gives lx
    /// and cd m⁻². The list holds indices of objects.
    Glowing(Vec<usize>),
    /// Every face of the room shines with 1 cd m⁻²: light from all round without a direction of its own.
    AllRound,
    /// Daylight through openings; transport gives lx and cd m⁻² for 1 lx outdoors (see [`Outside`]).
    Outside(Box<Outside>),
}

impl Source {
    /// Luminance in cd m⁻² (or 0) that an object's front shines with evenly to all sides. What comes through
    /// a portal is not even: see [`Source::emission`].
    #[inline]
    pub(crate) fn glow(&self, object: usize, kind: ObjectKind) -> f32 {
        match self {
            Source::Flash(_) | Source::Outside(_) => 0.0,
            Source::Glowing(objects) => f32::from(u8::from(objects.contains(&object))),
            Source::AllRound => f32::from(u8::from(matches!(kind, ObjectKind::RoomFace(_)))),
        }
    }

    /// Radiance with which an object's front shines along a unit direction that leaves it.
    #[inline]
    pub(crate) fn emission(&self, object: usize, kind: ObjectKind, leaving: Vec3) -> Spectrum {
        match self {
            Source::Outside(outside) => outside.emission(object, leaving),
            _ => Spectrum::splat(self.glow(object, kind)),
        }
    }

    /// The portals, where daylight comes in.
    #[inline]
    pub(crate) fn outside(&self) -> Option<&Outside> {
        match self {
            Source::Outside(outside) => Some(outside),
            _ => None,
        }
    }

    /// What reaches a surface point straight from a source that no ray would meet by chance: the flash, or
    /// the disc of the sun. `None` in shade and for every other source.
    #[inline]
    pub(crate) fn straight(
        &self,
        geometry: &Geometry,
        tracer: &Tracer,
        point: &SurfacePoint,
        within: [f32; 2],
    ) -> Option<Straight> {
        match self {
            Source::Flash(flash) => Some(flash.straight(tracer, point, within)?.straight()),
            Source::Outside(outside) => {
                let towards = outside.beam()?.towards;
                if !point.above(towards) {
                    return None;
                }
                outside.straight(geometry, tracer, point.start, within)
            }
            Source::Glowing(_) | Source::AllRound => None,
        }
    }
}
