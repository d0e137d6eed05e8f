//! Drops what another is no worse than on every count that the job asks about.

use core::cmp::Ordering;

use super::Ask;
use crate::requirements::Criterion;

/// A figure where the job has a want of its criterion, else nothing: what nobody asked about keeps no train.
pub(super) fn asked(ask: &Ask, criterion: Criterion, figure: f64) -> f64 {
    if ask.job.wants.contains_key(&criterion) {
        figure
    } else {
        0.0
    }
}

/// Keeps the items for which no other is no worse on every figure and better on one; of equals the first stays.
///
/// Every figure counts downward: less is better.
pub(super) fn efficient<T, const N: usize>(
    items: Vec<T>,
    figures: impl Fn(&T) -> [f64; N],
) -> Vec<T> {
    // Zero is zero, whatever its sign.
    let rows: Vec<[f64; N]> = items
        .iter()
        .map(|item| figures(item).map(|f| f + 0.0))
        .collect();
    // In this order whatever beats a row stands before it, and if that is beaten, so does what beats it.
    let mut order: Vec<usize> = (0..rows.len()).collect();
    let total = |p: &[f64; N], q: &[f64; N]| {
        let apart = p.iter().zip(q).map(|(p, q)| p.total_cmp(q));
        apart.fold(Ordering::Equal, Ordering::then)
    };
    order.sort_by(|p, q| total(&rows[*p], &rows[*q]).then(p.cmp(q)));
    let mut keep = vec![false; rows.len()];
    let mut front: Vec<&[f64; N]> = Vec::new();
    for mine in order {
        let row = &rows[mine];
        let no_worse = |kept: &&[f64; N]| kept.iter().zip(row).all(|(p, q)| p <= q);
        if !front.iter().any(no_worse) {
            keep[mine] = true;
            front.push(row);
        }
    }
    items
        .into_iter()
        .zip(keep)
        .filter_map(|(item, keep)| keep.then_some(item))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::efficient;

    #[test]
    fn the_beaten_go_and_of_equals_the_first_stays() {
        let items = vec![
            ("a", [1.0, 2.0]),
            ("b", [2.0, 1.0]),
            ("c", [2.0, 2.0]),
            ("d", [1.0, 2.0]),
        ];
        let left: Vec<&str> = efficient(items, |item| item.1)
            .into_iter()
            .map(|item| item.0)
            .collect();
        assert_eq!(left, ["a", "b"]);
    }
}
