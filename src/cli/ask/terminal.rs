//! The questions on a terminal.

use std::fmt;
use std::io::ErrorKind;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use anstyle::Style;
use console::Term;
use dialoguer::theme::Theme;
use dialoguer::{Input, MultiSelect, Select};

use super::super::{Failure, files::tell};
use crate::ask::{Choice, Front, Prompt, Stop};
use crate::problem::plain;

/// Columns that text is wrapped to, on a terminal that has as many.
const WIDTH: usize = 80;
/// What stands below the choices of a list, with what choosing it answers.
const BESIDE: &[(&str, &str)] = &[
    ("?  tell me more", "?"),
    ("<  go back", "<"),
    ("don't know", "don't know"),
];

/// A terminal with somebody at it.
pub struct Terminal {
    term: Term,
    /// Set by Ctrl-C, also while a study is being made.
    left: Arc<AtomicBool>,
}

impl Terminal {
    /// The terminal that keys come from and questions go to.
    pub fn new() -> Result<Self, Failure> {
        let left = Arc::new(AtomicBool::new(false));
        let seen = Arc::clone(&left);
        // The signal only leaves a mark: the question that is being asked ends with an error, gives the cursor back, and the
        // command ends the way every other does.
        ctrlc::set_handler(move || seen.store(true, Ordering::SeqCst))
            .map_err(|fault| Failure::Internal(format!("Ctrl-C cannot be watched: {fault}")))?;
        let term = Term::stderr();
        Ok(Self { term, left })
    }

    fn put(&self, prompt: &Prompt) -> dialoguer::Result<String> {
        if prompt.choices.is_empty() {
            return self.line(prompt);
        }
        let beside = BESIDE
            .iter()
            .filter(|(_, answer)| prompt.open || *answer != "don't know");
        let beside: Vec<_> = beside.collect();
        let item = |choice: &Choice| format!("{}: {}", choice.word, choice.says);
        let mut items: Vec<String> = prompt.choices.iter().map(item).collect();
        items.extend(beside.iter().map(|(says, _)| (*says).to_owned()));
        let most = usize::from(self.term.size().1).saturating_sub(8);
        for item in &mut items {
            *item = item.chars().take(most).collect();
        }
        let answer = |place: usize| -> &str {
            match prompt.choices.get(place) {
                Some(choice) => choice.word,
                None => beside
                    .get(place - prompt.choices.len())
                    .map_or("", |(_, answer)| answer),
            }
        };
        let defaults = prompt.default.as_deref().unwrap_or_default();
        let defaults: Vec<&str> = defaults.split(", ").collect();
        let is_default = |place: usize| defaults.contains(&answer(place));
        if prompt.many {
            return self.many(&items, &answer, &is_default);
        }
        let first = (0..items.len())
            .find(|place| is_default(*place))
            .unwrap_or(0);
        let select = Select::with_theme(&Plain)
            .with_prompt("  arrow keys, Enter")
            .items(&items)
            .default(first);
        let place = select.interact_on_opt(&self.term)?;
        Ok(place.map_or("<", answer).to_owned())
    }

    /// A list of which any number is ticked. Who ticks one that stands beside the choices means that alone.
    fn many<'p>(
        &self,
        items: &[String],
        answer: &dyn Fn(usize) -> &'p str,
        is_default: &dyn Fn(usize) -> bool,
    ) -> dialoguer::Result<String> {
        let ticked: Vec<bool> = (0..items.len()).map(is_default).collect();
        let select = MultiSelect::with_theme(&Plain)
            .with_prompt("  arrow keys, space ticks, Enter ends")
            .items(items)
            .defaults(&ticked);
        let Some(places) = select.interact_on_opt(&self.term)? else {
            return Ok("<".into());
        };
        let words: Vec<&str> = places.into_iter().map(answer).collect();
        let beside = BESIDE
            .iter()
            .map(|(_, answer)| *answer)
            .find(|answer| words.contains(answer));
        Ok(match beside {
            Some(answer) => answer.to_owned(),
            None if words.is_empty() => "none".into(),
            None => words.join(", "),
        })
    }

    fn line(&self, prompt: &Prompt) -> dialoguer::Result<String> {
        let default = plain(&default_text(prompt));
        Input::<String>::with_theme(&Plain)
            .with_prompt(format!("  > {default}"))
            .allow_empty(true)
            .interact_text_on(&self.term)
    }

    fn has_left(&self) -> bool {
        self.left.load(Ordering::SeqCst)
    }
}

