//! The criteria: their names in files, their units, which way is better.

use super::Criterion;
use super::fields::FieldRange::{self, Above, Any, Within};
use crate::quantity::{Kind, in_words, parse_as, show};

/// What a criterion's number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A quantity with a unit.
    Quantity(Kind),
    /// A plain number in the file: money, hours, years, a count.
    Number,
}

impl Measure {
    /// A number in the words of a file.
    pub fn words(self, size: f64) -> String {
        match self {
            Self::Quantity(kind) => in_words(kind, size),
            Self::Number => show(size),
        }
    }
    /// The number that a text of a file says.
    pub fn size(self, text: &str) -> Option<f64> {
        match self {
            Self::Quantity(kind) => parse_as(text, kind).ok(),
            Self::Number => text.parse().ok(),
        }
    }
}

/// One line of the table of criteria.
#[derive(Debug, Clone, Copy)]
pub struct CriterionRow {
    /// Which.
    pub criterion: Criterion,
    /// Path in a requirements file, `goals.` and its name.
    pub path: &'static str,
    /// How it is measured.
    pub measure: Measure,
    /// Between what a limit or target may be; any means nothing below zero.
    pub range: FieldRange,
    /// Unit of the raw number in a study.
    pub unit: &'static str,
    /// Whether more is better.
    pub more_is_better: bool,
    /// Whether it may be rewarded; money may not, it is money already.
    pub rewardable: bool,
}

const fn row(
    criterion: Criterion,
    path: &'static str,
    measure: Measure,
    range: FieldRange,
    unit: &'static str,
    more_is_better: bool,
    rewardable: bool,
) -> CriterionRow {
    CriterionRow {
        criterion,
        path,
        measure,
        range,
        unit,
        more_is_better,
        rewardable,
    }
}

/// Every criterion, in the order of the file format.
#[rustfmt::skip]
pub const CRITERIA: &[CriterionRow] = &[
    row(Criterion::TravelTime, "goals.travel_time", Measure::Quantity(Kind::Time), Within("1 ms", "1000 h"), "s", false, true),
    row(Criterion::Purchase, "goals.purchase", Measure::Number, Any, "money", false, false),
    row(Criterion::RunningCost, "goals.running_cost", Measure::Number, Any, "money a year", false, false),
    row(Criterion::PositionError, "goals.position_error", Measure::Quantity(Kind::Length), Any, "m", false, true),
    row(Criterion::AddedMass, "goals.added_mass", Measure::Quantity(Kind::Mass), Any, "kg", false, true),
    row(Criterion::ClosedLength, "goals.closed_length", Measure::Quantity(Kind::Length), Any, "m", false, true),
    row(Criterion::Noise, "goals.noise", Measure::Quantity(Kind::Noise), Within("0 dB", "200 dB"), "dB", false, true),
    row(Criterion::MaintenanceHours, "goals.maintenance_hours", Measure::Number, Any, "h a year", false, false),
    row(Criterion::CustomParts, "goals.custom_parts", Measure::Number, Any, "parts", false, true),
    row(Criterion::PartCount, "goals.part_count", Measure::Number, Any, "parts", false, true),
    row(Criterion::EnergyPerCycle, "goals.energy_per_cycle", Measure::Quantity(Kind::Energy), Any, "J", false, true),
    row(Criterion::HandForce, "goals.hand_force", Measure::Quantity(Kind::Force), Any, "N", false, true),
    row(Criterion::Life, "goals.life", Measure::Number, Above("0", "100"), "years", true, true),
];

impl CriterionRow {
    /// Name in files: its path without `goals.`.
    pub fn name(&self) -> &'static str {
        self.path.trim_start_matches("goals.")
    }
    /// Path of its limit.
    pub fn limit(&self) -> String {
        format!("{}.limit", self.path)
    }
    /// By how much a number is worse than a limit; negative where it is better.
    pub fn worse_by(&self, limit: f64, raw: f64) -> f64 {
        if self.more_is_better {
            limit - raw
        } else {
            raw - limit
        }
    }
}

impl Criterion {
    /// Its line of the table.
    pub fn row(self) -> &'static CriterionRow {
        &CRITERIA[self as usize]
    }
    /// Its name in files.
    pub fn name(self) -> &'static str {
        self.row().name()
    }
}
