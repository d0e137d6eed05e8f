//! Every check of an electric cylinder.

use super::{Work, speed_at};
use crate::catalog::ElectricCylinder;
use crate::demand::Demand;
use crate::family::electric::{Cycle, DutyRating, running_life};
use crate::family::{Ask, Check, NO_FORCE_N};
use crate::mechanics::{column, combined};
use crate::quantity::{Si, metres, pascals};

/// The instant of the move that asks the greatest part of the speed on the line: speed asked and speed there.
fn worst_speed(part: &ElectricCylinder, speeds: &[(f64, f64)]) -> (f64, f64) {
    let mut worst = (0.0, part.no_load_speed.si());
    for &(asked, against) in speeds {
        let given = speed_at(part, against);
        if asked * worst.1 > worst.0 * given {
            worst = (asked, given);
        }
    }
    worst
}

pub(super) fn checks(ask: &Ask, part: &ElectricCylinder, work: &Work) -> Vec<Check> {
    let (demand, cycle) = (&work.demand, &work.cycle);
    let rms_n = demand.worst.rms_cycle_no_hold_n * (cycle.cycle_s / cycle.run_s).sqrt();
    let rating = DutyRating {
        factor: part.duty,
        short_time: part.short_time,
        cooling: part.cooling,
    };
    let mut checks = vec![
        stroke(ask, part),
        force(ask, part, cycle.thrust_n),
        speed(part, &work.speeds),
        stop(part, demand.emergency_stop.force_peak_n),
        rating.check(
            "electric_cylinder.duty",
            cycle,
            rms_n / part.force_most.si(),
        ),
        running(ask, part, cycle.run_s),
        double_strokes(ask, part),
        buckling(ask, part, demand),
        life(ask, part, cycle),
    ];
    if cycle.holding_n > NO_FORCE_N {
        checks.push(holding(ask, part, cycle.holding_n));
    }
    checks
}

fn speed(part: &ElectricCylinder, speeds: &[(f64, f64)]) -> Check {
    let (asked, given) = worst_speed(part, speeds);
    Check::new("electric_cylinder.speed", asked, given, "m/s")
        .from(
            "speed against the line from no load to full load at the force there",
            "the part's force-speed line",
        )
        .given(
            &[("v there", "m/s"), ("v of the line there", "m/s")],
            &[asked, given],
        )
}

fn stop(part: &ElectricCylinder, stop_n: f64) -> Check {
    let (moving_n, locked_n) = (part.force_most.si(), part.holding_force.si());
    let most_n = moving_n.max(locked_n);
    Check::new("electric_cylinder.stop", stop_n, most_n, "N")
        .from(
            "greatest force of an emergency stop against what it bears, moving or held",
            "the part's rating",
        )
        .given(
            &[("F stop", "N"), ("F rated", "N"), ("F locked", "N")],
            &[stop_n, moving_n, locked_n],
        )
}

fn life(ask: &Ask, part: &ElectricCylinder, cycle: &Cycle) -> Check {
    let asked_km = ask.life_distance_m() / 1e3;
    let lasts_km = life_m(ask, part, cycle).min(1e12) / 1e3;
    Check::new("electric_cylinder.life", asked_km, lasts_km, "km")
        .from(
            "a1 · rated distance × (F most/Fm)^p, Fm cube mean, at most 10⁹ km; a1 of the rule reliability where p is 3 or more, else 1",
            "the part's rating; ISO 3408-5 for a ball screw; a1 ISO 281:2007, table 12",
        )
        .given(
            &[("F most", "N"), ("Fm", "N"), ("a1", "")],
            &[
                part.force_most.si(),
                cycle.cube_mean_n,
                life_factor(ask, part),
            ],
        )
        .rule("reliability")
}

fn holding(ask: &Ask, part: &ElectricCylinder, holding_n: f64) -> Check {
    let holds_n = part.holding_force.si();
    let held = Check::new("electric_cylinder.holding", holding_n, holds_n, "N")
        .given(&[("F hold", "N")], &[holding_n]);
    if part.brake_time.is_some() {
        held.factor(ask.job.rules.brake_factor)
            .from(
                "F hold against what its brake holds",
                "the part's rating; factor: common practice, no source",
            )
            .rule("brake_factor")
    } else {
        held.from(
            "F hold against what its thread holds without power",
            "the part's rating",
        )
    }
}

