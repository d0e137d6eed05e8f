//! Screws and what carries them: ball screws, sliding screws, support bearings.

use super::Sound;
use crate::quantity::{
    AngularVelocity, Force, Lead, Length, MassPerLength, Pressure, Si, Velocity,
};

part! {
    /// A ball screw with its nut, cut to length; `price` and `mass` are of the nut and the machined ends.
    BallScrew in "ball_screws" {
        /// Nominal diameter (ISO 3408-2 series).
        diameter: Length,
        /// Travel per turn.
        lead: Lead,
        /// Diameter at the bottom of the ball track.
        root_diameter: Length,
        /// Axial dynamic rating of the nut, on the basis of a million turns (ISO 3408-5).
        dynamic_rating: Force,
        /// Axial static rating of the nut.
        static_rating: Force,
        /// Efficiency driving forward, over 0 to 1.
        efficiency: f64,
        /// Travel deviation within 300 mm (ISO 3408-3 grades: 23 µm for 5, 52 µm for 7).
        lead_error: Length,
        /// Axial play of the nut.
        backlash: Length,
        /// Greatest diameter in mm times turns per minute.
        dn_most: f64,
        /// Longest screw in one piece.
        length_most: Length,
        /// Length of the nut.
        nut_length: Length,
        /// Price of a metre of screw.
        price_per_metre: f64,
        /// Mass of a metre of screw.
        mass_per_length: MassPerLength,
    }
}
impl Sound for BallScrew {
    fn covered_size(&self) -> Option<Length> {
        Some(self.diameter)
    }
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if !(self.efficiency > 0.0 && self.efficiency < 1.0) {
            faults.push(("efficiency", "must lie between 0 and 1".into()));
        }
        if self.root_diameter.si() >= self.diameter.si() || self.root_diameter.si() <= 0.0 {
            faults.push((
                "root_diameter",
                "must be below the diameter and above 0".into(),
            ));
        }
        if self.static_rating.si() < self.dynamic_rating.si() {
            faults.push((
                "static_rating",
                "is below the dynamic rating, which no ball nut's is".into(),
            ));
        }
        if self.lead.si() <= 0.0 {
            faults.push(("lead", "must be more than 0".into()));
        }
        if self.dn_most <= 0.0 {
            faults.push(("dn_most", "must be more than 0".into()));
        }
        faults
    }
}

part! {
    /// A trapezoidal screw with a bronze nut, cut to length; `price` and `mass` are of the nut and the machined ends.
    SlidingScrew in "sliding_screws" {
        /// Nominal diameter (ISO 2902 series).
        diameter: Length,
        /// Pitch; the lead is this times the starts.
        pitch: Length,
        /// Number of starts.
        starts: f64,
        /// Minor diameter of the screw (ISO 2904).
        root_diameter: Length,
        /// Running coefficient of friction of the greased thread.
        friction: f64,
        /// Greatest pressure on the thread at rest or creeping.
        pressure_most: Pressure,
        /// Greatest pressure times rubbing speed, MPa·m/s, over ten minutes.
        pv_most: f64,
        /// Greatest rubbing speed.
        rubbing_speed_most: Velocity,
        /// Depth worn per rubbed path and pressure, m²/N.
        wear_rate: f64,
        /// Wear at which the nut is replaced.
        wear_most: Length,
        /// Travel deviation within 300 mm.
        lead_error: Length,
        /// Axial play of a new nut.
        backlash: Length,
        /// Longest screw in one piece.
        length_most: Length,
        /// Length of the nut.
        nut_length: Length,
        /// Price of a metre of screw.
        price_per_metre: f64,
        /// Mass of a metre of screw.
        mass_per_length: MassPerLength,
    }
}
impl SlidingScrew {
    /// Mean diameter of the thread: nominal less half the pitch.
    #[must_use]
    pub fn mean_diameter(&self) -> Length {
        crate::mechanics::screw::pitch_diameter(self.diameter, self.pitch)
    }
    /// Travel per turn.
    #[must_use]
    pub fn lead(&self) -> Lead {
        Lead::from_si(self.pitch.si() * self.starts)
    }
}
impl Sound for SlidingScrew {
    fn covered_size(&self) -> Option<Length> {
        Some(self.diameter)
    }
    fn faults(&self) -> Vec<(&'static str, String)> {
        let mut faults = Vec::new();
        if !(self.pitch.si() > 0.0 && self.pitch.si() < self.diameter.si() / 2.0) {
            faults.push((
                "pitch",
                "must be more than 0 and below half the diameter".into(),
            ));
        }
        if !(self.starts >= 1.0 && self.starts.fract() == 0.0) {
            faults.push(("starts", "must be a whole number from 1".into()));
        }
        if self.root_diameter.si() >= self.mean_diameter().si() || self.root_diameter.si() <= 0.0 {
            faults.push((
                "root_diameter",
                "must be below the mean diameter and above 0".into(),
            ));
        }
        if !(self.friction > 0.0 && self.friction < 0.5) {
            faults.push(("friction", "must lie between 0 and 0.5".into()));
        }
        if self.wear_rate <= 0.0 {
            faults.push(("wear_rate", "must be more than 0".into()));
        }
        faults
    }
}

part! {
    /// The fixed and the floating bearing of a screw, in their housings, with lock nut.
    ScrewSupport in "screw_supports" {
        /// Largest screw whose ends it takes.
        screw_diameter: Length,
        /// Axial dynamic rating of the fixed bearing (ISO 281).
        dynamic_rating: Force,
        /// Axial static rating of the fixed bearing (ISO 76).
        static_rating: Force,
        /// Coefficient of friction under axial load.
        friction: f64,
        /// Mean diameter at which that friction acts.
        mean_diameter: Length,
        /// Greatest speed.
        speed_most: AngularVelocity,
        /// Length both take along the axis.
        length: Length,
        /// Material of the nut bracket and the motor plate that are made to suit, in catalog units.
        bracket_material: f64,
    }
}
impl Sound for ScrewSupport {
    fn faults(&self) -> Vec<(&'static str, String)> {
        if self.mean_diameter.si() > self.screw_diameter.si() * 2.0 {
            return vec![("mean_diameter", "is over twice the screw's diameter".into())];
        }
        Vec::new()
    }
}
