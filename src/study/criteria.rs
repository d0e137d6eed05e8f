//! The criteria: one formula each.

use super::money::{Cost, parts};
use crate::family::{Drive, Fitted};
use crate::quantity::KWH_J;
use crate::requirements::{CRITERIA, Criterion, Requirements};

/// Rated lives past this are not told apart, years.
const LIFE_MOST_YEARS: f64 = 100.0;

/// The raw number of every criterion of an option, in the order of [`CRITERIA`].
pub fn raw(
    job: &Requirements,
    drive: &Drive,
    assist: &Fitted,
    cost: &Cost,
) -> Vec<(Criterion, f64)> {
    let made = f64::from(u32::try_from(cost.custom.len()).unwrap_or(u32::MAX));
    let count = |criterion| match criterion {
        Criterion::TravelTime => drive.travel_time_s,
        Criterion::Purchase => cost.purchase,
        Criterion::RunningCost => cost.running.total(),
        Criterion::PositionError => drive
            .position
            .iter()
            .map(|(_, error)| error * error)
            .sum::<f64>()
            .sqrt(),
        Criterion::AddedMass => {
            let on_machine = parts(drive, assist).filter(|part| part.on_machine);
            on_machine
                .map(|part| f64::from(part.quantity) * part.mass_kg)
                .sum()
        }
        Criterion::ClosedLength => drive.closed_length_m,
        Criterion::Noise => noise_db(drive, assist),
        Criterion::MaintenanceHours => cost.maintenance_h,
        Criterion::CustomParts => made,
        Criterion::PartCount => {
            parts(drive, assist)
                .map(|part| f64::from(part.quantity))
                .sum::<f64>()
                + made
        }
        Criterion::EnergyPerCycle => {
            let used = &drive.running;
            used.moving_j + used.holding_j + used.air_m3 * job.rules.air_energy * KWH_J
        }
        Criterion::HandForce => drive.hand_force_n,
        Criterion::Life => drive
            .lives
            .iter()
            .map(|life| life.years)
            .fold(LIFE_MOST_YEARS, f64::min),
    };
    CRITERIA
        .iter()
        .map(|row| (row.criterion, count(row.criterion)))
        .collect()
}

/// Energetic sum of the parts' levels at 1 m; 0 where nothing makes noise.
fn noise_db(drive: &Drive, assist: &Fitted) -> f64 {
    let level = |part: &crate::family::PartLine| {
        part.common
            .noise
            .map(|noise| f64::from(part.quantity) * noise.energy())
    };
    let sum: f64 = parts(drive, assist).filter_map(level).sum();
    if sum > 1.0 {
        10.0 * libm::log10(sum)
    } else {
        0.0
    }
}
