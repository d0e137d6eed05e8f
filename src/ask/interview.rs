//! The conversation: the next question, back, again.

use super::answer::{NOT_SURE, Typed, read_choices, typed};
use super::challenge::{challenge, reached, study_of};
use super::draft::Draft;
use super::goals;
use super::implies::{anchor, implies};
use super::offer::{offer, ways};
use super::question::{Changes, Choice, Form, Question};
use super::questions::questions;
use super::sharpen::{Doubt, doubts};
use crate::catalog::Catalog;
use crate::problem::Problem;
use crate::quantity::System;
use crate::study::Change;

/// Why the conversation ends before its last question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stop {
    /// The person pressed Ctrl-C, or closed the terminal.
    Left,
    /// The answers that are replayed have come to their end.
    RanOut,
    /// The terminal or the file failed.
    Fault(String),
}

/// What is put to the person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prompt {
    /// Name of the question; `offer` of the offer to sharpen.
    pub id: &'static str,
    /// The question; empty where it is put again after an answer that could not be taken.
    pub heading: String,
    /// What helps to answer it.
    pub help: Vec<String>,
    /// What an empty answer takes.
    pub default: Option<String>,
    /// Words to choose from; typed where there are none.
    pub choices: Vec<Choice>,
    /// Whether more than one may be chosen.
    pub many: bool,
    /// Whether "don't know" may be answered.
    pub open: bool,
}

/// Who shows and asks.
pub trait Front {
    /// Shows a paragraph.
    ///
    /// # Errors
    /// [`Stop`]
    fn say(&mut self, text: &str) -> Result<(), Stop>;
    /// Puts a question; gives the answer as it would be typed.
    ///
    /// # Errors
    /// [`Stop`]
    fn ask(&mut self, prompt: &Prompt) -> Result<String, Stop>;
}

/// How a question was left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ending {
    Answered,
    Back,
}

/// A conversation about one file.
pub struct Interview<'a> {
    /// The file so far.
    pub draft: Draft,
    /// Parts, for what answers imply.
    pub catalog: &'a Catalog,
    /// Who shows and asks.
    pub front: &'a mut dyn Front,
    /// Keeps the file after every answer.
    pub keep: &'a mut dyn FnMut(&Draft) -> Result<(), Stop>,
    /// The part that is asked again, where it is but one.
    pub only: Option<&'a str>,
    /// What was said to follow, so that it is said again only when it has changed.
    said: Vec<String>,
    /// Questions answered so far.
    count: usize,
}

impl<'a> Interview<'a> {
    /// A conversation that begins or goes on with a draft.
    pub fn new(
        draft: Draft,
        catalog: &'a Catalog,
        front: &'a mut dyn Front,
        keep: &'a mut dyn FnMut(&Draft) -> Result<(), Stop>,
        only: Option<&'a str>,
    ) -> Self {
        Self {
            draft,
            catalog,
            front,
            keep,
            only,
            said: Vec::new(),
            count: 0,
        }
    }

    /// Asks all that is open, or one part again, and offers to sharpen what is most in doubt.
    ///
    /// # Errors
    /// [`Stop`]; what has been answered until then is kept.
    pub fn run(&mut self) -> Result<(), Stop> {
        self.front.say(
            "Use any units you like. Type ? for help, < to go back, Enter for what stands in brackets, or don't know \
             for a typical value, which is marked as such. Every answer is kept at once; Ctrl-C stops, and the same \
             command goes on.",
        )?;
        if self.only.is_none() {
            let answered = |question: &&Question| question.is_done(&self.draft);
            self.count = questions().filter(answered).count();
        }
        let mut done: Vec<&str> = Vec::new();
        let mut next = self.next(&done);
        loop {
            while let Some(question) = next {
                next = self.step(question, &mut done)?;
            }
            if !self.open().is_empty() {
                return Ok(());
            }
            if self.only.is_some() {
                break;
            }
            match self.sharpen()? {
                Some(back) => next = Some(back),
                None => break,
            }
        }
        self.draft.settle();
        self.draft.set_unfinished(false);
        (self.keep)(&self.draft)
    }

