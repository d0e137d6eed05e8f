//! The checks of an oil cylinder, its unit and its lines.

use super::work::{Areas, Run, Sizing, Work};
use crate::catalog::{Hose, OilCylinder, OilPowerUnit, OilSealKit, OilValve};
use crate::family::{Ask, Check};
use crate::mechanics::column::{self, Ends, STEEL_MODULUS_PA, STEEL_YIELD_PA};
use crate::mechanics::hydraulics;
use crate::quantity::{Si, cubic_metres_per_second, metres, pascals};
use crate::requirements::Stops;

/// Pascals in a bar.
const BAR: f64 = 1e5;
/// Cubic metres a second in a litre a minute.
const L_MIN: f64 = 1e-3 / 60.0;

/// What rules oil out before anything is sized.
pub(super) fn of_site(ask: &Ask) -> Vec<Check> {
    let site = &ask.job.site;
    let oil = if site.oil_tolerated {
        "oil is tolerated here"
    } else {
        "asked: no oil; gives: hoses and a rod seal that may leak"
    };
    let mains = if site.mains.is_some() {
        "there is electricity for the pump"
    } else {
        "asked: no electricity; gives: a pump that needs it"
    };
    vec![
        Check::of("oil.tolerated", site.oil_tolerated, oil),
        Check::of("oil_unit.mains", site.mains.is_some(), mains),
    ]
}

/// The checks of a cylinder by itself.
pub(super) fn of_cylinder(
    ask: &Ask,
    work: &Work,
    sizing: &Sizing,
    cylinder: &OilCylinder,
) -> Vec<Check> {
    let travel = ask.travel_m();
    let mut checks = pressures(ask, work, sizing, cylinder).to_vec();
    checks.extend([
        Check::new(
            "oil_cylinder.stroke",
            travel * 1e3,
            cylinder.stroke_most.si() * 1e3,
            "mm",
        )
        .from("travel <= longest stroke", "catalog")
        .given(&[("S", "mm")], &[travel * 1e3]),
        Check::new(
            "oil_cylinder.speed",
            work.peak_speed_m_s,
            cylinder.speed_most.si(),
            "m/s",
        )
        .from("peak speed <= speed of the seals", "catalog")
        .given(&[("v", "m/s")], &[work.peak_speed_m_s]),
        buckling(ask, work, sizing, cylinder),
        Check::new(
            "oil_cylinder.seal_life",
            ask.life_distance_m() / 1e3,
            cylinder.travel_life.si() * (1.0 + renewals(ask, cylinder)) / 1e3,
            "km",
        )
        .from(
            "2 S · cycles over the years asked ≤ seal travel · sets of seals",
            "data of the part; renewals: common practice, no source",
        )
        .given(
            &[("way asked", "km"), ("seal travel", "km"), ("sets", "")],
            &[
                ask.life_distance_m() / 1e3,
                cylinder.travel_life.si() / 1e3,
                1.0 + renewals(ask, cylinder),
            ],
        )
        .rule("seal_kits_most"),
    ]);
    checks
}

/// How it stops and what holds it, in words.
pub(super) fn stops_and_holds(ask: &Ask, holds: bool) -> Vec<String> {
    let error = crate::quantity::show(ask.job.rules.oil_valve_error * 1e3);
    let mut says = Vec::new();
    if ask.job.stops != Stops::Ends {
        says.push(format!(
            "On the way it is stopped by its directional valve, within {error} mm."
        ));
    }
    if holds {
        says.push("Without power a counterbalance valve on the cylinder holds the load.".into());
    }
    says
}

