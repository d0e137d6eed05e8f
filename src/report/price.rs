//! What each requirement costs, on one screen: a table with a bar for each requirement that moves anything.

use super::page::{self, Page, Screen};
use crate::quantity::show;
use crate::requirements::Requirements;
use crate::study::{FirstOfStep, PriceStep, RequirementPrice, Study, money};

/// Columns of the longest bar.
const BAR: usize = 12;
/// Blocks of an eighth of a column each.
const EIGHTHS: [&str; 8] = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];

/// The screen of a study's requirement prices.
pub fn price_screen(study: &Study, job: &Requirements, page: Page) -> String {
    let mut out = Screen::new(page);
    let title = if job.title.is_empty() {
        "the job"
    } else {
        &job.title
    };
    out.heading(&format!("What each requirement costs: {title}"));
    match study.options.first() {
        Some(first) => out.line(format!(
                "As asked, first is {} at {} {} to buy. Each table changes one requirement and nothing else; what the other goals are worth stays as the file has it, so net values compare. The bar is what the first option costs to buy.",
                first.words,
                money(first.purchase),
                job.currency
            )),
        None => out.line("As asked, no drive meets the limits. Each table changes one requirement and nothing else."),
    }
    let dearest = purchases(&study.requirement_prices).fold(0.0, f64::max);
    let (moving, still): (Vec<_>, Vec<_>) = study
        .requirement_prices
        .iter()
        .partition(|price| moves(price));
    let (barred, moving): (Vec<_>, Vec<_>) = moving.into_iter().partition(|price| is_barred(price));
    for price in moving {
        out.heading(&heading(price, job));
        out.text.push_str(&table(price, dearest, page.width));
    }
    if !barred.is_empty() {
        out.heading("Cannot be improved");
        let list: Vec<String> = barred
            .iter()
            .filter_map(|price| best_limit(price))
            .collect();
        out.line(format!(
            "The first option already has the best there is: no drive meets {}.",
            list.join("; ")
        ));
    }
    if !still.is_empty() {
        out.heading("Changes nothing");
        let list: Vec<String> = still.iter().map(|price| range(price)).collect();
        out.line(format!("{}.", list.join("; ")));
    }
    out.text
}

fn purchases(prices: &[RequirementPrice]) -> impl Iterator<Item = f64> {
    let steps = prices.iter().flat_map(|price| &price.steps);
    steps.filter_map(|step| step.first.as_ref().map(|first| first.purchase))
}

/// Whether any step has another first option than the one before it.
fn moves(price: &RequirementPrice) -> bool {
    let best = |step: &PriceStep| step.first.as_ref().map(|first| first.best.clone());
    let mut pairs = price.steps.windows(2);
    pairs.any(|pair| best(&pair[0]) != best(&pair[1]))
}

/// Whether nothing but what is asked can be had.
fn is_barred(price: &RequirementPrice) -> bool {
    let mut steps = price.steps.iter();
    steps.all(|step| step.asked || step.first.is_none())
}

/// The limit nearest to what is asked that nothing meets.
fn best_limit(price: &RequirementPrice) -> Option<String> {
    let asked = price.steps.iter().position(|step| step.asked)?;
    let near = price.steps.get(asked.checked_sub(1)?)?;
    Some(format!("{} {}", price.words, near.value))
}

fn heading(price: &RequirementPrice, job: &Requirements) -> String {
    let asked = price.steps.iter().find(|step| step.asked);
    let asked = asked.map_or_else(String::new, |step| {
        format!(", asked {}", spoken(&step.value))
    });
    let each = price.purchase_per_unit.map_or_else(String::new, |each| {
        format!(
            "; on average {} {} to buy for each {}",
            show(each),
            job.currency,
            price.unit
        )
    });
    format!("{}{asked}{each}", price.words)
}

fn range(price: &RequirementPrice) -> String {
    match (price.steps.first(), price.steps.last()) {
        (Some(from), Some(to)) => {
            format!(
                "{} from {} to {}",
                price.words,
                spoken(&from.value),
                spoken(&to.value)
            )
        }
        _ => price.words.clone(),
    }
}

/// A word of the file as people say it.
pub(super) fn spoken(value: &str) -> String {
    value.replace('_', " ")
}

/// What a row is called that begins at a step, and how many steps it stands for: those that nothing meets are one row.
fn folded(price: &RequirementPrice, at: usize) -> (String, usize) {
    let nothing = |step: &&PriceStep| step.first.is_none() && step.refused.is_none() && !step.asked;
    let rest = price.steps.get(at..).unwrap_or_default();
    let alike = rest.iter().take_while(nothing).count();
    let value = |step: Option<&PriceStep>| step.map(|step| spoken(&step.value)).unwrap_or_default();
    let (from, to) = (
        value(rest.first()),
        value(rest.get(alike.saturating_sub(1))),
    );
    match alike {
        0 | 1 => (from, 1),
        alike if at == 0 => (format!("to {to}"), alike),
        alike if alike == rest.len() => (format!("from {from}"), alike),
        alike => (format!("{from} to {to}"), alike),
    }
}

fn table(price: &RequirementPrice, dearest: f64, width: usize) -> String {
    let heads = ["", "", "to buy", "", "net value", "first"];
    let mut rows: Vec<Vec<String>> = vec![heads.map(String::from).into()];
    let mut shown: Option<&FirstOfStep> = None;
    let mut at = 0;
    while let Some(step) = price.steps.get(at) {
        let (value, alike) = folded(price, at);
        at += alike;
        let mark = if step.asked { ">" } else { "" };
        let mut record = vec![mark.to_owned(), value];
        record.extend(match (&step.first, &step.refused) {
            (Some(first), _) => {
                let same = shown.is_some_and(|known| known.drive == first.drive);
                let drive = if same {
                    "″".to_owned()
                } else {
                    first.drive.clone()
                };
                shown = Some(first);
                [
                    money(first.purchase),
                    bar(first.purchase, dearest),
                    money(first.net_value),
                    drive,
                ]
            }
            (None, why) => {
                shown = None;
                let says = why.as_deref().map_or("no drive meets it", |why| why);
                [String::new(), String::new(), String::new(), says.to_owned()]
            }
        });
        rows.push(record);
    }
    page::table(rows, &[5], &[1, 2, 4], width)
}

/// A bar of a length in proportion, to an eighth of a column.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "a part of a short bar, not negative"
)]
fn bar(value: f64, of: f64) -> String {
    let eighths = (value / of * (BAR * 8) as f64).round().max(0.0) as usize;
    "█".repeat(eighths / 8) + EIGHTHS[eighths % 8]
}
