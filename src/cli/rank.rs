//! `counterpoise rank`: one job, ranked.

use std::path::PathBuf;

use anstyle::Style;
use clap::Args;
use console::Term;

use super::job::Job;
use super::{Failure, RunEnd, files};
use crate::decide::{Resolver, fresh_look, near_misses, prices};
use crate::report::{Page, price_screen, screen};

/// Columns where there is no terminal.
const WIDTH: usize = 80;
/// Columns past which lines are hard to read.
const WIDEST: usize = 120;

#[derive(Debug, Args)]
pub struct RankCommand {
    #[command(flatten)]
    job: Job,
    /// Adds what making the study again tells: what would let each family back in that is ruled out, the job seen
    /// another way, and what each requirement costs
    #[arg(long)]
    full: bool,
    /// Writes the study as JSON to a file, or alone to standard output for -
    #[arg(long, value_name = "OUT")]
    json: Option<PathBuf>,
}

impl RankCommand {
    /// Reads, ranks, prints.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        self.job.ranked(|resolver| self.show(&resolver))
    }

    fn show(&self, resolver: &Resolver) -> Result<RunEnd, Failure> {
        let mut made = resolver.study().clone();
        if self.full {
            near_misses(resolver, &mut made.ruled_out);
            made.fresh_look = fresh_look(resolver);
            made.requirement_prices = prices(resolver);
        }
        let text = || {
            let mut text = screen(&made, resolver.job(), page());
            if self.full {
                text.push('\n');
                text.push_str(&price_screen(&made, resolver.job(), page()));
            }
            text
        };
        files::put(self.json.as_deref(), &made, text)?;
        Ok(RunEnd::of(&made))
    }
}

/// The page that standard output is.
pub(super) fn page() -> Page {
    let width = Term::stdout()
        .size_checked()
        .map_or(WIDTH, |(_, columns)| usize::from(columns));
    Page {
        width: width.clamp(40, WIDEST),
        heading: Style::new().bold(),
    }
}
