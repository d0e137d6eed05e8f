//! Money: what an option costs to buy and to run.

use super::file::{HoursLine, MadeLine, RunningLine};
use crate::family::choose::{Bought, LifeCost};
use crate::family::{Fitted, PartLine, Train};
use crate::requirements::Requirements;

/// Every part of an option: the train's, then the assist's.
pub fn parts<'t, 'a>(
    train: &'t Train<'a>,
    assist: &'t Fitted<'a>,
) -> impl Iterator<Item = &'t PartLine<'a>> {
    train.parts.iter().chain(&assist.parts)
}

/// What an option costs, and the work in it.
#[derive(Debug, Clone)]
pub struct Cost {
    /// Money to buy, make and fit it.
    pub purchase: f64,
    /// Money a year to run it.
    pub running: RunningLine,
    /// Upkeep hours a year.
    pub upkeep_h: f64,
    /// Parts to be made.
    pub made: Vec<MadeLine>,
    /// Hours to design and fit.
    pub hours: Vec<HoursLine>,
}

/// Costs an option.
pub fn cost(job: &Requirements, train: &Train, assist: &Fitted) -> Cost {
    let (rates, rules) = (&job.rates, &job.rules);
    let work = rules.work(train.hours);
    let mut made = make(train, work.make_h, rates.per_catalog_unit);
    let mut all = work;
    for fitting in assist.fitting.iter().chain(&train.fittings) {
        let work = rules.work(fitting.hours);
        made.push(MadeLine {
            what: fitting.makes.into(),
            hours: work.make_h,
            material: 0.0,
        });
        all = all + work;
    }
    let bought: Bought = parts(train, assist).map(Bought::line).sum();
    let (fit_h, upkeep_h) = (all.fit_h + bought.fit_h, all.upkeep_h + bought.upkeep_h);
    let made_cost: f64 = made
        .iter()
        .map(|line| line.material + line.hours * rates.labour_per_hour)
        .sum();
    let all_hours = Bought {
        fit_h: all.design_h + fit_h,
        upkeep_h,
        ..bought
    };
    Cost {
        purchase: LifeCost::new(job).purchase(&all_hours) + made_cost,
        running: running(job, train, &all_hours),
        upkeep_h,
        made,
        hours: [("design", all.design_h), ("fit", fit_h)]
            .map(|(what, hours)| HoursLine {
                what: what.into(),
                hours,
            })
            .into(),
    }
}

/// The made parts of a train: the row's hours shared out alike.
fn make(train: &Train, make_h: f64, per_catalog_unit: f64) -> Vec<MadeLine> {
    if train.made.is_empty() {
        return vec![MadeLine {
            what: "brackets and fixings".into(),
            hours: make_h,
            material: 0.0,
        }];
    }
    let count = f64::from(u32::try_from(train.made.len()).unwrap_or(u32::MAX));
    let line = |made: &crate::family::Made| MadeLine {
        what: made.what.into(),
        hours: make_h * (1.0 / count),
        material: made.material * per_catalog_unit,
    };
    train.made.iter().map(line).collect()
}

fn running(job: &Requirements, train: &Train, bought: &Bought) -> RunningLine {
    let (timing, rates) = (&job.timing, LifeCost::new(job));
    let (cycles, on_h) = (timing.cycles_per_year(), timing.hours_per_year());
    let used = &train.running;
    let air_kwh = (used.air_m3 * cycles + used.air_leak_m3_h * on_h) * job.rules.air_energy;
    let crank_rate = job
        .site
        .hand
        .map_or(job.rates.labour_per_hour, |hand| hand.cost_per_hour);
    RunningLine {
        electricity: rates.electricity(used.moving_j + used.holding_j, used.standby_w),
        air: air_kwh * job.rates.electricity_per_kwh,
        consumables: rates.consumables(bought),
        upkeep: rates.upkeep(bought),
        cranking: used.cranking_s / 3600.0 * cycles * crank_rate,
    }
}
