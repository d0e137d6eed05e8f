//! Every change that is printed, made and ranked again, over the examples.

use std::sync::OnceLock;

use anstyle::Style;
use counterpoise::catalog::built_in;
use counterpoise::decide::{Resolver, fresh_look, near_misses};
use counterpoise::quantity::{Kind, in_words, parse_as, show};
use counterpoise::report::{Page, screen};
use counterpoise::requirements::{self, CRITERIA, Measure};
use counterpoise::study::{Change, NearMiss, OtherWorth, Study, best_of_kinds, study};

pub const EXAMPLES: [&str; 11] = [
    "backdrop-lift",
    "cellar-shutter",
    "dairy-door",
    "dipping-arm",
    "gutter-rolls",
    "kiln-door",
    "seed-drawer",
    "tile-fence",
    "tray-pusher",
    "vat-lid",
    "veneer-press",
];

/// The examples, or those that the environment names, apart by blanks.
fn examples() -> Vec<&'static str> {
    EXAMPLES.into_iter().filter(|name| asked(name)).collect()
}

pub fn asked(name: &str) -> bool {
    let only = std::env::var("DECIDE_EXAMPLES").unwrap_or_default();
    only.is_empty() || only.split(' ').any(|word| word == name)
}

/// Whether only some examples are looked at, so that nothing can be said of how much all of them print.
fn few() -> bool {
    examples().len() < EXAMPLES.len()
}

pub fn bytes(name: &str) -> Vec<u8> {
    let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(path).expect("the example is there")
}

/// An example looked at; it is read and ranked once for all tests.
pub fn with<T>(name: &str, look: impl FnOnce(&Resolver) -> T) -> T {
    static RANKED: [OnceLock<Resolver>; EXAMPLES.len()] =
        [const { OnceLock::new() }; EXAMPLES.len()];
    let at = EXAMPLES.iter().position(|example| *example == name);
    let ranked = || {
        let catalog = built_in().expect("the catalog is sound");
        Resolver::new(bytes(name).leak(), &[], catalog).expect("the example is ranked")
    };
    look(RANKED[at.expect("it is an example")].get_or_init(ranked))
}

/// The file as a person would change and rank it.
pub fn again(name: &str, sets: &[(String, String)]) -> Study {
    let reading = requirements::read(&bytes(name), sets).expect("the change is sound");
    study(&reading, built_in().expect("the catalog is sound")).expect("it is ranked")
}

/// How much the best of a kind leads every other kind.
fn lead(study: &Study, drive_type: &str) -> f64 {
    let best = |ours: bool| {
        let of = study
            .options
            .iter()
            .filter(|option| (option.drive_type == drive_type) == ours);
        of.map(|option| option.net_value)
            .fold(f64::NEG_INFINITY, f64::max)
    };
    best(true) - best(false)
}

#[test]
fn worths_that_overtake_do_and_a_hundredth_short_of_them_do_not() {
    let mut tried = 0;
    for name in examples() {
        let robustness = with(name, |resolver| resolver.study().robustness.clone());
        for kind in &robustness {
            for other in &kind.overtakes_when {
                let path = format!("goals.{}.worth", other.criterion);
                let at = |worth: f64| {
                    let study = again(name, &[(path.clone(), format!("{worth}"))]);
                    lead(&study, &kind.drive_type)
                };
                let short = other.worth_then
                    + 0.01 * (other.worth_now - other.worth_then).signum() * other.worth_then;
                let place = format!("{name}: {} by {}", kind.drive_type, other.criterion);
                assert!(
                    at(other.worth_then) >= -0.01,
                    "{place}: behind at {}",
                    other.worth_then
                );
                assert!(at(short) < 0.01, "{place}: first already at {short}");
                tried += 1;
            }
        }
    }
    assert!(
        few() || tried >= 5,
        "{tried} worths are printed over the examples"
    );
}

/// All changes of a least change made at once; a hundredth of each worth short of them the kind is not first.
#[test]
fn least_changes_overtake_and_a_hundredth_short_of_them_do_not() {
    let mut tried = 0;
    for name in examples() {
        let robustness = with(name, |resolver| resolver.study().robustness.clone());
        for kind in robustness
            .iter()
            .filter(|kind| !kind.least_change.is_empty())
        {
            let at = |short: f64| {
                let set = |other: &OtherWorth| {
                    let back = (other.worth_now - other.worth_then).signum() * other.worth_then;
                    let worth = other.worth_then + short * back;
                    (
                        format!("goals.{}.worth", other.criterion),
                        worth.to_string(),
                    )
                };
                let sets: Vec<_> = kind.least_change.iter().map(set).collect();
                lead(&again(name, &sets), &kind.drive_type)
            };
            let place = format!("{name}: {} by {:?}", kind.drive_type, kind.least_change);
            assert!(at(0.0) >= -0.01, "{place}: behind");
            assert!(at(0.01) < 0.01, "{place}: first already short of it");
            tried += 1;
        }
    }
    assert!(
        few() || tried >= 8,
        "{tried} least changes over the examples"
    );
}

