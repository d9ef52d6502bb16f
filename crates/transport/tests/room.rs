//! Whole rooms against two independent Monte Carlo solutions (checks/room.json) and against what nature
//! guarantees.

use colour::Spectrum;
use glam::{Vec2, Vec3};
use light::Beam;
use scene::{BoxRoom, Face, Material, Panel, Place, assemble};
use serde_json::Value;
use transport::{Fineness, Guide, Meter, Operator, PlacedFlash, Receptor, Room, Source, read_meters};
use units::IntensityTime;

fn checks(name: &str) -> Value {
    let path = format!("{}/../../checks/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn vector(value: &Value) -> Vec3 {
    Vec3::from_array(std::array::from_fn(|i| value[i].as_f64().unwrap() as f32))
}

fn matt(value: f64) -> Material {
    Material::matt("wall", Spectrum::splat(value as f32))
}

/// The room of a scene of checks/room.json and its source, with the factor that scales the source.
fn described(scene: &Value) -> (Place, Source, f32) {
    let size = vector(&scene["room_size_m"]);
    let rho = &scene["reflectance"];
    let mut room = BoxRoom::uniform(size.into(), matt(0.0));
    for (face, key) in [
        (Face::Left, "x0"),
        (Face::Right, "x1"),
        (Face::BehindCamera, "y0"),
        (Face::BehindSitter, "y1"),
        (Face::Ceiling, "ceiling"),
        (Face::Floor, "floor"),
    ] {
        room.materials[face.index()] = matt(rho[key].as_f64().unwrap());
    }
    let mut place = Place::new(room);
    if !scene["board"].is_null() {
        let board = &scene["board"];
        place
            .panels
            .push(panel(board, matt(board["rho"].as_f64().unwrap()), None));
    }
    let source = &scene["source"];
    if source["kind"] == "point" {
        let beam = Beam::even(IntensityTime::new(1.0).unwrap());
        let flash = PlacedFlash::aimed(beam, vector(&source["pos"]), Vec3::ZERO, [0.0, 0.0]);
        (place, Source::Flash(flash), source["I"].as_f64().unwrap() as f32)
    } else {
        place.panels.push(panel(source, matt(0.0), Some(matt(0.0))));
        // The six faces come first, then front and back of each board.
        let front = 6 + 2 * (place.panels.len() - 1);
        (
            place,
            Source::Glowing(vec![front]),
            source["L"].as_f64().unwrap() as f32,
        )
    }
}

fn panel(value: &Value, front: Material, back: Option<Material>) -> Panel {
    let (corner, u, v) = (vector(&value["corner"]), vector(&value["u"]), vector(&value["v"]));
    Panel {
        name: "panel".into(),
        centre: corner + 0.5 * (u + v),
        normal: u.cross(v).normalize(),
        up: v,
        size: Vec2::new(u.length(), v.length()),
        front,
        back,
        held: false,
    }
}

#[test]
fn rooms_agree_with_two_independent_solutions() {
    let data = checks("room");
    let mut tested = 0;
    for case in data["cases"].as_array().unwrap() {
        let (place, source, strength) = described(&data["notes"]["scenes"][case["scene"].as_str().unwrap()]);
        let room = Room::new(
            assemble(&place, &[]).unwrap().geometry,
            Fineness {
                pitch_m: 0.1,
                rays: 64,
            },
            3,
        );
        let normal = vector(&case["receiver_normal"]);
        let position = vector(&case["receiver_m"]) + normal * 1e-5;
        let meter = Meter {
            position,
            receptor: Receptor::Flat(normal),
        };
        let light = room.solve(&source);
        let guide = Guide::new(&room, &light.radiosity);
        let expected = case["illuminance_total_lx"].as_f64().unwrap();
        let tolerance = case["tol_rel"].as_f64().unwrap();

        let solved = Operator::solve(&room, &[meter]);
        let fast = match &source {
            Source::Flash(flash) => solved.read_flash(&room, 0, flash, &light.direct),
            _ => solved.read_glow(&room, 0, &light.glow),
        };
        let fast = f64::from(fast.mean() * strength);
        let referee = read_meters(
            &room,
            &source,
            Some(&guide),
            Some(&light.radiosity),
            &[meter],
            1 << 16,
            7,
        )[0];
        let (slow, error) = (
            f64::from(referee.mean.mean() * strength),
            f64::from(referee.standard_error.mean() * strength),
        );
        let id = case["id"].as_str().unwrap();
        assert!(
            (slow / expected - 1.0).abs() <= tolerance,
            "{id}: referee {slow} against {expected}"
        );
        assert!(
            error / slow < 0.005,
            "{id}: the referee's error {error} is too large to judge"
        );
        assert!(
            (fast / expected - 1.0).abs() <= tolerance,
            "{id}: solved room {fast} against {expected}"
        );
        tested += 1;
    }
    assert_eq!(tested, 11);
}

/// White furnace: in a closed white room that shines everywhere with L(1 − ρ), every meter reads π L.
#[test]
fn a_closed_room_neither_gains_nor_loses_light() {
    for rho in [0.2f32, 0.5, 0.8, 0.95] {
        let place = Place::new(BoxRoom::uniform([3.0, 4.0, 2.5], matt(rho.into())));
        let room = Room::new(
            assemble(&place, &[]).unwrap().geometry,
            Fineness {
                pitch_m: 0.4,
                rays: 16,
            },
            5,
        );
        let meter = Meter {
            position: Vec3::new(1.0, 1.5, 1.2),
            receptor: Receptor::Flat(Vec3::X),
        };
        let expected = std::f32::consts::PI / (1.0 - rho);
        let light = room.solve(&Source::AllRound);
        let solved = Operator::solve(&room, &[meter])
            .read_glow(&room, 0, &light.glow)
            .mean();
        assert!(
            (solved / expected - 1.0).abs() < 0.01,
            "ρ {rho}: solved {solved}, expected {expected}"
        );
        let referee = read_meters(&room, &Source::AllRound, None, None, &[meter], 1 << 14, 1)[0];
        let (mean, error) = (referee.mean.mean(), referee.standard_error.mean());
        assert!(
            (mean - expected).abs() < 4.0 * error + 0.001 * expected,
            "ρ {rho}: {mean} ± {error}"
        );
    }
}

#[test]
fn results_do_not_depend_on_the_number_of_threads() {
    let place = Place::new(BoxRoom::uniform([3.0, 4.0, 2.5], matt(0.7)));
    let read = || {
        let room = Room::new(
            assemble(&place, &[]).unwrap().geometry,
            Fineness {
                pitch_m: 0.3,
                rays: 16,
            },
            5,
        );
        let meter = Meter {
            position: Vec3::new(1.0, 1.5, 1.2),
            receptor: Receptor::Dome(Vec3::X),
        };
        let flash = PlacedFlash::aimed(
            light::FlashUnit::medium()
                .beam(50.0, light::HeadDress::Bare)
                .unwrap(),
            Vec3::new(1.5, 0.5, 1.6),
            Vec3::new(0.0, 1.0, 2.0),
            [0.07, 0.04],
        );
        let source = Source::Flash(flash);
        let light = room.solve(&source);
        let guide = Guide::new(&room, &light.radiosity);
        read_meters(
            &room,
            &source,
            Some(&guide),
            Some(&light.radiosity),
            &[meter],
            1 << 12,
            7,
        )[0]
    };
    let pool = |n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
    assert_eq!(pool(1).install(read), pool(2).install(read));
}
