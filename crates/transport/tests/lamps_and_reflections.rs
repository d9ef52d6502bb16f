//! Point lamps, bright areas, one reflection and all of them, in the manner of CIE 171:2006
//! (checks/cie171_like.json), each case through the project's own code.
//!
//! What is computed without chance is held to the case's own tolerance. What is counted with rays is held
//! to four of its own standard errors, which must be small enough to say something; such a check stands
//! beside one without chance wherever the project has a closed form.

mod harness;

use glam::{DVec3, Vec3, dvec3};
use harness::*;
use light::Beam;
use rayon::prelude::*;
use scene::{BoxRoom, Face, Geometry, ObjectKind, Place, assemble};
use std::f64::consts::{PI, TAU};
use transport::{
    Fineness, Meter, Patches, PlacedFlash, Receptor, Room, SolvedLight, Source, Tracer, disc_polygon,
    polygon_factor, polygon_illuminance, read_light, read_meters,
};
use units::IntensityTime;

/// Groups of the file that nothing in the project computes yet, and why.
const NOT_YET: &[(&str, &str)] = &[(
    "grid_black_square_cell",
    "grids are not part of `light` yet: no head dress narrows the beam",
)];

/// A lamp at the origin of intensity I₀ cosⁿ that shines straight down.
fn lamp(case: &Case, position: Vec3) -> PlacedFlash {
    let axis = IntensityTime::new(case.number("peak_intensity_cd")).unwrap();
    let beam = Beam::cosine_power(axis, case.number("exponent_n"));
    PlacedFlash::aimed(beam, position, position - Vec3::Z, [0.0, 0.0])
}

/// What a meter gets straight from a flash in empty space.
fn direct(flash: &PlacedFlash, position: Vec3, receptor: Receptor) -> f32 {
    let room = void();
    Meter { position, receptor }.read_direct(&room, flash)
}

fn point_source(case: &Case) {
    let height = case.number("source_height_m") as f32;
    let flash = lamp(case, Vec3::new(0.0, 0.0, height));
    let position = Vec3::new(case.number("horizontal_offset_m") as f32, 0.0, 0.0);
    for (normal, key) in [
        (Vec3::Z, "illuminance_horizontal_lx"),
        (-Vec3::X, "illuminance_vertical_facing_source_lx"),
    ] {
        let lux = direct(&flash, position, Receptor::Flat(normal));
        case.within(key, lux.into(), case.number(key));
    }
}

/// The light inside a cone: by quadrature of the beam's intensity, by the beam's own total where the cone
/// is the whole front, and by drawing directions from the beam.
fn flux_of_distribution(case: &Case) {
    let beam = lamp(case, Vec3::ZERO).beam;
    let expected = case.number("luminous_flux_lm");
    let edge = case.number("cone_half_angle_deg").to_radians().cos();
    let flux = TAU
        * integrate(64, edge, 1.0, |cos| {
            let sin = (1.0 - cos * cos).sqrt();
            f64::from(beam.intensity(Vec3::new(sin as f32, 0.0, cos as f32)))
        });
    case.within("the flux by quadrature", flux, expected);
    if edge < 1e-12 {
        case.within("the beam's total", beam.total(), expected);
    }
    let (draws, mut dice) = (1 << 18, Dice(41));
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..draws {
        let (direction, density) = beam.sample(dice.pair());
        if f64::from(direction.z) > edge {
            let value = f64::from(beam.intensity(direction) / density);
            sum += value;
            squares += value * value;
        }
    }
    let n = f64::from(draws);
    let (mean, error) = (sum / n, ((squares / n - (sum / n).powi(2)) / n).sqrt());
    case.within_noise("the flux by sampling", mean, error, expected, 0.01);
}

