//! Pairs of motor and gearbox in the order in which they are taken, without looking at every one.

use core::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::fit::Seat;
use super::geared::{Geared, Joined, Member, Spread};
use super::motor::Motor;
use super::pick::{self, Pick, Turn};
use super::points::{Half, Points, better};
use crate::catalog::Gearbox;
use crate::family::check::SURELY;

/// So many gearboxes are looked at ahead of their turn: those that surely fail need not be put in order.
const LOOKED_AT: usize = 64;

/// Pairs that may do on a screw: those that bear the site first, then the cheapest.
pub(super) struct Queue<'q, 'a> {
    seat: Seat<'q, 'a>,
    geared: &'q Geared<'a>,
    boxes: Vec<Boxes<'q, 'a>>,
    /// Motors that have not joined yet; the dearer ones join when their turn comes.
    rows: Vec<Row>,
    /// Those that have joined.
    joined: Vec<Joined<'a>>,
    /// Of each motor and ratio that joined the pair that comes next.
    heap: BinaryHeap<Reverse<Entry<'a>>>,
}

/// Gearboxes of one ratio that bear a load.
struct Boxes<'q, 'a> {
    ratio: f64,
    spread: Spread<'a>,
    /// For a motor that bears the site, and for one that does not.
    lists: [Vec<&'q Member<&'a Gearbox>>; 2],
}

/// Motors for the gearboxes of one ratio, in the order in which they are taken: all bear the site, or none does.
struct Row {
    boxes: usize,
    next: usize,
    end: usize,
}

/// A motor with the gearboxes of one ratio, by their places, and its place among those that joined.
#[derive(Debug, Clone, Copy)]
struct With {
    motor: usize,
    boxes: usize,
    joined: usize,
}

impl<'q, 'a> Queue<'q, 'a> {
    pub(super) fn new(seat: Seat<'q, 'a>, geared: &'q Geared<'a>) -> Self {
        let mut queue = Self {
            seat,
            geared,
            boxes: Vec::new(),
            rows: Vec::new(),
            joined: Vec::new(),
            heap: BinaryHeap::new(),
        };
        let bearing = geared.motors.partition_point(|motor| !motor.out);
        let sorts = [(0, bearing), (bearing, geared.motors.len())];
        for series in &geared.series {
            let strong = |gearbox: &&Member<&Gearbox>| {
                !pick::is_weak(seat.ask, seat.load, series.ratio, gearbox.reach)
            };
            let list = |at: usize| {
                let all: &[Member<&Gearbox>] = &series.lists[at];
                // Where all motors bear the site nobody asks for the other list.
                let needed = at == 0 || bearing < geared.motors.len();
                let all = all.iter().filter(|_| needed);
                all.filter(strong).collect::<Vec<_>>()
            };
            let lists = [0, 1].map(list);
            let Some(spread) = Spread::of(lists[0].iter().copied()) else {
                continue;
            };
            for (next, end) in sorts {
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
            let Reverse(Entry { with, at, .. }) = self.heap.pop()?;
            let pick = self.pick(with, at)?;
            let later = self.entry(with, at + 1, best);
            self.heap.extend(later.map(Reverse));
            if better(&pick.finer_points, best) {
                return Some(pick);
            }
        }
    }

    /// A motor with one of its gearboxes.
    fn pick(&self, with: With, at: usize) -> Option<Pick<'a>> {
        let motor = self.geared.motors.get(with.motor)?;
        let boxes = self.boxes.get(with.boxes)?;
        let gearbox = boxes.list(motor).get(at)?;
        let points = |half| self.geared.wanted.points(boxes.ratio, motor.half, half);
        Some(Pick {
            motor: motor.part,
            gearbox: Some(gearbox.part),
            reach: motor.reach,
            finer_points: points(gearbox.half),
        })
    }

