//! A job for tests, built by hand: a load lifted 900 mm, as a workshop would state it.

use core::f64::consts::FRAC_PI_2;
use std::collections::BTreeMap;

use crate::quantity::{
    Angle, GaugePressure, Si, Temperature, Voltage, cubic_metres_per_second, kilograms, metres,
    newtons, seconds, watts,
};
use crate::requirements::{
    Air, Base, Criterion, Dirt, Hand, Law, LoadRange, Mains, Motion, PowerLoss, Rates,
    Requirements, Rules, Site, Slide, Stops, Timing, Want, Water,
};

/// A straight lift of 80 to 85 kg over 900 mm in 20 s, a third of it to speed up and a third to slow down.
pub fn lift() -> Slide {
    Slide {
        incline: Angle::from_si(FRAC_PI_2),
        travel: metres(0.9),
        load: LoadRange {
            least: kilograms(80.0),
            most: kilograms(85.0),
        },
        offset: metres(0.0),
        drive_offset: metres(0.0),
        overhang: metres(0.0),
        overhang_grows: false,
        drag: newtons(0.0),
        guide_friction: 0.05,
        bearing_spacing: metres(0.4),
        guide_supplied: true,
        process: Vec::new(),
        law: Law::Trapezoid {
            start: 1.0 / 3.0,
            end: 1.0 / 3.0,
        },
    }
}

/// A base of 1.2 m by 0.8 m and 150 kg, its load above its middle.
pub fn base() -> Base {
    Base {
        length: metres(1.2),
        width: metres(0.8),
        mass: kilograms(150.0),
        centre_height: metres(0.7),
        centre_x: metres(0.0),
        load_reach: metres(0.0),
        load_height: metres(0.7),
        assist_reach: metres(0.0),
        stop_distance: None,
        bolted: false,
    }
}

/// The job about a slide, with every supply there and no base.
pub fn job(slide: &Slide) -> Requirements {
    let must = |must: f64| Want { must, reward: None };
    Requirements {
        title: "lift".into(),
        currency: "EUR".into(),
        motion: Motion::Slide(slide.clone()),
        timing: Timing {
            rest_out: seconds(60.0),
            rest_back: seconds(60.0),
            cycles_per_hour: 4.0,
            hours_per_day: 8.0,
            days_per_year: 220.0,
            years: 10.0,
        },
        stops: Stops::Ends,
        power_loss: PowerLoss::Hold,
        site: Site {
            mains: Some(Mains {
                voltage: Voltage::from_si(230.0),
                power: watts(2500.0),
            }),
            air: Some(Air {
                pressure: GaugePressure::from_si(6e5),
                flow: cubic_metres_per_second(0.0025),
            }),
            hand: Some(Hand {
                force: newtons(120.0),
                cost_per_hour: 40.0,
            }),
            coldest: Temperature::from_si(278.15),
            hottest: Temperature::from_si(313.15),
            dirt: Dirt::Clean,
            water: Water::Dry,
            oil_tolerated: true,
            explosive_atmosphere: false,
        },
        base: None,
        structure: None,
        wants: BTreeMap::from([(Criterion::TravelTime, must(20.0))]),
        travel_time_must_s: 20.0,
        rates: Rates {
            electricity_per_kwh: 0.3,
            labour_per_hour: 40.0,
            horizon_years: 5.0,
            per_catalog_unit: 1.0,
        },
        rules: Rules::default(),
    }
}