impl Front for Terminal {
    fn say(&mut self, text: &str) -> Result<(), Stop> {
        tell(&paragraph(text));
        if self.has_left() {
            Err(Stop::Left)
        } else {
            Ok(())
        }
    }

    fn ask(&mut self, prompt: &Prompt) -> Result<String, Stop> {
        show_head(prompt);
        if self.has_left() {
            return Err(Stop::Left);
        }
        let answer = self.put(prompt);
        if answer.is_err() {
            // A list hides the cursor while it is on.
            let _ = self.term.show_cursor();
            tell("");
        }
        answer.map_err(|dialoguer::Error::IO(fault)| match fault.kind() {
            ErrorKind::Interrupted | ErrorKind::UnexpectedEof => Stop::Left,
            _ if self.has_left() => Stop::Left,
            _ => Stop::Fault(format!("the terminal failed: {fault}")),
        })
    }
}

/// A paragraph as it stands under its question.
pub fn paragraph(text: &str) -> String {
    let width = Term::stderr()
        .size_checked()
        .map_or(WIDTH, |(_, columns)| usize::from(columns));
    let options = textwrap::Options::new(width.clamp(40, WIDTH))
        .initial_indent("  ")
        .subsequent_indent("  ");
    textwrap::fill(&plain(text), options)
}

/// Shows a question with what helps to answer it.
pub fn show_head(prompt: &Prompt) {
    if !prompt.heading.is_empty() {
        tell(&format!("\n{}", title(&prompt.heading)));
    }
    for line in &prompt.help {
        tell(&paragraph(line));
    }
}

/// What an empty answer takes, as it stands before the cursor.
pub fn default_text(prompt: &Prompt) -> String {
    let default = prompt.default.as_ref();
    default.map_or_else(String::new, |text| format!("[{text}] "))
}

/// A question, bold where the terminal shows that, and wrapped.
fn title(text: &str) -> String {
    let bold = Style::new().bold();
    let text = textwrap::fill(
        &plain(text),
        textwrap::Options::new(WIDTH).subsequent_indent("   "),
    );
    format!("{bold}{text}{bold:#}")
}

/// The word of an item, without what it means.
fn word(item: &str) -> &str {
    item.split_once(':').map_or(item, |(word, _)| word)
}

/// Prompts without colour, whose text says it all.
struct Plain;

impl Theme for Plain {
    fn format_prompt(&self, f: &mut dyn fmt::Write, prompt: &str) -> fmt::Result {
        write!(f, "{prompt}")
    }
    fn format_input_prompt(
        &self,
        f: &mut dyn fmt::Write,
        prompt: &str,
        _: Option<&str>,
    ) -> fmt::Result {
        write!(f, "{prompt}")
    }
    fn format_input_prompt_selection(
        &self,
        f: &mut dyn fmt::Write,
        prompt: &str,
        chosen: &str,
    ) -> fmt::Result {
        write!(f, "{prompt}{chosen}")
    }
    fn format_select_prompt_selection(
        &self,
        f: &mut dyn fmt::Write,
        _: &str,
        chosen: &str,
    ) -> fmt::Result {
        write!(f, "  > {}", word(chosen))
    }
    fn format_multi_select_prompt_selection(
        &self,
        f: &mut dyn fmt::Write,
        _: &str,
        chosen: &[&str],
    ) -> fmt::Result {
        let words: Vec<&str> = chosen.iter().map(|item| word(item)).collect();
        let list = if words.is_empty() {
            "none".into()
        } else {
            words.join(", ")
        };
        write!(f, "  > {list}")
    }
    fn format_select_prompt_item(
        &self,
        f: &mut dyn fmt::Write,
        text: &str,
        active: bool,
    ) -> fmt::Result {
        write!(f, "  {} {text}", if active { ">" } else { " " })
    }
    fn format_multi_select_prompt_item(
        &self,
        f: &mut dyn fmt::Write,
        text: &str,
        checked: bool,
        active: bool,
    ) -> fmt::Result {
        write!(
            f,
            "  {} [{}] {text}",
            if active { ">" } else { " " },
            if checked { "x" } else { " " }
        )
    }
}
