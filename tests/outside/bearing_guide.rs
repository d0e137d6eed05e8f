//! Outside checks: bearing_guide.

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
