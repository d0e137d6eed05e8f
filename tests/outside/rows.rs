//! Rows of outside values: inputs, what is expected, how near, and where it is from.
//!
//! `rows.json` is a collection made apart from the code, `own.json` came with the tests (what is computed in it, by `own.py`). Both are SI unless a key says
//! otherwise; `_flag` is 0 or 1. A value passes within `rel_tol·|expected| + abs_tol`. A source that ends in
//! "recalled" or a provenance of `memory` is from memory; "common practice, no source" is a rule of the trade.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde_json::Value;

/// The rows of both files, as they stand there.
pub fn all() -> &'static [Value] {
    static ROWS: OnceLock<Vec<Value>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let files = [include_str!("rows.json"), include_str!("own.json")];
        let read =
            |text: &str| -> Vec<Value> { serde_json::from_str(text).expect("the rows are JSON") };
        files.into_iter().flat_map(read).collect()
    })
}

/// A text of a row.
pub fn text<'r>(row: &'r Value, key: &str) -> &'r str {
    row[key].as_str().unwrap_or_default()
}

/// A row under test; once it is dropped, each of its expected values must have been held or left out with a reason.
pub struct Row {
    value: &'static Value,
    open: RefCell<BTreeSet<String>>,
    held: RefCell<u32>,
}

/// The row of an id.
#[track_caller]
pub fn row(id: &str) -> Row {
    let row = all().iter().find(|row| text(row, "id") == id);
    let row = row.unwrap_or_else(|| panic!("no row {id}"));
    let expected = row["expected"].as_object().expect("expected values");
    Row {
        value: row,
        open: RefCell::new(expected.keys().cloned().collect()),
        held: RefCell::new(0),
    }
}

impl Row {
    fn id(&self) -> &str {
        text(self.value, "id")
    }

    /// Its source; a value from memory says so.
    pub fn source(&self) -> String {
        let source = text(self.value, "source");
        let said = source.contains("recalled") || source.contains("memory");
        match text(self.value, "provenance") {
            "memory" if !said => format!("{source} (from memory)"),
            _ => source.to_owned(),
        }
    }

    /// An input.
    #[track_caller]
    pub fn input(&self, key: &str) -> f64 {
        let value = self.value["inputs"][key].as_f64();
        value.unwrap_or_else(|| panic!("{} has no input {key}", self.id()))
    }

    /// An expected value, where it is what the project is asked about and not what it answers.
    #[track_caller]
    pub fn expected(&self, key: &str) -> f64 {
        let value = self.value["expected"][key].as_f64();
        value.unwrap_or_else(|| panic!("{} expects no {key}", self.id()))
    }

    /// The keys of its expected values, in order.
    pub fn keys(&self) -> Vec<String> {
        let expected = self.value["expected"].as_object().expect("expected values");
        expected.keys().cloned().collect()
    }

    /// Holds what the project gives against an expected value, printing its source and failing with it.
    #[track_caller]
    pub fn holds(&self, key: &str, got: f64) {
        let goal = self.expected(key);
        let tol = self.value["rel_tol"].as_f64().unwrap_or(0.0) * goal.abs()
            + self.value["abs_tol"].as_f64().unwrap_or(0.0);
        let (id, source) = (self.id(), self.source());
        assert!(
            (got - goal).abs() <= tol,
            "{id}, {key}: got {got}, expected {goal} within {tol:e}; {source}"
        );
        println!("{id}, {key}: {got} agrees with {goal}; {source}");
        self.close(key);
    }

    /// Holds that what the project takes is no more than an expected value.
    #[track_caller]
    pub fn at_most(&self, key: &str, got: f64) {
        self.bounds(key, got, got <= self.expected(key), "at most");
    }

    /// Holds that what the project takes is no less than an expected value.
    #[track_caller]
    pub fn at_least(&self, key: &str, got: f64) {
        self.bounds(key, got, got >= self.expected(key), "at least");
    }

    #[track_caller]
    fn bounds(&self, key: &str, got: f64, holds: bool, word: &str) {
        let (id, bound, source) = (self.id(), self.expected(key), self.source());
        assert!(
            holds,
            "{id}, {key}: got {got}, expected {word} {bound}; {source}"
        );
        println!("{id}, {key}: {got} is {word} {bound}; {source}");
        self.close(key);
    }

    #[track_caller]
    fn close(&self, key: &str) {
        let open = self.open.borrow_mut().remove(key);
        assert!(open, "{}: {key} is held twice", self.id());
        *self.held.borrow_mut() += 1;
    }

    /// Leaves out a value that the project has no function for, saying why.
    #[track_caller]
    pub fn without(&self, keys: &[&str], why: &str) {
        for key in keys {
            println!("{}, {key}: waits; {why}", self.id());
            let open = self.open.borrow_mut().remove(*key);
            assert!(open, "{}: {key} is not open", self.id());
        }
    }
}

impl Drop for Row {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            let open = self.open.borrow();
            assert!(open.is_empty(), "{}: {open:?} is not held", self.id());
            assert!(*self.held.borrow() > 0, "{}: nothing is held", self.id());
        }
    }
}

/// Where a function that only grows reaches a value, by halving.
#[track_caller]
pub fn solve(least: f64, most: f64, value: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (least, most);
    assert!(
        f(low) < value && value < f(high),
        "nothing between {low} and {high} gives {value}"
    );
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if f(middle) < value {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}
