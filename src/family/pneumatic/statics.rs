//! What a cylinder must stand whatever its speed.

use super::motion::LoadedCylinder;
use super::supply;
use crate::catalog::SealKit;
use crate::demand::{Demand, Direction};
use crate::family::choose::Shelf;
use crate::family::{Ask, Check, check};
use crate::mechanics::column::{Ends, STEEL_MODULUS_PA, STEEL_YIELD_PA, critical_load};
use crate::quantity::{G_M_S2, Si, Temperature, metres, pascals, show};
use crate::requirements::Stops;

/// Rod joint past the rod, in rod diameters (common practice, no source).
const ROD_JOINT_DIAMETERS: f64 = 2.5;

/// What the site and the words of the job say to any air cylinder.
pub(super) fn of_the_job(ask: &Ask) -> Vec<Check> {
    let job = ask.job;
    let says = match job.stops {
        Stops::Ends => "an air cylinder stops at its ends",
        Stops::Several => "an air cylinder stops at several places roughly, with a rod lock",
        Stops::Anywhere => "an air cylinder stops only at its ends, or roughly with a rod lock",
    };
    vec![
        Check::of("air_cylinder.stops", job.stops != Stops::Anywhere, says)
            .from("stops at the ends only", "common practice, no source"),
        supply::cold_check(ask),
        heat(job.site.hottest, job.rules.air_temperature_most),
    ]
}

fn heat(hottest: Temperature, limit_k: f64) -> Check {
    let says = format!(
        "hottest of the site: {} °C; limit of compressed air: {} °C",
        show(hottest.celsius()),
        show(limit_k - 273.15)
    );
    Check::of("air_cylinder.heat", hottest.si() <= limit_k + 1e-6, says)
        .from(
            "T ≤ 60 °C unless the rules say otherwise",
            "common practice, no source (seals harden)",
        )
        .rule("air_temperature_most")
}

/// Greatest push and pull at rest, breakaway included, N.
fn efforts_n(demand: &Demand) -> [f64; 2] {
    demand
        .cases
        .iter()
        .fold([0.0_f64, 0.0_f64], |[push, pull], case| {
            [push.max(case.static_push_n), pull.max(case.static_pull_n)]
        })
}

/// Static demand over thrust, the worse of push and pull.
fn ratio(motion: &LoadedCylinder, [push, pull]: [f64; 2]) -> f64 {
    let [bore, annulus] = motion.areas_m2.map(|area| area * motion.pressure_pa);
    (push / bore).max(pull / annulus)
}

/// The load factor at a mean speed.
pub(super) fn load_factor(ask: &Ask, motion: &LoadedCylinder, demand: &Demand) -> Check {
    let rules = &ask.job.rules;
    let fast = ask.travel_m() / demand.travel_time_s > rules.load_factor_fast_speed;
    let (most, key) = if fast {
        (rules.load_factor_fast_most, "load_factor_fast_most")
    } else {
        (rules.load_factor_most, "load_factor_most")
    };
    check!(
        "air_cylinder.load_factor", ratio(motion, efforts_n(demand)) => most, "";
        "static demand / (p_g A) ≤ load factor; annulus for the pull", "common practice, no source";
        ("F push", efforts_n(demand)[0], "N"), ("F pull", efforts_n(demand)[1], "N"),
        ("p_g", motion.pressure_pa / 1e5, "bar"), ("A", motion.areas_m2[0] * 1e6, "mm2"),
        ("A annulus", motion.areas_m2[1] * 1e6, "mm2"),
    )
    .rule(key)
}

/// The mean speed below which it would stick and slip.
pub(super) fn smooth_speed(ask: &Ask, time_s: f64) -> Check {
    let mean = ask.travel_m() / time_s;
    check!(
        "air_cylinder.smooth_speed", ask.job.rules.air_speed_least * 1e3 => mean * 1e3, "mm/s";
        "S/T ≥ least smooth speed", "common practice, no source";
        ("S", ask.travel_m() * 1e3, "mm"), ("T", time_s, "s"),
    )
    .rule("air_speed_least")
}

