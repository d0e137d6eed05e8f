//! By what the study tells two options of one kind and design time apart, and which of it counts in a job.

use core::ops::Add;

use super::front::NoWorse;
use super::life_cost::{Bought, LifeCost};
use crate::catalog::Common;
use crate::family::{Ask, Drive, PartLine};
use crate::quantity::{NoiseLevel, Si};
use crate::requirements::{Brief, Criterion};

/// All by which a part or a drive can be better than another, less being better in each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Merits {
    /// To buy and to fit, in the file's currency.
    pub purchase: f64,
    /// To run and to keep for a year, in the file's currency.
    pub running: f64,
    /// Maintenance, h a year.
    pub maintenance_h: f64,
    /// Energy of a cycle, J.
    pub cycle_j: f64,
    /// Mass on the machine, kg.
    pub mass_kg: f64,
    /// Number of parts.
    pub parts: f64,
    /// Sound as energy.
    pub sound: f64,
    /// Position error or play, in whatever measure the parts compared share.
    pub error: f64,
    /// Closed length, m.
    pub length_m: f64,
    /// Force at a handle, N.
    pub hand_force_n: f64,
    /// Rated life counted downward, years or whatever the parts compared share; that of the first to wear out.
    pub life: f64,
}

impl Merits {
    /// Of nothing; its life is endless.
    pub const NONE: Self = Self {
        purchase: 0.0,
        running: 0.0,
        maintenance_h: 0.0,
        cycle_j: 0.0,
        mass_kg: 0.0,
        parts: 0.0,
        sound: 0.0,
        error: 0.0,
        length_m: 0.0,
        hand_force_n: 0.0,
        life: f64::NEG_INFINITY,
    };

    /// Of a piece of a part that is not cut to length; what stands apart adds no mass.
    pub fn part(rates: &LifeCost, common: &Common) -> Self {
        let mass_kg = if common.apart { 0.0 } else { common.mass.si() };
        Self::piece(rates, common, common.price, mass_kg)
    }

    /// Of one piece, at a price and a mass that include its length.
    pub fn piece(rates: &LifeCost, common: &Common, price: f64, mass_kg: f64) -> Self {
        let bought = Bought::piece(common, price);
        Self {
            purchase: rates.purchase(&bought),
            running: rates.keep(&bought),
            maintenance_h: bought.maintenance_h,
            mass_kg,
            parts: 1.0,
            sound: common.noise.map_or(0.0, NoiseLevel::energy),
            ..Self::NONE
        }
    }

    /// Of a line of a parts list.
    pub fn line(rates: &LifeCost, line: &PartLine) -> Self {
        let on_machine = f64::from(u8::from(line.on_machine));
        Self::piece(rates, line.common, line.price, line.mass_kg * on_machine).times(line.quantity)
    }

    /// Of the lines of a parts list together.
    pub fn lines<'l, 'a: 'l>(
        rates: &LifeCost,
        lines: impl IntoIterator<Item = &'l PartLine<'a>>,
    ) -> Self {
        let lines = lines.into_iter().map(|line| Self::line(rates, line));
        lines.fold(Self::NONE, Add::add)
    }

    /// Of a drive: its parts, the material of those made for it, and what it does.
    pub fn drive(ask: &Ask, drive: &Drive) -> Self {
        let rates = ask.life_cost();
        let running = &drive.running;
        let cycle_j = running.moving_j + running.holding_j;
        let material: f64 = drive.custom.iter().map(|made| made.material).sum();
        let parts = Self::lines(&rates, &drive.parts);
        let lives = drive.lives.iter().map(|life| life.years);
        Self {
            purchase: parts.purchase + rates.material(material),
            running: parts.running + rates.electricity(cycle_j, running.standby_w),
            cycle_j,
            error: drive.position.iter().map(|(_, error)| error * error).sum(),
            length_m: drive.closed_length_m,
            hand_force_n: drive.hand_force_n,
            life: -lives.fold(f64::INFINITY, f64::min),
            ..parts
        }
    }

    /// So many of it.
    pub fn times(self, quantity: u32) -> Self {
        let count = f64::from(quantity);
        Self {
            purchase: count * self.purchase,
            running: count * self.running,
            maintenance_h: count * self.maintenance_h,
            mass_kg: count * self.mass_kg,
            parts: count * self.parts,
            sound: count * self.sound,
            ..self
        }
    }

    /// The least of each of two.
    pub fn least(self, other: Self) -> Self {
        self.merge(other, f64::min, f64::min)
    }

    /// Each of two by one rule, life by another.
    fn merge(self, other: Self, rule: fn(f64, f64) -> f64, life: fn(f64, f64) -> f64) -> Self {
        Self {
            purchase: rule(self.purchase, other.purchase),
            running: rule(self.running, other.running),
            maintenance_h: rule(self.maintenance_h, other.maintenance_h),
            cycle_j: rule(self.cycle_j, other.cycle_j),
            mass_kg: rule(self.mass_kg, other.mass_kg),
            parts: rule(self.parts, other.parts),
            sound: rule(self.sound, other.sound),
            error: rule(self.error, other.error),
            length_m: rule(self.length_m, other.length_m),
            hand_force_n: rule(self.hand_force_n, other.hand_force_n),
            life: life(self.life, other.life),
        }
    }

    /// With electricity for standing by, W, and of a cycle, J.
    pub fn drawing(self, rates: &LifeCost, cycle_j: f64, standby_w: f64) -> Self {
        Self {
            running: self.running + rates.electricity(cycle_j, standby_w),
            cycle_j: self.cycle_j + cycle_j,
            ..self
        }
    }
}

