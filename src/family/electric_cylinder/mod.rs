//! Ready-made electric cylinders: motor, gear, screw and tube in one.

mod checks;
mod natural;

use std::sync::Arc;

use self::checks::{checks, force, life_m, stroke};
use self::natural::{Known, natural};
use super::screw::NAME;
use crate::catalog::{EXTRA_LOW_VOLTAGE_V, ElectricCylinder};
use crate::demand::Demand;
use crate::family::choose::{CHOICES_MOST, Goals, Merits, ParetoFront, Rank};
use crate::family::electric::{Cycle, Draw, Electrics, Feed, Wiring, years};
use crate::family::hazard::{CYLINDER_BRAKE, CYLINDER_THREAD};
use crate::family::{
    self, Ask, Bench, Check, Custom, Drive, Figure, Hours, Life, NO_FORCE_N, PartLine, site,
};
use crate::quantity::{Si, show};
use crate::requirements::Mains;

/// Offers the cheapest cylinder that passes at every design time with others that are better in something wanted, and each
/// that passes at its own natural time.
pub(super) fn drives<'a>(ask: &Ask<'a>, electrics: &Electrics<'a>, bench: &mut Bench<'a>) {
    let parts = in_order(ask);
    let goals = ask.goals();
    for time_s in ask.times {
        let demand = ask.demand(*time_s);
        if !bench.explains() && family::is_hopeless(ask, &demand) {
            continue;
        }
        let work = CylinderWork::new(ask, demand);
        // Those that a brake holds and those that lock by themselves are told apart, and those that need a supply.
        let mut taken: ParetoFront<((bool, bool), Merits), ()> = ParetoFront::default();
        for part in &parts {
            let supplied = wiring(&electrics.mains, part).supply_v().is_some();
            let worth = (
                (part.brake_time.is_some(), supplied),
                worth(ask, &goals, part, &work.cycle),
            );
            if taken.beats(&worth) {
                continue;
            }
            let out =
                !stroke(ask, part).passes() || !force(ask, part, work.cycle.thrust_n).passes();
            if out && !bench.explains() {
                continue;
            }
            let checks = checks(ask, part, &work);
            if !checks.iter().all(Check::passes) {
                bench.fails(checks);
                continue;
            }
            let mut sound = false;
            for drive in fed(ask, electrics, part, &work, &checks) {
                sound |= drive.passes();
                bench.offer(drive);
            }
            if sound {
                taken.take(worth, ());
                if taken.len() == CHOICES_MOST {
                    break;
                }
            }
        }
    }
    let mut known = Known::default();
    for part in &parts {
        natural(ask, electrics, part, &mut known, bench);
    }
}

/// Those that withstand the site first, then those that cost least over the horizon.
fn in_order<'a>(ask: &Ask<'a>) -> Vec<&'a ElectricCylinder> {
    let goals = ask.goals();
    let rank = |part: &'a ElectricCylinder| Rank {
        out: u8::from(!site::suits(ask.job, &part.common)),
        cost: goals.life_cost(&figures(ask, part)),
        id: &part.common.id,
    };
    let parts = ask.catalog.electric_cylinders.iter();
    let mut ranked: Vec<_> = parts.map(|part| (rank(part), part)).collect();
    ranked.sort_by(|(p, _), (q, _)| p.order(q));
    ranked.into_iter().map(|(_, part)| part).collect()
}

/// With its stroke and its brackets; its loss stands for the energy of a cycle.
fn figures(ask: &Ask, part: &ElectricCylinder) -> Merits {
    let rates = ask.life_cost();
    let cylinder = Merits::line(&rates, &line(ask, part));
    let figures = Merits {
        purchase: cylinder.purchase + rates.material(part.bracket_material),
        error: part.position_error.si(),
        length_m: part.fixed_length.si(),
        cycle_j: 1.0 / part.efficiency,
        ..cylinder
    };
    figures.drawing(&rates, 0.0, part.standby.si())
}

/// What counts of it in the job, its life included.
fn worth(ask: &Ask, goals: &Goals, part: &ElectricCylinder, cycle: &Cycle) -> Merits {
    let lives = lives(ask, part, cycle).into_iter().map(|life| life.years);
    goals.of_part(Merits {
        life: -lives.fold(f64::INFINITY, f64::min),
        ..figures(ask, part)
    })
}

/// Made to the travel.
fn line<'a>(ask: &Ask, part: &'a ElectricCylinder) -> PartLine<'a> {
    let (price, mass) = (part.price_per_metre, part.mass_per_length);
    PartLine::cut(part, ask.travel_m(), price, mass)
}

/// Speed on its line under a force; none past its greatest force.
fn speed_at(part: &ElectricCylinder, force_n: f64) -> f64 {
    let (free, full) = (part.no_load_speed.si(), part.full_load_speed.si());
    let most = part.force_most.si();
    if force_n > most {
        0.0
    } else {
        free + (full - free) * force_n / most
    }
}

/// A demand as a cylinder is judged by it.
struct CylinderWork {
    demand: Arc<Demand>,
    cycle: Cycle,
    /// Speed and the force against it over the move; of neighbours under the same force the fastest.
    speeds: Vec<(f64, f64)>,
}