/// The pressures of a cylinder on either side, moving and closed.
fn pressures(ask: &Ask, work: &Work, sizing: &Sizing, cylinder: &OilCylinder) -> [Check; 4] {
    let rating = cylinder.pressure.si() / BAR;
    let balance = "force balance on the piston";
    [
        Check::new("oil_cylinder.pressure", sizing.set_pa / BAR, rating, "bar")
            .from(
                "p = F k/(A η) + line loss + return loss · A_other/A, the greater of both strokes",
                "force balance on the piston; losses common practice, no source",
            )
            .given(
                &[
                    ("F out", "N"),
                    ("F back", "N"),
                    ("A", "mm2"),
                    ("A annulus", "mm2"),
                    ("k", ""),
                    ("η", ""),
                    ("line loss", "bar"),
                    ("return loss", "bar"),
                ],
                &[
                    work.out.driving_n,
                    work.back.driving_n,
                    sizing.areas.bore.value * 1e6,
                    sizing.areas.rod.value * 1e6,
                    ask.job.rules.drive_margin,
                    ask.job.rules.oil_efficiency,
                    ask.job.rules.oil_line_loss / BAR,
                    ask.job.rules.oil_return_loss / BAR,
                ],
            )
            .rule("drive_margin"),
        Check::new(
            "oil_cylinder.rod_side_pressure",
            sizing.rod_side_pa / BAR,
            rating,
            "bar",
        )
        .from("p2 = (p A + F_over)/A_annulus, metered out", balance)
        .given(
            &[
                ("p", "bar"),
                ("F_over", "N"),
                ("A", "mm2"),
                ("A annulus", "mm2"),
            ],
            &[
                sizing.set_pa / BAR,
                work.out.overrunning_n,
                sizing.areas.bore.value * 1e6,
                sizing.areas.rod.value * 1e6,
            ],
        ),
        Check::new(
            "oil_cylinder.bore_side_pressure",
            sizing.bore_side_pa / BAR,
            rating,
            "bar",
        )
        .from("p1 = (p A_annulus + F_over)/A, metered out", balance)
        .given(
            &[
                ("p", "bar"),
                ("F_over", "N"),
                ("A", "mm2"),
                ("A annulus", "mm2"),
            ],
            &[
                sizing.set_pa / BAR,
                work.back.overrunning_n,
                sizing.areas.bore.value * 1e6,
                sizing.areas.rod.value * 1e6,
            ],
        ),
        Check::new(
            "oil_cylinder.trapped_pressure",
            sizing.trapped_pa / BAR,
            rating,
            "bar",
        )
        .from(
            "p = F/A of the closed side, held at rest or in an emergency stop",
            balance,
        )
        .given(
            &[
                ("F push", "N"),
                ("F pull", "N"),
                ("A", "mm2"),
                ("A annulus", "mm2"),
            ],
            &[
                work.hold_push_n.max(work.stop_push_n),
                work.hold_pull_n.max(work.stop_pull_n),
                sizing.areas.bore.value * 1e6,
                sizing.areas.rod.value * 1e6,
            ],
        ),
    ]
}

/// Flange at the head, rod end pinned to the guided load: built in and pinned, over the rod that stands out.
fn buckling(ask: &Ask, work: &Work, sizing: &Sizing, cylinder: &OilCylinder) -> Check {
    let (free, ends) = match ask.pins_m() {
        Some([_, longest]) => (longest, Ends::Pinned),
        None => (ask.travel_m() + cylinder.rod_end.si(), Ends::FixedPinned),
    };
    let load = column::critical_load(
        cylinder.rod,
        metres(free),
        ends.factor(),
        pascals(STEEL_YIELD_PA),
        pascals(STEEL_MODULUS_PA),
    );
    // Against a stop or a jam it pushes with all that the relief valve lets through.
    let push_n = work.rod_push_n().max(sizing.pushes_n());
    Check::new("oil_cylinder.rod_buckling", push_n, load.si(), "N")
        .factor(ask.job.rules.rod_buckling_factor_oil)
        .from(
            match ends {
                Ends::Pinned => "F the greatest of set pressure × A, the push of the work, holding and emergency stop <= Euler π² E I/L² or Johnson on the rod, L from pin to pin with the rod out",
                _ => "F the greatest of set pressure × A, the push of the work, holding and emergency stop <= Euler π² E I/(0.7 L)² or Johnson, L the rod out of the cylinder; head flanged, rod end pinned to the guided load",
            },
            "Shigley's Mechanical Engineering Design, §§ 4-12 and 4-13",
        ).given(&[("F", "N"), ("d", "mm"), ("L", "mm"), ("K", ""), ("E", "GPa")], &[push_n, cylinder.rod.si() * 1e3, free * 1e3, ends.factor(), STEEL_MODULUS_PA / 1e9])
        .rule("rod_buckling_factor_oil")
}

