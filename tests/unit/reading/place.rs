use super::*;

const TEXT: &str =
    "{\n  \"a\": { \"b\": [1, { \"c\": \"x, } y\" }], \"d\\\"e\": 2 },\n\t\"f\": null\n}\n";

fn words(path: &str) -> Option<(usize, usize, String)> {
    let span = find(TEXT, path)?;
    let place = place_at(TEXT, span.start, span.end);
    let words: String = place
        .quote
        .chars()
        .skip(place.before)
        .take(place.length)
        .collect();
    Some((place.line, place.column, words))
}

#[test]
fn a_field_is_found_from_its_key_to_the_end_of_its_value() {
    let found = |line, column, words: &str| Some((line, column, words.to_owned()));
    assert_eq!(words("a.b[1].c"), found(2, 21, "\"c\": \"x, } y\""));
    assert_eq!(words("a.b[0]"), found(2, 16, "1"));
    assert_eq!(words("f"), found(3, 2, "\"f\": null"));
}

#[test]
fn what_is_missing_is_pointed_at_where_it_would_stand() {
    assert_eq!(words("a.b[1].none").map(|found| found.1), Some(19));
    assert_eq!(words("none"), None);
}

#[test]
fn what_is_not_sound_ends_the_search() {
    assert_eq!(find("{\"a\": ", "a"), None);
    assert_eq!(find("", "a"), None);
    assert_eq!(find("{\"a\" 1}", "b"), None);
}
