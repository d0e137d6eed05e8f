//! A complete drive: its parts, work, checks and running figures.

use std::sync::Arc;

use super::choose::{Goals, LifeCost};
use super::fitted::pivot::Pivots;
use super::fitted::site::Bellows;
use super::pneumatic::Strokes;
use super::{Caution, Check, Expected};
use crate::catalog::{Catalog, Common, Part};
use crate::demand::{Assist, Book, Demand};
use crate::quantity::{MassPerLength, Si};
use crate::requirements::{Brief, Hours, Slide};

/// Two design times nearer than this part are one.
pub(super) const SAME_TIME: f64 = 1e-3;

/// What a family is asked: the job, the parts, one assist and the design times.
#[derive(Debug)]
pub struct Ask<'a> {
    /// The job.
    pub job: &'a Brief,
    /// The parts.
    pub catalog: &'a Catalog,
    /// The assist that is fitted, with its own parts and checks.
    pub assist: &'a Fitted<'a>,
    /// Travel times to design for, longest first.
    pub times: &'a [f64],
    /// Demands, remembered.
    pub book: &'a Book,
    /// Air strokes, remembered.
    pub strokes: &'a Strokes,
}

impl<'a> Ask<'a> {
    /// The same with another assist.
    pub fn with(&self, assist: &'a Fitted<'a>) -> Self {
        Self { assist, ..*self }
    }
    /// Travel of the drive, m.
    pub fn travel_m(&self) -> f64 {
        self.book.axis().travel_m
    }
    /// The slide, where the load goes straight.
    pub fn slide(&self) -> Option<&'a Slide> {
        self.job.motion.slide()
    }
    /// Spacing of the guide's bearings, m; 0 where there is none.
    pub fn bearing_spacing_m(&self) -> f64 {
        self.slide().map_or(0.0, |slide| slide.bearing_spacing.si())
    }
    /// Friction of the guide; 0 where there is none.
    pub fn guide_friction(&self) -> f64 {
        self.slide().map_or(0.0, |slide| slide.guide_friction)
    }
    /// Distance between the drive's pins at its shortest and longest, where it stands between two.
    pub fn pins_m(&self) -> Option<[f64; 2]> {
        self.book.axis().pins_m()
    }
    /// Least and most mass at the drive with the inertia of all that moves, over the way, with a load.
    pub fn moving_kg(&self, load_kg: f64) -> [f64; 2] {
        self.book.axis().moving_kg(&self.assist.assist, load_kg)
    }
    /// What gravity asks of the drive with a load, least and most over the way.
    pub fn weight_n(&self, load_kg: f64) -> [f64; 2] {
        self.book.axis().weights_n(&self.assist.assist, load_kg)
    }
    /// The demand on the drive at a travel time, with this assist.
    pub fn demand(&self, travel_time_s: f64) -> Arc<Demand> {
        self.book.at(&self.assist.assist, travel_time_s)
    }
    /// The rates by which money is counted.
    pub fn life_cost(&self) -> LifeCost {
        LifeCost::new(self.job)
    }
    /// Which figures count when parts and drives are compared.
    pub fn goals(&self) -> Goals {
        Goals::of(self.job, self.pins_m().is_some())
    }
    /// A shortest time of a drive's own, where it is worth a design time: shorter than the one that it was built for, longer than
    /// the next shorter one, which would offer the drive again.
    pub fn time_between(&self, fastest_s: f64, time_s: f64) -> Option<f64> {
        let shorter = self.times.iter().copied().filter(|time| *time < time_s);
        let next = shorter.fold(0.0, f64::max);
        let between =
            fastest_s < time_s * (1.0 - SAME_TIME) && fastest_s > next * (1.0 + SAME_TIME);
        let least = self.times.iter().copied().fold(f64::INFINITY, f64::min);
        (between && fastest_s > least).then_some(fastest_s)
    }
    /// Distance to be lived through, m: cycles × 2 travels × the years asked (`goals.life.limit`, else `timing.years`).
    pub fn life_distance_m(&self) -> f64 {
        self.life_cycles() * 2.0 * self.travel_m()
    }
    /// Cycles to be lived through.
    pub fn life_cycles(&self) -> f64 {
        self.job.timing.cycles_per_year() * self.job.life_asked_years()
    }
}

