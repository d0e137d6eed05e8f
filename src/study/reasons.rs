//! Why the first is first, and what the others give and give up against it.

use super::file::OptionLine;
use super::words::{amount, money};
use crate::requirements::{CRITERIA, Criterion, CriterionRow, Requirements};

/// A difference in position less than this part of the error that may be is nothing.
const NOTHING_OF_A_LIMIT: f64 = 0.01;
/// Differences smaller than this part of the larger number are not worth a word.
const WORTH_SAYING: f64 = 0.05;

/// Fills `gives` and `gives_up`: the first against the best of another kind, all others against the first.
pub fn add(job: &Requirements, lines: &mut [OptionLine]) {
    let Some(first) = lines.first().cloned() else {
        return;
    };
    let second = lines
        .iter()
        .find(|line| line.drive_type != first.drive_type)
        .cloned();
    for (index, line) in lines.iter_mut().enumerate() {
        let rival = if index == 0 {
            second.as_ref()
        } else {
            Some(&first)
        };
        if let Some(rival) = rival {
            (line.gives, line.gives_up) = compare(job, line, rival);
        }
    }
}

/// What one option gives and gives up against another.
fn compare(
    job: &Requirements,
    line: &OptionLine,
    rival: &OptionLine,
) -> (Vec<String>, Vec<String>) {
    let (mut gives, mut gives_up) = (Vec::new(), Vec::new());
    for row in CRITERIA.iter().filter(|row| matters(job, row.criterion)) {
        let (Some(ours), Some(theirs)) = (
            line.criteria.get(row.criterion.name()),
            rival.criteria.get(row.criterion.name()),
        ) else {
            continue;
        };
        let apart = ours.raw - theirs.raw;
        // Money is what the ranking turns on: it is said wherever it shows.
        let money = matches!(row.criterion, Criterion::Purchase | Criterion::RunningCost);
        let least_part = if money { 0.0 } else { WORTH_SAYING };
        if apart.abs() <= least_part * ours.raw.abs().max(theirs.raw.abs())
            || apart.abs() < least_said(job, row)
        {
            continue;
        }
        let better = (apart > 0.0) == row.more_is_better;
        let sentence = phrase(job, row, apart);
        if better {
            gives.push(sentence);
        } else {
            gives_up.push(sentence);
        }
    }
    match (line.holds_without_power, rival.holds_without_power) {
        (true, false) => gives.push("holds without power".into()),
        (false, true) => gives_up.push("does not hold without power".into()),
        _ => {}
    }
    (gives, gives_up)
}

/// Money and time always matter; the rest where the file wants it.
fn matters(job: &Requirements, criterion: Criterion) -> bool {
    matches!(
        criterion,
        Criterion::Purchase | Criterion::RunningCost | Criterion::TravelTime
    ) || job.goals.contains_key(&criterion)
}

/// The least difference that anybody would notice, in the criterion's unit.
fn least_said(job: &Requirements, row: &CriterionRow) -> f64 {
    match row.criterion {
        Criterion::Noise | Criterion::Purchase | Criterion::RunningCost => 1.0,
        // A hundredth of what may be off is nothing to who asked for it.
        Criterion::PositionError => {
            let goal = job.goals.get(&row.criterion);
            goal.map_or(0.0, |goal| NOTHING_OF_A_LIMIT * goal.limit)
        }
        _ => 0.0,
    }
}

/// "110 EUR cheaper", "2.3 s slower".
fn phrase(job: &Requirements, row: &CriterionRow, apart: f64) -> String {
    let more = apart > 0.0;
    let size = apart.abs();
    let either = |up: &'static str, down: &'static str| if more { up } else { down };
    let said = amount(size, row.unit);
    match row.criterion {
        Criterion::TravelTime => format!("{said} {}", either("slower", "faster")),
        Criterion::Purchase => format!(
            "{} {} {}",
            money(size),
            job.currency,
            either("more expensive", "cheaper")
        ),
        Criterion::RunningCost => {
            format!(
                "{} {} a year {} to run",
                money(size),
                job.currency,
                either("more expensive", "cheaper")
            )
        }
        Criterion::PositionError => {
            format!("{said} {} in position", either("less exact", "more exact"))
        }
        Criterion::AddedMass => format!("{said} {}", either("heavier", "lighter")),
        Criterion::ClosedLength => format!("{said} {}", either("longer closed", "shorter closed")),
        Criterion::Noise => format!("{said} {}", either("louder", "quieter")),
        Criterion::MaintenanceHours => format!(
            "{} h a year {} maintenance",
            crate::quantity::show(size),
            either("more", "less")
        ),
        Criterion::CustomParts => format!(
            "{} {} to make",
            crate::quantity::show(size),
            either("more parts", "fewer parts")
        ),
        Criterion::PartCount => format!(
            "{} {}",
            crate::quantity::show(size),
            either("more parts", "fewer parts")
        ),
        Criterion::EnergyPerCycle => {
            format!("{said} a cycle {}", either("more energy", "less energy"))
        }
        Criterion::HandForce => format!("{said} {} at the handle", either("more", "less")),
        Criterion::Life => format!(
            "{} years {} life",
            crate::quantity::show(size),
            either("more", "less")
        ),
    }
}

/// Whether a lead is less than such prices are known to.
pub fn is_tie(job: &Requirements, first: &OptionLine, second: &OptionLine) -> bool {
    let costlier = first.purchase.max(second.purchase);
    first.net_value - second.net_value < job.rules.near_tie * costlier
}

/// Where the net value of the first comes from against the second: money parts, largest first.
pub fn lead(job: &Requirements, first: &OptionLine, second: &OptionLine) -> Vec<(String, f64)> {
    let mut parts = vec![("purchase".to_owned(), second.purchase - first.purchase)];
    let years = job.rates.horizon_years;
    let running = (second.running_cost_per_year - first.running_cost_per_year) * years;
    parts.push((
        format!("running over {} years", crate::quantity::show(years)),
        running,
    ));
    for (name, line) in &first.criteria {
        let (Some(value), Some(worth)) = (line.value, line.worth) else {
            continue;
        };
        let other = second
            .criteria
            .get(name)
            .and_then(|line| line.value)
            .unwrap_or(0.0);
        parts.push((name.replace('_', " "), worth * (value - other)));
    }
    parts.retain(|(_, gain)| gain.abs() >= 0.5);
    parts.sort_by(|p, q| q.1.abs().total_cmp(&p.1.abs()).then_with(|| p.0.cmp(&q.0)));
    parts
}
