//! What moved between two studies, on one screen.

use super::page::{Page, Screen};
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
    for goal in &comparison.rescaled {
        out.paragraph("", &scale_words(goal, &comparison.currency));
    }
    out.heading("How the ranking moved");
    out.paragraph("", &lead(&comparison.leads));
    if comparison.moves.is_empty() {
        out.paragraph("", "No kind of drive moved.");
    }
    let moves = || comparison.moves.iter();
    let there = moves().filter(|moved| moved.after.is_some() && !is_pushed(moved));
    let told = there.map(|moved| move_words(moved, &comparison.currency));
    list(&mut out, &told.collect::<Vec<_>>());
    list(&mut out, &pushed(moves().filter(|moved| is_pushed(moved))));
    let gone = moves().filter(|moved| moved.after.is_none());
    list(&mut out, &out_of_it(gone, &comparison.currency));
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

/// A list, no longer than anybody reads.
fn list(out: &mut Screen, lines: &[String]) {
    let more = lines.len().saturating_sub(ROWS);
    for line in lines.iter().take(ROWS) {
        out.paragraph("- ", line);
    }
    if more > 0 {
        out.paragraph("- ", &format!("and {more} more"));
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
    let mut groups: Vec<(String, Vec<String>)> = Vec::new();
    for moved in moves {
        let Some((was, _)) = moved.before else {
            continue;
        };
        let name = format!("{} (was {was})", cut(&moved.drive_type));
        let why = why(moved, currency);
        match groups.iter_mut().find(|(known, _)| *known == why) {
            Some((_, names)) => names.push(name),
            None => groups.push((why, vec![name])),
        }
    }
    let line =
        |(why, names): (String, Vec<String>)| format!("Out: {}: {why}.", first_names(&names));
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
        "What {} is worth runs along another line now, from 0 at {limit} to {} {currency} at {target}: net values move by that alone, even where nothing about a drive changes.",
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
    let causes: Vec<String> = moved
        .causes
        .iter()
        .filter(tells)
        .take(TOLD)
        .map(|cause| cause_words(cause, currency, moved.after.is_some()))
        .collect();
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

/// A cause in words; `before` where it kept a kind out of the first study, and not out of the second.
fn cause_words(cause: &Cause, currency: &str, before: bool) -> String {
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
        Cause::Limit {
            name,
            reaches,
            limit,
            unit,
        } => {
            let reaches = if unit.starts_with("money") {
                money(*reaches)
            } else {
                amount(*reaches, unit)
            };
            format!(
                "{} {reaches}, the limit {} {}",
                cut(&check_name(name)),
                if before { "was" } else { "is" },
                cut(limit)
            )
        }
        Cause::Check { id, by } => format!("{}: {}", cut(&check_name(id)), cut(by)),
        Cause::Lacks { says: [now, then] } => (*if before { then } else { now }).into(),
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
