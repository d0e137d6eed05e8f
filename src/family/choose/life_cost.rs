//! What a part costs to buy, to fit and to keep over the horizon.

use core::iter::Sum;
use core::ops::Add;

use crate::catalog::Common;
use crate::family::PartLine;
use crate::quantity::KWH_J;
use crate::requirements::Task;

/// What parts state of money and hours, in catalog units and hours: the rates of no job are in it.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Bought {
    /// To buy, length included.
    pub price: f64,
    /// To fit, h.
    pub fit_h: f64,
    /// Used up in a year.
    pub consumables: f64,
    /// Maintenance in a year, h.
    pub maintenance_h: f64,
}

impl Bought {
    /// A piece of a part, at a price that includes its length.
    pub fn piece(common: &Common, price: f64) -> Self {
        Self {
            price,
            fit_h: common.fit_hours,
            consumables: common.consumables,
            maintenance_h: common.maintenance_hours,
        }
    }

    /// A line of a parts list.
    pub fn line(line: &PartLine) -> Self {
        Self::piece(line.common, line.price).times(line.quantity)
    }

    /// So many of it.
    pub fn times(self, quantity: u32) -> Self {
        let count = f64::from(quantity);
        Self {
            price: count * self.price,
            fit_h: count * self.fit_h,
            consumables: count * self.consumables,
            maintenance_h: count * self.maintenance_h,
        }
    }
}

impl Add for Bought {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            price: self.price + other.price,
            fit_h: self.fit_h + other.fit_h,
            consumables: self.consumables + other.consumables,
            maintenance_h: self.maintenance_h + other.maintenance_h,
        }
    }
}

impl Sum for Bought {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), Add::add)
    }
}

/// The rates by which a job counts money: the study's own sums of what parts cost go through here too.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeCost {
    per_catalog_unit: f64,
    labour_per_hour: f64,
    electricity_per_kwh: f64,
    horizon_years: f64,
    cycles_per_year: f64,
    hours_per_year: f64,
}

impl LifeCost {
    /// By the rates and the timing of a job.
    pub fn new(job: &Task) -> Self {
        let rates = &job.rates;
        Self {
            per_catalog_unit: rates.per_catalog_unit,
            labour_per_hour: rates.labour_per_hour,
            electricity_per_kwh: rates.electricity_per_kwh,
            horizon_years: rates.horizon_years,
            cycles_per_year: job.timing.cycles_per_year(),
            hours_per_year: job.timing.hours_per_year(),
        }
    }

    /// To buy and to fit, in the file's currency.
    pub fn purchase(&self, bought: &Bought) -> f64 {
        bought.price * self.per_catalog_unit + bought.fit_h * self.labour_per_hour
    }

    /// What it uses up in a year.
    pub fn consumables(&self, bought: &Bought) -> f64 {
        bought.consumables * self.per_catalog_unit
    }

    /// Its maintenance of a year.
    pub fn maintenance(&self, bought: &Bought) -> f64 {
        bought.maintenance_h * self.labour_per_hour
    }

    /// To keep for a year: consumables and maintenance.
    pub fn keep(&self, bought: &Bought) -> f64 {
        self.consumables(bought) + self.maintenance(bought)
    }

    /// Electricity of a year: so many joules a cycle, and so many watts all the time it is switched on.
    pub fn electricity(&self, cycle_j: f64, standby_w: f64) -> f64 {
        let kwh = cycle_j / KWH_J * self.cycles_per_year + standby_w / 1000.0 * self.hours_per_year;
        kwh * self.electricity_per_kwh
    }

    /// What is paid once, and each year over the horizon.
    pub fn over_horizon(&self, purchase: f64, yearly: f64) -> f64 {
        purchase + self.horizon_years * yearly
    }

    /// To buy, to fit and to keep over the horizon, in the file's currency.
    pub fn total(&self, bought: &Bought) -> f64 {
        self.over_horizon(self.purchase(bought), self.keep(bought))
    }

    /// The same of one piece of a part that is not cut to length.
    pub fn part(&self, common: &Common) -> f64 {
        self.total(&Bought::piece(common, common.price))
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/life_cost.rs"]
mod tests;