fn face_of(case: &Case) -> Face {
    match case.text("face") {
        "ceiling" => Face::Ceiling,
        "floor" => Face::Floor,
        "x0" => Face::Left,
        "x1" => Face::Right,
        "y0" => Face::BehindCamera,
        "y1" => Face::BehindSitter,
        other => panic!("no face {other}"),
    }
}

/// The share of a bare bulb's light that falls on a face of a box: by summing a meter's direct readings
/// over the face, and by following the bulb's rays to the faces.
fn flux_share(case: &Case) {
    let size = case.vector("room_size_m");
    let bulb = bulb(1.0, case.vector("source_position_m").as_vec3());
    let place = Place::new(BoxRoom::uniform(size.as_vec3().into(), matt(0.0)));
    let face = face_of(case);
    let (corner, a, b) = place.room.face_frame(face);
    let (corner, a, b) = (corner.as_dvec3(), a.as_dvec3(), b.as_dvec3());
    let room = void();
    let meters: Vec<(Meter, f64)> = gauss_points(64, 0.0, 1.0)
        .into_iter()
        .flat_map(|(u, wu)| {
            gauss_points(64, 0.0, 1.0)
                .into_iter()
                .map(move |(v, wv)| (flat(corner + a * u + b * v, face.inward().as_dvec3()), wu * wv))
        })
        .collect();
    let flux: f64 = meters
        .iter()
        .map(|(meter, weight)| weight * f64::from(meter.read_direct(&room, &bulb)))
        .sum::<f64>()
        * a.cross(b).length();
    case.within("the solid angle by meters", flux, case.number("solid_angle_sr"));
    case.within(
        "the share by meters",
        flux / bulb.beam.total(),
        case.number("flux_share"),
    );

    let geometry = assemble(&place, &[]).unwrap().geometry;
    let tracer = Tracer::new(&geometry);
    let (draws, mut dice) = (1 << 18, Dice(43));
    let hits = (0..draws)
        .filter(|_| {
            let (direction, _) = bulb.sample_direction(dice.pair());
            let hit = tracer.closest(bulb.position, direction).unwrap();
            let object = &geometry.objects[geometry.object[hit.triangle as usize] as usize];
            object.kind == ObjectKind::RoomFace(face)
        })
        .count();
    let share = hits as f64 / f64::from(draws);
    let error = (share * (1.0 - share) / f64::from(draws)).sqrt();
    case.within_noise("the share by rays", share, error, case.number("flux_share"), 0.01);
}

/// A bright rectangle seen by a small flat receiver at the origin that looks up.
struct Area {
    corner: DVec3,
    a: DVec3,
    b: DVec3,
}

impl Area {
    /// Level, centred over (−offset), shining down.
    fn overhead([width, depth]: [f64; 2], height: f64, [x, y]: [f64; 2]) -> Self {
        Area {
            corner: dvec3(-x - 0.5 * width, -y - 0.5 * depth, height),
            a: DVec3::Y * depth,
            b: DVec3::X * width,
        }
    }

    /// Standing across +y at a distance, shining towards the receiver.
    fn upright([width, height]: [f64; 2], bottom: f64, distance: f64, aside: f64) -> Self {
        Area {
            corner: dvec3(-aside - 0.5 * width, distance, bottom),
            a: DVec3::X * width,
            b: DVec3::Z * height,
        }
    }

    fn polygon(&self) -> [DVec3; 4] {
        let Area { corner, a, b } = *self;
        [corner, corner + a, corner + a + b, corner + b]
    }

    fn factor(&self) -> f64 {
        polygon_factor(DVec3::ZERO, DVec3::Z, &self.polygon())
    }

    fn add_to(&self, geometry: &mut Geometry, rho: f64) -> usize {
        add_rectangle(geometry, self.corner, self.a, self.b, matt(rho))
    }

