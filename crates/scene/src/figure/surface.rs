//! Quad surfaces: Catmull–Clark subdivision (Catmull and Clark 1978, with the usual crease rule along open edges) and normals.

use std::collections::HashMap;
use std::collections::hash_map::Entry;

use glam::Vec3;

/// Soft values carried along with each vertex.
pub(super) const CHANNELS: usize = 8;

/// A vertex: place and soft values, which subdivision averages alike.
#[derive(Clone, Copy, Debug)]
pub(super) struct Point {
    pub at: Vec3,
    pub soft: [f32; CHANNELS],
}

impl Point {
    pub const ZERO: Self = Self {
        at: Vec3::ZERO,
        soft: [0.0; CHANNELS],
    };

    pub fn add(&mut self, other: &Self, weight: f32) {
        self.at += other.at * weight;
        for (a, b) in self.soft.iter_mut().zip(&other.soft) {
            *a += b * weight;
        }
    }
}

/// A surface of quads. `tags` say what each quad is and pass to its children.
#[derive(Clone, Default, Debug)]
pub(super) struct Surface {
    pub points: Vec<Point>,
    pub quads: Vec<[u32; 4]>,
    pub tags: Vec<u8>,
}

struct Edge {
    ends: [u32; 2],
    /// The quad that was found first.
    face: u32,
    /// The quad across; `None` for an open edge.
    other: Option<u32>,
}

impl Edge {
    /// The quad on the other side of one of its quads.
    fn across_from(&self, face: u32) -> Option<u32> {
        if self.face == face {
            self.other
        } else {
            Some(self.face)
        }
    }
}

/// What lies around a vertex, added up for its move.
#[derive(Clone, Copy)]
struct Around {
    faces: u32,
    face_sum: Point,
    edges: u32,
    edge_sum: Point,
    /// Open edges, and the sum of their other ends.
    rims: u32,
    rim_sum: Point,
}

impl Around {
    const NOTHING: Self = Self {
        faces: 0,
        face_sum: Point::ZERO,
        edges: 0,
        edge_sum: Point::ZERO,
        rims: 0,
        rim_sum: Point::ZERO,
    };

    fn add_face(&mut self, middle: &Point) {
        self.faces += 1;
        self.face_sum.add(middle, 1.0);
    }

    /// Where the vertex goes: along the open edge that it lies on, or by the faces and edges around it. A corner of
    /// open edges stays.
    fn moved(&self, from: &Point) -> Point {
        let mut p = Point::ZERO;
        if self.rims == 2 {
            p.add(from, 0.75);
            p.add(&self.rim_sum, 0.125);
        } else if self.rims > 0 || self.faces == 0 {
            p = *from;
        } else {
            let n = self.faces as f32;
            p.add(&self.face_sum, 1.0 / (n * n));
            p.add(&self.edge_sum, 2.0 / (n * self.edges as f32));
            p.add(from, (n - 3.0) / n);
        }
        p
    }
}

fn key(a: u32, b: u32) -> u64 {
    (u64::from(a.min(b)) << 32) | u64::from(a.max(b))
}

/// Edges, and for each quad its four edges (edge `c` joins corner `c` with the next).
fn edges(quads: &[[u32; 4]]) -> (Vec<Edge>, Vec<[u32; 4]>) {
    let mut found: HashMap<u64, u32> = HashMap::with_capacity(quads.len() * 2 + 16);
    let mut list: Vec<Edge> = Vec::with_capacity(quads.len() * 2 + 16);
    let of_quads = quads
        .iter()
        .enumerate()
        .map(|(face, quad)| {
            std::array::from_fn(|c| {
                let (a, b) = (quad[c], quad[(c + 1) % 4]);
                match found.entry(key(a, b)) {
                    Entry::Occupied(known) => {
                        list[*known.get() as usize].other = Some(face as u32);
                        *known.get()
                    }
                    Entry::Vacant(new) => {
                        list.push(Edge {
                            ends: [a, b],
                            face: face as u32,
                            other: None,
                        });
                        *new.insert(list.len() as u32 - 1)
                    }
                }
            })
        })
        .collect();
    (list, of_quads)
}

/// One subdivision, with what is needed to mix it with its parent.
pub(super) struct Subdivision {
    /// Points: first the moved old ones, then one per edge, then one per quad.
    pub fine: Surface,
    /// Point on each edge of each old quad.
    pub edge_points: Vec<[u32; 4]>,
    /// Point in the middle of each old quad.
    pub face_points: Vec<u32>,
    /// The old quad across each edge, if any.
    pub across: Vec<[Option<u32>; 4]>,
}

