//! The assists of a lift, by hand.

use super::*;
use crate::catalog::built_in;
use crate::family::{Ask, Check, Strokes};
use crate::quantity::{Angle, Si};
use crate::requirements::{Brief, Requirements, Slide};
use crate::support::{about, axis};

fn catalog() -> &'static Catalog {
    built_in().expect("the built-in catalog is sound")
}

fn fit(job: &Requirements, slide: &Slide) -> Vec<Fitted<'static>> {
    let book = Book::new(job, Axis::new(job, slide));
    fitted(&Brief::new(job), catalog(), &book)
}

#[test]
fn balances_between_the_loads() {
    // Between 80 and 85 kg, and so slow that only weight counts: 82.5 kg, of stock 82 or 84.
    // Upward with the most load: 85 - 82 = 3 kg and two sheaves of 2 %: (3 + 0.04·82)·g = 61.6 N;
    // with 84 the least load pulls: (84 - 80 + 0.04·84)·g = 72.2 N. So 82 kg: 50 + 20 + 10 + 2.
    let slide = axis();
    let fitted = fit(&about(&slide), &slide);
    assert_eq!(fitted.len(), 3);
    assert_eq!(fitted[0].assist, Assist::None);
    assert_eq!(fitted[1].tag, "cw82");
    let blocks: Vec<_> = fitted[1]
        .parts
        .iter()
        .filter(|line| line.kind == "counterweights")
        .map(|line| (line.common.id.as_str(), line.quantity))
        .collect();
    let ids = [
        "counterweight-50",
        "counterweight-20",
        "counterweight-10",
        "counterweight-2",
    ];
    assert_eq!(blocks, ids.map(|id| (id, 1)));
}

#[test]
fn the_search_finds_the_closed_form() {
    let slide = axis();
    let job = about(&slide);
    let law = Axis::new(&job, &slide);
    let weigh = |mass_kg: f64| {
        let weight = Counterweight {
            mass_kg,
            travel_ratio: 1.0,
            sheaves: 2,
            loss_per_sheave: 0.0,
            sheave_mass_kg: 0.0,
        };
        law.thrust_n(&Assist::Counterweight(weight), 1.5)
    };
    let a = 4.5 * 0.9 / (1.5 * 1.5);
    // The pull out with 85 kg is that back with 80 kg: (85 + 80) g + (85 - 80) a = 2 mc g.
    let expected = (165.0 * G_M_S2 + 5.0 * a) / (2.0 * G_M_S2);
    // To a thousandth of the range.
    let found = least_at(170.0, weigh);
    assert!((found - expected).abs() < 0.17, "{found} and {expected}");
}

#[test]
fn half_the_weight_travels_twice_as_far() {
    let slide = axis();
    let job = about(&slide);
    let fitted = fit(&job, &slide);
    assert_eq!(fitted.len(), 3);
    let weight = fitted[2].assist.counterweight().expect("a counterweight");
    assert!((weight.mass_kg - 41.0).abs() <= 1.5, "{}", weight.mass_kg);
    assert!((weight.travel_ratio, weight.sheaves) == (2.0, 3));
    assert!(fitted[2].tag.ends_with("-2to1"));
}

#[test]
fn none_where_nothing_is_lifted() {
    let slide = Slide {
        incline: Angle::from_si(0.0),
        ..axis()
    };
    assert_eq!(fit(&about(&slide), &slide).len(), 1);
    let slide = Slide {
        incline: Angle::from_si(-0.5),
        ..axis()
    };
    assert_eq!(fit(&about(&slide), &slide).len(), 1);
}

#[test]
fn rope_and_sheave_pass_their_checks() {
    let slide = axis();
    let job = about(&slide);
    let book = Book::new(&job, Axis::new(&job, &slide));
    let brief = Brief::new(&job);
    for fitted in &fitted(&brief, catalog(), &book)[1..2] {
        let ask = Ask {
            job: &brief,
            catalog: catalog(),
            assist: fitted,
            times: &[20.0, 2.0],
            book: &book,
            strokes: &Strokes::default(),
        };
        let list = checks(&ask, &ask.demand(2.0));
        let ids: Vec<_> = list.iter().map(|check| check.id).collect();
        let expected = [
            "rope.strength",
            "sheave.ratio",
            "sheave.pin_load",
            "counterweight.slack_move",
            "counterweight.slack_stop",
        ];
        assert_eq!(ids, expected);
        assert!(list.iter().all(Check::passes), "{list:#?}");
        // Tension by hand: 82·(9.80665 + 5) = 1214 N, the stop being harder than the move at 1.01 m/s².
        assert!((list[0].demand - 1214.1).abs() < 0.1);
        // A quarter turn of rope about each sheave.
        assert!((list[2].demand - 1717.0).abs() < 0.5);
    }
}
