//! At a pseudo-terminal.

use std::path::Path;

use counterpoise::ask::{Draft, MOST, Question};

use super::talk::{At, Talk, one_line, plain};
use super::{Example, NAMES, example, study, value};

/// Answers every question until the end.
fn to_the_end(talk: &mut Talk, example: &Example) {
    loop {
        match talk.wait() {
            At::Question(question) => talk.answer(&example.answers[question.id]),
            At::Offer => talk.answer("rank"),
            At::End => return,
        }
    }
}

/// What the answer to a question put into a file is what the example has there.
fn holds(file: &Path, question: &Question, example: &Example) {
    let text = std::fs::read(file).expect("the file is there");
    let draft = Draft::read(&text).unwrap_or_else(|faults| panic!("{}: {faults:?}", question.id));
    // Only what is open is asked by the choice of two, and then they are open no more.
    if question.id == "first_two" {
        assert!(draft.open_goals().len() <= 2);
        return;
    }
    assert!(
        (question.answered)(question, &draft),
        "{} is answered",
        question.id
    );
    let answer = &example.answers[question.id];
    let changes = (question.read)(question, &draft, answer).expect("the answer is one");
    let mut again = draft.clone();
    again.apply(&changes);
    for change in &changes.set {
        let (has, would) = (draft.get(&change.field), again.get(&change.field));
        assert_eq!(has, would, "{} of {}", change.field, question.id);
    }
}

#[test]
fn an_interview_gives_the_study_of_the_file() {
    for name in NAMES {
        let example = example(name);
        let folder = tempfile::tempdir().expect("a folder");
        let mut talk = Talk::new(folder.path(), &["made.json"]);
        to_the_end(&mut talk, &example);
        assert_eq!(talk.status(), 0, "{}", talk.all);
        assert!(talk.prompts <= MOST, "{name}: {} prompts", talk.prompts);
        assert_eq!(
            talk.prompts,
            example.lines.len() + 1,
            "{name}: every question and the offer once"
        );
        let file = folder.path().join("made.json");
        assert!(
            value(&file).get("unfinished").is_none(),
            "{name} is finished"
        );
        assert_eq!(study(&file), study(&example.file), "{name}");
        assert!(
            one_line(&plain(&talk.all)).contains("Net value: what the improvements are worth"),
            "the table is shown"
        );
        println!("{name}: {} prompts", talk.prompts);
    }
}

#[test]
fn a_file_without_a_name_is_named_after_what_moves() {
    let example = example("door");
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("oven-door.json"), "taken").expect("a file");
    let mut talk = Talk::new(folder.path(), &[]);
    talk.wait();
    talk.answer(&example.answers["title"]);
    talk.wait();
    talk.keys("\u{3}");
    while !matches!(talk.wait(), At::End) {}
    assert_eq!(
        value(&folder.path().join("oven-door-2.json"))["title"],
        "Oven door"
    );
    let taken = std::fs::read_to_string(folder.path().join("oven-door.json"));
    assert_eq!(taken.expect("still there"), "taken");
}

#[test]
fn ctrl_c_at_any_question_loses_nothing_and_the_same_command_goes_on() {
    // A fixed sequence that jumps about, for runs that can be repeated.
    let mut state = 0x2545_f491_4f6c_dd1d_u64;
    for name in NAMES {
        let example = example(name);
        for turn in 1..if name == "door" { 3 } else { 2 } {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let drawn = usize::try_from(state >> 33).expect("small");
            // The last turn stops in a list, which hides the cursor.
            let stop = if turn < 2 {
                drawn % (example.lines.len() + 1)
            } else {
                7
            };
            let folder = tempfile::tempdir().expect("a folder");
            let mut talk = Talk::new(folder.path(), &["made.json"]);
            let mut answered: Vec<&Question> = Vec::new();
            for _ in 0..stop {
                if let At::Question(question) = talk.wait() {
                    talk.answer(&example.answers[question.id]);
                    answered.push(question);
                }
            }
            talk.wait();
            talk.keys("\u{3}");
            while !matches!(talk.wait(), At::End) {}
            assert_eq!(talk.status(), 2, "{name} at {stop}: {}", talk.all);
            let says = one_line(&plain(&talk.all));
            assert!(says.contains("stopped before the last question"), "{says}");
            let hidden = talk.all.rfind("\u{1b}[?25l");
            assert!(
                hidden <= talk.all.rfind("\u{1b}[?25h"),
                "the cursor is given back"
            );
            if stop == 0 {
                assert!(says.contains("no file was written"), "{says}");
            } else {
                assert!(
                    says.contains("`counterpoise ask made.json` goes on"),
                    "{says}"
                );
            }
            let file = folder.path().join("made.json");
            for question in answered {
                holds(&file, question, &example);
            }
            if turn == 2 {
                continue;
            }
            let mut again = Talk::new(folder.path(), &["made.json"]);
            to_the_end(&mut again, &example);
            assert_eq!(again.status(), 0, "{name} at {stop}: {}", again.all);
            assert_eq!(
                again.prompts,
                example.lines.len() + 1 - stop,
                "{name} at {stop}: only the rest is asked"
            );
            assert_eq!(study(&file), study(&example.file), "{name} at {stop}");
        }
    }
}

