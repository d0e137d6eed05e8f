//! The jobs of the grid.

use counterpoise::quantity::G_M_S2;
use counterpoise::requirements::Reading;

use crate::support;

/// Forces, N: 5 N to 200 kN.
pub const FORCES: [f64; 6] = [5.0, 42.0, 350.0, 2_900.0, 24_000.0, 200_000.0];
/// Travels, m: 5 mm to 6 m.
pub const TRAVELS: [f64; 5] = [0.005, 0.03, 0.17, 1.0, 6.0];
/// Peak speeds, m/s: 1 mm/s to 2 m/s.
pub const SPEEDS: [f64; 5] = [0.001, 0.0067, 0.045, 0.3, 2.0];

/// What the axis is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    /// Level, from end to end, often.
    EndToEnd,
    /// Upward, from end to end, often, held when the power fails.
    Lift,
    /// Level, several stops within 0.2 mm.
    Stops,
    /// Upward, twice a day, on little power, held when it fails.
    RareLift,
}

/// Every use, in the order of the maps.
pub const USES: [Use; 4] = [Use::EndToEnd, Use::Lift, Use::Stops, Use::RareLift];

impl Use {
    /// As the heading of its map.
    pub fn words(self) -> &'static str {
        match self {
            Use::EndToEnd => "level, end to end, moving a tenth of the time",
            Use::Lift => "upward, end to end, moving a tenth of the time, held without power",
            Use::Stops => "level, several stops within 0.2 mm, moving a tenth of the time",
            Use::RareLift => "upward, twice a day, 300 W of mains, held without power",
        }
    }
    fn upward(self) -> bool {
        matches!(self, Use::Lift | Use::RareLift)
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
    /// stroke, not above the acceleration of free fall, and 20 kW at the load.
    pub fn is_practical(&self) -> bool {
        let time_s = self.time_s();
        let acceleration = 4.5 * self.travel_m / (time_s * time_s);
        let power_w = (self.force_n + self.mass_kg() * acceleration) * self.speed_m_s;
        (0.1..=3600.0).contains(&time_s) && acceleration <= G_M_S2 && power_w <= 20_000.0
    }
    /// Its requirements, as a customer would state them.
    pub fn reading(&self) -> Reading {
        let time_s = self.time_s();
        let (cycles, mains, flow) = match self.usage {
            Use::RareLift => (0.25, "300 W", "100 L/min"),
            _ => ((360.0 / (2.0 * time_s)).clamp(0.1, 600.0), "30 kW", "2000 L/min"),
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
            Use::Stops => ("several", "0.2 mm"),
            _ => ("ends", "10 mm"),
        };
        let text = format!(
            r#"{{
  "format": "counterpoise-requirements/1", "currency": "EUR",
  "motion": {{ "kind": "slide", "incline": "{incline} deg", "travel": "{travel} mm", "load": {{ "most": "{mass} kg" }}, {process}
    "guide": {{ "friction": 0.05 }} }},
  "timing": {{ "cycles_per_hour": {cycles} }},
  "stops": "{stops}", "power_loss": "{power_loss}",
  "site": {{ "mains": {{ "power": "{mains}" }}, "air": {{ "pressure": "6 bar", "flow": "{flow}" }}, "hand": {{ "cost_per_hour": 15 }} }},
  "wants": {{ "travel_time": {{ "must": "{time_s} s" }}, "position_error": {{ "must": "{error}" }} }}
}}"#,
            incline = if self.usage.upward() { 90 } else { 0 },
            travel = self.travel_m * 1000.0,
            mass = self.mass_kg(),
            power_loss = if self.usage.upward() { "hold" } else { "may_move" },
        );
        support::reading(&text, &[])
    }
}

/// Every practical job, use by use.
pub fn jobs() -> Vec<Job> {
    let mut list = Vec::new();
    for usage in USES {
        for force_n in FORCES {
            for travel_m in TRAVELS {
                for speed_m_s in SPEEDS {
                    let job = Job { usage, force_n, travel_m, speed_m_s };
                    if job.is_practical() {
                        list.push(job);
                    }
                }
            }
        }
    }
    list
}
