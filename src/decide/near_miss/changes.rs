//! What beside its limits a file could change to let a family back in: a word, or a size that is no limit.

use serde_json::json;

use super::MOST;
use crate::decide::change::{DEFLECTION, STOPS, exactly, hinge, may_move, resized, stops};
use crate::family::{Need, family, may_need};
use crate::mechanics::beam::Section;
use crate::quantity::{Kind, Length, Si, enough, in_words, metres, not_over, parse_as, show};
use crate::requirements::{PowerLoss, Requirements, Structure};
use crate::study::{Change, RuledOut, Study};

/// Width and height of an arm's section.
const WIDTH: &str = "structure.width";
const HEIGHT: &str = "structure.height";
/// What the mains of a site give.
pub(super) const MAINS: &str = "site.mains.power";
/// Words changed at most.
const WORDS_MOST: usize = 2;
/// Parts by which the pin on the base of a hinge's drive is set further from the hinge.
const FURTHER: [f64; 3] = [1.25, 1.6, 2.0];
/// Parts by which a supply from the mains is made larger.
const LARGER: [f64; 3] = [1.25, 1.6, 1.95];

/// A force that holds nothing.
const NOTHING_N: f64 = 1e-6;

/// What is conceded beside the limits.
#[derive(Debug, Clone, Default)]
pub(super) struct Concession {
    /// What it counts for beside the shortfalls: words nothing, a size the part by which it is moved.
    pub cost: f64,
    /// How many steps of words it is: stops from anywhere to the ends are two.
    steps: usize,
    /// The fields changed.
    pub changes: Vec<Change>,
}

impl Concession {
    fn word(steps: usize, change: Change) -> Self {
        Self {
            cost: 0.0,
            steps,
            changes: vec![change],
        }
    }

    fn size(cost: f64, change: Change) -> Self {
        Self {
            cost,
            ..Self::word(0, change)
        }
    }

    /// Both together, unless they change the same field or are too many steps.
    fn and(&self, other: &Self) -> Option<Self> {
        let changes = [&*self.changes, &*other.changes].concat();
        let steps = self.steps + other.steps;
        let field = |this: &Self| this.changes.first().map(|change| change.field.clone());
        let apart = field(self) != field(other);
        (apart && steps <= WORDS_MOST).then_some(Self {
            cost: self.cost + other.cost,
            steps,
            changes,
        })
    }
}

/// All that is tried for a family that is ruled out, beside its limits alone.
pub(super) fn beside_musts(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let words = words(study, job, line);
    let mut all = words.clone();
    for (index, one) in words.iter().enumerate() {
        all.extend(words[index + 1..].iter().filter_map(|two| one.and(two)));
    }
    all.extend(further(job, line));
    all.extend(stiffer(job, line));
    all.extend(steadier(study, job, line));
    all.extend(larger_supplies(job, line));
    all
}

/// The pin on the base of a hinge's drive set further from the hinge, where the length between pins stopped a family.
fn further(job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let stopped = |id: &str| line.fails.iter().any(|fail| fail.check.starts_with(id));
    let Some([base, _]) = hinge(job).and_then(|hinge| hinge.anchors) else {
        return Vec::new();
    };
    if !stopped("drive.length_between_pins") {
        return Vec::new();
    }
    let at = |part: f64| {
        let [x, y] = base.map(|side| in_words(Kind::Length, side.si() * part));
        format!("[\"{x}\", \"{y}\"]")
    };
    let set = |part: f64| {
        let change = Change::new("motion.anchors.base", at(1.0), at(part));
        Concession::size(part - 1.0, change)
    };
    FURTHER.map(set).into()
}

/// What an arm that bends or bears too much asks for: more deflection, or less length, which deflection follows with the cube
/// at least and stress in proportion.
fn stiffer(job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let Some(arm) = job.structure else {
        return Vec::new();
    };
    let over = |id: &str| {
        let fails = line.fails.iter().filter(|fail| fail.check == id);
        fails.map(|fail| fail.utilisation).fold(1.0, f64::max)
    };
    let (edge, mut sizes) = (on_edge(arm), Vec::new());
    sizes.extend(edge);
    let (bent, stressed) = (over("structure.deflection"), over("structure.stress"));
    if let Some(limit) = arm.deflection_limit
        && bent > 1.0
    {
        sizes.extend(sized(DEFLECTION, Kind::Length, limit.si(), bent));
    }
    let shorter = libm::cbrt(bent).max(stressed);
    if shorter > 1.0 {
        let (long, part) = (arm.length.si(), 1.0 / shorter);
        sizes.extend(sized("structure.length", Kind::Length, long, part));
    }
    sizes
}

