//! What a requirements file says, typed.

use std::collections::BTreeMap;
use std::ops::{Deref, DerefMut};

use super::Motion;
use crate::mechanics::beam::Section;
use crate::quantity::{
    Current, Force, GaugePressure, Length, Mass, Power, Si, Temperature, Time, Voltage, VolumeRate,
};

/// The job: what must move, how much of everything is wanted, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirements {
    /// What the job is called.
    pub title: String,
    /// All but what is wanted of the drive.
    pub task: Task,
    /// What the customer wants and how much it is worth, by criterion name.
    pub goals: BTreeMap<Criterion, Goal>,
    /// Longest travel time that is accepted, s: `goals.travel_time.limit`, or less where the cycle
    /// leaves less. The value scale stays with the goal.
    pub travel_time_limit_s: f64,
}

/// What moves, how often and where: all of a job but what is wanted of the drive.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// The currency that money is in, as the file names it.
    pub currency: String,
    /// The axis and its load.
    pub motion: Motion,
    /// How often and how long.
    pub timing: Timing,
    /// Where the load must be able to stop.
    pub stops: Stops,
    /// What the load may do when the power fails.
    pub power_loss: PowerLoss,
    /// What the place offers and allows.
    pub site: Site,
    /// What the machine stands on, where tipping matters.
    pub base: Option<Base>,
    /// The arm or beam that carries the load, where it is to be checked.
    pub structure: Option<Structure>,
    /// Prices of the place.
    pub rates: Rates,
    /// Rules of the trade, each at its default or as the file changes it.
    pub rules: super::Rules,
}

impl Deref for Requirements {
    type Target = Task;

    fn deref(&self) -> &Task {
        &self.task
    }
}

impl DerefMut for Requirements {
    fn deref_mut(&mut self) -> &mut Task {
        &mut self.task
    }
}

/// All that the choice of drives and of their parts may hang on: jobs of one brief have the same drives.
///
/// Of most goals it says only whether there is one: limits put drives out without making others.
#[derive(Debug, Clone, PartialEq)]
pub struct Brief {
    /// All but what is wanted of the drive.
    pub task: Task,
    /// The goals of the job; those in full that drives are built for.
    pub goals: BTreeMap<Criterion, Option<Goal>>,
    /// Longest travel time that is accepted, s.
    pub travel_time_limit_s: f64,
}

impl Brief {
    /// Of a job.
    pub fn new(job: &Requirements) -> Self {
        let full = |(criterion, goal): (&Criterion, &Goal)| {
            let built_for = matches!(
                criterion,
                Criterion::TravelTime | Criterion::Life | Criterion::PositionError
            );
            (*criterion, built_for.then_some(*goal))
        };
        Self {
            task: job.task.clone(),
            goals: job.goals.iter().map(full).collect(),
            travel_time_limit_s: job.travel_time_limit_s,
        }
    }

    /// Years that rated lives must reach: `goals.life.limit` where given, else `timing.years`.
    pub fn life_asked_years(&self) -> f64 {
        self.built_for(Criterion::Life)
            .map_or(self.timing.years, |goal| goal.limit)
    }

    /// A goal that drives are built for.
    pub fn built_for(&self, criterion: Criterion) -> Option<&Goal> {
        self.goals.get(&criterion)?.as_ref()
    }
}

impl Deref for Brief {
    type Target = Task;

    fn deref(&self) -> &Task {
        &self.task
    }
}

/// How often and how long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timing {
    /// Rest at the out end.
    pub rest_out: Time,
    /// Least rest at the back end.
    pub rest_back: Time,
    /// Cycles (out and back) an hour.
    pub cycles_per_hour: f64,
    /// Hours a day.
    pub hours_per_day: f64,
    /// Days a year.
    pub days_per_year: f64,
    /// Years the machine is to last.
    pub years: f64,
}

impl Timing {
    /// Length of one cycle, s.
    pub fn cycle_s(&self) -> f64 {
        3600.0 / self.cycles_per_hour
    }
    /// Hours a year with the machine switched on.
    pub fn hours_per_year(&self) -> f64 {
        self.hours_per_day * self.days_per_year
    }
    /// Cycles a year.
    pub fn cycles_per_year(&self) -> f64 {
        self.cycles_per_hour * self.hours_per_year()
    }
}

