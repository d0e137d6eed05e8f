//! What every command that makes a study is given: a file and changes to it.

use std::path::PathBuf;

use clap::Args;

use super::{Failure, files};
use crate::problem::Problem;

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
}
