//! The checks of an oil cylinder, its unit and its lines.

use super::work::{Areas, Sizing, Stroke, StrokeLoads, UnitDuty};
use crate::catalog::{Hose, OilCylinder, OilPowerUnit, OilSealKit, OilValve};
use crate::family::choose::{Merits, Shelf};
use crate::family::{Ask, Check, check};
use crate::mechanics::column::{self, Ends, STEEL_MODULUS_PA};
use crate::mechanics::hydraulics;
use crate::quantity::{Si, cubic_metres_per_second, metres};
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
        "no oil leak is tolerated, and hoses and rod seals may leak"
    };
    let mains = if site.mains.is_some() {
        "there is electricity for the pump"
    } else {
        "the site has no electricity, and the pump needs it"
    };
    vec![
        Check::of("oil.tolerated", site.oil_tolerated, oil),
        Check::of("oil_unit.mains", site.mains.is_some(), mains),
    ]
}

/// The checks of a cylinder by itself.
pub(super) fn of_cylinder(
    ask: &Ask,
    work: &StrokeLoads,
    sizing: &Sizing,
    cylinder: &OilCylinder,
) -> Vec<Check> {
    let travel = ask.travel_m();
    let mut checks = pressures(ask, work, sizing, cylinder).to_vec();
    checks.extend([
        check!(
            "oil_cylinder.stroke", travel * 1e3 => cylinder.stroke_most.si() * 1e3, "mm";
            "travel <= longest stroke", "catalog";
            ("S", travel * 1e3, "mm"),
        ),
        check!(
            "oil_cylinder.speed", work.peak_speed_m_s => cylinder.speed_most.si(), "m/s";
            "peak speed <= speed of the seals", "catalog";
            ("v", work.peak_speed_m_s, "m/s"),
        ),
        buckling(ask, work, sizing, cylinder),
        check!(
            "oil_cylinder.seal_life", ask.life_distance_m() / 1e3 => cylinder.travel_life.si() * (1.0 + renewals(ask, cylinder)) / 1e3, "km";
            "2 S · cycles over the years asked ≤ seal travel · sets of seals",
            "data of the part; renewals: common practice, no source";
            ("way asked", ask.life_distance_m() / 1e3, "km"),
            ("seal travel", cylinder.travel_life.si() / 1e3, "km"),
            ("sets", 1.0 + renewals(ask, cylinder), ""),
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
fn pressures(ask: &Ask, work: &StrokeLoads, sizing: &Sizing, cylinder: &OilCylinder) -> [Check; 4] {
    let rating = cylinder.pressure.si() / BAR;
    let balance = "force balance on the piston";
    let (bore_mm2, rod_mm2) = (sizing.areas.bore.value * 1e6, sizing.areas.rod.value * 1e6);
    let rod = "p2 = (p A + F_over)/A_annulus, metered out";
    let bore = "p1 = (p A_annulus + F_over)/A, metered out";
    let metered = |id, side_pa: f64, stroke: Stroke, formula| {
        check!(
            id, side_pa / BAR => rating, "bar";
            formula, balance;
            ("p", sizing.set_pa / BAR, "bar"), ("F_over", stroke.overrunning_n, "N"),
            ("A", bore_mm2, "mm2"), ("A annulus", rod_mm2, "mm2"),
        )
    };
    [
        check!(
            "oil_cylinder.pressure", sizing.set_pa / BAR => rating, "bar";
            "p = F k/(A η) + line loss + return loss · A_other/A, the greater of both strokes",
            "force balance on the piston; losses common practice, no source";
            ("F out", work.out.driving_n, "N"), ("F back", work.back.driving_n, "N"),
            ("A", bore_mm2, "mm2"), ("A annulus", rod_mm2, "mm2"),
            ("k", ask.job.rules.drive_margin, ""), ("η", ask.job.rules.oil_efficiency, ""),
            ("line loss", ask.job.rules.oil_line_loss / BAR, "bar"),
            ("return loss", ask.job.rules.oil_return_loss / BAR, "bar"),
        )
        .rule("drive_margin"),
        metered(
            "oil_cylinder.rod_side_pressure",
            sizing.rod_side_pa,
            work.out,
            rod,
        ),
        metered(
            "oil_cylinder.bore_side_pressure",
            sizing.bore_side_pa,
            work.back,
            bore,
        ),
        check!(
            "oil_cylinder.trapped_pressure", sizing.trapped_pa / BAR => rating, "bar";
            "p = F/A of the closed side, held at rest or in an emergency stop", balance;
            ("F push", work.hold_push_n.max(work.stop_push_n), "N"),
            ("F pull", work.hold_pull_n.max(work.stop_pull_n), "N"),
            ("A", bore_mm2, "mm2"), ("A annulus", rod_mm2, "mm2"),
        ),
    ]
}

/// Flange at the head, rod end pinned to the guided load: built in and pinned, over the rod that stands out.
fn buckling(ask: &Ask, work: &StrokeLoads, sizing: &Sizing, cylinder: &OilCylinder) -> Check {
    let (free, ends) = match ask.pins_m() {
        Some([_, longest]) => (longest, Ends::Pinned),
        None => (ask.travel_m() + cylinder.rod_end.si(), Ends::FixedPinned),
    };
    let load = column::steel_load(cylinder.rod, metres(free), ends);
    // Against a stop or a jam it pushes with all that the relief valve lets through.
    let push_n = work.rod_push_n().max(sizing.pushes_n());
    check!(
        "oil_cylinder.rod_buckling", push_n => load.si(), "N";
        match ends {
                Ends::Pinned => "F the greatest of set pressure × A, the push of the work, holding and emergency stop <= Euler π² E I/L² or Johnson on the rod, L from pin to pin with the rod out",
                _ => "F the greatest of set pressure × A, the push of the work, holding and emergency stop <= Euler π² E I/(0.7 L)² or Johnson, L the rod out of the cylinder; head flanged, rod end pinned to the guided load",
            },
        "Shigley's Mechanical Engineering Design, §§ 4-12 and 4-13";
        ("F", push_n, "N"), ("d", cylinder.rod.si() * 1e3, "mm"), ("L", free * 1e3, "mm"),
        ("K", ends.factor(), ""), ("E", STEEL_MODULUS_PA / 1e9, "GPa"),
    )
    .factor(ask.job.rules.rod_buckling_factor_oil)
    .rule("rod_buckling_factor_oil")
}

/// What is asked of a unit and what it gives: pressure, flow, shaft power, power of the mains, heat.
fn unit_figures(
    ask: &Ask,
    sizing: &Sizing,
    run: &UnitDuty,
    unit: &OilPowerUnit,
) -> [(f64, f64); 5] {
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
pub(super) fn unit_passes(ask: &Ask, sizing: &Sizing, run: &UnitDuty, unit: &OilPowerUnit) -> bool {
    let passes = |(asked, given): (f64, f64)| Check::new("", asked, given, "").passes();
    let figures = unit_figures(ask, sizing, run, unit);
    figures.into_iter().all(passes)
}

/// The checks of a unit for a cylinder.
pub(super) fn of_unit(
    ask: &Ask,
    sizing: &Sizing,
    run: &UnitDuty,
    unit: &OilPowerUnit,
) -> Vec<Check> {
    let [pressure, flow, shaft, mains, heat] = unit_figures(ask, sizing, run, unit);
    vec![
        check!(
            "oil_unit.pressure", pressure.0 => pressure.1, "bar";
            "set pressure <= highest setting of the relief valve", "catalog";
            ("p", sizing.set_pa / BAR, "bar"),
        )
        .rule("drive_margin"),
        check!(
            "oil_unit.flow", flow.0 => flow.1, "L/min";
            "Q = A v_peak/ηv, the greater of both strokes", "continuity";
            ("Q", sizing.flow_m3_s / L_MIN, "L/min"), ("A", sizing.areas.bore.value * 1e6, "mm2"),
            ("ηv", ask.job.rules.oil_volumetric, ""),
        )
        .rule("oil_volumetric"),
        check!(
            "oil_unit.motor_power", shaft.0 => shaft.1, "W";
            "P = p Q/η at the set pressure and the whole flow of the pump", "power balance";
            ("p", sizing.set_pa / BAR, "bar"), ("Q pump", unit.flow.si() / L_MIN, "L/min"),
            ("η", ask.job.rules.oil_pump_efficiency, ""),
        )
        .rule("oil_pump_efficiency"),
        check!(
            "oil_unit.mains_power", mains.0 => mains.1, "W";
            "P/η_motor + fan of the cooler <= power of the mains", "power balance";
            ("P", run.shaft_w, "W"), ("η_motor", unit.motor_efficiency, ""),
            ("fan", run.fan_w(), "W"),
        ),
        check!(
            "oil_unit.heat", heat.0 => heat.1, "W";
            "(P pump × t moving − W load)/cycle + P idle × η_motor × t idle/cycle, t idle the rests too short to switch off <= heat that tank and cooler give off to the hottest air",
            "energy balance";
            ("heat", run.heat_w, "W"),
        )
        .rule("oil_temperature_most"),
    ]
}

/// The checks of valves and hoses.
pub(super) fn of_lines(
    ask: &Ask,
    work: &StrokeLoads,
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
        check!(
            "oil_valve.flow", sizing.line_m3_s / L_MIN => flow / L_MIN, "L/min";
            "Q = A v_peak, pumped in going out and returned coming back", "continuity";
            ("Q", sizing.line_m3_s / L_MIN, "L/min"),
        ),
        check!(
            "oil_valve.pressure", sizing.set_pa / BAR => pressure / BAR, "bar";
            "set pressure <= rating", "catalog";
            ("p", sizing.set_pa / BAR, "bar"),
        ),
        check!(
            "hose.pressure", line_pressure(sizing) / BAR => hose.pressure.si() / BAR, "bar";
            "the greatest of set, metered and trapped pressure <= rating", "catalog";
            ("p set", sizing.set_pa / BAR, "bar"), ("p trapped", sizing.trapped_pa / BAR, "bar"),
        ),
        check!(
            "hose.pressure_speed", speed => rules.oil_line_speed_most, "m/s";
            "w = 4 Q/(π d²), the larger of both strokes", "continuity";
            ("Q", sizing.line_m3_s / L_MIN, "L/min"), ("d", hose.bore.si() * 1e3, "mm"),
        )
        .rule("oil_line_speed_most"),
        check!(
            "hose.return_speed", speed => rules.oil_return_speed_most, "m/s";
            "w = 4 Q/(π d²), the bore side emptying", "continuity";
            ("Q", sizing.line_m3_s / L_MIN, "L/min"), ("d", hose.bore.si() * 1e3, "mm"),
        )
        .rule("oil_return_speed_most"),
    ];
    if let Some(valve) = counterbalance {
        let setting = setting_pa(ask, work, sizing.areas);
        checks.push(
            check!(
                "counterbalance.setting", setting / BAR => valve.pressure.si() / BAR, "bar";
                "k · F/A of the side it closes, F held at rest or overrunning in motion, the greater <= rating",
                "force balance on the piston";
                ("k", ask.job.rules.counterbalance_setting, ""),
                ("p load", setting / BAR / ask.job.rules.counterbalance_setting, "bar"),
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
pub(super) fn setting_pa(ask: &Ask, work: &StrokeLoads, areas: Areas) -> f64 {
    ask.job.rules.counterbalance_setting * work.locked_pa(areas)
}

/// The kits of seals worth having that fit a cylinder.
pub(super) fn seals<'a>(ask: &Ask<'a>, cylinder: &OilCylinder) -> Vec<&'a OilSealKit> {
    let fits = |kit: &&OilSealKit| (kit.bore.si() - cylinder.bore.si()).abs() < 1e-6;
    let fitting = ask.catalog.oil_seal_kits.iter().filter(fits);
    let rates = ask.life_cost();
    // They lie beside the machine till they are needed.
    let shelf = Shelf::with(ask, fitting, |kit| {
        let common = &kit.common;
        (common, Merits::piece(&rates, common, common.price, 0.0))
    });
    shelf.choices(|_| true)
}

/// How often the seals are renewed over the life asked.
pub(super) fn renewals(ask: &Ask, cylinder: &OilCylinder) -> f64 {
    let mut kits = ask.catalog.oil_seal_kits.iter();
    if !kits.any(|kit| (kit.bore.si() - cylinder.bore.si()).abs() < 1e-6) {
        return 0.0;
    }
    let sets = libm::ceil(ask.life_distance_m() / cylinder.travel_life.si() - 1e-9);
    (sets - 1.0).clamp(0.0, ask.job.rules.seal_kits_most)
}
