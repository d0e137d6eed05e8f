//! How sure the first place is, in a few sentences.

use super::page::Screen;
use crate::requirements::Requirements;
use crate::study::{OtherWorth, Robustness, Study, check_name, money};

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
            &format!("No other kind of drive can be first while {}.", within(job)),
        );
    }
    for kind in able {
        let text = format!(
            "Not certain: {} would be first, by up to {} {}, for some worths while {}.",
            kind.train,
            money(kind.margin),
            job.currency,
            within(job)
        );
        out.paragraph("", &text);
    }
    out.paragraph("", &challenger(others, job));
}

/// How far the worths are let go.
fn within(job: &Requirements) -> String {
    let rewards = job.wants.iter().filter_map(|(criterion, want)| {
        let reward = want.reward?;
        let name = check_name(criterion.name());
        Some(format!("{name} within {:.0} %", reward.unsure * 100.0))
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

fn instead(worth: &OtherWorth, job: &Requirements) -> String {
    format!(
        "{} were worth {} {} instead of {}",
        check_name(worth.criterion),
        money(worth.worth_then),
        job.currency,
        money(worth.worth_now)
    )
}
