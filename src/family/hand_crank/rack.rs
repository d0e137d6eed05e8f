//! Rack and pinion, with none, one or two pairs of spur gears between crank and pinion.

use super::effort::{Effort, Gearing};
use super::{CrankDrive, Hours};
use crate::catalog::{Rack, SpurGear};
use crate::family::choose::{Carries, Merits, front};
use crate::family::{Ask, Bench, Check, PartLine, check, site};
use crate::mechanics::{gear, screw};
use crate::quantity::{Lead, Length, Si, metres, newtons, show};

/// Ratios nearer than this to each other are one.
const SAME_RATIO: f64 = 1e-9;

/// Every gearing on the racks that bear the load.
pub(super) fn mechanisms<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    bench: &mut Bench<'a>,
) -> Vec<CrankDrive<'a>> {
    if ask.pins_m().is_some() {
        let says = "the drive must stand between two pins, and a rack runs along a straight guide";
        bench.fails(vec![Check::of("rack.mounting", false, says)]);
        return Vec::new();
    }
    let mut racks: Vec<(PartLine, &Rack, Vec<Check>)> = Vec::new();
    for rack in &ask.catalog.racks {
        let checks = rack_checks(ask, effort, rack);
        if checks.iter().all(Check::passes) {
            racks.push((rack_line(ask, rack), rack, checks));
        } else {
            bench.fails(checks);
        }
    }
    // Racks that travel alike a turn make the same drives but for what they cost and weigh.
    let (rates, goals) = (ask.life_cost(), ask.goals());
    let racks = front(racks, |(line, rack, _)| {
        let turn = [rack.module.si(), rack.pinion_teeth, rack.efficiency];
        let alike = (turn.map(f64::to_bits), site::unsuited(ask.job, [line]));
        (alike, goals.of_drive(Merits::line(&rates, line)))
    });
    racks
        .into_iter()
        .flat_map(|(_, rack, checks)| geared(ask, effort, rack, &checks))
        .collect()
}

fn rack_checks(ask: &Ask, effort: &Effort, rack: &Rack) -> Vec<Check> {
    let strength = gear::lewis_force(
        rack.strength,
        rack.face_width,
        rack.module,
        rack.pinion_teeth,
    );
    let length = rack_length(ask, rack);
    vec![
        check!(
            "rack.tooth", effort.parts_n => strength.si(), "N";
            "F <= Sy b m Y/k, Y of the pinion", "Shigley's Mechanical Engineering Design, eq. 14-3 (Lewis)";
            ("F", effort.parts_n, "N"), ("Sy", rack.strength.si() / 1e6, "MPa"),
            ("b", rack.face_width.si() * 1e3, "mm"), ("m", rack.module.si() * 1e3, "mm"),
            ("teeth", rack.pinion_teeth, ""),
        )
        .factor(ask.job.rules.tooth_factor)
        .rule("tooth_factor"),
        check!(
            "rack.length", length.si() => rack.length_most.si(), "m";
            "travel + one pinion <= longest rack", "catalog";
            ("S", ask.travel_m(), "m"), ("m", rack.module.si() * 1e3, "mm"),
            ("teeth", rack.pinion_teeth, ""),
        ),
    ]
}

fn rack_line<'a>(ask: &Ask, rack: &'a Rack) -> PartLine<'a> {
    let length_m = rack_length(ask, rack).si();
    PartLine::cut(rack, length_m, rack.price_per_metre, rack.mass_per_length)
}

fn rack_length(ask: &Ask, rack: &Rack) -> Length {
    gear::rack_length(metres(ask.travel_m()), rack.module, rack.pinion_teeth)
}

/// A rack by itself, with one pair of gears, and with two.
fn geared<'a>(
    ask: &Ask<'a>,
    effort: &Effort,
    rack: &'a Rack,
    checks: &[Check],
) -> Vec<CrankDrive<'a>> {
    let lead = gear::travel_per_turn(rack.module, rack.pinion_teeth);
    let torque = screw::drive_torque(newtons(effort.parts_n), lead, rack.efficiency).si();
    let plain = CrankDrive {
        kind: "rack and pinion crank",
        row: Hours::RACK_CRANK,
        words: format!("rack m{}", show(rack.module.si() * 1e3)),
        parts: vec![rack_line(ask, rack)],
        gearing: Gearing {
            lead_m: lead.si(),
            efficiency: rack.efficiency,
            starting_efficiency: rack.efficiency,
        },
        checks: checks.to_vec(),
        locks: None,
        closed_length_m: rack_length(ask, rack).si(),
        travel_life_m: None,
    };
    let mut mechanisms = Vec::new();
    for first in pairs(ask, torque) {
        let once = plain.with_gear(first, torque, "spur_gear.torque");
        let after = torque / (first.ratio * first.efficiency);
        let words = |total: f64| format!("{}, {}:1", plain.words, show(total));
        for second in pairs(ask, after) {
            // The slow pair is the heavier: two pairs in the other order are the same gearing, more expensive.
            if second.ratio >= first.ratio {
                let mut twice = once.with_gear(second, after, "spur_gear_fast.torque");
                twice.words = words(first.ratio * second.ratio);
                mechanisms.push(twice);
            }
        }
        mechanisms.push(CrankDrive {
            words: words(first.ratio),
            ..once
        });
    }
    mechanisms.push(plain);
    mechanisms
}

/// Of each ratio the pairs worth having that bear a torque on their slow shaft.
fn pairs<'a>(ask: &Ask<'a>, torque_n_m: f64) -> Vec<&'a SpurGear> {
    let (rates, goals) = (ask.life_cost(), ask.goals());
    let strong = |gear: &&SpurGear| gear.torque.si() >= torque_n_m;
    front(ask.catalog.spur_gears.iter().filter(strong), |gear| {
        let figures = goals.of_part(Merits::part(&rates, &gear.common));
        let ratio = (gear.ratio / SAME_RATIO).round().to_bits();
        let suits = site::suits(ask.job, &gear.common);
        ((ratio, suits), Carries(gear.efficiency, figures))
    })
}

impl<'a> CrankDrive<'a> {
    /// The same with a pair of spur gears before it, which bears a torque on its slow shaft.
    fn with_gear(&self, pair: &'a SpurGear, torque_n_m: f64, id: &'static str) -> Self {
        let mut mechanism = self.clone();
        mechanism.parts.push(PartLine::part(pair, 1));
        mechanism.gearing.lead_m = Lead::from_si(self.gearing.lead_m / pair.ratio).si();
        mechanism.gearing.efficiency *= pair.efficiency;
        mechanism.gearing.starting_efficiency *= pair.efficiency;
        mechanism.checks.push(check!(
            id, torque_n_m => pair.torque.si(), "N m";
            "T = F l/(2π η) on the slow shaft of the pair <= rating", "work over one turn";
            ("i", pair.ratio, ""), ("η", pair.efficiency, ""),
        ));
        mechanism
    }
}
