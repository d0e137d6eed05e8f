//! Numbers with their units as a person reads them.

use crate::family::family;
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

/// Checks whose ids read badly as words.
const NAMES: &[(&str, &str)] = &[
    ("crank.often", "turns of a crank all day long"),
    ("crank.person", "somebody to turn a crank"),
    ("rack.mounting", "mounting of the rack"),
    ("compressor.duty", "running time of the compressor"),
    ("compressor.mains", "mains for the compressor"),
    ("oil.tolerated", "oil"),
];

/// A number with its unit, at the scale people use: 1834 N is "1.83 kN", 0.225 m/s "225 mm/s".
pub fn amount(value: f64, unit: &str) -> String {
    match UNITS.iter().find(|(of, _)| *of == unit) {
        Some((_, kind)) => in_words(*kind, value),
        None if unit.is_empty() => show(value),
        None if unit == "1/h" => format!("{} an hour", show(value)),
        None => format!("{} {unit}", show(value)),
    }
}

/// A list as a sentence has it: "a, b and c".
pub fn and(words: &[&str]) -> String {
    match words {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => words.concat(),
    }
}

/// Money without decimals: nobody trusts a preliminary price to the cent.
pub fn money(value: f64) -> String {
    let whole = value.round();
    format!("{}", if whole == 0.0 { 0.0 } else { whole })
}

/// What people call a family.
pub fn family_words(name: &str) -> &str {
    family(name).map_or(name, |family| family.words())
}

/// A check's id as words: `screw.critical_speed` is "screw critical speed".
pub fn check_name(id: &str) -> String {
    let named = NAMES.iter().find(|(check, _)| *check == id);
    if let Some((_, name)) = named {
        return (*name).into();
    }
    id.trim_start_matches("goals.").replace(['.', '_'], " ")
}

/// A utilisation to the nearest per cent, but never on the other side of 100 % than it is: "99.8 %" passes, "100.2 %" fails.
pub fn per_cent(utilisation: f64) -> String {
    let (whole, tenths) = (
        (utilisation * 100.0).round(),
        (utilisation * 1000.0).round() / 10.0,
    );
    // A hair of 1e-9 is a pass, and is at the limit.
    let apart = utilisation - 1.0;
    if apart.abs() <= 1e-9 || (whole - 100.0).abs() > 0.0 {
        format!("{whole} %")
    } else if apart < 0.0 {
        format!("{} %", tenths.min(99.9))
    } else {
        format!("{} %", tenths.max(100.1))
    }
}

#[cfg(test)]
#[path = "../../tests/unit/study/words.rs"]
mod tests;
