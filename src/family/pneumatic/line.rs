//! Valve, tubes and flow controls: what stands between the supply and the cylinder.

use std::collections::VecDeque;

use crate::catalog::{AirCylinder, AirTube, AirValve, CheckValve, FlowControl};
use crate::family::choose::{Merits, ParetoFront, Taken};
use crate::family::{Ask, Check, PartLine, check};
use crate::mechanics::pneumatics::{Path, in_series, piston_area, tube};
use crate::quantity::{Si, metres};
use crate::requirements::Task;

/// A line must pass so much more than a cheaper one to be worth its money.
const WORTH_MORE: f64 = 1.02;
/// A stroke that takes so much longer than it may is too slow whatever the error of its integration.
const SURELY_SLOW: f64 = 1.001;
/// What tubes hold changes a stroke by no more than it takes to fill and to empty them. From some 7 bar that is less than so many
/// times what the line takes to pass as much choked, and a stroke is no shorter than what it takes to pass the cylinder's volume so.
const HOLDS_UP: f64 = 4.0;

/// A valve with its two tubes, flow controls and, where air is to be trapped, check valves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line<'a> {
    pub valve: &'a AirValve,
    tube: &'a AirTube,
    control: &'a FlowControl,
    pub check: Option<&'a CheckValve>,
    tube_length_m: f64,
    /// From the valve to the cylinder's port, throttle and its free way aside.
    common: Path,
    /// What it passes to fill and to exhaust, throttle open: choked, and at a small drop of pressure.
    passes: [[f64; 2]; 2],
}

fn path(conductance: crate::quantity::Conductance, critical_ratio: f64) -> Path {
    Path {
        conductance: conductance.si(),
        critical_ratio,
    }
}

/// A cylinder's port as a path.
fn port(cylinder: &AirCylinder) -> Path {
    path(cylinder.conductance, cylinder.critical_ratio)
}

impl<'a> Line<'a> {
    /// From the supply into the cylinder, past the throttle's check.
    pub fn fill(&self, cylinder: &AirCylinder) -> Path {
        let free = path(self.control.free_conductance, self.control.critical_ratio);
        in_series(&[self.common, free, port(cylinder)])
    }

    /// From the cylinder to the atmosphere, with the throttle at a conductance.
    pub fn exhaust(&self, cylinder: &AirCylinder, throttle: f64) -> Path {
        let throttle = Path {
            conductance: throttle,
            critical_ratio: self.control.critical_ratio,
        };
        in_series(&[self.common, throttle, port(cylinder)])
    }

    /// Conductance of the throttle, fully open.
    pub fn throttle_open(&self) -> f64 {
        self.control.conductance.si()
    }

    /// Bore of its tubes, m.
    pub fn tube_bore_m(&self) -> f64 {
        self.tube.bore.si()
    }

    /// Volume of one tube.
    pub fn tube_volume_m3(&self) -> f64 {
        piston_area(self.tube.bore).value * self.tube_length_m
    }

    /// Whether it passes as much as another at any pressures: `q/p1 = C √(1 − (1 − (1 − r) S/C²)²)`, `S = C²/(1 − b)`, grows
    /// with both `C` and `S`, and what stands in a row with the lines, a cylinder's port, adds alike to both.
    fn passes_as_much_as(&self, other: &Self) -> bool {
        let ways = self.passes.iter().flatten();
        ways.zip(other.passes.iter().flatten())
            .all(|(own, other)| own >= other)
    }

    /// Its parts.
    pub fn parts(&self) -> Vec<PartLine<'a>> {
        let mut parts = vec![
            PartLine::pieces("air_valves", &self.valve.common, 1),
            tube_line(self.tube, self.tube_length_m),
            PartLine::pieces("flow_controls", &self.control.common, 2),
        ];
        if let Some(check) = self.check {
            parts.push(PartLine::pieces("check_valves", &check.common, 2));
        }
        parts
    }

    /// Whether its parts bear a pressure, and whether it shifts the valve.
    pub fn checks(&self, pressure_pa: f64) -> [Check; 2] {
        let bar = |pascals: f64| pascals / 1e5;
        let check = self.check.map_or(f64::INFINITY, |c| c.pressure_most.si());
        let weakest = self
            .valve
            .pressure_most
            .si()
            .min(self.tube.pressure_most.si())
            .min(check);
        [
            check!(
                "air_line.pressure", bar(pressure_pa) => bar(weakest), "bar";
                "p_g <= the least rating of valve, tube and check valve", "data of the parts";
                ("p_g", bar(pressure_pa), "bar")
            ),
            check!(
                "air_valve.least_pressure", bar(self.valve.pressure_least.si()) => bar(pressure_pa), "bar";
                "pressure that shifts the valve <= p_g", "data of the part";
                ("p_g", bar(pressure_pa), "bar")
            ),
        ]
    }
}

