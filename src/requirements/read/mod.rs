//! Reading a requirements file: bytes to a checked job, every fault reported.
//!
//! The file's changes (`--set`) are applied first, then the defaults of the
//! table are written into it, then every field is read strictly, so that a
//! completed file reads back as the same job.

#![allow(
    clippy::option_option,
    reason = "a fault is not the same as a field left out"
)]

/// Reads fields of an object into a record: all of them before any is missed, so that every fault is said. The last of them
/// may be absent from the record too.
macro_rules! record {
    ($object:expr => $type:ident { $($how:ident $($field:ident),+;)+ } $(may $may:ident)?) => {{
        let object: &mut Object = $object;
        $($(let $field = object.$how(stringify!($field));)+)+
        $(let $may = object.optional(stringify!($may));)?
        Some($type { $($($field: $field?,)+)+ $($may,)? })
    }};
}

mod base;
mod goals;
mod hinge;
mod motion;
mod range;
mod site;
mod slide;
mod timing;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::fields::{field_at, places};
use super::{PowerLoss, Requirements, Stops, Task, fill, set};
use crate::problem::{Problem, Problems, acts, few_enough};
use crate::reading::{self, MISSING, Object, Sink, Tree, UNKNOWN, nearest, quote};
use crate::refusal;

/// The format that every requirements file names.
pub(super) const FORMAT: &str = "counterpoise-requirements/2";

/// A requirements file, read.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The job.
    pub requirements: Requirements,
    /// What was taken for granted, in the order of the format.
    pub assumptions: Vec<Assumption>,
    /// The file with its changes and every default written out, in the order of the format.
    pub document: Value,
}

/// Something taken for granted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Assumption {
    /// Where it belongs.
    pub field: String,
    /// What was taken.
    pub value: String,
    /// Why.
    pub reason: String,
}

impl Assumption {
    pub(super) fn new(
        field: impl Into<String>,
        value: impl Into<String>,
        reason: impl Into<String>,
    ) -> Self {
        Self {
            field: field.into(),
            value: value.into(),
            reason: reason.into(),
        }
    }
}

/// Reads a requirements file, with changes from the command line as pairs of path and value.
///
/// # Errors
/// Every fault of the file and the changes, each with its path.
pub fn read(bytes: &[u8], sets: &[(String, String)]) -> Result<Reading, Problems> {
    read_fields(bytes, sets).map_err(|mut problems| {
        let text = String::from_utf8_lossy(bytes);
        // Who has more faults than this reads them in another way.
        for problem in problems.iter_mut().take(POINTED_AT_MOST) {
            if !set::concerns(sets, &problem.path) {
                reading::point(problem, &text);
            }
        }
        problems
    })
}

/// Faults that are pointed at in the text: for each it is gone over once.
const POINTED_AT_MOST: usize = 100;

fn read_fields(bytes: &[u8], sets: &[(String, String)]) -> Result<Reading, Problems> {
    let mut file = reading::parse(bytes)?;
    if !matches!(file, Tree::Object(_)) {
        let message = format!("the file is {}, not an object", file.kind());
        return Err(vec![Problem::whole(message).hint("start it with {")]);
    }
    let mut problems = set::apply(&mut file, sets);
    other_format(&file)?;
    let mut assumptions = fill::fill(&mut file);
    let sink = Sink::default();
    let job = requirements(&file, &sink, &mut assumptions);
    range::check(&file, &sink);
    let kind = fill::motion_kind(&file).to_owned();
    problems.extend(
        few_enough(sink.into_problems())
            .into_iter()
            .map(|fault| with_meaning(fault, &kind)),
    );
    if let Some(fault) = unfinished_fault(&file, &problems) {
        problems.insert(0, fault);
    }
    match job {
        Some(requirements) if problems.is_empty() => {
            fill::order(&mut file, "");
            Ok(Reading {
                requirements,
                assumptions,
                document: Value::from(&file),
            })
        }
        _ => Err(few_enough(problems)),
    }
}

/// What the first format called otherwise.
const NEW_NAMES: &str = "wants are goals, must is limit, ideal is target, upkeep_hours are maintenance_hours, made_parts are custom_parts, load_ratio_… rules are load_factor_…, hours_…_upkeep rules are hours_…_maintenance";

/// A file of another format has no faults of this one worth telling.
fn other_format(file: &Tree) -> Result<(), Problems> {
    match file.get("format") {
        Some(Tree::Text(format)) if format != FORMAT => Err(vec![
            Problem::at("format", "is another one than this program reads")
                .read(quote("format", &Tree::Text(format.clone())))
                .hint(format!("this program reads {FORMAT:?}, where {NEW_NAMES}")),
        ]),
        _ => Ok(()),
    }
}

