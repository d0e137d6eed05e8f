//! Unit tests of `catalog::series`.

use super::without_numbers;

#[test]
fn numbers_in_ids_are_taken_out() {
    assert_eq!(without_numbers("load-brake-6p3"), "load-brake-#");
    assert_eq!(without_numbers("stepper-17-0.45nm"), "stepper-#-#nm");
    assert_eq!(without_numbers("rope-"), "rope-");
    assert_eq!(without_numbers("a3.b"), "a#.b");
}
