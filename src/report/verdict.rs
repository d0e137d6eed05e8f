//! The answer in at most five lines, before everything else: which drive, what it costs, by how much it leads, how sure, and what decides.

use super::page::Screen;
use super::sure;
use crate::requirements::Requirements;
use crate::study::{OptionLine, Study, amount, check_name, is_tie, lead, money, per_cent};

/// Amounts of money that are named as what decides.
const DECIDING: usize = 3;

/// The answer; `best` are the best options of each drive type, in their order.
pub fn verdict(out: &mut Screen, study: &Study, job: &Requirements, best: &[&OptionLine]) {
    let Some((first, others)) = best.split_first() else {
        out.line(
            "No drive meets the limits. What put each out stands below, with what would let it in.",
        );
        return;
    };
    let currency = &job.currency;
    out.line(format!(
        "First: {}, {} each way. It costs {} {currency} to buy and {} a year to run.",
        first.words,
        amount(first.design_travel_time_s, "s"),
        money(first.purchase),
        money(first.running_cost_per_year),
    ));
    match others.first() {
        None => out.line("No other drive type meets the limits."),
        Some(second) => {
            let apart = money(first.net_value - second.net_value);
            out.line(if is_tie(job, first, second) {
                format!(
                    "It is a tie with the {}: {apart} {currency} apart, and prices are not known that closely.",
                    second.words
                )
            } else {
                format!("It leads the {} by {apart} {currency}.", second.words)
            });
            if let Some(says) = sure::in_short(study, job) {
                out.line(says);
            }
            let mut parts = lead(job, first, second);
            parts.sort_by(|(_, p), (_, q)| q.abs().total_cmp(&p.abs()));
            let parts = parts.into_iter().take(DECIDING);
            let parts: Vec<String> = parts
                .map(|(what, gain)| format!("{what} {}", with_sign(gain)))
                .collect();
            out.line(format!(
                "What decides between the two, in {currency}: {}.",
                parts.join(", ")
            ));
        }
    }
    if let Some(check) = first.tightest() {
        out.line(format!(
            "Nearest to its limit: {}, {} used.",
            check_name(&check.id),
            per_cent(check.utilisation)
        ));
    }
}

/// Money gained, with its sign.
pub fn with_sign(gain: f64) -> String {
    if gain >= 0.0 {
        format!("+{}", money(gain))
    } else {
        format!("−{}", money(-gain))
    }
}