    /// Illuminance from this area at a luminance: in closed form and by the referee.
    fn shines(&self, case: &Case, luminance: f64, key: &str) {
        let expected = case.number(key);
        let lux = polygon_illuminance(DVec3::ZERO, DVec3::Z, &self.polygon(), luminance);
        case.within(key, lux, expected);
        let mut geometry = Geometry::default();
        let object = self.add_to(&mut geometry, 0.0);
        let source = Source::Glowing(vec![object]);
        let up = [flat(DVec3::ZERO, DVec3::Z)];
        let reading = read_meters(&whole(geometry), &source, None, None, &up, 1 << 16, 3)[0];
        let (mean, error) = (
            f64::from(reading.mean.mean()),
            f64::from(reading.standard_error.mean()),
        );
        case.within_noise("by rays", mean * luminance, error * luminance, expected, 0.01);
    }

    /// Illuminance when this area is a matt board evenly lit: in closed form (what is visible of it), and
    /// by the meter's rays through the solved room with whatever `screen` stands in between.
    fn reflects(&self, case: &Case, rho: f64, lux_on_it: f64, visible: &Area, screen: Option<Area>) {
        let expected = case.number("illuminance_at_receiver_lx");
        case.within("in closed form", rho * lux_on_it * visible.factor(), expected);
        let mut geometry = Geometry::default();
        self.add_to(&mut geometry, rho);
        if let Some(screen) = screen {
            screen.add_to(&mut geometry, 0.0);
        }
        let room = whole(geometry);
        let mut arriving = vec![0.0; room.patches.list.len()];
        arriving[0] = lux_on_it as f32;
        let rays = (12000.0 * rho * lux_on_it / expected) as usize;
        let meter = flat(DVec3::ZERO, DVec3::Z);
        let read =
            |light: &SolvedLight| f64::from(read_light(&room, &Source::AllRound, light, &meter, rays).mean());
        let dark = vec![0.0; arriving.len()];
        let light = room.bounced(arriving, dark);
        let lux = read(&light);
        // The board sees nothing else that is bright, so the first bounce is all there is.
        let first = read(&light.first_bounce(&room));
        assert!(
            (first / lux - 1.0).abs() < 1e-6,
            "{}: {first} of {lux}",
            case.id()
        );
        let share = lux / (rho * lux_on_it);
        let error = (share * (1.0 - share) / rays as f64).sqrt() * rho * lux_on_it;
        case.within_noise("by rays", lux, error, expected, 0.01);
    }
}

fn area_overhead(case: &Case) {
    let size = case.numbers("source_size_m");
    let area = Area::overhead(size, case.number("height_m"), case.numbers("receiver_offset_m"));
    let luminance = case.number("source_luminance_cd_m2");
    area.shines(case, luminance, "illuminance_lx");
    let mut geometry = Geometry::default();
    let object = area.add_to(&mut geometry, 0.0);
    let room = whole(geometry);
    let flux: f32 = room
        .glow_of(&Source::Glowing(vec![object]))
        .iter()
        .zip(&room.patches.list)
        .map(|(exitance, patch)| exitance * patch.area)
        .sum();
    case.within(
        "the flux",
        f64::from(flux) * luminance,
        case.number("luminous_flux_of_source_lm"),
    );
}

fn area_upright(case: &Case) {
    let area = Area::upright(
        case.numbers("source_size_m"),
        case.number("source_bottom_height_m"),
        case.number("distance_m"),
        case.number("lateral_offset_m"),
    );
    area.shines(
        case,
        case.number("source_luminance_cd_m2"),
        "illuminance_on_floor_element_lx",
    );
}

fn near_field(case: &Case) {
    let distance = case.number("distance_m");
    let key = "ratio_true_to_inverse_square";
    if case.text("group") == "near_field_disk" {
        let radius = 0.5 * case.number("disk_diameter_m");
        let disc = disc_polygon(DVec3::Z * distance, DVec3::Z, radius, 4096);
        let far = (radius / distance).powi(2);
        case.within(
            key,
            polygon_factor(DVec3::ZERO, DVec3::Z, &disc) / far,
            case.number(key),
        );
    } else {
        let side = case.number("square_side_m");
        let area = Area::overhead([side; 2], distance, [0.0; 2]);
        let far = (side / distance).powi(2) / PI;
        area.shines(case, 1.0 / (PI * far), key);
    }
}