/// What passes air, with what it costs and brings.
#[derive(Debug, Clone)]
struct Passing<T> {
    figures: Merits,
    conductance: f64,
    item: T,
}

impl<P> Passing<(P, Path)> {
    /// A part with what air meets in it.
    fn part(part: P, figures: Merits, path: Path) -> Self {
        Self {
            figures,
            conductance: path.conductance,
            item: (part, path),
        }
    }
}

/// The lines worth trying at a pressure, the cheapest over the horizon first.
pub(super) struct AirLines<'a> {
    all: Vec<Passing<Line<'a>>>,
    /// Those that pass more than every one before them.
    wider: Vec<usize>,
}

impl<'a> AirLines<'a> {
    /// Each passes more than one that is no worse in anything that counts.
    pub fn new(ask: &Ask<'a>, pressure_pa: f64, trapping: bool) -> Self {
        let rates = ask.life_cost();
        let flow_controls = thinned(
            ask,
            ask.catalog.flow_controls.iter().map(|control| Passing {
                figures: Merits::part(&rates, &control.common).times(2),
                conductance: control.conductance.si(),
                item: control,
            }),
        );
        let line = |way: AirPath<'a>, control: &'a FlowControl| {
            let to_port = [control.free_conductance, control.conductance]
                .map(|way_of| in_series(&[way.path, path(way_of, control.critical_ratio)]));
            let line = Line {
                valve: way.valve,
                tube: way.tube,
                control,
                check: way.check,
                tube_length_m: tube_length_m(ask),
                common: way.path,
                passes: to_port.map(|path| [path.conductance, path.at_a_small_drop()]),
            };
            Passing {
                figures: Merits::lines(&rates, &line.parts()),
                conductance: to_port[1].conductance,
                item: line,
            }
        };
        let ways = ways(ask, pressure_pa, trapping).into_iter();
        let all = ways.flat_map(|way| {
            flow_controls
                .iter()
                .map(move |control| line(way.item, control.item))
        });
        let all = worth_trying(ask, all.collect());
        let mut wider: Vec<usize> = Vec::new();
        let mut most = 0.0;
        for (index, line) in all.iter().enumerate() {
            if line.conductance > most {
                most = line.conductance;
                wider.push(index);
            }
        }
        Self { all, wider }
    }

    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// The cheapest.
    pub fn first(&self) -> Option<&Line<'a>> {
        self.all.first().map(|line| &line.item)
    }

    /// The one that passes the most, with its number.
    pub fn widest(&self) -> Option<(usize, &Line<'a>)> {
        let index = *self.wider.last()?;
        Some((index, &self.all.get(index)?.item))
    }

    /// Of those whose strokes take no longer than a time the first, and each later one that is better in something that counts, by
    /// number.
    ///
    /// - `swept_m3`: volume of the cylinder
    /// - `least_s`: least time of a line; of one that takes longer than it may, less will do if that is still too long
    pub fn choices(
        &self,
        time_s: f64,
        swept_m3: f64,
        least_s: impl Fn(usize, &Line<'a>) -> f64,
    ) -> Vec<(usize, &Line<'a>)> {
        // A stroke is dear to run: what passes no more than a line that is too slow is too slow. Halving finds about where lines
        // become quick enough; not just, for one may pass more and yet be slower, with larger tubes to fill.
        let mut slow = SlowLines::default();
        let is_quick = |slow: &mut SlowLines<'a>, index: usize| {
            self.all.get(index).is_some_and(|line| {
                let least_s = least_s(index, &line.item);
                let quick = least_s <= time_s;
                if !quick {
                    slow.0.push((least_s / time_s, line.item));
                }
                quick
            })
        };
        let at = self
            .wider
            .partition_point(|index| !is_quick(&mut slow, *index));
        let first = self.wider.get(at).copied().unwrap_or(self.all.len());
        // Of the cheaper ones those that pass most tell of most that they are too slow.
        for (index, line) in self.all.iter().enumerate().take(first).rev() {
            if !slow.rule_out(&line.item, swept_m3) {
                is_quick(&mut slow, index);
            }
        }
        let mut taken = ParetoFront::default();
        for (index, line) in self.all.iter().enumerate() {
            if !taken.beats(&line.figures)
                && !slow.rule_out(&line.item, swept_m3)
                && is_quick(&mut slow, index)
            {
                taken.take(line.figures, (index, &line.item));
            }
        }
        taken.into_items().collect()
    }
}

