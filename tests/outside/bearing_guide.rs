//! Bearings and guides against standards and textbooks.

// --- guides of straight axes ---

mod guides {
    use counterpoise::mechanics::guide;
    use counterpoise::quantity::{metres, newton_metres, newtons};

    use super::super::agree;

    #[test]
    fn life_in_distance_and_hours() {
        let life = guide::rail_life(newtons(20_000.0), newtons(3000.0));
        agree(
            "ISO 14728-1: L = 100 km (C/P)³",
            life.value,
            29_629_629.629_63,
            1e-6,
        );
        // 12 double strokes of 0.6 m a minute are 0.24 m/s.
        let hours = life.value / (12.0 * 2.0 * 0.6 / 60.0) / 3600.0;
        agree("ISO 14728-1, in hours", hours, 34_293.552_812_07, 1e-6);
    }

    #[test]
    fn ratings_on_the_50_km_basis() {
        let ball = guide::rating_50_km(newtons(20_000.0), false);
        agree(
            "ISO 14728-1, balls: 2^(1/3)",
            ball.value,
            25_198.420_997_9,
            1e-6,
        );
        let roller = guide::rating_50_km(newtons(1.0), true);
        agree(
            "ISO 14728-1, rollers: 2^(3/10)",
            roller.value,
            1.231_144_413_345,
            1e-6,
        );
    }

    #[test]
    fn four_carriages_under_a_load_off_their_middle() {
        let loads = guide::on_four(
            newtons(2000.0),
            metres(0.1),
            metres(0.05),
            metres(0.4),
            metres(0.3),
        );
        let expected = [
            916.666_666_666_7,
            583.333_333_333_3,
            416.666_666_666_7,
            83.333_333_333_33,
        ];
        for (load, expected) in loads.into_iter().zip(expected) {
            agree(
                "stiff plate on four equal springs",
                load.value,
                expected,
                1e-6,
            );
        }
    }

    #[test]
    fn two_carriages_of_an_upright_rail() {
        let load = guide::couple_on_two(newton_metres(800.0 * 0.25), metres(0.2));
        agree("balance of moments", load.value, 1000.0, 1e-6);
    }

    #[test]
    fn drawer_effect() {
        let source = "statics with friction at both guide ends: 1/(2 μ)";
        let offset = guide::jamming_offset(metres(0.2), 0.25);
        agree(source, offset.value, 0.4, 1e-6);
        agree(
            source,
            guide::binding_ratio(0.25, offset, metres(0.2)),
            1.0,
            1e-6,
        );
    }
}

// --- rolling bearings and ball nuts ---

mod rolling {
    use counterpoise::mechanics::bearing;
    use counterpoise::quantity::newtons;

    use super::super::agree;

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
        let turns =
            bearing::rating_life(newtons(29_669.638_173_79), newtons(2_891.344_049_92), 3.0);
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
}
