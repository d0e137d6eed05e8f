//! Parts of the air trains.

use super::Sound;
use crate::quantity::{
    Conductance, Energy, Force, GaugePressure, Length, Mass, MassPerLength, Power, Si, Velocity,
    Volume, VolumeRate,
};

/// A fault of a critical pressure ratio, if it is none.
fn ratio_fault(field: &'static str, ratio: f64) -> Option<(&'static str, String)> {
    (!(0.0..=0.6).contains(&ratio))
        .then(|| (field, "is a ratio of pressures, 0 to 0.6".to_string()))
}

/// A fault of a figure that must be more than nothing.
fn positive(field: &'static str, value: f64) -> Option<(&'static str, String)> {
    (value.is_nan() || value <= 0.0).then(|| (field, "must be more than 0".to_string()))
}

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
impl Sound for AirReceiver {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let figures = [
            positive("volume", self.volume.si()),
            positive("pressure_most", self.pressure_most.si()),
        ];
        figures.into_iter().flatten().collect()
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
}
impl Sound for AirCylinder {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.rod.si() >= self.bore.si() {
            faults.push(("rod", "must be thinner than the bore".into()));
        }
        let thrust = core::f64::consts::PI / 4.0 * self.bore.si().powi(2) * self.pressure_most.si();
        if self.cushion_energy.si() > 2.0 * thrust * self.cushion_length.si() {
            faults.push((
                "cushion_energy",
                "is more than twice the thrust at greatest pressure over the cushion length, which no cushion holds".into(),
            ));
        }
        if self.moving_mass.si() > self.common.mass.si() {
            faults.push(("moving_mass", "is more than the whole cylinder's".into()));
        }
        if self.moving_mass_per_length.si() > self.mass_per_length.si() {
            faults.push((
                "moving_mass_per_length",
                "is more than the whole cylinder's".into(),
            ));
        }
        faults.extend(ratio_fault("critical_ratio", self.critical_ratio));
        faults.extend(positive("conductance", self.conductance.si()));
        faults.extend(positive("stroke_most", self.stroke_most.si()));
        faults.extend(positive("bearing_span", self.bearing_span.si()));
        faults.extend(positive("seal_life", self.seal_life.si()));
        faults
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
}
impl Sound for AirValve {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.pressure_least.si() >= self.pressure_most.si() {
            faults.push(("pressure_least", "must be below pressure_most".into()));
        }
        faults.extend(ratio_fault("critical_ratio", self.critical_ratio));
        faults.extend(positive("conductance", self.conductance.si()));
        faults
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
}
impl Sound for AirTube {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.bore.si() >= self.outer.si() {
            faults.push(("bore", "must be below the outer diameter".into()));
        }
        faults.extend(positive("bore", self.bore.si()));
        faults
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
}
impl Sound for FlowControl {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if self.free_conductance.si() < self.conductance.si() {
            faults.push((
                "free_conductance",
                "must not be below that of the throttle".into(),
            ));
        }
        faults.extend(ratio_fault("critical_ratio", self.critical_ratio));
        faults.extend(positive("conductance", self.conductance.si()));
        faults
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
}
impl Sound for CheckValve {
    fn faults(&self) -> Vec<(&'static str, String)> {
        ratio_fault("critical_ratio", self.critical_ratio)
            .into_iter()
            .chain(positive("conductance", self.conductance.si()))
            .collect()
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
}
impl Sound for RodLock {
    fn faults(&self) -> Vec<(&'static str, String)> {
        // Past this pressure on the rod's surface over one diameter of length a clamp marks the rod.
        let most = 60e6 * self.rod.si() * self.rod.si();
        if self.holding_force.si() > most {
            return vec![(
                "holding_force",
                "is more than a clamp on that rod can hold without marking it".into(),
            )];
        }
        Vec::new()
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
}
impl Sound for ShockAbsorber {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.energy_per_hour.si() < self.energy.si() {
            return vec![("energy_per_hour", "is below that of one stroke".into())];
        }
        positive("stroke", self.stroke.si()).into_iter().collect()
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
}
impl Sound for Compressor {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if !(0.05..=1.0).contains(&self.duty_most) {
            faults.push(("duty_most", "is a part of the time, 0.05 to 1".into()));
        }
        // Isothermal compression is the least work there is.
        let absolute = self.pressure.absolute().si();
        let least = self.flow.si() * 1e5 * libm::log(absolute / crate::quantity::ATMOSPHERE_PA);
        if self.power.si() < least {
            faults.push((
                "power",
                format!(
                    "is below the {} W that isothermal compression needs",
                    crate::quantity::show(least)
                ),
            ));
        }
        faults.extend(positive("flow", self.flow.si()));
        faults
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
}
impl Sound for AirPreparation {
    fn faults(&self) -> Vec<(&'static str, String)> {
        positive("flow", self.flow.si()).into_iter().collect()
    }
}

part! {
    /// A set of seals for a cylinder, to be fitted when the old ones are worn.
    SealKit in "seal_kits" {
        /// Bore of the cylinder.
        bore: Length,
    }
}
impl Sound for SealKit {
    fn faults(&self) -> Vec<(&'static str, String)> {
        positive("bore", self.bore.si()).into_iter().collect()
    }
}
