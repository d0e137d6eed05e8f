//! The calculation sheet of one option: everything that a reviewer with a pocket calculator follows, line by line.

use serde_json::Value;

use super::course::chart;
use super::page::{Page, Screen};
use super::standing::standing;
use super::swing::swing_table;
use crate::decide::Proof;
use crate::demand::{ForceCourse, HingeDemand};
use crate::quantity::{brief, exact, show, to_digits};
use crate::reading::join;
use crate::requirements::Requirements;
use crate::study::{
    AssistDetail, CheckLine, OptionLine, Study, amount, caution_lines, check_name, money, per_cent,
};

/// What is said of every counterweight.
const BALANCE: &str = "No counterweight balances to the gram: at rest the drive is asked to hold at least the part rules.balance_tolerance of its pull, either way.";

/// The sheet.
pub fn sheet(
    study: &Study,
    option: &OptionLine,
    job: &Requirements,
    plan: &[Proof],
    course: Option<&ForceCourse>,
    page: Page,
) -> String {
    let mut out = Screen::new(page);
    let title = if job.title.is_empty() {
        "The job"
    } else {
        &job.title
    };
    out.heading(&format!("{title}: {}", option.words));
    out.line(format!(
        "Place {} of {}: {}.",
        option.rank,
        study.options.len(),
        option.id
    ));
    if let Some(parts) = study.catalog.told() {
        out.line(&parts);
    }
    out.heading("1. What is asked");
    requirement_lines("", &study.requirements, &mut out);
    out.heading("2. What the load asks of the drive");
    demand(option, &mut out);
    if let Some(course) = course {
        chart(course, &mut out);
    }
    out.heading(&format!(
        "3. Parts, custom parts and hours ({})",
        job.currency
    ));
    parts(option, job, &mut out);
    out.heading("4. Checks");
    for check in &option.checks {
        one_check(check, &mut out);
    }
    out.heading(&format!("5. Money and worth ({})", job.currency));
    worth(option, job, &mut out);
    out.heading("6. Proving plan for the built machine");
    out.line("At rest first, then slowly, then at full speed and load: a slow trial proves nothing about a fast one. All along nobody is under the load or in its path, and the drive stays coupled while it holds the load.");
    for proof in plan {
        out.item(format!("{}: {}.", proof.measure, proof.reading));
    }
    out.heading("7. Remarks and cautions");
    for text in &option.remarks {
        out.item(text);
    }
    for text in caution_lines(&[(1, &option.hazards)]) {
        out.item(&text);
    }
    out.text.push_str(&standing(job, page));
    out.text
}

/// Every field of the completed requirements, a line each.
fn requirement_lines(path: &str, value: &Value, out: &mut Screen) {
    match value {
        Value::Object(fields) => {
            for (key, inner) in fields {
                requirement_lines(&join(path, key), inner, out);
            }
        }
        Value::Array(items) if items.iter().any(Value::is_object) => {
            for (index, inner) in items.iter().enumerate() {
                requirement_lines(&format!("{path}[{index}]"), inner, out);
            }
        }
        Value::Array(items) if items.is_empty() => out.line(format!("{path}  none")),
        Value::Array(items) => {
            let texts: Vec<String> = items.iter().map(leaf).collect();
            out.line(format!("{path}  {}", texts.join(", ")));
        }
        one => out.line(format!("{path}  {}", leaf(one))),
    }
}

/// A text without its quotes, a number to four digits.
fn leaf(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().map_or_else(|| number.to_string(), brief),
        other => other.to_string(),
    }
}

