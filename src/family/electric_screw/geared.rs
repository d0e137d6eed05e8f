//! Motors with gearboxes, taken in order without looking at every pair of them.

use core::cell::OnceCell;
use core::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::load::{Line, Load};
use super::motor::{Motor, SURELY, Still};
use super::pick::{self, Fit, Pick, Stock};
use super::spindle::Spindle;
use crate::catalog::{Common, Coupling, Gearbox};
use crate::family::efficient::asked;
use crate::family::{Ask, site};
use crate::quantity::{NoiseLevel, Si};
use crate::requirements::Criterion;

/// The motors of one type, each with every gearbox.
#[derive(Debug)]
pub(super) struct Geared<'a> {
    motors: Vec<Member<Motor<'a>>>,
    /// The gearboxes, ratio by ratio.
    series: Vec<Vec<Member<&'a Gearbox>>>,
    /// Every pair in order, once somebody asks for it.
    all: OnceCell<Vec<Pick<'a>>>,
}

/// A motor or a gearbox with what it brings to a pair.
#[derive(Debug, Clone, Copy)]
struct Member<T> {
    part: T,
    /// Whether it does not bear the site.
    out: bool,
    half: Half,
}

impl<'a> Geared<'a> {
    pub(super) fn new(ask: &Ask<'a>, motors: &[Motor<'a>]) -> Self {
        let motor = |motor: &Motor<'a>| Member {
            part: *motor,
            out: !site::suits(ask.job, motor.common()),
            half: Half::of_motor(motor),
        };
        let mut boxes: Vec<&Gearbox> = ask.catalog.gearboxes.iter().collect();
        boxes.sort_by(|p, q| p.ratio.total_cmp(&q.ratio));
        let series = |same: &[&'a Gearbox]| {
            let of = |gearbox: &&'a Gearbox| Member {
                part: *gearbox,
                out: !site::suits(ask.job, &gearbox.common),
                half: Half::of_gearbox(gearbox),
            };
            let mut list: Vec<_> = same.iter().map(of).collect();
            list.sort_by(|p, q| pick::order(ask, &p.part.common, &q.part.common));
            list
        };
        let same = |p: &&Gearbox, q: &&Gearbox| p.ratio.to_bits() == q.ratio.to_bits();
        Self {
            motors: motors.iter().map(motor).collect(),
            series: boxes.chunk_by(same).map(series).collect(),
            all: OnceCell::new(),
        }
    }

    /// Every pair in order.
    pub(super) fn all(&self, ask: &Ask<'a>) -> &[Pick<'a>] {
        self.all.get_or_init(|| {
            let with = |motor: &Member<Motor<'a>>| {
                let motor = motor.part;
                let boxes = self.series.iter().flatten();
                boxes.map(move |gearbox| Pick::new(ask, motor, Some(gearbox.part)))
            };
            pick::sorted(ask, self.motors.iter().flat_map(with).collect())
        })
    }

    /// The pairs that may do on a screw, in order.
    pub(super) fn queue<'q>(
        &'q self,
        ask: &'q Ask<'a>,
        stock: &Stock<'a>,
        spindle: &Spindle,
        load: &Load,
        coupling: &'a Coupling,
    ) -> Queue<'q, 'a> {
        let mut queue = Queue {
            ask,
            geared: self,
            boxes: Vec::new(),
            heap: BinaryHeap::new(),
        };
        for series in &self.series {
            let strong = |gearbox: &&Member<&Gearbox>| !pick::is_weak(ask, load, gearbox.part);
            let in_order: Vec<_> = series.iter().filter(strong).copied().collect();
            let Some(spread) = Spread::of(&in_order) else {
                continue;
            };
            let mut by_price = in_order.clone();
            by_price.sort_by(|p, q| {
                let (p, q) = (&p.part.common, &q.part.common);
                p.price.total_cmp(&q.price).then_with(|| p.id.cmp(&q.id))
            });
            let place = queue.boxes.len();
            queue.boxes.push(Boxes {
                least: spread.least,
                // A motor that does not bear the site is no better off with a gearbox that does.
                lists: [in_order, by_price],
            });
            for (index, motor) in self.motors.iter().enumerate() {
                if spread.may_do(ask, stock, spindle, load, coupling, &motor.part) {
                    queue.push(index, place, 0);
                }
            }
        }
        queue
    }
}

