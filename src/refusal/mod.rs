//! Machines that lift or carry people are refused: they need licensed design.
//!
//! Judged by the words of every text of the file, so it errs towards refusing: who is misread can say it in other words,
//! and nothing but other words lets a file through.

mod grammar;
mod words;

use crate::reading::{Sink, Tree, fault_at, join};

/// What is said of a text that asks to lift people.
const REFUSED: &str = "speaks of a machine that lifts or carries people, which is refused: when such a machine fails \
    somebody dies, and a preliminary sizing has neither the second means of holding nor the proof that its rules ask for";

/// Refuses a file any text of which asks to lift people.
pub fn people(file: &Tree, sink: &Sink) {
    texts(file, String::new(), &mut |place, text| {
        if lifts_people(text) {
            let fault = fault_at(place, &Tree::Text(text.into()), REFUSED);
            sink.add(fault.hint(
                "have it designed and approved by somebody licensed for lifts and hoists for people; nothing \
                 switches this refusal off",
            ));
        }
    });
}

/// Visits every text of a file with its path.
fn texts(tree: &Tree, place: String, visit: &mut dyn FnMut(String, &str)) {
    match tree {
        Tree::Text(text) => visit(place, text),
        Tree::List(items) => {
            for (index, item) in items.iter().enumerate() {
                texts(item, format!("{place}[{index}]"), visit);
            }
        }
        Tree::Object(fields) => {
            for (key, value) in fields {
                texts(value, join(&place, key), visit);
            }
        }
        _ => {}
    }
}

/// Whether a text speaks of lifting people, by whole words.
fn lifts_people(text: &str) -> bool {
    grammar::lifts_people(&text.to_lowercase().replace(['\u{2019}', '\u{02bc}'], "'"))
}

#[cfg(test)]
#[path = "../../tests/unit/refusal.rs"]
mod tests;
