//! What the integration tests share: reading the check data, bare geometry without a room, a person, and
//! how to judge a noisy number.

#![allow(dead_code, reason = "every test binary uses a part of this")]

use colour::person::{self, ClothTone, HairTone, IrisTone};
use colour::{SkinTone, Spectrum};
use glam::{DVec3, Vec3};
use light::Beam;
use scene::figure::{FigureRecipe, KeptFigure};
use scene::{BoxRoom, Geometry, Material, Object, ObjectKind, Sitter, SitterColours};
use serde_json::Value;
use transport::{Fineness, Meter, PlacedFlash, Receptor, Room};
use units::IntensityTime;

/// A file of checks/.
pub fn checks(name: &str) -> Value {
    let path = format!("{}/../../checks/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// One case of a file of checks.
#[derive(Clone, Copy)]
pub struct Case<'a>(pub &'a Value);

impl<'a> Case<'a> {
    pub fn id(&self) -> &'a str {
        self.text("id")
    }

    pub fn text(&self, key: &str) -> &'a str {
        self.0[key]
            .as_str()
            .unwrap_or_else(|| panic!("{}: no text {key}", self.0["id"]))
    }

    pub fn number(&self, key: &str) -> f64 {
        self.0[key]
            .as_f64()
            .unwrap_or_else(|| panic!("{}: no number {key}", self.0["id"]))
    }

    pub fn numbers<const N: usize>(&self, key: &str) -> [f64; N] {
        std::array::from_fn(|i| self.0[key][i].as_f64().unwrap())
    }

    pub fn vector(&self, key: &str) -> DVec3 {
        DVec3::from_array(self.numbers(key))
    }

    /// The case's own relative tolerance.
    pub fn within(&self, what: &str, value: f64, expected: f64) {
        let tolerance = self.number("tol_rel");
        assert!(
            (value - expected).abs() <= tolerance * expected.abs(),
            "{}: {what} is {value}, expected {expected} within {tolerance}",
            self.id()
        );
    }

    /// The case's own relative tolerance, for a function that works in single precision: where the
    /// tolerance is finer than that, what is asked is the expected number rounded to single precision, one
    /// unit in the last place either way.
    pub fn within_single(&self, what: &str, value: f32, expected: f64) {
        let tolerance = self.number("tol_rel").max(f64::from(f32::EPSILON));
        assert!(
            (f64::from(value) - expected).abs() <= tolerance * expected.abs(),
            "{}: {what} is {value}, expected {expected} within {tolerance}",
            self.id()
        );
    }

    /// A noisy value: within four of its own standard errors, which must be small enough to say something.
    pub fn within_noise(&self, what: &str, value: f64, error: f64, expected: f64, most_relative: f64) {
        assert!(
            error <= most_relative * expected.abs(),
            "{}: {what}: a standard error of {error} is too large to judge {expected}",
            self.id()
        );
        assert!(
            (value - expected).abs() <= 4.0 * error,
            "{}: {what} is {value} ± {error}, expected {expected}",
            self.id()
        );
    }
}

/// Points and weights of Gauss and Legendre on `low..high`.
///
/// From the roots of the Legendre polynomial by bisection inside Bruns's bounds
/// cos(jπ/(n+½)) < x_j < cos((j−½)π/(n+½)): slower and independent of what the crate does.
pub fn gauss_points(count: usize, low: f64, high: f64) -> Vec<(f64, f64)> {
    let legendre = |x: f64| {
        let (mut before, mut value) = (1.0, x);
        for k in 2..=count {
            let k = k as f64;
            (before, value) = (value, ((2.0 * k - 1.0) * x * value - (k - 1.0) * before) / k);
        }
        (value, before)
    };
    let n = count as f64;
    (1..=count)
        .map(|j| {
            let bound = |shift: f64| (std::f64::consts::PI * (j as f64 - shift) / (n + 0.5)).cos();
            let (mut a, mut b) = (bound(0.0), bound(0.5));
            let rising = legendre(b).0 > legendre(a).0;
            for _ in 0..60 {
                let middle = 0.5 * (a + b);
                if (legendre(middle).0 > 0.0) == rising {
                    b = middle
                } else {
                    a = middle
                }
            }
            let x = 0.5 * (a + b);
            let weight = 2.0 * (1.0 - x * x) / (n * legendre(x).1).powi(2);
            let half = 0.5 * (high - low);
            (low + half * (x + 1.0), half * weight)
        })
        .collect()
}

