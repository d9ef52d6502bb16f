//! Shoots drawn by seed: rooms, rooms with a window, days outdoors and dusk, with asks as photographers write them.

use crate::dice::Dice;
use crate::file::inline;
use crate::shoot::{
    AmbientWish, Ask, Bag, Block, Board, Camera, FlashKind, FlashPlace, Key, Level, Light, Point, Room,
    Shoot, Sitter, Skin, Sky, Window, Zone,
};

/// Where a shoot is.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Where {
    Room,
    WindowRoom,
    Outdoors,
    Dusk,
}

impl Where {
    fn is_outdoors(self) -> bool {
        matches!(self, Where::Outdoors | Where::Dusk)
    }
}

/// The shoot of a seed.
pub fn shoot(seed: u64) -> Shoot {
    use Where::{Dusk, Outdoors, Room, WindowRoom};
    let mut dice = Dice::new(seed);
    let place = dice.pick(&[Room, Room, Room, Room, WindowRoom, WindowRoom, Outdoors, Dusk]);
    drawn(&mut dice, place, &format!("seed {seed}"))
}

/// A shoot for a small proof: one face that fills the frame and looks into the lens, in a room without anything between
/// them.
pub fn portrait(seed: u64) -> Shoot {
    let mut dice = Dice::new(1_000_000 + seed);
    let mut shoot = drawn(&mut dice, Where::Room, &format!("portrait of seed {seed}"));
    shoot.room.furniture = None;
    shoot.sitters.truncate(1);
    shoot.ask.evenness = None;
    shoot.ask.may_move_m = None;
    let sitter = &mut shoot.sitters[0];
    sitter.figure = "person";
    sitter.age = 40.0;
    sitter.skin = "intermediate";
    sitter.cap = None;
    sitter.faces = None;
    shoot.camera.at = [sitter.stand[0], sitter.stand[1] - 2.0, sitter.face_height];
    shoot.camera.lens_mm = 200.0;
    shoot.camera.on_first_face = true;
    shoot
}

fn drawn(dice: &mut Dice, place: Where, title: &str) -> Shoot {
    let room = room(dice, place);
    let camera = camera(dice, &room);
    let sitters = sitters(dice, &room, &camera);
    let bag = bag(dice);
    let mut shoot = Shoot {
        title: title.to_owned(),
        sky: sky(dice, place),
        lights: lights(dice, place, &room),
        zones: Vec::new(),
        ask: ask(dice, &bag, sitters.len()),
        room,
        camera,
        sitters,
        bag,
    };
    shoot.ask.flash = flash_place(dice, &shoot);
    if place.is_outdoors() && dice.chance(0.4) {
        let ev = if place == Where::Dusk {
            dice.steps(6.0, 10.0, 0.5)
        } else {
            dice.steps(12.0, 14.5, 0.5)
        };
        shoot.zones.push(Zone { name: "far bank", ev });
        shoot.ask.zone = dice.perhaps(0.7, &[-2.0, -1.0, 0.0]);
    }
    let there = !shoot.lights.is_empty() || shoot.sky.is_some();
    shoot.ask.ambient = there
        .then(|| {
            dice.perhaps(
                0.4,
                &[
                    AmbientWish::Out,
                    AmbientWish::At(-3.0),
                    AmbientWish::At(-2.0),
                    AmbientWish::At(-1.0),
                ],
            )
        })
        .flatten();
    let fills = there && shoot.ask.ambient != Some(AmbientWish::Out);
    shoot.ask.fill = dice.perhaps(0.15, &[0.0, 1.0, 1.5, 2.0]).filter(|_| fills);
    shoot
}

