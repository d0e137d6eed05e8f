//! Why a drive type of one study has no like in the other.

use super::compare::{Cause, goal_text};
use crate::family::{Need, family, option_needs};
use crate::quantity::Si;
use crate::requirements::{Goal, PowerLoss, Requirements};
use crate::study::{OptionLine, RankedJob, amount};

/// How it is said that a need is not met; `{is}` stands for "is" of the second study and "was" of the first.
fn unmet(need: Need) -> &'static str {
    match need {
        Need::Air => "it needs air, and there {is} none on site",
        Need::NoAir => "it brings a compressor, and there {is} air on site",
        Need::Mains => "it needs electricity, and there {is} none on site",
        Need::Hand => "it needs somebody to crank, and there {is} nobody",
        Need::Oil => "it works with oil, and none {is} tolerated",
        Need::EndStops => {
            "it stops at its ends, or coarsely on a rod lock, and {is} to stop anywhere"
        }
    }
}

/// How it is said that an option lets go of a load that is to be held.
const LETS_GO: &str = "it does not hold the load when the power fails, and {is} to";

/// Why an option of one study has no like in the other: what it needs and is not there, a limit that it breaks, a check that
/// ruled its family out; else its tightest check, where it stands.
pub(super) fn barred(option: &OptionLine, other: &RankedJob) -> Vec<Cause> {
    let looks: [fn(&OptionLine, &RankedJob) -> Vec<Cause>; 5] =
        [lacks, supplies, limits, ruled_out, |option, _| {
            tightest(option)
        }];
    let mut causes = looks.iter().map(|look| look(option, other));
    causes.find(|causes| !causes.is_empty()).unwrap_or_default()
}

/// What an option needs and the other job has not.
fn lacks(option: &OptionLine, other: &RankedJob) -> Vec<Cause> {
    let kinds: Vec<&str> = option.parts.iter().map(|part| &*part.kind).collect();
    let needs = family(&option.family).map(|family| option_needs(family, &kinds));
    let missing = needs
        .into_iter()
        .flatten()
        .filter(|need| !need.is_met(&other.job));
    let lets_go = !option.holds_without_power && other.job.power_loss == PowerLoss::Hold;
    let says = missing.map(unmet).chain(lets_go.then_some(LETS_GO));
    says.map(|says| Cause::Lacks { says }).collect()
}

/// What a job's site has of what a check of an option draws on, in the check's unit.
fn supply(check: &str, job: &Requirements) -> Option<f64> {
    let site = &job.site;
    match check {
        "air_supply.flow" => Some(site.air?.flow.si() / (1e-3 / 60.0)),
        "mains.power" | "compressor.mains" => Some(site.mains?.power.si()),
        "crank.hand_force" => Some(site.hand?.force.si()),
        _ => None,
    }
}

/// Supplies of the other study that an option is not content with.
fn supplies(option: &OptionLine, other: &RankedJob) -> Vec<Cause> {
    let short = option.checks.iter().filter_map(|check| {
        let there = supply(&check.id, &other.job)?;
        let needs = check.demand * check.factor;
        (needs > there * (1.0 + 1e-6)).then(|| Cause::Check {
            id: check.id.to_string(),
            by: format!(
                "needs {}; the limit is {}",
                amount(needs, &check.unit),
                amount(there, &check.unit)
            ),
        })
    });
    short.collect()
}

/// The checks that ruled the family out with its assist.
fn ruled_out(option: &OptionLine, other: &RankedJob) -> Vec<Cause> {
    let own = (&*option.family, &*option.assist);
    let line = other.study.ruled_out.iter().find(|line| line.pair() == own);
    let fails = line.into_iter().flat_map(|line| &line.fails);
    let cause = |fail: &crate::study::Failing| Cause::Check {
        id: fail.check.clone(),
        by: fail.by.clone(),
    };
    fails.map(cause).collect()
}

/// Limits of another study that an option does not meet.
fn limits(option: &OptionLine, other: &RankedJob) -> Vec<Cause> {
    let broken = other
        .job
        .goals
        .iter()
        .filter_map(|(criterion, Goal { limit, .. })| {
            let row = criterion.row();
            let reaches = option.criteria.get(row.name())?.raw;
            (row.worse_by(*limit, reaches) > 1e-6 * limit.abs()).then(|| Cause::Limit {
                name: row.name().into(),
                reaches,
                limit: goal_text(other, *criterion, "limit"),
                unit: row.unit.into(),
            })
        });
    broken.collect()
}

fn tightest(option: &OptionLine) -> Vec<Cause> {
    let tightest = option.tightest().map(|check| Cause::Tightest {
        id: check.id.to_string(),
        utilisation: check.utilisation,
    });
    tightest.into_iter().collect()
}
