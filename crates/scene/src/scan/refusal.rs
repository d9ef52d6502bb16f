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
    #[error("this file is damaged: {0}. Export it again")]
    Damaged(Damage),
    /// No triangles.
    #[error("there are no surfaces in this file. Export the scan as a mesh of triangles")]
    NoSurfaces {
        /// Whether there are points or lines instead.
        has_points: bool,
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

/// What is damaged in a file.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum Damage {
    /// What it says of itself is not in order; what the reader of such texts says.
    #[error("its description cannot be read: {0}")]
    Unreadable(String),
    /// It ends too early.
    #[error("it ends too early, perhaps because it was not copied whole")]
    EndsEarly,
    /// Data within its text is not written as such data is.
    #[error("its embedded data is not written in base64")]
    NotBase64,
    /// Data within its text is broken; what the reader of such data says.
    #[error("its embedded data is broken: {0}")]
    BrokenBase64(String),
    /// It refers to a node that it lacks.
    #[error("it refers to a node that is not there")]
    NoSuchNode,
    /// It refers to a mesh that it lacks.
    #[error("it refers to a mesh that is not there")]
    NoSuchMesh,
    /// It has shapes of no known kind.
    #[error("it has shapes of a kind that does not exist")]
    NoSuchShape,
    /// It refers to numbers that it lacks.
    #[error("it refers to numbers that are not there")]
    NoSuchNumbers,
    /// Numbers lie beyond the end of its data.
    #[error("some of its numbers lie beyond the end of its data")]
    BeyondItsData,
    /// The part with the numbers is missing.
    #[error("its binary part is missing, perhaps because it was not copied whole")]
    NoBinaryPart,
    /// Numbers are of no known kind.
    #[error("some of its numbers are of a kind that does not exist")]
    NoSuchKindOfNumber,
    /// Points have more or fewer than three coordinates.
    #[error("its points do not have three coordinates")]
    NotThreeCoordinates,
    /// It changes a point that it lacks.
    #[error("it changes a point that is not there")]
    ChangesNoPoint,
    /// Some points are missing.
    #[error("some of its points are missing")]
    PointsMissing,
    /// A triangle refers to a point that it lacks.
    #[error("a triangle refers to a point that is not there")]
    TriangleWithoutPoint,
    /// A face refers to a point that it lacks.
    #[error("a face refers to a point that is not there")]
    FaceWithoutPoint,
    /// A line with a point is not three numbers.
    #[error("a point (a line that begins with v) is not three numbers")]
    NotAPoint,
    /// A line with a normal is not three numbers.
    #[error("a normal (a line that begins with vn) is not three numbers")]
    NotANormal,
    /// A line with a place in a picture is not two numbers.
    #[error("a line that begins with vt is not two numbers")]
    NotAPlaceInAPicture,
    /// A line with a face cannot be read.
    #[error("a face (a line that begins with f) cannot be read")]
    NotAFace,
    /// Its text cannot be read.
    #[error("its text cannot be read")]
    NotItsText,
}
