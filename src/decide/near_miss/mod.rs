//! What would let a family back in that is ruled out: the least change, tried.
//!
//! The family is asked again with every limit let out as far as anyone would go, once as the file is and once for each change
//! of one or two of its words, or of a size that is no limit: where the pins of a hinge's drive stand, how far an arm may bend,
//! how long it is and which way it stands, how long and heavy the base is, what the mains give, how often a crank is turned.
//! Of what it then offers, the option that falls short least is taken; each shortfall counts as a part of the limit it is
//! measured against, and none may be a whole one. The change is then made and the study made again: what that does not bear
//! out is not said.

mod cause;
mod changes;

use super::change::limit_to;
use super::resolve::Resolver;
use crate::quantity::{Kind, to_digits};
use crate::requirements::{CRITERIA, Criterion, CriterionRow, Goal, Measure, Requirements};
use crate::study::{Change, Contender, Failing, NearMiss, RuledOut, in_parallel};
use cause::cause;
use changes::{Concession, MAINS, beside_musts, conceded};

/// Limits are let out by less than this part of themselves: a budget doubled is another job.
const MOST: f64 = 1.0;
/// Things conceded at most, words and numbers together: who is asked for three has been asked for another job.
const CONCEDED: usize = 2;
/// Ways tried, the least change first, before a family is given up.
const TRIED: usize = 12;
/// Parts by which a number that lets a family in is drawn back towards what the file asks while it still does: when none of
/// them does, it is the least to within the last.
const DRAWN_BACK: [f64; 3] = [0.1, 0.03, 0.01];

/// Fills in, for every family and assist ruled out, what would let it back in.
pub fn near_misses(resolver: &Resolver, ruled_out: &mut [RuledOut]) {
    let found = in_parallel(ruled_out.len() * 2, |index| {
        let line = &ruled_out[index / 2];
        if index % 2 == 0 {
            return nearest(resolver, line, &[Concession::default()]);
        }
        let changes = beside_musts(resolver.study(), resolver.job(), line);
        nearest(resolver, line, &changes)
    });
    let mut found = found.into_iter();
    for line in &mut *ruled_out {
        let (plain, worded) = (found.next().flatten(), found.next().flatten());
        let (near, also) = match (plain, worded) {
            (None, worded) => (worded, None),
            // Words are not changed for nothing, nor where neither change is worth making.
            (Some(plain), Some(worded)) if !better(&worded, &plain) || idle(&worded, &plain) => {
                (Some(plain), None)
            }
            both => both,
        };
        // What is told to stop it is what the change mends.
        if let Some(fails) = near.as_ref().and_then(|found| found.mends.clone()) {
            line.fails = fails;
            line.otherwise = Vec::new();
        }
        line.near_miss = near.map(|found| found.near);
        line.with_words_changed = also.map(|found| found.near);
    }
    say_what_still_stops(resolver, ruled_out);
}

/// Of families that no change lets back in, what would still stop them after the best change for others that the same stops now.
fn say_what_still_stops(resolver: &Resolver, ruled_out: &mut [RuledOut]) {
    let stops = |line: &RuledOut| {
        let fails = line.fails.iter();
        fails.map(|fail| fail.check.clone()).collect::<Vec<_>>()
    };
    for index in 0..ruled_out.len() {
        let Some((line, own)) = ruled_out.get(index).map(|line| (line, stops(line))) else {
            continue;
        };
        let alike = ruled_out.iter().filter(|other| stops(other) == own);
        let changes = alike.filter_map(|other| other.near_miss.as_ref());
        let best = changes.min_by_key(|near| near.then_rank);
        let Some(near) = best.filter(|_| line.near_miss.is_none()) else {
            continue;
        };
        let tried = resolver.attempts(&near.least_change, line.pair());
        let still = tried.and_then(|attempts| attempts.into_iter().next());
        if let Some(line) = ruled_out.get_mut(index) {
            line.then_fails = still.unwrap_or_default();
        }
    }
}

/// A change that lets a family back in.
struct WayBack {
    /// What it asks for: the sum of its parts.
    cost: f64,
    near: NearMiss,
    /// What it mends, where that is known.
    mends: Option<Vec<Failing>>,
}

/// Whether a change brings more than what is first now; where nothing is, whatever comes in does.
fn brings(near: &NearMiss) -> bool {
    near.then_gain.is_none_or(|gain| gain > 0.0)
}

