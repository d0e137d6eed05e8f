//! Bearings and guides against standards and textbooks.

// --- guides of straight axes ---

mod guides {
    use counterpoise::demand::Axis;
    use counterpoise::mechanics::{bearing, guide};
    use counterpoise::quantity::{metres, newton_metres, newtons};
    use counterpoise::requirements::Slide;

    use super::super::rows::{Row, row, solve};
    use super::super::{agree, on_four};
    use crate::support::{about, axis};

    #[test]
    fn life_in_distance_and_hours() {
        let row = row("lin-life-1");
        let rating = newtons(row.input("dynamic_rating_100km_n"));
        let life = guide::rail_life(rating, newtons(row.input("load_n")));
        row.holds("life_m", life.value);
        let speed = row.input("double_strokes_per_min") / 60.0 * 2.0 * row.input("stroke_m");
        row.holds("life_h", life.value / speed / 3600.0);
    }

    /// The rating on the 50 km basis is the load under which a guide lives 50 km; of rollers, half as long as at its rating.
    #[test]
    fn ratings_on_the_50_km_basis() {
        let row = row("lin-c50-c100");
        let balls = |rating: f64| {
            let life_m = |load| guide::rail_life(newtons(rating), newtons(load)).value;
            solve(rating, 2.0 * rating, -50e3, |load| -life_m(load))
        };
        let rating_n = row.input("dynamic_rating_100km_n");
        row.holds("ball_rating_50km_n", balls(rating_n));
        row.holds("ball_factor", balls(1.0));
        let turns = |load| bearing::rating_life(newtons(1.0), newtons(load), 10.0 / 3.0);
        let rollers = solve(1.0, 2.0, -0.5e6, |load| -turns(load));
        row.holds("roller_factor", rollers);
    }

    fn four(row: &Row) {
        let [along, across, spacing, rails] = [
            "offset_along_rail_m",
            "offset_across_m",
            "carriage_spacing_along_m",
            "rail_spacing_m",
        ]
        .map(|key| row.input(key));
        let loads = on_four(row.input("load_n"), [along, across], [spacing, rails]);
        let keys = ["front_near_n", "front_far_n", "rear_near_n", "rear_far_n"];
        for (key, load) in keys.into_iter().zip(loads) {
            row.holds(key, load);
        }
    }

    #[test]
    fn four_carriages_under_a_load_off_their_middle() {
        four(&row("car4-1"));
    }

    #[test]
    fn two_carriages_of_an_upright_rail() {
        let row = row("car2-vertical");
        let couple = newton_metres(row.input("load_n") * row.input("offset_m"));
        let load = guide::couple_on_two(couple, metres(row.input("carriage_spacing_m")));
        row.holds("carriage_force_n", load.value);
    }

    /// How near a slide is to jamming that is pulled so far off the line of its guide; 1 is jammed.
    fn binding(friction: f64, offset_m: f64, spacing_m: f64) -> f64 {
        let slide = Slide {
            guide_friction: friction,
            drive_offset: metres(offset_m),
            bearing_spacing: metres(spacing_m),
            ..axis()
        };
        Axis::new(&about(&slide), &slide).binding_ratio()
    }

    #[test]
    fn drawer_effect() {
        let row = row("guide-jam");
        let (friction, length_m) = (row.input("friction_coef"), row.input("guide_length_m"));
        let offset_m = 1.0 / binding(friction, 1.0, length_m);
        row.holds("offset_max_m", offset_m);
        row.holds("offset_ratio_max", offset_m / length_m);
        let ratio = binding(friction, offset_m, length_m);
        agree(&row.source(), ratio, 1.0, 1e-12);
    }

    // --- beyond the collection ---

    #[test]
    fn four_carriages_by_least_squares() {
        four(&row("own-plate"));
    }

    /// Bushings on a shaft: friction 0.25 jams at an offset of twice their spacing, hence the rule of two to one.
    #[test]
    fn rule_of_two_to_one() {
        let row = row("own-two-to-one");
        row.holds(
            "binding_ratio",
            binding(row.input("friction_coef"), 2.0, 1.0),
        );
    }

    /// Half the load lives eight times as long.
    #[test]
    fn life_goes_with_the_cube() {
        let row = row("own-half-load-rails");
        let life = |load| guide::rail_life(newtons(9000.0), newtons(load)).value;
        row.holds("life_ratio", life(500.0) / life(1000.0));
        row.holds("life_at_rating_m", life(9000.0));
    }
}

// --- rolling bearings and ball nuts ---

mod rolling {
    use counterpoise::mechanics::combined::{self, Combined};
    use counterpoise::mechanics::{bearing, plain};
    use counterpoise::quantity::{metres, newtons};

