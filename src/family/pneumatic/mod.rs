//! Air cylinders.
//!
//! For each supply and cylinder that stands the job at rest, the cheapest line
//! (valve, tubes, flow controls) whose open-throttle stroke is quick enough is
//! taken at each design time, the throttles are set for that time, and the
//! arrival is judged. Larger cylinders are tried until one arrives on its own
//! cushion.

mod build;
mod end;
mod hold;
mod line;
mod motion;
mod parts;
mod statics;
mod strokes;
mod supply;
#[cfg(test)]
#[path = "../../../tests/unit/family/pneumatic.rs"]
mod tests;
mod words;

use std::collections::BTreeSet;
use std::sync::Arc;

use self::build::Design;
use self::hold::Hold;
use self::line::{AirLines, Line};
use self::motion::{Leg, LoadedCylinder};
pub use self::strokes::Strokes;
use self::supply::Supply;
use super::choose::{Merits, NoWorse, ParetoFront, Shelf};
use super::{Ask, Bench, Check, Family, Need, Pace, check, is_hopeless};
use crate::catalog::AirCylinder;
use crate::demand::{Demand, Direction};
use crate::quantity::Si;

/// Name of the family in files.
pub(super) const NAME: &str = "pneumatic";
/// Litres in a cubic metre.
const LITRE: f64 = 1000.0;
/// Litres a minute in a cubic metre a second.
const LITRE_PER_MIN: f64 = 60_000.0;
/// Sizes of cylinder tried past the first that fits, in search of one that needs no shock absorber.
const LARGER_TRIED: usize = 2;
/// Design times nearer than this to another are not worth a drive of their own.
const TIME_APART: f64 = 0.03;

/// The family of air cylinders.
#[derive(Debug)]
pub struct Pneumatic;

impl Family for Pneumatic {
    fn name(&self) -> &'static str {
        NAME
    }

    fn words(&self) -> &'static str {
        "air cylinder"
    }

    fn pace(&self) -> Pace {
        Pace::Medium
    }

    fn covers(&self) -> &'static [&'static str] {
        &["air cylinder"]
    }

    fn needs(&self) -> &'static [Need] {
        &[Need::Air, Need::EndStops]
    }

    fn grows_with_load(&self) -> &'static [&'static str] {
        &[
            "air_cylinder.load_factor",
            "air_cylinder.load_factor_held",
            "air_cylinder.buckling",
            "rod_lock.holding",
        ]
    }

    fn drives<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
        let job = statics::of_the_job(ask);
        if ask.times.is_empty() || !job.iter().all(Check::passes) {
            bench.fails(job);
            return;
        }
        let supplies = supply::supplies(ask);
        if supplies.is_empty() {
            let says = "no air on site, and no compressor in the catalog";
            bench.fails(vec![Check::of("air_supply.flow", false, says)]);
        }
        for supply in supplies {
            at_supply(ask, bench, &job, supply);
        }
    }
}

/// A cylinder that stands the job at rest, with a way to hold.
struct Candidate<'a, 'b> {
    motion: LoadedCylinder<'a, 'b>,
    hold: Hold<'a>,
    checks: Vec<Check>,
    /// What counts of cylinder and lock.
    figures: Merits,
}

/// What a cylinder brings at the job's stroke.
fn figures(ask: &Ask, cylinder: &AirCylinder) -> Merits {
    let line = parts::cylinder_line(ask, cylinder);
    Merits {
        length_m: cylinder.zero_stroke_length.si(),
        life: -cylinder.seal_life.si(),
        ..Merits::line(&ask.life_cost(), &line)
    }
}

/// The same with the way to hold.
fn with_hold(ask: &Ask, cylinder: Merits, hold: Hold) -> Merits {
    let lock = match hold {
        Hold::Locked(lock) => Merits {
            length_m: lock.length.si(),
            ..Merits::part(&ask.life_cost(), &lock.common)
        },
        Hold::Nothing | Hold::Trapped => Merits::NONE,
    };
    ask.goals().of_part(cylinder + lock)
}