fn one_reflection(case: &Case) {
    let rho = case.number("reflectance");
    let lux = case.number("illuminance_on_reflector_lx");
    let distance = case.number("distance_m");
    let area = if case.text("geometry").starts_with("parallel") {
        Area::overhead(case.numbers("reflector_size_m"), distance, [0.0; 2])
    } else {
        let size = [
            case.number("reflector_width_m"),
            case.number("reflector_height_m"),
        ];
        Area::upright(size, 0.0, distance, 0.0)
    };
    area.reflects(case, rho, lux, &area, None);
}

fn obstructed(case: &Case) {
    let (width, height) = (case.number("wall_width_m"), case.number("wall_height_m"));
    let distance = case.number("wall_distance_m");
    let screen = (case.number("screen_distance_m"), case.number("screen_height_m"));
    // Similar triangles: what the receiver sees over the edge of the screen.
    let hidden = screen.1 * distance / screen.0;
    case.within(
        "the height of what is visible",
        hidden,
        case.number("visible_wall_from_height_m"),
    );
    let wall = Area::upright([width, height], 0.0, distance, 0.0);
    let visible = Area::upright([width, height - hidden], hidden, distance, 0.0);
    let screen = Area::upright([1000.0, screen.1], 0.0, screen.0, 0.0);
    wall.reflects(
        case,
        case.number("reflectance"),
        case.number("illuminance_on_wall_lx"),
        &visible,
        Some(screen),
    );
}

/// Mean illuminance over all patches, straight from the lamp and by way of other patches.
fn mean_illuminances(room: &Room, flash: &PlacedFlash) -> [f64; 2] {
    let light = room.solve(&Source::Flash(flash.clone()));
    let (mut direct, mut indirect, mut area) = (0.0, 0.0, 0.0);
    for (patch, (e, i)) in room
        .patches
        .list
        .iter()
        .zip(light.direct.iter().zip(&light.indirect))
    {
        let size = f64::from(patch.area);
        direct += size * f64::from(*e);
        indirect += size * f64::from(i.mean());
        area += size;
    }
    [direct / area, indirect / area]
}

/// An enclosure of one reflectance and a point inside from which a bulb shines.
fn enclosure(name: &str, rho: f64) -> (Room, Vec3) {
    let boxed = |size: [f32; 3], bulb: Vec3| {
        let place = Place::new(BoxRoom::uniform(size, matt(rho)));
        let fineness = Fineness {
            pitch_m: 0.1,
            rays: 100,
        };
        (
            Room::new(assemble(&place, &[]).unwrap().geometry, fineness, 23),
            bulb,
        )
    };
    match name {
        // Off the middle, because the answer does not depend on where the light first falls.
        "cube_4m" => boxed([4.0; 3], Vec3::new(1.5, 2.2, 2.6)),
        "room_4x5x2.7" => boxed([4.0, 5.0, 2.7], Vec3::new(1.6, 3.0, 1.5)),
        "sphere_r1m" => {
            let mut geometry = Geometry::default();
            let shell = inside_out(sphere_mesh(DVec3::ZERO, 1.0, 4, true));
            add_mesh(&mut geometry, &shell, matt(rho));
            let fineness = Fineness {
                pitch_m: 1.0,
                rays: 64,
            };
            (Room::new(geometry, fineness, 23), Vec3::ZERO)
        }
        other => panic!("no enclosure {other}"),
    }
}

