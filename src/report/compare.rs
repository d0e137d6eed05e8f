//! What moved between two studies, on one screen.

use super::page::{Page, Screen, grouped};
use super::price::spoken;
use crate::decide::{Cause, Comparison, FieldChange, Move, Rescaled};
use crate::study::{amount, check_name, money, per_cent};

/// Causes told of each drive type.
const TOLD: usize = 3;
/// Drive types told of those that stay, and of those that are gone.
const ROWS: usize = 8;
/// Changes told of what is asked.
const CHANGES: usize = 40;
/// Signs told of a value: a title may be as long as a file.
const SIGNS: usize = 80;
/// Money that is printed as nothing.
const NOTHING: f64 = 0.5;

/// The screen of a comparison.
pub fn compare_screen(comparison: &Comparison, page: Page) -> String {
    let mut out = Screen::new(page);
    if let Some([before, after]) = &comparison.catalogs {
        out.heading("Two catalogs");
        out.line(format!("The studies are made from different parts: {} and {}. Prices and ratings may have moved what follows, too.", cut(before), cut(after)));
    }
    out.heading("What is asked");
    if comparison.changes.is_empty() {
        out.line("Nothing changed.");
    }
    let changes: Vec<String> = comparison.changes.iter().map(field).collect();
    list(&mut out, CHANGES, &changes);
    for goal in &comparison.rescaled {
        out.line(scale_words(goal, &comparison.currency));
    }
    out.heading("How the ranking moved");
    out.line(lead(&comparison.leads));
    if comparison.moves.is_empty() {
        out.line("No kind of drive moved.");
    }
    let moves = || comparison.moves.iter();
    let there = moves().filter(|moved| moved.after.is_some() && !is_pushed(moved));
    let told = there.map(|moved| move_words(moved, &comparison.currency));
    list(&mut out, ROWS, &told.collect::<Vec<_>>());
    list(
        &mut out,
        ROWS,
        &pushed(moves().filter(|moved| is_pushed(moved))),
    );
    let gone = moves().filter(|moved| moved.after.is_none());
    list(&mut out, ROWS, &out_of_it(gone, &comparison.currency));
    if comparison.unmoved > 0 && !comparison.moves.is_empty() {
        let s = if comparison.unmoved == 1 { "" } else { "s" };
        let count = comparison.unmoved;
        out.line(format!("{count} kind{s} of drive did not move."));
    }
    out.text
}

/// A list, no longer than anybody reads.
fn list(out: &mut Screen, most: usize, lines: &[String]) {
    let more = lines.len().saturating_sub(most);
    for line in lines.iter().take(most) {
        out.item(line);
    }
    if more > 0 {
        out.item(format!("and {more} more"));
    }
}

/// Whether a kind has another place for no reason of its own.
fn is_pushed(moved: &Move) -> bool {
    let nets = moved.before.zip(moved.after);
    nets.is_some_and(|((_, worth), (_, then))| money(worth) == money(then))
}

/// The kinds that have another place for no reason of their own, in one line.
fn pushed<'m>(moves: impl Iterator<Item = &'m Move>) -> Vec<String> {
    let name = |moved: &Move| {
        let ((was, _), (is, _)) = moved.before.zip(moved.after)?;
        Some(format!("{} {was} → {is}", cut(&moved.drive_type)))
    };
    let names: Vec<String> = moves.filter_map(name).collect();
    match names.as_slice() {
        [] => Vec::new(),
        [only] => vec![format!(
            "{only}: its net value is what it was, others moved."
        )],
        all => vec![format!(
            "Only others moved, their net values are what they were: {}.",
            first_names(all)
        )],
    }
}

/// The first of some names, and how many there are beside them.
fn first_names(names: &[String]) -> String {
    let told: Vec<&str> = names.iter().take(TOLD).map(String::as_str).collect();
    match names.len().saturating_sub(TOLD) {
        0 => told.join("; "),
        more => format!("{}; and {more} more", told.join("; ")),
    }
}

