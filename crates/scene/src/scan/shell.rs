//! The box of the room: which way is up, how large a unit is, how the walls run, where they stand.
//!
//! Nothing here trusts a single triangle. Directions and places of walls are those where most surface lies:
//! peaks of histograms weighted by area, and area-weighted medians around them. The shares and distances are ours.

use super::mesh::{Facet, quantile};
use super::refusal::ScanError;
use super::words::Role;
use glam::{Vec2, Vec3};
use std::f32::consts::{FRAC_PI_2, TAU};

/// Which axis of a file points up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Up {
    /// y, as in every glTF.
    Y,
    /// z.
    Z,
}

/// Sides of a room in metres, as a shoot file takes them.
const SIDES: std::ops::RangeInclusive<f32> = 1.0..=60.0;
/// A facet belongs to a wall if its normal is within 45° of the wall's, so that noise does not lose it.
pub(super) const FACING: f32 = 0.7;
/// A wall stands at the outermost place with this share of the surface of the largest plane on its side.
const WALL_SHARE: f32 = 0.35;
/// The inner side of a thick wall is at most this far from its outer one, in metres.
const THICKEST_WALL: f32 = 0.6;
/// With less than this share of its surface a wall counts as not scanned.
const SEEN_SHARE: f32 = 0.12;
/// The same for a ceiling, where a large table top must not pass for one.
const CEILING_SHARE: f32 = 0.25;

/// How each facet is to be taken, by its piece.
pub(super) struct Roles(pub Vec<Role>);

impl Roles {
    pub fn of(&self, facet: &Facet) -> Role {
        self.0[facet.piece as usize]
    }

    fn any(&self, role: Role) -> bool {
        self.0.contains(&role)
    }
}

fn map(facets: &mut [Facet], change: impl Fn(Vec3) -> Vec3) {
    for facet in facets {
        facet.corners = facet.corners.map(&change);
    }
}

/// Which of y and z is up, by which has more level surface: floors, ceilings and tops are larger than walls.
pub(super) fn guess_up(facets: &[Facet], roles: &Roles) -> Up {
    let named = [Role::Wall, Role::Floor, Role::Ceiling]
        .iter()
        .any(|role| roles.any(*role));
    let (mut y, mut z) = (0.0_f64, 0.0_f64);
    for facet in facets {
        let weight = match roles.of(facet) {
            Role::Floor | Role::Ceiling => 1.0,
            Role::Wall => -1.0,
            _ if named => 0.0,
            _ => 1.0,
        };
        let (normal, area) = facet.normal_and_area();
        // 20° leave room for noise and none for the slope of anything else.
        if normal.y.abs() > 0.94 {
            y += weight * f64::from(area);
        }
        if normal.z.abs() > 0.94 {
            z += weight * f64::from(area);
        }
    }
    if z > y { Up::Z } else { Up::Y }
}

/// Turns everything so that z is up.
pub(super) fn stand_up(facets: &mut [Facet], up: Up) {
    if up == Up::Y {
        map(facets, |p| Vec3::new(p.x, -p.z, p.y));
    }
}

/// Lowest and highest place along each axis, without the outermost hundredth of the surface.
fn extent(facets: &[Facet], share: f64, counts: impl Fn(&Facet) -> bool) -> (Vec3, Vec3) {
    let step = facets.len().div_ceil(300_000).max(1);
    let (mut low, mut high) = (Vec3::ZERO, Vec3::ZERO);
    for axis in 0..3 {
        let mut samples: Vec<(f32, f32)> = facets
            .iter()
            .step_by(step)
            .filter(|facet| counts(facet))
            .flat_map(|facet| {
                let area = facet.area();
                facet.corners.map(|p| (p[axis], area))
            })
            .collect();
        low[axis] = quantile(&mut samples, share);
        high[axis] = super::mesh::sorted_quantile(&samples, 1.0 - share);
    }
    (low, high)
}

