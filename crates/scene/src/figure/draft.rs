//! A figure in the making: triangles with how far each vertex follows neck and head.

use glam::Vec3;

use super::parts::Part;

/// Everything gathered so far, in the unturned pose.
#[derive(Default)]
pub(super) struct Draft {
    pub positions: Vec<Vec3>,
    /// Set normals; zero where they are still to be worked out from the triangles.
    pub normals: Vec<Vec3>,
    pub blend: Vec<[f32; 3]>,
    /// Shares of neck and head in the head's turn.
    pub follow: Vec<[f32; 2]>,
    pub triangles: Vec<[u32; 3]>,
    pub parts: Vec<Part>,
}

impl Draft {
    pub fn vertex(&mut self, at: Vec3, blend: [f32; 3], neck: f32, head: f32) -> u32 {
        self.vertex_with(at, Vec3::ZERO, blend, neck, head)
    }

    pub fn vertex_with(&mut self, at: Vec3, normal: Vec3, blend: [f32; 3], neck: f32, head: f32) -> u32 {
        self.positions.push(at);
        self.normals.push(normal);
        self.blend.push(blend);
        self.follow.push([neck, head]);
        (self.positions.len() - 1) as u32
    }

    pub fn triangle(&mut self, corners: [u32; 3], part: Part) {
        let [a, b, c] = corners.map(|v| self.positions[v as usize]);
        // Grids may pinch; a triangle without area only harms what traces rays.
        if (b - a).cross(c - a).length() > 1e-13 {
            self.triangles.push(corners);
            self.parts.push(part);
        }
    }

    pub fn quad(&mut self, q: [u32; 4], part: Part) {
        let [a, b, c, d] = q.map(|v| self.positions[v as usize]);
        if a.distance_squared(c) <= b.distance_squared(d) {
            self.triangle([q[0], q[1], q[2]], part);
            self.triangle([q[0], q[2], q[3]], part);
        } else {
            self.triangle([q[0], q[1], q[3]], part);
            self.triangle([q[1], q[2], q[3]], part);
        }
    }

    /// Works out normals that were not given, from the triangles by angle-free area weight.
    pub fn finish_normals(&mut self) {
        let mut sum = vec![Vec3::ZERO; self.positions.len()];
        for t in &self.triangles {
            let [a, b, c] = t.map(|v| self.positions[v as usize]);
            let n = (b - a).cross(c - a);
            for &v in t {
                sum[v as usize] += n;
            }
        }
        for (normal, sum) in self.normals.iter_mut().zip(&sum) {
            if *normal == Vec3::ZERO {
                *normal = sum.normalize_or(Vec3::Z);
            }
        }
    }
}

impl Draft {
    /// Drops vertices that no triangle uses.
    pub fn drop_unused(&mut self) {
        let mut place = vec![u32::MAX; self.positions.len()];
        let mut used = Vec::new();
        for v in self.triangles.iter_mut().flatten() {
            let slot = &mut place[*v as usize];
            if *slot == u32::MAX {
                *slot = used.len() as u32;
                used.push(*v as usize);
            }
            *v = *slot;
        }
        self.positions = used.iter().map(|v| self.positions[*v]).collect();
        self.normals = used.iter().map(|v| self.normals[*v]).collect();
        self.blend = used.iter().map(|v| self.blend[*v]).collect();
        self.follow = used.iter().map(|v| self.follow[*v]).collect();
    }
}
