//! Unit tests of `study::times`.

use super::*;

#[test]
fn the_series_is_iso_3_with_both_ends() {
    assert_eq!(between(20.0, 6.0), [20.0, 16.0, 12.5, 10.0, 8.0, 6.3, 6.0]);
    assert_eq!(between(1.0, 0.5), [1.0, 0.8, 0.63, 0.5]);
    assert_eq!(between(2.0, 2.0), [2.0]);
    for (time, near) in [
        (32.0, 31.5),
        (18.9, 20.0),
        (20.0, 20.0),
        (0.93, 1.0),
        (9.1, 10.0),
    ] {
        assert!((on_series(time) - near).abs() < 1e-9, "{time} s");
    }
}
