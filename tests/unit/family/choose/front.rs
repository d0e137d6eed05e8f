//! Unit tests of `family::choose::front`.

use super::*;

#[test]
fn the_beaten_go_and_of_equals_the_first_stays() {
    let items = [
        ("a", [1.0, 2.0]),
        ("b", [2.0, 2.0]),
        ("c", [2.0, 1.0]),
        ("d", [1.0, 2.0]),
    ];
    let left = front(items, |item| item.1.to_vec());
    assert_eq!(left.map_names(), ["a", "c"]);
    // A later one drops those before it.
    let left = front([("e", [3.0, 3.0]), ("f", [1.0, 1.0])], |item| {
        item.1.to_vec()
    });
    assert_eq!(left.map_names(), ["f"]);
    // Others of another sort stay.
    let left = front([("e", [3.0, 3.0]), ("f", [1.0, 1.0])], |item| {
        (item.0, item.1.to_vec())
    });
    assert_eq!(left.map_names(), ["e", "f"]);
}

trait Names {
    fn map_names(&self) -> Vec<&'static str>;
}
impl<T> Names for Vec<(&'static str, T)> {
    fn map_names(&self) -> Vec<&'static str> {
        self.iter().map(|item| item.0).collect()
    }
}
