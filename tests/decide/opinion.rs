//! Other ways of weighing: the share of all weights against weights drawn at random, surrogates against their definition, and
//! what the examples say against the file ranked again.

use counterpoise::decide::weighing::{Surrogate, WeighedColumn, closeness, share_ahead};
use counterpoise::study::{Label, best_of_kinds};
use proptest::prelude::*;

use super::grid::runner;
use super::printed::{EXAMPLES, again, with};

/// Weights drawn for each case.
const DRAWN: u32 = 20_000;
/// Four standard deviations of a share that is found by that many draws.
const FOUR_SIGMA: f64 = 0.015;

/// Numbers between 0 and 1, the same on every run.
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 33).expect("31 bits")) / f64::from(1_u32 << 31)
    }

    /// Weights that add up to 1, each set as likely as another: the gaps between sorted cuts of a unit length.
    fn weights(&mut self, count: usize) -> Vec<f64> {
        let mut cuts: Vec<f64> = (1..count).map(|_| self.next()).collect();
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2).map(|pair| pair[1] - pair[0]).collect()
    }
}

fn drawn_share(leads: &[f64]) -> f64 {
    let mut draw = Draw(1);
    let ahead = |weights: Vec<f64>| {
        let sum: f64 = weights.iter().zip(leads).map(|(w, lead)| w * lead).sum();
        u32::from(sum > 0.0)
    };
    let count: u32 = (0..DRAWN).map(|_| ahead(draw.weights(leads.len()))).sum();
    f64::from(count) / f64::from(DRAWN)
}

/// Leads, some of them equal, some nothing, some a hair apart, where a closed form of simplices fails.
fn leads() -> impl Strategy<Value = Vec<f64>> {
    let lead = prop_oneof![
        -1.0..1.0,
        Just(0.25),
        Just(0.25 + 1e-12),
        Just(-0.25),
        Just(0.0)
    ];
    prop::collection::vec(lead, 2..8)
}

#[test]
fn shares_are_those_of_weights_drawn_at_random() {
    let law = |leads: Vec<f64>| {
        prop_assume!(leads.iter().any(|lead| *lead != 0.0));
        let share = share_ahead(&leads);
        let drawn = drawn_share(&leads);
        prop_assert!(
            (share - drawn).abs() < FOUR_SIGMA,
            "{share} and {drawn} of {leads:?}"
        );
        let other: Vec<f64> = leads.iter().map(|lead| -lead).collect();
        prop_assert!((share + share_ahead(&other) - 1.0).abs() < 1e-12);
        Ok(())
    };
    runner(60).run(&leads(), law).expect("the law holds");
}

/// Of three weights the share is the part of a triangle that a line cuts off: the corner at the one that leads alone.
#[test]
fn shares_of_a_triangle_are_its_areas() {
    for (ahead, behind) in [(0.3, [0.1, 0.2]), (0.5, [0.5, 0.5]), (1e-9, [1.0, 2.0])] {
        let cut = |other: f64| ahead / (ahead + other);
        let area = cut(behind[0]) * cut(behind[1]);
        let share = share_ahead(&[ahead, -behind[0], -behind[1]]);
        assert!((share - area).abs() <= 1e-12 * area, "{share} and {area}");
    }
    assert!((share_ahead(&[0.0, 0.0]) - 0.5).abs() < 1e-15);
    assert!((share_ahead(&[0.0, 0.1]) - 1.0).abs() < 1e-15);
}

#[test]
fn worths_of_an_order_keep_order_and_total_and_share_equal_places() {
    for way in Surrogate::ALL {
        let given = [40.0, 300.0, 0.0, 40.0, 90.0];
        let made = way.worths(&given);
        assert!((made.iter().sum::<f64>() - 470.0).abs() < 1e-9, "{made:?}");
        assert!((made[0] - made[3]).abs() < 1e-12, "{made:?}");
        assert!(made[1] > made[4] && made[4] > made[0], "{made:?}");
        assert_eq!(made[2].to_bits(), 0.0_f64.to_bits());
        // Places three and four of four, between them.
        let places = way.weights(4);
        let mean = 470.0 * (places[2] + places[3]) / 2.0;
        assert!((made[0] - mean).abs() < 1e-9, "{made:?}");
    }
}

#[test]
fn what_is_best_in_all_is_at_the_ideal() {
    let column = |of: [f64; 3], more_is_better| WeighedColumn {
        of: of.into(),
        weight: 0.5,
        more_is_better,
    };
    let near = closeness(&[
        column([3.0, 2.0, 1.0], true),
        column([10.0, 15.0, 20.0], false),
    ]);
    assert!(
        (near[0] - 1.0).abs() < 1e-12 && near[2].abs() < 1e-12,
        "{near:?}"
    );
    assert!((near[1] - 0.5).abs() < 1e-12, "midway in both: {near:?}");
}

