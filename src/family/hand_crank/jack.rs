//! Screw jack, cranked straight at its worm.

use super::effort::{Effort, Gearing};
use super::{CrankDrive, Hours};
use crate::catalog::ScrewJack;
use crate::family::check::SURELY;
use crate::family::{Ask, Bench, Check, PartLine, check, site};
use crate::mechanics::column::{self, Ends, STEEL_MODULUS_PA};
use crate::quantity::{Si, metres, show};

/// Every jack that bears the load.
pub(super) fn mechanisms<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    bench: &mut Bench<'a>,
) -> Vec<CrankDrive<'a>> {
    let mut mechanisms = Vec::new();
    for jack in &ask.catalog.screw_jacks {
        let weak = effort.parts_n > jack.capacity.si() * SURELY;
        let short = ask.travel_m() > jack.travel_most.si() * SURELY;
        if !bench.explains() && (weak || short) {
            continue;
        }
        let checks = checks(ask, effort, jack);
        if checks.iter().all(Check::passes) {
            mechanisms.push(mechanism(ask, jack, checks));
        } else {
            bench.fails(checks);
        }
    }
    mechanisms
}

fn checks(ask: &Ask, effort: &Effort, jack: &ScrewJack) -> Vec<Check> {
    let rules = &ask.job.rules;
    let travel = ask.travel_m();
    let (free, ends) = match ask.pins_m() {
        Some([_, longest]) => (metres(longest), Ends::Pinned),
        None => (metres(travel + jack.closed_length.si()), Ends::FixedPinned),
    };
    let buckles = column::steel_load(jack.root_diameter, free, ends);
    let life = ask.life_distance_m() / 1e3;
    vec![
        check!(
            "screw_jack.load", effort.parts_n => jack.capacity.si(), "N";
            "greatest push or pull <= capacity", "catalog";
            ("F", effort.parts_n, "N"),
        ),
        check!(
            "screw_jack.travel", travel * 1e3 => jack.travel_most.si() * 1e3, "mm";
            "travel <= longest travel", "catalog";
            ("S", travel * 1e3, "mm"),
        ),
        check!(
            "screw_jack.buckling", effort.push_n => buckles.si(), "N";
            match ends {
                    Ends::Pinned => "Euler π² E I/L² or Johnson on the root, L from pin to pin with the screw out",
                    _ => "Euler π² E I/(0.7 L)² or Johnson on the root, L the whole jack run out; foot bolted, head pinned to the guided load",
                },
            "Shigley's Mechanical Engineering Design, §§ 4-12 and 4-13";
            ("F", effort.push_n, "N"), ("d root", jack.root_diameter.si() * 1e3, "mm"),
            ("L", free.si() * 1e3, "mm"), ("K", ends.factor(), ""),
            ("E", STEEL_MODULUS_PA / 1e9, "GPa"),
        )
        .factor(rules.column_factor_screw)
        .rule("column_factor_screw"),
        check!(
            "screw_jack.life", life => life_m(ask, jack) / 1e3, "km";
            "cycles × 2 × travel over the years asked <= travel life of the nut × k, the part of it that dirt leaves",
            "catalog; k common practice, no source";
            ("S", travel * 1e3, "mm"), ("cycles", ask.life_cycles(), ""),
            ("travel life", jack.travel_life.si() / 1e3, "km"),
            ("k", site::life_left(ask.job, &jack.common, false), ""),
        ),
    ]
}

fn mechanism<'a>(ask: &Ask, jack: &'a ScrewJack, checks: Vec<Check>) -> CrankDrive<'a> {
    let travel = ask.travel_m();
    CrankDrive {
        kind: "screw jack crank",
        row: Hours::JACK_CRANK,
        words: format!("{} kN screw jack", show(jack.capacity.si() / 1e3)),
        parts: vec![PartLine::cut(
            jack,
            travel,
            jack.price_per_metre,
            jack.mass_per_length,
        )],
        gearing: Gearing {
            lead_m: jack.travel_per_turn.si(),
            efficiency: jack.efficiency,
            starting_efficiency: jack.starting_efficiency,
        },
        checks,
        locks: Some((jack.locking_friction, jack.thread_friction)),
        closed_length_m: travel + jack.closed_length.si(),
        travel_life_m: Some(life_m(ask, jack)),
    }
}

/// Distance that its nut lasts in the dirt of the place.
fn life_m(ask: &Ask, jack: &ScrewJack) -> f64 {
    jack.travel_life.si() * site::life_left(ask.job, &jack.common, false)
}
