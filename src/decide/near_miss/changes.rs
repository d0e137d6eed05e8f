//! What beside its musts a file could change to let a family back in: a word, or a size that is no must.

use super::super::load;
use super::MOST;
use crate::decide::fresh_look::exactly;
use crate::mechanics::beam::Section;
use crate::quantity::{Kind, Length, Si, enough, in_words, metres, not_over, parse_as, show};
use crate::requirements::{PowerLoss, Requirements, Stops, Structure};
use crate::study::{Change, RuledOut, Study};

/// Width and height of an arm's section.
const WIDTH: &str = "structure.width";
const HEIGHT: &str = "structure.height";
/// What the mains of a site give.
pub(super) const MAINS: &str = "site.mains.power";
/// The family that takes nothing from them.
const CRANK: &str = "hand_crank";
/// Air that a workshop has that lays it on.
const AIR: &str = r#"{ "pressure": "6 bar", "flow": "200 L/min" }"#;
/// Words changed at most.
const WORDS_MOST: usize = 2;
/// Parts by which the pin on the base of a hinge's drive is set further from the hinge.
const FURTHER: [f64; 3] = [1.25, 1.6, 2.0];
/// Parts by which a supply from the mains is made larger.
const LARGER: [f64; 3] = [1.25, 1.6, 1.95];

/// A force that holds nothing.
const NOTHING_N: f64 = 1e-6;

/// A change of a word, and what is to be set for it.
pub(super) type Word = (Change, (String, String));
/// Changes of words, and what they count for beside the shortfalls: words nothing, a size the part by which it is moved.
pub(super) type Words = (f64, Vec<Word>);

