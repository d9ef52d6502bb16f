//! Daylight that comes into the place: a sky, or a sun (or moon), seen through its openings.
//!
//! The scene stays closed. An opening, or a whole side without a wall, is a rectangle of the scene that
//! shines inward with what lies behind it in each direction: a *portal*. So every ray still ends somewhere,
//! a window can be aimed at like a lamp, and outdoors is a room whose walls and roof are portals.

use crate::leg::Straight;
use crate::tracer::Tracer;
use colour::Spectrum;
use glam::Vec3;
use light::SkyLight;
use scene::{Geometry, ObjectKind, Place, Surroundings};
use std::f32::consts::{FRAC_1_PI, PI, TAU};

/// What one outdoor source sends into the place, at unit strength and for a flat spectrum.
#[derive(Clone, Debug)]
pub struct Outside {
    /// The openings that it comes in by, as objects of the scene, each with what it lets through.
    portals: Vec<Portal>,
    dome: Dome,
    beam: Option<SunBeam>,
}

/// An object of the scene that lets the outdoors in.
#[derive(Clone, Debug)]
struct Portal {
    object: usize,
    /// Share that passes straight on.
    clear: f32,
    /// Radiance that it scatters evenly into the room.
    scattered: Spectrum,
    /// Whether it fills a whole face of the room.
    whole: bool,
}

/// Radiance of the outdoors by direction.
#[derive(Clone, Debug)]
struct Dome {
    /// The sky, as bright as gives open ground 1 lx; `None` for a sun.
    sky: Option<SkyLight>,
    ground: Spectrum,
    around: Surroundings,
    /// Radiance of the obstacles' faces, in the order of the skyline.
    faces: Vec<Spectrum>,
}

/// Light from a small disc in the sky, 1 lx on a surface that faces it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunBeam {
    /// Unit direction towards it.
    pub towards: Vec3,
    /// Half the angle that it fills, in radians; zero makes it a point.
    pub half_angle: f32,
}

/// Half the angle that the sun fills seen from the earth, in radians: 959.63″ at the mean distance
/// (Astronomical Almanac).
pub const SUN_HALF_ANGLE: f32 = 0.004_652;

/// What sends light from below the horizon and from the skyline, under a source that gives the open ground
/// `horizontal` lx and an upright face what `upright` says of the direction along which it looks.
fn lit_surroundings(
    around: &Surroundings,
    horizontal: f32,
    upright: impl Fn(Vec3) -> Spectrum,
) -> (Spectrum, Vec<Spectrum>) {
    let ground = around.ground.reflectance * (horizontal * FRAC_1_PI);
    // Half of what an upright face sees is ground.
    let from_ground = ground * (0.5 * PI);
    let faces = around
        .skyline
        .iter()
        .map(|obstacle| {
            let width = (obstacle.to - obstacle.from).rem_euclid(TAU);
            let middle = obstacle.from + 0.5 * width;
            // A face of the skyline looks back at the place.
            let out = -scene::direction_of(middle, 0.0);
            obstacle.material.reflectance * ((upright(out) + from_ground) * FRAC_1_PI)
        })
        .collect();
    (ground, faces)
}

impl Outside {
    /// A sky that gives open ground 1 lx, seen through the openings of a place.
    ///
    /// What stands on the horizon is taken as upright faces that see half the sky and half the ground, which
    /// is lit as open ground (ours: their own shadows are left out).
    pub fn sky(sky: impl Into<SkyLight>, around: &Surroundings, place: &Place, geometry: &Geometry) -> Self {
        let sky = sky.into();
        let (ground, faces) = lit_surroundings(around, 1.0, |out| sky.on_plane(out));
        let dome = Dome {
            sky: Some(sky),
            ground,
            around: around.clone(),
            faces,
        };
        Self::through(place, geometry, dome, None)
    }

    /// A sun (or moon) that gives 1 lx to a surface facing it, with the ground and the skyline that it
    /// lights. `None` below the horizon and behind the skyline.
    pub fn sun(beam: SunBeam, around: &Surroundings, place: &Place, geometry: &Geometry) -> Option<Self> {
        if beam.towards.z <= 0.0 || around.hiding(beam.towards).is_some() {
            return None;
        }
        let (ground, faces) = lit_surroundings(around, beam.towards.z, |out| {
            Spectrum::splat(beam.towards.dot(out).max(0.0))
        });
        let dome = Dome {
            sky: None,
            ground,
            around: around.clone(),
            faces,
        };
        Some(Self::through(place, geometry, dome, Some(beam)))
    }

