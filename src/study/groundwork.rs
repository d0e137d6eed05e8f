//! A job with what families are asked with: its demands, design times and air strokes.

use std::sync::Arc;

use super::judge::Judging;
use super::{Declined, Rankings, times};
use crate::catalog::Catalog;
use crate::demand::Book;
use crate::family::{self, Ask, Fitted, Strokes};
use crate::requirements::{Brief, Requirements};

/// A job, ready to be asked of the families.
pub(super) struct Groundwork<'j> {
    pub(super) by: Judging<'j>,
    pub(super) brief: Brief,
    catalog: &'j Catalog,
    /// The parts that bear the site, where not all do.
    suited: Option<Arc<Catalog>>,
    pub(super) book: Arc<Book>,
    times: Vec<f64>,
    strokes: Arc<Strokes>,
    none: Fitted<'j>,
}

impl<'j> Groundwork<'j> {
    /// Works out what all families share; [`Declined`] where a hinge has no pins for its drive.
    pub(super) fn new(job: &'j Requirements, rankings: &'j Rankings) -> Result<Self, Declined> {
        let scale = &rankings.scale;
        Ok(Self {
            brief: Brief::new(job),
            by: Judging { job, scale },
            catalog: rankings.catalog,
            suited: rankings.suited(job),
            book: rankings.book(job).ok_or(Declined::NoPins)?,
            times: times::design_times(job, scale),
            strokes: rankings.strokes(job),
            none: Fitted::none(),
        })
    }

    /// Every part, whether it bears the site or not.
    pub(super) fn all_parts(&self) -> &Catalog {
        self.catalog
    }

    fn catalog(&self) -> &Catalog {
        self.suited.as_deref().unwrap_or(self.catalog)
    }

    /// The question, without an assist.
    pub(super) fn base(&self) -> Ask<'_> {
        Ask {
            job: &self.brief,
            catalog: self.catalog(),
            assist: &self.none,
            times: &self.times,
            book: &self.book,
            strokes: &self.strokes,
        }
    }

    /// Every assist that fits the job.
    pub(super) fn assists(&self) -> Vec<Fitted<'_>> {
        family::assist::fitted(&self.brief, self.catalog(), &self.book)
    }

    /// Those of one sort.
    pub(super) fn assists_of(&self, sort: &str) -> Vec<Fitted<'_>> {
        if sort == self.none.assist.name() {
            return vec![Fitted::none()];
        }
        let mut all = self.assists();
        all.retain(|fitted| fitted.assist.name() == sort);
        all
    }
}
