//! Spur gears, racks and pinions at hand speeds.

use core::f64::consts::PI;

use crate::quantity::{Force, Lead, Length, Pressure, Si, Torque, metres, newton_metres, newtons};

/// Pitch diameter of a gear.
///
/// `d = m z`.
///
/// - `module`: m, > 0
/// - `teeth`: > 0
///
/// Source: involute gear geometry (ISO 54 gives the modules).
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::metres};
/// // 2 mm · 20 = 40 mm
/// assert!((gear::pitch_diameter(metres(0.002), 20.0).value - 0.040).abs() < 1e-12);
/// ```
pub fn pitch_diameter(module: Length, teeth: f64) -> Length {
    module * teeth
}

/// Travel of a rack per turn of its pinion.
///
/// `l = π m z`.
///
/// - `module`: m, > 0
/// - `teeth`: of the pinion, > 0
///
/// Source: involute rack kinematics.
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::{Si, metres}};
/// // π · 2 mm · 20 = 125.7 mm
/// assert!((gear::travel_per_turn(metres(0.002), 20.0).si() - 0.1257).abs() < 1e-4);
/// ```
pub fn travel_per_turn(module: Length, teeth: f64) -> Lead {
    Lead::from_si(PI * pitch_diameter(module, teeth).si())
}

/// Torque that a force asks of a shaft.
///
/// `T = F l/(2π)`, before any loss; for a pinion that is `F d/2`.
///
/// - `force`: along the travel, N, ≥ 0
/// - `lead`: travel per turn of the shaft, m, > 0
///
/// Source: work over one turn.
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::{Lead, Si, newtons}};
/// // 1500 N · 0.1257 m / 2π = 30.0 N·m
/// assert!((gear::torque_of(newtons(1500.0), Lead::from_si(0.12566)).value - 30.0).abs() < 0.01);
/// ```
pub fn torque_of(force: Force, lead: Lead) -> Torque {
    newton_metres(force.si() * lead.si() / (2.0 * PI))
}

/// Torque at the output of a gear stage.
///
/// `T2 = T1 i η`.
///
/// - `input`: torque, N·m, ≥ 0
/// - `ratio`: turns in per turn out, > 0
/// - `efficiency`: 0 < η ≤ 1
///
/// Source: power balance.
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::newton_metres};
/// // 8 N·m · 25 · 0.94 = 188 N·m
/// assert!((gear::output_torque(newton_metres(8.0), 25.0, 0.94).value - 188.0).abs() < 1e-9);
/// ```
pub fn output_torque(input: Torque, ratio: f64, efficiency: f64) -> Torque {
    input * (ratio * efficiency)
}

/// Lewis form factors of full-depth 20° teeth: number of teeth and `Y`.
const FORM: &[(f64, f64)] = &[
    (12.0, 0.245),
    (13.0, 0.261),
    (14.0, 0.277),
    (15.0, 0.290),
    (16.0, 0.296),
    (17.0, 0.303),
    (18.0, 0.309),
    (19.0, 0.314),
    (20.0, 0.322),
    (21.0, 0.328),
    (22.0, 0.331),
    (24.0, 0.337),
    (26.0, 0.346),
    (28.0, 0.353),
    (30.0, 0.359),
    (34.0, 0.371),
    (38.0, 0.384),
    (43.0, 0.397),
    (50.0, 0.409),
    (60.0, 0.422),
    (75.0, 0.435),
    (100.0, 0.447),
    (150.0, 0.460),
    (300.0, 0.472),
];

/// Lewis form factor of a full-depth 20° tooth, linear between the table's rows and constant beyond its ends.
///
/// - `teeth`: 12 to 300; the table knows no fewer, which would be undercut
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, table 14-2 (recalled).
///
/// ```
/// # use counterpoise::mechanics::gear;
/// // 16 teeth: 0.296; 23 teeth: half way from 0.331 to 0.337
/// assert!((gear::lewis_form(16.0) - 0.296).abs() < 1e-12);
/// assert!((gear::lewis_form(23.0) - 0.334).abs() < 1e-12);
/// ```
pub fn lewis_form(teeth: f64) -> f64 {
    let next = FORM.partition_point(|(z, _)| *z <= teeth);
    match (
        next.checked_sub(1).and_then(|last| FORM.get(last)),
        FORM.get(next),
    ) {
        (Some((z0, y0)), Some((z1, y1))) => y0 + (y1 - y0) * (teeth - z0) / (z1 - z0),
        (Some((_, y)), None) | (None, Some((_, y))) => *y,
        (None, None) => 0.0,
    }
}

/// Tangential force at which the root of a tooth reaches a stress.
///
/// `F = σ b m Y`, the speed too low for a dynamic factor.
///
/// - `stress`: at the root of the tooth, Pa, > 0
/// - `face`: width of the tooth, m, > 0
/// - `module`: m, > 0
/// - `teeth`: of the weaker gear; a rack is stronger than its pinion
///
/// Source: Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, eq. 14-3 (Lewis).
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::{metres, pascals}};
/// // 350 MPa · 20 mm · 2 mm · 0.322 = 4508 N
/// let force = gear::lewis_force(pascals(350e6), metres(0.020), metres(0.002), 20.0);
/// assert!((force.value - 4508.0).abs() < 1.0);
/// ```
pub fn lewis_force(stress: Pressure, face: Length, module: Length, teeth: f64) -> Force {
    newtons(stress.si() * face.si() * module.si() * lewis_form(teeth))
}

/// Length of rack that lets its pinion run a travel: half a pinion beyond each end.
///
/// `L = S + m z`.
///
/// - `travel`: m, > 0
/// - `module`: m, > 0; `teeth`: of the pinion
///
/// Source: common practice, no source.
///
/// ```
/// # use counterpoise::{mechanics::gear, quantity::metres};
/// // 900 mm + 40 mm
/// assert!((gear::rack_length(metres(0.9), metres(0.002), 20.0).value - 0.940).abs() < 1e-12);
/// ```
pub fn rack_length(travel: Length, module: Length, teeth: f64) -> Length {
    metres(travel.si() + pitch_diameter(module, teeth).si())
}
