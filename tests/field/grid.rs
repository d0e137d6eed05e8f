//! The jobs of the grid.

use counterpoise::quantity::G_M_S2;
use counterpoise::requirements::Reading;

use crate::support;

/// Forces, N: 5 N to 200 kN.
pub const FORCES: [f64; 7] = [5.0, 29.0, 171.0, 1_000.0, 5_850.0, 34_200.0, 200_000.0];
/// Travels, m: 5 mm to 6 m.
pub const TRAVELS: [f64; 5] = [0.005, 0.03, 0.17, 1.0, 6.0];
/// Peak speeds, m/s: 1 mm/s to 2 m/s.
pub const SPEEDS: [f64; 6] = [0.001, 0.0046, 0.021, 0.096, 0.44, 2.0];

/// Travel past which rods and screws only creep, m, and how fast, m/s.
const LONG_M: f64 = 3.0;
const LONG_SLOW_M_S: f64 = 0.1;

/// What the axis is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    /// Level, from end to end, often.
    EndToEnd,
    /// Upward, from end to end, often, held when the power fails.
    Lift,
    /// Level, several stops within 3 mm; exactness to 0.1 mm is worth something.
    Stops,
    /// Upward, once a week, held when the power fails.
    RareLift,
    /// The same where there is neither air nor more than a wall socket's 300 W: not a full site, and so not counted.
    PoorLift,
}

/// Level and upward on a full site: the uses that are counted.
pub const USES: [Use; 3] = [Use::EndToEnd, Use::Lift, Use::RareLift];
/// Beside them, for the crossovers alone: what only some families can do at all.
pub const BESIDE: [Use; 2] = [Use::Stops, Use::PoorLift];

impl Use {
    /// As the heading of its map.
    pub fn words(self) -> &'static str {
        match self {
            Use::EndToEnd => "level, end to end, moving a tenth of the time",
            Use::Lift => "upward, end to end, moving a tenth of the time, held without power",
            Use::Stops => "level, several stops within 3 mm, moving a tenth of the time",
            Use::RareLift => "upward, once a week, held without power",
            Use::PoorLift => "upward, once a week, held without power, 300 W of mains and no air",
        }
    }
    fn upward(self) -> bool {
        matches!(self, Use::Lift | Use::RareLift | Use::PoorLift)
    }
}

/// One job of the grid.
#[derive(Debug, Clone, Copy)]
pub struct Job {
    /// What it is for.
    pub usage: Use,
    /// Weight lifted, or resistance pushed against, N.
    pub force_n: f64,
    /// Travel, m.
    pub travel_m: f64,
    /// Peak speed, m/s.
    pub speed_m_s: f64,
}

impl Job {
    /// Time of one stroke whose peak speed this is: a third each to speed up, cruise and slow down.
    pub fn time_s(&self) -> f64 {
        1.5 * self.travel_m / self.speed_m_s
    }
    fn mass_kg(&self) -> f64 {
        // A level load weighs a fifth of what resists it.
        self.force_n / G_M_S2 / if self.usage.upward() { 1.0 } else { 5.0 }
    }
    /// Whether anybody would ask for it of one of these drives: at least a tenth of a second and at most an hour a
    /// stroke, not above the acceleration of free fall, and 10 kW at the load, a third of the mains; over more than 3 m only slowly, for
    /// who wants to travel far and fast takes a belt, a chain or a driven rack, which no family here is.
    pub fn is_practical(&self) -> bool {
        let time_s = self.time_s();
        let acceleration = 4.5 * self.travel_m / (time_s * time_s);
        let power_w = (self.force_n + self.mass_kg() * acceleration) * self.speed_m_s;
        let reachable = self.travel_m <= LONG_M || self.speed_m_s <= LONG_SLOW_M_S;
        (0.1..=3600.0).contains(&time_s)
            && acceleration <= G_M_S2
            && power_w <= 10_000.0
            && reachable
    }
    /// Its requirements, as a customer would state them.
    pub fn reading(&self) -> Reading {
        let time_s = self.time_s();
        let cycles = match self.usage {
            Use::RareLift | Use::PoorLift => 0.025,
            _ => (360.0 / (2.0 * time_s)).clamp(0.1, 600.0),
        };
        let (mains, air) = match self.usage {
            Use::PoorLift => (r#"{ "power": "300 W" }"#, ""),
            _ => (
                r#"{ "voltage": "400 V", "power": "30 kW" }"#,
                r#""air": { "pressure": "6 bar", "flow": "2000 L/min" },"#,
            ),
        };
        let process = if self.usage.upward() {
            String::new()
        } else {
            format!(
                r#""process": [ {{ "at": "0 mm", "out": "{0} N", "back": "{0} N" }} ],"#,
                self.force_n
            )
        };
        let (stops, error) = match self.usage {
            Use::Stops => (
                "several",
                r#"{ "limit": "3 mm", "target": "0.1 mm", "worth": 300 }"#,
            ),
            _ => ("ends", r#"{ "limit": "10 mm" }"#),
        };
        let text = format!(
            r#"{{
  "format": "counterpoise-requirements/2", "currency": "EUR",
  "motion": {{ "kind": "slide", "incline": "{incline} deg", "travel": "{travel} mm", "load": {{ "most": "{mass} kg" }}, {process}
    "guide": {{ "friction": 0.05 }} }},
  "timing": {{ "cycles_per_hour": {cycles} }},
  "stops": "{stops}", "power_loss": "{power_loss}",
  "site": {{ "mains": {mains}, {air} "hand": {{ "cost_per_hour": 15 }} }},
  "goals": {{ "travel_time": {{ "limit": "{time_s} s" }}, "position_error": {error} }}
}}"#,
            incline = if self.usage.upward() { 90 } else { 0 },
            travel = self.travel_m * 1000.0,
            mass = self.mass_kg(),
            power_loss = if self.usage.upward() {
                "hold"
            } else {
                "may_move"
            },
        );
        support::reading(&text, &[])
    }
}

/// Every practical job, use by use.
pub fn jobs() -> Vec<Job> {
    let mut list = Vec::new();
    for usage in USES.into_iter().chain(BESIDE) {
        for force_n in FORCES {
            for travel_m in TRAVELS {
                for speed_m_s in SPEEDS {
                    let job = Job {
                        usage,
                        force_n,
                        travel_m,
                        speed_m_s,
                    };
                    if job.is_practical() {
                        list.push(job);
                    }
                }
            }
        }
    }
    list
}
