//! The place as the search sees it: the solved room, the meters at the faces, the light that is there.

use answer::{
    Ambient, AmbientFrom, AmbientLevel, DaylightHere, DaylightPart, Failure, FlashStand, Job, LightName,
    MeterFacing,
};
use camera::illuminance_of;
use colour::{LightColour, Spectrum};
use glam::{Vec2, Vec3};
use light::{CieSky, Lamp, LampFacing, SkyKind};
use scene::figure::LandmarkName;
use scene::{Material, Panel, Stage, assemble};
use transport::{
    AimMap, Fineness, Meter, Operator, Outside, Receptor, Room, SolvedLight, Source, SunBeam, read_light,
};
use units::{Kelvin, Stops};

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

/// One thing for each meter of a survey: the meter itself, or what it reads.
#[derive(Clone, Debug)]
pub(crate) struct AtMeters<T> {
    /// Dome towards the camera at the first face: what the exposure is judged by.
    pub dome: T,
    /// Light vector along x, y and z.
    pub along: [T; 3],
    /// Cheeks on the camera's left and on the camera's right.
    pub cheeks: [T; 2],
    /// Forehead.
    pub forehead: T,
    /// Eye sockets.
    pub sockets: [T; 2],
    /// What is seen on either side of the first head.
    pub background: [T; 2],
    /// Dome towards the camera at every other sitter.
    pub others: Vec<T>,
}

impl<T: Copy> AtMeters<T> {
    /// Everything in the order in which an operator holds its meters.
    fn in_order(&self) -> Vec<T> {
        let mut all = vec![self.dome];
        all.extend(self.along);
        all.extend(self.cheeks);
        all.push(self.forehead);
        all.extend(self.sockets);
        all.extend(self.background);
        all.extend(&self.others);
        all
    }

    /// What an operator with a survey's meters returns, in its order.
    pub fn of(in_order: &[T]) -> Self {
        let &[
            dome,
            x,
            y,
            z,
            left,
            right,
            forehead,
            one,
            other,
            beside,
            beyond,
            ref others @ ..,
        ] = in_order
        else {
            unreachable!("a survey has eleven meters and more")
        };
        AtMeters {
            dome,
            along: [x, y, z],
            cheeks: [left, right],
            forehead,
            sockets: [one, other],
            background: [beside, beyond],
            others: others.to_vec(),
        }
    }
}

impl AtMeters<Meter> {
    /// The meters of a place.
    fn new(job: &Job, stage: &Stage, room: &Room, points: &FacePoints) -> Self {
        let camera = job.viewpoint.position;
        let others = 1..stage.sitters.len();
        AtMeters {
            dome: points.dome,
            along: points.along,
            cheeks: points.cheeks,
            forehead: points.landmark(LandmarkName::Forehead),
            sockets: [LandmarkName::EyeSocketRight, LandmarkName::EyeSocketLeft]
                .map(|at| points.landmark(at)),
            background: background_points(job, stage, room),
            others: others.map(|i| face_points(stage, i, camera).dome).collect(),
        }
    }
}

/// An ambient light with what it gives at the first sitter's face.
pub(crate) struct AmbientThere {
    pub name: LightName,
    pub source: Source,
    pub colour: LightColour,
    /// Colour temperature, as it was described or computed.
    pub kelvin: Kelvin,
    /// Factor on the unit source that makes the model agree with the photographer's reading.
    pub scale: f32,
    /// Illuminance at the face, dome towards the camera, in lx.
    pub dome_lx: f64,
    /// Illuminance as metered, in lx.
    pub metered_lx: f64,
    /// Per-band illuminance at the face, dome towards the camera, of a flat unit source times the scale.
    pub dome: Spectrum,
    /// How far a reading lies from what was computed, where both are known.
    pub off_computed: Option<Stops>,
    /// The same at the cheeks on the camera's left and right.
    pub cheeks: [Spectrum; 2],
    /// The same on the background beside the first head.
    pub background: Spectrum,
}

/// The surveyed place.
pub(crate) struct Survey {
    pub stage: Stage,
    pub room: Room,
    pub meters: AtMeters<Meter>,
    /// What light leaving anything does to the meters.
    pub operator: Operator,
    /// The places of the flash that are tried, each with all its aims.
    pub maps: Vec<AimMap>,
    pub ambients: Vec<AmbientThere>,
    /// Illuminance of all ambient light on the background beside the first head, in lx.
    pub ambient_background_lx: f64,
}