fn room(dice: &mut Dice, place: Where) -> Room {
    if place.is_outdoors() {
        let mut surfaces = ["open", "open", "open", "open", "open", "grass"];
        surfaces[dice.pick(&[0, 1, 3])] = dice.pick(&["open", "open", "brick", "stone", "white paint"]);
        surfaces[5] = dice.pick(&["grass", "sand", "asphalt", "earth"]);
        return Room {
            size: [8.0, 8.0, 5.0],
            surfaces,
            window: None,
            furniture: None,
        };
    }
    let walls = [
        "white paint",
        "white paint",
        "white paint",
        "cream",
        "magnolia",
        "pale yellow",
        "mint",
        "pale blue",
        "light grey",
        "dark grey",
        "red wall",
        "brick",
        "plaster",
        "dark wood",
    ];
    let size = [
        dice.steps(3.2, 5.6, 0.1),
        dice.steps(4.6, 7.0, 0.1),
        dice.steps(2.3, 3.2, 0.05),
    ];
    let mut surfaces = ["white paint"; 6];
    for wall in &mut surfaces[..4] {
        *wall = dice.pick(&walls);
    }
    surfaces[4] = dice.pick(&[
        "white paint",
        "white paint",
        "white paint",
        "pine",
        "plaster",
        "dark grey",
    ]);
    surfaces[5] = dice.pick(&["oak", "wood floor", "carpet grey", "linoleum", "concrete"]);
    let window = (place == Where::WindowRoom).then(|| Window {
        wall: dice.pick(&["left", "right"]),
        from_left_end: dice.steps(0.8, size[1] - 2.4, 0.1),
        from_floor: dice.steps(0.7, 0.9, 0.1),
        size: [dice.steps(1.0, 1.4, 0.1), dice.steps(1.0, 1.3, 0.1)],
        kind: dice.pick(&["window", "net curtain"]),
    });
    let furniture = dice.chance(0.2).then(|| Block {
        name: "cupboard",
        corner: [0.05, size[1] - 0.65],
        size: [0.8, 0.6, dice.steps(1.0, 1.8, 0.1)],
        surface: dice.pick(&["pine", "dark wood", "white paint"]),
    });
    Room {
        size,
        surfaces,
        window,
        furniture,
    }
}

fn camera(dice: &mut Dice, room: &Room) -> Camera {
    let [width, length, _] = room.size;
    Camera {
        at: [
            dice.steps(0.4 * width, 0.6 * width, 0.05),
            dice.steps(0.6, (length - 4.0).max(0.6), 0.05),
            dice.steps(1.3, 1.7, 0.05),
        ],
        lens_mm: dice.pick(&[50.0, 70.0, 85.0, 105.0]),
        sync: dice.pick(&["1/200", "1/250", "1/160"]),
        iso: dice.pick(&[[100.0, 6400.0], [100.0, 3200.0], [200.0, 1600.0]]),
        widest: dice.pick(&[3, 6, 9]),
        on_first_face: dice.chance(0.5),
    }
}

fn sitters(dice: &mut Dice, room: &Room, camera: &Camera) -> Vec<Sitter> {
    let count = dice.pick(&[1, 1, 1, 1, 1, 2, 3, 4]);
    let far = dice.steps(1.6, 2.6, 0.05);
    let apart = dice.steps(0.55, 0.7, 0.05);
    let half = 0.5 * apart * (count - 1) as f64;
    let middle = (camera.at[0] + dice.steps(-0.3, 0.3, 0.05))
        .max(half + 0.4)
        .min(room.size[0] - half - 0.4);
    (0..count)
        .map(|index| Sitter {
            name: ["the miller", "the cooper", "the weaver", "the ferryman"][index],
            stand: [
                middle - half + apart * index as f64,
                camera.at[1] + far + dice.steps(-0.1, 0.1, 0.05),
            ],
            face_height: dice.steps(1.2, 1.75, 0.05),
            faces: dice.perhaps(0.2, &["7 o'clock", "5 o'clock"]),
            figure: dice.pick(&["woman", "man", "person"]),
            age: dice.steps(18.0, 75.0, 1.0),
            skin: dice.pick(&["very light", "light", "intermediate", "tan", "brown", "dark"]),
            cap: dice.perhaps(0.15, &["navy", "black", "burgundy"]),
        })
        .collect()
}

