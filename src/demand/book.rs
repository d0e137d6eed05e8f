//! Demands remembered: one per assist and travel time.

use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::{Assist, Axis, Demand};
use crate::requirements::{Requirements, Slide};

/// A demand that somebody asked for; whoever comes first works it out, and the others wait for it.
#[derive(Debug)]
struct Page {
    assist: Assist,
    travel_time_s: f64,
    demand: OnceLock<Arc<Demand>>,
}

/// The demands of a job, computed once each, whichever thread asks.
#[derive(Debug)]
pub struct Book {
    axis: Axis,
    job: Requirements,
    pages: Mutex<Vec<Arc<Page>>>,
}

impl Book {
    /// For a job.
    #[must_use]
    pub fn new(job: &Requirements, slide: &Slide) -> Self {
        Self {
            axis: Axis::new(job, slide),
            job: job.clone(),
            pages: Mutex::default(),
        }
    }
    /// The axis behind.
    #[must_use]
    pub fn axis(&self) -> &Axis {
        &self.axis
    }
    /// The page of an assist and time; a fresh one where `fresh`.
    #[allow(clippy::float_cmp, reason = "the same design time, to the bit")]
    fn page(&self, assist: &Assist, travel_time_s: f64, fresh: bool) -> Option<Arc<Page>> {
        // A thread that panicked while it held the lock left whole pages behind.
        let mut pages = self.pages.lock().unwrap_or_else(PoisonError::into_inner);
        let same =
            |page: &&Arc<Page>| page.travel_time_s == travel_time_s && page.assist == *assist;
        if let Some(page) = pages.iter().find(same) {
            return Some(Arc::clone(page));
        }
        fresh.then(|| {
            let page = Arc::new(Page {
                assist: *assist,
                travel_time_s,
                demand: OnceLock::new(),
            });
            pages.push(Arc::clone(&page));
            page
        })
    }
    /// Force that a drive is sized on, as [`Demand::thrust_n`]; the rest of the demand is left alone if it is not known.
    #[must_use]
    pub fn thrust_n(&self, assist: &Assist, travel_time_s: f64) -> f64 {
        let page = self.page(assist, travel_time_s, false);
        match page.as_ref().and_then(|page| page.demand.get()) {
            Some(demand) => demand.thrust_n(),
            None => self.axis.thrust_n(assist, travel_time_s),
        }
    }
    /// The demand with an assist at a travel time.
    #[must_use]
    pub fn at(&self, assist: &Assist, travel_time_s: f64) -> Arc<Demand> {
        let work = || Arc::new(self.axis.demand(&self.job, assist, travel_time_s));
        match self.page(assist, travel_time_s, true) {
            Some(page) => Arc::clone(page.demand.get_or_init(work)),
            None => work(),
        }
    }
}
