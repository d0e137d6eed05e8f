//! The strokes of a hinge as its drive sees them: torques and levers from the places of the pins alone.

use serde_json::Value;

use super::base::{Case, G, at, quantity};
use super::motion::{Course, Given, Instant, Stroke, along, law, stop, times};
use super::worst::most;

/// A point or a force in the plane of the swing: level, up.
type Pair = (f64, f64);

/// The figures of a hinge.
pub struct Hinge {
    pub from: f64,
    pub to: f64,
    pub level: bool,
    pub radius: f64,
    /// Angle of the centre of mass from the arm line.
    pub lead: f64,
    /// Inertia about the centre of mass for each kilogram of load.
    pub own: f64,
    friction: f64,
    base: Pair,
    arm: Pair,
}

/// The distance of the pins at an angle and how it changes: its first and second derivative.
#[derive(Clone, Copy)]
pub struct Lever {
    pub length: f64,
    pub first: f64,
    pub second: f64,
    /// Direction of a push on the arm.
    along: Pair,
}

impl Hinge {
    pub fn read(requirements: &Value) -> Option<Self> {
        let motion = &requirements["motion"];
        if motion["kind"] != "hinge" {
            return None;
        }
        let read = |path: &str| at(motion, path).and_then(quantity);
        let pin = |name: &str| {
            let of = |i: usize| quantity(&motion["anchors"][name][i]).unwrap_or(f64::NAN);
            (of(0), of(1))
        };
        let radius = read("centre_of_mass.radius")?;
        let most = read("load.most")?;
        Some(Self {
            from: read("from")?,
            to: read("to")?,
            level: motion["axis"] != "upright",
            radius,
            lead: read("centre_of_mass.angle").unwrap_or(0.0),
            own: read("inertia").map_or(radius * radius / 3.0, |i| i / most),
            friction: read("pivot_friction").unwrap_or(0.0),
            base: pin("base"),
            arm: pin("arm"),
        })
    }

    /// Distance of the arm's pin from the hinge.
    pub fn pin(&self) -> f64 {
        self.arm.0.hypot(self.arm.1)
    }

    /// By the rule of cosines on hinge, base pin and arm pin.
    pub fn lever(&self, angle: f64) -> Lever {
        let (a, b) = (self.pin(), self.base.0.hypot(self.base.1));
        let opening = angle + self.arm.1.atan2(self.arm.0) - self.base.1.atan2(self.base.0);
        let length = (a * a + b * b - 2.0 * a * b * opening.cos()).sqrt();
        let first = a * b * opening.sin() / length;
        let second = (a * b * opening.cos() - first * first) / length;
        let (sin, cos) = angle.sin_cos();
        let pin = (
            self.arm.0 * cos - self.arm.1 * sin,
            self.arm.0 * sin + self.arm.1 * cos,
        );
        let along = (
            (pin.0 - self.base.0) / length,
            (pin.1 - self.base.1) / length,
        );
        Lever {
            length,
            first,
            second,
            along,
        }
    }

    /// Shortest and longest distance of the pins; without a dead centre they stand at the ends.
    pub fn lengths(&self) -> (f64, f64) {
        let (one, other) = (self.lever(self.from).length, self.lever(self.to).length);
        (one.min(other), one.max(other))
    }

    fn weight(&self, course: &Course, mass: f64, angle: f64) -> f64 {
        let (mc, tail) = (course.assist.mc, course.assist.tail);
        let torque = mass * self.radius * (angle + self.lead).cos() - mc * tail * angle.cos();
        if self.level { G * torque } else { 0.0 }
    }

    /// Inertia about the hinge, the weight on the tail included.
    pub fn inertia(&self, course: &Course, mass: f64) -> f64 {
        let hung = course.assist.mc * course.assist.tail.powi(2);
        mass * (self.own + self.radius * self.radius) + hung
    }

    /// Weight of the load, felt at the drive.
    pub fn weight_at_drive(&self, course: &Course, mass: f64, angle: f64) -> f64 {
        self.weight(course, mass, angle) / self.lever(angle).first
    }

    /// Force between arm and bracket: what speeds the masses up, less their weight and the push of the drive.
    pub fn pivot(&self, course: &Course, mass: f64, i: &Instant) -> f64 {
        let (angle, speed, acceleration) = i.arm;
        let push = self.lever(angle).along;
        let mut sum = (-i.f * push.0, -i.f * push.1);
        let tail = (course.assist.mc, -course.assist.tail, angle);
        for (kg, r, place) in [(mass, self.radius, angle + self.lead), tail] {
            let (sin, cos) = place.sin_cos();
            let inward = speed * speed;
            sum.0 += kg * r * (-acceleration * sin - inward * cos);
            sum.1 += kg * r * (acceleration * cos - inward * sin);
            if self.level {
                sum.1 += kg * G;
            }
        }
        sum.0.hypot(sum.1)
    }
}

