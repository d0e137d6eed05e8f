//! Unit tests of `family::choose::shelf`.

use super::*;
use crate::catalog::{Brake, Catalog};
use crate::demand::Assist;
use crate::family::sample::{asking, door, parts};
use crate::quantity::{Si, kilograms, newton_metres};

/// Brakes of 1, 2 and 4 N·m that cost 10, 20 and 30, and one of 2 N·m at 21 that weighs half as much.
fn brakes() -> Catalog {
    let mut catalog = parts().clone();
    let plain = catalog.brakes[0].clone();
    let brake = |id: &str, torque: f64, price: f64, mass: f64| {
        let mut brake: Brake = plain.clone();
        brake.torque = newton_metres(torque);
        brake.common.id = id.into();
        brake.common.price = price;
        brake.common.mass = kilograms(mass);
        brake
    };
    catalog.brakes = vec![
        brake("d", 4.0, 30.0, 4.0),
        brake("b", 2.0, 20.0, 2.0),
        brake("c", 2.0, 21.0, 1.0),
        brake("a", 1.0, 10.0, 1.0),
    ];
    catalog
}

fn ids(goals: &str, needed: f64) -> Vec<String> {
    let job = door(&[("goals", goals)]);
    let catalog = brakes();
    asking(&job, Assist::None, &[60.0], |ask| {
        let shelf = || Shelf::new(ask, &catalog.brakes, |brake| &brake.common);
        let carries = |brake: &Brake| brake.torque.si();
        let ids = |choices: Vec<&Brake>| -> Vec<String> {
            let id = |brake: &&Brake| brake.common.id.clone();
            choices.iter().map(id).collect()
        };
        let found = ids(shelf().choices(|brake| carries(brake) >= needed));
        let ladder = shelf().ladder(carries);
        assert_eq!(ids(ladder.choices(needed)), found);
        let first = ids(ladder.first(needed).into_iter().collect());
        assert_eq!(first.first(), found.first());
        assert_eq!(ids(vec![ladder.first_or_strongest(9.0).unwrap()]), ["d"]);
        found
    })
}

#[test]
fn the_cheapest_that_carries_enough_and_those_better_in_what_counts() {
    let time = r#"{ "travel_time": { "limit": "390 s" } }"#;
    assert_eq!(ids(time, 0.5), ["a"]);
    assert_eq!(ids(time, 1.5), ["b"]);
    assert_eq!(ids(time, 3.0), ["d"]);
    assert!(ids(time, 5.0).is_empty());
    let mass = r#"{ "travel_time": { "limit": "390 s" }, "added_mass": { "limit": "90 kg" } }"#;
    assert_eq!(ids(mass, 0.5), ["a"]);
    assert_eq!(ids(mass, 1.5), ["b", "c"]);
}
