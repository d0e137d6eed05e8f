//! Physical and economic sanity: laws that any right answer obeys.

use crate::support;
use counterpoise::catalog;
use counterpoise::demand::{Assist, Axis, Counterweight, Demand};
use counterpoise::quantity::G_M_S2;
use counterpoise::requirements::{Motion, Reading};
use counterpoise::study::{Study, study};

const EXAMPLES: [&str; 4] = ["kiln-door", "veneer-press", "tray-pusher", "tile-fence"];

fn demand(reading: &Reading, assist: &Assist, time_s: f64) -> Demand {
    let Motion::Slide(slide) = &reading.requirements.motion else {
        panic!("a slide")
    };
    Axis::new(&reading.requirements, slide).demand(&reading.requirements, assist, time_s)
}

fn ranked(name: &str, sets: &[(&str, &str)]) -> Study {
    let catalog = catalog::built_in().expect("the built-in catalog is sound");
    study(&support::example(name, sets), catalog).expect("a slide is ranked")
}

fn counterweight(mass_kg: f64) -> Assist {
    Assist::Counterweight(Counterweight {
        mass_kg,
        travel_ratio: 1.0,
        sheaves: 2,
        loss_per_sheave: 0.0,
        sheave_mass_kg: 0.0,
    })
}

#[test]
fn a_counterweight_equal_to_the_load_leaves_friction_and_inertia() {
    let reading = support::example(
        "kiln-door",
        &[
            ("motion.load.least", "85 kg"),
            ("motion.load.most", "85 kg"),
        ],
    );
    let demand = demand(&reading, &counterweight(85.0), 6.0);
    assert!(
        demand.worst.holding_n < 1e-9,
        "nothing is left to hold: {}",
        demand.worst.holding_n
    );
    // In the cruise of the out stroke only friction is left; speeding up adds both masses' inertia.
    let out = &demand.cases[2].profile;
    let cruise = out
        .iter()
        .find(|sample| sample.a_m_s2 == 0.0)
        .expect("the trapezoid cruises");
    let start = out.first().expect("a stroke has instants");
    let inertia = 2.0 * 85.0 * start.a_m_s2;
    let weight = 85.0 * G_M_S2;
    assert!(
        cruise.force_n > 0.0 && cruise.force_n < 0.1 * weight,
        "friction only: {}",
        cruise.force_n
    );
    assert!(
        (start.force_n - cruise.force_n - inertia).abs() < 0.02 * inertia + 0.1,
        "inertia of both masses"
    );
}

#[test]
fn without_drag_or_process_force_doubling_the_load_doubles_the_static_force() {
    for incline in ["0 deg", "37 deg", "90 deg", "-20 deg"] {
        let at = |mass: &str| {
            let sets = [
                ("motion.load.least", mass),
                ("motion.load.most", mass),
                ("motion.incline", incline),
                ("motion.drag", "0 N"),
            ];
            demand(&support::example("kiln-door", &sets), &Assist::None, 6.0)
                .worst
                .static_peak_n
        };
        let (single, double) = (at("40 kg"), at("80 kg"));
        assert!(
            (double / single - 2.0).abs() < 1e-9,
            "{incline}: {single} and {double}"
        );
    }
}

#[test]
fn energy_in_is_energy_out_plus_what_friction_takes() {
    // Up and down again the weight returns what it took, so in - out is the friction over both strokes.
    let reading = support::example(
        "kiln-door",
        &[("motion.offset", "0 mm"), ("motion.drag", "30 N")],
    );
    let demand = demand(&reading, &Assist::None, 6.0);
    let lost = demand.cases[2].figures.work_in_j - demand.cases[2].figures.work_out_j;
    let friction = 2.0 * 30.0 * 0.9;
    assert!(
        (lost - friction).abs() < 1e-3 * friction,
        "{lost} J lost, friction takes {friction} J"
    );
}