/// Metres in a unit of the file: 1, unless the room would be 100 m or longer; then centimetres, or, where the
/// ceiling would still be higher than 12 m, millimetres.
pub(super) fn guess_unit(facets: &[Facet]) -> f32 {
    let (low, high) = extent(facets, 0.01, |_| true);
    let size = high - low;
    if size.max_element() < 100.0 {
        1.0
    } else if size.max_element() < 10_000.0 && size.z < 1_200.0 {
        0.01
    } else {
        0.001
    }
}

/// Brings everything to metres.
pub(super) fn scale(facets: &mut [Facet], unit_m: f32) {
    if unit_m != 1.0 {
        map(facets, |p| p * unit_m);
    }
}

/// How far the walls are turned from the axes, in radians from -45° to 45°.
///
/// Directions of walls repeat every quarter turn, so four times the angle is a direction that all four walls
/// agree on. In a clean scan the peak of a histogram says roughly which, the mean around it exactly. In a noisy
/// one the normals only say it to a few degrees, and the angle is sought at which the walls are thinnest.
fn yaw(facets: &[Facet], roles: &Roles) -> f32 {
    const BINS: usize = 360;
    let only_walls = roles.any(Role::Wall);
    let walls: Vec<Upright> = facets
        .iter()
        .filter(|facet| !only_walls || roles.of(facet) == Role::Wall)
        .filter_map(|facet| {
            let (normal, area) = facet.normal_and_area();
            let angle = normal.y.atan2(normal.x).rem_euclid(FRAC_PI_2);
            (normal.z.abs() < 0.5).then(|| Upright {
                angle: 4.0 * angle,
                area,
                centre: facet.centre().truncate(),
            })
        })
        .collect();
    let mut histogram = [0.0_f32; BINS];
    for wall in &walls {
        histogram[(wall.angle / TAU * BINS as f32) as usize % BINS] += wall.area;
    }
    let smooth = |at: usize| -> f32 {
        (0..=16)
            .map(|offset| histogram[(at + BINS + offset - 8) % BINS] * (9.0 - (offset as f32 - 8.0).abs()))
            .sum()
    };
    let peak = (0..BINS)
        .max_by(|a, b| smooth(*a).total_cmp(&smooth(*b)))
        .unwrap_or(0);
    let peak = (peak as f32 + 0.5) / BINS as f32 * TAU;
    // The mean direction of the surface that is within some degrees of an angle, and how much that is.
    let mean_near = |angle: f32, degrees: f32| {
        let (mut sum, mut area) = (Vec2::ZERO, 0.0);
        for wall in &walls {
            let off = (wall.angle - angle + 1.5 * TAU).rem_euclid(TAU) - 0.5 * TAU;
            if off.abs() <= 4.0 * degrees.to_radians() {
                sum += wall.area * Vec2::from_angle(off);
                area += wall.area;
            }
        }
        let off = if sum == Vec2::ZERO { 0.0 } else { sum.to_angle() };
        (angle + off, area)
    };
    let all: f32 = walls.iter().map(|wall| wall.area).sum();
    let (exact, sharp) = mean_near(peak, 1.0);
    let angle = if sharp > 0.5 * all {
        exact / 4.0
    } else {
        thinnest(&walls, mean_near(peak, 20.0).0 / 4.0)
    };
    let angle = angle.rem_euclid(FRAC_PI_2);
    if angle > 0.5 * FRAC_PI_2 {
        angle - FRAC_PI_2
    } else {
        angle
    }
}

/// A facet that stands upright, seen from above.
struct Upright {
    /// Four times the angle of its normal, 0 to a whole turn.
    angle: f32,
    area: f32,
    centre: Vec2,
}

