//! Numbers with their units as a person reads them.

use crate::quantity::{Kind, in_words, show};

/// Units of checks and criteria, and what they measure.
const UNITS: &[(&str, Kind)] = &[
    ("N", Kind::Force),
    ("W", Kind::Power),
    ("J", Kind::Energy),
    ("Pa", Kind::Pressure),
    ("m", Kind::Length),
    ("m/s", Kind::Speed),
    ("m3/s", Kind::Flow),
    ("kg", Kind::Mass),
];

/// A number with its unit, at the scale people use: 1834 N is "1.83 kN", 0.225 m/s "225 mm/s".
#[must_use]
pub fn amount(value: f64, unit: &str) -> String {
    match UNITS.iter().find(|(of, _)| *of == unit) {
        Some((_, kind)) => in_words(*kind, value),
        None if unit.is_empty() => show(value),
        None => format!("{} {unit}", show(value)),
    }
}

/// Money without decimals: nobody trusts a preliminary price to the cent.
#[must_use]
pub fn money(value: f64) -> String {
    let whole = value.round();
    format!("{}", if whole == 0.0 { 0.0 } else { whole })
}

/// A check's id as words: `screw.critical_speed` is "screw critical speed".
#[must_use]
pub fn check_name(id: &str) -> String {
    id.trim_start_matches("wants.").replace(['.', '_'], " ")
}
