//! Unit tests of `quantity::parse`.

use super::*;
use crate::quantity::{Energy, Length, Mass, MomentOfInertia, Power, Temperature, Time, Torque};

fn close(got: f64, goal: f64) {
    assert!((got - goal).abs() <= 1e-12 * goal.abs(), "{got} for {goal}");
}

#[track_caller]
fn refused<Q: Si + core::fmt::Debug>(text: &str, message: &str, hint: &str) {
    let fault = parse::<Q>(text).expect_err(text);
    assert_eq!(
        (fault.message.as_str(), fault.hint.as_str()),
        (message, hint)
    );
}

#[test]
fn what_people_type_is_read() {
    for (text, metres) in [
        ("900 mm", 0.9),
        ("1e3 mm", 1.0),
        (".5 m", 0.5),
        ("5. m", 5.0),
        ("+2E-3m", 0.002),
        ("-200 mm", -0.2),
        ("\u{2212}200 mm", -0.2),
        ("12\u{a0}in", 0.3048),
        (" 3 inches ", 0.0762),
        ("5 µm", 5e-6),
        ("5 μm", 5e-6),
        ("5um", 5e-6),
        ("3 mms", 0.003),
        ("2 metres", 2.0),
    ] {
        close(parse::<Length>(text).expect(text).si(), metres);
    }
    close(parse::<Mass>("12.5lb").expect("mass").si(), 5.669_904_625);
    close(parse::<Mass>("3 lbs").expect("mass").si(), 1.360_777_11);
    close(parse::<Time>("5 mins").expect("time").si(), 300.0);
    close(parse::<Time>("3 ms").expect("time").si(), 0.003);
    for text in ["2 Nm", "2 N m", "2 N·m", "2N*m", "2 N-m"] {
        close(parse::<Torque>(text).expect(text).si(), 2.0);
    }
    for text in ["2 kg m2", "2 kg·m²", "2 kg m^2", "2kgm2"] {
        close(parse::<MomentOfInertia>(text).expect(text).si(), 2.0);
    }
    for text in ["40 degC", "40 °C", "104 degF", "104 °F", "313.15 K"] {
        close(parse::<Temperature>(text).expect(text).si(), 313.15);
    }
    close(parse::<Energy>("2 kWh").expect("energy").si(), 7.2e6);
}

#[test]
fn a_spelling_of_the_table_means_its_own_unit() {
    for unit in UNITS {
        for spelling in unit.spellings {
            let plain = plain(spelling);
            let by_rule = units_of(unit.kind).find(|other| spells(other, &plain));
            assert_eq!(by_rule.map(Unit::symbol), Some(unit.symbol()), "{spelling}");
        }
    }
}

#[test]
fn what_is_wrong_is_said() {
    refused::<Mass>(
        "85",
        "needs a unit",
        "write \"85 kg\" or \"187 lb\"; units that fit: kg, g, t, lb, oz",
    );
    refused::<Length>(
        "5,5 mm",
        "has a comma in its number; decimals take a point",
        "write \"5.5 mm\"",
    );
    refused::<Length>(
        "1,200 mm",
        "has a comma in its number; decimals take a point",
        "write \"1200 mm\" or \"1.200 mm\", whichever is meant",
    );
    let mass = "units that fit: kg, g, t, lb, oz";
    refused::<Mass>("nan kg", "is not a finite number", mass);
    refused::<Mass>("inf kg", "is not a finite number", mass);
    refused::<Mass>("heavy", "is not a number with a unit", mass);
    refused::<Mass>("", "is not a number with a unit", mass);
    refused::<Mass>("5 lbf", "has a unit that does not fit, \"lbf\"", mass);
    refused::<Mass>("5 stone", "has an unknown unit, \"stone\"", mass);
    refused::<Mass>(
        "1.2.3 kg",
        "has a number that cannot be read, \"1.2.3\"",
        mass,
    );
    let length = "units that fit: m, mm, cm, um, in, ft";
    refused::<Length>("3 ms", "has a unit that does not fit, \"ms\"", length);
    refused::<Length>("5 m m", "has an unknown unit, \"m m\"", length);
    refused::<Length>("1e400 m", "is out of range", "write at most 1e12");
    refused::<Length>("2e12 mm", "is out of range", "write at most 1e12");
    refused::<Length>("5e-324 m", "is out of range", "write 0, or at least 1e-30");
    refused::<Power>(
        "2 KW",
        "has an unknown unit, \"KW\"",
        "did you mean \"kW\"? units that fit: W, kW, hp",
    );
    refused::<Temperature>(
        "20 C",
        "has an unknown unit, \"C\"",
        "units that fit: K, degC, degF",
    );
}