fn interreflection(case: &Case) {
    let rho = case.number("reflectance");
    let (room, position) = enclosure(case.text("enclosure"), rho);
    let area: f64 = room.patches.list.iter().map(|p| f64::from(p.area)).sum();
    case.within("the area", area, case.number("area_m2"));
    let bulb = bulb(case.number("source_flux_lm") / (4.0 * PI), position);
    let [direct, indirect] = mean_illuminances(&room, &bulb);
    case.within(
        "the mean indirect",
        indirect,
        case.number("mean_indirect_illuminance_lx"),
    );
    case.within(
        "the mean total",
        direct + indirect,
        case.number("mean_total_illuminance_lx"),
    );
}

/// A sphere with a black port: a lamp that lights the wall away from the port. Every point of a sphere
/// lights every other alike, so what the port and the wall receive by reflection is the multiplier's.
fn integrating_sphere(case: &Case) {
    let (rho, port) = (case.number("wall_reflectance"), case.number("port_fraction"));
    let radius = case.number("sphere_radius_m");
    let mut geometry = Geometry::default();
    let wall = geometry.add_material(matt(rho));
    let hole = geometry.add_material(matt(0.0));
    let shell = inside_out(sphere_mesh(DVec3::ZERO, radius, 5, true));
    let size = |t: &[Vec3; 3]| f64::from(0.5 * (t[1] - t[0]).cross(t[2] - t[0]).length());
    let mut lowest: Vec<usize> = (0..shell.len()).collect();
    let middle = |i: usize| shell[i].iter().map(|p| p.z).sum::<f32>();
    lowest.sort_by(|&a, &b| middle(a).total_cmp(&middle(b)));
    let whole: f64 = shell.iter().map(size).sum();
    let mut materials = vec![wall; shell.len()];
    let mut cut = 0.0;
    for index in lowest {
        if cut >= port * whole {
            break;
        }
        cut += size(&shell[index]);
        materials[index] = hole;
    }
    let port = cut / whole;
    add_mesh_of(
        &mut geometry,
        &shell.into_iter().zip(materials).collect::<Vec<_>>(),
    );
    let fineness = Fineness {
        pitch_m: 1.0,
        rays: 256,
    };
    let room = Room::new(geometry, fineness, 29);
    let flux = case.number("flux_lm");
    let beam = Beam::cosine_power(IntensityTime::new(flux / PI).unwrap(), 1.0);
    let flash = PlacedFlash::aimed(beam, Vec3::ZERO, Vec3::Z, [0.0, 0.0]);
    let source = Source::Flash(flash);
    let meter = Meter {
        position: Vec3::new(0.0, 0.0, -0.999 * radius as f32),
        receptor: Receptor::Flat(Vec3::Z),
    };
    let reading = read_meters(&room, &source, None, None, &[meter], 1 << 17, 31)[0];
    // The port lies behind the lamp and receives reflected light only: π times the wall's luminance.
    let luminance = f64::from(reading.mean.mean()) / PI;
    let error = f64::from(reading.standard_error.mean()) / PI;
    // The mesh cannot cut the port to the last triangle, so the expected value follows its true share.
    let stated = case.number("multiplier_M");
    let multiplier = |port: f64| rho / (1.0 - rho * (1.0 - port));
    case.within(
        "the multiplier's formula",
        multiplier(case.number("port_fraction")),
        stated,
    );
    let expected = case.number("wall_luminance_cd_m2") * multiplier(port) / stated;
    case.within_noise("the wall's luminance", luminance, error, expected, 0.005);
}

