//! `counterpoise ask`: guided questions that write a requirements file, then its ranking.

mod replay;
mod terminal;

use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use clap::Args;

use super::job::Job;
use super::rank::page;
use super::shelf::CatalogArgs;
use super::{Failure, RunEnd, files};
use crate::ask::{Draft, Front, Interview, Stop, parts};
use crate::catalog::Catalog;
use crate::decide::{Resolver, compare};
use crate::problem::{Problem, plain};
use crate::report::{compare_screen, screen_in, standing};
use crate::study::RankedJob;

/// Names tried for a file whose name is taken.
const NAMES: usize = 1_000;

#[derive(Debug, Args)]
pub struct AskCommand {
    /// Requirements file to begin or to go on with; without it one is named after what moves
    file: Option<PathBuf>,
    /// Asks one part of a file again and shows what moved in the ranking: job, motion, timing, money, goals or site
    #[arg(long, value_name = "PART")]
    only: Option<String>,
    /// Takes the answers from a file, a line each, as if they were typed, or `question = answer`; - for standard input
    #[arg(long, value_name = "FILE")]
    answers: Option<PathBuf>,
    #[command(flatten)]
    shelf: CatalogArgs,
}

impl AskCommand {
    /// Asks, keeps, ranks, prints.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        self.usage()?;
        let catalog = self.shelf.catalog()?;
        let mut front = self.front()?;
        let draft = self.draft()?;
        let before = self.only.as_ref().and_then(|_| rank(&draft, &catalog).ok());
        let mut path = self.file.clone();
        let mut keep = |draft: &Draft| keep(&mut path, draft);
        let only = self.only.as_deref();
        let mut interview = Interview::new(draft, &catalog, &mut *front, &mut keep, only);
        let end = interview.run();
        let open = interview.open();
        let open: Vec<&str> = open.iter().map(|question| question.id).collect();
        let draft = interview.draft;
        drop(front);
        end.map_err(|stop| stop_failure(&stop, path.as_deref()))?;
        if !open.is_empty() {
            return Err(unfinished(&open, path.as_deref()));
        }
        show_ranking(&draft, before.as_ref(), path.as_deref(), &catalog)
    }

    /// What is wrong with the arguments together.
    fn usage(&self) -> Result<(), Failure> {
        let fault = |problem: Problem| Err(problem.into());
        if self.file.as_deref() == Some(Path::new("-")) {
            return fault(
                Problem::whole("- cannot be asked about: every answer is written to the file")
                    .hint("name a file, such as `counterpoise ask door.json`"),
            );
        }
        let Some(only) = &self.only else {
            return Ok(());
        };
        if self.file.is_none() {
            return fault(
                Problem::at(
                    "--only",
                    "asks a part of a file again, and no file is named",
                )
                .hint("`counterpoise ask door.json --only goals`"),
            );
        }
        if parts().contains(&only.as_str()) {
            return Ok(());
        }
        fault(
            Problem::at("--only", format!("{only:?} is no part of the questions"))
                .hint(format!("the parts are {}", parts().join(", "))),
        )
    }

    /// The terminal, or the answers of a file.
    fn front(&self) -> Result<Box<dyn Front>, Failure> {
        if let Some(path) = &self.answers {
            let bytes = files::read(path, files::REQUIREMENTS)?;
            let text = String::from_utf8(bytes)
                .map_err(|_| Failure::from(Problem::at("--answers", "is not UTF-8")))?;
            return Ok(Box::new(replay::Replay::new(&text)));
        }
        if std::io::stdin().is_terminal() && std::io::stderr().is_terminal() {
            return terminal::Terminal::new().map(|front| Box::new(front) as Box<dyn Front>);
        }
        Err(Failure::from(Problem::whole("ask puts questions on a terminal, and here is none").hint(
                "write a requirements file, whose fields `counterpoise schema requirements` shows, and `counterpoise rank \
                 FILE`; or give the answers, a line each, with --answers FILE",
            )))
    }

    /// The file that is there, or an empty one.
    fn draft(&self) -> Result<Draft, Failure> {
        match &self.file {
            Some(path) if path.exists() || self.only.is_some() => {
                Draft::read(&files::read(path, files::REQUIREMENTS)?).map_err(Failure::Input)
            }
            _ => Ok(Draft::default()),
        }
    }
}

