//! Configuration factors (checks/view_factors.json): every case in closed form within its own tolerance,
//! and once more by the rays of the tracer, through the solved room's meters and through the referee.

mod harness;

use glam::{DVec3, dvec3};
use harness::*;
use scene::Geometry;
use std::f64::consts::PI;
use transport::{
    Fineness, Room, Source, Tracer, disc_polygon, exchange_factor, polygon_factor, read_light, read_meters,
};

/// Sides of the polygons that stand for discs and silhouettes.
const SIDES: usize = 720;
/// Rays of a meter for a factor: enough for a standard error of 2 %, and of 1 % from 0.04 upwards.
fn rays(factor: f64) -> usize {
    ((2600.0 / factor) as usize).max(1 << 16)
}

/// The bright thing of a case.
enum Bright {
    Polygon(Vec<DVec3>),
    Ball { centre: DVec3, radius: f64 },
}

/// A case as something that can be computed.
enum Setting {
    /// A small flat receiver and a bright thing.
    Element {
        point: DVec3,
        normal: DVec3,
        bright: Bright,
    },
    /// The share of light leaving one rectangle that reaches another.
    Rectangles { from: Vec<DVec3>, to: Vec<DVec3> },
    /// The same for two discs on one axis.
    Discs { from: f64, to: f64, apart: f64 },
    /// The share of a ball's light that reaches a disc whose axis goes through it.
    BallToDisc { disc: f64, height: f64 },
}

fn rectangle(corner: DVec3, a: DVec3, b: DVec3) -> Vec<DVec3> {
    vec![corner, corner + a, corner + a + b, corner + b]
}

fn element(point: DVec3, normal: DVec3, polygon: Vec<DVec3>) -> Setting {
    Setting::Element {
        point,
        normal,
        bright: Bright::Polygon(polygon),
    }
}

fn setting(case: &Case) -> Setting {
    let n = |key: &str| case.number(key);
    match case.text("group") {
        "parallel_rectangles_C11" => {
            let (x, y) = (DVec3::X * n("a_m"), DVec3::Y * n("b_m"));
            Setting::Rectangles {
                from: rectangle(DVec3::ZERO, x, y),
                to: rectangle(DVec3::Z * n("separation_m"), y, x),
            }
        }
        "perpendicular_rectangles_C14" => {
            let (edge, width, height) = (
                DVec3::X * n("common_edge_m"),
                DVec3::Y * n("from_width_m"),
                DVec3::Z * n("to_height_m"),
            );
            Setting::Rectangles {
                from: rectangle(DVec3::ZERO, edge, width),
                to: rectangle(DVec3::ZERO, height, edge),
            }
        }
        "parallel_rectangles_general" => {
            let span = |key: &str, z: f64, up: bool| {
                let [x, y] = ["x", "y"].map(|axis| case.numbers::<2>(&format!("{key}_{axis}_m")));
                let (a, b) = (DVec3::X * (x[1] - x[0]), DVec3::Y * (y[1] - y[0]));
                let corner = dvec3(x[0], y[0], z);
                if up {
                    rectangle(corner, a, b)
                } else {
                    rectangle(corner, b, a)
                }
            };
            Setting::Rectangles {
                from: span("rect1", 0.0, true),
                to: span("rect2", n("separation_m"), false),
            }
        }
        "coaxial_disks_C41" => Setting::Discs {
            from: n("r1_m"),
            to: n("r2_m"),
            apart: n("separation_m"),
        },
        "sphere_to_coaxial_disk" => Setting::BallToDisc {
            disc: n("disk_radius_m"),
            height: n("centre_distance_m"),
        },
        "element_to_parallel_rectangle_corner" => {
            let corner = DVec3::Z * n("distance_m");
            let polygon = rectangle(corner, DVec3::Y * n("b_m"), DVec3::X * n("a_m"));
            element(DVec3::ZERO, DVec3::Z, polygon)
        }
        "element_to_perpendicular_rectangle_corner" => {
            let corner = DVec3::Y * n("distance_m");
            let polygon = rectangle(corner, DVec3::X * n("edge_width_m"), DVec3::Z * n("height_m"));
            element(DVec3::ZERO, DVec3::Z, polygon)
        }
        "element_to_coaxial_disk" => {
            let disc = disc_polygon(DVec3::Z * n("distance_m"), -DVec3::Z, n("radius_m"), SIDES);
            element(DVec3::ZERO, DVec3::Z, disc)
        }
        "element_to_offset_parallel_disk" => {
            let centre = dvec3(n("offset_m"), 0.0, n("distance_m"));
            element(
                DVec3::ZERO,
                DVec3::Z,
                disc_polygon(centre, -DVec3::Z, n("radius_m"), SIDES),
            )
        }
        "element_to_perpendicular_disk" => {
            // The disc lies level overhead; the element stands upright and looks along the lateral offset.
            let centre = dvec3(n("lateral_m"), 0.0, n("height_m"));
            element(
                DVec3::ZERO,
                DVec3::X,
                disc_polygon(centre, -DVec3::Z, n("radius_m"), SIDES),
            )
        }
        "element_to_sphere" => {
            let tilt = n("tilt_deg").to_radians();
            Setting::Element {
                point: DVec3::ZERO,
                normal: dvec3(tilt.sin(), 0.0, tilt.cos()),
                bright: Bright::Ball {
                    centre: DVec3::Z * n("centre_distance_m"),
                    radius: n("radius_m"),
                },
            }
        }
        "lambert_polygon" | "lambert_polygon_horizon_clipped" => {
            let vertices = case.0["vertices_m"].as_array().unwrap();
            let corner =
                |v: &serde_json::Value| DVec3::from_array(std::array::from_fn(|i| v[i].as_f64().unwrap()));
            element(
                case.vector("point_m"),
                case.vector("normal"),
                vertices.iter().map(corner).collect(),
            )
        }
        other => panic!("{}: no test for the group {other}", case.id()),
    }
}

