//! What the person at the crank is asked, and what may be asked of a person.

use core::f64::consts::TAU;

use crate::catalog::Crank;
use crate::demand::{Case, Demand};
use crate::family::check::SURELY;
use crate::family::{Ask, Check, NO_FORCE_N, check};
use crate::mechanics::human;
use crate::quantity::{Lead, Si, metres, newtons, rpm};
use crate::requirements::Task;

/// What the demand asks of whoever turns the crank, whatever the gearing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Effort {
    /// Greatest force on the load, at rest or moving, either way, N.
    pub thrust_n: f64,
    /// Greatest force that the parts must bear: moving, holding or in an emergency stop, N.
    pub parts_n: f64,
    /// The same, pushing only, N.
    pub push_n: f64,
    /// Force to hold at rest against moving back, and against moving out, N.
    pub hold_push_n: f64,
    pub hold_pull_n: f64,
    /// Work into the load, the harder stroke, J.
    pub stroke_j: f64,
    pub travel_time_s: f64,
}

impl Effort {
    pub(super) fn of(demand: &Demand) -> Self {
        Self {
            thrust_n: demand.thrust_n(),
            parts_n: demand.greatest_n(),
            push_n: demand.greatest_push_n(),
            hold_push_n: demand.holding_push_n,
            hold_pull_n: demand.holding_pull_n,
            stroke_j: demand.cases.iter().map(Case::work_j).fold(0.0, f64::max),
            travel_time_s: demand.travel_time_s,
        }
    }
    /// Force that the drive must hold when the handle is let go, N; 0 where there is none.
    pub(super) fn hold_n(&self) -> f64 {
        let hold = self.hold_push_n.max(self.hold_pull_n);
        if hold > NO_FORCE_N { hold } else { 0.0 }
    }
    /// Whether the load may run away out and back.
    pub(super) fn holds_both_ways(&self) -> bool {
        self.hold_push_n.min(self.hold_pull_n) > NO_FORCE_N
    }
}

/// Gearing between crank and load.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gearing {
    /// Travel of the load per turn of the crank, m.
    pub lead_m: f64,
    /// Efficiency from crank to load, running and when starting.
    pub efficiency: f64,
    pub starting_efficiency: f64,
}

impl Gearing {
    /// Force at the handle, the worse of starting and running, N.
    pub(super) fn hand_force_n(&self, effort: &Effort, crank: &Crank) -> f64 {
        let efficiency = self.efficiency.min(self.starting_efficiency);
        let lead = Lead::from_si(self.lead_m);
        human::hand_force(newtons(effort.thrust_n), lead, crank.radius, efficiency).si()
    }
    /// Turns of the crank for a stroke.
    pub(super) fn turns(&self, ask: &Ask) -> f64 {
        human::crank_turns(metres(ask.travel_m()), Lead::from_si(self.lead_m))
    }
    /// Mean speed of the crank, turns a minute.
    pub(super) fn crank_rpm(&self, ask: &Ask, effort: &Effort) -> f64 {
        60.0 * self.turns(ask) / effort.travel_time_s
    }
    /// Mean power of the person over the harder stroke, W.
    pub(super) fn power_w(&self, effort: &Effort) -> f64 {
        effort.stroke_j / (self.efficiency * effort.travel_time_s)
    }
    /// Torque on the crank's shaft from what must be held, friction not relied on, N·m.
    pub(super) fn holding_torque_n_m(&self, effort: &Effort) -> f64 {
        effort.hold_n() * self.lead_m / TAU
    }
    /// Shortest travel time that the limits on speed and power leave, s.
    pub(super) fn fastest_s(&self, ask: &Ask, effort: &Effort) -> f64 {
        let rules = &ask.job.rules;
        let by_speed = 60.0 * self.turns(ask) / rules.hand_speed_most;
        // A hair slower than the limit: the load is sped up a little harder than at the time this was taken from.
        let by_power = 1.01 * effort.stroke_j / (self.efficiency * rules.hand_power_most);
        by_speed.max(by_power)
    }
}

/// Greatest force at the handle, N, and the rule that sets it.
pub(super) fn force_limit(job: &Task) -> (f64, &'static str) {
    let rules = &job.rules;
    let (rule, key) = if job.timing.cycles_per_hour <= rules.hand_spell_cycles {
        (rules.hand_force_spell, "hand_force_spell")
    } else {
        (rules.hand_force_often, "hand_force_often")
    };
    let own = job.site.hand.map_or(0.0, |hand| hand.force.si());
    (own.min(rule), key)
}

