//! Quad surfaces: Catmull–Clark subdivision (Catmull and Clark 1978, with the usual crease rule along open edges) and normals.

use std::collections::HashMap;

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
    faces: [u32; 2],
}

const NONE: u32 = u32::MAX;

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
                let edge = *found.entry(key(a, b)).or_insert_with(|| {
                    list.push(Edge {
                        ends: [a, b],
                        faces: [NONE, NONE],
                    });
                    (list.len() - 1) as u32
                });
                let faces = &mut list[edge as usize].faces;
                if faces[0] == NONE {
                    faces[0] = face as u32;
                } else {
                    faces[1] = face as u32;
                }
                edge
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
        let mut place = vec![NONE; self.points.len()];
        let mut points = Vec::new();
        for v in quads.iter_mut().flatten() {
            let slot = &mut place[*v as usize];
            if *slot == NONE {
                *slot = points.len() as u32;
                points.push(self.points[*v as usize]);
            }
            *v = *slot;
        }
        *self = Self { points, quads, tags };
    }

    /// One Catmull–Clark step. Open edges stay curves of their own.
    pub fn subdivide(&self) -> Subdivision {
        let (edges, of_quads) = edges(&self.quads);
        let old = self.points.len();
        let mut face_point = Vec::with_capacity(self.quads.len());
        for quad in &self.quads {
            let mut p = Point::ZERO;
            for &v in quad {
                p.add(&self.points[v as usize], 0.25);
            }
            face_point.push(p);
        }
        let mut faces_of = vec![0_u32; old];
        let mut face_sum = vec![Point::ZERO; old];
        for (quad, centre) in self.quads.iter().zip(&face_point) {
            for &v in quad {
                faces_of[v as usize] += 1;
                face_sum[v as usize].add(centre, 1.0);
            }
        }
        let mut edges_of = vec![0_u32; old];
        let mut edge_sum = vec![Point::ZERO; old];
        let mut rim_count = vec![0_u32; old];
        let mut rim_sum = vec![Point::ZERO; old];
        let mut edge_point = Vec::with_capacity(edges.len());
        for edge in &edges {
            let [a, b] = edge.ends.map(|v| v as usize);
            let mut middle = Point::ZERO;
            middle.add(&self.points[a], 0.5);
            middle.add(&self.points[b], 0.5);
            if edge.faces[1] == NONE {
                for (v, other) in [(a, b), (b, a)] {
                    rim_count[v] += 1;
                    rim_sum[v].add(&self.points[other], 1.0);
                }
                edge_point.push(middle);
            } else {
                let mut p = Point::ZERO;
                p.add(&middle, 0.5);
                p.add(&face_point[edge.faces[0] as usize], 0.25);
                p.add(&face_point[edge.faces[1] as usize], 0.25);
                edge_point.push(p);
            }
            for v in [a, b] {
                edges_of[v] += 1;
                edge_sum[v].add(&middle, 1.0);
            }
        }
        let mut points = Vec::with_capacity(old + edges.len() + self.quads.len());
        for v in 0..old {
            let mut p = Point::ZERO;
            if rim_count[v] == 2 {
                p.add(&self.points[v], 0.75);
                p.add(&rim_sum[v], 0.125);
            } else if rim_count[v] > 0 || faces_of[v] == 0 {
                p = self.points[v];
            } else {
                let n = faces_of[v] as f32;
                p.add(&face_sum[v], 1.0 / (n * n));
                p.add(&edge_sum[v], 2.0 / (n * edges_of[v] as f32));
                p.add(&self.points[v], (n - 3.0) / n);
            }
            points.push(p);
        }
        points.extend(edge_point);
        points.extend(face_point);
        let edge_base = old as u32;
        let face_base = (old + edges.len()) as u32;
        let mut fine = Self {
            points,
            quads: Vec::new(),
            tags: Vec::new(),
        };
        let mut edge_points = Vec::with_capacity(self.quads.len());
        let mut face_points = Vec::with_capacity(self.quads.len());
        let mut across = Vec::with_capacity(self.quads.len());
        for (face, (quad, of_quad)) in self.quads.iter().zip(&of_quads).enumerate() {
            let on_edge = of_quad.map(|e| edge_base + e);
            let centre = face_base + face as u32;
            for c in 0..4 {
                fine.quads
                    .push([quad[c], on_edge[c], centre, on_edge[(c + 3) % 4]]);
                fine.tags.push(self.tags[face]);
            }
            edge_points.push(on_edge);
            face_points.push(centre);
            across.push(of_quad.map(|e| {
                let faces = edges[e as usize].faces;
                let other = if faces[0] == face as u32 {
                    faces[1]
                } else {
                    faces[0]
                };
                (other != NONE).then_some(other)
            }));
        }
        Subdivision {
            fine,
            edge_points,
            face_points,
            across,
        }
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
            if edge.faces[1] == NONE {
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

    /// Triangles (as numbers of finest points, with the number of the base quad) such that edges are not much
    /// longer than `longest(base quad)`. Quads with `None` are left out.
    pub fn triangles(&self, longest: impl Fn(&[u32; 4], u8) -> Option<f32>) -> Vec<([u32; 3], usize)> {
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
        let level: Vec<Option<u8>> = wanted
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
            .collect();
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