    fn through(place: &Place, geometry: &Geometry, dome: Dome, beam: Option<SunBeam>) -> Self {
        let portals = geometry
            .objects
            .iter()
            .enumerate()
            .filter_map(|(object, known)| {
                let ObjectKind::Opening(index) = known.kind else {
                    return None;
                };
                let opening = place.openings.get(index)?;
                let passage = opening.kind.passage();
                let out = -opening.face.inward();
                let scattered = if passage.scattered > 0.0 {
                    let sun = beam.map_or(0.0, |beam| beam.towards.dot(out).max(0.0));
                    (dome.irradiance(out) + Spectrum::splat(sun)) * (passage.scattered * FRAC_1_PI)
                } else {
                    Spectrum::ZERO
                };
                (passage.clear + passage.scattered > 0.0).then(|| Portal {
                    object,
                    clear: passage.clear,
                    scattered,
                    whole: opening.fills(&place.room),
                })
            })
            .collect();
        Outside { portals, dome, beam }
    }

    /// The light from a small disc that comes with it, if any.
    pub fn beam(&self) -> Option<SunBeam> {
        self.beam
    }

    /// Whether any light can come in.
    pub fn comes_in(&self) -> bool {
        !self.portals.is_empty()
    }

    /// Radiance of the outdoors itself in a unit direction, disc left out.
    pub fn radiance(&self, towards: Vec3) -> Spectrum {
        self.dome.radiance(towards)
    }

    /// Radiance with which an object shines inward along a unit direction that leaves its front.
    #[inline]
    pub(crate) fn emission(&self, object: usize, leaving: Vec3) -> Spectrum {
        match self.portal(object) {
            Some(portal) => {
                let scattered = portal.scattered;
                if portal.clear > 0.0 {
                    self.dome.radiance(-leaving) * portal.clear + scattered
                } else {
                    scattered
                }
            }
            None => Spectrum::ZERO,
        }
    }

    /// The objects that let light in.
    pub(crate) fn portals(&self) -> impl Iterator<Item = usize> + '_ {
        self.portals.iter().map(|portal| portal.object)
    }

    /// Whether an object lets light in.
    #[inline]
    pub(crate) fn is_portal(&self, object: usize) -> bool {
        self.portal(object).is_some()
    }

    /// Whether an object lets light in and fills a whole face, so that any ray finds it.
    #[inline]
    pub(crate) fn is_whole(&self, object: usize) -> bool {
        self.portal(object).is_some_and(|portal| portal.whole)
    }

    #[inline]
    fn portal(&self, object: usize) -> Option<&Portal> {
        self.portals.iter().find(|portal| portal.object == object)
    }

    /// What reaches a point straight from the disc; `None` in shade. `u` picks the point of the disc.
    #[inline]
    pub(crate) fn straight(
        &self,
        geometry: &Geometry,
        tracer: &Tracer,
        from: Vec3,
        u: [f32; 2],
    ) -> Option<Straight> {
        let direction = self.beam?.draw(u);
        let hit = tracer.closest(from, direction)?;
        let portal = self.portal(geometry.object[hit.triangle as usize] as usize)?;
        (portal.clear > 0.0).then_some(Straight {
            direction,
            illuminance: portal.clear,
        })
    }
}

impl SunBeam {
    /// A direction towards a point of the disc.
    #[inline]
    pub(crate) fn draw(self, u: [f32; 2]) -> Vec3 {
        if self.half_angle <= 0.0 {
            return self.towards;
        }
        let (across, up) = self.towards.any_orthonormal_pair();
        let (radius, turn) = (self.half_angle * u[0].sqrt(), TAU * u[1]);
        (self.towards + across * (radius * turn.cos()) + up * (radius * turn.sin())).normalize()
    }
}

impl Dome {
    #[inline]
    fn radiance(&self, towards: Vec3) -> Spectrum {
        if towards.z <= 0.0 {
            return self.ground;
        }
        if let Some(obstacle) = self.around.hiding(towards) {
            return self.faces[obstacle];
        }
        match &self.sky {
            Some(sky) => sky.radiance(towards),
            None => Spectrum::ZERO,
        }
    }

    /// Irradiance on a surface that looks along `out`, all that lies outside counted.
    fn irradiance(&self, out: Vec3) -> Spectrum {
        over_hemisphere(out, |direction| self.radiance(direction))
    }
}

/// ∫ L cos θ dω over the hemisphere about a unit normal, by the midpoint rule in cos² θ and azimuth.
fn over_hemisphere(normal: Vec3, radiance: impl Fn(Vec3) -> Spectrum) -> Spectrum {
    const RINGS: usize = 48;
    const SPOKES: usize = 96;
    let (across, up) = normal.any_orthonormal_pair();
    let mut sum = Spectrum::ZERO;
    for ring in 0..RINGS {
        let sin2 = (ring as f32 + 0.5) / RINGS as f32;
        let (sin, cos) = (sin2.sqrt(), (1.0 - sin2).sqrt());
        for spoke in 0..SPOKES {
            let turn = TAU * (spoke as f32 + 0.5) / SPOKES as f32;
            sum += radiance(normal * cos + across * (sin * turn.cos()) + up * (sin * turn.sin()));
        }
    }
    sum * (PI / (RINGS * SPOKES) as f32)
}
