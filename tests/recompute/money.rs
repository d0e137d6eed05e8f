//! Money, values and worth of an option, and the order of the ranking.

use serde_json::Value;

use super::base::{Case, quantity};

fn sum(list: &Value, figure: impl Fn(&Value) -> f64) -> f64 {
    list.as_array().into_iter().flatten().map(figure).sum()
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap_or(0.0)
}

/// What is bought, made and worked, in the file's money.
fn purchase(case: &Case) -> f64 {
    let rate = case.or("rates.labour_per_hour", 40.0);
    let scale = case.or("rates.per_catalog_unit", 1.0);
    let parts = sum(&case.option["parts"], |p| {
        number(p, "price") * number(p, "quantity")
    });
    let material = sum(&case.option["custom"], |m| number(m, "material"));
    let hours = sum(&case.option["custom"], |m| number(m, "hours"))
        + sum(&case.option["hours"], |h| number(h, "hours"));
    (parts + material) * scale + hours * rate
}

/// Name, the sheet's figure and the study's.
pub fn figures(case: &Case) -> Vec<(&'static str, f64, f64)> {
    let option = case.option;
    let mut all = vec![("purchase", purchase(case), number(option, "purchase"))];
    let running = option["running"].as_object();
    let yearly: f64 = running
        .into_iter()
        .flatten()
        .filter_map(|(_, v)| v.as_f64())
        .sum();
    all.push((
        "running_cost",
        yearly,
        number(option, "running_cost_per_year"),
    ));
    let mut worth = 0.0;
    for (name, criterion) in option["criteria"].as_object().into_iter().flatten() {
        let goal = &case.study["requirements"]["goals"][name];
        let (Some(limit), Some(target)) = (quantity(&goal["limit"]), quantity(&goal["target"]))
        else {
            continue;
        };
        let value = ((number(criterion, "raw") - limit) / (target - limit)).clamp(0.0, 1.0);
        all.push(("value", value, number(criterion, "value")));
        worth += value * quantity(&goal["worth"]).unwrap_or(0.0);
    }
    let years = case.or("rates.horizon_years", 5.0);
    let net = worth - number(option, "purchase") - years * number(option, "running_cost_per_year");
    all.push(("net_value", net, number(option, "net_value")));
    let mass = sum(&option["parts"], |p| {
        let here = p["on_machine"].as_bool().unwrap_or(false);
        if here {
            number(p, "mass_kg") * number(p, "quantity")
        } else {
            0.0
        }
    });
    all.push((
        "added_mass",
        mass,
        number(&option["criteria"]["added_mass"], "raw"),
    ));
    all
}

/// Faults of the order: ranks count from one, and no later option is worth more.
pub fn order(name: &str, options: &[Value]) -> Vec<String> {
    let mut faults = Vec::new();
    for (i, option) in options.iter().enumerate() {
        if option["rank"].as_u64() != u64::try_from(i + 1).ok() {
            faults.push(format!(
                "{name}: {} has rank {}",
                option["id"], option["rank"]
            ));
        }
    }
    for pair in options.windows(2) {
        if number(&pair[0], "net_value") < number(&pair[1], "net_value") {
            faults.push(format!(
                "{name}: {} stands before a worthier one",
                pair[0]["id"]
            ));
        }
    }
    faults
}
