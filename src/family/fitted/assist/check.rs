//! Whether a counterweight bears a demand.

use super::Reeving;
use crate::catalog::{Common, Rope, Sheave};
use crate::demand::Demand;
use crate::family::{Ask, Check, check, given};
use crate::mechanics::rope;
use crate::quantity::{Angle, Force, Length, Si, kilograms};
use crate::requirements::Rules;

/// Whether the assist bears a demand: rope, sheaves, and that the rope stays taut.
pub fn checks(ask: &Ask<'_>, demand: &Demand) -> Vec<Check> {
    let Some(weight) = ask.assist.assist.counterweight() else {
        return Vec::new();
    };
    let rules = &ask.job.rules;
    let (a, stop) = (
        demand.worst.peak_acceleration_m_s2,
        demand.emergency_stop.deceleration_m_s2,
    );
    let k = weight.travel_ratio;
    let tension = rope::tension(kilograms(weight.mass_kg), k, a.max(stop));
    let mut list = Vec::new();
    if let Some(rope) = of_kind(ask, "ropes", &ask.catalog.ropes, |rope| &rope.common) {
        let strength = rope_strength(rules, tension, rope);
        list.push(strength.with(given![
            ("mc", weight.mass_kg, "kg"),
            ("k", k, ""),
            ("a", a.max(stop), "m/s2")
        ]));
        if let Some(sheave) = of_kind(ask, "sheaves", &ask.catalog.sheaves, |s| &s.common) {
            list.extend(sheave_checks(
                rules,
                tension,
                Reeving::of(weight),
                rope.diameter,
                sheave,
            ));
        }
    }
    list.push(
        check!(
            "counterweight.slack_move", rope::slackness(k, a) => rules.slack_move_most, "";
            "k·|a|/g in the move", "Newton's second law; limit common practice, no source";
            ("k", k, ""), ("a", a, "m/s2"),
        )
        .rule("slack_move_most"),
    );
    list.push(
        check!(
            "counterweight.slack_stop", rope::slackness(k, stop) => rules.slack_stop_most, "";
            "k·a_stop/g in an emergency stop from the peak speed",
            "Newton's second law; limit common practice, no source";
            ("k", k, ""), ("a_stop", stop, "m/s2"),
        )
        .rule("slack_stop_most"),
    );
    list
}

fn rope_strength(rules: &Rules, tension: Force, rope: &Rope) -> Check {
    let (pull, breaking) = (tension.si(), rope.breaking_force.si());
    Check::new("rope.strength", pull, breaking, "N")
        .factor(rules.rope_factor_least)
        .from(
            "S = mc (g + k·|a|), the emergency stop included; breaking force ≥ factor · S",
            "Newton's second law; factor common practice, no source (general tackle, never people)",
        )
        .rule("rope_factor_least")
}

fn sheave_checks(
    rules: &Rules,
    tension: Force,
    reeving: Reeving,
    rope_diameter: Length,
    sheave: &Sheave,
) -> [Check; 2] {
    let ratio = sheave.diameter.si() / rope_diameter.si();
    let pin = rope::pin_load(tension, Angle::from_si(reeving.wrap));
    [
        check!(
            "sheave.ratio", rules.sheave_ratio_least => ratio, "";
            "D/d", "ISO 4308-1 gives 16 to 28 by duty (from memory); limit common practice, no source";
            ("D", sheave.diameter.si() * 1e3, "mm"), ("d", rope_diameter.si() * 1e3, "mm"),
        )
        .rule("sheave_ratio_least"),
        check!(
            "sheave.pin_load", pin.si() => sheave.load_most.si(), "N";
            "2·S·sin(α/2), α the angle of rope about the sheave, half a turn where it travels with the load",
            "equilibrium";
            ("S", tension.si(), "N"), ("α", reeving.wrap, "rad"),
        ),
    ]
}

/// The part of a kind that the assist has, from the catalog.
fn of_kind<'a, P>(
    ask: &Ask<'a>,
    kind: &str,
    parts: &'a [P],
    common: impl Fn(&P) -> &Common,
) -> Option<&'a P> {
    let line = ask.assist.parts.iter().find(|line| line.kind == kind)?;
    // The line is of this very part, as a rule; its id tells where it is a copy.
    let itself = parts
        .iter()
        .find(|part| core::ptr::eq(common(part), line.common));
    itself.or_else(|| parts.iter().find(|part| common(part).id == line.common.id))
}