/// Both together: everything adds up but life, which is that of the first to wear out.
impl Add for Merits {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        self.merge(other, Add::add, f64::max)
    }
}

impl NoWorse for Merits {
    fn no_worse(&self, other: &Self) -> bool {
        self.purchase <= other.purchase
            && self.running <= other.running
            && self.mass_kg <= other.mass_kg
            && self.length_m <= other.length_m
            && self.sound <= other.sound
            && self.error <= other.error
            && self.life <= other.life
            && self.parts <= other.parts
            && self.cycle_j <= other.cycle_j
            && self.maintenance_h <= other.maintenance_h
            && self.hand_force_n <= other.hand_force_n
    }
}

/// Which figures count in a job: those of a criterion that the file has a goal for. What nobody asked about keeps nothing.
#[allow(clippy::struct_excessive_bools, reason = "one for each figure")]
#[derive(Debug, Clone, Copy)]
pub struct Goals {
    years: f64,
    /// For one of the two kinds of money.
    money: bool,
    maintenance: bool,
    energy: bool,
    mass: bool,
    parts: bool,
    noise: bool,
    position: bool,
    length: bool,
    hand_force: bool,
    life: bool,
}

impl Goals {
    /// Those of a job; `between_pins`: whether a shorter drive may be the only one that fits.
    pub fn of(job: &Brief, between_pins: bool) -> Self {
        let has = |criterion| job.goals.contains_key(&criterion);
        Self {
            years: job.rates.horizon_years,
            money: has(Criterion::Purchase) || has(Criterion::RunningCost),
            maintenance: has(Criterion::MaintenanceHours),
            energy: has(Criterion::EnergyPerCycle),
            mass: has(Criterion::AddedMass),
            parts: has(Criterion::PartCount),
            noise: has(Criterion::Noise),
            position: has(Criterion::PositionError),
            length: between_pins || has(Criterion::ClosedLength),
            hand_force: has(Criterion::HandForce),
            life: has(Criterion::Life),
        }
    }

    /// What counts of a drive. Both kinds of money do: the study lists drives by both.
    pub fn of_drive(&self, all: Merits) -> Merits {
        let counted = |counts: bool, value: f64| if counts { value } else { 0.0 };
        Merits {
            purchase: all.purchase,
            running: all.running,
            maintenance_h: counted(self.maintenance, all.maintenance_h),
            cycle_j: counted(self.energy, all.cycle_j),
            mass_kg: counted(self.mass, all.mass_kg),
            parts: counted(self.parts, all.parts),
            sound: counted(self.noise, all.sound),
            error: counted(self.position, all.error),
            length_m: counted(self.length, all.length_m),
            hand_force_n: counted(self.hand_force, all.hand_force_n),
            life: counted(self.life, all.life),
        }
    }

    /// What counts of a part. Money is one, over the horizon, unless the file has a goal for a kind of it.
    pub fn of_part(&self, all: Merits) -> Merits {
        let counted = self.of_drive(all);
        if self.money {
            return counted;
        }
        Merits {
            purchase: self.life_cost(&all),
            running: 0.0,
            ..counted
        }
    }

    /// Money over the horizon.
    pub fn life_cost(&self, all: &Merits) -> f64 {
        all.purchase + self.years * all.running
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/figures.rs"]
mod tests;
