//! What the change that lets a family back in mends: of all that stopped it, what still stops it just short of the change.

use super::{DRAWN_BACK, back};
use crate::decide::resolve::Resolver;
use crate::study::{Change, Failing, RuledOut};

/// Utilisations nearer than this are the same attempt's.
const SAME: f64 = 1e-9;

/// What stops a family as the file is that a change of a number mends; none where only words are changed, or where what
/// mends it is no check of an attempt.
pub(super) fn cause(resolver: &Resolver, line: &RuledOut, all: &[Change]) -> Option<Vec<Failing>> {
    let attempts = |changes: &[Change]| resolver.attempts(changes, line.pair());
    let mut short = all.to_vec();
    let [.., hundredth] = DRAWN_BACK;
    let nearer = |change: &mut Change| {
        change.to = back(change, hundredth)?;
        Some(())
    };
    short.iter_mut().find_map(nearer)?;
    let there = attempts(all)?;
    let stopped = attempts(&short)?
        .into_iter()
        .find(|fails| !there.iter().any(|known| alike(known, fails)))?;
    let covers = |fails: &Vec<Failing>| {
        let own = |fail: &Failing| fails.iter().any(|other| other.check == fail.check);
        stopped.iter().all(own)
    };
    attempts(&[])?.into_iter().find(covers)
}

/// Whether two attempts failed the same checks by as much.
fn alike(this: &[Failing], that: &[Failing]) -> bool {
    let same = |(p, q): (&Failing, &Failing)| {
        p.check == q.check && (p.utilisation - q.utilisation).abs() <= SAME * p.utilisation.abs()
    };
    this.len() == that.len() && this.iter().zip(that).all(same)
}
