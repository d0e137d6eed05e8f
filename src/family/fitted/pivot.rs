//! The bearings of a hinge: of every sort the cheapest that bears the job, of the sorts the cheapest, and why not the others.

use core::f64::consts::PI;
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};

use crate::catalog::{HingeBearing, hinge_sort};
use crate::demand::{Demand, HingeDemand};
use crate::family::check::SURELY;
use crate::family::{Ask, Check, Drive, Life, PartLine, check, site};
use crate::mechanics::column::STEEL_YIELD_PA;
use crate::mechanics::combined::{self, Combined};
use crate::mechanics::{bearing, plain};
use crate::quantity::{Kind, Si, in_words, newtons, show};

/// Shear yield over tensile yield (von Mises).
const SHEAR_YIELD: f64 = 0.577;
/// Contact angles of a taper pair and of a crossed roller ring, degrees (common practice, no source).
const TAPER_DEG: f64 = 14.0;
const CROSSED_DEG: f64 = 45.0;
/// A life past this many years is as good as endless.
const ENDLESS_YEARS: f64 = 1000.0;

/// What one of the two bearings has to bear.
#[derive(Debug, Clone, Copy)]
struct Asked {
    peak_n: f64,
    /// Cube mean, of bearings that roll, and plain mean, of bushes.
    mean_n: f64,
    plain_mean_n: f64,
    axial_n: f64,
    /// Moment that tilts the arm: the two bearings bear it as a couple.
    moment_n_m: f64,
    spacing_m: f64,
    /// Turns over the life asked, and in a year.
    turns: f64,
    turns_a_year: f64,
    /// Mean speed of the swing.
    speed_rad_s: f64,
}

impl Asked {
    fn new(ask: &Ask<'_>, hinge: &HingeDemand, travel_time_s: f64) -> Self {
        // Out and back are each a part of a turn.
        let turns_a_cycle = hinge.swing_rad / PI;
        Self {
            peak_n: hinge.pivot_peak_n / 2.0,
            mean_n: hinge.pivot_mean_n / 2.0,
            plain_mean_n: hinge.pivot_plain_mean_n / 2.0,
            axial_n: hinge.pivot_axial_n,
            moment_n_m: hinge.pivot_moment_n_m,
            spacing_m: ask.job.rules.hinge_spacing,
            turns: turns_a_cycle * ask.life_cycles(),
            turns_a_year: turns_a_cycle * ask.job.timing.cycles_per_year(),
            speed_rad_s: hinge.swing_rad / travel_time_s,
        }
    }

    /// Radial load on one bearing, the greatest and the mean: half of what presses the hinge, and its part of a tilting moment.
    fn radial_n(&self, part: &HingeBearing) -> [f64; 2] {
        let couple_n = self.moment_n_m / self.spacing_m;
        let mean_n = match part.dynamic_rating {
            Some(_) => self.mean_n,
            None => self.plain_mean_n,
        };
        [self.peak_n + couple_n, mean_n + couple_n]
    }

    /// Loads that the lower bearing, which also takes the weight of an upright arm, bears as if they were radial: static and dynamic.
    fn equivalent_n(&self, part: &HingeBearing) -> [f64; 2] {
        let [peak, mean] = self.radial_n(part).map(newtons);
        let axial = newtons(self.axial_n);
        let factors = match part.sort.as_str() {
            hinge_sort::DEEP_GROOVE => Combined::deep_groove(axial, part.static_rating),
            hinge_sort::ANGULAR_PAIR => Combined::ANGULAR_PAIR,
            hinge_sort::TAPER_PAIR => Combined::rollers(TAPER_DEG),
            hinge_sort::CROSSED_ROLLER => Combined::rollers(CROSSED_DEG),
            _ => Combined::RADIAL,
        };
        [
            factors.still(peak, axial).si(),
            factors.dynamic(mean, axial).si(),
        ]
    }
}

/// What was chosen for a hinge.
#[derive(Debug)]
struct PivotChoice {
    /// Place of the bearing in the catalog; none where the catalog has none.
    bearing: Option<usize>,
    checks: Vec<Check>,
    years: f64,
    remark: String,
}

/// The bearings chosen for the demands with one assist, each remembered: they do not hang on the drive.
#[derive(Debug, Default)]
pub struct Pivots {
    known: Mutex<Vec<(Arc<Demand>, Arc<PivotChoice>)>>,
    /// The bearings of each sort, cheapest first.
    sorts: OnceLock<Vec<Vec<BearingPlace>>>,
}

