//! Parts of the hand drives: racks, gear stages, cranks, screw jacks, load brakes.

use super::{Contradictions, PartFigure, PartSeries, Sound};
use crate::quantity::{Force, Lead, Length, MassPerLength, Pressure, Si, Torque};

part! {
    /// A toothed rack, cut to length; `price` and `mass` are of its pinion on its shaft, with bearings.
    Rack in "racks" {
        /// Module (ISO 54).
        module: Length,
        /// Width of the teeth.
        face_width: Length,
        /// Teeth of the pinion, 20° full depth.
        pinion_teeth: f64,
        /// Yield strength of the pinion.
        strength: Pressure,
        /// Efficiency of rack and pinion with its bearings.
        efficiency: f64,
        /// Longest rack that can be joined up.
        length_most: Length,
        /// Price of a metre of rack.
        price_per_metre: f64,
        /// Mass of a metre of rack.
        mass_per_length: MassPerLength,
    }
}
impl Sound for Rack {
    fn check(&self, check: &mut Contradictions) {
        check.so(
            self.pinion_teeth >= 12.0,
            "pinion_teeth",
            "is below 12, where 20° teeth are undercut",
            "write 12 or more",
        );

        check.share("efficiency", self.efficiency);
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("module", self.module),
            [PartFigure::new("face_width", self.face_width)],
            [],
        )
    }
}

part! {
    /// A ready pair of spur gears in its bearings, slow shaft to fast shaft.
    SpurGear in "spur_gears" {
        /// Turns of the fast shaft per turn of the slow one.
        ratio: f64,
        /// Greatest torque on the slow shaft.
        torque: Torque,
        /// Efficiency.
        efficiency: f64,
    }
}
impl Sound for SpurGear {
    fn check(&self, check: &mut Contradictions) {
        check.so(
            self.ratio > 1.0,
            "ratio",
            "must be more than 1",
            "turns of the fast shaft per turn of the slow one",
        );
        check.share("efficiency", self.efficiency);
    }
}

part! {
    /// A hand crank with a turning handle.
    Crank in "cranks" {
        /// From the shaft to the middle of the handle.
        radius: Length,
        /// Greatest force at the handle.
        force: Force,
    }
}
impl Sound for Crank {}

part! {
    /// A lifting screw turned by a worm gear, its travel cut to order; `price` and `mass` are those of no travel.
    ScrewJack in "screw_jacks" {
        /// Greatest load, push or pull.
        capacity: Force,
        /// Travel per turn of the input shaft.
        travel_per_turn: Lead,
        /// Efficiency while running.
        efficiency: f64,
        /// Efficiency when starting.
        starting_efficiency: f64,
        /// Friction of its thread.
        thread_friction: f64,
        /// Friction with which its thread alone just locks, the worm's not counted.
        locking_friction: f64,
        /// Root diameter of the screw.
        root_diameter: Length,
        /// Longest travel.
        travel_most: Length,
        /// Length when closed, beyond the travel.
        closed_length: Length,
        /// Distance that the nut lasts.
        travel_life: Length,
        /// Price of a metre of travel.
        price_per_metre: f64,
        /// Mass of a metre of travel.
        mass_per_length: MassPerLength,
    }
}
impl Sound for ScrewJack {
    fn check(&self, check: &mut Contradictions) {
        check.share("efficiency", self.efficiency);
        check.share("starting_efficiency", self.starting_efficiency);
        check.so(
            self.starting_efficiency <= self.efficiency,
            "starting_efficiency",
            "must not be more than efficiency",
            format!("write at most {}", self.efficiency),
        );
        check.share("thread_friction", self.thread_friction);
        check.share("locking_friction", self.locking_friction);
        check.at_most(
            ("capacity", self.capacity),
            ("the screw bears", super::strongest_rod(self.root_diameter)),
        );
        check.less(
            ("travel_per_turn", self.travel_per_turn),
            (
                "the screw's circumference",
                Lead::from_si(core::f64::consts::PI * self.root_diameter.si()),
            ),
        );
    }
    fn series(&self) -> Option<PartSeries> {
        PartSeries::by(
            PartFigure::new("root_diameter", self.root_diameter),
            [PartFigure::new("capacity", self.capacity)],
            [],
        )
    }
}

part! {
    /// A brake that the load closes and the crank opens: it holds at once when the handle is let go, and lowers only while cranked.
    LoadBrake in "load_brakes" {
        /// Greatest torque it holds.
        torque: Torque,
        /// Whether it holds loads of either sign.
        both_ways: bool,
    }
}
impl Sound for LoadBrake {}
