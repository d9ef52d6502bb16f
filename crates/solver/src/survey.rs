//! The place as the search sees it: the solved room, the meters at the faces, the light that is there.

use crate::{AmbientFrom, FlashStand, Job, MeterFacing, SolverError};
use camera::illuminance_of;
use colour::{LightColour, Spectrum};
use glam::{Vec2, Vec3};
use scene::{Material, Panel, Stage, assemble};
use transport::{Fineness, Meter, Receptor, Room, SolvedMeter, Source, ViewFromFlash, read_light};

/// How far in front of the face a meter is held, in metres.
const METER_REACH: f32 = 0.13;
/// How far a cheek meter turns from the nose, in radians: the near and the far side of a face are read at
/// about 50° (ours), where the lit and the shadow side differ as the eye sees them.
const CHEEK_TURN: f32 = 50.0 / 180.0 * std::f32::consts::PI;
/// How far a cheek meter is held off the skin, in metres.
const CHEEK_LIFT: f32 = 0.02;
/// How far a flat meter is lifted off the skin, in metres.
const SKIN_LIFT: f32 = 0.0015;
/// Height of a shoe-mounted flash over the lens, in metres (common practice).
const SHOE_HEIGHT: f32 = 0.12;
/// Edge of the lamp that stands for "a lamp there", in metres.
const LAMP_EDGE: f32 = 0.5;

/// The meters of the first sitter's face that the search reads.
pub(crate) struct FaceMeters {
    /// Dome towards the camera: what the exposure is judged by.
    pub dome: SolvedMeter,
    /// Light vector along x, y and z.
    pub along: [SolvedMeter; 3],
    /// Cheek on the camera's left and on the camera's right.
    pub cheeks: [SolvedMeter; 2],
    /// Forehead and the eye socket on the camera's left and right.
    pub forehead: SolvedMeter,
    /// Eye sockets.
    pub sockets: [SolvedMeter; 2],
}

/// An ambient light with what it gives at the first sitter's face.
pub(crate) struct AmbientThere {
    pub name: String,
    pub source: Source,
    pub colour: LightColour,
    /// Factor on the unit source that makes the model agree with the photographer's reading.
    pub scale: f32,
    /// Illuminance at the face, dome towards the camera, in lx.
    pub dome_lx: f64,
    /// Illuminance as metered, in lx.
    pub metered_lx: f64,
    /// Per-band illuminance at the face, dome towards the camera, of a flat unit source times the scale.
    pub dome: Spectrum,
}

/// The surveyed place.
pub(crate) struct Survey {
    pub stage: Stage,
    pub room: Room,
    pub view: ViewFromFlash,
    pub flash: Vec3,
    pub face: FaceMeters,
    /// Dome towards the camera at every other sitter.
    pub others: Vec<SolvedMeter>,
    pub ambients: Vec<AmbientThere>,
}