/// The angle near a first one at which most surface lies in few lines along and across.
fn thinnest(walls: &[Upright], first: f32) -> f32 {
    let step = walls.len().div_ceil(40_000).max(1);
    let middle = walls.iter().step_by(step).map(|wall| wall.centre).sum::<Vec2>()
        / walls.len().div_ceil(step).max(1) as f32;
    let thinness = |degrees: f32| -> f64 {
        const LINES: usize = 8192;
        let turn = Vec2::from_angle(-(first + degrees.to_radians()));
        let mut lines = vec![[0.0_f32; 2]; LINES];
        for wall in walls.iter().step_by(step) {
            // Lines of 2 cm; shared between two so that no edge of a line matters. What is farther than 80 m
            // away wraps round and only blurs.
            let at = turn.rotate(wall.centre - middle) / 0.02;
            for axis in 0..2 {
                let low = at[axis].floor();
                let part = at[axis] - low;
                let line = (low as i64).rem_euclid(LINES as i64) as usize;
                lines[line][axis] += wall.area * (1.0 - part);
                lines[(line + 1) % LINES][axis] += wall.area * part;
            }
        }
        lines
            .iter()
            .flatten()
            .map(|area| f64::from(*area) * f64::from(*area))
            .sum()
    };
    let best_of = |angles: &mut dyn Iterator<Item = f32>| {
        angles
            .map(|degrees| (thinness(degrees), degrees))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map_or(0.0, |(_, degrees)| degrees)
    };
    let rough = best_of(&mut (-20..=20).map(|i| 0.3 * i as f32));
    let fine = best_of(&mut (-6..=6).map(|i| rough + 0.05 * i as f32));
    first + fine.to_radians()
}

/// How much surface faces along an axis at each place of it.
struct Profile {
    start: f32,
    step: f32,
    /// Surface whose normal points up the axis, and down.
    facing: [Vec<f32>; 2],
    samples: Vec<(f32, f32)>,
    middle: f32,
}

/// A plane of the room's box.
#[derive(Clone, Copy, Debug)]
struct Plane {
    at: f32,
    area: f32,
}

impl Profile {
    fn of(facets: &[Facet], axis: usize, middle: f32, counts: impl Fn(&Facet) -> bool) -> Option<Self> {
        let mut samples = Vec::new();
        let mut signs = Vec::new();
        for facet in facets.iter().filter(|facet| counts(facet)) {
            let (normal, area) = facet.normal_and_area();
            if normal[axis].abs() > FACING {
                samples.push((facet.centre()[axis], area));
                signs.push((facet.centre()[axis], area, normal[axis] < 0.0));
            }
        }
        if samples.is_empty() {
            return None;
        }
        let every = samples.len().div_ceil(50_000);
        let mut few: Vec<(f32, f32)> = samples.iter().copied().step_by(every).collect();
        let low = quantile(&mut few, 0.002) - 0.1;
        let high = super::mesh::sorted_quantile(&few, 0.998) + 0.1;
        let step = ((high - low) / 8000.0).max(0.01);
        let bins = ((high - low) / step).ceil() as usize + 1;
        let mut facing = [vec![0.0; bins], vec![0.0; bins]];
        for (at, area, down) in signs {
            if (low..=high).contains(&at) {
                let bin = ((at - low) / step) as usize;
                facing[usize::from(down)][bin.min(bins - 1)] += area;
            }
        }
        Some(Profile {
            start: low,
            step,
            facing,
            samples,
            middle,
        })
    }

    /// Surface near a bin, the nearest counting most.
    fn near(&self, bin: usize, which: &[usize]) -> f32 {
        let reach = 3_usize;
        let from = bin.saturating_sub(reach);
        let to = (bin + reach).min(self.facing[0].len() - 1);
        (from..=to)
            .map(|at| {
                let weight = 1.0 - bin.abs_diff(at) as f32 / (reach + 1) as f32;
                weight * which.iter().map(|way| self.facing[*way][at]).sum::<f32>()
            })
            .sum()
    }

