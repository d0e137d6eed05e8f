//! Drops what another is no worse than on every count that the job asks about.

use std::collections::BTreeMap;

use super::Ask;
use crate::catalog::{Common, Ingress};
use crate::quantity::Si;
use crate::requirements::Criterion;

/// A figure where the job has a want of its criterion, else nothing: what nobody asked about keeps no train.
pub(super) fn asked(ask: &Ask, criterion: Criterion, figure: f64) -> f64 {
    // Between two pins a shorter drive may be the only one that fits.
    let fits = criterion == Criterion::ClosedLength && ask.pins_m().is_some();
    if fits || ask.job.wants.contains_key(&criterion) {
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
    efficient_and_able(items, |item| (figures(item), []))
}

/// The same, where an item stays as well if it is better in what it is able to do.
fn efficient_and_able<T, const N: usize, const M: usize>(
    items: Vec<T>,
    figures: impl Fn(&T) -> ([f64; N], [f64; M]),
) -> Vec<T> {
    let rows: Vec<([f64; N], [f64; M])> = items.iter().map(figures).collect();
    let no_worse = |p: &([f64; N], [f64; M]), q: &([f64; N], [f64; M])| {
        p.0.iter().zip(&q.0).all(|(p, q)| p <= q) && p.1.iter().zip(&q.1).all(|(p, q)| p <= q)
    };
    // Those that none before them beats. What a later one drops, and all that it beat, that one beats as well.
    let mut front: Vec<usize> = Vec::new();
    for (mine, row) in rows.iter().enumerate() {
        // What beat one row beats its neighbours: it is asked first.
        if let Some(beats) = front.iter().position(|kept| no_worse(&rows[*kept], row)) {
            front.swap(0, beats);
        } else {
            // Of two alike in every figure the first stays, though the later be the abler.
            let alike = |kept: usize| rows[kept].0.iter().zip(&row.0).all(|(p, q)| p <= q);
            front.retain(|kept| !no_worse(row, &rows[*kept]) || alike(*kept));
            front.push(mine);
        }
    }
    let mut keep = vec![false; rows.len()];
    for kept in front {
        keep[kept] = true;
    }
    items
        .into_iter()
        .zip(keep)
        .filter_map(|(item, keep)| keep.then_some(item))
        .collect()
}

/// What the site, the noise, the upkeep and the fitting of a train know of a part, to the bit.
pub(super) fn habits(common: &Common) -> [u64; 9] {
    let Ingress { solids, water } = common.ingress;
    let bit = u64::from(common.explosive_atmosphere);
    [
        u64::from(solids),
        u64::from(water),
        bit,
        common.noise.map_or(0.0, Si::si).to_bits(),
        common.coldest.si().to_bits(),
        common.hottest.si().to_bits(),
        common.consumables.to_bits(),
        common.upkeep_hours.to_bits(),
        common.fit_hours.to_bits(),
    ]
}

/// Of parts that are the same in `same` those that no other is no worse than, in their order.
///
/// `figures` are those by which trains are told apart, and those by which one may pass where another does not.
pub(super) fn efficient_of_same<T, K: Ord, const N: usize, const M: usize>(
    parts: Vec<T>,
    same: impl Fn(&T) -> K,
    figures: impl Fn(&T) -> ([f64; N], [f64; M]),
) -> Vec<T> {
    let mut alike: BTreeMap<K, Vec<(usize, T)>> = BTreeMap::new();
    for (index, part) in parts.into_iter().enumerate() {
        alike.entry(same(&part)).or_default().push((index, part));
    }
    let mut kept: Vec<(usize, T)> = alike
        .into_values()
        .flat_map(|group| efficient_and_able(group, |(_, part)| figures(part)))
        .collect();
    kept.sort_by_key(|(index, _)| *index);
    kept.into_iter().map(|(_, part)| part).collect()
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
