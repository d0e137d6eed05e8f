//! The study on one screen of a terminal.

use super::page::{self, Page, Screen};
use super::ruled_out::ruled_out;
use super::standing::standing;
use super::sure::how_sure;
use super::swing::swing_table;
use super::verdict::{verdict, with_sign};
use crate::family::Caution;
use crate::quantity::{Kind, System, show};
use crate::requirements::{PowerLoss, Requirements, Stops, in_degrees};
use crate::study::{
    OptionLine, Study, amount, best_of_kinds, caution_lines, check_name, is_tie, lead, money,
    per_cent,
};

/// Drive types in the table.
const ROWS: usize = 8;
/// A space at which no line is broken, while a table is laid out.
const FIXED: &str = "\u{a0}";
/// Options that are told apart in words, after the first.
const TOLD: usize = 2;

/// The whole screen.
pub fn screen(study: &Study, job: &Requirements, page: Page) -> String {
    screen_in(System::Metric, study, job, page)
}

/// The whole screen, what the job asks in units of a system; drives have their parts' own names.
pub fn screen_in(units: System, study: &Study, job: &Requirements, page: Page) -> String {
    let mut out = Screen::new(page);
    out.heading(if job.title.is_empty() {
        "The job"
    } else {
        &job.title
    });
    let best: Vec<&OptionLine> = best_of_kinds(&study.options).collect();
    verdict(&mut out, study, job, &best);
    out.heading("The job");
    out.line(job_line(units, job));
    out.line(demand_line(units, study));
    if let Some(hinge) = &study.demand.hinge {
        out.text.push_str(&swing_table(hinge, page.width));
    }
    if !best.is_empty() {
        out.text.push('\n');
        table(&mut out, &best, job);
        let more = best.len() - table_rows(&best).count();
        if more > 0 {
            let (types, are) = if more == 1 {
                ("type", "is")
            } else {
                ("types", "are")
            };
            out.line(format!(
                "{more} more drive {types} {are} in the study (--json)."
            ));
        }
        why_first(&mut out, job, study, &best);
        for (index, option) in best.iter().enumerate().skip(1).take(TOLD) {
            out.paragraph(&format!("{}. ", index + 1), &trade(option));
        }
    }
    if let Some(parts) = study.catalog.told() {
        out.line(&parts);
    }
    how_sure(&mut out, study, job);
    ruled_out(&mut out, study, job);
    if !study.fresh_look.is_empty() {
        out.heading("Seen another way");
        for look in &study.fresh_look {
            out.item(&look.says);
        }
    }
    assumptions(&mut out, study);
    out.heading("Cautions");
    let printed: Vec<(usize, &[Caution])> = table_rows(&best)
        .map(|(index, option)| (index + 1, option.hazards.as_slice()))
        .collect();
    for caution in caution_lines(&printed) {
        out.item(&caution);
    }
    out.text.push_str(&standing(job, page));
    out.text
}

fn job_line(units: System, job: &Requirements) -> String {
    let stops = match job.stops {
        Stops::Ends => "stops at its ends",
        Stops::Several => "stops at several places",
        Stops::Anywhere => "stops anywhere",
    };
    let power = match job.power_loss {
        PowerLoss::Hold => "holds when the power fails",
        PowerLoss::MayMove => "may move when the power fails",
    };
    format!(
        "{}, each way within {}, {} an hour; {stops}, {power}.",
        job.motion.kind().words(units),
        amount(job.travel_time_limit_s, "s"),
        number_of(job.timing.cycles_per_hour, "cycle"),
    )
}

fn number_of(count: f64, what: &str) -> String {
    let plural = if (count - 1.0).abs() < 1e-9 { "" } else { "s" };
    format!("{} {what}{plural}", show(count))
}

fn demand_line(units: System, study: &Study) -> String {
    let force = |newtons| units.words(Kind::Force, newtons);
    let worst = &study.demand.worst;
    let place = match &study.demand.hinge {
        Some(hinge) => in_degrees(hinge.worst_angle_rad),
        None => units.words(Kind::Length, worst.worst_position_m),
    };
    let ratio = worst
        .dynamic_over_static
        .filter(|ratio| (ratio - 1.0).abs() >= 0.05)
        .map(|ratio| format!(", {ratio:.2} times that,"))
        .unwrap_or_default();
    format!(
        "Without a counterweight, at {} each way, the load needs {} at rest and {}{ratio} at full speed (worst at {}), {} to hold, {} peak power and {} peak speed.",
        amount(study.demand.travel_time_s, "s"),
        force(worst.static_peak_n),
        force(worst.dynamic_peak_n),
        place,
        force(worst.holding_n),
        units.words(Kind::Power, worst.peak_power_w),
        units.words(Kind::Speed, worst.peak_speed_m_s),
    )
}

/// The rows of the table with their places: the best kinds and, where none of them has an assist, the best that has.
fn table_rows<'b, 'o>(
    best: &'b [&'o OptionLine],
) -> impl Iterator<Item = (usize, &'b &'o OptionLine)> {
    let assisted = |option: &&OptionLine| option.assist != "none";
    let missing = !best.iter().take(ROWS).any(assisted);
    let first = best
        .iter()
        .enumerate()
        .skip(ROWS)
        .find(|(_, option)| missing && assisted(option));
    best.iter().enumerate().take(ROWS).chain(first)
}

