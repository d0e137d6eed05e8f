//! What a reviewer reads off a study and works out first: quantities, parts of an option, rules and the strokes of a slide.
//! Nothing here is shared with the program.

use serde_json::Value;
use std::collections::BTreeMap;

/// Standard gravity.
pub const G: f64 = 9.806_65;
const UNITS: &[(&str, f64)] = &[
    ("mm/s", 1e-3),
    ("m/s", 1.0),
    ("kg cm2", 1e-4),
    ("kg/m", 1.0),
    ("kg", 1.0),
    ("kN", 1e3),
    ("Nm", 1.0),
    ("N", 1.0),
    ("MPa", 1e6),
    ("rpm", std::f64::consts::PI / 30.0),
    ("mm", 1e-3),
    ("um", 1e-6),
    ("m", 1.0),
    ("min", 60.0),
    ("ms", 1e-3),
    ("s", 1.0),
    ("h", 3600.0),
    ("kW", 1e3),
    ("W", 1.0),
    ("V", 1.0),
    ("deg", std::f64::consts::PI / 180.0),
    ("g", 1e-3),
    ("", 1.0),
];

/// A plain number or a text with its unit, in SI.
pub fn si(value: &Value) -> Option<f64> {
    if let Some(number) = value.as_f64() {
        return Some(number);
    }
    let text = value.as_str()?.trim();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || "+-.".contains(c)) && c != 'e')
        .unwrap_or(text.len());
    let number: f64 = text[..end].parse().ok()?;
    let unit = text[end..].trim();
    UNITS
        .iter()
        .find(|(name, _)| *name == unit)
        .map(|(_, factor)| number * factor)
}

/// The built-in catalog as plain JSON, by part id.
pub fn catalog() -> BTreeMap<String, Value> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/catalog");
    let mut parts = BTreeMap::new();
    for entry in std::fs::read_dir(folder).expect("the catalog is there") {
        let text =
            std::fs::read_to_string(entry.expect("an entry").path()).expect("a catalog file");
        let file: Value = serde_json::from_str(&text).expect("a catalog file is JSON");
        for part in file["parts"].as_array().expect("parts") {
            parts.insert(part["id"].as_str().expect("an id").to_owned(), part.clone());
        }
    }
    parts
}

/// One instant of a stroke; `f` is the drive force along out.
pub struct Instant {
    /// Time from the start of the stroke.
    pub t: f64,
    /// Position.
    pub x: f64,
    /// Speed along out.
    pub v: f64,
    /// Acceleration along out.
    pub a: f64,
    /// Drive force along out.
    pub f: f64,
    /// The same without acceleration.
    pub at_rest: f64,
}

/// The figures of the requirements and the assist that every force needs, read once.
#[derive(Default)]
struct Given {
    sine: f64,
    cosine: f64,
    offset: f64,
    drive_offset: f64,
    overhang: f64,
    grows: bool,
    friction: f64,
    spacing: f64,
    drag: f64,
    processed: bool,
    assist: (f64, f64, f64, f64),
}

/// One option of a study, with the catalog beside it.
pub struct Axis<'a> {
    study: &'a Value,
    /// The option as the study writes it.
    pub option: &'a Value,
    catalog: &'a BTreeMap<String, Value>,
    given: Given,
    /// Least out, least back, most out, most back.
    pub strokes: Vec<Vec<Instant>>,
}

impl<'a> Axis<'a> {
    /// `None` where the motion is no slide on the trapezoid, which this reader does not know.
    pub fn new(
        study: &'a Value,
        option: &'a Value,
        catalog: &'a BTreeMap<String, Value>,
    ) -> Option<Self> {
        let motion = &study["requirements"]["motion"];
        if motion["kind"] != "slide" || motion["law"] != "trapezoid" {
            return None;
        }
        let mut axis = Self {
            study,
            option,
            catalog,
            given: Given::default(),
            strokes: Vec::new(),
        };
        axis.given = axis.read_once();
        for load in ["least", "most"] {
            for sign in [1.0, -1.0] {
                axis.strokes
                    .push(axis.stroke(axis.req(&["motion", "load", load]), sign));
            }
        }
        Some(axis)
    }

    fn read_once(&self) -> Given {
        let motion = |field| self.req(&["motion", field]);
        let guide = |field| self.req(&["motion", "guide", field]);
        let written = &self.study["requirements"]["motion"];
        Given {
            sine: motion("incline").sin(),
            cosine: motion("incline").cos().abs(),
            offset: motion("offset"),
            drive_offset: motion("drive_offset"),
            overhang: motion("overhang"),
            grows: written["overhang_grows"] == true,
            friction: guide("friction"),
            spacing: guide("bearing_spacing"),
            drag: motion("drag"),
            processed: written["process"]
                .as_array()
                .is_some_and(|points| !points.is_empty()),
            assist: self.assist(),
        }
    }

