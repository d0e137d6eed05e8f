//! Pairs of a row and a column in the order in which they are taken, without looking at every one.
//!
//! A catalog of many makers has millions of pairs of a motor and a gearbox, of which one of the cheapest is taken. Each
//! row that may do at all waits in a heap with its cheapest column; rows that are more expensive join when their turn comes.
//! No physics is in here: what may do is asked of the caller's [`Bounds`].

use core::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

/// By what parts stand in order: how many of them do not withstand the site, then by cost, then by id.
#[derive(Debug, Clone, Copy)]
pub struct Rank<'a> {
    /// Parts that do not withstand the site.
    pub out: u8,
    /// What it costs, in whatever measure all that are compared share.
    pub cost: f64,
    /// Its id.
    pub id: &'a str,
}

impl Rank<'_> {
    /// Which of two is taken first.
    pub fn order(&self, other: &Self) -> Ordering {
        self.cmp_but_id(other).then_with(|| self.id.cmp(other.id))
    }

    fn cmp_but_id(&self, other: &Self) -> Ordering {
        let out = self.out.cmp(&other.out);
        out.then_with(|| self.cost.total_cmp(&other.cost))
    }

    /// Of two parts together; the ids are not joined.
    fn with(&self, other: &Self) -> Self {
        Self {
            out: self.out + other.out,
            cost: self.cost + other.cost,
            id: self.id,
        }
    }
}

/// What a caller knows of which pairs are worth a look. What it refuses is passed over for good, so that it may only become
/// stricter while pairs are taken.
pub trait Bounds {
    /// Whether a row may do with some column of a list.
    fn row(&mut self, list: usize, row: usize) -> bool;
    /// Whether a row may do with a column of a list.
    fn pair(&mut self, list: usize, row: usize, column: usize) -> bool;
}

/// A pair, by the places of its parts: which list of columns, row, column.
pub type Place = (usize, usize, usize);

/// All rows, each with every column of some lists of columns.
#[derive(Debug)]
pub struct Pairs<'p, 'a> {
    rows: &'p [Rank<'a>],
    lists: &'p [Vec<Rank<'a>>],
    /// Of each list the first row that has not joined.
    joins: Vec<usize>,
    /// Of each row and list that joined the pair that comes next.
    heap: BinaryHeap<Reverse<Entry<'a>>>,
}

impl<'p, 'a> Pairs<'p, 'a> {
    /// Of rows and lists of columns, each in the order in which they are taken.
    pub fn new(rows: &'p [Rank<'a>], lists: &'p [Vec<Rank<'a>>]) -> Self {
        Self {
            rows,
            lists,
            joins: vec![0; lists.len()],
            heap: BinaryHeap::new(),
        }
    }

    /// The next pair that may do.
    pub fn next(&mut self, bounds: &mut impl Bounds) -> Option<Place> {
        for list in 0..self.lists.len() {
            self.join(list, bounds);
        }
        loop {
            let Reverse(Entry { place, .. }) = self.heap.pop()?;
            let (list, row, column) = place;
            self.push(list, row, column + 1, bounds);
            for list in 0..self.lists.len() {
                self.join(list, bounds);
            }
            // Bounds may have become stricter since it was put in order.
            if bounds.pair(list, row, column) {
                return Some(place);
            }
        }
    }

    /// Lets every row join a list whose cheapest pair there may come before all that wait.
    fn join(&mut self, list: usize, bounds: &mut impl Bounds) {
        let Some(cheapest) = self.lists.get(list).and_then(|list| list.first()) else {
            return;
        };
        while let Some(at) = self.joins.get_mut(list)
            && let Some(row) = self.rows.get(*at)
        {
            let rank = row.with(cheapest);
            let waits = self.heap.peek();
            if waits.is_some_and(|Reverse(first)| rank.cmp_but_id(&first.rank).is_gt()) {
                return;
            }
            let place = *at;
            *at += 1;
            if bounds.row(list, place) {
                self.push(list, place, 0, bounds);
            }
        }
    }

    /// Puts the first column from some place on that may do with a row in order.
    fn push(&mut self, list: usize, row: usize, from: usize, bounds: &mut impl Bounds) {
        let (Some(own), Some(columns)) = (self.rows.get(row), self.lists.get(list)) else {
            return;
        };
        let mut left = columns.iter().enumerate().skip(from);
        if let Some((column, rank)) = left.find(|(column, _)| bounds.pair(list, row, *column)) {
            let entry = Entry::new(own, rank, (list, row, column));
            self.heap.push(Reverse(entry));
        }
    }
}

/// The pair of the least value, of equals the first in order; none where no pair has one.
///
/// Both bounds are no more than the value of a row with any column of a list: the first is asked of all, the second, where
/// that is not past the least value so far.
pub fn least<'a>(
    rows: &[Rank<'a>],
    lists: &[Vec<Rank<'a>>],
    [quick, close]: [&dyn Fn(usize, usize) -> f64; 2],
    value: impl Fn(Place) -> Option<f64>,
) -> Option<Place> {
    let of_list = |list| (0..rows.len()).map(move |row| (quick(list, row), list, row));
    let mut open: Vec<_> = (0..lists.len()).flat_map(of_list).collect();
    open.sort_by(|p, q| p.0.total_cmp(&q.0));
    let mut found: Option<(f64, Entry)> = None;
    for (bound, list, row) in open {
        let best = found.as_ref().map_or(f64::INFINITY, |(best, _)| *best);
        if bound > best {
            break;
        }
        if close(list, row) > best {
            continue;
        }
        let (Some(own), Some(columns)) = (rows.get(row), lists.get(list)) else {
            continue;
        };
        for (column, rank) in columns.iter().enumerate() {
            let place = (list, row, column);
            let Some(value) = value(place) else {
                continue;
            };
            let entry = Entry::new(own, rank, place);
            let nearer = |(best, first): &(f64, Entry)| {
                let order = value.total_cmp(best);
                order.then_with(|| entry.cmp(first)).is_lt()
            };
            if found.as_ref().is_none_or(nearer) {
                found = Some((value, entry));
            }
        }
    }
    found.map(|(_, entry)| entry.place)
}

/// A pair that comes next of its row and list.
#[derive(Debug)]
struct Entry<'a> {
    rank: Rank<'a>,
    other: &'a str,
    place: Place,
}

impl<'a> Entry<'a> {
    fn new(row: &Rank<'a>, column: &Rank<'a>, place: Place) -> Self {
        Self {
            rank: row.with(column),
            other: column.id,
            place,
        }
    }
}

impl Ord for Entry<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        let ids = || self.other.cmp(other.other);
        self.rank
            .order(&other.rank)
            .then_with(ids)
            .then_with(|| self.place.cmp(&other.place))
    }
}
impl PartialOrd for Entry<'_> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl PartialEq for Entry<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Entry<'_> {}

#[cfg(test)]
#[path = "../../../tests/unit/family/choose/pairs.rs"]
mod tests;
