//! Assists: what may help the drive, with its parts and what it is checked for.

use core::f64::consts::PI;

use super::{Ask, Check, Fitted, Made, PartLine, Train, site};
use crate::catalog::{Catalog, Counterweight as Block, Guard, Rope, Sheave};
use crate::demand::{Assist, Axis, Book, Counterweight, Demand};
use crate::mechanics::rope;
use crate::quantity::{Angle, Force, G_M_S2, Length, Si, kilograms, newtons, show};
use crate::requirements::{Criterion, Requirements, Rules, Slide};

/// Rope beyond the path: half a metre to tie off at either end and half a metre across (common practice, no source).
const ROPE_SPARE_M: f64 = 1.5;
/// Guarded channel beyond the path, for the weight's own height (common practice, no source).
const GUARD_SPARE_M: f64 = 0.5;
/// The finest step of a stack of blocks, as part of it.
const STACK_STEP: f64 = 0.05;
/// Halvings of the range in which the best mass is looked for.
const SEARCH_STEPS: u32 = 40;

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
#[must_use]
pub fn fitted<'a>(
    job: &Requirements,
    slide: &Slide,
    catalog: &'a Catalog,
    book: &Book,
) -> Vec<Fitted<'a>> {
    let mut list = vec![Fitted {
        assist: Assist::None,
        parts: Vec::new(),
        tag: String::new(),
    }];
    let must_s = job.wants.get(&Criterion::TravelTime).map(|want| want.must);
    if let Some(must_s) = must_s.filter(|_| book.axis().sin > 0.0) {
        let fit = |reeving| counterweight(job, slide, catalog, book.axis(), must_s, reeving);
        list.extend(fit(ONE_TO_ONE));
        // Half the weight is worth a third sheave only to who minds the mass.
        if job.wants.contains_key(&Criterion::AddedMass) {
            list.extend(fit(TWO_TO_ONE));
        }
    }
    list
}

/// The counterweight of least worst force, hung one way; none where it helps nothing.
fn counterweight<'a>(
    job: &Requirements,
    slide: &Slide,
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
    let ideal = least_at(2.0 * alone / (reeving.travel_ratio * G_M_S2), |mass_kg| {
        axis.thrust_n(&weigh(mass_kg, loss, 0.0), must_s)
    });
    let mut best: Option<(f64, Fitted<'a>)> = None;
    for blocks in stacks(&catalog.counterweights, ideal) {
        let mass_kg = blocks
            .iter()
            .map(|(b, n)| b.block.si() * f64::from(*n))
            .sum();
        let length_m = slide.travel.si() * reeving.travel_ratio + ROPE_SPARE_M + span_m(job);
        let (rope, sheave) = tackle(job, catalog, reeving, mass_kg, length_m)?;
        let loss = loss_of(&job.rules, sheave);
        let assist = weigh(mass_kg, loss, sheave_mass_kg(sheave, reeving));
        let thrust = axis.thrust_n(&assist, must_s);
        if thrust < alone && best.as_ref().is_none_or(|(least, _)| thrust < *least) {
            let mut parts: Vec<PartLine> = blocks
                .iter()
                .map(|(block, count)| PartLine::pieces("counterweights", &block.common, *count))
                .collect();
            let (price, mass) = (rope.price_per_metre, rope.mass_per_length.si());
            parts.push(PartLine::cut("ropes", &rope.common, length_m, price, mass));
            parts.push(PartLine::pieces(
                "sheaves",
                &sheave.common,
                reeving.sheaves(),
            ));
            let path_m = slide.travel.si() * reeving.travel_ratio + GUARD_SPARE_M;
            parts.extend(guard(&catalog.guards, mass_kg, path_m));
            let tag = format!("cw{}{}", show(mass_kg), reeving.tag);
            best = Some((thrust, Fitted { assist, parts, tag }));
        }
    }
    best.map(|(_, fitted)| fitted)
}

/// Where a function with one minimum has it, between 0 and `most`.
fn least_at(most: f64, of: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, most);
    for _ in 0..SEARCH_STEPS {
        let third = (high - low) / 3.0;
        if of(low + third) <= of(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    f64::midpoint(low, high)
}

/// Stacks of blocks on both sides of a mass, in steps of the largest block within a twentieth of it.
fn stacks(blocks: &[Block], mass_kg: f64) -> Vec<Vec<(&Block, u32)>> {
    let mut blocks: Vec<&Block> = blocks.iter().collect();
    blocks.sort_by(|p, q| {
        q.block
            .si()
            .total_cmp(&p.block.si())
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
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number of blocks, capped"
            )]
            let count = whole.min(f64::from(u32::MAX)) as u32;
            left -= whole * block.block.si();
            list.push((*block, count));
        }
    }
    list
}