/// An assist with its parts.
#[derive(Debug, Clone, Default)]
pub struct Fitted<'a> {
    /// What it does to the demand.
    pub assist: Assist,
    /// Its parts.
    pub parts: Vec<PartLine<'a>>,
    /// What its hours are; none where there is no assist.
    pub fitting: Option<Fitting>,
    /// A short tag for option ids, empty for none.
    pub tag: String,
    /// The bearings of a hinge with it, remembered.
    pub pivots: Pivots,
    /// Covers over its screws and rails, remembered.
    pub bellows: Bellows,
}

impl<'a> Fitted<'a> {
    /// An assist with its parts.
    pub fn new(assist: Assist, parts: Vec<PartLine<'a>>, fitting: Fitting, tag: String) -> Self {
        Self {
            assist,
            parts,
            fitting: Some(fitting),
            tag,
            ..Self::none()
        }
    }
    /// No assist.
    pub fn none() -> Self {
        Self::default()
    }
}

/// A line of the parts list.
#[derive(Debug, Clone)]
pub struct PartLine<'a> {
    /// What the part states.
    pub common: &'a Common,
    /// Its kind.
    pub kind: &'static str,
    /// How many.
    pub quantity: u32,
    /// Length that one piece is cut to, where it is cut.
    pub length_m: Option<f64>,
    /// Price of one piece as bought (its length included), in catalog units.
    pub price: f64,
    /// Mass of one piece as bought.
    pub mass_kg: f64,
    /// Whether it rides or stands on the machine (a compressor or oil unit stands beside it).
    pub on_machine: bool,
}

impl<'a> PartLine<'a> {
    /// So many whole pieces of a part.
    pub fn part<P: Part>(part: &'a P, quantity: u32) -> Self {
        Self::pieces(P::KIND, part.common(), quantity)
    }
    /// The same, its kind by name.
    pub fn pieces(kind: &'static str, common: &'a Common, quantity: u32) -> Self {
        let (price, mass_kg) = (common.price, common.mass.si());
        Self {
            common,
            kind,
            quantity,
            length_m: None,
            price,
            mass_kg,
            on_machine: !common.apart,
        }
    }
    /// One piece cut to a length: its fixed price and mass, and so much a metre.
    pub fn cut<P: Part>(
        part: &'a P,
        length_m: f64,
        price_per_m: f64,
        mass_per_m: MassPerLength,
    ) -> Self {
        let piece = Self::part(part, 1);
        Self {
            length_m: Some(length_m),
            price: piece.price + price_per_m * length_m,
            mass_kg: piece.mass_kg + mass_per_m.si() * length_m,
            ..piece
        }
    }
    /// The same, standing beside the machine.
    pub fn beside(mut self) -> Self {
        self.on_machine = false;
        self
    }
    /// Price of the line, in catalog units.
    pub fn cost(&self) -> f64 {
        f64::from(self.quantity) * self.price
    }
}

/// A part to be made; its hours are a share of those in the drive's table row.
#[derive(Debug, Clone, PartialEq)]
pub struct Custom {
    /// What it is.
    pub what: &'static str,
    /// Material, in catalog units.
    pub material: f64,
}

/// What is fitted to a drive and brings its own row of hours.
#[derive(Debug, Clone, Copy)]
pub struct Fitting {
    /// Its row.
    pub hours: &'static Hours,
    /// What is made for it.
    pub makes: &'static str,
}

/// What a drive uses when it runs.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Running {
    /// Electricity for moving, J a cycle.
    pub moving_j: f64,
    /// Electricity for holding, J a cycle.
    pub holding_j: f64,
    /// Electricity while switched on beside that, W.
    pub standby_w: f64,
    /// Free air, m³ a cycle.
    pub air_m3: f64,
    /// Free air leaking while switched on, m³ an hour.
    pub air_leak_m3_h: f64,
    /// Time somebody cranks, s a cycle.
    pub cranking_s: f64,
}

/// A rated life.
#[derive(Debug, Clone, PartialEq)]
pub struct Life {
    /// Whose.
    pub what: &'static str,
    /// Years at this job's rate.
    pub years: f64,
}

