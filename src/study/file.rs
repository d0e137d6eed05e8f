//! What a study file holds; the names are the file format's.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::BTreeMap;

use super::change::Change;
use super::detail::{AssistDetail, GuideLine};
use super::opinion::SecondOpinion;
use super::ruled_out::RuledOut;
use crate::demand::{Case, Demand, Emergency, Figures, HingeDemand, Stability};
use crate::family::{Check, Expected};
use crate::requirements::Assumption;

/// A name of ours, or what a file that is read has in its place.
pub type Label = Cow<'static, str>;

/// The format that a study names.
pub const FORMAT: &str = "counterpoise-study/2";

/// A ranked study.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct Study {
    /// `counterpoise-study/2`.
    pub format: Label,
    /// The requirements file with every default written out.
    pub requirements: serde_json::Value,
    /// Which catalog.
    pub catalog: CatalogName,
    /// What was taken for granted, and why.
    pub assumptions: Vec<Assumption>,
    /// What the load asks for at the limit travel time, without assist.
    pub demand: DemandLine,
    /// Every option kept, best first.
    pub options: Vec<OptionLine>,
    /// Families that offer nothing, and what stopped them.
    pub ruled_out: Vec<RuledOut>,
    /// Whether each drive type could be first if the worths were other than guessed; empty where there is but one kind.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub robustness: Vec<Robustness>,
    /// What other ways of weighing say of the first; none where there is but one drive type.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second_opinion: Option<SecondOpinion>,
    /// What each requirement costs, where that was asked for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub requirement_prices: Vec<RequirementPrice>,
    /// What an experienced colleague would try, where that was asked for and brings something.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fresh_look: Vec<FreshLook>,
    /// What can hurt someone.
    pub cautions: Vec<String>,
}

/// Which catalog a study was made from.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct CatalogName {
    /// Its name.
    pub name: String,
    /// A digest of its content.
    pub digest: String,
}

impl CatalogName {
    /// What the parts are, where they are not the built-in ones alone.
    pub fn told(&self) -> Option<String> {
        (self.name != crate::catalog::BUILT_IN_NAME)
            .then(|| format!("Parts: {} (digest {}).", self.name, self.digest))
    }
}

/// The demand with its cases.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct DemandLine {
    /// Travel time of either stroke.
    pub travel_time_s: f64,
    /// The worst over the cases.
    pub worst: Figures,
    /// Least out, least back, most out, most back.
    pub cases: Vec<Case>,
    /// What an emergency stop asks.
    pub emergency_stop: Emergency,
    /// What a hinge sees, where the load swings on one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hinge: Option<HingeDemand>,
    /// Whether the machine stands, where it has a base.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stability: Option<Stability>,
}

impl DemandLine {
    /// All of a demand.
    pub fn new(demand: &Demand) -> Self {
        Self {
            travel_time_s: demand.travel_time_s,
            worst: demand.worst,
            cases: demand.cases.clone(),
            emergency_stop: demand.emergency_stop,
            hinge: demand.hinge.clone(),
            stability: demand.stability,
        }
    }
}

/// An option's demand: the worst at its own travel time, with its assist.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct OptionDemand {
    /// Travel time of either stroke.
    pub travel_time_s: f64,
    /// The worst over the cases.
    pub worst: Figures,
    /// What an emergency stop asks.
    pub emergency_stop: Emergency,
    /// What a hinge sees, where the load swings on one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hinge: Option<HingeDemand>,
    /// Whether the machine stands, where it has a base.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stability: Option<Stability>,
}