/// Rope and sheave that cost least together, of those that are strong enough and suit the site;
/// rolling sheaves first, the strongest where nothing is strong enough.
fn tackle<'a>(
    job: &Requirements,
    catalog: &'a Catalog,
    reeving: Reeving,
    mass_kg: f64,
    length_m: f64,
) -> Option<(&'a Rope, &'a Sheave)> {
    // Strong enough for any move in which the rope stays taut, whatever its design time.
    let slack = job.rules.slack_move_most.max(job.rules.slack_stop_most);
    let tension = newtons(mass_kg * G_M_S2 * (1.0 + slack));
    let pin = rope::pin_load(tension, Angle::from_si(reeving.wrap));
    let cost = |rope: &Rope, sheave: &Sheave| {
        rope.common.price
            + rope.price_per_metre * length_m
            + f64::from(reeving.sheaves()) * sheave.common.price
    };
    let fits = |rope: &Rope, sheave: &Sheave| {
        sheave.rope_most >= rope.diameter
            && sheave.diameter.si() >= job.rules.sheave_ratio_least * rope.diameter.si()
            && sheave.load_most >= pin
            && rope.breaking_force.si() >= job.rules.rope_factor_least * tension.si()
    };
    let suits = |rope: &Rope, sheave: &Sheave| {
        site::suits(job, &rope.common) && site::suits(job, &sheave.common)
    };
    let pairs = || {
        catalog
            .ropes
            .iter()
            .flat_map(|rope| catalog.sheaves.iter().map(move |sheave| (rope, sheave)))
    };
    let rank = |(rope, sheave): &(&Rope, &Sheave)| {
        // Worst first: unfit for the site, then a plain bearing, then the price.
        let penalty = u8::from(!suits(rope, sheave)) * 2 + u8::from(!sheave.rolling);
        (penalty, cost(rope, sheave))
    };
    pairs()
        .filter(|(rope, sheave)| fits(rope, sheave))
        .min_by(|p, q| {
            let (p, q) = (rank(p), rank(q));
            p.0.cmp(&q.0).then(p.1.total_cmp(&q.1))
        })
        .or_else(|| {
            let strength = |(rope, sheave): &(&Rope, &Sheave)| {
                rope.breaking_force.si().min(8.0 * sheave.load_most.si())
            };
            pairs().max_by(|p, q| strength(p).total_cmp(&strength(q)))
        })
}

/// Distance across from the load to the counterweight, where the base says where they are.
fn span_m(job: &Requirements) -> f64 {
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

/// The guarded channel that the weight runs in: the cheapest wide enough, else the widest.
fn guard(guards: &[Guard], mass_kg: f64, length_m: f64) -> Option<PartLine<'_>> {
    let line = |guard: &'_ Guard| guard.common.price + guard.price_per_metre * length_m;
    guards
        .iter()
        .filter(|guard| guard.counterweight_most.si() >= mass_kg)
        .min_by(|p, q| line(p).total_cmp(&line(q)))
        .or_else(|| {
            guards.iter().max_by(|p, q| {
                p.counterweight_most
                    .si()
                    .total_cmp(&q.counterweight_most.si())
            })
        })
        .map(|guard| {
            let (price, mass) = (guard.price_per_metre, guard.mass_per_length.si());
            PartLine::cut("guards", &guard.common, length_m, price, mass)
        })
}

