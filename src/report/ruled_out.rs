//! The families that are ruled out, why, and what would let them back in.

use super::page::Screen;
use super::price::spoken;
use crate::family::FAMILIES;
use crate::study::{Change, Failing, NearMiss, RuledOut, Study, check_name, money};

/// Writes what is ruled out: what stops several alike is said once.
pub(super) fn ruled_out(out: &mut Screen, study: &Study, currency: &str) {
    if study.ruled_out.is_empty() {
        return;
    }
    out.heading("Ruled out");
    for group in grouped(study.ruled_out.iter(), |line| why_out(line)) {
        let (why, lines) = group;
        let names: Vec<String> = lines.iter().map(|line| named(line)).collect();
        out.paragraph("- ", &format!("{}: {why}.", names.join("; ")));
        ways_back(out, &lines, currency);
    }
    let ways = study.ruled_out.iter().flat_map(ways);
    if ways.count() > 0 {
        out.paragraph("", "What such a change costs elsewhere is not counted.");
    }
}

/// Things with what they are alike in, in the order of the first of each.
fn grouped<'l, T: 'l>(
    all: impl Iterator<Item = &'l T>,
    alike: impl Fn(&T) -> String,
) -> Vec<(String, Vec<&'l T>)> {
    let mut groups: Vec<(String, Vec<&T>)> = Vec::new();
    for one in all {
        let told = alike(one);
        match groups.iter_mut().find(|(known, _)| *known == told) {
            Some((_, group)) => group.push(one),
            None => groups.push((told, vec![one])),
        }
    }
    groups
}

/// What would let back in families that the same stops, each change said once.
fn ways_back(out: &mut Screen, lines: &[&RuledOut], currency: &str) {
    let all = lines.iter().flat_map(|line| ways(line));
    for (change, ways) in grouped(all, change_and_bearing) {
        match ways.as_slice() {
            [near] => out.paragraph("  ", &format!("{change}: {}.", place(near, currency))),
            many => {
                let mut many = many.to_vec();
                many.sort_by_key(|near| near.then_rank);
                out.paragraph("  ", &format!("{change}:"));
                for near in many {
                    out.paragraph("  - ", &format!("{}.", place(near, currency)));
                }
            }
        }
    }
    let without = |line: &&&RuledOut| ways(line).count() == 0;
    let stay: Vec<String> = lines
        .iter()
        .filter(without)
        .map(|line| named(line))
        .collect();
    if !stay.is_empty() && stay.len() < lines.len() {
        out.paragraph("  ", &format!("Still out: {}.", stay.join(", ")));
    }
}

/// What would let a family back in.
fn ways(line: &RuledOut) -> impl Iterator<Item = &NearMiss> {
    line.near_miss.iter().chain(&line.with_words_changed)
}

/// A family with its assist.
fn named(line: &RuledOut) -> String {
    let family = family_words(line.family);
    match line.assist {
        "none" => family.to_owned(),
        assist => format!("{family} + {assist}"),
    }
}

/// What stopped a family.
fn why_out(line: &RuledOut) -> String {
    let told = |fails: &[Failing]| {
        let text = |fail: &Failing| format!("{}: {}", check_name(&fail.check), fail.by);
        fails.iter().map(text).collect::<Vec<_>>().join("; ")
    };
    if line.otherwise.is_empty() {
        return told(&line.fails);
    }
    format!(
        "{}; with parts that pass this, {}",
        told(&line.fails),
        told(&line.otherwise)
    )
}

/// A change, and whether it would be worth making for the drive that it lets in.
fn change_and_bearing(near: &NearMiss) -> String {
    let changes: Vec<String> = near.least_change.iter().map(changed).collect();
    let worse = near.then_gain.is_some_and(|gain| gain < 0.0);
    let bearing = if worse { "Even" } else { "Back in" };
    format!("{bearing} with {}", changes.join(" and "))
}

/// The drive that comes in, its price and its place.
fn place(near: &NearMiss, currency: &str) -> String {
    let against = near.then_gain.map_or(String::new(), |gain| {
        let apart = money(gain.abs());
        match gain {
            gain if gain <= -0.5 => format!(", {apart} {currency} worse than what is first now"),
            gain if gain >= 0.5 => format!(", {apart} {currency} better than what is first now"),
            _ => ", as good as what is first now".to_owned(),
        }
    });
    format!(
        "{}, {} {currency} to buy, place {} of {}{against}",
        near.then_drive,
        money(near.then_purchase),
        near.then_rank,
        near.then_of,
    )
}

/// A change of what is asked.
fn changed(change: &Change) -> String {
    match change.field.as_str() {
        "power_loss" => "a load that may move when the power fails".into(),
        "site.oil_tolerated" => "oil tolerated".into(),
        "site.air" => format!("air on site, {}", change.to),
        "timing.cycles_per_hour" => {
            format!("{} cycles an hour instead of {}", change.to, change.from)
        }
        field => format!(
            "{} {} instead of {}",
            check_name(field.trim_end_matches(".must").trim_start_matches("site.")),
            spoken(&change.to),
            spoken(&change.from)
        ),
    }
}

/// What people call a family.
fn family_words(name: &str) -> &str {
    FAMILIES
        .iter()
        .find(|family| family.name() == name)
        .map_or(name, |family| family.words())
}
