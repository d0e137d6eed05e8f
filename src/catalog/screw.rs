//! Screws and what carries them: ball screws, sliding screws, support bearings.

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
    covered diameter;
    grows diameter: dynamic_rating, static_rating alike lead, lead_error;
    holds |part| {
        so efficiency: part.efficiency < 1.0, "must be less than 1", "0.9 is 90 %";
        root_diameter < diameter;
        static_rating >= part.dynamic_rating, "dynamic_rating, as every ball nut's is";
        nut_length < length_most;
        backlash < Length::from_si(part.lead.si() / 10.0), "a tenth of the lead";
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
    covered diameter;
    grows diameter: root_diameter, mass_per_length alike starts, pitch;
    holds |part| {
        pitch < part.diameter / 2.0, "half the diameter";
        whole starts: 1.0;
        root_diameter < part.mean_diameter(), "the mean diameter";
        so friction: part.friction < 0.5,
            "must be less than 0.5", "0.12 of greased bronze on steel";
        wear_most < part.pitch / 2.0, "half the pitch, what a thread is thick";
        nut_length < length_most;
    }
}
impl SlidingScrew {
    /// Mean diameter of the thread: nominal less half the pitch.
    pub fn mean_diameter(&self) -> Length {
        crate::mechanics::screw::pitch_diameter(self.diameter, self.pitch)
    }
    /// Travel per turn.
    pub fn lead(&self) -> Lead {
        Lead::from_si(self.pitch.si() * self.starts)
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
    grows screw_diameter: dynamic_rating, static_rating;
    holds |part| {
        mean_diameter <= part.screw_diameter * 2.0, "twice the screw's diameter";
        so friction: part.friction < 0.5, "must be less than 0.5", "0.003 of rolling bearings";
    }
}