/// Whether the assist bears a demand: rope, sheaves, and that the rope stays taut.
#[must_use]
pub fn checks(ask: &Ask<'_>, demand: &Demand) -> Vec<Check> {
    let Some(weight) = ask.assist.assist.counterweight() else {
        return Vec::new();
    };
    let rules = &ask.job.rules;
    let (a, stop) = (
        demand.worst.peak_acceleration_m_s2,
        demand.emergency_stop.deceleration_m_s2,
    );
    let k = weight.travel_ratio;
    let tension = rope::tension(kilograms(weight.mass_kg), k, a.max(stop));
    let mut list = Vec::new();
    if let Some(rope) = of_kind(ask, "ropes", &ask.catalog.ropes, |rope| &rope.common.id) {
        list.push(rope_strength(rules, tension, rope));
        if let Some(sheave) = of_kind(ask, "sheaves", &ask.catalog.sheaves, |s| &s.common.id) {
            list.extend(sheave_checks(
                rules,
                tension,
                Reeving::of(weight),
                rope.diameter,
                sheave,
            ));
        }
    }
    list.push(
        Check::new(
            "counterweight.slack_move",
            rope::slackness(k, a),
            rules.slack_move_most,
            "",
        )
        .from(
            "k·|a|/g in the move",
            "Newton's second law; limit common practice, no source",
        )
        .rule("slack_move_most"),
    );
    list.push(
        Check::new(
            "counterweight.slack_stop",
            rope::slackness(k, stop),
            rules.slack_stop_most,
            "",
        )
        .from(
            "k·a_stop/g in an emergency stop from the peak speed",
            "Newton's second law; limit common practice, no source",
        )
        .rule("slack_stop_most"),
    );
    list
}

fn rope_strength(rules: &Rules, tension: Force, rope: &Rope) -> Check {
    let (pull, breaking) = (tension.si(), rope.breaking_force.si());
    Check::new("rope.strength", pull, breaking, "N")
        .factor(rules.rope_factor_least)
        .from(
            "S = mc (g + k·|a|), the emergency stop included; breaking force ≥ factor · S",
            "Newton's second law; factor common practice, no source (general tackle, never people)",
        )
        .rule("rope_factor_least")
}

fn sheave_checks(
    rules: &Rules,
    tension: Force,
    reeving: Reeving,
    rope_diameter: Length,
    sheave: &Sheave,
) -> [Check; 2] {
    let ratio = sheave.diameter.si() / rope_diameter.si();
    let pin = rope::pin_load(tension, Angle::from_si(reeving.wrap));
    [
        Check::new("sheave.ratio", rules.sheave_ratio_least, ratio, "")
            .from(
                "D/d",
                "ISO 4308-1 gives 16 to 28 by duty (from memory); limit common practice, no source",
            )
            .rule("sheave_ratio_least"),
        Check::new("sheave.pin_load", pin.si(), sheave.load_most.si(), "N").from(
            "2·S·sin(α/2), α the angle of rope about the sheave",
            "equilibrium",
        ),
    ]
}

/// The part of a kind that the assist has, from the catalog.
fn of_kind<'a, P>(
    ask: &Ask<'a>,
    kind: &str,
    parts: &'a [P],
    id: impl Fn(&P) -> &String,
) -> Option<&'a P> {
    let line = ask.assist.parts.iter().find(|line| line.kind == kind)?;
    parts.iter().find(|part| *id(part) == line.common.id)
}

