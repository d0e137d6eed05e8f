//! Unit tests of `ask::swing`.

use super::*;

#[test]
fn a_swing_is_told_from_a_way() {
    assert_eq!(
        split_swing("0 deg to 78 deg"),
        Some(("0 deg", "78 deg", None))
    );
    assert_eq!(
        split_swing("swings from -10 to 80 deg, upright"),
        Some(("-10", "80 deg", Some("upright")))
    );
    for way in ["900 mm, up", "900 mm to 1 m, up", "500 mm"] {
        assert_eq!(split_swing(way), None, "{way}");
    }
}

#[test]
fn usual_pins_leave_a_lever_over_every_swing_they_are_for() {
    for (from, to) in [(0.0, 10.0), (0.0, 78.0), (-65.0, 65.0), (40.0, 170.0)] {
        let mut draft = Draft::default();
        let angles = (format!("{from} deg"), format!("{to} deg"));
        let changes = swing(&draft, (&angles.0, &angles.1, None)).expect("angles");
        draft.apply(&changes);
        for radius in ["60 mm", "420 mm", "3 m"] {
            draft.apply(&Changes::default().with("motion.centre_of_mass.radius", radius));
            assert!(pins_that_fit(&draft).is_some());
            let read = draft.reading();
            assert!(read.is_ok(), "{from} to {to}, {radius}: {:?}", read.err());
        }
    }
}
