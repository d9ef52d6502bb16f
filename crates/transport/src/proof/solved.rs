//! The pixels of a picture by way of the solved room.

use super::body_light::BodyLight;
use super::first_look::{FirstLook, Lens};
use super::lit_room::LitRoom;
use super::steer::{GUIDED, OWN, Steer};
use crate::guide::{GroupTable, PictureGuide};
use crate::leg::{GRAZING, Leg};
use crate::room::{Room, SolvedLight};
use crate::scatter::Scatter;
use crate::source::Source;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};

/// Rays by which a pixel looks for people where the grid of [`BodyLight`] says nothing.
const OWN_BODY_RAYS: usize = 2;

/// The picture by way of the solved room.
pub(super) struct Solved<'a> {
    lit: LitRoom<'a>,
    guide: PictureGuide,
    /// Whether there is anything that is not flat.
    people: bool,
}

impl<'a> Solved<'a> {
    pub(super) fn new(
        room: &'a Room,
        source: &'a Source,
        light: &'a SolvedLight,
        first_look: &FirstLook,
    ) -> Self {
        Solved {
            lit: LitRoom { room, source, light },
            guide: PictureGuide::new(room, source, light, &first_look.points),
            people: room.geometry.objects.iter().any(|o| o.rectangle.is_none()),
        }
    }

    /// Radiance along one camera ray.
    pub(super) fn pixel(
        &self,
        lens: &Lens,
        at: Vec2,
        bodies: Option<&BodyLight>,
        steer: &mut Steer,
    ) -> Spectrum {
        let LitRoom { room, source, .. } = self.lit;
        let direction = lens.direction(at);
        let Some(hit) = room.tracer.closest(lens.origin, direction) else {
            return Spectrum::ZERO;
        };
        let point = SurfacePoint::new(&room.geometry, &hit, lens.origin, direction);
        let scatter = Scatter::new(&point, -direction);
        let mut total = own_glow(room, source, &point, -direction);
        total += scattered_straight(room, source, &point, &scatter, steer.in_window());
        let footprint = lens.footprint(hit.distance);
        let table = self.guide.table(point.position, point.normal);
        let own = if scatter.is_coated() || table.is_some_and(|t| t.close) {
            OWN
        } else {
            0
        };
        if let Some(table) = table {
            total += self.by_tables(table, own, &point, &scatter, steer);
        }
        for index in 0..own {
            total += self.by_itself(table, &point, &scatter, index, steer);
        }
        if let Some(bodies) = bodies {
            // Where the grid says nothing, a few rays of the pixel's own tell.
            let irradiance = bodies.at(at, &point, footprint).unwrap_or_else(|| {
                self.lit
                    .body_irradiance(&point, OWN_BODY_RAYS, &mut steer.later)
                    .irradiance
            });
            total += scatter.spread(irradiance);
        }
        total
    }

    /// Light of flat patches, drawn from a table. With `own` directions drawn from the surface itself the
    /// two share what both can find.
    fn by_tables(
        &self,
        table: &GroupTable,
        own: usize,
        point: &SurfacePoint,
        scatter: &Scatter,
        steer: &Steer,
    ) -> Spectrum {
        let mut total = Spectrum::ZERO;
        for index in 0..GUIDED {
            let (u, within) = steer.guided(index);
            let draw = self.guide.draw(table, u, within);
            let Some(landing) = Leg::between(point.start, draw.position).landing(draw.normal) else {
                continue;
            };
            let direction = landing.direction;
            if !point.above(direction) || !self.lit.room.tracer.sees_surface(point.start, draw.position) {
                continue;
            }
            let mut density = GUIDED as f32 * draw.density;
            if own > 0 {
                density += landing.per_area(own as f32 * scatter.density(direction));
            }
            total += scatter.response(direction)
                * self.lit.leaving(draw.patch, -direction)
                * (landing.cos / (landing.distance2 * density));
        }
        total
    }

    /// What one direction drawn from the surface itself finds: flat patches, shared with the table, and
    /// the gloss of people. What people send to a matt surface comes from [`BodyLight`].
    fn by_itself(
        &self,
        table: Option<&GroupTable>,
        point: &SurfacePoint,
        scatter: &Scatter,
        index: usize,
        steer: &mut Steer,
    ) -> Spectrum {
        let direction = scatter.sample(steer.own(index));
        if !point.above(direction) {
            return Spectrum::ZERO;
        }
        let room = self.lit.room;
        let Some(hit) = room.tracer.closest(point.start, direction) else {
            return Spectrum::ZERO;
        };
        let own = OWN as f32 * scatter.density(direction);
        if own <= 0.0 {
            return Spectrum::ZERO;
        }
        let far = SurfacePoint::new(&room.geometry, &hit, point.start, direction);
        let patch = room.patches.at(&room.geometry, far.triangle, far.position);
        if room.patches.list[patch as usize].rectangle.is_none() {
            let gloss = scatter.coat_response(direction);
            if gloss <= 0.0 {
                return Spectrum::ZERO;
            }
            let radiance = self
                .lit
                .body_radiance(&far, hit.distance, patch, &mut steer.later);
            return radiance * (gloss / own);
        }
        let cos = -direction.dot(far.flat);
        let front = room.geometry.flat_normal(far.triangle).dot(far.flat) > 0.0;
        if cos <= GRAZING || !front {
            return Spectrum::ZERO;
        }
        let guided = table.map_or(0.0, |table| {
            GUIDED as f32 * self.guide.density(table, patch) * hit.distance * hit.distance / cos
        });
        scatter.response(direction) * self.lit.leaving(patch, -direction) * (1.0 / (own + guided))
    }

    /// What people send to what the picture shows, in one pass; `None` where there are none.
    pub(super) fn body_light(
        &self,
        lens: &Lens,
        size: [usize; 2],
        seed: u64,
        pass: u32,
    ) -> Option<BodyLight> {
        self.people
            .then(|| BodyLight::gather(&self.lit, lens, size, seed, pass))
    }
}

/// What a point shines with itself towards the camera. Light from all round has no visible source.
fn own_glow(room: &Room, source: &Source, point: &SurfacePoint, out: Vec3) -> Spectrum {
    if matches!(source, Source::AllRound) {
        return Spectrum::ZERO;
    }
    let object = room.geometry.object[point.triangle as usize] as usize;
    source.emission(object, room.geometry.objects[object].kind, out)
}

/// Light straight from the flash or the sun.
#[inline]
fn scattered_straight(
    room: &Room,
    source: &Source,
    point: &SurfacePoint,
    scatter: &Scatter,
    within: [f32; 2],
) -> Spectrum {
    source
        .straight(&room.geometry, &room.tracer, point, within)
        .map_or(Spectrum::ZERO, |light| {
            scatter.response(light.direction) * light.illuminance
        })
}
