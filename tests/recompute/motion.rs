//! The demand, by hand: motion laws, forces at every instant, worst figures.

use std::cell::OnceCell;
use std::f64::consts::PI;

use serde_json::Value;

use super::base::{Case, G, at, quantity};
use super::swing::{self, Hinge};

/// One instant of a stroke. Distances and forces count along out.
#[derive(Clone, Copy)]
#[allow(dead_code, reason = "the families take what they need")]
pub struct Instant {
    pub t: f64,
    pub x: f64,
    pub v: f64,
    pub a: f64,
    /// Force of the load without the guide's friction.
    pub q: f64,
    /// Force that the drive must give.
    pub f: f64,
    /// Force at rest at this place, breakaway included.
    pub still: f64,
    /// A hinge's angle, speed and acceleration; noughts on a slide.
    pub arm: (f64, f64, f64),
    /// Mass that the drive feels, and how it grows along out.
    pub apparent: (f64, f64),
}

/// One stroke of one load.
#[allow(dead_code, reason = "the families take what they need")]
pub struct Stroke {
    pub mass: f64,
    /// 1 out, -1 back.
    pub sign: f64,
    pub instants: Vec<Instant>,
}

/// The figures of a requirements file that every force needs, read once.
pub struct Given {
    pub travel: f64,
    pub incline: f64,
    loads: [f64; 2],
    pub offset: f64,
    pub drive_offset: f64,
    pub overhang: f64,
    grows: bool,
    pub friction: f64,
    pub spacing: f64,
    drag: f64,
    law: String,
    ramps: (f64, f64),
    /// Places where the process force breaks or jumps, with the forces out, back and held.
    pub points: Vec<(f64, f64, f64, f64)>,
    pub hinge: Option<Hinge>,
}

impl Given {
    pub fn read(requirements: &Value) -> Self {
        let read = |path: &str| at(requirements, path).and_then(quantity);
        let or = |path: &str, default: f64| read(path).unwrap_or(default);
        let hinge = Hinge::read(requirements);
        let lengths = hinge.as_ref().map(Hinge::lengths);
        let travel = lengths.map_or(or("motion.travel", f64::NAN), |(short, long)| long - short);
        // A cylinder on a hinge may come to lie level: its rod bends most there.
        let incline = if hinge.is_some() { 0.0 } else { f64::NAN };
        let most = or("motion.load.most", f64::NAN);
        let ramp = |i: usize| {
            at(requirements, "motion.ramps")
                .and_then(|list| list.get(i))
                .and_then(quantity)
                .unwrap_or(1.0 / 3.0)
        };
        let one = |point: &Value, key: &str| point.get(key).and_then(quantity).unwrap_or(0.0);
        let row = |p| (one(p, "at"), one(p, "out"), one(p, "back"), one(p, "hold"));
        let list = at(requirements, "motion.process").and_then(Value::as_array);
        let law = at(requirements, "motion.law").and_then(Value::as_str);
        Self {
            travel,
            incline: or("motion.incline", incline),
            loads: [or("motion.load.least", most), most],
            offset: or("motion.offset", 0.0),
            drive_offset: or("motion.drive_offset", 0.0),
            overhang: or("motion.overhang", 0.0),
            grows: at(requirements, "motion.overhang_grows").and_then(Value::as_bool) == Some(true),
            friction: or("motion.guide.friction", 0.05),
            spacing: or("motion.guide.bearing_spacing", (travel / 4.0).max(0.1)),
            drag: or("motion.drag", 0.0),
            law: law.unwrap_or("").to_owned(),
            ramps: (ramp(0), ramp(1)),
            points: list.into_iter().flatten().map(row).collect(),
            hinge,
        }
    }
    /// Where the motion begins and how far it goes: a way, or an angle.
    fn span(&self) -> (f64, f64) {
        let angles = self.hinge.as_ref().map(|h| (h.from, h.to - h.from));
        angles.unwrap_or((0.0, self.travel))
    }
    /// How far the centre of mass lies beyond the middle of the bearings at a place.
    pub fn reach(&self, x: f64) -> f64 {
        self.overhang + if self.grows { x } else { 0.0 }
    }
}

