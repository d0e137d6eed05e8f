//! Numbers with their units as a person reads them.

use crate::quantity::show;

/// Units that people read at another scale: SI unit, from what size on, divisor, name.
const SCALES: &[(&str, f64, f64, &str)] = &[
    ("N", 1000.0, 1000.0, "kN"),
    ("W", 1000.0, 1000.0, "kW"),
    ("J", 1000.0, 1000.0, "kJ"),
    ("Pa", 1000.0, 1e5, "bar"),
    ("m", 1.0, 1.0, "m"),
    ("m", 0.0005, 1e-3, "mm"),
    ("m", 0.0, 1e-6, "µm"),
    ("m/s", 1.0, 1.0, "m/s"),
    ("m/s", 0.0, 1e-3, "mm/s"),
    ("m3/s", 0.0, 1.0 / 60_000.0, "L/min"),
    ("money a year", 0.0, 1.0, "a year"),
];

/// A number with its unit, at the scale people use: 1834 N is "1.83 kN", 0.225 m/s "225 mm/s".
#[must_use]
pub fn amount(value: f64, unit: &str) -> String {
    let scale = SCALES
        .iter()
        .find(|(of, from, _, _)| *of == unit && value.abs() >= *from && value != 0.0);
    match scale {
        Some((_, _, divisor, name)) => format!("{} {name}", show(value / divisor)),
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
