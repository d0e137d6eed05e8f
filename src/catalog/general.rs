//! Parts that any drive may use: counterweight, rope, sheave, guide, cover, controls.

use core::f64::consts::PI;

use crate::quantity::{
    Force, GaugePressure, Length, Mass, MassPerLength, MomentOfInertia, Power, Si, Velocity,
    for_people, newtons,
};

/// Strength of the strongest rope wire, Pa (EN 12385-2, grade 2160).
const STRONGEST_WIRE_PA: f64 = 2.16e9;
/// What controls may serve.
pub(super) const SERVED: [&str; 7] = ["air", "air_logic", "dc", "hand", "oil", "servo", "stepper"];

/// How far two statements of one figure may be apart, of the figure: another unit rounds it another way.
const SAME: f64 = 1e-6;
/// Density of steel, kg/m³.
const STEEL_KG_M3: f64 = 7850.0;
/// Stress that no steel rod of a cylinder or jack bears, Pa.
const STRONGEST_ROD_PA: f64 = 1e9;

/// Force past which no steel rod of a diameter holds.
pub(super) fn strongest_rod(diameter: Length) -> Force {
    Force::from_si(STRONGEST_ROD_PA * PI / 4.0 * diameter.si().powi(2))
}

/// Force of a piston at a pressure, its rod not counted.
pub(super) fn piston_force(bore: Length, pressure: GaugePressure) -> Force {
    newtons(section(bore) * pressure.si())
}

/// Area of a circle, m².
fn section(diameter: Length) -> f64 {
    PI / 4.0 * diameter.si().powi(2)
}

part! {
    /// A steel block of a counterweight; several may be stacked. Its mass is the common one.
    Counterweight in "counterweights" {
        /// The mass of one block, the same as `mass`.
        block: Mass,
    }
    holds |part| {
        so block: (part.block.si() - part.common.mass.si()).abs() <= SAME * part.common.mass.si(),
            "must equal mass", format!("write {}", for_people(part.common.mass));
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
    grows diameter: breaking_force, mass_per_length;
    holds |part| {
        breaking_force <= newtons(STRONGEST_WIRE_PA * section(part.diameter)),
            "that of a solid wire of this diameter";
        mass_per_length < MassPerLength::from_si(STEEL_KG_M3 * section(part.diameter)),
            "that of a solid steel wire of this diameter";
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
    grows diameter: load_most;
    holds |part| {
        inertia <= part.rim_inertia(), "all its mass at the rim would have";
        rope_most <= part.diameter / 4.0, "a quarter of the diameter";
    }
}

impl Sheave {
    /// Its inertia if all of its mass were at the rim, which stands a rope's thickness outside the rope's centre line.
    fn rim_inertia(&self) -> MomentOfInertia {
        let rim = self.diameter.si() / 2.0 + self.rope_most.si();
        MomentOfInertia::from_si(self.common.mass.si() * rim * rim)
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
    covered size;
    grows size: dynamic_rating, static_rating;
    holds |part| {
        static_rating >= part.dynamic_rating / 2.0,
            "half the dynamic rating, as every ball carriage's is";
        carriage_length < length_most;
        so friction: part.friction < 0.5, "must be less than 0.5", "0.005 of rolling balls";
    }
}

/// Sorts of hinge bearings, from the plainest.
pub mod hinge_sort {
    /// A bush with a dry liner.
    pub const BUSH: &str = "bush";
    /// A drawn cup with needles.
    pub const NEEDLE: &str = "needle";
    /// A sealed deep-groove ball bearing.
    pub const DEEP_GROOVE: &str = "deep_groove";
    /// Two angular-contact ball bearings set against each other.
    pub const ANGULAR_PAIR: &str = "angular_pair";
    /// Two taper roller bearings set against each other.
    pub const TAPER_PAIR: &str = "taper_pair";
    /// A crossed roller ring, which bears a moment by itself.
    pub const CROSSED_ROLLER: &str = "crossed_roller";
    /// All of them.
    pub const ALL: [&str; 6] = [
        BUSH,
        NEEDLE,
        DEEP_GROOVE,
        ANGULAR_PAIR,
        TAPER_PAIR,
        CROSSED_ROLLER,
    ];
}

part! {
    /// A bearing of a hinge; one at either side carries the arm's pin.
    HingeBearing in "hinge_bearings" {
        /// `bush`, `needle`, `deep_groove`, `angular_pair`, `taper_pair` or `crossed_roller`.
        sort: String,
        /// Diameter of the pin.
        bore: Length,
        /// Width along the pin.
        width: Length,
        /// Static radial rating (ISO 76); of a bush its greatest pressure over bore times width.
        static_rating: Force,
        /// Greatest force along the pin; none where it bears none.
        axial_most: Option<Force>,
        /// Dynamic rating for a million turns (ISO 281); none of a bush.
        dynamic_rating: Option<Force>,
        /// Exponent of its life: 3 for balls, 10/3 for rollers; none of a bush.
        life_exponent: Option<f64>,
        /// Coefficient of friction at the pin.
        friction: f64,
        /// Greatest pressure times rubbing speed of a bush, MPa·m/s.
        pv_most: Option<f64>,
        /// Depth of a bush worn per rubbed path and pressure, m²/N.
        wear_rate: Option<f64>,
        /// Depth that may wear off a bush.
        wear_most: Option<Length>,
    }
    sort sort;
    grows bore: static_rating;
    holds |part| {
        one_of sort: hinge_sort::ALL;
        share friction;
        so dynamic_rating: [part.dynamic_rating.is_some(), part.life_exponent.is_some()]
            == [part.sort != hinge_sort::BUSH; 2],
            "stands with life_exponent in every bearing that rolls, and in no bush", "";
        so pv_most: [part.pv_most.is_some(), part.wear_rate.is_some(), part.wear_most.is_some()]
            == [part.sort == hinge_sort::BUSH; 3],
            "stands with wear_rate and wear_most in every bush, and in no bearing that rolls", "";
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
    grows size_most: travel_most;
    holds |part| {
        so closed_ratio: part.closed_ratio < 1.0,
            "must be less than 1: a cover folds", "0.2 folds to a fifth of the travel";
    }
}

part! {
    /// What switches, protects and stops a drive: buttons, end switches, drivers, cabinet, emergency stop, guard.
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
    // A latch or notch plate of a hand drive is on the machine; a cabinet stands apart.
    sort serves;
    apart |part| part.serves != "hand";
    holds |part| {
        one_of serves: SERVED;
        standby <= power_most;
    }
}
