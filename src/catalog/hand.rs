//! Parts of the hand drives: racks, gear stages, cranks, screw jacks, load brakes.

use core::f64::consts::PI;

use super::strongest_rod;
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
    grows module: face_width;
    holds |part| {
        so pinion_teeth: part.pinion_teeth >= 12.0,
            "is below 12, where 20° teeth are undercut", "write 12 or more";
        share efficiency;
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
    holds |part| {
        so ratio: part.ratio > 1.0,
            "must be more than 1", "turns of the fast shaft per turn of the slow one";
        share efficiency;
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
    grows root_diameter: capacity;
    holds |part| {
        share efficiency, starting_efficiency;
        so starting_efficiency: part.starting_efficiency <= part.efficiency,
            "must not be more than efficiency",
            format!("write at most {}", part.efficiency);
        share thread_friction, locking_friction;
        capacity <= strongest_rod(part.root_diameter), "the screw carries";
        travel_per_turn < Lead::from_si(PI * part.root_diameter.si()), "the screw's circumference";
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
