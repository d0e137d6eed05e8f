use super::*;

#[test]
fn places_in_a_row_are_said_from_the_first_to_the_last() {
    assert_eq!(places(&[1]), "1");
    assert_eq!(places(&[1, 2]), "1, 2");
    assert_eq!(places(&[1, 3, 4, 5, 9]), "1, 3–5, 9");
}
