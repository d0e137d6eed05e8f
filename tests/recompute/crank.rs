//! Checks of the hand crank: what the handle, the rack with its gears or the screw jack, and the load brake bear.

use std::f64::consts::PI;

use super::base::{Case, PartUse};
use super::life::{life_left, way_asked};
use super::steel::strut;
use super::worst::{area, held_most, most, stop_push_pull, thrust};

/// Lewis form factor of a pinion of 20 teeth at 20° (Shigley, table 14-2, recalled).
const LEWIS_20: f64 = 0.322;

/// What stands between the handle and the load.
struct Drive<'a> {
    crank: PartUse<'a>,
    /// Travel of the load in a turn of the crank.
    per_turn: f64,
    /// Efficiency in motion and on starting.
    running: f64,
    starting: f64,
}

impl<'a> Drive<'a> {
    fn of(case: &Case<'a>) -> Option<Self> {
        let crank = case.part("cranks")?;
        if let Some(jack) = case.part("screw_jacks") {
            return Some(Self {
                crank,
                per_turn: jack.f("travel_per_turn"),
                running: jack.f("efficiency"),
                starting: jack.f("starting_efficiency"),
            });
        }
        let (rack, gears) = (case.part("racks")?, case.parts("spur_gears"));
        let ratio: f64 = gears.iter().map(|g| g.f("ratio")).product();
        let geared: f64 = gears.iter().map(|g| g.f("efficiency")).product();
        let efficiency = rack.f("efficiency") * geared;
        Some(Self {
            crank,
            per_turn: PI * pinion(&rack) / ratio,
            running: efficiency,
            starting: efficiency,
        })
    }

    /// Greatest force at the handle, starting or running.
    fn handle(&self, case: &Case) -> f64 {
        let moving = most(case, |i| i.f.abs()) / self.running;
        let still = most(case, |i| i.still.abs()) / self.starting;
        moving.max(still) * self.per_turn / (2.0 * PI * self.crank.f("radius"))
    }
}

/// Diameter of the pinion.
fn pinion(rack: &PartUse) -> f64 {
    rack.f("module") * rack.f("pinion_teeth")
}

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let drive = Drive::of(case)?;
    let radius = drive.crank.f("radius");
    let turns = case.travel() / drive.per_turn;
    let often = case.or("timing.cycles_per_hour", f64::NAN);
    Some(match id {
        "crank.hand_force" => {
            let spell = often <= case.rule("hand_spell_cycles");
            let limit = case.rule(if spell {
                "hand_force_spell"
            } else {
                "hand_force_often"
            });
            let person = case.or("site.hand.force", f64::INFINITY);
            (drive.handle(case), limit.min(person))
        }
        "crank.often" => (often, case.rule("hand_cycles_most")),
        "crank.peak_power" => {
            let speed = 2.0 * PI * radius * turns / case.time();
            (drive.handle(case) * speed, case.rule("hand_power_peak"))
        }
        // Somebody must be there to crank.
        "crank.person" => (1.0, f64::from(u8::from(case.given("site.hand")))),
        "crank.power" => {
            let work = |s: &super::motion::Stroke| area(&s.instants, |i| (i.f * i.v).max(0.0));
            let most = case.strokes().iter().map(work).fold(0.0, f64::max);
            (
                most / (drive.running * case.time()),
                case.rule("hand_power_most"),
            )
        }
        "crank.radius" => {
            // A light handle may have any radius: the check is made for a heavy one only.
            let heavy = drive.handle(case) > case.rule("crank_force_light");
            let least = if heavy {
                case.rule("crank_radius_heavy")
            } else {
                0.0
            };
            (least * 1e3, radius * 1e3)
        }
        "crank.speed" => (turns * 60.0 / case.time(), case.rule("hand_speed_most")),
        "crank.strength" => (drive.handle(case), drive.crank.f("force")),
        "load_brake.torque" => (
            held_most(case) * drive.per_turn / (2.0 * PI),
            case.part("load_brakes")?.f("torque"),
        ),
        _ => return jack(case, id).or_else(|| rack(case, id)),
    })
}

fn jack(case: &Case, id: &str) -> Option<(f64, f64)> {
    let jack = case.part("screw_jacks")?;
    Some(match id {
        "screw_jack.load" => (thrust(case), jack.f("capacity")),
        "screw_jack.travel" => (case.travel() * 1e3, jack.f("travel_most") * 1e3),
        "screw_jack.life" => {
            let left = life_left(case, &jack, false);
            (way_asked(case), left * jack.f("travel_life") / 1e3)
        }
        "screw_jack.buckling" => {
            let out = jack.f("closed_length") + case.travel();
            let push = most(case, |i| i.f.max(i.still));
            (push, strut(jack.f("root_diameter"), 0.7 * out))
        }
        "screw_jack.self_locking" => (
            jack.f("locking_friction"),
            case.rule("self_locking_friction") * jack.f("thread_friction"),
        ),
        _ => return None,
    })
}

fn rack(case: &Case, id: &str) -> Option<(f64, f64)> {
    let (rack, gears) = (case.part("racks")?, case.parts("spur_gears"));
    Some(match id {
        "rack.length" => (case.travel() + pinion(&rack), rack.f("length_most")),
        "rack.tooth" => {
            let (push, pull) = stop_push_pull(case);
            let bears = rack.f("strength") * rack.f("face_width") * rack.f("module") * LEWIS_20;
            (thrust(case).max(push).max(pull), bears)
        }
        "spur_gear.torque" | "spur_gear_fast.torque" => {
            // In an emergency stop the gears bear the masses as the rack does.
            let (push, pull) = stop_push_pull(case);
            let force = thrust(case).max(push).max(pull);
            let slow = force * pinion(&rack) / 2.0 / rack.f("efficiency");
            let first = gears.first()?;
            if id == "spur_gear.torque" {
                (slow, first.f("torque"))
            } else {
                (
                    slow / (first.f("ratio") * first.f("efficiency")),
                    gears.get(1)?.f("torque"),
                )
            }
        }
        _ => return None,
    })
}
