//! A study file, read back strictly.

use serde::Deserialize;

use super::{FORMAT, Study};
use crate::problem::{Problem, Problems};
use crate::requirements::{self, Requirements};

/// A study with the job that it is of.
#[derive(Debug, Clone)]
pub struct RankedJob {
    /// The job.
    pub job: Requirements,
    /// Its study.
    pub study: Study,
}

#[derive(Deserialize)]
struct Head {
    format: String,
}

impl RankedJob {
    /// Whether bytes are a study file, sound or not.
    pub fn is_in(bytes: &[u8]) -> bool {
        serde_json::from_slice(bytes).is_ok_and(|head: Head| head.format == FORMAT)
    }

    /// Reads a study file.
    ///
    /// # Errors
    /// What is missing or of another kind than a study has it; every fault of its requirements.
    pub fn read(bytes: &[u8]) -> Result<Self, Problems> {
        let study: Study = serde_json::from_slice(bytes).map_err(|fault| {
            vec![
                Problem::at(
                    "",
                    format!("the file is a study that cannot be read: {fault}"),
                )
                .hint("make it again from its requirements file"),
            ]
        })?;
        let document = study.requirements.to_string();
        let reading = requirements::read(document.as_bytes(), &[]).map_err(|faults| {
            let within = |fault: Problem| {
                let path = format!("requirements.{}", fault.path);
                let path = path.trim_end_matches('.').to_owned();
                Problem { path, ..fault }
            };
            faults.into_iter().map(within).collect::<Problems>()
        })?;
        Ok(Self {
            job: reading.requirements,
            study,
        })
    }
}