    /// Of a motor's gearboxes from some place on the first with which it may be better than the best so far.
    fn entry(&self, with: With, from: usize, best: Option<Points>) -> Option<Entry<'a>> {
        let motor = self.geared.motors.get(with.motor)?;
        let boxes = self.boxes.get(with.boxes)?;
        let joined = self.joined.get(with.joined)?;
        let points = |half: Half| self.geared.wanted.points(boxes.ratio, motor.half, half);
        if !better(&points(boxes.spread.least), best) {
            return None;
        }
        let list = boxes.list(motor);
        let mut looked_at = 0;
        let may_do = |gearbox: &&Member<&'a Gearbox>| {
            if !joined.may_take(gearbox.part) {
                return false;
            }
            let finer_points = points(gearbox.half);
            if !better(&finer_points, best) {
                return false;
            }
            looked_at += 1;
            let pick = Pick {
                gearbox: Some(gearbox.part),
                finer_points,
                ..joined.fit.pick
            };
            looked_at > LOOKED_AT || !self.is_hopeless(joined, pick)
        };
        let at = from + list.get(from..)?.iter().position(may_do)?;
        Some(Entry {
            turn: Turn::of_pair(motor, list.get(at)?),
            with,
            at,
        })
    }

    /// Whether a pair surely fails: it would be dropped when its turn came.
    fn is_hopeless(&self, joined: &Joined<'a>, pick: Pick<'a>) -> bool {
        let Seat { ask, load, .. } = self.seat;
        joined.fit.with(self.seat, pick).is_hopeless(ask, load)
    }

    /// Lets every motor join whose cheapest pair may come before all that wait.
    fn join(&mut self, best: Option<Points>) {
        for index in 0..self.rows.len() {
            while let Some((place, turn)) = self.candidate(index, best) {
                if let Some(Reverse(first)) = self.heap.peek()
                    && turn.price_order(&first.turn).is_gt()
                {
                    break;
                }
                let Some(row) = self.rows.get_mut(index) else {
                    break;
                };
                row.next = place + 1;
                let with = With {
                    motor: place,
                    boxes: row.boxes,
                    joined: self.joined.len(),
                };
                let motor = self.geared.motors.get(with.motor);
                let boxes = self.boxes.get(with.boxes);
                if let (Some(motor), Some(boxes)) = (motor, boxes)
                    && let Some(joined) = boxes.spread.joined(self.seat, motor)
                {
                    self.joined.push(joined);
                    let first = self.entry(with, 0, best);
                    self.heap.extend(first.map(Reverse));
                }
            }
        }
    }

    /// The next motor of a row that is quick, strong and fine enough, and the turn of its cheapest pair; those that are not are passed over for good.
    fn candidate(&mut self, index: usize, best: Option<Points>) -> Option<(usize, Turn<'a>)> {
        let row = self.rows.get_mut(index)?;
        let boxes = self.boxes.get(row.boxes)?;
        let (geared, seat) = (self.geared, self.seat);
        let fits = |motor: &Member<Motor<'a>>| {
            let points = geared
                .wanted
                .points(boxes.ratio, motor.half, boxes.spread.least);
            better(&points, best)
                && boxes.spread.first_bound(seat.ask, seat.load, motor.reach) <= SURELY
        };
        let left = geared.motors.get(row.next..row.end)?;
        row.next += left.iter().position(fits).unwrap_or(left.len());
        let motor = geared.motors.get(row.next..row.end)?.first()?;
        let cheapest = boxes.list(motor).first()?;
        Some((row.next, Turn::of_pair(motor, cheapest)))
    }
}

impl<'q, 'a> Boxes<'q, 'a> {
    /// The gearboxes for a motor, in the order in which they are taken.
    fn list(&self, motor: &Member<Motor<'a>>) -> &[&'q Member<&'a Gearbox>] {
        &self.lists[usize::from(motor.out)]
    }
}

/// A pair that comes next of its motor and ratio.
struct Entry<'a> {
    turn: Turn<'a>,
    with: With,
    /// Place of the gearbox.
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