/// The outline of a ball: the disc that looks exactly as large from the receiver.
fn silhouette(point: DVec3, centre: DVec3, radius: f64) -> Vec<DVec3> {
    let towards = (centre - point).normalize();
    let sine = radius / (centre - point).length();
    disc_polygon(
        point + towards,
        -towards,
        sine / (1.0 - sine * sine).sqrt(),
        SIDES,
    )
}

/// Mean over a disc in the plane z = 0 of what a factor gives at each distance from its axis.
fn over_disc(radius: f64, factor: impl Fn(f64) -> f64) -> f64 {
    integrate(48, 0.0, radius, |r| 2.0 * r * factor(r)) / (radius * radius)
}

fn closed_form(setting: &Setting) -> f64 {
    match setting {
        Setting::Element {
            point,
            normal,
            bright: Bright::Polygon(polygon),
        } => polygon_factor(*point, *normal, polygon),
        Setting::Element {
            point,
            normal,
            bright: Bright::Ball { centre, radius },
        } => polygon_factor(*point, *normal, &silhouette(*point, *centre, *radius)),
        Setting::Rectangles { from, to } => exchange_factor(from, to, 32),
        Setting::Discs { from, to, apart } => {
            let far = disc_polygon(DVec3::Z * *apart, DVec3::Z, *to, SIDES);
            over_disc(*from, |r| polygon_factor(DVec3::X * r, DVec3::Z, &far))
        }
        Setting::BallToDisc { disc, height } => {
            // By reciprocity, for a ball of any size that stays clear of the disc.
            let (centre, radius) = (DVec3::Z * *height, 0.4 * height);
            let to_ball = over_disc(*disc, |r| {
                let point = DVec3::X * r;
                polygon_factor(point, DVec3::Z, &silhouette(point, centre, radius))
            });
            to_ball * (PI * disc * disc) / (4.0 * PI * radius * radius)
        }
    }
}

#[test]
fn every_factor_in_closed_form() {
    let data = checks("view_factors");
    let cases = data["cases"].as_array().unwrap();
    for case in cases.iter().map(Case) {
        case.within("the factor", closed_form(&setting(&case)), case.number("factor"));
    }
    assert_eq!(cases.len(), 39);
}

/// A lone bright thing; a polygon of four corners with square edges is a rectangle, so that the referee
/// can aim at it.
fn shining(bright: &Bright, point: DVec3) -> Room {
    let mut geometry = Geometry::default();
    match bright {
        Bright::Polygon(corners) => {
            add_polygon(&mut geometry, corners, point);
        }
        Bright::Ball { centre, radius } => {
            add_mesh(&mut geometry, &sphere_mesh(*centre, *radius, 5, true), matt(0.0));
        }
    }
    whole(geometry)
}

fn add_polygon(geometry: &mut Geometry, corners: &[DVec3], towards: DVec3) -> usize {
    if let [corner, across, opposite, up] = *corners {
        let (a, b) = (across - corner, up - corner);
        if (corner + a + b - opposite).length() < 1e-9 {
            let front = a.cross(b).dot(towards - corner) > 0.0;
            let (a, b) = if front { (a, b) } else { (b, a) };
            return add_rectangle(geometry, corner, a, b, matt(0.0));
        }
    }
    add_mesh(geometry, &fan_towards(corners, towards), matt(0.0))
}

