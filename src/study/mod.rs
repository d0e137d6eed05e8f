//! Requirements × catalog → a ranked study: generate, judge, prune, rank, give reasons.

mod change;
mod criteria;
mod detail;
mod file;
mod generate;
mod groundwork;
mod judge;
mod money;
mod notes;
mod opinion;
mod parallel;
mod pool;
mod prune;
mod rankings;
mod read;
mod reasons;
mod ruled_out;
mod schema;
mod times;
mod words;
mod write;

pub use change::Change;
pub use detail::{AssistDetail, GuideLine};
pub use file::{
    CatalogName, CheckLine, CriterionLine, CustomLine, DemandLine, FORMAT, FirstOfStep, FreshLook,
    HoursLine, Label, OptionDemand, OptionLine, OtherWorth, PartEntry, PriceStep, RequirementPrice,
    Robustness, RunningLine, Study, is_loaded,
};
pub use judge::value;
pub use notes::{STANDING, best_of_kinds};
pub use opinion::{ByOrder, NearestIdeal, OverAllWorths, SecondOpinion};
pub use parallel::in_parallel;
pub use pool::{Contender, Pool};
pub use rankings::Rankings;
pub use read::RankedJob;
pub use reasons::{is_tie, lead};
pub use ruled_out::{Failing, NearMiss, RuledOut};
pub use schema::schema;
pub use times::on_series;
pub use words::{amount, check_name, family_words, money, per_cent};
pub use write::to_json;

use crate::catalog::Catalog;
use crate::demand::Assist;
use crate::family;
use crate::requirements::Reading;
use groundwork::Groundwork;

/// Why no study could be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Declined {
    /// The motion is a hinge, and the pins of its drive are not given.
    NoPins,
}

/// Ranks every drive that the catalog has for the job.
///
/// # Errors
/// [`Declined`] where a hinge has no pins for its drive.
pub fn study(reading: &Reading, catalog: &Catalog) -> Result<Study, Declined> {
    Rankings::new(catalog, &reading.requirements).study(reading)
}

/// The study of a job.
fn ranked(reading: &Reading, asked: &Groundwork) -> Study {
    let (job, catalog) = (&reading.requirements, asked.all_parts());
    let (base, assists) = (asked.base(), asked.assists());
    let generated = generate::every_train(&base, &assists, asked.by);
    let mut options = generated.options;
    prune::drop_dominated(job, &mut options);
    options.sort_by(|p, q| {
        q.net_value
            .total_cmp(&p.net_value)
            .then_with(|| p.id.cmp(&q.id))
    });
    let mut lines: Vec<OptionLine> = options
        .iter()
        .zip(1..)
        .map(|(option, rank)| {
            // Only what is kept is told why it has its guide: that tries every other sort.
            let guide = family::guide_detail(&base.with(option.assist), &option.drive);
            OptionLine {
                guide_detail: guide.map(GuideLine::from),
                ..option.line(rank, asked.by)
            }
        })
        .collect();
    reasons::add(job, &mut lines);
    let demand = asked.book.at(&Assist::None, job.travel_time_limit_s);
    let arm = family::structure::remark(job, asked.book.axis(), &demand);
    let notes = notes::study_notes(reading, &lines, &generated.ruled_out, arm);
    Study {
        format: file::FORMAT.into(),
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
    }
}
