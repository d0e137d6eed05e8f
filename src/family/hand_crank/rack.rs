//! Rack and pinion, with none, one or two pairs of spur gears between crank and pinion.

use super::effort::{Effort, Gearing};
use super::{Drive, Hours};
use crate::catalog::{Rack, SpurGear};
use crate::family::efficient::{asked, efficient_of_same, habits};
use crate::family::{Ask, Bench, Check, PartLine};
use crate::mechanics::gear;
use crate::quantity::{Lead, Si, metres, newtons, show};
use crate::requirements::Criterion;

/// Every gearing on the racks that bear the load.
pub(super) fn drives<'a>(ask: &Ask<'a>, effort: &Effort, bench: &mut Bench<'a>) -> Vec<Drive<'a>> {
    if ask.pins_m().is_some() {
        let says = "asked: a drive between two pins; gives: a rack along a straight guide";
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
    // Racks that travel alike a turn make the same trains but for what they cost and weigh.
    let alike = |(_, rack, _): &(PartLine, &Rack, Vec<Check>)| {
        let turn = [rack.module.si(), rack.pinion_teeth, rack.efficiency];
        (turn.map(f64::to_bits), habits(&rack.common))
    };
    let racks = efficient_of_same(racks, alike, |(line, ..)| {
        let mass_kg = asked(ask, Criterion::AddedMass, line.mass_kg);
        ([line.cost(), mass_kg], [])
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
    let length = gear::rack_length(metres(ask.travel_m()), rack.module, rack.pinion_teeth);
    vec![
        Check::new("rack.tooth", effort.parts_n, strength.si(), "N")
            .factor(ask.job.rules.tooth_factor)
            .from(
                "F <= Sy b m Y/k, Y of the pinion",
                "Shigley's Mechanical Engineering Design, eq. 14-3 (Lewis)",
            )
            .given(
                &[
                    ("F", "N"),
                    ("Sy", "MPa"),
                    ("b", "mm"),
                    ("m", "mm"),
                    ("teeth", ""),
                ],
                &[
                    effort.parts_n,
                    rack.strength.si() / 1e6,
                    rack.face_width.si() * 1e3,
                    rack.module.si() * 1e3,
                    rack.pinion_teeth,
                ],
            )
            .rule("tooth_factor"),
        Check::new("rack.length", length.si(), rack.length_most.si(), "m")
            .from("travel + one pinion <= longest rack", "catalog")
            .given(
                &[("S", "m"), ("m", "mm"), ("teeth", "")],
                &[ask.travel_m(), rack.module.si() * 1e3, rack.pinion_teeth],
            ),
    ]
}

fn rack_line<'a>(ask: &Ask, rack: &'a Rack) -> PartLine<'a> {
    PartLine::cut(
        "racks",
        &rack.common,
        gear::rack_length(metres(ask.travel_m()), rack.module, rack.pinion_teeth).si(),
        rack.price_per_metre,
        rack.mass_per_length.si(),
    )
}

/// A rack by itself, with one pair of gears, and with two.
fn geared<'a>(ask: &Ask<'a>, effort: &Effort, rack: &'a Rack, checks: &[Check]) -> Vec<Drive<'a>> {
    let lead = gear::travel_per_turn(rack.module, rack.pinion_teeth);
    let torque = gear::torque_of(newtons(effort.parts_n), lead).si() / rack.efficiency;
    let plain = Drive {
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
        closed_length_m: gear::rack_length(metres(ask.travel_m()), rack.module, rack.pinion_teeth)
            .si(),
        travel_life_m: None,
    };
    let mut drives = Vec::new();
    for first in pairs(ask, torque) {
        let once = plain.with_gear(first, torque, "spur_gear.torque");
        let after = torque / (first.ratio * first.efficiency);
        let words = |total: f64| format!("{}, {}:1", plain.words, show(total));
        for second in pairs(ask, after) {
            // The slow pair is the heavier: two pairs in the other order are the same gearing, dearer.
            if second.ratio >= first.ratio {
                let mut twice = once.with_gear(second, after, "spur_gear_fast.torque");
                twice.words = words(first.ratio * second.ratio);
                drives.push(twice);
            }
        }
        drives.push(Drive {
            words: words(first.ratio),
            ..once
        });
    }
    drives.push(plain);
    drives
}

/// Of each ratio the cheapest pair that bears a torque on its slow shaft.
fn pairs<'a>(ask: &Ask<'a>, torque_n_m: f64) -> Vec<&'a SpurGear> {
    let mut pairs: Vec<&SpurGear> = Vec::new();
    let strong = |gear: &&SpurGear| gear.torque.si() >= torque_n_m;
    for gear in ask.catalog.spur_gears.iter().filter(strong) {
        let same = |other: &&mut &SpurGear| (other.ratio - gear.ratio).abs() < 1e-9;
        match pairs.iter_mut().find(same) {
            Some(kept) if kept.common.price > gear.common.price => *kept = gear,
            Some(_) => {}
            None => pairs.push(gear),
        }
    }
    pairs
}

impl<'a> Drive<'a> {
    /// The same with a pair of spur gears before it, which bears a torque on its slow shaft.
    fn with_gear(&self, pair: &'a SpurGear, torque_n_m: f64, id: &'static str) -> Self {
        let mut drive = self.clone();
        drive
            .parts
            .push(PartLine::pieces("spur_gears", &pair.common, 1));
        drive.gearing.lead_m = Lead::from_si(self.gearing.lead_m / pair.ratio).si();
        drive.gearing.efficiency *= pair.efficiency;
        drive.gearing.starting_efficiency *= pair.efficiency;
        drive.checks.push(
            Check::new(id, torque_n_m, pair.torque.si(), "N m")
                .from(
                    "T = F l/(2π η) on the slow shaft of the pair <= rating",
                    "work over one turn",
                )
                .given(&[("i", ""), ("η", "")], &[pair.ratio, pair.efficiency]),
        );
        drive
    }
}
