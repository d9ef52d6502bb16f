//! Rays per second through our tracer on one thread, and the same rays left in the target folder so that
//! another ray tracer can be timed on them and must find the same hits. One JSON line per set of rays.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

#[path = "../tests/oracle/mod.rs"]
mod oracle;

use glam::{Vec2, Vec3};
use serde_json::json;
use std::path::{Path, PathBuf};
use std::time::Instant;
use transport::{SurfacePoint, Tracer};

/// Rays in each set: a square number.
const SIDE: usize = 1000;
const RUNS: usize = 5;

fn main() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("independent/rays");
    std::fs::create_dir_all(&folder).unwrap();
    let setup = oracle::white_wall().portrait();
    let geometry = &setup.geometry;
    let corners: Vec<Vec3> = (0..geometry.triangles.len() as u32)
        .flat_map(|t| geometry.corners(t))
        .collect();
    write_vectors(&folder.join("triangles.f32"), corners.iter().copied());

    let begun = Instant::now();
    let tracer = Tracer::new(geometry);
    let build = begun.elapsed().as_secs_f64();

    // Neighbouring rays from the camera, and rays from what they meet into all directions.
    let mut random = Scramble(1);
    let mut coherent = Vec::with_capacity(SIDE * SIDE);
    let mut incoherent = Vec::with_capacity(SIDE * SIDE);
    for index in 0..SIDE * SIDE {
        let at = Vec2::new((index % SIDE) as f32 + 0.5, (index / SIDE) as f32 + 0.5) / SIDE as f32;
        let direction = setup.view.direction(at, 0.8);
        coherent.push((setup.view.position, direction));
        let hit = tracer.closest(setup.view.position, direction).unwrap();
        let point = SurfacePoint::new(geometry, &hit, setup.view.position, direction);
        let away = (point.flat + random.on_sphere()).normalize_or(point.flat);
        incoherent.push((point.position + point.flat * 1e-3, away));
    }
    for index in (1..incoherent.len()).rev() {
        incoherent.swap(index, (random.unit() * (index + 1) as f32) as usize % (index + 1));
    }
    for (name, rays) in [("coherent", coherent), ("incoherent", incoherent)] {
        write_vectors(
            &folder.join(format!("{name}-origins.f32")),
            rays.iter().map(|r| r.0),
        );
        write_vectors(
            &folder.join(format!("{name}-directions.f32")),
            rays.iter().map(|r| r.1),
        );
        let mut distances = vec![0.0f32; rays.len()];
        let mut rates: Vec<f64> = (0..RUNS)
            .map(|_| {
                let begun = Instant::now();
                for (distance, &(origin, direction)) in distances.iter_mut().zip(&rays) {
                    *distance = tracer
                        .closest(origin, direction)
                        .map_or(f32::INFINITY, |hit| hit.distance);
                }
                rays.len() as f64 / begun.elapsed().as_secs_f64() / 1e6
            })
            .collect();
        let bytes: Vec<u8> = distances.iter().flat_map(|d| d.to_le_bytes()).collect();
        std::fs::write(folder.join(format!("{name}-distances.f32")), bytes).unwrap();
        rates.sort_by(f64::total_cmp);
        let line = json!({
            "program": "ours",
            "rays": name,
            "triangles": geometry.triangles.len(),
            "build_s": build,
            "million_rays_per_s": rates[RUNS / 2],
            "best": rates[RUNS - 1],
        });
        println!("{line}");
    }
}

fn write_vectors(path: &Path, vectors: impl Iterator<Item = Vec3>) {
    let bytes: Vec<u8> = vectors
        .flat_map(|v| v.to_array())
        .flat_map(f32::to_le_bytes)
        .collect();
    std::fs::write(path, bytes).unwrap();
}

/// A small random sequence (SplitMix64: Steele, Lea & Flood 2014).
struct Scramble(u64);

impl Scramble {
    fn unit(&mut self) -> f32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let x = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((x ^ (x >> 31)) >> 40) as f32 / (1u64 << 24) as f32
    }

    fn on_sphere(&mut self) -> Vec3 {
        let z = 1.0 - 2.0 * self.unit();
        let (sin, cos) = (std::f32::consts::TAU * self.unit()).sin_cos();
        let radius = (1.0 - z * z).max(0.0).sqrt();
        Vec3::new(radius * cos, radius * sin, z)
    }
}
