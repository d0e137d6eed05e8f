//! Assists: what may help the drive, with its parts and what it is checked for.

mod check;
mod tackle;
#[cfg(test)]
#[path = "../../../../tests/unit/family/fitted/assist.rs"]
mod tests;

use core::f64::consts::PI;

pub use check::checks;

use crate::catalog::{Catalog, Counterweight as Block, Sheave};
use crate::demand::{Assist, Axis, Book, Counterweight, TailWeight};
use crate::family::hazard::{PULLS_UP, ROPE_BREAKS, WEIGHT_RUNS, WEIGHT_SWINGS};
use crate::family::{Ask, Drive, Figure, Fitted, Fitting, Hours, PartLine};
use crate::mechanics::rope;
use crate::quantity::{G_M_S2, Si, show};
use crate::requirements::{Brief, Rules, Task};
pub(in crate::family) use tackle::rope_line;
use tackle::{guard, sheave_line, stacks, tackle};

/// Rope beyond the path: half a metre to tie off at either end and half a metre across (common practice, no source).
const ROPE_SPARE_M: f64 = 1.5;
/// Guarded channel beyond the path, for the weight's own height (common practice, no source).
const GUARD_SPARE_M: f64 = 0.5;
/// Steps in which the range of the best mass is narrowed, to 0.618 of it each.
const SEARCH_STEPS: u32 = 16;
/// The hours of either assist.
const COUNTERWEIGHT: Fitting = Fitting {
    hours: Hours::COUNTERWEIGHT,
    makes: "counterweight frame and guarded path",
};
const TAIL_WEIGHT: Fitting = Fitting {
    hours: Hours::TAIL_WEIGHT,
    makes: "tail of the arm with its guard",
};

/// How a counterweight is hung.
#[derive(Debug, Clone, Copy)]
struct Reeving {
    /// Travel of the weight over that of the load.
    travel_ratio: f64,
    /// Rope speed over load speed at each sheave, against the sheave.
    speed_ratios: &'static [f64],
    /// Greatest angle of rope about a sheave, rad.
    wrap: f64,
    /// End of the tag.
    tag: &'static str,
}

/// Straight over two sheaves at the top, a quarter turn on each.
const ONE_TO_ONE: Reeving = Reeving {
    travel_ratio: 1.0,
    speed_ratios: &[1.0, 1.0],
    wrap: PI / 2.0,
    tag: "",
};
/// The load hangs on a third sheave in a bight of the rope: half the weight travels twice as far.
const TWO_TO_ONE: Reeving = Reeving {
    travel_ratio: 2.0,
    speed_ratios: &[2.0, 2.0, 1.0],
    wrap: PI,
    tag: "-2to1",
};

impl Reeving {
    fn sheaves(self) -> u32 {
        u32::try_from(self.speed_ratios.len()).unwrap_or(u32::MAX)
    }
    /// Of a counterweight's travel ratio.
    fn of(weight: &Counterweight) -> Self {
        if weight.travel_ratio > 1.0 {
            TWO_TO_ONE
        } else {
            ONE_TO_ONE
        }
    }
}

/// Every assist that the job may use: none first, then counterweights where the load is lifted.
pub fn fitted<'a>(job: &Brief, catalog: &'a Catalog, book: &Book) -> Vec<Fitted<'a>> {
    let mut list = vec![Fitted::none()];
    if book.axis().lifts() {
        let must_s = job.travel_time_limit_s;
        let fit = |reeving| counterweight(job, catalog, book.axis(), must_s, reeving);
        list.extend(fit(ONE_TO_ONE));
        // Half the weight for a third sheave: fewer blocks, and less on the machine.
        list.extend(fit(TWO_TO_ONE));
    }
    if let Some(radius_m) = book.axis().tail_radius_m() {
        list.extend(tail(job, catalog, book.axis(), radius_m));
    }
    list
}

/// The weight on the tail of a hinged arm with the least worst force; none where it helps nothing.
fn tail<'a>(job: &Brief, catalog: &'a Catalog, axis: &Axis, radius_m: f64) -> Option<Fitted<'a>> {
    let must_s = job.travel_time_limit_s;
    let weigh = |mass_kg: f64| Assist::Tail(TailWeight { mass_kg, radius_m });
    let thrust = |mass_kg: f64| axis.thrust_n(&weigh(mass_kg), must_s);
    let alone = axis.thrust_n(&Assist::None, must_s);
    // What is balanced at every angle by so much would be lifted by twice as much.
    let most = 2.0 * axis.balance_kg_m() / radius_m;
    let target = least_at(most, thrust);
    let fitted = |blocks: Vec<(&'a Block, u32)>| {
        let mass = |(block, count): &(&Block, u32)| block.block.si() * f64::from(*count);
        let mass_kg = blocks.iter().map(mass).sum();
        let parts = blocks.iter();
        let parts = parts.map(|(b, n)| PartLine::pieces("counterweights", &b.common, *n));
        let tag = format!("tail{}", show(mass_kg));
        let assist = weigh(mass_kg);
        let parts = parts.collect();
        (
            thrust(mass_kg),
            Fitted::new(assist, parts, TAIL_WEIGHT, tag),
        )
    };
    let stacks = stacks(job, &catalog.counterweights, target).into_iter();
    let best = stacks.map(fitted).min_by(|p, q| p.0.total_cmp(&q.0));
    best.filter(|(thrust, _)| *thrust < alone)
        .map(|(_, fitted)| fitted)
}

