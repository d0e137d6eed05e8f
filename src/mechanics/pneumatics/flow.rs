//! Flow of air through valves, tubes and throttles (ISO 6358).

use super::FREE_AIR_DENSITY_KG_M3;
use crate::quantity::{
    AbsolutePressure, Conductance, Length, Si, VolumeRate, cubic_metres_per_second,
};

/// Pressure ratio above which the flow is taken as linear to zero, so that its slope stays finite (method page).
const LINEAR_ABOVE: f64 = 0.999;

/// Something air flows through: its conductance and critical pressure ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Path {
    /// Sonic conductance `C`, m³/(s·Pa), > 0.
    pub conductance: f64,
    /// Critical pressure ratio `b`, 0…0.999.
    pub critical_ratio: f64,
}

impl Path {
    /// The part of the choked flow that passes at a pressure ratio, and how it changes with the ratio.
    #[inline]
    fn part(self, ratio: f64) -> (f64, f64) {
        let b = self.critical_ratio;
        let subsonic = |ratio: f64| {
            let z = (ratio - b) / (1.0 - b);
            let part = (1.0 - z * z).max(0.0).sqrt();
            (part, -z / ((1.0 - b) * part))
        };
        if ratio <= b {
            (1.0, 0.0)
        } else if ratio <= LINEAR_ABOVE {
            subsonic(ratio)
        } else {
            let slope = -subsonic(LINEAR_ABOVE).0 / (1.0 - LINEAR_ABOVE);
            (slope * (ratio - 1.0), slope)
        }
    }

    /// Mass flow from `from_pa` to `to_pa`, kg/s, at the reference temperature; negative where it runs the other way.
    ///
    /// Beside it stand its slopes over the first and the second pressure.
    #[inline]
    pub fn mass_flow(self, from_pa: f64, to_pa: f64) -> (f64, f64, f64) {
        let scale = self.conductance * FREE_AIR_DENSITY_KG_M3;
        if from_pa >= to_pa {
            let ratio = to_pa / from_pa;
            let (part, slope) = self.part(ratio);
            (
                scale * from_pa * part,
                scale * (part - ratio * slope),
                scale * slope,
            )
        } else {
            let ratio = from_pa / to_pa;
            let (part, slope) = self.part(ratio);
            (
                -scale * to_pa * part,
                -scale * slope,
                -scale * (part - ratio * slope),
            )
        }
    }
}

/// Flow of free air through a component at the reference temperature.
///
/// `q = C p1 ψ`, `ψ = 1` for `r = p2/p1 ≤ b`, else `√(1 − ((r − b)/(1 − b))²)`, linear to zero above `r` = 0.999.
///
/// - `conductance`: sonic conductance `C`, > 0; `critical_ratio`: `b`, 0…0.999
/// - `upstream`, `downstream`: above vacuum, > 0; the flow is negative where the second is higher
///
/// Source: ISO 6358-1:2013, flow law.
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::free_flow, quantity::{AbsolutePressure, Conductance, Si}};
/// // C 2 L/(s bar), b 0.3, from 7 to 5 bar: z = (0.7143 − 0.3)/0.7 = 0.5918, 14 L/s · √(1 − 0.3503) = 11.28 L/s
/// let bar = |p: f64| AbsolutePressure::from_si(p * 1e5);
/// let flow = free_flow(Conductance::from_si(2e-8), 0.3, bar(7.0), bar(5.0));
/// assert!((flow.value - 11.285e-3).abs() < 1e-6);
/// ```
pub fn free_flow(
    conductance: Conductance,
    critical_ratio: f64,
    upstream: AbsolutePressure,
    downstream: AbsolutePressure,
) -> VolumeRate {
    let path = Path {
        conductance: conductance.si(),
        critical_ratio,
    };
    let (mass_flow, ..) = path.mass_flow(upstream.si(), downstream.si());
    cubic_metres_per_second(mass_flow / FREE_AIR_DENSITY_KG_M3)
}

/// Components one after the other: `1/C³ = Σ 1/Ci³`, `b = 1 − C² Σ (1 − bi)/Ci²`.
///
/// - `paths`: at least one, each with `C > 0`; none gives an open path of no resistance
///
/// Source: ISO 6358-3:2014, series arrangement (the cubic sum, as on the method page).
///
/// ```
/// # use counterpoise::mechanics::pneumatics::{in_series, Path};
/// // two alike of C 2e-8, b 0.3: C = 2e-8/2^(1/3) = 1.5874e-8; b = 1 − 1.26 · 2 · 0.7/2 = 0.1181
/// let one = Path { conductance: 2e-8, critical_ratio: 0.3 };
/// let both = in_series(&[one, one]);
/// assert!((both.conductance - 1.5874e-8).abs() < 1e-12);
/// assert!((both.critical_ratio - 0.1181).abs() < 1e-4);
/// ```
pub fn in_series(paths: &[Path]) -> Path {
    let cubes: f64 = paths.iter().map(|p| p.conductance.powi(-3)).sum();
    let conductance = 1.0 / libm::cbrt(cubes);
    let squares: f64 = paths
        .iter()
        .map(|p| (1.0 - p.critical_ratio) / (p.conductance * p.conductance))
        .sum();
    // Very unlike parts give a hair below zero, where the flow is choked at any ratio that occurs.
    let critical_ratio = (1.0 - conductance * conductance * squares).clamp(0.0, 0.99);
    Path {
        conductance,
        critical_ratio,
    }
}

/// Conductance of a tube: `C = 0.029 d²/√(L/d^1.25 + 510)`, `b = 474 C/d²`.
///
/// - `bore`: inner diameter `d`, 2…20 mm; `length`: `L`, ≥ 0
///
/// Source: ISO 6358 (tubes; `d`, `L` in m, `C` in m³/(s·Pa)).
///
/// ```
/// # use counterpoise::{mechanics::pneumatics::tube, quantity::metres};
/// // 6 mm, 2 m: d^1.25 = 1.670e-3, √(1198 + 510) = 41.32; C = 0.029 · 3.6e-5/41.32 = 2.526e-8, b = 0.3326
/// let path = tube(metres(0.006), metres(2.0));
/// assert!((path.conductance - 2.526e-8).abs() < 2e-11);
/// assert!((path.critical_ratio - 0.3326).abs() < 3e-4);
/// ```
pub fn tube(bore: Length, length: Length) -> Path {
    let d = bore.si();
    let conductance = 0.029 * d * d / (length.si() / libm::pow(d, 1.25) + 510.0).sqrt();
    Path {
        conductance,
        critical_ratio: (474.0 * conductance / (d * d)).min(0.99),
    }
}
