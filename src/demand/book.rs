//! Demands remembered: one per assist and travel time.

use std::cell::RefCell;
use std::rc::Rc;

use super::{Assist, Axis, Demand};
use crate::requirements::{Requirements, Slide};

/// The demands of a job, computed once each.
#[derive(Debug)]
pub struct Book {
    axis: Axis,
    job: Requirements,
    pages: RefCell<Vec<(Assist, f64, Rc<Demand>)>>,
}

impl Book {
    /// For a job.
    #[must_use]
    pub fn new(job: &Requirements, slide: &Slide) -> Self {
        Self {
            axis: Axis::new(job, slide),
            job: job.clone(),
            pages: RefCell::default(),
        }
    }
    /// The axis behind.
    #[must_use]
    pub fn axis(&self) -> &Axis {
        &self.axis
    }
    #[allow(clippy::float_cmp, reason = "the same design time, to the bit")]
    fn found(&self, assist: &Assist, travel_time_s: f64) -> Option<Rc<Demand>> {
        self.pages
            .borrow()
            .iter()
            .find(|page| page.1 == travel_time_s && page.0 == *assist)
            .map(|page| Rc::clone(&page.2))
    }
    /// Force that a drive is sized on, as [`Demand::thrust_n`]; the rest of the demand is left alone if it is not known.
    #[must_use]
    pub fn thrust_n(&self, assist: &Assist, travel_time_s: f64) -> f64 {
        match self.found(assist, travel_time_s) {
            Some(demand) => demand.thrust_n(),
            None => self.axis.thrust_n(assist, travel_time_s),
        }
    }
    /// The demand with an assist at a travel time.
    #[must_use]
    pub fn at(&self, assist: &Assist, travel_time_s: f64) -> Rc<Demand> {
        if let Some(demand) = self.found(assist, travel_time_s) {
            return demand;
        }
        let demand = Rc::new(self.axis.demand(&self.job, assist, travel_time_s));
        self.pages
            .borrow_mut()
            .push((*assist, travel_time_s, Rc::clone(&demand)));
        demand
    }
}