/// The file ranked again at every corner of the uncertain worths: who is first there is among those that can be best, and
/// no kind leads by more than its margin.
#[test]
fn margins_hold_at_every_corner_of_the_worths() {
    let corners = ["dairy-door", "tile-fence", "vat-lid", "veneer-press"];
    for name in corners.into_iter().filter(|name| asked(name)) {
        let robustness = with(name, |resolver| resolver.study().robustness.clone());
        let reading = requirements::read(&bytes(name), &[]).expect("the example is sound");
        let rewards: Vec<(String, f64, f64)> = reading
            .requirements
            .goals
            .iter()
            .filter_map(|(criterion, goal)| {
                let reward = goal.reward?;
                let path = format!("goals.{}.worth", criterion.name());
                Some((path, reward.worth, reward.unsure))
            })
            .collect();
        for corner in 0..1_u32 << rewards.len() {
            let side = |index: usize| if corner >> index & 1 == 1 { 1.0 } else { -1.0 };
            let set = |(index, (path, worth, unsure)): (usize, &(String, f64, f64))| {
                (
                    path.clone(),
                    (worth * (1.0 + side(index) * unsure)).to_string(),
                )
            };
            let sets: Vec<_> = rewards.iter().enumerate().map(set).collect();
            let then = again(name, &sets);
            for kind in &robustness {
                let leads = lead(&then, &kind.drive_type);
                let place = format!("{name}: {} at {sets:?}", kind.drive_type);
                assert!(leads <= kind.margin + 0.01, "{place}: {leads}");
                assert!(kind.can_be_best || leads < 0.01, "{place}: first");
            }
        }
    }
}

/// The tile fence's first hangs on what exactness is worth; the pusher's hangs on no worth at all.
#[test]
fn a_first_place_that_is_not_sure_is_told() {
    let told = |name: &str| {
        with(name, |resolver| {
            let page = Page {
                width: 500,
                heading: Style::new(),
            };
            screen(resolver.study(), resolver.job(), page)
        })
    };
    let fence = told("tile-fence");
    assert!(
        fence.contains("Not certain: even while your worths are right")
            && fence.contains(": electric cylinder, ball screw, by up to 154 EUR."),
        "{fence}"
    );
    assert!(
        fence.contains("would win if position error were worth 1210 EUR instead of 2000"),
        "{fence}"
    );
    assert!(!fence.contains("ball screw, servo, by up to"), "{fence}");
    let pusher = told("tray-pusher");
    assert!(
        pusher.contains("No set of worths lets another drive type win"),
        "{pusher}"
    );
}

/// What can be first within the uncertainty needs no greater change than that; what can be first by no change cannot be.
#[test]
fn margins_and_least_changes_agree() {
    let mut able = 0;
    for name in examples() {
        let robustness = with(name, |resolver| resolver.study().robustness.clone());
        for kind in robustness.iter().skip(1) {
            let place = format!("{name}: {}", kind.drive_type);
            assert_eq!(kind.can_be_best, kind.margin >= -1e-6, "{place}");
            if kind.can_be_best {
                assert!(!kind.least_change.is_empty(), "{place}: by no change");
                able += 1;
            } else if let [only] = kind.least_change.as_slice() {
                let apart = (only.worth_then - only.worth_now).abs();
                assert!(apart > 0.49 * only.worth_now, "{place}: {only:?}");
            }
        }
    }
    assert!(few() || able >= 1, "some first place hangs on guesses");
}

/// A number a hundredth nearer to what the file asks; none for a word.
fn hundredth_short(change: &Change) -> Option<String> {
    let measure = match change.field.as_str() {
        "site.mains.power" => Measure::Quantity(Kind::Power),
        "base.length" | "structure.length" | "structure.deflection.limit" => {
            Measure::Quantity(Kind::Length)
        }
        "base.mass" => Measure::Quantity(Kind::Mass),
        "timing.cycles_per_hour" => Measure::Number,
        field => {
            let of = field.strip_suffix(".limit")?;
            CRITERIA.iter().find(|row| row.path == of)?.measure
        }
    };
    let size = |text: &str| match measure {
        Measure::Quantity(kind) => parse_as(text, kind).expect("a quantity"),
        Measure::Number => text.parse().expect("a number"),
    };
    let (from, to) = (size(&change.from), size(&change.to));
    let short = to + 0.01 * (from - to).signum() * to.abs();
    // What is hardly beyond the file's own number is left at that.
    let short = if (from - short) * (from - to) > 0.0 {
        short
    } else {
        from
    };
    Some(match measure {
        Measure::Quantity(kind) => in_words(kind, short),
        Measure::Number => show(short),
    })
}

