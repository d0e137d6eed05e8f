//! Prices of requirements: every step made and ranked again, and that letting a limit out never makes the best worse.

use std::sync::OnceLock;

use anstyle::Style;
use counterpoise::catalog::built_in;
use counterpoise::decide::{Resolver, prices};
use counterpoise::quantity::{Kind, exact, in_words};
use counterpoise::report::{Page, price_screen};
use counterpoise::requirements::{CRITERIA, Motion};
use counterpoise::study::RequirementPrice;

use super::printed::{EXAMPLES, asked, bytes, with};

/// The prices of an example, worked out once for all tests.
fn priced(name: &str) -> &'static [RequirementPrice] {
    static PRICED: [OnceLock<Vec<RequirementPrice>>; EXAMPLES.len()] =
        [const { OnceLock::new() }; EXAMPLES.len()];
    let at = EXAMPLES.iter().position(|example| *example == name);
    let at = at.expect("it is an example");
    PRICED[at].get_or_init(|| with(name, prices))
}

fn newtons(text: &str) -> f64 {
    let force: counterpoise::quantity::Force =
        counterpoise::quantity::parse(text).expect("a force");
    counterpoise::quantity::Si::si(force)
}

/// The process of a file with each of its forces a part of what it was, to what the steps are rounded to.
fn scaled(resolver: &Resolver, part: f64) -> String {
    let parts = [0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0];
    let near = |p: &&f64| (**p - part).abs() < 0.01 * part;
    let part = parts.iter().find(near).expect("a step of the series");
    let Motion::Slide(slide) = &resolver.job().motion else {
        unreachable!("the examples tried here slide");
    };
    let force = |force: counterpoise::quantity::Force| {
        format!("{} N", exact(counterpoise::quantity::Si::si(force) * part))
    };
    let points = slide.process.iter().map(|point| {
        let at = counterpoise::quantity::Si::si(point.at);
        serde_json::json!({
            "at": format!("{} m", exact(at)), "out": force(point.out),
            "back": force(point.back), "hold": force(point.hold),
        })
    });
    serde_json::Value::from(points.collect::<Vec<_>>()).to_string()
}

/// Steps that were answered without making the study again are answered as the study answers.
#[test]
fn steps_of_a_price_are_those_of_the_study_made_again() {
    let some = [
        "backdrop-lift",
        "dipping-arm",
        "tile-fence",
        "tray-pusher",
        "vat-lid",
    ];
    // The other test of all prices begins at the other end.
    for name in some.into_iter().rev().filter(|name| asked(name)) {
        with(name, |resolver| {
            for price in priced(name) {
                assert_eq!(
                    price.steps.iter().filter(|step| step.asked).count(),
                    1,
                    "{}",
                    price.field
                );
                assert!(price.steps.len() >= 2, "{}", price.field);
                for step in price
                    .steps
                    .iter()
                    .filter(|step| !step.asked && step.refused.is_none())
                {
                    let mut sets = vec![(price.field.clone(), step.value.clone())];
                    if price.field == "motion.process" {
                        let asked = price.steps.iter().find(|step| step.asked);
                        let asked = asked.map_or(1.0, |step| newtons(&step.value));
                        let part = newtons(&step.value) / asked;
                        sets = vec![(price.field.clone(), scaled(resolver, part))];
                    }
                    if let Some(of) = price.field.strip_suffix(".limit") {
                        let gone = ["target", "worth", "sure"];
                        if resolver.with(&sets).is_err() {
                            sets.extend(gone.map(|key| (format!("{of}.{key}"), "null".to_owned())));
                        }
                    }
                    if price.field == "motion.load.most" && resolver.with(&sets).is_err() {
                        sets.push(("motion.load.least".into(), step.value.clone()));
                    }
                    let then = resolver.with(&sets).expect("the step is sound");
                    let told = step
                        .first
                        .as_ref()
                        .map(|first| (first.best.as_str(), first.net_value));
                    let made = then
                        .options
                        .first()
                        .map(|first| (first.id.as_str(), first.net_value));
                    assert_eq!(told, made, "{name}: {} {}", price.field, step.value);
                }
            }
        });
    }
}

