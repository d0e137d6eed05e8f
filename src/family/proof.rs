//! What proves a built drive, as data: what to measure, where, and the reading to expect.

use super::sentence::{Figure, Sentence, Words};

/// What sets the pace of a drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// The law of motion, which a controlled drive follows.
    Law,
    /// The drive itself: it runs to its ends as fast as its medium lets it, and stops at no set place.
    Medium,
    /// Somebody's hand.
    Hand,
}

/// When a reading is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// On the way, at full speed.
    AtSpeed,
    /// While the drive works as it will every day.
    AtWork,
    /// After an emergency stop.
    Stopped,
}

/// A measurement whose reading has so many figures.
#[derive(Debug)]
pub struct Measurement<const FIGURES: usize> {
    /// When.
    pub stage: Stage,
    /// What, and where.
    pub measure: &'static str,
    /// The reading.
    pub reading: Words<FIGURES>,
}

impl<const FIGURES: usize> Measurement<FIGURES> {
    /// The measurement with the figures of one drive.
    pub fn reads(&self, figures: [Figure; FIGURES]) -> Expected {
        Expected {
            stage: self.stage,
            measure: self.measure,
            reading: self.reading.with(figures),
        }
    }
}

/// A reading to expect of one drive.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// When it is taken.
    pub stage: Stage,
    /// What is measured, and where.
    pub measure: &'static str,
    /// The reading.
    pub reading: Sentence,
}
