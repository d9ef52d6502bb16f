//! The light's way as geometry: from the flash to what it lights, and on to the face.

use answer::{Answer, Job, Route};
use glam::{Vec2, Vec3};
use scene::{BoxRoom, Face, Panel, Place};

/// What the light goes by on its way to the face.
#[derive(Clone, Debug)]
pub(crate) enum Surface {
    /// A face of the room.
    Room(Face),
    /// A board that is held or stands.
    Board(Box<Panel>),
    /// A block of furniture.
    Furniture,
    /// An open side, which lets the light out.
    Open,
    /// Nothing: the flash lights the face itself.
    Nothing,
}

/// The light's way.
#[derive(Clone, Debug)]
pub(crate) struct LightPath {
    pub(crate) flash: Vec3,
    pub(crate) target: Vec3,
    pub(crate) face: Vec3,
    pub(crate) surface: Surface,
    /// Where the nominal edge of the beam lands, going round the frame.
    pub(crate) rim: Vec<Vec3>,
    /// Whether a black card beside the head keeps its direct light off the face.
    pub(crate) flagged: bool,
    /// Half the nominal height of the beam, in radians.
    pub(crate) half_height: f32,
}

/// Points along one edge of the beam's frame.
const PER_EDGE: usize = 16;

impl LightPath {
    /// The way of an answer's light; `None` when its points are no numbers or nobody is there to be lit.
    pub(crate) fn new(job: &Job, answer: &Answer) -> Option<Self> {
        let (flash, target) = (answer.aim.flash, answer.aim.target);
        let face = job.sitters.first()?.face();
        let aim = (target - flash).try_normalize()?;
        if !face.is_finite() {
            return None;
        }
        let surface = surface(job, &answer.aim.route);
        let zoom = if answer.flash.zoom_mm.is_finite() {
            answer.flash.zoom_mm.max(8.0) as f32
        } else {
            50.0
        };
        let half = Vec2::new(18.0 / zoom, 12.0 / zoom);
        // The long side of the window is level; a head that points straight up turns about x.
        let right = aim.cross(Vec3::Z).try_normalize().unwrap_or(Vec3::X);
        let up = right.cross(aim);
        let rim = frame_edge()
            .filter_map(|corner| {
                let way = (aim + right * corner.x * half.x + up * corner.y * half.y).normalize();
                land(job, &surface, flash, way)
            })
            .collect();
        Some(Self {
            flash,
            target,
            face,
            surface,
            rim,
            flagged: answer.aim.flagged,
            half_height: half.y.atan(),
        })
    }

    /// Where the light that reaches the face comes from: the lit patch, or the flash.
    pub(crate) fn source(&self) -> Vec3 {
        match &self.surface {
            Surface::Nothing => self.flash,
            Surface::Board(board) => board.centre,
            _ => self.target,
        }
    }

    /// The outline of the lit patch, where there is one.
    pub(crate) fn patch(&self, room: &BoxRoom) -> Vec<Vec3> {
        match &self.surface {
            Surface::Nothing | Surface::Furniture | Surface::Open => Vec::new(),
            Surface::Board(_) => self.rim.clone(),
            Surface::Room(face) => self
                .rim
                .iter()
                .copied()
                .filter(|point| on_face(room, *face, *point))
                .collect(),
        }
    }

    /// Radius, seen from above at the height of the face, on which the light by distance alone is `stops` away from
    /// that at the face; `None` where the circle does not reach down to that height.
    pub(crate) fn falloff_radius(&self, stops: f32) -> Option<f32> {
        let source = self.source();
        let reach = source.distance(self.face) * (-0.5 * stops).exp2();
        let below = source.z - self.face.z;
        let square = reach * reach - below * below;
        (square > 0.01).then(|| square.sqrt())
    }
}