/// The meters that a sitter's face is read with, by name.
pub(crate) struct FacePoints {
    pub dome: Meter,
    pub along: [Meter; 3],
    /// Flat meters at the cheeks on the camera's left and right, turned to the side as a hand-held meter
    /// would be.
    pub cheeks: [Meter; 2],
    pub landmarks: Vec<(LandmarkName, Meter)>,
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
        FlashStand::Anywhere => job.viewpoint.position + Vec3::Z * SHOE_HEIGHT,
    }
}

/// Places of the flash that are tried: where it is, or all about the room where it may be anywhere.
fn flash_places(job: &Job, at: Vec3) -> Vec<Vec3> {
    let free = job.bag.stand || job.bag.helpers > 0;
    let mut places = vec![at];
    if job.ask.stand != FlashStand::Anywhere || !free {
        return places;
    }
    let face = job.sitters[0].face();
    for azimuth in [
        -135.0f32, -100.0, -70.0, -45.0, -20.0, 20.0, 45.0, 70.0, 100.0, 135.0,
    ] {
        for distance in [1.4f32, 2.4] {
            for height in [1.2f32, 2.0] {
                let level =
                    glam::Quat::from_rotation_z(azimuth.to_radians()) * job.sitters[0].face_direction();
                let place = (face + level * distance).with_z(height);
                let clear = job
                    .place
                    .blocks
                    .iter()
                    .all(|block| (place.cmplt(block.min - 0.1) | place.cmpgt(block.max + 0.1)).any());
                if job.place.room.contains(place, 0.2) && clear && !in_the_picture(job, place, 0.3) {
                    places.push(place);
                }
            }
        }
    }
    places
}

/// Whether something of this size at this place would show in the picture.
pub(crate) fn in_the_picture(job: &Job, centre: Vec3, size: f32) -> bool {
    let (right, up, forward) = job.viewpoint.axes();
    let from = centre - job.viewpoint.position;
    let depth = from.dot(forward);
    if depth <= 0.05 {
        return false;
    }
    let half = job
        .viewpoint
        .half_extent(if job.viewpoint.landscape { 1.5 } else { 2.0 / 3.0 });
    let margin = 0.4 * size / depth;
    (from.dot(right) / depth).abs() < half.x + margin && (from.dot(up) / depth).abs() < half.y + margin
}

