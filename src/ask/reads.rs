//! From an answer to the fields of the file, and back to what one would type.

use serde_json::{Value, json};

use super::answer::{not_sure, number, parts, quantity, read_choices, whole};
use super::draft::Draft;
use super::question::{Changes, Form, Question};
use super::swing;
use crate::problem::Problem;
use crate::quantity::{Kind, parse_as};

/// A title.
#[allow(
    clippy::unnecessary_wraps,
    reason = "every question is read through the same type"
)]
pub(super) fn title(_: &Question, _: &Draft, text: &str) -> Result<Changes, Problem> {
    Ok(Changes::default().with("title", text.trim()))
}

/// Travel and way, `900 mm, up`; or the swing of a hinge, `0 deg to 78 deg`.
pub(super) fn travel(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let changes = match swing::split_swing(text) {
        Some(told) => swing::swing(draft, told)?,
        None => along(draft, text)?,
    };
    // What the load does when the power fails was not asked while nothing turned or pulled it.
    let mut then = draft.clone();
    then.apply(&changes);
    Ok(if lies_level(draft) && !lies_level(&then) {
        changes.without("power_loss")
    } else {
        changes
    })
}

fn along(draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let parts = parts(text, 2)?;
    let is_length = |part: &&str| parse_as(part, Kind::Length).is_ok();
    let (length, way) = match parts.as_slice() {
        [length] => (*length, None),
        [way, length] if is_length(length) => (*length, Some(*way)),
        [length, way, ..] => (*length, Some(*way)),
        [] => ("", None),
    };
    let travel = quantity(length, Kind::Length)?;
    let Some(way) = way else {
        return Err(Problem::at("", "the way is missing")
            .hint(format!("add up, level, down or an angle: {length}, up")));
    };
    let incline = match way.to_lowercase().as_str() {
        "up" | "straight up" | "upward" | "upwards" | "vertical" => Value::from("90 deg"),
        "level" | "flat" | "horizontal" | "along" | "sideways" => Value::from("0 deg"),
        "down" | "straight down" | "downward" | "downwards" => Value::from("-90 deg"),
        _ => quantity(way, Kind::Angle).map_err(|fault| {
            fault.hint("the way is up, level, down, or an angle above level such as 30 deg")
        })?,
    };
    Ok(swing::of_kind(draft, "slide")
        .with("motion.travel", travel)
        .with("motion.incline", incline))
}

fn is_level(angle: &str) -> bool {
    parse_as(angle, Kind::Angle).is_ok_and(|angle| angle.abs() < 1e-9)
}

/// Travel and way, or swing, as typed.
pub(super) fn travel_typed(_: &Question, draft: &Draft) -> Option<String> {
    if draft.kind() == "hinge" {
        return swing::swing_typed(draft);
    }
    let way = match draft.typed("motion.incline")?.as_str() {
        "90 deg" => "up".to_owned(),
        "0 deg" => "level".to_owned(),
        "-90 deg" => "down".to_owned(),
        other => other.to_owned(),
    };
    Some(format!("{}, {way}", draft.typed("motion.travel")?))
}

/// Least and most load.
pub(super) fn load(_: &Question, _: &Draft, text: &str) -> Result<Changes, Problem> {
    let parts = parts(text, 2)?;
    let mut loads = Vec::new();
    for part in parts {
        let size = quantity(part, Kind::Mass)?;
        loads.push((parse_as(part, Kind::Mass).unwrap_or_default(), size));
    }
    loads.sort_by(|(p, _), (q, _)| p.total_cmp(q));
    let mut changes = Changes::default();
    changes = match loads.as_slice() {
        [(_, least), .., (_, most)] => changes
            .with("motion.load.least", least.clone())
            .with("motion.load.most", most.clone()),
        [(_, most)] => changes
            .with("motion.load.most", most.clone())
            .without("motion.load.least"),
        [] => changes,
    };
    Ok(changes)
}

/// What the process asks in: forces along a line, torques about a hinge.
fn asked_in(draft: &Draft) -> (Kind, &'static str) {
    match draft.kind() {
        "hinge" => (Kind::Torque, "0 Nm"),
        _ => (Kind::Force, "0 N"),
    }
}

