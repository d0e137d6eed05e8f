//! `counterpoise rank`: one job, ranked.

use std::path::PathBuf;

use anstyle::Style;
use clap::Args;
use console::Term;

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
    /// Requirements file, or - for standard input
    file: PathBuf,
    /// Changes a requirement for this run, such as wants.noise.must="70 dB"; may be given again
    #[arg(long = "set", value_name = "PATH=VALUE")]
    sets: Vec<String>,
    /// Writes the study as JSON to a file, or alone to standard output for -
    #[arg(long, value_name = "OUT")]
    json: Option<PathBuf>,
}

impl Rank {
    /// Reads, ranks, prints.
    pub fn run(&self) -> Result<Outcome, Failure> {
        let bytes = files::read(&self.file)?;
        let reading = requirements::read(&bytes, &self.sets()?).map_err(Failure::Input)?;
        let catalog = catalog::built_in().map_err(|faults| Failure::Internal(listed(&faults)))?;
        let made = study(&reading, catalog).map_err(|reason| declined(&reason))?;
        if let Some(path) = &self.json {
            files::write(path, &to_json(&made).map_err(Failure::Internal)?)?;
        }
        if self.json.as_deref() != Some("-".as_ref()) {
            let width = Term::stdout()
                .size_checked()
                .map_or(WIDTH, |(_, columns)| usize::from(columns));
            let page = Page {
                width: width.clamp(40, WIDEST),
                heading: Style::new().bold(),
            };
            files::print(&screen(&made, &reading.requirements, page))?;
        }
        Ok(if made.options.is_empty() {
            Outcome::NoneFits
        } else {
            Outcome::Ranked
        })
    }

    /// The changes, split at their first equals sign.
    fn sets(&self) -> Result<Vec<(String, String)>, Failure> {
        let split = |text: &String| {
            text.split_once('=')
                .map(|(path, value)| (path.trim().to_owned(), value.trim().to_owned()))
                .ok_or_else(|| {
                    Problem::at("--set", format!("{text:?} has no equals sign"))
                        .hint("write --set path=value, such as --set wants.noise.must=\"70 dB\"")
                })
        };
        let (good, bad): (Vec<_>, Vec<_>) = self.sets.iter().map(split).partition(Result::is_ok);
        let faults: Vec<_> = bad.into_iter().filter_map(Result::err).collect();
        if faults.is_empty() {
            Ok(good.into_iter().filter_map(Result::ok).collect())
        } else {
            Err(Failure::Input(faults))
        }
    }
}

fn declined(reason: &Declined) -> Failure {
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

fn listed(faults: &[Problem]) -> String {
    let texts: Vec<String> = faults.iter().map(ToString::to_string).collect();
    format!("the built-in catalog is not sound:\n{}", texts.join("\n"))
}
