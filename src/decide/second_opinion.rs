//! Is the first really the first, or did the guesses at worth decide it? Three other ways of weighing, asked about it.
//!
//! 1. *Only the order of the worths, and their total, is kept.* Three usual ways make weights of an order; each drive type
//!    takes its best design time under them.
//! 2. *Nothing but the total is kept.* The share of all ways to divide it among the goals under which the first beats the
//!    runner-up, each in the option by which it is ranked. With `Σ w = W` fixed the lead `Σ w·d − c` is `Σ w·(d − c/W)`, `d` the
//!    lead in value on a goal and `c` how much more the first costs to buy and to run: a plane through the simplex.
//! 3. *The sum is not kept.* The best option of each kind is ranked by its nearness to a point that has the best of everything
//!    (Hwang & Yoon 1981, vector normalisation). The goals go in by their value, 0 at the limit, for a level in dB or a date has
//!    no zero to be measured from; purchase and running over the years go in as money. Dividing a column by its norm would make
//!    one unit of money on it count more than on another. So each column's weight is the norm of what it is worth in money, over
//!    the sum of them: one unit then counts alike on every column, as the customer said, and what differs from the ranking is
//!    only that shortfalls add up as squares: one bad point costs more than several small ones.

use super::robustness::Contest;
use super::weighing::{Surrogate, WeighedColumn, closeness, share_ahead};
use super::worths::Alternative;
use crate::requirements::Requirements;
use crate::study::{
    ByOrder, NearestIdeal, OptionLine, OverAllWorths, SecondOpinion, Study, best_of_kinds,
};

/// What other ways of weighing say; none where there is but one drive type.
pub fn second_opinion(study: &Study, job: &Requirements) -> Option<SecondOpinion> {
    let best: Vec<&OptionLine> = best_of_kinds(&study.options).collect();
    let (first, second) = (best.first()?, best.get(1)?);
    let field = Contest::new(study, job);
    let worths = field.worths();
    // One worth alone has no order, and its total is all that there is to know of it.
    let divided = worths.iter().filter(|worth| **worth > 0.0).count() > 1;
    Some(SecondOpinion {
        by_order: if divided {
            Surrogate::ALL.map(|way| by_order(&field, way)).into()
        } else {
            Vec::new()
        },
        over_all_worths: divided.then(|| OverAllWorths {
            total: worths.iter().sum(),
            rival: second.id.clone(),
            share: share(
                &field.alternative(first),
                &field.alternative(second),
                &worths,
            ),
        }),
        nearest_target: nearest(&field, &best, &worths)?,
    })
}

/// Which kind is first under weights made of the order of the worths.
fn by_order(field: &Contest, way: Surrogate) -> ByOrder {
    let worths = way.worths(&field.worths());
    let options = field.kinds.iter().flat_map(|(_, list)| list);
    let nets = options.map(|(option, this)| (this.net(&worths), *option));
    // Of equals the one that is ranked before.
    let first = nets.reduce(|best, next| if next.0 > best.0 { next } else { best });
    let (option, drive_type) = first.map_or_else(Default::default, |(_, option)| {
        (option.id.clone(), option.drive_type.clone())
    });
    let names = field
        .criteria
        .iter()
        .map(|(criterion, _)| criterion.name().into());
    ByOrder {
        way: way.name().into(),
        worths: names.zip(worths).collect(),
        option,
        drive_type,
    }
}

/// The share of all worths of the same total for which one alternative beats another.
fn share(this: &Alternative, rival: &Alternative, worths: &[f64]) -> f64 {
    let total: f64 = worths.iter().sum();
    let costlier = (this.cost - rival.cost) / total;
    let counted = this.values.iter().zip(&rival.values).zip(worths);
    let leads: Vec<f64> = counted
        .filter(|(_, worth)| **worth > 0.0)
        .map(|((value, other), _)| value - other - costlier)
        .collect();
    share_ahead(&leads)
}

/// The kind whose best option is nearest to the best of everything, and how near the first is.
fn nearest(field: &Contest, best: &[&OptionLine], worths: &[f64]) -> Option<NearestIdeal> {
    let all: Vec<Alternative> = best
        .iter()
        .map(|option| field.alternative(option))
        .collect();
    let money = |of: Vec<f64>, more_is_better: bool| {
        let column = WeighedColumn {
            of,
            weight: 0.0,
            more_is_better,
        };
        WeighedColumn {
            weight: column.norm(),
            ..column
        }
    };
    let gained = worths.iter().enumerate().map(|(index, worth)| {
        let value = |this: &Alternative| this.values.get(index).copied().unwrap_or(0.0);
        money(all.iter().map(|this| worth * value(this)).collect(), true)
    });
    let bought: Vec<f64> = best.iter().map(|option| option.purchase).collect();
    let run = best
        .iter()
        .map(|option| option.running_cost_per_year * field.years);
    let mut columns: Vec<WeighedColumn> = gained.collect();
    columns.extend([money(bought, false), money(run.collect(), false)]);
    let total: f64 = columns.iter().map(|column| column.weight).sum();
    for column in &mut columns {
        column.weight /= total;
    }
    let near = closeness(&columns);
    let pairs = near.iter().zip(best);
    let (most, option) = pairs.reduce(|best, next| if next.0 > best.0 { next } else { best })?;
    Some(NearestIdeal {
        option: option.id.clone(),
        drive_type: option.drive_type.clone(),
        closeness: *most,
        closeness_of_first: *near.first()?,
    })
}
