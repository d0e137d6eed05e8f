//! `counterpoise compare`: what moved between two studies.

use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::Value;

use super::job::Job;
use super::rank::page;
use super::shelf::Shelf;
use super::{Failure, Outcome, files};
use crate::catalog::Catalog;
use crate::decide::compare;
use crate::problem::Problem;
use crate::report::compare_screen;
use crate::study::{FORMAT, to_json};

#[derive(Debug, Args)]
pub struct Compare {
    /// Study or requirements file; one of both may be - for standard input
    before: PathBuf,
    /// Study or requirements file to hold against it
    after: PathBuf,
    #[command(flatten)]
    shelf: Shelf,
}

impl Compare {
    /// Reads or makes both studies, prints what moved.
    pub fn run(&self) -> Result<Outcome, Failure> {
        let input = Path::new("-");
        if self.before == input && self.after == input {
            return Err(Failure::Input(vec![Problem::at(
                "",
                "both files cannot come from standard input",
            )]));
        }
        let catalog = self.shelf.catalog()?;
        let (before, after) = (
            loaded(&self.before, &catalog)?,
            loaded(&self.after, &catalog)?,
        );
        files::print(&compare_screen(&compare(&before, &after), page()))?;
        let options = after.get("options").and_then(Value::as_array);
        Ok(if options.is_none_or(Vec::is_empty) {
            Outcome::NoneFits
        } else {
            Outcome::Done
        })
    }
}

/// A study as a file holds it: read, or made from a requirements file.
fn loaded(path: &Path, catalog: &Catalog) -> Result<Value, Failure> {
    let bytes = files::read(path, files::STUDY)?;
    let parsed: Option<Value> = serde_json::from_slice(&bytes).ok();
    if let Some(study) =
        parsed.filter(|value| value.get("format").and_then(Value::as_str) == Some(FORMAT))
    {
        return Ok(study);
    }
    if files::REQUIREMENTS.is_passed_by(bytes.len()) {
        return Err(files::fault(path, &files::REQUIREMENTS.passed()));
    }
    let resolver = Job::resolver(&bytes, &[], catalog).map_err(|failure| match failure {
        Failure::Input(faults) => Failure::Input(
            faults
                .into_iter()
                .map(|mut fault| {
                    fault.path = format!("{}: {}", path.display(), fault.path);
                    fault
                })
                .collect(),
        ),
        fault @ Failure::Internal(_) => fault,
    })?;
    let text = to_json(resolver.study()).map_err(Failure::Internal)?;
    serde_json::from_str(&text).map_err(|fault| Failure::Internal(fault.to_string()))
}
