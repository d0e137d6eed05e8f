//! Motion laws: a stroke of unit length in unit time.

use core::f64::consts::PI;

use crate::requirements::Law;

/// Position, speed and acceleration of the unit stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnitStroke {
    /// Part of the stroke done.
    pub s: f64,
    /// Its rate.
    pub v: f64,
    /// The rate of that.
    pub a: f64,
}

impl Law {
    /// Peak speed coefficient `Cv`: peak speed is `Cv·S/T`.
    pub fn cv(self) -> f64 {
        match self {
            Law::Trapezoid { start, end } => 1.0 / (1.0 - f64::midpoint(start, end)),
            Law::Cycloidal | Law::ModifiedTrapezoid => 2.0,
            Law::Polynomial345 => 15.0 / 8.0,
            Law::Polynomial4567 => 35.0 / 16.0,
            Law::ModifiedSine => 4.0 * PI / (4.0 + PI),
            Law::Harmonic => PI / 2.0,
        }
    }

    /// Peak acceleration coefficient `Ca`: peak acceleration is `Ca·S/T²`, the greater of both ends.
    pub fn ca(self) -> f64 {
        match self {
            Law::Trapezoid { start, end } => self.cv() / start.min(end),
            Law::Cycloidal => 2.0 * PI,
            Law::Polynomial345 => 10.0 / 3.0_f64.sqrt(),
            Law::Polynomial4567 => 84.0 * 5.0_f64.sqrt() / 25.0,
            Law::ModifiedSine => 4.0 * PI * PI / (4.0 + PI),
            Law::ModifiedTrapezoid => 8.0 * PI / (2.0 + PI),
            Law::Harmonic => PI * PI / 2.0,
        }
    }

    /// Instants within the stroke at which the acceleration jumps.
    pub fn jumps(self) -> Vec<f64> {
        match self {
            Law::Trapezoid { start, end } if start + end >= 1.0 - 1e-12 => vec![start],
            Law::Trapezoid { start, end } => vec![start, 1.0 - end],
            _ => Vec::new(),
        }
    }

    /// The unit stroke at an instant `0 ≤ tau ≤ 1`; `before` takes the side of a jump that comes first.
    pub fn at(self, tau: f64, before: bool) -> UnitStroke {
        match self {
            Law::Trapezoid { start, end } => trapezoid(self.cv(), start, end, tau, before),
            Law::Cycloidal => {
                let angle = 2.0 * PI * tau;
                UnitStroke {
                    s: tau - libm::sin(angle) / (2.0 * PI),
                    v: 1.0 - libm::cos(angle),
                    a: 2.0 * PI * libm::sin(angle),
                }
            }
            Law::Polynomial345 => polynomial(tau, &[(3, 10.0), (4, -15.0), (5, 6.0)]),
            Law::Polynomial4567 => polynomial(tau, &[(4, 35.0), (5, -84.0), (6, 70.0), (7, -20.0)]),
            Law::ModifiedSine => modified_sine(tau),
            Law::ModifiedTrapezoid if tau > 0.5 => {
                let mirror = modified_trapezoid(1.0 - tau);
                UnitStroke {
                    s: 1.0 - mirror.s,
                    v: mirror.v,
                    a: -mirror.a,
                }
            }
            Law::ModifiedTrapezoid => modified_trapezoid(tau),
            Law::Harmonic => UnitStroke {
                s: (1.0 - libm::cos(PI * tau)) / 2.0,
                v: PI / 2.0 * libm::sin(PI * tau),
                a: PI * PI / 2.0 * libm::cos(PI * tau),
            },
        }
    }

    /// The instant at which a part `s` of the stroke is done.
    pub fn instant_of(self, s: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.at(middle, false).s < s {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }
}

fn trapezoid(cv: f64, start: f64, end: f64, tau: f64, before: bool) -> UnitStroke {
    let slowing = 1.0 - end;
    if tau < start || (before && tau <= start) {
        UnitStroke {
            s: cv * tau * tau / (2.0 * start),
            v: cv * tau / start,
            a: cv / start,
        }
    } else if tau < slowing || (before && tau <= slowing) {
        UnitStroke {
            s: cv * (tau - start / 2.0),
            v: cv,
            a: 0.0,
        }
    } else {
        let left = 1.0 - tau;
        UnitStroke {
            s: 1.0 - cv * left * left / (2.0 * end),
            v: cv * left / end,
            a: -cv / end,
        }
    }
}

/// `s = Σ c·τⁿ` and its derivatives.
fn polynomial(tau: f64, terms: &[(i32, f64)]) -> UnitStroke {
    terms.iter().fold(
        UnitStroke {
            s: 0.0,
            v: 0.0,
            a: 0.0,
        },
        |sum, &(power, c)| {
            let n = f64::from(power);
            UnitStroke {
                s: sum.s + c * tau.powi(power),
                v: sum.v + c * n * tau.powi(power - 1),
                a: sum.a + c * n * (n - 1.0) * tau.powi(power - 2),
            }
        },
    )
}

fn modified_sine(tau: f64) -> UnitStroke {
    let scale = 1.0 / (4.0 + PI);
    if (0.125..=0.875).contains(&tau) {
        let angle = PI / 3.0 + 4.0 * PI * tau / 3.0;
        UnitStroke {
            s: scale * (2.0 + PI * tau - 2.25 * libm::sin(angle)),
            v: scale * PI * (1.0 - 3.0 * libm::cos(angle)),
            a: scale * 4.0 * PI * PI * libm::sin(angle),
        }
    } else {
        let (angle, done) = (4.0 * PI * tau, if tau > 0.5 { 4.0 } else { 0.0 });
        UnitStroke {
            s: scale * (done + PI * tau - 0.25 * libm::sin(angle)),
            v: scale * PI * (1.0 - libm::cos(angle)),
            a: scale * 4.0 * PI * PI * libm::sin(angle),
        }
    }
}

/// The first half of the modified trapezoid; the second mirrors it.
fn modified_trapezoid(tau: f64) -> UnitStroke {
    let ca = 8.0 * PI / (2.0 + PI);
    let quarter = ca / (4.0 * PI);
    let s1 = quarter * (0.125 - 1.0 / (4.0 * PI));
    let v2 = quarter + ca / 4.0;
    if tau <= 0.125 {
        let angle = 4.0 * PI * tau;
        UnitStroke {
            s: quarter * (tau - libm::sin(angle) / (4.0 * PI)),
            v: quarter * (1.0 - libm::cos(angle)),
            a: ca * libm::sin(angle),
        }
    } else if tau <= 0.375 {
        let u = tau - 0.125;
        UnitStroke {
            s: s1 + quarter * u + ca * u * u / 2.0,
            v: quarter + ca * u,
            a: ca,
        }
    } else {
        let s2 = s1 + quarter * 0.25 + ca / 32.0;
        let (w, angle) = (tau - 0.375, 4.0 * PI * (tau - 0.375));
        UnitStroke {
            s: s2 + v2 * w + quarter / (4.0 * PI) * (1.0 - libm::cos(angle)),
            v: v2 + quarter * libm::sin(angle),
            a: ca * libm::cos(angle),
        }
    }
}
