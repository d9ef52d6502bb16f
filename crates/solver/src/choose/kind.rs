//! What counts as one kind of way.

use crate::ways::way::Way;
use answer::WayId;
use scene::Face;

/// What counts as one kind of way.
#[derive(PartialEq, Eq)]
pub(crate) enum Kind {
    /// The corners of a face, whatever it meets there.
    CornersOf(Face),
    /// Anything else.
    Way(WayId),
}

pub(crate) fn kind_of(way: &Way) -> Kind {
    match way.id() {
        WayId::Corner { face, .. } => Kind::CornersOf(face),
        id => Kind::Way(id),
    }
}
