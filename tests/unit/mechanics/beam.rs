//! Unit tests of `mechanics::beam`.

use super::*;
use crate::quantity::kilograms;

/// Where a function that is first below and then above zero is zero.
fn root(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if f(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// The exact eigenvalue `λ` of a uniform beam with a mass of `ratio` times its own at the load.
fn exact(held: Held, ratio: f64) -> f64 {
    let (sin, cos, tan) = (libm::sin, libm::cos, libm::tan);
    let (sinh, cosh, tanh) = (libm::sinh, libm::cosh, libm::tanh);
    match held {
        Held::OneEnd => root(1e-3, 1.876, |l| {
            -(1.0 + cos(l) * cosh(l) + ratio * l * (cos(l) * sinh(l) - sin(l) * cosh(l)))
        }),
        Held::BothEnds => root(1e-3, PI - 1e-9, |l| {
            ratio * l / 4.0 * (tan(l / 2.0) - tanh(l / 2.0)) - 1.0
        }),
    }
}

#[test]
fn rayleigh_is_never_below_the_exact_frequency_and_at_most_1_5_percent_above() {
    let section = Section::Rectangle {
        width_m: 0.04,
        height_m: 0.04,
    };
    for held in [Held::OneEnd, Held::BothEnds] {
        let beam = Beam {
            section,
            length: metres(0.5),
            held,
            modulus: pascals(205e9),
        };
        let own_kg = 6.4;
        for ratio in [1e-6, 0.01, 0.1, 0.5, 1.0, 3.0, 10.0, 100.0] {
            let lambda = exact(held, ratio);
            let base = (205e9 * section.second_moment_m4() / (own_kg * 0.125)).sqrt();
            let exact_hz = lambda * lambda * base / TAU;
            let got = beam.frequency_hz(kilograms(ratio * own_kg), kilograms(own_kg));
            let over = got / exact_hz - 1.0;
            assert!((-1e-9..0.0152).contains(&over), "{held:?} {ratio}: {over}");
        }
    }
}

#[test]
fn stiffness_is_not_strength() {
    // A bar twice as tall is 8 times as stiff and 4 times as strong; one twice as wide twice both.
    let bar = |width_m, height_m| Section::Rectangle { width_m, height_m };
    let (one, tall, wide) = (bar(0.02, 0.03), bar(0.02, 0.06), bar(0.04, 0.03));
    let stiff = |s: Section| s.second_moment_m4() / one.second_moment_m4();
    let strong = |s: Section| s.modulus_m3() / one.modulus_m3();
    assert!((stiff(tall) - 8.0).abs() < 1e-12 && (strong(tall) - 4.0).abs() < 1e-12);
    assert!((stiff(wide) - 2.0).abs() < 1e-12 && (strong(wide) - 2.0).abs() < 1e-12);
}