impl Life {
    /// A life in years.
    pub fn new(what: &'static str, years: f64) -> Self {
        Self { what, years }
    }
}

/// A complete drive at one design time.
#[derive(Debug, Clone)]
pub struct Drive<'a> {
    /// Family name.
    pub family: &'static str,
    /// Drive type within the family, such as `ball screw, servo, geared`; assist aside.
    pub kind: String,
    /// The drive in plain words with its sizes, for the table ("40 mm air cylinder").
    pub words: String,
    /// Travel time it is designed for.
    pub travel_time_s: f64,
    /// Demand at that time.
    pub demand: Arc<Demand>,
    /// Parts, assist aside.
    pub parts: Vec<PartLine<'a>>,
    /// Ids of parts that are put under bellows for the sake of their life, where water does not ask for them.
    pub covered: Vec<&'a str>,
    /// Parts to be made.
    pub custom: Vec<Custom>,
    /// Row of the table of hours.
    pub hours: &'static Hours,
    /// What is fitted to it with hours of its own, the assist aside.
    pub fittings: Vec<Fitting>,
    /// Every check.
    pub checks: Vec<Check>,
    /// What it uses.
    pub running: Running,
    /// Contributions to the position error: what, and how much in m.
    pub position: Vec<(&'static str, f64)>,
    /// Length of the drive with the load at the back end.
    pub closed_length_m: f64,
    /// Whether the load stays where it is when the power fails.
    pub holds: bool,
    /// Force at a crank handle; 0 where nobody cranks.
    pub hand_force_n: f64,
    /// Rated lives.
    pub lives: Vec<Life>,
    /// What the drive itself can press with, outward and back, when something stops the load; none where its force
    /// follows what is asked, as of a person at a crank.
    pub presses_n: Option<[f64; 2]>,
    /// Kinetic energy with which the load comes to an end, where that is not the demand's own, J.
    pub arrives_j: Option<f64>,
    /// What proves it on the built machine beside what proves every drive.
    pub proofs: Vec<Expected>,
    /// Facts that a caution or a sentence may need, each a full sentence.
    pub remarks: Vec<String>,
    /// Cautions that follow from this drive's numbers.
    pub cautions: Vec<Caution>,
}

/// More parts and checks than a drive has as a rule, so that its lists need not grow.
const MOST_PARTS: usize = 12;
const MOST_CHECKS: usize = 32;

impl Drive<'_> {
    /// A drive with nothing in it yet.
    pub fn new(
        family: &'static str,
        kind: impl Into<String>,
        hours: &'static Hours,
        demand: Arc<Demand>,
    ) -> Self {
        // Where nothing pulls at rest, anything holds.
        let demand_holds_itself = demand.held_n() <= 1e-6;
        Self {
            family,
            kind: kind.into(),
            words: String::new(),
            travel_time_s: demand.travel_time_s,
            demand,
            parts: Vec::with_capacity(MOST_PARTS),
            covered: Vec::new(),
            custom: Vec::new(),
            hours,
            fittings: Vec::new(),
            checks: Vec::with_capacity(MOST_CHECKS),
            running: Running::default(),
            position: Vec::new(),
            closed_length_m: 0.0,
            holds: demand_holds_itself,
            hand_force_n: 0.0,
            presses_n: None,
            arrives_j: None,
            lives: Vec::new(),
            proofs: Vec::new(),
            remarks: Vec::new(),
            cautions: Vec::new(),
        }
    }
    /// Whether every check passes so far.
    pub fn passes(&self) -> bool {
        self.checks.iter().all(Check::passes)
    }
    /// Its name among all options: parts that tell it apart and its design time.
    pub fn id(&self, assist_tag: &str) -> String {
        let ids = self.parts.iter().map(|part| part.common.id.as_str());
        let mut seen: Vec<&str> = ids.collect();
        seen.dedup();
        let assist = if assist_tag.is_empty() {
            String::new()
        } else {
            format!("/{assist_tag}")
        };
        format!(
            "{}/{}{assist}/{}s",
            self.family,
            seen.join("+"),
            crate::quantity::show(self.travel_time_s)
        )
    }
}
