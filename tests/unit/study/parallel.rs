//! Unit tests of `study::parallel`.

use super::in_parallel;

#[test]
fn results_stand_in_their_order_work_within_work_too() {
    let squares = in_parallel(20, |row| in_parallel(row, |column| row * column));
    for (row, got) in squares.iter().enumerate() {
        let goal: Vec<usize> = (0..row).map(|column| row * column).collect();
        assert_eq!(*got, goal);
    }
    assert_eq!(squares.len(), 20);
}
