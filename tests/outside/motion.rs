//! Motion laws: the demand against closed forms.

use counterpoise::demand::{Assist, Axis, Demand};
use counterpoise::quantity::{Angle, Si, kilograms, metres};
use counterpoise::requirements::{Law, LoadRange, Slide};

use super::agree;
use super::rows::{Row, row};
use crate::support::{self, about};

const THIRDS: Law = Law::Trapezoid {
    start: 1.0 / 3.0,
    end: 1.0 / 3.0,
};
const TRIANGLE: Law = Law::Trapezoid {
    start: 0.5,
    end: 0.5,
};
const NORTON: &str = "closed form; laws in Norton, Design of Machinery, cams";

/// A level move of one kilogram without friction: the force is the acceleration.
fn level(law: Law, travel_m: f64, time_s: f64) -> Demand {
    let slide = Slide {
        incline: Angle::from_si(0.0),
        travel: metres(travel_m),
        load: LoadRange {
            least: kilograms(1.0),
            most: kilograms(1.0),
        },
        guide_friction: 0.0,
        law,
        ..support::axis()
    };
    let job = about(&slide);
    Axis::new(&job, &slide).demand(&job, &Assist::None, time_s)
}

fn peaks(row: &Row, law: Law) {
    let demand = level(law, row.input("stroke_m"), row.input("move_time_s"));
    row.holds("peak_velocity_m_s", demand.worst.peak_speed_m_s);
    row.holds(
        "peak_acceleration_m_s2",
        demand.worst.peak_acceleration_m_s2,
    );
}

#[test]
fn peaks_of_the_laws() {
    peaks(&row("mp-coef-trap-thirds"), THIRDS);
    peaks(&row("mp-coef-triangular"), TRIANGLE);
    peaks(&row("mp-coef-cycloidal"), Law::Cycloidal);
    peaks(&row("mp-coef-poly345"), Law::Polynomial345);
    peaks(&row("mp-coef-modtrap"), Law::ModifiedTrapezoid);
    peaks(&row("mp-coef-harmonic"), Law::Harmonic);
}

#[test]
fn a_cycloidal_move() {
    peaks(&row("mp-case-cycloidal"), Law::Cycloidal);
}

/// A law knows no unit: what it makes of metres it makes of radians.
#[test]
fn a_triangular_swing() {
    let row = row("mp-case-rotary-triangular");
    let demand = level(
        TRIANGLE,
        row.input("swing_angle_rad"),
        row.input("move_time_s"),
    );
    row.holds("peak_angular_velocity_rad_s", demand.worst.peak_speed_m_s);
    row.holds(
        "peak_angular_acceleration_rad_s2",
        demand.worst.peak_acceleration_m_s2,
    );
}

#[test]
fn an_uneven_trapezoid() {
    let row = row("mp-asym-1");
    let (up, down) = (row.input("accel_time_s"), row.input("decel_time_s"));
    let time = up + row.input("cruise_time_s") + down;
    let law = Law::Trapezoid {
        start: up / time,
        end: down / time,
    };
    let scale = row.input("stroke_m") / (time * time);
    row.holds("cruise_velocity_m_s", law.cv() * scale * time);
    row.holds("acceleration_m_s2", law.at(0.0, false).a * scale);
    row.holds("deceleration_m_s2", -law.at(1.0, true).a * scale);
}

/// The project is asked about a travel time, not about limits: at the row's time the peaks are the limits, and a
/// cruise phase is there or not. A triangle's ramps part the time as the limits do, a trapezoid's last v/a.
#[test]
fn least_time_under_limits() {
    for id in ["mp-mintime-1", "mp-mintime-2", "mp-mintime-3"] {
        let row = row(id);
        let (v, time) = (
            row.expected("peak_velocity_m_s"),
            row.expected("move_time_s"),
        );
        let [up, down] =
            ["acceleration_limit_m_s2", "deceleration_limit_m_s2"].map(|key| row.input(key));
        let law = Law::Trapezoid {
            start: v / up / time,
            end: v / down / time,
        };
        let stroke = row.input("stroke_m");
        let found = level(law, stroke, time);
        row.holds("peak_velocity_m_s", found.worst.peak_speed_m_s);
        // The time in which that speed makes the stroke.
        row.holds("move_time_s", law.cv() * stroke / v);
        let cruises = law.jumps().len() == 2;
        row.holds("velocity_limit_reached_flag", f64::from(u8::from(cruises)));
        agree(
            &row.source(),
            found.worst.peak_acceleration_m_s2,
            up.max(down),
            1e-6,
        );
    }
}

