//! Where the air comes from: the site, or a compressor that is bought.

use super::LITRE_PER_MIN;
use super::motion::LoadedCylinder;
use crate::catalog::{AirDryer, Compressor};
use crate::family::choose::{Merits, Shelf};
use crate::family::{Ask, Check, check};
use crate::quantity::{GaugePressure, Si, VolumeRate, show};

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
    /// What dries it for a line that gets colder than the air's own dew point.
    pub dryer: Option<&'a AirDryer>,
}

impl DrawnAir<'_> {
    /// Free air that a cycle takes of the supply, m³, with what a dryer blows off.
    pub fn supplied_m3(&self) -> f64 {
        supplied_m3(self.cycle_m3, self.dryer)
    }
}

/// Free air that a supply gives for what a drive takes, with what a dryer blows off.
fn supplied_m3(cycle_m3: f64, dryer: Option<&AirDryer>) -> f64 {
    cycle_m3 / (1.0 - dryer.map_or(0.0, |dryer| dryer.purge))
}

/// The air of a compressor, or of a site, is dry down to here: its own dryer works at 3 °C (ISO 8573-1, class 4).
fn is_dry(ask: &Ask) -> bool {
    ask.job.site.coldest.si() >= ask.job.rules.air_temperature_least - SAME_K
}

/// Temperatures nearer than this are one.
const SAME_K: f64 = 1e-6;
/// A dew point is so much below the coldest line (common practice, no source).
const DRIER_K: f64 = 2.0;

/// The dryers that keep the line free of ice, those that withstand their place first; none where the air is dry enough.
fn dryers<'a>(ask: &Ask<'a>) -> Shelf<'a, AirDryer> {
    let coldest = ask.job.site.coldest.si();
    let dry = |dryer: &&AirDryer| dryer.dew_point.si() <= coldest - DRIER_K + SAME_K;
    Shelf::new(ask, ask.catalog.air_dryers.iter().filter(dry), |dryer| {
        &dryer.common
    })
}

/// Each dryer worth having that passes a flow of free air, or none where the air is dry enough; the check of the largest where
/// none passes it.
pub(super) fn drying<'a>(
    ask: &Ask<'a>,
    flow_m3_s: f64,
) -> Result<Vec<Option<&'a AirDryer>>, Check> {
    if is_dry(ask) {
        return Ok(vec![None]);
    }
    let shelf = dryers(ask);
    let fitting = shelf.choices(|dryer| dryer.flow.si() >= flow_m3_s);
    if !fitting.is_empty() {
        return Ok(fitting.into_iter().map(Some).collect());
    }
    let largest = shelf
        .iter()
        .map(|dryer| dryer.flow.si())
        .fold(0.0, f64::max);
    Err(dryer_check(flow_m3_s, largest))
}

/// Whether a dryer passes what is drawn.
pub(super) fn dryer_check(flow_m3_s: f64, given_m3_s: f64) -> Check {
    let [asked, given] = [flow_m3_s, given_m3_s].map(|flow| flow * LITRE_PER_MIN);
    check!(
        "air_dryer.flow", asked => given, "L/min";
        "V_cycle/2 over the time of the faster stroke <= flow of the dryer (free air)",
        "continuity; data of the part";
        ("q", asked, "L/min"),
    )
}

/// Whether the air can be kept free of ice at the coldest of the site: by itself, or with a dryer of the catalog.
pub(super) fn cold_check(ask: &Ask) -> Check {
    let (coldest, least) = (ask.job.site.coldest, ask.job.rules.air_temperature_least);
    let dried = dryers(ask).iter().next().is_some();
    let says = format!(
        "coldest of the site: {} °C; compressed air is dry enough down to {} °C{}",
        show(coldest.celsius()),
        show(least - ZERO_C_K),
        if is_dry(ask) {
            ""
        } else if dried {
            ", colder with an adsorption dryer"
        } else {
            ", and no dryer of the catalog makes it drier"
        }
    );
    Check::of("air_cylinder.cold", is_dry(ask) || dried, says)
        .from(
            "coldest ≥ the least temperature of compressed air, or a dryer with its dew point 2 K below the coldest",
            "ISO 8573-1, pressure dew points; margin common practice, no source",
        )
        .rule("air_temperature_least")
}

const ZERO_C_K: f64 = 273.15;

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
