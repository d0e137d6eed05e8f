//! Unit tests of `family::choose::pairs`.

use super::*;

/// Lets a pair do by its cost, and counts what it was asked.
struct Dear<'p>(&'p [Rank<'p>], &'p [Vec<Rank<'p>>], f64, usize);

impl Bounds for Dear<'_> {
    fn row(&mut self, _: usize, row: usize) -> bool {
        self.0[row].cost >= self.2
    }
    fn pair(&mut self, _: usize, _: usize, _: usize) -> bool {
        self.3 += 1;
        true
    }
}

fn ranks(costs: &[f64]) -> Vec<Rank<'static>> {
    let rank = |cost: &f64| Rank {
        out: 0,
        cost: *cost,
        id: "",
    };
    costs.iter().map(rank).collect()
}

#[test]
fn pairs_come_cheapest_first_and_each_once() {
    let rows = ranks(&[1.0, 4.0, 9.0, 16.0]);
    let lists = [ranks(&[1.0, 2.0, 10.0]), ranks(&[5.0, 6.0]), Vec::new()];
    let mut bounds = Dear(&rows, &lists, 4.0, 0);
    let mut pairs = Pairs::new(&rows, &lists);
    let mut costs = Vec::new();
    while let Some((list, row, column)) = pairs.next(&mut bounds) {
        costs.push(bounds.0[row].cost + bounds.1[list][column].cost);
    }
    let mut all: Vec<f64> = [4.0, 9.0, 16.0]
        .iter()
        .flat_map(|row| [1.0, 2.0, 10.0, 5.0, 6.0].map(|column| row + column))
        .collect();
    all.sort_by(f64::total_cmp);
    assert_eq!(costs, all);
}

#[test]
fn the_least_pair_is_found_behind_its_bounds() {
    let rows = ranks(&[3.0, 5.0, 1.0]);
    let lists = [ranks(&[4.0, 2.0]), ranks(&[7.0])];
    let value =
        |(list, row, column): Place| (row != 2).then(|| rows[row].cost * lists[list][column].cost);
    let bound = |list: usize, row: usize| rows[row].cost * [2.0, 7.0][list];
    // 3·4, 3·2, 3·7, 5·4, 5·2, 5·7; the row of 1 has no value.
    assert_eq!(
        least(&rows, &lists, [&bound, &bound], value),
        Some((0, 0, 1))
    );
    let none = |_: Place| None;
    assert_eq!(least(&rows, &lists, [&bound, &bound], none), None);
}

#[test]
fn the_first_pair_needs_few_looks() {
    let rows = ranks(&(0..1000).map(f64::from).collect::<Vec<_>>());
    let lists = [rows.clone()];
    let mut bounds = Dear(&rows, &lists, 0.0, 0);
    assert_eq!(Pairs::new(&rows, &lists).next(&mut bounds), Some((0, 0, 0)));
    assert!(bounds.3 < 10, "{}", bounds.3);
}
