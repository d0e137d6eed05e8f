//! The families that are ruled out, why, and what would let them back in.

use super::page::{Screen, grouped};
use super::price::spoken;
use crate::requirements::Requirements;
use crate::study::{Change, Failing, NearMiss, RuledOut, Study, check_name, family_words, money};

/// Drives told for one change.
const WAYS: usize = 3;

/// Writes what is ruled out: what stops several alike is said once.
pub(super) fn ruled_out(out: &mut Screen, study: &Study, job: &Requirements) {
    if study.ruled_out.is_empty() {
        return;
    }
    out.heading("Ruled out");
    for (why, lines) in grouped(study.ruled_out.iter(), |line| why_out(line)) {
        let names: Vec<String> = lines.iter().map(|line| family_with_assist(line)).collect();
        out.item(format!("{}: {why}.", names.join("; ")));
        ways_back(out, &lines, &Now { study, job });
    }
    let ways = study.ruled_out.iter().flat_map(ways);
    if ways.count() > 0 {
        out.line("What such a change costs elsewhere is not counted.");
    }
}

/// What would let back in families that the same stops, each change said once, with the drives that it would best let in.
fn ways_back(out: &mut Screen, lines: &[&RuledOut], now: &Now) {
    let all: Vec<(&RuledOut, &NearMiss)> = lines
        .iter()
        .flat_map(|line| ways(line).map(|near| (*line, near)))
        .collect();
    for (change, mut ways) in grouped(all, |(_, near)| change_and_bearing(near, now)) {
        ways.sort_by_key(|(_, near)| near.then_rank);
        if let [(_, near)] = ways.as_slice() {
            out.paragraph("  ", &format!("{change}: {}.", place(near, now)));
            continue;
        }
        out.paragraph("  ", &format!("{change}:"));
        // Of a family the best way is enough, and of all the few best.
        let (mut told, mut rest): (Vec<&RuledOut>, Vec<String>) = (Vec::new(), Vec::new());
        for (line, near) in ways {
            let known = told.iter().any(|known| known.family == line.family);
            let far_down = !told.is_empty() && near.then_rank * 2 > near.then_of;
            if known || far_down || told.len() >= WAYS {
                rest.push(format!(
                    "{} (place {})",
                    family_with_assist(line),
                    near.then_rank
                ));
            } else {
                told.push(line);
                out.paragraph("  - ", &format!("{}.", place(near, now)));
            }
        }
        if !rest.is_empty() {
            out.paragraph("  - ", &format!("Further down: {}.", rest.join(", ")));
        }
    }
    let stay = lines.iter().copied().filter(|line| ways(line).count() == 0);
    for (why, still) in grouped(stay, |line| failing_words(&line.then_fails)) {
        if !why.is_empty() {
            let names: Vec<String> = still.iter().map(|line| family_with_assist(line)).collect();
            let verb = if names.len() == 1 { "is" } else { "are" };
            let names = names.join(" and ");
            out.paragraph("  ", &format!("Even so, {names} {verb} out by {why}."));
        }
    }
}

/// What would let a family back in.
fn ways(line: &RuledOut) -> impl Iterator<Item = &NearMiss> {
    line.near_miss.iter().chain(&line.with_words_changed)
}

/// A family with its assist.
fn family_with_assist(line: &RuledOut) -> String {
    let family = family_words(&line.family);
    match &*line.assist {
        "none" => family.to_owned(),
        assist => format!("{family} + {assist}"),
    }
}

/// What stopped a family: the worst with its numbers, the rest by name.
fn why_out(line: &RuledOut) -> String {
    let mut says = failing_words(&line.fails);
    if !line.otherwise.is_empty() {
        says = format!(
            "{says}. Other parts pass that but fail {}",
            failing_words(&line.otherwise)
        );
    }
    says
}

fn failing_words(fails: &[Failing]) -> String {
    let Some((worst, rest)) = fails.split_first() else {
        return String::new();
    };
    let mut says = format!("{}: {}", check_name(&worst.check), worst.by);
    if !rest.is_empty() {
        let names: Vec<String> = rest.iter().map(|fail| check_name(&fail.check)).collect();
        says = format!("{says}; also {}", names.join(", "));
    }
    says
}

/// A change, and whether it would be worth making for the drive that it lets in.
fn change_and_bearing(near: &NearMiss, now: &Now) -> String {
    let worse = near.then_gain.is_some_and(|gain| gain < 0.0);
    let bearing = if worse && !now.ties(near) {
        "Would qualify, but not win,"
    } else {
        "Would qualify"
    };
    format!(
        "{bearing} with {}",
        change_words(&near.least_change).join(" and ")
    )
}

/// What stands first as the file is.
struct Now<'s> {
    study: &'s Study,
    job: &'s Requirements,
}

impl Now<'_> {
    fn purchase(&self) -> Option<f64> {
        self.study.options.first().map(|first| first.purchase)
    }
    /// Whether what comes in is worth as much as what is first, as far as such prices are known.
    fn ties(&self, near: &NearMiss) -> bool {
        let costlier = self.purchase().unwrap_or(0.0).max(near.then_purchase);
        let apart = near.then_gain.map(f64::abs);
        apart.is_some_and(|apart| apart < self.job.rules.near_tie * costlier)
    }
}

/// The drive that comes in, its price and its place.
fn place(near: &NearMiss, now: &Now) -> String {
    let currency = &now.job.currency;
    let instead = now.purchase().map_or(String::new(), |purchase| {
        format!(" instead of {}", money(purchase))
    });
    let against = near.then_gain.map_or(String::new(), |gain| {
        if now.ties(near) {
            return ", as good as a tie with what is first now".to_owned();
        }
        let way = if gain < 0.0 { "less" } else { "more" };
        let apart = money(gain.abs());
        format!(", worth {apart} {currency} {way} than what is first now")
    });
    format!(
        "{}, {} {currency} to buy{instead}, place {} of the {} kinds of drive then{against}",
        near.then_drive,
        money(near.then_purchase),
        near.then_rank,
        near.then_of,
    )
}

/// Changes of what is asked.
fn change_words(changes: &[Change]) -> Vec<String> {
    // Width and height of an arm are changed for each other only.
    let shown = changes
        .iter()
        .filter(|change| change.field != "structure.height");
    shown.map(one_changed).collect()
}

fn one_changed(change: &Change) -> String {
    match change.field.as_str() {
        "power_loss" => "a load that may move when the power fails".into(),
        "structure.width" => format!("the arm stood on edge, its {} upright", change.from),
        "site.oil_tolerated" => "oil tolerated".into(),
        "site.air" => format!("air on site, {}", change.to),
        "timing.cycles_per_hour" => {
            format!("{} cycles an hour instead of {}", change.to, change.from)
        }
        field => {
            let name = field.trim_end_matches(".limit").trim_start_matches("site.");
            let (to, from) = (spoken(&change.to), spoken(&change.from));
            format!("{} {to} instead of {from}", check_name(name))
        }
    }
}
