//! Screws, nuts and their supports, as plain as a spreadsheet.

use std::f64::consts::PI;

use super::base::Case;
use super::life::{LIFE_MOST, a1, covered, life_left, mean_force, way_asked};
use super::steel::{STEEL, strut};
use super::worst::{held_most, most, stop_most, thrust};

const DENSITY: f64 = 7850.0;

/// The screw of an option, ball or sliding.
pub struct Screw {
    /// Travel per turn.
    pub lead: f64,
    /// Outer diameter.
    pub diameter: f64,
    /// Diameter at the root of the thread.
    pub root: f64,
    /// Nut length.
    pub nut: f64,
    /// Length bought.
    pub length: f64,
    thread: Thread,
}

enum Thread {
    Ball {
        efficiency: f64,
    },
    Sliding {
        mean: f64,
        friction: f64,
        collar: f64,
    },
}

impl Screw {
    /// Reads the screw of an option.
    pub fn of(case: &Case) -> Option<Self> {
        let kind = ["ball_screws", "sliding_screws"]
            .into_iter()
            .find(|kind| case.part(kind).is_some())?;
        let part = |field| case.field(kind, field);
        let diameter = part("diameter")?;
        let (lead, thread) = if kind == "ball_screws" {
            (
                part("lead")?,
                Thread::Ball {
                    efficiency: part("efficiency")?,
                },
            )
        } else {
            let pitch = part("pitch")?;
            let collar = case.field("screw_supports", "friction")?
                * case.field("screw_supports", "mean_diameter")?;
            (
                pitch * part("starts")?,
                Thread::Sliding {
                    mean: diameter - pitch / 2.0,
                    friction: part("friction")?,
                    collar,
                },
            )
        };
        let length = case.part(kind)?.length_m();
        Some(Self {
            lead,
            diameter,
            root: part("root_diameter")?,
            nut: part("nut_length")?,
            length,
            thread,
        })
    }

    /// Torque in the direction of turning against a thrust that resists (positive) or drives (negative) the motion;
    /// `starting` multiplies the friction of a sliding thread and its collar.
    pub fn torque(&self, thrust: f64, starting: f64) -> f64 {
        match self.thread {
            Thread::Ball { efficiency } if thrust >= 0.0 => {
                thrust * self.lead / (2.0 * PI * efficiency)
            }
            Thread::Ball { efficiency } => {
                thrust * self.lead * (2.0 - 1.0 / efficiency).max(0.0) / (2.0 * PI)
            }
            Thread::Sliding {
                mean,
                friction,
                collar,
            } => {
                let f = friction * starting / (PI / 12.0).cos();
                let (turn, size) = (PI * mean, thrust.abs());
                let thread = if thrust >= 0.0 {
                    (self.lead + f * turn) / (turn - f * self.lead)
                } else {
                    (f * turn - self.lead) / (turn + f * self.lead)
                };
                size * mean / 2.0 * thread + size * collar * starting / 2.0
            }
        }
    }

    /// Moment of inertia of the bar about its axis; thread and groove leave it between root and outside.
    pub fn inertia(&self) -> f64 {
        PI / 32.0 * DENSITY * ((self.diameter + self.root) / 2.0).powi(4) * self.length
    }

    fn mean(&self) -> f64 {
        match self.thread {
            Thread::Ball { .. } => self.diameter,
            Thread::Sliding { mean, .. } => mean,
        }
    }
}

/// Greatest torque on the screw: moving, from rest, held and in an emergency stop.
pub fn greatest_torque(case: &Case, screw: &Screw) -> f64 {
    let start = case.rule("starting_friction");
    let mut greatest = held_most(case) * screw.lead / (2.0 * PI);
    for stroke in case.strokes() {
        for i in &stroke.instants {
            let moving = screw.torque(i.f * i.v.signum(), 1.0).abs();
            let rest = screw.torque(stroke.sign * i.still, start).abs();
            greatest = greatest.max(moving).max(rest);
        }
    }
    greatest.max(screw.torque(stop_most(case), 1.0).abs())
}

