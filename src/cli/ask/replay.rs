//! Answers from a file, a line each, in turn or by the names of their questions, shown as a conversation.

use super::super::files::tell;
use super::terminal::{default_text, paragraph, show_head};
use crate::ask::{Front, Prompt, Stop, question};
use crate::problem::plain;

/// Lines that answer.
pub enum Replay {
    /// Each the next question.
    InTurn(std::vec::IntoIter<String>),
    /// Each the question of its name.
    Named(Vec<(String, String)>),
}

impl Replay {
    /// The lines of a text; if every one begins with the name of a question and `=`, they answer by name.
    pub fn new(text: &str) -> Self {
        let named = |line: &str| {
            let (name, answer) = line.split_once('=')?;
            let name = name.trim();
            let known = name == "offer" || question(name).is_some();
            known.then(|| (name.to_owned(), answer.trim().to_owned()))
        };
        let lines = || text.lines().filter(|line| !line.trim().is_empty());
        match lines().map(named).collect::<Option<Vec<_>>>() {
            Some(named) if !named.is_empty() => Self::Named(named),
            _ => {
                let lines: Vec<String> = text.lines().map(str::to_owned).collect();
                Self::InTurn(lines.into_iter())
            }
        }
    }

    /// The answer to a prompt, if there is one left. What nobody named of the offer takes its default.
    fn answer(&mut self, prompt: &Prompt) -> Option<String> {
        match self {
            Self::InTurn(lines) => lines.next(),
            Self::Named(lines) => match lines.iter().position(|(name, _)| name == prompt.id) {
                Some(place) => Some(lines.remove(place).1),
                None => (prompt.id == "offer").then(String::new),
            },
        }
    }
}

impl Front for Replay {
    fn say(&mut self, text: &str) -> Result<(), Stop> {
        tell(&paragraph(text));
        Ok(())
    }

    fn ask(&mut self, prompt: &Prompt) -> Result<String, Stop> {
        show_head(prompt);
        if !prompt.help.is_empty() {
            for (place, choice) in (1..).zip(&prompt.choices) {
                tell(&paragraph(&format!(
                    "{place} {}: {}",
                    choice.word, choice.says
                )));
            }
        }
        let default = default_text(prompt);
        let Some(line) = self.answer(prompt) else {
            tell(&plain(&format!("  > {default}")));
            return Err(Stop::RanOut);
        };
        tell(&plain(&format!("  > {default}{line}")));
        Ok(line)
    }
}
