//! What would let a family back in that is ruled out: the least change, tried.
//!
//! The family is asked again with every must let out as far as anyone would go, once as the file is and once for each change
//! of one or two of its words, or of a size that is no must: where the pins of a hinge's drive stand, how far an arm may bend
//! and how long it is, how long and heavy the base is. Of what it then offers, the option that falls short least is taken; each shortfall counts as a
//! part of the must it is measured against, and none may be a whole one. The change is then made and the study made again:
//! what that does not bear out is not said.

use super::load;
use super::resolve::{Resolver, Sets};
use crate::quantity::{Kind, Si, in_words, parse_as, show, to_digits};
use crate::requirements::{
    CRITERIA, Criterion, CriterionRow, Measure, PowerLoss, Requirements, Stops, Want,
};
use crate::study::{Candidate, Change, NearMiss, RuledOut, Study, in_parallel};

/// Musts are let out by less than this part of themselves: a budget doubled is another job.
const MOST: f64 = 1.0;
/// Words changed at most.
const WORDS_MOST: usize = 2;
/// Ways tried, the least change first, before a family is given up.
const TRIED: usize = 3;
/// Parts by which a number that lets a family in is drawn back towards what the file asks while it still does: when none of
/// them does, it is the least to within the last.
const DRAWN_BACK: [f64; 3] = [0.1, 0.03, 0.01];
/// Air that a workshop has that lays it on.
const AIR: &str = r#"{ "pressure": "6 bar", "flow": "200 L/min" }"#;

/// Parts by which the pin on the base of a hinge's drive is set further from the hinge.
const FURTHER: [f64; 3] = [1.25, 1.6, 2.0];
/// What three digits may take from a size is added before it is rounded.
const ROUNDED: f64 = 1.006;

/// A change of words.
type Word = (Change, (String, String));
/// Changes of words, and what they count for beside the shortfalls: words nothing, a size the part by which it is moved.
type Words = (f64, Vec<Word>);

/// Fills in, for every family and assist ruled out, what would let it back in.
pub fn near_misses(resolver: &Resolver, ruled_out: &mut [RuledOut]) {
    let found = in_parallel(ruled_out.len() * 2, |index| {
        let line = &ruled_out[index / 2];
        if index % 2 == 0 {
            return nearest(resolver, line, &[(0.0, Vec::new())]);
        }
        let mut changed = combinations(&words(resolver.job(), line));
        changed.extend(sizes(resolver.job(), line));
        changed.extend(steadier(resolver.study(), resolver.job(), line));
        nearest(resolver, line, &changed)
    });
    let mut found = found.into_iter();
    for line in ruled_out {
        let (plain, worded) = (found.next().flatten(), found.next().flatten());
        let (near, also) = match (plain, worded) {
            (None, worded) => (worded, None),
            // Words are not changed for nothing.
            (Some(plain), Some(worded)) if worded.0 >= plain.0 * (1.0 - 1e-6) => {
                (Some(plain), None)
            }
            both => both,
        };
        line.near_miss = near.map(|(_, near)| near);
        line.with_words_changed = also.map(|(_, near)| near);
    }
}

fn word(field: &str, from: &str, to: &str, value: &str) -> Word {
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
    let (bent, stressed) = (over("structure.deflection"), over("structure.stress"));
    let mut sizes = Vec::new();
    if let Some(limit) = arm.deflection_must
        && bent > 1.0
    {
        sizes.extend(sized(
            "structure.deflection.must",
            Kind::Length,
            limit.si(),
            bent * ROUNDED,
        ));
    }
    let shorter = libm::cbrt(bent).max(stressed);
    if shorter > 1.0 {
        let part = 1.0 / (shorter * ROUNDED);
        sizes.extend(sized(
            "structure.length",
            Kind::Length,
            arm.length.si(),
            part,
        ));
    }
    sizes
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
        let part = longer / long * ROUNDED;
        sizes.extend(sized("base.length", Kind::Length, long, part));
    }
    if stability.ballast_kg > 0.0 {
        let part = (heavy + stability.ballast_kg) / heavy * ROUNDED;
        sizes.extend(sized("base.mass", Kind::Mass, heavy, part));
    }
    sizes
}