/// One stroke of one load.
pub fn stroke(given: &Given, hinge: &Hinge, course: &Course, mass: f64, way: f64) -> Stroke {
    let (range, time) = (hinge.to - hinge.from, course.time);
    let pick = |p: &(f64, f64, f64, f64)| (p.0, if way > 0.0 { p.1 } else { p.2 });
    let table: Vec<_> = given.points.iter().map(pick).collect();
    let inertia = hinge.inertia(course, mass);
    let instant = |(tau, after): (f64, bool)| {
        let (s, v, a) = law(given, tau, after);
        let angle = hinge.from + range * if way > 0.0 { s } else { 1.0 - s };
        let (speed, a) = (way * v * range / time, way * a * range / (time * time));
        let place = table.iter().map(|p| p.0);
        let place = place
            .filter(|p| (p - angle).abs() < range * 1e-9)
            .fold(angle, |_, p| p);
        let process = along(&table, place, after == (way > 0.0));
        let still = hinge.weight(course, mass, angle) + way * (hinge.friction + process);
        let lever = hinge.lever(angle);
        let apparent = inertia / lever.first.powi(2);
        Instant {
            t: tau * time,
            x: lever.length - hinge.lengths().0,
            v: lever.first * speed,
            a: lever.first * a + lever.second * speed * speed,
            q: still / lever.first,
            f: (still + inertia * a) / lever.first,
            still: still / lever.first,
            arm: (angle, speed, a),
            apparent: (
                apparent,
                -2.0 * apparent * lever.second / lever.first.powi(2),
            ),
        }
    };
    Stroke {
        mass,
        sign: way * hinge.lever(hinge.from).first.signum(),
        instants: times(given, way).into_iter().map(instant).collect(),
    }
}

/// Greatest forces of an emergency stop: the drive slows down by the rule, the arm by as much over the lever.
pub fn stops(case: &Case, hinge: &Hinge) -> (f64, f64) {
    let deceleration = stop(case, most(case, |i| i.v.abs()));
    let mut worst = (0.0_f64, 0.0_f64);
    for stroke in case.strokes() {
        for i in &stroke.instants {
            // The square of the lever turns the arm's inertia into the mass that the drive feels.
            let inertia = hinge.inertia(&case.course, stroke.mass);
            let lever = hinge.lever(i.arm.0).first;
            let f = i.still - stroke.sign * inertia * deceleration / (lever * lever);
            worst = (worst.0.max(f), worst.1.max(-f));
        }
    }
    worst
}

/// Greatest forces held at rest, no friction relied on: along the push of the drive and against it.
pub fn holding_both(case: &Case, hinge: &Hinge) -> (f64, f64) {
    let table: Vec<_> = case.given.points.iter().map(|p| (p.0, p.3)).collect();
    let ends = case.words("power_loss") == "may_move" && case.words("stops") == "ends";
    let steps = if ends { 1 } else { 720 };
    let range = hinge.to - hinge.from;
    let even = (0..=steps).map(|i| hinge.from + range * f64::from(i) / f64::from(steps));
    let inside = table.iter().map(|p| p.0);
    let inside = inside.filter(|p| !ends && (hinge.from..=hinge.to).contains(p));
    let mut worst = (0.0_f64, 0.0_f64);
    for angle in even.chain(inside) {
        for stroke in case.strokes() {
            for beyond in [false, true] {
                let weight = hinge.weight(&case.course, stroke.mass, angle);
                let force = (weight + along(&table, angle, beyond)) / hinge.lever(angle).first;
                worst = (worst.0.max(force), worst.1.max(-force));
            }
        }
    }
    worst
}

/// Closed length of the option's cylinder, pin to pin.
fn closed(case: &Case) -> Option<f64> {
    let fields = [
        ("air_cylinders", "zero_stroke_length"),
        ("oil_cylinders", "closed_length"),
        ("electric_cylinders", "fixed_length"),
    ];
    let own = fields.iter().find_map(|(kind, f)| case.field(kind, f));
    // A rod lock sits in front of the cylinder.
    let lock = case.field("rod_locks", "length").unwrap_or(0.0);
    Some(own? + lock + case.travel())
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let hinge = case.given.hinge.as_ref()?;
    if id == "drive.length_between_pins" {
        return Some((closed(case)?, hinge.lengths().0));
    }
    None
}

/// Length of a cylinder on a hinge, pin to pin with the rod out: it buckles over all of that.
pub fn between_pins(case: &Case) -> Option<f64> {
    case.given.hinge.as_ref().map(|hinge| hinge.lengths().1)
}
