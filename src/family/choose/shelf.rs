//! The parts of a kind in the order in which they are taken.

use super::figures::Merits;
use super::front::{NoWorse, ParetoFront};
use super::pairs::Rank;
use crate::catalog::Common;
use crate::family::{Ask, fitted::site};

/// A part with what it costs and brings.
#[derive(Debug, Clone, Copy)]
struct Shelved<'a, P> {
    part: &'a P,
    rank: Rank<'a>,
    /// What counts of it in the job.
    figures: Merits,
}

/// The parts of a kind: those that withstand the site first, then by life cost, then by id.
#[derive(Debug)]
pub struct Shelf<'a, P> {
    parts: Vec<Shelved<'a, P>>,
}

impl<'a, P> Shelf<'a, P> {
    /// Of parts that are taken as they come, one or so many.
    pub fn new(
        ask: &Ask<'a>,
        parts: impl IntoIterator<Item = &'a P>,
        common: impl Fn(&'a P) -> &'a Common,
    ) -> Self {
        let rates = ask.life_cost();
        Self::with(ask, parts, |part| {
            let common = common(part);
            (common, Merits::part(&rates, common))
        })
    }

    /// Of parts with figures of their own, such as a price that includes a length.
    pub fn with(
        ask: &Ask<'a>,
        parts: impl IntoIterator<Item = &'a P>,
        figures: impl Fn(&'a P) -> (&'a Common, Merits),
    ) -> Self {
        let goals = ask.goals();
        let shelved = |part: &'a P| {
            let (common, all) = figures(part);
            Shelved {
                part,
                rank: Rank {
                    out: u8::from(!site::suits(ask.job, common)),
                    cost: goals.life_cost(&all),
                    id: &common.id,
                },
                figures: goals.of_part(all),
            }
        };
        let mut parts: Vec<_> = parts.into_iter().map(shelved).collect();
        parts.sort_by(|p, q| p.rank.order(&q.rank));
        Self { parts }
    }

    /// The parts in their order.
    pub fn iter(&self) -> impl Iterator<Item = &'a P> {
        self.parts.iter().map(|shelved| shelved.part)
    }

    /// The first that will do.
    pub fn first_that(&self, will_do: impl Fn(&P) -> bool) -> Option<&'a P> {
        self.iter().find(|part| will_do(part))
    }

    /// The last of those that carry the most.
    pub fn strongest(&self, carries: impl Fn(&P) -> f64) -> Option<&'a P> {
        self.iter().max_by(|p, q| carries(p).total_cmp(&carries(q)))
    }

    /// Of those that will do the first, and each later one that is better than all before it in something that counts.
    pub fn choices(&self, will_do: impl Fn(&P) -> bool) -> Vec<&'a P> {
        let mut taken: ParetoFront<Merits, &'a P> = ParetoFront::default();
        let mut out = u8::MAX;
        for Shelved {
            part,
            rank,
            figures,
        } in &self.parts
        {
            // One that does not withstand the site is no choice beside one that does.
            if rank.out <= out && !taken.beats(figures) && will_do(part) {
                out = rank.out;
                taken.take(*figures, part);
            }
        }
        taken.into_items().collect()
    }

    /// The same, with a way to find by halving what carries enough.
    pub fn ladder(self, carries: impl Fn(&P) -> f64) -> Ladder<'a, P> {
        Ladder::new(self, carries)
    }
}

/// The parts of a [`Shelf`] by what they carry, without those that are never a choice because one taken sooner carries as
/// much and is no worse in anything that counts.
#[derive(Debug)]
pub struct Ladder<'a, P> {
    rungs: Vec<Rung<'a, P>>,
    /// Where what the rungs carry only grows, as where parts differ in cost alone, the first that is enough is found by halving.
    grows: bool,
    /// Whether no rung is better in something than the one before: the first that is enough is then the only choice.
    alone: bool,
    strongest: Option<&'a P>,
}

#[derive(Debug)]
struct Rung<'a, P> {
    carries: f64,
    shelved: Shelved<'a, P>,
}

/// What a part carries or stands, more being better, and what counts of it.
#[derive(Debug, Clone, Copy)]
pub struct Carries(pub f64, pub Merits);

impl NoWorse for Carries {
    fn no_worse(&self, other: &Self) -> bool {
        self.0 >= other.0 && self.1.no_worse(&other.1)
    }
}

impl<'a, P> Ladder<'a, P> {
    fn new(shelf: Shelf<'a, P>, carries: impl Fn(&P) -> f64) -> Self {
        let strongest = shelf.strongest(&carries);
        let mut taken: Vec<Carries> = Vec::new();
        let mut rungs: Vec<Rung<'a, P>> = Vec::new();
        for shelved in shelf.parts {
            let own = Carries(carries(shelved.part), shelved.figures);
            if taken.iter().any(|sooner| sooner.no_worse(&own)) {
                continue;
            }
            rungs.push(Rung {
                carries: own.0,
                shelved,
            });
            taken.push(own);
        }
        Self {
            grows: rungs.is_sorted_by(|p, q| p.carries < q.carries),
            alone: rungs.is_sorted_by(|p, q| p.shelved.figures.no_worse(&q.shelved.figures)),
            rungs,
            strongest,
        }
    }

    /// The first part that carries so much.
    pub fn first(&self, needed: f64) -> Option<&'a P> {
        self.enough(needed).next().map(|rung| rung.shelved.part)
    }

    /// The part that carries the most.
    pub fn strongest(&self) -> Option<&'a P> {
        self.strongest
    }

    /// The first part that carries so much, or the strongest, so that a check can say what is missing.
    pub fn first_or_strongest(&self, needed: f64) -> Option<&'a P> {
        self.first(needed).or(self.strongest)
    }

    /// Of the parts that carry so much the first, and each later one that is better in something that counts.
    pub fn choices(&self, needed: f64) -> Vec<&'a P> {
        if self.alone {
            return self.first(needed).into_iter().collect();
        }
        let mut taken: ParetoFront<Merits, &'a P> = ParetoFront::default();
        let mut out = u8::MAX;
        for Rung { shelved, .. } in self.enough(needed) {
            if shelved.rank.out <= out {
                out = shelved.rank.out;
                taken.take(shelved.figures, shelved.part);
            }
        }
        taken.into_items().collect()
    }

    fn enough(&self, needed: f64) -> impl Iterator<Item = &Rung<'a, P>> {
        let from = if self.grows {
            self.rungs.partition_point(|rung| rung.carries < needed)
        } else {
            0
        };
        let rungs = self.rungs.iter().skip(from);
        rungs.filter(move |rung| rung.carries >= needed)
    }
}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/shelf.rs"]
mod tests;
