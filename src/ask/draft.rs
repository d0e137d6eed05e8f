//! The requirements file as far as it has been answered.
//!
//! It is kept as JSON, so that fields that no question asks for stay as the person wrote them.

use serde_json::{Map, Value, json};

use super::question::Changes;
use super::questions::questions;
use crate::problem::{Problem, Problems};
use crate::quantity::{Kind, System, parse_as, system_of};
use crate::reading::{self, Tree};
use crate::requirements::{self, Criterion, Reading};
use crate::study::Change;

/// A requirements file in the making.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    document: Value,
    /// The units that the person asked for; they are not in the file, where every quantity names its own.
    system: Option<System>,
}

/// Where a quantity tells which units the person reads, most telling first.
const TELLING: &[(&str, Kind)] = &[
    ("motion.travel", Kind::Length),
    ("motion.centre_of_mass.radius", Kind::Length),
    ("motion.load.most", Kind::Mass),
    ("site.air.pressure", Kind::Pressure),
];

impl Default for Draft {
    fn default() -> Self {
        Self {
            document: json!({
                "format": "counterpoise-requirements/2",
                "unfinished": true,
                "title": null,
                "currency": null,
                "motion": { "kind": "slide" },
            }),
            system: None,
        }
    }
}

impl Draft {
    /// Reads a file that was begun, by this program or by hand.
    ///
    /// # Errors
    /// Bytes that are no JSON object, another format, or a fault of what is there.
    pub fn read(bytes: &[u8]) -> Result<Self, Problems> {
        let tree = reading::parse(bytes)?;
        if !matches!(tree, Tree::Object(_)) {
            let message = format!("the file is {}, not an object", tree.kind());
            return Err(vec![Problem::at("", message).hint("start it with {")]);
        }
        let mut draft = Self {
            document: Value::from(&tree),
            system: None,
        };
        for (path, value) in [
            ("format", "counterpoise-requirements/2"),
            ("motion.kind", "slide"),
        ] {
            if draft.get(path).is_none() {
                draft.put(path, Some(value.into()));
            }
        }
        draft.reading().map(|_| draft)
    }

    /// The value at a path of keys; `null` counts as none.
    pub fn get(&self, path: &str) -> Option<&Value> {
        let found = path
            .split('.')
            .try_fold(&self.document, |value, key| value.get(key))?;
        (!found.is_null()).then_some(found)
    }