/// Drives of one supply.
fn at_supply<'a>(ask: &Ask<'a>, bench: &mut Bench<'a>, job: &[Check], supply: Supply) {
    let cylinders = Shelf::with(ask, &ask.catalog.air_cylinders, |cylinder| {
        (&cylinder.common, figures(ask, cylinder))
    });
    let longest = ask.demand(ask.times.iter().copied().fold(0.0, f64::max));
    let mut ways: [Vec<Candidate>; 2] = [Vec::new(), Vec::new()];
    for cylinder in cylinders.iter() {
        // A regulator keeps the supply within the cylinder's rating.
        let pressure = supply.pressure_pa().min(cylinder.pressure_most.si());
        let motion = || LoadedCylinder::new(ask, cylinder, pressure);
        let own = statics::of_the_cylinder(ask, &motion(), &longest);
        if !bench.explains() && !own.iter().all(Check::passes) {
            continue;
        }
        for (hold, held) in hold::ways(ask, &motion(), &longest) {
            let checks: Vec<Check> = job.iter().chain(&own).chain(&held).cloned().collect();
            if checks.iter().all(Check::passes) {
                ways[usize::from(hold == Hold::Trapped)].push(Candidate {
                    motion: motion(),
                    figures: with_hold(ask, figures(ask, cylinder), hold),
                    hold,
                    checks,
                });
            } else {
                bench.fails(checks);
            }
        }
    }
    for (candidates, trapping) in ways.iter().zip([false, true]) {
        if candidates.is_empty() {
            continue;
        }
        // The filter-regulator brings a higher site pressure down to what the cylinders bear.
        let bears = ask
            .catalog
            .air_cylinders
            .iter()
            .map(|c| c.pressure_most.si());
        let regulated_pa = supply.pressure_pa().min(bears.fold(0.0, f64::max));
        let lines = AirLines::new(ask, regulated_pa, trapping);
        if lines.is_empty() {
            let says = "no valve or tube in the catalog for the pressure of the supply";
            bench.fails(vec![Check::of("air_valve.pressure", false, says)]);
        }
        for time_s in design_times(ask, candidates, &lines) {
            at_time(ask, bench, supply, candidates, &lines, time_s);
        }
    }
}

/// The times asked, and two of air's own: slowest without stick and slip, fastest on the cheapest line.
///
/// The fastest only where it lies among those asked; the slowest also where it is faster than all of them, for a short
/// stroke with plenty of time is still made at once and gently.
fn design_times(ask: &Ask, candidates: &[Candidate], lines: &AirLines) -> Vec<f64> {
    let mut times = ask.times.to_vec();
    let (least, most) = times
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(p, q), t| (p.min(*t), q.max(*t)));
    let slowest = ask.travel_m() / ask.job.rules.air_speed_least;
    // To three digits, on the safe side.
    let rounded = |value: f64, up: bool| {
        let step = libm::pow(10.0, libm::floor(libm::log10(value)) - 2.0);
        let steps = value / step;
        step * if up {
            libm::ceil(steps)
        } else {
            libm::floor(steps + 1e-9)
        }
    };
    let mut own = vec![(rounded(slowest, false), 0.0)];
    if let (Some(first), Some(line)) = (candidates.first(), lines.first()) {
        let fastest = first.motion.open_time_s(0, line);
        if fastest.is_finite() && fastest > 0.0 {
            own.push((rounded(fastest, true), least));
        }
    }
    for (time, above) in own {
        let apart = |other: &f64| (other / time - 1.0).abs() > TIME_APART;
        if time > above && time < most && times.iter().all(apart) {
            times.push(time);
        }
    }
    times.sort_by(|p, q| q.total_cmp(p));
    times
}

/// Drives of one supply and way to hold at one design time.
fn at_time<'a>(
    ask: &Ask<'a>,
    bench: &mut Bench<'a>,
    supply: Supply,
    candidates: &[Candidate<'a, '_>],
    lines: &AirLines<'a>,
    time_s: f64,
) {
    let smooth = statics::smooth_speed(ask, time_s);
    if !smooth.passes() {
        bench.fails(vec![smooth]);
        return;
    }
    let demand = ask.demand(time_s);
    if !bench.explains() && is_hopeless(ask, &demand) {
        return;
    }
    let at = AtTime {
        ask,
        supply,
        lines,
        demand: &demand,
        time_s,
    };
    let mut sound = SoundOnes::default();
    for candidate in candidates {
        if !sound.leave_room_for(candidate, || {
            end::may_do_without_absorbers(ask, &candidate.motion, time_s)
        }) {
            continue;
        }
        let ratio = statics::load_factor(ask, &candidate.motion, &demand);
        if !ratio.passes() {
            bench.fails(vec![ratio]);
            continue;
        }
        match at.offer(candidate, &[smooth.clone(), ratio], bench) {
            Met::OnCushion => sound.on_cushion.take(candidate.figures, ()),
            Met::ByAbsorbers => sound
                .by_absorbers
                .push((candidate.size(), candidate.figures)),
            Met::Not => {}
        }
    }
}

/// The candidates of a design time that were sound.
#[derive(Default)]
struct SoundOnes {
    on_cushion: ParetoFront<Merits, ()>,
    /// Bore and rod, and what counts.
    by_absorbers: Vec<([u64; 2], Merits)>,
}

