//! Parts that any train may use: counterweight, rope, sheave, guide, cover, controls.

use super::Sound;
use crate::quantity::{Force, Length, Mass, MassPerLength, MomentOfInertia, Power, Si, Velocity};

part! {
    /// A steel block of a counterweight; several may be stacked. Its mass is the common one.
    Counterweight in "counterweights" {
        /// The mass of one block, the same as `mass`.
        block: Mass,
    }
}
impl Sound for Counterweight {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.block == self.common.mass {
            Vec::new()
        } else {
            vec![("block", "must equal mass".into())]
        }
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
impl Sound for Rope {}

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
impl Sound for Sheave {}

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
        if self.static_rating.si() < self.dynamic_rating.si() * 0.5 {
            return vec![(
                "static_rating",
                "is below half the dynamic rating, which no ball carriage's is".into(),
            )];
        }
        Vec::new()
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
impl Sound for Cover {}

part! {
    /// What switches, protects and stops a train: buttons, end switches, drivers, cabinet, emergency stop, guard.
    Control in "controls" {
        /// What it is for: `air`, `oil`, `stepper`, `dc`, `servo`, `hand`.
        serves: String,
        /// Greatest electrical power it switches.
        power_most: Power,
        /// Electricity it draws while switched on.
        standby: Power,
        /// Whether it can stop at several set places.
        several_stops: bool,
    }
}
impl Sound for Control {}
