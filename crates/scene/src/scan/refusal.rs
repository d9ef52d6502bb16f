//! Why a scan is not read.

use thiserror::Error;

/// Why a file was not read.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum ScanError {
    /// Larger than [`MOST_BYTES`](super::MOST_BYTES).
    #[error("this file is larger than 64 MB. Export the scan with fewer triangles, or without pictures")]
    TooLarge,
    /// More triangles than are read.
    #[error("this scan has more than 2 million triangles. Export it with fewer; 100 000 show a room well")]
    TooManyTriangles,
    /// A description with more nodes and lists than are read.
    #[error("this scan has more parts than a room has. Export it as fewer objects")]
    TooManyParts,
    /// Neither glTF nor OBJ.
    #[error("this is neither glTF 2.0 (.glb, .gltf) nor OBJ text. Export the scan as .glb")]
    UnknownKind,
    /// glTF 1.0, or later than 2.
    #[error("only version 2 of glTF can be read. Export the scan again as glTF 2.0, best as .glb")]
    WrongVersion,
    /// Geometry under Draco or meshopt.
    #[error("the geometry in this file is compressed. Export it without compression")]
    Compressed,
    /// A .gltf whose numbers are in a file beside it.
    #[error(
        "the points are in another file, \"{file}\", which is not read. Export the scan as one file, .glb"
    )]
    OtherFile {
        /// As it is called in the .gltf.
        file: String,
    },
    /// The file contradicts itself or ends too early.
    #[error("this file is damaged: {why}. Export it again")]
    Damaged {
        /// What is wrong.
        why: String,
    },
    /// No triangles.
    #[error("there are no surfaces in this file{hint}. Export the scan as a mesh of triangles")]
    NoSurfaces {
        /// What there is instead.
        hint: &'static str,
    },
    /// The box is not of a room's size.
    #[error(
        "no room of 1 to 60 m each way was found: what was found is {:.2} x {:.2} x {:.2} m. \
         Say the unit of the file if it is another, or export the room alone",
        size[0], size[1], size[2]
    )]
    NotARoom {
        /// Extents in metres.
        size: [f32; 3],
    },
}
