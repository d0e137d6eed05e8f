//! Every check of an electric cylinder.

use super::{CylinderWork, speed_at};
use crate::catalog::ElectricCylinder;
use crate::demand::Demand;
use crate::family::electric::{Cycle, DutyRating, running_life};
use crate::family::{Ask, Check, NO_FORCE_N, check, given};
use crate::mechanics::{column, combined};
use crate::quantity::{Si, metres};

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

pub(super) fn checks(ask: &Ask, part: &ElectricCylinder, work: &CylinderWork) -> Vec<Check> {
    let (demand, cycle) = (&work.demand, &work.cycle);
    let rms_n = demand.worst.rms_cycle_no_hold_n * (cycle.length_s / cycle.run_s).sqrt();
    let load_factor = rms_n / part.force_most.si();
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
        rating.check("electric_cylinder.duty", cycle, load_factor),
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
    check!(
        "electric_cylinder.speed", asked => given, "m/s";
        "speed against the line from no load to full load at the force there", "the part's force-speed line";
        ("v there", asked, "m/s"), ("v of the line there", given, "m/s")
    )
}

fn stop(part: &ElectricCylinder, stop_n: f64) -> Check {
    let (moving_n, locked_n) = (part.force_most.si(), part.holding_force.si());
    let most_n = moving_n.max(locked_n);
    check!(
        "electric_cylinder.stop", stop_n => most_n, "N";
        "greatest force of an emergency stop against what it carries, moving or held", "the part's rating";
        ("F stop", stop_n, "N"), ("F rated", moving_n, "N"), ("F locked", locked_n, "N")
    )
}

fn life(ask: &Ask, part: &ElectricCylinder, cycle: &Cycle) -> Check {
    let asked_km = ask.life_distance_m() / 1e3;
    let lasts_km = life_m(ask, part, cycle).min(1e12) / 1e3;
    check!(
        "electric_cylinder.life", asked_km => lasts_km, "km";
        "a1 · rated distance × (F most/Fm)^p, Fm cube mean, at most 10⁹ km; a1 of the rule reliability where p is 3 or more, else 1",
        "the part's rating; ISO 3408-5 for a ball screw; a1 ISO 281:2007, table 12";
        ("F most", part.force_most.si(), "N"), ("Fm", cycle.cube_mean_n, "N"), ("a1", life_factor(ask, part), "")
    )
    .rule("reliability")
}

fn holding(ask: &Ask, part: &ElectricCylinder, holding_n: f64) -> Check {
    let holds_n = part.holding_force.si();
    let held = Check::new("electric_cylinder.holding", holding_n, holds_n, "N")
        .with(given![("F hold", holding_n, "N")]);
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
    check!(
        id, asked => part.double_strokes, "";
        "cycles an hour × hours × years against the double strokes it is made for", "the part's rating";
        ("cycles asked", asked, "")
    )
}

pub(super) fn stroke(ask: &Ask, part: &ElectricCylinder) -> Check {
    let (asked, most) = (ask.travel_m(), part.stroke_most.si());
    check!(
        "electric_cylinder.stroke", asked => most, "m";
        "travel against the longest stroke", "the part's limit";
        ("S", asked, "m")
    )
}

pub(super) fn force(ask: &Ask, part: &ElectricCylinder, thrust_n: f64) -> Check {
    check!(
        "electric_cylinder.force", thrust_n => part.force_most.si(), "N";
        "greatest force, at rest with breakaway or in motion",
        "the part's rating; margin: common practice, no source";
        ("F", thrust_n, "N"), ("F rated", part.force_most.si(), "N")
    )
    .factor(ask.job.rules.drive_margin)
    .rule("drive_margin")
}

/// Pin to pin with the rod out, on the rod's diameter: the tube around half of it is stiffer.
fn buckling(ask: &Ask, part: &ElectricCylinder, demand: &Demand) -> Check {
    let out_m = match ask.pins_m() {
        Some([_, longest]) => longest,
        None => part.fixed_length.si() + 2.0 * ask.travel_m(),
    };
    let load = column::steel_load(part.rod_diameter, metres(out_m), column::Ends::Pinned);
    let push = demand.greatest_push_n();
    check!(
        "electric_cylinder.column", push => load.si(), "N";
        "F the greatest push of moving, holding and emergency stop, against Euler π²EI/(K L)² or Johnson, K = 1, L = fixed length + 2 · travel: pin to pin with the rod out",
        "Shigley, §§ 4-12 and 4-13";
        ("F", push, "N"), ("d", part.rod_diameter.si() * 1e3, "mm"), ("L", out_m * 1e3, "mm"),
        ("K", column::Ends::Pinned.factor(), ""), ("E", column::STEEL_MODULUS_PA / 1e9, "GPa")
    )
    .factor(ask.job.rules.column_factor_screw)
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
