//! What every sheet needs: quantities in SI, catalog records, rules, and one option of a study as a `Case`.

use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;
use std::f64::consts::PI;
use std::path::Path;
use std::rc::Rc;

use serde_json::Value;

use super::motion::{self, Assist, Course, Given, Stroke};

/// Standard gravity, m/s².
pub const G: f64 = 9.806_65;

/// A unit as SI: factor and, for temperatures, what is added first.
fn unit(name: &str) -> Option<(f64, f64)> {
    let factor = match name {
        "" | "m" | "kg" | "s" | "N" | "Nm" | "N m" | "Pa" | "W" | "J" | "V" | "dB" | "dBA"
        | "rad" | "m/s" | "K" | "kg m2" | "kg/m" | "m3" | "m/s2" | "N/m" | "m2" | "Hz" | "A" => 1.0,
        "mm" | "g" | "ms" => 1e-3,
        "cm" => 1e-2,
        "um" | "µm" => 1e-6,
        "km" | "kN" | "kW" | "kPa" | "kJ" | "t" | "kNm" => 1e3,
        "MPa" => 1e6,
        "bar" => 1e5,
        "psi" => 6_894.757_293,
        "in" => 0.0254,
        "ft" => 0.3048,
        "lb" => 0.453_592_37,
        "lbf" => 4.448_221_615,
        "min" => 60.0,
        "h" | "Wh" => 3600.0,
        "kWh" => 3.6e6,
        "L" => 1e-3,
        "L/min" => 1e-3 / 60.0,
        "L/s" => 1e-3,
        "m3/h" => 1.0 / 3600.0,
        "L/(s bar)" => 1e-8,
        "cm3" => 1e-6,
        "mm2" => 1e-6,
        "mm/s" => 1e-3,
        "rpm" | "1/min" => 2.0 * PI / 60.0,
        "deg" => PI / 180.0,
        "kg cm2" => 1e-4,
        "kg mm2" => 1e-6,
        "hp" => 745.7,
        "degC" | "°C" => return Some((1.0, 273.15)),
        "degF" | "°F" => return Some((5.0 / 9.0, 459.67)),
        _ => return None,
    };
    Some((factor, 0.0))
}

/// A quantity of a file in SI: a number as it stands, or a text with its unit.
pub fn quantity(value: &Value) -> Option<f64> {
    let Some(text) = value.as_str() else {
        return value.as_f64();
    };
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || "+-.".contains(c) || c == 'e'))
        .unwrap_or(text.len());
    let number: f64 = text[..end].parse().ok()?;
    let (factor, shift) = unit(text[end..].trim())?;
    Some((number + shift) * factor)
}

/// The value at a dotted path.
pub fn at<'a>(value: &'a Value, path: &str) -> Option<&'a Value> {
    path.split('.').try_fold(value, |inner, key| inner.get(key))
}

/// The built-in catalog and the rules, read as plain text.
pub struct Books {
    parts: BTreeMap<String, BTreeMap<String, Value>>,
    rules: BTreeMap<String, f64>,
}

impl Books {
    /// Reads `catalog/*.json` and the table of rules.
    pub fn read() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("catalog");
        let mut parts: BTreeMap<String, BTreeMap<String, Value>> = BTreeMap::new();
        for entry in std::fs::read_dir(folder).expect("the catalog is there") {
            let text = std::fs::read_to_string(entry.expect("a file").path()).expect("a text");
            let file: Value = serde_json::from_str(&text).expect("JSON");
            let kind = file["kind"].as_str().expect("a kind").to_owned();
            let shelf = parts.entry(kind).or_default();
            for part in file["parts"].as_array().expect("parts") {
                let id = part["id"].as_str().expect("an id").to_owned();
                shelf.insert(id, part.clone());
            }
        }
        let rules = include_str!("rules.txt")
            .lines()
            .filter_map(|line| line.split_once(' '))
            .map(|(key, value)| (key.to_owned(), value.parse().expect("a number")))
            .collect();
        Self { parts, rules }
    }
}

/// A part as an option uses it.
pub struct PartUse<'a> {
    pub used: &'a Value,
    pub record: &'a Value,
}

#[allow(dead_code, reason = "the families take what they need")]
impl PartUse<'_> {
    pub fn id(&self) -> &str {
        self.used["id"].as_str().unwrap_or("")
    }
    pub fn quantity(&self) -> f64 {
        self.used["quantity"].as_f64().unwrap_or(1.0)
    }
    pub fn length_m(&self) -> f64 {
        self.used["length_m"].as_f64().unwrap_or(0.0)
    }
    pub fn price(&self) -> f64 {
        self.used["price"].as_f64().unwrap_or(0.0)
    }
    /// A figure of the record in SI, where it has one.
    pub fn opt(&self, field: &str) -> Option<f64> {
        at(self.record, field).and_then(quantity)
    }
    /// A figure of the record in SI; NaN, which agrees with nothing, where there is none.
    pub fn f(&self, field: &str) -> f64 {
        self.opt(field).unwrap_or(f64::NAN)
    }
    pub fn text(&self, field: &str) -> &str {
        at(self.record, field).and_then(Value::as_str).unwrap_or("")
    }
    pub fn yes(&self, field: &str) -> bool {
        at(self.record, field)
            .and_then(Value::as_bool)
            .unwrap_or(false)
    }
}