/// What a motor or a gearbox brings to where a pick can be better than a cheaper one, less being better.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Half {
    /// Step of the motor, play of the gearbox.
    turn_rad: f64,
    /// Sound as energy.
    sound: f64,
    mass_kg: f64,
    length_m: f64,
}

impl Half {
    fn new(common: &Common, turn_rad: f64, length_m: f64) -> Self {
        let sound = |level: NoiseLevel| libm::pow(10.0, level.si() / 10.0);
        Self {
            turn_rad,
            sound: common.noise.map_or(0.0, sound),
            mass_kg: common.mass.si(),
            length_m,
        }
    }
    pub(super) fn of_motor(motor: &Motor) -> Self {
        Self::new(motor.common(), motor.step_error_rad(), motor.length_m())
    }
    pub(super) fn of_gearbox(gearbox: &Gearbox) -> Self {
        let (play, length) = (gearbox.backlash.si(), gearbox.length.si());
        Self::new(&gearbox.common, play, length)
    }
    /// The least of each of two.
    pub(super) fn least(self, other: Self) -> Self {
        Self {
            turn_rad: self.turn_rad.min(other.turn_rad),
            sound: self.sound.min(other.sound),
            mass_kg: self.mass_kg.min(other.mass_kg),
            length_m: self.length_m.min(other.length_m),
        }
    }
    /// What both come to, as far as the job wants it: turn error at the screw, sound, mass, length.
    pub(super) fn points(ask: &Ask, ratio: f64, motor: Self, gearbox: Self) -> [f64; 4] {
        let wanted = |criterion, value| asked(ask, criterion, value);
        [
            wanted(
                Criterion::PositionError,
                motor.turn_rad / ratio + gearbox.turn_rad,
            ),
            wanted(Criterion::Noise, motor.sound + gearbox.sound),
            wanted(Criterion::AddedMass, motor.mass_kg + gearbox.mass_kg),
            wanted(Criterion::ClosedLength, motor.length_m + gearbox.length_m),
        ]
    }
}

/// Between what the gearboxes of one ratio lie.
struct Spread<'a> {
    first: &'a Gearbox,
    efficiency: [f64; 2],
    inertia_kg_m2: [f64; 2],
    least: Half,
}

