//! What a hinge sees over all strokes, and how its drive fares over the swing.

use super::Swing;
use crate::demand::course::worst_instant;
use crate::demand::sums::mean_pivot_n;
use crate::demand::{Assist, Case, Direction, HingeDemand, Loading, SwingRow};
use crate::quantity::G_M_S2;

/// Rows of the table over the swing.
const ROWS: u32 = 8;

impl Swing {
    /// What the hinge sees over all strokes.
    pub(super) fn hinge_demand(&self, assist: &Assist, cases: &[Case], time_s: f64) -> HingeDemand {
        let (peak_speed_rad_s, peak_acceleration_rad_s2) = self.peaks_rad(time_s);
        let [_, mass_kg] = self.extent.loads_kg;
        let holding = self.angles().flat_map(|angle| {
            let torque = move |mass| {
                let side = |upper| self.holding_n_m(assist, mass, angle, upper).abs();
                side(false).max(side(true))
            };
            self.extent.loads_kg.map(torque)
        });
        let axial = if self.level { 0.0 } else { mass_kg * G_M_S2 };
        let worst_angle_rad = worst_instant(cases)
            .and_then(|(case, index)| case.swing.get(index))
            .map_or(self.from_rad, |turn| turn.angle_rad);
        let mut found = HingeDemand {
            holding_n_m: holding.fold(0.0, f64::max),
            peak_speed_rad_s,
            peak_acceleration_rad_s2,
            swing_rad: self.range_rad,
            pivot_axial_n: axial,
            pivot_moment_n_m: axial * self.radius_m,
            length_least_m: self.length_m[0],
            length_most_m: self.length_m[1],
            lever_least_m: self.lever_m[0],
            lever_most_m: self.lever_m[1],
            arm_pin_m: self.pins.arm_radius_m(),
            worst_angle_rad,
            pins_turn_per_m: self.lever(worst_angle_rad).pins_turn_per_m(),
            swing: self.rows(assist, mass_kg),
            ..HingeDemand::default()
        };
        for loading in [Loading::Least, Loading::Most] {
            let [plain, cube] = mean_pivot_n(cases, loading);
            found.pivot_plain_mean_n = found.pivot_plain_mean_n.max(plain);
            found.pivot_mean_n = found.pivot_mean_n.max(cube);
        }
        for turn in cases.iter().flat_map(|case| &case.swing) {
            let along = turn.acceleration_rad_s2;
            let inward = turn.speed_rad_s * turn.speed_rad_s;
            let acceleration = self.radius_m * (along * along + inward * inward).sqrt();
            found.static_peak_n_m = found.static_peak_n_m.max(turn.static_torque_n_m.abs());
            found.dynamic_peak_n_m = found.dynamic_peak_n_m.max(turn.torque_n_m.abs());
            found.peak_acceleration_m_s2 = found.peak_acceleration_m_s2.max(acceleration);
            let pivot = turn.pivot_n.max(turn.other_pivot_n);
            found.pivot_peak_n = found.pivot_peak_n.max(pivot);
        }
        found
    }

    fn rows(&self, assist: &Assist, mass_kg: f64) -> Vec<SwingRow> {
        let row = |step: u32| {
            let angle_rad = self.from_rad + self.range_rad * f64::from(step) / f64::from(ROWS);
            let lever = self.lever(angle_rad);
            let torque = |direction: Direction| {
                self.gravity_n_m(assist, mass_kg, angle_rad)
                    + direction.sign() * self.against_n_m(angle_rad, direction, true)
            };
            SwingRow {
                angle_rad,
                torque_n_m: torque(Direction::Out),
                lever_m: lever.lever_m.abs(),
                stroke_m: lever.length_m - self.length_m[0],
                static_out_n: torque(Direction::Out) / lever.lever_m,
                static_back_n: torque(Direction::Back) / lever.lever_m,
            }
        };
        (0..=ROWS).map(row).collect()
    }
}