/// Checks of a cylinder that no design time changes.
pub(super) fn of_the_cylinder(ask: &Ask, motion: &LoadedCylinder, demand: &Demand) -> Vec<Check> {
    let cylinder = motion.cylinder;
    let travel_m = ask.travel_m();
    let mm = |length: crate::quantity::Length| length.si() * 1e3;
    let held = ratio(motion, [demand.holding_push_n, demand.holding_pull_n]);
    vec![
        check!(
            "air_cylinder.stroke", travel_m * 1e3 => mm(cylinder.stroke_most), "mm";
            "S ≤ longest stroke", "data of the part";
            ("S", travel_m * 1e3, "mm"),
        ),
        check!(
            "air_cylinder.load_factor_held", held => ask.job.rules.load_factor_held_most, "";
            "holding demand / (p_g A) ≤ load factor at rest", "common practice, no source";
            ("F push", demand.holding_push_n, "N"), ("F pull", demand.holding_pull_n, "N"),
            ("p_g", motion.pressure_pa / 1e5, "bar"), ("A", motion.areas_m2[0] * 1e6, "mm2"),
            ("A annulus", motion.areas_m2[1] * 1e6, "mm2"),
        )
        .rule("load_factor_held_most"),
        exhaust_pressure(ask, motion, demand),
        buckling(ask, motion),
        side_load(ask, motion),
        seal_life(ask, motion),
    ]
}

/// Pressure of the side that air is metered out of, at a steady speed: an overrunning load adds to the drive.
///
/// `p2 = (p_g A − F − F_seal)/A_annulus` out and `p1 = (p_g A_annulus + F − F_seal)/A` back, `F` the static force
/// of the drive outward at its worst place.
fn exhaust_pressure(ask: &Ask, motion: &LoadedCylinder, demand: &Demand) -> Check {
    let [bore, annulus] = motion.areas_m2;
    let seal = ask.job.rules.air_seal_friction * motion.pressure_pa * bore;
    let forces = |direction| {
        let strokes = demand.strokes(direction).flat_map(|case| &case.profile);
        strokes.map(|sample| sample.static_force_n)
    };
    let least_out = forces(Direction::Out).fold(f64::INFINITY, f64::min);
    let most_back = forces(Direction::Back).fold(f64::NEG_INFINITY, f64::max);
    let out = (motion.pressure_pa * bore - least_out - seal) / annulus;
    let back = (motion.pressure_pa * annulus + most_back - seal) / bore;
    check!(
        "air_cylinder.exhaust_pressure", out.max(back).max(0.0) / 1e5 => motion.cylinder.pressure_most.si() / 1e5, "bar";
        "p2 = (p_g A − F − F_seal)/A_annulus out, p1 = (p_g A_annulus + F − F_seal)/A back; F static, outward",
        "balance of forces at a steady metered speed";
        ("p_g", motion.pressure_pa / 1e5, "bar"), ("A", bore * 1e6, "mm2"),
        ("A annulus", annulus * 1e6, "mm2"), ("F out", least_out, "N"), ("F back", most_back, "N"),
        ("F_seal", seal, "N"),
    )
}

