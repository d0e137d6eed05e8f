//! Parts of the oil drives: cylinders, power units, valves, hoses.

use super::{piston_force, strongest_rod};
use crate::quantity::{
    GaugePressure, Length, MassPerLength, Power, Si, Velocity, Volume, VolumeRate, for_people,
    watts,
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
    grows bore: stroke_most;
    holds |part| {
        rod < bore;
        rod_end <= closed_length;
        so pressure: piston_force(part.bore, part.pressure) <= strongest_rod(part.rod),
            "on the bore pushes with more than the rod carries",
            format!(
                "write a thicker rod or less pressure: it pushes {}, the rod carries {}",
                for_people(piston_force(part.bore, part.pressure)),
                for_people(strongest_rod(part.rod))
            );
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
    apart |_part| true;
    grows motor_power: flow alike pressure;
    holds |part| {
        motor_power >= watts(part.flow.si() * part.pressure.si()),
            "flow times pressure, which the pump gives off";
        share motor_efficiency;
        idle <= motor_power;
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
    sort function;
    // A counterbalance valve sits on the cylinder, the others on the unit.
    apart |part| part.function != oil_function::COUNTERBALANCE;
    holds |part| {
        one_of function: FUNCTIONS;
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
    grows bore: mass_per_length;
}

part! {
    /// A gas-filled accumulator with check valve, pressure switch, gauge and safety block: keeps a force up with the pump off.
    OilAccumulator in "oil_accumulators" {
        /// Gas volume.
        volume: Volume,
        /// Greatest pressure.
        pressure: GaugePressure,
    }
    apart |_part| true;
}

part! {
    /// An air-blast oil cooler with its thermostat; stands beside the power unit.
    OilCooler in "oil_coolers" {
        /// Heat it takes from oil 40 K above the air.
        rejection: Power,
        /// Electricity of its fan.
        power: Power,
    }
    apart |_part| true;
    holds |part| {
        power < rejection;
    }
}

part! {
    /// A set of seals to renew those of an oil cylinder.
    OilSealKit in "oil_seal_kits" {
        /// Bore of the cylinder.
        bore: Length,
    }
    apart |_part| true;
}
