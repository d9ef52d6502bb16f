//! Scans of invented rooms, and writers of the two open formats, small enough to be checked by eye.

use glam::{Mat4, Vec3};
use std::collections::HashMap;

/// A named heap of triangles.
#[derive(Clone, Default)]
pub struct Shape {
    pub name: String,
    pub material: Option<(String, [f32; 3])>,
    pub triangles: Vec<[Vec3; 3]>,
}

impl Shape {
    pub fn new(name: &str) -> Self {
        Shape {
            name: name.to_owned(),
            ..Shape::default()
        }
    }

    pub fn coloured(mut self, material: &str, colour: [f32; 3]) -> Self {
        self.material = Some((material.to_owned(), colour));
        self
    }

    /// A parallelogram; its front is where a × b points.
    pub fn rectangle(mut self, corner: Vec3, a: Vec3, b: Vec3) -> Self {
        self.triangles.push([corner, corner + a, corner + a + b]);
        self.triangles.push([corner, corner + a + b, corner + b]);
        self
    }

    /// A box seen from outside.
    pub fn block(mut self, min: Vec3, max: Vec3) -> Self {
        let (x, y, z) = (
            Vec3::X * (max.x - min.x),
            Vec3::Y * (max.y - min.y),
            Vec3::Z * (max.z - min.z),
        );
        for (corner, a, b) in [
            (min, y, x),
            (min + z, x, y),
            (min, x, z),
            (min + y, z, x),
            (min, z, y),
            (min + x, y, z),
        ] {
            self = self.rectangle(corner, a, b);
        }
        self
    }

    pub fn moved(mut self, change: impl Fn(Vec3) -> Vec3) -> Self {
        for corner in self.triangles.iter_mut().flatten() {
            *corner = change(*corner);
        }
        self
    }
}

/// Everything turned about the vertical and shifted, as a scan lies when somebody began it anywhere.
pub fn lying_anyhow(shapes: Vec<Shape>, degrees: f32) -> Vec<Shape> {
    let turn =
        Mat4::from_translation(Vec3::new(-1.3, 7.1, -1.4)) * Mat4::from_rotation_z(degrees.to_radians());
    shapes
        .into_iter()
        .map(|shape| shape.moved(|p| turn.transform_point3(p)))
        .collect()
}

fn y_up(p: Vec3) -> Vec3 {
    Vec3::new(p.x, p.z, -p.y)
}

/// The description and the numbers of a glTF file, in metres with y up. A node for each shape, one below another
/// node; every second mesh goes without indices.
pub fn gltf_parts(shapes: &[Shape]) -> (serde_json::Value, Vec<u8>) {
    let (mut nodes, mut meshes, mut accessors, mut views, mut materials) =
        (vec![], vec![], vec![], vec![], vec![]);
    let mut data: Vec<u8> = Vec::new();
    // The root is shifted, and the points shifted back, so that a reader that forgets parents fails.
    let shift = Vec3::new(3.0, -2.0, 1.0);
    for (index, shape) in shapes.iter().enumerate() {
        let start = data.len();
        let points: Vec<Vec3> = shape
            .triangles
            .iter()
            .flatten()
            .map(|p| y_up(*p) - shift)
            .collect();
        for part in points.iter().flat_map(|p| p.to_array()) {
            data.extend(part.to_le_bytes());
        }
        views.push(serde_json::json!({ "buffer": 0, "byteOffset": start, "byteLength": data.len() - start }));
        accessors.push(
            serde_json::json!({ "bufferView": views.len() - 1, "componentType": 5126, "count": points.len(),
            "type": "VEC3" }),
        );
        let mut primitive = serde_json::json!({ "attributes": { "POSITION": accessors.len() - 1 } });
        if index % 2 == 0 {
            let start = data.len();
            for number in 0..points.len() as u32 {
                data.extend(number.to_le_bytes());
            }
            views.push(
                serde_json::json!({ "buffer": 0, "byteOffset": start, "byteLength": data.len() - start }),
            );
            accessors.push(
                serde_json::json!({ "bufferView": views.len() - 1, "componentType": 5125,
                "count": points.len(), "type": "SCALAR" }),
            );
            primitive["indices"] = (accessors.len() - 1).into();
        }
        if let Some((name, [r, g, b])) = &shape.material {
            materials.push(serde_json::json!({ "name": name, "pbrMetallicRoughness":
                { "baseColorFactor": [r, g, b, 1.0], "metallicFactor": 0.0 } }));
            primitive["material"] = (materials.len() - 1).into();
        }
        meshes.push(serde_json::json!({ "primitives": [primitive] }));
        let mut node = serde_json::json!({ "mesh": index });
        if !shape.name.is_empty() {
            node["name"] = shape.name.clone().into();
        }
        nodes.push(node);
    }
    let children: Vec<usize> = (0..nodes.len()).collect();
    nodes.push(serde_json::json!({ "name": "scan", "children": children, "translation": shift.to_array() }));
    let mut root = serde_json::json!({
        "asset": { "version": "2.0" }, "scene": 0, "scenes": [{ "nodes": [nodes.len() - 1] }], "nodes": nodes,
        "meshes": meshes, "accessors": accessors, "bufferViews": views, "buffers": [{ "byteLength": data.len() }],
    });
    if !materials.is_empty() {
        root["materials"] = materials.into();
    }
    (root, data)
}