#[test]
fn killed_at_each_question_in_turn_every_earlier_answer_is_on_disk() {
    for name in NAMES {
        let example = example(name);
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("made.json");
        let mut answered: Vec<&Question> = Vec::new();
        loop {
            let mut talk = Talk::new(folder.path(), &["made.json"]);
            let At::Question(question) = talk.wait() else {
                talk.kill();
                break;
            };
            // Half of the next answer is typed when it is killed: that is all that may be lost.
            talk.answer(&example.answers[question.id]);
            answered.push(question);
            let last = matches!(talk.wait(), At::Offer);
            talk.keys("12 m");
            talk.kill();
            for earlier in &answered {
                holds(&file, earlier, &example);
            }
            if last {
                break;
            }
        }
        assert_eq!(
            answered.len(),
            example.lines.len(),
            "{name}: killed at every question"
        );
        let mut talk = Talk::new(folder.path(), &["made.json"]);
        to_the_end(&mut talk, &example);
        assert_eq!(study(&file), study(&example.file), "{name}");
    }
}

/// Answers that no question takes.
fn nonsense(question: &Question) -> &'static [&'static str] {
    match question.id {
        // Any words are a title, but for none, and for a machine that lifts people.
        "title" => &["", "A lift for people"],
        "rate" => &[
            "",
            "often",
            "4 a fortnight",
            "-3 an hour",
            "1,000 an hour",
            "1, 2, 3, 4",
        ],
        "money" => &["", "cheap", "don't know", "4,000 EUR", "4000"],
        "push" => &["very hard", "15", "15 N, 0 kg", "1 N, 2 N, 3 N, 4 N"],
        "torque" => &["very hard", "15", "15 N", "1 Nm, 2 Nm, 3 Nm, 4 Nm"],
        "pins" => &[
            "",
            "240 mm, -560 mm",
            "240 mm, -560 mm, 190 mm, -20",
            "240 mm, -560 mm, 0 mm, 0 mm",
            "-240 mm, 0 mm, 190 mm, -20 mm",
        ],
        "supply" => &["plenty", "230 V, 5 furlongs", "230"],
        _ => &[
            "",
            "12 parsecs",
            "900",
            "\u{2603}, \u{2603}",
            "5 kg, 5 s, 5 m, 5 N, 5 W",
            "1e400 mm, up",
            "nan kg",
        ],
    }
}

#[test]
fn nonsense_at_every_question_is_refused_and_the_same_question_stays() {
    for name in ["door", "lid"] {
        nonsense_at_every_question_of(&example(name));
    }
}

fn nonsense_at_every_question_of(example: &Example) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut talk = Talk::new(folder.path(), &["made.json"]);
    let mut tried = 0;
    loop {
        match talk.wait() {
            At::Question(asked) => {
                let is_list = !asked.choices(&Draft::default()).is_empty();
                if is_list {
                    // Letters that mean nothing in a list.
                    talk.keys("zxw\t\u{1b}[A0-9");
                    tried += 1;
                    std::thread::sleep(std::time::Duration::from_millis(50));
                    talk.keys("<-\u{1b}[B");
                    talk.keys("\r");
                    // A list takes what is ticked: go back to it and say what is meant.
                    back_to(&mut talk, asked);
                } else {
                    for text in nonsense(asked) {
                        talk.answer(text);
                        let At::Question(still) = talk.wait() else {
                            panic!("{text:?} at {} went on", asked.id);
                        };
                        assert_eq!(still.id, asked.id, "{text:?} went on");
                        assert!(
                            plain(&talk.all).contains("Not taken:"),
                            "{text:?} at {}",
                            asked.id
                        );
                        tried += 1;
                    }
                }
                talk.answer(&example.answers[asked.id]);
            }
            At::Offer => talk.answer("rank"),
            At::End => break,
        }
    }
    assert_eq!(talk.status(), 0, "{}", talk.all);
    assert!(tried >= 50, "{tried} pieces of nonsense");
    assert_eq!(
        study(&folder.path().join("made.json")),
        study(&example.file)
    );
    assert!(!plain(&talk.all).contains("panicked"));
}

/// Goes back with `<` to an earlier question.
fn back_to(talk: &mut Talk, to: &Question) {
    while !matches!(talk.wait(), At::Question(question) if question.id == to.id) {
        talk.answer("<");
    }
}

#[test]
fn back_more_and_dont_know_work_at_a_terminal() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut talk = Talk::new(folder.path(), &["made.json"]);
    let file = folder.path().join("made.json");
    let at = |talk: &mut Talk, id: &str, text: &str| {
        let At::Question(asked) = talk.wait() else {
            panic!("a question, not {}", talk.all);
        };
        assert_eq!(asked.id, id);
        talk.answer(text);
    };
    at(&mut talk, "title", "<");
    at(&mut talk, "title", "Door");
    at(&mut talk, "travel", "?");
    at(&mut talk, "travel", "don't know");
    at(&mut talk, "load", "<");
    at(&mut talk, "travel", "700 mm, 30 deg");
    at(&mut talk, "load", "don't know");
    at(&mut talk, "push", "");
    talk.wait();
    let file = value(&file);
    assert_eq!(file["motion"]["incline"], "30 deg");
    let unsure: Vec<&str> = file["unsure"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|path| path.as_str())
        .collect();
    assert_eq!(
        unsure,
        ["motion.load.least", "motion.load.most"],
        "an answer makes sure again"
    );
    talk.kill();
}