/// Lines that are too slow, each with its time over the one it may take.
#[derive(Default)]
struct SlowLines<'a>(Vec<(f64, Line<'a>)>);

impl<'a> SlowLines<'a> {
    /// Whether a line passes so little that it surely is too slow in a cylinder of a volume, whatever its tubes hold.
    fn rule_out(&self, line: &Line<'a>, swept_m3: f64) -> bool {
        let rules_out = |(late, slow): &(f64, Line<'a>)| {
            let other_m3 = (slow.tube_volume_m3() - line.tube_volume_m3()).abs();
            *late > SURELY_SLOW + HOLDS_UP * other_m3 / swept_m3 && slow.passes_as_much_as(line)
        };
        self.0.iter().any(rules_out)
    }
}

/// Valve, tube and check valve, in a row.
#[derive(Debug, Clone, Copy)]
struct AirPath<'a> {
    valve: &'a AirValve,
    tube: &'a AirTube,
    check: Option<&'a CheckValve>,
    path: Path,
}

fn tube_length_m(ask: &Ask) -> f64 {
    ask.travel_m() + ask.job.rules.air_tube_extra
}

/// The ways from the valve to the cylinder that work at a pressure and are worth trying. Each part is thinned by itself first:
/// what passes less than something cheaper is in no way worth trying.
fn ways<'a>(ask: &Ask<'a>, pressure_pa: f64, trapping: bool) -> Vec<Passing<AirPath<'a>>> {
    let mut ways = Vec::new();
    let tubes = tubes(ask, pressure_pa);
    let checks = check_valves(ask, pressure_pa, trapping);
    for valve in valves(ask, pressure_pa) {
        for tube in &tubes {
            for check in &checks {
                let (valve_path, tube_path) = (valve.item.1, tube.item.1);
                let mut paths = vec![valve_path, tube_path];
                paths.extend(check.item.map(|check| check.1));
                let path = in_series(&paths);
                ways.push(Passing {
                    figures: valve.figures + tube.figures + check.figures,
                    conductance: path.conductance,
                    item: AirPath {
                        valve: valve.item.0,
                        tube: tube.item.0,
                        check: check.item.map(|check| check.0),
                        path,
                    },
                });
            }
        }
    }
    thinned(ask, ways)
}

fn valves<'a>(ask: &Ask<'a>, pressure_pa: f64) -> Vec<Passing<(&'a AirValve, Path)>> {
    let (rates, by_air) = (ask.life_cost(), by_air(ask.job));
    let works = |valve: &&AirValve| {
        (valve.power.si() == 0.0) == by_air
            && (valve.pressure_least.si()..=valve.pressure_most.si()).contains(&pressure_pa)
    };
    let valves = ask.catalog.air_valves.iter().filter(works);
    let passing = |valve: &'a AirValve| {
        let way = path(valve.conductance, valve.critical_ratio);
        Passing::part(valve, Merits::part(&rates, &valve.common), way)
    };
    thinned(ask, valves.map(passing))
}

