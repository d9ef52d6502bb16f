//! Daylight: what nature guarantees for a sky and a sun that come in through openings.
//!
//! The closed forms are those of an even sky (CIE type 5 has the same luminance all over): open ground
//! receives π L, an upright face half of that and half of what the ground sends back, and a window is a
//! polygon of known luminance (Lambert 1760).

use colour::Spectrum;
use glam::{Vec2, Vec3};
use light::{CieSky, Daylight, SkyKind, Sun, Weather};
use scene::{
    Block, BoxRoom, Face, Material, Obstacle, Opening, OpeningKind, Place, Surroundings, assemble,
    direction_of,
};
use transport::{
    Fineness, Meter, Outside, Receptor, Room, SUN_HALF_ANGLE, Source, SunBeam, polygon_illuminance,
    read_light, read_meters,
};

const FINE: Fineness = Fineness {
    pitch_m: 0.25,
    rays: 100,
};

fn grey(name: &str, reflectance: f32) -> Material {
    Material::matt(name, Spectrum::splat(reflectance))
}

/// A meadow of 8 x 8 m with open sides, in open country of the same ground.
fn meadow(ground: f32) -> Place {
    let mut room = BoxRoom::uniform([8.0, 8.0, 4.0], grey("side", 0.0));
    room.materials[Face::Floor.index()] = grey("ground", ground);
    let mut place = Place::new(room);
    for face in Face::ALL {
        if face != Face::Floor {
            let opening = Opening::whole(&place.room, face);
            place.openings.push(opening);
        }
    }
    place.surroundings = Some(Surroundings::open(grey("ground", ground)));
    place
}

/// A black room with one opening in its right wall.
fn dark_room(kind: OpeningKind, walls: f32) -> Place {
    let mut place = Place::new(BoxRoom::uniform([4.0, 5.0, 2.8], grey("wall", walls)));
    place.openings.push(Opening {
        name: "window".into(),
        face: Face::Right,
        from: Vec2::new(1.5, 0.9),
        size: Vec2::new(1.6, 1.2),
        kind,
    });
    place.surroundings = Some(Surroundings::open(grey("lawn", 0.2)));
    place
}

struct Lit {
    room: Room,
    source: Source,
}

fn under(place: &Place, source: impl Fn(&Place, &scene::Geometry) -> Outside) -> Lit {
    let stage = assemble(place, &[]).unwrap();
    let outside = source(place, &stage.geometry);
    Lit {
        room: Room::new(stage.geometry, FINE, 5),
        source: Source::Outside(Box::new(outside)),
    }
}

fn sky(kind: u8) -> impl Fn(&Place, &scene::Geometry) -> Outside {
    move |place, geometry| {
        let pattern = CieSky::new(SkyKind::standard(kind).unwrap(), direction_of(1.2, 0.6));
        Outside::sky(pattern, place.surroundings.as_ref().unwrap(), place, geometry)
    }
}

fn sun(bearing: f32, height: f32) -> impl Fn(&Place, &scene::Geometry) -> Outside {
    move |place, geometry| {
        let beam = SunBeam {
            towards: direction_of(bearing, height),
            half_angle: SUN_HALF_ANGLE,
        };
        Outside::sun(beam, place.surroundings.as_ref().unwrap(), place, geometry).unwrap()
    }
}

impl Lit {
    /// The solved room's reading of a flat meter.
    fn solved(&self, position: Vec3, normal: Vec3) -> f32 {
        let light = self.room.solve(&self.source);
        let meter = Meter {
            position,
            receptor: Receptor::Flat(normal),
        };
        read_light(&self.room, &self.source, &light, &meter, 16_384).mean()
    }

    /// The referee's reading of it and its standard error.
    fn referee(&self, position: Vec3, normal: Vec3) -> (f32, f32) {
        let meter = Meter {
            position,
            receptor: Receptor::Flat(normal),
        };
        let reading = read_meters(&self.room, &self.source, None, None, &[meter], 1 << 16, 9)[0];
        (reading.mean.mean(), reading.standard_error.mean())
    }
}

fn close(what: &str, found: f32, expected: f32, share: f32) {
    assert!(
        (found - expected).abs() <= share * expected.abs().max(1e-3),
        "{what}: {found} instead of {expected}"
    );
}

