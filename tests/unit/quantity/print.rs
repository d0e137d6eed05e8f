//! Unit tests of `quantity::print`.

use super::*;
use crate::quantity::{metres, newtons, seconds};

#[test]
fn three_digits_are_rounded_to_the_side_asked_for() {
    let told = |round: fn(f64) -> f64, value| show(round(value));
    assert_eq!(told(enough, 0.991_71), "0.992");
    assert_eq!(told(enough, 0.992), "0.992");
    assert_eq!(told(enough, 12.3401), "12.4");
    assert_eq!(told(enough, 999.91), "1000");
    assert_eq!(told(enough, 0.0), "0");
    assert_eq!(told(not_over, 0.991_71), "0.991");
    assert_eq!(told(not_over, 12.3999), "12.3");
    assert_eq!(told(not_over, 1000.4), "1000");
}

#[test]
fn a_fitting_unit_is_chosen_after_rounding() {
    assert_eq!(for_people(metres(0.9996)), "1 m");
    assert_eq!(for_people(metres(0.000_05)), "50 µm");
    assert_eq!(for_people(metres(0.000_5)), "0.5 mm");
    assert_eq!(for_people(metres(0.0)), "0 mm");
    assert_eq!(for_people(newtons(-1834.0)), "-1.83 kN");
    assert_eq!(for_people(newtons(999.7)), "1 kN");
    assert_eq!(for_people(seconds(20.0)), "20 s");
    assert_eq!(for_people(seconds(900.0)), "15 min");
    assert_eq!(in_words(Kind::Pressure, 6e5), "6 bar");
    assert_eq!(in_words(Kind::Temperature, 273.15), "0 °C");
    assert_eq!(in_words(Kind::Angle, core::f64::consts::FRAC_PI_2), "90°");
}

#[test]
fn an_exact_number_is_short_and_reads_back() {
    assert_eq!(exact(0.000_001), "0.000001");
    assert_eq!(exact(1e12), "1000000000000");
    assert_eq!(exact(-5e-324), "-5e-324");
    for value in many() {
        assert!(exact(value).len() <= 25, "{value:e}");
        assert_eq!(exact(value).parse(), Ok(value));
    }
}

/// Numbers of all sizes and many digits, the same at every run.
fn many() -> impl Iterator<Item = f64> {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut random = move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state
    };
    let any = (0..20_000).map(move |index| {
        #[allow(clippy::cast_precision_loss, reason = "any number will do")]
        let part = (random() >> 11) as f64 / (1_u64 << 53) as f64;
        let size = f64::from(i32::from((random() % 40) as u8) - 20);
        let number = part * 10.0_f64.powf(size);
        // Every third has few digits, so that ties and carries occur.
        match index % 3 {
            0 => format!("{number:.4e}").parse().unwrap_or(number),
            1 => -number,
            _ => number,
        }
    });
    let edges = [
        0.5,
        1.0,
        9.995,
        99.95,
        999.5,
        0.099_95,
        1e-7,
        1e-8,
        9.99e-8,
        1e14,
        1e15,
        1e16,
        1e22,
        1e23,
        1e-14,
        1e-15,
        2.5,
        0.125,
        1000.0,
        999.999_999_95,
        0.1,
        0.2,
        0.3,
        5e-324,
        1e308,
    ];
    edges.into_iter().chain(any)
}

#[test]
fn quick_rounding_is_that_of_the_formatter() {
    for value in many() {
        for count in [3_u8, 4, 9] {
            let decimals = usize::from(count - 1);
            let slow: f64 = format!("{value:.decimals$e}").parse().expect("a number");
            assert_eq!(to_digits(value, count).to_bits(), slow.to_bits(), "{value}");
        }
        assert_eq!(show(value), by_formatter(value), "{value:e}");
    }
}

#[test]
fn zero_has_no_sign_and_no_number_an_exponent() {
    assert_eq!(show(-0.0), "0");
    assert_eq!(show(-1e-12), "0");
    assert_eq!(show(-0.012_34), "-0.0123");
    assert_eq!(show(123_456.0), "123000");
}
