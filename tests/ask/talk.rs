//! A person at a pseudo-terminal: reads what is on it, knows which question is asked, types.

use std::io::{ErrorKind, Write};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use counterpoise::ask::{Question, questions};
use expectrl::process::unix::{Signal, WaitStatus};
use expectrl::session::{OsSession, Session};

/// Longest wait for the next question, generous for a loaded machine.
const PATIENCE: Duration = Duration::from_mins(1);
/// What is read must have stood for so long to be a prompt and not the first part of something.
const STILL: Duration = Duration::from_millis(25);

/// What the program waits for.
#[derive(Debug, Clone, Copy)]
pub enum At {
    /// An answer to a question.
    Question(&'static Question),
    /// An answer to the offer to sharpen.
    Offer,
    /// Nothing: it has ended.
    End,
}

/// The program at a pseudo-terminal.
pub struct Talk {
    session: OsSession,
    /// What came since something was last typed.
    since: String,
    /// All that came.
    pub all: String,
    at: At,
    /// Prompts put, those that repeat a question left out.
    pub prompts: usize,
}

impl Talk {
    /// Starts `counterpoise ask` with arguments in a folder.
    pub fn new(folder: &Path, arguments: &[&str]) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
        command.arg("ask").args(arguments).current_dir(folder);
        command.env("TERM", "xterm").env_remove("NO_COLOR");
        let mut session = Session::spawn(command).expect("the program starts");
        session
            .get_process_mut()
            .set_window_size(80, 24)
            .expect("the terminal has a size");
        Self {
            session,
            since: String::new(),
            all: String::new(),
            at: At::End,
            prompts: 0,
        }
    }

    /// Waits until the program waits.
    pub fn wait(&mut self) -> At {
        let start = Instant::now();
        let mut still = Instant::now();
        loop {
            match self.read() {
                Read::Some => still = Instant::now(),
                Read::Nothing => {
                    if still.elapsed() > STILL
                        && let Some(at) = self.asked()
                    {
                        return at;
                    }
                    assert!(
                        start.elapsed() < PATIENCE,
                        "nothing is asked: {:?}",
                        self.all
                    );
                    std::thread::sleep(Duration::from_millis(2));
                }
                Read::End => return At::End,
            }
        }
    }

    fn read(&mut self) -> Read {
        let mut bytes = [0; 4096];
        match self.session.try_read(&mut bytes) {
            Ok(0) => Read::End,
            Ok(count) => {
                let text = String::from_utf8_lossy(&bytes[..count]);
                self.since += &text;
                self.all += &text;
                Read::Some
            }
            Err(fault) if fault.kind() == ErrorKind::WouldBlock => Read::Nothing,
            // The other side of a pseudo-terminal that is closed reads as a fault.
            Err(_) => Read::End,
        }
    }

    /// What is being asked, if the screen shows that an answer is waited for.
    fn asked(&mut self) -> Option<At> {
        let text = plain(&self.since);
        let (_, last) = text.rsplit_once('\n')?;
        let typed = last
            .strip_prefix("  > ")
            .is_some_and(|rest| rest.is_empty() || (rest.starts_with('[') && rest.ends_with("] ")));
        let items = text
            .rsplit_once("arrow keys")
            .is_some_and(|(_, items)| items.contains("go back"));
        if !typed && !items {
            return None;
        }
        let words = one_line(&text);
        let place = |question: &&Question| words.rfind(question.asks);
        let latest = questions()
            .filter(|question| place(question).is_some())
            .max_by_key(place);
        let at = match latest {
            _ if words.contains("the first place most.") => At::Offer,
            Some(question) => At::Question(question),
            None => self.at,
        };
        if latest.is_some() || matches!(at, At::Offer) {
            self.prompts += usize::from(self.since.contains('.'));
        }
        self.at = at;
        Some(at)
    }

    /// Types keys as they are.
    pub fn keys(&mut self, keys: &str) {
        self.since.clear();
        self.session
            .write_all(keys.as_bytes())
            .expect("the terminal takes keys");
        self.session.flush().expect("the terminal takes keys");
    }

    /// Answers what is asked: a line is typed, a list is walked with the arrow keys and ticked.
    pub fn answer(&mut self, text: &str) {
        let text_on_screen = plain(&self.since);
        let Some((_, list)) = text_on_screen.rsplit_once("arrow keys") else {
            return self.keys(&format!("{text}\r"));
        };
        let items: Vec<&str> = list
            .lines()
            .skip(1)
            .filter(|line| !line.trim().is_empty())
            .collect();
        let active = items
            .iter()
            .position(|item| item.starts_with("  >"))
            .unwrap_or(0);
        let wanted: Vec<&str> = text.split(", ").filter(|word| *word != "none").collect();
        let named = |item: &str| {
            let item = item.trim_start_matches(['>', ' ']);
            let item = item
                .trim_start_matches("[ ]")
                .trim_start_matches("[x]")
                .trim();
            wanted.iter().any(|word| {
                item.starts_with(&format!("{word}:"))
                    || item.starts_with(&format!("{word} "))
                    || item == *word
            })
        };
        let mut keys = String::new();
        for step in 0..items.len() {
            let item = items[(active + step) % items.len()];
            if items[0].contains('[') {
                if named(item) != item.contains("[x]") {
                    keys.push(' ');
                }
            } else if named(item) {
                break;
            }
            keys.push('j');
        }
        self.keys(&format!("{keys}\r"));
    }

    /// Kills the program.
    pub fn kill(mut self) {
        self.session
            .get_process_mut()
            .kill(Signal::SIGKILL)
            .expect("the program can be killed");
        let _ = self.session.get_process().wait();
    }

    /// The exit status of a program that has ended.
    pub fn status(&self) -> i32 {
        match self.session.get_process().wait().expect("the program ends") {
            WaitStatus::Exited(_, status) => status,
            other => panic!("{other:?}: {}", self.all),
        }
    }
}

enum Read {
    Some,
    Nothing,
    End,
}

/// Text without what moves the cursor or colours.
pub fn plain(text: &str) -> String {
    let mut plain = String::new();
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '\u{1b}' => {
                if signs.next_if_eq(&'[').is_some() {
                    while signs.next_if(|sign| !sign.is_ascii_alphabetic()).is_some() {}
                    signs.next();
                }
            }
            '\r' => {}
            sign => plain.push(sign),
        }
    }
    plain
}

/// Text with its line breaks as spaces.
pub fn one_line(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ")
}
