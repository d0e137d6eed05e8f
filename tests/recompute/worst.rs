//! The worst figures of an option's demand, each against the one that the study gives.

use crate::base::Case;
use crate::motion::{Instant, stop};

/// Greatest of a figure over every instant.
pub fn most(case: &Case, figure: impl Fn(&Instant) -> f64) -> f64 {
    let all = case.strokes().iter().flat_map(|s| &s.instants);
    all.map(figure).fold(0.0, f64::max)
}

/// The area under a figure over one stroke, by the trapezoid rule.
pub fn area(instants: &[Instant], figure: impl Fn(&Instant) -> f64) -> f64 {
    instants
        .windows(2)
        .map(|w| (w[1].t - w[0].t) * (figure(&w[0]) + figure(&w[1])) / 2.0)
        .sum()
}

/// Greatest force of an emergency stop from the peak speed: along out and against it.
pub fn stop_push_pull(case: &Case) -> (f64, f64) {
    let deceleration = stop(case, most(case, |i| i.v.abs()));
    let mut worst = (0.0_f64, 0.0_f64);
    for stroke in case.strokes() {
        for i in &stroke.instants {
            // The process force at this place is what the load's own force holds beyond weight and inertia.
            let weight = stroke.mass * (i.a + crate::base::G * case.incline().sin());
            let process = stroke.sign * (i.q - weight);
            let at = (i.x, -stroke.sign * deceleration);
            let (_, f) = crate::motion::force(case, (stroke.mass, stroke.sign), at, process);
            worst = (worst.0.max(f), worst.1.max(-f));
        }
    }
    worst
}

/// Name and figure of each worst.
pub fn figures(case: &Case) -> Vec<(&'static str, f64)> {
    let (mut moving, mut cycle) = (0.0_f64, 0.0_f64);
    let (mut put_in, mut taken) = (0.0_f64, 0.0_f64);
    for load in case.strokes().chunks(2) {
        let sum = |figure: &dyn Fn(&Instant) -> f64| -> f64 {
            load.iter().map(|s| area(&s.instants, figure)).sum()
        };
        for s in load {
            moving = moving.max((area(&s.instants, |i| i.f * i.f) / case.time()).sqrt());
        }
        cycle = cycle.max((sum(&|i| i.f * i.f) / case.cycle_s()).sqrt());
        put_in = put_in.max(sum(&|i| (i.f * i.v).max(0.0)));
        taken = taken.max(sum(&|i| (-i.f * i.v).max(0.0)));
    }
    let (mc, k) = (case.assist("counterweight_kg"), case.assist("travel_ratio"));
    let heaviest = case.strokes().iter().map(|s| s.mass).fold(0.0, f64::max);
    let speed = most(case, |i| i.v.abs());
    let b = case.or(
        "motion.guide.bearing_spacing",
        (case.travel() / 4.0).max(0.1),
    );
    let binding =
        2.0 * case.or("motion.guide.friction", 0.05) * case.or("motion.drive_offset", 0.0) / b;
    vec![
        ("static_peak_n", most(case, |i| i.still.abs())),
        ("dynamic_peak_n", most(case, |i| i.f.abs())),
        ("push_peak_n", most(case, |i| i.f.max(i.still))),
        ("pull_peak_n", most(case, |i| (-i.f).max(-i.still))),
        ("holding_n", case.holding_n()),
        ("peak_speed_m_s", speed),
        ("peak_acceleration_m_s2", most(case, |i| i.a.abs())),
        ("peak_motoring_power_w", most(case, |i| i.f * i.v)),
        ("peak_braking_power_w", most(case, |i| -i.f * i.v)),
        ("rms_moving_n", moving),
        ("rms_cycle_no_hold_n", cycle),
        ("work_in_j", put_in),
        ("work_out_j", taken),
        (
            "kinetic_energy_j",
            (heaviest + k * k * mc + case.assist("sheave_mass_kg")) * speed * speed / 2.0,
        ),
        ("binding_ratio", binding),
    ]
}
