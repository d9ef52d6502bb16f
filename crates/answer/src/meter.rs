//! How a light meter was held.

/// Which way the meter faced when the reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeterFacing {
    /// Dome towards the camera.
    Camera,
    /// Flat towards the light itself.
    Source,
}
