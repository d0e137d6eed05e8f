//! Pairs of motor and gearbox in the order in which they are taken, without looking at every one.

use core::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::fit::{Fit, Seat};
use super::geared::{Geared, Member, Spread};
use super::motor::{Motor, SURELY};
use super::pick::{self, Pick, Turn};
use super::points::{Half, Points, better};
use crate::catalog::Gearbox;

/// So many gearboxes are looked at ahead of their turn: those that surely fail need not be put in order.
const LOOKED_AT: usize = 64;

/// Pairs that may do on a screw: those that bear the site first, then the cheapest.
pub(super) struct Queue<'q, 'a> {
    seat: Seat<'q, 'a>,
    geared: &'q Geared<'a>,
    boxes: Vec<Boxes<'a>>,
    /// Motors that have not joined yet; the dearer ones join when their turn comes.
    rows: Vec<Row>,
    /// Of each motor and ratio that joined the pair that comes next.
    heap: BinaryHeap<Reverse<Entry<'a>>>,
}

/// Gearboxes of one ratio that bear a load.
struct Boxes<'a> {
    ratio: f64,
    spread: Spread<'a>,
    /// For a motor that bears the site, and for one that does not.
    lists: [Vec<Member<&'a Gearbox>>; 2],
}

/// Motors for the gearboxes of one ratio, in the order in which they are taken: all bear the site, or none does.
struct Row {
    boxes: usize,
    next: usize,
    end: usize,
}

impl<'q, 'a> Queue<'q, 'a> {
    pub(super) fn new(seat: Seat<'q, 'a>, geared: &'q Geared<'a>) -> Self {
        let mut queue = Self {
            seat,
            geared,
            boxes: Vec::new(),
            rows: Vec::new(),
            heap: BinaryHeap::new(),
        };
        let strong =
            |gearbox: &&Member<&Gearbox>| !pick::is_weak(seat.ask, seat.load, gearbox.part);
        let bearing = geared.motors.partition_point(|motor| !motor.out);
        for series in &geared.series {
            let lists = [0, 1].map(|list: usize| {
                let all: &[Member<&Gearbox>] = &series.lists[list];
                all.iter().filter(strong).copied().collect::<Vec<_>>()
            });
            let Some(spread) = Spread::of(&lists[0]) else {
                continue;
            };
            for (next, end) in [(0, bearing), (bearing, geared.motors.len())] {
                let boxes = queue.boxes.len();
                queue.rows.push(Row { boxes, next, end });
            }
            queue.boxes.push(Boxes {
                ratio: series.ratio,
                spread,
                lists,
            });
        }
        queue
    }

    /// The next pair; of those left only such as are better in something than the best so far.
    pub(super) fn next(&mut self, best: Option<Points>) -> Option<Pick<'a>> {
        loop {
            self.join(best);
            let Reverse(entry) = self.heap.pop()?;
            let motor = self.geared.motors.get(entry.motor)?;
            let boxes = self.boxes.get(entry.boxes)?;
            let list = boxes.lists.get(usize::from(motor.out))?;
            let points = |half: Half| self.geared.wanted.points(boxes.ratio, motor.half, half);
            if !better(&points(boxes.spread.least), best) {
                continue;
            }
            let pick = |gearbox: &Member<&'a Gearbox>| Pick {
                motor: motor.part,
                gearbox: Some(gearbox.part),
                finer_points: points(gearbox.half),
            };
            let after = entry.at + 1;
            let mut later = list.iter().skip(after);
            let mut looked_at = 0;
            let later = later.position(|next| {
                let finer = better(&points(next.half), best);
                looked_at += usize::from(finer);
                finer && (looked_at > LOOKED_AT || !self.is_hopeless(pick(next)))
            });
            let pick = pick(list.get(entry.at)?);
            let later = later.and_then(|later| self.entry(entry.motor, entry.boxes, after + later));
            self.heap.extend(later.map(Reverse));
            if better(&pick.finer_points, best) {
                return Some(pick);
            }
        }
    }

    /// Whether a pair surely fails: it would be dropped when its turn came.
    fn is_hopeless(&self, pick: Pick<'a>) -> bool {
        let Seat { ask, load, .. } = self.seat;
        Fit::new(self.seat, pick).is_none_or(|fit| fit.is_hopeless(ask, load))
    }

    /// Lets every motor join whose cheapest pair may come before all that wait.
    fn join(&mut self, best: Option<Points>) {
        for index in 0..self.rows.len() {
            while let Some(entry) = self.candidate(index, best) {
                if let Some(Reverse(first)) = self.heap.peek()
                    && entry.turn.price_order(&first.turn).is_gt()
                {
                    break;
                }
                if let Some(row) = self.rows.get_mut(index) {
                    row.next = entry.motor + 1;
                }
                let motor = self.geared.motors.get(entry.motor);
                let boxes = self.boxes.get(entry.boxes);
                if let (Some(motor), Some(boxes)) = (motor, boxes)
                    && boxes.spread.may_do(self.seat, &motor.part)
                {
                    self.heap.push(Reverse(entry));
                }
            }
        }
    }

    /// The cheapest pair of the next motor of a row that is quick, strong and fine enough; those that are not are passed over for good.
    fn candidate(&mut self, index: usize, best: Option<Points>) -> Option<Entry<'a>> {
        let row = self.rows.get_mut(index)?;
        let boxes = self.boxes.get(row.boxes)?;
        let (geared, seat) = (self.geared, self.seat);
        let fits = |motor: &Member<Motor<'a>>| {
            let points = geared
                .wanted
                .points(boxes.ratio, motor.half, boxes.spread.least);
            better(&points, best)
                && boxes.spread.first_bound(seat.ask, seat.load, &motor.part) <= SURELY
        };
        let left = geared.motors.get(row.next..row.end)?;
        row.next += left.iter().position(fits).unwrap_or(left.len());
        let (motor, boxes) = (row.next, row.boxes);
        if motor == row.end {
            return None;
        }
        self.entry(motor, boxes, 0)
    }

    fn entry(&self, motor: usize, boxes: usize, at: usize) -> Option<Entry<'a>> {
        let member = self.geared.motors.get(motor)?;
        let lists = &self.boxes.get(boxes)?.lists;
        let gearbox = lists.get(usize::from(member.out))?.get(at)?;
        Some(Entry {
            turn: Turn::of_pair(member, gearbox),
            motor,
            boxes,
            at,
        })
    }
}

/// A pair that comes next of its motor and ratio.
struct Entry<'a> {
    turn: Turn<'a>,
    motor: usize,
    boxes: usize,
    at: usize,
}

impl Ord for Entry<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.turn.order(&other.turn)
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
