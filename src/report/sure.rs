//! How sure the first place is, in a few sentences.

use super::page::Screen;
use crate::quantity::exact;
use crate::requirements::Requirements;
use crate::study::{OtherWorth, Robustness, Study, best_of_kinds, check_name, is_tie, money};

/// Kinds that are named where more could be first.
const NAMED: usize = 3;

/// The paragraph; nothing where there is but one kind of train.
pub fn how_sure(out: &mut Screen, study: &Study, job: &Requirements) {
    let Some((_, others)) = study.robustness.split_first() else {
        return;
    };
    out.heading("If your worths are off");
    let able: Vec<&Robustness> = others.iter().filter(|kind| kind.can_be_best).collect();
    if able.is_empty() {
        out.paragraph(
            "",
            &format!(
                "No other kind of drive can be first while {}{}.",
                within(job),
                if tied(study, job) {
                    ", and the parts cost what the catalog says: the first two are as good as a tie"
                } else {
                    ""
                }
            ),
        );
    }
    if !able.is_empty() {
        out.paragraph("", &uncertain(&able, job));
    }
    out.paragraph("", &challenger(others, job));
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
        let (train, margin) = (&kind.train, money(kind.margin));
        format!("{train} by up to {margin} {}", job.currency)
    };
    let mut list: Vec<String> = able.iter().take(NAMED).map(name).collect();
    match able.len().saturating_sub(NAMED) {
        0 => {}
        1 => list.push("1 other kind".into()),
        more => list.push(format!("{more} other kinds")),
    }
    format!(
        "Not certain: another kind could be first while {}: {}.",
        within(job),
        list.join("; ")
    )
}

/// How far the worths are let go; a worth of nothing has no range.
fn within(job: &Requirements) -> String {
    let rewards = job.wants.iter().filter_map(|(criterion, want)| {
        let reward = want.reward?;
        let name = check_name(criterion.name());
        Some(if reward.worth > 0.0 {
            format!("{name} within {:.0} %", reward.unsure * 100.0)
        } else {
            format!("{name} left at nothing")
        })
    });
    let list: Vec<String> = rewards.collect();
    if list.is_empty() {
        "nothing but money counts".into()
    } else {
        format!("every worth is right ({})", list.join(", "))
    }
}

/// The kind that needs the least change of a worth to be first, and which; or that there is none.
fn challenger(others: &[Robustness], job: &Requirements) -> String {
    let single = others
        .iter()
        .flat_map(|kind| kind.overtakes_when.iter().map(move |worth| (kind, worth)))
        .min_by(|(_, p), (_, q)| part(p).total_cmp(&part(q)));
    if let Some((kind, worth)) = single {
        return format!(
            "{} would be first if {}, the other worths staying.",
            kind.train,
            instead(worth, job)
        );
    }
    let several = others
        .iter()
        .filter(|kind| !kind.least_change.is_empty())
        .min_by(|p, q| total(p).total_cmp(&total(q)));
    match several {
        Some(kind) => {
            let list: Vec<String> = kind
                .least_change
                .iter()
                .map(|worth| instead(worth, job))
                .collect();
            format!(
                "No single worth would put another kind first; the least change of several that would: {} if {}.",
                kind.train,
                list.join(" and ")
            )
        }
        None => "No worths whatever would put another kind first.".into(),
    }
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
        check_name(worth.criterion),
        exact(worth.worth_then),
        job.currency,
        exact(worth.worth_now)
    )
}
