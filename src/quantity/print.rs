//! Numbers as files and people read them.

use super::{Kind, Si};

/// Rounds to nine significant digits, the precision of a study file.
#[must_use]
pub fn nine_digits(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    format!("{value:.8e}").parse().unwrap_or(value)
}

/// The shortest text that reads back as the same number.
#[must_use]
pub fn exact(value: f64) -> String {
    format!("{value}")
}

/// Rounds to three significant digits.
fn three_digits(value: f64) -> f64 {
    format!("{value:.2e}").parse().unwrap_or(value)
}

/// A number for a person: three significant digits, no exponent, no `-0`.
#[must_use]
pub fn show(value: f64) -> String {
    if value == 0.0 {
        return "0".into();
    }
    let rounded = three_digits(value);
    let size = libm::log10(rounded.abs()).floor();
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 0..=9"
    )]
    let decimals = (2.0 - size).clamp(0.0, 9.0) as usize;
    let text = format!("{rounded:.decimals$}");
    if !text.contains('.') {
        return text;
    }
    match text.trim_end_matches('0').trim_end_matches('.') {
        "-0" => "0".into(),
        short => short.to_string(),
    }
}

/// A unit of a ladder: from this SI size on, this many SI units make one.
struct Rung {
    from: f64,
    factor: f64,
    unit: &'static str,
}

const fn rung(from: f64, factor: f64, unit: &'static str) -> Rung {
    Rung { from, factor, unit }
}

/// The units of a kind for people, the smallest first.
#[rustfmt::skip]
fn ladder(kind: Kind) -> &'static [Rung] {
    match kind {
        Kind::Length => const { &[rung(0.0, 1e-6, "µm"), rung(1e-4, 1e-3, "mm"), rung(1.0, 1.0, "m")] },
        Kind::Mass => const { &[rung(0.0, 1e-3, "g"), rung(0.1, 1.0, "kg"), rung(1e4, 1e3, "t")] },
        Kind::Time => const { &[rung(0.0, 1e-3, "ms"), rung(0.1, 1.0, "s"), rung(180.0, 60.0, "min"), rung(1.08e4, 3600.0, "h")] },
        Kind::Force => const { &[rung(0.0, 1.0, "N"), rung(1e3, 1e3, "kN")] },
        Kind::Torque => const { &[rung(0.0, 1.0, "N·m"), rung(1e4, 1e3, "kN·m")] },
        Kind::Inertia => const { &[rung(0.0, 1e-4, "kg·cm²"), rung(0.1, 1.0, "kg·m²")] },
        Kind::Pressure => const { &[rung(0.0, 1e5, "bar")] },
        Kind::Flow => const { &[rung(0.0, 1e-3 / 60.0, "L/min")] },
        Kind::Power => const { &[rung(0.0, 1.0, "W"), rung(1e3, 1e3, "kW")] },
        Kind::Energy => const { &[rung(0.0, 1.0, "J"), rung(1e3, 1e3, "kJ"), rung(1e6, 1e6, "MJ")] },
        Kind::Angle => const { &[rung(0.0, core::f64::consts::PI / 180.0, "°")] },
        Kind::Speed => const { &[rung(0.0, 1e-3, "mm/s"), rung(1.0, 1.0, "m/s")] },
        Kind::Rotation => const { &[rung(0.0, core::f64::consts::TAU / 60.0, "rpm")] },
        Kind::Temperature => const { &[rung(0.0, 1.0, "°C")] },
        Kind::Voltage => const { &[rung(0.0, 1.0, "V")] },
        Kind::Noise => const { &[rung(0.0, 1.0, "dB(A)")] },
        Kind::MassPerLength => const { &[rung(0.0, 1.0, "kg/m")] },
        Kind::InertiaPerLength => const { &[rung(0.0, 1e-4, "kg·cm²/m")] },
        Kind::Conductance => const { &[rung(0.0, 1e-8, "L/(s·bar)")] },
        Kind::TorquePerLength => const { &[rung(0.0, 1.0, "N·m/m")] },
        Kind::Volume => const { &[rung(0.0, 1e-3, "L"), rung(1.0, 1.0, "m³")] },
    }
}

/// A quantity for a person, from its SI number: three digits and a fitting unit.
///
/// ```
/// use counterpoise::quantity::{Kind, in_words};
/// assert_eq!(in_words(Kind::Speed, 0.225), "225 mm/s");
/// assert_eq!(in_words(Kind::Force, 1834.0), "1.83 kN");
/// assert_eq!(in_words(Kind::Length, 0.9), "900 mm");
/// ```
#[must_use]
pub fn in_words(kind: Kind, si: f64) -> String {
    let ladder = ladder(kind);
    let value = if kind == Kind::Temperature {
        si - 273.15
    } else {
        si
    };
    // The rung is chosen by the size that will be printed: 999.6 mm is 1 m.
    let size = three_digits(value).abs();
    let fits = |rung: &&Rung| size >= rung.from * (1.0 - 1e-9);
    let home = |rung: &&Rung| rung.from <= 0.1;
    let rung = if size == 0.0 {
        ladder.iter().rev().find(home)
    } else {
        ladder.iter().rev().find(fits)
    };
    let (factor, unit) = rung.map_or((1.0, ""), |rung| (rung.factor, rung.unit));
    let number = show(value / factor);
    if unit == "°" {
        format!("{number}°")
    } else {
        format!("{number} {unit}")
    }
}

/// A typed quantity for a person: three digits and a fitting unit.
#[must_use]
pub fn for_people<Q: Si>(quantity: Q) -> String {
    in_words(Q::KIND, quantity.si())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{metres, newtons, seconds};

    #[test]
    fn a_fitting_unit_is_chosen_after_rounding() {
        assert_eq!(for_people(metres(0.9996)), "1 m");
        assert_eq!(for_people(metres(0.000_05)), "50 µm");
        assert_eq!(for_people(metres(0.000_5)), "0.5 mm");
        assert_eq!(for_people(metres(0.0)), "0 mm");
        assert_eq!(for_people(newtons(-1834.0)), "-1.83 kN");
        assert_eq!(for_people(newtons(999.7)), "1 kN");
        assert_eq!(for_people(seconds(20.0)), "20 s");
        assert_eq!(for_people(seconds(900.0)), "15 min");
        assert_eq!(in_words(Kind::Pressure, 6e5), "6 bar");
        assert_eq!(in_words(Kind::Temperature, 273.15), "0 °C");
        assert_eq!(in_words(Kind::Angle, core::f64::consts::FRAC_PI_2), "90°");
    }

    #[test]
    fn zero_has_no_sign_and_no_number_an_exponent() {
        assert_eq!(show(-0.0), "0");
        assert_eq!(show(-1e-12), "0");
        assert_eq!(show(-0.012_34), "-0.0123");
        assert_eq!(show(123_456.0), "123000");
    }
}
