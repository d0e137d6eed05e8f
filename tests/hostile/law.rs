//! The law that every input obeys: refused with a place and a reason, or a study of numbers.

use std::sync::Mutex;
use std::time::{Duration, Instant};

use counterpoise::catalog::Catalog;
use counterpoise::decide::{
    NoStudy, Resolver, compare, course, fresh_look, near_misses, prices, proving_plan,
};
use counterpoise::problem::Problem;
use counterpoise::report::{Page, compare_screen, price_screen, screen, sheet};
use counterpoise::study::{RankedJob, Study, to_json};
use serde_json::Value;

/// Longest that one input may take in a debug build; a hang is found, a slow machine is not.
const LONGEST: Duration = Duration::from_secs(30);
/// How often a study is made again at most, in `full`.
const AGAIN: u32 = 20;
/// Most letters of a fault: path, message, what was read and hint, a few lines each.
const LETTERS: usize = 1310;
/// Longest run of digits that a screen may print: 1e12 and its cents have 15.
const DIGITS: usize = 25;

/// What a check allows past 1, since both of its sides are computed.
const HAIR: f64 = 1e-9;

/// How an input ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// With faults, each said.
    Refused,
    /// With a study that has options.
    Ranked,
    /// With a study that has none.
    NoneFits,
}

/// How many inputs ended in which way, and which took longest.
#[derive(Debug, Default)]
pub struct Tally(Mutex<Counts>);

#[derive(Debug, Default)]
struct Counts {
    ends: [u32; 3],
    slowest: Duration,
    of: String,
}

impl Tally {
    /// Counts one.
    pub fn add(&self, verdict: Verdict, took: Duration, input: &str) {
        let mut counts = self.0.lock().expect("nobody panics while counting");
        counts.ends[verdict as usize] += 1;
        if took > counts.slowest {
            counts.slowest = took;
            counts.of = input.chars().take(3000).collect();
        }
    }
    /// How many of each end: refused, ranked, none fits.
    pub fn print(&self, name: &str) -> [u32; 3] {
        let counts = self.0.lock().expect("nobody panics while counting");
        let [refused, ranked, none] = counts.ends;
        println!(
            "{name}: {refused} refused, {ranked} ranked, {none} with no option; slowest {:?}",
            counts.slowest
        );
        if std::env::var_os("HOSTILE_SLOWEST").is_some() {
            println!("{}", counts.of);
        }
        counts.ends
    }
}

/// Reads, ranks and shows one input in every way there is; `full` makes the study again with changes as well.
///
/// # Errors
/// What breaks the law.
pub fn obeyed(
    bytes: &[u8],
    sets: &[(String, String)],
    catalog: &Catalog,
    full: bool,
    tally: &Tally,
) -> Result<Verdict, String> {
    let start = Instant::now();
    let verdict = judged(bytes, sets, catalog, full)?;
    let took = start.elapsed();
    tally.add(
        verdict,
        took,
        &format!("{}\n{sets:?}", String::from_utf8_lossy(bytes)),
    );
    let again = if full { AGAIN } else { 1 };
    if took > LONGEST * again {
        return Err(format!("took {took:?}"));
    }
    Ok(verdict)
}

fn judged(
    bytes: &[u8],
    sets: &[(String, String)],
    catalog: &Catalog,
    full: bool,
) -> Result<Verdict, String> {
    let resolver = match Resolver::new(bytes, sets, catalog) {
        Err(NoStudy::Faults(faults)) => return said(&faults).map(|()| Verdict::Refused),
        Err(NoStudy::Declined(_)) => return Ok(Verdict::Refused),
        Ok(resolver) => resolver,
    };
    let mut made = resolver.study().clone();
    if full {
        near_misses(&resolver, &mut made.ruled_out);
        made.fresh_look = fresh_look(&resolver);
        made.requirement_prices = prices(&resolver);
    }
    let text = to_json(&made)?;
    let json: Value = serde_json::from_str(&text).map_err(|fault| fault.to_string())?;
    for (key, part) in json.as_object().ok_or("the study is no object")? {
        if key != "requirements" {
            all_numbers(part, key)?;
        }
    }
    sound(&made)?;
    shown(&resolver, &made, &text)?;
    Ok(if made.options.is_empty() {
        Verdict::NoneFits
    } else {
        Verdict::Ranked
    })
}

