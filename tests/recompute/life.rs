//! What a life is worked out from: the mean force over the way, and the way asked.

use crate::base::Case;
use crate::motion::{Instant, Stroke};

/// A life past this is written as this, in km: the study cuts it off without saying so.
pub const LIFE_MOST: f64 = 1e9;

/// Mean of a figure over the way, to the power `p`, of the worse load, out and back together.
pub fn mean_over_way(case: &Case, p: f64, figure: impl Fn(&Stroke, &Instant) -> f64) -> f64 {
    let mean = |load: &[Stroke]| -> f64 {
        let (mut sum, mut way) = (0.0, 0.0);
        for stroke in load {
            let part = |i: &Instant| figure(stroke, i).abs().powf(p);
            for two in stroke.instants.windows(2) {
                let step = (two[1].x - two[0].x).abs();
                sum += step * (part(&two[0]) + part(&two[1])) / 2.0;
                way += step;
            }
        }
        (sum / way).powf(1.0 / p)
    };
    case.strokes().chunks(2).map(mean).fold(0.0, f64::max)
}

/// Mean force of the drive.
pub fn mean_force(case: &Case, p: f64) -> f64 {
    mean_over_way(case, p, |_, i| i.f)
}

/// Way asked over the life, in km.
pub fn way_asked(case: &Case) -> f64 {
    2.0 * case.travel() * case.cycles_asked() / 1000.0
}
