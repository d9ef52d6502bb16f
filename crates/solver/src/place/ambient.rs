//! The light that is there without the flash, as it arrives at the first face.

use crate::place::amounts::Amounts;
use crate::place::meters::{AtMeters, FacePoints};
use answer::{AmbientFrom, AmbientLevel, DaylightHere, DaylightPart, Job, LightName, MeterFacing};
use camera::illuminance_of;
use colour::{LightColour, Spectrum};
use glam::Vec3;
use light::{CieSky, Lamp, SkyKind};
use rayon::prelude::*;
use scene::Stage;
use scene::figure::LandmarkName;
use transport::{Meter, Outside, Receptor, Room, SolvedLight, Source, SunBeam, read_light};
use units::{Kelvin, Stops};

/// Rays of a meter that the answer's numbers come from.
pub(crate) const FACE_RAYS: usize = 4096;
/// Rays of a meter that is only asked for its colour.
pub(crate) const ZONE_RAYS: usize = 1024;
/// Rays of each of the many meters on the skin.
pub(crate) const SKIN_RAYS: usize = 256;

/// An ambient light with what it gives at the first sitter's face.
pub(crate) struct AmbientThere {
    pub name: LightName,
    pub source: Source,
    pub colour: LightColour,
    /// Colour temperature, as it was described or computed.
    pub kelvin: Kelvin,
    /// Factor on the unit source that makes the model agree with the photographer's reading.
    pub scale: f32,
    /// What it does to every surface, at unit strength.
    pub light: SolvedLight,
    /// Illuminance at the face, dome towards the camera, in lx.
    pub dome_lx: f64,
    /// Illuminance as metered, in lx.
    pub metered_lx: f64,
    /// Per-band light at every meter, of a flat unit source times the scale.
    pub at: AtMeters<Spectrum>,
    /// The same at the landmarks of the first face that the camera sees.
    pub landmarks: Vec<(LandmarkName, Spectrum)>,
    /// The same on its skin, with the normals there.
    pub skin: Vec<(Vec3, Spectrum)>,
    /// How far a reading lies from what was computed, where both are known.
    pub off_computed: Option<Stops>,
}

impl AmbientThere {
    /// Makes it this many times as strong.
    fn scale_by(&mut self, factor: f64) {
        self.scale *= factor as f32;
        self.dome_lx *= factor;
        self.metered_lx *= factor;
        self.at = self.at.map(|light| light * factor as f32);
        for (_, light) in &mut self.landmarks {
            *light *= factor as f32;
        }
        for (_, light) in &mut self.skin {
            *light *= factor as f32;
        }
    }

    /// Mean light on what is seen behind everyone.
    pub fn background(&self) -> Spectrum {
        mean_of(&self.at.background)
    }
}

/// The mean of some readings.
pub(crate) fn mean_of(light: &[Spectrum]) -> Spectrum {
    let sum = light.iter().fold(Spectrum::ZERO, |sum, light| sum + *light);
    sum * (1.0 / light.len().max(1) as f32)
}

/// Several lights together at the meters, in lx.
pub(crate) fn sum_of(lights: &[AmbientThere]) -> Amounts {
    let each = |there: &AmbientThere| {
        let weights = there.colour.luminous_weights();
        let (landmarks, skin) = (there.landmarks.iter(), there.skin.iter());
        Amounts {
            landmarks: landmarks.map(|(at, light)| (*at, light.dot(&weights))).collect(),
            skin: skin
                .map(|(normal, light)| (*normal, light.dot(&weights)))
                .collect(),
            ..Amounts::of(&there.at, &weights)
        }
    };
    let mut lights = lights.iter();
    let mut sum = lights.next().map(each).unwrap_or_default();
    lights.for_each(|there| sum.add(&each(there), 1.0));
    sum
}

/// Illuminance of several lights together at the first face, dome towards the camera, in lx.
pub(crate) fn all_lx(lights: &[AmbientThere]) -> f64 {
    lights.iter().map(|there| there.dome_lx).sum()
}

/// Every light that is there without the flash, as it arrives at the first face.
pub(crate) fn ambients_there(
    job: &Job,
    stage: &Stage,
    room: &Room,
    points: &FacePoints,
) -> Vec<AmbientThere> {
    let scene = Reader {
        job,
        stage,
        room,
        points,
        meters: AtMeters::new(job, stage, room, points),
    };
    let mut there: Vec<AmbientThere> = (0..job.ambients.len())
        .map(|index| ambient_there(&scene, index))
        .collect();
    if let Some(outdoors) = &job.outdoors {
        there.extend(daylight_there(&scene, outdoors));
    }
    there
}

/// Sky and sun as they come in, scaled together to the photographer's reading where there is one.
fn daylight_there(scene: &Reader<'_>, outdoors: &DaylightHere) -> Vec<AmbientThere> {
    let Reader { job, stage, .. } = *scene;
    let around = &job.place.around();
    let mut parts: Vec<(&DaylightPart, Outside)> = Vec::new();
    let sky = Outside::sky(outdoors.pattern, around, &job.place, &stage.geometry);
    parts.push((&outdoors.sky, sky));
    if let Some(disc) = &outdoors.disc {
        let beam = SunBeam {
            towards: disc.towards,
            half_angle: disc.half_angle,
        };
        if let Some(sun) = Outside::sun(beam, around, &job.place, &stage.geometry) {
            parts.push((&disc.light, sun));
        }
    }
    parts.retain(|(part, outside)| outside.comes_in() && part.illuminance.value() > 0.0);
    let facing = outdoors.reading.map_or(MeterFacing::Camera, |(_, facing)| facing);
    let mut there: Vec<AmbientThere> = parts
        .into_iter()
        .map(|(part, outside)| {
            let source = Source::Outside(Box::new(outside));
            let mut there = scene.unit_light(part.name.clone(), source, part.colour, part.kelvin, facing);
            there.scale_by(part.illuminance.value());
            there
        })
        .collect();
    if let Some((reading, _)) = outdoors.reading {
        let computed: f64 = there.iter().map(|part| part.metered_lx).sum();
        let factor = illuminance_of(reading).value() / computed.max(1e-9);
        for part in &mut there {
            part.scale_by(factor);
            part.off_computed = Some(Stops(factor.log2()));
        }
    }
    there
}