/// Writes the file; one without a name gets that of its title.
fn keep(path: &mut Option<PathBuf>, draft: &Draft) -> Result<(), Stop> {
    let named = path.is_some();
    let path = path.get_or_insert_with(|| free_name(&draft.typed("title").unwrap_or_default()));
    files::write(path, &draft.to_text()).map_err(|failure| match failure {
        Failure::Internal(message) => Stop::Fault(message),
        Failure::Input(problems) => Stop::Fault(problem_lines(&problems)),
    })?;
    if !named {
        files::tell(&format!("  The answers are kept in {}.", path.display()));
    }
    Ok(())
}

/// A file name of a title that no file has yet.
fn free_name(title: &str) -> PathBuf {
    let signs = title.chars().map(|sign| {
        if sign.is_ascii_alphanumeric() {
            sign.to_ascii_lowercase()
        } else {
            '-'
        }
    });
    let words: String = signs.take(60).collect();
    let words: Vec<&str> = words.split('-').filter(|word| !word.is_empty()).collect();
    let stem = if words.is_empty() {
        "requirements".to_owned()
    } else {
        words.join("-")
    };
    let more = (2..NAMES).map(|number| format!("{stem}-{number}.json"));
    let mut names = std::iter::once(format!("{stem}.json")).chain(more);
    let free = names.find(|name| !Path::new(name).exists());
    PathBuf::from(free.unwrap_or_else(|| format!("{stem}.json")))
}

fn problem_lines(problems: &[Problem]) -> String {
    let texts: Vec<String> = problems.iter().map(ToString::to_string).collect();
    texts.join("\n")
}

fn path_text(path: Option<&Path>) -> String {
    path.map_or_else(|| "FILE".into(), |path| plain(&path.display().to_string()))
}

/// Why it stopped, and how to go on.
fn stop_failure(stop: &Stop, path: Option<&Path>) -> Failure {
    let what = match stop {
        Stop::Fault(message) => return Failure::Internal(message.clone()),
        Stop::Left => "stopped before the last question",
        Stop::RanOut => "the answers came to their end before the questions did",
    };
    let problem = Problem::whole(what);
    Failure::from(match path.filter(|path| path.exists()) {
        Some(_) => {
            let file = path_text(path);
            problem.hint(format!(
                "every answer so far is in {file}; `counterpoise ask {file}` goes on"
            ))
        }
        None => problem.hint("nothing was answered, and no file was written"),
    })
}

fn unfinished(open: &[&str], path: Option<&Path>) -> Failure {
    let file = path_text(path);
    let problem = Problem::whole(format!("questions are still open: {}", open.join(", ")));
    Failure::from(problem.hint(format!("`counterpoise ask {file}` goes on")))
}

/// Ranks the file, or shows what moved in its ranking.
fn show_ranking(
    draft: &Draft,
    before: Option<&RankedJob>,
    path: Option<&Path>,
    catalog: &Catalog,
) -> Result<RunEnd, Failure> {
    let now = rank(draft, catalog)?;
    let shows = match before {
        Some(before) => {
            let moved = compare_screen(&compare(before, &now), page());
            format!("{moved}\n{}", standing(&now.job, page()))
        }
        None => screen_in(draft.system(), &now.study, &now.job, page()),
    };
    files::tell("");
    files::print(&shows)?;
    let file = path_text(path);
    files::tell("");
    files::tell(&terminal::paragraph(&format!(
        "All of it is in {file}. `counterpoise rank {file} --full` says more, `counterpoise price {file}` what each \
         requirement costs, `counterpoise ask {file} --only goals` asks the goals again."
    )));
    Ok(RunEnd::of(&now.study))
}

fn rank(draft: &Draft, catalog: &Catalog) -> Result<RankedJob, Failure> {
    let text = draft.to_text();
    Job::resolver(text.as_bytes(), &[], catalog).map(Resolver::into_ranked)
}
