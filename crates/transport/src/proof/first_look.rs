//! Through which lens a picture is seen, and what a first look through it finds.

use crate::denoise::Shows;
use crate::rng::Rng;
use crate::room::Room;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::{ObjectKind, Viewpoint};

/// The viewpoint prepared for a picture of a size.
pub(super) struct Lens {
    pub(super) origin: Vec3,
    corner: Vec3,
    step_right: Vec3,
    step_down: Vec3,
}

impl Lens {
    pub(super) fn new(view: &Viewpoint, [width, height]: [usize; 2]) -> Self {
        let half = view.half_extent(width as f32 / height as f32);
        let (right, up, forward) = view.axes();
        Lens {
            origin: view.position,
            corner: forward - right * half.x + up * half.y,
            step_right: right * (2.0 * half.x / width as f32),
            step_down: -up * (2.0 * half.y / height as f32),
        }
    }

    /// Unit direction through a place of the picture, in pixels from its top left corner.
    #[inline]
    pub(super) fn direction(&self, at: Vec2) -> Vec3 {
        (self.corner + self.step_right * at.x + self.step_down * at.y).normalize()
    }

    /// Edge of what a pixel shows of a surface square to the ray, in metres.
    #[inline]
    pub(super) fn footprint(&self, distance: f32) -> f32 {
        self.step_right.length() * distance
    }
}

/// What a first look through the middles of the pixels finds.
pub(super) struct FirstLook {
    /// Which pixels the error is judged by: what must be clean first.
    pub(super) judged: Vec<bool>,
    /// Places and normals of what the picture shows.
    pub(super) points: Vec<(Vec3, Vec3)>,
}

/// Every second pixel of every second row says enough of what a picture shows.
const STEP: usize = 2;

impl FirstLook {
    pub(super) fn new(room: &Room, lens: &Lens, [width, height]: [usize; 2]) -> Self {
        let found: Vec<(Shown, Option<(Vec3, Vec3)>)> = (0..width * height)
            .into_par_iter()
            .map(|index| {
                let (x, y) = (index % width, index / width);
                let direction = lens.direction(Vec2::new(x as f32 + 0.5, y as f32 + 0.5));
                let Some(hit) = room.tracer.closest(lens.origin, direction) else {
                    return (Shown::Other, None);
                };
                let kept = x.is_multiple_of(STEP) && y.is_multiple_of(STEP);
                let point = kept.then(|| {
                    let point = SurfacePoint::new(&room.geometry, &hit, lens.origin, direction);
                    (point.position, point.normal)
                });
                (Shown::of(room, hit.triangle), point)
            })
            .collect();
        let best = found
            .iter()
            .map(|(shown, _)| *shown)
            .max()
            .unwrap_or(Shown::Other);
        FirstLook {
            judged: found.iter().map(|(shown, _)| *shown == best).collect(),
            points: found.iter().filter_map(|(_, point)| *point).collect(),
        }
    }
}

/// Looks through each pixel that tell the filter what it shows.
const LOOKS: usize = 4;
/// What tells their random numbers from all others of the picture.
const SHOWN_SEED: u64 = 0x5705;

/// What every pixel shows: the mean over some looks through it.
pub(super) fn shown(room: &Room, lens: &Lens, [width, height]: [usize; 2], seed: u64) -> Vec<Shows> {
    let seed = seed.wrapping_add(SHOWN_SEED);
    (0..width * height)
        .into_par_iter()
        .map(|index| {
            let mut rng = Rng::new(seed, index as u64);
            let corner = Vec2::new((index % width) as f32, (index / width) as f32);
            let mut mean = Shows::default();
            for look in 0..LOOKS {
                let [x, y] = rng.pair();
                let within = Vec2::new((look % 2) as f32 + x, (look / 2) as f32 + y) * 0.5;
                let direction = lens.direction(corner + within);
                let Some(hit) = room.tracer.closest(lens.origin, direction) else {
                    continue;
                };
                let point = SurfacePoint::new(&room.geometry, &hit, lens.origin, direction);
                mean.reflectance += thirds(&point.reflectance) / LOOKS as f32;
                mean.normal += point.normal / LOOKS as f32;
                mean.place += point.position / LOOKS as f32;
            }
            mean
        })
        .collect()
}

/// The mean over each third of the bands, about.
fn thirds(spectrum: &Spectrum) -> Vec3 {
    let mean = |bands: &[f32]| bands.iter().sum::<f32>() / bands.len() as f32;
    let (blue, rest) = spectrum.0.split_at(spectrum.0.len() / 3);
    let (green, red) = rest.split_at(rest.len() / 2);
    Vec3::new(mean(blue), mean(green), mean(red))
}

/// What a pixel shows, by how much it matters that it is clean.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Shown {
    Other,
    Person,
    Skin,
}

impl Shown {
    fn of(room: &Room, triangle: u32) -> Self {
        let object = room.geometry.object[triangle as usize] as usize;
        if room.geometry.material_of(triangle).overlays.is_some() {
            Shown::Skin
        } else if matches!(room.geometry.objects[object].kind, ObjectKind::Sitter(_)) {
            Shown::Person
        } else {
            Shown::Other
        }
    }
}