pub(super) fn running(ask: &Ask, part: &ElectricCylinder, run_s: f64) -> Check {
    let lasts = part.running_life;
    running_life("electric_cylinder.running_life", ask, run_s, lasts)
}

pub(super) fn double_strokes(ask: &Ask, part: &ElectricCylinder) -> Check {
    let (id, asked) = ("electric_cylinder.double_strokes", ask.life_cycles());
    Check::new(id, asked, part.double_strokes, "")
        .from(
            "cycles an hour × hours × years against the double strokes it is made for",
            "the part's rating",
        )
        .given(&[("cycles asked", "")], &[asked])
}

pub(super) fn stroke(ask: &Ask, part: &ElectricCylinder) -> Check {
    let (asked, most) = (ask.travel_m(), part.stroke_most.si());
    Check::new("electric_cylinder.stroke", asked, most, "m")
        .from("travel against the longest stroke", "the part's limit")
        .given(&[("S", "m")], &[asked])
}

pub(super) fn force(ask: &Ask, part: &ElectricCylinder, thrust_n: f64) -> Check {
    Check::new(
        "electric_cylinder.force",
        thrust_n,
        part.force_most.si(),
        "N",
    )
    .factor(ask.job.rules.drive_margin)
    .from(
        "greatest force, at rest with breakaway or in motion",
        "the part's rating; margin: common practice, no source",
    )
    .given(
        &[("F", "N"), ("F rated", "N")],
        &[thrust_n, part.force_most.si()],
    )
    .rule("drive_margin")
}

/// Pin to pin with the rod out, on the rod's diameter: the tube around half of it is stiffer.
fn buckling(ask: &Ask, part: &ElectricCylinder, demand: &Demand) -> Check {
    let out_m = match ask.pins_m() {
        Some([_, longest]) => longest,
        None => part.fixed_length.si() + 2.0 * ask.travel_m(),
    };
    let load = column::critical_load(
        part.rod_diameter,
        metres(out_m),
        column::Ends::Pinned.factor(),
        pascals(column::STEEL_YIELD_PA),
        pascals(column::STEEL_MODULUS_PA),
    );
    let push = demand
        .worst
        .push_peak_n
        .max(demand.emergency_stop.push_peak_n)
        .max(demand.holding_push_n);
    Check::new("electric_cylinder.column", push, load.si(), "N")
        .factor(ask.job.rules.column_factor_screw)
        .from(
            "F the greatest push of moving, holding and emergency stop, against Euler π²EI/(K L)² or Johnson, K = 1, L = fixed length + 2 · travel: pin to pin with the rod out",
            "Shigley, §§ 4-12 and 4-13",
        )
        .given(
            &[
                ("F", "N"),
                ("d", "mm"),
                ("L", "mm"),
                ("K", ""),
                ("E", "GPa"),
            ],
            &[
                push,
                part.rod_diameter.si() * 1e3,
                out_m * 1e3,
                column::Ends::Pinned.factor(),
                column::STEEL_MODULUS_PA / 1e9,
            ],
        )
        .rule("column_factor_screw")
}

/// What the reliability asked leaves of a life of balls; a sliding screw wears, whoever asks.
fn life_factor(ask: &Ask, part: &ElectricCylinder) -> f64 {
    if part.life_exponent >= 3.0 {
        combined::life_factor(ask.job.rules.reliability)
    } else {
        1.0
    }
}

pub(super) fn life_m(ask: &Ask, part: &ElectricCylinder, cycle: &Cycle) -> f64 {
    if cycle.cube_mean_n <= NO_FORCE_N {
        return f64::INFINITY;
    }
    let ratio = part.force_most.si() / cycle.cube_mean_n;
    life_factor(ask, part) * part.life_distance.si() * libm::pow(ratio, part.life_exponent)
}