fn table(out: &mut Screen, best: &[&OptionLine], job: &Requirements) {
    let heads = [
        "#",
        "drive",
        "time",
        "to buy",
        "a year",
        "net value",
        "tightest check",
    ];
    let mut rows: Vec<Vec<String>> = vec![heads.map(String::from).into()];
    for (index, option) in table_rows(best) {
        let tightest = option.tightest().map_or_else(String::new, |check| {
            let used = per_cent(check.utilisation).replace(' ', FIXED);
            format!("{} {used}", check_name(&check.id))
        });
        rows.push(vec![
            if index > 0 && is_tie(job, best[0], option) {
                format!("{} =", index + 1)
            } else {
                (index + 1).to_string()
            },
            option.words.clone(),
            amount(option.design_travel_time_s, "s"),
            money(option.purchase),
            money(option.running_cost_per_year),
            money(option.net_value),
            tightest,
        ]);
    }
    let table = page::table(rows, &[1, 6], &[2, 3, 4, 5], out.page.width);
    out.text.push_str(&table.replace(FIXED, " "));
    out.text.push('\n');
    out.line(format!(
        "Money in {}. Net value: what the improvements are worth, less purchase and {} of running cost.",
        job.currency,
        number_of(job.rates.horizon_years, "year")
    ));
    if table_rows(best).any(|(index, option)| index > 0 && is_tie(job, best[0], option)) {
        out.line("= is a tie with the first: prices are not known that closely.");
    }
}

fn why_first(out: &mut Screen, job: &Requirements, study: &Study, best: &[&OptionLine]) {
    let first = best[0];
    out.heading("Why, and what the others trade");
    let parts: Vec<String> = first
        .parts
        .iter()
        .map(|part| count_of(part.quantity, &part.name, part.cost))
        .collect();
    let hours: f64 = first.hours.iter().map(|line| line.hours).sum();
    let made: f64 = first.custom.iter().map(|line| line.hours).sum();
    match best.get(1) {
        Some(second) => {
            let lead: Vec<String> = lead(job, first, second)
                .into_iter()
                .map(|(what, gain)| format!("{what} {}", with_sign(gain)))
                .collect();
            let tie = if is_tie(job, first, second) {
                " That is within the uncertainty of the prices: treat it as a tie."
            } else {
                ""
            };
            out.paragraph(
                "1. ",
                &format!(
                    "Ahead of 2 by {} {}: {}.{tie}",
                    money(first.net_value - second.net_value),
                    job.currency,
                    lead.join(", ")
                ),
            );
        }
        None => out.paragraph("1. ", "The only drive type that meets the limits."),
    }
    let curve: Vec<String> = speed_price(study, first);
    if curve.len() > 1 {
        out.paragraph(
            "   ",
            &format!("What speed costs, to buy: {}.", curve.join(", ")),
        );
    }
    out.paragraph(
        "   ",
        &format!(
            "Parts: {}. Hours: {} to design and fit, {} to make custom parts.",
            parts.join("; "),
            show(hours),
            show(made)
        ),
    );
}

fn count_of(quantity: u32, name: &str, cost: f64) -> String {
    if quantity == 1 {
        format!("{name} ({})", money(cost))
    } else {
        format!("{quantity} × {name} ({})", money(cost))
    }
}

/// Times and purchases of one drive type, slowest first: what each step faster costs, at each time the option of
/// greatest net value, as in the table.
fn speed_price(study: &Study, first: &OptionLine) -> Vec<String> {
    let mut points: Vec<(f64, f64)> = Vec::new();
    for option in study
        .options
        .iter()
        .filter(|option| option.drive_type == first.drive_type)
    {
        // Ranked: the first of a time is the one of greatest net value.
        let time = option.design_travel_time_s;
        if points
            .iter()
            .all(|known| known.0.to_bits() != time.to_bits())
        {
            points.push((time, option.purchase));
        }
    }
    points.sort_by(|p, q| p.0.total_cmp(&q.0));
    // From the fastest on, only what is cheaper than everything faster.
    let mut steps: Vec<(f64, f64)> = Vec::new();
    for point in points {
        if steps.last().is_none_or(|last| point.1 < last.1) {
            steps.push(point);
        }
    }
    let step = |(time, price): &(f64, f64)| format!("{} {}", amount(*time, "s"), money(*price));
    steps.iter().rev().map(step).collect()
}

fn trade(option: &OptionLine) -> String {
    let (better, worse) = (option.gives.join(", "), option.gives_up.join(", "));
    let against = match (better.as_str(), worse.as_str()) {
        ("", "") => "the same as the first in all that counts".to_owned(),
        ("", worse) => format!("nothing better; {worse}"),
        (better, "") => format!("{better}; nothing worse"),
        (better, worse) => format!("{better}; but {worse}"),
    };
    format!("{}: {against}.", option.drive_type)
}

fn assumptions(out: &mut Screen, study: &Study) {
    out.heading("Assumed (each with its reason in the study, --json)");
    // What was taken as nothing or as usual is counted, not listed.
    let plain = |value: &str| {
        value.starts_with("0 ") || matches!(value, "none" | "false" | "fairly" | "nobody")
    };
    let (quiet, told): (Vec<_>, Vec<_>) = study
        .assumptions
        .iter()
        .partition(|assumption| plain(&assumption.value));
    let mut texts: Vec<String> = told
        .iter()
        .map(|assumption| format!("{} {}", assumption.field, assumption.value))
        .collect();
    if !quiet.is_empty() {
        texts.push(format!(
            "{} more assumed zero, none or typical",
            quiet.len()
        ));
    }
    out.line(format!("{}.", texts.join("; ")));
}
