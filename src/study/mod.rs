//! Requirements × catalog → a ranked study: generate, judge, prune, rank, give reasons.

mod asked;
mod change;
mod criteria;
mod detail;
mod file;
mod generate;
mod judge;
mod known;
mod money;
mod notes;
mod opinion;
mod parallel;
mod pool;
mod prune;
mod reasons;
mod ruled_out;
mod schema;
mod times;
mod words;
mod write;

pub use change::Change;
pub use detail::{AssistDetail, GuideLine};
pub use file::{
    CatalogName, CheckLine, CriterionLine, DemandLine, FORMAT, FirstOfStep, FreshLook, HoursLine,
    MadeLine, OptionDemand, OptionLine, OtherWorth, PartEntry, PriceStep, RequirementPrice,
    Robustness, RunningLine, Study, is_loaded,
};
pub use judge::{Scale, value};
pub use known::Known;
pub use notes::{STANDING, best_of_kinds};
pub use opinion::{ByOrder, NearestIdeal, OverAllWorths, SecondOpinion};
pub use parallel::in_parallel;
pub use pool::{Candidate, Pool};
pub use prune::beats;
pub use reasons::{is_tie, lead};
pub use ruled_out::{Failing, NearMiss, RuledOut};
pub use schema::schema;
pub use times::on_series;
pub use words::{amount, check_name, money, per_cent};
pub use write::to_json;

use crate::catalog::Catalog;
use crate::demand::Assist;
use crate::family::{self, Check};
use crate::requirements::{Reading, Requirements};
use asked::Asked;

/// Why no study could be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Declined {
    /// The motion is a hinge, and the pins of its drive are not given.
    NoPins,
}

/// What stopped the attempts of a family with one sort of assist that failed each set of checks by least, the one that says
/// most first.
///
/// # Errors
/// As [`study`].
pub fn attempts(
    job: &Requirements,
    scale: &Scale,
    catalog: &Catalog,
    known: &Known,
    (family, sort): (&str, &str),
) -> Result<Vec<Vec<Failing>>, Declined> {
    let asked = Asked::new(job, scale, catalog, known)?;
    let assists = asked.assists_of(sort);
    let tried = generate::attempts(family, &asked.base(), &assists, scale);
    let told = |checks: &Vec<Check>| ruled_out::worst_first(job, checks);
    Ok(tried.iter().map(told).collect())
}

/// Ranks every train that the catalog has for the job.
///
/// # Errors
/// [`Declined`] where a hinge has no pins for its drive.
pub fn study(reading: &Reading, catalog: &Catalog) -> Result<Study, Declined> {
    study_on(reading, &reading.requirements.wants, catalog)
}

/// Ranks every train that the catalog has for a changed job on the value scale of the job before the change, so that net
/// worths stay comparable.
///
/// # Errors
/// As [`study`].
pub fn study_on(reading: &Reading, scale: &Scale, catalog: &Catalog) -> Result<Study, Declined> {
    study_knowing(reading, scale, catalog, &Known::default())
}

/// The same, with what is known of the job from elsewhere.
///
/// # Errors
/// As [`study`].
pub fn study_knowing(
    reading: &Reading,
    scale: &Scale,
    catalog: &Catalog,
    known: &Known,
) -> Result<Study, Declined> {
    let job = &reading.requirements;
    let asked = Asked::new(job, scale, catalog, known)?;
    let (base, assists) = (asked.base(), asked.assists());
    let generated = generate::every_train(&base, &assists, scale);
    let mut options = generated.options;
    prune::drop_dominated(job, &mut options);
    options.sort_by(|p, q| {
        q.net_worth
            .total_cmp(&p.net_worth)
            .then_with(|| p.id.cmp(&q.id))
    });
    let mut lines: Vec<OptionLine> = options
        .iter()
        .zip(1..)
        .map(|(option, rank)| {
            // Only what is kept is told why it has its guide: that tries every other sort.
            let guide = family::guide_detail(&base.with(option.assist), &option.train);
            OptionLine {
                guide_detail: guide.map(GuideLine::from),
                ..option.line(rank, job, scale)
            }
        })
        .collect();
    reasons::add(job, &mut lines);
    let demand = asked.book.at(&Assist::None, job.travel_time_must_s);
    let arm = family::structure::about(job, asked.book.axis(), &demand);
    let notes = notes::of(reading, &lines, &generated.ruled_out, arm);
    Ok(Study {
        format: file::FORMAT,
        requirements: reading.document.clone(),
        catalog: CatalogName {
            name: catalog.name.clone(),
            digest: catalog.digest.clone(),
        },
        assumptions: notes.assumptions,
        demand: DemandLine::new(&demand),
        options: lines,
        ruled_out: generated.ruled_out,
        robustness: Vec::new(),
        second_opinion: None,
        requirement_prices: Vec::new(),
        fresh_look: Vec::new(),
        cautions: notes.cautions,
    })
}
