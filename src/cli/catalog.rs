//! `counterpoise catalog`: the parts there are, and whether a folder of one's own is sound.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::rank::page;
use super::shelf::stock;
use super::{Failure, RunEnd, files};
use crate::catalog::{COMMON, PartsOfKind, Selection, to_csv, to_file, unknown_field};
use crate::report::{checked_screen, found_screen, kinds_screen, parts_screen, standing_alone};

#[derive(Debug, Args)]
pub struct CatalogCommand {
    #[command(subcommand)]
    action: CatalogAction,
}

#[derive(Debug, Subcommand)]
enum CatalogAction {
    /// Lists the parts: all kinds, or those of one kind, or those that are like what is asked for
    List(List),
    /// Checks a folder of parts of one's own and says every fault of every file
    Check {
        /// Folder of parts of one's own
        #[arg(value_name = "DIR")]
        folder: PathBuf,
    },
}

#[derive(Debug, Args)]
struct List {
    /// Folder of parts of one's own, listed with the built-in ones
    #[arg(value_name = "DIR")]
    folder: Option<PathBuf>,
    /// Only parts of a kind, such as ropes
    #[arg(long)]
    kind: Option<String>,
    /// Only parts with these words in their id or name
    #[arg(long, value_name = "WORDS")]
    find: Vec<String>,
    /// Only parts with a field so, such as "bore>=40 mm"; may be given again
    #[arg(long = "where", value_name = "BOUND")]
    bounds: Vec<String>,
    /// Fields to show, with commas between
    #[arg(long, value_delimiter = ',', value_name = "NAMES", requires = "kind", conflicts_with_all = ["csv", "json"])]
    fields: Vec<String>,
    /// Writes the parts of one kind as a CSV file that --catalog reads
    #[arg(long, conflicts_with = "json", requires = "kind")]
    csv: bool,
    /// Writes the parts of one kind as a JSON file that --catalog reads
    #[arg(long, requires = "kind")]
    json: bool,
}

impl CatalogCommand {
    /// Lists or checks.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        match &self.action {
            CatalogAction::List(list) => list.run(),
            CatalogAction::Check { folder } => {
                let stock = stock(Some(folder))?;
                let folder = folder.display().to_string();
                files::print(&checked_screen(&folder, stock.files(), page()))?;
                Ok(RunEnd::Done)
            }
        }
    }
}

impl List {
    fn run(&self) -> Result<RunEnd, Failure> {
        let asked = Selection::new(self.kind.as_deref(), &self.find, &self.bounds)
            .map_err(Failure::Input)?;
        let stock = stock(self.folder.as_deref())?;
        let chosen = asked.of(&stock);
        let shows = match chosen.as_slice() {
            // Files that are read again have no place for the standing line.
            [one] if self.csv => to_csv(one).map_err(Failure::Internal)?,
            [one] if self.json => to_file(one),
            [one] if asked.kind().is_some() => {
                self.known_fields(one)?;
                parts_screen(one, &self.fields, self.folder.is_some(), page())
                    + &standing_alone(page())
            }
            several if asked.narrows() => found_screen(several, page()) + &standing_alone(page()),
            several => kinds_screen(&stock.name, several, page()) + &standing_alone(page()),
        };
        files::print(&shows)?;
        Ok(RunEnd::Done)
    }

    fn known_fields(&self, chosen: &PartsOfKind) -> Result<(), Failure> {
        let fields = || COMMON.iter().chain(chosen.kind.fields);
        let unknown = self
            .fields
            .iter()
            .filter(|name| fields().all(|field| field.name != name.as_str()));
        let faults: Vec<_> = unknown
            .map(|name| unknown_field("--fields", name, Some(chosen.kind)))
            .collect();
        if faults.is_empty() {
            Ok(())
        } else {
            Err(Failure::Input(faults))
        }
    }
}
