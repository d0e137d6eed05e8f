//! Every train of every family with every assist, judged against the musts.

use super::file::RuledOut;
use super::judge::Judged;
use super::ruled_out;
use crate::catalog::Catalog;
use crate::demand::Book;
use crate::family::{Ask, Bench, FAMILIES, Fitted};
use crate::requirements::{Requirements, Slide};

/// What the families offer.
#[derive(Debug)]
pub struct Generated<'a> {
    /// Options that pass every check and meet every must.
    pub options: Vec<Judged<'a>>,
    /// Family and assist pairs that offer none.
    pub ruled_out: Vec<RuledOut>,
}

/// Asks every family for its trains with every assist.
#[must_use]
pub fn every_train<'a>(
    job: &'a Requirements,
    slide: &'a Slide,
    catalog: &'a Catalog,
    book: &'a Book,
    times: &'a [f64],
    assists: &'a [Fitted<'a>],
) -> Generated<'a> {
    let mut generated = Generated {
        options: Vec::new(),
        ruled_out: Vec::new(),
    };
    for family in FAMILIES {
        for same in assists.chunk_by(|p, q| p.assist.name() == q.assist.name()) {
            let mut bench = Bench::default();
            let before = generated.options.len();
            for assist in same {
                family.trains(
                    &Ask {
                        job,
                        slide,
                        catalog,
                        assist,
                        times,
                        book,
                    },
                    &mut bench,
                );
                for train in bench.sound.drain(..).collect::<Vec<_>>() {
                    let judged = Judged::new(job, train, assist);
                    let broken = judged.broken_musts(job);
                    if broken.is_empty() {
                        generated.options.push(judged);
                    } else {
                        bench.misses(broken);
                    }
                }
            }
            if generated.options.len() == before {
                let fails = bench.take_nearest();
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
