//! `counterpoise rank`: one job, ranked.

use std::path::PathBuf;

use anstyle::Style;
use clap::Args;
use console::Term;

use super::job::Job;
use super::{Failure, Outcome, files};
use crate::problem::Problem;
use crate::report::{Page, screen};
use crate::study::{Declined, study, to_json};
use crate::{catalog, requirements};

/// Columns where there is no terminal.
const WIDTH: usize = 80;
/// Columns past which lines are hard to read.
const WIDEST: usize = 120;

#[derive(Debug, Args)]
pub struct Rank {
    #[command(flatten)]
    job: Job,
    /// Writes the study as JSON to a file, or alone to standard output for -
    #[arg(long, value_name = "OUT")]
    json: Option<PathBuf>,
}

impl Rank {
    /// Reads, ranks, prints.
    pub fn run(&self) -> Result<Outcome, Failure> {
        let bytes = self.job.bytes()?;
        let reading = requirements::read(&bytes, &self.job.sets()?).map_err(Failure::Input)?;
        let catalog = catalog::built_in().map_err(|faults| Failure::Internal(listed(&faults)))?;
        let made = study(&reading, catalog).map_err(|reason| declined(&reason))?;
        if let Some(path) = &self.json {
            files::write(path, &to_json(&made).map_err(Failure::Internal)?)?;
        }
        if self.json.as_deref() != Some("-".as_ref()) {
            files::print(&screen(&made, &reading.requirements, page()))?;
        }
        Ok(Outcome::of(&made))
    }
}

/// The page that standard output is.
pub(super) fn page() -> Page {
    let width = Term::stdout()
        .size_checked()
        .map_or(WIDTH, |(_, columns)| usize::from(columns));
    Page {
        width: width.clamp(40, WIDEST),
        heading: Style::new().bold(),
    }
}

pub(super) fn declined(reason: &Declined) -> Failure {
    match reason {
        Declined::Hinge => Failure::Input(vec![
            Problem::at(
                "motion.kind",
                "is \"hinge\", which this version reads and checks but cannot rank yet",
            )
            .hint("rank a \"slide\" that carries the same load over the actuator's stroke"),
        ]),
    }
}

pub(super) fn listed(faults: &[Problem]) -> String {
    let texts: Vec<String> = faults.iter().map(ToString::to_string).collect();
    format!("the built-in catalog is not sound:\n{}", texts.join("\n"))
}