/// Integral of a function over `low..high`.
pub fn integrate(count: usize, low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    gauss_points(count, low, high)
        .into_iter()
        .map(|(x, w)| w * f(x))
        .sum()
}

/// Numbers in 0..1 from a seed (SplitMix64: Steele, Lea & Flood 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn unit(&mut self) -> f32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut x = self.0;
        x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((x ^ (x >> 31)) >> 40) as f32 / 16_777_216.0
    }

    pub fn pair(&mut self) -> [f32; 2] {
        [self.unit(), self.unit()]
    }

    pub fn between(&mut self, low: f32, high: f32) -> f32 {
        low + (high - low) * self.unit()
    }

    pub fn vector(&mut self, low: f32, high: f32) -> Vec3 {
        Vec3::from_array(std::array::from_fn(|_| self.between(low, high)))
    }
}

/// Grey of a matt surface.
pub fn matt(value: f64) -> Material {
    Material::matt("grey", Spectrum::splat(value as f32))
}

/// Adds a lone rectangle; edge₁ × edge₂ is its front. Returns the object's index.
pub fn add_rectangle(
    geometry: &mut Geometry,
    corner: DVec3,
    a: DVec3,
    b: DVec3,
    material: Material,
) -> usize {
    let material = geometry.add_material(material);
    let frame = (corner.as_vec3(), a.as_vec3(), b.as_vec3());
    geometry.add_rectangle("rectangle", ObjectKind::Panel(0), frame, material);
    geometry.objects.len() - 1
}

/// Adds loose triangles as one object. Returns its index.
pub fn add_mesh(geometry: &mut Geometry, triangles: &[[Vec3; 3]], material: Material) -> usize {
    let material = geometry.add_material(material);
    add_mesh_of(
        geometry,
        &triangles.iter().map(|t| (*t, material)).collect::<Vec<_>>(),
    )
}

/// The same with a material of its own for every triangle.
pub fn add_mesh_of(geometry: &mut Geometry, triangles: &[([Vec3; 3], u16)]) -> usize {
    let first = geometry.triangles.len() as u32;
    let object = geometry.objects.len();
    for ([a, b, c], material) in triangles {
        let base = geometry.positions.len() as u32;
        geometry.positions.extend([a, b, c]);
        geometry
            .normals
            .extend([(b - a).cross(c - a).normalize_or(Vec3::Z); 3]);
        geometry.overlay.extend([[0.0; 3]; 3]);
        geometry.triangles.push([base, base + 1, base + 2]);
        geometry.material.push(*material);
        geometry.object.push(object as u32);
    }
    geometry.objects.push(Object {
        name: "mesh".into(),
        kind: ObjectKind::Block(0),
        first,
        count: triangles.len() as u32,
        rectangle: None,
    });
    object
}

/// A flat polygon as a fan of triangles that looks towards `towards`.
pub fn fan_towards(polygon: &[DVec3], towards: DVec3) -> Vec<[Vec3; 3]> {
    let middle = polygon.iter().sum::<DVec3>() / polygon.len() as f64;
    let next = polygon.iter().cycle().skip(1);
    polygon
        .iter()
        .zip(next)
        .map(|(a, b)| {
            let front = (a - middle).cross(b - middle).dot(towards - middle) > 0.0;
            let (a, b) = if front { (a, b) } else { (b, a) };
            [middle.as_vec3(), a.as_vec3(), b.as_vec3()]
        })
        .collect()
}

