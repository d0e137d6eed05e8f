//! Unit tests of `ask::answer`.

use super::*;

#[test]
fn what_is_typed_is_sorted() {
    assert_eq!(typed("  ? "), Typed::More);
    assert_eq!(typed("<"), Typed::Back);
    assert_eq!(typed(" "), Typed::Empty);
    for text in ["don't know", "I don’t know.", "Not sure", "dont know"] {
        assert_eq!(typed(text), Typed::NotSure, "{text}");
    }
    assert_eq!(typed("US"), Typed::Units(System::Us));
    assert_eq!(typed(" 85 kg "), Typed::Text("85 kg"));
}

#[test]
fn a_comma_in_a_number_is_not_guessed_at() {
    assert_eq!(
        parts("20 s, 6 s,80", 4).expect("three"),
        ["20 s", "6 s", "80"]
    );
    assert_eq!(parts("4, 8, 220", 3).expect("three"), ["4", "8", "220"]);
    assert!(parts("4,000 EUR", 3).is_err());
    assert!(parts("2,5 s, 1 s, 80", 4).is_err());
    assert!(parts("1 s, 2 s, 3 s", 2).is_err());
}

#[test]
fn a_choice_is_named_by_word_place_or_meaning() {
    let choices = [
        Choice {
            word: "ends",
            says: "only at its two ends",
        },
        Choice {
            word: "anywhere",
            says: "anywhere between",
        },
    ];
    for text in ["ends", "1", "Only at its two ends"] {
        assert_eq!(
            read_choices(text, &choices, false),
            Ok(vec![choices[0]]),
            "{text}"
        );
    }
    assert_eq!(
        read_choices("2, ends", &choices, true),
        Ok(vec![choices[1], choices[0]])
    );
    assert!(read_choices("3", &choices, false).is_err());
    assert!(read_choices("ends, anywhere", &choices, false).is_err());
}
