//! Numbers as files and people read them.

use super::{Kind, Si};

/// Powers of ten that an `f64` holds exactly.
const POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// From here on a number is written with an exponent.
const LONGEST_ROW: f64 = 1e15;

/// Nearer than this to the middle between two roundings, a single multiplication cannot tell which is right.
const NEAR_TIE: f64 = 1e-3;

/// `value × 10^power`, rounded once; none where the power of ten is not exact.
fn scaled(value: f64, power: i32) -> Option<f64> {
    let exact = POWERS.get(usize::try_from(power.unsigned_abs()).ok()?)?;
    Some(if power < 0 {
        value / exact
    } else {
        value * exact
    })
}

/// The first `count` digits of a positive number, rounded, as a whole number `n`, and the power with `value ≈ n / 10^power`.
///
/// None where that takes more than one multiplication to tell: the caller then asks the formatter.
fn digits(value: f64, count: i32) -> Option<(f64, i32)> {
    let (least, most) = (scaled(1.0, count - 1)?, scaled(1.0, count)?);
    #[allow(
        clippy::cast_possible_truncation,
        reason = "a logarithm of an f64 is small"
    )]
    let size = libm::log10(value).floor() as i32;
    let mut power = count - 1 - size;
    let mut whole = scaled(value, power)?;
    // The logarithm may be off by one beside a power of ten.
    if whole >= most {
        power -= 1;
        whole = scaled(value, power)?;
    } else if whole < least {
        power += 1;
        whole = scaled(value, power)?;
    }
    let floor = whole.floor();
    let rest = whole - floor;
    if (rest - 0.5).abs() < NEAR_TIE || !(least..most).contains(&whole) {
        return None;
    }
    let rounded = if rest > 0.5 { floor + 1.0 } else { floor };
    Some(if rounded >= most {
        (least, power - 1)
    } else {
        (rounded, power)
    })
}

/// Rounds to so many significant digits, 1 to 9, as the formatter does; at best without it.
pub fn to_digits(value: f64, count: u8) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    // One division of two exact numbers rounds as reading the decimal text does.
    let quick = digits(value.abs(), i32::from(count))
        .and_then(|(whole, power)| scaled(whole, -power))
        .map(|size| size.copysign(value));
    quick.unwrap_or_else(|| {
        let decimals = usize::from(count.saturating_sub(1));
        format!("{value:.decimals$e}").parse().unwrap_or(value)
    })
}

/// Rounds up to three significant digits, so that what is named is enough.
pub fn enough(value: f64) -> f64 {
    let nearest = to_digits(value, 3);
    if nearest < value {
        to_digits(nearest + last_digit(value), 3)
    } else {
        nearest
    }
}

/// Rounds down to three significant digits, so that what is named is not too much.
pub fn not_over(value: f64) -> f64 {
    let nearest = to_digits(value, 3);
    if nearest > value {
        to_digits(nearest - last_digit(value), 3)
    } else {
        nearest
    }
}

/// A step of the last of three digits.
fn last_digit(value: f64) -> f64 {
    libm::pow(10.0, libm::floor(libm::log10(value.abs())) - 2.0)
}

/// Rounds to nine significant digits, the precision of a study file.
pub fn nine_digits(value: f64) -> f64 {
    to_digits(value, 9)
}

/// The shortest text that reads back as the same number; an exponent stands for long rows of zeros.
pub fn exact(value: f64) -> String {
    if value == 0.0 || (1e-6..1e15).contains(&value.abs()) {
        format!("{value}")
    } else {
        format!("{value:e}")
    }
}

/// A number as it stands where that is short, else to four digits: a third is 0.3333; no `-0`.
///
/// ```
/// use counterpoise::quantity::brief;
/// assert_eq!([brief(1.0 / 3.0), brief(12_345.0), brief(-0.0)], ["0.3333", "12345", "0"]);
/// ```
pub fn brief(value: f64) -> String {
    const SHORT: usize = 8;
    let whole = exact(value + 0.0);
    if whole.len() <= SHORT {
        whole
    } else {
        exact(to_digits(value, 4))
    }
}

/// A number for a person: three significant digits, no `-0`, an exponent only from 1e15, where nobody counts the zeros.
pub fn show(value: f64) -> String {
    if value == 0.0 {
        return "0".into();
    }
    quickly(value).unwrap_or_else(|| by_formatter(value))
}

/// [`show`] for numbers of ordinary size, from their three digits.
fn quickly(value: f64) -> Option<String> {
    let (whole, power) = digits(value.abs(), 3)?;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number of three digits"
    )]
    let mut whole = whole as u64;
    let sign = if value < 0.0 { "-" } else { "" };
    let mut decimals = power.max(0).unsigned_abs();
    if !(-12..=9).contains(&power) {
        return None;
    }
    whole *= 10_u64.pow(power.min(0).unsigned_abs());
    while decimals > 0 && whole.is_multiple_of(10) {
        whole /= 10;
        decimals -= 1;
    }
    if decimals == 0 {
        return Some(format!("{sign}{whole}"));
    }
    let one = 10_u64.pow(decimals);
    let width = decimals as usize;
    Some(format!("{sign}{}.{:0width$}", whole / one, whole % one))
}

/// [`show`] by the formatter, for what is left.
fn by_formatter(value: f64) -> String {
    let rounded = to_digits(value, 3);
    if rounded.abs() >= LONGEST_ROW {
        return format!("{rounded:e}");
    }
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
struct UnitStep {
    from: f64,
    factor: f64,
    unit: &'static str,
}

const fn rung(from: f64, factor: f64, unit: &'static str) -> UnitStep {
    UnitStep { from, factor, unit }
}

/// The units of a kind for people, the smallest first.
#[rustfmt::skip]
fn ladder(kind: Kind) -> &'static [UnitStep] {
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
pub fn in_words(kind: Kind, si: f64) -> String {
    let ladder = ladder(kind);
    let value = if kind == Kind::Temperature {
        si - 273.15
    } else {
        si
    };
    // The rung is chosen by the size that will be printed: 999.6 mm is 1 m.
    let size = to_digits(value, 3).abs();
    let fits = |rung: &&UnitStep| size >= rung.from * (1.0 - 1e-9);
    let home = |rung: &&UnitStep| rung.from <= 0.1;
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
pub fn for_people<Q: Si>(quantity: Q) -> String {
    in_words(Q::KIND, quantity.si())
}

#[cfg(test)]
#[path = "../../tests/unit/quantity/print.rs"]
mod tests;
