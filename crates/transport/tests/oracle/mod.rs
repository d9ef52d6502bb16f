//! Scenes for the independent renderer and the way they are handed to it.
//!
//! Everything is matt here: what is compared is how light travels, and a diffuse surface is the one
//! material on whose definition every renderer agrees to the last digit.

#![allow(dead_code, reason = "the test and each benchmark use their own part of this")]

use colour::{BANDS, Spectrum, person, surfaces};
use glam::{Vec2, Vec3};
use light::{Beam, CieSky, FlashUnit, HeadDress, SkyKind};
use scene::figure::{FigureRecipe, HairStyle, KeptFigure, LandmarkName};
use scene::{
    Block, BoxRoom, Face, Geometry, Material, ObjectKind, Obstacle, Opening, OpeningKind, Panel, Place,
    Sitter, SitterColours, SitterObject, Surroundings, Viewpoint, assemble, direction_of,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::f32::consts::PI;
use std::io::Write;
use std::path::Path;
use transport::{Meter, Outside, PlacedFlash, Receptor, Source, SunBeam};

/// A renderer that works in three channels treats each for itself, so three of our bands (short, middle
/// and long wavelengths) are sent as its three channels and no colour is converted on the way.
pub const CHANNELS: [usize; 3] = [2, 8, 13];

/// Width, length and height of the room that every scene is set in, in metres.
const ROOM: [f32; 3] = [4.4, 5.5, 2.6];
/// Where the sitter stands, seen from above.
const STAND: Vec3 = Vec3::new(2.3, 3.7, 0.0);
/// Where a flash is that is held beside the camera.
const AT_CAMERA: Vec3 = Vec3::new(1.95, 1.6, 1.75);
/// How far meters are held off the skin, in metres, so that both programs start above the surface.
const OFF_SKIN: f32 = 0.0015;

/// A scene under one source, with the places where both programs measure.
pub struct Setup {
    pub name: &'static str,
    pub geometry: Geometry,
    pub sitters: Vec<SitterObject>,
    pub source: Source,
    /// Further sources, each with what its light is multiplied by in the three channels.
    pub beside: Vec<(Source, [f32; 3])>,
    /// How many times the usual number of paths its meters need.
    pub effort: usize,
    pub view: Viewpoint,
    /// The meters and their names; those on the face come first.
    pub meters: Vec<(String, Meter)>,
}

/// The eleven scenes of the comparison.
pub fn setups() -> Vec<Setup> {
    vec![
        white_wall(),
        direct(),
        brick_wall(),
        board(),
        window(),
        ceiling(),
        two_people(),
        overcast_window(),
        sun_through_a_window(),
        open_shade(),
        low_sun_and_gelled_flash(),
    ]
}

/// The flash thrown at the white wall on the camera's left.
pub fn white_wall() -> Setup {
    let flash = medium(50.0, HeadDress::Bare, AT_CAMERA, Vec3::new(0.0, 2.9, 1.9));
    Setup::new(
        "white left wall",
        &Place::new(room()),
        &[sitter(STAND, 0.0)],
        flash,
    )
}

/// The flash straight at the face.
pub fn direct() -> Setup {
    let flash = medium(70.0, HeadDress::Bare, AT_CAMERA, face_of(STAND));
    Setup::new("direct flash", &Place::new(room()), &[sitter(STAND, 0.35)], flash)
}

/// The flash thrown at bare brick on the camera's right.
fn brick_wall() -> Setup {
    let mut room = room();
    room.materials[Face::Right.index()] = surface("brick");
    let from = Vec3::new(2.6, 1.8, 1.7);
    let flash = medium(35.0, HeadDress::Bare, from, Vec3::new(4.4, 3.2, 1.6));
    Setup::new("brick wall", &Place::new(room), &[sitter(STAND, 0.2)], flash)
}

/// A board of 0.7 x 1.0 m held near the sitter, with the head zoomed in on it.
fn board() -> Setup {
    let mut place = Place::new(dark_room());
    let centre = Vec3::new(1.35, 3.15, 1.6);
    let normal = (face_of(STAND) - centre).normalize() + (AT_CAMERA - centre).normalize();
    place
        .panels
        .push(panel("white board", centre, normal, [0.7, 1.0], "white card"));
    let flash = medium(105.0, HeadDress::Bare, AT_CAMERA, centre);
    Setup::new("white board", &place, &[sitter(STAND, -0.2)], flash)
}

/// The opening of the right wall.
fn opening_on_the_right(kind: OpeningKind) -> Opening {
    Opening {
        name: "window".into(),
        face: Face::Right,
        from: Vec2::new(1.4, 0.9),
        size: Vec2::new(1.5, 1.3),
        kind,
    }
}

/// A window that shines, and a cupboard that throws its shadow.
fn window() -> Setup {
    let mut place = Place::new(room());
    place.openings.push(opening_on_the_right(OpeningKind::Window));
    place.blocks.push(Block {
        name: "cupboard".into(),
        min: Vec3::new(3.3, 2.6, 0.0),
        max: Vec3::new(3.9, 3.4, 1.5),
        material: surface("pine"),
    });
    let mut setup = Setup::new(
        "window and cupboard",
        &place,
        &[sitter(STAND, 0.5)],
        Source::AllRound,
    );
    let shining = (0..setup.geometry.objects.len())
        .filter(|&object| matches!(setup.geometry.objects[object].kind, ObjectKind::Opening(_)))
        .collect();
    setup.source = Source::Glowing(shining);
    setup
}

/// The flash thrown at the ceiling, with a black V-flat standing on one side of the sitter.
fn ceiling() -> Setup {
    let mut place = Place::new(room());
    for (centre, normal) in [
        (Vec3::new(3.05, 3.45, 1.0), Vec3::new(-1.0, 0.2, 0.0)),
        (Vec3::new(2.95, 4.4, 1.0), Vec3::new(-0.5, -0.85, 0.0)),
    ] {
        place
            .panels
            .push(panel("V-flat", centre, normal, [1.0, 1.96], "black cloth"));
    }
    let from = Vec3::new(2.2, 2.3, 1.8);
    let flash = medium(24.0, HeadDress::Bare, from, Vec3::new(2.2, 2.7, 2.6));
    Setup::new("ceiling and V-flat", &place, &[sitter(STAND, 0.0)], flash)
}

/// Two people of very different skin under a dome, which also lights what is behind the head.
fn two_people() -> Setup {
    let mut second = sitter(Vec3::new(2.85, 3.95, 0.0), -0.3);
    second.name = "second".into();
    second.face_height = 1.48;
    second.colours.skin = skin(colour::SkinTone::Dark);
    second.recipe.masculinity = 0.1;
    second.recipe.hair = HairStyle::Bob;
    let mut place = Place::new(room());
    place.blocks.push(Block {
        name: "bench".into(),
        min: Vec3::new(0.3, 3.0, 0.0),
        max: Vec3::new(1.2, 4.6, 0.45),
        material: surface("oak"),
    });
    let flash = medium(24.0, HeadDress::Dome, Vec3::new(1.3, 2.3, 2.0), face_of(STAND));
    Setup::new("two people, dome", &place, &[sitter(STAND, 0.3), second], flash)
}

/// Open country of grass with a barn on the camera's left.
fn country() -> Surroundings {
    let mut around = Surroundings::open(surface("grass"));
    around.skyline.push(Obstacle {
        name: "barn".into(),
        from: -1.9,
        to: -1.1,
        height: 0.35,
        material: surface("brick"),
    });
    around
}

/// The room with a hole in its right wall: glass would be a factor on all of it.
fn with_open_window() -> Place {
    let mut place = Place::new(room());
    place.openings.push(opening_on_the_right(OpeningKind::Open));
    place.surroundings = Some(country());
    place
}

/// The place without a roof and without its front, back and right sides; the left wall of brick stays.
fn yard() -> Place {
    let mut room = room();
    room.materials[Face::Left.index()] = surface("brick");
    room.materials[Face::Floor.index()] = surface("grass");
    let mut place = Place::new(room);
    for face in [Face::Right, Face::BehindCamera, Face::BehindSitter, Face::Ceiling] {
        let opening = Opening::whole(&place.room, face);
        place.openings.push(opening);
    }
    place.surroundings = Some(country());
    place
}

fn sky(kind: u8, place: &Place, geometry: &Geometry) -> Source {
    let around = place.surroundings.as_ref().unwrap();
    let pattern = CieSky::new(SkyKind::standard(kind).unwrap(), direction_of(2.2, 0.7));
    Source::Outside(Box::new(Outside::sky(pattern, around, place, geometry)))
}

/// The sun as a point, so that shadows have the same edge in both programs.
fn sun(bearing: f32, height: f32, place: &Place, geometry: &Geometry) -> Source {
    let beam = SunBeam {
        towards: direction_of(bearing, height),
        half_angle: 0.0,
    };
    let around = place.surroundings.as_ref().unwrap();
    Source::Outside(Box::new(Outside::sun(beam, around, place, geometry).unwrap()))
}

impl Setup {
    /// A scene under one outdoor source.
    fn outside(
        name: &'static str,
        place: &Place,
        sitter: Sitter,
        source: impl Fn(&Place, &Geometry) -> Source,
    ) -> Self {
        let mut setup = Setup::new(name, place, &[sitter], Source::AllRound);
        setup.source = source(place, &setup.geometry);
        setup
    }
}

/// A room lit by an overcast sky through a window.
fn overcast_window() -> Setup {
    Setup::outside(
        "overcast window",
        &with_open_window(),
        sitter(STAND, 0.5),
        |place, geometry| sky(1, place, geometry),
    )
}

/// A low sun through the window, on one side of the sitter and on the wall behind.
fn sun_through_a_window() -> Setup {
    let mut setup = Setup::outside(
        "sun through a window",
        &with_open_window(),
        sitter(STAND, 0.3),
        |place, geometry| sun(1.67, 0.16, place, geometry),
    );
    setup.effort = 4;
    setup
}

/// A clear sky without its sun, beside a wall.
fn open_shade() -> Setup {
    Setup::outside("open shade", &yard(), sitter(STAND, 0.0), |place, geometry| {
        sky(12, place, geometry)
    })
}

/// A low sun on the sitter's side under a clear sky, and a flash with a warm gel from the left of the camera.
/// With the sun behind the sitter instead, what it lights of a face are strips at the edges of its own shadows,
/// where the two programs differ by up to a quarter: there we start rays on the smooth surface.
fn low_sun_and_gelled_flash() -> Setup {
    let mut setup = Setup::outside(
        "low sun and gelled flash",
        &yard(),
        sitter(STAND, 0.1),
        |place, geometry| sun(2.2, 0.2, place, geometry),
    );
    let flash = medium(70.0, HeadDress::Bare, Vec3::new(1.2, 2.2, 2.0), face_of(STAND));
    setup.beside.push((flash, [2e-4, 5e-4, 8e-4]));
    let clear = sky(12, &yard(), &setup.geometry);
    setup.beside.push((clear, [0.15, 0.1, 0.06]));
    setup.effort = 6;
    setup
}

impl Setup {
    /// Every source with its weights.
    pub fn sources(&self) -> impl Iterator<Item = (&Source, [f32; 3])> {
        std::iter::once((&self.source, [1.0; 3])).chain(self.beside.iter().map(|(s, w)| (s, *w)))
    }

    fn new(name: &'static str, place: &Place, sitters: &[Sitter], source: Source) -> Self {
        let stage = assemble(place, sitters).unwrap();
        let meters = stage
            .sitters
            .iter()
            .flat_map(|sitter| on_face(sitter, stage.sitters.len() > 1))
            .chain(free_meters())
            .collect();
        Setup {
            name,
            geometry: matt(stage.geometry),
            view: Viewpoint {
                position: Vec3::new(2.2, 1.4, 1.55),
                look_at: stage.sitters[0].face,
                focal_mm: 230.0,
                landscape: false,
            },
            sitters: stage.sitters,
            source,
            beside: Vec::new(),
            effort: 1,
            meters,
        }
    }

    /// The scene as a portrait of head and shoulders, as a photographer would frame it.
    pub fn portrait(mut self) -> Self {
        self.view.focal_mm = 85.0;
        self
    }
}

/// Meters on a face, just off the skin.
fn on_face(sitter: &SitterObject, several: bool) -> Vec<(String, Meter)> {
    let names: &[LandmarkName] = if several {
        &[
            LandmarkName::NoseTip,
            LandmarkName::CheekUpperLeft,
            LandmarkName::CheekUpperRight,
            LandmarkName::EyeSocketLeft,
            LandmarkName::Chin,
        ]
    } else {
        &[
            LandmarkName::NoseTip,
            LandmarkName::CheekUpperLeft,
            LandmarkName::CheekUpperRight,
            LandmarkName::EyeSocketLeft,
            LandmarkName::EyeSocketRight,
            LandmarkName::NoseSideLeft,
            LandmarkName::NoseSideRight,
            LandmarkName::Chin,
        ]
    };
    names
        .iter()
        .map(|&name| {
            let mark = sitter.landmark(name).unwrap();
            let meter = Meter {
                position: mark.position + mark.normal * OFF_SKIN,
                receptor: Receptor::Flat(mark.normal),
            };
            (format!("{} {}", sitter.name, name.identifier()), meter)
        })
        .collect()
}

/// Meters held in the room.
fn free_meters() -> impl Iterator<Item = (String, Meter)> {
    [
        (
            "held in front of the sitter",
            Vec3::new(2.2, 3.0, 1.4),
            Vec3::NEG_Y,
        ),
        ("towards the right wall", Vec3::new(1.0, 4.8, 1.1), Vec3::X),
        ("face up, low", Vec3::new(1.6, 2.2, 0.6), Vec3::Z),
        (
            "towards the sitter",
            Vec3::new(2.0, 2.2, 1.7),
            Vec3::new(0.1, 1.0, 0.1).normalize(),
        ),
    ]
    .into_iter()
    .map(|(name, position, normal)| {
        let meter = Meter {
            position,
            receptor: Receptor::Flat(normal),
        };
        (format!("free: {name}"), meter)
    })
}

fn surface(name: &str) -> Material {
    Material::matt(name, *surfaces::named(name).unwrap().spectrum())
}

fn room() -> BoxRoom {
    let mut room = BoxRoom::uniform(ROOM, surface("white paint"));
    room.materials[Face::Right.index()] = surface("plaster");
    room.materials[Face::BehindSitter.index()] = surface("pale blue");
    room.materials[Face::BehindCamera.index()] = surface("bookshelf");
    room.materials[Face::Floor.index()] = surface("oak");
    room
}

fn dark_room() -> BoxRoom {
    let mut room = BoxRoom::uniform(ROOM, surface("deep green"));
    room.materials[Face::Floor.index()] = surface("carpet grey");
    room.materials[Face::Ceiling.index()] = surface("pine");
    room
}

fn panel(name: &str, centre: Vec3, normal: Vec3, size: [f32; 2], front: &str) -> Panel {
    Panel {
        name: name.into(),
        centre,
        normal: normal.normalize(),
        up: Vec3::Z,
        size: Vec2::from(size),
        front: surface(front),
        back: None,
        held: false,
    }
}

fn face_of(stand: Vec3) -> Vec3 {
    stand.with_z(1.6)
}

fn skin(tone: colour::SkinTone) -> Spectrum {
    *tone.reflectance().spectrum()
}

fn sitter(stand: Vec3, facing: f32) -> Sitter {
    Sitter {
        name: "first".into(),
        stand,
        face_height: 1.6,
        facing,
        recipe: FigureRecipe {
            age_years: 35.0,
            masculinity: 0.8,
            ..FigureRecipe::default()
        },
        colours: SitterColours {
            skin: skin(colour::SkinTone::Light),
            lips: *person::lips(colour::SkinTone::Light).spectrum(),
            hair: *person::HairTone::Brown.reflectance().spectrum(),
            iris: *person::IrisTone::Blue.reflectance().spectrum(),
            top: *person::ClothTone::Burgundy.reflectance().spectrum(),
            trousers: *person::ClothTone::Charcoal.reflectance().spectrum(),
            cap: *person::ClothTone::Navy.reflectance().spectrum(),
        },
        figure: KeptFigure::default(),
    }
}

/// A medium flash as a point, so that shadows have the same edge in both programs.
fn medium(zoom: f64, dress: HeadDress, from: Vec3, towards: Vec3) -> Source {
    let beam = FlashUnit::medium().beam(zoom, dress).unwrap();
    Source::Flash(PlacedFlash::aimed(beam, from, towards, [0.0, 0.0]))
}

/// The same triangles without coats and overlays.
pub fn matt(mut geometry: Geometry) -> Geometry {
    for material in &mut geometry.materials {
        material.coat = None;
        material.overlays = None;
    }
    geometry
}

/// Whether an object shines under a source.
fn shines(source: &Source, object: usize) -> bool {
    matches!(source, Source::Glowing(list) if list.contains(&object))
}

/// Whether an object is an opening without anything in it, under light from outdoors. There the other
/// program has nothing, and its rays reach the outdoors by themselves.
pub fn is_hole(setup: &Setup, object: usize) -> bool {
    let object = &setup.geometry.objects[object];
    matches!(setup.source, Source::Outside(_))
        && matches!(object.kind, ObjectKind::Opening(_))
        && setup.geometry.material_of(object.first).reflectance.max() == 0.0
}

/// Size of the picture that holds the outdoors.
const OUTDOOR_PICTURE: [usize; 2] = [2048, 1025];

/// The outdoors as a picture of radiance, because the other program must not share our formula's code: column
/// c stands for the bearing 2π (c + ½) / width, row r for the angle π r / (height − 1) from the zenith.
fn export_outdoors(folder: &Path, parts: &[(&Outside, [f32; 3])]) -> Value {
    let [width, height] = OUTDOOR_PICTURE;
    let mut picture = Vec::with_capacity(12 * width * height);
    for row in 0..height {
        let elevation = PI * (0.5 - row as f32 / (height - 1) as f32);
        for column in 0..width {
            let bearing = 2.0 * PI * (column as f32 + 0.5) / width as f32;
            let mut sum = [0.0f32; 3];
            for (outside, weights) in parts {
                let radiance = outside.radiance(direction_of(bearing, elevation));
                for ((sum, band), weight) in sum.iter_mut().zip(CHANNELS).zip(weights) {
                    *sum += radiance.0[band] * weight;
                }
            }
            picture.extend(sum.into_iter().flat_map(f32::to_le_bytes));
        }
    }
    let path = folder.join("outdoors.f32");
    std::fs::write(&path, picture).unwrap();
    json!({
        "picture": path,
        "width": width,
        "height": height,
        "suns": parts.iter().filter_map(|(outside, weights)| {
            Some(json!({ "towards": outside.beam()?.towards.to_array(), "illuminance": weights }))
        }).collect::<Vec<Value>>(),
    })
}

/// Writes a scene into a folder and returns what the other program must know to read it.
///
/// The origin is moved to `origin`, because a renderer in single precision steps off surfaces in
/// proportion to the distance from the origin, and it is at the face that small steps matter.
pub fn export(folder: &Path, setup: &Setup, size: [usize; 2]) -> Value {
    let origin = setup.view.look_at;
    std::fs::create_dir_all(folder).unwrap();
    let mut groups: BTreeMap<(u16, bool), Vec<u32>> = BTreeMap::new();
    for triangle in 0..setup.geometry.triangles.len() as u32 {
        let object = setup.geometry.object[triangle as usize] as usize;
        if is_hole(setup, object) {
            continue;
        }
        let key = (
            setup.geometry.material[triangle as usize],
            shines(&setup.source, object),
        );
        groups.entry(key).or_default().push(triangle);
    }
    let meshes: Vec<Value> = groups
        .iter()
        .map(|(&(index, shining), triangles)| {
            let material = &setup.geometry.materials[index as usize];
            let path = folder.join(format!("{index}-{}.ply", u8::from(shining)));
            write_ply(&path, &setup.geometry, triangles, origin, material.smooth);
            json!({
                "ply": path,
                "name": material.name,
                "smooth": material.smooth,
                "two_sided": material.two_sided,
                "luminance": if shining { 1.0 } else { 0.0 },
                "channels": CHANNELS.map(|band| material.reflectance.0[band]),
                "bands": material.reflectance.0,
            })
        })
        .collect();
    let mut flash = Value::Null;
    let mut outdoors = Value::Null;
    let mut from_outside = Vec::new();
    for (source, weights) in setup.sources() {
        match source {
            Source::Flash(placed) => {
                flash = export_flash(folder, placed, origin);
                flash["weights"] = json!(weights);
            }
            Source::Outside(outside) => from_outside.push((&**outside, weights)),
            _ => {}
        }
    }
    if !from_outside.is_empty() {
        outdoors = export_outdoors(folder, &from_outside);
    }
    let half = setup.view.half_extent(size[0] as f32 / size[1] as f32);
    json!({
        "name": setup.name,
        "meshes": meshes,
        "flash": flash,
        "outdoors": outdoors,
        "effort": setup.effort,
        "meters": export_meters(&setup.meters, origin),
        "camera": {
            "position": (setup.view.position - origin).to_array(),
            "look_at": (setup.view.look_at - origin).to_array(),
            "vertical_field_degrees": 2.0 * f64::from(half.y).atan().to_degrees(),
            "width": size[0],
            "height": size[1],
        },
        "band_edges_nm": colour::bands::BAND_EDGES_NM,
    })
}

/// A scene of nothing but a flash and meters.
pub fn export_bare(folder: &Path, name: &str, flash: &PlacedFlash, meters: &[(String, Meter)]) -> Value {
    std::fs::create_dir_all(folder).unwrap();
    json!({
        "name": name,
        "meshes": [],
        "flash": export_flash(folder, flash, Vec3::ZERO),
        "outdoors": Value::Null,
        "effort": 1,
        "meters": export_meters(meters, Vec3::ZERO),
        "camera": Value::Null,
    })
}

fn export_meters(meters: &[(String, Meter)], origin: Vec3) -> Vec<Value> {
    meters
        .iter()
        .map(|(name, meter)| {
            let Receptor::Flat(normal) = meter.receptor else {
                panic!("only flat meters have a counterpart there");
            };
            json!({
                "name": name,
                "position": (meter.position - origin).to_array(),
                "normal": normal.to_array(),
            })
        })
        .collect()
}

/// Edge of the pictures that hold a beam, in pixels.
const BEAM_PICTURE: usize = 1024;

/// The beam as pictures of intensity on the sides of a cube around the flash, because the other program
/// must not share our formula's code: pixel (column, row) stands for the direction forward + up (1 − 2
/// (row + ½) / size) + (up × forward) (1 − 2 (column + ½) / size), and holds I cos³ / π in cd s, with the
/// cosine to `forward`.
fn export_flash(folder: &Path, flash: &PlacedFlash, origin: Vec3) -> Value {
    assert_eq!(flash.half_window, [0.0, 0.0], "a delta light is a point");
    let head = flash.world_from_head;
    let sides: Vec<Value> = [
        (head.z_axis, head.y_axis),
        (head.x_axis, head.y_axis),
        (-head.x_axis, head.y_axis),
        (head.y_axis, head.z_axis),
        (-head.y_axis, head.z_axis),
        (-head.z_axis, head.y_axis),
    ]
    .into_iter()
    .enumerate()
    .filter_map(|(index, (forward, up))| {
        let (picture, light) = beam_picture(flash, forward, up);
        let path = folder.join(format!("beam{index}.f32"));
        (light > 0.0).then(|| {
            std::fs::write(&path, picture).unwrap();
            json!({
                "picture": path,
                "size": BEAM_PICTURE,
                "forward": forward.to_array(),
                "up": up.to_array(),
                "light": light,
            })
        })
    })
    .collect();
    json!({ "position": (flash.position - origin).to_array(), "sides": sides, "weights": [1.0, 1.0, 1.0] })
}

/// One side of the cube: its picture and the light that leaves through it, in lumen seconds.
fn beam_picture(flash: &PlacedFlash, forward: Vec3, up: Vec3) -> (Vec<u8>, f64) {
    // The head's own axes may be left-handed, so this is taken in the world, as the other program does.
    let side = up.cross(forward);
    let at = |index: usize| 1.0 - 2.0 * (index as f32 + 0.5) / BEAM_PICTURE as f32;
    let mut picture = Vec::with_capacity(4 * BEAM_PICTURE * BEAM_PICTURE);
    let mut light = 0.0;
    for row in 0..BEAM_PICTURE {
        for column in 0..BEAM_PICTURE {
            let direction = forward + up * at(row) + side * at(column);
            let cos = 1.0 / direction.length();
            let value = flash.intensity(direction * cos) * cos.powi(3);
            light += f64::from(value) * 4.0 / (BEAM_PICTURE * BEAM_PICTURE) as f64;
            picture.extend((value / PI).to_le_bytes());
        }
    }
    (picture, light)
}

/// Writes triangles as a binary PLY, with the shading normals where the surface is smooth.
fn write_ply(path: &Path, geometry: &Geometry, triangles: &[u32], origin: Vec3, smooth: bool) {
    let mut number = BTreeMap::new();
    let mut vertices = Vec::new();
    let faces: Vec<[u32; 3]> = triangles
        .iter()
        .map(|&triangle| {
            geometry.triangles[triangle as usize].map(|corner| {
                *number.entry(corner).or_insert_with(|| {
                    vertices.push(corner);
                    vertices.len() as u32 - 1
                })
            })
        })
        .collect();
    let normals = if smooth {
        "property float nx\nproperty float ny\nproperty float nz\n"
    } else {
        ""
    };
    let mut out = Vec::new();
    write!(
        out,
        "ply\nformat binary_little_endian 1.0\nelement vertex {}\nproperty float x\nproperty float y\n\
         property float z\n{normals}element face {}\nproperty list uchar int vertex_indices\nend_header\n",
        vertices.len(),
        faces.len()
    )
    .unwrap();
    for corner in vertices {
        let mut values = (geometry.positions[corner as usize] - origin).to_array().to_vec();
        if smooth {
            values.extend(geometry.normals[corner as usize].to_array());
        }
        for value in values {
            out.extend(value.to_le_bytes());
        }
    }
    for face in faces {
        out.push(3);
        for corner in face {
            out.extend(corner.to_le_bytes());
        }
    }
    std::fs::write(path, out).unwrap();
}

/// The mean over all bands of a colour.
pub fn mean_of(colour: &Spectrum) -> f64 {
    colour.0.iter().map(|&v| f64::from(v)).sum::<f64>() / BANDS as f64
}

/// A beam of a zoom and dress, for meters in empty space.
pub fn beam(zoom: f64, dress: HeadDress) -> Beam {
    FlashUnit::medium().beam(zoom, dress).unwrap()
}