/// Two endless planes: squares so near together that a millionth of the light is lost at the rim.
fn two_planes(case: &Case) {
    let (rho1, rho2) = (case.number("reflectance1"), case.number("reflectance2"));
    let mut geometry = Geometry::default();
    let (side, gap) = (4000.0, 0.002);
    let corner = dvec3(-0.5 * side, -0.5 * side, 0.0);
    let (x, y) = (DVec3::X * side, DVec3::Y * side);
    add_rectangle(&mut geometry, corner, x, y, matt(rho1));
    add_rectangle(&mut geometry, corner + DVec3::Z * gap, y, x, matt(rho2));
    let room = whole(geometry);
    let source = Source::Glowing(vec![0]);
    let middle = DVec3::Z * 0.5 * gap;
    let meters = [flat(middle, -DVec3::Z), flat(middle, DVec3::Z)];
    let scale = case.number("emitted_exitance_plane1_lm_m2") / PI;
    let readings = read_meters(&room, &source, None, None, &meters, 1 << 17, 37);
    for (reading, keys) in readings.iter().zip([
        ["exitance1_lm_m2", "illuminance_on_plane2_lx"].as_slice(),
        ["illuminance_on_plane1_lx"].as_slice(),
    ]) {
        for key in keys {
            let value = f64::from(reading.mean.mean()) * scale;
            let error = f64::from(reading.standard_error.mean()) * scale;
            case.within_noise(key, value, error, case.number(key), 0.005);
        }
    }
}

/// A matt board under a known illuminance, as the camera sees it: L = ρE/π.
fn lambert_luminance(case: &Case) {
    use transport::{Effort, Method, render};
    let lux = case.number("illuminance_lx");
    let mut geometry = Geometry::default();
    let corner = dvec3(-0.5, 1.0, -0.5);
    add_rectangle(
        &mut geometry,
        corner,
        DVec3::X,
        DVec3::Z,
        matt(case.number("reflectance")),
    );
    let room = whole(geometry);
    // So far away that the light is parallel over the piece that the picture shows.
    let away = 64.0;
    let source = Source::Flash(bulb(lux * away * away, Vec3::new(0.0, 1.0 - away as f32, 0.0)));
    let light = room.solve(&source);
    let view = scene::Viewpoint {
        position: Vec3::ZERO,
        look_at: Vec3::Y,
        focal_mm: 1000.0,
        landscape: true,
    };
    for method in [Method::Solved, Method::Referee] {
        let effort = Effort {
            most_passes: 1,
            error: 0.0,
            plain: true,
        };
        let picture = render(
            &room,
            &source,
            &light,
            &view,
            [1, 1],
            method,
            effort,
            1,
            &mut |_| true,
        );
        let seen = picture.layer.pixels[0].0[0];
        let expected = case.number("luminance_cd_m2");
        // Some twenty roundings lie between the lamp and the picture, each half a unit of the last place.
        assert!(
            (f64::from(seen) / expected - 1.0).abs() < 10.0 * f64::from(f32::EPSILON),
            "{}: {seen} for {expected} by {method:?}",
            case.id()
        );
    }
}

/// A scrim's own brightness waits for scrims in `light`; what it sends on is an even area's light.
fn scrim(case: &Case) {
    let area = Area::overhead(
        [case.number("square_side_m"); 2],
        case.number("distance_m"),
        [0.0; 2],
    );
    area.shines(
        case,
        case.number("scrim_luminance_cd_m2"),
        "illuminance_on_axis_lx",
    );
}

/// Mean over a ball's surface of what a flat receptor reads in a parallel beam along −z.
fn mean_over_ball(beam: f64, lowest: f64) -> f64 {
    let azimuths = 64;
    let points = gauss_points(64, lowest.max(0.0), 1.0)
        .into_iter()
        .chain(gauss_points(64, lowest.min(0.0), lowest.max(0.0)));
    let sum: f64 = points
        .map(|(z, weight)| {
            let ring: f64 = (0..azimuths)
                .map(|i| {
                    let (sin, cos) = (TAU * i as f64 / azimuths as f64).sin_cos();
                    let radius = (1.0 - z * z).sqrt();
                    let normal = dvec3(radius * cos, radius * sin, z).as_vec3();
                    f64::from(Receptor::Flat(normal).weight(Vec3::Z))
                })
                .sum();
            weight * ring / f64::from(azimuths)
        })
        .sum();
    beam * sum / (1.0 - lowest)
}