/// The kinds that are out, those that are out for one reason in one line.
fn out_of_it<'m>(moves: impl Iterator<Item = &'m Move>, currency: &str) -> Vec<String> {
    let before = moves.filter_map(|moved| Some((moved, moved.before?.0)));
    let line = |(why, moves): (String, Vec<(&Move, usize)>)| {
        let name =
            |(moved, was): &(&Move, usize)| format!("{} (was {was})", cut(&moved.drive_type));
        let names: Vec<String> = moves.iter().map(name).collect();
        format!("Out: {}: {why}.", first_names(&names))
    };
    let groups = grouped(before, |(moved, _)| why(moved, currency));
    groups.into_iter().map(line).collect()
}

/// Who is first, and who was.
fn lead([before, after]: &[Option<String>; 2]) -> String {
    match [before, after].map(|drive| drive.as_deref().map(cut)) {
        [Some(before), Some(after)] if before == after => format!("First stays {after}."),
        [Some(before), Some(after)] => format!("First is {after}, no longer {before}."),
        [None, Some(after)] => format!("First is {after}; before, no drive met the limits."),
        [Some(before), None] => format!("No drive meets the limits any more; first was {before}."),
        [None, None] => "No drive meets the limits, before or after.".into(),
    }
}

/// That a goal is counted along another line, which moves net values by itself.
fn scale_words(goal: &Rescaled, currency: &str) -> String {
    let [limit, target] = goal.line.each_ref().map(|end| cut(end));
    format!(
        "The value of {} is counted along another line now: from 0 at {limit} to {} {currency} at {target}. Net values move by that alone, even where nothing about a drive changes.",
        check_name(&cut(&goal.name)),
        cut(&goal.worth),
    )
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

/// What moved a kind.
fn why(moved: &Move, currency: &str) -> String {
    let tells = |cause: &&Cause| match cause {
        Cause::Criterion { gain, .. } => gain.abs() >= NOTHING,
        _ => true,
    };
    let words = |cause: &Cause| cause_words(cause, currency, moved.after.is_some());
    let causes = moved.causes.iter().filter(tells).take(TOLD);
    let causes: Vec<String> = causes.map(words).collect();
    causes.join("; ")
}

fn move_words(moved: &Move, currency: &str) -> String {
    let (drive, why) = (cut(&moved.drive_type), why(moved, currency));
    match (moved.before, moved.after) {
        (Some((was, worth)), Some((is, then))) => {
            let place = if was == is {
                format!("stays {is}")
            } else {
                format!("{was} → {is}")
            };
            let why = if why.is_empty() {
                String::new()
            } else {
                format!(": {why}")
            };
            format!(
                "{drive}: {place}, net value {} → {} {currency}{why}.",
                money(worth),
                money(then)
            )
        }
        (None, Some((is, then))) => {
            format!(
                "{drive}: new at {is}, net value {} {currency}. Before: {why}.",
                money(then)
            )
        }
        _ => drive,
    }
}

/// A number of a criterion.
fn said(size: f64, unit: &str) -> String {
    if unit.starts_with("money") {
        money(size)
    } else {
        amount(size, unit)
    }
}

/// A cause in words; `before` where it kept a kind out of the first study, and not out of the second.
fn cause_words(cause: &Cause, currency: &str, before: bool) -> String {
    let is = if before { "was" } else { "is" };
    match cause {
        Cause::Criterion {
            name,
            before,
            after,
            unit,
            gain,
        } => {
            let sign = if *gain >= 0.0 { "+" } else { "−" };
            let [before, after] = [*before, *after].map(|size| said(size, unit));
            let numbers = if before == after {
                format!("still {after}")
            } else {
                format!("{before} → {after}")
            };
            format!(
                "{} {numbers} ({sign}{} {currency})",
                check_name(name),
                money(gain.abs())
            )
        }
        Cause::Limit {
            name,
            reaches,
            limit,
            unit,
        } => {
            let (name, reaches) = (cut(&check_name(name)), said(*reaches, unit));
            format!("{name} {reaches}, the limit {is} {}", cut(limit))
        }
        Cause::Check { id, by } => format!("{}: {}", cut(&check_name(id)), cut(by)),
        Cause::Lacks { says } => says.replace("{is}", is),
        Cause::Tightest { id, utilisation } if before => format!(
            "it did not pass its checks; now the tightest is {} at {}",
            check_name(id),
            per_cent(*utilisation)
        ),
        Cause::Tightest { id, utilisation } => format!(
            "it no longer passes its checks; where it stood the tightest was {} at {}",
            check_name(id),
            per_cent(*utilisation)
        ),
    }
}
