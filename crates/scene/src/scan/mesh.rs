//! What every kind of scan is first read into: triangles, each with the piece that it belongs to.

use super::refusal::ScanError;
use glam::Vec3;

/// Scans of a room are decimated to far fewer; more than this is not read (ours).
pub(super) const MOST_TRIANGLES: usize = 2_000_000;

/// Coordinates beyond this are a slip of some program, in whatever unit (ours).
const FARTHEST: f32 = 1e7;

/// One triangle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Facet {
    /// Corners, in the axes of the step at hand.
    pub corners: [Vec3; 3],
    /// Index of its piece.
    pub piece: u32,
    /// Linear base colour, where the file gives one.
    pub colour: Option<Vec3>,
}

impl Facet {
    /// Twice the area along the normal.
    fn cross(&self) -> Vec3 {
        let [a, b, c] = self.corners;
        (b - a).cross(c - a)
    }

    /// Area in square units of length.
    pub fn area(&self) -> f32 {
        0.5 * self.cross().length()
    }

    /// Unit normal by the order of the corners, and area.
    pub fn normal_and_area(&self) -> (Vec3, f32) {
        let cross = self.cross();
        let length = cross.length();
        (cross / length.max(f32::MIN_POSITIVE), 0.5 * length)
    }

    /// Middle of the corners.
    pub fn centre(&self) -> Vec3 {
        (self.corners[0] + self.corners[1] + self.corners[2]) / 3.0
    }

    /// Calls `visit` at points that lie not farther than about `spacing` apart, at least at the middle. Each
    /// point costs one of `budget`; a triangle that the rest cannot pay for gets its middle alone.
    pub fn sample(&self, spacing: f32, budget: &mut usize, mut visit: impl FnMut(Vec3)) {
        let [a, b, c] = self.corners;
        let longest = (b - a).length().max((c - b).length()).max((a - c).length());
        let steps = (longest / spacing).ceil().clamp(1.0, 4000.0) as usize;
        let points = steps * (steps + 1) / 2;
        if steps == 1 || points > *budget {
            visit(self.centre());
            return;
        }
        *budget -= points;
        let step = 1.0 / steps as f32;
        for i in 0..steps {
            for j in 0..steps - i {
                let (s, t) = ((i as f32 + 1.0 / 3.0) * step, (j as f32 + 1.0 / 3.0) * step);
                visit(a + (b - a) * s + (c - a) * t);
            }
        }
    }
}

/// A node, object or group with one material.
#[derive(Clone, Debug, Default)]
pub(super) struct Piece {
    /// What it and then what it belongs to are called, the nearest first.
    pub names: Vec<String>,
    /// What its material is called.
    pub material: Option<String>,
}

/// Everything that a file shows.
#[derive(Debug, Default)]
pub(super) struct Mesh {
    /// Triangles with an area.
    pub facets: Vec<Facet>,
    /// Pieces.
    pub pieces: Vec<Piece>,
    /// Whether colours lie in pictures, which are not read.
    pub textured: bool,
    /// Whether some parts hold points or lines alone.
    pub has_points: bool,
    /// How many triangles had coordinates that are no numbers, or impossibly large ones.
    pub broken: usize,
}

impl Mesh {
    /// Adds a piece and says its index.
    pub fn add_piece(&mut self, piece: Piece) -> u32 {
        self.pieces.push(piece);
        self.pieces.len() as u32 - 1
    }

    /// Adds a triangle; one that is broken is counted, one without area is left out.
    ///
    /// # Errors
    /// Too many triangles.
    pub fn add(&mut self, facet: Facet) -> Result<(), ScanError> {
        if !facet
            .corners
            .iter()
            .all(|p| p.is_finite() && p.abs().max_element() < FARTHEST)
        {
            self.broken += 1;
            return Ok(());
        }
        let area = facet.area();
        if !(area.is_finite() && area > 0.0) {
            return Ok(());
        }
        if self.facets.len() >= MOST_TRIANGLES {
            return Err(ScanError::TooManyTriangles);
        }
        self.facets.push(facet);
        Ok(())
    }
}

/// The value below which a share of the weight lies; sorts the samples. Zero where there are none.
pub(super) fn quantile(samples: &mut [(f32, f32)], share: f64) -> f32 {
    samples.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    sorted_quantile(samples, share)
}

/// The same of samples that are sorted.
pub(super) fn sorted_quantile(samples: &[(f32, f32)], share: f64) -> f32 {
    let total: f64 = samples.iter().map(|(_, weight)| f64::from(*weight)).sum();
    let mut sum = 0.0;
    for (value, weight) in samples {
        sum += f64::from(*weight);
        if sum >= share * total {
            return *value;
        }
    }
    samples.last().map_or(0.0, |(value, _)| *value)
}