    /// The plane that bounds the room on the low or the high side.
    fn boundary(&self, low: bool) -> Option<Plane> {
        let bins = self.facing[0].len();
        let half = (((self.middle - self.start) / self.step).max(0.0) as usize).min(bins);
        // From the outside in.
        let order: Vec<usize> = if low {
            (0..half).collect()
        } else {
            (half..bins).rev().collect()
        };
        let surface: Vec<f32> = order.iter().map(|bin| self.near(*bin, &[0, 1])).collect();
        let most = surface.iter().copied().fold(0.0, f32::max);
        if most <= 0.0 {
            return None;
        }
        let first = surface.iter().position(|s| *s >= WALL_SHARE * most)?;
        let peak_from = |from: usize| {
            let to = (from + 8).min(surface.len());
            (from..to).max_by(|a, b| surface[*a].total_cmp(&surface[*b]).then(b.cmp(a)))
        };
        let mut best = peak_from(first)?;
        // A thick wall shows its outer side to the outside; the side that faces the room is the one that counts.
        let (inwards, outwards) = if low { (0, 1) } else { (1, 0) };
        let share = |at: usize, way: usize| self.near(order[at], &[way]) / surface[at].max(f32::MIN_POSITIVE);
        if share(best, outwards) > 0.6 {
            let reach = (THICKEST_WALL / self.step) as usize;
            let inner = (best + 2..(best + reach).min(surface.len()))
                .filter(|at| {
                    self.near(order[*at], &[inwards]) >= 0.5 * surface[best] && share(*at, inwards) > 0.6
                })
                .max_by(|a, b| surface[*a].total_cmp(&surface[*b]).then(b.cmp(a)));
            best = inner.unwrap_or(best);
        }
        let at = self.start + (order[best] as f32 + 0.5) * self.step;
        let reach = (4.0 * self.step).max(0.04);
        let mut close: Vec<(f32, f32)> = self
            .samples
            .iter()
            .copied()
            .filter(|(place, _)| (place - at).abs() <= reach)
            .collect();
        Some(Plane {
            at: quantile(&mut close, 0.5),
            area: close.iter().map(|(_, area)| area).sum(),
        })
    }
}

/// Turns and moves everything so that the walls are square, the room begins at the origin and its longer side
/// is its length; says the room's size and tells what was done.
pub(super) fn square(facets: &mut [Facet], roles: &Roles, told: &mut Vec<String>) -> Result<Vec3, ScanError> {
    let yaw = yaw(facets, roles);
    if yaw.abs() > 0.3_f32.to_radians() {
        told.push(format!(
            "The walls of the scan were turned by {:.1}° against its axes; everything was turned back to stand square.",
            yaw.to_degrees()
        ));
    }
    let turn = Vec2::from_angle(-yaw);
    map(facets, |p| turn.rotate(p.truncate()).extend(p.z));
    let (low, high) = bounds(facets, roles, told)?;
    let size = high - low;
    if !size.to_array().iter().all(|side| SIDES.contains(side)) {
        return Err(ScanError::NotARoom {
            size: size.to_array(),
        });
    }
    let long_x = size.x > size.y;
    map(facets, |p| {
        let p = p - low;
        if long_x {
            Vec3::new(size.y - p.y, p.x, p.z)
        } else {
            p
        }
    });
    Ok(if long_x {
        Vec3::new(size.y, size.x, size.z)
    } else {
        size
    })
}

