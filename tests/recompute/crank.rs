//! Checks of the hand crank: what the handle, the rack, the gears and the load brake bear.

use std::f64::consts::PI;

use crate::base::{Case, G};
use crate::worst::{area, most, stop_push_pull};

/// Lewis form factor of a pinion of 20 teeth at 20° (Shigley, table 14-2, recalled).
const LEWIS_20: f64 = 0.322;

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let rack = case.part("racks")?;
    let crank = case.part("cranks")?;
    let gears = case.parts("spur_gears");
    let pinion = rack.f("module") * rack.f("pinion_teeth");
    let ratio: f64 = gears.iter().map(|g| g.f("ratio")).product();
    let eta: f64 = rack.f("efficiency") * gears.iter().map(|g| g.f("efficiency")).product::<f64>();
    let thrust = most(case, |i| i.f.abs().max(i.still.abs()));
    let per_turn = PI * pinion / ratio;
    let handle = thrust * per_turn / (2.0 * PI * crank.f("radius") * eta);
    let turns = case.travel() / per_turn;
    let often = case.or("timing.cycles_per_hour", f64::NAN);
    Some(match id {
        "crank.hand_force" => {
            let spell = often <= case.rule("hand_spell_cycles");
            let limit = case.rule(if spell {
                "hand_force_spell"
            } else {
                "hand_force_often"
            });
            (handle, limit.min(case.or("site.hand.force", f64::INFINITY)))
        }
        "crank.often" => (often, case.rule("hand_cycles_most")),
        "crank.peak_power" => {
            let speed = 2.0 * PI * crank.f("radius") * turns / case.time();
            (handle * speed, case.rule("hand_power_peak"))
        }
        // Somebody must be there to crank.
        "crank.person" => (1.0, f64::from(u8::from(case.given("site.hand")))),
        "crank.power" => {
            let work = |s: &crate::motion::Stroke| area(&s.instants, |i| (i.f * i.v).max(0.0));
            let most = case.strokes().iter().map(work).fold(0.0, f64::max);
            (most / (eta * case.time()), case.rule("hand_power_most"))
        }
        "crank.radius" => {
            // A light handle may have any radius: the check is made for a heavy one only.
            let heavy = handle > case.rule("crank_force_light");
            let least = if heavy {
                case.rule("crank_radius_heavy")
            } else {
                0.0
            };
            (least * 1e3, crank.f("radius") * 1e3)
        }
        "crank.speed" => (turns * 60.0 / case.time(), case.rule("hand_speed_most")),
        "crank.strength" => (handle, crank.f("force")),
        "load_brake.torque" => {
            // However well a counterweight balances, a part of its pull is left to hold.
            let pull = case.assist("travel_ratio") * case.assist("counterweight_kg") * G;
            let hold = case.holding_n().max(case.rule("balance_tolerance") * pull);
            (
                hold * per_turn / (2.0 * PI),
                case.part("load_brakes")?.f("torque"),
            )
        }
        "rack.length" => (case.travel() + pinion, rack.f("length_most")),
        "rack.tooth" => {
            let (push, pull) = stop_push_pull(case);
            let bears = rack.f("strength") * rack.f("face_width") * rack.f("module") * LEWIS_20;
            (thrust.max(push).max(pull), bears)
        }
        "spur_gear.torque" | "spur_gear_fast.torque" => {
            let slow = thrust * pinion / 2.0 / rack.f("efficiency");
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
