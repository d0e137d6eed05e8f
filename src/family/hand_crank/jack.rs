//! Screw jack, cranked straight at its worm.

use super::effort::{Effort, Gearing};
use super::{Drive, Hours};
use crate::catalog::ScrewJack;
use crate::family::check::SURELY;
use crate::family::efficient::{asked, efficient_of_same, habits};
use crate::family::{Ask, Bench, Check, PartLine};
use crate::mechanics::column::{self, Ends, STEEL_MODULUS_PA, STEEL_YIELD_PA};
use crate::quantity::{Si, metres, pascals, show};
use crate::requirements::Criterion;

/// Every jack that bears the load.
pub(super) fn drives<'a>(ask: &Ask<'a>, effort: &Effort, bench: &mut Bench<'a>) -> Vec<Drive<'a>> {
    let mut drives = Vec::new();
    for jack in &ask.catalog.screw_jacks {
        let weak = effort.parts_n > jack.capacity.si() * SURELY;
        let short = ask.travel_m() > jack.travel_most.si() * SURELY;
        if !bench.explains() && (weak || short) {
            continue;
        }
        let checks = checks(ask, effort, jack);
        if checks.iter().all(Check::passes) {
            drives.push(drive(ask, jack, checks));
        } else {
            bench.fails(checks);
        }
    }
    if bench.explains() {
        return drives;
    }
    worth_trying(ask, drives)
}

/// Of jacks that gear and lock alike those that no other is no worse than.
fn worth_trying<'a>(ask: &Ask<'a>, drives: Vec<Drive<'a>>) -> Vec<Drive<'a>> {
    let same = |drive: &Drive<'a>| {
        let (gearing, (needed, friction)) = (drive.gearing, drive.locks.unwrap_or_default());
        let figures = [
            gearing.lead_m,
            gearing.efficiency,
            gearing.starting_efficiency,
            needed,
            friction,
        ];
        let first = drive.parts.first();
        (
            figures.map(f64::to_bits),
            first.map(|line| habits(line.common)),
        )
    };
    efficient_of_same(drives, same, |drive| {
        let price: f64 = drive.parts.iter().map(PartLine::cost).sum();
        let mass_kg = drive.parts.iter().map(|line| line.mass_kg).sum();
        let life_m = drive.travel_life_m.unwrap_or(f64::INFINITY);
        let counted = [
            price,
            asked(ask, Criterion::AddedMass, mass_kg),
            asked(ask, Criterion::ClosedLength, drive.closed_length_m),
            asked(ask, Criterion::Life, -life_m),
        ];
        (counted, [])
    })
}

fn checks(ask: &Ask, effort: &Effort, jack: &ScrewJack) -> Vec<Check> {
    let rules = &ask.job.rules;
    let travel = ask.travel_m();
    let (free, ends) = match ask.pins_m() {
        Some([_, longest]) => (metres(longest), Ends::Pinned),
        None => (metres(travel + jack.closed_length.si()), Ends::FixedPinned),
    };
    let buckles = column::critical_load(
        jack.root_diameter,
        free,
        ends.factor(),
        pascals(STEEL_YIELD_PA),
        pascals(STEEL_MODULUS_PA),
    );
    let life = ask.life_distance_m() / 1e3;
    vec![
        Check::new("screw_jack.load", effort.parts_n, jack.capacity.si(), "N")
            .from("greatest push or pull <= capacity", "catalog").given(&[("F", "N")], &[effort.parts_n]),
        Check::new("screw_jack.travel", travel * 1e3, jack.travel_most.si() * 1e3, "mm")
            .from("travel <= longest travel", "catalog").given(&[("S", "mm")], &[travel * 1e3]),
        Check::new("screw_jack.buckling", effort.push_n, buckles.si(), "N")
            .factor(rules.column_factor_screw)
            .from(
                match ends {
                    Ends::Pinned => "Euler π² E I/L² or Johnson on the root, L from pin to pin with the screw out",
                    _ => "Euler π² E I/(0.7 L)² or Johnson on the root, L the whole jack run out; foot bolted, head pinned to the guided load",
                },
                "Shigley's Mechanical Engineering Design, §§ 4-12 and 4-13",
            ).given(&[("F", "N"), ("d root", "mm"), ("L", "mm"), ("K", ""), ("E", "GPa")], &[effort.push_n, jack.root_diameter.si() * 1e3, free.si() * 1e3, ends.factor(), STEEL_MODULUS_PA / 1e9])
            .rule("column_factor_screw"),
        Check::new("screw_jack.life", life, jack.travel_life.si() / 1e3, "km")
            .from("cycles × 2 × travel over the years asked", "catalog").given(&[("S", "mm"), ("cycles", "")], &[travel * 1e3, ask.life_cycles()]),
    ]
}

fn drive<'a>(ask: &Ask, jack: &'a ScrewJack, checks: Vec<Check>) -> Drive<'a> {
    let travel = ask.travel_m();
    Drive {
        kind: "screw jack crank",
        row: Hours::JACK_CRANK,
        words: format!("{} kN screw jack", show(jack.capacity.si() / 1e3)),
        parts: vec![PartLine::cut(
            "screw_jacks",
            &jack.common,
            travel,
            jack.price_per_metre,
            jack.mass_per_length.si(),
        )],
        gearing: Gearing {
            lead_m: jack.travel_per_turn.si(),
            efficiency: jack.efficiency,
            starting_efficiency: jack.starting_efficiency,
        },
        checks,
        locks: Some((jack.locking_friction, jack.thread_friction)),
        closed_length_m: travel + jack.closed_length.si(),
        travel_life_m: Some(jack.travel_life.si()),
    }
}
