//! What is said of a drive: what a designer should know, and what could hurt somebody.

use super::build::Design;
use super::hold::{Hold, NOTHING_N};
use super::motion::Leg;
use super::supply::DrawnAir;
use super::{LITRE, LITRE_PER_MIN, statics};
use crate::family::hazard::{
    AIR_STAYS, ARRIVES_HARD, FIRST_STROKE, FIRST_STROKE_GENTLE, ROD_LOCK, TRAPPED_AIR,
};
use crate::family::{Caution, Drive, Figure};
use crate::quantity::{G_M_S2, Si, show};

/// One litre a second and bar, in m³/(s·Pa).
const LITRE_PER_S_BAR: f64 = 1e-8;

impl<'a> Design<'a, '_, '_> {
    /// How hard the ends are met, where what lies loose on the load would slide.
    fn hard_arrival(&self) -> Option<Caution> {
        let cushion_m = self.motion.cylinder.cushion_length.si();
        let met = self.legs.iter().zip(self.ends).map(|(leg, end)| {
            let speed = leg
                .arrivals
                .iter()
                .map(|(_, a)| a.end_speed_m_s)
                .fold(0.0, f64::max);
            let within_m = end
                .absorber
                .map_or(cushion_m, |absorber| absorber.stroke.si());
            (speed, speed * speed / (2.0 * within_m))
        });
        let (speed, deceleration) = met.max_by(|p, q| p.1.total_cmp(&q.1))?;
        (deceleration > self.ask.job.rules.loose_slides).then(|| {
            let tenth = |value: f64| Figure::Number((value * 10.0).round() / 10.0);
            ARRIVES_HARD.with([
                Figure::Number(speed),
                tenth(deceleration),
                tenth(deceleration / G_M_S2),
            ])
        })
    }

    /// What a designer should know, and what could hurt somebody.
    pub(super) fn say(&self, drive: &mut Drive<'a>, air: DrawnAir<'a>) {
        let throttle = |leg: &Leg| show(leg.throttle / LITRE_PER_S_BAR);
        let speed = |leg: &Leg| show(leg.fastest_m_s());
        drive.cautions.extend(self.hard_arrival());
        let [out, back] = self.legs;
        drive.remarks.push(format!(
            "The flow controls are set to {} L/(s bar) for the way out and {} for the way back; the load then arrives at {} and {} m/s.",
            throttle(out), throttle(back), speed(out), speed(back)
        ));
        drive.remarks.push(format!(
            "A cycle takes {} L of free air at {} bar.",
            show(air.cycle_m3 * LITRE),
            show(self.motion.pressure_pa / 1e5)
        ));
        drive
            .remarks
            .push("The rod is free to turn; the guide keeps the load from turning with it.".into());
        let renewals = statics::renewals(self.ask, self.motion);
        if renewals > 0.0 {
            drive.remarks.push(format!(
                "The seals are renewed {} over the life asked.",
                if renewals > 1.0 {
                    format!("{renewals} times")
                } else {
                    "once".into()
                }
            ));
        }
        if self.buffer_m3(air) > 0.0 {
            drive.remarks.push(format!(
                "While it moves the cylinder draws {} L/min of free air, more than the {} L/min that come: a receiver near it gives the rest and is filled again in the rests.",
                show(self.peak_flow_m3_s(air.cycle_m3) * LITRE_PER_MIN),
                show(air.flow_m3_s * LITRE_PER_MIN)
            ));
        }
        self.warn(drive);
    }

    fn warn(&self, drive: &mut Drive<'a>) {
        let (pressure_pa, held) = (self.motion.pressure_pa, Figure::force(self.demand.held_n()));
        let forces = self.motion.areas_m2.map(|area| pressure_pa * area);
        drive.presses_n = Some(forces);
        drive.arrives_j = Some(self.motion.arrival_j(self.legs));
        let bar = Figure::Number(pressure_pa / 1e5);
        drive
            .cautions
            .push(AIR_STAYS.with([bar, Figure::force(forces[0])]));
        drive.cautions.push(if self.lifts() {
            FIRST_STROKE_GENTLE.with([])
        } else {
            FIRST_STROKE.with([])
        });
        let creep_mm = self.ask.job.rules.trapped_air_creep * 1e3;
        let pulls = self.demand.held_n() > NOTHING_N;
        // Where nothing holds the load, what it does then is said as of every drive.
        match self.hold {
            Hold::Trapped if !pulls => drive.remarks.push(format!(
                "When the power fails, air trapped on both sides keeps the load in place, to some {} mm.",
                show(creep_mm)
            )),
            Hold::Trapped => {
                let caution = TRAPPED_AIR.with([held, Figure::Number(creep_mm)]);
                drive.cautions.push(caution);
            }
            Hold::Locked(_) if pulls => drive.cautions.push(ROD_LOCK.with([held])),
            Hold::Locked(_) | Hold::Nothing => {}
        }
    }
}