/// A figure of an option's counterweight, nought without one.
pub fn assist(option: &Value, field: &str) -> f64 {
    option["assist_detail"][field].as_f64().unwrap_or(0.0)
}

/// An option's counterweight.
pub struct Assist {
    pub mc: f64,
    k: f64,
    /// Part of its pull that the sheaves lose.
    loss: f64,
    sheaves: f64,
    /// Radius at which it hangs on the tail of a hinge's arm.
    pub tail: f64,
}

impl Assist {
    pub fn read(option: &Value) -> Self {
        let figure = |field| assist(option, field);
        Self {
            mc: figure("counterweight_kg"),
            k: figure("travel_ratio"),
            loss: figure("sheaves") * figure("loss_per_sheave"),
            sheaves: figure("sheave_mass_kg"),
            tail: figure("tail_radius_m"),
        }
    }
    /// What tells one course from another.
    pub fn key(&self, time: f64) -> [u64; 6] {
        [time, self.mc, self.k, self.loss, self.sheaves, self.tail].map(f64::to_bits)
    }
}

/// The strokes of a travel time and an assist, with what follows from them alone.
pub struct Course {
    pub time: f64,
    pub assist: Assist,
    pub strokes: Vec<Stroke>,
    /// The least margin against tipping.
    pub margin: OnceCell<f64>,
    /// The greatest forces of an emergency stop.
    pub stop: OnceCell<(f64, f64)>,
    /// The worst figures of the demand.
    pub worst: OnceCell<Vec<(&'static str, f64)>>,
}

impl Course {
    pub fn new(given: &Given, assist: Assist, time: f64) -> Self {
        let mut course = Self {
            time,
            assist,
            strokes: Vec::new(),
            margin: OnceCell::new(),
            stop: OnceCell::new(),
            worst: OnceCell::new(),
        };
        for mass in given.loads {
            for sign in [1.0, -1.0] {
                let next = match &given.hinge {
                    Some(hinge) => swing::stroke(given, hinge, &course, mass, sign),
                    None => stroke(given, &course, mass, sign),
                };
                course.strokes.push(next);
            }
        }
        course
    }
}

/// Part of the way, speed and acceleration at a part of the time, all without units.
pub fn law(given: &Given, tau: f64, after: bool) -> (f64, f64, f64) {
    let t = tau;
    match given.law.as_str() {
        "cycloidal" => {
            let w = 2.0 * PI;
            (
                t - (w * t).sin() / w,
                1.0 - (w * t).cos(),
                w * (w * t).sin(),
            )
        }
        "polynomial_345" => (
            10.0 * t.powi(3) - 15.0 * t.powi(4) + 6.0 * t.powi(5),
            30.0 * t.powi(2) - 60.0 * t.powi(3) + 30.0 * t.powi(4),
            60.0 * t - 180.0 * t.powi(2) + 120.0 * t.powi(3),
        ),
        "polynomial_4567" => (
            35.0 * t.powi(4) - 84.0 * t.powi(5) + 70.0 * t.powi(6) - 20.0 * t.powi(7),
            140.0 * t.powi(3) - 420.0 * t.powi(4) + 420.0 * t.powi(5) - 140.0 * t.powi(6),
            420.0 * t.powi(2) - 1680.0 * t.powi(3) + 2100.0 * t.powi(4) - 840.0 * t.powi(5),
        ),
        "harmonic" => (
            (1.0 - (PI * t).cos()) / 2.0,
            PI / 2.0 * (PI * t).sin(),
            PI * PI / 2.0 * (PI * t).cos(),
        ),
        "modified_sine" => mirrored(t, sine),
        "modified_trapezoid" => mirrored(t, modified),
        _ => trapezoid(given.ramps, t, after),
    }
}

/// The second half of a symmetric law is the first, turned round.
fn mirrored(t: f64, half: fn(f64) -> (f64, f64, f64)) -> (f64, f64, f64) {
    if t <= 0.5 {
        return half(t);
    }
    let (s, v, a) = half(1.0 - t);
    (1.0 - s, v, -a)
}

fn sine(t: f64) -> (f64, f64, f64) {
    let c = PI / (4.0 + PI);
    let w = 4.0 * PI * t;
    if t < 0.125 {
        return (
            c * (t - w.sin() / (4.0 * PI)),
            c * (1.0 - w.cos()),
            c * 4.0 * PI * w.sin(),
        );
    }
    let u = w / 3.0 + PI / 3.0;
    let way = (2.0 + PI * t - 2.25 * u.sin()) / (4.0 + PI);
    (way, c * (1.0 - 3.0 * u.cos()), c * 4.0 * PI * u.sin())
}

fn modified(t: f64) -> (f64, f64, f64) {
    let peak = 8.0 * PI / (2.0 + PI);
    let w = 4.0 * PI;
    let first = |t: f64| {
        (
            peak * (t / w - (w * t).sin() / (w * w)),
            peak * (1.0 - (w * t).cos()) / w,
            peak * (w * t).sin(),
        )
    };
    if t < 0.125 {
        return first(t);
    }
    let second = |t: f64| {
        let (s, v, _) = first(0.125);
        let u = t - 0.125;
        (s + v * u + peak * u * u / 2.0, v + peak * u, peak)
    };
    if t < 0.375 {
        return second(t);
    }
    let (s, v, _) = second(0.375);
    let u = t - 0.375;
    let wave = w * u;
    (
        s + v * u + peak * (1.0 - wave.cos()) / (w * w),
        v + peak * wave.sin() / w,
        peak * wave.cos(),
    )
}

fn trapezoid((fa, fd): (f64, f64), t: f64, after: bool) -> (f64, f64, f64) {
    let peak = 1.0 / (1.0 - (fa + fd) / 2.0);
    let near = |edge: f64| (t - edge).abs() < 1e-12;
    if t < fa && !near(fa) || near(fa) && !after {
        return (peak * t * t / (2.0 * fa), peak * t / fa, peak / fa);
    }
    let left = 1.0 - t;
    if t < 1.0 - fd && !near(1.0 - fd) || near(1.0 - fd) && !after && fa + fd < 1.0 - 1e-12 {
        return (peak * (t - fa / 2.0), peak, 0.0);
    }
    (
        1.0 - peak * left * left / (2.0 * fd),
        peak * left / fd,
        -peak / fd,
    )
}

/// A piecewise linear figure at a place; at a jump the side that is asked for.
pub fn along(table: &[(f64, f64)], x: f64, beyond: bool) -> f64 {
    let (Some(first), Some(last)) = (table.first(), table.last()) else {
        return 0.0;
    };
    let before = |p: f64| {
        if beyond {
            p <= x + 1e-12
        } else {
            p < x - 1e-12
        }
    };
    let Some(i) = table.iter().rposition(|p| before(p.0)) else {
        return first.1;
    };
    let Some(next) = table.get(i + 1) else {
        return last.1;
    };
    let from = table[i];
    from.1 + (next.1 - from.1) * (x - from.0) / (next.0 - from.0)
}

/// The force of the drive, and of the load alone, for a mass at a place.
pub fn force(
    (given, course): (&Given, &Course),
    (mass, sign): (f64, f64),
    (x, a): (f64, f64),
    process: f64,
) -> (f64, f64) {
    let (sin, cos) = (given.incline.sin(), given.incline.cos().abs());
    let own = mass * (a + G * sin) + sign * process;
    let Assist {
        mc,
        k,
        loss,
        sheaves,
        ..
    } = course.assist;
    let pull = k * mc * G;
    let rope = (k * k * mc + sheaves) * a - pull + sign * loss * pull;
    let fixed = own.abs() * given.offset + mass * G * cos * given.reach(x);
    let mut drive = own + rope;
    // The couple of the drive grows with its force; each round is nearer by the binding ratio.
    for _ in 0..5000 {
        let couple = fixed + drive.abs() * given.drive_offset;
        let normal = (mass * G * cos).max(2.0 * couple / given.spacing);
        let next = own + rope + sign * (given.friction * normal + given.drag);
        let still = (next - drive).abs() <= 1e-12 * next.abs();
        drive = next;
        if still || given.drive_offset == 0.0 {
            break;
        }
    }
    (own, drive)
}

/// The times to look at, as parts of the stroke, each with the side of a jump.
pub fn times(given: &Given, sign: f64) -> Vec<(f64, bool)> {
    let mut all: Vec<(f64, bool)> = (0..=240).map(|i| (f64::from(i) / 240.0, false)).collect();
    let mut edges: Vec<f64> = Vec::new();
    if matches!(given.law.as_str(), "trapezoid" | "") {
        let (fa, fd) = given.ramps;
        edges.extend([fa, 1.0 - fd]);
    }
    let (from, range) = given.span();
    for (place, ..) in &given.points {
        let part = (place - from) / range;
        let part = if sign > 0.0 { part } else { 1.0 - part };
        if part > 0.0 && part < 1.0 {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..60 {
                let middle = (low + high) / 2.0;
                if law(given, middle, false).0 < part {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            edges.push(high);
        }
    }
    for edge in edges {
        all.retain(|(t, _)| (t - edge).abs() > 1e-9);
        all.extend([(edge, false), (edge, true)]);
    }
    all.sort_by(|p, q| p.0.total_cmp(&q.0).then(p.1.cmp(&q.1)));
    all.dedup();
    all
}

fn stroke(given: &Given, course: &Course, mass: f64, sign: f64) -> Stroke {
    let (travel, time) = (given.travel, course.time);
    let pick = |p: &(f64, f64, f64, f64)| (p.0, if sign > 0.0 { p.1 } else { p.2 });
    let table: Vec<_> = given.points.iter().map(pick).collect();
    let instant = |(tau, after): (f64, bool)| {
        let (s, v, a) = law(given, tau, after);
        let x = travel * if sign > 0.0 { s } else { 1.0 - s };
        let a = sign * a * travel / (time * time);
        let mut process = along(&table, x, after == (sign > 0.0));
        if let Some(point) = table.iter().find(|p| (p.0 - x).abs() < travel * 1e-9) {
            process = along(&table, point.0, after == (sign > 0.0));
        }
        let (q, f) = force((given, course), (mass, sign), (x, a), process);
        let (_, still) = force((given, course), (mass, sign), (x, 0.0), process);
        Instant {
            t: tau * time,
            x,
            v: sign * v * travel / time,
            a,
            q,
            f,
            still,
            arm: (0.0, 0.0, 0.0),
            apparent: (mass, 0.0),
        }
    };
    Stroke {
        mass,
        sign,
        instants: times(given, sign).into_iter().map(instant).collect(),
    }
}

/// The greatest force to hold, no friction relied on.
pub fn holding(case: &Case) -> f64 {
    let (out, back) = holding_both(case);
    out.max(back)
}

fn holds(case: &Case) -> Vec<(f64, f64)> {
    case.given.points.iter().map(|p| (p.0, p.3)).collect()
}

/// The force that holds a load at rest at a place, no friction relied on.
pub fn held_at(case: &Case, mass: f64, x: f64) -> f64 {
    let pull = case.assist("travel_ratio") * case.assist("counterweight_kg") * G;
    mass * G * case.incline().sin() + along(&holds(case), x, false) - pull
}

/// The greatest forces to hold along out and against it.
pub fn holding_both(case: &Case) -> (f64, f64) {
    if let Some(hinge) = &case.given.hinge {
        return swing::holding_both(case, hinge);
    }
    let table = holds(case);
    let ends = case.words("power_loss") == "may_move" && case.words("stops") == "ends";
    let mut places = vec![0.0, case.travel()];
    if !ends {
        places.extend(
            table
                .iter()
                .map(|p| p.0)
                .filter(|x| (0.0..=case.travel()).contains(x)),
        );
    }
    let pull = case.assist("travel_ratio") * case.assist("counterweight_kg") * G;
    let mut worst = (0.0_f64, 0.0_f64);
    for stroke in case.strokes() {
        for x in &places {
            for beyond in [false, true] {
                let hold = along(&table, *x, beyond);
                let force = stroke.mass * G * case.incline().sin() + hold - pull;
                worst = (worst.0.max(force), worst.1.max(-force));
            }
        }
    }
    worst
}

/// Deceleration of an emergency stop from a speed.
pub fn stop(case: &Case, v: f64) -> f64 {
    case.req("base.stop_distance").map_or_else(
        || {
            case.rule("stop_deceleration")
                .min(v * v / (2.0 * case.rule("stop_distance_default")))
        },
        |way| v * v / (2.0 * way),
    )
}
