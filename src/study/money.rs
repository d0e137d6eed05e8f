//! Money: what an option costs to buy and to run.

use super::file::{HoursLine, MadeLine, RunningLine};
use crate::demand::Assist;
use crate::family::choose::{Bought, LifeCost};
use crate::family::{Fitted, Hours, PartLine, Train};
use crate::requirements::{Requirements, Rules};

/// Hours of a train: design, make, fit, and upkeep a year.
#[allow(clippy::struct_field_names, reason = "the unit stands in the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Work {
    /// To design it.
    pub design_h: f64,
    /// To make its parts.
    pub make_h: f64,
    /// To fit it.
    pub fit_h: f64,
    /// Upkeep a year.
    pub upkeep_h: f64,
}

impl core::ops::Add for Work {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            design_h: self.design_h + other.design_h,
            make_h: self.make_h + other.make_h,
            fit_h: self.fit_h + other.fit_h,
            upkeep_h: self.upkeep_h + other.upkeep_h,
        }
    }
}

/// A row of the table of hours (practice, invented; `rules.hours_*`).
macro_rules! row {
    ($rules:ident, $design:ident, $make:ident, $fit:ident, $upkeep:ident) => {
        Work {
            design_h: $rules.$design,
            make_h: $rules.$make,
            fit_h: $rules.$fit,
            upkeep_h: $rules.$upkeep,
        }
    };
}

fn train_row(rules: &Rules, hours: Hours) -> Work {
    match hours {
        Hours::Air => row!(
            rules,
            hours_air_design,
            hours_air_make,
            hours_air_fit,
            hours_air_upkeep
        ),
        Hours::Oil => row!(
            rules,
            hours_oil_design,
            hours_oil_make,
            hours_oil_fit,
            hours_oil_upkeep
        ),
        Hours::Screw => row!(
            rules,
            hours_screw_design,
            hours_screw_make,
            hours_screw_fit,
            hours_screw_upkeep
        ),
        Hours::ElectricCylinder => row!(
            rules,
            hours_electric_cylinder_design,
            hours_electric_cylinder_make,
            hours_electric_cylinder_fit,
            hours_electric_cylinder_upkeep
        ),
        Hours::RackCrank => {
            row!(
                rules,
                hours_rack_crank_design,
                hours_rack_crank_make,
                hours_rack_crank_fit,
                hours_rack_crank_upkeep
            )
        }
        Hours::JackCrank => {
            row!(
                rules,
                hours_jack_crank_design,
                hours_jack_crank_make,
                hours_jack_crank_fit,
                hours_jack_crank_upkeep
            )
        }
    }
}

fn counterweight_row(rules: &Rules) -> Work {
    row!(
        rules,
        hours_counterweight_design,
        hours_counterweight_make,
        hours_counterweight_fit,
        hours_counterweight_upkeep
    )
}

fn tail_weight_row(rules: &Rules) -> Work {
    row!(
        rules,
        hours_tail_weight_design,
        hours_tail_weight_make,
        hours_tail_weight_fit,
        hours_tail_weight_upkeep
    )
}

fn guide_row(rules: &Rules) -> Work {
    row!(
        rules,
        hours_guide_design,
        hours_guide_make,
        hours_guide_fit,
        hours_guide_upkeep
    )
}

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
#[must_use]
pub fn cost(job: &Requirements, train: &Train, assist: &Fitted) -> Cost {
    let (rates, rules) = (&job.rates, &job.rules);
    let work = train_row(rules, train.hours);
    let mut made = make(train, work.make_h, rates.per_catalog_unit);
    let mut all = work;
    let extra = match assist.assist {
        Assist::None => None,
        Assist::Counterweight(_) => Some((
            counterweight_row(rules),
            "counterweight frame and guarded path",
        )),
        Assist::Tail(_) => Some((tail_weight_row(rules), "tail of the arm with its guard")),
    };
    if let Some((row, what)) = extra {
        made.push(MadeLine {
            what,
            hours: row.make_h,
            material: 0.0,
        });
        all = all + row;
    }
    if train.guide {
        let row = guide_row(rules);
        made.push(MadeLine {
            what: "guide mounting",
            hours: row.make_h,
            material: 0.0,
        });
        all = all + row;
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
        hours: vec![
            HoursLine {
                what: "design",
                hours: all.design_h,
            },
            HoursLine {
                what: "fit",
                hours: fit_h,
            },
        ],
    }
}

/// The made parts of a train: the row's hours shared out in proportion to what the family says of each.
fn make(train: &Train, make_h: f64, per_catalog_unit: f64) -> Vec<MadeLine> {
    let total: f64 = train.made.iter().map(|made| made.hours).sum();
    if train.made.is_empty() {
        return vec![MadeLine {
            what: "brackets and fixings",
            hours: make_h,
            material: 0.0,
        }];
    }
    let count = f64::from(u32::try_from(train.made.len()).unwrap_or(u32::MAX));
    let share = |hours: f64| {
        if total > 0.0 {
            hours / total
        } else {
            1.0 / count
        }
    };
    let line = |made: &crate::family::Made| MadeLine {
        what: made.what,
        hours: make_h * share(made.hours),
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
