//! The force of a drive over its travel, drawn in characters: a bar for the force in motion, a mark for the force at rest.

use crate::demand::{CourseRow, Direction, ForceCourse, Loading};
use crate::quantity::{Kind, in_words, show};
use crate::study::amount;

use super::page::Screen;

/// Widest drawing, columns; narrowest that still tells something.
const WIDEST: usize = 44;
const NARROWEST: usize = 10;
/// What a line has before its drawing: place, two forces and the blanks between.
const BEFORE: usize = 38;

/// Draws a course.
pub(super) fn chart(course: &ForceCourse, out: &mut Screen) {
    let load = match course.load {
        Loading::Least => "least",
        Loading::Most => "most",
    };
    let way = match course.direction {
        Direction::Out => "out",
        Direction::Back => "back",
    };
    let hinged = course.rows.iter().any(|row| row.angle_rad.is_some());
    let over = if hinged { "arm angle" } else { "position" };
    out.line(format!(
            "Force of the drive over {over}, going {way} with the {load} load, which asks most; a push counts above nothing, a pull below. \
             Bar: in motion; o: at rest, about to move. Of each part of the travel the instant that asks most."
        ));
    let width = out.page.width.saturating_sub(BEFORE + 12);
    let width = width.clamp(NARROWEST, WIDEST);
    let forces = || {
        course
            .rows
            .iter()
            .flat_map(|row| [row.static_n, row.dynamic_n])
    };
    let scale = ChartScale {
        least: forces().fold(0.0, f64::min),
        most: forces().fold(0.0, f64::max),
        width,
    };
    let head = format!("{over:>11} {:>10} {:>10}", "at rest", "in motion");
    out.text.push_str("\n  ");
    out.text.push_str(&head);
    out.text.push('\n');
    for row in &course.rows {
        let line = format!(
            "  {:>11} {:>10} {:>10}  {}{}",
            place(row),
            amount(row.static_n, "N"),
            amount(row.dynamic_n, "N"),
            scale.draw(row),
            if row.worst { " <- worst" } else { "" }
        );
        out.text.push_str(line.trim_end());
        out.text.push('\n');
    }
    out.text.push('\n');
}

fn place(row: &CourseRow) -> String {
    row.angle_rad.map_or_else(
        || in_words(Kind::Length, row.x_m),
        |angle| format!("{} deg", show((angle.to_degrees() * 10.0).round() / 10.0)),
    )
}

/// Forces on the columns of a drawing.
struct ChartScale {
    least: f64,
    most: f64,
    width: usize,
}

impl ChartScale {
    /// The column of a force.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a column between nought and the width"
    )]
    fn column(&self, force_n: f64) -> usize {
        let range = self.most - self.least;
        let part = if range > 0.0 {
            (force_n - self.least) / range
        } else {
            0.0
        };
        (part * (self.width - 1) as f64).round() as usize
    }

    /// A bar from nothing to the force in motion, a line at nothing, a mark at the force at rest.
    fn draw(&self, row: &CourseRow) -> String {
        let (zero, moving, still) = (
            self.column(0.0),
            self.column(row.dynamic_n),
            self.column(row.static_n),
        );
        let sign = |column: usize| {
            if column == still {
                'o'
            } else if column == zero {
                '│'
            } else if (zero.min(moving)..=zero.max(moving)).contains(&column) {
                '█'
            } else {
                ' '
            }
        };
        let drawn: String = (0..self.width).map(sign).collect();
        drawn.trim_end().to_owned()
    }
}

#[cfg(test)]
#[path = "../../tests/unit/report/course.rs"]
mod tests;
