//! Answers from a file, a line each, shown as a conversation.

use super::super::files::tell;
use super::terminal::{paragraph, title};
use crate::ask::{Front, Prompt, Stop};
use crate::problem::plain;

/// Lines that answer in turn.
pub struct Replay {
    lines: std::vec::IntoIter<String>,
}

impl Replay {
    /// The lines of a text.
    pub fn new(text: &str) -> Self {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        Self {
            lines: lines.into_iter(),
        }
    }
}

impl Front for Replay {
    fn say(&mut self, text: &str) -> Result<(), Stop> {
        tell(&paragraph(text));
        Ok(())
    }

    fn ask(&mut self, prompt: &Prompt) -> Result<String, Stop> {
        if !prompt.heading.is_empty() {
            tell(&format!("\n{}", title(&prompt.heading)));
        }
        for line in &prompt.help {
            tell(&paragraph(line));
        }
        if !prompt.help.is_empty() {
            for (place, choice) in (1..).zip(&prompt.choices) {
                tell(&paragraph(&format!(
                    "{place} {}: {}",
                    choice.word, choice.says
                )));
            }
        }
        let default = prompt
            .default
            .as_ref()
            .map_or_else(String::new, |text| format!("[{text}] "));
        let Some(line) = self.lines.next() else {
            tell(&plain(&format!("  > {default}")));
            return Err(Stop::RanOut);
        };
        tell(&plain(&format!("  > {default}{line}")));
        Ok(line)
    }
}
