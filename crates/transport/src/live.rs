//! The picture while the flash is being turned: one place of the flash and of the camera, any aim.
//!
//! All that does not change with the aim is found once: what every pixel shows, how it sees the flash, and
//! which parts of the room light it. A frame is then four passes without a ray: the beam on the patches,
//! the patches among each other, the patches onto a few thousand receivers, the receivers and the beam
//! onto the pixels. Every pass is linear in the beam, so frames of two flashes at one place add up.
//!
//! What is left out, against the proof ([`crate::render`]): the coat mirrors the room only as finely as
//! receivers see it, in some hundred parts (the flash's own highlight is exact); light between near parts of
//! one body comes from parts of a few centimetres; between receivers, two to four pixels apart, light from
//! the room is laid over fine folds and hair; the window is a disc that faces whatever it lights. Blocks of
//! 8 x 8 pixels of a face then differ from the proof's by 1 % (root mean square) in direct light and 2 to
//! 3 % in bounced light, at most by 6 to 16 % (lips, eyes, nostrils), and bounced faces are about 1 % too
//! dark in the mean. `tests/live.rs` holds this.

mod bodies;
mod links;
mod pixels;
mod reach;
mod receiver;

use crate::layer::Layer;
use crate::room::{Room, still_to_come};
use crate::source::PlacedFlash;
use bodies::Bodies;
use colour::{BANDS, Spectrum};
use glam::{Mat3, Vec3, Vec4};
use links::{Link, Outlook, Tree};
use pixels::{Choosing, Pixels, Sample};
use rayon::prelude::*;
use reach::{AT_A_TIME, Reach, starts};
use receiver::Receiver;
use scene::Viewpoint;
use std::f32::consts::FRAC_1_PI;

/// Bounces that are followed one by one. What comes after them fades evenly and is added as a whole.
const BOUNCES: usize = 12;
/// Bounces after which light in a room has the pattern in which it fades.
const SETTLED: usize = 24;
/// How far an aim's flash may stand from the prepared place, in metres.
const SAME_PLACE: f32 = 1e-4;

/// A camera view under a flash at one place, ready for any aim.
///
/// The room is not kept, so every call takes it again; it must be the room that the view was made for.
pub struct LiveView {
    place: Vec3,
    width: usize,
    height: usize,
    reach: Reach,
    /// Per band, what is still to come after the last bounce as a multiple of that bounce.
    tail: Spectrum,
    tree: Tree,
    bodies: Bodies,
    pixels: Pixels,
    links: Vec<Link>,
    /// First link of every receiver and, at the end, their number.
    first_link: Vec<u32>,
}

/// Three weights per band that turn light of a flat source into what a display or an eye is given: the
/// power of the lamp in each band times the observer, for each of three channels.
pub type Observer = [Spectrum; 3];

impl LiveView {
    /// Prepares a view of `size` pixels (across, down) under a flash at the place of `flash`, whose aim and
    /// beam do not matter here (the size of its window does). The same seed gives the same view whatever the number of threads.
    pub fn new(room: &Room, view: &Viewpoint, size: [usize; 2], flash: &PlacedFlash, seed: u64) -> Self {
        let tree = Tree::new(room);
        let look = |receivers: Vec<Receiver>, first: usize| -> Vec<Outlook> {
            let place = |index: usize| (first + index) as u64;
            receivers
                .par_iter()
                .enumerate()
                .map(|(index, receiver)| tree.look_round(room, receiver, seed, place(index)))
                .collect()
        };
        let mut choosing = Choosing::new(room, view, size, flash);
        let mut views = look(choosing.receivers(0), 0);
        choosing.refine(&views.iter().map(Outlook::open).collect::<Vec<f32>>());
        let pixels = choosing.serve();
        let known = views.len();
        views.extend(look(pixels.receivers[known..].to_vec(), known));
        let (bodies, links) = connect(room, flash, &tree, &pixels, views, seed);
        LiveView {
            place: flash.position,
            width: size[0],
            height: size[1],
            reach: Reach::new(room, flash.position),
            tail: tail(room),
            tree,
            pixels,
            bodies,
            first_link: starts(links.iter().map(Vec::len)),
            links: links.into_iter().flatten().collect(),
        }
    }