/// Whether neither of two changes brings more than what is first now.
fn idle(this: &WayBack, that: &WayBack) -> bool {
    !brings(&this.near) && !brings(&that.near)
}

/// Whether another change asks for less, or brings more.
fn better(this: &WayBack, than: &WayBack) -> bool {
    let more = this.near.then_net_value > than.near.then_net_value;
    this.cost < than.cost * (1.0 - 1e-6) || more
}

/// Whether a change asks for two things and leads nowhere: to less than what is first now, or to a place behind others.
fn asks_much(near: &NearMiss) -> bool {
    conceded(&near.least_change) > 1 && (!brings(near) || near.then_rank > 1)
}

/// The least change over some concessions that the study, made again, bears out.
fn nearest(resolver: &Resolver, line: &RuledOut, concessions: &[Concession]) -> Option<WayBack> {
    let job = resolver.job();
    let offered = in_parallel(concessions.len(), |index| {
        let concession = &concessions[index];
        let mut changes = concession.changes.clone();
        let goals = CRITERIA
            .iter()
            .filter_map(|row| Some((row, job.goals.get(&row.criterion)?)));
        changes.extend(goals.map(|(row, goal)| let_out(row, goal)));
        let Some((then, pool)) = resolver.pair(&changes, line.pair()) else {
            return Vec::new();
        };
        let short = |option: &Contender| {
            let count = conceded(&concession.changes) + behind(job, option).count();
            let cost = concession.cost + shortfall(job, option)?;
            (count <= CONCEDED).then(|| (cost, &concession.changes, option.clone()))
        };
        pool.meeting(&then).filter_map(short).collect()
    });
    let mut found: Vec<(f64, &Vec<Change>, Contender)> = offered.into_iter().flatten().collect();
    found.sort_by(|(p, few, this), (q, many, that)| {
        p.total_cmp(q)
            .then_with(|| few.len().cmp(&many.len()))
            .then_with(|| that.net_value.total_cmp(&this.net_value))
            .then_with(|| this.id.cmp(&that.id))
    });
    found
        .iter()
        .take(TRIED)
        .find_map(|(cost, changes, attempt)| {
            let (near, mends) = borne_out(resolver, line, changes, attempt)?;
            let cost = *cost;
            (!asks_much(&near)).then_some(WayBack { cost, near, mends })
        })
}

/// A limit let out as far as anyone would go.
fn let_out(row: &CriterionRow, goal: &Goal) -> Change {
    let far = if row.more_is_better {
        goal.limit * (1.0 - MOST).max(1e-3)
    } else {
        goal.limit * (1.0 + MOST)
    };
    limit_to(row, goal.limit, far)
}

/// The limits that an attempt stays behind.
fn behind(job: &Requirements, attempt: &Contender) -> impl Iterator<Item = Criterion> {
    let behind = |(criterion, goal): &(&Criterion, &Goal)| beyond(**criterion, goal, attempt) > 0.0;
    job.goals
        .iter()
        .filter(behind)
        .map(|(criterion, _)| *criterion)
}

/// Sum of shortfalls, each a part of its limit; none where one is a whole.
fn shortfall(job: &Requirements, attempt: &Contender) -> Option<f64> {
    let parts = job.goals.iter().map(|(criterion, goal)| {
        let part = beyond(*criterion, goal, attempt) / scale_of(goal);
        (part < MOST).then_some(part)
    });
    parts.sum()
}

/// What a shortfall is a part of: the limit, or the way from limit to target where the limit is 0.
fn scale_of(goal: &Goal) -> f64 {
    let apart = goal
        .reward
        .map_or(1.0, |reward| (goal.limit - reward.target).abs());
    if goal.limit == 0.0 {
        apart
    } else {
        goal.limit.abs()
    }
}

/// How far an attempt stays behind a limit; 0 where it meets it.
fn beyond(criterion: Criterion, goal: &Goal, attempt: &Contender) -> f64 {
    let raw = attempt.criteria.get(&criterion).copied();
    let beyond = criterion
        .row()
        .worse_by(goal.limit, raw.unwrap_or(goal.limit));
    // A hair is not a shortfall: checks pass at the limit.
    if beyond > 1e-9 * scale_of(goal) {
        beyond
    } else {
        0.0
    }
}

