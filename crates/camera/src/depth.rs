//! Depth of field of a thin lens (S. F. Ray, Applied Photographic Optics; from memory, derived again).
//!
//! Distances are from the lens. A point counts as sharp while its disc on the sensor is no wider than the circle of
//! confusion.

use units::{FNumber, Metres, Millimetres, Stops, UnitError};

/// The usual circle of confusion for a 36 × 24 mm frame, in millimetres (common practice).
pub const CIRCLE_OF_CONFUSION_MM: f64 = 0.030;

/// The hyperfocal distance in metres: f²/(N·c) + f. Focused there, everything from half of it to infinity is sharp.
///
/// ```
/// use units::Millimetres;
/// let distance = camera::hyperfocal_m(Millimetres::new(50.0)?, units::FNumber::new(8.0)?, 0.030);
/// assert!((distance - 10.4666667).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn hyperfocal_m(focal: Millimetres, aperture: FNumber, circle_mm: f64) -> f64 {
    let focal_mm = focal.value();
    (focal_mm.powi(2) / (aperture.value() * circle_mm) + focal_mm) / 1000.0
}

/// From where to where it is sharp, in metres from the lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthLimits {
    /// Nearest sharp distance.
    pub near_m: f64,
    /// Farthest sharp distance; may be infinite.
    pub far_m: f64,
}

impl DepthLimits {
    /// From near to far in metres; may be infinite.
    pub fn depth_m(&self) -> f64 {
        self.far_m - self.near_m
    }
}

/// A lens focused at a distance.
///
/// The distance must be more than the focal length.
///
/// ```
/// use camera::Focus;
/// use units::{FNumber, Metres, Millimetres};
/// let focus = Focus {
///     focal: Millimetres::new(50.0)?,
///     aperture: FNumber::new(2.0)?,
///     distance: Metres::new(2.0)?,
/// };
/// let sharp = focus.limits(camera::CIRCLE_OF_CONFUSION_MM);
/// assert!((sharp.near_m - 1.9105846).abs() < 1e-6 && (sharp.far_m - 2.0981956).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Focus {
    /// Focal length.
    pub focal: Millimetres,
    /// Aperture.
    pub aperture: FNumber,
    /// Distance in focus, from the lens.
    pub distance: Metres,
}

impl Focus {
    /// Limits of sharpness for a circle of confusion in millimetres.
    pub fn limits(&self, circle_mm: f64) -> DepthLimits {
        let (f, s) = (self.focal.metres(), self.distance.value());
        let hyperfocal = hyperfocal_m(self.focal, self.aperture, circle_mm);
        DepthLimits {
            near_m: s * (hyperfocal - f) / (hyperfocal + s - 2.0 * f),
            far_m: if s < hyperfocal {
                s * (hyperfocal - f) / (hyperfocal - s)
            } else {
                f64::INFINITY
            },
        }
    }

    /// Diameter on the sensor, in millimetres, of the disc that a point at a distance becomes; the distance may be
    /// infinite.
    ///
    /// ```
    /// use camera::Focus;
    /// use units::{FNumber, Metres, Millimetres};
    /// let focus = Focus {
    ///     focal: Millimetres::new(50.0)?,
    ///     aperture: FNumber::new(2.8)?,
    ///     distance: Metres::new(1.5)?,
    /// };
    /// assert!((focus.blur_disc_mm(6.0) - 0.4618227).abs() < 1e-6);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn blur_disc_mm(&self, point_m: f64) -> f64 {
        let (f, s) = (self.focal.metres(), self.distance.value());
        // The cone of light from the pupil is cut by the sensor before or behind its tip.
        let image = |object: f64| f / (1.0 - f / object);
        let pupil_mm = self.focal.value() / self.aperture.value();
        pupil_mm * (image(s) - image(point_m)).abs() / image(point_m)
    }

    /// Size on the sensor over size in the scene: f / (s − f).
    pub fn magnification(&self) -> f64 {
        self.focal.metres() / (self.distance.value() - self.focal.metres())
    }

    /// What the scene measures, in metres, along a side of the frame given in millimetres.
    pub fn field_m(&self, frame_side_mm: f64) -> f64 {
        frame_side_mm / 1000.0 / self.magnification()
    }

    /// Light lost because the lens has moved out to focus near: 2·log₂(1 + m), in stops (positive).
    ///
    /// ```
    /// use camera::Focus;
    /// use units::{FNumber, Metres, Millimetres};
    /// let focus = Focus {
    ///     focal: Millimetres::new(85.0)?,
    ///     aperture: FNumber::new(4.0)?,
    ///     distance: Metres::new(0.85)?,
    /// };
    /// assert!((focus.extension_loss().value() - 0.3040062).abs() < 1e-6);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn extension_loss(&self) -> Stops {
        Stops(2.0 * (1.0 + self.magnification()).log2())
    }
}

