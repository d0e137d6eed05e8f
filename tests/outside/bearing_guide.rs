//! Bearings and guides against standards and textbooks.

use counterpoise::mechanics::bearing;
use counterpoise::quantity::newtons;

use super::agree;

/// Basic rating life: rating, load, exponent, rpm → million turns, hours.
#[test]
fn rating_life() {
    let source = "ISO 281:2007, basic rating life";
    let rows = [
        (35_100.0, 6000.0, 3.0, 1000.0, 200.201_625, 3_336.693_75),
        (
            61_000.0,
            12_000.0,
            3.333_333_333_33,
            750.0,
            225.854_438_564_6,
            5_018.987_523_658,
        ),
        (
            93_000.0,
            31_000.0,
            3.333_333_333_33,
            120.0,
            38.940_738_398_3,
            5_408.435_888_653,
        ),
    ];
    for (rating, load, exponent, rpm, millions, hours) in rows {
        let turns = bearing::rating_life(newtons(rating), newtons(load), exponent);
        agree(source, turns / 1e6, millions, 1e-6);
        agree(source, turns / rpm / 60.0, hours, 1e-6);
    }
}

#[test]
fn rating_asked() {
    // 30 000 h at 600 rpm are 1080 million turns.
    let turns = bearing::rating_life(newtons(29_669.638_173_79), newtons(2_891.344_049_92), 3.0);
    agree(
        "Mott, Machine Elements in Mechanical Design 4e, Example Problem 14-3",
        turns / 1e6,
        1080.0,
        3.0 * 0.0008,
    );
    let turns = bearing::rating_life(newtons(91_100.0), newtons(10_279.0), 10.0 / 3.0);
    agree(
        "Shigley's Mechanical Engineering Design 8e, solution 11-3",
        turns / 1e6,
        1440.0,
        10.0 / 3.0 * 0.0006,
    );
}
