//! The texts that are read as a quantity, as a regular expression made from the table of units.
//!
//! In the common part of ECMA 262 and the expressions that other languages read, as JSON Schema asks.

use super::{Kind, Unit, parse_as, units_of};

/// Which numbers may stand before the unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// Any.
    Any,
    /// None below zero.
    NotNegative,
    /// Only those above zero.
    Positive,
}

/// Digits with a point or without.
const DIGITS: &str = r"(?:[0-9]+\.?[0-9]*|\.[0-9]+)";
/// The same with a digit that is not 0.
const NOT_ZERO: &str = r"(?:[0-9]*[1-9][0-9]*\.?[0-9]*|[0-9]*\.[0-9]*[1-9][0-9]*)";
/// The same with nothing but zeros.
const ZERO: &str = r"(?:0+\.?0*|\.0+)";
const EXPONENT: &str = "(?:[eE][+-]?[0-9]+)?";
/// A minus, the typographic one included.
const MINUS: &str = "[\u{2212}-]";

/// A regular expression that the quantities of a kind match, and other texts do not.
///
/// It does not know how large a number is, only its sign.
pub fn pattern(kind: Kind, sign: Sign) -> String {
    let number = match sign {
        Sign::Any => format!("(?:\\+|{MINUS})?{DIGITS}"),
        Sign::NotNegative => format!("(?:\\+?{DIGITS}|{MINUS}{ZERO})"),
        Sign::Positive => format!("\\+?{NOT_ZERO}"),
    };
    let units: Vec<_> = units_of(kind).flat_map(spellings).collect();
    format!("^\\s*{number}{EXPONENT}\\s*(?:{})\\s*$", units.join("|"))
}

/// The spellings of a unit, each with its plural where that is read.
fn spellings(unit: &Unit) -> impl Iterator<Item = String> {
    let kind = unit.kind;
    unit.spellings.iter().map(move |spelling| {
        let plural = parse_as(&format!("1 {spelling}s"), kind).is_ok();
        let signs: String = spelling.chars().map(sign).collect();
        // A digit right after the number is the number's.
        let apart = spelling.starts_with(|sign: char| sign.is_ascii_digit());
        let (space, ending) = (
            if apart { r"\s" } else { "" },
            if plural { "s?" } else { "" },
        );
        format!("{space}{signs}{ending}")
    })
}

/// One sign of a spelling, in every way that it is read.
fn sign(sign: char) -> String {
    match sign {
        ' ' => r"[\s·⋅∙*-]*".into(),
        '2' => r"(?:2|²|\^2)".into(),
        '3' => r"(?:3|³|\^3)".into(),
        '/' => "(?:/| / )".into(),
        'µ' => "[µμ]".into(),
        '(' | ')' => format!("\\{sign}"),
        other => other.into(),
    }
}

impl Kind {
    /// Its name in words with `_` between them.
    pub fn name(self) -> String {
        let mut name = String::new();
        for sign in format!("{self:?}").chars() {
            if sign.is_uppercase() && !name.is_empty() {
                name.push('_');
            }
            name.extend(sign.to_lowercase());
        }
        name
    }
}