/// Force or torque against the stroke out, back, and at rest.
pub(super) fn push(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let path = "motion.process";
    if matches!(
        text.trim().to_lowercase().as_str(),
        "none" | "nothing" | "no" | "0"
    ) {
        return Ok(Changes::default().with(path, json!([])));
    }
    let (kind, nothing) = asked_in(draft);
    let mut forces = vec![nothing.into(); 3];
    for (place, part) in parts(text, 3)?.into_iter().enumerate() {
        if let Some(force) = forces.get_mut(place) {
            *force = quantity(part, kind)?;
        }
    }
    let [out, back, hold] = forces.as_slice() else {
        return Ok(Changes::default());
    };
    let at = draft.typed("motion.from").unwrap_or_else(|| "0 mm".into());
    let point = json!({ "at": at, "out": out, "back": back, "hold": hold });
    Ok(Changes::default().with(path, json!([point])))
}

/// The same as typed; a course of forces over the travel is not, and stays as it is.
pub(super) fn push_typed(_: &Question, draft: &Draft) -> Option<String> {
    let points = draft.get("motion.process")?.as_array()?;
    match points.as_slice() {
        [] => Some("none".into()),
        [point] => {
            let nothing = asked_in(draft).1;
            let force = |key| point.get(key).and_then(Value::as_str).unwrap_or(nothing);
            Some(format!(
                "{}, {}, {}",
                force("out"),
                force("back"),
                force("hold")
            ))
        }
        _ => None,
    }
}

/// Whether a force or torque must be held at rest.
pub(super) fn is_held(draft: &Draft) -> bool {
    let (kind, _) = asked_in(draft);
    let points = draft.get("motion.process").and_then(Value::as_array);
    points.into_iter().flatten().any(|point| {
        let hold = point.get("hold").and_then(Value::as_str);
        hold.and_then(|text| parse_as(text, kind).ok())
            .is_some_and(|force| force != 0.0)
    })
}

/// Whether no weight moves the load: it lies level, or its hinge is upright.
pub(super) fn lies_level(draft: &Draft) -> bool {
    if draft.kind() == "hinge" {
        return swing::upright(draft);
    }
    draft
        .typed("motion.incline")
        .is_some_and(|angle| is_level(&angle))
}

/// A quantity at one path.
pub(super) fn dwell(_: &Question, _: &Draft, text: &str) -> Result<Changes, Problem> {
    Ok(Changes::default().with("timing.rest_out", quantity(text, Kind::Time)?))
}

/// Hours that a day has where none are said.
const HOURS: f64 = 8.0;

/// How often, and the hours and days of that: `4 an hour, 8, 220`.
pub(super) fn rate(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let parts = parts(text, 3)?;
    let rest = |place: usize, words: &[&str], path: &str, usual: f64| match parts.get(place) {
        Some(part) => number(part, words),
        None => Ok(draft.get(path).cloned().unwrap_or_else(|| whole(usual))),
    };
    let hours = rest(
        1,
        &["a day", "hours", "hour", "h"],
        "timing.hours_per_day",
        HOURS,
    )?;
    let days = rest(
        2,
        &["a year", "days", "day", "d"],
        "timing.days_per_year",
        220.0,
    )?;
    let said = parts.first().copied().unwrap_or_default().to_lowercase();
    let said = said
        .replace("times", "")
        .replace("cycles", "")
        .replace("per ", "a ")
        .replace('/', " a ");
    let said = said.replace("once", "1").replace("twice", "2");
    let (count, each) = said.split_once(" a").unwrap_or((&said, "n hour"));
    let each = each.trim_start_matches('n').trim();
    let an_hour = match each {
        "hour" | "h" => 1.0,
        "minute" | "min" => 60.0,
        "day" => 1.0 / hours.as_f64().unwrap_or(HOURS),
        _ => {
            return Err(Problem::at("", format!("{each:?} is no span of time here"))
                .hint("say how many an hour, a minute or a day: 4 an hour, 10 a minute, 2 a day"));
        }
    };
    let count = number(count, &[])?;
    let cycles = count.as_f64().unwrap_or_default() * an_hour;
    Ok(Changes::default()
        .with("timing.cycles_per_hour", whole(cycles))
        .with("timing.hours_per_day", hours)
        .with("timing.days_per_year", days))
}