/// What the options of one study share, so that it is worked out once.
#[derive(Default)]
pub struct Shared {
    given: OnceCell<Rc<Given>>,
    courses: RefCell<BTreeMap<[u64; 6], Rc<Course>>>,
}

/// One option of a study, with what a reviewer has beside it.
pub struct Case<'a> {
    pub study: &'a Value,
    pub option: &'a Value,
    books: &'a Books,
    pub given: Rc<Given>,
    pub course: Rc<Course>,
}

#[allow(dead_code, reason = "the families take what they need")]
impl<'a> Case<'a> {
    /// One of many options of the study.
    pub fn among(study: &'a Value, option: &'a Value, books: &'a Books, shared: &Shared) -> Self {
        let given = shared
            .given
            .get_or_init(|| Rc::new(Given::read(&study["requirements"])));
        let time = option["demand"]["travel_time_s"].as_f64();
        let (time, assist) = (time.unwrap_or(f64::NAN), Assist::read(option));
        let course = Rc::clone(
            shared
                .courses
                .borrow_mut()
                .entry(assist.key(time))
                .or_insert_with(|| Rc::new(Course::new(given, assist, time))),
        );
        Self {
            study,
            option,
            books,
            given: Rc::clone(given),
            course,
        }
    }
    /// A requirement in SI.
    pub fn req(&self, path: &str) -> Option<f64> {
        at(&self.study["requirements"], path).and_then(quantity)
    }
    /// A requirement in SI, or what the contract takes where it is left out.
    pub fn or(&self, path: &str, default: f64) -> f64 {
        self.req(path).unwrap_or(default)
    }
    pub fn words(&self, path: &str) -> &'a str {
        at(&self.study["requirements"], path)
            .and_then(Value::as_str)
            .unwrap_or("")
    }
    pub fn yes(&self, path: &str) -> bool {
        at(&self.study["requirements"], path)
            .and_then(Value::as_bool)
            .unwrap_or(false)
    }
    pub fn given(&self, path: &str) -> bool {
        at(&self.study["requirements"], path).is_some_and(|value| !value.is_null())
    }
    /// A rule, as the file sets it or as it stands.
    pub fn rule(&self, key: &str) -> f64 {
        let set = self.req(&format!("rules.{key}"));
        set.or_else(|| self.books.rules.get(key).copied())
            .unwrap_or(f64::NAN)
    }
    /// The sizes of all covers of the catalog.
    pub fn books_of(&self, kind: &str) -> Vec<f64> {
        let all = self.books.parts.get(kind).into_iter().flatten();
        all.filter_map(|(_, part)| at(part, "size_most").and_then(quantity))
            .collect()
    }
    /// The option's parts of a kind, in the order of its list.
    pub fn parts(&self, kind: &str) -> Vec<PartUse<'a>> {
        let parts = self.option["parts"].as_array();
        parts
            .into_iter()
            .flatten()
            .filter(|used| used["kind"] == kind)
            .filter_map(|used| {
                let record = self.books.parts.get(kind)?.get(used["id"].as_str()?)?;
                Some(PartUse { used, record })
            })
            .collect()
    }
    pub fn part(&self, kind: &str) -> Option<PartUse<'a>> {
        self.parts(kind).into_iter().next()
    }
    /// A figure in SI of the option's first part of a kind, where there is one that has it.
    pub fn field(&self, kind: &str, field: &str) -> Option<f64> {
        self.part(kind)?.opt(field)
    }
    /// Least out, least back, most out, most back, at the option's own time and with its assist.
    pub fn strokes(&self) -> &[Stroke] {
        &self.course.strokes
    }
    pub fn travel(&self) -> f64 {
        self.given.travel
    }
    pub fn incline(&self) -> f64 {
        self.given.incline
    }
    pub fn time(&self) -> f64 {
        self.course.time
    }
    pub fn cycle_s(&self) -> f64 {
        3600.0 / self.or("timing.cycles_per_hour", f64::NAN)
    }
    pub fn cycles_a_year(&self) -> f64 {
        self.or("timing.cycles_per_hour", f64::NAN)
            * self.or("timing.hours_per_day", 8.0)
            * self.or("timing.days_per_year", 220.0)
    }
    /// Cycles over the life asked.
    pub fn cycles_asked(&self) -> f64 {
        let years = self.req("goals.life.limit");
        self.cycles_a_year() * years.unwrap_or_else(|| self.or("timing.years", 10.0))
    }
    /// A figure of the counterweight, nought without one.
    pub fn assist(&self, field: &str) -> f64 {
        motion::assist(self.option, field)
    }
    pub fn holding_n(&self) -> f64 {
        motion::holding(self)
    }
}