impl CylinderWork {
    fn new(ask: &Ask, demand: Arc<Demand>) -> Self {
        let mut speeds: Vec<(f64, f64)> = Vec::new();
        for sample in demand.samples() {
            let (speed, force) = (sample.v_m_s.abs(), sample.force_n);
            // A load that drives it lets it run at its speed without load.
            let against = if force * sample.v_m_s > 0.0 {
                force.abs()
            } else {
                0.0
            };
            match speeds.last_mut() {
                Some((fastest, same)) if same.to_bits() == against.to_bits() => {
                    *fastest = fastest.max(speed);
                }
                _ => speeds.push((speed, against)),
            }
        }
        Self {
            cycle: Cycle::new(ask, &demand),
            demand,
            speeds,
        }
    }
}

/// Drives of a cylinder that passes, one for each choice of its supply and controls.
fn fed<'a>(
    ask: &Ask<'a>,
    electrics: &Electrics<'a>,
    part: &'a ElectricCylinder,
    work: &CylinderWork,
    checks: &[Check],
) -> Vec<Drive<'a>> {
    let draw = draw(&electrics.mains, part, &work.demand, &work.cycle);
    let feeds = draw.feeds(electrics).into_iter();
    let drive = |feed: Feed<'a>| {
        let mut drive = build(ask, part, work, checks);
        draw.add(electrics, feed, &mut drive);
        family::finish(ask, drive)
    };
    feeds.map(drive).collect()
}

/// A drive without its supply and controls.
fn build<'a>(
    ask: &Ask<'a>,
    part: &'a ElectricCylinder,
    work: &CylinderWork,
    checks: &[Check],
) -> Drive<'a> {
    let (demand, cycle) = (&work.demand, &work.cycle);
    let screw = part.brake_time.map_or("", |_| ", ball screw");
    let (kind, force) = (
        format!("electric cylinder{screw}"),
        show(part.force_most.si() / 1e3),
    );
    let mut drive = Drive::new(NAME, kind, Hours::ELECTRIC_CYLINDER, Arc::clone(demand));
    drive.words = format!("{force} kN electric cylinder{screw}");
    // Its own check holds it to the whole holding force.
    drive.holds = true;
    drive.presses_n = Some([part.force_most.si(); 2]);
    drive.checks.extend_from_slice(checks);
    drive.parts.push(line(ask, part));
    drive.closed_length_m = part.fixed_length.si() + ask.travel_m();
    let coasting_m = ask.job.rules.dc_stop_scatter * cycle.speed_m_s;
    drive.position = vec![
        ("stop of the cylinder", part.position_error.si()),
        ("scatter of its coasting", coasting_m),
    ];
    drive.lives = lives(ask, part, cycle);
    drive.custom = vec![Custom {
        what: "brackets of the cylinder",
        material: part.bracket_material,
    }];
    say(ask, &mut drive, part, cycle);
    drive
}

fn lives(ask: &Ask, part: &ElectricCylinder, cycle: &Cycle) -> Vec<Life> {
    let cycles_a_year = ask.job.timing.cycles_per_year();
    vec![
        Life::new("electric cylinder", years(ask, life_m(ask, part, cycle))),
        Life::new(
            "motor of the electric cylinder",
            part.running_life.si() / (cycle.run_s * cycles_a_year),
        ),
        Life::new(
            "double strokes of the electric cylinder",
            part.double_strokes / cycles_a_year,
        ),
    ]
}

/// Work against the load over the efficiency; a load that drives it gives `2 - 1/η` back, which is lost, or asks that much where it is negative.
fn draw(mains: &Mains, part: &ElectricCylinder, demand: &Demand, cycle: &Cycle) -> Draw {
    let (raising, lowering) = (
        1.0 / part.efficiency,
        (1.0 / part.efficiency - 2.0).max(0.0),
    );
    let worst = &demand.worst;
    let (driving_w, braking_w) = (
        worst.peak_motoring_power_w * raising,
        worst.peak_braking_power_w * lowering,
    );
    Draw {
        // What is asked of a load that drives the cylinder is loss.
        shaft_w: if driving_w >= braking_w {
            worst.peak_motoring_power_w
        } else {
            0.0
        },
        peak_w: driving_w.max(braking_w),
        moving_j: worst.work_in_j * raising + worst.work_out_j * lowering,
        holding_j: 0.0,
        standby_w: part.standby.si(),
        brake_w: 0.0,
        rated_w: part.force_most.si() * part.full_load_speed.si() / part.efficiency,
        run_s: cycle.run_s,
        wiring: wiring(mains, part),
        serves: "dc",
    }
}

/// How it comes to its voltage: a high one is on the mains itself.
fn wiring(mains: &Mains, part: &ElectricCylinder) -> Wiring {
    if part.voltage.si() < EXTRA_LOW_VOLTAGE_V {
        Wiring::of(Some(mains), part.voltage, part.windings.as_ref())
    } else {
        Wiring::Direct
    }
}

fn say(ask: &Ask, drive: &mut Drive, part: &ElectricCylinder, cycle: &Cycle) {
    if cycle.holding_n <= NO_FORCE_N {
        return;
    }
    let held = Figure::force(drive.demand.held_n());
    if let Some(time) = part.brake_time {
        // Its rotor is not stated and would slow this: an upper bound, and never past the end of the travel.
        let [least_kg, _] = ask.moving_kg(ask.book.axis().loads_kg[0]);
        let drop = cycle.drop_m(least_kg, time.si()).min(ask.travel_m());
        drive.remarks.push(format!(
            "If the power fails in motion, the load runs on by up to {} mm before the cylinder's brake bites.",
            show(drop * 1e3)
        ));
        drive.cautions.push(CYLINDER_BRAKE.with([held]));
    } else {
        drive.cautions.push(CYLINDER_THREAD.with([held]));
    }
}
