//! How sure the first place is, in a few sentences.

use super::page::{Screen, grouped};
use crate::quantity::exact;
use crate::requirements::{Criterion, Requirements, Reward};
use crate::study::{
    OtherWorth, Robustness, SecondOpinion, Study, best_of_kinds, check_name, is_tie, money,
};

/// Kinds that are named where more could be first.
const NAMED: usize = 3;
/// Nearness apart by less is hardly apart.
const A_HAIR_NEARER: f64 = 0.01;
/// A worth so many times what it is, is no advice.
const TIMES_MOST: f64 = 10.0;

/// The paragraph; nothing where there is but one drive type.
pub fn how_sure(out: &mut Screen, study: &Study, job: &Requirements) {
    let Some((_, others)) = study.robustness.split_first() else {
        return;
    };
    out.heading("How sure this is");
    let able: Vec<&Robustness> = others.iter().filter(|kind| kind.can_be_best).collect();
    let certain = others.iter().all(|kind| kind.least_change.is_empty());
    if able.is_empty() && !certain {
        let mut says = format!("No other drive type can win while {}.", within(job));
        if tied(study, job) {
            says = format!(
                "The first two are a tie: a small error in the prices swaps them. With the prices as they are, {}",
                says.replacen("No other", "no other", 1)
            );
        }
        out.line(&says);
    }
    if !able.is_empty() {
        out.line(uncertain(&able, job));
    }
    out.line(challenger(others, job));
    if let Some(opinion) = &study.second_opinion {
        let says = otherwise(opinion, study, job);
        if !says.is_empty() {
            out.line(&says);
        }
    }
}

/// The same in one line; nothing where there is but one drive type.
pub fn in_short(study: &Study, job: &Requirements) -> Option<String> {
    let (_, others) = study.robustness.split_first()?;
    let able: Vec<&Robustness> = others.iter().filter(|kind| kind.can_be_best).collect();
    Some(match able.as_slice() {
        [] if others.iter().all(|kind| kind.least_change.is_empty()) => {
            "No set of worths lets another drive type win.".into()
        }
        [] => format!("No other drive type can win while {}.", within(job)),
        [only] => format!(
            "Not certain: {} could win even while {}.",
            only.drive_type,
            within(job)
        ),
        several => format!(
            "Not certain: {} other drive types could win even while {}.",
            several.len(),
            within(job)
        ),
    })
}

/// Whether the first two kinds are as good as a tie.
fn tied(study: &Study, job: &Requirements) -> bool {
    let mut best = best_of_kinds(&study.options);
    let pair = best.next().zip(best.next());
    pair.is_some_and(|(first, second)| is_tie(job, first, second))
}

/// Who else could be first within the uncertainty, and by how much.
fn uncertain(able: &[&Robustness], job: &Requirements) -> String {
    let name = |kind: &&Robustness| {
        let (drive, margin) = (&kind.drive_type, money(kind.margin));
        format!("{drive}, by up to {margin} {}", job.currency)
    };
    let mut list: Vec<String> = able.iter().take(NAMED).map(name).collect();
    match able.len().saturating_sub(NAMED) {
        0 => {}
        1 => list.push("1 other type".into()),
        more => list.push(format!("{more} other types")),
    }
    format!(
        "Not certain: even while {}, another drive type could win: {}.",
        within(job),
        list.join("; ")
    )
}

/// How far the worths are let go, those that are let go as far together; a worth of nothing has no range.
fn within(job: &Requirements) -> String {
    let goals = job.goals.iter();
    let rewarded = goals.filter_map(|(criterion, goal)| Some((criterion, goal.reward?)));
    let far = grouped(rewarded, |(_, reward)| {
        if reward.worth > 0.0 {
            format!("to within {:.0} %", reward.unsure * 100.0)
        } else {
            "as nothing".to_owned()
        }
    });
    if far.is_empty() {
        return "nothing but money counts".into();
    }
    let told = |(how, goals): &(String, Vec<(&Criterion, Reward)>)| {
        let names = goals.iter().map(|(goal, _)| check_name(goal.name()));
        format!("{} {how}", names.collect::<Vec<_>>().join(", "))
    };
    let list: Vec<String> = far.iter().map(told).collect();
    format!("your worths are right ({})", list.join("; "))
}

