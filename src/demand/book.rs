//! Demands remembered: one per assist and travel time.

use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};

use super::{Assist, Axis, Demand};
use crate::requirements::Task;

/// A demand that somebody asked for; whoever comes first works it out, and the others wait for it.
#[derive(Debug)]
struct BookPage {
    assist: Assist,
    travel_time_s: f64,
    demand: OnceLock<Arc<Demand>>,
}

/// The demands of a job, computed once each, whichever thread asks.
#[derive(Debug)]
pub struct Book {
    axis: Axis,
    job: Task,
    pages: Mutex<Vec<Arc<BookPage>>>,
}

impl Book {
    /// For a job.
    pub fn new(job: &Task, axis: Axis) -> Self {
        Self {
            axis,
            job: job.clone(),
            pages: Mutex::default(),
        }
    }
    /// The axis behind.
    pub fn axis(&self) -> &Axis {
        &self.axis
    }
    /// The pages, whichever thread wrote them; one that panicked while it held the lock left whole pages behind.
    fn pages(&self) -> MutexGuard<'_, Vec<Arc<BookPage>>> {
        self.pages.lock().unwrap_or_else(PoisonError::into_inner)
    }
    /// Force that a drive is sized on, as [`Demand::thrust_n`]; the rest of the demand is left alone if it is not known.
    pub fn thrust_n(&self, assist: &Assist, travel_time_s: f64) -> f64 {
        let page = page_of(&self.pages(), assist, travel_time_s);
        match page.as_ref().and_then(|page| page.demand.get()) {
            Some(demand) => demand.thrust_n(),
            None => self.axis.thrust_n(assist, travel_time_s),
        }
    }
    /// The demand with an assist at a travel time.
    pub fn at(&self, assist: &Assist, travel_time_s: f64) -> Arc<Demand> {
        let page = {
            let mut pages = self.pages();
            page_of(&pages, assist, travel_time_s).unwrap_or_else(|| {
                let page = Arc::new(BookPage {
                    assist: *assist,
                    travel_time_s,
                    demand: OnceLock::new(),
                });
                pages.push(Arc::clone(&page));
                page
            })
        };
        // The book is closed again: other pages can be asked for while this one is worked out.
        let work = || Arc::new(self.axis.demand(&self.job, assist, travel_time_s));
        Arc::clone(page.demand.get_or_init(work))
    }
}

/// The page of an assist and time.
#[allow(clippy::float_cmp, reason = "the same design time, to the bit")]
fn page_of(pages: &[Arc<BookPage>], assist: &Assist, travel_time_s: f64) -> Option<Arc<BookPage>> {
    let same =
        |page: &&Arc<BookPage>| page.travel_time_s == travel_time_s && page.assist == *assist;
    pages.iter().find(same).map(Arc::clone)
}