/// Makes an enumeration of words that a file may have.
macro_rules! words {
    ($($(#[doc = $doc:literal])+ $type:ident { $($name:ident = $word:literal),+ })*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[allow(missing_docs, reason = "each name is its meaning")]
        pub enum $type { $($name),+ }
        impl $type {
            /// Each with its word in a file.
            pub const WORDS: &[(&str, Self)] = &[$(($word, Self::$name)),+];
        }
    )*};
}

words! {
    /// Where the load must be able to stop.
    Stops { Ends = "ends", Several = "several", Anywhere = "anywhere" }
    /// What the load may do when the power fails.
    PowerLoss { Hold = "hold", MayMove = "may_move" }
    /// Dirt at the place.
    Dirt { Clean = "clean", Dusty = "dusty", Gritty = "gritty" }
    /// Water at the place.
    Water { Dry = "dry", Splash = "splash", Washdown = "washdown" }
    /// Material of a beam.
    Material { Steel = "steel", Aluminium = "aluminium", Oak = "oak", Pine = "pine" }
}

/// What the place offers and allows.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Electricity, if there is any.
    pub mains: Option<Mains>,
    /// Compressed air, if there is any.
    pub air: Option<Air>,
    /// Somebody to turn a crank, if there is.
    pub hand: Option<Hand>,
    /// Coldest.
    pub coldest: Temperature,
    /// Hottest.
    pub hottest: Temperature,
    /// Dirt.
    pub dirt: Dirt,
    /// Water.
    pub water: Water,
    /// Whether an oil leak can be borne.
    pub oil_tolerated: bool,
    /// Whether the atmosphere may explode.
    pub explosive_atmosphere: bool,
    /// Where compressor, oil unit, cabinet, drive electronics and supplies stand.
    pub units: Units,
}

/// The place of the units that stand apart from the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Units {
    /// Coldest.
    pub coldest: Temperature,
    /// Hottest.
    pub hottest: Temperature,
    /// Dirt.
    pub dirt: Dirt,
    /// Water.
    pub water: Water,
    /// From the machine, along hoses and cables.
    pub distance: Length,
    /// Whether its atmosphere may explode.
    pub explosive_atmosphere: bool,
}

impl Units {
    /// Where they stand if nothing is said: dry, clean, at 5 to 40 °C, 5 m away, in the atmosphere of the machine.
    pub fn indoors(explosive_atmosphere: bool) -> Self {
        Self {
            coldest: Temperature::from_si(278.15),
            hottest: Temperature::from_si(313.15),
            dirt: Dirt::Clean,
            water: Water::Dry,
            distance: Length::from_si(5.0),
            explosive_atmosphere,
        }
    }
}

/// Electricity of the place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mains {
    /// Voltage.
    pub voltage: Voltage,
    /// Greatest power to be drawn.
    pub power: Power,
    /// Alternating or direct.
    pub current: Current,
    /// 1 or 3; a neutral goes with three.
    pub phases: u8,
}

/// Compressed air of the place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Gauge pressure.
    pub pressure: GaugePressure,
    /// Free air.
    pub flow: VolumeRate,
}

/// The person at the crank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hand {
    /// Greatest force at the handle.
    pub force: Force,
    /// Money an hour for the time spent cranking.
    pub cost_per_hour: f64,
}

/// What the machine stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Base {
    /// Along the level projection of travel.
    pub length: Length,
    /// Across it.
    pub width: Length,
    /// Of the machine without its load.
    pub mass: Mass,
    /// Height of the machine's centre of mass.
    pub centre_height: Length,
    /// Its place along the length from the middle.
    pub centre_x: Length,
    /// Of the load's centre of mass at the back end, from the middle.
    pub load_reach: Length,
    /// Height of the load's centre of mass at the back end.
    pub load_height: Length,
    /// Of the counterweight, from the middle.
    pub assist_reach: Length,
    /// Distance in which an emergency stop ends, if the machine sets one.
    pub stop_distance: Option<Length>,
    /// Whether it is bolted down.
    pub bolted: bool,
}

/// The arm or beam that carries the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Structure {
    /// Its section.
    pub section: Section,
    /// Length between its support and the load, or between its supports.
    pub length: Length,
    /// What it is made of.
    pub material: Material,
    /// Whether it is held at both ends (else at one).
    pub both_ends: bool,
    /// Greatest deflection, if that is limited.
    pub deflection_limit: Option<Length>,
}

/// What an option is judged by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each name is its meaning; see `CRITERIA`")]
pub enum Criterion {
    TravelTime,
    Purchase,
    RunningCost,
    PositionError,
    AddedMass,
    ClosedLength,
    Noise,
    MaintenanceHours,
    CustomParts,
    PartCount,
    EnergyPerCycle,
    HandForce,
    Life,
}

/// How much of a criterion is wanted, in its SI or plain unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Goal {
    /// Worse is out.
    pub limit: f64,
    /// Beyond this the customer does not care, and what getting there is worth.
    pub reward: Option<Reward>,
}

/// The rewarded part of a goal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reward {
    /// Strictly better than the limit.
    pub target: f64,
    /// Money, once, over the horizon, from limit to target.
    pub worth: f64,
    /// The worth may be off by this fraction either way.
    pub unsure: f64,
}

/// Prices of the place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    /// Money per kWh.
    pub electricity_per_kwh: f64,
    /// Money per hour of work.
    pub labour_per_hour: f64,
    /// Years over which money is counted.
    pub horizon_years: f64,
    /// Money in the file's currency per unit of catalog price.
    pub per_catalog_unit: f64,
}