/// The meters that a sitter's face is read with, by name.
pub(crate) struct FacePoints {
    pub dome: Meter,
    pub along: [Meter; 3],
    /// Flat meters at the cheeks on the camera's left and right, turned to the side as a hand-held meter
    /// would be.
    pub cheeks: [Meter; 2],
    pub landmarks: Vec<(&'static str, Meter)>,
}

/// Where the flash is.
pub(crate) fn flash_position(job: &Job) -> Vec3 {
    match job.ask.stand {
        FlashStand::OnCamera => {
            let mut at = job.viewpoint.position + Vec3::Z * SHOE_HEIGHT;
            at.z = at.z.min(job.place.room.size.z - 0.05);
            at
        }
        FlashStand::At(point) => point,
    }
}

/// The meters at the face of a sitter.
pub(crate) fn face_points(stage: &Stage, sitter: usize, camera: Vec3) -> FacePoints {
    let person = &stage.sitters[sitter];
    let towards = (camera - person.face).try_normalize().unwrap_or(person.facing);
    let held = person.face + person.facing * METER_REACH - Vec3::Z * 0.03;
    let meter = |receptor| Meter {
        position: held,
        receptor,
    };
    FacePoints {
        dome: meter(Receptor::Dome(towards)),
        along: [Vec3::X, Vec3::Y, Vec3::Z].map(|axis| meter(Receptor::Along(axis))),
        // The sitter's own left is the camera's right when they look at each other.
        cheeks: [("cheek_upper_right", -1.0), ("cheek_upper_left", 1.0)].map(|(name, side)| {
            let normal = glam::Quat::from_rotation_z(side * CHEEK_TURN) * person.facing;
            let skin = person.landmark(name).map_or(held, |mark| mark.position);
            Meter {
                position: skin + normal * CHEEK_LIFT,
                receptor: Receptor::Flat(normal),
            }
        }),
        landmarks: person
            .landmarks
            .iter()
            .map(|(name, mark)| {
                let position = mark.position + mark.normal * SKIN_LIFT;
                (
                    *name,
                    Meter {
                        position,
                        receptor: Receptor::Flat(mark.normal),
                    },
                )
            })
            .collect(),
    }
}

impl FacePoints {
    /// A landmark's meter.
    pub fn landmark(&self, name: &str) -> Meter {
        self.landmarks
            .iter()
            .find(|(known, _)| *known == name)
            .map_or(self.dome, |(_, meter)| *meter)
    }
}

/// The place of a job with the lamps that its ambient lights need.
pub(crate) fn furnished(job: &Job) -> scene::Place {
    let mut place = job.place.clone();
    for ambient in &job.ambients {
        if let AmbientFrom::Lamp(at) = ambient.from {
            place.panels.push(lamp_panel(&ambient.name, at, place.room.size));
        }
    }
    place
}

/// A lamp of about half a metre that shines down from a point.
fn lamp_panel(name: &str, at: Vec3, room: Vec3) -> Panel {
    let half = 0.5 * LAMP_EDGE + 0.01;
    let centre = at.clamp(Vec3::new(half, half, 0.02), room - Vec3::new(half, half, 0.02));
    Panel {
        name: name.to_owned(),
        centre,
        normal: Vec3::NEG_Z,
        up: Vec3::Y,
        size: Vec2::splat(LAMP_EDGE),
        front: Material::matt(name, Spectrum::splat(0.3)),
        back: None,
        held: false,
    }
}

/// The source of an ambient light at unit strength.
pub(crate) fn ambient_source(job: &Job, index: usize, stage: &Stage) -> Source {
    let objects = |wanted: scene::ObjectKind| -> Vec<usize> {
        let matching = stage.geometry.objects.iter().enumerate();
        matching
            .filter(|(_, object)| object.kind == wanted)
            .map(|(i, _)| i)
            .collect()
    };
    match job.ambients[index].from {
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

impl Survey {
    /// Builds and solves the place of a job.
    pub fn new(job: &Job, seed: u64) -> Result<Survey, SolverError> {
        if job.sitters.is_empty() {
            return Err(SolverError::NobodyThere);
        }
        let flash = flash_position(job);
        if !job.place.room.contains(flash, 0.01) {
            return Err(SolverError::FlashOutside);
        }
        let stage = assemble(&furnished(job), &job.sitters)?;
        let fineness = Fineness::search_in(job.place.room.area());
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let camera = job.viewpoint.position;
        let points = face_points(&stage, 0, camera);
        let mut meters = vec![points.dome];
        meters.extend(points.along);
        meters.extend(points.cheeks);
        for name in ["forehead", "eye_socket_right", "eye_socket_left"] {
            meters.push(points.landmark(name));
        }
        meters.extend((1..stage.sitters.len()).map(|i| face_points(&stage, i, camera).dome));
        let mut solved = SolvedMeter::solve(&room, &meters, 4096).into_iter();
        let mut next = || solved.next().expect("one solved meter for each meter");
        let face = FaceMeters {
            dome: next(),
            along: [next(), next(), next()],
            cheeks: [next(), next()],
            forehead: next(),
            sockets: [next(), next()],
        };
        let others = (1..stage.sitters.len()).map(|_| next()).collect();
        let view = ViewFromFlash::new(&room, flash);
        let ambients = (0..job.ambients.len())
            .map(|i| ambient_there(job, i, &stage, &room, &points))
            .collect();
        Ok(Survey {
            stage,
            room,
            view,
            flash,
            face,
            others,
            ambients,
        })
    }

    /// Illuminance of all ambient light at the first face, dome towards the camera, in lx.
    pub fn ambient_lx(&self) -> f64 {
        self.ambients.iter().map(|a| a.dome_lx).sum()
    }
}

/// Scales an ambient light so that the model reads what the photographer read.
pub(crate) fn ambient_there(
    job: &Job,
    index: usize,
    stage: &Stage,
    room: &Room,
    points: &FacePoints,
) -> AmbientThere {
    let ambient = &job.ambients[index];
    let source = ambient_source(job, index, stage);
    let light = room.solve(&source);
    let dome = read_light(room, &source, &light, &points.dome, 4096);
    let as_metered = match ambient.facing {
        MeterFacing::Camera => dome,
        MeterFacing::Source => {
            let towards = light_vector(room, &source, &light, &points.along);
            let flat = Meter {
                position: points.dome.position,
                receptor: Receptor::Flat(towards),
            };
            read_light(room, &source, &light, &flat, 4096)
        }
    };
    let metered_lx = illuminance_of(ambient.reading).value();
    let model = ambient.colour.luminous(&as_metered).max(1e-9);
    let scale = metered_lx as f32 / model;
    AmbientThere {
        name: ambient.name.clone(),
        source,
        colour: ambient.colour,
        scale,
        dome_lx: f64::from(ambient.colour.luminous(&dome) * scale),
        metered_lx,
        dome: dome * scale,
    }
}

/// Unit direction of the light vector of a solved light.
fn light_vector(room: &Room, source: &Source, light: &transport::SolvedLight, along: &[Meter; 3]) -> Vec3 {
    let component = |i: usize| read_light(room, source, light, &along[i], 4096).mean();
    Vec3::new(component(0), component(1), component(2))
        .try_normalize()
        .unwrap_or(Vec3::NEG_Y)
}
