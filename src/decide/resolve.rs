//! Making the study again with the requirements changed, on the value scale of the file as it was.

use super::robustness::robustness;
use crate::catalog::Catalog;
use crate::problem::Problems;
use crate::requirements::{self, Reading, Requirements};
use crate::study::{Attempt, Declined, Study, attempts, study, study_on};

/// A requirements file, its study, and studies of it with changes.
#[derive(Debug)]
pub struct Resolver<'a> {
    bytes: &'a [u8],
    sets: &'a [(String, String)],
    catalog: &'a Catalog,
    reading: Reading,
    study: Study,
}

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
        let mut study = study(&reading, catalog).map_err(NoStudy::Declined)?;
        study.robustness = robustness(&study, &reading.requirements);
        Ok(Self {
            bytes,
            sets,
            catalog,
            reading,
            study,
        })
    }

    /// The job as the file asks it.
    #[must_use]
    pub fn job(&self) -> &Requirements {
        &self.reading.requirements
    }

    /// The parts it is made of.
    #[must_use]
    pub fn catalog(&self) -> &Catalog {
        self.catalog
    }

    /// The study of the file as it is.
    #[must_use]
    pub fn study(&self) -> &Study {
        &self.study
    }

    /// The study of the file as it is, to keep.
    #[must_use]
    pub fn into_study(self) -> Study {
        self.study
    }

    /// The study with more changes, pairs of path and value as for `--set`, worth counted as before them.
    ///
    /// # Errors
    /// Every fault of the changed file; a changed file of a motion that is not ranked has none to tell.
    pub fn with(&self, changes: &[(String, String)]) -> Result<Study, Problems> {
        let all: Vec<_> = self.sets.iter().chain(changes).cloned().collect();
        let reading = requirements::read(self.bytes, &all)?;
        study_on(&reading, &self.job().wants, self.catalog).map_err(|_| Problems::new())
    }

    /// All that a family offers with an assist for the file with more changes, worth counted as before them; nothing for a
    /// changed file with faults.
    #[must_use]
    pub fn attempts(
        &self,
        changes: &[(String, String)],
        family: &str,
        assist: &str,
    ) -> Vec<Attempt> {
        let all: Vec<_> = self.sets.iter().chain(changes).cloned().collect();
        requirements::read(self.bytes, &all).map_or_else(
            |_| Vec::new(),
            |reading| attempts(&reading, &self.job().wants, self.catalog, family, assist),
        )
    }
}
