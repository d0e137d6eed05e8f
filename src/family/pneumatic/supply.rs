//! Where the air comes from: the site, or a compressor that is bought.

use super::LITRE_PER_MIN;
use super::motion::LoadedCylinder;
use crate::catalog::Compressor;
use crate::family::choose::{Merits, Shelf};
use crate::family::{Ask, Check, check};
use crate::quantity::{GaugePressure, Si, VolumeRate};

/// Air at a pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Supply {
    /// Of the site: gauge pressure in Pa, and free air in m³/s.
    Site(f64, f64),
    /// Of a compressor at this gauge pressure, Pa.
    Compressor(f64),
}

impl Supply {
    /// Gauge pressure, Pa.
    pub fn pressure_pa(self) -> f64 {
        match self {
            Supply::Site(pressure, _) | Supply::Compressor(pressure) => pressure,
        }
    }
}

/// The air that a drive draws.
#[derive(Debug, Clone, Copy)]
pub(super) struct DrawnAir<'a> {
    /// Free air that a cycle takes, m³.
    pub cycle_m3: f64,
    /// Free air that comes, m³/s.
    pub flow_m3_s: f64,
    /// What is bought to compress it; none where the site has air.
    pub compressor: Option<&'a Compressor>,
}

/// The supplies to try: the site's air, or each pressure that a compressor keeps up.
pub(super) fn supplies(ask: &Ask) -> Vec<Supply> {
    if let Some(air) = ask.job.site.air {
        return vec![Supply::Site(air.pressure.si(), air.flow.si())];
    }
    let mut pressures: Vec<f64> = ask
        .catalog
        .compressors
        .iter()
        .map(|c| c.pressure.si())
        .collect();
    pressures.sort_by(f64::total_cmp);
    pressures.dedup();
    pressures.into_iter().map(Supply::Compressor).collect()
}

/// Free air that the job draws over a cycle, m³, with the volumes it fills.
pub(super) fn air_per_cycle_m3(ask: &Ask, motion: &LoadedCylinder, dead_m3: [f64; 2]) -> f64 {
    use crate::mechanics::pneumatics::free_air_per_cycle;
    use crate::quantity::cubic_metres;
    let swept = motion.areas_m2.iter().sum::<f64>() * ask.travel_m();
    let dead = dead_m3.iter().sum();
    let pressure = GaugePressure::from_si(motion.pressure_pa);
    free_air_per_cycle(cubic_metres(swept), cubic_metres(dead), pressure).si()
}

/// Whether the site's air suffices on average.
pub(super) fn site_check(ask: &Ask, air_m3: f64, flow_m3_s: f64) -> Check {
    let drawn = air_m3 / ask.job.timing.cycle_s() * LITRE_PER_MIN;
    check!(
        "air_supply.flow", drawn => flow_m3_s * LITRE_PER_MIN, "L/min";
        "q = V_cycle · cycles per time ≤ site flow (free air)", "Boyle's law to ISO 8778";
        ("V_cycle", air_m3 * 1e3, "L"), ("cycle", ask.job.timing.cycle_s(), "s"),
    )
}

/// The compressors that keep up at a pressure and are worth having; and the checks of the nearest where none does.
pub(super) fn compressors<'a>(
    ask: &Ask<'a>,
    pressure_pa: f64,
    air_m3: f64,
) -> Result<Vec<(&'a Compressor, Vec<Check>)>, Vec<Check>> {
    let drawn = air_m3 / ask.job.timing.cycle_s();
    let rates = ask.life_cost();
    let all = ask.catalog.compressors.iter();
    let same = all.filter(|c| c.pressure.si().to_bits() == pressure_pa.to_bits());
    let shelf = Shelf::with(ask, same, |compressor| {
        let common = &compressor.common;
        // It stands beside the machine; what leaks of its air is compressed for nothing.
        let own = Merits::piece(&rates, common, common.price, 0.0);
        let leak_w = leak_m3_h(ask, compressor) * ask.job.rules.air_energy * 1000.0;
        (common, own.drawing(&rates, 0.0, leak_w))
    });
    let passes = |compressor: &Compressor| {
        let checks = checks(ask, compressor, drawn);
        checks.iter().all(Check::passes)
    };
    let with_checks = |compressor: &'a Compressor| (compressor, checks(ask, compressor, drawn));
    let fitting = shelf.choices(passes);
    if !fitting.is_empty() {
        return Ok(fitting.into_iter().map(with_checks).collect());
    }
    let worst = |checks: &[Check]| checks.iter().map(Check::utilisation).fold(0.0, f64::max);
    let tried = shelf.iter().map(|compressor| with_checks(compressor).1);
    let nearest = tried.min_by(|p, q| worst(p).total_cmp(&worst(q)));
    Err(nearest.unwrap_or_default())
}

/// Free air that leaks while a compressor is switched on, m³ an hour.
pub(super) fn leak_m3_h(ask: &Ask, compressor: &Compressor) -> f64 {
    ask.job.rules.compressor_leak * compressor.flow.si() * 3600.0
}

fn checks(ask: &Ask, compressor: &Compressor, drawn_m3_s: f64) -> Vec<Check> {
    let practice = ask.job.rules.compressor_duty_most;
    let flow: VolumeRate = compressor.flow;
    let duty = check!(
        "compressor.duty", drawn_m3_s / flow.si() => practice.min(compressor.duty_most), "of the time";
        "V_cycle · cycles per time / output ≤ part of the time it may run",
        "common practice, no source; duty of the part";
        ("q drawn", drawn_m3_s * 60e3, "L/min"), ("output", flow.si() * 60e3, "L/min"),
    );
    let duty = if practice <= compressor.duty_most {
        duty.rule("compressor_duty_most")
    } else {
        duty
    };
    let power = ask.job.site.mains.map_or(0.0, |mains| mains.power.si());
    let mains = check!(
        "compressor.mains", compressor.power.si() => power, "W";
        "P ≤ mains power", "data of the site and the part";
        ("P", compressor.power.si(), "W"),
    );
    vec![duty, mains]
}
