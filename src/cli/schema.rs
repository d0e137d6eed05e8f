//! `counterpoise schema`: what the files look like, for editors and other programs.

use clap::{Args, ValueEnum};

use super::{Failure, RunEnd, files};
use crate::{catalog, requirements, study};

#[derive(Debug, Args)]
pub struct Schema {
    /// Which file
    #[arg(value_enum)]
    of: Of,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Of {
    /// The requirements that are ranked
    Requirements,
    /// The study that `--json` writes
    Study,
    /// A file of parts
    Catalog,
}

impl Schema {
    /// Prints it to standard output.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        let schema = match self.of {
            Of::Requirements => requirements::schema(),
            Of::Study => study::schema(),
            Of::Catalog => catalog::schema(),
        };
        files::print(&format!("{schema:#}\n"))?;
        Ok(RunEnd::Done)
    }
}