/// What is asked of a unit and what it gives: pressure, flow, shaft power, power of the mains, heat.
fn unit_figures(ask: &Ask, sizing: &Sizing, run: &Run, unit: &OilPowerUnit) -> [(f64, f64); 5] {
    let mains_w = ask.job.site.mains.map_or(0.0, |mains| mains.power.si());
    [
        (sizing.set_pa / BAR, unit.pressure.si() / BAR),
        (sizing.flow_m3_s / L_MIN, unit.flow.si() / L_MIN),
        (run.shaft_w, unit.motor_power.si()),
        (run.mains_w, mains_w),
        (run.heat_w, run.rejection_w),
    ]
}

/// Whether all of [`of_unit`] pass.
pub(super) fn unit_passes(ask: &Ask, sizing: &Sizing, run: &Run, unit: &OilPowerUnit) -> bool {
    let passes = |(asked, given): (f64, f64)| Check::new("", asked, given, "").passes();
    let figures = unit_figures(ask, sizing, run, unit);
    figures.into_iter().all(passes)
}

/// The checks of a unit for a cylinder.
pub(super) fn of_unit(ask: &Ask, sizing: &Sizing, run: &Run, unit: &OilPowerUnit) -> Vec<Check> {
    let [pressure, flow, shaft, mains, heat] = unit_figures(ask, sizing, run, unit);
    vec![
        Check::new("oil_unit.pressure", pressure.0, pressure.1, "bar")
            .from("set pressure <= highest setting of the relief valve", "catalog").given(&[("p", "bar")], &[sizing.set_pa / BAR])
            .rule("drive_margin"),
        Check::new("oil_unit.flow", flow.0, flow.1, "L/min")
            .from("Q = A v_peak/ηv, the greater of both strokes", "continuity").given(&[("Q", "L/min"), ("A", "mm2"), ("ηv", "")], &[sizing.flow_m3_s / L_MIN, sizing.areas.bore.value * 1e6, ask.job.rules.oil_volumetric])
            .rule("oil_volumetric"),
        Check::new("oil_unit.motor_power", shaft.0, shaft.1, "W")
            .from("P = p Q/η at the set pressure and the whole flow of the pump", "power balance").given(&[("p", "bar"), ("Q pump", "L/min"), ("η", "")], &[sizing.set_pa / BAR, unit.flow.si() / L_MIN, ask.job.rules.oil_pump_efficiency])
            .rule("oil_pump_efficiency"),
        Check::new("oil_unit.mains_power", mains.0, mains.1, "W")
            .from("P/η_motor + fan of the cooler <= power of the mains", "power balance").given(&[("P", "W"), ("η_motor", ""), ("fan", "W")], &[run.shaft_w, unit.motor_efficiency, run.fan_w()]),
        Check::new("oil_unit.heat", heat.0, heat.1, "W")
            .from(
                "(P pump × t moving − W load)/cycle + P idle × η_motor × t idle/cycle, t idle the rests too short to switch off <= heat that tank and cooler give off to the hottest air",
                "energy balance",
            ).given(&[("heat", "W")], &[run.heat_w])
            .rule("oil_temperature_most"),
    ]
}