/// A size made a part of itself, unless that is another job.
fn sized(field: &str, kind: Kind, size: f64, part: f64) -> Option<Words> {
    let cost = (part - 1.0).abs();
    let [from, to] = [size, size * part].map(|size| in_words(kind, size));
    (cost < MOST).then(|| (cost, vec![word(field, &from, &to, &to)]))
}

/// Single changes of words that a family could gain by, in a fixed order.
fn words(job: &Requirements, line: &RuledOut) -> Vec<Words> {
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
    if job.power_loss == PowerLoss::Hold {
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

/// The least change over combinations of words that the study, made again, bears out; with the sum of its shortfalls.
fn nearest(
    resolver: &Resolver,
    line: &RuledOut,
    combinations: &[Words],
) -> Option<(f64, NearMiss)> {
    let job = resolver.job();
    let offered = in_parallel(combinations.len(), |index| {
        let (moved, words) = &combinations[index];
        let mut changes: Vec<_> = words.iter().map(|(_, set)| set.clone()).collect();
        changes.extend(
            CRITERIA
                .iter()
                .filter_map(|row| Some(let_out(row, job.wants.get(&row.criterion)?))),
        );
        let Some((then, pool)) = resolver.pair(&changes, (line.family, line.assist)) else {
            return Vec::new();
        };
        let short =
            |option: &Candidate| Some((moved + shortfall(job, option)?, words, option.clone()));
        pool.meeting(&then).filter_map(short).collect()
    });
    let mut found: Vec<(f64, &Vec<Word>, Candidate)> = offered.into_iter().flatten().collect();
    found.sort_by(|(p, few, this), (q, many, that)| {
        p.total_cmp(q)
            .then_with(|| few.len().cmp(&many.len()))
            .then_with(|| that.net_worth.total_cmp(&this.net_worth))
            .then_with(|| this.id.cmp(&that.id))
    });
    found.iter().take(TRIED).find_map(|(cost, words, attempt)| {
        Some((*cost, borne_out(resolver, line, words, attempt)?))
    })
}

/// A must let out as far as anyone would go.
fn let_out(row: &CriterionRow, want: &Want) -> (String, String) {
    let far = if row.more_is_better {
        want.must * (1.0 - MOST).max(1e-3)
    } else {
        want.must * (1.0 + MOST)
    };
    (format!("{}.must", row.path), text(row, far))
}

/// Sum of shortfalls, each a part of its must; none where one is a whole.
fn shortfall(job: &Requirements, attempt: &Candidate) -> Option<f64> {
    let parts = job.wants.iter().map(|(criterion, want)| {
        let part = beyond(*criterion, want, attempt) / scale_of(want);
        (part < MOST).then_some(part)
    });
    parts.sum()
}

/// What a shortfall is a part of: the must, or the way from must to ideal where the must is 0.
fn scale_of(want: &Want) -> f64 {
    let apart = want
        .reward
        .map_or(1.0, |reward| (want.must - reward.ideal).abs());
    if want.must == 0.0 {
        apart
    } else {
        want.must.abs()
    }
}

/// How far an attempt stays behind a must; 0 where it meets it.
fn beyond(criterion: Criterion, want: &Want, attempt: &Candidate) -> f64 {
    let raw = attempt
        .criteria
        .get(&criterion)
        .copied()
        .unwrap_or(want.must);
    let beyond = if criterion.row().more_is_better {
        want.must - raw
    } else {
        raw - want.must
    };
    // A hair is not a shortfall: checks pass at the must.
    if beyond > 1e-9 * scale_of(want) {
        beyond
    } else {
        0.0
    }
}

/// The change made and the study made again; none where the family does not come back by it.
fn borne_out(
    resolver: &Resolver,
    line: &RuledOut,
    words: &[Word],
    attempt: &Candidate,
) -> Option<NearMiss> {
    let mut least_change: Vec<Change> = words.iter().map(|(change, _)| change.clone()).collect();
    let mut sets: Vec<_> = words.iter().map(|(_, set)| set.clone()).collect();
    for (criterion, want) in &resolver.job().wants {
        if beyond(*criterion, want, attempt) > 0.0 {
            let row = criterion.row();
            let raw = attempt.criteria.get(criterion).copied()?;
            let to = outward(row, raw);
            sets.push((format!("{}.must", row.path), to.clone()));
            least_change.push(Change {
                field: format!("{}.must", row.path),
                from: text(row, want.must),
                to,
            });
        }
    }
    let mut found = came_in(resolver, line, &sets)?;
    // Other trains than the one at hand may do with less: a train is designed at the very must, and of two numbers let out
    // the one leaves more room than it needs.
    let numbers = words.len()..sets.len();
    while let Some(nearer) = drawn_back(resolver, line, &sets, numbers.clone()) {
        sets = nearer;
        found = came_in(resolver, line, &sets)?;
    }
    for (change, (_, to)) in least_change.iter_mut().zip(&sets).skip(words.len()) {
        change.to.clone_from(to);
    }
    Some(NearMiss {
        least_change,
        ..found
    })
}

/// The changes with one of their numbers drawn back towards the file's by which the family still comes in.
fn drawn_back(
    resolver: &Resolver,
    line: &RuledOut,
    sets: &Sets,
    numbers: core::ops::Range<usize>,
) -> Option<Vec<(String, String)>> {
    let tries = numbers.flat_map(|index| DRAWN_BACK.map(|part| (index, part)));
    let nearer = |(index, part): (usize, f64)| {
        let mut nearer = sets.to_vec();
        let (field, to) = nearer.get_mut(index)?;
        let row = CRITERIA
            .iter()
            .find(|row| field.strip_suffix(".must") == Some(row.path))?;
        let asked = resolver.job().wants.get(&row.criterion)?.must;
        *to = back(row, asked, size(row, to)?, part)?;
        comes_in(resolver, line, &nearer).then_some(nearer)
    };
    tries.into_iter().find_map(nearer)
}

/// A number drawn back by a part of itself; none where that is what the file asks, or no longer beyond it.
fn back(row: &CriterionRow, asked: f64, to: f64, part: f64) -> Option<String> {
    let inward = (asked - to).signum();
    let drawn = text(row, to + inward * part * to.abs());
    let there = size(row, &drawn)?;
    let beyond = (asked - there) * inward > 0.0;
    (beyond && there.to_bits() != to.to_bits()).then_some(drawn)
}

/// Whether the family offers something once changes are made.
fn comes_in(resolver: &Resolver, line: &RuledOut, sets: &Sets) -> bool {
    let pair = resolver.pair(sets, (line.family, line.assist));
    pair.is_some_and(|(job, pool)| pool.meeting(&job).next().is_some())
}

/// The family's place once changes are made; none where it does not come in.
fn came_in(resolver: &Resolver, line: &RuledOut, sets: &Sets) -> Option<NearMiss> {
    let place = |kinds: &[&Candidate]| {
        let all = kinds.iter().enumerate();
        let mut own =
            all.filter(|(_, kind)| kind.family == line.family && kind.assist == line.assist);
        own.next().map(|(index, option)| NearMiss {
            least_change: Vec::new(),
            then_rank: index + 1,
            then_net_worth: option.net_worth,
            then_drive: option.words.clone(),
        })
    };
    resolver.best_of_kinds(sets, &mut None, place).ok()?
}

fn text(row: &CriterionRow, size: f64) -> String {
    match row.measure {
        Measure::Quantity(kind) => in_words(kind, size),
        Measure::Number => show(size),
    }
}

/// The number that a text of the file says.
fn size(row: &CriterionRow, text: &str) -> Option<f64> {
    match row.measure {
        Measure::Quantity(kind) => parse_as(text, kind).ok(),
        Measure::Number => text.parse().ok(),
    }
}

/// A number in the words of the file, rounded to the side on which the option still meets it.
fn outward(row: &CriterionRow, raw: f64) -> String {
    let away = if row.more_is_better { -1.0 } else { 1.0 };
    let meets = |text: &String| size(row, text).is_some_and(|said| (said - raw) * away >= 0.0);
    let steps = [0.0, 0.005, 0.01, 0.02];
    let texts = steps.map(|step| text(row, to_digits(raw + away * step * raw.abs(), 3)));
    let [.., last] = &texts;
    texts
        .iter()
        .find(|text| meets(text))
        .unwrap_or(last)
        .clone()
}
