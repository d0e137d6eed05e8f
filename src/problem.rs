//! The one kind of error a user sees: where, what, and what would be right.

use std::fmt;

/// Where in a text a fault stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The part of the line that is shown.
    pub quote: String,
    /// Characters of it before what is meant.
    pub before: usize,
    /// Characters of it that are meant.
    pub length: usize,
}

/// One fault in what was given, with its place and a way out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// The file, where the fault is of one and its name is known.
    pub file: Option<String>,
    /// Where in the file, where that can be pointed at.
    pub place: Option<Place>,
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
            file: None,
            place: None,
            path: path.into(),
            message: message.into(),
            read: None,
            hint: None,
        }
    }

    /// A fault of the whole, or of what is at hand.
    pub fn whole(message: impl Into<String>) -> Self {
        Self::at("", message)
    }

    /// The same fault, quoting what was read.
    pub fn read(mut self, text: impl Into<String>) -> Self {
        self.read = Some(text.into());
        self
    }

    /// The same fault, saying what would be right; an empty text says nothing.
    pub fn hint(mut self, text: impl Into<String>) -> Self {
        self.hint = Some(text.into()).filter(|text| !text.is_empty());
        self
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "error: ")?;
        if let Some(file) = &self.file {
            write!(f, "{}:", cut(&plain(file), PATH_SHOWN))?;
            if let Some(Place { line, column, .. }) = &self.place {
                write!(f, "{line}:{column}:")?;
            }
            write!(f, " ")?;
        }
        if !self.path.is_empty() {
            write!(f, "{} ", cut(&plain(&self.path), PATH_SHOWN))?;
        }
        let words = |text: &str| cut(&values_cut(&plain(text)), WORDS_SHOWN);
        write!(f, "{}", words(&self.message))?;
        if let Some(place) = &self.place {
            write!(f, "{place}")?;
        } else if let Some(read) = &self.read {
            write!(f, "\n  {}", cut(&plain(read), PATH_SHOWN))?;
        }
        if let Some(hint) = &self.hint {
            write!(f, "\n  hint: {}", words(hint))?;
        }
        Ok(())
    }
}

impl fmt::Display for Place {
    /// The line with its number, and a mark under what is meant.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = |skip: usize, count: usize| -> String {
            let signs = self.quote.chars().skip(skip).take(count);
            let signs = signs.map(|sign| if sign == '\t' { ' ' } else { sign });
            plain(&signs.collect::<String>())
        };
        let number = self.line.to_string();
        let gap = " ".repeat(number.len());
        let lead = " ".repeat(shown(0, self.before).chars().count());
        let meant = shown(self.before, self.length).chars().count().max(1);
        write!(f, "\n  {number} | {}", shown(0, usize::MAX))?;
        write!(f, "\n  {gap} | {lead}{}", "^".repeat(meant))
    }
}

/// Most characters that are shown of a path or a quotation, of a message or a hint, and of a value within one.
const PATH_SHOWN: usize = 160;
const WORDS_SHOWN: usize = 480;
const VALUE_SHOWN: usize = 80;

/// A text, cut in its middle where it is long, since what matters stands at its ends.
fn cut(text: &str, most: usize) -> String {
    let count = text.chars().count();
    if count <= most {
        return text.to_owned();
    }
    let start = text.chars().take(most / 2);
    let end = text.chars().skip(count - most / 2);
    start.chain(['…']).chain(end).collect()
}

/// A message with each value between quotes cut where it is long; a quote within a value has a backslash before it.
fn values_cut(text: &str) -> String {
    let (mut whole, mut value) = (String::new(), None::<String>);
    let mut escaped = false;
    for sign in text.chars() {
        match &mut value {
            None if sign == '"' => value = Some(String::new()),
            None => whole.push(sign),
            Some(open) if sign == '"' && !escaped => {
                whole.push('"');
                whole.push_str(&cut(open, VALUE_SHOWN));
                whole.push('"');
                value = None;
            }
            Some(open) => open.push(sign),
        }
        escaped = sign == '\\' && !escaped;
    }
    if let Some(open) = value {
        whole.push('"');
        whole.push_str(&open);
    }
    whole
}

/// What a file says must not act on the terminal that shows it.
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
pub fn acts(sign: char) -> bool {
    matches!(sign, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Every fault found, never only the first.
pub type Problems = Vec<Problem>;

/// Most faults that are told.
pub const MOST_FAULTS: usize = 1_000;

/// Says how many faults of a file are not told.
pub fn left_out(count: usize) -> String {
    let faults = if count == 1 { "fault" } else { "faults" };
    format!("the file has {count} {faults} more")
}

/// The faults, but no more than a person would read.
pub fn few_enough(mut problems: Problems) -> Problems {
    let more = problems.len().saturating_sub(MOST_FAULTS);
    if more > 0 {
        problems.truncate(MOST_FAULTS);
        problems.push(Problem::whole(left_out(more)));
    }
    problems
}

#[cfg(test)]
#[path = "../tests/unit/problem.rs"]
mod tests;
