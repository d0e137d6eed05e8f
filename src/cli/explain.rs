//! `counterpoise explain`: one option as a calculation sheet.

use clap::Args;

use super::job::Job;
use super::rank::page;
use super::{Failure, RunEnd, files};
use crate::decide::{Resolver, course, proving_plan};
use crate::problem::Problem;
use crate::report::sheet;
use crate::study::{OptionLine, Study, best_of_kinds};

#[derive(Debug, Args)]
pub struct Explain {
    #[command(flatten)]
    job: Job,
    /// The option: its id, or its place in the table of rank
    option: String,
}

impl Explain {
    /// Reads, ranks, prints the sheet.
    pub fn run(&self) -> Result<RunEnd, Failure> {
        self.job.ranked(|resolver| self.show(&resolver))
    }

    fn show(&self, resolver: &Resolver) -> Result<RunEnd, Failure> {
        let study = resolver.study();
        if study.options.is_empty() {
            files::tell(
                "no option meets the limits: rank the file to see what put each family out",
            );
            return Ok(RunEnd::NoneFits);
        }
        let option = self.chosen(study)?;
        let plan = proving_plan(option, resolver.job());
        let course = course(option, resolver.job());
        files::print(&sheet(
            study,
            option,
            resolver.job(),
            &plan,
            course.as_ref(),
            page(),
        ))?;
        Ok(RunEnd::Done)
    }

    fn chosen<'s>(&self, study: &'s Study) -> Result<&'s OptionLine, Failure> {
        let by_id = study.options.iter().find(|option| option.id == self.option);
        let place = || {
            let place: usize = self.option.parse().ok()?;
            best_of_kinds(&study.options).nth(place.checked_sub(1)?)
        };
        by_id.or_else(place).ok_or_else(|| {
            let kinds = best_of_kinds(&study.options).count();
            let ids: Vec<&str> = best_of_kinds(&study.options)
                .take(3)
                .map(|option| option.id.as_str())
                .collect();
            Failure::Input(vec![
                Problem::at(
                    "OPTION",
                    format!("{:?} is no option of this study", self.option),
                )
                .hint(format!(
                    "give a place from 1 to {kinds}, or an id such as {}",
                    ids.join(" or ")
                )),
            ])
        })
    }
}
