//! Unit tests of `catalog::schema`.

use super::*;
use crate::catalog::Common;
use crate::reading::{Object, Sink, parse};

#[test]
fn what_every_part_states_is_what_is_read() {
    let all = r#"{ "id": "a", "name": "b", "price": 1, "mass": "1 kg", "noise": "60 dB", "coldest": "0 degC",
        "hottest": "40 degC", "ingress": "IP54", "explosive_atmosphere": true, "maintenance_hours": 1, "consumables": 1,
        "fit_hours": 1, "stands_water": "splash", "grit_life": 0.5, "apart_coldest": "0 degC", "apart_hottest": "40 degC",
        "runs_on": ["24 V dc"] }"#;
    let whole = parse(all.as_bytes()).expect("it is JSON");
    let (sink, read) = (Sink::default(), Sink::default());
    let mut object = Object::new(&whole, "", &sink).expect("it is an object");
    assert!(Common::read(&mut object).is_some());
    let mut asked = object.known.clone();
    let mut known: Vec<_> = COMMON.iter().map(|field| field.name).collect();
    asked.sort_unstable();
    known.sort_unstable();
    assert_eq!(asked, known);
    // Each that is required is missed, the others are not.
    let none = parse(b"{}").expect("it is JSON");
    Common::read(&mut Object::new(&none, "", &read).expect("it is an object"));
    let missed: Vec<_> = read
        .into_problems()
        .into_iter()
        .map(|fault| fault.path)
        .collect();
    let required = COMMON.iter().filter(|field| field.required);
    let mut required: Vec<_> = required.map(|field| field.name.to_owned()).collect();
    let mut missed: Vec<String> = missed;
    required.sort_unstable();
    missed.sort_unstable();
    assert_eq!(missed, required);
}