    /// A quantity of the requirements; 0 where it is left out.
    pub fn req(&self, path: &[&str]) -> f64 {
        let found = path
            .iter()
            .fold(&self.study["requirements"], |at, key| &at[*key]);
        si(found).unwrap_or(0.0)
    }

    /// A rule of the file, else its default.
    pub fn rule(&self, key: &str, default: f64) -> f64 {
        si(&self.study["requirements"]["rules"][key]).unwrap_or(default)
    }

    /// The option's part of a kind: its line in the study and its record in the catalog.
    pub fn part(&self, kind: &str) -> Option<(&'a Value, &'a Value)> {
        let line = self.option["parts"]
            .as_array()?
            .iter()
            .find(|part| part["kind"] == kind)?;
        Some((line, self.catalog.get(line["id"].as_str()?)?))
    }

    /// A field of the part of a kind, in SI.
    pub fn field(&self, kind: &str, field: &str) -> Option<f64> {
        si(&self.part(kind)?.1[field])
    }

    /// Cycle time.
    pub fn cycle(&self) -> f64 {
        3600.0 / self.req(&["timing", "cycles_per_hour"])
    }

    /// Cycles over the life asked; `wants.life.must` takes the place of `timing.years`.
    pub fn cycles_asked(&self) -> f64 {
        let years = si(&self.study["requirements"]["wants"]["life"]["must"])
            .unwrap_or_else(|| self.req(&["timing", "years"]));
        let timing = |field| self.req(&["timing", field]);
        timing("cycles_per_hour") * timing("hours_per_day") * timing("days_per_year") * years
    }

    /// Time of one stroke.
    pub fn travel_time(&self) -> f64 {
        si(&self.option["design_travel_time_s"]).unwrap_or(f64::NAN)
    }

    /// All instants of all strokes.
    pub fn instants(&self) -> impl Iterator<Item = &Instant> {
        self.strokes.iter().flatten()
    }

    /// Greatest speed.
    pub fn peak_speed(&self) -> f64 {
        self.instants().map(|i| i.v.abs()).fold(0.0, f64::max)
    }

    /// Greatest force, moving or at rest.
    pub fn thrust(&self) -> f64 {
        self.instants()
            .map(|i| i.f.abs().max(i.at_rest.abs()))
            .fold(0.0, f64::max)
    }

    /// Counterweight, its travel ratio, loss of all sheaves, reflected sheave mass.
    pub fn assist(&self) -> (f64, f64, f64, f64) {
        let detail = |field: &str| si(&self.option["assist_detail"][field]).unwrap_or(0.0);
        (
            detail("counterweight_kg"),
            detail("travel_ratio"),
            detail("sheaves") * detail("loss_per_sheave"),
            detail("sheave_mass_kg"),
        )
    }

    /// Force held without power: friction is not relied on.
    pub fn holding(&self) -> f64 {
        let sine = self.req(&["motion", "incline"]).sin();
        let (mc, k, _, _) = self.assist();
        let ends = self.word("power_loss") == "may_move" && self.word("stops") == "ends";
        let travel = self.req(&["motion", "travel"]);
        let steps = if ends { 1 } else { 1000 };
        let mut most: f64 = self.rule("balance_tolerance", 0.05) * k * mc * G;
        for load in ["least", "most"] {
            let weight = self.req(&["motion", "load", load]) * G * sine - k * mc * G;
            for step in 0..=steps {
                most = most.max(
                    (weight + self.process("hold", travel * f64::from(step) / f64::from(steps)))
                        .abs(),
                );
            }
        }
        most
    }

    /// Force that holds a load at rest at a place, without friction.
    pub fn held_at(&self, m: f64, x: f64) -> f64 {
        let (mc, k, _, _) = self.given.assist;
        m * G * self.given.sine - k * mc * G + self.process("hold", x)
    }

    /// A word of the requirements.
    pub fn word(&self, field: &str) -> &str {
        self.study["requirements"][field]
            .as_str()
            .unwrap_or_default()
    }

    /// Greatest force and greatest push of an emergency stop from the peak speed.
    pub fn stop_forces(&self) -> (f64, f64) {
        let v = self.peak_speed();
        let given = self.req(&["base", "stop_distance"]);
        let a = if given > 0.0 {
            v * v / (2.0 * given)
        } else {
            self.rule("stop_deceleration", 5.0)
                .min(v * v / (2.0 * self.rule("stop_distance_default", 0.002)))
        };
        let mut most = (0.0_f64, 0.0_f64);
        for (load, sign, stroke) in self.cases() {
            for i in stroke {
                let force = self.drive_force(load, sign, i.x, -sign * a);
                most = (most.0.max(force.abs()), most.1.max(force));
            }
        }
        most
    }

