//! Unit tests of `study::schema`.

use super::*;

#[test]
fn every_narrowing_has_its_place() {
    let schema = schema();
    for (place, narrower) in narrowed() {
        let here = schema.pointer(place).unwrap_or_else(|| panic!("{place}"));
        for (key, value) in narrower.as_object().expect("an object") {
            assert_eq!(&here[key], value, "{place}");
        }
    }
}