    /// The kind of motion.
    pub fn kind(&self) -> &'static str {
        match self.get("motion.kind").and_then(Value::as_str) {
            Some("hinge") => "hinge",
            _ => "slide",
        }
    }

    /// A text or number at a path, as one would type it.
    pub fn typed(&self, path: &str) -> Option<String> {
        match self.get(path)? {
            Value::String(text) => Some(text.clone()),
            Value::Number(number) => Some(number.to_string()),
            _ => None,
        }
    }

    /// A number at a path: of a quantity in SI, else plain.
    pub fn number(&self, path: &str, kind: Option<Kind>) -> Option<f64> {
        match (self.get(path)?, kind) {
            (Value::String(text), Some(kind)) => parse_as(text, kind).ok(),
            (value, None) => value.as_f64(),
            _ => None,
        }
    }

    /// Writes a value at a path, or takes the field out.
    fn put(&mut self, path: &str, value: Option<Value>) {
        let (around, key) = path.rsplit_once('.').unwrap_or(("", path));
        let mut here = &mut self.document;
        for step in around.split('.').filter(|step| !step.is_empty()) {
            if !here.get(step).is_some_and(Value::is_object) {
                if value.is_none() {
                    return;
                }
                if let Some(fields) = here.as_object_mut() {
                    fields.insert(step.to_owned(), Value::Object(Map::new()));
                }
            }
            match here.get_mut(step) {
                Some(inner) => here = inner,
                None => return,
            }
        }
        let Some(fields) = here.as_object_mut() else {
            return;
        };
        match value {
            Some(value) => {
                fields.insert(key.to_owned(), value);
            }
            None => {
                fields.shift_remove(key);
            }
        }
    }

    /// Writes an answer into the file. What it sets is sure, but for the paths that it says are not.
    pub fn apply(&mut self, changes: &Changes) {
        for change in &changes.set {
            self.put(&change.field, change.value());
        }
        let touched = |path: &str| {
            let within = |change: &Change| {
                let rest = path.strip_prefix(&change.field);
                rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
            };
            changes.set.iter().any(within)
        };
        let mut unsure = self.unsure();
        unsure.retain(|path| !touched(path));
        unsure.extend(changes.unsure.iter().cloned());
        unsure.retain(|path| self.get(path).is_some());
        let value = (!unsure.is_empty()).then(|| Value::from(unsure));
        self.put("unsure", value);
    }

    /// Paths of answers that the person was not sure of.
    pub fn unsure(&self) -> Vec<String> {
        let list = self.get("unsure").and_then(Value::as_array);
        let texts = list.into_iter().flatten().filter_map(Value::as_str);
        texts.map(str::to_owned).collect()
    }

    /// Whether questions are still open.
    pub fn unfinished(&self) -> bool {
        self.get("unfinished").is_some_and(|open| open == true)
    }

    /// Marks the file as one whose questions are open, or all answered.
    pub fn set_unfinished(&mut self, open: bool) {
        self.put("unfinished", open.then_some(Value::Bool(true)));
    }

    /// Whether a goal is named, asked in full or not yet.
    pub fn goals(&self, criterion: Criterion) -> bool {
        self.get(criterion.row().path).is_some()
    }

    /// Goals that are named but have no limit yet.
    pub fn open_goals(&self) -> Vec<Criterion> {
        let rows = requirements::CRITERIA.iter();
        let open = rows.filter(|row| {
            self.get(row.path).is_some() && self.get(&format!("{}.limit", row.path)).is_none()
        });
        open.map(|row| row.criterion).collect()
    }

    /// The units that the person asked for, or else those that the answers show.
    pub fn system(&self) -> System {
        if let Some(system) = self.system {
            return system;
        }
        let tell = |(path, kind): &(&str, Kind)| system_of(&self.typed(path)?, *kind);
        TELLING.iter().find_map(tell).unwrap_or_default()
    }

    /// Shows all that follows in these units.
    pub fn show_in(&mut self, system: System) {
        self.system = Some(system);
    }

    /// The file as it is written.
    pub fn to_text(&self) -> String {
        let mut written = self.document.clone();
        if let Some(fields) = written.as_object_mut() {
            fields.retain(|_, value| !value.is_null());
        }
        format!("{written:#}\n")
    }

    /// What questions that do not apply leave settled, where the file does not say otherwise.
    pub fn settle(&mut self) {
        for question in questions() {
            if let Some(settled) = &question.otherwise
                && !(question.applies)(question, self)
                && self.get(settled.path).is_none()
            {
                self.put(settled.path, Some(settled.value.into()));
            }
        }
    }

    /// The file with a typical value for every question that is still open; what else is wanted is left at nothing.
    pub fn completed(&self, system: System) -> Self {
        let mut whole = self.clone();
        whole.set_unfinished(false);
        for question in questions() {
            if question.id != "goals"
                && (question.applies)(question, &whole)
                && !(question.answered)(question, &whole)
                && let Ok(changes) = question.typically(&whole, system)
            {
                whole.apply(&changes);
            }
        }
        whole.settle();
        whole
    }

    /// The job as answered so far, the rest typical.
    ///
    /// # Errors
    /// Every fault of what is there.
    pub fn reading(&self) -> Result<Reading, Problems> {
        let whole = self.completed(self.system());
        requirements::read(whole.to_text().as_bytes(), &[])
    }
}