    /// Greatest force of an emergency stop.
    pub fn stop_force(&self) -> f64 {
        self.stop_forces().0
    }

    /// Load, direction and instants of each stroke.
    pub fn cases(&self) -> impl Iterator<Item = (f64, f64, &Vec<Instant>)> {
        let loads = [
            self.req(&["motion", "load", "least"]),
            self.req(&["motion", "load", "most"]),
        ];
        self.strokes
            .iter()
            .enumerate()
            .map(move |(n, s)| (loads[n / 2], if n % 2 == 0 { 1.0 } else { -1.0 }, s))
    }

    fn process(&self, field: &str, x: f64) -> f64 {
        let empty = Vec::new();
        let points = self.study["requirements"]["motion"]["process"]
            .as_array()
            .unwrap_or(&empty);
        let at = |n: usize| si(&points[n]["at"]).unwrap_or(0.0);
        let force = |n: usize| si(&points[n][field]).unwrap_or(0.0);
        let Some(last) = points.len().checked_sub(1) else {
            return 0.0;
        };
        if x <= at(0) {
            return force(0);
        }
        for n in 1..=last {
            if x <= at(n) {
                return force(n - 1)
                    + (force(n) - force(n - 1)) * (x - at(n - 1)) / (at(n) - at(n - 1)).max(1e-12);
            }
        }
        force(last)
    }

    fn drive_force(&self, m: f64, sign: f64, x: f64, a: f64) -> f64 {
        let given = &self.given;
        let process = if given.processed {
            sign * self.process(if sign > 0.0 { "out" } else { "back" }, x)
        } else {
            0.0
        };
        let (mc, k, loss, sheave) = given.assist;
        let own = m * (a + G * given.sine) + process;
        let reach = given.overhang + if given.grows { x } else { 0.0 };
        let across = m * G * given.cosine;
        let frictionless = own + (k * k * mc + sheave) * a - k * mc * G + sign * loss * k * mc * G;
        // The drive's own couple feeds back into the friction: solved by going round until it stands still.
        let mut force = frictionless;
        for _ in 0..200 {
            let couple =
                own.abs() * given.offset + force.abs() * given.drive_offset + across * reach;
            let friction = given.friction * across.max(2.0 * couple / given.spacing);
            let next = frictionless + sign * (friction + given.drag);
            let still = (next - force).abs() < 1e-9;
            force = next;
            if still {
                break;
            }
        }
        force
    }

    fn stroke(&self, m: f64, sign: f64) -> Vec<Instant> {
        let (travel, time) = (self.req(&["motion", "travel"]), self.travel_time());
        let ramps = &self.study["requirements"]["motion"]["ramps"];
        let (fa, fd) = (
            si(&ramps[0]).unwrap_or(1.0 / 3.0),
            si(&ramps[1]).unwrap_or(1.0 / 3.0),
        );
        let cv = 1.0 / (1.0 - (fa + fd) / 2.0);
        let mut taus: Vec<(f64, f64)> = (0..=240).map(|n| (f64::from(n) / 240.0, 0.0)).collect();
        taus.extend([(fa, -1e-9), (fa, 1e-9), (1.0 - fd, -1e-9), (1.0 - fd, 1e-9)]);
        taus.sort_by(|p, q| (p.0 + p.1).total_cmp(&(q.0 + q.1)));
        let mut instants = Vec::new();
        for (at, nudge) in taus {
            let tau = (at + nudge).clamp(0.0, 1.0);
            let (s, v, a) = if tau < fa {
                (cv * tau * tau / (2.0 * fa), cv * tau / fa, cv / fa)
            } else if tau <= 1.0 - fd {
                (cv * (tau - fa / 2.0), cv, 0.0)
            } else {
                (
                    1.0 - cv * (1.0 - tau) * (1.0 - tau) / (2.0 * fd),
                    cv * (1.0 - tau) / fd,
                    -cv / fd,
                )
            };
            let x = if sign > 0.0 {
                s * travel
            } else {
                (1.0 - s) * travel
            };
            let a = sign * a * travel / (time * time);
            let (f, at_rest) = (
                self.drive_force(m, sign, x, a),
                self.drive_force(m, sign, x, 0.0),
            );
            instants.push(Instant {
                t: tau * time,
                x,
                v: sign * v * travel / time,
                a,
                f,
                at_rest,
            });
        }
        instants
    }
}