impl Surface {
    /// Keeps the quads that `keep` names and drops points that are then unused.
    pub fn retain(&mut self, mut keep: impl FnMut(&[u32; 4], u8) -> bool) {
        let mut quads = Vec::new();
        let mut tags = Vec::new();
        for (quad, tag) in self.quads.iter().zip(&self.tags) {
            if keep(quad, *tag) {
                quads.push(*quad);
                tags.push(*tag);
            }
        }
        let mut place: Vec<Option<u32>> = vec![None; self.points.len()];
        let mut points = Vec::new();
        for v in quads.iter_mut().flatten() {
            *v = *place[*v as usize].get_or_insert_with(|| {
                points.push(self.points[*v as usize]);
                points.len() as u32 - 1
            });
        }
        *self = Self { points, quads, tags };
    }

    /// One Catmull–Clark step. Open edges stay curves of their own.
    pub fn subdivide(&self) -> Subdivision {
        let (edges, of_quads) = edges(&self.quads);
        let middles = self.middles_of_quads();
        let mut around = vec![Around::NOTHING; self.points.len()];
        for (quad, middle) in self.quads.iter().zip(&middles) {
            for &v in quad {
                around[v as usize].add_face(middle);
            }
        }
        let edge_points: Vec<Point> = edges
            .iter()
            .map(|edge| self.edge_point(edge, &middles, &mut around))
            .collect();
        let mut points: Vec<Point> = self
            .points
            .iter()
            .zip(&around)
            .map(|(point, around)| around.moved(point))
            .collect();
        points.extend(edge_points);
        points.extend(middles);
        self.divided(points, &edges, &of_quads)
    }

    fn middles_of_quads(&self) -> Vec<Point> {
        self.quads
            .iter()
            .map(|quad| {
                let mut p = Point::ZERO;
                for &v in quad {
                    p.add(&self.points[v as usize], 0.25);
                }
                p
            })
            .collect()
    }

    /// The new point of an edge, which also adds the edge to what lies around its ends.
    fn edge_point(&self, edge: &Edge, middles: &[Point], around: &mut [Around]) -> Point {
        let [a, b] = edge.ends.map(|v| v as usize);
        let mut middle = Point::ZERO;
        middle.add(&self.points[a], 0.5);
        middle.add(&self.points[b], 0.5);
        for v in [a, b] {
            around[v].edges += 1;
            around[v].edge_sum.add(&middle, 1.0);
        }
        let Some(other) = edge.other else {
            for (v, end) in [(a, b), (b, a)] {
                around[v].rims += 1;
                around[v].rim_sum.add(&self.points[end], 1.0);
            }
            return middle;
        };
        let mut p = Point::ZERO;
        p.add(&middle, 0.5);
        for face in [edge.face, other] {
            p.add(&middles[face as usize], 0.25);
        }
        p
    }

    /// The four children of every quad, on points that are the old ones, then those of edges and of quads.
    fn divided(&self, points: Vec<Point>, edges: &[Edge], of_quads: &[[u32; 4]]) -> Subdivision {
        let edge_base = self.points.len() as u32;
        let face_base = edge_base + edges.len() as u32;
        let count = self.quads.len();
        let mut subdivision = Subdivision {
            fine: Self {
                points,
                quads: Vec::with_capacity(4 * count),
                tags: Vec::with_capacity(4 * count),
            },
            edge_points: Vec::with_capacity(count),
            face_points: Vec::with_capacity(count),
            across: Vec::with_capacity(count),
        };
        for (face, (quad, of_quad)) in self.quads.iter().zip(of_quads).enumerate() {
            let on_edge = of_quad.map(|e| edge_base + e);
            let centre = face_base + face as u32;
            for c in 0..4 {
                let child = [quad[c], on_edge[c], centre, on_edge[(c + 3) % 4]];
                subdivision.fine.quads.push(child);
                subdivision.fine.tags.push(self.tags[face]);
            }
            subdivision.edge_points.push(on_edge);
            subdivision.face_points.push(centre);
            subdivision
                .across
                .push(of_quad.map(|e| edges[e as usize].across_from(face as u32)));
        }
        subdivision
    }

    /// Smooth normals: the quads' own, added up at their corners by area.
    pub fn normals(&self) -> Vec<Vec3> {
        let mut normals = vec![Vec3::ZERO; self.points.len()];
        for quad in &self.quads {
            let [a, b, c, d] = quad.map(|v| self.points[v as usize].at);
            let n = (c - a).cross(d - b);
            for &v in quad {
                normals[v as usize] += n;
            }
        }
        for n in &mut normals {
            *n = n.normalize_or(Vec3::Z);
        }
        normals
    }

    /// Neighbours of each point along edges, and which points lie on an open edge.
    pub fn neighbours(&self) -> (Vec<Vec<u32>>, Vec<bool>) {
        let (edges, _) = edges(&self.quads);
        let mut near = vec![Vec::new(); self.points.len()];
        let mut rim = vec![false; self.points.len()];
        for edge in &edges {
            let [a, b] = edge.ends;
            near[a as usize].push(b);
            near[b as usize].push(a);
            if edge.other.is_none() {
                rim[a as usize] = true;
                rim[b as usize] = true;
            }
        }
        (near, rim)
    }

