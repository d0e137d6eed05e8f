//! Bearings under a load across and a load along their axis at once, and lives that more than nine in ten reach.

use crate::quantity::{Force, Si, newtons};

/// Parts of bearings that reach a life, and that life over the one that nine in ten reach.
///
/// Source: ISO 281:2007, table 12, recalled.
const LIFE_FACTORS: [(f64, f64); 6] = [
    (0.90, 1.0),
    (0.95, 0.64),
    (0.96, 0.55),
    (0.97, 0.47),
    (0.98, 0.37),
    (0.99, 0.25),
];

/// Deep-groove ball bearings: load along the axis over the static rating, `e`, and `Y` past it.
///
/// Source: Shigley's *Mechanical Engineering Design*, table 11-1, after ISO 281, recalled.
const DEEP_GROOVE: [(f64, f64, f64); 12] = [
    (0.014, 0.19, 2.30),
    (0.021, 0.21, 2.15),
    (0.028, 0.22, 1.99),
    (0.042, 0.24, 1.85),
    (0.056, 0.26, 1.71),
    (0.070, 0.27, 1.63),
    (0.084, 0.28, 1.55),
    (0.110, 0.30, 1.45),
    (0.170, 0.34, 1.31),
    (0.280, 0.38, 1.15),
    (0.420, 0.42, 1.04),
    (0.560, 0.44, 1.00),
];

/// Life that a part of all bearings reaches, over that which nine in ten reach (`a1`).
///
/// - `reliability`: part that reaches it, 0.90 to 0.99; straight lines between the standard's figures
///
/// Source: ISO 281:2007, table 12, recalled.
///
/// ```
/// # use counterpoise::mechanics::combined;
/// assert_eq!(combined::life_factor(0.90), 1.0);
/// // 0.925 is half of the way from 0.90 to 0.95: (1 + 0.64)/2
/// assert!((combined::life_factor(0.925) - 0.82).abs() < 1e-12);
/// ```
pub fn life_factor(reliability: f64) -> f64 {
    between(&LIFE_FACTORS, reliability, |row| *row)
}

/// A figure between the rows of a table, by straight lines; past its ends, that of the end.
fn between<T>(rows: &[T], at: f64, pair: impl Fn(&T) -> (f64, f64)) -> f64 {
    let upper = rows.iter().position(|row| pair(row).0 >= at);
    let (low, high) = match upper {
        Some(0) => (rows.first(), rows.first()),
        Some(index) => (rows.get(index - 1), rows.get(index)),
        None => (rows.last(), rows.last()),
    };
    let Some(((x0, y0), (x1, y1))) = low.map(&pair).zip(high.map(&pair)) else {
        return 0.0;
    };
    if x1 > x0 {
        y0 + (y1 - y0) * ((at - x0) / (x1 - x0)).clamp(0.0, 1.0)
    } else {
        y1
    }
}

/// Load across the axis that tires a bearing, or dents it, as much as a combined one does.
///
/// `P = X · V · Fr + Y · Fa`
///
/// - `radial`, `axial`: ≥ 0
/// - `rotation`: `V`, 1 where the inner ring turns against the load, 1.2 where the outer one does
/// - `x`, `y`: factors of the bearing
///
/// Source: Shigley's *Mechanical Engineering Design*, eq. 11-8; ISO 281 with `V` 1.
///
/// ```
/// # use counterpoise::{mechanics::combined, quantity::newtons};
/// // 0.56 · 1.2 · 7 kN + 1.53 · 3 kN = 9.294 kN
/// let load = combined::equivalent(newtons(7e3), newtons(3e3), 1.2, 0.56, 1.53);
/// assert!((load.value - 9294.0).abs() < 1e-9);
/// ```
pub fn equivalent(radial: Force, axial: Force, rotation: f64, x: f64, y: f64) -> Force {
    newtons(x * rotation * radial.si() + y * axial.si())
}

/// How a bearing takes loads across and along its axis together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combined {
    /// Load along over load across past which the other pair of factors holds.
    pub e: f64,
    /// `X` and `Y` up to `e`.
    pub below: [f64; 2],
    /// `X` and `Y` past it.
    pub past: [f64; 2],
    /// `X0` and `Y0` of the static load.
    pub still: [f64; 2],
}

