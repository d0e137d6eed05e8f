//! The ranges of the table, checked over a completed file.

use super::super::fields::{FIELDS, FieldRange, Holds, places};
use super::super::fill::motion_kind;
use crate::quantity::{in_range, parse_as};
use crate::reading::{Sink, Tree, fault_at};

/// Reports every number that can be read and lies outside its range.
pub(super) fn check(file: &Tree, sink: &Sink) {
    let kind = motion_kind(file);
    for field in FIELDS.iter().filter(|field| field.on.fits(kind)) {
        if field.range == FieldRange::Any {
            continue;
        }
        for (place, value) in places(file, field.path) {
            if let Some(range) = outside(value, field.holds, field.range) {
                sink.add(fault_at(place, value, range));
            }
        }
    }
}

/// The range in words, if the value is outside it.
fn outside(value: &Tree, holds: Holds, range: FieldRange) -> Option<String> {
    beyond(number(value, holds)?, holds, range)
}

/// The range in words, if a number in SI is outside it.
pub(super) fn beyond(number: f64, holds: Holds, range: FieldRange) -> Option<String> {
    let bound = |text: &str| match holds {
        Holds::Quantity(kind) => parse_as(text, kind).ok(),
        _ => text.parse().ok(),
    };
    // A bound that is the same number in another unit must not fail by its rounding.
    let slack = |bound: f64| 1e-12 * bound.abs();
    match range {
        FieldRange::Any => None,
        FieldRange::Within(least, most) => {
            let (low, high) = (bound(least)?, bound(most)?);
            let inside = number >= low - slack(low) && number <= high + slack(high);
            (!inside).then(|| format!("must be {least} to {most}"))
        }
        FieldRange::Above(least, most) => {
            let (low, high) = (bound(least)?, bound(most)?);
            let inside = number > low && number <= high + slack(high);
            (!inside).then(|| format!("must be more than {least} and at most {most}"))
        }
    }
}

fn number(value: &Tree, holds: Holds) -> Option<f64> {
    match (holds, value) {
        (Holds::Quantity(kind), Tree::Text(text)) => parse_as(text, kind).ok(),
        // One that no file may hold has a fault already.
        (Holds::Number, Tree::Number(number)) => Some(*number).filter(|it| in_range(*it)),
        _ => None,
    }
}