/// The section of an arm that lies flat stood on edge: it asks for nothing but a hand that turns it.
fn on_edge(arm: Structure) -> Option<Concession> {
    let (Section::Rectangle { width_m, height_m }
    | Section::Box {
        width_m, height_m, ..
    }) = arm.section
    else {
        return None;
    };
    let [broad, high] = [width_m, height_m].map(|size_m| whole(metres(size_m)));
    let turned = || Concession {
        changes: vec![
            Change::new(WIDTH, &broad, &high),
            Change::new(HEIGHT, &high, &broad),
        ],
        ..Concession::default()
    };
    (width_m > height_m).then(turned)
}

/// A length in the words of the file; to the last digit where three do not tell it.
fn whole(size: Length) -> String {
    let words = in_words(Kind::Length, size.si());
    let told = parse_as(&words, Kind::Length).ok();
    if told.is_some_and(|told| (told - size.si()).abs() <= 1e-9 * size.si()) {
        words
    } else {
        exactly(size)
    }
}

/// How many things are conceded by changes: an arm that is turned is one.
pub(super) fn conceded(changes: &[Change]) -> usize {
    let turned = changes.iter().any(|change| change.field == WIDTH);
    changes.len() - usize::from(turned)
}

/// What a machine that tips asks for, as the study of the bare load at the longest travel time has it.
fn steadier(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let tips = line
        .fails
        .iter()
        .any(|fail| fail.check == "machine.stability");
    let Some((base, stability)) = job.base.zip(study.demand.stability).filter(|_| tips) else {
        return Vec::new();
    };
    let (long, heavy) = (base.length.si(), base.mass.si());
    let mut sizes = Vec::new();
    if let (Some(longer), None) = (stability.length_needed_m, stability.width_needed_m) {
        let part = longer / long;
        sizes.extend(sized("base.length", Kind::Length, long, part));
    }
    if stability.ballast_kg > 0.0 {
        let part = (heavy + stability.ballast_kg) / heavy;
        sizes.extend(sized("base.mass", Kind::Mass, heavy, part));
    }
    sizes
}

/// A supply from the mains that gives more, where the family takes from it; and for a crank fewer cycles, where it is turned
/// too often.
fn larger_supplies(job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let mut sizes = Vec::new();
    if let Some(mains) = job.site.mains
        && needs(line, Need::Mains)
    {
        let larger = |part| sized(MAINS, Kind::Power, mains.power.si(), part);
        sizes.extend(LARGER.into_iter().filter_map(larger));
    }
    let often = line.fails.iter().find(|fail| fail.check == "crank.often");
    if let Some(often) = often {
        let asked = job.timing.cycles_per_hour;
        let fewer = asked / often.utilisation;
        let change = Change::new("timing.cycles_per_hour", show(asked), show(fewer));
        sizes.push(Concession::size(1.0 - fewer / asked, change));
    }
    sizes
}

fn needs(line: &RuledOut, need: Need) -> bool {
    family(&line.family).is_some_and(|family| may_need(family, need))
}

/// A size made a part of itself, unless that is another job.
fn sized(field: &str, kind: Kind, size: f64, part: f64) -> Option<Concession> {
    let cost = (part - 1.0).abs();
    let round = if part < 1.0 { not_over } else { enough };
    let change = resized(field, kind, size, round(size * part));
    (cost < MOST).then(|| Concession::size(cost, change))
}

/// Single changes of words that a family could gain by, in a fixed order.
fn words(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Concession> {
    let asked = stops(job);
    let easier = STOPS[..asked].iter().rev().zip(1..);
    let stop = |(to, steps): (&&str, usize)| {
        Concession::word(steps, Change::new("stops", STOPS[asked], *to))
    };
    let mut words: Vec<Concession> = easier.map(stop).collect();
    let mut word = |change| words.push(Concession::word(1, change));
    // Nobody lets go what would then come down.
    if job.power_loss == PowerLoss::Hold && study.demand.worst.holding_n <= NOTHING_N {
        word(may_move());
    }
    if needs(line, Need::Oil) && !job.site.oil_tolerated {
        word(Change::new("site.oil_tolerated", "false", "true"));
    }
    if needs(line, Need::Air) && job.site.air.is_none() {
        let air = json!({ "pressure": "6 bar", "flow": "200 L/min" });
        word(Change::new("site.air", "none", "6 bar, 200 L/min").in_file(air));
    }
    words
}