/// Flat meters on what is seen on either side of the first head, a head's width beside it.
pub(crate) fn background_points(job: &Job, stage: &Stage, room: &Room) -> [Meter; 2] {
    const BESIDE_M: f32 = 0.45;
    let (right, _, _) = job.viewpoint.axes();
    let camera = job.viewpoint.position;
    [-1.0f32, 1.0].map(|side| {
        let direction = (stage.sitters[0].face + right * (side * BESIDE_M) - camera).normalize();
        let (mut start, mut seen) = (camera, None);
        // Whoever stands beside the first sitter is not the background: the ray goes on behind them.
        for _ in 0..8 {
            let Some(hit) = room.tracer.closest(start, direction) else {
                break;
            };
            let at = start + direction * hit.distance;
            let object = room.geometry.object[hit.triangle as usize] as usize;
            if !matches!(room.geometry.objects[object].kind, scene::ObjectKind::Sitter(_)) {
                let normal = room.geometry.flat_normal(hit.triangle);
                let facing = if normal.dot(direction) < 0.0 {
                    normal
                } else {
                    -normal
                };
                seen = Some((at + facing * SKIN_LIFT, facing));
                break;
            }
            start = at + direction * 0.02;
        }
        let (position, normal) = seen.unwrap_or((stage.sitters[0].face - direction * 0.5, -direction));
        Meter {
            position,
            receptor: Receptor::Flat(normal),
        }
    })
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
        cheeks: [
            (LandmarkName::CheekUpperRight, -1.0),
            (LandmarkName::CheekUpperLeft, 1.0),
        ]
        .map(|(name, side)| {
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
    pub fn landmark(&self, name: LandmarkName) -> Meter {
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
            let face = job.sitters.first().map_or(at - Vec3::Z, scene::Sitter::face);
            place.panels.push(lamp_panel(ambient, at, face, place.room.size));
        }
    }
    place
}

/// The square that stands for a lamp at a point.
fn lamp_panel(ambient: &Ambient, at: Vec3, face: Vec3, room: Vec3) -> Panel {
    let edge = ambient.lamp.edge_m;
    let half = 0.5 * edge + 0.01;
    let (normal, up, reach) = match ambient.lamp.facing {
        LampFacing::Down => (Vec3::NEG_Z, Vec3::Y, Vec3::new(half, half, 0.02)),
        // However it leans, no corner is further from the middle than half the diagonal.
        LampFacing::Sitter => {
            let normal = (face - at).try_normalize().unwrap_or(Vec3::NEG_Z);
            let up = if normal.z.abs() > 0.9 { Vec3::Y } else { Vec3::Z };
            (normal, up, Vec3::splat(half * std::f32::consts::SQRT_2))
        }
    };
    Panel {
        name: ambient.name.clone(),
        centre: at.clamp(reach.min(0.5 * room), (room - reach).max(0.5 * room)),
        normal,
        up,
        size: Vec2::splat(edge),
        front: Material::matt(&ambient.name, Spectrum::splat(0.3)),
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

impl Survey {
    /// Builds and solves the place of a job.
    pub fn new(job: &Job, fineness: Fineness, seed: u64) -> Result<Survey, Failure> {
        if job.sitters.is_empty() {
            return Err(Failure::NoSitter);
        }
        let flash = flash_position(job);
        if !job.place.room.contains(flash, 0.01) {
            return Err(Failure::FlashOutside);
        }
        let stage = assemble(&furnished(job), &job.sitters)?;
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let points = face_points(&stage, 0, job.viewpoint.position);
        let meters = AtMeters::new(job, &stage, &room, &points);
        let operator = Operator::solve(&room, &meters.in_order());
        let maps = flash_places(job, flash)
            .into_iter()
            .enumerate()
            .map(|(index, place)| match index {
                0 => AimMap::new(&room, &operator, place),
                _ => AimMap::coarse(&room, &operator, place),
            })
            .collect();
        let ambients = ambients_there(job, &stage, &room, &points);
        let ambient_background_lx = ambients
            .iter()
            .map(|there| f64::from(there.colour.luminous(&there.background)))
            .sum();
        Ok(Survey {
            stage,
            room,
            meters,
            operator,
            maps,
            ambients,
            ambient_background_lx,
        })
    }

    /// Makes all ambient light this many times as strong.
    pub fn scale_ambient(&mut self, factor: f64) {
        for ambient in &mut self.ambients {
            ambient.scale_by(factor);
        }
        self.ambient_background_lx *= factor;
    }

    /// Illuminance of all ambient light at the first face, dome towards the camera, in lx.
    pub fn ambient_lx(&self) -> f64 {
        self.ambients.iter().map(|a| a.dome_lx).sum()
    }
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

impl AmbientThere {
    /// Makes it this many times as strong.
    fn scale_by(&mut self, factor: f64) {
        self.scale *= factor as f32;
        self.dome_lx *= factor;
        self.metered_lx *= factor;
        self.dome *= factor as f32;
        self.cheeks = self.cheeks.map(|cheek| cheek * factor as f32);
        self.background *= factor as f32;
    }
}

/// The built place in which ambient light is read.
struct Reader<'a> {
    job: &'a Job,
    stage: &'a Stage,
    room: &'a Room,
    points: &'a FacePoints,
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
        let Reader {
            job,
            stage,
            room,
            points,
        } = *self;
        let light = room.solve(&source);
        let read = |meter: &Meter, rays: usize| read_light(room, &source, &light, meter, rays);
        let dome = read(&points.dome, 4096);
        let metered = as_metered(room, &source, &light, points, facing, dome);
        AmbientThere {
            name,
            colour,
            kelvin,
            scale: 1.0,
            dome_lx: f64::from(colour.luminous(&dome)),
            metered_lx: f64::from(colour.luminous(&metered)),
            dome,
            cheeks: points.cheeks.map(|cheek| read(&cheek, ZONE_RAYS)),
            background: background_light(room, &source, &light, &background_points(job, stage, room)),
            off_computed: None,
            source,
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
            read_light(room, source, light, &flat, 4096)
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

/// Rays of a meter that is only asked for its colour.
pub(crate) const ZONE_RAYS: usize = 1024;

/// Mean light on either side of the first head.
pub(crate) fn background_light(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    points: &[Meter; 2],
) -> Spectrum {
    let [left, right] = points.map(|point| read_light(room, source, light, &point, ZONE_RAYS));
    (left + right) * 0.5
}

/// Unit direction of the light vector of a solved light.
fn light_vector(room: &Room, source: &Source, light: &SolvedLight, along: &[Meter; 3]) -> Vec3 {
    let component = |i: usize| read_light(room, source, light, &along[i], 4096).mean();
    Vec3::new(component(0), component(1), component(2))
        .try_normalize()
        .unwrap_or(Vec3::NEG_Y)
}
