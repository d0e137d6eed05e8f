//! Where the air comes from: the site, or a compressor that is bought.

use super::motion::Motion;
use crate::catalog::Compressor;
use crate::family::{Ask, Check};
use crate::quantity::{GaugePressure, Si, VolumeRate};

const LITRE_PER_MIN: f64 = 60_000.0;

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
pub(super) fn air_per_cycle_m3(ask: &Ask, motion: &Motion, dead_m3: [f64; 2]) -> f64 {
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
    Check::new("air_supply.flow", drawn, flow_m3_s * LITRE_PER_MIN, "L/min")
        .from(
            "q = V_cycle · cycles per time ≤ site flow (free air)",
            "Boyle's law to ISO 8778",
        )
        .given(
            &[("V_cycle", "L"), ("cycle", "s")],
            &[air_m3 * 1e3, ask.job.timing.cycle_s()],
        )
}

/// The compressors that keep up at a pressure: cheapest, then each quieter one; and the checks of the nearest where none does.
pub(super) fn compressors<'a>(
    ask: &Ask<'a>,
    pressure_pa: f64,
    air_m3: f64,
) -> Result<Vec<(&'a Compressor, Vec<Check>)>, Vec<Check>> {
    let drawn = air_m3 / ask.job.timing.cycle_s();
    let mut fitting: Vec<_> = ask
        .catalog
        .compressors
        .iter()
        .filter(|c| c.pressure.si().to_bits() == pressure_pa.to_bits())
        .map(|c| (c, checks(ask, c, drawn)))
        .collect();
    fitting.sort_by(|(p, _), (q, _)| {
        let price = p.common.price.total_cmp(&q.common.price);
        price.then_with(|| p.common.id.cmp(&q.common.id))
    });
    let worst = |checks: &[Check]| checks.iter().map(Check::utilisation).fold(0.0, f64::max);
    let nearest = fitting
        .iter()
        .min_by(|p, q| worst(&p.1).total_cmp(&worst(&q.1)))
        .map(|(_, checks)| checks.clone());
    let mut quietest = f64::INFINITY;
    fitting.retain(|(compressor, checks)| {
        let noise = compressor.common.noise.map_or(0.0, Si::si);
        let keeps = checks.iter().all(Check::passes) && noise < quietest;
        if keeps {
            quietest = noise;
        }
        keeps
    });
    if fitting.is_empty() {
        Err(nearest.unwrap_or_default())
    } else {
        Ok(fitting)
    }
}

fn checks(ask: &Ask, compressor: &Compressor, drawn_m3_s: f64) -> Vec<Check> {
    let practice = ask.job.rules.compressor_duty_most;
    let flow: VolumeRate = compressor.flow;
    let duty = Check::new(
        "compressor.duty",
        drawn_m3_s / flow.si(),
        practice.min(compressor.duty_most),
        "of the time",
    )
    .from(
        "V_cycle · cycles per time / output ≤ part of the time it may run",
        "common practice, no source; duty of the part",
    )
    .given(
        &[("q drawn", "L/min"), ("output", "L/min")],
        &[drawn_m3_s * 60e3, flow.si() * 60e3],
    );
    let duty = if practice <= compressor.duty_most {
        duty.rule("compressor_duty_most")
    } else {
        duty
    };
    let power = ask.job.site.mains.map_or(0.0, |mains| mains.power.si());
    let mains = Check::new("compressor.mains", compressor.power.si(), power, "W")
        .from("P ≤ mains power", "data of the site and the part")
        .given(&[("P", "W")], &[compressor.power.si()]);
    vec![duty, mains]
}
