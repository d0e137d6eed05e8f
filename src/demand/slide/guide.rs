//! What a guide must carry: loads on its carriages, bushes or pads over every position.

use super::Straight;
use crate::demand::Direction;
use crate::demand::figures::{Case, Loading, Sample};
use crate::demand::process::Curve;
use crate::mechanics::guide;
use crate::quantity::{G_M_S2, Si, metres, newton_metres};

/// Load on the bearing that has most to carry: a carriage, a bush, a pad.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CarriageLoad {
    /// Cube mean over the strokes, weighed by distance: what rolls tires with it.
    pub mean_n: f64,
    /// Plain mean over the strokes, weighed by distance: what rubs wears with it.
    pub plain_mean_n: f64,
    /// Greatest, at rest, in motion or in an emergency stop.
    pub peak_n: f64,
}

/// What a guide must carry.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct RailDemand {
    /// Under the least and the most load.
    loads: [Loads; 2],
}

/// What two bearings on one line carry under one load, the couple across that line aside.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Loads {
    /// Means over the way of the load on a bearing, of its square and of its cube.
    means: [f64; 3],
    /// Greatest load on a bearing.
    peak_n: f64,
    /// Couple across the line that the weight makes, off to the side.
    couple_n_m: f64,
}

impl RailDemand {
    /// Under the least and the most load.
    pub(super) fn new(axis: &Straight, cases: &[Case], stop_m_s2: f64) -> Self {
        let under = |loading| {
            let same = cases.iter().filter(|case| case.load == loading);
            under(axis, same, stop_m_s2)
        };
        Self {
            loads: [Loading::Least, Loading::Most].map(under),
        }
    }

    /// Load on the worst bearing of a guide with two bearings on each of one or two lines.
    ///
    /// `P = (m g cosθ/2 + M/b + m g cosθ·e/w)/n`: the couple across stands against `width_m`, of the line itself where it is
    /// alone, else between the two. The mean is of the whole: `(p + k)³ = p³ + 3 k p² + 3 k² p + k³`, `k` the couple's part.
    pub fn on(&self, lines: u32, width_m: f64) -> CarriageLoad {
        let mut worst = CarriageLoad::default();
        for loads in &self.loads {
            let couple = newton_metres(loads.couple_n_m / 2.0);
            let k = guide::couple_across(couple, metres(width_m)).si();
            let [one, two, three] = loads.means;
            let cube = three + 3.0 * k * two + 3.0 * k * k * one + k * k * k;
            worst.mean_n = worst.mean_n.max(libm::cbrt(cube));
            worst.plain_mean_n = worst.plain_mean_n.max(one + k);
            worst.peak_n = worst.peak_n.max(loads.peak_n + k);
        }
        let lines = f64::from(lines.max(1));
        CarriageLoad {
            mean_n: worst.mean_n / lines,
            plain_mean_n: worst.plain_mean_n / lines,
            peak_n: worst.peak_n / lines,
        }
    }
}

/// Load on each of two bearings of one line at an instant, the couple across it aside.
///
/// Along the travel acts `M = |Q|·e + |F|·d + m g cosθ·c`. The offset is a magnitude; at its worst
/// it points to the side, so the weight twists the guide by `m g cosθ·e` as well.
fn bearing_n(axis: &Straight, mass_kg: f64, x_m: f64, q_n: f64, force_n: f64) -> f64 {
    let across = mass_kg * G_M_S2 * axis.cos;
    let overhang = axis.overhang_m + if axis.overhang_grows { x_m } else { 0.0 };
    let couple =
        q_n.abs() * axis.offset_m + force_n.abs() * axis.drive_offset_m + across * overhang;
    across / 2.0 + guide::couple_on_two(newton_metres(couple), metres(axis.spacing_m)).si()
}

/// The loads of one stroke: moving at each instant, and the greatest.
fn stroke(axis: &Straight, case: &Case, stop_m_s2: f64) -> (Vec<f64>, f64) {
    let sign = case.direction.sign();
    let curve = Curve::against(case.direction);
    let at = |sample: &Sample, upper: bool, a_m_s2: f64, force_n: f64| {
        let process = axis.process.at(curve, sample.x_m, upper);
        let q = case.load_kg * (a_m_s2 + G_M_S2 * axis.sin) + sign * process;
        bearing_n(axis, case.load_kg, sample.x_m, q, force_n)
    };
    let mut peak = 0.0_f64;
    let mut moving = Vec::with_capacity(case.profile.len());
    for (index, sample) in case.profile.iter().enumerate() {
        // Of two samples at an instant the first is on the side of a jump that comes first.
        let next = case.profile.get(index + 1);
        let before = next.is_some_and(|next| next.t_s.to_bits() == sample.t_s.to_bits());
        let upper = before != (case.direction == Direction::Out);
        let here = at(sample, upper, sample.a_m_s2, sample.force_n);
        let still = at(sample, upper, 0.0, sample.static_force_n);
        let stopping = at(sample, upper, -sign * stop_m_s2, sample.stop_force_n);
        peak = peak.max(here).max(still).max(stopping);
        moving.push(here);
    }
    (moving, peak)
}

/// The loads of all strokes under one load.
fn under<'c>(axis: &Straight, cases: impl Iterator<Item = &'c Case>, stop_m_s2: f64) -> Loads {
    let mut loads = Loads::default();
    let (mut sums, mut distance) = ([0.0_f64; 3], 0.0);
    for case in cases {
        let (moving, most) = stroke(axis, case, stop_m_s2);
        loads.peak_n = loads.peak_n.max(most);
        for (pair, ends) in case.profile.windows(2).zip(moving.windows(2)) {
            let (step, p, q) = ((pair[1].x_m - pair[0].x_m).abs(), ends[0], ends[1]);
            distance += step;
            let powers = [(p, q), (p * p, q * q), (p * p * p, q * q * q)];
            for (sum, (p, q)) in sums.iter_mut().zip(powers) {
                *sum += step * f64::midpoint(p, q);
            }
        }
        loads.couple_n_m = case.load_kg * G_M_S2 * axis.cos * axis.offset_m;
    }
    if distance > 0.0 {
        loads.means = sums.map(|sum| sum / distance);
    }
    loads
}

#[cfg(test)]
#[path = "../../../tests/unit/demand/slide/guide.rs"]
mod tests;
