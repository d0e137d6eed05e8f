//! Reading "85 kg", "12.5lb", "6 bar".

use super::{Kind, Si, Unit, units::UNITS, units_of};

/// Why a text is not the quantity asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, a clause that follows a field's path.
    pub message: String,
    /// What would be right.
    pub hint: String,
}

/// The largest number a file may hold.
const LARGEST: f64 = 1e12;

/// Reads a quantity of the kind that `Q` is.
///
/// # Errors
/// [`Misread`] for a missing, unknown or unfitting unit, a decimal comma, a
/// number that is none, is not finite or is past 1e12.
pub fn parse<Q: Si>(text: &str) -> Result<Q, Misread> {
    read(text, Q::KIND).map(Q::from_si)
}

fn read(text: &str, kind: Kind) -> Result<f64, Misread> {
    let text = text.trim();
    let split = number_end(text);
    let (number, unit) = (text[..split].trim(), text[split..].trim());
    let fail = |message: String| Misread {
        message,
        hint: fitting(kind),
    };
    if number.is_empty() {
        return Err(fail("is not a number with a unit".into()));
    }
    if number.contains(',') || unit.starts_with(',') {
        return Err(fail("has a comma; write a decimal point".into()));
    }
    let value: f64 = number
        .parse()
        .map_err(|_| fail(format!("has a number that cannot be read, {number:?}")))?;
    if unit.is_empty() {
        return Err(fail("needs a unit".into()));
    }
    let Some(unit) = find(unit, kind) else {
        let message = match UNITS.iter().find(|other| spells(other, unit)) {
            Some(_) => format!("has a unit that does not fit, {unit:?}"),
            None => format!("has an unknown unit, {unit:?}"),
        };
        return Err(fail(message));
    };
    let si = value * unit.factor + unit.offset;
    if !si.is_finite() || value.abs() > LARGEST || si.abs() > LARGEST {
        return Err(fail("is out of range; at most 1e12".into()));
    }
    Ok(si)
}

/// Where the number ends: digits, signs, point, comma and an exponent.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while end < bytes.len() {
        let exponent = matches!(bytes[end], b'e' | b'E')
            && end > 0
            && bytes[end - 1].is_ascii_digit()
            && bytes
                .get(end + 1)
                .is_some_and(|next| next.is_ascii_digit() || matches!(next, b'+' | b'-'));
        let sign = matches!(bytes[end], b'+' | b'-')
            && (end == 0 || matches!(bytes[end - 1], b'e' | b'E'));
        if bytes[end].is_ascii_digit() || matches!(bytes[end], b'.' | b',') || sign || exponent {
            end += 1;
        } else {
            break;
        }
    }
    end
}

fn find(text: &str, kind: Kind) -> Option<&'static Unit> {
    units_of(kind).find(|unit| spells(unit, text))
}

/// Whether a text names the unit, allowing `²`, `^2`, `³` and plurals.
fn spells(unit: &Unit, text: &str) -> bool {
    let plain = text
        .replace('²', "2")
        .replace('³', "3")
        .replace("^2", "2")
        .replace("^3", "3");
    unit.spellings.iter().any(|spelling| {
        *spelling == plain
            || (spelling.len() >= 2
                && plain.strip_suffix('s') == Some(*spelling)
                && !UNITS
                    .iter()
                    .any(|other| other.spellings.contains(&plain.as_str())))
    })
}

fn fitting(kind: Kind) -> String {
    let names: Vec<_> = units_of(kind).map(|unit| unit.spellings[0]).collect();
    format!("units that fit: {}", names.join(", "))
}
