//! The one kind of error a user sees: where, what, and what would be right.

use std::fmt;

/// One fault in what was given, with its place and a way out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Where: a field path such as `motion.load.most`, or empty for the whole.
    pub path: String,
    /// What is wrong, as a clause that follows the path ("needs a unit").
    pub message: String,
    /// What was read and where it stands, if there is something to quote.
    pub read: Option<String>,
    /// What would be right, if it can be said.
    pub hint: Option<String>,
}

impl Problem {
    /// A fault at `path`.
    pub fn at(path: impl Into<String>, message: impl Into<String>) -> Self {
        Self {
            path: path.into(),
            message: message.into(),
            read: None,
            hint: None,
        }
    }

    /// The same fault, quoting what was read.
    #[must_use]
    pub fn read(mut self, text: impl Into<String>) -> Self {
        self.read = Some(text.into());
        self
    }

    /// The same fault, saying what would be right.
    #[must_use]
    pub fn hint(mut self, text: impl Into<String>) -> Self {
        self.hint = Some(text.into());
        self
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "error: ")?;
        if !self.path.is_empty() {
            write!(f, "{} ", cut(&plain(&self.path)))?;
        }
        write!(f, "{}", cut(&plain(&self.message)))?;
        if let Some(read) = &self.read {
            write!(f, "\n  {}", cut(&plain(read)))?;
        }
        if let Some(hint) = &self.hint {
            write!(f, "\n  hint: {}", cut(&plain(hint)))?;
        }
        Ok(())
    }
}

/// Most characters of a path, a message, a quotation or a hint that are shown.
const SHOWN: usize = 1_200;

/// A text, cut in its middle where it is long, since what matters stands at its ends.
fn cut(text: &str) -> String {
    let count = text.chars().count();
    if count <= SHOWN {
        return text.to_owned();
    }
    let start = text.chars().take(SHOWN / 2);
    let end = text.chars().skip(count - SHOWN / 2);
    start.chain(['…']).chain(end).collect()
}

/// What a file says must not act on the terminal that shows it.
#[must_use]
pub fn plain(text: &str) -> String {
    let show = |sign: char| -> String {
        if sign.is_control() || acts(sign) {
            sign.escape_unicode().to_string()
        } else {
            sign.into()
        }
    };
    text.chars().map(show).collect()
}

/// Whether a sign, though no control character, breaks a line or turns the writing round.
#[must_use]
pub fn acts(sign: char) -> bool {
    matches!(sign, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Every fault found, never only the first.
pub type Problems = Vec<Problem>;

/// Most faults that are told.
pub const MOST_FAULTS: usize = 1_000;

/// The faults, but no more than a person would read.
#[must_use]
pub fn told(mut problems: Problems) -> Problems {
    let more = problems.len().saturating_sub(MOST_FAULTS);
    if more > 0 {
        problems.truncate(MOST_FAULTS);
        problems.push(Problem::at("", format!("the file has {more} faults more")));
    }
    problems
}
