//! Reading glTF 2.0 (Khronos Group, "glTF 2.0 Specification", ISO/IEC 12113:2022) from bytes.
//!
//! The JSON part is read by the crate `gltf-json`. The two chunks of a .glb and the numbers in the buffers
//! are read here, because every offset, count and index in them is a stranger's.

use super::mesh::{Facet, Mesh, Piece};
use super::refusal::{Damage, ScanError};
use base64::Engine as _;
use base64::engine::{DecodePaddingMode, GeneralPurpose, GeneralPurposeConfig};
use glam::{Mat4, Quat, Vec3};
use gltf_json::accessor::sparse::Sparse;
use gltf_json::accessor::{ComponentType, Type};
use gltf_json::mesh::{Mode, Primitive, Semantic};
use gltf_json::validation::Checked;
use gltf_json::{Accessor, Index, Root, buffer, deserialize, material, scene};
use std::borrow::Cow;

/// A JSON part with more brackets and commas than this would take too much memory (ours).
const MOST_JSON_PARTS: usize = 1_000_000;
/// Points that may be read, counted again for every piece that uses them (ours).
const MOST_POINTS: usize = 20_000_000;
/// How many names of parents are kept for a piece.
const PARENTS: usize = 3;
/// The extensions under which geometry is compressed.
const COMPRESSIONS: [&str; 3] = [
    "KHR_draco_mesh_compression",
    "EXT_meshopt_compression",
    "KHR_meshopt_compression",
];

/// Whether some bytes look like glTF of either kind.
pub(super) fn looks_like(bytes: &[u8]) -> bool {
    bytes.starts_with(b"glTF") || {
        let text = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
        text.iter().find(|byte| !byte.is_ascii_whitespace()) == Some(&b'{')
    }
}

/// Reads a file in which up is y.
///
/// # Errors
/// Everything that keeps it from being read.
pub(super) fn read(bytes: &[u8]) -> Result<Mesh, ScanError> {
    let (text, binary) = if bytes.starts_with(b"glTF") {
        chunks(bytes)?
    } else {
        (bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes), None)
    };
    let parts = text.iter().filter(|byte| b"{[,".contains(byte)).count();
    if parts > MOST_JSON_PARTS {
        return Err(ScanError::TooManyParts);
    }
    let root: Root = deserialize::from_slice(text)
        .map_err(|error| ScanError::Damaged(Damage::Unreadable(error.to_string())))?;
    if !root.asset.version.starts_with("2.") {
        return Err(ScanError::WrongVersion);
    }
    if root
        .extensions_required
        .iter()
        .any(|name| COMPRESSIONS.contains(&name.as_str()))
    {
        return Err(ScanError::Compressed);
    }
    let reader = Reader {
        root: &root,
        buffers: buffers(&root, binary)?,
    };
    reader.scene()
}

/// A little-endian number of four bytes.
fn word(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(
        bytes.get(at..at.checked_add(4)?)?.try_into().ok()?,
    ))
}

/// The JSON and the binary chunk of a .glb; chunks of other kinds are passed over.
fn chunks(bytes: &[u8]) -> Result<(&[u8], Option<&[u8]>), ScanError> {
    let short = || ScanError::Damaged(Damage::EndsEarly);
    if word(bytes, 4).ok_or_else(short)? != 2 {
        return Err(ScanError::WrongVersion);
    }
    let (mut json, mut binary) = (None, None);
    let mut at = 12;
    while let (Some(length), Some(kind)) = (word(bytes, at), bytes.get(at + 4..at + 8)) {
        let end = (at + 8).checked_add(length as usize).ok_or_else(short)?;
        let data = bytes.get(at + 8..end).ok_or_else(short)?;
        match kind {
            b"JSON" if json.is_none() => json = Some(data),
            b"BIN\0" if binary.is_none() => binary = Some(data),
            _ => {}
        }
        at = end;
    }
    Ok((json.ok_or_else(short)?, binary))
}

