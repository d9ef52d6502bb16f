//! How the room is laid on the sheet, seen from above.

use crate::label::Area;
use crate::path::LightPath;
use answer::Job;
use glam::{Vec2, Vec3};
use scene::Face;

/// Space around the room for its walls, their names and the dimension lines: left, right, above, below.
const AROUND: [f32; 4] = [62.0, 38.0, 38.0, 84.0];
/// Thickness of a drawn wall.
pub(super) const WALL: f32 = 12.0;
/// A plan smaller than this, in pixels per metre, is cut instead (ours: a head is then 10 pixels wide).
const LEAST_SCALE: f32 = 48.0;
/// A plan is not drawn larger than this, in pixels per metre.
const MOST_SCALE: f32 = 170.0;

/// How the room is laid on the sheet.
pub(crate) struct View {
    /// The floor.
    pub(crate) inner: Area,
    /// The floor with walls, names and dimensions.
    pub(crate) outer: Area,
    /// Pixels per metre.
    pub(crate) scale: f32,
    /// What is shown of the room, in metres.
    pub(super) shown: Area,
    pub(super) room: Vec2,
}

impl View {
    pub(crate) fn new(job: &Job, path: Option<&LightPath>, area: Area) -> Self {
        let room = job.place.room.size.truncate().max(Vec2::splat(0.1));
        let most = area.size() - Vec2::new(AROUND[0] + AROUND[1], AROUND[2] + AROUND[3]);
        let action = action(job, path, room);
        let mut shown = Area::new(Vec2::ZERO, room);
        let allowed = most / LEAST_SCALE;
        for axis in 0..2 {
            if room[axis] > allowed[axis] {
                let (from, to) = cut(room[axis], action.min[axis], action.max[axis], allowed[axis]);
                (shown.min[axis], shown.max[axis]) = (from, to);
            }
        }
        let scale = (most / shown.size()).min_element().min(MOST_SCALE);
        let corner = area.min + Vec2::new(AROUND[0], AROUND[2]);
        let inner = Area::new(corner, corner + shown.size() * scale);
        let outer = Area::new(area.min, inner.max + Vec2::new(AROUND[1], AROUND[3]));
        Self {
            inner,
            outer,
            scale,
            shown,
            room,
        }
    }

    /// The whole floor of a room with its lower left corner, seen from above, at a place of the sheet.
    pub(crate) fn whole(inner: Area, scale: f32, room: Vec2) -> Self {
        Self {
            inner,
            outer: inner,
            scale,
            shown: Area::new(Vec2::ZERO, room),
            room,
        }
    }

    /// A point of the room on the sheet; the sitter's end of the room is up.
    pub(crate) fn at(&self, point: Vec3) -> Vec2 {
        self.flat(point.truncate())
    }

    fn flat(&self, point: Vec2) -> Vec2 {
        let x = self.inner.min.x + (point.x - self.shown.min.x) * self.scale;
        let y = self.inner.max.y - (point.y - self.shown.min.y) * self.scale;
        Vec2::new(x, y)
    }

    /// Whether this wall is shown, or cut away.
    pub(super) fn shows(&self, face: Face) -> bool {
        match face {
            Face::Left => self.shown.min.x == 0.0,
            Face::Right => self.shown.max.x == self.room.x,
            Face::BehindCamera => self.shown.min.y == 0.0,
            Face::BehindSitter => self.shown.max.y == self.room.y,
            Face::Ceiling | Face::Floor => false,
        }
    }

    /// The two ends of a wall on the sheet, and the direction that leads out of the room.
    pub(super) fn wall(&self, face: Face) -> (Vec2, Vec2, Vec2) {
        let Area { min, max } = self.inner;
        match face {
            Face::Left => (Vec2::new(min.x, max.y), min, Vec2::NEG_X),
            Face::Right => (Vec2::new(max.x, min.y), max, Vec2::X),
            Face::BehindCamera => (max, Vec2::new(min.x, max.y), Vec2::Y),
            _ => (min, Vec2::new(max.x, min.y), Vec2::NEG_Y),
        }
    }
}

/// What must be seen: camera, people, flash and what it lights, with a little floor around.
fn action(job: &Job, path: Option<&LightPath>, room: Vec2) -> Area {
    let mut points: Vec<Vec2> = job.sitters.iter().map(|sitter| sitter.stand.truncate()).collect();
    points.push(job.viewpoint.position.truncate());
    if let Some(path) = path {
        points.extend([path.flash.truncate(), path.source().truncate()]);
    }
    points.retain(|point| point.is_finite());
    let low = points.iter().copied().reduce(Vec2::min).unwrap_or(Vec2::ZERO);
    let high = points.iter().copied().reduce(Vec2::max).unwrap_or(room);
    Area::new((low - 1.2).max(Vec2::ZERO), (high + 1.2).min(room))
}

/// A part of a long side: at least from `low` to `high`, else as much as is allowed, around the middle of that.
fn cut(whole: f32, low: f32, high: f32, allowed: f32) -> (f32, f32) {
    let length = allowed.max(high - low).min(whole);
    let from = (0.5 * (low + high - length)).clamp(0.0, whole - length);
    // A wall that is nearly reached is shown rather than cut away.
    let from = if from < 0.4 { 0.0 } else { from };
    let to = from + length;
    (from, if whole - to < 0.4 { whole } else { to })
}
