//! Colour coordinates: XYZ, chromaticity, CIE 1960 uv, CIELAB.

/// CIE 1931 tristimulus values. Y is relative luminance, 1 for the white of the scene.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Xyz {
    /// X.
    pub x: f64,
    /// Y, luminous.
    pub y: f64,
    /// Z.
    pub z: f64,
}

/// CIE 1931 chromaticity x, y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chromaticity {
    /// X / (X + Y + Z).
    pub x: f64,
    /// Y / (X + Y + Z).
    pub y: f64,
}

/// CIE 1960 uniform chromaticity u, v, in which colour temperature and Duv are defined.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uv {
    /// 4x / (-2x + 12y + 3).
    pub u: f64,
    /// 6y / (-2x + 12y + 3).
    pub v: f64,
}

impl Xyz {
    /// From the three values.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The three values in order.
    pub const fn to_array(self) -> [f64; 3] {
        [self.x, self.y, self.z]
    }

    /// From the three values in order.
    pub const fn from_array([x, y, z]: [f64; 3]) -> Self {
        Self { x, y, z }
    }

    /// The chromaticity; none if there is no light.
    pub fn chromaticity(self) -> Option<Chromaticity> {
        let sum = self.x + self.y + self.z;
        (sum > 0.0 && sum.is_finite()).then(|| Chromaticity {
            x: self.x / sum,
            y: self.y / sum,
        })
    }

    /// The same colour scaled so that Y is 1; none if Y is not positive.
    pub fn normalised(self) -> Option<Self> {
        (self.y > 0.0).then(|| self * (1.0 / self.y))
    }

    /// CIELAB against a white (CIE 15:2018; ISO/CIE 11664-4).
    ///
    /// ```
    /// use colour::Xyz;
    /// let white = Xyz::new(0.95047, 1.0, 1.08883);
    /// let lab = Xyz::new(0.5, 0.48, 0.45).to_lab(white);
    /// assert!((lab.l - 74.825).abs() < 0.001 && (lab.a - 12.141).abs() < 0.001 && (lab.b - 7.619).abs() < 0.001);
    /// ```
    pub fn to_lab(self, white: Self) -> Lab {
        // The straight piece near black joins the cube root at (6/29)^3 with the same slope.
        let f = |ratio: f64| {
            let join: f64 = 6.0 / 29.0;
            if ratio > join.powi(3) {
                ratio.cbrt()
            } else {
                ratio / (3.0 * join * join) + 4.0 / 29.0
            }
        };
        let (fx, fy, fz) = (f(self.x / white.x), f(self.y / white.y), f(self.z / white.z));
        Lab {
            l: 116.0 * fy - 16.0,
            a: 500.0 * (fx - fy),
            b: 200.0 * (fy - fz),
        }
    }
}

impl std::ops::Add for Xyz {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl std::ops::AddAssign for Xyz {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl std::ops::Mul<f64> for Xyz {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor, self.z * factor)
    }
}

impl std::iter::Sum for Xyz {
    fn sum<I: Iterator<Item = Self>>(colours: I) -> Self {
        colours.fold(Self::default(), |total, colour| total + colour)
    }
}

impl Chromaticity {
    /// From x and y.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// In CIE 1960 uv.
    pub fn uv(self) -> Uv {
        let divisor = -2.0 * self.x + 12.0 * self.y + 3.0;
        Uv {
            u: 4.0 * self.x / divisor,
            v: 6.0 * self.y / divisor,
        }
    }

    /// The colour of this chromaticity with Y = 1; y must be positive.
    pub fn xyz(self) -> Xyz {
        Xyz::new(self.x / self.y, 1.0, (1.0 - self.x - self.y) / self.y)
    }
}

impl Uv {
    /// From u and v.
    pub const fn new(u: f64, v: f64) -> Self {
        Self { u, v }
    }

    /// Back to x, y.
    pub fn chromaticity(self) -> Chromaticity {
        let divisor = 2.0 * self.u - 8.0 * self.v + 4.0;
        Chromaticity {
            x: 3.0 * self.u / divisor,
            y: 2.0 * self.v / divisor,
        }
    }
}

/// CIELAB: lightness 0 to 100, a* towards red, b* towards yellow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    /// Lightness L*.
    pub l: f64,
    /// a*: red positive, green negative.
    pub a: f64,
    /// b*: yellow positive, blue negative.
    pub b: f64,
}

impl Lab {
    /// From L*, a*, b*.
    pub const fn new(l: f64, a: f64, b: f64) -> Self {
        Self { l, a, b }
    }

    /// Distance from grey.
    pub fn chroma(self) -> f64 {
        self.a.hypot(self.b)
    }

    /// Back to XYZ under a white.
    pub fn to_xyz(self, white: Xyz) -> Xyz {
        let inverse = |f: f64| {
            let join: f64 = 6.0 / 29.0;
            if f > join {
                f.powi(3)
            } else {
                3.0 * join * join * (f - 4.0 / 29.0)
            }
        };
        let fy = (self.l + 16.0) / 116.0;
        Xyz::new(
            white.x * inverse(fy + self.a / 500.0),
            white.y * inverse(fy),
            white.z * inverse(fy - self.b / 200.0),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let white = Xyz::new(0.95047, 1.0, 1.08883);
        for colour in [
            Xyz::new(0.5, 0.48, 0.45),
            Xyz::new(0.001, 0.002, 0.001),
            Xyz::new(0.3, 0.4, 0.9),
        ] {
            let back = colour.to_lab(white).to_xyz(white);
            for (a, b) in colour.to_array().into_iter().zip(back.to_array()) {
                assert!((a - b).abs() < 1e-12);
            }
            let xy = colour.chromaticity().expect("light");
            let again = xy.uv().chromaticity();
            assert!((xy.x - again.x).abs() < 1e-12 && (xy.y - again.y).abs() < 1e-12);
        }
    }

    #[test]
    fn no_light_has_no_chromaticity() {
        assert_eq!(Xyz::default().chromaticity(), None);
        assert_eq!(Xyz::default().normalised(), None);
    }
}
