//! The beams of the flash, built once for each zoom and dress.

use answer::{Failure, Job};
use glam::Vec3;
use light::{Beam, HeadDress};
use rayon::prelude::*;
use std::collections::BTreeMap;
use transport::PlacedFlash;

/// The beams of the flash, built once for each zoom and dress.
pub(crate) struct Beams {
    built: BTreeMap<(u32, HeadDress), Beam>,
}

impl Beams {
    /// Every beam that the bag allows.
    pub fn of(job: &Job) -> Result<Self, Failure> {
        let flash = &job.bag.flash;
        let mut wanted: Vec<(f64, HeadDress)> = Vec::new();
        for zoom in flash.zooms() {
            // The bare head is compared with even where it may not be used.
            wanted.push((zoom, HeadDress::Bare));
            let dressed = job.bag.dresses.iter().filter(|&&d| d != HeadDress::Bare);
            wanted.extend(dressed.map(|&dress| (zoom, dress)));
        }
        let built: Result<Vec<_>, _> = wanted
            .into_par_iter()
            .map(|(zoom, dress)| flash.beam(zoom, dress).map(|beam| (key(zoom, dress), beam)))
            .collect();
        Ok(Beams {
            built: built?.into_iter().collect(),
        })
    }

    /// The one beam of an answer.
    pub fn only(job: &Job, zoom_mm: f64, dress: HeadDress) -> Result<Self, Failure> {
        let beam = job.bag.flash.beam(zoom_mm, dress)?;
        Ok(Beams {
            built: BTreeMap::from([(key(zoom_mm, dress), beam)]),
        })
    }

    /// The beam of a zoom and a dress that the bag allows.
    pub fn beam(&self, zoom_mm: f64, dress: HeadDress) -> &Beam {
        &self.built[&key(zoom_mm, dress)]
    }

    /// The placed flash of an attempt, as a point: its window does not matter to meters.
    pub fn placed(&self, zoom_mm: f64, dress: HeadDress, from: Vec3, target: Vec3) -> PlacedFlash {
        let beam = self.beam(zoom_mm, dress).clone();
        PlacedFlash::aimed(beam, from, target, [0.0, 0.0])
    }
}

fn key(zoom_mm: f64, dress: HeadDress) -> (u32, HeadDress) {
    ((zoom_mm * 10.0).round() as u32, dress)
}

/// The settable zoom nearest to a wish.
pub(crate) fn nearest_zoom(job: &Job, wish: f64) -> f64 {
    let zooms: Vec<f64> = job.bag.flash.zooms().collect();
    zooms
        .iter()
        .copied()
        .min_by(|a, b| (a / wish).ln().abs().total_cmp(&(b / wish).ln().abs()))
        .unwrap_or(wish)
}