/// The checks of valves and hoses.
pub(super) fn of_lines(
    ask: &Ask,
    work: &Work,
    sizing: &Sizing,
    valves: &[&OilValve],
    counterbalance: Option<&OilValve>,
    hose: &Hose,
) -> Vec<Check> {
    let rules = &ask.job.rules;
    let speed = hydraulics::line_speed(cubic_metres_per_second(sizing.line_m3_s), hose.bore).si();
    let least = |figure: fn(&OilValve) -> f64| {
        let all = valves.iter().copied().chain(counterbalance);
        all.map(figure).fold(f64::INFINITY, f64::min)
    };
    let flow = least(|valve| valve.flow.si());
    let pressure = least(|valve| valve.pressure.si());
    let mut checks = vec![
        Check::new(
            "oil_valve.flow",
            sizing.line_m3_s / L_MIN,
            flow / L_MIN,
            "L/min",
        )
        .from(
            "Q = A v_peak, pumped in going out and returned coming back",
            "continuity",
        )
        .given(&[("Q", "L/min")], &[sizing.line_m3_s / L_MIN]),
        Check::new(
            "oil_valve.pressure",
            sizing.set_pa / BAR,
            pressure / BAR,
            "bar",
        )
        .from("set pressure <= rating", "catalog")
        .given(&[("p", "bar")], &[sizing.set_pa / BAR]),
        Check::new(
            "hose.pressure",
            line_pressure(sizing) / BAR,
            hose.pressure.si() / BAR,
            "bar",
        )
        .from(
            "the greatest of set, metered and trapped pressure <= rating",
            "catalog",
        )
        .given(
            &[("p set", "bar"), ("p trapped", "bar")],
            &[sizing.set_pa / BAR, sizing.trapped_pa / BAR],
        ),
        Check::new(
            "hose.pressure_speed",
            speed,
            rules.oil_line_speed_most,
            "m/s",
        )
        .from("w = 4 Q/(π d²), the larger of both strokes", "continuity")
        .given(
            &[("Q", "L/min"), ("d", "mm")],
            &[sizing.line_m3_s / L_MIN, hose.bore.si() * 1e3],
        )
        .rule("oil_line_speed_most"),
        Check::new(
            "hose.return_speed",
            speed,
            rules.oil_return_speed_most,
            "m/s",
        )
        .from("w = 4 Q/(π d²), the bore side emptying", "continuity")
        .given(
            &[("Q", "L/min"), ("d", "mm")],
            &[sizing.line_m3_s / L_MIN, hose.bore.si() * 1e3],
        )
        .rule("oil_return_speed_most"),
    ];
    if let Some(valve) = counterbalance {
        let setting = setting_pa(ask, work, sizing.areas);
        checks.push(
            Check::new(
                "counterbalance.setting",
                setting / BAR,
                valve.pressure.si() / BAR,
                "bar",
            )
            .from(
                "k · F/A of the side it closes, F held at rest or overrunning in motion, the greater <= rating",
                "force balance on the piston",
            )
            .given(
                &[("k", ""), ("p load", "bar")],
                &[
                    ask.job.rules.counterbalance_setting,
                    setting / BAR / ask.job.rules.counterbalance_setting,
                ],
            )
            .rule("counterbalance_setting"),
        );
    }
    checks
}

/// Greatest pressure that a hose sees, Pa.
pub(super) fn line_pressure(sizing: &Sizing) -> f64 {
    sizing
        .set_pa
        .max(sizing.rod_side_pa)
        .max(sizing.bore_side_pa)
        .max(sizing.trapped_pa)
}

/// Setting of the counterbalance valve, Pa.
pub(super) fn setting_pa(ask: &Ask, work: &Work, areas: Areas) -> f64 {
    ask.job.rules.counterbalance_setting * work.locked_pa(areas)
}

/// The seals that fit a cylinder.
pub(super) fn seals<'a>(ask: &Ask<'a>, cylinder: &OilCylinder) -> Option<&'a OilSealKit> {
    let bore = cylinder.bore.si();
    let kits = &ask.catalog.oil_seal_kits;
    kits.iter().find(|kit| (kit.bore.si() - bore).abs() < 1e-6)
}

/// How often the seals are renewed over the life asked.
pub(super) fn renewals(ask: &Ask, cylinder: &OilCylinder) -> f64 {
    if seals(ask, cylinder).is_none() {
        return 0.0;
    }
    let sets = libm::ceil(ask.life_distance_m() / cylinder.travel_life.si() - 1e-9);
    (sets - 1.0).clamp(0.0, ask.job.rules.seal_kits_most)
}