impl SoundOnes {
    /// Whether another may be better than these. A larger one that only costs more is tried where it may arrive on its own
    /// cushion, if not too many sizes were tried already.
    fn leave_room_for(
        &self,
        other: &Candidate,
        may_do_without_absorbers: impl Fn() -> bool,
    ) -> bool {
        if self.on_cushion.beats(&other.figures) {
            return false;
        }
        let beats = |(_, own): &([u64; 2], Merits)| own.no_worse(&other.figures);
        if !self.by_absorbers.iter().any(beats) {
            return true;
        }
        let sizes: BTreeSet<_> = self.by_absorbers.iter().map(|(size, _)| *size).collect();
        sizes.len() <= LARGER_TRIED && may_do_without_absorbers()
    }
}

/// How the ends of a sound drive are met.
enum Met {
    OnCushion,
    ByAbsorbers,
    /// By neither, or there is no drive.
    Not,
}

/// A design time of one supply and way to hold.
struct AtTime<'t, 'a> {
    ask: &'t Ask<'a>,
    supply: Supply,
    lines: &'t AirLines<'a>,
    demand: &'t Arc<Demand>,
    time_s: f64,
}

impl<'a> AtTime<'_, 'a> {
    /// Offers a candidate with every line worth having; how the first of them arrives.
    fn offer(&self, candidate: &Candidate<'a, '_>, checks: &[Check], bench: &mut Bench<'a>) -> Met {
        let (motion, time_s) = (&candidate.motion, self.time_s);
        let quick = |index: usize, line: &Line<'a>| motion.open_time_s(index, line) <= time_s;
        let fitting = self.lines.choices(quick);
        if fitting.is_empty() {
            let widest = self.lines.widest();
            let best = widest.map(|(index, line)| motion.open_time_s(index, line));
            let best = best.map(|best| stroke_time(best, time_s));
            bench.fails(best.into_iter().collect());
        }
        let mut first = None;
        for (index, line) in fitting {
            let Some(legs) = motion.settled(index, line, time_s) else {
                continue;
            };
            let mut checks: Vec<Check> = candidate.checks.iter().chain(checks).cloned().collect();
            checks.push(stroke_time(motion.open_time_s(index, line), time_s));
            let met = self.with_ends(candidate, line, &legs, &checks, bench);
            first.get_or_insert(met);
        }
        first.unwrap_or(Met::Not)
    }

    /// Offers a candidate on a line with every way to meet its ends; how the first of them arrives.
    fn with_ends(
        &self,
        candidate: &Candidate<'a, '_>,
        line: &Line<'a>,
        legs: &[Leg; 2],
        checks: &[Check],
        bench: &mut Bench<'a>,
    ) -> Met {
        let motion = &candidate.motion;
        let ways = |direction, leg| end::ways(self.ask, motion, direction, leg);
        let backs = ways(Direction::Back, &legs[1]);
        let mut first = None;
        for out in ways(Direction::Out, &legs[0]) {
            for back in &backs {
                let ends = [out.clone(), back.clone()];
                let own = ends.iter().flat_map(|end| &end.checks);
                first.get_or_insert_with(|| {
                    let on_cushion = ends.iter().all(|end| end.absorber.is_none());
                    match (own.clone().all(Check::passes), on_cushion) {
                        (true, true) => Met::OnCushion,
                        (true, false) => Met::ByAbsorbers,
                        (false, _) => Met::Not,
                    }
                });
                let checks: Vec<Check> = checks.iter().chain(own).cloned().collect();
                let design = Design {
                    ask: self.ask,
                    motion,
                    hold: candidate.hold,
                    line,
                    legs,
                    ends: &ends,
                    demand: self.demand,
                };
                design.offer(bench, self.supply, &checks);
            }
        }
        first.unwrap_or(Met::Not)
    }
}

impl Candidate<'_, '_> {
    /// Bore and rod, to the bit.
    fn size(&self) -> [u64; 2] {
        let cylinder = self.motion.cylinder;
        [cylinder.bore, cylinder.rod].map(|length| length.si().to_bits())
    }
}

/// The least stroke time against the asked one.
fn stroke_time(least_s: f64, time_s: f64) -> Check {
    check!(
        "air_cylinder.stroke_time", least_s.min(Check::WORST * time_s) => time_s, "s";
        "least time with throttles open ≤ asked time: M v̇ = p1 A1 − p2 A2 − p_a (A1 − A2) − F − F_seal, ṗ = (R T ṁ ∓ p A v)/V; a stalled piston stays; b of a row of restrictions never below 0",
        "ISO 6358 flow, two isothermal chambers";
        ("least time", least_s, "s"),
    )
}