/// The distance from the lens, in metres, at which a side of the frame shows so much of the scene: f·(1 + field/side).
///
/// ```
/// use units::{Metres, Millimetres};
/// let distance = camera::distance_for_field(Metres::new(0.6)?, 24.0, Millimetres::new(85.0)?);
/// assert!((distance - 2.21).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn distance_for_field(field: Metres, frame_side_mm: f64, focal: Millimetres) -> f64 {
    focal.metres() * (1.0 + field.value() * 1000.0 / frame_side_mm)
}

/// The widest aperture whose whole depth of field, from near limit to far limit, is `depth` when focused at `distance`,
/// with [`CIRCLE_OF_CONFUSION_MM`].
///
/// With h = f²/(N·c) and u = s − f the depth is 2·s·h·u / (h² − u²), which is solved for h.
///
/// # Errors
/// Refuses a depth that no aperture gives, or a distance within the focal length.
///
/// ```
/// use units::{Metres, Millimetres};
/// let two = camera::aperture_for_depth(Millimetres::new(50.0)?, Metres::new(2.0)?, Metres::new(0.1876109129)?)?;
/// assert!((two.value() - 2.0).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn aperture_for_depth(focal: Millimetres, distance: Metres, depth: Metres) -> Result<FNumber, UnitError> {
    let (s, d) = (distance.value(), depth.value());
    let u = s - focal.metres();
    let h = u * (s + s.hypot(d)) / d;
    FNumber::new(focal.metres() * focal.value() / (h * CIRCLE_OF_CONFUSION_MM))
}

/// A rectangle of sensor that takes the picture, in millimetres.
///
/// ```
/// use camera::Frame;
/// let half = Frame { width_mm: 23.6, height_mm: 15.7 };
/// assert!((half.crop_factor() - 1.526418).abs() < 1e-6);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The long side.
    pub width_mm: f64,
    /// The short side.
    pub height_mm: f64,
}

impl Frame {
    /// 36 × 24 mm, after which lenses and flash zooms are named.
    pub const FULL: Frame = Frame {
        width_mm: 36.0,
        height_mm: 24.0,
    };

    /// From corner to corner.
    pub fn diagonal_mm(&self) -> f64 {
        self.width_mm.hypot(self.height_mm)
    }

    /// The diagonal of [`Frame::FULL`] over this one's.
    pub fn crop_factor(&self) -> f64 {
        Self::FULL.diagonal_mm() / self.diagonal_mm()
    }
}

/// How wide an angle, in degrees, a side or the diagonal of the frame takes in, focused far away: 2·atan(side / 2f).
///
/// ```
/// use camera::{Frame, angle_of_view_deg};
/// let wide = angle_of_view_deg(Frame::FULL.width_mm, "85 mm".parse()?);
/// assert!((wide - 23.913168).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn angle_of_view_deg(frame_side_mm: f64, focal: Millimetres) -> f64 {
    2.0 * (0.5 * frame_side_mm / focal.value()).atan().to_degrees()
}

/// Diameter in micrometres of the disc that diffraction makes of a point (Airy's, to the first dark ring):
/// 2.44·λ·N·(1 + m), with m the magnification.
///
/// ```
/// let disc = camera::airy_disc_um(units::FNumber::new(16.0)?, 550.0, 0.0);
/// assert!((disc - 21.472).abs() < 1e-9);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn airy_disc_um(aperture: FNumber, wavelength_nm: f64, magnification: f64) -> f64 {
    2.44 * wavelength_nm / 1000.0 * aperture.value() * (1.0 + magnification)
}
