//! Ways of lighting: what is tried, and what each does to the faces.

pub(crate) mod attempts;
pub(crate) mod beams;
pub(crate) mod compute;
pub(crate) mod fine;
pub(crate) mod light;
pub(crate) mod scout;
pub(crate) mod way;