/// The bytes of every buffer; none for one that lies in another file.
fn buffers<'a>(root: &'a Root, binary: Option<&'a [u8]>) -> Result<Vec<Option<Cow<'a, [u8]>>>, ScanError> {
    let padding = GeneralPurposeConfig::new().with_decode_padding_mode(DecodePaddingMode::Indifferent);
    let base64 = GeneralPurpose::new(&base64::alphabet::STANDARD, padding);
    let decode = |(index, buffer): (usize, &'a buffer::Buffer)| {
        let Some(uri) = &buffer.uri else {
            return Ok(binary.filter(|_| index == 0).map(Cow::Borrowed));
        };
        let Some((kind, data)) = uri.strip_prefix("data:").and_then(|rest| rest.split_once(',')) else {
            return Ok(None);
        };
        if !kind.ends_with(";base64") {
            return Err(ScanError::Damaged(Damage::NotBase64));
        }
        let bytes = base64
            .decode(data)
            .map_err(|error| ScanError::Damaged(Damage::BrokenBase64(error.to_string())))?;
        Ok(Some(Cow::Owned(bytes)))
    };
    root.buffers.iter().enumerate().map(decode).collect()
}

/// A part of a buffer that holds `count` elements, each a step of `stride` bytes after the one before.
struct Elements<'a> {
    bytes: &'a [u8],
    stride: usize,
    count: usize,
}

impl Elements<'_> {
    /// The bytes from the start of an element on.
    fn at(&self, index: usize) -> &[u8] {
        index
            .checked_mul(self.stride)
            .and_then(|start| self.bytes.get(start..))
            .unwrap_or_default()
    }
}

/// How a vector is written.
struct VectorForm {
    kind: ComponentType,
    /// Numbers of a vector.
    length: usize,
    normalized: bool,
}

impl VectorForm {
    /// Bytes of a vector.
    fn bytes(&self) -> usize {
        component_size(self.kind) * self.length
    }

    /// A vector of these bytes; what it does not have is 1, and what cannot be read is no number.
    fn read(&self, bytes: &[u8]) -> [f32; 4] {
        let part = component_size(self.kind);
        let mut vector = [1.0_f32; 4];
        for (axis, value) in vector.iter_mut().enumerate().take(self.length) {
            *value = bytes
                .get(axis * part..)
                .and_then(|bytes| number(bytes, self.kind, self.normalized))
                .unwrap_or(f32::NAN);
        }
        vector
    }
}

fn component_size(kind: ComponentType) -> usize {
    match kind {
        ComponentType::I8 | ComponentType::U8 => 1,
        ComponentType::I16 | ComponentType::U16 => 2,
        ComponentType::U32 | ComponentType::F32 => 4,
    }
}

/// One number; integers are brought to 0..1 or -1..1 where the file says so (section 3.11 of the specification).
fn number(bytes: &[u8], kind: ComponentType, normalised: bool) -> Option<f32> {
    let two = || Some([*bytes.first()?, *bytes.get(1)?]);
    let four = || Some([*bytes.first()?, *bytes.get(1)?, *bytes.get(2)?, *bytes.get(3)?]);
    let (value, most) = match kind {
        ComponentType::I8 => (f32::from(*bytes.first()? as i8), f32::from(i8::MAX)),
        ComponentType::U8 => (f32::from(*bytes.first()?), f32::from(u8::MAX)),
        ComponentType::I16 => (f32::from(i16::from_le_bytes(two()?)), f32::from(i16::MAX)),
        ComponentType::U16 => (f32::from(u16::from_le_bytes(two()?)), f32::from(u16::MAX)),
        ComponentType::U32 => (u32::from_le_bytes(four()?) as f32, 1.0),
        ComponentType::F32 => (f32::from_le_bytes(four()?), 1.0),
    };
    let integer = kind != ComponentType::F32 && kind != ComponentType::U32;
    Some(if normalised && integer {
        (value / most).max(-1.0)
    } else {
        value
    })
}