/// A .glb of a description and its numbers.
pub fn glb_of(root: &serde_json::Value, data: &[u8]) -> Vec<u8> {
    let mut json = serde_json::to_vec(root).expect("JSON");
    json.resize(json.len().next_multiple_of(4), b' ');
    let mut data = data.to_vec();
    data.resize(data.len().next_multiple_of(4), 0);
    let mut file = b"glTF".to_vec();
    file.extend(2_u32.to_le_bytes());
    file.extend((12 + 8 + json.len() as u32 + 8 + data.len() as u32).to_le_bytes());
    file.extend((json.len() as u32).to_le_bytes());
    file.extend(b"JSON");
    file.extend(json);
    file.extend((data.len() as u32).to_le_bytes());
    file.extend(b"BIN\0");
    file.extend(data);
    file
}

pub fn glb(shapes: &[Shape]) -> Vec<u8> {
    let (root, data) = gltf_parts(shapes);
    glb_of(&root, &data)
}

/// A .gltf with its numbers inside, in base64 (RFC 4648).
pub fn gltf(shapes: &[Shape]) -> Vec<u8> {
    let (mut root, data) = gltf_parts(shapes);
    let letters = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::from("data:application/octet-stream;base64,");
    for three in data.chunks(3) {
        let number = (0..3).fold(0_u32, |sum, i| {
            (sum << 8) | u32::from(*three.get(i).unwrap_or(&0))
        });
        for i in 0..4 {
            let letter = letters[(number >> (18 - 6 * i)) as usize & 63] as char;
            text.push(if i > three.len() { '=' } else { letter });
        }
    }
    root["buffers"][0]["uri"] = text.into();
    serde_json::to_vec_pretty(&root).expect("JSON")
}

/// OBJ text with `unit` to the metre and z or y up; corners that coincide are one point.
pub fn obj(shapes: &[Shape], unit: f32, z_up: bool) -> Vec<u8> {
    let mut text = String::from("# a scan\nmtllib elsewhere.mtl\n");
    let mut numbers: HashMap<[u32; 3], usize> = HashMap::new();
    for shape in shapes {
        if !shape.name.is_empty() {
            text += &format!("o {}\n", shape.name);
        }
        if let Some((name, _)) = &shape.material {
            text += &format!("usemtl {name}\n");
        }
        for corners in &shape.triangles {
            let face = corners.map(|corner| {
                let p = if z_up { corner } else { y_up(corner) } * unit;
                let next = numbers.len() + 1;
                *numbers.entry(p.to_array().map(f32::to_bits)).or_insert_with(|| {
                    text += &format!("v {:.4} {:.4} {:.4}\n", p.x, p.y, p.z);
                    next
                })
            });
            text += &format!("f {} {} {}\n", face[0], face[1], face[2]);
        }
    }
    text.into_bytes()
}

/// Chance that is the same every time (a linear congruential generator with the constants of Numerical Recipes).
pub struct Dice(pub u32);

impl Dice {
    pub fn bits(&mut self) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        // The low bits of such a generator are poor.
        self.0 >> 8
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f32 {
        self.bits() as f32 / (1 << 24) as f32
    }

    /// Normally distributed with a spread of 1, by the sum of twelve.
    pub fn normal(&mut self) -> f32 {
        (0..12).map(|_| self.share()).sum::<f32>() - 6.0
    }
}