/// Place of a bearing in the catalog, and whether it suits the site.
#[derive(Debug)]
struct BearingPlace {
    at: usize,
    suits: bool,
}

/// What is remembered is worked out again where it is asked for.
impl Clone for Pivots {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Pivots {
    fn known(&self) -> MutexGuard<'_, Vec<(Arc<Demand>, Arc<PivotChoice>)>> {
        self.known.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn sorts(&self, ask: &Ask<'_>) -> &[Vec<BearingPlace>] {
        self.sorts.get_or_init(|| {
            let all = &ask.catalog.hinge_bearings;
            let rates = ask.life_cost();
            let cost = |part: &HingeBearing| rates.part(&part.common);
            let of = |sort: &str| {
                let same = all.iter().enumerate().filter(|(_, part)| part.sort == sort);
                let mut cheapest_first: Vec<_> = same.collect();
                cheapest_first.sort_by(|(_, p), (_, q)| cost(p).total_cmp(&cost(q)));
                let place = |(at, part): (usize, &HingeBearing)| BearingPlace {
                    at,
                    suits: site::suits(ask.job, &part.common),
                };
                cheapest_first.into_iter().map(place).collect()
            };
            hinge_sort::ALL.into_iter().map(of).collect()
        })
    }

    fn chosen(&self, ask: &Ask<'_>, demand: &Arc<Demand>, hinge: &HingeDemand) -> Arc<PivotChoice> {
        let same = |(known, _): &&(Arc<Demand>, Arc<PivotChoice>)| Arc::ptr_eq(known, demand);
        let found = self.known().iter().find(same).map(|(_, is)| Arc::clone(is));
        found.unwrap_or_else(|| {
            let asked = Asked::new(ask, hinge, demand.travel_time_s);
            let chosen = Arc::new(choose(ask, &asked, self.sorts(ask)));
            let line = (Arc::clone(demand), Arc::clone(&chosen));
            self.known().push(line);
            chosen
        })
    }
}

/// Fits the two bearings of a hinge to a drive, with their checks, life and the reason for them; nothing where the load slides.
pub(in crate::family) fn fit<'a>(ask: &Ask<'a>, drive: &mut Drive<'a>) {
    let Some(hinge) = &drive.demand.hinge else {
        return;
    };
    let chosen = ask.assist.pivots.chosen(ask, &drive.demand, hinge);
    drive.checks.extend_from_slice(&chosen.checks);
    let bearing = chosen.bearing;
    let Some(part) = bearing.and_then(|at| ask.catalog.hinge_bearings.get(at)) else {
        return;
    };
    drive.parts.push(PartLine::part(part, 2));
    let life = Life::new("bearings of the hinge", chosen.years);
    drive.lives.push(life);
    drive.remarks.push(chosen.remark.clone());
}