fn sets(near: &NearMiss) -> Vec<(String, String)> {
    let set = |change: &Change| {
        let value = if change.field == "site.air" {
            r#"{ "pressure": "6 bar", "flow": "200 L/min" }"#.to_owned()
        } else {
            change.to.clone()
        };
        (change.field.clone(), value)
    };
    near.least_change.iter().map(set).collect()
}

#[test]
fn near_misses_come_in_and_a_hundredth_short_of_them_do_not() {
    let mut tried = 0;
    for name in examples() {
        with(name, |resolver| {
            let mut lines = resolver.study().ruled_out.clone();
            near_misses(resolver, &mut lines);
            for line in &lines {
                for near in line.near_miss.iter().chain(&line.with_words_changed) {
                    let place = format!("{name}: {} with {}", line.family, line.assist);
                    let then = resolver.with(&sets(near)).expect("the change is sound");
                    let of = |study: &Study| {
                        best_of_kinds(&study.options).position(|option| {
                            option.family == line.family && option.assist == line.assist
                        })
                    };
                    assert_eq!(of(&then), Some(near.then_rank - 1), "{place}");
                    let option = best_of_kinds(&then.options).nth(near.then_rank - 1);
                    let net = option.expect("it has a place").net_value;
                    assert!((net - near.then_net_value).abs() < 0.01, "{place}");
                    let kinds: Vec<_> = best_of_kinds(&then.options).collect();
                    assert_eq!(kinds.len(), near.then_of, "{place}");
                    let bought = kinds.get(near.then_rank - 1).map(|option| option.purchase);
                    let bought = bought.expect("it has a place");
                    assert!((bought - near.then_purchase).abs() < 0.01, "{place}");
                    let now = resolver.study().options.first();
                    let gain = now.map(|first| net - first.net_value);
                    let apart = gain.zip(near.then_gain).map(|(p, q)| (p - q).abs());
                    assert_eq!(gain.is_some(), near.then_gain.is_some(), "{place}");
                    assert!(apart.is_none_or(|apart| apart < 0.01), "{place}");
                    // Width and height of an arm stood on edge are one thing.
                    let asked = near.least_change.iter();
                    let asked = asked.filter(|c| c.field != "structure.height").count();
                    assert!(asked <= 2, "{place}: much to concede");
                    let lets_go = near.least_change.iter().any(|c| c.field == "power_loss");
                    let hangs = resolver.study().demand.worst.holding_n > 1e-6;
                    assert!(!(lets_go && hangs), "{place}: lets go what hangs");
                    for (index, change) in near.least_change.iter().enumerate() {
                        let mut short = sets(near);
                        // An arm is turned as a whole.
                        if change.field.starts_with("structure.width") {
                            short.retain(|(field, _)| field != "structure.height");
                        } else if change.field == "structure.height" {
                            continue;
                        }
                        match hundredth_short(change) {
                            Some(nearer) => short[index].1 = nearer,
                            // Of a word nothing less can be asked than to leave it.
                            None => drop(short.remove(index)),
                        }
                        let then = resolver.with(&short).expect("the change is sound");
                        assert_eq!(of(&then), None, "{place}: comes in by less than {change:?}");
                    }
                    tried += 1;
                }
            }
        });
    }
    assert!(
        few() || tried >= 4,
        "{tried} near misses are printed over the examples"
    );
}

#[test]
fn what_is_seen_another_way_brings_what_is_said() {
    let mut tried = 0;
    for name in examples() {
        with(name, |resolver| {
            // Two examples are there to be ruled out.
            let Some(first) = resolver.study().options.first() else {
                assert!(fresh_look(resolver).is_empty(), "{name}");
                return;
            };
            for look in fresh_look(resolver) {
                let idle = look.says.starts_with("No option comes near");
                assert!(idle != (look.net_value_gain > 0.0), "{name}: {}", look.says);
                tried += 1;
                let Some(change) = look.change.first() else {
                    continue;
                };
                let own: Vec<_> = if look.says.starts_with("Loads from") {
                    vec![(change.field.clone(), change.to.clone())]
                } else {
                    look.change
                        .iter()
                        .map(|c| (c.field.clone(), c.to.clone()))
                        .collect()
                };
                let then = resolver.with(&own).expect("the change is sound");
                let best = &then.options[0];
                assert_eq!(best.id, look.best, "{name}: {}", look.says);
                let gain = best.net_value - first.net_value;
                assert!(
                    (gain - look.net_value_gain).abs() < 0.01,
                    "{name}: {}",
                    look.says
                );
            }
        });
    }
    assert!(
        few() || tried >= 6,
        "{tried} other ways are printed over the examples"
    );
}
