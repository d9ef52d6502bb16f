//! Five places for the operator's tests: three empty rooms, one with furniture and a doorway, one with a
//! coloured wall close to the sitter.

use colour::{person, surfaces};
use glam::{Vec2, Vec3};
use light::{FlashUnit, HeadDress};
use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng as _;
use scene::figure::{FigureRecipe, KeptFigure, LandmarkName};
use scene::{
    Block, BoxRoom, Face, Material, Opening, OpeningKind, Place, Sitter, SitterColours, Stage, assemble,
};
use transport::{Meter, PlacedFlash, Receptor};

/// A place with one sitter.
pub struct TestPlace {
    pub name: &'static str,
    pub furnished: bool,
    place: Place,
    stand: Vec3,
    facing: f32,
}

impl TestPlace {
    pub fn all() -> Vec<TestPlace> {
        vec![
            TestPlace {
                name: "white room",
                furnished: false,
                place: Place::new(room([4.4, 5.5, 2.6], ["white paint"; 5], "oak")),
                stand: Vec3::new(2.3, 3.7, 0.0),
                facing: 0.1,
            },
            TestPlace {
                name: "small dark room",
                furnished: false,
                place: Place::new(room(
                    [3.2, 3.8, 2.4],
                    ["deep green", "brick", "bookshelf", "pale blue", "pine"],
                    "carpet grey",
                )),
                stand: Vec3::new(1.5, 2.6, 0.0),
                facing: -0.3,
            },
            TestPlace {
                name: "hall",
                furnished: false,
                place: Place::new(room(
                    [8.0, 11.0, 4.2],
                    ["plaster", "white paint", "pine", "brick", "white paint"],
                    "oak",
                )),
                stand: Vec3::new(3.4, 7.0, 0.0),
                facing: 0.2,
            },
            furnished(),
            TestPlace {
                name: "coloured wall close by",
                furnished: false,
                place: Place::new(room(
                    [4.0, 5.0, 2.5],
                    ["brick", "white paint", "white paint", "plaster", "white paint"],
                    "oak",
                )),
                stand: Vec3::new(0.75, 3.2, 0.0),
                facing: 0.3,
            },
        ]
    }

    /// With skin as it is: oily.
    pub fn coated_stage(&self) -> Stage {
        assemble(&self.place, &[sitter(self.stand, self.facing)]).unwrap()
    }

    /// With three more people beside the sitter.
    pub fn crowd(&self) -> Stage {
        let people: Vec<Sitter> = [0.0f32, 0.6, -0.6, 1.2]
            .iter()
            .map(|&x| {
                let mut person = sitter(self.stand + Vec3::X * x, self.facing);
                person.name = format!("sitter at {x}");
                person
            })
            .collect();
        let mut stage = assemble(&self.place, &people).unwrap();
        for material in &mut stage.geometry.materials {
            material.coat = None;
        }
        stage
    }

    pub fn stage(&self) -> Stage {
        let mut stage = assemble(&self.place, &[sitter(self.stand, self.facing)]).unwrap();
        for material in &mut stage.geometry.materials {
            material.coat = None;
        }
        stage
    }

    /// Dome and light vector in front of the face, then twenty landmarks.
    pub fn meters(&self, stage: &Stage) -> Vec<Meter> {
        let person = &stage.sitters[0];
        let held = person.face + person.facing * 0.13 - Vec3::Z * 0.03;
        let mut meters = vec![Meter {
            position: held,
            receptor: Receptor::Dome(person.facing),
        }];
        meters.extend([Vec3::X, Vec3::Y, Vec3::Z].map(|axis| Meter {
            position: held,
            receptor: Receptor::Along(axis),
        }));
        meters.extend(
            person
                .landmarks
                .iter()
                .filter(|(name, _)| *name != LandmarkName::Vertex)
                .map(|(_, mark)| Meter {
                    position: mark.position + mark.normal * 0.0015,
                    receptor: Receptor::Flat(mark.normal),
                }),
        );
        meters
    }

    pub fn area(&self) -> f32 {
        self.place.room.area()
    }

    fn size(&self) -> Vec3 {
        self.place.room.size
    }
}