/// The first by an order is the first of the file ranked with the worths that were made of it.
#[test]
fn the_first_by_an_order_is_that_of_the_file_with_its_worths() {
    let mut tried = 0;
    for name in EXAMPLES {
        let (opinion, kinds) = with(name, |resolver| {
            let study = resolver.study();
            let kinds = best_of_kinds(&study.options).count();
            (study.second_opinion.clone(), kinds)
        });
        assert_eq!(opinion.is_some(), kinds > 1, "{name}: {kinds} kinds");
        let Some(opinion) = opinion else {
            continue;
        };
        for way in &opinion.by_order {
            let set = |(criterion, worth): (&Label, &f64)| {
                (format!("goals.{criterion}.worth"), worth.to_string())
            };
            let sets: Vec<_> = way.worths.iter().map(set).collect();
            let then = again(name, &sets);
            assert_eq!(
                then.options[0].drive_type, way.drive_type,
                "{name} by {}",
                way.way
            );
            tried += 1;
        }
    }
    assert!(tried >= 12, "{tried} orders over the examples");
}

/// The share of an example, against its file's worths drawn at random with their total kept.
#[test]
fn shares_of_the_examples_are_those_of_their_options() {
    let mut tried = 0;
    for name in EXAMPLES {
        with(name, |resolver| {
            let study = resolver.study();
            let Some(over) = study
                .second_opinion
                .as_ref()
                .and_then(|opinion| opinion.over_all_worths.as_ref())
            else {
                return;
            };
            let pair: Vec<_> = best_of_kinds(&study.options).take(2).collect();
            let (first, rival) = (pair[0], pair[1]);
            assert_eq!(over.rival, rival.id);
            let rewarded: Vec<&str> = first
                .criteria
                .iter()
                .filter(|(_, line)| line.worth.is_some_and(|worth| worth > 0.0))
                .map(|(criterion, _)| &**criterion)
                .collect();
            let years = resolver.job().rates.horizon_years;
            let cost = |of: &counterpoise::study::OptionLine| {
                of.purchase + years * of.running_cost_per_year
            };
            let mut draw = Draw(7);
            let mut ahead = 0;
            for _ in 0..DRAWN {
                let weights = draw.weights(rewarded.len());
                let gained = |of: &counterpoise::study::OptionLine| -> f64 {
                    let pairs = rewarded.iter().zip(&weights);
                    pairs
                        .map(|(criterion, w)| {
                            w * over.total * of.criteria[*criterion].value.expect("rewarded")
                        })
                        .sum()
                };
                ahead += u32::from(gained(first) - cost(first) > gained(rival) - cost(rival));
            }
            let drawn = f64::from(ahead) / f64::from(DRAWN);
            assert!(
                (drawn - over.share).abs() < FOUR_SIGMA,
                "{name}: {drawn} and {}",
                over.share
            );
            tried += 1;
        });
    }
    assert!(tried >= 5, "{tried} shares over the examples");
}

/// Nearness by the definition, one option and one column after another.
#[test]
fn the_nearest_to_the_ideal_is_that_of_the_definition() {
    for name in EXAMPLES {
        with(name, |resolver| {
            let study = resolver.study();
            let Some(opinion) = &study.second_opinion else {
                return;
            };
            let near = &opinion.nearest_target;
            let best: Vec<_> = best_of_kinds(&study.options).collect();
            let years = resolver.job().rates.horizon_years;
            // Each option as gains in money, purchase and running as losses: one unit counts alike.
            let money: Vec<Vec<f64>> = best
                .iter()
                .map(|option| {
                    let gains = option
                        .criteria
                        .values()
                        .filter_map(|line| Some(line.value? * line.worth?));
                    gains
                        .chain([-option.purchase, -option.running_cost_per_year * years])
                        .collect()
                })
                .collect();
            let end = |column: usize, pick: fn(f64, f64) -> f64| {
                money
                    .iter()
                    .map(|own| own[column])
                    .reduce(pick)
                    .expect("some")
            };
            let from = |own: &[f64], pick: fn(f64, f64) -> f64| -> f64 {
                let squares = own
                    .iter()
                    .enumerate()
                    .map(|(c, x)| (x - end(c, pick)).powi(2));
                squares.sum::<f64>().sqrt()
            };
            let closeness: Vec<f64> = money
                .iter()
                .map(|own| from(own, f64::min) / (from(own, f64::min) + from(own, f64::max)))
                .collect();
            let most = closeness.iter().copied().fold(0.0, f64::max);
            assert!(
                (most - near.closeness).abs() < 1e-9,
                "{name}: {most} and {near:?}"
            );
            assert!(
                (closeness[0] - near.closeness_of_first).abs() < 1e-9,
                "{name}"
            );
            let place = best
                .iter()
                .position(|option| option.id == near.option)
                .expect("there");
            assert!(
                (closeness[place] - most).abs() < 1e-9,
                "{name}: {}",
                near.option
            );
        });
    }
}