/// The kind that needs the least change of a worth to be first, and which; or that there is none.
fn challenger(others: &[Robustness], job: &Requirements) -> String {
    let singles = others
        .iter()
        .flat_map(|kind| kind.overtakes_when.iter().map(move |worth| (kind, worth)))
        .filter(|(_, worth)| is_said(worth));
    let single = singles.min_by(|(_, p), (_, q)| part(p).total_cmp(&part(q)));
    if let Some((kind, worth)) = single {
        return format!(
            "{} would win if {}, all else unchanged.",
            kind.drive_type,
            instead(worth, job)
        );
    }
    let several = others
        .iter()
        .filter(|kind| !kind.least_change.is_empty() && kind.least_change.iter().all(is_said))
        .min_by(|p, q| total(p).total_cmp(&total(q)));
    match several {
        Some(kind) => {
            let worths = kind.least_change.iter();
            let list: Vec<String> = worths.map(|worth| instead(worth, job)).collect();
            format!(
                "No change of one worth, up to ten times what it is, lets another drive type win. The least change of several that does: {} if {}.",
                kind.drive_type,
                list.join(" and ")
            )
        }
        None if others.iter().all(|kind| kind.least_change.is_empty()) => {
            "No set of worths lets another drive type win.".into()
        }
        None => "No worth up to ten times what it is lets another drive type win.".into(),
    }
}

/// Whether a worth is one that anybody might have meant.
fn is_said(worth: &OtherWorth) -> bool {
    worth.worth_then <= TIMES_MOST * worth.worth_now
}

fn part(worth: &OtherWorth) -> f64 {
    (worth.worth_then - worth.worth_now).abs() / worth.worth_now.max(1e-9)
}

fn total(kind: &Robustness) -> f64 {
    kind.least_change.iter().map(part).sum()
}

/// Worths as the study has them: rounding them to whole money could put them on the wrong side.
fn instead(worth: &OtherWorth, job: &Requirements) -> String {
    format!(
        "{} were worth {} {} instead of {}",
        check_name(&worth.criterion),
        exact(worth.worth_then),
        job.currency,
        exact(worth.worth_now)
    )
}

/// What other ways of weighing say, in up to three sentences.
fn otherwise(opinion: &SecondOpinion, study: &Study, job: &Requirements) -> String {
    let Some(first) = study.options.first() else {
        return String::new();
    };
    // Where no worths whatever put another kind first, neither does any order of them.
    let mut others = study.robustness.iter().skip(1);
    let certain = others.all(|kind| kind.least_change.is_empty());
    let mut says = Vec::new();
    if !certain {
        says.extend(without_sizes(opinion, &first.drive_type, &job.currency));
    }
    let near = &opinion.nearest_target;
    if near.drive_type != first.drive_type {
        says.push(format!(
            "Ranked by closeness to the best of everything, where one bad point weighs more than several small ones, the first is {}{}.",
            near.drive_type,
            if near.closeness - near.closeness_of_first < A_HAIR_NEARER { ", narrowly" } else { "" }
        ));
    }
    says.join(" ")
}

/// Who is first by the order of the worths alone, and how much of all that they could be speaks for the first.
fn without_sizes(opinion: &SecondOpinion, first: &str, currency: &str) -> Vec<String> {
    let Some(over) = &opinion.over_all_worths else {
        return Vec::new();
    };
    let total = money(over.total);
    if over.share >= 1.0 && opinion.by_order.iter().all(|way| way.drive_type == first) {
        return vec![format!(
            "If only the order of your worths is right, it stays first under all three common ways to turn an order into weights. It beats the second however {total} {currency} is divided among the goals."
        )];
    }
    let mut says: Vec<String> = by_order(opinion, first).into_iter().collect();
    says.push(format!(
        "Of all ways to divide {total} {currency} among the goals, {} favour the first over the second.",
        share_words(over.share),
    ));
    says
}

/// Who is first by the order of the worths alone.
fn by_order(opinion: &SecondOpinion, first: &str) -> Option<String> {
    let ways = &opinion.by_order;
    let lead = "Knowing only the order of your worths, not their sizes,";
    let mut drives: Vec<&str> = ways.iter().map(|way| way.drive_type.as_str()).collect();
    drives.dedup();
    let same = ways.iter().filter(|way| way.drive_type == first).count();
    Some(match drives.as_slice() {
        [] => return None,
        [only] if *only == first => format!(
            "{lead} it stays first under all three common ways to turn the order into weights."
        ),
        [only] => format!(
            "{lead} the first is {only}, under all three common ways to turn the order into weights."
        ),
        _ => {
            let mut others: Vec<&str> =
                drives.into_iter().filter(|drive| *drive != first).collect();
            others.sort_unstable();
            others.dedup();
            format!(
                "{lead} it stays first under {same} of three common ways to turn the order into weights. Under the others the first is {}.",
                others.join(" or ")
            )
        }
    })
}

/// A share in words; a few per mille are not none.
fn share_words(share: f64) -> String {
    match share {
        share if share >= 1.0 => "all".into(),
        share if share <= 0.0 => "none".into(),
        share if share > 0.995 => "more than 99 %".into(),
        share if share < 0.005 => "less than 1 %".into(),
        share => format!("{:.0} %", share * 100.0),
    }
}
