//! Reading "85 kg", "12.5lb", "6 bar".

use std::borrow::Cow;

use super::{Kind, Si, System, Unit, print::show, system::TELLING, units::UNITS, units_of};

/// Why a text is not the quantity asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, a clause that follows a field's path.
    pub message: String,
    /// What would be right.
    pub hint: String,
}

/// The largest number a file may hold.
pub const LARGEST: f64 = 1e12;
/// The smallest number other than 0 that a file may hold: no figure of a machine is nearer to nothing, and quotients of
/// such numbers stay numbers.
pub const SMALLEST: f64 = 1e-30;

/// Whether a number is one that a file may hold.
pub fn in_range(value: f64) -> bool {
    value == 0.0 || (SMALLEST..=LARGEST).contains(&value.abs())
}

/// Reads a quantity of the kind that `Q` is.
///
/// # Errors
/// [`Misread`] for a missing, unknown or unfitting unit, a decimal comma, a
/// number that is none, is not finite or is past 1e12.
pub fn parse<Q: Si>(text: &str) -> Result<Q, Misread> {
    parse_as(text, Q::KIND).map(Q::from_si)
}

/// Reads a quantity of a kind and gives its SI number.
///
/// # Errors
/// As [`parse`].
pub fn parse_as(text: &str, kind: Kind) -> Result<f64, Misread> {
    // The typographic minus is what a word processor makes of the plain one.
    let mut text = Cow::from(text.trim());
    if text.contains('\u{2212}') {
        text = text.replace('\u{2212}', "-").into();
    }
    let split = number_end(&text);
    let (number, unit) = text.split_at_checked(split).unwrap_or((&text, ""));
    let unit = unit.trim();
    if number.is_empty() {
        return Err(no_number(unit, kind));
    }
    if number.contains(',') {
        return Err(comma(number, unit, kind));
    }
    let Ok(value) = number.parse::<f64>() else {
        return misread(
            format!("has a number that cannot be read, {number:?}"),
            fitting(kind),
        );
    };
    if unit.is_empty() {
        return misread("needs a unit".into(), with_unit(value, kind));
    }
    let Some(unit) = find(unit, kind) else {
        return Err(wrong_unit(unit, kind));
    };
    let si = value * unit.factor + unit.offset;
    if !in_range(value) || !in_range(si) {
        let hint = if value.abs() < 1.0 {
            "write 0, or at least 1e-30"
        } else {
            "write at most 1e12"
        };
        return misread("is out of range".into(), hint.into());
    }
    Ok(si)
}

/// The system that a quantity as typed belongs to; none where its unit belongs to both, or it is no quantity of the kind.
pub fn system_of(text: &str, kind: Kind) -> Option<System> {
    let text = text.trim();
    let (_, unit) = text.split_at_checked(number_end(text))?;
    let unit = find(unit.trim(), kind)?;
    if TELLING.contains(&unit.symbol()) {
        return Some(System::Us);
    }
    matches!(
        kind,
        Kind::Length | Kind::Mass | Kind::Force | Kind::Pressure
    )
    .then_some(System::Metric)
}

fn misread<T>(message: String, hint: String) -> Result<T, Misread> {
    Err(Misread { message, hint })
}

/// Where the number ends: digits, signs, point, comma and an exponent.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let at = |index: usize| bytes.get(index).copied().unwrap_or(b' ');
    let mut end = 0;
    while end < bytes.len() {
        let (last, here, next) = (at(end.wrapping_sub(1)), at(end), at(end + 1));
        let exponent = matches!(here, b'e' | b'E')
            && matches!(last, b'0'..=b'9' | b'.')
            && matches!(next, b'0'..=b'9' | b'+' | b'-');
        let sign = matches!(here, b'+' | b'-') && (end == 0 || matches!(last, b'e' | b'E'));
        if matches!(here, b'0'..=b'9' | b'.' | b',') || sign || exponent {
            end += 1;
        } else {
            break;
        }
    }
    end
}

fn find(text: &str, kind: Kind) -> Option<&'static Unit> {
    // As it stands in the table, it needs no second look.
    if let Some(unit) = units_of(kind).find(|unit| unit.spellings.contains(&text)) {
        return Some(unit);
    }
    let plain = plain(text);
    units_of(kind).find(|unit| spells(unit, &plain))
}

