//! The calculation sheet adds up: every check's numbers put into its formula again, and money to the net value.
//!
//! The formulas here are written once more from the method and the works that each check names, as plain as on a pocket
//! calculator; they share nothing with the program but the numbers that a check says it was given.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use crate::support;
use anstyle::Style;
use counterpoise::catalog::built_in;
use counterpoise::decide::course;
use counterpoise::demand::CourseRow;
use counterpoise::report::{Page, sheet};
use counterpoise::study::{CheckLine, Study, amount, best_of_kinds, study};

/// Standard fall, m/s².
const G: f64 = 9.806_65;
/// Steel: modulus in N/mm², yield in N/mm², density in kg/m³ (the method's).
const STEEL: (f64, f64, f64) = (205e3, 350.0, 7850.0);

fn studies() -> Vec<(String, Study)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("there are examples")
        .map(|file| file.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|end| end == "json"))
        .map(|path| {
            path.file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    let catalog = built_in().expect("the catalog is sound");
    let made = |name: String| {
        let made = study(&support::example(&name, &[]), catalog).expect("it is ranked");
        (name, made)
    };
    let mut all: Vec<(String, Study)> = names.into_iter().map(made).collect();
    // Ruled out as it stands; on edge it has options, with the checks of an arm.
    let edge = [("structure.width", "12 mm"), ("structure.height", "40 mm")];
    let on_edge = support::example("dipping-arm", &edge);
    let ranked = study(&on_edge, catalog).expect("it is ranked");
    assert!(!ranked.options.is_empty());
    all.push(("dipping-arm".into(), ranked));
    all
}

/// The load at which a round bar of a diameter and free length in mm buckles, N: Euler, or Johnson where it is stout.
fn buckles(d: f64, length: f64, k: f64) -> f64 {
    let (area, radius) = (PI * d * d / 4.0, d / 4.0);
    let slender = k * length / radius;
    let turning = (2.0 * PI * PI * STEEL.0 / STEEL.1).sqrt();
    if slender > turning {
        PI * PI * STEEL.0 * area / (slender * slender)
    } else {
        STEEL.1 * area * (1.0 - STEEL.1 * slender * slender / (4.0 * PI * PI * STEEL.0))
    }
}

/// What a check asks or gives by its formula, from what it was given; none where the formula needs more than a sheet shows.
#[allow(clippy::too_many_lines, reason = "one line a check, as on a sheet")]
fn again(check: &CheckLine) -> Option<(Option<f64>, Option<f64>)> {
    let given: BTreeMap<&str, f64> = check.given.iter().map(|g| (&*g.symbol, g.value)).collect();
    let x = |symbol: &str| {
        *given
            .get(symbol)
            .unwrap_or_else(|| panic!("{} is not given {symbol}", check.id))
    };
    let asks = |value: f64| Some((Some(value), None));
    let bears = |value: f64| Some((None, Some(value)));
    match &*check.id {
        "crank.hand_force" => asks(x("F") * x("travel per turn") / (2.0 * PI * x("R") * x("η"))),
        "crank.speed" => asks(x("turns") / x("T") * 60.0),
        "crank.power" => asks(x("work") / (x("η") * x("T"))),
        "load_brake.torque" => asks(x("F hold") * x("l") / 1e3 / (2.0 * PI)),
        "rack.length" => asks((x("S") * 1e3 + x("m") * x("teeth")) / 1e3),
        "rope.strength" => asks(x("mc") * (G + x("k") * x("a"))),
        "sheave.ratio" => bears(x("D") / x("d")),
        "sheave.pin_load" => asks(2.0 * x("S") * (x("α") / 2.0).sin()),
        "counterweight.slack_move" => asks(x("k") * x("a") / G),
        "counterweight.slack_stop" => asks(x("k") * x("a_stop") / G),
        "ball_screw.life" => {
            bears(x("a1") * (x("Ca") / x("Fm")).powi(3) * 1e6 * x("l") / 1e6 * x("k"))
        }
        "ball_screw.dn" => asks(x("d") * x("n")),
        "ball_screw.static" | "screw_support.static" => Some((Some(x("F")), Some(x("C0a")))),
        "screw_support.life" => bears(x("a1") * (x("C") / x("Fm")).powi(3) * 1e6 * x("l") / 1e6),
        "screw_support.speed" => asks(x("v") / (x("l") / 1e3) * 60.0),
        "screw.critical_speed" => {
            let (d, length) = (x("d root") / 1e3, x("L") / 1e3);
            let stiff =
                (STEEL.0 * 1e6 * PI * d.powi(4) / 64.0 / (STEEL.2 * PI * d * d / 4.0)).sqrt();
            let whirl = 60.0 / (2.0 * PI) * (3.927 / length).powi(2) * stiff;
            Some((
                Some(x("v") / (x("l") / 1e3) * 60.0),
                Some(x("part") * whirl),
            ))
        }
        "screw.column" | "screw_jack.buckling" => {
            Some((Some(x("F")), Some(buckles(x("d root"), x("L"), x("K")))))
        }
        "electric_cylinder.column" | "oil_cylinder.rod_buckling" => {
            Some((Some(x("F")), Some(buckles(x("d"), x("L"), x("K")))))
        }
        "air_cylinder.buckling" => Some((Some(x("p_g A")), Some(buckles(x("d"), x("L"), x("K"))))),
        "sliding_nut.pressure" => asks(2.0 * x("F") / (PI * x("dm") * x("L"))),
        "sliding_nut.pv" | "hinge_bearing.pv" => asks(x("p") * x("v")),
        "sliding_nut.rubbing_speed" => {
            asks(x("v") * (PI * PI * x("dm") * x("dm") + x("l") * x("l")).sqrt() / x("l"))
        }
        "servo_motor.speed"
        | "stepper_motor.speed"
        | "gear_motor.speed"
        | "gearbox.speed"
        | "brake.speed" => asks(x("n screw") * x("i")),
        "servo_motor.inertia_ratio" | "stepper_motor.inertia_ratio" => {
            asks(x("J load") / x("J motor"))
        }
        "power_supply.power" => asks(x("shaft") + x("loss")),
        "gearbox.torque" => asks(x("T rms") * x("i")),
        "brake.torque" => asks(x("T hold") / x("i")),
        "coupling.torque" | "gearbox.peak_torque" => asks(x("T driving").max(x("T greatest"))),
        "coupling.brake_torque" => asks(x("T brake") * x("i")),
        "gear_motor.running_life" | "electric_cylinder.running_life" => {
            asks(x("run in a cycle") * x("cycles") / 3600.0)
        }
        // With a load along the pin the factors of the sort are needed, which a sheet names in words.
        "hinge_bearing.static" if x("Fa") <= 0.0 => asks(x("F/2") + x("M") / x("s")),
        "hinge_pin.shear" => asks(x("F") / (PI / 4.0 * x("d") * x("d"))),
        "hinge_bearing.life" => bears(x("a1") * x("k") * (x("C") / x("P")).powf(x("p")) * 1e6),
        "hinge_bearing.wear" => asks(x("rate") * x("p") * 1e6 * x("path") * 1e3 / x("k")),
        "structure.deflection" => {
            let (f, q, length) = (x("F"), x("q"), x("L"));
            let bends = |point: f64, line: f64| {
                (f * length.powi(3) / point + q * length.powi(4) / line) / (x("E") * x("I") / 1e3)
            };
            if check.formula.contains("48 E I") {
                asks(bends(48.0, 384.0 / 5.0))
            } else {
                asks(bends(3.0, 8.0))
            }
        }
        "structure.stress" => {
            let (f, q, length) = (x("F"), x("q"), x("L"));
            let moment = if check.formula.contains("F L/4") {
                f * length / 4.0 + q * length * length / 8.0
            } else {
                f * length + q * length * length / 2.0
            };
            asks(moment / x("Z") * 1e3)
        }
        "guide.life" => bears(x("a1") * x("k") * 100.0 * (x("C") / x("P")).powi(3)),
        "guide.friction" => Some((Some(x("μ guide")), Some(x("μ job")))),
        "guide.pressure" => asks(x("P0") / (x("w") * x("l"))),
        "guide.pv" => asks(x("Pm") / (x("w") * x("l")) * x("v")),
        "guide.wear" => asks(x("rate") * 1e-15 * x("p") * 1e6 * x("way") * 1e6 / x("k")),
        "guide.shaft_deflection" => {
            let (length, d) = (x("L"), x("d"));
            let a = (length - x("b")) / 2.0;
            let stiff = x("E") * 1e3 * PI / 64.0 * d.powi(4);
            let bent = x("P0") * a * (3.0 * length * length - 4.0 * a * a) / (24.0 * stiff);
            Some((Some(bent), Some(x("part") * length)))
        }
        "air_cylinder.load_factor" | "air_cylinder.load_factor_held" => {
            let (pressure, bore, annulus) = (x("p_g") / 10.0, x("A"), x("A annulus"));
            asks((x("F push") / (pressure * bore)).max(x("F pull") / (pressure * annulus)))
        }
        "air_cylinder.smooth_speed" => bears(x("S") / x("T")),
        "air_cylinder.exhaust_pressure" => {
            let (p, bore, annulus) = (x("p_g") / 10.0, x("A"), x("A annulus"));
            let out = (p * bore - x("F out") - x("F_seal")) / annulus;
            let back = (p * annulus + x("F back") - x("F_seal")) / bore;
            asks(out.max(back).max(0.0) * 10.0)
        }
        "air_cylinder.side_load" => Some((None, Some(x("F part") * x("b") / (x("b") + x("S"))))),
        "air_cylinder.seal_life" | "oil_cylinder.seal_life" => {
            Some((Some(x("way asked")), Some(x("seal travel") * x("sets"))))
        }
        "air_supply.flow" => asks(x("V_cycle") / x("cycle") * 60.0),
        "compressor.duty" => asks(x("q drawn") / x("output")),
        "rod_lock.holding" => asks(x("F hold") + x("p_g A")),
        "shock_absorber.energy_per_hour" => asks(x("E") * x("cycles")),
        "oil_cylinder.pressure" => {
            let side = |force: f64, area: f64, other: f64| {
                force * x("k") / (area * x("η")) * 10.0
                    + x("line loss")
                    + x("return loss") * other / area
            };
            let (bore, annulus) = (x("A"), x("A annulus"));
            asks(side(x("F out"), bore, annulus).max(side(x("F back"), annulus, bore)))
        }
        // A load that overruns by no more than rounding is none.
        "oil_cylinder.rod_side_pressure" if x("F_over") > 1e-6 => {
            asks((x("p") * x("A") / 10.0 + x("F_over")) / x("A annulus") * 10.0)
        }
        "oil_cylinder.bore_side_pressure" if x("F_over") > 1e-6 => {
            asks((x("p") * x("A annulus") / 10.0 + x("F_over")) / x("A") * 10.0)
        }
        "oil_cylinder.trapped_pressure" => {
            asks((x("F push") / x("A")).max(x("F pull") / x("A annulus")) * 10.0)
        }
        "oil_unit.motor_power" => asks(x("p") * 1e5 * x("Q pump") / 60e3 / x("η")),
        "hose.pressure_speed" | "hose.return_speed" => {
            let bore = x("d") / 1e3;
            asks(4.0 * x("Q") / 60e3 / (PI * bore * bore))
        }
        "counterbalance.setting" => asks(x("k") * x("p load")),
        _ => None,
    }
}

fn near(got: f64, stated: f64) -> bool {
    (got - stated).abs() <= 0.001 * stated.abs() + 1e-6 || (stated >= 1e9 && got >= 1e9)
}

#[test]
fn the_numbers_of_a_check_give_what_it_states() {
    let mut held: BTreeMap<String, usize> = BTreeMap::new();
    for (name, made) in studies() {
        for option in &made.options {
            for check in &option.checks {
                let Some((asks, gives)) = again(check) else {
                    continue;
                };
                let place = format!("{name}: {} {} given {:?}", option.id, check.id, check.given);
                if let Some(asks) = asks {
                    assert!(
                        near(asks, check.demand),
                        "{place}: asks {asks}, not {}",
                        check.demand
                    );
                }
                if let Some(gives) = gives {
                    assert!(
                        near(gives, check.capacity),
                        "{place}: gives {gives}, not {}",
                        check.capacity
                    );
                }
                *held.entry(check.id.to_string()).or_default() += 1;
            }
        }
    }
    println!("{held:?}");
    assert!(held.len() >= 50, "{} kinds of check: {held:?}", held.len());
}

#[test]
fn every_measured_check_says_what_it_was_given() {
    for (name, made) in studies() {
        for check in made.options.iter().flat_map(|option| &option.checks) {
            if check.says.is_none() {
                assert!(
                    !check.given.is_empty(),
                    "{name}: {} is given nothing",
                    check.id
                );
                assert!(
                    !check.formula.is_empty() && !check.source.is_empty(),
                    "{}",
                    check.id
                );
            }
            let asked = check.demand * check.factor;
            let used = if asked <= 0.0 {
                0.0
            } else {
                (asked / check.capacity).min(999.0)
            };
            assert!(near(used, check.utilisation), "{name}: {} {used}", check.id);
            assert_eq!(check.passes, used <= 1.0 + 1e-9, "{name}: {}", check.id);
        }
    }
}

#[test]
fn money_adds_up_to_the_net_value() {
    for (name, made) in studies() {
        let rates = &support::example(&name, &[]).requirements.rates;
        let rate = rates.labour_per_hour;
        for option in &made.options {
            let parts: f64 = option
                .parts
                .iter()
                .map(|part| f64::from(part.quantity) * part.price)
                .sum();
            let lines: f64 = option.parts.iter().map(|part| part.cost).sum();
            assert!((parts - lines).abs() < 0.01, "{name}: {} parts", option.id);
            let made: f64 = option
                .custom
                .iter()
                .map(|made| made.hours * rate + made.material)
                .sum();
            let hours: f64 = option.hours.iter().map(|line| line.hours * rate).sum();
            assert!(
                (parts + made + hours - option.purchase).abs() < 0.01,
                "{name}: {}",
                option.id
            );
            let running = option.running.total();
            assert!(
                (running - option.running_cost_per_year).abs() < 0.01,
                "{name}: {}",
                option.id
            );
            let worth: f64 = option
                .criteria
                .values()
                .filter_map(|line| Some(line.value? * line.worth?))
                .sum();
            let net = worth - option.purchase - running * rates.horizon_years;
            assert!(
                (net - option.net_value).abs() < 0.01,
                "{name}: {}",
                option.id
            );
        }
        assert!(
            made.options
                .windows(2)
                .all(|pair| pair[0].net_value >= pair[1].net_value),
            "{name}"
        );
    }
}

/// The course that the sheet draws has its worst where the study has it, and the sheet marks just that line, within 80 columns.
#[test]
fn the_force_that_is_drawn_is_worst_where_the_study_says() {
    let page = Page {
        width: 80,
        heading: Style::new(),
    };
    for (name, made) in studies() {
        let edge = [("structure.width", "12 mm"), ("structure.height", "40 mm")];
        let sets: &[_] = if name == "dipping-arm" { &edge } else { &[] };
        let job = support::example(&name, sets).requirements;
        for option in best_of_kinds(&made.options) {
            let place = format!("{name}: {}", option.id);
            let course = course(option, &job).expect("a course");
            let worst = &option.demand.worst;
            let rows: Vec<_> = course.rows.iter().filter(|row| row.worst).collect();
            let [row] = rows.as_slice() else {
                panic!("{place}: {} lines are worst", rows.len());
            };
            let thrust = row.static_n.abs().max(row.dynamic_n.abs());
            let asked = worst.static_peak_n.max(worst.dynamic_peak_n);
            assert!((thrust - asked).abs() < 1e-6, "{place}: {thrust}, {asked}");
            assert!((row.x_m - worst.worst_position_m).abs() < 1e-12, "{place}");
            if let Some(hinge) = &option.demand.hinge {
                let angle = row.angle_rad.expect("an arm angle");
                assert!((angle - hinge.worst_angle_rad).abs() < 1e-12, "{place}");
            }
            // No instant of another line asks more, and every part of the travel has one.
            let most = |row: &CourseRow| row.static_n.abs().max(row.dynamic_n.abs());
            assert!(course.rows.iter().all(|other| most(other) <= thrust + 1e-6));
            assert!(course.rows.len() >= 12, "{place}: {}", course.rows.len());
            let told = sheet(&made, option, &job, &[], Some(&course), page);
            assert_eq!(told.matches("<- worst").count(), 1, "{place}");
            let marked = told.lines().find(|line| line.contains("<- worst"));
            let marked = marked.expect("a line is marked");
            let number = amount(row.dynamic_n, "N");
            assert!(marked.contains(&number), "{place}: {number} in {marked:?}");
            let mut lines = told.lines();
            let head = lines.find(|line| line.ends_with("at rest  in motion"));
            assert!(head.is_some(), "{place}");
            let mut drawn = lines.take(course.rows.len());
            let wide = drawn.find(|line| line.chars().count() > 80 || !line.contains('N'));
            assert!(wide.is_none(), "{place}: {wide:?}");
        }
    }
}