/// Standard error of a share that was counted with independent rays; stratified ones do better.
fn counting_error(share: f64, rays: usize) -> f64 {
    (share * (1.0 - share) / rays as f64).sqrt()
}

/// What a meter reads of the only thing that shines, over π: the factor by the solved room's meter (with
/// its greatest standard error) and by the referee (with the error it states).
fn traced_element(point: DVec3, normal: DVec3, room: &Room, rays: usize) -> [(f64, f64); 2] {
    let source = Source::Glowing(vec![0]);
    let meter = flat(point, normal);
    let fast = f64::from(read_light(room, &source, &room.solve(&source), &meter, rays).mean()) / PI;
    let slow = read_meters(room, &source, None, None, &[meter], rays, 5)[0];
    [
        (fast, counting_error(fast, rays)),
        (
            f64::from(slow.mean.mean()) / PI,
            f64::from(slow.standard_error.mean()) / PI,
        ),
    ]
}

/// The share of the light of one rectangle that reaches another, from the solved exchange: the other one
/// shines, and what the first receives over what a hemisphere would send is the same share.
fn traced_rectangles(from: &[DVec3], to: &[DVec3]) -> (f64, f64) {
    let mut geometry = Geometry::default();
    let add = |geometry: &mut Geometry, r: &[DVec3]| {
        add_rectangle(geometry, r[0], r[1] - r[0], r[3] - r[0], matt(0.0))
    };
    add(&mut geometry, from);
    add(&mut geometry, to);
    let area = (from[1] - from[0]).cross(from[3] - from[0]).length();
    let fineness = Fineness {
        pitch_m: area.sqrt() as f32 / 6.0,
        rays: 4096,
    };
    let room = Room::new(geometry, fineness, 17);
    let light = room.solve(&Source::Glowing(vec![1]));
    let (mut received, mut rays) = (0.0, 0);
    for (patch, arriving) in room.patches.list.iter().zip(&light.indirect) {
        if patch.object == 0 {
            received += f64::from(patch.area * arriving.mean());
            rays += fineness.rays;
        }
    }
    let share = received / (PI * area);
    (share, counting_error(share, rays))
}

#[test]
fn every_factor_again_by_rays() {
    let data = checks("view_factors");
    for case in data["cases"].as_array().unwrap().iter().map(Case) {
        let expected = case.number("factor");
        match setting(&case) {
            Setting::Element {
                point,
                normal,
                bright,
            } => {
                let room = shining(&bright, point);
                let [(fast, most), (slow, error)] = traced_element(point, normal, &room, rays(expected));
                case.within_noise("the meter's rays", fast, most, expected, 0.02);
                case.within_noise("the referee", slow, error, expected, 0.02);
            }
            Setting::Rectangles { from, to } => {
                let (share, error) = traced_rectangles(&from, &to);
                case.within_noise("the solved exchange", share, error, expected, 0.01);
            }
            Setting::Discs { from, to, apart } => {
                let far = disc_polygon(DVec3::Z * apart, DVec3::Z, to, 96);
                let room = shining(&Bright::Polygon(far), DVec3::ZERO);
                let (mut mean, mut variance) = (0.0, 0.0);
                for (r, weight) in gauss_points(6, 0.0, from) {
                    let [_, (slow, error)] =
                        traced_element(DVec3::X * r, DVec3::Z, &room, rays(expected) / 4);
                    let weight = weight * 2.0 * r / (from * from);
                    mean += weight * slow;
                    variance += (weight * error).powi(2);
                }
                case.within_noise("the referee", mean, variance.sqrt(), expected, 0.02);
            }
            Setting::BallToDisc { disc, height } => {
                let mut geometry = Geometry::default();
                let polygon = disc_polygon(DVec3::ZERO, DVec3::Z, disc, 96);
                add_mesh(
                    &mut geometry,
                    &fan_towards(&polygon, DVec3::Z * height),
                    matt(0.0),
                );
                let tracer = Tracer::new(&geometry);
                // Small as it is, an even bulb shines like the ball around it.
                let bulb = bulb(1.0, (DVec3::Z * height).as_vec3());
                let (draws, mut dice) = (1 << 20, Dice(47));
                let hits = (0..draws)
                    .filter(|_| {
                        let (direction, _) = bulb.sample_direction(dice.pair());
                        tracer.closest(bulb.position, direction).is_some()
                    })
                    .count();
                let share = hits as f64 / draws as f64;
                let error = counting_error(share, draws);
                case.within_noise("the bulb's rays", share, error, expected, 0.01);
            }
        }
    }
}
