//! The stored people data: one base shape and its morphs, unpacked once.

use std::sync::OnceLock;

use glam::Vec3;

use super::recipe::{DataFault, FigureError};

static PACKED: &[u8] = include_bytes!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/people/people.bin"));

/// What a stored face belongs to; the numbers are those of the file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Group {
    Skin,
    Hand,
    UpperTeeth,
    LowerTeeth,
    Tongue,
    UpperLash,
    LowerLash,
    Suit,
    Eye,
}

/// Joint centres in the order of the file; those of limbs are the sitter's left ones.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Joint {
    Ground,
    Neck,
    Head,
    Mouth,
    Eye,
    Clavicle,
    Shoulder,
    Elbow,
    Wrist,
    Hip,
    Knee,
    Ankle,
}

const JOINTS: usize = 12;

/// How far each vertex follows each rotation of a pose, 0 to 1.
#[derive(Clone, Copy, Default, Debug)]
pub(super) struct Shares {
    pub neck: f32,
    pub head: f32,
    pub shoulder: f32,
    pub elbow: f32,
    pub hip: f32,
    pub knee: f32,
}

/// Where soft masks of the skin lie, 0 to 1.
#[derive(Clone, Copy, Default, Debug)]
pub(super) struct Masks {
    pub lips: f32,
    pub ear: f32,
    pub lid: f32,
    pub mouth: f32,
}

struct Morph {
    name: String,
    index: Vec<u32>,
    delta: Vec<Vec3>,
}

/// The stored people.
pub(super) struct People {
    mid: usize,
    left: usize,
    half: Vec<Vec3>,
    joints: Vec<Vec3>,
    morphs: Vec<Morph>,
    pub quads: Vec<[u32; 4]>,
    pub groups: Vec<Group>,
    pub masks: Vec<Masks>,
    pub shares: Vec<Shares>,
}

/// A shape after morphing: all vertices (both sides) and joint centres, in metres.
#[derive(Clone)]
pub(super) struct Shape {
    pub positions: Vec<Vec3>,
    pub joints: [Vec3; JOINTS],
}

impl Shape {
    pub fn joint(&self, joint: Joint) -> Vec3 {
        self.joints[joint as usize]
    }

    pub fn joint_mut(&mut self, joint: Joint) -> &mut Vec3 {
        &mut self.joints[joint as usize]
    }
}

struct Reader<'a> {
    rest: &'a [u8],
}

impl<'a> Reader<'a> {
    /// Corners of faces: all first corners, then all second ones, and so on.
    fn quads(&mut self, count: usize) -> Result<Vec<[u32; 4]>, FigureError> {
        let corners = [
            self.integers(count)?,
            self.integers(count)?,
            self.integers(count)?,
            self.integers(count)?,
        ];
        Ok((0..count)
            .map(|i| [0, 1, 2, 3].map(|c: usize| corners[c][i] as u32))
            .collect())
    }

    /// Columns of shares, one after the other.
    fn columns<const N: usize>(&mut self, count: usize) -> Result<[Vec<f32>; N], FigureError> {
        let mut columns = [const { Vec::new() }; N];
        for column in &mut columns {
            *column = self.shares(count)?;
        }
        Ok(columns)
    }

    /// A morph: its name, and which vertices it moves and how.
    fn morph(&mut self) -> Result<Morph, FigureError> {
        let length = usize::from(self.bytes(1)?[0]);
        let name = String::from_utf8_lossy(self.bytes(length)?).into_owned();
        let count = self.count()?;
        Ok(Morph {
            name,
            index: self.integers(count)?.into_iter().map(|i| i as u32).collect(),
            delta: self.points(count)?,
        })
    }

    fn bytes(&mut self, count: usize) -> Result<&'a [u8], FigureError> {
        if self.rest.len() < count {
            return Err(FigureError::Data(DataFault::EndsEarly));
        }
        let (now, rest) = self.rest.split_at(count);
        self.rest = rest;
        Ok(now)
    }

    fn count(&mut self) -> Result<usize, FigureError> {
        let b = self.bytes(4)?;
        Ok(u32::from_le_bytes([b[0], b[1], b[2], b[3]]) as usize)
    }

    /// Byte planes of zigzag-coded differences, summed back up.
    fn integers(&mut self, count: usize) -> Result<Vec<i32>, FigureError> {
        let planes = self.bytes(4 * count)?;
        let mut sum = 0_i32;
        let value = |i: usize| {
            let coded = u32::from_le_bytes([
                planes[i],
                planes[count + i],
                planes[2 * count + i],
                planes[3 * count + i],
            ]);
            ((coded >> 1) as i32) ^ -((coded & 1) as i32)
        };
        Ok((0..count)
            .map(|i| {
                sum = sum.wrapping_add(value(i));
                sum
            })
            .collect())
    }

    fn points(&mut self, count: usize) -> Result<Vec<Vec3>, FigureError> {
        const METRES: f32 = 1e-5;
        let (x, y, z) = (
            self.integers(count)?,
            self.integers(count)?,
            self.integers(count)?,
        );
        Ok((0..count)
            .map(|i| Vec3::new(x[i] as f32, y[i] as f32, z[i] as f32) * METRES)
            .collect())
    }

    fn shares(&mut self, count: usize) -> Result<Vec<f32>, FigureError> {
        Ok(self.bytes(count)?.iter().map(|b| f32::from(*b) / 255.0).collect())
    }
}