fn sphere_receiver(case: &Case) {
    let beam = case.number("beam_normal_illuminance_lx");
    let (mean, lit) = (
        case.number("mean_illuminance_over_sphere_lx"),
        case.number("mean_over_lit_hemisphere_lx"),
    );
    let (sphere, dome) = (
        Receptor::Sphere.weight(Vec3::Z),
        Receptor::Dome(Vec3::Z).weight(Vec3::Z),
    );
    // Scalar illuminance is four times the mean over a ball; a dome is scaled to read twice the mean over
    // its half when the beam comes along the axis.
    case.within(
        "a quarter of the sphere's reading",
        beam * f64::from(sphere) / 4.0,
        mean,
    );
    case.within("half of the dome's reading", beam * f64::from(dome) / 2.0, lit);
    case.within(
        "half of the dome's reading",
        beam * f64::from(dome) / 2.0,
        case.number("hemispherical_illuminance_beam_from_pole_lx"),
    );
    case.within_single(
        "flat receptors all over a ball",
        mean_over_ball(beam, -1.0) as f32,
        mean,
    );
    case.within_single(
        "flat receptors over the lit half",
        mean_over_ball(beam, 0.0) as f32,
        lit,
    );
}

fn cardioid(case: &Case) {
    let angle = case.number("beam_angle_from_axis_deg").to_radians();
    let from = dvec3(angle.sin(), 0.0, angle.cos()).as_vec3();
    let weight = Receptor::Dome(Vec3::Z).weight(from);
    case.within_single("the dome", weight, case.number("rel_to_axis"));
    case.within_single(
        "the mean over the half",
        0.5 * weight,
        case.number("mean_illuminance_on_hemisphere_rel"),
    );
}

fn check(case: &Case) -> bool {
    match case.text("group") {
        "point_source" => point_source(case),
        "flux_of_distribution" => flux_of_distribution(case),
        "flux_share_isotropic" => flux_share(case),
        "area_source_horizontal" => area_overhead(case),
        "area_source_perpendicular" => area_upright(case),
        "near_field" | "near_field_disk" => near_field(case),
        "one_diffuse_reflection" => one_reflection(case),
        "diffuse_reflection_obstructed" => obstructed(case),
        "interreflection_uniform" => interreflection(case),
        "integrating_sphere" => integrating_sphere(case),
        "two_planes" => two_planes(case),
        "lambert_luminance" => lambert_luminance(case),
        "scrim" => scrim(case),
        "sphere_receiver" => sphere_receiver(case),
        "cardioid_receptor" => cardioid(case),
        group => {
            assert!(
                NOT_YET.iter().any(|(known, _)| *known == group),
                "no test for the group {group}"
            );
            return false;
        }
    }
    true
}

#[test]
fn lamps_areas_and_reflections() {
    let data = checks("cie171_like");
    let cases = data["cases"].as_array().unwrap();
    let failures: Vec<String> = cases
        .par_iter()
        .filter_map(|case| {
            let outcome = std::panic::catch_unwind(|| check(&Case(case)));
            outcome
                .err()
                .map(|e| e.downcast_ref::<String>().cloned().unwrap_or_default())
        })
        .collect();
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    let left_out = cases
        .iter()
        .filter(|case| NOT_YET.iter().any(|(group, _)| *group == case["group"]))
        .count();
    assert_eq!((cases.len(), left_out), (82, 4));
}

/// The patches of a mesh add up to its area, whatever the clusters.
#[test]
fn no_area_is_lost_in_patches() {
    let mut geometry = Geometry::default();
    add_mesh(&mut geometry, &sphere_mesh(DVec3::ONE, 0.7, 4, true), matt(0.5));
    let area = Patches::new(&geometry, 0.1).total_area();
    assert!((f64::from(area) / (4.0 * PI * 0.49) - 1.0).abs() < 1e-4, "{area}");
}
