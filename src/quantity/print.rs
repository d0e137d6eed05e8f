//! Numbers as files and people read them.

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

/// A number for a person: three significant digits, no exponent, no `-0`.
#[must_use]
pub fn show(value: f64) -> String {
    if value == 0.0 {
        return "0".into();
    }
    let rounded: f64 = format!("{value:.2e}").parse().unwrap_or(value);
    let size = libm::log10(rounded.abs()).floor();
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 0..=9"
    )]
    let decimals = (2.0 - size).clamp(0.0, 9.0) as usize;
    let text = format!("{rounded:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_string()
    } else {
        text
    }
}
