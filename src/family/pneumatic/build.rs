//! Putting a drive together: what it uses, and what it does.

use std::sync::Arc;

use super::end::End;
use super::hold::Hold;
use super::line::Line;
use super::motion::{Leg, LoadedCylinder};
use super::supply::{self, DrawnAir, Supply};
use super::{LITRE, NAME, statics};
use crate::catalog::AirDryer;
use crate::demand::Demand;
use crate::family::choose::sets;
use crate::family::{
    Ask, Bench, Check, Custom, Drive, Figure, Hours, Life, Measurement, Stage, Words, finish,
};
use crate::quantity::{Kind, Si, show};
use crate::requirements::Stops;

const ARRIVAL: Measurement<1> = Measurement {
    stage: Stage::AtSpeed,
    measure: "Light gate in the last tenth of the travel, each way, throttles as set",
    reading: Words::new("{} at most"),
};
const AIR_OF_A_CYCLE: Measurement<1> = Measurement {
    stage: Stage::AtWork,
    measure: "Flow meter in the air line, ten cycles",
    reading: Words::new("{} L of free air a cycle"),
};
const STOP: Measurement<0> = Measurement {
    stage: Stage::Stopped,
    measure: "Emergency stop in mid-travel, greatest load, path clear: way to standstill",
    reading: Words::new(
        "air stops at no set place: see where it comes to rest, and guard to there",
    ),
};

/// A cylinder with its line, throttles, ends and way to hold.
#[derive(Debug, Clone, Copy)]
pub(super) struct Design<'a, 'd, 'm> {
    pub ask: &'d Ask<'a>,
    pub motion: &'d LoadedCylinder<'a, 'm>,
    pub hold: Hold<'a>,
    pub line: &'d Line<'a>,
    pub legs: &'d [Leg; 2],
    pub ends: &'d [End<'a>; 2],
    pub demand: &'d Arc<Demand>,
}

impl<'a> Design<'a, '_, '_> {
    /// Offers the drive with the air of the site, or with each compressor that keeps up.
    pub fn offer(&self, bench: &mut Bench<'a>, supply: Supply, checks: &[Check]) {
        let dead_m3 = self.motion.dead_m3(self.line);
        let cycle_m3 = supply::air_per_cycle_m3(self.ask, self.motion, dead_m3);
        match supply::drying(self.ask, self.peak_flow_m3_s(cycle_m3)) {
            Ok(dryers) => {
                for dryer in dryers {
                    self.offer_dried(bench, supply, cycle_m3, dryer, checks);
                }
            }
            Err(missing) => bench.misses([checks, &[missing]].concat()),
        }
    }

    fn offer_dried(
        &self,
        bench: &mut Bench<'a>,
        supply: Supply,
        cycle_m3: f64,
        dryer: Option<&'a AirDryer>,
        checks: &[Check],
    ) {
        let air = DrawnAir {
            cycle_m3,
            flow_m3_s: 0.0,
            compressor: None,
            dryer,
        };
        let supplied_m3 = air.supplied_m3();
        match supply {
            Supply::Site(_, flow_m3_s) => {
                let mut checks = checks.to_vec();
                checks.push(supply::site_check(self.ask, supplied_m3, flow_m3_s));
                self.offer_with(bench, DrawnAir { flow_m3_s, ..air }, checks);
            }
            Supply::Compressor(pressure) => {
                match supply::compressors(self.ask, pressure, supplied_m3) {
                    Ok(list) => {
                        for (compressor, own) in list {
                            let air = DrawnAir {
                                flow_m3_s: compressor.flow.si(),
                                compressor: Some(compressor),
                                ..air
                            };
                            self.offer_with(bench, air, [checks, &own].concat());
                        }
                    }
                    Err(nearest) => bench.misses([checks, &nearest].concat()),
                }
            }
        }
    }

    fn offer_with(&self, bench: &mut Bench<'a>, air: DrawnAir<'a>, checks: Vec<Check>) {
        let (needs, missing) = self.needs(air);
        let drive = self.without_parts(air, checks);
        for set in sets(self.ask, needs) {
            let mut drive = drive.clone();
            for choice in set {
                drive.parts.push(choice.line);
                drive.running.standby_w += choice.standby_w;
                drive.checks.extend(choice.checks);
            }
            drive.checks.extend(missing.iter().cloned());
            let line_checks = self.line.checks(self.motion.pressure_pa);
            drive.checks.extend(line_checks);
            bench.offer(finish(self.ask, drive));
        }
    }

    /// A drive with all but its parts.
    fn without_parts(&self, air: DrawnAir<'a>, checks: Vec<Check>) -> Drive<'a> {
        let compressor = air.compressor.map_or("", |_| ", compressor");
        let kind = format!("air cylinder{}{compressor}", self.hold.words());
        let mut drive = Drive::new(NAME, kind, Hours::AIR, Arc::clone(self.demand));
        drive.holds |= !matches!(self.hold, Hold::Nothing);
        drive.checks = checks;
        let bore = show(self.motion.cylinder.bore.si() * 1e3);
        drive.words = format!("{bore} mm air cylinder{}", self.hold.words());
        let made = |what| Custom {
            what,
            material: 0.0,
        };
        drive.custom.push(made("bracket for the cylinder"));
        if self.ends.iter().any(|end| end.absorber.is_some()) {
            drive.custom.push(made("brackets for the shock absorbers"));
        }
        self.running(&mut drive, air);
        self.position_and_life(&mut drive);
        self.say(&mut drive, air);
        let fastest_m_s = self.legs.iter().map(Leg::fastest_m_s).fold(0.0, f64::max);
        drive.proofs = vec![
            ARRIVAL.reads([Figure::Quantity(Kind::Speed, fastest_m_s)]),
            STOP.reads([]),
        ];
        if air.compressor.is_none() {
            let litres = Figure::Number(air.cycle_m3 * LITRE);
            drive.proofs.push(AIR_OF_A_CYCLE.reads([litres]));
        }
        drive
    }

    fn running(&self, drive: &mut Drive<'a>, air: DrawnAir<'a>) {
        let coil_w = self.line.valve.power.si();
        // The coil is on from the start of the outward stroke to that of the return.
        drive.running.moving_j = coil_w * self.demand.travel_time_s;
        drive.running.holding_j = coil_w * self.ask.job.timing.rest_out.si();
        drive.running.air_m3 = air.supplied_m3();
        let leak = |compressor| supply::leak_m3_h(self.ask, compressor);
        drive.running.air_leak_m3_h = air.compressor.map_or(0.0, leak);
    }

    fn position_and_life(&self, drive: &mut Drive<'a>) {
        let ask = self.ask;
        let rules = &ask.job.rules;
        drive.position.push(if ask.job.stops == Stops::Several {
            ("rod lock", rules.air_lock_error)
        } else {
            ("hard stop", rules.hard_stop_error)
        });
        let cylinder = self.motion.cylinder;
        let travel_m = ask.travel_m();
        drive.closed_length_m = cylinder.zero_stroke_length.si() + travel_m;
        if let Hold::Locked(lock) = self.hold {
            drive.closed_length_m += lock.length.si();
        }
        let yearly = ask.job.timing.cycles_per_year() * 2.0 * travel_m;
        let sets = 1.0 + statics::renewals(ask, self.motion);
        if yearly > 0.0 {
            drive.lives.push(Life {
                what: "cylinder seals",
                years: sets * cylinder.seal_life.si() / yearly,
            });
        }
    }
}