/// The built place in which ambient light is read.
struct Reader<'a> {
    job: &'a Job,
    stage: &'a Stage,
    room: &'a Room,
    points: &'a FacePoints,
    meters: AtMeters<Meter>,
}

impl Reader<'_> {
    /// A source of unit strength as it arrives at the first face.
    fn unit_light(
        &self,
        name: LightName,
        source: Source,
        colour: LightColour,
        kelvin: Kelvin,
        facing: MeterFacing,
    ) -> AmbientThere {
        let Reader { room, points, .. } = *self;
        let light = room.solve(&source);
        let read = |meter: &Meter, rays: usize| read_light(room, &source, &light, meter, rays);
        let dome = read(&points.dome, FACE_RAYS);
        let landmarks = points
            .seen
            .par_iter()
            .map(|(name, meter)| (*name, read(meter, ZONE_RAYS)));
        let skin = points
            .skin
            .par_iter()
            .map(|&(normal, meter)| (normal, read(&meter, SKIN_RAYS)));
        let metered = as_metered(room, &source, &light, points, facing, dome);
        AmbientThere {
            name,
            colour,
            kelvin,
            scale: 1.0,
            dome_lx: f64::from(colour.luminous(&dome)),
            metered_lx: f64::from(colour.luminous(&metered)),
            at: AtMeters {
                dome,
                ..self.meters.read(|meter| read(&meter, ZONE_RAYS))
            },
            landmarks: landmarks.collect(),
            skin: skin.collect(),
            off_computed: None,
            source,
            light,
        }
    }
}

/// What a meter at the face reads that faces the camera, or the light itself.
fn as_metered(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    points: &FacePoints,
    facing: MeterFacing,
    dome: Spectrum,
) -> Spectrum {
    match facing {
        MeterFacing::Camera => dome,
        MeterFacing::Source => {
            let towards = light_vector(room, source, light, &points.along);
            let flat = Meter {
                position: points.dome.position,
                receptor: Receptor::Flat(towards),
            };
            read_light(room, source, light, &flat, FACE_RAYS)
        }
    }
}

/// Scales an ambient light so that the model reads what the photographer read, or so that its lamp gives its flux.
fn ambient_there(scene: &Reader<'_>, index: usize) -> AmbientThere {
    let Reader { job, stage, .. } = *scene;
    let ambient = &job.ambients[index];
    let source = ambient_source(job, index, stage);
    let mut there = scene.unit_light(
        LightName::Given {
            name: ambient.name.clone(),
        },
        source,
        ambient.colour,
        ambient.kelvin,
        ambient.facing,
    );
    there.scale_by(match ambient.reading {
        AmbientLevel::Reading(level) => illuminance_of(level).value() / there.metered_lx.max(1e-9),
        AmbientLevel::Lumens(lumens) => Lamp::luminance(lumens, f64::from(ambient.lamp.edge_m)),
    });
    there
}

/// The source of an ambient light at unit strength.
fn ambient_source(job: &Job, index: usize, stage: &Stage) -> Source {
    let objects = |wanted: scene::ObjectKind| -> Vec<usize> {
        let matching = stage.geometry.objects.iter().enumerate();
        matching
            .filter(|(_, object)| object.kind == wanted)
            .map(|(i, _)| i)
            .collect()
    };
    match job.ambients[index].from {
        // Outdoors, light from all round is an even sky.
        AmbientFrom::AllRound if job.place.has_open_sides() => {
            let kind = SkyKind::standard(5).expect("type 5 is one of the fifteen");
            let even = CieSky::new(kind, Vec3::Z);
            let sky = Outside::sky(even, &job.place.around(), &job.place, &stage.geometry);
            Source::Outside(Box::new(sky))
        }
        AmbientFrom::AllRound => Source::AllRound,
        AmbientFrom::Opening(opening) => Source::Glowing(objects(scene::ObjectKind::Opening(opening))),
        AmbientFrom::Lamp(_) => {
            // Lamps stand behind the place's own boards, in the order of the ambient lights.
            let before = job.ambients[..index]
                .iter()
                .filter(|a| matches!(a.from, AmbientFrom::Lamp(_)))
                .count();
            let panel = objects(scene::ObjectKind::Panel(job.place.panels.len() + before));
            Source::Glowing(panel.into_iter().take(1).collect())
        }
    }
}

/// Unit direction of the light vector of a solved light.
fn light_vector(room: &Room, source: &Source, light: &SolvedLight, along: &[Meter; 3]) -> Vec3 {
    let component = |i: usize| read_light(room, source, light, &along[i], FACE_RAYS).mean();
    Vec3::new(component(0), component(1), component(2))
        .try_normalize()
        .unwrap_or(Vec3::NEG_Y)
}