#[test]
fn rms_of_a_trapezoid() {
    let row = row("mp-rms-trap-1");
    let (up, down) = (row.input("accel_time_s"), row.input("decel_time_s"));
    let (cruise, v) = (row.input("cruise_time_s"), row.input("cruise_velocity_m_s"));
    let time = up + cruise + down;
    let law = Law::Trapezoid {
        start: up / time,
        end: down / time,
    };
    let found = level(law, v * (up / 2.0 + cruise + down / 2.0), time);
    row.holds("rms_acceleration_m_s2", found.worst.rms_moving_n);
    agree(&row.source(), found.worst.peak_speed_m_s, v, 1e-9);
}

/// The trapezoid rule is exact for a whole sine.
#[test]
fn rms_of_a_cycloid() {
    let row = row("mp-rmscoef-cycloidal");
    let found = level(
        Law::Cycloidal,
        row.input("stroke_m"),
        row.input("move_time_s"),
    );
    row.holds("rms_acceleration_m_s2", found.worst.rms_moving_n);
}

// --- beyond the collection ---

#[test]
fn norton_coefficients() {
    let row = row("own-norton-coefficients");
    row.holds("cv_polynomial_4567", Law::Polynomial4567.cv());
    row.holds("ca_polynomial_4567", Law::Polynomial4567.ca());
    row.holds("cv_modified_sine", Law::ModifiedSine.cv());
    row.holds("ca_modified_sine", Law::ModifiedSine.ca());
}

/// A rise of an inch in a quarter of a turn at one turn a second.
#[test]
fn norton_cam() {
    let row = row("own-norton-cam");
    let peaks = |law| {
        let worst = level(law, row.input("stroke_in"), row.input("move_time_s")).worst;
        (worst.peak_speed_m_s, worst.peak_acceleration_m_s2)
    };
    let (v, a) = peaks(Law::Harmonic);
    row.holds("harmonic_velocity_in_s", v);
    row.holds("harmonic_acceleration_in_s2", a);
    let (v, a) = peaks(Law::Cycloidal);
    row.holds("cycloidal_velocity_in_s", v);
    row.holds("cycloidal_acceleration_in_s2", a);
}

/// Effective accelerations of the other laws, the demand's 241 instants against a quadrature.
#[test]
fn rms_of_the_other_laws() {
    let row = row("own-rms-laws");
    for (key, law) in [
        ("polynomial_345", Law::Polynomial345),
        ("polynomial_4567", Law::Polynomial4567),
        ("modified_sine", Law::ModifiedSine),
        ("modified_trapezoid", Law::ModifiedTrapezoid),
        ("harmonic", Law::Harmonic),
    ] {
        row.holds(key, level(law, 1.0, 1.0).worst.rms_moving_n);
    }
}

#[test]
fn every_law_is_one_stroke() {
    // Each law integrated by our own trapezoid rule: speed to 1, and acceleration to the speed.
    let laws = [
        THIRDS,
        Law::Cycloidal,
        Law::Polynomial345,
        Law::Polynomial4567,
        Law::ModifiedSine,
        Law::ModifiedTrapezoid,
        Law::Harmonic,
    ];
    let n = 24_000;
    let step = 1.0 / f64::from(n);
    for law in laws {
        let (mut s, mut v, mut v_most, mut a_most) = (0.0, law.at(0.0, false).v, 0.0_f64, 0.0_f64);
        for i in 0..n {
            let now = law.at(f64::from(i) * step, false);
            let then = law.at(f64::from(i + 1) * step, true);
            s += step * f64::midpoint(now.v, then.v);
            v += step * f64::midpoint(now.a, then.a);
            assert!((s - then.s).abs() < 1e-6, "{law:?}: {s} is not {}", then.s);
            assert!((v - then.v).abs() < 1e-3, "{law:?}: {v} is not {}", then.v);
            v_most = v_most.max(now.v);
            a_most = a_most.max(now.a.abs());
        }
        agree(NORTON, s, 1.0, 1e-6);
        agree(NORTON, v_most, law.cv(), 1e-6);
        agree(NORTON, a_most, law.ca(), 1e-6);
    }
}
