//! From requirements to forces, speeds and energies over every position.

mod arm;
mod axis;
mod book;
mod course;
mod figures;
mod hinge;
mod instants;
mod law;
mod process;
mod slide;
mod stability;
mod sums;
mod way;

pub use arm::ArmLoad;
pub use axis::Axis;
pub use book::Book;
pub use course::{CourseRow, ForceCourse};
pub use figures::{
    Case, Demand, Direction, Emergency, Figures, HingeDemand, Loading, Sample, SwingRow, Turn,
};
pub use slide::{CarriageLoad, RailDemand};
pub use stability::Stability;
pub use way::Way;

/// What helps the drive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Assist {
    /// Nothing.
    None,
    /// A counterweight over sheaves.
    Counterweight(Counterweight),
    /// A counterweight on the tail of a hinged arm.
    Tail(TailWeight),
}

/// A weight on the tail of a hinged arm, beyond the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TailWeight {
    /// Its mass.
    pub mass_kg: f64,
    /// From the hinge to its centre.
    pub radius_m: f64,
}

/// A counterweight as the demand sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counterweight {
    /// Mass of the counterweight.
    pub mass_kg: f64,
    /// Its travel over the load's.
    pub travel_ratio: f64,
    /// How many sheaves.
    pub sheaves: u32,
    /// Loss per sheave.
    pub loss_per_sheave: f64,
    /// Inertia of the sheaves as mass at the load, `ΣJs·ks²/Rs²`.
    pub sheave_mass_kg: f64,
}

impl Assist {
    /// The counterweight over sheaves, if there is one.
    pub fn counterweight(&self) -> Option<&Counterweight> {
        match self {
            Assist::None | Assist::Tail(_) => None,
            Assist::Counterweight(weight) => Some(weight),
        }
    }
    /// The weight on the tail of the arm, if there is one.
    pub fn tail(&self) -> Option<TailWeight> {
        match self {
            Assist::None | Assist::Counterweight(_) => None,
            Assist::Tail(tail) => Some(*tail),
        }
    }
    /// Mass of the counterweight, if there is one.
    pub fn weight_kg(&self) -> Option<f64> {
        match self {
            Assist::None => None,
            Assist::Counterweight(weight) => Some(weight.mass_kg),
            Assist::Tail(tail) => Some(tail.mass_kg),
        }
    }
    /// Every name in files.
    pub const NAMES: &'static [&'static str; 2] = &["none", "counterweight"];
    /// Name in files.
    pub fn name(&self) -> &'static str {
        let [none, counterweight] = Self::NAMES;
        match self {
            Assist::None => none,
            Assist::Counterweight(_) | Assist::Tail(_) => counterweight,
        }
    }
    /// Mass that moves with the load beside it, as inertia at the load: `k² mc + ΣJs·ks²/Rs²`.
    pub fn moving_mass_kg(&self) -> f64 {
        self.counterweight().map_or(0.0, |w| {
            w.travel_ratio * w.travel_ratio * w.mass_kg + w.sheave_mass_kg
        })
    }
    /// Pull along the travel, outward, N: `k mc g`.
    pub fn pull_n(&self) -> f64 {
        self.counterweight().map_or(0.0, |w| {
            w.travel_ratio * w.mass_kg * crate::quantity::G_M_S2
        })
    }
    /// Friction of the sheaves, N: `n ε k mc g`.
    pub fn friction_n(&self) -> f64 {
        self.counterweight().map_or(0.0, |w| {
            f64::from(w.sheaves) * w.loss_per_sheave * self.pull_n()
        })
    }
}
