//! The place of a job through a whole ranking: what is fed, what stands apart, what is dried.

use counterpoise::catalog;
use counterpoise::quantity::{Current, Si};
use counterpoise::requirements::{Reading, read};
use counterpoise::study::{OptionLine, Study, study};

use crate::support::{LIFT, example, lift};

fn ranked(reading: &Reading) -> Study {
    let parts = catalog::built_in().expect("the built-in catalog is sound");
    study(reading, parts).expect("its pins are given")
}

fn has(option: &OptionLine, part: &str) -> bool {
    option.parts.iter().any(|line| line.id.contains(part))
}

/// What a check of an option asks.
fn asked(option: &OptionLine, id: &str) -> f64 {
    let check = option.checks.iter().find(|check| &*check.id == id);
    check.expect("it is checked").demand
}

fn mains(volts: &str, power: &str) -> String {
    format!(r#"{{ "voltage": "{volts}", "power": "{power}" }}"#)
}

#[test]
fn a_battery_of_60_w_feeds_no_cylinder_of_the_mains() {
    let shutter = |volts| {
        let mains = mains(volts, "60 W");
        ranked(&example("cellar-shutter", &[("site.mains", &mains)]))
    };
    let on_24 = shutter("24 V");
    let electric = on_24
        .options
        .iter()
        .find(|option| has(option, "electric-cylinder"));
    let first = electric.expect("a slow cylinder draws less");
    assert!(
        !has(first, "power-supply") && !has(first, "converter"),
        "{}",
        first.id
    );
    for option in &on_24.options {
        assert!(
            !has(option, "-mains") && !has(option, "servo-motor"),
            "{}",
            option.id
        );
    }
    // On 12 V the same cylinder is ordered wound for that.
    let on_12 = shutter("12 V");
    let same = |option: &&OptionLine| option.words == first.words;
    let wound = on_12
        .options
        .iter()
        .find(same)
        .expect("it is wound for 12 V");
    assert!(
        wound
            .remarks
            .iter()
            .any(|remark| remark.contains("wound for 12 V")),
        "{:?}",
        wound.remarks
    );
}

#[test]
fn a_converter_goes_between_where_the_voltages_differ() {
    let fence = |volts| {
        let mains = mains(volts, "400 W");
        ranked(&example("tile-fence", &[("site.mains", &mains)]))
    };
    let stepper = |study: Study| {
        let all = study.options.into_iter();
        let mut steppers = all.filter(|option| has(option, "stepper-motor"));
        steppers.next().expect("a stepper drives the fence")
    };
    // Steppers run on 48 V: from 24 V through a converter, from 48 V as they are, from 230 V through a supply.
    let on_24 = stepper(fence("24 V"));
    assert!(has(&on_24, "converter-24v-48v"), "{}", on_24.id);
    let on_48 = stepper(fence("48 V"));
    assert!(
        !has(&on_48, "converter") && !has(&on_48, "power-supply"),
        "{}",
        on_48.id
    );
    let on_230 = stepper(fence("230 V"));
    assert!(has(&on_230, "power-supply-48v"), "{}", on_230.id);
    assert!(on_48.purchase < on_24.purchase);
}

#[test]
fn air_in_the_cold_is_dried_at_the_cost_of_a_part_of_it() {
    let pusher = |least| {
        let cold = [("site.temperature.least", least)];
        let options = ranked(&example("tray-pusher", &cold)).options;
        let mut air = options
            .into_iter()
            .filter(|option| &*option.family == "pneumatic");
        air.next().expect("air pushes it")
    };
    let (warm, cold) = (pusher("8 degC"), pusher("-10 degC"));
    assert!(!has(&warm, "adsorption-dryer") && has(&cold, "adsorption-dryer"));
    assert!(has(&cold, "air-cylinder-16-cold") && has(&warm, "air-cylinder-16"));
    // The dryer blows off 0.15 of what it is given: the cylinder's own is 0.85 of that.
    let ratio = asked(&warm, "air_supply.flow") / asked(&cold, "air_supply.flow");
    assert!((ratio / 0.85 - 1.0).abs() < 0.002, "{ratio}");
    assert!(cold.purchase > warm.purchase + 250.0);
}

#[test]
fn units_stand_dry_and_clean_unless_their_place_is_said() {
    let dusty = [("site.dirt", "gritty"), ("site.water", "washdown")];
    let named = |study: &Study| {
        let fields = study.assumptions.iter().map(|line| line.field.clone());
        fields.filter(|field| field == "site.units").count()
    };
    let lift_at = |sets: &[(&str, &str)]| {
        let all = [dusty.as_slice(), sets].concat();
        let owned: Vec<_> = all
            .iter()
            .map(|(p, v)| ((*p).into(), (*v).into()))
            .collect();
        read(LIFT.as_bytes(), &owned).expect("it is read")
    };
    let apart = ranked(&lift_at(&[]));
    assert_eq!(named(&apart), 1);
    assert!(apart.options.iter().any(|option| has(option, "oil-unit")));
    let said = ranked(&lift_at(&[(
        "site.units",
        r#"{ "dirt": "gritty", "water": "washdown" }"#,
    )]));
    assert_eq!(named(&said), 0);
    // No oil unit is made for a hose.
    assert!(said.options.iter().all(|option| !has(option, "oil-unit")));
}

#[test]
fn mains_are_direct_below_60_v_and_of_three_phases_from_380_v() {
    for (volts, current, phases) in [
        ("24 V", Current::Dc, 1),
        ("59 V", Current::Dc, 1),
        ("60 V", Current::Ac, 1),
        ("230 V", Current::Ac, 1),
        ("379 V", Current::Ac, 1),
        ("380 V", Current::Ac, 3),
    ] {
        let mains = mains(volts, "1 kW");
        let mains = lift(&[("site.mains", &mains)])
            .site
            .mains
            .expect("there is");
        assert_eq!((mains.current, mains.phases), (current, phases), "{volts}");
    }
    let zone = r#"{ "explosive_atmosphere": false }"#;
    let job = lift(&[("site.explosive_atmosphere", "true")]);
    assert!(job.site.units.explosive_atmosphere);
    let job = lift(&[("site.explosive_atmosphere", "true"), ("site.units", zone)]);
    assert!(!job.site.units.explosive_atmosphere);
    assert!((job.site.units.distance.si() - 5.0).abs() < 1e-12);
}
