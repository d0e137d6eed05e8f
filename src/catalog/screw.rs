//! Screws and what carries them: ball screws, sliding screws, support bearings.

use super::{Contradictions, PartFigure, PartSeries, Sound};
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
    fn check(&self, check: &mut Contradictions) {
        check.so(
            self.efficiency < 1.0,
            "efficiency",
            "must be less than 1",
            "0.9 is 90 %",
        );
        check.less(
            ("root_diameter", self.root_diameter),
            ("diameter", self.diameter),
        );
        check.at_least(
            ("static_rating", self.static_rating),
            (
                "dynamic_rating, as every ball nut's is",
                self.dynamic_rating,
            ),
        );
        check.less(
            ("nut_length", self.nut_length),
            ("length_most", self.length_most),
        );
        check.less(
            ("backlash", self.backlash),
            (
                "a tenth of the lead",
                Length::from_si(self.lead.si() / 10.0),
            ),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("diameter", self.diameter),
            [
                PartFigure::new("dynamic_rating", self.dynamic_rating),
                PartFigure::new("static_rating", self.static_rating),
            ],
            [self.lead.si(), self.lead_error.si()],
        )
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
    pub fn mean_diameter(&self) -> Length {
        crate::mechanics::screw::pitch_diameter(self.diameter, self.pitch)
    }
    /// Travel per turn.
    pub fn lead(&self) -> Lead {
        Lead::from_si(self.pitch.si() * self.starts)
    }
}
impl Sound for SlidingScrew {
    fn covered_size(&self) -> Option<Length> {
        Some(self.diameter)
    }
    fn check(&self, check: &mut Contradictions) {
        check.less(
            ("pitch", self.pitch),
            ("half the diameter", self.diameter / 2.0),
        );
        check.whole("starts", self.starts, 1.0);
        check.less(
            ("root_diameter", self.root_diameter),
            ("the mean diameter", self.mean_diameter()),
        );
        check.so(
            self.friction < 0.5,
            "friction",
            "must be less than 0.5",
            "0.12 of greased bronze on steel",
        );
        check.less(
            ("wear_most", self.wear_most),
            ("half the pitch, what a thread is thick", self.pitch / 2.0),
        );
        check.less(
            ("nut_length", self.nut_length),
            ("length_most", self.length_most),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("diameter", self.diameter),
            [
                PartFigure::new("root_diameter", self.root_diameter),
                PartFigure::new("mass_per_length", self.mass_per_length),
            ],
            [self.lead().si(), self.pitch.si()],
        )
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
    fn check(&self, check: &mut Contradictions) {
        check.at_most(
            ("mean_diameter", self.mean_diameter),
            ("twice the screw's diameter", self.screw_diameter * 2.0),
        );
        check.so(
            self.friction < 0.5,
            "friction",
            "must be less than 0.5",
            "0.003 of rolling bearings",
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("screw_diameter", self.screw_diameter),
            [
                PartFigure::new("dynamic_rating", self.dynamic_rating),
                PartFigure::new("static_rating", self.static_rating),
            ],
            [],
        )
    }
}
