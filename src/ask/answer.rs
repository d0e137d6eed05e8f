//! Reading what people type at a question.
//!
//! Quantities go through the same parser as a file's.

use serde_json::Value;

use super::question::Choice;
use crate::problem::Problem;
use crate::quantity::{Kind, System, in_range, parse_as};
use crate::reading::nearest;

/// What stands for an answer, or a part of one, that the person does not know.
pub const NOT_SURE: &str = "don't know";

/// What was typed, before the question looks at it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Typed<'t> {
    /// `?`
    More,
    /// `<`
    Back,
    /// Nothing.
    Empty,
    /// "don't know"
    NotSure,
    /// "us" or "metric"
    Units(System),
    /// Anything else.
    Text(&'t str),
}

/// Sorts what was typed.
pub fn typed(text: &str) -> Typed<'_> {
    let text = text.trim();
    match text {
        "" => Typed::Empty,
        "?" => Typed::More,
        "<" => Typed::Back,
        _ if not_sure(text) => Typed::NotSure,
        _ => match text.to_lowercase().as_str() {
            "us" | "us units" | "inches" => Typed::Units(System::Us),
            "metric" | "metric units" => Typed::Units(System::Metric),
            _ => Typed::Text(text),
        },
    }
}

/// Whether a text says that the person does not know.
pub fn not_sure(text: &str) -> bool {
    let plain = text.to_lowercase().replace('\u{2019}', "'");
    let plain = plain.trim().trim_end_matches(['.', '!']);
    let plain = plain.strip_prefix("i ").unwrap_or(plain);
    matches!(
        plain,
        "don't know" | "dont know" | "do not know" | "not sure" | "no idea" | "unknown"
    )
}

/// The parts of an answer on one line, apart by commas.
///
/// # Errors
/// Digits that a comma seems to part, which could be thousands or decimals, or more parts than there are.
pub fn parts(text: &str, most: usize) -> Result<Vec<&str>, Problem> {
    let mut parts: Vec<&str> = Vec::new();
    for part in text.split([',', ';']) {
        if let Some(before) = parts.last()
            && joined(text, before, part)
        {
            return Err(Problem::at(
                "",
                format!("{:?} could be one number or two", format!("{before},{part}")),
            )
            .hint("write numbers without commas, decimals with a point, and a space after a comma between two answers"));
        }
        parts.push(part.trim());
    }
    while parts.len() > 1 && parts.last().is_some_and(|part| part.is_empty()) {
        parts.pop();
    }
    if parts.len() > most {
        let plural = if most == 1 { "" } else { "s" };
        return Err(Problem::at(
            "",
            format!(
                "{} parts were typed, and there is room for {most} part{plural}",
                parts.len()
            ),
        ));
    }
    Ok(parts)
}

/// Whether a comma stands between two digits, the first of a bare number: `4,000 EUR`, `2,5 s`.
fn joined(text: &str, before: &str, part: &str) -> bool {
    let bare = before.trim().bytes().all(|byte| byte.is_ascii_digit()) && !before.trim().is_empty();
    let close = part.starts_with(|sign: char| sign.is_ascii_digit());
    bare && close && text.contains(&format!("{},{}", before.trim(), part.trim_end()))
}

/// A quantity as a file holds it.
///
/// # Errors
/// As a file's: no unit, one that does not fit, no number.
pub fn quantity(text: &str, kind: Kind) -> Result<Value, Problem> {
    parse_as(text, kind)
        .map(|_| Value::from(text.trim()))
        .map_err(|fault| {
            Problem::at("", format!("{:?} {}", text.trim(), fault.message)).hint(fault.hint)
        })
}

/// A plain number, with words around it that say nothing more: `220 days`, `about 4`.
///
/// # Errors
/// No number, or one that no file holds.
pub fn number(text: &str, words: &[&str]) -> Result<Value, Problem> {
    let mut plain = text.trim().to_lowercase();
    for word in words {
        plain = plain.trim_end_matches(word).trim_end().to_owned();
    }
    let found = plain.parse::<f64>().ok().filter(|number| in_range(*number));
    found.map(whole).ok_or_else(|| {
        Problem::at("", format!("{:?} is not a number", text.trim()))
            .hint("write digits, decimals with a point, such as 40 or 0.25")
    })
}

/// A number as JSON, without a fraction of nothing.
pub fn whole(number: f64) -> Value {
    #[allow(
        clippy::cast_possible_truncation,
        reason = "a whole number below 2^53 is exact"
    )]
    if number.fract() == 0.0 && number.abs() < 9e15 {
        Value::from(number as i64)
    } else {
        Value::from(number)
    }
}

/// The choices named by words, their places in the list, or what they say.
///
/// # Errors
/// The first that names none, with the nearest.
pub fn read_choices(text: &str, choices: &[Choice], many: bool) -> Result<Vec<Choice>, Problem> {
    if many
        && matches!(
            text.trim().to_lowercase().as_str(),
            "none" | "nothing" | "no"
        )
    {
        return Ok(Vec::new());
    }
    let mut found: Vec<Choice> = Vec::new();
    for part in text
        .split([',', ';'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        let choice = find_choice(part, choices)?;
        if !found.contains(&choice) {
            found.push(choice);
        }
    }
    match found.len() {
        0 => Err(Problem::at("", "names none of the choices").hint(choices_line(choices))),
        2.. if !many => Err(Problem::at(
            "",
            "names two of the choices; one is asked for",
        )),
        _ => Ok(found),
    }
}

fn find_choice(part: &str, choices: &[Choice]) -> Result<Choice, Problem> {
    let plain = part.to_lowercase().replace(' ', "_");
    let place = part
        .parse::<usize>()
        .ok()
        .and_then(|place| place.checked_sub(1));
    let by_place = place.and_then(|place| choices.get(place));
    let by_word = choices
        .iter()
        .find(|choice| choice.word == plain || choice.says.eq_ignore_ascii_case(part));
    by_place.or(by_word).copied().ok_or_else(|| {
        let words: Vec<&str> = choices.iter().map(|choice| choice.word).collect();
        let fault = Problem::at("", format!("{part:?} is none of the choices"));
        match nearest(&plain, &words) {
            Some(word) => fault.hint(format!("did you mean {word}? {}", choices_line(choices))),
            None => fault.hint(choices_line(choices)),
        }
    })
}

fn choices_line(choices: &[Choice]) -> String {
    let words: Vec<&str> = choices.iter().map(|choice| choice.word).collect();
    format!("the choices are {}, or their numbers", words.join(", "))
}

#[cfg(test)]
#[path = "../../tests/unit/ask/answer.rs"]
mod tests;
