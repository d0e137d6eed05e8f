//! Ready-made electric cylinders, as plain as a spreadsheet.

use crate::axis::Axis;

/// Mean force over the way, to the power `p`, of the worse load, out and back together.
pub fn mean_force(axis: &Axis, p: f64) -> f64 {
    let mut worst: f64 = 0.0;
    for pair in axis.strokes.chunks(2) {
        let (mut sum, mut way) = (0.0, 0.0);
        for stroke in pair {
            for two in stroke.windows(2) {
                let step = (two[1].x - two[0].x).abs();
                sum += step * (two[0].f.abs().powf(p) + two[1].f.abs().powf(p)) / 2.0;
                way += step;
            }
        }
        worst = worst.max((sum / way).powf(1.0 / p));
    }
    worst
}

/// Way asked over the life, in km.
pub fn way_asked(axis: &Axis) -> f64 {
    2.0 * axis.req(&["motion", "travel"]) * axis.cycles_asked() / 1000.0
}

/// Demand and capacity of a check in its own unit.
pub fn recompute(axis: &Axis, check: &str) -> Option<(f64, f64)> {
    let part = |field| axis.field("electric_cylinders", field);
    let most = part("force_most")?;
    Some(match check {
        "electric_cylinder.column" => return column(axis),
        "electric_cylinder.double_strokes" => (axis.cycles_asked(), part("double_strokes")?),
        "electric_cylinder.force" => (axis.thrust(), most),
        "electric_cylinder.holding" => (axis.holding(), part("holding_force")?),
        "electric_cylinder.life" => {
            let p = part("life_exponent")?;
            (
                way_asked(axis),
                part("life_distance")? / 1000.0 * (most / mean_force(axis, 3.0)).powf(p),
            )
        }
        "electric_cylinder.running_life" => (
            2.0 * axis.travel_time() * axis.cycles_asked() / 3600.0,
            part("running_life")? / 3600.0,
        ),
        "electric_cylinder.speed" => {
            let (free, full) = (part("no_load_speed")?, part("full_load_speed")?);
            // A force that helps the motion does not slow the motor.
            let line = |f: f64| free - (free - full) * f.max(0.0) / most;
            axis.instants()
                .map(|i| (i.v.abs(), line(i.f * i.v.signum())))
                .max_by(|p, q| (p.0 / p.1).total_cmp(&(q.0 / q.1)))?
        }
        "electric_cylinder.stop" => (axis.stop_force(), most.max(part("holding_force")?)),
        "electric_cylinder.stroke" => (axis.req(&["motion", "travel"]), part("stroke_most")?),
        "electric_cylinder.duty" => {
            let run = 2.0 * axis.travel_time() * (mean_square(axis) / (most * most));
            return crate::motor::duty(axis, "electric_cylinders", run);
        }
        "power_supply.power" => (power(axis)?, axis.field("power_supplies", "power")?),
        "mains.power" => (
            crate::motor::from_mains(axis, power(axis)?, "electric_cylinders"),
            axis.req(&["site", "mains", "power"]),
        ),
        _ => return None,
    })
}

fn column(axis: &Axis) -> Option<(f64, f64)> {
    let diameter = axis.field("electric_cylinders", "rod_diameter")?;
    let length =
        axis.field("electric_cylinders", "fixed_length")? + 2.0 * axis.req(&["motion", "travel"]);
    let push = axis
        .instants()
        .map(|i| i.f.max(i.at_rest))
        .fold(axis.stop_forces().1, f64::max);
    Some((push, crate::screw::column_load(diameter, length)))
}

/// Greatest electrical power: at the rod over the efficiency.
fn power(axis: &Axis) -> Option<f64> {
    let shaft = axis.instants().map(|i| i.f * i.v).fold(0.0, f64::max);
    Some(shaft / axis.field("electric_cylinders", "efficiency")?)
}

/// Mean square of force over time in motion, of the worse load.
fn mean_square(axis: &Axis) -> f64 {
    let mut worst: f64 = 0.0;
    for pair in axis.strokes.chunks(2) {
        let (mut sum, mut time) = (0.0, 0.0);
        for two in pair.iter().flat_map(|stroke| stroke.windows(2)) {
            sum += (two[1].t - two[0].t) * (two[0].f.powi(2) + two[1].f.powi(2)) / 2.0;
            time += two[1].t - two[0].t;
        }
        worst = worst.max(sum / time);
    }
    worst
}
