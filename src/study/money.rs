//! Money: what an option costs to buy and to run.

use super::file::{CustomLine, HoursLine, RunningLine};
use crate::family::choose::{Bought, LifeCost};
use crate::family::{Drive, Fitted, PartLine};
use crate::requirements::Requirements;

/// Every part of an option: the drive's, then the assist's.
pub fn parts<'t, 'a>(
    drive: &'t Drive<'a>,
    assist: &'t Fitted<'a>,
) -> impl Iterator<Item = &'t PartLine<'a>> {
    drive.parts.iter().chain(&assist.parts)
}

/// What an option costs, and the work in it.
#[derive(Debug, Clone)]
pub struct Cost {
    /// Money to buy, make and fit it.
    pub purchase: f64,
    /// Money a year to run it.
    pub running: RunningLine,
    /// Maintenance hours a year.
    pub maintenance_h: f64,
    /// Parts to be made.
    pub custom: Vec<CustomLine>,
    /// Hours to design and fit.
    pub hours: Vec<HoursLine>,
}

/// Costs an option.
pub fn cost(job: &Requirements, drive: &Drive, assist: &Fitted) -> Cost {
    let (rates, rules) = (&job.rates, &job.rules);
    let work = rules.work(drive.hours);
    let mut made = make(drive, work.make_h, rates.per_catalog_unit);
    let mut all = work;
    for fitting in assist.fitting.iter().chain(&drive.fittings) {
        let work = rules.work(fitting.hours);
        made.push(CustomLine {
            what: fitting.makes.into(),
            hours: work.make_h,
            material: 0.0,
        });
        all = all + work;
    }
    let bought: Bought = parts(drive, assist).map(Bought::line).sum();
    let (fit_h, maintenance_h) = (
        all.fit_h + bought.fit_h,
        all.maintenance_h + bought.maintenance_h,
    );
    let custom_cost: f64 = made
        .iter()
        .map(|line| line.material + line.hours * rates.labour_per_hour)
        .sum();
    let all_hours = Bought {
        fit_h: all.design_h + fit_h,
        maintenance_h,
        ..bought
    };
    Cost {
        purchase: LifeCost::new(job).purchase(&all_hours) + custom_cost,
        running: running(job, drive, &all_hours),
        maintenance_h,
        custom: made,
        hours: vec![
            HoursLine {
                what: "design".into(),
                hours: all.design_h,
            },
            HoursLine {
                what: "fit".into(),
                hours: fit_h,
            },
        ],
    }
}

/// The custom parts of a drive: the row's hours shared out in proportion to what the family says of each.
fn make(drive: &Drive, make_h: f64, per_catalog_unit: f64) -> Vec<CustomLine> {
    let total: f64 = drive.custom.iter().map(|made| made.hours).sum();
    if drive.custom.is_empty() {
        return vec![CustomLine {
            what: "brackets and fixings".into(),
            hours: make_h,
            material: 0.0,
        }];
    }
    let count = f64::from(u32::try_from(drive.custom.len()).unwrap_or(u32::MAX));
    let share = |hours: f64| {
        if total > 0.0 {
            hours / total
        } else {
            1.0 / count
        }
    };
    let line = |made: &crate::family::Custom| CustomLine {
        what: made.what.into(),
        hours: make_h * share(made.hours),
        material: made.material * per_catalog_unit,
    };
    drive.custom.iter().map(line).collect()
}

fn running(job: &Requirements, drive: &Drive, bought: &Bought) -> RunningLine {
    let (timing, rates) = (&job.timing, LifeCost::new(job));
    let (cycles, on_h) = (timing.cycles_per_year(), timing.hours_per_year());
    let used = &drive.running;
    let air_kwh = (used.air_m3 * cycles + used.air_leak_m3_h * on_h) * job.rules.air_energy;
    let crank_rate = job
        .site
        .hand
        .map_or(job.rates.labour_per_hour, |hand| hand.cost_per_hour);
    RunningLine {
        electricity: rates.electricity(used.moving_j + used.holding_j, used.standby_w),
        air: air_kwh * job.rates.electricity_per_kwh,
        consumables: rates.consumables(bought),
        maintenance: rates.maintenance(bought),
        cranking: used.cranking_s / 3600.0 * cycles * crank_rate,
    }
}