const MIDDLE: Vec3 = Vec3::new(4.0, 4.0, 1.5);

#[test]
fn an_even_sky_gives_open_ground_one_lux_and_an_upright_face_half_of_it_and_of_the_ground() {
    let ground = 0.25;
    let lit = under(&meadow(ground), sky(5));
    // What stands in the open changes nothing: the ground sends back the same everywhere.
    let check = |what: &str, normal: Vec3, expected: f32| {
        close(what, lit.solved(MIDDLE, normal), expected, 0.01);
        let (mean, error) = lit.referee(MIDDLE, normal);
        close(what, mean, expected, 0.005 + 3.0 * error);
    };
    check("face up", Vec3::Z, 1.0);
    check("upright", Vec3::Y, 0.5 + 0.5 * ground);
    check("upright, aside", Vec3::new(0.6, -0.8, 0.0), 0.5 + 0.5 * ground);
    check("face down", Vec3::NEG_Z, ground);
}

#[test]
fn every_sky_gives_open_ground_one_lux() {
    for kind in [1, 12] {
        let lit = under(&meadow(0.1), sky(kind));
        close("face up", lit.solved(MIDDLE, Vec3::Z), 1.0, 0.015);
    }
}

/// The glow about a low sun reaches a face band by band as the sky itself says, in the solved place and in the referee's.
#[test]
fn a_low_sun_s_sky_is_warm_before_it_and_blue_behind_it() {
    let ground = 0.1;
    let day = Daylight::new(&Sun::somewhere(0.0, 4.0), None, Weather::Clear, None);
    let sky = day.sky.with_sun(direction_of(0.0, 0.07));
    let lit = under(&meadow(ground), |place, geometry| {
        Outside::sky(sky, place.surroundings.as_ref().unwrap(), place, geometry)
    });
    let light = lit.room.solve(&lit.source);
    let towards = direction_of(0.0, 0.0);
    for normal in [towards, -towards] {
        let expected = sky.on_plane(normal) + Spectrum::splat(0.5 * ground);
        let meter = Meter {
            position: MIDDLE,
            receptor: Receptor::Flat(normal),
        };
        let solved = read_light(&lit.room, &lit.source, &light, &meter, 16_384);
        let referee = read_meters(&lit.room, &lit.source, None, None, &[meter], 1 << 16, 9)[0];
        for band in [0, 7, 15] {
            close("solved", solved.0[band], expected.0[band], 0.02);
            let allowed = 0.02 + 3.0 * referee.standard_error.0[band] / expected.0[band];
            close("referee", referee.mean.0[band], expected.0[band], allowed);
        }
    }
    let redness = |normal: Vec3| sky.on_plane(normal).0[15] / sky.on_plane(normal).0[0];
    assert!(redness(towards) > 3.0 * redness(-towards));
}

#[test]
fn the_sun_goes_with_the_sine_of_its_height_and_stops_behind_a_block() {
    let height = 0.5f32;
    let mut place = meadow(0.2);
    place.blocks.push(Block {
        name: "kiosk".into(),
        min: Vec3::new(5.5, 3.0, 0.0),
        max: Vec3::new(6.5, 5.0, 3.0),
        material: grey("kiosk", 0.0),
    });
    let lit = under(&place, sun(std::f32::consts::FRAC_PI_2, height));
    let sunny = Vec3::new(4.0, 1.0, 1.5);
    close("in the sun", lit.solved(sunny, Vec3::Z), height.sin(), 0.005);
    close(
        "facing it",
        lit.solved(sunny, Vec3::X),
        height.cos() + 0.5 * 0.2 * height.sin(),
        0.02,
    );
    // The kiosk is 3 m high and the sun 28.6° up: at 4 m its shadow is 2.2 m high.
    assert_eq!(lit.solved(Vec3::new(4.5, 4.0, 1.0), Vec3::Z), 0.0);
}

