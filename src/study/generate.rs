//! Every drive of every family with every assist, judged against the limits.

use super::judge::{Judged, Judging, broken_musts};
use super::parallel::in_parallel;
use super::ruled_out::{self, RuledOut};
use crate::family::{self, Ask, Bench, Check, FAMILIES, Family, Fitted};

/// What the families offer.
#[derive(Debug)]
pub struct Generated<'a> {
    /// Options that pass every check and meet every limit.
    pub options: Vec<Judged<'a>>,
    /// Family and assist pairs that offer none.
    pub ruled_out: Vec<RuledOut>,
}

/// Asks every family for its drives with every assist; of those that offer none it asks again, what came nearest.
pub fn every_train<'a>(base: &Ask<'a>, assists: &'a [Fitted<'a>], by: Judging) -> Generated<'a> {
    let ask = |assist| base.with(assist);
    let pairs = pairs(assists);
    let mut offered = in_parallel(pairs.len(), |index| {
        let (family, assist) = pairs[index];
        offer(family, &ask(assist), by, &mut Bench::silent())
    })
    .into_iter();
    let mut options = Vec::new();
    let mut without: Vec<(&dyn Family, &[Fitted])> = Vec::new();
    for family in FAMILIES {
        for same in assists.chunk_by(|p, q| p.assist.name() == q.assist.name()) {
            let before = options.len();
            let drives = offered.by_ref().take(same.len());
            options.extend(drives.flatten());
            if options.len() == before {
                without.push((*family, same));
            }
        }
    }
    let ruled_out = in_parallel(without.len(), |index| {
        let (family, same) = without[index];
        nearest(family, &ask(&same[0]), same, by)
    });
    Generated { options, ruled_out }
}

/// Every family with every assist.
fn pairs<'a>(assists: &'a [Fitted<'a>]) -> Vec<(&'static dyn Family, &'a Fitted<'a>)> {
    let with = |family: &&'static dyn Family| {
        let family = *family;
        assists.iter().map(move |assist| (family, assist))
    };
    FAMILIES.iter().flat_map(with).collect()
}

/// What came nearest of a family that offers nothing with one sort of assist.
fn nearest<'a>(
    family: &dyn Family,
    base: &Ask<'a>,
    same: &'a [Fitted<'a>],
    by: Judging,
) -> RuledOut {
    let line = |fails: &[Check], otherwise: &[Check]| {
        let assist = same[0].assist.name();
        ruled_out::line(by.job, family.name(), assist, (fails, otherwise))
    };
    let known = stopped_whatever(base, &same[0]);
    if !known.is_empty() {
        return line(&known, &[]);
    }
    let (fails, otherwise) = try_assists(family, base, same, by).take_reason();
    line(&fails, &otherwise)
}

/// Whether it tips or its arm bends is known whatever the parts: no other part would mend it, so none is tried.
fn stopped_whatever<'a>(base: &Ask<'a>, assist: &'a Fitted<'a>) -> Vec<Check> {
    let longest = base.times.iter().copied().fold(0.0, f64::max);
    let slowest = base.book.at(&assist.assist, longest);
    let mut known = family::structure::bending(base.job, base.book.axis(), &slowest);
    known.extend(family::tipping(base.job, &slowest));
    known.retain(|check| !check.passes());
    known
}

/// A family asked with each assist, every failed attempt remembered.
fn try_assists<'a>(
    family: &dyn Family,
    base: &Ask<'a>,
    same: &'a [Fitted<'a>],
    by: Judging,
) -> Bench<'a> {
    let benches = in_parallel(same.len(), |index| {
        let mut bench = Bench::default();
        offer(family, &base.with(&same[index]), by, &mut bench);
        bench
    });
    let mut bench = Bench::default();
    for tried in benches {
        bench.join(tried);
    }
    bench
}

/// What stopped the attempts of a family with some assists, the one that says most first.
pub fn attempts<'a>(
    name: &str,
    base: &Ask<'a>,
    assists: &'a [Fitted<'a>],
    by: Judging,
) -> Vec<Vec<Check>> {
    family::family(name).map_or_else(Vec::new, |family| {
        try_assists(family, base, assists, by).take_attempts()
    })
}

/// The drives of one family, or of all, that pass every check with one sort of assist, or with all: judged, no limit held.
pub fn sound_trains<'a, T: Send>(
    only: Option<(&str, &str)>,
    base: &Ask<'a>,
    assists: &'a [Fitted<'a>],
    by: Judging,
    of: impl Fn(&Judged<'a>) -> T + Sync,
) -> Vec<T> {
    let mut pairs = pairs(assists);
    if let Some((name, sort)) = only {
        pairs.retain(|(family, with)| family.name() == name && with.assist.name() == sort);
    }
    let work = |index: usize| {
        let (family, assist) = pairs[index];
        let judged = sound(family, &base.with(assist), by, &mut Bench::silent());
        judged.iter().map(&of).collect::<Vec<_>>()
    };
    in_parallel(pairs.len(), work)
        .into_iter()
        .flatten()
        .collect()
}

/// The drives of a family with one assist that pass every check, judged.
fn sound<'a>(
    family: &dyn Family,
    ask: &Ask<'a>,
    by: Judging,
    bench: &mut Bench<'a>,
) -> Vec<Judged<'a>> {
    family.drives(ask, bench);
    let drives = core::mem::take(&mut bench.sound).into_iter();
    drives
        .map(|drive| Judged::new(by, drive, ask.assist))
        .collect()
}

/// Of those that pass every check those that meet every limit.
fn offer<'a>(
    family: &dyn Family,
    ask: &Ask<'a>,
    by: Judging,
    bench: &mut Bench<'a>,
) -> Vec<Judged<'a>> {
    let mut options = sound(family, ask, by, bench);
    options.retain(|judged| {
        let broken = broken_musts(by.job, &judged.criteria);
        let meets = broken.is_empty();
        bench.misses(broken);
        meets
    });
    options
}
