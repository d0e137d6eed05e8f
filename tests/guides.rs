//! Guides of slides that bring none: which sort is taken for which job, and what is said of the others.

use crate::support;
use counterpoise::catalog::built_in;
use counterpoise::decide::{Resolver, fresh_look};
use counterpoise::study::{OptionLine, Study, study};

/// A level slide of 300 mm with 8 kg on it, a few times an hour, that brings no guide.
const LIGHT: [(&str, &str); 8] = [
    ("motion.incline", "0 deg"),
    ("motion.travel", "300 mm"),
    ("motion.load.least", "8 kg"),
    ("motion.load.most", "8 kg"),
    ("motion.guide.bearing_spacing", "100 mm"),
    ("motion.guide.supplied", "false"),
    ("power_loss", "may_move"),
    ("goals.travel_time.limit", "3 s"),
];

fn ranked(more: &[(&str, &str)]) -> Study {
    let sets: Vec<_> = LIGHT.iter().chain(more).copied().collect();
    let reading = support::reading(support::LIFT, &sets);
    study(&reading, built_in().expect("the catalog is sound")).expect("a slide is ranked")
}

/// The first option of a study and the sort of its guide.
fn first(study: &Study) -> (&OptionLine, &str) {
    let option = study.options.first().expect("an option");
    let guide = option.guide_detail.as_ref().expect("a guide is fitted");
    (option, &guide.sort)
}

/// Why a sort was not taken.
fn why<'s>(option: &'s OptionLine, sort: &str) -> &'s str {
    let guide = option.guide_detail.as_ref().expect("a guide is fitted");
    let mut reasons = guide.not_taken.iter();
    reasons
        .find(|why| why.starts_with(sort))
        .unwrap_or_else(|| panic!("{sort} in {:?}", guide.not_taken))
}

fn has(option: &OptionLine, check: &str) -> bool {
    option.checks.iter().any(|line| line.id == check)
}

#[test]
fn shafts_win_where_the_load_is_light_and_the_way_short() {
    let made = ranked(&[]);
    let (option, sort) = first(&made);
    assert_eq!(sort, "shafts_with_ball_bushes");
    for check in [
        "guide.life",
        "guide.static",
        "guide.shaft_deflection",
        "guide.shaft_length",
        "guide.friction",
    ] {
        assert!(has(option, check), "{check}");
    }
    let figure = |id: &str| {
        let mut checks = option.checks.iter();
        let check = checks
            .find(|line| line.id == id)
            .expect("the check is made");
        (check.demand, check.capacity)
    };
    // 8 kg · 9.80665/2 on each shaft, half of it on each bush: 19.61 N, whatever the stop, for nothing stands off the line.
    assert!((figure("guide.static").0 - 19.613).abs() < 1e-3);
    // a = (468 - 100)/2 = 184 mm, I = π·12⁴/64 = 1017.9 mm⁴:
    // 19.613·184·(3·468² - 4·184²)/(24·205 000·1017.9) = 0.3759 mm of 0.001·468 mm.
    let (bent, most) = figure("guide.shaft_deflection");
    assert!(
        (bent - 0.3759).abs() < 1e-4 && (most - 0.468).abs() < 1e-9,
        "{bent} {most}"
    );
    // 300 + 100 + 28 + 40 mm and two blocks of 15 mm.
    assert!((figure("guide.shaft_length").0 - 0.498).abs() < 1e-9);
    // Two shafts of 4 bushes in 4 blocks.
    let count = |kind: &str, cut: bool| {
        let same = option.parts.iter().filter(|part| part.kind == kind);
        same.filter(|part| part.length_m.is_some() == cut)
            .map(|part| part.quantity)
            .sum::<u32>()
    };
    assert_eq!(
        [
            count("shaft_guides", true),
            count("shaft_guides", false),
            count("shaft_supports", false)
        ],
        [2, 4, 4]
    );
    assert!(why(option, "profile rails").contains("more expensive"));
    let freedom = &option.guide_detail.as_ref().expect("a guide").freedom;
    assert!(
        freedom.contains("could turn") && freedom.contains("float"),
        "{freedom}"
    );
}

#[test]
fn what_rubs_more_than_the_job_is_computed_with_is_not_offered() {
    let made = ranked(&[]);
    for option in &made.options {
        let guide = option.guide_detail.as_ref().expect("a guide is fitted");
        assert!(guide.friction <= 0.05, "{}", guide.sort);
    }
    let (option, _) = first(&made);
    let ways = why(option, "plain ways");
    assert!(
        ways.contains(
            "rub with 0.12; the job is computed with 0.05: motion.guide.friction=0.12 lets them in"
        ),
        "{ways}"
    );
    // With that friction they are among what may be taken, and nothing is said of it any more.
    let let_in = ranked(&[("motion.guide.friction", "0.12")]);
    let (option, sort) = first(&let_in);
    assert!(sort == "plain_ways" || !why(option, "plain ways").contains("lets them in"));
    assert!(why(option, "round shafts with plain bushes").contains("motion.guide.friction=0.15"));
}