fn demand(option: &OptionLine, out: &mut Screen) {
    if let Some(assist) = &option.assist_detail {
        counterweight(assist, out);
    }
    if let Some(hinge) = &option.demand.hinge {
        arm(hinge, out);
    }
    let (worst, stop) = (&option.demand.worst, &option.demand.emergency_stop);
    let powers = [worst.peak_motoring_power_w, worst.peak_braking_power_w];
    #[rustfmt::skip]
    let lines: &[(&str, &[f64], &str)] = &[
        ("travel time", &[option.design_travel_time_s], "s"),
        ("greatest force at rest, breakaway included", &[worst.static_peak_n], "N"),
        ("greatest force in motion", &[worst.dynamic_peak_n], "N"),
        ("greatest push, greatest pull", &[worst.push_peak_n, worst.pull_peak_n], "N"),
        ("force to hold", &[worst.holding_n], "N"),
        ("RMS in motion, over the cycle", &[worst.rms_moving_n, worst.rms_cycle_n], "N"),
        ("greatest speed", &[worst.peak_speed_m_s], "m/s"),
        ("greatest acceleration", &[worst.peak_acceleration_m_s2], "m/s2"),
        ("greatest power driving, braking", &powers, "W"),
        ("work into the load in a cycle", &[worst.work_in_j], "J"),
    ];
    figures(out, lines);
    let stop = format!(
        "emergency stop: deceleration, greatest force: {}, {}",
        amount(stop.deceleration_m_s2, "m/s2"),
        amount(stop.force_peak_n, "N")
    );
    out.line(&stop);
}

/// Lines of one or two numbers of a unit.
fn figures(out: &mut Screen, lines: &[(&str, &[f64], &str)]) {
    for (what, numbers, unit) in lines {
        let numbers: Vec<_> = numbers.iter().map(|number| amount(*number, unit)).collect();
        out.line(format!("{what}: {}", numbers.join(", ")));
    }
}

fn counterweight(assist: &AssistDetail, out: &mut Screen) {
    let mass = show(assist.counterweight_kg);
    let says = match assist.tail_radius_m {
        Some(radius) => format!(
            "With a counterweight of {mass} kg on the arm's tail, {} behind the hinge. {BALANCE}",
            amount(radius, "m")
        ),
        None => format!(
            "With a counterweight of {mass} kg that travels {} times the load over {} sheaves. {BALANCE}",
            show(assist.travel_ratio),
            assist.sheaves
        ),
    };
    out.line(&says);
}

/// What the hinge sees; the forces after it are those of the drive.
fn arm(hinge: &HingeDemand, out: &mut Screen) {
    #[rustfmt::skip]
    let lines: &[(&str, &[f64], &str)] = &[
        ("greatest torque at rest, in motion", &[hinge.static_peak_n_m, hinge.dynamic_peak_n_m], "N m"),
        ("torque to hold", &[hinge.holding_n_m], "N m"),
        ("pin to pin, shortest and longest", &[hinge.length_least_m, hinge.length_most_m], "m"),
        ("greatest force on the hinge", &[hinge.pivot_peak_n], "N"),
    ];
    figures(out, lines);
    out.text.push_str(&swing_table(hinge, out.page.width));
    out.text.push('\n');
}

fn parts(option: &OptionLine, job: &Requirements, out: &mut Screen) {
    for part in &option.parts {
        let length = part.length_m.map_or_else(String::new, |length| {
            format!(", {} long", amount(length, "m"))
        });
        out.item(format!(
            "{} × {}{length} ({}): {} × {} = {}",
            part.quantity,
            part.name,
            part.id,
            part.quantity,
            cents(part.price),
            cents(part.cost)
        ));
    }
    let rate = job.rates.labour_per_hour;
    for made in &option.custom {
        out.item(format!(
            "custom: {}, {} h × {} + material {} = {}",
            made.what,
            show(made.hours),
            cents(rate),
            cents(made.material),
            cents(made.hours * rate + made.material)
        ));
    }
    for hours in &option.hours {
        out.item(format!(
            "{}: {} h × {} = {}",
            hours.what,
            show(hours.hours),
            cents(rate),
            cents(hours.hours * rate)
        ));
    }
    out.line(format!("Together, to buy: {}", cents(option.purchase)));
    if let Some(guide) = &option.guide_detail {
        out.line(format!("Guide: {}", guide.freedom));
        if !guide.not_taken.is_empty() {
            let others = guide.not_taken.join("; ");
            out.line(format!("Guides not taken: {others}."));
        }
    }
}

