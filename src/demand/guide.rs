//! What a rail guide must carry: loads on its carriages over every position.

use super::Direction;
use super::figures::{Case, Loading, Sample};
use super::process::Curve;
use super::slide::Straight;
use crate::mechanics::guide;
use crate::quantity::{G_M_S2, Si, metres, newton_metres, newtons};

/// Load on the carriage that has most to carry.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CarriageLoad {
    /// Cube mean over the strokes, weighed by distance.
    pub mean_n: f64,
    /// Greatest, at rest, in motion or in an emergency stop.
    pub peak_n: f64,
}

/// What a rail guide must carry.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct RailDemand {
    /// Two rails with two carriages each, the rails as far apart as the carriages of one.
    pub two_rails: CarriageLoad,
    /// One rail with two carriages, the couple across it aside.
    pub one_rail: CarriageLoad,
    /// Couple across the one rail, on each of its carriages: the weight, off to the side.
    pub couple_across_n_m: f64,
}

/// Carriage loads at an instant: with two rails, and with one.
///
/// Along the travel acts `M = |Q|·e + |F|·d + m g cosθ·c`. The offset is a magnitude; at its worst
/// it points to the side, so the weight twists two rails by `m g cosθ·e` as well.
fn carriages(axis: &Straight, mass_kg: f64, x_m: f64, q_n: f64, force_n: f64) -> [f64; 2] {
    let spacing = metres(axis.spacing_m);
    let across = mass_kg * G_M_S2 * axis.cos;
    let overhang = axis.overhang_m + if axis.overhang_grows { x_m } else { 0.0 };
    let couple =
        q_n.abs() * axis.offset_m + force_n.abs() * axis.drive_offset_m + across * overhang;
    let by_couple = guide::couple_on_two(newton_metres(couple), spacing).si();
    let by_weight = guide::on_four(
        newtons(across),
        metres(0.0),
        metres(axis.offset_m),
        spacing,
        spacing,
    );
    [
        by_weight[0].si() + by_couple / 2.0,
        across / 2.0 + by_couple,
    ]
}

/// The carriage loads of one stroke: moving at each instant, and the greatest.
fn stroke(axis: &Straight, case: &Case, stop_m_s2: f64) -> (Vec<[f64; 2]>, [f64; 2]) {
    let sign = case.direction.sign();
    let curve = match case.direction {
        Direction::Out => Curve::Out,
        Direction::Back => Curve::Back,
    };
    let at = |sample: &Sample, upper: bool, a_m_s2: f64, force_n: f64| {
        let process = axis.process.at(curve, sample.x_m, upper);
        let q = case.load_kg * (a_m_s2 + G_M_S2 * axis.sin) + sign * process;
        carriages(axis, case.load_kg, sample.x_m, q, force_n)
    };
    let mut peak = [0.0_f64; 2];
    let mut moving = Vec::with_capacity(case.profile.len());
    for (index, sample) in case.profile.iter().enumerate() {
        // Of two samples at an instant the first is on the side of a jump that comes first.
        let next = case.profile.get(index + 1);
        let before = next.is_some_and(|next| next.t_s.to_bits() == sample.t_s.to_bits());
        let upper = before != (case.direction == Direction::Out);
        let here = at(sample, upper, sample.a_m_s2, sample.force_n);
        let still = at(sample, upper, 0.0, sample.static_force_n);
        let stopping = at(sample, upper, -sign * stop_m_s2, sample.stop_force_n);
        for load in [here, still, stopping] {
            peak = [peak[0].max(load[0]), peak[1].max(load[1])];
        }
        moving.push(here);
    }
    (moving, peak)
}

/// What the rails must carry, the worse of the least and the most load.
pub(super) fn of(axis: &Straight, cases: &[Case], stop_m_s2: f64) -> RailDemand {
    let mut found = RailDemand::default();
    let mut peak = [0.0_f64; 2];
    for loading in [Loading::Least, Loading::Most] {
        let (mut cubes, mut distance) = ([0.0_f64; 2], 0.0);
        for case in cases.iter().filter(|case| case.load == loading) {
            let (moving, most) = stroke(axis, case, stop_m_s2);
            peak = [peak[0].max(most[0]), peak[1].max(most[1])];
            for (pair, loads) in case.profile.windows(2).zip(moving.windows(2)) {
                let step = (pair[1].x_m - pair[0].x_m).abs();
                distance += step;
                for (sum, (p, q)) in cubes.iter_mut().zip(loads[0].iter().zip(loads[1])) {
                    *sum += step * f64::midpoint(p * p * p, q * q * q);
                }
            }
            let across = case.load_kg * G_M_S2 * axis.cos * axis.offset_m / 2.0;
            found.couple_across_n_m = found.couple_across_n_m.max(across);
        }
        if distance > 0.0 {
            let [two, one] = cubes.map(|sum| libm::cbrt(sum / distance));
            found.two_rails.mean_n = found.two_rails.mean_n.max(two);
            found.one_rail.mean_n = found.one_rail.mean_n.max(one);
        }
    }
    found.two_rails.peak_n = peak[0];
    found.one_rail.peak_n = peak[1];
    found
}