/// One way of writing for the many: `·`, `*` and `-` between units as a space, `²` and `^2` as `2`.
fn plain(text: &str) -> String {
    let signs: String = text
        .replace("^2", "2")
        .replace("^3", "3")
        .chars()
        .map(|sign| match sign {
            '²' => '2',
            '³' => '3',
            '·' | '⋅' | '∙' | '*' | '-' => ' ',
            // The Greek letter for the micro sign.
            'μ' => 'µ',
            other => other,
        })
        .collect();
    let words: Vec<_> = signs.split_whitespace().collect();
    words.join(" ").replace(" / ", "/")
}

/// Whether a plain text names the unit, as it is, without its space, or in the plural.
fn spells(unit: &Unit, text: &str) -> bool {
    let is_other_unit = || UNITS.iter().any(|other| is_spelled(other, text));
    is_spelled(unit, text)
        || text.strip_suffix('s').is_some_and(|singular| {
            let letters = singular.chars().filter(|sign| sign.is_alphabetic());
            let last_is_letter = singular.ends_with(char::is_alphabetic);
            last_is_letter
                && !singular.ends_with('s')
                && letters.count() >= 2
                && is_spelled(unit, singular)
                && !is_other_unit()
        })
}

fn is_spelled(unit: &Unit, text: &str) -> bool {
    let is = |spelling: &&str| *spelling == text || spelling.replace(' ', "") == text;
    unit.spellings.iter().any(is)
}

fn wrong_unit(unit: &str, kind: Kind) -> Misread {
    let plain = plain(unit);
    let known = UNITS.iter().any(|other| spells(other, &plain));
    let message = if known {
        format!("has a unit that does not fit, {unit:?}")
    } else {
        format!("has an unknown unit, {unit:?}")
    };
    let hint = match units_of(kind).find(|other| other.symbol().eq_ignore_ascii_case(&plain)) {
        Some(meant) => format!("did you mean {:?}? {}", meant.symbol(), fitting(kind)),
        None => fitting(kind),
    };
    Misread { message, hint }
}

fn no_number(text: &str, kind: Kind) -> Misread {
    let first = text.split(|sign: char| !sign.is_alphabetic()).next();
    let word = first.unwrap_or_default().to_lowercase();
    let message = if matches!(word.as_str(), "nan" | "inf" | "infinity") {
        "is not a finite number".into()
    } else {
        "is not a number with a unit".into()
    };
    let hint = fitting(kind);
    Misread { message, hint }
}

/// A comma is a decimal sign to some and a thousands mark to others.
fn comma(number: &str, unit: &str, kind: Kind) -> Misread {
    let unit = if find(unit, kind).is_some() {
        unit
    } else {
        kind.examples().0
    };
    let (point, none) = (number.replace(',', "."), number.replace(',', ""));
    let thousands = number
        .split(',')
        .skip(1)
        .all(|group| group.len() == 3 && group.bytes().all(|byte| byte.is_ascii_digit()));
    let hint = match (point.parse::<f64>().is_ok(), thousands) {
        (true, true) => {
            format!("write \"{none} {unit}\" or \"{point} {unit}\", whichever is meant")
        }
        (true, false) => format!("write \"{point} {unit}\""),
        (false, true) => format!("write \"{none} {unit}\""),
        (false, false) => fitting(kind),
    };
    let message = "has a comma in its number; decimals take a point".into();
    Misread { message, hint }
}

/// A bare number in the unit that is likely meant, and the same in the other system.
fn with_unit(value: f64, kind: Kind) -> String {
    let (metric, other) = kind.examples();
    let units = (find(metric, kind), find(other, kind));
    let (Some(from), Some(to)) = units else {
        return fitting(kind);
    };
    if value.is_nan() || value.abs() > LARGEST {
        return fitting(kind);
    }
    let same = (value * from.factor + from.offset - to.offset) / to.factor;
    let number = super::exact(value);
    if metric == other {
        return format!("write \"{number} {metric}\"; {}", fitting(kind));
    }
    format!(
        "write \"{number} {metric}\" or \"{} {other}\"; {}",
        show(same),
        fitting(kind)
    )
}

fn fitting(kind: Kind) -> String {
    let names: Vec<_> = units_of(kind).map(Unit::symbol).collect();
    match names.as_slice() {
        [only] => format!("the unit that fits is {only}"),
        _ => format!("units that fit: {}", names.join(", ")),
    }
}

#[cfg(test)]
#[path = "../../tests/unit/quantity/parse.rs"]
mod tests;
