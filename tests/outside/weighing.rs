//! Weights from an order, the share of all weights, nearness to a target.

use counterpoise::decide::weighing::{Surrogate, WeighedColumn, closeness, share_ahead};

use super::rows::row;

#[test]
fn rank_order_centroids() {
    for id in ["mc-roc-2", "mc-roc-3", "mc-roc-4", "mc-roc-6"] {
        let row = row(id);
        let count = row.keys().len();
        let weights = Surrogate::RankOrderCentroid.weights(u16::try_from(count).expect("few"));
        assert_eq!(weights.len(), count);
        for (place, weight) in weights.iter().enumerate() {
            row.holds(&format!("weight_{}", place + 1), *weight);
        }
    }
}

#[test]
fn rank_sums_and_reciprocal_ranks() {
    let row = row("mc-ranksum-5");
    let ways = [
        ("rank_sum", Surrogate::RankSum),
        ("rank_reciprocal", Surrogate::ReciprocalRank),
    ];
    for (name, way) in ways {
        for (place, weight) in way.weights(5).iter().enumerate() {
            row.holds(&format!("{name}_{}", place + 1), *weight);
        }
    }
}

#[test]
fn share_of_all_weights() {
    let row = row("mc-weight-share");
    let leads = [1, 2, 3].map(|c| row.input(&format!("difference_c{c}")));
    row.holds("share", share_ahead(&leads));
}

#[test]
fn nearness_of_aircraft_to_an_ideal() {
    let row = row("mc-topsis-fighter");
    let column = |c: u32| WeighedColumn {
        of: (1..=4).map(|a| row.input(&format!("a{a}_c{c}"))).collect(),
        weight: row.input(&format!("weight_{c}")),
        // The fourth is the price.
        more_is_better: c != 4,
    };
    let near = closeness(&(1..=6).map(column).collect::<Vec<_>>());
    for (index, own) in near.iter().enumerate() {
        row.holds(&format!("closeness_a{}", index + 1), *own);
        let before = near.iter().filter(|other| *other > own).count();
        let rank = f64::from(u32::try_from(before).expect("few")) + 1.0;
        row.holds(&format!("rank_a{}", index + 1), rank);
    }
}