fn furnished() -> TestPlace {
    let mut place = Place::new(room(
        [5.0, 6.0, 2.7],
        ["plaster", "white paint", "bookshelf", "pale blue", "white paint"],
        "oak",
    ));
    place.openings.push(Opening {
        name: "doorway".into(),
        face: Face::Left,
        from: Vec2::new(1.2, 0.0),
        size: Vec2::new(0.9, 2.05),
        kind: OpeningKind::Doorway,
    });
    place.openings.push(Opening {
        name: "window".into(),
        face: Face::Right,
        from: Vec2::new(1.4, 0.9),
        size: Vec2::new(1.5, 1.3),
        kind: OpeningKind::Window,
    });
    for (name, min, max, material) in [
        ("table", [1.0, 1.9, 0.0], [2.4, 2.7, 0.75], "pine"),
        ("cupboard", [4.3, 3.6, 0.0], [5.0, 4.8, 1.9], "oak"),
        ("sofa", [0.1, 4.4, 0.0], [1.0, 5.9, 0.8], "deep green"),
    ] {
        place.blocks.push(Block {
            name: name.into(),
            min: Vec3::from(min),
            max: Vec3::from(max),
            material: surface(material),
        });
    }
    TestPlace {
        name: "furniture and a doorway",
        furnished: true,
        place,
        stand: Vec3::new(2.6, 4.0, 0.0),
        facing: -0.1,
    }
}

fn room(size: [f32; 3], walls: [&str; 5], floor: &str) -> BoxRoom {
    let mut room = BoxRoom::uniform(size, surface(floor));
    for (face, name) in [
        Face::Left,
        Face::Right,
        Face::BehindCamera,
        Face::BehindSitter,
        Face::Ceiling,
    ]
    .into_iter()
    .zip(walls)
    {
        room.materials[face.index()] = surface(name);
    }
    room
}

fn surface(name: &str) -> Material {
    Material::matt(name, *surfaces::named(name).unwrap().spectrum())
}

fn sitter(stand: Vec3, facing: f32) -> Sitter {
    let skin = colour::SkinTone::Light;
    Sitter {
        name: "sitter".into(),
        stand,
        face_height: 1.6,
        facing,
        recipe: FigureRecipe {
            age_years: 35.0,
            masculinity: 0.3,
            ..FigureRecipe::default()
        },
        colours: SitterColours {
            skin: *skin.reflectance().spectrum(),
            lips: *person::lips(skin).spectrum(),
            hair: *person::HairTone::Brown.reflectance().spectrum(),
            iris: *person::IrisTone::Blue.reflectance().spectrum(),
            top: *person::ClothTone::Burgundy.reflectance().spectrum(),
            trousers: *person::ClothTone::Charcoal.reflectance().spectrum(),
            cap: *person::ClothTone::Navy.reflectance().spectrum(),
        },
        figure: KeptFigure::default(),
    }
}

/// Random places, aims, zooms and dresses of a medium flash; the same for the same place and number.
pub fn random_aims(place: &TestPlace, count: usize) -> Vec<(PlacedFlash, String)> {
    let mut rng = Pcg32::new(0x0af1_a5e5 ^ place.name.len() as u64, 7);
    let mut unit = || (rng.next_u32() >> 8) as f32 / 16_777_216.0;
    let unit_flash = FlashUnit::medium();
    let zooms: Vec<f64> = unit_flash.zooms().collect();
    (0..count)
        .map(|_| {
            let size = place.size();
            let from = Vec3::new(
                0.3 + unit() * (size.x - 0.6),
                0.3 + unit() * (size.y - 0.6) * 0.6,
                1.2 + unit() * (size.z - 1.5),
            );
            let z = 2.0 * unit() - 1.0;
            let (sin, cos) = (unit() * std::f32::consts::TAU).sin_cos();
            let flat = (1.0 - z * z).sqrt();
            let direction = Vec3::new(flat * cos, flat * sin, z);
            let zoom = zooms[(unit() * zooms.len() as f32) as usize % zooms.len()];
            let dress = match (unit() * 10.0) as usize {
                0 => HeadDress::Dome,
                1 => HeadDress::BounceCard,
                _ => HeadDress::Bare,
            };
            let beam = unit_flash.beam(zoom, dress).unwrap();
            let what = format!("from {from:.2} towards {direction:.2} zoom {zoom} {dress:?}");
            (PlacedFlash::aimed(beam, from, from + direction, [0.0, 0.0]), what)
        })
        .collect()
}
