//! Ready-made electric cylinders.

use std::sync::Arc;

mod natural;

use self::natural::{Known, natural};
use super::built_up::drop_m;
use super::draw::{Draw, Electrics};
use super::load::Moves;
use super::motor::{duty, running_life};
use super::{NAME, NO_FORCE_N, years};
use crate::catalog::ElectricCylinder;
use crate::demand::Demand;
use crate::family::{self, Ask, Bench, Check, Hours, Life, Made, PartLine, Train, caution, site};
use crate::mechanics::{column, combined};
use crate::quantity::{Si, metres, pascals, show};
use crate::requirements::Mains;

/// Above this voltage a cylinder is on the mains itself (IEC 61140: extra-low voltage ends at 50 V alternating, 120 V direct).
const EXTRA_LOW_VOLTAGE_V: f64 = 60.0;

/// Offers the cheapest cylinder that passes at every design time, and each that passes at its own natural time.
pub(super) fn trains<'a>(
    ask: &Ask<'a>,
    mains: &Mains,
    electrics: &Electrics<'a>,
    bench: &mut Bench<'a>,
) {
    let mut parts: Vec<&ElectricCylinder> = ask.catalog.electric_cylinders.iter().collect();
    let out = |part: &ElectricCylinder| !site::suits(ask.job, &part.common);
    parts.sort_by(|p, q| {
        out(p)
            .cmp(&out(q))
            .then_with(|| price(ask, p).total_cmp(&price(ask, q)))
            .then_with(|| p.common.id.cmp(&q.common.id))
    });
    for time_s in ask.times {
        let demand = ask.demand(*time_s);
        if !bench.explains() && family::is_hopeless(ask, &demand) {
            continue;
        }
        let asked = Asked::new(ask, demand);
        // Of those that a brake holds and those that lock by themselves the cheapest: they differ in life, noise and precision.
        let mut offered = [false, false];
        for part in &parts {
            let Some(done) = offered.get_mut(usize::from(part.brake_time.is_some())) else {
                continue;
            };
            if *done {
                continue;
            }
            let out =
                !stroke(ask, part).passes() || !force(ask, part, asked.moves.thrust_n).passes();
            if out && !bench.explains() {
                continue;
            }
            let checks = checks(ask, part, &asked);
            if checks.iter().all(Check::passes) {
                let train = build(ask, (mains, electrics), part, &asked, checks);
                *done = train.passes();
                bench.offer(train);
            } else {
                bench.fails(checks);
            }
        }
    }
    let mut known = Known::default();
    for part in &parts {
        natural(ask, (mains, electrics), part, &mut known, bench);
    }
}

/// Price with the stroke.
fn price(ask: &Ask, part: &ElectricCylinder) -> f64 {
    part.common.price + part.price_per_metre * ask.travel_m()
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
struct Asked {
    demand: Arc<Demand>,
    moves: Moves,
    /// Speed and the force against it over the move; of neighbours under the same force the fastest.
    speeds: Vec<(f64, f64)>,
}

impl Asked {
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
            moves: Moves::new(ask, &demand),
            demand,
            speeds,
        }
    }
}

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

fn checks(ask: &Ask, part: &ElectricCylinder, asked: &Asked) -> Vec<Check> {
    let (demand, moves) = (&asked.demand, &asked.moves);
    let (asked, given) = worst_speed(part, &asked.speeds);
    let rms = demand.worst.rms_cycle_no_hold_n * (moves.cycle_s / moves.run_s).sqrt();
    let mut checks = vec![
        stroke(ask, part),
        force(ask, part, moves.thrust_n),
        Check::new("electric_cylinder.speed", asked, given, "m/s")
            .from(
                "speed against the line from no load to full load at the force there",
                "the part's force-speed line",
            )
            .given(
                &[("v there", "m/s"), ("v of the line there", "m/s")],
                &[asked, given],
            ),
        Check::new(
            "electric_cylinder.stop",
            demand.emergency_stop.force_peak_n,
            part.force_most.si().max(part.holding_force.si()),
            "N",
        )
        .from(
            "greatest force of an emergency stop against what it bears, moving or held",
            "the part's rating",
        )
        .given(
            &[("F stop", "N"), ("F rated", "N"), ("F locked", "N")],
            &[
                demand.emergency_stop.force_peak_n,
                part.force_most.si(),
                part.holding_force.si(),
            ],
        ),
        duty(
            "electric_cylinder.duty",
            moves,
            rms / part.force_most.si(),
            [part.duty, part.short_time.si(), part.cooling.si()],
        ),
        running(ask, part, moves.run_s),
        double_strokes(ask, part),
        buckling(ask, part, demand),
        Check::new(
            "electric_cylinder.life",
            ask.life_distance_m() / 1e3,
            life_m(ask, part, moves).min(1e12) / 1e3,
            "km",
        )
        .from(
            "a1 · rated distance × (F most/Fm)^p, Fm cube mean, at most 10⁹ km; a1 of the rule reliability where p is 3 or more, else 1",
            "the part's rating; ISO 3408-5 for a ball screw; a1 ISO 281:2007, table 12",
        )
        .given(
            &[("F most", "N"), ("Fm", "N"), ("a1", "")],
            &[
                part.force_most.si(),
                moves.cube_mean_n,
                life_factor(ask, part),
            ],
        )
        .rule("reliability"),
    ];
    if moves.holding_n > NO_FORCE_N {
        let held = Check::new(
            "electric_cylinder.holding",
            moves.holding_n,
            part.holding_force.si(),
            "N",
        )
        .given(&[("F hold", "N")], &[moves.holding_n]);
        checks.push(if part.brake_time.is_some() {
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
        });
    }
    checks
}