    use super::super::rows::{Row, row, solve};

    #[test]
    fn rating_life() {
        for id in ["brg-l10-1", "brg-l10-3", "brg-l10-5"] {
            let row = row(id);
            let (rating, load) = (
                newtons(row.input("dynamic_rating_n")),
                newtons(row.input("equivalent_load_n")),
            );
            let turns = bearing::rating_life(rating, load, row.input("life_exponent"));
            row.holds("life_million_rev", turns / 1e6);
            row.holds("life_h", turns / row.input("speed_rpm") / 60.0);
        }
    }

    /// The rating with which a bearing lives so many turns.
    fn rating(row: &Row, turns: f64) -> f64 {
        let (load, exponent) = (newtons(row.input("load_n")), row.input("life_exponent"));
        let life = |rating: f64| bearing::rating_life(newtons(rating), load, exponent);
        solve(1.0, 1e6, turns, life)
    }

    #[test]
    fn mott_14_2() {
        let row = row("brg-mott-14-2");
        let turns = row.input("life_h") * 60.0 * row.input("speed_rpm");
        row.holds("dynamic_rating_n", rating(&row, turns));
    }

    #[test]
    fn shigley_11_3() {
        let row = row("brg-shigley-p11-3");
        row.holds(
            "dynamic_rating_n",
            rating(&row, row.input("life_million_rev") * 1e6),
        );
    }

    #[test]
    fn combined_load_of_a_turning_bearing() {
        let row = row("brg-equivalent-1");
        let load = combined::equivalent(
            newtons(row.input("radial_load_n")),
            newtons(row.input("axial_load_n")),
            row.input("rotation_factor"),
            row.input("x_factor"),
            row.input("y_factor"),
        );
        row.holds("equivalent_load_n", load.value);
    }

    /// The bearing's own static factors are those of the standard.
    #[test]
    fn combined_load_of_a_bearing_at_rest() {
        let row = row("brg-static");
        let (radial, axial) = (
            newtons(row.input("radial_load_n")),
            newtons(row.input("axial_load_n")),
        );
        let rating = newtons(row.input("static_rating_n"));
        let load = Combined::deep_groove(axial, rating).still(radial, axial);
        row.holds("static_equivalent_load_n", load.value);
        row.holds("static_safety", rating.value / load.value);
    }

    #[test]
    fn lives_that_more_than_nine_in_ten_reach() {
        let row = row("brg-a1-factors");
        for percent in [90, 95, 96, 97, 98, 99] {
            let factor = combined::life_factor(f64::from(percent) / 100.0);
            row.holds(&format!("a1_{percent}"), factor);
        }
    }

    #[test]
    fn a_bush_under_a_turning_pin() {
        let row = row("plain-pv-1");
        let pin = metres(row.input("shaft_diameter_m"));
        let load = newtons(row.input("load_n"));
        let pressure = plain::pressure_pa(load, pin, metres(row.input("length_m")));
        let speed = plain::rubbing_speed_m_s(pin, row.input("speed_rpm") / 60.0);
        row.holds("pressure_pa", pressure);
        row.holds("sliding_speed_m_s", speed);
        row.holds("pv_pa_m_s", pressure * speed);
    }

    // --- beyond the collection ---

    #[test]
    fn shigley_11_1() {
        let row = row("own-shigley-11-1");
        let turns = row.input("life_h") * 60.0 * row.input("speed_rpm");
        row.holds(
            "dynamic_rating_lbf",
            rating(&row, turns) / row.input("load_n") * row.input("load_lbf"),
        );
    }

    #[test]
    fn half_the_load() {
        let row = row("own-half-load");
        let times = |exponent| {
            let life = |load| bearing::rating_life(newtons(1e4), newtons(load), exponent);
            life(1000.0) / life(2000.0)
        };
        row.holds("balls", times(3.0));
        row.holds("rollers", times(10.0 / 3.0));
    }

    /// Loads that swing: |sin|, and (1 - cos)/2, over whole periods.
    #[test]
    fn mean_of_a_swinging_load() {
        let row = row("own-swinging-load");
        let mean = |load: fn(f64) -> f64| {
            let steps = (0..3600).map(|i| {
                let angle = (f64::from(i) + 0.5) / 3600.0 * core::f64::consts::TAU;
                (newtons(load(angle)), 1.0)
            });
            bearing::cube_mean(steps).value
        };
        row.holds("rectified_sine", mean(libm::sin));
        row.holds(
            "raised_cosine",
            mean(|angle| (1.0 - libm::cos(angle)) / 2.0),
        );
    }
}
