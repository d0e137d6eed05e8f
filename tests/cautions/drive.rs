//! What a drive can press with when something stops the load, from the figures of its parts.

use std::f64::consts::PI;

use crate::recompute::base::{Case, PartUse};

/// Push and pull; none of a crank, which presses with what is asked.
pub fn press(case: &Case) -> Option<[f64; 2]> {
    if let Some(cylinder) = case.part("air_cylinders") {
        return Some(areas(&cylinder).map(|area| air_pressure(case) * area));
    }
    if let Some(cylinder) = case.part("oil_cylinders") {
        return Some(areas(&cylinder).map(|area| set_pressure(case) * area));
    }
    if let Some(cylinder) = case.part("electric_cylinders") {
        return Some([cylinder.f("force_most"); 2]);
    }
    let geared = case.part("gearboxes");
    let gear = geared.map_or(1.0, |box_| box_.f("ratio") * box_.f("efficiency"));
    let force = stalled(case)? * gear / per_newton(case)?;
    Some([force; 2])
}

fn areas(cylinder: &PartUse) -> [f64; 2] {
    let circle = |d: f64| PI / 4.0 * d * d;
    let (bore, rod) = (circle(cylinder.f("bore")), circle(cylinder.f("rod")));
    [bore, bore - rod]
}

/// Of the site or the compressor, as far as what is on it bears.
pub fn air_pressure(case: &Case) -> f64 {
    let source = case.part("compressors").map_or_else(
        || case.or("site.air.pressure", f64::NAN),
        |part| part.f("pressure"),
    );
    let bears = |kind: &str, field: &str| {
        case.parts(kind)
            .iter()
            .filter_map(|part| part.opt(field))
            .fold(f64::INFINITY, f64::min)
    };
    source.min(bears("air_cylinders", "pressure_most"))
}

/// The relief valve's setting, as the study's check of the cylinder has it.
pub fn set_pressure(case: &Case) -> f64 {
    check(case, "oil_cylinder.pressure") * 1e5
}

pub fn check(case: &Case, id: &str) -> f64 {
    let checks = case.option["checks"].as_array();
    let one = checks.into_iter().flatten().find(|check| check["id"] == id);
    one.and_then(|check| check["demand"].as_f64())
        .unwrap_or(f64::NAN)
}

/// Torque of the motor when it is stopped.
fn stalled(case: &Case) -> Option<f64> {
    if let Some(motor) = case.part("servo_motors") {
        return Some(motor.f("peak_torque"));
    }
    if let Some(motor) = case.part("gear_motors") {
        return Some(motor.f("stall_torque").min(motor.f("torque_most")));
    }
    let stepper = case.part("stepper_motors")?;
    crate::recompute::base::quantity(&stepper.record["pull_out"][0])
}

/// Torque on the screw for a newton.
fn per_newton(case: &Case) -> Option<f64> {
    if let Some(screw) = case.part("ball_screws") {
        return Some(screw.f("lead") / (2.0 * PI * screw.f("efficiency")));
    }
    // Shigley, § 8-2, with the friction of the bearings as a collar.
    let screw = case.part("sliding_screws")?;
    let support = case.part("screw_supports")?;
    let lead = screw.f("pitch") * screw.f("starts");
    let (mean, f) = (
        screw.f("diameter") - screw.f("pitch") / 2.0,
        screw.f("friction"),
    );
    let sec = 1.0 / 15f64.to_radians().cos();
    let thread = mean / 2.0 * (lead + PI * f * mean * sec) / (PI * mean - f * lead * sec);
    Some(thread + support.f("friction") * support.f("mean_diameter") / 2.0)
}
