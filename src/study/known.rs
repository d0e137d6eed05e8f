//! What one ranking learns that others may use: the demands of the same job, and the air strokes of the same axis.

use std::sync::{Arc, Mutex, PoisonError};

use crate::demand::{Axis, Book};
use crate::family::Strokes;
use crate::requirements::{PowerLoss, Requirements, Stops};

/// Something that follows from a job as far as it looks at it.
type Shelf<T> = Mutex<Vec<(Requirements, Arc<T>)>>;

/// What is known of jobs that differ in little.
#[derive(Debug, Default)]
pub struct Known {
    books: Shelf<Book>,
    strokes: Shelf<Strokes>,
}

impl Known {
    /// The demands of a job, for whatever is wanted of its drive; none of a hinge without pins.
    #[must_use]
    pub fn book(&self, job: &Requirements) -> Option<Arc<Book>> {
        let job = unwanting(job);
        let axis = Axis::of(&job)?;
        Some(found(&self.books, job, |job| Book::new(job, axis)))
    }

    /// The strokes that are known of a job's axis, wherever the load stops and whatever it does without power.
    #[must_use]
    pub fn strokes(&self, job: &Requirements) -> Arc<Strokes> {
        let mut job = unwanting(job);
        job.stops = Stops::Ends;
        job.power_loss = PowerLoss::Hold;
        found(&self.strokes, job, |_| Strokes::default())
    }
}

/// A job without its wants.
fn unwanting(job: &Requirements) -> Requirements {
    let mut job = job.clone();
    job.wants.clear();
    job.travel_time_must_s = 0.0;
    job
}

/// What is known of a job, or what it is made to be.
fn found<T>(shelf: &Shelf<T>, job: Requirements, made: impl FnOnce(&Requirements) -> T) -> Arc<T> {
    let mut shelf = shelf.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, known)) = shelf.iter().find(|(other, _)| *other == job) {
        return Arc::clone(known);
    }
    let new = Arc::new(made(&job));
    shelf.push((job, Arc::clone(&new)));
    new
}