/// Demand and capacity of a check in its own unit.
pub fn recompute(case: &Case, check: &str) -> Option<(f64, f64)> {
    let screw = Screw::of(case)?;
    let rpm = most(case, |i| i.v.abs()) / screw.lead * 60.0;
    let support = |field| case.field("screw_supports", field);
    let thrust = thrust(case).max(stop_most(case)).max(held_most(case));
    let life = |rating: f64, left: f64| {
        let turns = left * a1(case) * (rating / mean_force(case, 3.0)).powi(3) * 1e6;
        LIFE_MOST.min(turns * screw.lead / 1000.0)
    };
    let free = screw.length - support("length")?;
    Some(match check {
        "ball_screw.dn" => (
            screw.diameter * 1000.0 * rpm,
            case.field("ball_screws", "dn_most")?,
        ),
        "ball_screw.life" => (
            way_asked(case),
            life(
                case.field("ball_screws", "dynamic_rating")?,
                nut_left(case, &screw, "ball_screws")?,
            ),
        ),
        "ball_screw.static" => (thrust, case.field("ball_screws", "static_rating")?),
        "screw_support.life" => (way_asked(case), life(support("dynamic_rating")?, 1.0)),
        "screw_support.static" => (thrust, support("static_rating")?),
        "screw_support.speed" => (rpm, support("speed_most")? * 30.0 / PI),
        "screw.critical_speed" => {
            let bend = (3.927 / free).powi(2) * screw.root / 4.0 * (STEEL / DENSITY).sqrt();
            (rpm, case.rule("critical_speed_part") * 30.0 / PI * bend)
        }
        "screw.column" => (thrust, strut(screw.root, 0.7 * free)),
        "coupling.torque" => (
            greatest_torque(case, &screw),
            case.field("couplings", "torque")?,
        ),
        _ => return nut(case, &screw, check),
    })
}

/// What grit leaves of the life of a nut.
fn nut_left(case: &Case, screw: &Screw, kind: &str) -> Option<f64> {
    let part = case.part(kind)?;
    // Rail and screw may fit the same bellows: whether the screw lies under them a remark says.
    let remarks = case.option["remarks"].as_array()?;
    let is_over = |text: &serde_json::Value| {
        let says = "Bellows over the screw";
        text.as_str().is_some_and(|text| text.starts_with(says))
    };
    let under = covered(case, screw.diameter, 1.0) && remarks.iter().any(is_over);
    Some(life_left(case, &part, under))
}

fn nut(case: &Case, screw: &Screw, check: &str) -> Option<(f64, f64)> {
    let part = |field| case.field("sliding_screws", field);
    let area = PI * screw.mean() * screw.nut / 2.0;
    let rubbed = (PI * PI * screw.mean().powi(2) + screw.lead.powi(2)).sqrt() / screw.lead;
    let pressure = mean_force(case, 1.0) / area;
    Some(match check {
        "sliding_nut.pressure" => (
            thrust(case).max(held_most(case)).max(stop_most(case)) / area / 1e6,
            part("pressure_most")? / 1e6,
        ),
        "sliding_nut.rubbing_speed" => (
            most(case, |i| i.v.abs()) * rubbed,
            part("rubbing_speed_most")?,
        ),
        "sliding_nut.wear" => (
            way_asked(case),
            nut_left(case, screw, "sliding_screws")? * part("wear_most")?
                / (part("wear_rate")? * pressure * rubbed)
                / 1000.0,
        ),
        "sliding_nut.pv" => {
            let way = 2.0 * case.travel() * rubbed;
            (
                pressure / 1e6 * way / case.cycle_s().min(600.0),
                part("pv_most")?,
            )
        }
        "sliding_screw.self_locking" => {
            let slope = screw.lead * (PI / 12.0).cos() / (PI * screw.mean());
            (
                slope,
                case.rule("self_locking_friction") * part("friction")?,
            )
        }
        _ => return None,
    })
}
