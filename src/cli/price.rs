//! `counterpoise price`: what each requirement costs.

use std::path::PathBuf;

use clap::Args;

use super::job::Job;
use super::rank::page;
use super::{Failure, RunEnd, files};
use crate::decide::{Resolver, prices};
use crate::report::{price_screen, standing};
use crate::study::{RankedJob, to_json};

#[derive(Debug, Args)]
pub struct Price {
    #[command(flatten)]
    job: Job,
    /// Writes the study with its prices as JSON to a file, or alone to standard output for -
    #[arg(long, value_name = "OUT")]
    json: Option<PathBuf>,
}

impl Price {
    /// Reads, makes the study at every step, prints.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        self.job.ranked(|resolver| self.show(resolver))
    }

    fn show(&self, resolver: Resolver) -> Result<RunEnd, Failure> {
        let prices = prices(&resolver);
        let RankedJob { job, mut study } = resolver.into_ranked();
        study.requirement_prices = prices;
        if let Some(path) = &self.json {
            files::write(path, &to_json(&study).map_err(Failure::Internal)?)?;
        }
        if self.json.as_deref() != Some("-".as_ref()) {
            let prices = price_screen(&study, &job, page());
            let text = format!("{prices}\n{}", standing(&job, page()));
            files::print(&text)?;
        }
        Ok(RunEnd::of(&study))
    }
}
