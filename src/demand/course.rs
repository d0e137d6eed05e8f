//! How the force of the drive runs over the travel in the case that asks most.

use super::axis::TIE;
use super::{Case, Demand, Direction, Loading, Sample};

/// Parts of the travel that a course shows.
const PARTS: u32 = 16;

/// The force of the drive over the travel of the worst case.
#[derive(Debug, Clone, PartialEq)]
pub struct ForceCourse {
    /// Which load.
    pub load: Loading,
    /// Which way it goes.
    pub direction: Direction,
    /// The travel in equal parts from the back end, of each the instant that asks most.
    pub rows: Vec<CourseRow>,
}

/// The instant of a part of the travel that asks most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourseRow {
    /// Where the drive stands.
    pub x_m: f64,
    /// The arm's angle of a hinge.
    pub angle_rad: Option<f64>,
    /// Force at rest, about to move; positive outward along the drive.
    pub static_n: f64,
    /// Force in motion.
    pub dynamic_n: f64,
    /// Whether it is the worst of all.
    pub worst: bool,
}

fn thrust(sample: &Sample) -> f64 {
    sample.force_n.abs().max(sample.static_force_n.abs())
}

/// The first instant of greatest thrust among some, by number.
fn greatest<'s>(samples: impl Iterator<Item = (usize, &'s Sample)>) -> Option<usize> {
    let mut found: Option<(usize, f64)> = None;
    for (index, sample) in samples {
        if found.is_none_or(|(_, most)| thrust(sample) > most + TIE) {
            found = Some((index, thrust(sample)));
        }
    }
    found.map(|(index, _)| index)
}

/// The case that asks most, the first of such, and its first instant that does.
pub(super) fn worst_instant(cases: &[Case]) -> Option<(&Case, usize)> {
    let mut found: Option<(&Case, f64)> = None;
    for case in cases {
        let here = case.figures.static_peak_n.max(case.figures.dynamic_peak_n);
        if found.is_none_or(|(_, most)| here > most + TIE) {
            found = Some((case, here));
        }
    }
    let (case, _) = found?;
    Some((case, greatest(case.profile.iter().enumerate())?))
}

impl Demand {
    /// How the force runs over the travel in the case that asks most.
    pub fn course(&self) -> Option<ForceCourse> {
        let (case, worst) = worst_instant(&self.cases)?;
        // Parts of what turns, where an arm does; else of the way.
        let place = |index: usize| {
            let turn = case.swing.get(index).map(|turn| turn.angle_rad);
            let along = case.profile.get(index).map_or(0.0, |sample| sample.x_m);
            turn.unwrap_or(along)
        };
        let places = || (0..case.profile.len()).map(place);
        let least = places().fold(f64::INFINITY, f64::min);
        let most = places().fold(f64::NEG_INFINITY, f64::max);
        let part_of = |place: f64| {
            let part = (place - least) / (most - least) * f64::from(PARTS);
            (0..PARTS - 1)
                .take_while(|n| part >= f64::from(n + 1))
                .count()
        };
        let row = |part: u32| {
            let samples = case.profile.iter().enumerate();
            let inside = samples.filter(|(index, _)| part_of(place(*index)) == part as usize);
            let index = greatest(inside)?;
            let sample = case.profile.get(index)?;
            Some(CourseRow {
                x_m: sample.x_m,
                angle_rad: case.swing.get(index).map(|turn| turn.angle_rad),
                static_n: sample.static_force_n,
                dynamic_n: sample.force_n,
                worst: index == worst,
            })
        };
        Some(ForceCourse {
            load: case.load,
            direction: case.direction,
            rows: (0..PARTS).filter_map(row).collect(),
        })
    }
}
