//! Wind against what stands: force on a surface, and when a stand on three feet tips over.
//!
//! The relation of the World Meteorological Organization for the Beaufort scale, drag of a flat surface, and a tripod that
//! tips about the line between two of its feet. Held to `checks/rigging_patterns.json`.

/// Density of air at sea level and 15 °C, in kg m⁻³ (US standard atmosphere 1976).
pub const AIR_KG_M3: f64 = 1.225;
/// Acceleration of free fall, in m s⁻² (ISO 80000-3:2019).
const GRAVITY_M_S2: f64 = 9.806_65;

/// Mean speed of a wind of the Beaufort scale, in m s⁻¹: 0.836 B^1.5.
pub fn beaufort_m_s(force: f64) -> f64 {
    0.836 * force.powf(1.5)
}

/// A surface that catches the wind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sail {
    /// Area square to the wind.
    pub area_m2: f64,
    /// Drag coefficient: about 1.2 for an umbrella, a board or a softbox (common practice).
    pub drag: f64,
    /// Height of its middle above the ground.
    pub height_m: f64,
}

impl Sail {
    /// Force of a wind in newtons: ½·ρ·C·A·v².
    pub fn force_n(&self, wind_m_s: f64) -> f64 {
        0.5 * AIR_KG_M3 * self.drag * self.area_m2 * wind_m_s.powi(2)
    }

    /// Moment about the ground in newton metres.
    pub fn overturning_n_m(&self, wind_m_s: f64) -> f64 {
        self.force_n(wind_m_s) * self.height_m
    }
}

/// A light stand on three feet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// What it weighs with all that it carries and all that hangs on it, over the middle of its feet.
    pub mass_kg: f64,
    /// Radius of the circle through its feet.
    pub feet_radius_m: f64,
}

impl Stand {
    /// Least moment that keeps it upright, in newton metres: the line between two feet is half a radius from the middle.
    pub fn restoring_n_m(&self) -> f64 {
        self.mass_kg * GRAVITY_M_S2 * 0.5 * self.feet_radius_m
    }

    /// The wind, in m s⁻¹, at which it tips.
    ///
    /// ```
    /// use scene::wind::{Sail, Stand};
    /// let umbrella = Sail { area_m2: 0.8, drag: 1.2, height_m: 2.2 };
    /// let stand = Stand { mass_kg: 2.3, feet_radius_m: 0.45 };
    /// // A light breeze.
    /// assert!((stand.tips_at_m_s(&umbrella) - 1.98).abs() < 0.01);
    /// ```
    pub fn tips_at_m_s(&self, sail: &Sail) -> f64 {
        (self.restoring_n_m() / sail.overturning_n_m(1.0)).sqrt()
    }
}