/// The change made and the study made again; none where the family does not come back by it.
fn borne_out(
    resolver: &Resolver,
    line: &RuledOut,
    changes: &[Change],
    attempt: &Contender,
) -> Option<(NearMiss, Option<Vec<Failing>>)> {
    let mut all = changes.to_vec();
    for criterion in behind(resolver.job(), attempt) {
        let row = criterion.row();
        let asked = resolver.job().goals.get(&criterion)?.limit;
        let raw = attempt.criteria.get(&criterion).copied()?;
        let from = row.measure.words(asked);
        all.push(Change::new(row.limit(), from, outward(row, raw)));
    }
    if !comes_in(resolver, line, &all) {
        return None;
    }
    // Other drives than the one at hand may do with less: a drive is designed at the very limit, and of two numbers let out
    // the one leaves more room than it needs.
    while let Some(nearer) = drawn_back(resolver, line, &all) {
        all = nearer;
    }
    let mends = cause(resolver, line, &all);
    Some((came_in(resolver, line, all)?, mends))
}

/// The changes with one of their numbers drawn back towards the file's by which the family still comes in.
fn drawn_back(resolver: &Resolver, line: &RuledOut, all: &[Change]) -> Option<Vec<Change>> {
    let tries = (0..all.len()).flat_map(|index| DRAWN_BACK.map(|part| (index, part)));
    let nearer = |(index, part): (usize, f64)| {
        let mut nearer = all.to_vec();
        let change = nearer.get_mut(index)?;
        change.to = back(change, part)?;
        comes_in(resolver, line, &nearer).then_some(nearer)
    };
    tries.into_iter().find_map(nearer)
}

/// A number drawn back by a part of itself; none where that is what the file asks, or no longer beyond it, or where it is a
/// word or follows from a sum.
fn back(change: &Change, part: f64) -> Option<String> {
    let measure = match change.field.strip_suffix(".limit") {
        Some(path) => CRITERIA.iter().find(|row| row.path == path)?.measure,
        None if change.field == MAINS => Measure::Quantity(Kind::Power),
        None => return None,
    };
    let [asked, to] = [measure.size(&change.from)?, measure.size(&change.to)?];
    let inward = (asked - to).signum();
    let drawn = measure.words(to + inward * part * to.abs());
    let there = measure.size(&drawn)?;
    let beyond = (asked - there) * inward > 0.0;
    (beyond && there.to_bits() != to.to_bits()).then_some(drawn)
}

/// Whether the family offers something once changes are made.
fn comes_in(resolver: &Resolver, line: &RuledOut, changes: &[Change]) -> bool {
    let pair = resolver.pair(changes, line.pair());
    pair.is_some_and(|(job, pool)| pool.meeting(&job).next().is_some())
}

/// The family's place once changes are made; none where it does not come in.
fn came_in(resolver: &Resolver, line: &RuledOut, changes: Vec<Change>) -> Option<NearMiss> {
    let now = resolver.study().options.first();
    let place = |kinds: &[&Contender]| {
        let own = |kind: &&Contender| kind.family == line.family && kind.assist == line.assist;
        let index = kinds.iter().position(own)?;
        let option = kinds.get(index)?;
        Some(NearMiss {
            least_change: Vec::new(),
            then_rank: index + 1,
            then_of: kinds.len(),
            then_net_value: option.net_value,
            then_purchase: option.purchase,
            then_gain: now.map(|first| option.net_value - first.net_value),
            then_drive: option.words.clone(),
        })
    };
    let found = resolver.best_of_kinds(&changes, &mut None, place);
    Some(NearMiss {
        least_change: changes,
        ..found.ok()??
    })
}

/// A number in the words of the file, rounded to the side on which the option still meets it.
fn outward(row: &CriterionRow, raw: f64) -> String {
    let away = if row.more_is_better { -1.0 } else { 1.0 };
    let meets = |text: &String| {
        let said = row.measure.size(text);
        said.is_some_and(|said| (said - raw) * away >= 0.0)
    };
    let steps = [0.0, 0.005, 0.01, 0.02];
    let stepped = |step: f64| to_digits(raw + away * step * raw.abs(), 3);
    let texts = steps.map(|step| row.measure.words(stepped(step)));
    let [.., last] = &texts;
    texts
        .iter()
        .find(|text| meets(text))
        .unwrap_or(last)
        .clone()
}
