//! What every command that makes a study is given: a file and changes to it.

use std::path::PathBuf;

use clap::Args;

use super::shelf::CatalogArgs;
use super::{Failure, files};
use crate::catalog::Catalog;
use crate::decide::{NoStudy, Resolver};
use crate::problem::Problem;
use crate::requirements::concerns;
use crate::study::Declined;

/// A requirements file with changes from the command line.
#[derive(Debug, Args)]
pub struct Job {
    /// Requirements file, or - for standard input
    file: PathBuf,
    /// Changes a requirement for this run, such as goals.noise.limit="70 dB"; may be given again
    #[arg(long = "set", value_name = "PATH=VALUE")]
    sets: Vec<String>,
    #[command(flatten)]
    shelf: CatalogArgs,
}

impl Job {
    /// Reads the file and hands its study to a command, to be made again with changes.
    pub fn ranked<T>(
        &self,
        command: impl FnOnce(Resolver) -> Result<T, Failure>,
    ) -> Result<T, Failure> {
        let bytes = files::read(&self.file, files::REQUIREMENTS)?;
        let sets = self.sets()?;
        let catalog = self.shelf.catalog()?;
        let resolver =
            Self::resolver(&bytes, &sets, &catalog).map_err(|failure| match failure {
                // What was typed after --set is no fault of the file.
                Failure::Input(faults) => {
                    let (typed, faults): (Vec<_>, Vec<_>) = faults
                        .into_iter()
                        .partition(|fault| concerns(&sets, &fault.path));
                    let faults = files::named(&self.file, faults);
                    Failure::Input(typed.into_iter().chain(faults).collect())
                }
                failure @ Failure::Internal(_) => failure,
            })?;
        command(resolver)
    }

    /// The changes, split at their first equals sign.
    fn sets(&self) -> Result<Vec<(String, String)>, Failure> {
        let split = |text: &String| {
            text.split_once('=')
                .map(|(path, value)| (path.trim().to_owned(), value.trim().to_owned()))
                .ok_or_else(|| {
                    Problem::at("--set", format!("{text:?} has no equals sign"))
                        .hint("write --set path=value, such as --set goals.noise.limit=\"70 dB\"")
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

    /// The file's study, to be made again with changes.
    pub fn resolver<'a>(
        bytes: &'a [u8],
        sets: &'a [(String, String)],
        catalog: &'a Catalog,
    ) -> Result<Resolver<'a>, Failure> {
        Resolver::new(bytes, sets, catalog).map_err(|none| match none {
            NoStudy::Faults(faults) => Failure::Input(faults),
            NoStudy::Declined(reason) => declined(&reason),
        })
    }
}

fn declined(reason: &Declined) -> Failure {
    match reason {
        Declined::NoPins => Failure::from(Problem::at(
                "motion.anchors",
                "is missing: what a hinge asks of its drive hangs on where the drive is pinned",
            )
            .hint("measure from the hinge, with the arm level: level and upright to a pin on the base and to a pin on the arm, such as \"anchors\": { \"base\": [\"300 mm\", \"-300 mm\"], \"arm\": [\"350 mm\", \"0 mm\"] }")),
    }
}
