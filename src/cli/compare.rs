//! `counterpoise compare`: what moved between two studies.

use std::path::{Path, PathBuf};

use clap::Args;

use super::job::Job;
use super::rank::page;
use super::shelf::CatalogArgs;
use super::{Failure, RunEnd, files};
use crate::catalog::Catalog;
use crate::decide::compare;
use crate::problem::Problem;
use crate::report::{compare_screen, standing};
use crate::study::RankedJob;

#[derive(Debug, Args)]
pub struct Compare {
    /// Study or requirements file; one of both may be - for standard input
    before: PathBuf,
    /// Study or requirements file to hold against it
    after: PathBuf,
    #[command(flatten)]
    shelf: CatalogArgs,
}

impl Compare {
    /// Reads or makes both studies, prints what moved.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        let input = Path::new("-");
        if self.before == input && self.after == input {
            return Err(Problem::whole("both files cannot come from standard input").into());
        }
        let catalog = self.shelf.catalog()?;
        let before = loaded(&self.before, &catalog)?;
        let after = loaded(&self.after, &catalog)?;
        let moved = compare_screen(&compare(&before, &after), page());
        let text = format!("{moved}\n{}", standing(&after.job, page()));
        files::print(&text)?;
        Ok(RunEnd::of(&after.study))
    }
}

/// A study: read, or made from a requirements file.
fn loaded(path: &Path, catalog: &Catalog) -> Result<RankedJob, Failure> {
    let bytes = files::read(path, files::STUDY)?;
    if RankedJob::is_in(&bytes) {
        return RankedJob::read(&bytes)
            .map_err(|faults| Failure::Input(files::named(path, faults)));
    }
    if files::REQUIREMENTS.is_passed_by(bytes.len()) {
        return Err(files::fault(path, &files::REQUIREMENTS.passed()));
    }
    match Job::resolver(&bytes, &[], catalog) {
        Ok(resolver) => Ok(resolver.into_ranked()),
        Err(Failure::Input(faults)) => Err(Failure::Input(files::named(path, faults))),
        Err(fault) => Err(fault),
    }
}
