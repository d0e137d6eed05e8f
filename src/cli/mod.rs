//! The command line: the only code that touches files, terminal and environment.

mod ask;
mod catalog;
mod compare;
mod explain;
mod files;
mod job;
mod price;
mod rank;
mod schema;
mod shelf;

pub use files::tell;

use clap::{Parser, Subcommand};

use crate::problem::Problems;
use crate::study::Study;

/// Chooses a drive for a machine that moves: from requirements to a ranked, priced study.
#[derive(Debug, Parser)]
#[command(name = "counterpoise", version, max_term_width = 100)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Asks what is needed, writes the requirements file after every answer, goes on where it stopped, then ranks.
    Ask(ask::AskCommand),
    /// Ranks every drive that the parts catalog has for a job.
    Rank(rank::RankCommand),
    /// Explains one option as a calculation sheet: every check with its formula, numbers and source.
    Explain(explain::Explain),
    /// Shows what moved between two studies or requirements files, and what moved it.
    Compare(compare::Compare),
    /// Shows what each requirement costs: every one of them relaxed and tightened, step by step.
    Price(price::Price),
    /// Prints what a file looks like, as JSON Schema (draft 2020-12).
    Schema(schema::Schema),
    /// Lists the parts there are, and checks a catalog of one's own.
    Catalog(catalog::CatalogCommand),
}

/// How a run ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RunEnd {
    /// What was asked is done.
    Done,
    /// The study was made and no option meets the limits.
    NoneFits,
}

impl RunEnd {
    fn of(study: &Study) -> Self {
        if study.options.is_empty() {
            Self::NoneFits
        } else {
            Self::Done
        }
    }
}

/// Why a run fails.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Failure {
    /// A fault of the input or its use: exit 2.
    Input(Problems),
    /// A fault of ours or of the machine: exit 1.
    Internal(String),
}

/// Runs a command.
///
/// # Errors
/// [`Failure`], to be printed on standard error.
pub fn run(arguments: &Arguments) -> Result<RunEnd, Failure> {
    match &arguments.command {
        Command::Ask(ask) => ask.run(),
        Command::Rank(rank) => rank.run(),
        Command::Explain(explain) => explain.run(),
        Command::Compare(compare) => compare.run(),
        Command::Price(price) => price.run(),
        Command::Schema(schema) => schema.run(),
        Command::Catalog(catalog) => catalog.run(),
    }
}