#[test]
fn a_window_is_a_polygon_of_the_sky_behind_it() {
    let check = |kind: OpeningKind, clear: f32| {
        let lit = under(&dark_room(kind, 0.0), sky(5));
        let at = Vec3::new(2.0, 3.0, 0.5);
        let corners = [
            Vec3::new(4.0, 3.5, 0.9),
            Vec3::new(4.0, 1.9, 0.9),
            Vec3::new(4.0, 1.9, 2.1),
            Vec3::new(4.0, 3.5, 2.1),
        ];
        // The whole window is above the meter, so all that it shows is sky of luminance 1/π.
        let normal = Vec3::new(1.0, 0.0, 0.4).normalize();
        let expected = clear
            * polygon_illuminance(
                at.as_dvec3(),
                normal.as_dvec3(),
                &corners.map(|corner| corner.as_dvec3()),
                std::f64::consts::FRAC_1_PI,
            ) as f32;
        close("solved", lit.solved(at, normal), expected, 0.02);
        let (mean, error) = lit.referee(at, normal);
        close("referee", mean, expected, 0.005 + 3.0 * error / expected);
    };
    check(OpeningKind::Open, 1.0);
    check(OpeningKind::Window, 0.8);
    let dark = under(&dark_room(OpeningKind::Doorway, 0.0), sky(5));
    assert_eq!(dark.solved(Vec3::new(2.0, 3.0, 0.5), Vec3::X), 0.0);
}

#[test]
fn a_net_curtain_scatters_a_low_sun_all_over_the_room() {
    // The sun stands square before the window; behind the curtain its patch is eight times weaker and the
    // rest of the room, which it would not reach, is lit.
    let bearing = std::f32::consts::FRAC_PI_2;
    let bare = under(&dark_room(OpeningKind::Window, 0.0), sun(bearing, 0.15));
    let net = under(&dark_room(OpeningKind::NetCurtain, 0.0), sun(bearing, 0.15));
    let in_the_patch = Vec3::new(2.0, 2.7, 1.2);
    let aside = Vec3::new(2.0, 4.6, 1.5);
    assert!(net.solved(in_the_patch, Vec3::X) < 0.5 * bare.solved(in_the_patch, Vec3::X));
    assert!(net.solved(aside, Vec3::X) > 5.0 * bare.solved(aside, Vec3::X));
}

#[test]
fn the_skyline_takes_the_sun_away_and_gives_it_back() {
    let mut place = meadow(0.2);
    let around = place.surroundings.as_mut().unwrap();
    around.skyline.push(Obstacle {
        name: "barn".into(),
        from: 1.0,
        to: 2.0,
        height: 0.4,
        material: grey("barn", 0.3),
    });
    let around = place.surroundings.clone().unwrap();
    let stage = assemble(&place, &[]).unwrap();
    let shines = |bearing: f32, height: f32| {
        let beam = SunBeam {
            towards: direction_of(bearing, height),
            half_angle: 0.0,
        };
        Outside::sun(beam, &around, &place, &stage.geometry).is_some()
    };
    assert!(shines(1.5, 0.45) && shines(0.9, 0.2) && shines(2.1, 0.2));
    assert!(!shines(1.5, 0.39) && !shines(1.05, 0.2) && !shines(0.0, -0.01));
    // The barn is darker than the sky that it hides.
    let lit = under(&place, sky(5));
    let towards = direction_of(1.5, 0.0);
    assert!(lit.solved(MIDDLE, towards) < lit.solved(MIDDLE, -towards));
}

#[test]
fn the_solved_room_and_the_referee_agree_about_a_room_with_a_window() {
    let mut place = dark_room(OpeningKind::Window, 0.6);
    place.room.materials[Face::Floor.index()] = grey("floor", 0.3);
    for lit in [
        under(&place, sky(12)),
        under(&place, sky(1)),
        under(&place, sun(1.9, 0.5)),
    ] {
        for (position, normal) in [
            (Vec3::new(2.0, 2.5, 1.5), Vec3::X),
            (Vec3::new(2.0, 2.5, 1.5), Vec3::NEG_X),
            (Vec3::new(1.0, 4.0, 1.2), Vec3::NEG_Y),
            (Vec3::new(1.0, 1.0, 0.4), Vec3::Z),
        ] {
            let (mean, error) = lit.referee(position, normal);
            let solved = lit.solved(position, normal);
            assert!(
                (solved - mean).abs() <= 0.02 * mean + 3.0 * error,
                "{position} {normal}: {solved} against {mean} ± {error}"
            );
        }
    }
}
