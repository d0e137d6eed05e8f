//! A job ranked, and ranked again with changes: what one ranking learns others may use, the demands of the same job and the
//! air strokes of the same axis.

use std::sync::{Arc, Mutex, PoisonError};

use super::groundwork::Groundwork;
use super::judge::ValueScale;
use super::ruled_out::{self, Failing};
use super::{Declined, Pool, Study, generate};
use crate::catalog::Catalog;
use crate::demand::{Axis, Book};
use crate::family::site::{Conditions, suiting};
use crate::family::{Check, Strokes};
use crate::requirements::{PowerLoss, Reading, Requirements, Stops, Task};

/// Something that follows from a task, whatever is wanted of its drive.
type Remembered<T> = Mutex<Vec<(Task, Arc<T>)>>;

/// The rankings of a job and of its changes: on one scale of values, so that net values stay comparable, from one catalog, and
/// with what they learn from each other.
#[derive(Debug)]
pub struct Rankings<'c> {
    pub(super) catalog: &'c Catalog,
    pub(super) scale: ValueScale,
    books: Remembered<Book>,
    strokes: Remembered<Strokes>,
    /// Of each site the parts that bear it; none where all of the catalog do.
    suited: Mutex<Vec<(Conditions, Option<Arc<Catalog>>)>>,
}

impl<'c> Rankings<'c> {
    /// From a catalog, on the scale of a job's goals.
    pub fn new(catalog: &'c Catalog, job: &Requirements) -> Self {
        Self {
            catalog,
            scale: job.goals.clone(),
            books: Mutex::default(),
            strokes: Mutex::default(),
            suited: Mutex::default(),
        }
    }

    /// Every drive that the catalog has for a job, ranked.
    ///
    /// # Errors
    /// [`Declined`] where a hinge has no pins for its drive.
    pub fn study(&self, reading: &Reading) -> Result<Study, Declined> {
        Ok(super::ranked(
            reading,
            &Groundwork::new(&reading.requirements, self)?,
        ))
    }

    /// All options of a job, whatever its limits, or those of one family with one sort of assist.
    ///
    /// # Errors
    /// As [`Rankings::study`].
    pub fn pool(&self, job: &Requirements, only: Option<(&str, &str)>) -> Result<Pool, Declined> {
        Ok(Pool::new(&Groundwork::new(job, self)?, only))
    }

    /// What stopped the attempts of a family with one sort of assist that failed each set of checks by least, the one that says
    /// most first.
    ///
    /// # Errors
    /// As [`Rankings::study`].
    pub fn attempts(
        &self,
        job: &Requirements,
        (family, sort): (&str, &str),
    ) -> Result<Vec<Vec<Failing>>, Declined> {
        let asked = Groundwork::new(job, self)?;
        let assists = asked.assists_of(sort);
        let tried = generate::attempts(family, &asked.base(), &assists, asked.by);
        let failing = |checks: &Vec<Check>| ruled_out::worst_first(job, checks);
        Ok(tried.iter().map(failing).collect())
    }

    /// The demands of a job, for whatever is wanted of its drive; none of a hinge without pins.
    pub(super) fn book(&self, job: &Requirements) -> Option<Arc<Book>> {
        let axis = Axis::of(job)?;
        let task = job.task.clone();
        Some(found(&self.books, task, |task| Book::new(task, axis)))
    }

    /// The parts that bear a job's site; none where all of the catalog do.
    pub(super) fn suited(&self, job: &Requirements) -> Option<Arc<Catalog>> {
        let place = Conditions::of(job);
        let mut catalogs = self.suited.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, known)) = catalogs.iter().find(|(other, _)| *other == place) {
            return known.clone();
        }
        let suited = suiting(job, self.catalog).map(Arc::new);
        catalogs.push((place, suited.clone()));
        suited
    }

    /// The strokes that are known of a job's axis, wherever the load stops and whatever it does without power.
    pub(super) fn strokes(&self, job: &Requirements) -> Arc<Strokes> {
        let task = Task {
            stops: Stops::Ends,
            power_loss: PowerLoss::Hold,
            ..job.task.clone()
        };
        found(&self.strokes, task, |_| Strokes::default())
    }
}

/// What is known of a task, or what it is made to be.
fn found<T>(shelf: &Remembered<T>, task: Task, made: impl FnOnce(&Task) -> T) -> Arc<T> {
    let mut shelf = shelf.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, known)) = shelf.iter().find(|(other, _)| *other == task) {
        return Arc::clone(known);
    }
    let new = Arc::new(made(&task));
    shelf.push((task, Arc::clone(&new)));
    new
}