/// Reads every field of a completed file.
fn requirements(
    file: &Tree,
    sink: &Sink,
    assumptions: &mut Vec<Assumption>,
) -> Option<Requirements> {
    let mut top = Object::new(file, "", sink)?;
    top.required::<String>("format");
    for free in ["$schema", "notes"] {
        top.optional::<String>(free);
    }
    top.optional::<bool>("unfinished");
    unsure_answers(&mut top, file, sink, assumptions);
    let title = text(&mut top, "title", sink);
    refusal::people(file, sink);
    let currency = text(&mut top, "currency", sink);
    if currency
        .as_deref()
        .is_some_and(|name| name.trim().is_empty())
    {
        top.fault("currency", "is empty");
    }
    let motion = motion::read(top.object("motion"), sink);
    let timing = timing::read(top.object("timing"));
    let stops = choice(&mut top, "stops", sink, Stops::WORDS);
    let power_loss = choice(&mut top, "power_loss", sink, PowerLoss::WORDS);
    let site = site::read(&mut top, sink);
    let base = base::read(&mut top);
    let structure = base::structure(&mut top, sink);
    let goals = goals::read(top.object("goals"), sink);
    let rates = timing::rates(top.object("rates"));
    let rules = goals::rules(top.object("rules"), assumptions);
    top.finish();
    let (timing, goals) = (timing?, goals?);
    let travel_time_limit_s = timing::fit(&timing, &goals, sink, assumptions)?;
    Some(Requirements {
        title: title?,
        task: Task {
            currency: currency?,
            motion: motion?,
            timing,
            stops: stops?,
            power_loss: power_loss?,
            site: site?,
            base: base?,
            structure: structure?,
            rates: rates?,
            rules,
        },
        goals,
        travel_time_limit_s,
    })
}

/// Answers that the person was not sure of are assumptions; a path must lead to a field.
fn unsure_answers(top: &mut Object, file: &Tree, sink: &Sink, assumptions: &mut Vec<Assumption>) {
    let paths: Vec<String> = top.optional("unsure").unwrap_or_default();
    for (index, path) in paths.iter().enumerate() {
        let known = field_at(path, fill::motion_kind(file));
        let found = known.and_then(|field| {
            let here = |(place, _): &(String, &Tree)| place == path;
            places(file, field.path).into_iter().find(here)
        });
        let place = format!("unsure[{index}]");
        if let Some((_, value)) = found {
            let why = "the person was not sure of this answer";
            assumptions.push(Assumption::new(path, fill::in_words(value), why));
            continue;
        }
        let message = match known {
            Some(_) => "names a field that the file does not have",
            None => "names a field that is not known",
        };
        let quoted = Value::from(path.as_str()).to_string();
        sink.add(Problem::at(place, message).read(quoted));
    }
}

/// A text without signs that would act on a terminal or turn its letters round.
fn text(object: &mut Object, key: &'static str, sink: &Sink) -> Option<String> {
    let text: String = object.required(key)?;
    if text.chars().any(|sign| sign.is_control() || acts(sign)) {
        let fault = object.problem(key, "has control characters");
        sink.add(fault.hint("write letters, digits, spaces and marks on one line"));
    }
    Some(text)
}

/// One of some words.
fn choice<T: Copy>(
    object: &mut Object,
    key: &'static str,
    sink: &Sink,
    words: &[(&'static str, T)],
) -> Option<T> {
    let text: String = object.required(key)?;
    if let Some((_, value)) = words.iter().find(|(word, _)| *word == text) {
        return Some(*value);
    }
    let names: Vec<_> = words.iter().map(|(word, _)| *word).collect();
    let all = names.join(", ");
    let hint = match nearest(&text, &names) {
        Some(name) => format!("did you mean {name:?}? choices: {all}"),
        None => format!("choices: {all}"),
    };
    sink.add(object.problem(key, "is not one of the choices").hint(hint));
    None
}

/// Adds what a missing field means, and whose field an unknown one is.
fn with_meaning(fault: Problem, kind: &str) -> Problem {
    if fault.hint.is_some() {
        return fault;
    }
    let other = if kind == "slide" { "hinge" } else { "slide" };
    match (fault.message.as_str(), field_at(&fault.path, kind)) {
        (MISSING, Some(field)) => fault.hint(field.meaning),
        (UNKNOWN, None) if field_at(&fault.path, other).is_some() => {
            fault.hint(format!("a {other} has it, a {kind} does not"))
        }
        _ => fault,
    }
}

/// A file that the interview has not ended is refused, naming what is missing.
fn unfinished_fault(file: &Tree, problems: &Problems) -> Option<Problem> {
    if file.get("unfinished") != Some(&Tree::Bool(true)) {
        return None;
    }
    let missing = problems.iter().filter(|fault| fault.message == MISSING);
    let missing: Vec<_> = missing.map(|fault| fault.path.as_str()).collect();
    let hint = if missing.is_empty() {
        "nothing is missing any more; take this line out".into()
    } else {
        format!("still missing: {}", missing.join(", "))
    };
    let message = "is true: the questions have not all been answered";
    let fault = Problem::at("unfinished", message).read("\"unfinished\": true");
    Some(fault.hint(hint))
}
