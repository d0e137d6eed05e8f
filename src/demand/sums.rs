//! From the instants of strokes to the figures of a case, and to the worst of all cases.

use super::axis::TIE;
use super::course::greatest;
use super::figures::{Case, Emergency, Figures, Loading, Sample};
use crate::mechanics::bearing;
use crate::quantity::{Si, newtons};

/// Trapezoid rule over the instants.
pub(super) fn integral(profile: &[Sample], f: impl Fn(&Sample) -> f64) -> f64 {
    profile
        .windows(2)
        .map(|pair| (pair[1].t_s - pair[0].t_s) * f64::midpoint(f(&pair[0]), f(&pair[1])))
        .sum()
}

impl Case {
    /// Work into the load over the stroke.
    pub fn work_j(&self) -> f64 {
        integral(&self.profile, |s| (s.force_n * s.v_m_s).max(0.0))
    }
}

/// The figures of one stroke, over those of its load's cycle.
pub(super) fn stroke_figures(profile: &[Sample], cycle: Figures) -> Figures {
    let time_s = profile.last().map_or(1.0, |last| last.t_s);
    let most = |f: fn(&Sample) -> f64| profile.iter().map(f).fold(0.0, f64::max);
    let static_peak_n = most(|s| s.static_force_n.abs());
    let dynamic_peak_n = most(|s| s.force_n.abs());
    let motoring = most(|s| s.force_n * s.v_m_s);
    let braking = most(|s| -s.force_n * s.v_m_s);
    let worst = greatest(profile.iter().enumerate()).and_then(|index| profile.get(index));
    Figures {
        static_peak_n,
        dynamic_peak_n,
        dynamic_over_static: (static_peak_n > TIE).then(|| dynamic_peak_n / static_peak_n),
        push_peak_n: most(|s| s.force_n.max(s.static_force_n)),
        pull_peak_n: most(|s| (-s.force_n).max(-s.static_force_n)),
        rms_moving_n: (integral(profile, |s| s.force_n * s.force_n) / time_s).sqrt(),
        peak_power_w: motoring.max(braking),
        peak_motoring_power_w: motoring,
        peak_braking_power_w: braking,
        worst_position_m: worst.map_or(0.0, |s| s.x_m),
        ..cycle
    }
}

/// Raises each of some figures to that of another where it is more.
macro_rules! most {
    ($worst:ident, $other:ident: $($figure:ident)+) => {
        $($worst.$figure = $worst.$figure.max($other.$figure);)+
    };
}

/// The worst over the cases; the place is that of the first case with the greatest thrust.
pub(super) fn worst(cases: &[Case]) -> Figures {
    let mut worst = Figures::default();
    let mut thrust = -1.0;
    for figures in cases.iter().map(|case| case.figures) {
        let here = figures.static_peak_n.max(figures.dynamic_peak_n);
        if here > thrust + TIE {
            thrust = here;
            worst.worst_position_m = figures.worst_position_m;
        }
        most!(worst, figures:
            static_peak_n dynamic_peak_n push_peak_n pull_peak_n holding_n
            rms_rest_n rms_moving_n rms_cycle_n rms_cycle_no_hold_n
            peak_speed_m_s peak_acceleration_m_s2
            peak_power_w peak_motoring_power_w peak_braking_power_w
            work_in_j work_out_j kinetic_energy_j binding_ratio
        );
    }
    worst.dynamic_over_static =
        (worst.static_peak_n > TIE).then(|| worst.dynamic_peak_n / worst.static_peak_n);
    worst
}

pub(super) fn emergency(deceleration_m_s2: f64, cases: &[Case]) -> Emergency {
    let forces = || {
        cases
            .iter()
            .flat_map(|case| case.profile.iter().map(|s| s.stop_force_n))
    };
    Emergency {
        deceleration_m_s2,
        force_peak_n: forces().map(f64::abs).fold(0.0, f64::max),
        push_peak_n: forces().fold(0.0, f64::max),
        pull_peak_n: forces().map(|force| -force).fold(0.0, f64::max),
    }
}

/// Plain and cube mean of the force on the pivot over the angle swung with a load: Archard's law and ISO 281.
pub(super) fn mean_pivot_n(cases: &[Case], loading: Loading) -> [f64; 2] {
    let same = cases.iter().filter(|case| case.load == loading);
    let steps = same.flat_map(|case| case.swing.windows(2)).map(|pair| {
        let force = newtons(f64::midpoint(pair[0].pivot_n, pair[1].pivot_n));
        (force, (pair[1].angle_rad - pair[0].angle_rad).abs())
    });
    let (sum, way) = steps.clone().fold((0.0, 0.0), |(sum, way), (force, step)| {
        (sum + force.si() * step, way + step)
    });
    let plain = if way > 0.0 { sum / way } else { 0.0 };
    [plain, bearing::cube_mean(steps).si()]
}
