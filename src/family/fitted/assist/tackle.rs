//! What a counterweight is made of: blocks, rope, sheaves and the channel it runs in.

use super::Reeving;
use crate::catalog::{Catalog, Counterweight as Block, Guard, Rope, Sheave};
use crate::family::choose::{Bought, LifeCost};
use crate::family::{PartLine, count, site};
use crate::mechanics::rope;
use crate::quantity::{Angle, G_M_S2, Si, newtons};
use crate::requirements::Task;

/// The finest step of a stack of blocks, as part of it.
const STACK_STEP: f64 = 0.05;

/// Stacks of blocks on both sides of a mass, in steps of the largest block within a twentieth of it.
pub(super) fn stacks<'a>(
    job: &Task,
    blocks: &'a [Block],
    mass_kg: f64,
) -> Vec<Vec<(&'a Block, u32)>> {
    let rates = LifeCost::new(job);
    let mut blocks: Vec<&Block> = blocks.iter().collect();
    // Of blocks of one mass the cheapest is stacked.
    let cost = |block: &Block| rates.part(&block.common);
    blocks.sort_by(|p, q| {
        q.block
            .si()
            .total_cmp(&p.block.si())
            .then_with(|| cost(p).total_cmp(&cost(q)))
            .then_with(|| p.common.id.cmp(&q.common.id))
    });
    let Some(step) = blocks
        .iter()
        .map(|block| block.block.si())
        .find(|block| *block <= STACK_STEP * mass_kg)
        .or_else(|| blocks.last().map(|block| block.block.si()))
    else {
        return Vec::new();
    };
    let below = (mass_kg / step).floor() * step;
    [below, below + step]
        .into_iter()
        .filter(|mass| *mass > 0.0)
        .map(|mass| stack(&blocks, mass))
        .collect()
}

/// A stack of a mass, the largest blocks first.
fn stack<'a>(blocks: &[&'a Block], mass_kg: f64) -> Vec<(&'a Block, u32)> {
    let mut left = mass_kg;
    let mut list = Vec::new();
    for block in blocks {
        let whole = (left / block.block.si() + 1e-9).floor();
        if whole >= 1.0 {
            left -= whole * block.block.si();
            list.push((*block, count(whole)));
        }
    }
    list
}

/// A rope, so long: of a counterweight, or of whatever else hangs on one.
pub(in crate::family) fn rope_line(rope: &Rope, length_m: f64) -> PartLine<'_> {
    PartLine::cut(rope, length_m, rope.price_per_metre, rope.mass_per_length)
}

/// The sheaves of a reeving.
pub(super) fn sheave_line(sheave: &Sheave, reeving: Reeving) -> PartLine<'_> {
    PartLine::part(sheave, reeving.sheaves())
}

/// Rope and sheave that cost least together over the horizon, of those that are strong enough and suit the site;
/// rolling sheaves first, the strongest where nothing is strong enough.
pub(super) fn tackle<'a>(
    job: &Task,
    catalog: &'a Catalog,
    reeving: Reeving,
    mass_kg: f64,
    length_m: f64,
) -> Option<(&'a Rope, &'a Sheave)> {
    // Strong enough for any move in which the rope stays taut, whatever its design time.
    let slack = job.rules.slack_move_most.max(job.rules.slack_stop_most);
    let tension = newtons(mass_kg * G_M_S2 * (1.0 + slack));
    let pin = rope::pin_load(tension, Angle::from_si(reeving.wrap));
    let rates = LifeCost::new(job);
    let rope_cost = |rope: &Rope| rates.total(&Bought::line(&rope_line(rope, length_m)));
    let sheaves_cost = |sheave: &Sheave| rates.total(&Bought::line(&sheave_line(sheave, reeving)));
    let fits = |rope: &Rope, sheave: &Sheave| {
        sheave.rope_most >= rope.diameter
            && sheave.diameter.si() >= job.rules.sheave_ratio_least * rope.diameter.si()
    };
    let strong =
        |rope: &&Rope| rope.breaking_force.si() >= job.rules.rope_factor_least * tension.si();
    let ropes = catalog.ropes.iter().filter(strong);
    let suiting = |rope: &'a Rope| (rope, site::suits(job, &rope.common));
    let ropes: Vec<(&Rope, bool)> = ropes.map(suiting).collect();
    let costs = ropes.iter().map(|(rope, _)| rope_cost(rope));
    let cheapest_rope = costs.fold(f64::INFINITY, f64::min);
    let (mut least, mut best) = ((u8::MAX, f64::INFINITY), None);
    let sheaves = catalog.sheaves.iter();
    for sheave in sheaves.filter(|sheave| sheave.load_most >= pin) {
        let suits = site::suits(job, &sheave.common);
        let penalty = u8::from(!suits) * 2 + u8::from(!sheave.rolling);
        // With the cheapest rope, and one that suits, it would be no better.
        let sheaves = sheaves_cost(sheave);
        if (penalty, cheapest_rope + sheaves) >= least {
            continue;
        }
        for (rope, rope_suits) in ropes.iter().filter(|(rope, _)| fits(rope, sheave)) {
            // Worst first: unfit for the site, then a plain bearing, then the price.
            let penalty = u8::from(!(*rope_suits && suits)) * 2 + u8::from(!sheave.rolling);
            let rank = (penalty, rope_cost(rope) + sheaves);
            if rank < least {
                (least, best) = (rank, Some((*rope, sheave)));
            }
        }
    }
    best.or_else(|| {
        let strength = |(rope, sheave): &(&Rope, &Sheave)| {
            let factor = job.rules.rope_factor_least;
            (rope.breaking_force.si() / factor).min(sheave.load_most.si())
        };
        let with = |rope| catalog.sheaves.iter().map(move |sheave| (rope, sheave));
        let pairs = catalog.ropes.iter().flat_map(with);
        pairs
            .filter(|(rope, sheave)| sheave.rope_most >= rope.diameter)
            .max_by(|p, q| strength(p).total_cmp(&strength(q)))
    })
}

/// The guarded channel that the weight runs in: the cheapest over the horizon that is wide enough, else the widest.
pub(super) fn guard<'a>(
    job: &Task,
    guards: &'a [Guard],
    mass_kg: f64,
    length_m: f64,
) -> Option<PartLine<'a>> {
    let rates = LifeCost::new(job);
    let line = |guard: &'a Guard| {
        PartLine::cut(
            guard,
            length_m,
            guard.price_per_metre,
            guard.mass_per_length,
        )
    };
    let cost = |guard: &'a Guard| rates.total(&Bought::line(&line(guard)));
    let wide = guards
        .iter()
        .filter(|guard| guard.counterweight_most.si() >= mass_kg);
    let widest = || {
        let carries = |guard: &Guard| guard.counterweight_most.si();
        guards
            .iter()
            .max_by(|p, q| carries(p).total_cmp(&carries(q)))
    };
    let guard = wide
        .min_by(|p, q| cost(p).total_cmp(&cost(q)))
        .or_else(widest)?;
    // A weight too heavy for the largest channel is hung as several, side by side.
    let channels = libm::ceil(mass_kg / guard.counterweight_most.si() - 1e-9).max(1.0);
    Some(PartLine {
        quantity: count(channels),
        ..line(guard)
    })
}