/// The same as typed.
pub(super) fn rate_typed(_: &Question, draft: &Draft) -> Option<String> {
    let or = |path, usual: &str| draft.typed(path).unwrap_or_else(|| usual.to_owned());
    Some(format!(
        "{} an hour, {}, {}",
        draft.typed("timing.cycles_per_hour")?,
        or("timing.hours_per_day", "8"),
        or("timing.days_per_year", "220")
    ))
}

/// The budget with its currency, and what an hour of work costs: `4000 EUR, 40`.
pub(super) fn money(_: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let parts = parts(text, 2)?;
    let mut currency = draft.typed("currency");
    let mut amount = |part: &str| {
        let (number, name) = split(part);
        if !name.is_empty() {
            currency = Some(name);
        }
        number
    };
    let most = amount(parts.first().copied().unwrap_or_default());
    let hour = parts.get(1).map(|part| amount(part));
    let hour = match hour {
        Some(text) if !not_sure(&text) => number(&text, &["an hour", "a", "h"])?,
        _ => draft
            .get("rates.labour_per_hour")
            .cloned()
            .unwrap_or_else(|| 40.into()),
    };
    let Some(currency) = currency else {
        return Err(
            Problem::at("", "the currency is missing").hint("write it after the amount: 4000 EUR")
        );
    };
    let changes = Changes::default().with("currency", currency);
    let limit = "goals.purchase";
    let changes = match most.to_lowercase().as_str() {
        "none" | "no limit" => changes.without(limit),
        "" => {
            return Err(Problem::at("", "the amount is missing")
                .hint("write 4000 EUR, or none EUR for no limit"));
        }
        _ => changes.with(format!("{limit}.limit"), number(&most, &[])?),
    };
    Ok(changes.with("rates.labour_per_hour", hour))
}

/// An amount and its currency: `4000 EUR`, `$4000`, `none EUR`.
fn split(part: &str) -> (String, String) {
    let part = part.trim();
    for (sign, name) in [("€", "EUR"), ("$", "USD"), ("£", "GBP")] {
        if part.contains(sign) {
            return (part.replace(sign, "").trim().to_owned(), name.into());
        }
    }
    let words: Vec<&str> = part.split_whitespace().collect();
    let is_name = |word: &&&str| {
        let letters = word.bytes().all(|byte| byte.is_ascii_alphabetic());
        word.len() == 3 && letters && !matches!(**word, "per" | "the" | "max")
    };
    let name = words.iter().find(is_name).map_or("", |word| *word);
    let rest: Vec<&str> = words.iter().copied().filter(|word| *word != name).collect();
    let rest = rest.join(" ");
    // A currency stuck to its number: 4000EUR.
    let digits = rest.trim_end_matches(|sign: char| sign.is_ascii_alphabetic());
    let stuck = rest.strip_prefix(digits).unwrap_or_default();
    if name.is_empty() && stuck.len() == 3 && !digits.is_empty() {
        return (digits.trim().to_owned(), stuck.to_uppercase());
    }
    (rest, name.to_uppercase())
}

/// The same as typed.
pub(super) fn money_typed(_: &Question, draft: &Draft) -> Option<String> {
    let most = draft
        .typed("goals.purchase.limit")
        .unwrap_or_else(|| "none".into());
    let currency = draft.typed("currency")?;
    let hour = draft.typed("rates.labour_per_hour")?;
    Some(format!("{most} {currency}, {hour}"))
}

/// One of the words of a field that is named as the question.
pub(super) fn word(question: &Question, draft: &Draft, text: &str) -> Result<Changes, Problem> {
    let choices = question.choices(draft);
    let found = read_choices(text, &choices, matches!(question.form, Form::Many(_)))?;
    let word = found.first().map_or("", |choice| choice.word);
    Ok(Changes::default().with(question.id, word))
}

/// The word that the field has.
pub(super) fn word_typed(question: &Question, draft: &Draft) -> Option<String> {
    draft.typed(question.id)
}