/// All that is tried for a family that is ruled out, beside its musts alone.
pub(super) fn beside_musts(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Words> {
    let mut changes = combinations(&words(study, job, line));
    changes.extend(sizes(job, line));
    changes.extend(steadier(study, job, line));
    changes.extend(supplied(job, line));
    changes
}

pub(super) fn word(field: &str, from: &str, to: &str, value: &str) -> Word {
    let change = Change {
        field: field.into(),
        from: from.into(),
        to: to.into(),
    };
    (change, (field.into(), value.into()))
}

/// Sizes of the file that stopped a family and are no must: the pins of a hinge's drive, an arm's deflection and length.
fn sizes(job: &Requirements, line: &RuledOut) -> Vec<Words> {
    let stopped = |id: &str| line.fails.iter().any(|fail| fail.check.starts_with(id));
    let mut sizes: Vec<Words> = Vec::new();
    let mut size = |field: &str, from: String, to: String, part: f64| {
        sizes.push((part - 1.0, vec![word(field, &from, &to, &to)]));
    };
    let told = |size_m: f64| in_words(Kind::Length, size_m);
    if let Some([base, _]) = load::hinge(job).and_then(|hinge| hinge.anchors)
        && stopped("drive.length_between_pins")
    {
        let at = |part: f64| {
            let [x, y] = base.map(|side| told(side.si() * part));
            format!("[\"{x}\", \"{y}\"]")
        };
        for part in FURTHER {
            size("motion.anchors.base", at(1.0), at(part), part);
        }
    }
    sizes.extend(stiffer(job, line));
    sizes
}

/// What an arm that bends or bears too much asks for: more deflection, or less length, which deflection follows with the cube
/// at least and stress in proportion.
fn stiffer(job: &Requirements, line: &RuledOut) -> Vec<Words> {
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
    if let Some(limit) = arm.deflection_must
        && bent > 1.0
    {
        sizes.extend(sized(
            "structure.deflection.must",
            Kind::Length,
            limit.si(),
            bent,
        ));
    }
    let shorter = libm::cbrt(bent).max(stressed);
    if shorter > 1.0 {
        let part = 1.0 / shorter;
        sizes.extend(sized(
            "structure.length",
            Kind::Length,
            arm.length.si(),
            part,
        ));
    }
    sizes
}

/// The section of an arm that lies flat stood on edge: it asks for nothing but a hand that turns it.
fn on_edge(arm: Structure) -> Option<Words> {
    let (Section::Rectangle { width_m, height_m }
    | Section::Box {
        width_m, height_m, ..
    }) = arm.section
    else {
        return None;
    };
    let [broad, high] = [width_m, height_m].map(|size_m| whole(metres(size_m)));
    let turned = || {
        vec![
            word(WIDTH, &broad, &high, &high),
            word(HEIGHT, &high, &broad, &broad),
        ]
    };
    (width_m > height_m).then(|| (0.0, turned()))
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
fn steadier(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Words> {
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
fn supplied(job: &Requirements, line: &RuledOut) -> Vec<Words> {
    let mut sizes = Vec::new();
    if let Some(mains) = job.site.mains
        && line.family != CRANK
    {
        let larger = |part| sized(MAINS, Kind::Power, mains.power.si(), part);
        sizes.extend(LARGER.into_iter().filter_map(larger));
    }
    let often = line.fails.iter().find(|fail| fail.check == "crank.often");
    if let Some(often) = often {
        let asked = job.timing.cycles_per_hour;
        let fewer = asked / often.utilisation;
        let [from, to] = [asked, fewer].map(show);
        let cost = 1.0 - fewer / asked;
        sizes.push((cost, vec![word("timing.cycles_per_hour", &from, &to, &to)]));
    }
    sizes
}

/// A size made a part of itself, unless that is another job.
fn sized(field: &str, kind: Kind, size: f64, part: f64) -> Option<Words> {
    let cost = (part - 1.0).abs();
    let round = if part < 1.0 { not_over } else { enough };
    let to = round(size * part);
    let [from, to] = [size, to].map(|size| in_words(kind, size));
    (cost < MOST).then(|| (cost, vec![word(field, &from, &to, &to)]))
}

/// A change with what is to be set for it.
pub(super) fn as_asked(change: &Change) -> Word {
    let value = if change.field == "site.air" {
        AIR
    } else {
        &change.to
    };
    word(&change.field, &change.from, &change.to, value)
}

/// Single changes of words that a family could gain by, in a fixed order.
fn words(study: &Study, job: &Requirements, line: &RuledOut) -> Vec<Words> {
    let stops: &[&str] = match job.stops {
        Stops::Ends => &["ends"],
        Stops::Several => &["several", "ends"],
        Stops::Anywhere => &["anywhere", "several", "ends"],
    };
    let mut words = Vec::new();
    // Each step of the stops is a step: from anywhere to the ends is two.
    for (steps, to) in stops.iter().enumerate().skip(1) {
        let mut change = vec![word("stops", stops[0], to, to)];
        change.extend(vec![change[0].clone(); steps - 1]);
        words.push((0.0, change));
    }
    // Nobody lets go what would then come down.
    if job.power_loss == PowerLoss::Hold && study.demand.worst.holding_n <= NOTHING_N {
        words.push((
            0.0,
            vec![word("power_loss", "hold", "may_move", "may_move")],
        ));
    }
    if line.family == "hydraulic" && !job.site.oil_tolerated {
        words.push((
            0.0,
            vec![word("site.oil_tolerated", "false", "true", "true")],
        ));
    }
    if line.family == "pneumatic" && job.site.air.is_none() {
        words.push((0.0, vec![word("site.air", "none", "6 bar, 200 L/min", AIR)]));
    }
    words
}

/// One or two steps of words, at most one of a field.
fn combinations(words: &[Words]) -> Vec<Words> {
    let mut all: Vec<Words> = words.to_vec();
    for (index, (cost, one)) in words.iter().enumerate() {
        for (more, two) in &words[index + 1..] {
            if one[0].0.field != two[0].0.field {
                all.push((cost + more, one.iter().chain(two).cloned().collect()));
            }
        }
    }
    all.retain(|(_, words)| words.len() <= WORDS_MOST);
    for (_, words) in &mut all {
        words.dedup();
    }
    all
}
