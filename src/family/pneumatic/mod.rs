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
mod statics;
mod strokes;
mod supply;
#[cfg(test)]
mod tests;

use self::build::Design;
use self::hold::Hold;
use self::line::Line;
use self::motion::Motion;
pub use self::strokes::Strokes;
use self::supply::Supply;
use super::{Ask, Bench, Check, Family, Need, is_hopeless};
use crate::catalog::AirCylinder;
use crate::demand::Direction;
use crate::quantity::Si;

/// Name of the family in files.
pub(super) const NAME: &str = "pneumatic";
/// Cylinders tried past the first that fits, in search of one that needs no shock absorber.
const LARGER_TRIED: usize = 2;
/// Design times nearer than this to another are not worth a train of their own.
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

    fn needs(&self) -> &'static [Need] {
        &[Need::Air, Need::EndStops]
    }

    fn trains<'a>(&self, ask: &Ask<'a>, bench: &mut Bench<'a>) {
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

/// Price of a cylinder at the job's stroke.
fn price(ask: &Ask, cylinder: &AirCylinder) -> f64 {
    cylinder.common.price + cylinder.price_per_metre * ask.travel_m()
}

/// A cylinder that stands the job at rest, with a way to hold.
struct Candidate<'a, 'b> {
    motion: Motion<'a, 'b>,
    hold: Hold<'a>,
    checks: Vec<Check>,
}

/// Trains of one supply.
fn at_supply<'a>(ask: &Ask<'a>, bench: &mut Bench<'a>, job: &[Check], supply: Supply) {
    let mut cylinders: Vec<&AirCylinder> = ask.catalog.air_cylinders.iter().collect();
    cylinders.sort_by(|p, q| {
        price(ask, p)
            .total_cmp(&price(ask, q))
            .then_with(|| p.common.id.cmp(&q.common.id))
    });
    let longest = ask.demand(ask.times.iter().copied().fold(0.0, f64::max));
    let mut ways: [Vec<Candidate>; 2] = [Vec::new(), Vec::new()];
    for cylinder in cylinders {
        // A regulator keeps the supply within the cylinder's rating.
        let pressure = supply.pressure_pa().min(cylinder.pressure_most.si());
        let motion = || Motion::new(ask, cylinder, pressure);
        let own = statics::of_the_cylinder(ask, &motion(), &longest);
        if !bench.explains() && !own.iter().all(Check::passes) {
            continue;
        }
        for (hold, held) in hold::ways(ask, &motion(), &longest) {
            let checks: Vec<Check> = job.iter().chain(&own).chain(&held).cloned().collect();
            if checks.iter().all(Check::passes) {
                ways[usize::from(hold == Hold::Trapped)].push(Candidate {
                    motion: motion(),
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
        let lines = line::lines(ask, regulated_pa, trapping);
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
fn design_times(ask: &Ask, candidates: &[Candidate], lines: &[Line]) -> Vec<f64> {
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

/// Trains of one supply and way to hold at one design time.
fn at_time<'a>(
    ask: &Ask<'a>,
    bench: &mut Bench<'a>,
    supply: Supply,
    candidates: &[Candidate<'a, '_>],
    lines: &[Line<'a>],
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
    let mut larger = 0;
    for candidate in candidates {
        let motion = &candidate.motion;
        if larger > 0 && !end::may_do_without_absorbers(ask, motion, time_s) {
            continue;
        }
        let ratio = statics::load_ratio(ask, motion, &demand);
        if !ratio.passes() {
            bench.fails(vec![ratio]);
            continue;
        }
        let quick = |index: usize| motion.open_time_s(index, &lines[index]) <= time_s;
        let Some((index, line)) =
            first_that(lines.len(), quick).and_then(|i| Some((i, lines.get(i)?)))
        else {
            let best = lines
                .last()
                .map(|line| motion.open_time_s(lines.len() - 1, line));
            bench.fails(
                best.map(|best| stroke_time(best, time_s))
                    .into_iter()
                    .collect(),
            );
            continue;
        };
        let Some(legs) = motion.settled(index, line, time_s) else {
            continue;
        };
        let ends = [
            end::end(ask, motion, Direction::Out, &legs[0]),
            end::end(ask, motion, Direction::Back, &legs[1]),
        ];
        let on_cushion = ends.iter().all(|end| end.absorber.is_none());
        let sound = ends.iter().flat_map(|end| &end.checks).all(Check::passes);
        let mut checks = candidate.checks.clone();
        let least_s = motion.open_time_s(index, line);
        checks.extend([smooth.clone(), ratio, stroke_time(least_s, time_s)]);
        checks.extend(ends.iter().flat_map(|end| end.checks.iter().cloned()));
        let design = Design {
            ask,
            motion,
            hold: candidate.hold,
            line,
            legs: &legs,
            ends: &ends,
            demand: &demand,
        };
        design.offer(bench, supply, &checks);
        larger += usize::from(sound);
        if (sound && on_cushion) || larger > LARGER_TRIED {
            break;
        }
    }
}

/// The first index that satisfies, where every later one does too.
fn first_that(count: usize, satisfies: impl Fn(usize) -> bool) -> Option<usize> {
    let (mut low, mut high) = (0, count);
    while low < high {
        let middle = usize::midpoint(low, high);
        if satisfies(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    (low < count).then_some(low)
}

/// The least stroke time against the asked one.
fn stroke_time(least_s: f64, time_s: f64) -> Check {
    Check::new(
        "air_cylinder.stroke_time",
        least_s.min(Check::WORST * time_s),
        time_s,
        "s",
    )
    .from(
        "least time with throttles open ≤ asked time: M v̇ = p1 A1 − p2 A2 − p_a (A1 − A2) − F − F_seal, ṗ = (R T ṁ ∓ p A v)/V; a stalled piston stays; b of a row of restrictions never below 0",
        "ISO 6358 flow, two isothermal chambers",
    ).given(&[("least time", "s")], &[least_s])
}
