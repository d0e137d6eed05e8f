//! The worst figures of an option's demand, each against the one that the study gives.

use super::base::{Case, G};
use super::motion::{Instant, force, holding_both, stop};

/// Greatest of a figure over every instant.
pub fn most(case: &Case, figure: impl Fn(&Instant) -> f64) -> f64 {
    instants(case).map(figure).fold(0.0, f64::max)
}

/// All instants of all strokes.
pub fn instants<'a>(case: &'a Case) -> impl Iterator<Item = &'a Instant> {
    case.strokes().iter().flat_map(|s| &s.instants)
}

/// Greatest force, moving or from rest.
pub fn thrust(case: &Case) -> f64 {
    most(case, |i| i.f.abs().max(i.still.abs()))
}

/// Greatest force of an emergency stop, either way.
pub fn stop_most(case: &Case) -> f64 {
    let (push, pull) = stop_push_pull(case);
    push.max(pull)
}

/// Greatest force held at rest, either way.
pub fn held_most(case: &Case) -> f64 {
    let (out, back) = held(case);
    out.max(back)
}

/// Forces held at rest, out and back; however well a counterweight balances, a part of its pull is left to hold.
pub fn held(case: &Case) -> (f64, f64) {
    let (up, down) = holding_both(case);
    (up.max(unsure(case)), down.max(unsure(case)))
}

/// The part of a counterweight's pull that its balance cannot be trusted in.
pub fn unsure(case: &Case) -> f64 {
    let pull = case.assist("travel_ratio") * case.assist("counterweight_kg") * G;
    case.rule("balance_tolerance") * pull
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
    *case.course.stop.get_or_init(|| stops(case))
}

fn stops(case: &Case) -> (f64, f64) {
    if let Some(hinge) = &case.given.hinge {
        return super::swing::stops(case, hinge);
    }
    let deceleration = stop(case, most(case, |i| i.v.abs()));
    let mut worst = (0.0_f64, 0.0_f64);
    for stroke in case.strokes() {
        for i in &stroke.instants {
            // The process force at this place is what the load's own force holds beyond weight and inertia.
            let weight = stroke.mass * (i.a + G * case.incline().sin());
            let process = stroke.sign * (i.q - weight);
            let at = (i.x, -stroke.sign * deceleration);
            let on = (&*case.given, &*case.course);
            let (_, f) = force(on, (stroke.mass, stroke.sign), at, process);
            worst = (worst.0.max(f), worst.1.max(-f));
        }
    }
    worst
}

/// Part of the drive's force that comes back as friction: at one the guide jams.
pub fn binding(case: &Case) -> f64 {
    let given = &case.given;
    if given.hinge.is_some() {
        return 0.0;
    }
    2.0 * given.friction * given.drive_offset / given.spacing
}

/// Name and figure of each worst.
pub fn figures<'a>(case: &'a Case) -> &'a [(&'static str, f64)] {
    case.course.worst.get_or_init(|| figured(case))
}

fn figured(case: &Case) -> Vec<(&'static str, f64)> {
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
    let slide = (heaviest + k * k * mc + case.assist("sheave_mass_kg")) * speed * speed / 2.0;
    let swung = most(case, |i| i.apparent.0 * i.v * i.v / 2.0);
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
            if case.given.hinge.is_some() {
                swung
            } else {
                slide
            },
        ),
        ("binding_ratio", binding(case)),
    ]
}