/// A whole number without sign.
fn whole(bytes: &[u8], kind: ComponentType) -> Option<u32> {
    Some(match kind {
        ComponentType::U8 => u32::from(*bytes.first()?),
        ComponentType::U16 => u32::from(u16::from_le_bytes([*bytes.first()?, *bytes.get(1)?])),
        ComponentType::U32 => word(bytes, 0)?,
        _ => return None,
    })
}

/// Where a node stands and what it and its parents are called.
struct Visit {
    node: Index<scene::Node>,
    world: Mat4,
    names: Vec<String>,
}

/// The points of an accessor that was read last; pieces that share one come one after another.
#[derive(Default)]
struct LastPoints {
    accessor: Option<usize>,
    points: Vec<Vec3>,
    /// How many more may be read.
    left: usize,
}

struct Reader<'a> {
    root: &'a Root,
    buffers: Vec<Option<Cow<'a, [u8]>>>,
}

impl Reader<'_> {
    /// Walks through the nodes of the scene. Every node is visited once, so that a circle ends.
    fn scene(&self) -> Result<Mesh, ScanError> {
        let mut mesh = Mesh::default();
        let mut last = LastPoints {
            left: MOST_POINTS,
            ..LastPoints::default()
        };
        let mut seen = vec![false; self.root.nodes.len()];
        let mut stack: Vec<Visit> = self
            .first_nodes()
            .into_iter()
            .rev()
            .map(|node| Visit {
                node,
                world: Mat4::IDENTITY,
                names: Vec::new(),
            })
            .collect();
        while let Some(visit) = stack.pop() {
            let node = self
                .root
                .get(visit.node)
                .ok_or(ScanError::Damaged(Damage::NoSuchNode))?;
            if std::mem::replace(&mut seen[visit.node.value()], true) {
                continue;
            }
            let world = visit.world * local(node);
            let mut names = visit.names;
            if let Some(name) = node.name.as_ref().filter(|name| !name.trim().is_empty()) {
                names.insert(0, name.chars().take(80).collect());
                names.truncate(PARENTS);
            }
            if let Some(index) = node.mesh {
                self.add_mesh(&mut mesh, &mut last, index, world, &names)?;
            }
            for child in node.children.iter().flatten().rev() {
                stack.push(Visit {
                    node: *child,
                    world,
                    names: names.clone(),
                });
            }
        }
        Ok(mesh)
    }

    /// The roots of the scene that is shown; of a file without scenes all nodes that have no parent.
    fn first_nodes(&self) -> Vec<Index<scene::Node>> {
        let number = self.root.scene.map_or(0, |scene| scene.value());
        if let Some(scene) = self.root.scenes.get(number) {
            return scene.nodes.clone();
        }
        let mut is_child = vec![false; self.root.nodes.len()];
        for child in self
            .root
            .nodes
            .iter()
            .flat_map(|node| node.children.iter().flatten())
        {
            if let Some(known) = is_child.get_mut(child.value()) {
                *known = true;
            }
        }
        (0..self.root.nodes.len())
            .filter(|index| !is_child[*index])
            .map(|index| Index::new(index as u32))
            .collect()
    }

    fn add_mesh(
        &self,
        mesh: &mut Mesh,
        last: &mut LastPoints,
        index: Index<gltf_json::Mesh>,
        world: Mat4,
        names: &[String],
    ) -> Result<(), ScanError> {
        let shape = self
            .root
            .get(index)
            .ok_or(ScanError::Damaged(Damage::NoSuchMesh))?;
        let mut names = names.to_vec();
        // A mesh's name says what it is, but a person named the node above it last.
        if let Some(name) = shape.name.as_ref().filter(|name| !name.trim().is_empty()) {
            names.insert(names.len().min(1), name.chars().take(80).collect());
        }
        for primitive in &shape.primitives {
            self.add_primitive(mesh, last, primitive, world, &names)?;
        }
        Ok(())
    }

    fn add_primitive(
        &self,
        mesh: &mut Mesh,
        last: &mut LastPoints,
        primitive: &Primitive,
        world: Mat4,
        names: &[String],
    ) -> Result<(), ScanError> {
        let mode = match primitive.mode {
            Checked::Valid(mode @ (Mode::Triangles | Mode::TriangleStrip | Mode::TriangleFan)) => mode,
            Checked::Valid(_) => {
                mesh.has_points = true;
                return Ok(());
            }
            Checked::Invalid => return Err(ScanError::Damaged(Damage::NoSuchShape)),
        };
        let Some(positions) = primitive.attributes.get(&Checked::Valid(Semantic::Positions)) else {
            return Ok(());
        };
        self.load_points(last, *positions)?;
        let points = &last.points;
        let corners = match primitive.indices {
            Some(accessor) => self.indices(accessor, points.len())?,
            None => (0..points.len() as u32).collect(),
        };
        let material = primitive.material.and_then(|index| self.root.get(index));
        let paint = self.paint(primitive, material, points.len())?;
        mesh.textured |= paint.textured;
        let piece = mesh.add_piece(Piece {
            names: names.to_vec(),
            material: material.and_then(|material| material.name.clone()),
        });
        let mirrored = world.determinant() < 0.0;
        for [a, mut b, mut c] in triangles(&corners, mode) {
            if mirrored {
                (b, c) = (c, b);
            }
            let numbers = [a, b, c].map(|corner| corner as usize);
            mesh.add(Facet {
                corners: numbers.map(|corner| world.transform_point3(points[corner])),
                piece,
                colour: paint.of(numbers),
            })?;
        }
        Ok(())
    }

    /// Reads the points of an accessor, unless they were read last.
    fn load_points(&self, last: &mut LastPoints, accessor: Index<Accessor>) -> Result<(), ScanError> {
        if last.accessor == Some(accessor.value()) {
            return Ok(());
        }
        let count = self.accessor(accessor)?.count.0;
        let count = usize::try_from(count).unwrap_or(usize::MAX);
        last.left = last.left.checked_sub(count).ok_or(ScanError::TooManyTriangles)?;
        last.points = self
            .vectors(accessor, 3)?
            .into_iter()
            .map(|[x, y, z, _]| Vec3::new(x, y, z))
            .collect();
        last.accessor = Some(accessor.value());
        Ok(())
    }

    fn accessor(&self, index: Index<Accessor>) -> Result<&Accessor, ScanError> {
        self.root
            .get(index)
            .ok_or(ScanError::Damaged(Damage::NoSuchNumbers))
    }

    /// The elements of an accessor or of its sparse part, checked against the bytes that there are.
    fn elements(
        &self,
        view: Index<buffer::View>,
        offset: u64,
        count: u64,
        size: usize,
    ) -> Result<Elements<'_>, ScanError> {
        let missing = || ScanError::Damaged(Damage::BeyondItsData);
        let view = self.root.get(view).ok_or_else(missing)?;
        let buffer = self.buffers.get(view.buffer.value()).ok_or_else(missing)?;
        let buffer = buffer.as_deref().ok_or_else(|| self.elsewhere(view.buffer))?;
        let place = |value: u64| usize::try_from(value).map_err(|_| missing());
        let start = place(view.byte_offset.map_or(0, |offset| offset.0))?;
        let end = start
            .checked_add(place(view.byte_length.0)?)
            .ok_or_else(missing)?;
        let bytes = buffer.get(start..end).ok_or_else(missing)?;
        let bytes = bytes.get(place(offset)?..).ok_or_else(missing)?;
        let stride = view.byte_stride.map_or(size, |stride| stride.0).max(size);
        let count = place(count)?;
        let needed = match count {
            0 => Some(0),
            _ => (count - 1)
                .checked_mul(stride)
                .and_then(|start| start.checked_add(size)),
        };
        if needed.is_none_or(|needed| needed > bytes.len()) {
            return Err(missing());
        }
        Ok(Elements { bytes, stride, count })
    }

    /// What to say of a buffer that is not in this file.
    fn elsewhere(&self, index: Index<buffer::Buffer>) -> ScanError {
        let uri = self.root.get(index).and_then(|buffer| buffer.uri.as_ref());
        match uri {
            Some(uri) if !uri.starts_with("data:") => ScanError::OtherFile {
                file: uri.chars().take(60).collect(),
            },
            _ => ScanError::Damaged(Damage::NoBinaryPart),
        }
    }

    /// Vectors of `components` or more numbers; what a vector does not have is 1.
    fn vectors(&self, index: Index<Accessor>, components: usize) -> Result<Vec<[f32; 4]>, ScanError> {
        let accessor = self.accessor(index)?;
        let (Checked::Valid(kind), Checked::Valid(shape)) = (accessor.component_type, accessor.type_) else {
            return Err(ScanError::Damaged(Damage::NoSuchKindOfNumber));
        };
        let length = match shape {
            Type::Vec3 => 3,
            Type::Vec4 => 4,
            _ => return Err(ScanError::Damaged(Damage::NotThreeCoordinates)),
        };
        if length < components {
            return Err(ScanError::Damaged(Damage::NotThreeCoordinates));
        }
        let form = VectorForm {
            kind: kind.0,
            length,
            normalized: accessor.normalized,
        };
        let mut vectors: Vec<[f32; 4]> = match accessor.buffer_view {
            Some(view) => {
                let offset = accessor.byte_offset.map_or(0, |offset| offset.0);
                let elements = self.elements(view, offset, accessor.count.0, form.bytes())?;
                (0..elements.count)
                    .map(|index| form.read(elements.at(index)))
                    .collect()
            }
            None if accessor.sparse.is_some() => {
                let count = usize::try_from(accessor.count.0).unwrap_or(usize::MAX);
                if count > MOST_POINTS {
                    return Err(ScanError::TooManyTriangles);
                }
                vec![[0.0; 4]; count]
            }
            None => return Err(self.without_numbers()),
        };
        if let Some(sparse) = &accessor.sparse {
            self.change_some(&mut vectors, sparse, &form)?;
        }
        Ok(vectors)
    }

    /// Puts other vectors in the place of some.
    fn change_some(
        &self,
        vectors: &mut [[f32; 4]],
        sparse: &Sparse,
        form: &VectorForm,
    ) -> Result<(), ScanError> {
        let Checked::Valid(index_kind) = sparse.indices.component_type else {
            return Err(ScanError::Damaged(Damage::NoSuchKindOfNumber));
        };
        let index_kind = index_kind.0;
        let places = self.elements(
            sparse.indices.buffer_view,
            sparse.indices.byte_offset.0,
            sparse.count.0,
            component_size(index_kind),
        )?;
        let values = self.elements(
            sparse.values.buffer_view,
            sparse.values.byte_offset.0,
            sparse.count.0,
            form.bytes(),
        )?;
        for number in 0..places.count {
            let place = whole(places.at(number), index_kind).map(|place| place as usize);
            let slot = place.and_then(|place| vectors.get_mut(place));
            *slot.ok_or(ScanError::Damaged(Damage::ChangesNoPoint))? = form.read(values.at(number));
        }
        Ok(())
    }

    /// What to say of numbers that are nowhere: compression keeps them in a place of its own.
    fn without_numbers(&self) -> ScanError {
        if self
            .root
            .extensions_used
            .iter()
            .any(|name| COMPRESSIONS.contains(&name.as_str()))
        {
            ScanError::Compressed
        } else {
            ScanError::Damaged(Damage::PointsMissing)
        }
    }

    /// Numbers of points, each checked.
    fn indices(&self, index: Index<Accessor>, points: usize) -> Result<Vec<u32>, ScanError> {
        let accessor = self.accessor(index)?;
        let Checked::Valid(kind) = accessor.component_type else {
            return Err(ScanError::Damaged(Damage::NoSuchKindOfNumber));
        };
        let kind = kind.0;
        let view = accessor.buffer_view.ok_or_else(|| self.without_numbers())?;
        let offset = accessor.byte_offset.map_or(0, |offset| offset.0);
        let elements = self.elements(view, offset, accessor.count.0, component_size(kind))?;
        // A strip has nearly as many triangles as indices, a list a third of them.
        if elements.count > 3 * super::mesh::MOST_TRIANGLES + 2 {
            return Err(ScanError::TooManyTriangles);
        }
        (0..elements.count)
            .map(|number| {
                whole(elements.at(number), kind)
                    .filter(|corner| (*corner as usize) < points)
                    .ok_or(ScanError::Damaged(Damage::TriangleWithoutPoint))
            })
            .collect()
    }

    fn paint(
        &self,
        primitive: &Primitive,
        material: Option<&material::Material>,
        points: usize,
    ) -> Result<Paint, ScanError> {
        let surface = material.map(|material| &material.pbr_metallic_roughness);
        let textured = surface.is_some_and(|surface| surface.base_color_texture.is_some());
        let factor = surface.map_or(Vec3::ONE, |surface| {
            let [r, g, b, _] = surface.base_color_factor.0;
            Vec3::new(r, g, b)
        });
        let corners = match primitive.attributes.get(&Checked::Valid(Semantic::Colors(0))) {
            Some(accessor) => self.vectors(*accessor, 3)?,
            None => Vec::new(),
        };
        Ok(Paint {
            textured: textured && corners.len() != points,
            factor,
            corners: if corners.len() == points {
                corners
            } else {
                Vec::new()
            },
        })
    }
}

