//! Checks that any family may have: guide, place, counterweight, rope and sheave.

use std::f64::consts::PI;

use super::base::{Case, G};
use super::motion::stop;
use super::worst::{binding, most};

pub fn recompute(case: &Case, id: &str) -> Option<(f64, f64)> {
    let (mc, k) = (case.assist("counterweight_kg"), case.assist("travel_ratio"));
    let move_a = most(case, |i| i.a.abs());
    let stop_a = stop(case, most(case, |i| i.v.abs()));
    let tension = mc * (G + k * move_a.max(stop_a));
    Some(match id {
        "guide.binding" => (binding(case), case.rule("binding_most")),
        "counterweight.slack_move" => (k * move_a / G, case.rule("slack_move_most")),
        "counterweight.slack_stop" => (k * stop_a / G, case.rule("slack_stop_most")),
        "rope.strength" => (tension, case.part("ropes")?.f("breaking_force")),
        "sheave.ratio" => {
            let sheave = case.part("sheaves")?.f("diameter");
            (
                case.rule("sheave_ratio_least"),
                sheave / case.part("ropes")?.f("diameter"),
            )
        }
        "sheave.pin_load" => {
            // Fixed sheaves, two or more, turn the rope a quarter each; one alone, or the one that goes with
            // the load where the travel ratio is past one, turns it half round.
            let quarter = case.assist("sheaves") > 1.5 && k < 1.5;
            let angle = if quarter { PI / 2.0 } else { PI };
            (
                2.0 * tension * (angle / 2.0).sin(),
                case.part("sheaves")?.f("load_most"),
            )
        }
        "machine.stability" => (case.rule("stability_least"), super::tipping::margin(case)),
        "site.temperature" => (super::site::temperature(case), 1.0),
        "site.ingress" => (super::site::ingress(case), 1.0),
        "site.explosive" => (super::site::explosive(case), 1.0),
        "site.supply" => (super::site::supply(case), 1.0),
        _ => return None,
    })
}
