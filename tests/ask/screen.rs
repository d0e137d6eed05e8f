//! What is on the screen: its width, and nothing that only colour would say.

use std::sync::OnceLock;

use super::talk::{At, Talk, plain};
use super::{Example, example};

/// All that an interview shows, made once for every test.
fn whole() -> &'static str {
    static ALL: OnceLock<String> = OnceLock::new();
    ALL.get_or_init(|| interview(&example("feeder")))
}

fn interview(example: &Example) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let mut talk = Talk::new(folder.path(), &["made.json"]);
    loop {
        match talk.wait() {
            At::Question(question) => talk.answer(&example.answers[question.id]),
            At::Offer => talk.answer("rank"),
            At::End => return talk.all,
        }
    }
}

#[test]
fn no_line_is_wider_than_the_terminal() {
    let all = whole();
    // A line that is drawn again starts anew.
    for line in plain(&all.replace('\r', "\n")).lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    // Bold is all that is done with letters: no colour, so nothing is said by colour.
    let coloured = all
        .split("\u{1b}[")
        .skip(1)
        .filter_map(|rest| rest.split_once('m'))
        .any(|(code, _)| {
            code.split(';').all(|part| {
                part.parse()
                    .is_ok_and(|part: u32| (30..=107).contains(&part))
            })
        });
    assert!(!coloured);
}

#[test]
fn the_text_speaks_inches_and_pounds_once_they_are_answered() {
    let all = plain(whole());
    let (_, after) = all
        .split_once("From here on in inches")
        .expect("it is said");
    let (questions, _) = after
        .split_once("the first place most")
        .expect("the offer comes");
    for metric in [" kg", " mm", " N ", " N,", " bar", " L/min"] {
        let found: Vec<&str> = questions
            .lines()
            .filter(|line| line.contains(metric))
            .collect();
        assert!(found.is_empty(), "{metric}: {found:?}");
    }
    assert!(questions.contains(" lbf"), "forces are in pounds");
}
