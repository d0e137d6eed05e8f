//! Parts that any train may use: counterweight, rope, sheave, guide, cover, controls.

use core::f64::consts::PI;

use super::Sound;
use crate::quantity::{Force, Length, Mass, MassPerLength, MomentOfInertia, Power, Si, Velocity};

/// Strength of the strongest rope wire, Pa (EN 12385-2, grade 2160).
const STRONGEST_WIRE_PA: f64 = 2.16e9;
/// What controls may serve.
pub(super) const SERVED: [&str; 7] = ["air", "air_logic", "dc", "hand", "oil", "servo", "stepper"];

/// A fault where a figure is not above zero.
fn above_zero(figures: &[(&'static str, f64)]) -> Vec<(&'static str, String)> {
    figures
        .iter()
        .filter(|(_, figure)| *figure <= 0.0)
        .map(|(field, _)| (*field, "must be more than 0".into()))
        .collect()
}

part! {
    /// A steel block of a counterweight; several may be stacked. Its mass is the common one.
    Counterweight in "counterweights" {
        /// The mass of one block, the same as `mass`.
        block: Mass,
    }
}
impl Sound for Counterweight {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = above_zero(&[("block", self.block.si())]);
        if self.block != self.common.mass {
            faults.push(("block", "must equal mass".into()));
        }
        faults
    }
}

part! {
    /// Wire rope, cut to length; `price` and `mass` are of its end fittings.
    Rope in "ropes" {
        /// Nominal diameter.
        diameter: Length,
        /// Minimum breaking force.
        breaking_force: Force,
        /// Price of a metre.
        price_per_metre: f64,
        /// Mass of a metre.
        mass_per_length: MassPerLength,
    }
}
impl Sound for Rope {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let d = self.diameter.si();
        let mut faults = above_zero(&[
            ("diameter", d),
            ("breaking_force", self.breaking_force.si()),
            ("mass_per_length", self.mass_per_length.si()),
        ]);
        if self.breaking_force.si() > STRONGEST_WIRE_PA * PI * d * d / 4.0 {
            faults.push((
                "breaking_force",
                "is above that of a solid wire of this diameter".into(),
            ));
        }
        faults
    }
}

part! {
    /// A rope sheave with its bearing and bracket.
    Sheave in "sheaves" {
        /// Diameter of the rope's centre line.
        diameter: Length,
        /// Largest rope that fits the groove.
        rope_most: Length,
        /// Greatest load on its pin.
        load_most: Force,
        /// Moment of inertia about its pin.
        inertia: MomentOfInertia,
        /// Whether it runs on rolling bearings.
        rolling: bool,
    }
}
impl Sound for Sheave {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let radius = self.diameter.si() / 2.0;
        let mut faults = above_zero(&[
            ("diameter", radius),
            ("rope_most", self.rope_most.si()),
            ("load_most", self.load_most.si()),
            ("inertia", self.inertia.si()),
        ]);
        // All of its mass at the rim, which stands a rope's thickness outside the rope's centre line.
        let rim = radius + self.rope_most.si();
        if self.inertia.si() > self.common.mass.si() * rim * rim {
            faults.push((
                "inertia",
                "is more than all its mass at the rim would have".into(),
            ));
        }
        if self.rope_most.si() > self.diameter.si() / 4.0 {
            faults.push(("rope_most", "is more than a quarter of the diameter".into()));
        }
        faults
    }
}

part! {
    /// A profile rail guide: rail by the metre and carriages; `price` and `mass` are of one carriage.
    Guide in "guides" {
        /// Width of the rail, which names its size.
        size: Length,
        /// Dynamic rating on the 100 km basis, of one carriage.
        dynamic_rating: Force,
        /// Static rating of one carriage.
        static_rating: Force,
        /// Length of a carriage.
        carriage_length: Length,
        /// Greatest speed.
        speed_most: Velocity,
        /// Friction coefficient.
        friction: f64,
        /// Seal drag of one carriage.
        drag: Force,
        /// Longest rail in one piece.
        length_most: Length,
        /// Price of a metre of rail.
        rail_price_per_metre: f64,
        /// Mass of a metre of rail.
        rail_mass_per_length: MassPerLength,
    }
}
impl Sound for Guide {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = above_zero(&[
            ("size", self.size.si()),
            ("dynamic_rating", self.dynamic_rating.si()),
            ("carriage_length", self.carriage_length.si()),
            ("speed_most", self.speed_most.si()),
        ]);
        if self.static_rating.si() < self.dynamic_rating.si() * 0.5 {
            faults.push((
                "static_rating",
                "is below half the dynamic rating, which no ball carriage's is".into(),
            ));
        }
        if self.length_most.si() <= self.carriage_length.si() {
            faults.push(("length_most", "is no longer than a carriage".into()));
        }
        faults
    }
    fn covered_size(&self) -> Option<Length> {
        Some(self.size)
    }
}

part! {
    /// A guarded channel for the path of a counterweight, cut to length; `price` and `mass` are of its feet and lid.
    Guard in "guards" {
        /// Largest counterweight that runs in it.
        counterweight_most: Mass,
        /// Price of a metre.
        price_per_metre: f64,
        /// Mass of a metre.
        mass_per_length: MassPerLength,
    }
}
impl Sound for Guard {
    fn faults(&self) -> Vec<(&'static str, String)> {
        above_zero(&[("counterweight_most", self.counterweight_most.si())])
    }
}

part! {
    /// A bellows or strip cover that keeps dirt and water from a screw or rail; `price` and `mass` are of its ends.
    Cover in "covers" {
        /// Largest screw or rail it goes over.
        size_most: Length,
        /// Longest travel.
        travel_most: Length,
        /// Length it takes when pushed together, per length of travel.
        closed_ratio: f64,
        /// Price of a metre of travel.
        price_per_metre: f64,
        /// Mass of a metre of travel.
        mass_per_length: MassPerLength,
    }
}
impl Sound for Cover {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = above_zero(&[
            ("size_most", self.size_most.si()),
            ("travel_most", self.travel_most.si()),
            ("closed_ratio", self.closed_ratio),
        ]);
        if self.closed_ratio >= 1.0 {
            faults.push(("closed_ratio", "must be below 1: a cover folds".into()));
        }
        faults
    }
}

part! {
    /// What switches, protects and stops a train: buttons, end switches, drivers, cabinet, emergency stop, guard.
    Control in "controls" {
        /// What it is for: `air`, `air_logic`, `dc`, `hand`, `oil`, `servo`, `stepper`.
        serves: String,
        /// Greatest electrical power it switches; of pneumatic logic, that of the valves it stands in for.
        power_most: Power,
        /// Electricity it draws while switched on.
        standby: Power,
        /// Whether it can stop at several set places.
        several_stops: bool,
    }
}
impl Sound for Control {
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if !SERVED.contains(&self.serves.as_str()) {
            faults.push(("serves", format!("must be one of {}", SERVED.join(", "))));
        }
        if self.standby.si() > self.power_most.si() {
            faults.push(("standby", "is more than the power it switches".into()));
        }
        faults
    }
}
