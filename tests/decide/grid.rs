//! Small cases over every point of a fine grid of worths, and where the lead is greatest, without any linear programming.

use counterpoise::decide::worths::{Alternative, WorthSet, least_change, margin, overtaking};
use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};

/// Points along each side of the grid.
const POINTS: u32 = 80;

/// The same cases on every run.
pub fn runner(cases: u32) -> TestRunner {
    let config = ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// Two to six alternatives on two criteria, with two worths. Every other value is a round one, as options of different
/// kinds often reach the same, such as the target.
fn cases() -> impl Strategy<Value = (Vec<Alternative>, Vec<f64>)> {
    let value = prop_oneof![0.0..1.0, Just(0.0), Just(0.5), Just(1.0)];
    let alternative = (prop::collection::vec(value, 2), 500.0..2500.0)
        .prop_map(|(values, cost): (Vec<f64>, f64)| Alternative { values, cost });
    (
        prop::collection::vec(alternative, 2..7),
        prop::collection::vec(100.0..2000.0, 2),
    )
}

fn split(all: &[Alternative]) -> (&Alternative, Vec<&Alternative>) {
    (&all[0], all[1..].iter().collect())
}

/// Lead over the best rival.
fn lead(this: &Alternative, rivals: &[&Alternative], worths: &[f64]) -> f64 {
    let best = rivals.iter().map(|rival| rival.net(worths));
    this.net(worths) - best.fold(f64::NEG_INFINITY, f64::max)
}

/// Every point of a grid over ranges of two worths.
fn points(ranges: &[(f64, f64)]) -> impl Iterator<Item = [f64; 2]> {
    let at = |(least, most): (f64, f64), step: u32| {
        least + (most - least) * f64::from(step) / f64::from(POINTS)
    };
    let (one, two) = (ranges[0], ranges[1]);
    (0..=POINTS).flat_map(move |p| (0..=POINTS).map(move |q| [at(one, p), at(two, q)]))
}

#[test]
fn margins_are_those_of_a_grid() {
    let law = |(all, worths): (Vec<Alternative>, Vec<f64>)| {
        let (this, rivals) = split(&all);
        let ranges: Vec<(f64, f64)> = worths.iter().map(|w| (0.5 * w, 1.5 * w)).collect();
        let grid = points(&ranges)
            .map(|point| lead(this, &rivals, &point))
            .fold(f64::NEG_INFINITY, f64::max);
        let set = WorthSet {
            ranges: ranges.clone(),
            sum: None,
        };
        let found = margin(this, &rivals, &set, f64::NEG_INFINITY).expect("there is a margin");
        // A lead changes by no more than both worths do from the best point to the nearest of the grid.
        let coarse: f64 = ranges
            .iter()
            .map(|(least, most)| (most - least) / f64::from(POINTS))
            .sum();
        prop_assert!(found >= grid - 1e-6, "{found} under {grid}");
        prop_assert!(found <= grid + coarse, "{found} far over {grid}");
        Ok(())
    };
    runner(400).run(&cases(), law).expect("the law holds");
}

/// The greatest lead within ranges of two worths, without any linear programming. The lead is the least of some planes, one a
/// rival, and so is greatest where two lines cross: the ends of the ranges, and where two planes are as high as each other.
fn greatest_lead(this: &Alternative, rivals: &[&Alternative], ranges: &[(f64, f64)]) -> f64 {
    // A line is p·x + q·y = r.
    let ends = |&(least, most): &(f64, f64), p: f64, q: f64| [[p, q, least], [p, q, most]];
    let mut lines = [ends(&ranges[0], 1.0, 0.0), ends(&ranges[1], 0.0, 1.0)].concat();
    for (index, one) in rivals.iter().enumerate() {
        for other in &rivals[..index] {
            let apart = |of: usize| one.values[of] - other.values[of];
            lines.push([apart(0), apart(1), one.cost - other.cost]);
        }
    }
    let within = |at: f64, (least, most): (f64, f64)| {
        let hair = 1e-9 * most;
        (least - hair..=most + hair)
            .contains(&at)
            .then(|| at.clamp(least, most))
    };
    let mut found = f64::NEG_INFINITY;
    for (index, one) in lines.iter().enumerate() {
        for other in &lines[..index] {
            // Lines that run alike cross nowhere, or are one: then others cross them.
            let cross = |i: usize, k: usize| one[i] * other[k] - one[k] * other[i];
            let (x, y) = (cross(2, 1) / cross(0, 1), cross(0, 2) / cross(0, 1));
            if let (Some(x), Some(y)) = (within(x, ranges[0]), within(y, ranges[1])) {
                found = found.max(lead(this, rivals, &[x, y]));
            }
        }
    }
    found
}

#[test]
fn a_margin_is_that_of_the_best_crossing() {
    let law = |(all, worths): (Vec<Alternative>, Vec<f64>)| {
        let (this, rivals) = split(&all);
        let ranges: Vec<(f64, f64)> = worths.iter().map(|w| (0.5 * w, 1.5 * w)).collect();
        let best = greatest_lead(this, &rivals, &ranges);
        let set = WorthSet { ranges, sum: None };
        let found = margin(this, &rivals, &set, f64::NEG_INFINITY).expect("there is a margin");
        prop_assert!((found - best).abs() < 0.01, "{found} and {best}");
        Ok(())
    };
    runner(200).run(&cases(), law).expect("the law holds");
}

#[test]
fn overtaking_worths_are_the_nearest() {
    let law = |(all, worths): (Vec<Alternative>, Vec<f64>)| {
        let (this, rivals) = split(&all);
        let now = lead(this, &rivals, &worths);
        prop_assume!(now < -1.0);
        let found = overtaking(&[this], &rivals, &worths, 0);
        let leads = |worth: f64| lead(this, &rivals, &[worth, worths[1]]);
        if let Some(then) = found {
            prop_assert!(leads(then) > -1e-6, "behind at {then}");
        }
        // Nothing nearer leads, on a fine scale from nothing to far above.
        let far = found.map_or(1e5, |then| (then - worths[0]).abs());
        for step in 0..2000_u32 {
            let apart = far * 0.999 * f64::from(step) / 2000.0;
            for worth in [worths[0] + apart, (worths[0] - apart).max(0.0)] {
                prop_assert!(leads(worth) < 1e-6, "leads at {worth} already");
            }
        }
        Ok(())
    };
    runner(200).run(&cases(), law).expect("the law holds");
}

#[test]
fn the_least_change_is_that_of_a_grid() {
    let law = |(all, worths): (Vec<Alternative>, Vec<f64>)| {
        let (this, rivals) = split(&all);
        prop_assume!(lead(this, &rivals, &worths) < -1.0);
        let change = |then: &[f64]| -> f64 {
            then.iter()
                .zip(&worths)
                .map(|(w, now)| (w - now).abs() / now)
                .sum()
        };
        let ranges: Vec<(f64, f64)> = worths.iter().map(|w| (0.0, 3.0 * w)).collect();
        let grid = points(&ranges)
            .filter(|point| lead(this, &rivals, point) >= 0.0)
            .map(|point| change(&point))
            .fold(f64::INFINITY, f64::min);
        match least_change(this, &rivals, &worths, f64::INFINITY) {
            Some((sum, then)) => {
                prop_assert!((sum - change(&then)).abs() < 1e-6);
                prop_assert!(lead(this, &rivals, &then) > -1e-3, "behind at {then:?}");
                prop_assert!(sum <= grid + 1e-6, "{sum} over {grid}");
            }
            None => prop_assert!(grid.is_infinite(), "none found, the grid has {grid}"),
        }
        Ok(())
    };
    runner(200).run(&cases(), law).expect("the law holds");
}