/// A sphere of about 20·4ⁿ triangles that look outwards, of exactly the sphere's area when `inflate`.
pub fn sphere_mesh(centre: DVec3, radius: f64, subdivisions: u32, inflate: bool) -> Vec<[Vec3; 3]> {
    let t = 0.5 * (1.0 + 5f64.sqrt());
    let v: Vec<DVec3> = [
        [-1.0, t, 0.0],
        [1.0, t, 0.0],
        [-1.0, -t, 0.0],
        [1.0, -t, 0.0],
        [0.0, -1.0, t],
        [0.0, 1.0, t],
        [0.0, -1.0, -t],
        [0.0, 1.0, -t],
        [t, 0.0, -1.0],
        [t, 0.0, 1.0],
        [-t, 0.0, -1.0],
        [-t, 0.0, 1.0],
    ]
    .map(|p| DVec3::from_array(p).normalize())
    .to_vec();
    let faces = [
        [0, 11, 5],
        [0, 5, 1],
        [0, 1, 7],
        [0, 7, 10],
        [0, 10, 11],
        [1, 5, 9],
        [5, 11, 4],
        [11, 10, 2],
        [10, 7, 6],
        [7, 1, 8],
        [3, 9, 4],
        [3, 4, 2],
        [3, 2, 6],
        [3, 6, 8],
        [3, 8, 9],
        [4, 9, 5],
        [2, 4, 11],
        [6, 2, 10],
        [8, 6, 7],
        [9, 8, 1],
    ];
    let mut triangles: Vec<[DVec3; 3]> = faces.iter().map(|f| f.map(|i| v[i])).collect();
    for _ in 0..subdivisions {
        triangles = triangles
            .iter()
            .flat_map(|&[a, b, c]| {
                let (ab, bc, ca) = ((a + b).normalize(), (b + c).normalize(), (c + a).normalize());
                [[a, ab, ca], [ab, b, bc], [ca, bc, c], [ab, bc, ca]]
            })
            .collect();
    }
    let area: f64 = triangles
        .iter()
        .map(|[a, b, c]| 0.5 * (b - a).cross(c - a).length())
        .sum();
    let scale = if inflate {
        (4.0 * std::f64::consts::PI / area).sqrt()
    } else {
        1.0
    };
    triangles
        .iter()
        .map(|t| t.map(|p| (centre + radius * scale * p).as_vec3()))
        .collect()
}

/// The same triangles seen from the other side.
pub fn inside_out(triangles: Vec<[Vec3; 3]>) -> Vec<[Vec3; 3]> {
    triangles.into_iter().map(|[a, b, c]| [a, c, b]).collect()
}

/// Geometry whose rectangles are one patch each.
pub fn whole(geometry: Geometry) -> Room {
    Room::new(
        geometry,
        Fineness {
            pitch_m: 1e4,
            rays: 4,
        },
        11,
    )
}

/// A room with nothing in it at all.
pub fn void() -> Room {
    whole(Geometry::default())
}

pub fn flat(position: DVec3, normal: DVec3) -> Meter {
    Meter {
        position: position.as_vec3(),
        receptor: Receptor::Flat(normal.normalize().as_vec3()),
    }
}

/// A point flash that shines alike all round with this intensity in cd s.
pub fn bulb(intensity: f64, position: Vec3) -> PlacedFlash {
    let beam = Beam::even(IntensityTime::new(intensity).unwrap());
    PlacedFlash::aimed(beam, position, position - Vec3::Z, [0.0, 0.0])
}

/// A person with skin of this tone who stands at (x, y) and turns by `facing` radians from the camera.
pub fn sitter(x: f32, y: f32, facing: f32, skin: SkinTone) -> Sitter {
    Sitter {
        name: "cornet".into(),
        stand: Vec3::new(x, y, 0.0),
        face_height: 1.55,
        facing,
        recipe: FigureRecipe {
            age_years: 40.0,
            masculinity: 0.5,
            ..FigureRecipe::default()
        },
        colours: SitterColours {
            skin: skin.reflectance().into(),
            lips: person::lips(skin).into(),
            hair: HairTone::Brown.reflectance().into(),
            iris: IrisTone::Brown.reflectance().into(),
            top: ClothTone::Grey.reflectance().into(),
            trousers: ClothTone::Charcoal.reflectance().into(),
            cap: ClothTone::Navy.reflectance().into(),
        },
        figure: KeptFigure::default(),
    }
}

/// A room with white walls and ceiling and a wooden floor's grey.
pub fn bright_room(size: [f32; 3]) -> BoxRoom {
    let mut room = BoxRoom::uniform(size, matt(0.8));
    room.materials[scene::Face::Floor.index()] = matt(0.3);
    room
}