/// A refusal has at least one fault, and each says where and what, on lines that no terminal acts upon.
pub fn said(faults: &[Problem]) -> Result<(), String> {
    if faults.is_empty() {
        return Err("refused without a word".into());
    }
    for fault in faults {
        let text = fault.to_string();
        let place = !fault.path.is_empty() || fault.message.starts_with("the file");
        if !place || fault.message.is_empty() {
            return Err(format!("a fault without a place: {text}"));
        }
        if text.chars().any(|sign| sign.is_control() && sign != '\n') {
            return Err(format!("a fault with control characters: {text:?}"));
        }
        if text.chars().count() > LETTERS {
            return Err(format!("a fault of {} letters", text.chars().count()));
        }
    }
    Ok(())
}

/// No null and nothing that is too large to be a figure of a machine.
fn all_numbers(value: &Value, path: &str) -> Result<(), String> {
    match value {
        Value::Null => Err(format!("{path} is null")),
        Value::Number(number)
            if !number
                .as_f64()
                .is_some_and(|it| it.is_finite() && it.abs() < 1e60) =>
        {
            Err(format!("{path} is {number}"))
        }
        Value::Array(items) => items
            .iter()
            .enumerate()
            .try_for_each(|(index, item)| all_numbers(item, &format!("{path}[{index}]"))),
        Value::Object(fields) => fields
            .iter()
            .try_for_each(|(key, item)| all_numbers(item, &format!("{path}.{key}"))),
        _ => Ok(()),
    }
}

/// Every option costs something, passes every check, and stands in its place.
fn sound(study: &Study) -> Result<(), String> {
    for option in &study.options {
        let money = [
            option.purchase,
            option.running_cost_per_year,
            option.net_value,
        ];
        if money.iter().any(|sum| !sum.is_finite()) || option.purchase <= 0.0 {
            return Err(format!("{} costs {money:?}", option.id));
        }
        for check in &option.checks {
            let used = check.utilisation;
            if !used.is_finite() || !check.passes || used > 1.0 + HAIR {
                return Err(format!("{}: {} is used {used}", option.id, check.id));
            }
        }
    }
    for pair in study.options.windows(2) {
        if pair[0].net_value < pair[1].net_value {
            return Err(format!("{} stands above {}", pair[0].id, pair[1].id));
        }
    }
    Ok(())
}

/// Every screen prints numbers that a person can read.
fn shown(resolver: &Resolver, made: &Study, text: &str) -> Result<(), String> {
    let page = || Page {
        width: 80,
        heading: anstyle::Style::new(),
    };
    let job = resolver.job();
    let read = RankedJob::read(text.as_bytes());
    let read = read.map_err(|faults| format!("a study is not read back: {faults:?}"))?;
    let mut screens = vec![
        screen(made, job, page()),
        compare_screen(&compare(&read, &read), page()),
    ];
    if !made.requirement_prices.is_empty() {
        screens.push(price_screen(made, job, page()));
    }
    if let Some(option) = made.options.first() {
        let course = course(option, job);
        let plan = proving_plan(option, job);
        screens.push(sheet(made, option, job, &plan, course.as_ref(), page()));
    }
    // What the file calls itself is its own business.
    let own = [job.title.as_str(), job.currency.as_str()];
    let plain = |text: &str| {
        !text.contains(|sign: char| sign.is_ascii_digit())
            && !text.contains("NaN")
            && !text.contains("inf")
    };
    if own.iter().all(|text| plain(text)) {
        screens.iter().try_for_each(|text| readable(text))?;
    }
    Ok(())
}

/// No NaN, no endless digits, no control characters.
pub fn readable(text: &str) -> Result<(), String> {
    for line in text.lines() {
        let words = || line.split(|sign: char| !sign.is_alphanumeric());
        if words().any(|word| matches!(word, "NaN" | "inf")) {
            return Err(format!("a screen says {line:?}"));
        }
        if words().any(|word| word.len() > DIGITS && word.bytes().all(|sign| sign.is_ascii_digit()))
        {
            return Err(format!("a screen says {line:?}"));
        }
        if line
            .chars()
            .any(|sign| sign.is_control() && sign != '\u{1b}')
        {
            return Err(format!("a screen has control characters: {line:?}"));
        }
    }
    Ok(())
}

/// A sound study compared with a file that may be anything: refused, or compared both ways; whether it was compared.
///
/// # Errors
/// Where the refusal or the screen cannot be read.
pub fn compared(before: &RankedJob, after: &[u8]) -> Result<bool, String> {
    let after = &match RankedJob::read(after) {
        Ok(after) => after,
        Err(faults) => return said(&faults).map(|()| false),
    };
    let page = Page {
        width: 80,
        heading: anstyle::Style::new(),
    };
    for (first, second) in [(before, after), (after, before)] {
        let text = compare_screen(&compare(first, second), page);
        if text.chars().any(|sign| sign.is_control() && sign != '\n') {
            return Err(format!("a screen has control characters: {text:?}"));
        }
    }
    Ok(true)
}