    /// Width and height in pixels.
    pub fn size(&self) -> [usize; 2] {
        [self.width, self.height]
    }

    /// Places at which light from the room is gathered.
    pub fn receivers(&self) -> usize {
        self.pixels.receivers.len()
    }

    /// Patches and groups of patches that are read in a frame, over all receivers.
    pub fn links(&self) -> usize {
        self.links.len()
    }

    /// Direct irradiance of every patch from an aim, in lx s at full power, as [`Room::direct_from`] gives it.
    ///
    /// # Panics
    /// If the flash is not at the prepared place.
    pub fn patch_irradiance(&self, flash: &PlacedFlash) -> Vec<f32> {
        self.check(flash);
        self.reach.irradiance(flash)
    }

    /// Radiosity of every patch when the flash gives the patches this irradiance: all bounces, like
    /// [`Room::solve`] but in a fixed number of steps, which keeps it linear.
    pub fn radiosity(&self, room: &Room, patch_irradiance: &[f32]) -> Vec<Spectrum> {
        let list = &room.patches.list;
        let mut wave: Vec<Spectrum> = list
            .iter()
            .zip(patch_irradiance)
            .map(|(patch, &e)| patch.reflectance * e)
            .collect();
        let mut total = wave.clone();
        for bounce in 1..=BOUNCES {
            wave = bounced(room, &wave);
            let more = if bounce == BOUNCES {
                Spectrum::ONE + self.tail
            } else {
                Spectrum::ONE
            };
            for (sum, &step) in total.iter_mut().zip(&wave) {
                *sum += step * more;
            }
        }
        total
    }

    /// The picture of an aim in all bands: radiance in cd s m⁻² at full power of a flat source.
    ///
    /// # Panics
    /// If the flash is not at the prepared place.
    pub fn layer(&self, room: &Room, flash: &PlacedFlash) -> Layer {
        let received = self.received(room, flash);
        let head_from_world = flash.world_from_head.transpose();
        let pixels = self
            .pixels
            .first
            .par_windows(2)
            .with_min_len(AT_A_TIME)
            .map(|pixel| {
                self.pixels.samples[pixel[0] as usize..pixel[1] as usize]
                    .iter()
                    .map(|sample| radiance(room, flash, head_from_world, sample, &received))
                    .sum()
            })
            .collect();
        Layer {
            width: self.width,
            height: self.height,
            pixels,
        }
    }

    /// The picture of an aim as three numbers per pixel, row by row from the top left: the same as weighing
    /// every pixel of [`LiveView::layer`] by the observer's three spectra, and cheaper.
    ///
    /// # Panics
    /// If the flash is not at the prepared place.
    pub fn tristimulus(&self, room: &Room, flash: &PlacedFlash, observer: &Observer) -> Vec<[f32; 3]> {
        let palette = Palette::new(room, observer);
        let received: Vec<[Vec4; 5]> = self
            .received(room, flash)
            .par_iter()
            .zip(&self.pixels.materials)
            .with_min_len(AT_A_TIME)
            .map(|(light, &material)| palette.under(material, light))
            .collect();
        let head_from_world = flash.world_from_head.transpose();
        self.pixels
            .first
            .par_windows(2)
            .with_min_len(AT_A_TIME)
            .map(|pixel| {
                let sum: Vec4 = self.pixels.samples[pixel[0] as usize..pixel[1] as usize]
                    .iter()
                    .map(|sample| palette.colour(flash, head_from_world, sample, &received))
                    .sum();
                sum.truncate().to_array()
            })
            .collect()
    }

