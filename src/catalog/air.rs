//! Parts of the air drives.

use core::f64::consts::PI;

use super::piston_force;
use crate::quantity::{
    ATMOSPHERE_PA, Conductance, Energy, Force, GaugePressure, Length, Mass, MassPerLength, Power,
    Si, Temperature, Velocity, Volume, VolumeRate, joules, newtons, watts,
};

/// Conductance of an ideal nozzle per area of its throat at 20 °C, m³/(s·Pa·m²) (ISO 6358).
const NOZZLE_M3_S_PA_M2: f64 = 1.99e-3;

/// Basic strokes of air cylinders, m (ISO 4393); others are made to length.
pub const BASIC_STROKES_M: [f64; 11] = [
    0.025, 0.05, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.32, 0.4, 0.5,
];

part! {
    /// An air receiver with relief valve, gauge and drain, near a cylinder that draws more than the site gives.
    AirReceiver in "air_receivers" {
        /// Volume.
        volume: Volume,
        /// Greatest pressure.
        pressure_most: GaugePressure,
    }
}

part! {
    /// A double-acting air cylinder with flange and floating rod joint, its stroke cut to order; `price` and `mass` are at no stroke.
    AirCylinder in "air_cylinders" {
        /// Bore.
        bore: Length,
        /// Diameter of the rod.
        rod: Length,
        /// Greatest working pressure.
        pressure_most: GaugePressure,
        /// Longest stroke.
        stroke_most: Length,
        /// Length over all at no stroke, rod in, joint included.
        zero_stroke_length: Length,
        /// Price of a metre of stroke.
        price_per_metre: f64,
        /// Added for a stroke that is not a basic one of ISO 4393.
        made_to_length_price: f64,
        /// Mass of a metre of stroke.
        mass_per_length: MassPerLength,
        /// Mass of piston and rod at no stroke.
        moving_mass: Mass,
        /// Mass of a metre of rod.
        moving_mass_per_length: MassPerLength,
        /// Conductance of a port.
        conductance: Conductance,
        /// Critical pressure ratio of a port.
        critical_ratio: f64,
        /// Length over which the cushion works.
        cushion_length: Length,
        /// Energy that the cushion takes from load, weight and drive in one stroke.
        cushion_energy: Energy,
        /// Greatest force square to the rod at its end, rod in.
        side_load_most: Force,
        /// Span of piston and rod bearing, rod in.
        bearing_span: Length,
        /// Distance its seals run.
        seal_life: Length,
    }
    grows bore: cushion_energy, conductance;
    holds |part| {
        rod < bore;
        cushion_energy
            <= joules(2.0 * piston_force(part.bore, part.pressure_most).si() * part.cushion_length.si()),
            "twice the thrust at greatest pressure over the cushion length, which no cushion holds";
        conductance <= Conductance::from_si(NOZZLE_M3_S_PA_M2 * PI / 16.0 * part.bore.si().powi(2)),
            "what an ideal port half as wide as the bore would pass";
        moving_mass <= part.common.mass, "mass";
        moving_mass_per_length <= mass_per_length;
        within critical_ratio: 0.0, 0.6;
        cushion_length < stroke_most;
        bearing_span <= zero_stroke_length;
    }
}

part! {
    /// A 5/2 valve worked by a coil, with silencers.
    AirValve in "air_valves" {
        /// Sonic conductance.
        conductance: Conductance,
        /// Critical pressure ratio.
        critical_ratio: f64,
        /// Power of its coil; 0 of an air-piloted valve, which pneumatic logic works.
        power: Power,
        /// Least pressure at which it switches.
        pressure_least: GaugePressure,
        /// Greatest working pressure.
        pressure_most: GaugePressure,
    }
    grows mass: conductance alike pressure_most;
    holds |part| {
        pressure_least < pressure_most;
        within critical_ratio: 0.0, 0.6;
    }
}

part! {
    /// Air tube, cut to length; `price` and `mass` are of its two end fittings.
    AirTube in "air_tubes" {
        /// Inner diameter.
        bore: Length,
        /// Outer diameter.
        outer: Length,
        /// Greatest working pressure.
        pressure_most: GaugePressure,
        /// Price of a metre.
        price_per_metre: f64,
        /// Mass of a metre.
        mass_per_length: MassPerLength,
    }
    grows bore: outer, mass_per_length;
    holds |part| {
        bore < outer;
    }
}

