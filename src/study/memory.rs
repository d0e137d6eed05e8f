//! What one ranking learns that others may use: the demands of the same job, and the air strokes of the same axis.

use std::sync::{Arc, Mutex, PoisonError};

use crate::catalog::{Catalog, Ingress};
use crate::demand::{Axis, Book};
use crate::family::Strokes;
use crate::family::site::{ingress_asked, suiting};
use crate::quantity::Si;
use crate::requirements::{PowerLoss, Requirements, Stops, Task};

/// Something that follows from a task, whatever is wanted of its drive.
type Remembered<T> = Mutex<Vec<(Task, Arc<T>)>>;

/// What is known of jobs that differ in little.
#[derive(Debug, Default)]
pub struct Memory {
    books: Remembered<Book>,
    strokes: Remembered<Strokes>,
    /// Of each site the parts that bear it; none where all of the catalog do.
    catalogs: Mutex<Vec<(Surroundings, Option<Arc<Catalog>>)>>,
}

/// What a site asks of every part.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Surroundings {
    protection: Ingress,
    /// Coldest and hottest, K, by their bits.
    heat: [u64; 2],
    explosive: bool,
}

impl Memory {
    /// The demands of a job, for whatever is wanted of its drive; none of a hinge without pins.
    #[must_use]
    pub fn book(&self, job: &Requirements) -> Option<Arc<Book>> {
        let axis = Axis::of(job)?;
        let task = job.task.clone();
        Some(found(&self.books, task, |task| Book::new(task, axis)))
    }

    /// The parts of a catalog that bear a job's site; none where all do.
    ///
    /// It is the one catalog of all that is known here.
    #[must_use]
    pub fn suited(&self, job: &Requirements, catalog: &Catalog) -> Option<Arc<Catalog>> {
        let site = &job.site;
        let heat = [site.coldest, site.hottest].map(|heat| heat.si().to_bits());
        let place = Surroundings {
            protection: ingress_asked(job),
            heat,
            explosive: site.explosive_atmosphere,
        };
        let mut catalogs = self.catalogs.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, known)) = catalogs.iter().find(|(other, _)| *other == place) {
            return known.clone();
        }
        let suited = suiting(job, catalog).map(Arc::new);
        catalogs.push((place, suited.clone()));
        suited
    }

    /// The strokes that are known of a job's axis, wherever the load stops and whatever it does without power.
    #[must_use]
    pub fn strokes(&self, job: &Requirements) -> Arc<Strokes> {
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