/// Of one sort, cheapest first, the first that passes, else the one that comes nearest, with how far it is over.
fn best_of<'c>(
    ask: &Ask<'c>,
    asked: &Asked,
    cheapest_first: &[BearingPlace],
) -> Option<(f64, (usize, &'c HingeBearing))> {
    let mut best: Option<(f64, (usize, &HingeBearing))> = None;
    for BearingPlace { at, suits } in cheapest_first {
        let Some(part) = ask.catalog.hinge_bearings.get(*at) else {
            continue;
        };
        // One that is over as far as the best so far, or further, need not be checked.
        let out = if *suits { 0.0 } else { SURELY };
        let surely = least_used(ask, part, asked).max(out);
        if best.is_some_and(|(over, _)| surely >= over) {
            continue;
        }
        let all = checks(ask, part, asked);
        let worst = all.iter().map(Check::utilisation).fold(0.0, f64::max);
        let passes = worst <= 1.0 + 1e-9 && *suits;
        let over = if passes { 0.0 } else { worst.max(SURELY) };
        if best.is_none_or(|(least, _)| over.total_cmp(&least).is_lt()) {
            best = Some((over, (*at, part)));
        }
        if passes {
            break;
        }
    }
    best
}

/// How far a bearing is used at least, a hair less than by its checks.
fn least_used(ask: &Ask<'_>, part: &HingeBearing, asked: &Asked) -> f64 {
    if asked.axial_n > 0.0 && part.axial_most.is_none() {
        return Check::WORST;
    }
    let [peak_n, _] = asked.radial_n(part);
    let used = peak_n * ask.job.rules.hinge_static_factor / part.static_rating.si();
    used.min(Check::WORST) / SURELY
}

/// Of every sort the cheapest that bears the job, of the sorts the cheapest.
fn choose(ask: &Ask<'_>, asked: &Asked, sorts: &[Vec<BearingPlace>]) -> PivotChoice {
    let best = sorts.iter().filter_map(|sort| best_of(ask, asked, sort));
    let best: Vec<_> = best.collect();
    let rates = ask.life_cost();
    let cost = |part: &HingeBearing| rates.part(&part.common);
    let chosen = best.iter().min_by(|(p_over, (_, p)), (q_over, (_, q))| {
        let over = p_over.total_cmp(q_over);
        over.then(cost(p).total_cmp(&cost(q)))
    });
    let Some((_, (at, part))) = chosen else {
        let says = "a hinge is asked for and the catalog has no bearing for one";
        return PivotChoice {
            bearing: None,
            checks: vec![Check::of("hinge_bearing.part", false, says)],
            years: 0.0,
            remark: String::new(),
        };
    };
    let others = best.iter().map(|(_, (_, other))| other);
    let reasons: Vec<String> = others
        .filter(|other| other.sort != part.sort)
        .map(|other| why_not(ask, part, other, asked))
        .collect();
    let friction_n_m = part.friction * 2.0 * asked.radial_n(part)[0] * part.bore.si() / 2.0;
    PivotChoice {
        bearing: Some(*at),
        checks: checks(ask, part, asked),
        years: life_years(ask, part, asked),
        remark: format!(
            "The hinge turns in two of: {}; at worst they rub with {}. Not taken: {}. The pin is taken to be held close beside each: one that spans a gap bends, and is to be checked for that.",
            part.common.name,
            in_words(Kind::Torque, friction_n_m),
            reasons.join("; ")
        ),
    }
}

/// Why another sort was not taken: what stops the nearest of it, or what it costs.
fn why_not(ask: &Ask<'_>, taken: &HingeBearing, other: &HingeBearing, asked: &Asked) -> String {
    let (name, rates) = (&other.common.name, ask.life_cost());
    let failing = checks(ask, other, asked);
    let worst = failing
        .iter()
        .filter(|check| !check.passes())
        .max_by(|p, q| p.utilisation().total_cmp(&q.utilisation()));
    match worst {
        Some(check) => format!(
            "{name}, {}",
            match check.id {
                "hinge_bearing.axial" => "which carries too little along the pin",
                "hinge_bearing.life" | "hinge_bearing.wear" => "which does not last",
                "hinge_bearing.pv" => "which runs hot",
                _ => "which is too weak",
            }
        ),
        None if !site::suits(ask.job, &other.common) => {
            format!("{name}, which does not withstand the dirt and water of the place")
        }
        None => format!(
            "{name}, {} more expensive a piece",
            show(rates.part(&other.common) - rates.part(&taken.common))
        ),
    }
}

fn checks(ask: &Ask<'_>, part: &HingeBearing, asked: &Asked) -> Vec<Check> {
    let rules = &ask.job.rules;
    let [peak_n, mean_n] = asked.radial_n(part);
    let [still_n, tires_n] = asked.equivalent_n(part);
    let area = PI / 4.0 * part.bore.si() * part.bore.si();
    let mut list = vec![
        check!(
            "hinge_bearing.static", still_n => part.static_rating.si(), "N";
            "P0 = X0 Fr + Y0 Fa, not less than Fr, <= C0; Fr = F/2 of the hinge + M/s of a tilting moment, Fa the weight on an upright pin; X0, Y0: deep groove 0.6, 0.5; angular pair 1, 0.52; taper pair 1, 0.44 cot 14°; crossed rollers 1, 0.44; bush and needles 1, 0",
            "ISO 76, equivalent load and static safety factor";
            ("F/2", asked.peak_n, "N"), ("M", asked.moment_n_m, "N m"), ("s", asked.spacing_m, "m"),
            ("Fr", peak_n, "N"), ("Fa", asked.axial_n, "N"),
        )
        .factor(rules.hinge_static_factor)
        .rule("hinge_static_factor"),
        check!(
            "hinge_pin.shear", peak_n / area / 1e6 => SHEAR_YIELD * STEEL_YIELD_PA / 1e6, "MPa";
            "F/(π d²/4) at each bearing <= 0.577 of the yield of steel",
            "von Mises; factor: common practice, no source";
            ("F", peak_n, "N"), ("d", part.bore.si() * 1e3, "mm"),
        )
        .factor(rules.pin_factor)
        .rule("pin_factor"),
    ];
    if asked.axial_n > 0.0 {
        let most = part.axial_most.map_or(0.0, Si::si);
        list.push(check!(
            "hinge_bearing.axial", asked.axial_n => most, "N";
            "weight on the upright pin <= axial rating", "the part's rating";
            ("m g", asked.axial_n, "N"),
        ));
    }
    list.extend(lasting(ask, part, asked, [mean_n, tires_n]));
    list
}

/// Whether it lasts: rolling fatigue, or a bush's heat and wear.
fn lasting(
    ask: &Ask<'_>,
    part: &HingeBearing,
    asked: &Asked,
    [mean_n, tires_n]: [f64; 2],
) -> Vec<Check> {
    let left = site::life_left(ask.job, &part.common, false);
    if let Some((rating, exponent)) = part.dynamic_rating.zip(part.life_exponent) {
        let a1 = combined::life_factor(ask.job.rules.reliability);
        let turns = left * a1 * bearing::rating_life(rating, newtons(tires_n), exponent);
        let turns = turns.min(1e18);
        return vec![
            check!(
                "hinge_bearing.life", asked.turns => turns, "turns";
                "a1 · k · (C/P)^p · 10⁶, at most 10¹⁸; k the part of its life that dirt leaves it; out and back count as the part of a turn that they are; P = Fr + Y1 Fa up to Fa/Fr = e, past it X Fr + Y Fa, Fr = Fm/2 of the hinge (cube mean) + M/s of a tilting moment, Fa the weight on an upright pin; e, Y1, X, Y: deep groove e and Y by straight lines over Fa/C0, Y1 0, X 0.56; angular pair 1.14, 0.55, 0.57, 0.93; taper pair and crossed rollers 1.5 tan α, 0.45 cot α, 0.67, 0.67 cot α, α 14° and 45°; needles P = Fr",
                "ISO 281, equivalent load and rating life; a1 its table 12; deep groove Shigley, table 11-1; k common practice, no source";
                ("C", rating.si(), "N"), ("P", tires_n, "N"), ("p", exponent, ""), ("a1", a1, ""),
                ("Fr", mean_n, "N"), ("Fa", asked.axial_n, "N"),
                ("C0", part.static_rating.si(), "N"), ("k", left, ""),
            )
            .rule(if left < 1.0 { "grit_life" } else { "reliability" }),
        ];
    }
    let (Some(pv), Some(rate), Some(depth)) = (part.pv_most, part.wear_rate, part.wear_most) else {
        return Vec::new();
    };
    let pressure_mpa = plain::pressure_pa(newtons(mean_n), part.bore, part.width) / 1e6;
    let speed = plain::rubbing_speed_m_s(part.bore, asked.speed_rad_s / (2.0 * PI));
    let path_m = asked.turns * PI * part.bore.si();
    vec![
        check!(
            "hinge_bearing.pv", pressure_mpa * speed => pv, "MPa m/s";
            "Fm/(d b) × mean rubbing speed <= p·v", "the part's limit";
            ("p", pressure_mpa, "MPa"), ("v", speed, "m/s"),
        ),
        check!(
            "hinge_bearing.wear", plain::wear_m(rate, pressure_mpa * 1e6, path_m) / left * 1e3 => depth.si() * 1e3, "mm";
            "wear rate × Fm/(d b) × path rubbed over the life asked, over the part k of its life that dirt leaves it <= depth of the liner",
            "Archard's law with the part's rate; k common practice, no source";
            ("rate", rate, "m2/N"), ("p", pressure_mpa, "MPa"), ("path", path_m, "m"), ("k", left, ""),
        ),
    ]
}

/// Years that it lasts at this job's rate.
fn life_years(ask: &Ask<'_>, part: &HingeBearing, asked: &Asked) -> f64 {
    let ([_, mean_n], [_, tires_n]) = (asked.radial_n(part), asked.equivalent_n(part));
    let turns = match (
        part.dynamic_rating.zip(part.life_exponent),
        part.wear_rate,
        part.wear_most,
    ) {
        (Some((rating, exponent)), ..) => {
            combined::life_factor(ask.job.rules.reliability)
                * bearing::rating_life(rating, newtons(tires_n), exponent)
        }
        (None, Some(rate), Some(depth)) => {
            let pressure_pa = plain::pressure_pa(newtons(mean_n), part.bore, part.width);
            depth.si() / plain::wear_m(rate, pressure_pa, PI * part.bore.si())
        }
        _ => f64::INFINITY,
    };
    let left = site::life_left(ask.job, &part.common, false);
    (left * turns / asked.turns_a_year).min(ENDLESS_YEARS)
}
