//! Ready-made electric cylinders, as plain as a spreadsheet.

use super::base::Case;
use super::life::{LIFE_MOST, a1, mean_force, way_asked};
use super::motion::Stroke;
use super::steel::strut;
use super::swing::between_pins;
use super::worst::{area, held_most, instants, most, stop_most, stop_push_pull, thrust};

/// Demand and capacity of a check in its own unit.
pub fn recompute(case: &Case, check: &str) -> Option<(f64, f64)> {
    let part = |field| case.field("electric_cylinders", field);
    let rated = part("force_most")?;
    Some(match check {
        "electric_cylinder.column" => return column(case),
        "electric_cylinder.double_strokes" => (case.cycles_asked(), part("double_strokes")?),
        "electric_cylinder.force" => (thrust(case), rated),
        "electric_cylinder.holding" => (held_most(case), part("holding_force")?),
        "electric_cylinder.life" => {
            let p = part("life_exponent")?;
            let life = part("life_distance")? / 1000.0 * (rated / mean_force(case, 3.0)).powf(p);
            // Rolling parts have exponents of 3 and more; what wears knows no reliability.
            let a1 = if p < 3.0 { 1.0 } else { a1(case) };
            (way_asked(case), (a1 * life).min(LIFE_MOST))
        }
        "electric_cylinder.running_life" => (
            2.0 * case.time() * case.cycles_asked() / 3600.0,
            part("running_life")? / 3600.0,
        ),
        "electric_cylinder.speed" => {
            let (free, full) = (part("no_load_speed")?, part("full_load_speed")?);
            // A force that helps the motion does not slow the motor.
            let line = |f: f64| free - (free - full) * f.max(0.0) / rated;
            instants(case)
                .map(|i| (i.v.abs(), line(i.f * i.v.signum())))
                .max_by(|p, q| (p.0 / p.1).total_cmp(&(q.0 / q.1)))?
        }
        "electric_cylinder.stop" => (stop_most(case), rated.max(part("holding_force")?)),
        "electric_cylinder.stroke" => (case.travel(), part("stroke_most")?),
        "electric_cylinder.duty" => {
            let run = 2.0 * case.time() * (mean_square(case) / (rated * rated));
            return super::motor::duty(case, "electric_cylinders", run);
        }
        "power_supply.power" => (power(case)?, case.field("power_supplies", "power")?),
        "mains.power" => (
            super::motor::from_mains(case, power(case)?, "electric_cylinders"),
            case.or("site.mains.power", 0.0),
        ),
        _ => return None,
    })
}

fn column(case: &Case) -> Option<(f64, f64)> {
    let part = |field| case.field("electric_cylinders", field);
    let length = between_pins(case).unwrap_or(part("fixed_length")? + 2.0 * case.travel());
    let push = most(case, |i| i.f.max(i.still)).max(stop_push_pull(case).0);
    Some((push, strut(part("rod_diameter")?, length)))
}

/// Greatest electrical power: at the rod over the efficiency.
fn power(case: &Case) -> Option<f64> {
    Some(most(case, |i| i.f * i.v) / case.field("electric_cylinders", "efficiency")?)
}

/// Mean square of force over time in motion, of the worse load.
fn mean_square(case: &Case) -> f64 {
    let squares = |load: &[Stroke]| -> f64 {
        let sum: f64 = load.iter().map(|s| area(&s.instants, |i| i.f * i.f)).sum();
        sum / (2.0 * case.time())
    };
    case.strokes().chunks(2).map(squares).fold(0.0, f64::max)
}