    /// What every receiver gets by way of the room.
    fn received(&self, room: &Room, flash: &PlacedFlash) -> Vec<Received> {
        let radiosity = self.radiosity(room, &self.patch_irradiance(flash));
        let bodies: Vec<Spectrum> = self.bodies.radiosity(flash, &radiosity).collect();
        let mut nodes = self.tree.fill(radiosity);
        nodes.extend(bodies);
        self.first_link
            .par_windows(2)
            .zip(&self.pixels.receivers)
            .with_min_len(AT_A_TIME / 8)
            .map(|(own, receiver)| {
                let links = &self.links[own[0] as usize..own[1] as usize];
                let mut received = Received::default();
                for link in links {
                    received.even += nodes[link.node as usize] * link.weight;
                }
                if receiver.coat.is_some() {
                    for link in links {
                        received.mirrored += nodes[link.node as usize] * link.gloss;
                    }
                }
                received
            })
            .collect()
    }

    fn check(&self, flash: &PlacedFlash) {
        assert!(
            flash.position.distance(self.place) <= SAME_PLACE,
            "the view was prepared for a flash at {}, not at {}",
            self.place,
            flash.position
        );
    }
}

/// What a receiver gets by way of the room.
#[derive(Clone, Copy, Default)]
struct Received {
    /// Irradiance.
    even: Spectrum,
    /// Mean radiosity of what the coat mirrors towards the camera.
    mirrored: Spectrum,
}

/// Makes the parts of bodies that receivers see, and puts together what lights each receiver.
fn connect(
    room: &Room,
    flash: &PlacedFlash,
    tree: &Tree,
    pixels: &Pixels,
    views: Vec<Outlook>,
    seed: u64,
) -> (Bodies, Vec<Vec<Link>>) {
    let (seen, links): (Vec<_>, Vec<_>) = views.into_iter().map(Outlook::split).unzip();
    let bodies = Bodies::new(room, flash, &pixels.receivers, &seen, seed);
    let links = links
        .into_par_iter()
        .zip(&seen)
        .map(|(links, glimpses)| links::merge(links, glimpses, &bodies, tree.len()))
        .collect();
    (bodies, links)
}

/// One bounce: what leaves the patches when this much left them before.
fn bounced(room: &Room, wave: &[Spectrum]) -> Vec<Spectrum> {
    let mut next = room.gather_all(wave);
    next.iter_mut()
        .zip(&room.patches.list)
        .for_each(|(arriving, patch)| *arriving *= patch.reflectance);
    next
}

/// Light that has bounced often has lost its first pattern and fades by one factor per bounce, another in
/// every band (the largest eigenvalue, by power iteration). What is still to come is then a geometric sum.
fn tail(room: &Room) -> Spectrum {
    let size = |wave: &[Spectrum]| -> Spectrum {
        wave.iter()
            .zip(&room.patches.list)
            .map(|(b, patch)| *b * patch.area)
            .sum()
    };
    let mut wave: Vec<Spectrum> = room.patches.list.iter().map(|p| p.reflectance).collect();
    let mut fading = Spectrum::ZERO;
    for _ in 0..SETTLED {
        let next = bounced(room, &wave);
        fading = size(&next).zip(
            &size(&wave),
            |after, before| if before > 0.0 { after / before } else { 0.0 },
        );
        wave = next;
    }
    fading.map(still_to_come)
}

/// Radiance of a sample in all bands.
fn radiance(
    room: &Room,
    flash: &PlacedFlash,
    head_from_world: Mat3,
    sample: &Sample,
    received: &[Received],
) -> Spectrum {
    let material = &room.geometry.materials[sample.material as usize];
    let mut base = material.reflectance * sample.paints[0];
    if let Some(overlays) = &material.overlays {
        for (overlay, &share) in overlays.iter().zip(&sample.paints[1..]) {
            base += *overlay * share;
        }
    }
    let (mut even, mut mirrored) = (Spectrum::ZERO, Spectrum::ZERO);
    for (&receiver, &weight) in sample.receivers.iter().zip(&sample.weights) {
        even += received[receiver as usize].even * (weight * FRAC_1_PI);
        mirrored += received[receiver as usize].mirrored * (weight * FRAC_1_PI);
    }
    let straight = straight(flash, head_from_world, sample);
    base * (even * sample.even + Spectrum::splat(straight * sample.straight))
        + mirrored * sample.coat
        + Spectrum::splat(straight * sample.gloss)
}

