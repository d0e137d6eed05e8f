//! Which units a person reads: metric, or those customary in the United States.

use super::{Kind, in_words, show, units_of};

/// A system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Metric units.
    #[default]
    Metric,
    /// Inches, pounds and feet.
    Us,
}

/// The units of a kind customary in the United States: from this SI size on, this unit.
fn customary(kind: Kind) -> &'static [(f64, &'static str)] {
    match kind {
        Kind::Length => &[(0.0, "in"), (3.048, "ft")],
        Kind::Mass => &[(0.0, "oz"), (0.4, "lb")],
        Kind::Force => &[(0.0, "lbf")],
        Kind::Torque => &[(0.0, "lbf in"), (20.0, "lbf ft")],
        Kind::Pressure => &[(0.0, "psi")],
        Kind::Flow => &[(0.0, "cfm")],
        Kind::Power => &[(0.0, "W"), (745.0, "hp")],
        Kind::Speed => &[(0.0, "in/s"), (1.5, "ft/min")],
        Kind::Temperature => &[(f64::NEG_INFINITY, "degF")],
        _ => &[],
    }
}

/// A unit that shows a person is used to inches, pounds and feet.
pub(super) const TELLING: &[&str] = &[
    "in", "ft", "lb", "oz", "lbf", "psi", "cfm", "in/s", "ft/min",
];

impl System {
    /// A quantity for a person, from its SI number: three digits and a fitting unit of this system.
    ///
    /// ```
    /// use counterpoise::quantity::{Kind, System};
    /// assert_eq!(System::Us.words(Kind::Mass, 85.0), "187 lb");
    /// assert_eq!(System::Us.words(Kind::Length, 0.9), "35.4 in");
    /// assert_eq!(System::Us.words(Kind::Time, 20.0), "20 s");
    /// assert_eq!(System::Metric.words(Kind::Mass, 85.0), "85 kg");
    /// ```
    pub fn words(self, kind: Kind, si: f64) -> String {
        let fits = |(from, _): &&(f64, &str)| si.abs() >= *from;
        let symbol = customary(kind)
            .iter()
            .rev()
            .find(fits)
            .map(|(_, unit)| *unit);
        let unit = symbol.and_then(|symbol| units_of(kind).find(|unit| unit.symbol() == symbol));
        match unit {
            Some(unit) if self == System::Us => {
                format!(
                    "{} {}",
                    show((si - unit.offset) / unit.factor),
                    unit.symbol()
                )
            }
            _ => in_words(kind, si),
        }
    }
}