impl People {
    /// The stored people, unpacked on first use.
    pub fn stored() -> Result<&'static Self, FigureError> {
        static STORED: OnceLock<Result<People, FigureError>> = OnceLock::new();
        STORED
            .get_or_init(|| Self::read(PACKED))
            .as_ref()
            .map_err(Clone::clone)
    }

    fn read(packed: &[u8]) -> Result<Self, FigureError> {
        let stream = packed
            .strip_prefix(b"RLPEOPL1".as_slice())
            .and_then(|rest| rest.get(4..))
            .ok_or(FigureError::Data(DataFault::AnotherKind))?;
        let unpacked = miniz_oxide::inflate::decompress_to_vec_zlib(stream)
            .map_err(|_| FigureError::Data(DataFault::Packing))?;
        let mut reader = Reader { rest: &unpacked };
        let (mid, left, quads) = (reader.count()?, reader.count()?, reader.count()?);
        let (joints, morphs) = (reader.count()?, reader.count()?);
        if joints != JOINTS {
            return Err(FigureError::Data(DataFault::Joints));
        }
        let half = reader.points(mid + left)?;
        let joints = reader.points(joints)?;
        let half_quads = reader.quads(quads)?;
        let half_groups: Vec<Group> = reader
            .bytes(quads)?
            .iter()
            .map(|g| group(*g))
            .collect::<Result<_, _>>()?;
        let masks: [Vec<f32>; 4] = reader.columns(mid + left)?;
        let shares: [Vec<f32>; 6] = reader.columns(mid + left)?;
        let mut people = Self {
            mid,
            left,
            half,
            joints,
            morphs: (0..morphs).map(|_| reader.morph()).collect::<Result<_, _>>()?,
            quads: Vec::new(),
            groups: Vec::new(),
            masks: Vec::new(),
            shares: Vec::new(),
        };
        people.spread(&masks, &shares);
        people.add_quads(&half_quads, &half_groups)?;
        Ok(people)
    }

    /// Gives every vertex of both halves what is stored of it.
    fn spread(&mut self, [lips, ear, lid, mouth]: &[Vec<f32>; 4], shares: &[Vec<f32>; 6]) {
        let [neck, head, shoulder, elbow, hip, knee] = shares;
        for vertex in 0..self.mid + 2 * self.left {
            let v = self.stored_of(vertex);
            self.masks.push(Masks {
                lips: lips[v],
                ear: ear[v],
                lid: lid[v],
                mouth: mouth[v],
            });
            self.shares.push(Shares {
                neck: neck[v],
                head: head[v],
                shoulder: shoulder[v],
                elbow: elbow[v],
                hip: hip[v],
                knee: knee[v],
            });
        }
    }

    /// Adds the faces of the stored half, each with its mirror image.
    fn add_quads(&mut self, quads: &[[u32; 4]], groups: &[Group]) -> Result<(), FigureError> {
        for (quad, group) in quads.iter().zip(groups) {
            if quad.iter().any(|&v| v as usize >= self.mid + self.left) {
                return Err(FigureError::Data(DataFault::NoSuchVertex));
            }
            self.quads.push(*quad);
            self.groups.push(*group);
            let [a, b, c, d] = quad.map(|v| self.mirror(v));
            self.quads.push([d, c, b, a]);
            self.groups.push(*group);
        }
        Ok(())
    }

    fn stored_of(&self, vertex: usize) -> usize {
        if vertex < self.mid + self.left {
            vertex
        } else {
            vertex - self.left
        }
    }

    /// The vertex on the other side; itself on the midline.
    pub fn mirror(&self, vertex: u32) -> u32 {
        let (mid, left) = (self.mid as u32, self.left as u32);
        if vertex < mid {
            vertex
        } else if vertex < mid + left {
            vertex + left
        } else {
            vertex - left
        }
    }

    /// Whether a vertex lies on the sitter's right.
    pub fn is_right(&self, vertex: usize) -> bool {
        vertex >= self.mid + self.left
    }

    pub fn has(&self, name: &str) -> bool {
        self.morphs.iter().any(|m| m.name == name)
    }

    /// Names of the face sliders, without their sign.
    pub fn sliders(&self) -> impl Iterator<Item = &str> {
        let mut last = "";
        self.morphs.iter().filter_map(move |m| {
            let name = m.name.strip_suffix('+').or_else(|| m.name.strip_suffix('-'))?;
            if name == last {
                return None;
            }
            last = name;
            Some(name)
        })
    }

    /// The base shape with the named morphs added at the given amounts.
    pub fn morphed(&self, amounts: &[(String, f32)]) -> Shape {
        let count = self.half.len();
        let mut half = self.half.clone();
        let mut joints: [Vec3; JOINTS] = std::array::from_fn(|i| self.joints[i]);
        for (name, amount) in amounts {
            let Some(morph) = self.morphs.iter().find(|m| m.name == *name) else {
                continue;
            };
            for (&index, delta) in morph.index.iter().zip(&morph.delta) {
                let index = index as usize;
                if index < count {
                    half[index] += *delta * *amount;
                } else {
                    joints[index - count] += *delta * *amount;
                }
            }
        }
        let mirror = Vec3::new(-1.0, 1.0, 1.0);
        let positions = (0..self.mid + 2 * self.left)
            .map(|v| {
                if self.is_right(v) {
                    half[self.stored_of(v)] * mirror
                } else {
                    half[v]
                }
            })
            .collect();
        Shape { positions, joints }
    }
}

fn group(number: u8) -> Result<Group, FigureError> {
    Ok(match number {
        0 => Group::Skin,
        1 => Group::Hand,
        2 => Group::UpperTeeth,
        3 => Group::LowerTeeth,
        4 => Group::Tongue,
        5 => Group::UpperLash,
        6 => Group::LowerLash,
        7 => Group::Suit,
        8 => Group::Eye,
        _ => return Err(FigureError::Data(DataFault::NoSuchGroup)),
    })
}
