//! What a question is.

use serde_json::Value;

use super::draft::Draft;
use crate::problem::Problem;
use crate::quantity::System;
use crate::requirements::{Criterion, field_at};
use crate::study::Change;

/// A text in metric units, and the same for who reads inches and pounds.
#[derive(Debug, Clone, Copy)]
pub struct Both(pub &'static str, pub &'static str);

impl Both {
    /// The one for a system.
    pub fn of(self, system: System) -> &'static str {
        match system {
            System::Metric => self.0,
            System::Us => self.1,
        }
    }
}

/// One of some answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// The word that answers.
    pub word: &'static str,
    /// What it means.
    pub says: &'static str,
}

/// How a question is answered.
#[derive(Debug, Clone, Copy)]
pub enum Form {
    /// By typing.
    Line,
    /// By one of some words.
    One(fn(&Draft) -> Vec<Choice>),
    /// By any number of some words.
    Many(fn(&Draft) -> Vec<Choice>),
}

/// What an answer does to the file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Changes {
    /// Fields set or taken out.
    pub set: Vec<Change>,
    /// Paths whose value is typical, not the person's own.
    pub unsure: Vec<String>,
}

impl From<Change> for Changes {
    fn from(change: Change) -> Self {
        Self {
            set: vec![change],
            unsure: Vec::new(),
        }
    }
}

impl Changes {
    /// Sets a field.
    pub fn with(mut self, path: impl Into<String>, value: impl Into<Value>) -> Self {
        self.set.push(Change::set(path, value));
        self
    }
    /// Takes a field out.
    pub fn without(mut self, path: impl Into<String>) -> Self {
        self.set.push(Change::without(path));
        self
    }
}

/// What the file holds where a question does not apply.
#[derive(Debug, Clone, Copy)]
pub struct Otherwise {
    /// Field.
    pub path: &'static str,
    /// Its value.
    pub value: &'static str,
    /// Why it is not asked.
    pub says: &'static str,
}

/// The least demanding answer, against which an answer is held.
#[derive(Debug, Clone, Copy)]
pub struct Easier {
    /// What it does to the file.
    pub changes: fn(&Question, &Draft) -> Changes,
    /// The condition in words, after "if".
    pub says: &'static str,
}

/// Reads an answer.
pub type Read = fn(&Question, &Draft, &str) -> Result<Changes, Problem>;

/// One question, with all that is known about it.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// Its name.
    pub id: &'static str,
    /// The part of the file it belongs to, as `--only` names it.
    pub part: &'static str,
    /// The question.
    pub asks: &'static str,
    /// Why it is asked, in one sentence.
    pub why: &'static str,
    /// More, for who answers `?`.
    pub more: &'static str,
    /// How an answer looks.
    pub like: Both,
    /// The typical range, to lean on.
    pub usual: Both,
    /// What "don't know" takes, as it would be typed.
    pub typical: Both,
    /// The same where it depends on other answers.
    pub worked: Option<fn(&Draft) -> Option<String>>,
    /// Whether "don't know" may stand for the whole answer; where it decides the ranking, it may not.
    pub open: bool,
    /// Whether an empty answer takes the typical one.
    pub defaulted: bool,
    /// How it is answered.
    pub form: Form,
    /// When it is asked.
    pub applies: fn(&Question, &Draft) -> bool,
    /// Whether the file has an answer.
    pub answered: fn(&Question, &Draft) -> bool,
    /// The answer that the file has, as one would type it.
    pub present: fn(&Question, &Draft) -> Option<String>,
    /// Reads an answer.
    pub read: Read,
    /// What is written where it does not apply.
    pub otherwise: Option<Otherwise>,
    /// Whether forces or speeds follow from it.
    pub mechanics: bool,
    /// What it is compared with, to see what it drives.
    pub easier: Option<Easier>,
    /// The goal that it asks for.
    pub goal: Option<Criterion>,
}

impl Question {
    /// The typical answer, marked as not the person's own.
    ///
    /// # Errors
    /// Where there is none.
    pub fn typically(&self, draft: &Draft, system: System) -> Result<Changes, Problem> {
        let text = self.typical_text(draft, system);
        let mut changes = (self.read)(self, draft, &text)?;
        let kind = draft.kind();
        let set = changes
            .set
            .iter()
            .filter(|change| change.value().is_some() && field_at(&change.field, kind).is_some());
        changes.unsure = set.map(|change| change.field.clone()).collect();
        Ok(changes)
    }

    /// The typical answer, as it would be typed.
    pub fn typical_text(&self, draft: &Draft, system: System) -> String {
        let worked = self.worked.and_then(|work| work(draft));
        worked.unwrap_or_else(|| self.typical.of(system).to_owned())
    }

    /// The words to choose from.
    pub fn choices(&self, draft: &Draft) -> Vec<Choice> {
        match self.form {
            Form::Line => Vec::new(),
            Form::One(choices) | Form::Many(choices) => choices(draft),
        }
    }
}
