//! What every command that makes a study is given: a file and changes to it.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, files};
use crate::catalog;
use crate::decide::{NoStudy, Resolver};
use crate::problem::Problem;
use crate::study::Declined;

/// A requirements file with changes from the command line.
#[derive(Debug, Args)]
pub struct Job {
    /// Requirements file, or - for standard input
    file: PathBuf,
    /// Changes a requirement for this run, such as wants.noise.must="70 dB"; may be given again
    #[arg(long = "set", value_name = "PATH=VALUE")]
    sets: Vec<String>,
}

impl Job {
    /// The file's bytes.
    pub fn bytes(&self) -> Result<Vec<u8>, Failure> {
        files::read(&self.file)
    }

    /// The changes, split at their first equals sign.
    pub fn sets(&self) -> Result<Vec<(String, String)>, Failure> {
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

    /// The file's study, to be made again with changes.
    pub fn resolver<'a>(
        bytes: &'a [u8],
        sets: &'a [(String, String)],
    ) -> Result<Resolver<'a>, Failure> {
        let catalog = catalog::built_in().map_err(|faults| Failure::Internal(listed(&faults)))?;
        Resolver::new(bytes, sets, catalog).map_err(|none| match none {
            NoStudy::Faults(faults) => Failure::Input(faults),
            NoStudy::Declined(reason) => declined(&reason),
        })
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
