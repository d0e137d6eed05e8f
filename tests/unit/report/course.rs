//! Unit tests of `report::course`.

use super::*;

#[test]
fn a_push_goes_right_of_nothing_and_a_pull_left() {
    let scale = ChartScale {
        least: -100.0,
        most: 300.0,
        width: 5,
    };
    let row = |static_n: f64, dynamic_n: f64| CourseRow {
        x_m: 0.0,
        angle_rad: None,
        static_n,
        dynamic_n,
        worst: false,
    };
    // Columns stand 100 N apart, nothing on the second.
    assert_eq!(scale.draw(&row(200.0, 300.0)), " │█o█");
    assert_eq!(scale.draw(&row(0.0, -100.0)), "█o");
    assert_eq!(scale.draw(&row(-100.0, 100.0)), "o│█");
}
