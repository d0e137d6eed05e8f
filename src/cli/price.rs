//! `counterpoise price`: what each requirement costs.

use std::path::PathBuf;

use clap::Args;

use super::job::Job;
use super::rank::page;
use super::{Failure, RunEnd, files};
use crate::decide::{Resolver, prices};
use crate::report::{price_screen, standing};
use crate::study::RankedJob;

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
        let text = || {
            let prices = price_screen(&study, &job, page());
            format!("{prices}\n{}", standing(&job, page()))
        };
        files::put(self.json.as_deref(), &study, text)?;
        Ok(RunEnd::of(&study))
    }
}
