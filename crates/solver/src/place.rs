//! The place as it is described, built and solved: who stands where, what is read there, what light is there.

pub(crate) mod ambient;
pub(crate) mod amounts;
pub(crate) mod boards;
pub(crate) mod fine;
pub(crate) mod flash_places;
pub(crate) mod meters;
pub(crate) mod skin;
pub(crate) mod survey;
