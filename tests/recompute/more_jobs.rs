//! Random files of what the plain ones seldom hold: slides whose guide is to be found, and hinges.

use crate::jobs::Dice;

/// A place with little that forbids a drive.
fn site(dice: &Dice) -> String {
    format!(
        r#""stops": "{}", "power_loss": "{}", "rules": {{ "reliability": {} }},
  "site": {{ "mains": {{ "voltage": "230 V", "power": "10 kW" }}, "air": {{ "pressure": "6 bar", "flow": "1500 L/min" }},
    "hand": {{ "cost_per_hour": 20 }}, "temperature": {{ "least": "5 degC", "most": "40 degC" }}, "dirt": "{}", "water": "{}" }}"#,
        dice.pick(&["ends", "ends", "anywhere"]),
        dice.pick(&["hold", "may_move"]),
        dice.pick(&["0.9", "0.9", "0.93", "0.97", "0.99"]),
        dice.pick(&["clean", "clean", "dusty"]),
        dice.pick(&["dry", "dry", "dry", "splash"]),
    )
}

/// How often and how long: a stroke of the limit fits, and some files ask for millions of them.
fn timing(dice: &Dice, time: f64) -> String {
    let cycles = dice.log(0.05, 3000.0 / (2.0 * time + 0.5)).min(900.0);
    let (hours, years) = (dice.pick(&["8", "8", "20"]), dice.pick(&["2", "10", "20"]));
    format!(
        r#""timing": {{ "cycles_per_hour": {cycles}, "hours_per_day": {hours}, "years": {years} }}"#
    )
}

fn law(dice: &Dice) -> &'static str {
    dice.pick(&["trapezoid", "cycloidal", "modified_sine", "harmonic"])
}

fn goals(time: f64) -> String {
    format!(
        r#""goals": {{ "travel_time": {{ "limit": "{time} s", "target": "{} s", "worth": 300 }} }}"#,
        time * 0.4
    )
}

/// A slide without a guide of its own; the friction decides which sorts may guide it.
pub fn slide(seed: u64) -> String {
    let dice = Dice::new(seed);
    let most = dice.log(0.5, 2000.0);
    let travel = dice.log(40.0, 3500.0);
    let time = dice.log(0.3, 30.0);
    let (offset, overhang, drive) = (
        dice.log(0.5, 500.0),
        dice.log(0.5, 800.0),
        dice.log(0.1, 60.0),
    );
    format!(
        r#"{{ "format": "counterpoise-requirements/2", "currency": "EUR",
  "motion": {{ "kind": "slide", "incline": "{} deg", "travel": "{travel} mm", "load": {{ "least": "{:.3} kg", "most": "{most} kg" }},
    "guide": {{ "friction": {}, "bearing_spacing": "{} mm", "supplied": false }},
    "offset": "{offset} mm", "overhang": "{overhang} mm", "overhang_grows": {}, "drive_offset": "{drive} mm", "law": "{}" }},
  {}, {}, {} }}"#,
        dice.pick(&["0", "0", "0", "90", "30", "-15"]),
        most * (0.3 + 0.7 * dice.part()),
        dice.pick(&["0.004", "0.05", "0.13", "0.15", "0.15", "0.2", "0.3"]),
        dice.log(80.0, 900.0),
        dice.pick(&["true", "false", "false"]),
        law(&dice),
        timing(&dice, time),
        site(&dice),
        goals(time),
    )
}

/// Pins from which the drive has a lever of three tenths of the arm's pin at least, over the whole swing.
fn anchors(dice: &Dice, from: f64, to: f64) -> String {
    loop {
        let (pin, lift) = (dice.log(80.0, 600.0), 360.0 * dice.part());
        let (reach, side) = (dice.log(300.0, 1500.0), 360.0 * dice.part());
        let good = (0..=20).all(|i| {
            let angle = from + (to - from) * f64::from(i) / 20.0 + lift - side;
            let (sin, cos) = angle.to_radians().sin_cos();
            let length = (pin * pin + reach * reach - 2.0 * pin * reach * cos).sqrt();
            let first = (from + lift - side).to_radians().sin().signum();
            first * reach * sin / length > 0.3
        });
        if good {
            let at = |r: f64, deg: f64| {
                let (sin, cos) = deg.to_radians().sin_cos();
                format!(r#"["{:.1} mm", "{:.1} mm"]"#, r * cos, r * sin)
            };
            return format!(
                r#""anchors": {{ "base": {}, "arm": {} }}"#,
                at(reach, side),
                at(pin, lift)
            );
        }
    }
}

/// A hinge, its axis level or upright, mostly on a base of its own.
pub fn hinge(seed: u64) -> String {
    let dice = Dice::new(seed);
    let most = dice.log(0.5, 400.0);
    let (from, swing) = (
        (180.0 * dice.part() - 90.0).round(),
        dice.log(20.0, 140.0).round(),
    );
    let radius = dice.log(50.0, 1500.0);
    let time = dice.log(0.4, 20.0);
    let own = dice.maybe(
        0.4,
        format!(
            r#""inertia": "{:.5} kg m2","#,
            most * (radius / 1000.0).powi(2) * dice.part()
        ),
    );
    let tail = dice.maybe(
        0.3,
        format!(r#""tail_radius": "{} mm","#, dice.log(80.0, 600.0)),
    );
    let stop = dice.maybe(
        0.5,
        format!(r#""stop_distance": "{} mm","#, dice.log(0.5, 20.0)),
    );
    let high = dice.log(200.0, 2000.0);
    let base = dice.maybe(
        0.8,
        format!(
            r#""base": {{ "length": "{} mm", "width": "{} mm", "mass": "{} kg", "centre_height": "{} mm", "centre_x": "{} mm",
    "load_reach": "{} mm", {stop} "load_height": "{high} mm", "bolted": {} }},"#,
            dice.log(800.0, 4000.0),
            dice.log(800.0, 4000.0),
            dice.log(2.0, 20.0) * most + 60.0,
            dice.log(100.0, 1500.0),
            200.0 * dice.part() - 100.0,
            600.0 * dice.part() - 400.0,
            dice.pick(&["true", "false"]),
        ),
    );
    format!(
        r#"{{ "format": "counterpoise-requirements/2", "currency": "EUR",
  "motion": {{ "kind": "hinge", "from": "{from} deg", "to": "{} deg", "axis": "{}", "load": {{ "least": "{:.3} kg", "most": "{most} kg" }},
    "centre_of_mass": {{ "radius": "{radius} mm", "angle": "{} deg" }}, {own} {tail} "pivot_friction": "{} Nm", {}, "law": "{}" }},
  {base} {}, {}, {} }}"#,
        from + swing,
        dice.pick(&["level", "upright"]),
        most * (0.3 + 0.7 * dice.part()),
        (60.0 * dice.part() - 30.0).round(),
        dice.log(0.05, 5.0),
        anchors(&dice, from, from + swing),
        law(&dice),
        timing(&dice, time),
        site(&dice),
        goals(time),
    )
}