fn bag(dice: &mut Dice) -> Bag {
    let all = ["1/4 CTO", "1/2 CTO", "full CTO", "1/2 CTB", "1/4 plus green"];
    let gels = if dice.chance(0.4) {
        all.into_iter().filter(|_| dice.chance(0.5)).collect()
    } else {
        Vec::new()
    };
    Bag {
        flash: match dice.pick(&[0, 1, 1, 2, 3]) {
            0 => FlashKind::Named("small"),
            1 => FlashKind::Named("medium"),
            2 => FlashKind::Named("large"),
            _ => {
                FlashKind::GuideNumbers(&["GN 24 m at zoom 24 (measured)", "GN 50 m at zoom 105 (measured)"])
            }
        },
        least_power: dice.pick(&[6, 7, 7, 8]),
        recycle_s: dice.steps(1.6, 4.0, 0.2),
        dome: dice.chance(0.2),
        bounce_card: dice.chance(0.2),
        umbrella: dice.perhaps(0.15, &["1.7 stops", "2 stops"]),
        softbox: dice.perhaps(0.1, &["2 stops"]),
        board: dice.chance(0.25).then(|| Board {
            name: "screen",
            size: dice.pick(&["0.7 x 1.0 m", "1.0 x 1.2 m"]).to_owned(),
            surface: "white card",
        }),
        gels,
        gel_family: dice.pick(&["straw", "amber"]),
        nd: dice.pick(&[&[][..], &[], &[], &[3.0], &[3.0, 6.0]]).to_vec(),
        helpers: dice.pick(&[0, 0, 1, 1, 2]),
        stand: dice.chance(0.4),
    }
}

fn sky(dice: &mut Dice, place: Where) -> Option<Sky> {
    let by_window = place == Where::WindowRoom && dice.chance(0.4);
    let minutes = if place == Where::Dusk {
        // From a low sun until half an hour after sunset, which is at about 19:58.
        dice.steps(19.0 * 60.0, 20.5 * 60.0, 5.0)
    } else {
        dice.steps(10.0 * 60.0, 17.0 * 60.0, 15.0)
    };
    (place.is_outdoors() || by_window).then(|| Sky {
        time: format!("{:02}:{:02}", (minutes / 60.0) as u32, (minutes % 60.0) as u32),
        looks: dice.pick(&["N", "NE", "E", "SE", "S", "SW", "W", "NW"]),
        weather: dice.pick(&[
            "clear",
            "hazy",
            "partly cloudy",
            "bright overcast",
            "heavy overcast",
        ]),
        ground: dice.pick(&["grass", "sand", "asphalt"]),
    })
}

fn lights(dice: &mut Dice, place: Where, room: &Room) -> Vec<Light> {
    let mut lights = Vec::new();
    if room.window.is_some() && dice.chance(0.6) {
        lights.push(Light {
            name: "north light",
            level: Level::Ev(dice.steps(5.0, 9.0, 0.5)),
            kelvin: dice.pick(&[5500.0, 6500.0, 7500.0]),
            from: Some("window".to_owned()),
        });
    }
    if !place.is_outdoors() && dice.chance(0.6) {
        let [width, length, height] = room.size;
        let lamp: Point = [0.3 * width, 0.6 * length, height - 0.4];
        let (level, from) = match dice.pick(&[0, 0, 1, 2]) {
            0 => (Level::Ev(dice.steps(2.0, 7.0, 0.5)), Some("all round".to_owned())),
            1 => (
                Level::Ev(dice.steps(2.0, 6.0, 0.5)),
                Some(dice.pick(&["9 o'clock", "3 o'clock"]).to_owned()),
            ),
            _ => (
                Level::Lumen(dice.pick(&[470.0, 806.0, 1521.0])),
                Some(inline(lamp)),
            ),
        };
        lights.push(Light {
            name: "lamps",
            level,
            kelvin: dice.pick(&[2700.0, 3000.0, 4000.0]),
            from,
        });
    }
    lights
}

