//! What holds of every question, and of any answers whatever.

use std::collections::BTreeSet;

use counterpoise::ask::{Draft, Front, Interview, Prompt, Question, Stop, question, questions};
use counterpoise::catalog::built_in;
use counterpoise::quantity::System;

/// What moves: along a line, as usual, or through a swing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    Slide,
    Hinge(&'static str),
}

const WAYS: [Way; 3] = [
    Way::Slide,
    Way::Hinge("0 deg to 80 deg"),
    Way::Hinge("-30 to 60 deg, upright"),
];

/// Every way in both systems of units.
fn all_typical() -> impl Iterator<Item = Draft> {
    let both = [System::Metric, System::Us].into_iter();
    both.flat_map(|system| WAYS.map(|way| typical(system, way)))
}

/// A file with every question answered as usual, and everything wanted.
fn typical(system: System, way: Way) -> Draft {
    let mut draft = Draft::default();
    draft.show_in(system);
    if let Way::Hinge(swing) = way {
        let travel = question("travel").expect("it is asked");
        let changes = (travel.read)(travel, &draft, swing).expect("a swing");
        draft.apply(&changes);
    }
    for question in questions() {
        let told = question.id == "travel" && way != Way::Slide;
        if told || !(question.applies)(question, &draft) || question.id == "first_two" {
            continue;
        }
        let changes = if question.id == "goals" {
            let all: Vec<&str> = question
                .choices(&draft)
                .iter()
                .map(|choice| choice.word)
                .collect();
            (question.read)(question, &draft, &all.join(", "))
        } else {
            question.typically(&draft, system)
        };
        draft.apply(&changes.unwrap_or_else(|fault| panic!("{}: {fault}", question.id)));
    }
    draft
}

#[test]
fn every_usual_answer_is_one_that_the_strict_reader_takes() {
    for draft in all_typical() {
        let reading = draft
            .reading()
            .unwrap_or_else(|faults| panic!("{faults:?}"));
        assert_eq!(
            reading.requirements.goals.len(),
            12,
            "all goals but the budget, which has no limit"
        );
        let not_sure = "the person was not sure of this answer";
        let listed = reading
            .assumptions
            .iter()
            .filter(|line| line.reason == not_sure)
            .count();
        assert_eq!(listed, draft.unsure().len());
        assert!(listed > 30, "{listed} answers in doubt are listed");
    }
}

#[test]
fn an_answer_shown_in_brackets_is_read_as_the_same_answer() {
    for draft in all_typical() {
        for question in questions().filter(|question| (question.applies)(question, &draft)) {
            let Some(text) = (question.present)(question, &draft) else {
                assert_eq!(question.id, "first_two");
                continue;
            };
            let changes = (question.read)(question, &draft, &text);
            let mut again = draft.clone();
            again.apply(&changes.unwrap_or_else(|fault| panic!("{text}: {fault}")));
            let values = |draft: &Draft| draft.reading().expect("it reads").requirements;
            assert_eq!(values(&again), values(&draft), "{}: {text}", question.id);
        }
    }
}

#[test]
fn every_question_says_what_it_must() {
    let mut names = BTreeSet::new();
    for question in questions() {
        assert!(names.insert(question.id), "{} stands twice", question.id);
        for text in [question.asks, question.why, question.more, question.part] {
            assert!(!text.is_empty(), "{}", question.id);
        }
        assert!(question.asks.contains('?'), "{}", question.asks);
        assert!(
            question.why.ends_with('.') && question.more.ends_with('.'),
            "{}",
            question.id
        );
    }
}

#[test]
fn what_an_answer_is_held_against_is_a_sound_file() {
    let held = |question: &&Question| question.easier.is_some();
    let mut count = 0;
    let drafts = WAYS.map(|way| typical(System::Metric, way));
    for (draft, question) in drafts
        .iter()
        .flat_map(|draft| questions().map(move |question| (draft, question)))
        .filter(|(_, question)| held(question))
    {
        let easier = question.easier.expect("it has one");
        let mut without = draft.clone();
        without.apply(&(easier.changes)(question, draft));
        assert!(
            without.reading().is_ok(),
            "{}: {:?}",
            question.id,
            without.reading()
        );
        count += 1;
    }
    assert!(count > 45, "{count} questions are compared with something");
}

/// Somebody who types anything.
struct Anybody {
    state: u64,
    left: usize,
}

impl Anybody {
    fn draw(&mut self, count: usize) -> usize {
        self.state = self
            .state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.state >> 33).expect("small") % count
    }
}

impl Front for Anybody {
    fn say(&mut self, _: &str) -> Result<(), Stop> {
        Ok(())
    }
    fn ask(&mut self, prompt: &Prompt) -> Result<String, Stop> {
        const ANY: &[&str] = &[
            "",
            "?",
            "<",
            "<",
            "don't know",
            "us",
            "metric",
            "900 mm, up",
            "1e11 m, up",
            "0.1 mm, level",
            "80 kg, 85 kg",
            "1 g, 1000 t",
            "85 kg, 80 kg",
            "none",
            "15 N, 0 N, 2 kN",
            "4 an hour, 8, 220",
            "1e6 an hour",
            "2 a day, 24, 366",
            "0, 0, 0",
            "none EUR, 0",
            "1e9 EUR, 1e9",
            "20 s, 6 s, 80",
            "6 s, 20 s, 80",
            "1 ms, 0.5 ms, 1e9",
            "1, 2, 3",
            "\u{0}",
            "80 dB, 60 dB, 0",
            "-5 m, -90 deg",
            "0 deg to 78 deg",
            "170 to -170 deg, upright",
            "420 mm, 4 deg, 300 mm",
            "240 mm, -560 mm, 190 mm, -20 mm",
            "nan kg",
            "both",
            "rank",
            ",,,",
            "; ;",
            "\u{202e}abc",
            "1e400 m, up",
            "10 s",
        ];
        if self.left == 0 {
            return Err(Stop::RanOut);
        }
        self.left -= 1;
        let choices = prompt.choices.len();
        if choices > 0 && self.draw(3) > 0 {
            let words: Vec<&str> = (0..=self.draw(3))
                .map(|_| prompt.choices[self.draw(choices)].word)
                .collect();
            return Ok(words.join(", "));
        }
        Ok(ANY[self.draw(ANY.len())].to_owned())
    }
}

#[test]
fn whatever_is_typed_the_file_that_is_kept_is_one_to_go_on_with() {
    let catalog = built_in().expect("the catalog is sound");
    for seed in 0..6 {
        let mut front = Anybody {
            state: seed,
            left: 60,
        };
        let mut kept = Vec::new();
        let mut keep = |draft: &Draft| {
            kept.push(draft.to_text());
            Ok(())
        };
        let end = Interview::new(Draft::default(), catalog, &mut front, &mut keep, None).run();
        assert!(matches!(end, Ok(()) | Err(Stop::RanOut)), "{end:?}");
        for text in &kept {
            let again =
                Draft::read(text.as_bytes()).unwrap_or_else(|faults| panic!("{text}: {faults:?}"));
            assert_eq!(&again.to_text(), text);
        }
        assert!(
            kept.len() > 3,
            "seed {seed}: {} answers were taken",
            kept.len()
        );
    }
}