/// Full thrust, as when the load jams, on a rod built in at the flange and pinned to the guided load.
fn buckling(ask: &Ask, motion: &LoadedCylinder) -> Check {
    let cylinder = motion.cylinder;
    // Out to its end the rod is free over the travel and the joint of about 2.5 diameters; between pins all of it may bend.
    let pinned = ask.pins_m().map(|[_, longest]| (longest, Ends::Pinned));
    let (free, ends) = pinned.unwrap_or((
        ask.travel_m() + ROD_JOINT_DIAMETERS * cylinder.rod.si(),
        Ends::FixedPinned,
    ));
    let capacity = critical_load(
        cylinder.rod,
        metres(free),
        ends.factor(),
        pascals(STEEL_YIELD_PA),
        pascals(STEEL_MODULUS_PA),
    );
    let thrust = motion.pressure_pa * motion.areas_m2[0];
    check!(
        "air_cylinder.buckling", thrust => capacity.si(), "N";
        match ends {
                Ends::Pinned => "p_g A ≤ π²EI/(K L)², K = 1, L from pin to pin with the rod out",
                _ => "p_g A ≤ π²EI/(K L)², K = 0.7: flange fixed, rod end pinned to the guided load; L = travel + rod joint of 2.5 d",
            },
        "Euler (Johnson where stout); factor: common practice, no source";
        ("p_g A", thrust, "N"), ("d", cylinder.rod.si() * 1e3, "mm"), ("L", free * 1e3, "mm"),
        ("K", ends.factor(), ""), ("E", STEEL_MODULUS_PA / 1e9, "GPa"),
    )
    .factor(ask.job.rules.rod_buckling_factor_air)
    .rule("rod_buckling_factor_air")
}

/// The guide carries the load; the rod's own weight bends it between its bearing and the joint on the guided load.
///
/// Built in at one end and pinned at the other, its moment at the bearing is `m g L/8`: as a force at the joint, `m g/8`.
fn side_load(ask: &Ask, motion: &LoadedCylinder) -> Check {
    let cylinder = motion.cylinder;
    let travel_m = ask.travel_m();
    let rod_kg = cylinder.moving_mass_per_length.si() * travel_m;
    let across = rod_kg / 8.0 * G_M_S2 * ask.book.axis().across();
    let span = cylinder.bearing_span.si();
    let bears = cylinder.side_load_most.si() * span / (span + travel_m);
    check!(
        "air_cylinder.side_load", across => bears, "N";
        "m_rod g cosθ/8 ≤ side load of the part · b/(b + S); the guide carries the load itself",
        "statics of a rod on two bearings";
        ("m_rod", rod_kg, "kg"), ("b", span * 1e3, "mm"), ("S", travel_m * 1e3, "mm"),
        ("F part", cylinder.side_load_most.si(), "N"),
    )
}

/// How often the seals are renewed over the life asked.
pub(super) fn renewals(ask: &Ask, motion: &LoadedCylinder) -> f64 {
    let sets = libm::ceil(ask.life_distance_m() / motion.cylinder.seal_life.si() - 1e-9);
    (sets - 1.0).clamp(0.0, ask.job.rules.seal_kits_most)
}

/// The seals that fit a cylinder and are worth having.
pub(super) fn seals<'a>(ask: &Ask<'a>, motion: &LoadedCylinder) -> Vec<&'a SealKit> {
    let fits = |kit: &&SealKit| is_of_bore(kit, motion);
    let fitting = ask.catalog.seal_kits.iter().filter(fits);
    Shelf::new(ask, fitting, |kit| &kit.common).choices(|_| true)
}

fn is_of_bore(kit: &SealKit, motion: &LoadedCylinder) -> bool {
    (kit.bore.si() - motion.cylinder.bore.si()).abs() < 1e-6
}

fn seal_life(ask: &Ask, motion: &LoadedCylinder) -> Check {
    let mut kits = ask.catalog.seal_kits.iter();
    let renewed = if kits.any(|kit| is_of_bore(kit, motion)) {
        renewals(ask, motion)
    } else {
        0.0
    };
    let km = |m: f64| m / 1000.0;
    check!(
        "air_cylinder.seal_life", km(ask.life_distance_m()) => km(motion.cylinder.seal_life.si() * (1.0 + renewed)), "km";
        "2 S · cycles over the years asked ≤ seal travel · sets of seals",
        "data of the part; renewals: common practice, no source";
        ("way asked", km(ask.life_distance_m()), "km"),
        ("seal travel", km(motion.cylinder.seal_life.si()), "km"), ("sets", 1.0 + renewed, ""),
    )
    .rule("seal_kits_most")
}
