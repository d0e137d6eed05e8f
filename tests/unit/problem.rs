//! Unit tests of `problem`.

use super::{Problem, cut, values_cut};

#[test]
fn long_values_are_cut_in_their_middle_and_short_ones_are_not() {
    let long = "a".repeat(50) + "\\\"" + &"b".repeat(50);
    let said = values_cut(&format!("is \"{long}\", not \"door\""));
    let ends = ["a".repeat(40), "b".repeat(40)].join("…");
    assert_eq!(said, format!("is \"{ends}\", not \"door\""));
    assert_eq!(values_cut("a 12\" pipe"), "a 12\" pipe");
    assert_eq!(cut("abcdef", 4), "ab…ef");
}

#[test]
fn a_fault_takes_few_lines_whatever_was_read() {
    let long = "x".repeat(100_000);
    let fault = Problem::at(long.clone(), format!("is {long:?}, no {long}"));
    let fault = fault.read(long.clone()).hint(long);
    assert!(fault.to_string().chars().count() < 1400);
}