/// One option.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct OptionLine {
    /// Place in the ranking.
    pub rank: usize,
    /// Names its drive and design time.
    pub id: String,
    /// Drive type.
    pub drive_type: String,
    /// The drive in plain words.
    pub words: String,
    /// Family.
    pub family: Label,
    /// Assist.
    pub assist: Label,
    /// Travel time it is designed for.
    pub design_travel_time_s: f64,
    /// Parts; `price` is of one piece as bought, `cost` of the line, both in the file's currency.
    pub parts: Vec<PartEntry>,
    /// Parts to be made: their hours are charged like the others.
    pub custom: Vec<CustomLine>,
    /// Hours to design and fit.
    pub hours: Vec<HoursLine>,
    /// The assist in numbers.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assist_detail: Option<AssistDetail>,
    /// The guide, where one is fitted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub guide_detail: Option<GuideLine>,
    /// What the drive is asked for.
    pub demand: OptionDemand,
    /// Every check.
    pub checks: Vec<CheckLine>,
    /// Whether the load stays where it is when the power fails.
    pub holds_without_power: bool,
    /// Every criterion, by name.
    pub criteria: BTreeMap<Label, CriterionLine>,
    /// Money to buy, make and fit it.
    pub purchase: f64,
    /// Money a year to run it.
    pub running_cost_per_year: f64,
    /// What that is made of.
    pub running: RunningLine,
    /// What it is worth beyond what it costs.
    pub net_value: f64,
    /// What it gives against the first (the first: against the next kind).
    pub gives: Vec<String>,
    /// What it gives up.
    pub gives_up: Vec<String>,
    /// What proves it on the built machine beside what proves every drive.
    #[serde(skip)]
    pub proofs: Vec<Expected>,
    /// Facts about the drive.
    pub remarks: Vec<String>,
    /// Its own cautions.
    pub cautions: Vec<String>,
    /// The hazard that each of its cautions is of, by id.
    #[serde(skip)]
    pub hazards: Vec<&'static str>,
}

/// Whether a check is of what a part bears; sheaves are sold just as large as their ropes ask.
pub fn is_loaded(check: &str) -> bool {
    check != "sheave.ratio"
}

impl OptionLine {
    /// The check with the greatest utilisation; yes-or-no checks and sizes that parts are made to aside.
    pub fn tightest(&self) -> Option<&CheckLine> {
        let loaded = |check: &&CheckLine| check.says.is_none() && is_loaded(&check.id);
        let measured = self.checks.iter().filter(loaded);
        measured.fold(None, |best: Option<&CheckLine>, check| match best {
            Some(best) if best.utilisation >= check.utilisation => Some(best),
            _ => Some(check),
        })
    }
}

/// A line of the parts list.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct PartEntry {
    /// Part id in the catalog.
    pub id: String,
    /// For people.
    pub name: String,
    /// Kind of part.
    pub kind: Label,
    /// How many.
    pub quantity: u32,
    /// Length one piece is cut to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length_m: Option<f64>,
    /// Money for one piece.
    pub price: f64,
    /// Money for the line.
    pub cost: f64,
    /// Mass of one piece.
    pub mass_kg: f64,
    /// Whether it is on the machine.
    pub on_machine: bool,
}

/// A part to be made.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct CustomLine {
    /// What it is.
    pub what: Label,
    /// Hours to make it.
    pub hours: f64,
    /// Money for material.
    pub material: f64,
}

/// Hours of work beside the custom parts.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct HoursLine {
    /// What for.
    pub what: Label,
    /// How many.
    pub hours: f64,
}

/// A check as a file holds it.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct CheckLine {
    /// `part.what`.
    pub id: Label,
    /// What is asked.
    pub demand: f64,
    /// What can be given.
    pub capacity: f64,
    /// Unit of both.
    pub unit: Label,
    /// On the demand.
    pub factor: f64,
    /// `demand × factor / capacity`.
    pub utilisation: f64,
    /// Whether it holds.
    pub passes: bool,
    /// The formula.
    pub formula: Label,
    /// Where it comes from.
    pub source: Label,
    /// The rule of the trade behind it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rule: Option<Label>,
    /// What the formula was given.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub given: Vec<GivenLine>,
    /// What a yes-or-no check found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub says: Option<String>,
}

/// A number that a formula was given.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct GivenLine {
    /// Its symbol in the formula.
    pub symbol: Label,
    /// The number.
    pub value: f64,
    /// Its unit; empty for a ratio.
    pub unit: Label,
}