/// The counterweight of least worst force, hung one way; none where it helps nothing.
fn counterweight<'a>(
    job: &Task,
    catalog: &'a Catalog,
    axis: &Axis,
    must_s: f64,
    reeving: Reeving,
) -> Option<Fitted<'a>> {
    let loss = job.rules.sheave_loss_rolling;
    let weigh = |mass_kg: f64, loss_per_sheave: f64, sheave_mass_kg: f64| {
        Assist::Counterweight(Counterweight {
            mass_kg,
            travel_ratio: reeving.travel_ratio,
            sheaves: reeving.sheaves(),
            loss_per_sheave,
            sheave_mass_kg,
        })
    };
    let alone = axis.thrust_n(&Assist::None, must_s);
    let most_kg = 2.0 * alone / (reeving.travel_ratio * G_M_S2);
    let thrust = |mass_kg| axis.thrust_n(&weigh(mass_kg, loss, 0.0), must_s);
    let target = least_at(most_kg, thrust);
    let mut best: Option<(f64, Fitted<'a>)> = None;
    for blocks in stacks(job, &catalog.counterweights, target) {
        let mass_kg = blocks
            .iter()
            .map(|(b, n)| b.block.si() * f64::from(*n))
            .sum();
        let length_m = axis.travel_m * reeving.travel_ratio + ROPE_SPARE_M + span_m(job);
        let (rope, sheave) = tackle(job, catalog, reeving, mass_kg, length_m)?;
        let loss = loss_of(&job.rules, sheave);
        let assist = weigh(mass_kg, loss, sheave_mass_kg(sheave, reeving));
        let thrust = axis.thrust_n(&assist, must_s);
        if thrust < alone && best.as_ref().is_none_or(|(least, _)| thrust < *least) {
            let mut parts: Vec<PartLine> = blocks
                .iter()
                .map(|(block, count)| PartLine::pieces("counterweights", &block.common, *count))
                .collect();
            parts.push(rope_line(rope, length_m));
            parts.push(sheave_line(sheave, reeving));
            let path_m = axis.travel_m * reeving.travel_ratio + GUARD_SPARE_M;
            parts.extend(guard(job, &catalog.guards, mass_kg, path_m));
            let tag = format!("cw{}{}", show(mass_kg), reeving.tag);
            best = Some((thrust, Fitted::new(assist, parts, COUNTERWEIGHT, tag)));
        }
    }
    best.map(|(_, fitted)| fitted)
}

/// Where a function with one minimum has it, between 0 and `most`: golden section, to a thousandth of the range.
///
/// Finer than a stack's step is not needed: stacks on both sides of it are tried.
fn least_at(most: f64, of: impl Fn(f64) -> f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (0.0, most);
    let (mut left, mut right) = (high - golden * most, golden * most);
    let (mut at_left, mut at_right) = (of(left), of(right));
    for _ in 0..SEARCH_STEPS {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - golden * (high - low);
            at_left = of(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + golden * (high - low);
            at_right = of(right);
        }
    }
    f64::midpoint(low, high)
}

/// Distance across from the load to the counterweight, where the base says where they are.
fn span_m(job: &Task) -> f64 {
    job.base.map_or(0.0, |base| {
        (base.assist_reach.si() - base.load_reach.si()).abs()
    })
}

fn loss_of(rules: &Rules, sheave: &Sheave) -> f64 {
    if sheave.rolling {
        rules.sheave_loss_rolling
    } else {
        rules.sheave_loss_plain
    }
}

/// `ΣJs·ks²/Rs²` of all sheaves.
fn sheave_mass_kg(sheave: &Sheave, reeving: Reeving) -> f64 {
    let mass = |ratio: &f64| rope::sheave_mass(sheave.inertia, sheave.diameter, *ratio).si();
    reeving.speed_ratios.iter().map(mass).sum()
}

/// Adds to a drive what its assist asks for beside its own parts: checks, custom parts, cautions.
pub(in crate::family) fn add<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) {
    drive.checks.extend(checks(ask, &drive.demand));
    let number = Figure::Number;
    if let Some(tail) = ask.assist.assist.tail() {
        let figures = [number(tail.mass_kg), number(tail.radius_m)];
        drive.cautions.push(WEIGHT_SWINGS.with(figures));
    }
    let Some(weight) = ask.assist.assist.counterweight() else {
        return;
    };
    let runs_m = ask.travel_m() * weight.travel_ratio;
    let axis = ask.book.axis();
    let alone = axis.weight_n(&Assist::None, axis.loads_kg[1], 0.0);
    let made_for = drive.demand.thrust_n().max(drive.demand.worst.holding_n);
    drive.cautions.extend([
        WEIGHT_RUNS.with([number(weight.mass_kg), number(runs_m)]),
        ROPE_BREAKS.with([number(alone), number(made_for)]),
    ]);
    let least_kg = axis.loads_kg[0];
    let upward = -axis.weight_n(&ask.assist.assist, least_kg, 0.0);
    if upward > 0.0 {
        let bare = ask.assist.assist.pull_n();
        let figures = [number(least_kg), number(upward), number(bare)];
        drive.cautions.push(PULLS_UP.with(figures));
    }
}
