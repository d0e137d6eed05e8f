//! The process force: piecewise linear over position, with jumps.

use super::Direction;
use crate::requirements::MotionKind;

/// Which of its three curves is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Curve {
    /// Resisting the outward stroke.
    Out,
    /// Resisting the return.
    Back,
    /// To be held at rest.
    Hold,
}

impl Curve {
    /// That which resists a stroke.
    pub fn against(direction: Direction) -> Self {
        match direction {
            Direction::Out => Curve::Out,
            Direction::Back => Curve::Back,
        }
    }
}

/// The process force over position.
#[derive(Debug, Clone, Default)]
pub struct Process {
    /// Position and the three forces, in order of position.
    points: Vec<(f64, [f64; 3])>,
}

impl Process {
    /// From the requirements, places counted from the back end.
    pub fn new(motion: &dyn MotionKind, back_end: f64) -> Self {
        let mut points = motion.process().points;
        for (at, _) in &mut points {
            *at -= back_end;
        }
        Self { points }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.points.is_empty()
    }

    /// The force at a position; at a jump, that of the lower or the upper side.
    pub fn at(&self, curve: Curve, x: f64, upper: bool) -> f64 {
        let column = curve as usize;
        // The first point past x; at a jump "upper" counts the points at x itself as passed.
        let next = self
            .points
            .partition_point(|(at, _)| if upper { *at <= x } else { *at < x });
        match (
            next.checked_sub(1).map(|last| &self.points[last]),
            self.points.get(next),
        ) {
            (None, None) => 0.0,
            (Some(only), None) | (None, Some(only)) => only.1[column],
            (Some((x0, y0)), Some((x1, y1))) => {
                y0[column] + (y1[column] - y0[column]) * (x - x0) / (x1 - x0)
            }
        }
    }

    /// The force to be held at a position, either way, the greater at a jump.
    pub fn greatest_hold(&self, x: f64) -> f64 {
        let side = |upper| self.at(Curve::Hold, x, upper).abs();
        side(true).max(side(false))
    }

    /// Positions of its breakpoints within a travel.
    pub fn breakpoints(&self, travel_m: f64) -> impl Iterator<Item = f64> + '_ {
        self.points
            .iter()
            .map(|(at, _)| *at)
            .filter(move |at| (0.0..=travel_m).contains(at))
    }
}