fn running(ask: &Ask, part: &ElectricCylinder, run_s: f64) -> Check {
    let lasts = part.running_life;
    running_life("electric_cylinder.running_life", ask, run_s, lasts)
}

fn double_strokes(ask: &Ask, part: &ElectricCylinder) -> Check {
    let (id, asked) = ("electric_cylinder.double_strokes", ask.life_cycles());
    Check::new(id, asked, part.double_strokes, "")
        .from(
            "cycles an hour × hours × years against the double strokes it is made for",
            "the part's rating",
        )
        .given(&[("cycles asked", "")], &[asked])
}

fn stroke(ask: &Ask, part: &ElectricCylinder) -> Check {
    let (asked, most) = (ask.travel_m(), part.stroke_most.si());
    Check::new("electric_cylinder.stroke", asked, most, "m")
        .from("travel against the longest stroke", "the part's limit")
        .given(&[("S", "m")], &[asked])
}

fn force(ask: &Ask, part: &ElectricCylinder, thrust_n: f64) -> Check {
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

fn life_m(ask: &Ask, part: &ElectricCylinder, moves: &Moves) -> f64 {
    if moves.cube_mean_n <= NO_FORCE_N {
        return f64::INFINITY;
    }
    let ratio = part.force_most.si() / moves.cube_mean_n;
    life_factor(ask, part) * part.life_distance.si() * libm::pow(ratio, part.life_exponent)
}

fn build<'a>(
    ask: &Ask<'a>,
    (mains, electrics): (&Mains, &Electrics<'a>),
    part: &'a ElectricCylinder,
    asked: &Asked,
    checks: Vec<Check>,
) -> Train<'a> {
    let (demand, moves) = (&asked.demand, &asked.moves);
    let kind = if part.brake_time.is_some() {
        "electric cylinder, ball screw"
    } else {
        "electric cylinder"
    };
    let mut train = Train::new(NAME, kind, Hours::ElectricCylinder, Arc::clone(demand));
    train.words = format!(
        "{} kN electric cylinder{}",
        show(part.force_most.si() / 1e3),
        if part.brake_time.is_some() {
            ", ball screw"
        } else {
            ""
        }
    );
    // Its own check holds it to the whole holding force.
    train.holds = true;
    train.presses_n = Some([part.force_most.si(); 2]);
    train.checks = checks;
    train.parts.push(PartLine::cut(
        "electric_cylinders",
        &part.common,
        ask.travel_m(),
        part.price_per_metre,
        part.mass_per_length.si(),
    ));
    let volts = part.voltage.si();
    draw(part, demand, moves).take(
        electrics,
        mains,
        &mut train,
        (volts < EXTRA_LOW_VOLTAGE_V).then_some(volts),
        "dc",
    );
    train.closed_length_m = part.fixed_length.si() + ask.travel_m();
    let coasting_m = ask.job.rules.dc_stop_scatter * moves.speed_m_s;
    train.position = vec![
        ("stop of the cylinder", part.position_error.si()),
        ("scatter of its coasting", coasting_m),
    ];
    let running_s = moves.run_s * ask.job.timing.cycles_per_year();
    train.lives = vec![
        Life {
            what: "electric cylinder",
            years: years(ask, life_m(ask, part, moves)),
        },
        Life {
            what: "motor of the electric cylinder",
            years: part.running_life.si() / running_s,
        },
        Life {
            what: "double strokes of the electric cylinder",
            years: part.double_strokes / ask.job.timing.cycles_per_year(),
        },
    ];
    train.made = vec![Made {
        what: "brackets of the cylinder",
        hours: 0.0,
        material: part.bracket_material,
    }];
    say(ask, &mut train, part, moves);
    family::finish(ask, train)
}

/// Work against the load over the efficiency; a load that drives it gives `2 - 1/η` back, which is lost, or asks that much where it is negative.
fn draw(part: &ElectricCylinder, demand: &Demand, moves: &Moves) -> Draw {
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
        run_s: moves.run_s,
    }
}

fn say(ask: &Ask, train: &mut Train, part: &ElectricCylinder, moves: &Moves) {
    if moves.holding_n <= NO_FORCE_N {
        return;
    }
    let held = caution::held(&train.demand);
    if let Some(time) = part.brake_time {
        // Its rotor is not stated and would slow this: an upper bound, and never past the end of the travel.
        let [least_kg, _] = ask.moving_kg(ask.book.axis().loads_kg[0]);
        let drop = drop_m(moves, least_kg, time.si()).min(ask.travel_m());
        train.remarks.push(format!(
            "If the power fails in motion, the load runs on by up to {} mm before the cylinder's brake bites.",
            show(drop * 1e3)
        ));
        train.cautions.push(format!(
            "Without power only the cylinder's brake holds the load, against {held}; test it at every upkeep."
        ));
    } else {
        train.cautions.push(format!(
            "The cylinder holds the load, {held}, by the friction of its thread; shaking can loosen it: never rely on it where people are under the load."
        ));
    }
}
