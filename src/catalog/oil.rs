//! Parts of the oil trains: cylinders, power units, valves, hoses.

use super::Sound;
use crate::quantity::{
    GaugePressure, Length, MassPerLength, Power, Si, Velocity, Volume, VolumeRate,
};

part! {
    /// A double-acting oil cylinder with flange and rod end, its stroke cut to order; `price` and `mass` are those of no stroke.
    OilCylinder in "oil_cylinders" {
        /// Bore (ISO 3320).
        bore: Length,
        /// Diameter of the rod (ISO 3320).
        rod: Length,
        /// Greatest pressure on either side.
        pressure: GaugePressure,
        /// Greatest speed of its seals.
        speed_most: Velocity,
        /// Longest stroke.
        stroke_most: Length,
        /// Length when closed, beyond the stroke.
        closed_length: Length,
        /// Rod that stands out of the closed cylinder, within the closed length.
        rod_end: Length,
        /// Distance that the seals last.
        travel_life: Length,
        /// Price of a metre of stroke.
        price_per_metre: f64,
        /// Mass of a metre of stroke.
        mass_per_length: MassPerLength,
    }
}
impl Sound for OilCylinder {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.bore.si() <= 0.0 {
            faults.push(("bore", "must be more than 0".into()));
        }
        if self.rod.si() <= 0.0 || self.rod.si() >= self.bore.si() {
            faults.push((
                "rod",
                "must be more than 0 and thinner than the bore".into(),
            ));
        }
        if self.pressure.si() <= 0.0 {
            faults.push(("pressure", "must be more than 0".into()));
        }
        if self.rod_end.si() < 0.0 || self.rod_end.si() > self.closed_length.si() {
            faults.push(("rod_end", "must lie within closed_length".into()));
        }
        if self.travel_life.si() <= 0.0 {
            faults.push(("travel_life", "must be more than 0".into()));
        }
        faults
    }
}

part! {
    /// Motor, fixed pump, relief and unloading valve on a tank; stands beside the machine.
    OilPowerUnit in "oil_power_units" {
        /// Flow of the pump.
        flow: VolumeRate,
        /// Highest pressure that its relief valve may be set to.
        pressure: GaugePressure,
        /// Power at the shaft of its motor.
        motor_power: Power,
        /// Efficiency of its motor.
        motor_efficiency: f64,
        /// Volume of the tank.
        tank: Volume,
        /// Heat the tank gives off with its oil 40 K above the air.
        rejection: Power,
        /// Electricity while it runs unloaded.
        idle: Power,
    }
}
impl Sound for OilPowerUnit {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.flow.si() <= 0.0 {
            faults.push(("flow", "must be more than 0".into()));
        }
        if self.pressure.si() <= 0.0 {
            faults.push(("pressure", "must be more than 0".into()));
        }
        if self.flow.si() * self.pressure.si() > self.motor_power.si() {
            faults.push((
                "motor_power",
                "is less than flow times pressure, which the pump gives off".into(),
            ));
        }
        if self.motor_efficiency <= 0.0 || self.motor_efficiency > 1.0 {
            faults.push((
                "motor_efficiency",
                "must be more than 0 and at most 1".into(),
            ));
        }
        if self.idle.si() < 0.0 || self.idle.si() > self.motor_power.si() {
            faults.push((
                "idle",
                "must not be negative or more than motor_power".into(),
            ));
        }
        if self.rejection.si() < 0.0 {
            faults.push(("rejection", "must not be negative".into()));
        }
        faults
    }
}

/// What an oil valve is for, as the catalog names it.
pub mod oil_function {
    /// Four ways, three positions, all ports closed in the middle.
    pub const DIRECTIONAL: &str = "directional";
    /// The same with the working ports drained in the middle, so that counterbalance valves close.
    pub const DRAINED: &str = "directional_drained";
    /// Holds an overrunning load until it is driven.
    pub const COUNTERBALANCE: &str = "counterbalance";
    /// Keeps the flow of one direction at its setting.
    pub const FLOW_CONTROL: &str = "flow_control";
}

/// What an oil valve may do.
pub(super) const FUNCTIONS: [&str; 4] = [
    oil_function::DIRECTIONAL,
    oil_function::DRAINED,
    oil_function::COUNTERBALANCE,
    oil_function::FLOW_CONTROL,
];

part! {
    /// An oil valve with what it is mounted on.
    OilValve in "oil_valves" {
        /// `directional` (closed centre), `directional_drained`, `counterbalance` or `flow_control`.
        function: String,
        /// Greatest flow.
        flow: VolumeRate,
        /// Greatest pressure.
        pressure: GaugePressure,
    }
}
impl Sound for OilValve {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if FUNCTIONS.contains(&self.function.as_str()) {
            return Vec::new();
        }
        vec![(
            "function",
            format!("must be one of {}", FUNCTIONS.join(", ")),
        )]
    }
}

part! {
    /// Oil hose, cut to length; `price` and `mass` are of its two end fittings.
    Hose in "hoses" {
        /// Bore.
        bore: Length,
        /// Greatest pressure.
        pressure: GaugePressure,
        /// Price of a metre.
        price_per_metre: f64,
        /// Mass of a metre, full of oil.
        mass_per_length: MassPerLength,
    }
}
impl Sound for Hose {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.bore.si() > 0.0 {
            return Vec::new();
        }
        vec![("bore", "must be more than 0".into())]
    }
}

part! {
    /// A gas-filled accumulator with check valve, pressure switch, gauge and safety block: keeps a force up with the pump off.
    OilAccumulator in "oil_accumulators" {
        /// Gas volume.
        volume: Volume,
        /// Greatest pressure.
        pressure: GaugePressure,
    }
}
impl Sound for OilAccumulator {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.volume.si() > 0.0 && self.pressure.si() > 0.0 {
            return Vec::new();
        }
        vec![("volume", "and pressure must be more than 0".into())]
    }
}

part! {
    /// An air-blast oil cooler with its thermostat; stands beside the power unit.
    OilCooler in "oil_coolers" {
        /// Heat it takes from oil 40 K above the air.
        rejection: Power,
        /// Electricity of its fan.
        power: Power,
    }
}
impl Sound for OilCooler {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.rejection.si() > self.power.si() {
            return Vec::new();
        }
        vec![("rejection", "must be more than power".into())]
    }
}

part! {
    /// A set of seals to renew those of an oil cylinder.
    OilSealKit in "oil_seal_kits" {
        /// Bore of the cylinder.
        bore: Length,
    }
}
impl Sound for OilSealKit {}
