//! What an answer drives: the study with it and without, made by the study's own code.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use super::draft::Draft;
use super::question::{Changes, Question};
use crate::catalog::Catalog;
use crate::problem::Problems;
use crate::requirements::{CRITERIA, Measure};
use crate::study::{OptionLine, Study, amount, check_name, family_words, money, study};

/// A price that differs by less than this part is the same.
const MORE_EXPENSIVE: f64 = 0.1;
/// Part of the kinds of drive whose loss is worth a word, where the one that would be first is not among them.
const MANY: f64 = 0.25;
/// Kinds of drive that are named.
const NAMED: usize = 3;

/// The study of a draft, what is still open taken as usual.
///
/// # Errors
/// The faults of what is there.
pub fn study_of(draft: &Draft, catalog: &Catalog) -> Result<Study, Problems> {
    let reading = draft.reading()?;
    study(&reading, catalog).map_err(|_| Problems::new())
}

/// The study of a draft with changes.
///
/// # Errors
/// As [`study_of`].
pub fn study_with(draft: &Draft, changes: &Changes, catalog: &Catalog) -> Result<Study, Problems> {
    let mut other = draft.clone();
    other.apply(changes);
    study_of(&other, catalog)
}

/// The study of a draft without what a question asks of it, where that can be left out.
fn easier(question: &Question, draft: &Draft, catalog: &Catalog) -> Result<Study, Problems> {
    let whole = draft.completed(draft.system());
    let changes = question
        .easier
        .map(|easier| (easier.changes)(question, &whole));
    study_with(&whole, &changes.unwrap_or_default(), catalog)
}

/// What an answer drives, in words: kinds of drive that it puts out, and what it makes of the price. Nothing where it does
/// neither.
pub fn challenge(question: &Question, draft: &Draft, catalog: &Catalog) -> Option<String> {
    let condition = question.easier?.says;
    let now = study_of(draft, catalog).ok()?;
    let then = easier(question, draft, catalog).ok()?;
    let (out, price) = (drives_lost(&now, &then), costlier(&now, &then));
    if out.is_none() && price.is_none() {
        return None;
    }
    let currency = draft.typed("currency").unwrap_or_default();
    let mut says = String::from("This decides something. ");
    if let Some(out) = out {
        says += &out;
    }
    if let Some((now, then)) = price {
        let _ = write!(
            says,
            "The cheapest drive that fits would cost {} instead of {} {currency} to buy if {}. ",
            money(then),
            money(now),
            condition
        );
    } else {
        let _ = write!(says, "That would be otherwise if {condition}. ");
    }
    says += "Answer < if you want to think again.";
    Some(says)
}

fn kinds(study: &Study) -> BTreeMap<&str, &OptionLine> {
    let mut kinds = BTreeMap::new();
    for option in &study.options {
        kinds.entry(option.drive_type.as_str()).or_insert(option);
    }
    kinds
}

/// The families, or else the kinds of drive, that only the easier file keeps, with what stops the first.
fn drives_lost(now: &Study, then: &Study) -> Option<String> {
    fn families(study: &Study) -> BTreeSet<&str> {
        let families = study.options.iter().map(|option| &*option.family);
        families.collect()
    }
    let (kept, all) = (families(now), families(then));
    if all.is_empty() {
        return None;
    }
    if kept.is_empty() {
        return Some("Nothing that the catalog has meets it together with the rest. ".into());
    }
    let gone: Vec<&str> = all.difference(&kept).copied().collect();
    if !gone.is_empty() {
        let told: Vec<String> = gone
            .iter()
            .map(|family| family_and_fault(family, now))
            .collect();
        return Some(format!("It rules out {}. ", told.join(", and ")));
    }
    let (now, then) = (kinds(now), kinds(then));
    let gone = then.iter().filter(|(kind, _)| !now.contains_key(*kind));
    let mut lost: Vec<&&OptionLine> = gone.map(|(_, option)| option).collect();
    lost.sort_by_key(|option| option.rank);
    let first = lost.first().is_some_and(|option| option.rank == 1);
    #[allow(clippy::cast_precision_loss, reason = "kinds of drive are few")]
    let many = lost.len() as f64 >= MANY * then.len() as f64;
    if !first && !many {
        return None;
    }
    let told = lost.iter().take(NAMED);
    let names: Vec<&str> = told.map(|option| option.drive_type.as_str()).collect();
    let among = if lost.len() > NAMED {
        "among them "
    } else {
        ""
    };
    (!names.is_empty()).then(|| {
        format!(
            "It rules out {} of {} kinds of drive: {among}{}. ",
            lost.len(),
            then.len(),
            names.join("; ")
        )
    })
}

/// A family with what stops it.
fn family_and_fault(family: &str, now: &Study) -> String {
    let words = family_words(family);
    let line = now.ruled_out.iter().find(|line| line.family == family);
    match line.and_then(|line| line.fails.first()) {
        Some(fail) => format!("{words} drives ({}: {})", check_name(&fail.check), fail.by),
        None => format!("{words} drives"),
    }
}

/// The cheapest price now and without the answer, where they differ by more than a little.
fn costlier(now: &Study, then: &Study) -> Option<(f64, f64)> {
    let least = |study: &Study| {
        let prices = study.options.iter().map(|option| option.purchase);
        prices.min_by(f64::total_cmp)
    };
    let (now, then) = (least(now)?, least(then)?);
    (now > then * (1.0 + MORE_EXPENSIVE)).then_some((now, then))
}

/// What the drives that fit so far reach on a goal, to lean on.
pub fn reached(question: &Question, draft: &Draft, catalog: &Catalog) -> Option<String> {
    let row = CRITERIA
        .iter()
        .find(|row| Some(row.criterion) == question.goal)?;
    let study = easier(question, draft, catalog).ok()?;
    let raw = |option: &OptionLine| option.criteria.get(row.name()).map(|line| line.raw);
    let mut all: Vec<f64> = study.options.iter().filter_map(raw).collect();
    all.sort_by(f64::total_cmp);
    let words = |raw: f64| match row.measure {
        Measure::Quantity(kind) => draft.system().words(kind, raw),
        Measure::Number => amount(raw, ""),
    };
    let (least, most) = (*all.first()?, *all.last()?);
    let first = raw(study.options.first()?)?;
    (most > least).then(|| {
        format!(
            "The drives that fit so far reach {} to {}; the one that would be first, {}.",
            words(least),
            words(most),
            words(first)
        )
    })
}