part! {
    /// A flow control screwed into a cylinder port: throttles the air that leaves, lets it in freely.
    FlowControl in "flow_controls" {
        /// Conductance of the throttle, fully open.
        conductance: Conductance,
        /// Conductance the other way, through its check.
        free_conductance: Conductance,
        /// Critical pressure ratio.
        critical_ratio: f64,
    }
    holds |part| {
        free_conductance >= conductance;
        within critical_ratio: 0.0, 0.6;
    }
}

part! {
    /// A pilot-operated check valve on a cylinder port: traps the air when its pilot loses pressure.
    CheckValve in "check_valves" {
        /// Sonic conductance, open.
        conductance: Conductance,
        /// Critical pressure ratio.
        critical_ratio: f64,
        /// Greatest working pressure.
        pressure_most: GaugePressure,
    }
    holds |part| {
        within critical_ratio: 0.0, 0.6;
    }
}

part! {
    /// A clamp on a cylinder's rod, closed by springs and opened by air, with its valve.
    RodLock in "rod_locks" {
        /// Diameter of the rod.
        rod: Length,
        /// Force it holds.
        holding_force: Force,
        /// Least pressure that opens it.
        release_pressure: GaugePressure,
        /// Length it adds to the cylinder.
        length: Length,
    }
    grows rod: holding_force;
    holds |part| {
        // Past this pressure on the rod's surface over one diameter of length a clamp marks the rod.
        holding_force <= newtons(60e6 * part.rod.si() * part.rod.si()),
            "what a clamp on that rod holds without marking it";
    }
}

part! {
    /// A hydraulic shock absorber on an end stop.
    ShockAbsorber in "shock_absorbers" {
        /// Its stroke.
        stroke: Length,
        /// Energy of one stroke.
        energy: Energy,
        /// Energy of an hour.
        energy_per_hour: Energy,
        /// Greatest speed of impact.
        speed_most: Velocity,
    }
    grows stroke: energy;
    holds |part| {
        energy_per_hour >= part.energy, "energy, that of one stroke";
    }
}

part! {
    /// A compressor with its tank and dryer; it stands beside the machine.
    Compressor in "compressors" {
        /// Free air it gives at its pressure.
        flow: VolumeRate,
        /// Pressure that it keeps up.
        pressure: GaugePressure,
        /// Electrical power while it runs.
        power: Power,
        /// Greatest part of the time it may run.
        duty_most: f64,
        /// Volume of its tank.
        tank: Volume,
    }
    apart |_part| true;
    grows power: flow alike pressure;
    holds |part| {
        within duty_most: 0.05, 1.0;
        // Isothermal compression is the least work there is.
        power
            >= watts(part.flow.si() * 1e5 * libm::log(part.pressure.absolute().si() / ATMOSPHERE_PA)),
            "isothermal compression needs";
    }
}

part! {
    /// What the air passes before the valve: a filter-regulator, or a soft-start valve.
    AirPreparation in "air_preparation" {
        /// Free air it passes at 6 bar with little loss.
        flow: VolumeRate,
        /// Whether it is a soft-start valve (else a filter-regulator).
        soft_start: bool,
    }
    apart |_part| true;
}

part! {
    /// An adsorption dryer: takes more water out of compressed air than a compressor's own dryer, for lines that get cold.
    AirDryer in "air_dryers" {
        /// Free air it passes.
        flow: VolumeRate,
        /// Dew point of the air that leaves it, under pressure (ISO 8573-1).
        dew_point: Temperature,
        /// Part of the air that it blows off to dry itself.
        purge: f64,
    }
    apart |_part| true;
    holds |part| {
        within purge: 0.0, 0.5;
    }
}

part! {
    /// A set of seals for a cylinder, to be fitted when the old ones are worn.
    SealKit in "seal_kits" {
        /// Bore of the cylinder.
        bore: Length,
    }
    apart |_part| true;
}