impl From<&Check> for CheckLine {
    fn from(check: &Check) -> Self {
        Self {
            id: check.id.into(),
            demand: check.demand,
            capacity: check.capacity,
            unit: check.unit.into(),
            factor: check.factor,
            utilisation: check.utilisation(),
            passes: check.passes(),
            formula: check.formula.into(),
            source: check.source.into(),
            rule: check.rule.map(Label::from),
            given: check
                .given
                .iter()
                .map(|(symbol, value, unit)| GivenLine {
                    symbol: symbol.into(),
                    value,
                    unit: unit.into(),
                })
                .collect(),
            says: check.says.clone(),
        }
    }
}

/// A criterion of an option.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
pub struct CriterionLine {
    /// The number, in `unit`.
    pub raw: f64,
    /// Its unit.
    pub unit: Label,
    /// 0 at the limit, 1 at the target; where rewarded.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// What going from limit to target is worth; where rewarded.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub worth: Option<f64>,
}

/// What running a year costs, by cause.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RunningLine {
    /// Electricity for moving, holding and standby.
    pub electricity: f64,
    /// Compressed air.
    pub air: f64,
    /// What is used up.
    pub consumables: f64,
    /// Maintenance hours at the labour rate.
    pub maintenance: f64,
    /// Time spent cranking.
    pub cranking: f64,
}

impl RunningLine {
    /// All of it.
    pub fn total(&self) -> f64 {
        self.electricity + self.air + self.consumables + self.maintenance + self.cranking
    }
}

/// One requirement, relaxed and tightened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RequirementPrice {
    /// Path of the field.
    pub field: String,
    /// What people call it.
    pub words: String,
    /// The steps, in the order of their values.
    pub steps: Vec<PriceStep>,
    /// Unit of its sizes in SI, or plain; empty for words and for money.
    #[serde(default, skip_serializing_if = "str::is_empty")]
    pub unit: Label,
    /// What one unit costs to buy, where the drive type stays and the price runs smoothly.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub purchase_per_unit: Option<f64>,
}

/// One step of a requirement.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PriceStep {
    /// The value, as in a file.
    pub value: String,
    /// Whether the file asks just that.
    pub asked: bool,
    /// The first option there; none where no option meets the limits.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub first: Option<FirstOfStep>,
    /// Why the file cannot ask that, where it cannot.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub refused: Option<String>,
}

/// The first option of a step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FirstOfStep {
    /// Its id.
    pub best: String,
    /// Its drive type.
    pub drive_type: String,
    /// The drive in plain words.
    pub drive: String,
    /// Money to buy, make and fit it.
    pub purchase: f64,
    /// Its net value on the value scale of the file.
    pub net_value: f64,
}

/// The job seen another way, tried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FreshLook {
    /// The fields changed; none where it is a drive type that the study already holds.
    pub change: Vec<Change>,
    /// What it brings, in a sentence.
    pub says: String,
    /// The option that is first then.
    pub best: String,
    /// By how much its net value is greater, on the value scale of the file.
    pub net_value_gain: f64,
}

/// A drive type under other worths.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Robustness {
    /// Id of its option that comes nearest to being first, or leads by most.
    pub option: String,
    /// The drive type.
    pub drive_type: String,
    /// Whether some worths within their uncertainty make it first.
    pub can_be_best: bool,
    /// Money by which it leads every other kind at best within the uncertainty; negative where it never leads.
    pub margin: f64,
    /// Each worth that would put it first, the others staying.
    pub overtakes_when: Vec<OtherWorth>,
    /// The worths of the least total relative change that would put it first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub least_change: Vec<OtherWorth>,
}

/// A worth other than the file's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OtherWorth {
    /// Name of the criterion.
    pub criterion: Label,
    /// Worth in the file.
    pub worth_now: f64,
    /// Worth at which the kind is first.
    pub worth_then: f64,
}
