//! Random requirement files, sound ones, each from its own number.

use std::cell::Cell;

/// A small generator of numbers, the same on every machine (splitmix64).
pub struct Dice(Cell<u64>);

impl Dice {
    /// The dice of a number.
    pub fn new(seed: u64) -> Self {
        Self(Cell::new(seed))
    }
    fn next(&self) -> u64 {
        self.0.set(self.0.get().wrapping_add(0x9e37_79b9_7f4a_7c15));
        let mut z = self.0.get();
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
    /// Between 0 and 1.
    pub fn part(&self) -> f64 {
        f64::from(u32::try_from(self.next() >> 32).expect("32 bits")) / f64::from(u32::MAX)
    }
    /// Between two numbers, even over their logarithm, to three digits.
    pub fn log(&self, least: f64, most: f64) -> f64 {
        let value = least * (most / least).powf(self.part());
        format!("{value:.2e}").parse().expect("a number")
    }
    pub fn pick<'a>(&self, of: &[&'a str]) -> &'a str {
        of[usize::try_from(self.next() % of.len() as u64).expect("a short list")]
    }
    pub fn maybe(&self, chance: f64, text: String) -> String {
        if self.part() < chance {
            text
        } else {
            String::new()
        }
    }
}

/// What is wanted beside the travel time.
fn goals(dice: &Dice, mass: f64) -> String {
    [
        dice.maybe(
            0.5,
            format!(
                r#", "position_error": {{ "limit": "{} mm", "target": "0.01 mm", "worth": 200 }}"#,
                dice.log(0.05, 10.0)
            ),
        ),
        dice.maybe(
            0.4,
            r#", "noise": { "limit": "85 dB", "target": "60 dB", "worth": 150 }"#.into(),
        ),
        dice.maybe(0.4, r#", "purchase": { "limit": 8000 }"#.into()),
        dice.maybe(
            0.3,
            format!(
                r#", "added_mass": {{ "limit": "{} kg", "target": "5 kg", "worth": 80 }}"#,
                mass + 60.0
            ),
        ),
        dice.maybe(
            0.2,
            r#", "life": { "limit": 5, "target": 20, "worth": 100 }"#.into(),
        ),
    ]
    .concat()
}

/// The requirements of one number: a job that somebody might have, odd as it may be.
pub fn text(seed: u64) -> String {
    let dice = Dice::new(seed);
    let mass = dice.log(0.2, 5000.0);
    let least = mass * (0.3 + 0.7 * dice.part());
    let travel = dice.log(5.0, 4000.0);
    let time = dice.log(0.2, 120.0);
    // Strokes and rests fit into the cycle.
    let cycles = dice.log(0.02, 0.8 * 3600.0 / (2.0 * time + 1.0)).min(900.0);
    let force = dice.log(5.0, 40_000.0);
    let (offset, drive, height) = (
        dice.log(1.0, 300.0),
        dice.log(1.0, 50.0),
        dice.log(100.0, 2000.0),
    );
    let process = dice.maybe(
        0.4,
        format!(r#""process": [ {{ "at": "0 mm", "out": "0 N", "back": "{0} N" }}, {{ "at": "{1} mm", "out": "{2} N", "back": "0 N", "hold": "{3} N" }} ],"#,
            force * 0.1, travel, force, force * dice.part()),
    );
    let guide = format!(
        r#""guide": {{ "friction": {:.3}, "bearing_spacing": "{} mm", "supplied": {} }},"#,
        0.01 + 0.2 * dice.part(),
        dice.log(100.0, 1000.0),
        dice.pick(&["true", "true", "false"])
    );
    let geometry = dice.maybe(0.5, format!(r#""offset": "{offset} mm", "drive_offset": "{drive} mm", "overhang": "{offset} mm", "overhang_grows": {},"#, dice.pick(&["true", "false"])));
    let law = dice.pick(&[
        "trapezoid",
        "cycloidal",
        "polynomial_345",
        "polynomial_4567",
        "modified_sine",
        "modified_trapezoid",
        "harmonic",
    ]);
    let incline = dice.pick(&["0", "0", "90", "90", "-90", "30", "-20", "75"]);
    let mains = dice.maybe(
        0.85,
        format!(
            r#""mains": {{ "voltage": "230 V", "power": "{} kW" }},"#,
            dice.log(0.2, 20.0)
        ),
    );
    let air = dice.maybe(
        0.6,
        format!(
            r#""air": {{ "pressure": "{:.1} bar", "flow": "{} L/min" }},"#,
            3.0 + 6.0 * dice.part(),
            dice.log(20.0, 2000.0)
        ),
    );
    let hand = dice.maybe(
        0.6,
        format!(
            r#""hand": {{ "cost_per_hour": {} }},"#,
            dice.pick(&["0", "15", "40"])
        ),
    );
    let base = dice.maybe(0.4, format!(r#""base": {{ "length": "1.5 m", "width": "1.2 m", "mass": "{} kg", "centre_height": "{height} mm", "bolted": {} }},"#, mass * 2.0 + 100.0, dice.pick(&["true", "false"])));
    let goals = goals(&dice, mass);
    format!(
        r#"{{ "format": "counterpoise-requirements/2", "currency": "EUR",
  "motion": {{ "kind": "slide", "incline": "{incline} deg", "travel": "{travel} mm",
    "load": {{ "least": "{least:.3} kg", "most": "{mass} kg" }}, {process} {guide} {geometry} "law": "{law}" }},
  "timing": {{ "cycles_per_hour": {cycles}, "years": {} }},
  "stops": "{}", "power_loss": "{}", {base}
  "site": {{ {mains} {air} {hand} "temperature": {{ "least": "5 degC", "most": "{} degC" }}, "dirt": "{}", "water": "{}",
    "oil_tolerated": {}, "explosive_atmosphere": {} }},
  "goals": {{ "travel_time": {{ "limit": "{time} s", "target": "{} s", "worth": {} }} {goals} }} }}"#,
        dice.pick(&["3", "10", "20"]),
        dice.pick(&["ends", "ends", "several", "anywhere"]),
        dice.pick(&["hold", "may_move"]),
        dice.pick(&["30", "40", "48"]),
        dice.pick(&["clean", "dusty", "gritty"]),
        dice.pick(&["dry", "splash", "washdown"]),
        dice.pick(&["true", "true", "false"]),
        dice.pick(&["false", "false", "false", "true"]),
        time * 0.4,
        dice.pick(&["0", "100", "1000"]),
    )
}