/// What rules cranking out before anything is sized.
pub(super) fn of_site(ask: &Ask) -> Vec<Check> {
    let (job, rules) = (ask.job, &ask.job.rules);
    let someone = job.site.hand.is_some();
    let says = if someone {
        "there is somebody to turn a crank"
    } else {
        "nobody is at the machine, and somebody must turn a crank"
    };
    vec![
        Check::of("crank.person", someone, says).from(
            "somebody at the machine whenever the load is to move",
            "the requirements file: site.hand",
        ),
        check!(
            "crank.often", job.timing.cycles_per_hour => rules.hand_cycles_most, "1/h";
            "cycles an hour <= what a person does all day", "common practice, no source";
            ("cycles", job.timing.cycles_per_hour, "1/h"),
        )
        .rule("hand_cycles_most"),
    ]
}

/// Whether the force at the handle is surely too much for the person or the crank, told without making a check.
pub(super) fn overtaxes(ask: &Ask, effort: &Effort, gearing: &Gearing, crank: &Crank) -> bool {
    let (limit, _) = force_limit(ask.job);
    gearing.hand_force_n(effort, crank) > limit.min(crank.force.si()) * SURELY
}

/// The checks of the person and of the crank.
pub(super) fn checks(ask: &Ask, effort: &Effort, gearing: &Gearing, crank: &Crank) -> Vec<Check> {
    let rules = &ask.job.rules;
    let force = gearing.hand_force_n(effort, crank);
    let (limit, rule) = force_limit(ask.job);
    let turns = gearing.crank_rpm(ask, effort);
    let mut checks = vec![
        check!(
            "crank.hand_force", force => limit, "N";
            "F · travel per turn/(2π R η), starting or running",
            "work balance; limit common practice, no source";
            ("F", effort.thrust_n, "N"), ("travel per turn", gearing.lead_m * 1e3, "mm"),
            ("R", crank.radius.si() * 1e3, "mm"),
            ("η", gearing.efficiency.min(gearing.starting_efficiency), ""),
        )
        .rule(rule),
        check!(
            "crank.speed", turns => rules.hand_speed_most, "rpm";
            "turns/travel time", "common practice, no source";
            ("turns", gearing.turns(ask), ""), ("T", effort.travel_time_s, "s"),
        )
        .rule("hand_speed_most"),
        check!(
            "crank.power", gearing.power_w(effort) => rules.hand_power_most, "W";
            "work into the load over the stroke/(η · travel time)",
            "Marks' Standard Handbook for Mechanical Engineers: 75 W kept up all day (recalled)";
            ("work", effort.stroke_j, "J"), ("η", gearing.efficiency, ""),
            ("T", effort.travel_time_s, "s"),
        )
        .rule("hand_power_most"),
        check!(
            "crank.peak_power", peak_power_w(ask, effort, gearing, crank) => rules.hand_power_peak, "W";
            "greatest handle force × 2π R n, n the mean speed: a person turns as evenly as he can",
            "common practice, no source; handbooks give some 190 W for ten minutes";
            ("F handle", force, "N"), ("R", crank.radius.si() * 1e3, "mm"), ("n", turns, "rpm"),
        )
        .rule("hand_power_peak"),
        check!(
            "crank.strength", force => crank.force.si(), "N";
            "handle force <= rating of the crank", "catalog";
            ("F handle", force, "N"),
        ),
    ];
    if force > rules.crank_force_light {
        let (least, own) = (rules.crank_radius_heavy * 1e3, crank.radius.si() * 1e3);
        checks.push(
            check!(
                "crank.radius", least => own, "mm";
                "190 mm or more where the handle force is more than 22 N below 100 rpm",
                "MIL-STD-1472F, crank dimensions (recalled)";
                ("F handle", force, "N"),
            )
            .rule("crank_radius_heavy"),
        );
    }
    checks
}

/// Power that the peak of the force asks at the crank's mean speed, W: for the remark.
pub(super) fn peak_power_w(ask: &Ask, effort: &Effort, gearing: &Gearing, crank: &Crank) -> f64 {
    let force = newtons(gearing.hand_force_n(effort, crank));
    human::crank_power(force, crank.radius, rpm(gearing.crank_rpm(ask, effort))).si()
}