    /// Puts a question; gives the one to be put after it.
    fn step(
        &mut self,
        question: &'static Question,
        done: &mut Vec<&'static str>,
    ) -> Result<Option<&'static Question>, Stop> {
        if self.put(question)? == Ending::Answered {
            done.push(question.id);
            self.count += 1;
            return Ok(self.next(done));
        }
        let earlier = self.before(question);
        if earlier.is_none() {
            self.front.say("This is the first question.")?;
        }
        self.count = self.count.saturating_sub(usize::from(earlier.is_some()));
        Ok(Some(earlier.unwrap_or(question)))
    }

    /// The questions that are still open.
    pub fn open(&self) -> Vec<&'static Question> {
        let open = |question: &&Question| {
            question.concerns(&self.draft) && !(question.answered)(question, &self.draft)
        };
        questions().filter(open).collect()
    }

    /// The question to be put next.
    fn next(&self, done: &[&str]) -> Option<&'static Question> {
        let due = |question: &&Question| {
            let open = !(question.answered)(question, &self.draft);
            let again = self.only.is_some() && !done.contains(&question.id);
            question.concerns(&self.draft) && self.concerns(question) && (open || again)
        };
        questions().find(due)
    }

    fn concerns(&self, question: &Question) -> bool {
        self.only.is_none_or(|part| part == question.part)
    }

    /// The question that was answered before one.
    fn before(&self, question: &Question) -> Option<&'static Question> {
        let earlier = questions().take_while(|other| other.id != question.id);
        let answered = earlier.filter(|other| other.is_done(&self.draft) && self.concerns(other));
        answered.last()
    }

    /// Puts one question until it is answered or left.
    fn put(&mut self, question: &'static Question) -> Result<Ending, Stop> {
        let mut prompt = self.prompt(question);
        loop {
            let text = self.front.ask(&prompt)?;
            prompt.heading.clear();
            prompt.help.clear();
            let read = match typed(&text) {
                Typed::Back => return Ok(Ending::Back),
                Typed::More => {
                    self.more(question)?;
                    continue;
                }
                Typed::Units(system) => {
                    self.units(system)?;
                    prompt = self.prompt(question);
                    continue;
                }
                Typed::Empty if self.kept(question) => return Ok(Ending::Answered),
                Typed::Empty => self.default(question),
                Typed::NotSure => self.not_sure(question)?,
                Typed::Text(text) => (question.read)(question, &self.draft, text),
            };
            let taken = match read {
                Ok(changes) => self.take(question, &changes)?,
                Err(fault) => {
                    self.refuse(&fault)?;
                    false
                }
            };
            if taken {
                return Ok(Ending::Answered);
            }
        }
    }

    /// Whether an empty answer leaves what the file has.
    fn kept(&self, question: &Question) -> bool {
        (question.answered)(question, &self.draft)
    }

    fn prompt(&self, question: &Question) -> Prompt {
        let (draft, system) = (&self.draft, self.draft.system());
        let mut help = vec![question.why.to_owned()];
        if !question.usual.of(system).is_empty() {
            help.push(format!("Usual: {}.", question.usual.of(system)));
        }
        help.extend(anchor(question, draft));
        let fitting = question.goal.filter(|_| draft.get("site").is_some());
        help.extend(fitting.and_then(|_| reached(question, draft, self.catalog)));
        let fitting = || question.worked.and_then(|work| work(draft));
        let like = goals::example(question, draft)
            .or_else(fitting)
            .unwrap_or_else(|| question.like.of(system).into());
        if !like.is_empty() {
            help.push(format!("Like this: {like}"));
        }
        Prompt {
            id: question.id,
            heading: format!("{}. {}", self.count + 1, question.asks),
            help,
            default: self.shown(question),
            choices: question.choices(draft),
            many: matches!(question.form, Form::Many(_)),
            open: question.open,
        }
    }

    /// What an empty answer takes.
    fn shown(&self, question: &Question) -> Option<String> {
        if self.kept(question) {
            let present = (question.present)(question, &self.draft);
            return Some(present.unwrap_or_else(|| "as it is".into()));
        }
        let typical = || question.typical_text(&self.draft, self.draft.system());
        question.defaulted.then(typical)
    }

    fn default(&self, question: &Question) -> Result<Changes, Problem> {
        if !question.defaulted {
            let none = "an empty answer takes a value in brackets, and here there is none";
            return Err(Problem::whole(none).hint(self.way(question)));
        }
        let text = question.typical_text(&self.draft, self.draft.system());
        (question.read)(question, &self.draft, &text)
    }

    /// How the question can be answered.
    fn way(&self, question: &Question) -> String {
        let system = self.draft.system();
        let (like, typical) = (
            question.like.of(system),
            question.typical_text(&self.draft, system),
        );
        // Where nothing is taken as usual, what would be is no example: a purchase without a limit.
        let like = if typical.is_empty() || (!question.open && !like.is_empty()) {
            like.to_owned()
        } else {
            typical
        };
        if question.open {
            format!("answer such as {like}, or {NOT_SURE}")
        } else {
            format!("answer such as {like}")
        }
    }

    /// The typical answer, said aloud; or why there is none.
    fn not_sure(&mut self, question: &Question) -> Result<Result<Changes, Problem>, Stop> {
        if !question.open {
            let decides = "this decides the ranking, so nothing is taken for it";
            return Ok(Err(Problem::whole(decides).hint(self.way(question))));
        }
        let system = self.draft.system();
        let typical = question.typical_text(&self.draft, system);
        self.front.say(&format!(
            "Taken as usual: {typical}. It is listed as not sure."
        ))?;
        Ok(question.typically(&self.draft, system))
    }

    fn units(&mut self, system: System) -> Result<(), Stop> {
        self.draft.show_in(system);
        self.front.say(match system {
            System::Us => {
                "From here on in inches, pounds and feet; metric units are read all the same."
            }
            System::Metric => {
                "From here on in metric units; inches, pounds and feet are read all the same."
            }
        })
    }

    fn more(&mut self, question: &Question) -> Result<(), Stop> {
        self.front.say(question.more)?;
        let system = self.draft.system();
        let typical = question.typical_text(&self.draft, system);
        if question.open && !typical.is_empty() {
            self.front.say(&format!("{NOT_SURE} takes {typical}."))?;
        }
        Ok(())
    }

    /// What is wrong with an answer, and what would be right.
    fn refuse(&mut self, fault: &Problem) -> Result<(), Stop> {
        let place = match fault.path.rsplit_once('.') {
            None if fault.path.is_empty() => String::new(),
            // The parts of a goal are known by their place in the answer.
            Some((goal, "limit")) if goal.starts_with("goals.") => "the first part ".into(),
            Some((goal, "target")) if goal.starts_with("goals.") => "the second part ".into(),
            Some((goal, "worth")) if goal.starts_with("goals.") => "the third part ".into(),
            _ => format!("{} ", fault.path),
        };
        let message = fault.message.replace("\"limit\"", "the first part");
        let hint = fault
            .hint
            .as_ref()
            .map_or_else(String::new, |hint| format!("; {hint}"));
        self.front
            .say(&format!("Not taken: {place}{message}{hint}."))
    }

    /// Takes an answer that the strict reader takes, keeps it, and says what follows; whether it was taken.
    fn take(&mut self, question: &Question, changes: &Changes) -> Result<bool, Stop> {
        let mut then = self.draft.clone();
        then.apply(changes);
        let known = self.draft.reading().err().unwrap_or_default();
        let faults = then.reading().err().unwrap_or_default();
        // A fault that was there before is another answer's, unless it lies in what this one sets.
        let set = |fault: &Problem| {
            let within = |change: &Change| fault.path.starts_with(&change.field);
            changes.set.iter().any(within)
        };
        let new: Vec<&Problem> = faults
            .iter()
            .filter(|fault| set(fault) || !known.contains(fault))
            .collect();
        if !new.is_empty() {
            for fault in new {
                self.refuse(fault)?;
            }
            return Ok(false);
        }
        let before = self.draft.system();
        self.draft = then;
        self.keep()?;
        if self.draft.system() != before {
            self.units(self.draft.system())?;
        }
        self.follow(question)?;
        Ok(true)
    }

    /// Says what follows from an answer, and what it drives.
    fn follow(&mut self, question: &Question) -> Result<(), Stop> {
        let lines = implies(question, &self.draft, self.draft.system());
        for line in &lines {
            if !self.said.contains(line) {
                self.front.say(line)?;
            }
        }
        if !lines.is_empty() {
            self.said = lines;
        }
        if let Some(says) = challenge(question, &self.draft, self.catalog) {
            self.front.say(&says)?;
        }
        let mut later = questions().skip_while(|other| other.id != question.id);
        if let Some(next) = later.nth(1)
            && let Some(settled) = &next.otherwise
            && !next.concerns(&self.draft)
        {
            self.front.say(settled.says)?;
        }
        Ok(())
    }

    /// Keeps the file; while a question is open it says that it is unfinished.
    fn keep(&mut self) -> Result<(), Stop> {
        if self.open().iter().any(|question| question.id != "goals") {
            self.draft.set_unfinished(true);
        }
        (self.keep)(&self.draft)
    }

    /// Names the two answers whose doubt moves the winner most, and asks one or both again if the person likes; the
    /// question to go back to, where they would rather go back.
    fn sharpen(&mut self) -> Result<Option<&'static Question>, Stop> {
        if study_of(&self.draft, self.catalog).is_ok_and(|study| study.options.is_empty()) {
            self.front.say("Nothing that the catalog has meets all of that. What stops each kind of drive follows.")?;
            return Ok(None);
        }
        let doubts = doubts(&self.draft, self.catalog);
        if doubts.is_empty() {
            self.front.say("No doubt of an answer moves the first place: half or double of each leaves it as it is.")?;
            return Ok(None);
        }
        let mut prompt = offer(&doubts);
        let chosen: Vec<&'static Question> = loop {
            let text = self.front.ask(&prompt)?;
            prompt.heading.clear();
            prompt.help.clear();
            match typed(&text) {
                Typed::Empty | Typed::NotSure => return Ok(None),
                Typed::Back => return Ok(self.last()),
                Typed::Text(text) => match read_choices(text, &ways(&doubts), false) {
                    Ok(found) => {
                        let word = found.first().map_or("rank", |choice| choice.word);
                        let named = |doubt: &&Doubt| word == "both" || doubt.question.id == word;
                        break doubts.iter().filter(named).map(|doubt| doubt.question).collect();
                    }
                    Err(fault) => self.refuse(&fault)?,
                },
                Typed::More | Typed::Units(_) => self.front.say(
                    "Each doubt was tried at its ends and the whole job ranked again: worths, rates and usual values at \
                     half and double, sound levels 6 dB either way. An answer that you know better, put again, makes the \
                     first place surer.",
                )?,
            }
        };
        let mut left = chosen.into_iter();
        let mut next = left.next();
        while let Some(question) = next {
            next = match self.put(question)? {
                Ending::Answered => self.open().first().copied().or_else(|| left.next()),
                Ending::Back => return Ok(self.before(question)),
            };
        }
        Ok(None)
    }

    /// The question that was answered last, in their order.
    fn last(&self) -> Option<&'static Question> {
        questions()
            .rev()
            .find(|question| question.is_done(&self.draft))
    }
}