fn surface(job: &Job, route: &Route) -> Surface {
    match route {
        Route::Direct => Surface::Nothing,
        Route::Open => Surface::Open,
        Route::Bounce { face, .. } => Surface::Room(*face),
        Route::Standing { name } => {
            let board = job.place.panels.iter().find(|panel| panel.name == *name);
            board.map_or(Surface::Furniture, |board| {
                Surface::Board(Box::new(board.clone()))
            })
        }
        Route::HeldBoard {
            board,
            name,
            centre,
            normal,
            ..
        } => {
            let Some(held) = job.bag.boards.get(*board) else {
                return Surface::Furniture;
            };
            Surface::Board(Box::new(Panel {
                name: name.clone(),
                centre: *centre,
                normal: *normal,
                up: Vec3::Z,
                size: held.size,
                front: held.material.clone(),
                back: None,
                held: true,
            }))
        }
    }
}

/// Points around a square of half side 1.
fn frame_edge() -> impl Iterator<Item = Vec2> {
    let corners = [
        Vec2::new(-1.0, -1.0),
        Vec2::new(1.0, -1.0),
        Vec2::new(1.0, 1.0),
        Vec2::new(-1.0, 1.0),
    ];
    (0..4 * PER_EDGE).map(move |step| {
        let (edge, t) = (step / PER_EDGE, (step % PER_EDGE) as f32 / PER_EDGE as f32);
        corners[edge].lerp(corners[(edge + 1) % 4], t)
    })
}

fn land(job: &Job, surface: &Surface, from: Vec3, way: Vec3) -> Option<Vec3> {
    match surface {
        Surface::Board(board) => land_on_board(board, from, way),
        _ => land_in_room(&job.place, from, way),
    }
}

/// Where a ray meets the room.
fn land_in_room(place: &Place, from: Vec3, way: Vec3) -> Option<Vec3> {
    let reach = (0..3)
        .filter(|&axis| way[axis].abs() > 1e-6)
        .map(|axis| {
            ((if way[axis] > 0.0 {
                place.room.size[axis]
            } else {
                0.0
            }) - from[axis])
                / way[axis]
        })
        .fold(f32::INFINITY, f32::min);
    (reach.is_finite() && reach >= 0.0).then(|| from + way * reach)
}

/// Where a ray meets a board; past its edge, the nearest point of the edge.
fn land_on_board(board: &Panel, from: Vec3, way: Vec3) -> Option<Vec3> {
    let (corner, a, b) = board.frame();
    let normal = a.cross(b);
    let slope = way.dot(normal);
    let reach = (corner - from).dot(normal) / slope;
    if !(reach.is_finite() && reach > 0.0) {
        return None;
    }
    let hit = from + way * reach - corner;
    let part = |edge: Vec3| (hit.dot(edge) / edge.length_squared()).clamp(0.0, 1.0);
    Some(corner + a * part(a) + b * part(b))
}

fn on_face(room: &BoxRoom, face: Face, point: Vec3) -> bool {
    let (corner, ..) = room.face_frame(face);
    (point - corner).dot(face.inward()).abs() < 0.01
}

/// The convex hull of points, anticlockwise (Andrew 1979, monotone chain).
pub(crate) fn hull(points: &[Vec2]) -> Vec<Vec2> {
    let mut sorted: Vec<Vec2> = points.iter().copied().filter(|point| point.is_finite()).collect();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup();
    if sorted.len() < 3 {
        return sorted;
    }
    let half = |points: &mut dyn Iterator<Item = Vec2>| {
        let mut chain: Vec<Vec2> = Vec::new();
        for point in points {
            while let [.., a, b] = chain[..]
                && (b - a).perp_dot(point - a) <= 0.0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut outline = half(&mut sorted.iter().copied());
    outline.extend(half(&mut sorted.iter().rev().copied()));
    outline
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hull_is_what_a_rubber_band_would_touch() {
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(Vec2::from);
        let mut points = square.to_vec();
        points.extend([Vec2::new(0.5, 0.5), Vec2::new(0.2, 0.9), Vec2::new(f32::NAN, 0.0)]);
        assert_eq!(hull(&points), square);
        assert_eq!(hull(&square[..1]), &square[..1]);
    }
}