impl Combined {
    /// A bearing that bears nothing along its axis but on a face of its own.
    pub const RADIAL: Self = Self {
        e: f64::INFINITY,
        below: [1.0, 0.0],
        past: [1.0, 0.0],
        still: [1.0, 0.0],
    };
    /// Two angular-contact ball bearings of 40° set against each other.
    ///
    /// Source: ISO 281:2007, table 3, double row; ISO 76:2006, table 2; recalled.
    pub const ANGULAR_PAIR: Self = Self {
        e: 1.14,
        below: [1.0, 0.55],
        past: [0.57, 0.93],
        still: [1.0, 0.52],
    };

    /// A deep-groove ball bearing: `e` and `Y` go with the load along the axis over the static rating.
    ///
    /// Source: Shigley's *Mechanical Engineering Design*, table 11-1; static factors ISO 76:2006.
    ///
    /// ```
    /// # use counterpoise::{mechanics::combined::Combined, quantity::newtons};
    /// // 700 N over 10 kN: e 0.27, Y 1.63. 700/1000 is past e: 0.56·1000 + 1.63·700 = 1701 N
    /// let bearing = Combined::deep_groove(newtons(700.0), newtons(10e3));
    /// assert!((bearing.dynamic(newtons(1e3), newtons(700.0)).value - 1701.0).abs() < 1e-9);
    /// // 700/4000 is below it: the load across alone.
    /// assert!((bearing.dynamic(newtons(4e3), newtons(700.0)).value - 4000.0).abs() < 1e-9);
    /// ```
    pub fn deep_groove(axial: Force, static_rating: Force) -> Self {
        let part = axial.si() / static_rating.si();
        Self {
            e: between(&DEEP_GROOVE, part, |row| (row.0, row.1)),
            below: [1.0, 0.0],
            past: [0.56, between(&DEEP_GROOVE, part, |row| (row.0, row.2))],
            still: [0.6, 0.5],
        }
    }

    /// Two rows of rollers set against each other at a contact angle: a taper pair, a crossed ring.
    ///
    /// `e = 1.5 tan α`; `X` 1, `Y` 0.45 cot α, past `e` 0.67 and 0.67 cot α; `X0` 1, `Y0` 0.44 cot α.
    ///
    /// - `angle_deg`: contact angle, above 0, at most 45
    ///
    /// Source: ISO 281:2007, table 8, double row; ISO 76:2006, table 5; recalled.
    ///
    /// ```
    /// # use counterpoise::{mechanics::combined::Combined, quantity::newtons};
    /// // At 45°: e 1.5; 1000 + 0.45·800 = 1360 N, and past e 0.67·1000 + 0.67·2000 = 2010 N
    /// let ring = Combined::rollers(45.0);
    /// assert!((ring.dynamic(newtons(1e3), newtons(800.0)).value - 1360.0).abs() < 1e-9);
    /// assert!((ring.dynamic(newtons(1e3), newtons(2e3)).value - 2010.0).abs() < 1e-9);
    /// ```
    pub fn rollers(angle_deg: f64) -> Self {
        let tan = libm::tan(angle_deg.to_radians());
        Self {
            e: 1.5 * tan,
            below: [1.0, 0.45 / tan],
            past: [0.67, 0.67 / tan],
            still: [1.0, 0.44 / tan],
        }
    }

    /// Load that tires it as much.
    pub fn dynamic(self, radial: Force, axial: Force) -> Force {
        let [x, y] = if axial.si() <= self.e * radial.si() {
            self.below
        } else {
            self.past
        };
        equivalent(radial, axial, 1.0, x, y)
    }

    /// Load that dents it as much, never less than the load across.
    ///
    /// ```
    /// # use counterpoise::{mechanics::combined::Combined, quantity::newtons};
    /// // 0.6·4000 + 0.5·3500 = 4150 N
    /// let bearing = Combined::deep_groove(newtons(3500.0), newtons(11_200.0));
    /// assert!((bearing.still(newtons(4e3), newtons(3500.0)).value - 4150.0).abs() < 1e-9);
    /// ```
    pub fn still(self, radial: Force, axial: Force) -> Force {
        let [x, y] = self.still;
        newtons(equivalent(radial, axial, 1.0, x, y).si().max(radial.si()))
    }
}