/// Intensity of the flash towards a sample; zero where it would not matter.
#[inline]
fn straight(flash: &PlacedFlash, head_from_world: Mat3, sample: &Sample) -> f32 {
    if sample.straight == 0.0 && sample.gloss == 0.0 {
        return 0.0;
    }
    flash.beam.intensity(head_from_world * sample.direction)
}

/// How the paints of all materials look to an observer.
struct Palette(Vec<Paints>);

/// One material: per band, what each paint (base, three overlays, white coat) adds to the three numbers.
struct Paints {
    by_band: [[Vec4; BANDS]; 5],
    /// The same added up over the bands: how it looks in light of a flat spectrum.
    flat: [Vec4; 5],
    overlaid: bool,
    coated: bool,
}

impl Palette {
    fn new(room: &Room, observer: &Observer) -> Self {
        let [x, y, z] = observer;
        let look = |paint: &Spectrum| -> [Vec4; BANDS] {
            std::array::from_fn(|b| Vec4::new(x.0[b], y.0[b], z.0[b], 0.0) * paint.0[b])
        };
        Palette(
            room.geometry
                .materials
                .iter()
                .map(|material| {
                    let over = |i: usize| material.overlays.as_ref().map_or(Spectrum::ZERO, |o| o[i]);
                    let paints = [material.reflectance, over(0), over(1), over(2), Spectrum::ONE];
                    let by_band = paints.map(|paint| look(&paint));
                    Paints {
                        flat: by_band.map(|bands| bands.iter().sum()),
                        by_band,
                        overlaid: material.overlays.is_some(),
                        coated: material.coat.is_some(),
                    }
                })
                .collect(),
        )
    }

    /// How a material's paints look in what a receiver gets.
    fn under(&self, material: u16, light: &Received) -> [Vec4; 5] {
        let paints = &self.0[material as usize];
        let look = |index: usize| -> Vec4 {
            let bands = if index == 4 { &light.mirrored } else { &light.even };
            let mut sum = Vec4::ZERO;
            for (colour, &light) in paints.by_band[index].iter().zip(&bands.0) {
                sum += *colour * light;
            }
            sum * FRAC_1_PI
        };
        std::array::from_fn(|index| match index {
            1..=3 if !paints.overlaid => Vec4::ZERO,
            4 if !paints.coated => Vec4::ZERO,
            _ => look(index),
        })
    }

    /// The three numbers of a sample, and a fourth without meaning.
    #[inline]
    fn colour(
        &self,
        flash: &PlacedFlash,
        head_from_world: Mat3,
        sample: &Sample,
        received: &[[Vec4; 5]],
    ) -> Vec4 {
        let paints = &self.0[sample.material as usize];
        let straight = straight(flash, head_from_world, sample);
        let one = |index: usize| -> Vec4 {
            let mut even = Vec4::ZERO;
            for (&receiver, &weight) in sample.receivers.iter().zip(&sample.weights) {
                even += received[receiver as usize][index] * weight;
            }
            even
        };
        let base = |index: usize| -> Vec4 {
            (one(index) * sample.even + paints.flat[index] * (straight * sample.straight))
                * sample.paints[index]
        };
        let mut sum = base(0);
        if paints.overlaid {
            sum += base(1) + base(2) + base(3);
        }
        if paints.coated {
            sum += one(4) * sample.coat + paints.flat[4] * (straight * sample.gloss);
        }
        sum
    }
}
