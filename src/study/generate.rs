//! Every train of every family with every assist, judged against the musts.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use super::file::RuledOut;
use super::judge::{Judged, Scale};
use super::ruled_out;
use crate::catalog::Catalog;
use crate::demand::Book;
use crate::family::{self, Ask, Bench, FAMILIES, Family, Fitted};
use crate::requirements::Requirements;

/// What the families offer.
#[derive(Debug)]
pub struct Generated<'a> {
    /// Options that pass every check and meet every must.
    pub options: Vec<Judged<'a>>,
    /// Family and assist pairs that offer none.
    pub ruled_out: Vec<RuledOut>,
}

/// Asks every family for its trains with every assist; of those that offer none it asks again, what came nearest.
#[must_use]
pub fn every_train<'a>(
    job: &'a Requirements,
    catalog: &'a Catalog,
    book: &'a Book,
    times: &'a [f64],
    assists: &'a [Fitted<'a>],
    scale: &Scale,
) -> Generated<'a> {
    let ask = |assist| Ask {
        job,
        catalog,
        assist,
        times,
        book,
    };
    let pairs: Vec<(&dyn Family, &Fitted)> = FAMILIES
        .iter()
        .flat_map(|family| assists.iter().map(move |assist| (*family, assist)))
        .collect();
    let mut offered = in_parallel(pairs.len(), |index| {
        let (family, assist) = pairs[index];
        offer(family, &ask(assist), scale, &mut Bench::silent())
    })
    .into_iter();
    let mut generated = Generated {
        options: Vec::new(),
        ruled_out: Vec::new(),
    };
    for family in FAMILIES {
        for same in assists.chunk_by(|p, q| p.assist.name() == q.assist.name()) {
            let before = generated.options.len();
            let trains = offered.by_ref().take(same.len());
            generated.options.extend(trains.flatten());
            if generated.options.len() == before {
                let mut bench = Bench::default();
                for assist in same {
                    offer(*family, &ask(assist), scale, &mut bench);
                }
                let mut fails = bench.take_nearest();
                // Whether it tips or its arm bends is known whatever the parts, and decides even where a part was found wanting first.
                let slowest = book.at(&same[0].assist, times.iter().copied().fold(0.0, f64::max));
                let mut known = family::structure::bending(job, book.axis(), &slowest);
                known.extend(family::tipping(job, &slowest));
                known.retain(|check| {
                    !check.passes() && fails.iter().all(|other| other.id != check.id)
                });
                fails.extend(known);
                generated.ruled_out.push(ruled_out::line(
                    job,
                    family.name(),
                    same[0].assist.name(),
                    &fails,
                ));
            }
        }
    }
    generated
}

/// All that a family offers with one sort of assist, judged, nothing dropped.
#[must_use]
pub fn of_pair<'a>(
    family: &dyn Family,
    base: &Ask<'a>,
    assists: &'a [Fitted<'a>],
    scale: &Scale,
) -> Vec<Judged<'a>> {
    let work = |index: usize| {
        let ask = Ask {
            assist: &assists[index],
            ..*base
        };
        offer(family, &ask, scale, &mut Bench::silent())
    };
    in_parallel(assists.len(), work)
        .into_iter()
        .flatten()
        .collect()
}

/// The trains of a family with one assist that pass every check and meet every must.
fn offer<'a>(
    family: &dyn Family,
    ask: &Ask<'a>,
    scale: &Scale,
    bench: &mut Bench<'a>,
) -> Vec<Judged<'a>> {
    family.trains(ask, bench);
    let mut options = Vec::new();
    for train in bench.sound.drain(..).collect::<Vec<_>>() {
        let judged = Judged::new(ask.job, scale, train, ask.assist);
        let broken = judged.broken_musts(ask.job);
        if broken.is_empty() {
            options.push(judged);
        } else {
            bench.misses(broken);
        }
    }
    options
}

/// The results of `count` pieces of work, in their order, worked out on as many threads as there are cores.
fn in_parallel<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done = Vec::new();
        loop {
            // From the end: the last pieces are the longest, and should not be left to one thread.
            let taken = next.fetch_add(1, Ordering::Relaxed);
            let Some(index) = count.checked_sub(taken + 1) else {
                return done;
            };
            done.push((index, work(index)));
        }
    };
    let mut all = thread::scope(|scope| {
        let helpers: Vec<_> = (1..cores.min(count)).map(|_| scope.spawn(take)).collect();
        let mut all = take();
        for helper in helpers {
            match helper.join() {
                Ok(done) => all.extend(done),
                // A fault of ours: it goes on as it would without threads.
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all
    });
    all.sort_by_key(|(index, _)| *index);
    all.into_iter().map(|(_, result)| result).collect()
}