    /// Moves points towards the middle of their neighbours, by `amount(point)` of the way, `rounds` times.
    pub fn relax(&mut self, rounds: usize, amount: impl Fn(usize, &Point) -> f32) {
        let (near, rim) = self.neighbours();
        for _ in 0..rounds {
            let before: Vec<Vec3> = self.points.iter().map(|p| p.at).collect();
            for (v, point) in self.points.iter_mut().enumerate() {
                let list: Vec<u32> = if rim[v] {
                    near[v].iter().copied().filter(|&n| rim[n as usize]).collect()
                } else {
                    near[v].clone()
                };
                if list.is_empty() {
                    continue;
                }
                let mean = list.iter().map(|&n| before[n as usize]).sum::<Vec3>() / list.len() as f32;
                let step = amount(v, point);
                point.at = before[v].lerp(mean, step);
            }
        }
    }
}

/// A surface at three levels of fineness, from which each quad can be taken at its own level without cracks.
pub(super) struct Layers {
    base: Surface,
    first: Subdivision,
    second: Subdivision,
}

impl Layers {
    /// Subdivides twice; `between` may reshape the surface after the first step.
    pub fn new(base: Surface, between: impl FnOnce(&mut Surface)) -> Self {
        let mut first = base.subdivide();
        between(&mut first.fine);
        let second = first.fine.subdivide();
        Self { base, first, second }
    }

    /// The finest surface; points of the coarser ones come first and keep their numbers.
    pub fn finest(&self) -> &Surface {
        &self.second.fine
    }

    pub fn finest_mut(&mut self) -> &mut Surface {
        &mut self.second.fine
    }

    /// How often each base quad is divided so that its sides are not much longer than `longest` says; neighbours
    /// differ by one level only.
    fn levels(&self, longest: impl Fn(&[u32; 4], u8) -> Option<f32>) -> Vec<Option<u8>> {
        let quads = &self.base.quads;
        let points = &self.second.fine.points;
        let wanted: Vec<Option<u8>> = quads
            .iter()
            .zip(&self.base.tags)
            .map(|(quad, tag)| {
                let limit = longest(quad, *tag)?;
                let corner = quad.map(|v| points[v as usize].at);
                let side = (0..4)
                    .map(|c| corner[c].distance(corner[(c + 1) % 4]))
                    .sum::<f32>()
                    / 4.0;
                Some(if side <= limit {
                    0
                } else if side <= 2.0 * limit {
                    1
                } else {
                    2
                })
            })
            .collect();
        // Neighbours may differ by one level only.
        wanted
            .iter()
            .enumerate()
            .map(|(q, own)| {
                let around = self.first.across[q]
                    .iter()
                    .flatten()
                    .filter_map(|o| wanted[*o as usize])
                    .max();
                own.map(|own| if own == 0 && around == Some(2) { 1 } else { own })
            })
            .collect()
    }

    /// Triangles (as numbers of finest points, with the number of the base quad) such that edges are not much
    /// longer than `longest(base quad)`. Quads with `None` are left out.
    pub fn triangles(&self, longest: impl Fn(&[u32; 4], u8) -> Option<f32>) -> Vec<([u32; 3], usize)> {
        let quads = &self.base.quads;
        let level = self.levels(longest);
        let mut out = Vec::new();
        for (q, quad) in quads.iter().enumerate() {
            let Some(own) = level[q] else { continue };
            if own == 0 {
                let split =
                    self.first.across[q].map(|o| o.is_some_and(|o| level[o as usize].is_some_and(|l| l > 0)));
                fan(
                    quad,
                    &self.first.edge_points[q],
                    self.first.face_points[q],
                    split,
                    |t| out.push((t, q)),
                );
                continue;
            }
            for child in 4 * q..4 * q + 4 {
                let corners = &self.first.fine.quads[child];
                let (edge, middle) = (&self.second.edge_points[child], self.second.face_points[child]);
                if own == 1 {
                    let split = self.second.across[child]
                        .map(|o| o.is_some_and(|o| level[o as usize / 4].is_some_and(|l| l > 1)));
                    fan(corners, edge, middle, split, |t| out.push((t, q)));
                } else {
                    for c in 0..4 {
                        let [a, b, d, e] = [corners[c], edge[c], middle, edge[(c + 3) % 4]];
                        out.push(([a, b, d], q));
                        out.push(([a, d, e], q));
                    }
                }
            }
        }
        out
    }
}

/// A quad as triangles that meet the points on its split edges.
fn fan(corners: &[u32; 4], edge: &[u32; 4], middle: u32, split: [bool; 4], mut put: impl FnMut([u32; 3])) {
    if !split.contains(&true) {
        put([corners[0], corners[1], corners[2]]);
        put([corners[0], corners[2], corners[3]]);
        return;
    }
    for c in 0..4 {
        let next = corners[(c + 1) % 4];
        if split[c] {
            put([middle, corners[c], edge[c]]);
            put([middle, edge[c], next]);
        } else {
            put([middle, corners[c], next]);
        }
    }
}