fn ask(dice: &mut Dice, bag: &Bag, faces: usize) -> Ask {
    let pattern = dice.pick(&[
        "flat",
        "butterfly",
        "loop",
        "loop",
        "loop",
        "Rembrandt",
        "side",
        "split",
    ]);
    let key = if dice.chance(0.2) {
        Key::Angles {
            azimuth: dice.steps(10.0, 90.0, 5.0),
            elevation: dice.steps(10.0, 45.0, 5.0),
            tolerance: dice.pick(&[10.0, 15.0, 20.0]),
        }
    } else {
        Key::Pattern(pattern)
    };
    let gel = bag.gels.first().copied();
    let mut ask = Ask {
        aperture: dice.perhaps(0.85, &[9, 12, 12, 15, 18]),
        shutter: dice.perhaps(0.1, &["1/125", "1/60"]),
        iso: dice.perhaps(0.3, &[200.0, 400.0, 800.0]),
        ambient: None,
        fill: None,
        zone: None,
        key,
        side: dice.perhaps(0.4, &["left", "right"]),
        softness: dice.pick(&["soft", "soft", "any", "hard"]),
        ratio: dice.perhaps(0.25, &[1.5, 2.0, 3.0, 4.0]),
        skin: dice.pick(&[
            Skin::Neutral,
            Skin::Neutral,
            Skin::Within(25.0),
            Skin::Within(15.0),
            Skin::Any,
        ]),
        evenness: if faces > 1 {
            dice.perhaps(0.6, &[0.3, 0.5])
        } else {
            None
        },
        background: dice.perhaps(0.2, &[-2.0, -1.0, 0.0]),
        in_hand: dice.pick(&[1.0, 1.0, 1.0, 0.0, 2.0]),
        recycle_s: dice.perhaps(0.15, &[0.8, 1.5]),
        white_balance: dice.perhaps(0.1, &[4500.0, 5500.0]),
        colour: dice.perhaps(
            0.12,
            &[
                "neutral",
                "skin warm by 35 mired",
                "room warm by 40 mired",
                "match the lamps",
            ],
        ),
        gel: gel.filter(|_| dice.chance(0.2)).or(dice.perhaps(0.05, &["none"])),
        flash: FlashPlace::OnCamera,
        may_move_m: dice.perhaps(0.04, &[0.5]),
    };
    if ask.gel.is_some() && ask.colour.is_some() {
        // With gel and balance both fixed nothing is left to choose for a colour.
        ask.white_balance = None;
    }
    ask
}

/// Mostly on the camera; otherwise somewhere between camera and sitter, or anywhere.
fn flash_place(dice: &mut Dice, shoot: &Shoot) -> FlashPlace {
    let free = shoot.bag.stand || shoot.bag.helpers > 0;
    if free && shoot.ask.may_move_m.is_none() && dice.chance(0.2) {
        return FlashPlace::Anywhere;
    }
    if !free || dice.chance(0.75) {
        return FlashPlace::OnCamera;
    }
    let (face, camera) = (shoot.face(0), shoot.camera.at);
    let round = dice.steps(20.0, 70.0, 5.0_f64).to_radians() * dice.pick(&[-1.0, 1.0]);
    let far = dice.steps(1.0, 1.8, 0.1);
    let towards = (camera[1] - face[1]).atan2(camera[0] - face[0]) + round;
    let [width, length, height] = shoot.room.size;
    let inside = |value: f64, most: f64| (value.clamp(0.3, most - 0.3) * 100.0).round() / 100.0;
    FlashPlace::At([
        inside(face[0] + far * towards.cos(), width),
        inside(face[1] + far * towards.sin(), length),
        dice.steps(1.5, 2.2, 0.05).min(height - 0.3),
    ])
}
