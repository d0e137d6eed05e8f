//! Air strokes that have been run, remembered: whatever is asked of a drive, the same cylinder on the same line moves the
//! same load alike.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::demand::Assist;
use crate::mechanics::pneumatics::{AirStroke, StrokeOutcome};

/// Strokes that are remembered at most.
const MOST: usize = 100_000;

/// All that a stroke follows from beside the axis, to the bit.
pub(super) type Key = [u64; 21];

/// The strokes of one axis, whatever it is driven by.
#[derive(Debug, Default)]
pub struct Strokes(Mutex<BTreeMap<Key, StrokeOutcome>>);

impl Strokes {
    fn known(&self) -> MutexGuard<'_, BTreeMap<Key, StrokeOutcome>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// How a stroke ends: as it did before, or run.
    pub(super) fn outcome(&self, key: Key, run: impl FnOnce() -> StrokeOutcome) -> StrokeOutcome {
        let known = self.known().get(&key).copied();
        known.unwrap_or_else(|| {
            let outcome = run();
            let mut known = self.known();
            if known.len() < MOST {
                known.insert(key, outcome);
            }
            outcome
        })
    }
}

/// What a stroke follows from: its own figures, and for force and mass at a place the load, the assist, the way it goes
/// and the mass of the drive itself.
pub(super) fn key<F, M>(
    stroke: &AirStroke<F, M>,
    out: bool,
    load_kg: f64,
    [fixed_kg, rod_kg]: [f64; 2],
    assist: &Assist,
) -> Key {
    let [mass, ratio_or_sign, sheaves_or_radius, loss, sheave_mass] = assist_figures(assist);
    [
        f64::from(u8::from(out)),
        load_kg,
        fixed_kg,
        rod_kg,
        mass,
        ratio_or_sign,
        sheaves_or_radius,
        loss,
        sheave_mass,
        stroke.fill_area_m2,
        stroke.exhaust_area_m2,
        stroke.fill_dead_m3,
        stroke.exhaust_dead_m3,
        stroke.fill.conductance,
        stroke.fill.critical_ratio,
        stroke.exhaust.conductance,
        stroke.exhaust.critical_ratio,
        stroke.supply_pa,
        stroke.seal_n,
        stroke.patience_s,
        stroke.tolerance,
    ]
    .map(f64::to_bits)
}

/// Figures that tell assists apart.
fn assist_figures(assist: &Assist) -> [f64; 5] {
    match assist {
        Assist::None => [0.0; 5],
        Assist::Counterweight(weight) => [
            weight.mass_kg,
            weight.travel_ratio,
            f64::from(weight.sheaves),
            weight.loss_per_sheave,
            weight.sheave_mass_kg,
        ],
        // A tail has no travel of its own.
        Assist::Tail(tail) => [tail.mass_kg, -1.0, tail.radius_m, 0.0, 0.0],
    }
}
