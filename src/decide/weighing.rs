//! Three other ways to weigh: by the order of the weights alone, over all weights there could be, by nearness to a target.

use core::cmp::Ordering;

/// A usual way to turn an order of importance into weights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surrogate {
    /// The middle of all weights of that order.
    RankOrderCentroid,
    /// Falling evenly from the first place to the last.
    RankSum,
    /// One over the place.
    ReciprocalRank,
}

impl Surrogate {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::RankOrderCentroid, Self::RankSum, Self::ReciprocalRank];

    /// Its name in a study.
    pub fn name(self) -> &'static str {
        match self {
            Self::RankOrderCentroid => "rank_order_centroid",
            Self::RankSum => "rank_sum",
            Self::ReciprocalRank => "reciprocal_rank",
        }
    }

    /// Weights of `count` places, the first the most important; they add up to 1.
    ///
    /// - rank-order centroid: `w_k = (1/n) Σ_{i=k..n} 1/i` (Barron & Barrett 1996)
    /// - rank sum: `w_k = 2 (n + 1 - k)/(n (n + 1))`, reciprocal rank: `w_k = (1/k)/Σ 1/i`
    ///   (Stillwell, Seaver & Edwards 1981)
    ///
    /// ```
    /// use counterpoise::decide::weighing::Surrogate;
    /// // Two places: (1 + 1/2)/2 and (1/2)/2.
    /// assert_eq!(Surrogate::RankOrderCentroid.weights(2), [0.75, 0.25]);
    /// ```
    pub fn weights(self, count: u16) -> Vec<f64> {
        let n = f64::from(count);
        let harmonic = |from: u16| (from..=count).map(|i| 1.0 / f64::from(i)).sum::<f64>();
        let weight = |place: u16| match self {
            Self::RankOrderCentroid => harmonic(place) / n,
            Self::RankSum => 2.0 * (n + 1.0 - f64::from(place)) / (n * (n + 1.0)),
            Self::ReciprocalRank => 1.0 / f64::from(place) / harmonic(1),
        };
        (1..=count).map(weight).collect()
    }

    /// Worths of the same order and total as those given. Equal ones share the mean of their places; a worth of nothing
    /// has no place.
    pub fn worths(self, worths: &[f64]) -> Vec<f64> {
        let total: f64 = worths.iter().sum();
        let counted = worths.iter().filter(|worth| **worth > 0.0).count();
        let places = self.weights(u16::try_from(counted).unwrap_or(u16::MAX));
        let share = |worth: &f64| {
            if *worth <= 0.0 {
                return 0.0;
            }
            let before = worths.iter().filter(|other| *other > worth).count();
            let alike = worths
                .iter()
                .filter(|other| other.total_cmp(worth) == Ordering::Equal);
            let own: Vec<f64> = places
                .iter()
                .copied()
                .skip(before)
                .take(alike.count())
                .collect();
            own.iter().sum::<f64>() / f64::from(u16::try_from(own.len()).unwrap_or(u16::MAX))
        };
        worths.iter().map(|worth| total * share(worth)).collect()
    }
}

/// The share of all weights that are no less than 0 and add up to 1, each set as likely as another, under which
/// `Σ w·lead > 0`; a half where no lead is any other than 0.
///
/// Such weights are exponential times, each over the sum of all: the share is the chance that the leads above 0, each as
/// long as its own time, last longer than those below 0 one after another. With `p` the next lead above and `q` the next
/// below, the former ends first in `q/(p + q)` of all cases, so that `f(j, k) = (q f(j-1, k) + p f(j, k-1))/(p + q)`, with 0
/// where none is left above and 1 where none is left below. No term is negative and none is divided by a difference: the
/// closed form by simplices fails where two leads are equal, this does not.
///
/// ```
/// use counterpoise::decide::weighing::share_ahead;
/// // 0.3/(0.3 + 0.1) · 0.3/(0.3 + 0.2)
/// assert!((share_ahead(&[0.3, -0.1, -0.2]) - 0.45).abs() < 1e-12);
/// ```
pub fn share_ahead(leads: &[f64]) -> f64 {
    let side = |sign: f64| -> Vec<f64> {
        let sized = leads.iter().map(|lead| lead * sign);
        sized.filter(|size| *size > 0.0).collect()
    };
    let (above, below) = (side(1.0), side(-1.0));
    if above.is_empty() && below.is_empty() {
        return 0.5;
    }
    // The row of f for the leads above taken so far, over how many of those below.
    let mut row: Vec<f64> = core::iter::once(1.0)
        .chain(below.iter().map(|_| 0.0))
        .collect();
    for p in &above {
        let mut left = 1.0;
        for (q, here) in below.iter().zip(row.iter_mut().skip(1)) {
            *here = (q * *here + p * left) / (p + q);
            left = *here;
        }
    }
    row.last().copied().unwrap_or(1.0)
}

/// A criterion of alternatives that are compared with a target.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedColumn {
    /// What each alternative has.
    pub of: Vec<f64>,
    /// How much the criterion counts.
    pub weight: f64,
    /// Whether more is better.
    pub more_is_better: bool,
}

impl WeighedColumn {
    /// Root of the sum of squares.
    pub fn norm(&self) -> f64 {
        self.of.iter().map(|x| x * x).sum::<f64>().sqrt()
    }
}

/// How near each alternative is to the best there is on every criterion, 1 at it and 0 at the worst on every one:
/// `d worst/(d best + d worst)` of the weighted numbers, each over the norm of its column (Hwang & Yoon 1981, vector
/// normalisation). A half where all are alike.
pub fn closeness(columns: &[WeighedColumn]) -> Vec<f64> {
    let count = columns.iter().map(|column| column.of.len()).min();
    let mut squares = vec![(0.0, 0.0); count.unwrap_or(0)];
    for column in columns {
        let norm = column.norm();
        if norm <= 0.0 {
            continue;
        }
        let sign = if column.more_is_better { 1.0 } else { -1.0 };
        let scaled = || column.of.iter().map(|x| sign * column.weight * x / norm);
        let best = scaled().fold(f64::NEG_INFINITY, f64::max);
        let worst = scaled().fold(f64::INFINITY, f64::min);
        for (x, (to_best, to_worst)) in scaled().zip(&mut squares) {
            *to_best += (best - x) * (best - x);
            *to_worst += (x - worst) * (x - worst);
        }
    }
    let near = |(to_best, to_worst): (f64, f64)| {
        let (best, worst) = (to_best.sqrt(), to_worst.sqrt());
        if best + worst > 0.0 {
            worst / (best + worst)
        } else {
            0.5
        }
    };
    squares.into_iter().map(near).collect()
}