#[test]
fn a_rail_wins_where_shafts_bend() {
    let made = ranked(&[("motion.travel", "1.5 m"), ("motion.load.most", "60 kg")]);
    let (option, sort) = first(&made);
    assert_eq!(sort, "profile_rail");
    assert!(!has(option, "guide.shaft_deflection"));
    let freedom = &option.guide_detail.as_ref().expect("a guide").freedom;
    assert!(freedom.contains("One rail"), "{freedom}");
}

#[test]
fn plain_ways_win_where_grit_and_weight_wear_all_else() {
    let made = ranked(&[
        ("motion.travel", "500 mm"),
        ("motion.load.most", "400 kg"),
        ("motion.guide.bearing_spacing", "300 mm"),
        ("motion.guide.friction", "0.15"),
        ("timing.cycles_per_hour", "10"),
        ("timing.rest_out", "10 s"),
        ("timing.rest_back", "10 s"),
        ("goals.travel_time.limit", "10 s"),
        ("site.dirt", "gritty"),
        ("site.water", "washdown"),
    ]);
    let (option, sort) = first(&made);
    assert_eq!(sort, "plain_ways", "{:?}", option.guide_detail);
    for check in [
        "guide.pressure",
        "guide.pv",
        "guide.wear",
        "guide.way_length",
    ] {
        assert!(has(option, check), "{check}");
    }
    assert!(!has(option, "guide.life"));
    // At least 400 kg · 9.80665/4 = 980.7 N on a pad of 20 × 40 mm: 1.226 MPa.
    let pressure = option
        .checks
        .iter()
        .find(|line| line.id == "guide.pressure");
    let pressure = pressure.expect("the check is made").demand;
    assert!((pressure - 1.226).abs() < 1e-3, "{pressure}");
    // Nothing rolls, and so nothing needs a bellows.
    assert!(
        option
            .parts
            .iter()
            .all(|part| part.kind != "covers" || !part.id.contains("way"))
    );
}

#[test]
fn binding_is_a_check_only_where_the_drive_pulls_beside_the_guide() {
    let made = ranked(&[]);
    assert!(
        made.options
            .iter()
            .all(|option| !has(option, "guide.binding"))
    );
    let made = ranked(&[("motion.drive_offset", "30 mm")]);
    assert!(
        made.options
            .iter()
            .all(|option| has(option, "guide.binding"))
    );
}

#[test]
fn a_greater_reliability_shortens_every_rolling_life() {
    let (usual, greater) = (ranked(&[]), ranked(&[("rules.reliability", "0.99")]));
    let life = |study: &Study| {
        let option = study
            .options
            .iter()
            .find(|option| has(option, "guide.life"));
        let checks = option.expect("a guide that rolls").checks.iter();
        let found = checks
            .filter(|line| line.id == "guide.life")
            .map(|line| line.capacity);
        found.fold(0.0, f64::max)
    };
    assert!((life(&greater) / life(&usual) - 0.25).abs() < 1e-6);
}

#[test]
fn the_fresh_look_tries_guides_that_rub_more() {
    let sets = LIGHT
        .iter()
        .chain(&[("site.dirt", "gritty"), ("site.water", "washdown")])
        .map(|(path, value)| ((*path).to_owned(), (*value).to_owned()));
    let sets: Vec<_> = sets.collect();
    let catalog = built_in().expect("the catalog is sound");
    let resolver = Resolver::new(support::LIFT.as_bytes(), &sets, catalog).expect("it is ranked");
    let looks = fresh_look(&resolver);
    let look = looks
        .iter()
        .find(|look| {
            look.change
                .iter()
                .any(|change| change.field == "motion.guide.friction")
        })
        .unwrap_or_else(|| panic!("{looks:?}"));
    assert!(look.says.contains("which rub with"), "{}", look.says);
    // Made again with the change, the study bears it out.
    let changes: Vec<_> = look
        .change
        .iter()
        .map(|change| (change.field.clone(), change.to.clone()))
        .collect();
    let then = resolver.with(&changes).expect("it is ranked");
    let best = &then.options[0];
    let gain = best.net_value - resolver.study().options[0].net_value;
    assert!((gain - look.net_value_gain).abs() < 1e-6 && gain > 0.0);
}