/// What meets a tight must meets a looser one: on the value scale of the file the best there is never less.
#[test]
fn a_must_let_out_never_makes_the_best_worse() {
    let mut tried = 0;
    for name in EXAMPLES {
        for price in priced(name) {
            let Some(row) = CRITERIA
                .iter()
                .find(|row| price.field.strip_suffix(".limit") == Some(row.path))
            else {
                continue;
            };
            let mut steps: Vec<_> = price
                .steps
                .iter()
                .filter(|step| step.refused.is_none())
                .collect();
            if row.more_is_better {
                steps.reverse();
            }
            for pair in steps.windows(2) {
                let net = |index: usize| {
                    let first = pair[index].first.as_ref();
                    first.map_or(f64::NEG_INFINITY, |first| first.net_value)
                };
                let (tight, loose) = (net(0), net(1));
                assert!(
                    loose >= tight - 0.01,
                    "{name}: {} {} has {tight}, {} has {loose}",
                    price.field,
                    pair[0].value,
                    pair[1].value
                );
                tried += 1;
            }
        }
    }
    assert!(tried >= 200, "{tried} pairs of steps");
}

fn screen(name: &str) -> String {
    with(name, |resolver| {
        let mut study = resolver.study().clone();
        study.requirement_prices = priced(name).to_vec();
        let page = Page {
            width: 80,
            heading: Style::new(),
        };
        price_screen(&study, resolver.job(), page)
    })
}

/// Steps that nothing meets stand in one row, and no table says it twice.
#[test]
fn what_no_drive_meets_is_said_once_a_table() {
    let mut said = 0;
    for name in ["dairy-door", "kiln-door", "tile-fence"] {
        let screen = screen(name);
        for table in screen.split("\n\n") {
            let rows = table
                .lines()
                .filter(|line| line.ends_with("no drive meets it"));
            let count = rows.filter(|line| !line.contains('>')).count();
            assert!(count <= 1, "{name}: {table}");
            said += count;
        }
    }
    assert!(said >= 3, "{said} rows over the examples");
    let door = screen("dairy-door");
    assert!(
        door.lines()
            .any(|line| line.trim_start().starts_with("to ") && line.contains(" kg ")),
        "{door}"
    );
}

/// The lid with the torque of a work, an inertia of its own and an arm: the prices of a hinge are those of the file changed by
/// hand, every torque and the inertia scaled with what they belong to.
#[test]
fn prices_of_a_hinge_scale_what_belongs_together() {
    let work = |part: f64| {
        let [far, near] = [20.0 * part, 4.0 * part].map(|torque| format!("{torque} Nm"));
        format!(
            r#"[{{"at":"10 deg","out":"{near}","back":"0 Nm"}},{{"at":"40 deg","out":"{far}","back":"{near}"}}]"#
        )
    };
    let own = |path: &str, value: String| (path.to_owned(), value);
    let first = [
        own("motion.process", work(1.0)),
        own("motion.inertia", "4 kg m2".into()),
        own(
            "structure",
            r#"{"shape":"box","width":"60 mm","height":"60 mm","wall":"3 mm","length":"420 mm","material":"steel","support":"cantilever","deflection":{"limit":"1 mm"}}"#.into(),
        ),
    ];
    let bytes = bytes("vat-lid");
    let catalog = built_in().expect("the catalog is sound");
    let resolver = Resolver::new(&bytes, &first, catalog).expect("it is ranked");
    let prices = prices(&resolver);
    let step = |field: &str, part: usize| {
        let price = prices.iter().find(|price| price.field == field);
        let price = price.unwrap_or_else(|| panic!("{field} has no price"));
        let step = &price.steps[part];
        let first = step.first.as_ref();
        first.map(|first| (first.best.clone(), first.net_value))
    };
    let made = |sets: &[(String, String)]| {
        let then = resolver.with(sets).expect("it is sound");
        let first = then.options.into_iter().next();
        first.map(|first| (first.id, first.net_value))
    };
    // Half and five quarters of what is asked.
    for (index, part) in [(0, 0.5), (4, 1.25)] {
        let load = in_words(Kind::Mass, 38.0 * part);
        let mut lighter = vec![
            own("motion.load.most", load.clone()),
            own("motion.inertia", format!("{} kg m2", 4.0 * part)),
        ];
        if part < 34.0 / 38.0 {
            lighter.push(own("motion.load.least", load));
        }
        let nearer = [
            own(
                "motion.centre_of_mass.radius",
                in_words(Kind::Length, 0.42 * part),
            ),
            own("motion.inertia", format!("{} kg m2", 4.0 * part * part)),
        ];
        let softer = [own(
            "structure.deflection.limit",
            in_words(Kind::Length, 1e-3 * part),
        )];
        assert_eq!(step("motion.load.most", index), made(&lighter));
        assert_eq!(step("motion.centre_of_mass.radius", index), made(&nearer));
        assert_eq!(
            step("motion.process", index),
            made(&[own("motion.process", work(part))])
        );
        assert_eq!(step("structure.deflection.limit", index), made(&softer));
    }
}