#[test]
fn a_longer_must_time_never_makes_the_cheapest_option_dearer() {
    for name in EXAMPLES {
        let cheapest = |time: &str| {
            let made = ranked(name, &[("goals.travel_time.limit", time)]);
            made.options
                .iter()
                .map(|option| option.purchase)
                .fold(f64::INFINITY, f64::min)
        };
        // From the file's must upward, as far as the cycle lets it.
        let prices: Vec<f64> = match name {
            "kiln-door" => ["20 s", "25 s", "40 s", "80 s"].map(cheapest).to_vec(),
            "veneer-press" => ["300 s", "320 s", "360 s"].map(cheapest).to_vec(),
            "tray-pusher" => ["1 s", "1.25 s", "1.6 s"].map(cheapest).to_vec(),
            _ => ["20 s", "25 s", "60 s"].map(cheapest).to_vec(),
        };
        assert!(prices[0].is_finite(), "{name} has an option");
        assert!(
            prices.windows(2).all(|pair| pair[1] <= pair[0] + 1e-6),
            "{name}: {prices:?}"
        );
    }
}

#[test]
fn raising_a_worth_never_lowers_the_rank_of_the_option_best_at_it() {
    for name in EXAMPLES {
        let before = ranked(name, &[]);
        let first = before.options.first().expect("an option");
        for (criterion, line) in &first.criteria {
            let Some(worth) = line.worth else { continue };
            let value = |option: &counterpoise::study::OptionLine| {
                option.criteria[criterion].value.unwrap_or(0.0)
            };
            let best = before.options.iter().map(value).fold(0.0, f64::max);
            let raised = (worth * 3.0).to_string();
            let after = ranked(name, &[(&format!("goals.{criterion}.worth"), &raised)]);
            for option in before.options.iter().filter(|option| value(option) >= best) {
                let rank = after
                    .options
                    .iter()
                    .find(|other| other.id == option.id)
                    .map(|other| other.rank);
                assert!(
                    rank.is_some_and(|rank| rank <= option.rank),
                    "{name}: {criterion} × 3 moves {} from {} to {rank:?}",
                    option.id,
                    option.rank
                );
            }
        }
    }
}

#[test]
fn net_value_adds_up_from_what_the_study_shows() {
    for name in EXAMPLES {
        let reading = support::example(name, &[]);
        let (rates, made) = (reading.requirements.rates, ranked(name, &[]));
        for option in &made.options {
            let parts: f64 = option
                .parts
                .iter()
                .map(|part| f64::from(part.quantity) * part.price)
                .sum();
            let making: f64 = option
                .custom
                .iter()
                .map(|m| m.material + m.hours * rates.labour_per_hour)
                .sum();
            let hours: f64 = option.hours.iter().map(|line| line.hours).sum();
            let purchase = parts + making + hours * rates.labour_per_hour;
            assert!(
                (purchase - option.purchase).abs() < 1e-6 * purchase,
                "{name}: {}",
                option.id
            );
            let gained: f64 = option
                .criteria
                .values()
                .filter_map(|c| Some(c.value? * c.worth?))
                .sum();
            let net = gained - option.purchase - option.running_cost_per_year * rates.horizon_years;
            assert!(
                (net - option.net_value).abs() < 1e-6 * net.abs().max(1.0),
                "{name}: {}",
                option.id
            );
        }
    }
}

#[test]
fn no_option_fails_a_check_or_breaks_a_must() {
    for name in EXAMPLES {
        let reading = support::example(name, &[]);
        for option in ranked(name, &[]).options {
            for check in &option.checks {
                assert!(
                    check.passes && check.utilisation <= 1.0 + 1e-9,
                    "{name}: {} {check:?}",
                    option.id
                );
                assert!(
                    check.utilisation.is_finite()
                        && check.demand.is_finite()
                        && check.capacity.is_finite(),
                    "{check:?}"
                );
            }
            for (criterion, goal) in &reading.requirements.goals {
                let raw = option.criteria[criterion.name()].raw;
                let ok = if criterion.row().more_is_better {
                    raw >= goal.limit
                } else {
                    raw <= goal.limit
                };
                assert!(
                    ok,
                    "{name}: {} {criterion:?} {raw} against {}",
                    option.id, goal.limit
                );
            }
        }
    }
}
