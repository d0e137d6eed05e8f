//! Arriving: the cushion, or a shock absorber where it does not suffice.

use super::motion::{Leg, LoadedCylinder};
use crate::catalog::ShockAbsorber;
use crate::demand::Direction;
use crate::family::choose::Shelf;
use crate::family::{Ask, Check, check};
use crate::mechanics::pneumatics::{Arrival, end_energy};
use crate::quantity::{Length, Si, Velocity, kilograms, metres_per_second, newtons};

/// How one end is met.
#[derive(Debug, Clone)]
pub(super) struct End<'a> {
    pub absorber: Option<&'a ShockAbsorber>,
    pub checks: Vec<Check>,
}

/// Area of the piston that drives a stroke.
fn driving_m2(motion: &LoadedCylinder, direction: Direction) -> f64 {
    motion.areas_m2[usize::from(direction == Direction::Back)]
}

/// Energy of one load at an end over a length of stopping, J.
fn energy_at(
    ask: &Ask,
    motion: &LoadedCylinder,
    direction: Direction,
    load_kg: f64,
    speed: Velocity,
    length: Length,
) -> f64 {
    let drive = motion.pressure_pa * driving_m2(motion, direction);
    let at_m = match direction {
        Direction::Out => ask.travel_m(),
        Direction::Back => 0.0,
    };
    let weight = ask.book.axis().weight_n(&ask.assist.assist, load_kg, at_m);
    let along = drive - direction.sign() * weight;
    let mass = kilograms(motion.moving_at(load_kg, at_m).0);
    end_energy(mass, speed, newtons(along), length).si()
}

/// Energy at an end over a length of stopping, J: the worst load's.
fn energy_j(
    ask: &Ask,
    motion: &LoadedCylinder,
    direction: Direction,
    leg: &Leg,
    length: Length,
) -> f64 {
    let of = |(load_kg, arrival): &(f64, Arrival)| {
        let speed = metres_per_second(arrival.end_speed_m_s);
        energy_at(ask, motion, direction, *load_kg, speed, length)
    };
    leg.arrivals.iter().map(of).fold(0.0, f64::max)
}

/// Whether the cushions of both ends would do if the load arrived no faster than its mean speed, as it hardly ever does.
pub(super) fn may_do_without_absorbers(ask: &Ask, motion: &LoadedCylinder, time_s: f64) -> bool {
    let cylinder = motion.cylinder;
    let mean = metres_per_second(ask.travel_m() / time_s);
    let ends = [Direction::Out, Direction::Back];
    let loads = ask.book.axis().loads_kg;
    ends.into_iter().all(|direction| {
        let energy = |load| energy_at(ask, motion, direction, load, mean, cylinder.cushion_length);
        let most = loads.into_iter().map(energy).fold(0.0, f64::max);
        most <= cylinder.cushion_energy.si()
    })
}

/// The ways in which an end is met: by the cylinder's cushion, else by a shock absorber worth having, else by neither.
pub(super) fn ways<'a>(
    ask: &Ask<'a>,
    motion: &LoadedCylinder,
    direction: Direction,
    leg: &Leg,
) -> Vec<End<'a>> {
    let cylinder = motion.cylinder;
    let energy = energy_j(ask, motion, direction, leg, cylinder.cushion_length);
    let cushion = check!(
        "air_cylinder.cushion", energy => cylinder.cushion_energy.si(), "J";
        "½ M v² + (p_g A + weight along the stroke) · cushion length ≤ rating; v the greatest in the last tenth",
        "work and energy; data of the part";
        ("p_g", motion.pressure_pa / 1e5, "bar"), ("A", driving_m2(motion, direction) * 1e6, "mm2"),
        ("v", leg.fastest_m_s(), "m/s"), ("cushion length", cylinder.cushion_length.si() * 1e3, "mm"),
    );
    if cushion.passes() {
        return vec![End {
            absorber: None,
            checks: vec![cushion],
        }];
    }
    let checks = |absorber: &ShockAbsorber| absorber_checks(ask, motion, direction, leg, absorber);
    let shelf = Shelf::new(ask, &ask.catalog.shock_absorbers, |absorber| {
        &absorber.common
    });
    let fitting = shelf.choices(|absorber| checks(absorber).iter().all(Check::passes));
    if fitting.is_empty() {
        return vec![End {
            absorber: None,
            checks: vec![cushion],
        }];
    }
    let with = |absorber: &'a ShockAbsorber| End {
        absorber: Some(absorber),
        checks: checks(absorber),
    };
    fitting.into_iter().map(with).collect()
}

fn absorber_checks(
    ask: &Ask,
    motion: &LoadedCylinder,
    direction: Direction,
    leg: &Leg,
    absorber: &ShockAbsorber,
) -> Vec<Check> {
    let energy = energy_j(ask, motion, direction, leg, absorber.stroke);
    vec![
        check!(
            "shock_absorber.energy", energy => absorber.energy.si(), "J";
            "½ M v² + (p_g A + weight along the stroke) · stroke of the absorber ≤ rating",
            "work and energy; data of the part";
            ("p_g", motion.pressure_pa / 1e5, "bar"),
            ("A", driving_m2(motion, direction) * 1e6, "mm2"), ("v", leg.fastest_m_s(), "m/s"),
            ("stroke", absorber.stroke.si() * 1e3, "mm"),
        ),
        check!(
            "shock_absorber.energy_per_hour", energy * ask.job.timing.cycles_per_hour => absorber.energy_per_hour.si(), "J";
            "E · cycles an hour ≤ rating", "data of the part";
            ("E", energy, "J"), ("cycles", ask.job.timing.cycles_per_hour, "1/h"),
        ),
        check!(
            "shock_absorber.speed", leg.fastest_m_s() => absorber.speed_most.si(), "m/s";
            "v ≤ rating", "data of the part";
            ("v", leg.fastest_m_s(), "m/s"),
        ),
    ]
}
