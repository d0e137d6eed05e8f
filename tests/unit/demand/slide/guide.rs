//! Unit tests of `demand::slide::guide`.

use super::*;

#[test]
fn a_pair_of_rails_is_a_plate_on_four_springs() {
    // 1000 N across at 60 mm to the side, no couple along: 500 N on each of two bearings of one line.
    let still = Loads {
        means: [500.0, 250e3, 125e6],
        peak_n: 500.0,
        couple_n_m: 60.0,
    };
    let demand = RailDemand { loads: [still; 2] };
    // A quarter each and the couple of 60 N m on two pairs 0.4 m apart: 250 + 60/0.8 = 325 N.
    let load = demand.on(2, 0.4);
    for found in [load.mean_n, load.plain_mean_n, load.peak_n] {
        assert!((found - 325.0).abs() < 1e-9, "{found}");
    }
    // Alone on a rail of 15 mm: 500 + 60/0.015 = 4500 N.
    assert!((demand.on(1, 0.015).mean_n - 4500.0).abs() < 1e-6);
}

#[test]
fn the_cube_mean_is_of_the_whole() {
    // Half of the way 100 N, half 300 N, with 50 N of couple all the way: (150³/2 + 350³/2)^(1/3) = 284.9 N.
    let loads = Loads {
        means: [200.0, 50e3, 14e6],
        peak_n: 300.0,
        couple_n_m: 1.0,
    };
    let demand = RailDemand {
        loads: [Loads::default(), loads],
    };
    assert!((demand.on(1, 0.02).mean_n - 284.9).abs() < 0.1);
    assert!((demand.on(1, 0.02).plain_mean_n - 250.0).abs() < 1e-9);
}
