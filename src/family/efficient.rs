//! Drops what another is no worse than on every count that the job asks about.

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
    let rows: Vec<[f64; N]> = items.iter().map(figures).collect();
    let beaten = |mine: usize| {
        rows.iter().enumerate().any(|(other, row)| {
            let no_worse = row.iter().zip(&rows[mine]).all(|(p, q)| p <= q);
            no_worse && (other < mine || row.iter().zip(&rows[mine]).any(|(p, q)| p < q))
        })
    };
    let keep: Vec<bool> = (0..rows.len()).map(|mine| !beaten(mine)).collect();
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
