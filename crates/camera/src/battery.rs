//! What the batteries carry: flashes in a set, and the wait between them.

/// The capacitor that feeds a flash tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacitor {
    /// Capacitance in farads.
    pub farads: f64,
    /// Voltage when full.
    pub volts: f64,
}

impl Capacitor {
    /// Energy of a full charge in joules: ½·C·V².
    ///
    /// ```
    /// let capacitor = camera::Capacitor { farads: 1400e-6, volts: 330.0 };
    /// assert!((capacitor.joules() - 76.23).abs() < 1e-9);
    /// ```
    pub fn joules(&self) -> f64 {
        0.5 * self.farads * self.volts.powi(2)
    }
}

/// A set of cells in a flash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BatteryPack {
    /// Charge of a cell in ampere hours.
    pub ampere_hours: f64,
    /// Voltage of a cell.
    pub volts: f64,
    /// Number of cells.
    pub cells: u32,
}

impl BatteryPack {
    /// Energy in joules.
    pub fn joules(&self) -> f64 {
        self.ampere_hours * 3600.0 * self.volts * f64::from(self.cells)
    }

    /// Flashes of an energy that a full set could give, if nothing were lost but in the charger.
    ///
    /// `efficiency` of the charger is 0.5 to 0.65; in practice half to two thirds of this number are had, because cells
    /// give less under load (common practice).
    ///
    /// ```
    /// let pack = camera::BatteryPack { ampere_hours: 2.0, volts: 1.2, cells: 4 };
    /// assert!((pack.ideal_flashes(76.23, 0.6) - 272.0188902).abs() < 1e-6);
    /// ```
    pub fn ideal_flashes(&self, joules: f64, efficiency: f64) -> f64 {
        self.joules() * efficiency / joules
    }

    /// Seconds to recharge an energy while each cell gives a current in amperes (cells in series).
    ///
    /// ```
    /// let pack = camera::BatteryPack { ampere_hours: 2.0, volts: 1.2, cells: 4 };
    /// assert!((pack.recycle_s(76.23, 0.6, 6.0) - 4.411458333).abs() < 1e-8);
    /// ```
    pub fn recycle_s(&self, joules: f64, efficiency: f64, amperes: f64) -> f64 {
        joules / (efficiency * amperes * self.volts * f64::from(self.cells))
    }
}