fn one_check(check: &CheckLine, out: &mut Screen) {
    let verdict = if check.passes { "passes" } else { "FAILS" };
    let name = check_name(&check.id);
    if let Some(says) = &check.says {
        out.item(format!("{name}: {verdict}; {says}."));
    } else {
        let factor = if (check.factor - 1.0).abs() < 1e-12 {
            String::new()
        } else {
            format!(" × {}", show(check.factor))
        };
        out.item(format!(
            "{name}: {}{factor} / {} = {}, {verdict}",
            plain(check.demand, &check.unit),
            plain(check.capacity, &check.unit),
            to_the_tenth(check.utilisation)
        ));
    }
    if !check.formula.is_empty() {
        out.paragraph("    ", &check.formula);
    }
    if !check.given.is_empty() {
        let given: Vec<String> = check
            .given
            .iter()
            .map(|given| format!("{} = {}", given.symbol, plain(given.value, &given.unit)))
            .collect();
        out.paragraph("    ", &format!("with {}", given.join(", ")));
    }
    if !check.source.is_empty() {
        let rule = check
            .rule
            .as_ref()
            .map_or_else(String::new, |rule| format!("; rule {rule}"));
        out.paragraph("    ", &format!("source: {}{rule}", check.source));
    }
}

/// A utilisation to a tenth of a per cent, on its own side of the limit.
fn to_the_tenth(utilisation: f64) -> String {
    let text = format!("{:.1} %", utilisation * 100.0);
    if text == "100.0 %" {
        per_cent(utilisation)
    } else {
        text
    }
}

/// Below this a number of its unit is what rounding leaves; other units have figures as small.
fn least_told(unit: &str) -> f64 {
    match unit {
        "rpm" | "rad/s2" => 1e-3,
        "N" | "N m" | "W" | "mm" => 1e-9,
        _ => 0.0,
    }
}

/// A number to four digits with the unit as it stands.
fn plain(value: f64, unit: &str) -> String {
    let value = if value.abs() < least_told(unit) {
        0.0
    } else {
        value
    };
    let number = exact(to_digits(value, 4));
    format!("{number} {unit}").trim_end().to_owned()
}

/// Money to the cent, no `-0.00`.
fn cents(value: f64) -> String {
    signless_zero(format!("{value:.2}"))
}

/// A text of a number without the sign of a number that prints as zero.
fn signless_zero(text: String) -> String {
    match text.strip_prefix('-') {
        Some(size) if size.chars().all(|sign| matches!(sign, '0' | '.')) => size.into(),
        _ => text,
    }
}

fn worth(option: &OptionLine, job: &Requirements, out: &mut Screen) {
    let mut sum = Vec::new();
    for (name, line) in &option.criteria {
        let Some((value, worth)) = line.value.zip(line.worth) else {
            continue;
        };
        out.item(format!(
            "{} {}: value {} × {} = {}",
            check_name(name),
            amount(line.raw, &line.unit),
            signless_zero(format!("{value:.4}")),
            money(worth),
            cents(value * worth)
        ));
        sum.push(cents(value * worth));
    }
    let running = &option.running;
    out.item(format!(
            "running a year: electricity {} + air {} + what is used up {} + maintenance {} + cranking {} = {}",
            cents(running.electricity),
            cents(running.air),
            cents(running.consumables),
            cents(running.maintenance),
            cents(running.cranking),
            cents(option.running_cost_per_year)
        ));
    let gained = if sum.is_empty() {
        "0".to_owned()
    } else {
        sum.join(" + ")
    };
    out.line(format!(
        "Net value: {gained} − {} − {} × {} = {}",
        cents(option.purchase),
        cents(option.running_cost_per_year),
        show(job.rates.horizon_years),
        cents(option.net_value)
    ));
}
