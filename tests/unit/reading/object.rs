//! Unit tests of `reading::object`.

use super::{edits, nearest};

#[test]
fn a_swap_is_one_edit() {
    assert_eq!(edits("mots", "most"), 1);
    assert_eq!(edits("kitten", "sitting"), 3);
    assert_eq!(edits("", "abc"), 3);
    assert_eq!(edits("abc", ""), 3);
    assert_eq!(nearest("mots", &["least", "most"]), Some("most"));
    assert_eq!(nearest("colour", &["least", "most"]), None);
}
