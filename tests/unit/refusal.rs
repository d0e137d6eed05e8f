//! Unit tests of `refusal`.

use super::lifts_people;

/// Texts, one a line; lines that start with # say where they come from.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    text.lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'))
}

#[test]
fn lifting_people_is_seen() {
    let all = lines(include_str!("../../tests/requirements/people/refused.txt"));
    let missed: Vec<_> = all.filter(|text| !lifts_people(text)).collect();
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn people_at_work_are_not_lifted() {
    let all = lines(include_str!("../../tests/requirements/people/passed.txt"));
    let seen: Vec<_> = all.filter(|text| lifts_people(text)).collect();
    assert!(seen.is_empty(), "{seen:#?}");
}

#[test]
fn the_time_is_that_of_the_length() {
    let start = std::time::Instant::now();
    for word in [
        "lift ",
        "for ",
        "people ",
        "platform ",
        "lift, ",
        "with a ",
        "lift to ",
    ] {
        lifts_people(&word.repeat(20_000));
    }
    assert!(start.elapsed().as_secs() < 10, "{:?}", start.elapsed());
}
