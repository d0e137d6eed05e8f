//! Unit tests of `requirements::fields`.

use super::*;
use crate::quantity::parse_as;

#[test]
fn every_default_and_every_bound_can_be_read() {
    for field in FIELDS {
        let Holds::Quantity(kind) = field.holds else {
            continue;
        };
        let reads = |text: &str| parse_as(text, kind).unwrap_or_else(|_| panic!("{}", field.path));
        if let Without::Text(text, _) = field.without {
            reads(text);
        }
        if let FieldRange::Within(least, most) | FieldRange::Above(least, most) = field.range {
            assert!(reads(least) < reads(most), "{}", field.path);
        }
    }
}

#[test]
fn no_field_stands_twice() {
    for (index, field) in FIELDS.iter().enumerate() {
        let twin = |other: &&Field| {
            other.path == field.path
                && (other.on == field.on || other.on == On::Both || field.on == On::Both)
        };
        assert!(
            FIELDS[..index].iter().find(twin).is_none(),
            "{}",
            field.path
        );
        assert!(!field.meaning.is_empty(), "{}", field.path);
    }
}

#[test]
fn a_path_of_a_file_finds_its_line() {
    assert_eq!(general("motion.process[12].at"), "motion.process[].at");
    assert_eq!(general("goals.noise.limit"), "goals.*.limit");
    assert!(field_at("goals.noise.limit", "slide").is_some());
    assert!(field_at("motion.travel", "hinge").is_none());
}