/// What colours a piece.
struct Paint {
    textured: bool,
    factor: Vec3,
    corners: Vec<[f32; 4]>,
}

impl Paint {
    /// The colour of a triangle. Pure white is what a file has that says nothing, and no paint is that white.
    fn of(&self, numbers: [usize; 3]) -> Option<Vec3> {
        let colour = if self.corners.is_empty() {
            if self.textured || self.factor.min_element() >= 0.999 {
                return None;
            }
            self.factor
        } else {
            let sum: Vec3 = numbers
                .iter()
                .map(|number| Vec3::from_slice(&self.corners[*number]))
                .sum();
            self.factor * sum / 3.0
        };
        colour.is_finite().then(|| colour.clamp(Vec3::ZERO, Vec3::ONE))
    }
}

/// The triangles of a list, strip or fan (section 3.7.2.1 of the specification).
fn triangles(corners: &[u32], mode: Mode) -> impl Iterator<Item = [u32; 3]> + '_ {
    let count = match mode {
        Mode::Triangles => corners.len() / 3,
        _ => corners.len().saturating_sub(2),
    };
    (0..count).map(move |i| match mode {
        Mode::TriangleStrip => [corners[i], corners[i + 1 + i % 2], corners[i + 2 - i % 2]],
        Mode::TriangleFan => [corners[0], corners[i + 1], corners[i + 2]],
        _ => [corners[3 * i], corners[3 * i + 1], corners[3 * i + 2]],
    })
}

/// The transform of a node within its parent.
fn local(node: &scene::Node) -> Mat4 {
    if let Some(matrix) = &node.matrix {
        return Mat4::from_cols_array(matrix);
    }
    let rotation = node.rotation.map_or(Quat::IDENTITY, |rotation| {
        let q = Quat::from_array(rotation.0);
        if q.length_squared() > 1e-12 && q.is_finite() {
            q.normalize()
        } else {
            Quat::IDENTITY
        }
    });
    Mat4::from_scale_rotation_translation(
        node.scale.map_or(Vec3::ONE, Vec3::from),
        rotation,
        node.translation.map_or(Vec3::ZERO, Vec3::from),
    )
}