/// Adds to a train what its assist asks for beside its own parts: checks, made parts, cautions.
pub(super) fn add<'a>(ask: &Ask<'a>, train: &mut Train<'a>) {
    train.checks.extend(checks(ask, &train.demand));
    let Some(weight) = ask.assist.assist.counterweight() else {
        return;
    };
    train.made.push(Made {
        what: "frame and tray of the counterweight",
        hours: 0.0,
        material: 0.0,
    });
    let travel_m = ask.slide.travel.si() * weight.travel_ratio;
    train.cautions.push(format!(
        "The counterweight of {} kg runs {} m up and down beside the machine: its path and its rope must be guarded over the whole of it, and a broken rope must not let it fall on anyone.",
        show(weight.mass_kg),
        show(travel_m)
    ));
    let least_kg = ask.slide.load.least.si();
    let upward = ask.assist.assist.pull_n() - least_kg * G_M_S2 * ask.book.axis().sin;
    if upward > 0.0 {
        train.cautions.push(format!(
            "With the least load of {} kg on, the counterweight pulls it up with {} N when it is let go; with nothing on, it pulls with {} N.",
            show(least_kg),
            show(upward),
            show(ask.assist.assist.pull_n())
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::built_in;
    use crate::demand::example::{job, lift};
    use crate::requirements::Want;

    fn catalog() -> &'static Catalog {
        built_in().expect("the built-in catalog is sound")
    }

    fn fit(job: &Requirements, slide: &Slide) -> Vec<Fitted<'static>> {
        fitted(job, slide, catalog(), &Book::new(job, slide))
    }

    #[test]
    fn balances_between_the_loads() {
        // Between 80 and 85 kg, and so slow that only weight counts: 82.5 kg, of stock 82 or 84.
        // Upward with the most load: 85 - 82 = 3 kg and two sheaves of 2 %: (3 + 0.04·82)·g = 61.6 N;
        // with 84 the least load pulls: (84 - 80 + 0.04·84)·g = 72.2 N. So 82 kg: 50 + 20 + 10 + 2.
        let slide = lift();
        let fitted = fit(&job(&slide), &slide);
        assert_eq!(fitted.len(), 2);
        assert_eq!(fitted[0].assist, Assist::None);
        assert_eq!(fitted[1].tag, "cw82");
        let blocks: Vec<_> = fitted[1]
            .parts
            .iter()
            .filter(|line| line.kind == "counterweights")
            .map(|line| (line.common.id.as_str(), line.quantity))
            .collect();
        let ids = [
            "counterweight-50",
            "counterweight-20",
            "counterweight-10",
            "counterweight-2",
        ];
        assert_eq!(blocks, ids.map(|id| (id, 1)));
    }

    #[test]
    fn the_search_finds_the_closed_form() {
        let slide = lift();
        let job = job(&slide);
        let axis = Axis::new(&job, &slide);
        let weigh = |mass_kg: f64| {
            let weight = Counterweight {
                mass_kg,
                travel_ratio: 1.0,
                sheaves: 2,
                loss_per_sheave: 0.0,
                sheave_mass_kg: 0.0,
            };
            axis.thrust_n(&Assist::Counterweight(weight), 1.5)
        };
        let a = 4.5 * 0.9 / (1.5 * 1.5);
        let expected =
            rope::best_counterweight(kilograms(80.0), kilograms(85.0), 1.0, a, newtons(0.0), 1.0);
        let found = least_at(170.0, weigh);
        assert!(
            (found - expected.si()).abs() < 1e-3,
            "{found} and {}",
            expected.si()
        );
    }

    #[test]
    fn half_the_weight_travels_twice_as_far() {
        let slide = lift();
        let mut job = job(&slide);
        let limit = Want {
            must: 100.0,
            reward: None,
        };
        job.wants.insert(Criterion::AddedMass, limit);
        let fitted = fit(&job, &slide);
        assert_eq!(fitted.len(), 3);
        let weight = fitted[2].assist.counterweight().expect("a counterweight");
        assert!((weight.mass_kg - 41.0).abs() <= 1.5, "{}", weight.mass_kg);
        assert!((weight.travel_ratio, weight.sheaves) == (2.0, 3));
        assert!(fitted[2].tag.ends_with("-2to1"));
    }

    #[test]
    fn none_where_nothing_is_lifted() {
        let slide = Slide {
            incline: Angle::from_si(0.0),
            ..lift()
        };
        assert_eq!(fit(&job(&slide), &slide).len(), 1);
        let slide = Slide {
            incline: Angle::from_si(-0.5),
            ..lift()
        };
        assert_eq!(fit(&job(&slide), &slide).len(), 1);
    }

    #[test]
    fn rope_and_sheave_pass_their_checks() {
        let slide = lift();
        let job = job(&slide);
        let book = Book::new(&job, &slide);
        for fitted in &fitted(&job, &slide, catalog(), &book)[1..] {
            let ask = Ask {
                job: &job,
                slide: &slide,
                catalog: catalog(),
                assist: fitted,
                times: &[20.0, 2.0],
                book: &book,
            };
            let list = checks(&ask, &ask.demand(2.0));
            let ids: Vec<_> = list.iter().map(|check| check.id).collect();
            let expected = [
                "rope.strength",
                "sheave.ratio",
                "sheave.pin_load",
                "counterweight.slack_move",
                "counterweight.slack_stop",
            ];
            assert_eq!(ids, expected);
            assert!(list.iter().all(Check::passes), "{list:#?}");
            // Tension by hand: 82·(9.80665 + 5) = 1214 N, the stop being harder than the move at 1.01 m/s².
            assert!((list[0].demand - 1214.1).abs() < 0.1);
            // A quarter turn of rope about each sheave.
            assert!((list[2].demand - 1717.0).abs() < 0.5);
        }
    }
}
