//! What moved between two studies, on one screen.

use super::page::{Page, Screen};
use super::price::spoken;
use crate::decide::{Cause, Comparison, FieldChange, Move};
use crate::study::{amount, check_name, money};

/// Causes told of each kind of train.
const TOLD: usize = 3;
/// Kinds of train told of those that stay, and of those that are gone.
const ROWS: usize = 8;
/// Changes told of what is asked.
const CHANGES: usize = 40;
/// Signs told of a value: a title may be as long as a file.
const SIGNS: usize = 80;
/// Money that is printed as nothing.
const NOTHING: f64 = 0.5;

/// The screen of a comparison.
#[must_use]
pub fn compare_screen(comparison: &Comparison, page: Page) -> String {
    let mut out = Screen::new(page);
    if let Some([before, after]) = &comparison.catalogs {
        out.heading("Two catalogs");
        out.paragraph(
            "",
            &format!("The studies are made from different parts: {} and {}. Prices and ratings may have moved what follows, too.", cut(before), cut(after)),
        );
    }
    out.heading("What is asked");
    if comparison.changes.is_empty() {
        out.paragraph("", "Nothing changed.");
    }
    for change in comparison.changes.iter().take(CHANGES) {
        out.paragraph("- ", &field(change));
    }
    if comparison.changes.len() > CHANGES {
        let more = comparison.changes.len() - CHANGES;
        out.paragraph("- ", &format!("and {more} more"));
    }
    out.heading("How the ranking moved");
    if comparison.moves.is_empty() {
        out.paragraph("", "No kind of drive moved.");
    }
    let (gone, there): (Vec<_>, Vec<_>) = comparison
        .moves
        .iter()
        .partition(|moved| moved.after.is_none());
    for part in [there, gone] {
        for moved in part.iter().take(ROWS) {
            out.paragraph("- ", &told(moved, &comparison.currency));
        }
        if part.len() > ROWS {
            out.paragraph("- ", &format!("and {} more", part.len() - ROWS));
        }
    }
    if comparison.unmoved > 0 && !comparison.moves.is_empty() {
        let kinds = if comparison.unmoved == 1 {
            "kind"
        } else {
            "kinds"
        };
        out.paragraph(
            "",
            &format!("{} {kinds} of drive did not move.", comparison.unmoved),
        );
    }
    out.text
}

/// The start of a text that may be long.
fn cut(text: &str) -> String {
    match text.char_indices().nth(SIGNS) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default()),
        None => text.to_owned(),
    }
}

fn field(change: &FieldChange) -> String {
    let [before, after] = [&change.before, &change.after].map(|value| value.as_deref().map(cut));
    let named = cut(&change.field);
    match (&before, &after) {
        (Some(before), Some(after)) => {
            format!("{named}: {} → {}", spoken(before), spoken(after))
        }
        (None, Some(after)) => format!("{named}: new, {}", spoken(after)),
        (Some(before), None) => {
            format!("{named}: no longer asked, was {}", spoken(before))
        }
        (None, None) => named,
    }
}

fn told(moved: &Move, currency: &str) -> String {
    let train = cut(&moved.train);
    let tells = |cause: &&Cause| match cause {
        Cause::Criterion { gain, .. } => gain.abs() >= NOTHING,
        _ => true,
    };
    let causes: Vec<String> = moved
        .causes
        .iter()
        .filter(tells)
        .take(TOLD)
        .map(|cause| because(cause, currency))
        .collect();
    let why = causes.join("; ");
    match (moved.before, moved.after) {
        (Some((was, worth)), Some((is, then))) => {
            let place = if was == is {
                format!("stays {is}")
            } else {
                format!("{was} → {is}")
            };
            let why = if why.is_empty() {
                "others moved".into()
            } else {
                why
            };
            format!(
                "{train}: {place}, net worth {} → {} {currency}: {why}.",
                money(worth),
                money(then)
            )
        }
        (None, Some((is, then))) => {
            format!(
                "{train}: new at {is}, net worth {} {currency}. Before: {why}.",
                money(then)
            )
        }
        (Some((was, _)), None) => format!("{train}: was {was}, is out: {why}."),
        (None, None) => train,
    }
}

fn because(cause: &Cause, currency: &str) -> String {
    match cause {
        Cause::Criterion {
            name,
            before,
            after,
            unit,
            gain,
        } => {
            let sign = if *gain >= 0.0 { "+" } else { "−" };
            let said = |value: f64| match unit.as_str() {
                "money" | "money a year" => money(value),
                unit => amount(value, unit),
            };
            let same = said(*before) == said(*after);
            let numbers = if same {
                format!("still {}", said(*after))
            } else {
                format!("{} → {}", said(*before), said(*after))
            };
            format!(
                "{} {numbers} ({sign}{} {currency})",
                check_name(name),
                money(gain.abs())
            )
        }
        Cause::Must {
            name,
            reaches,
            must,
            unit,
        } => {
            let reaches = if unit.starts_with("money") {
                money(*reaches)
            } else {
                amount(*reaches, unit)
            };
            format!(
                "{} {reaches}, the must is {}",
                cut(&check_name(name)),
                cut(must)
            )
        }
        Cause::Check { id, by } => format!("{}: {}", cut(&check_name(id)), cut(by)),
        Cause::Tightest { id, utilisation } => {
            format!(
                "it no longer passes its checks; where it stood the tightest was {} at {:.0} %",
                check_name(id),
                utilisation * 100.0
            )
        }
    }
}
