//! Unit tests of `family::choose::life_cost`.

use super::*;

#[test]
fn a_part_costs_its_price_its_fitting_and_its_years() {
    let rates = LifeCost {
        per_catalog_unit: 1.2,
        labour_per_hour: 50.0,
        electricity_per_kwh: 0.25,
        horizon_years: 10.0,
        cycles_per_year: 7200.0,
        hours_per_year: 2000.0,
    };
    let bought = Bought {
        price: 100.0,
        fit_h: 0.5,
        consumables: 5.0,
        maintenance_h: 0.1,
    };
    // 100·1.2 + 0.5·50 = 145; a year 5·1.2 + 0.1·50 = 11; 145 + 10·11 = 255.
    assert!((rates.purchase(&bought) - 145.0).abs() < 1e-9);
    assert!((rates.keep(&bought) - 11.0).abs() < 1e-9);
    assert!((rates.total(&bought) - 255.0).abs() < 1e-9);
    // 1 kJ 7200 times is 2 kWh, 6 W for 2000 h are 12 kWh: 14·0.25 = 3.5 a year.
    assert!((rates.electricity(1000.0, 6.0) - 3.5).abs() < 1e-9);
    assert!((rates.total(&bought.times(2)) - 510.0).abs() < 1e-9);
}
