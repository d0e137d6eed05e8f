//! Making the study again with the requirements changed, on the value scale of the file as it was.

use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock, PoisonError};

use super::robustness::robustness;
use super::second_opinion::second_opinion;
use crate::catalog::Catalog;
use crate::problem::Problems;
use crate::requirements::{self, Reading, Requirements};
use crate::study::{Change, Contender, Declined, Failing, Pool, RankedJob, Rankings, Study};

/// A requirements file, its study, and studies of it with changes.
#[derive(Debug)]
pub struct Resolver<'a> {
    bytes: &'a [u8],
    sets: &'a [(String, String)],
    catalog: &'a Catalog,
    reading: Reading,
    study: Study,
    /// Of the file as it is and of its changes, worth counted as before them.
    rankings: Rankings<'a>,
    /// The options of the file as it is, whatever its limits; made when they are first asked for.
    pool: OnceLock<Option<Pool>>,
    /// What was first after changes that have been tried.
    firsts: Mutex<BTreeMap<Vec<(String, String)>, First>>,
}

/// The first option of a changed file, if it has one; or the changed file's faults.
pub type First = Result<Option<Contender>, Problems>;

/// Why there is no first study to change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoStudy {
    /// The file has faults.
    Faults(Problems),
    /// The job is not ranked yet.
    Declined(Declined),
}

impl<'a> Resolver<'a> {
    /// Reads the file with its changes from the command line and makes its study.
    ///
    /// # Errors
    /// [`NoStudy`]
    pub fn new(
        bytes: &'a [u8],
        sets: &'a [(String, String)],
        catalog: &'a Catalog,
    ) -> Result<Self, NoStudy> {
        let reading = requirements::read(bytes, sets).map_err(NoStudy::Faults)?;
        let rankings = Rankings::new(catalog, &reading.requirements);
        let mut study = rankings.study(&reading).map_err(NoStudy::Declined)?;
        study.robustness = robustness(&study, &reading.requirements);
        study.second_opinion = second_opinion(&study, &reading.requirements);
        Ok(Self {
            bytes,
            sets,
            catalog,
            reading,
            study,
            rankings,
            pool: OnceLock::new(),
            firsts: Mutex::default(),
        })
    }

    /// The job as the file asks it.
    pub fn job(&self) -> &Requirements {
        &self.reading.requirements
    }

    /// The parts it is made of.
    pub fn catalog(&self) -> &Catalog {
        self.catalog
    }

    /// The study of the file as it is.
    pub fn study(&self) -> &Study {
        &self.study
    }

    /// The job and its study as the file is, to keep.
    pub fn into_ranked(self) -> RankedJob {
        RankedJob {
            job: self.reading.requirements,
            study: self.study,
        }
    }

    /// The file with more changes, pairs of path and value as for `--set`, read.
    fn changed(&self, sets: &[(String, String)]) -> Result<Reading, Problems> {
        let all: Vec<_> = self.sets.iter().chain(sets).cloned().collect();
        requirements::read(self.bytes, &all)
    }

    /// The study with more changes, pairs of path and value as for `--set`, worth counted as before them.
    ///
    /// # Errors
    /// Every fault of the changed file; a changed file of a motion that is not ranked has none to tell.
    pub fn with(&self, sets: &[(String, String)]) -> Result<Study, Problems> {
        let reading = self.changed(sets)?;
        self.rankings.study(&reading).map_err(|_| Problems::new())
    }

    /// The first option of [`Resolver::with`], found without what else a study holds.
    ///
    /// `spare` holds the options that were made last, for changes that differ in their limits only.
    ///
    /// # Errors
    /// As [`Resolver::with`].
    pub fn first(&self, changes: &[Change], spare: &mut Option<Pool>) -> First {
        let firsts = || self.firsts.lock().unwrap_or_else(PoisonError::into_inner);
        let sets = as_sets(changes);
        if let Some(known) = firsts().get(&sets) {
            return known.clone();
        }
        let first = self.best_of_kinds(changes, spare, |kinds| {
            kinds.first().map(|first| (*first).clone())
        });
        firsts().insert(sets, first.clone());
        first
    }

    /// The best of each drive type of the file with more changes, in the order of the ranking.
    ///
    /// # Errors
    /// As [`Resolver::with`].
    pub fn best_of_kinds<T>(
        &self,
        changes: &[Change],
        spare: &mut Option<Pool>,
        look: impl FnOnce(&[&Contender]) -> T,
    ) -> Result<T, Problems> {
        let job = self.changed(&as_sets(changes))?.requirements;
        let own = || self.rankings.pool(self.job(), None).ok();
        let pool = self.pool.get_or_init(own).as_ref();
        if let Some(pool) = pool.filter(|pool| pool.serves(&job)) {
            return Ok(look(&pool.best_of_kinds(&job)));
        }
        if spare.as_ref().is_none_or(|pool| !pool.serves(&job)) {
            let made = self.rankings.pool(&job, None);
            *spare = Some(made.map_err(|_| Problems::new())?);
        }
        let kinds = spare.as_ref().map(|pool| pool.best_of_kinds(&job));
        Ok(look(&kinds.unwrap_or_default()))
    }

    /// What stopped the attempts of a family with an assist for the file with more changes, the one that says most first;
    /// none for a changed file with faults.
    pub fn attempts(&self, changes: &[Change], pair: (&str, &str)) -> Option<Vec<Vec<Failing>>> {
        let job = self.changed(&as_sets(changes)).ok()?.requirements;
        self.rankings.attempts(&job, pair).ok()
    }

    /// All that a family offers with an assist for the file with more changes, whatever its limits, worth counted as before
    /// the changes; none for a changed file with faults.
    pub fn pair(&self, changes: &[Change], pair: (&str, &str)) -> Option<(Requirements, Pool)> {
        let job = self.changed(&as_sets(changes)).ok()?.requirements;
        let pool = self.rankings.pool(&job, Some(pair)).ok()?;
        Some((job, pool))
    }
}

fn as_sets(changes: &[Change]) -> Vec<(String, String)> {
    changes.iter().map(Change::as_set).collect()
}