/// Lowest and highest corner of the room.
fn bounds(facets: &[Facet], roles: &Roles, told: &mut Vec<String>) -> Result<(Vec3, Vec3), ScanError> {
    let walls = roles.any(Role::Wall);
    // Where no part was named as what is looked for, everything but the openings may be it.
    // Where walls were, a floor or ceiling without a name is not there, and ends where the walls do.
    let counts = |wanted: Role| {
        let named = roles.any(wanted);
        let absent = !named && walls;
        move |facet: &Facet| {
            let role = roles.of(facet);
            if named {
                role == wanted
            } else {
                !absent && !matches!(role, Role::Opening(_))
            }
        }
    };
    let sides = [
        (0, Role::Wall, Role::Wall),
        (1, Role::Wall, Role::Wall),
        (2, Role::Floor, Role::Ceiling),
    ];
    let mut planes = [[None; 2]; 3];
    let ends = extent(facets, 0.005, |facet| {
        let role = roles.of(facet);
        if walls {
            matches!(role, Role::Wall | Role::Floor | Role::Ceiling)
        } else {
            !matches!(role, Role::Opening(_))
        }
    });
    for (axis, low, high) in sides {
        let middle = 0.5 * (ends.0[axis] + ends.1[axis]);
        let profile = |role: Role| Profile::of(facets, axis, middle, counts(role));
        let first = profile(low);
        let second = if high == low { None } else { profile(high) };
        let second = if high == low { &first } else { &second };
        planes[axis] = [
            first.as_ref().and_then(|profile| profile.boundary(true)),
            second.as_ref().and_then(|profile| profile.boundary(false)),
        ];
    }
    let place = |axis: usize, side: usize, planes: &[[Option<Plane>; 2]; 3]| {
        let end = if side == 0 { ends.0[axis] } else { ends.1[axis] };
        planes[axis][side].map_or(end, |plane| plane.at)
    };
    let first: [Vec3; 2] = [0, 1].map(|side| Vec3::from([0, 1, 2].map(|axis| place(axis, side, &planes))));
    let size = (first[1] - first[0]).max(Vec3::splat(0.1));
    drop_faint(&mut planes, size, told);
    let [low, high] = [0, 1].map(|side| Vec3::from([0, 1, 2].map(|axis| place(axis, side, &planes))));
    if walls {
        tell_inner_walls(facets, roles, (low, high), told);
    }
    if (low.is_finite() && high.is_finite()) && (high - low).min_element() > 0.0 {
        Ok((low, high))
    } else {
        Err(ScanError::NotARoom {
            size: (high - low).to_array(),
        })
    }
}

/// Drops planes of which too little was scanned, and tells of them.
fn drop_faint(planes: &mut [[Option<Plane>; 2]; 3], size: Vec3, told: &mut Vec<String>) {
    let words = [
        ["one wall", "one wall"],
        ["one wall", "one wall"],
        ["the floor", "the ceiling"],
    ];
    for (axis, pair) in planes.iter_mut().enumerate() {
        let face = size[(axis + 1) % 3] * size[(axis + 2) % 3];
        let least = if axis == 2 { CEILING_SHARE } else { SEEN_SHARE };
        for (plane, word) in pair.iter_mut().zip(words[axis]) {
            if plane.is_none_or(|plane: Plane| plane.area < least * face) {
                *plane = None;
                told.push(format!(
                    "Too little of {word} was found in the scan; it was put where the scan ends. Check the room's size there."
                ));
            }
        }
    }
}

/// Tells of walls inside the box: a second room, or a room with more than four corners.
fn tell_inner_walls(facets: &[Facet], roles: &Roles, (low, high): (Vec3, Vec3), told: &mut Vec<String>) {
    let (mut inner, mut all) = (0.0, 0.0);
    for facet in facets.iter().filter(|facet| roles.of(facet) == Role::Wall) {
        let (normal, area) = facet.normal_and_area();
        if normal.z.abs() > 0.5 {
            continue;
        }
        all += area;
        let axis = usize::from(normal.y.abs() > normal.x.abs());
        let at = facet.centre()[axis];
        if at > low[axis] + THICKEST_WALL && at < high[axis] - THICKEST_WALL {
            inner += area;
        }
    }
    if inner > 0.12 * all {
        told.push(
            "There are walls inside the box: the room has more than four corners, or the scan holds more than one room. \
             Only the outermost box was taken; cut the scan to one room, or put the inner walls in as furniture."
                .to_owned(),
        );
    }
}