impl<'a> Spread<'a> {
    fn of(boxes: &[Member<&'a Gearbox>]) -> Option<Self> {
        let first = boxes.first()?;
        let start = Self {
            first: first.part,
            efficiency: [first.part.efficiency; 2],
            inertia_kg_m2: [first.part.inertia.si(); 2],
            least: first.half,
        };
        let widened = |[low, high]: [f64; 2], value: f64| [low.min(value), high.max(value)];
        Some(boxes.iter().fold(start, |spread, gearbox| Self {
            first: spread.first,
            efficiency: widened(spread.efficiency, gearbox.part.efficiency),
            inertia_kg_m2: widened(spread.inertia_kg_m2, gearbox.part.inertia.si()),
            least: spread.least.least(gearbox.half),
        }))
    }

    /// Whether a motor may pass with one of them: none is better than the best of each figure together.
    fn may_do(
        &self,
        ask: &Ask<'a>,
        stock: &Stock<'a>,
        spindle: &Spindle,
        load: &Load,
        coupling: &'a Coupling,
        motor: &Motor<'a>,
    ) -> bool {
        let ratio = self.first.ratio;
        let line = Line {
            ratio,
            efficiency: self.efficiency[1],
            inertia_kg_m2: 0.0,
            carried_kg_m2: 0.0,
        };
        if motor.first_bound(ask, load, &line, Still::default()) > SURELY {
            return false;
        }
        // Brake and coupling follow from motor and ratio: they are the same with every one of them.
        let pick = Pick {
            motor: *motor,
            gearbox: Some(self.first),
            finer_points: [0.0; 4],
        };
        let Some(fit) = Fit::new(ask, stock, spindle, load, pick, coupling) else {
            return false;
        };
        if motor.first_bound(ask, load, &line, fit.still) > SURELY {
            return false;
        }
        let rest = fit.line.inertia_kg_m2 - self.first.inertia.si();
        let [least, most] = self.inertia_kg_m2.map(|own| own + rest);
        let least = Line {
            inertia_kg_m2: least,
            ..fit.line
        };
        if motor.last_bound(ask, load, &least) > SURELY {
            return false;
        }
        let inertia = [least.inertia_kg_m2 / SURELY, most * SURELY];
        motor.may_turn(ask, load, ratio, self.efficiency, inertia)
    }
}

/// Gearboxes of one ratio that bear a load.
struct Boxes<'a> {
    least: Half,
    /// For a motor that bears the site, and for one that does not.
    lists: [Vec<Member<&'a Gearbox>>; 2],
}

/// Pairs in order: those that bear the site first, then the cheapest.
pub(super) struct Queue<'q, 'a> {
    ask: &'q Ask<'a>,
    geared: &'q Geared<'a>,
    boxes: Vec<Boxes<'a>>,
    /// Of each motor and ratio the pair that comes next.
    heap: BinaryHeap<Reverse<Entry<'a>>>,
}

impl<'a> Queue<'_, 'a> {
    /// The next pair; of those left only such as are better in something than the best so far.
    pub(super) fn next(&mut self, best: Option<[f64; 4]>) -> Option<Pick<'a>> {
        loop {
            let Reverse(entry) = self.heap.pop()?;
            let motor = self.geared.motors.get(entry.motor)?;
            let boxes = self.boxes.get(entry.boxes)?;
            let list = boxes.lists.get(usize::from(motor.out))?;
            let gearbox = list.get(entry.at)?.part;
            let ratio = gearbox.ratio;
            let better = |half: Half| {
                let points = Half::points(self.ask, ratio, motor.half, half);
                best.is_none_or(|best| points.iter().zip(best).any(|(new, old)| *new < old))
            };
            if !better(boxes.least) {
                continue;
            }
            let after = entry.at + 1;
            let later = list.iter().skip(after).position(|next| better(next.half));
            let this = list.get(entry.at).filter(|this| better(this.half));
            let pick = this.map(|this| Pick {
                motor: motor.part,
                gearbox: Some(gearbox),
                finer_points: Half::points(self.ask, ratio, motor.half, this.half),
            });
            if let Some(later) = later {
                self.push(entry.motor, entry.boxes, after + later);
            }
            if pick.is_some() {
                return pick;
            }
        }
    }

    fn push(&mut self, motor: usize, boxes: usize, at: usize) {
        let Some(member) = self.geared.motors.get(motor) else {
            return;
        };
        let list = self
            .boxes
            .get(boxes)
            .and_then(|b| b.lists.get(usize::from(member.out)));
        if let Some(gearbox) = list.and_then(|list| list.get(at)) {
            let (p, q) = (member.part.common(), &gearbox.part.common);
            self.heap.push(Reverse(Entry {
                out: member.out || gearbox.out,
                price: p.price + q.price,
                ids: (&p.id, &q.id),
                motor,
                boxes,
                at,
            }));
        }
    }
}

/// A pair that comes next of its motor and ratio.
struct Entry<'a> {
    out: bool,
    price: f64,
    ids: (&'a str, &'a str),
    motor: usize,
    boxes: usize,
    at: usize,
}

impl Ord for Entry<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.out
            .cmp(&other.out)
            .then_with(|| self.price.total_cmp(&other.price))
            .then_with(|| self.ids.cmp(&other.ids))
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
