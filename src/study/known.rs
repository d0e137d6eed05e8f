//! What one ranking learns that others may use: the air strokes of the same axis.

use std::sync::{Arc, Mutex, PoisonError};

use crate::family::Strokes;
use crate::requirements::{PowerLoss, Requirements, Stops};

/// What is known of jobs that differ in little.
#[derive(Debug, Default)]
pub struct Known(Mutex<Vec<(Requirements, Arc<Strokes>)>>);

impl Known {
    /// The strokes that are known of a job's axis.
    #[must_use]
    pub fn strokes(&self, job: &Requirements) -> Arc<Strokes> {
        let moved = moved(job);
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, strokes)) = known.iter().find(|(other, _)| *other == moved) {
            return Arc::clone(strokes);
        }
        let strokes = Arc::<Strokes>::default();
        known.push((moved, Arc::clone(&strokes)));
        strokes
    }
}

/// A job as far as a stroke looks at it: not at the wants, nor at where the load stops and what it does without power.
fn moved(job: &Requirements) -> Requirements {
    let mut moved = job.clone();
    moved.wants.clear();
    moved.travel_time_must_s = 0.0;
    moved.stops = Stops::Ends;
    moved.power_loss = PowerLoss::Hold;
    moved
}