fn tubes<'a>(ask: &Ask<'a>, pressure_pa: f64) -> Vec<Passing<(&'a AirTube, Path)>> {
    let (rates, length_m) = (ask.life_cost(), tube_length_m(ask));
    let withstands = |tube: &&AirTube| tube.pressure_most.si() >= pressure_pa;
    let tubes = ask.catalog.air_tubes.iter().filter(withstands);
    let passing = |part: &'a AirTube| {
        let figures = Merits::line(&rates, &tube_line(part, length_m));
        Passing::part(part, figures, tube(part.bore, metres(length_m)))
    };
    thinned(ask, tubes.map(passing))
}

/// None where no air is to be trapped.
fn check_valves<'a>(
    ask: &Ask<'a>,
    pressure_pa: f64,
    trapping: bool,
) -> Vec<Passing<Option<(&'a CheckValve, Path)>>> {
    if !trapping {
        return vec![Passing {
            figures: Merits::NONE,
            conductance: f64::INFINITY,
            item: None,
        }];
    }
    let rates = ask.life_cost();
    let withstands = |check: &&CheckValve| check.pressure_most.si() >= pressure_pa;
    let checks = ask.catalog.check_valves.iter().filter(withstands);
    thinned(
        ask,
        checks.map(|check| {
            let way = path(check.conductance, check.critical_ratio);
            Passing {
                figures: Merits::part(&rates, &check.common).times(2),
                conductance: way.conductance,
                item: Some((check, way)),
            }
        }),
    )
}

/// Two tubes of a line.
fn tube_line(tube: &AirTube, length_m: f64) -> PartLine<'_> {
    PartLine {
        quantity: 2,
        ..PartLine::cut(tube, length_m, tube.price_per_metre, tube.mass_per_length)
    }
}

/// Whether the valves are worked by pneumatic logic: no electricity, or no spark allowed.
pub(super) fn by_air(job: &Task) -> bool {
    job.site.mains.is_none() || job.site.explosive_atmosphere
}

/// Drops each item that passes no more than something cheaper that is no worse in anything that counts; the rest keep their
/// order.
fn thinned<T>(ask: &Ask, items: impl IntoIterator<Item = Passing<T>>) -> Vec<Passing<T>> {
    // Money must be less by more than rounding: sums of it must be, too.
    const CHEAPER: f64 = 1.0 - 1e-12;
    let goals = ask.goals();
    let cost = |item: &Passing<T>| goals.life_cost(&item.figures);
    let mut items: Vec<_> = items.into_iter().enumerate().collect();
    items.sort_by(|(_, p), (_, q)| cost(p).total_cmp(&cost(q)));
    let mut taken = Taken::default();
    // Those kept that wait to be surely cheaper than the item at hand.
    let mut kept: VecDeque<(f64, f64, Merits)> = VecDeque::new();
    items.retain(|(_, item)| {
        let (own, counted) = (cost(item), goals.of_part(item.figures));
        while let Some((_, passes, figures)) =
            kept.pop_front_if(|(cheaper, ..)| *cheaper < own * CHEAPER)
        {
            taken.take(passes, figures);
        }
        let useful = !taken.beats(item.conductance, &counted);
        if useful {
            kept.push_back((own, item.conductance, counted));
        }
        useful
    });
    items.sort_by_key(|(index, _)| *index);
    items.into_iter().map(|(_, item)| item).collect()
}

/// Lines in the order in which they are taken, each passing more than those before it that are no worse in anything that counts.
/// What counts of them is kept with them.
fn worth_trying<'a>(ask: &Ask, all: Vec<Passing<Line<'a>>>) -> Vec<Passing<Line<'a>>> {
    let goals = ask.goals();
    let mut ranked: Vec<(f64, Passing<Line>)> = all
        .into_iter()
        .map(|line| (goals.life_cost(&line.figures), line))
        .collect();
    ranked.sort_by(|(p_cost, p), (q_cost, q)| {
        let wider = || q.conductance.total_cmp(&p.conductance);
        p_cost.total_cmp(q_cost).then_with(wider)
    });
    let mut taken = Taken::default();
    let mut kept: Vec<Passing<Line>> = Vec::new();
    for (_, line) in ranked {
        let figures = goals.of_part(line.figures);
        if !taken.beats(line.conductance, &figures) {
            taken.take(WORTH_MORE * line.conductance, figures);
            kept.push(Passing { figures, ..line });
        }
    }
    kept
}
