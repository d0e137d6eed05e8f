//! The answers about a hinge: its swing, where its weight sits, what turns against it, where the drive is pinned.

use serde_json::{Value, json};

use super::answer::{parts, quantity};
use super::draft::Draft;
use super::question::{Changes, Question};
use crate::problem::Problem;
use crate::quantity::{Kind, System, exact, parse_as, to_digits};

/// Half swings past this leave no pins that are right for most, deg.
const WIDEST_HALF_DEG: f64 = 65.0;
/// Metres in an inch.
const INCH_M: f64 = 0.0254;

/// The swing that a text tells, if it tells one: `0 deg to 78 deg`, `from 0 to 90 deg, upright`.
pub(super) fn split_swing(text: &str) -> Option<(&str, &str, Option<&str>)> {
    let (angles, axis) = match text.split_once([',', ';']) {
        Some((angles, axis)) => (angles, Some(axis.trim())),
        None => (text, None),
    };
    let (from, to) = angles.split_once(" to ")?;
    let from = from.trim();
    let from = from
        .rsplit_once("from ")
        .map_or(from, |(_, angle)| angle.trim());
    let is_length = parse_as(from, Kind::Length).is_ok();
    (!is_length).then_some((from, to.trim(), axis))
}

/// The angles of a swing and how its hinge lies.
///
/// # Errors
/// No angle, or an axis that is neither level nor upright.
pub(super) fn swing(
    draft: &Draft,
    (from, to, axis): (&str, &str, Option<&str>),
) -> Result<Changes, Problem> {
    // "0 to 78 deg" says the unit once.
    let unit = to.trim_start_matches(|sign: char| !sign.is_ascii_alphabetic() && sign != '°');
    let from = match from.parse::<f64>() {
        Ok(_) => format!("{from} {unit}"),
        Err(_) => from.to_owned(),
    };
    let hint = |fault: Problem| {
        fault.hint("a swing is two angles of the arm above level, such as 0 deg to 78 deg")
    };
    let (from, to) = (
        quantity(&from, Kind::Angle).map_err(hint)?,
        quantity(to, Kind::Angle).map_err(hint)?,
    );
    let upright = match axis.unwrap_or("level").to_lowercase().as_str() {
        "" | "level" | "flat" | "horizontal" => false,
        "upright" | "vertical" | "plumb" => true,
        other => {
            return Err(
                Problem::whole(format!("{other:?} is no way for a hinge to lie")).hint(
                    "say level, as of a lid or flap, or upright, as of a door: 0 deg to 90 deg, upright",
                ),
            );
        }
    };
    let changes = of_kind(draft, "hinge")
        .with("motion.from", from)
        .with("motion.to", to)
        .with("motion.axis", if upright { "upright" } else { "level" });
    Ok(changes)
}

/// Makes the motion one of a kind: what only the other kind has goes.
pub(super) fn of_kind(draft: &Draft, kind: &str) -> Changes {
    let mut changes = Changes::default();
    if draft.kind() == kind {
        return changes;
    }
    let motion = draft.get("motion").and_then(Value::as_object);
    for key in motion.into_iter().flat_map(serde_json::Map::keys) {
        if !matches!(key.as_str(), "kind" | "load") {
            changes = changes.without(format!("motion.{key}"));
        }
    }
    changes.with("motion.kind", kind)
}

/// The swing as typed.
pub(super) fn swing_typed(draft: &Draft) -> Option<String> {
    let axis = draft.typed("motion.axis").unwrap_or_else(|| "level".into());
    let (from, to) = (draft.typed("motion.from")?, draft.typed("motion.to")?);
    Some(format!("{from} to {to}, {axis}"))
}

/// Where the weight sits, and room for a weight on a tail: `420 mm, 4 deg, 300 mm`.
pub(super) fn centre(_: &Question, _: &Draft, text: &str) -> Result<Changes, Problem> {
    let parts = parts(text, 3)?;
    let (mut lengths, mut angle) = (Vec::new(), None);
    for part in parts {
        if parse_as(part, Kind::Angle).is_ok() {
            angle = Some(quantity(part, Kind::Angle)?);
        } else {
            lengths.push(quantity(part, Kind::Length)?);
        }
    }
    let mut lengths = lengths.into_iter();
    let Some(radius) = lengths.next() else {
        return Err(Problem::whole("the distance from the hinge is missing")
            .hint("write it first: 420 mm, 4 deg"));
    };
    let (at, tail) = ("motion.centre_of_mass.angle", "motion.tail_radius");
    let changes = Changes::default().with("motion.centre_of_mass.radius", radius);
    let changes = match angle {
        Some(angle) => changes.with(at, angle),
        None => changes.without(at),
    };
    Ok(match lengths.next() {
        Some(radius) => changes.with(tail, radius),
        None => changes.without(tail),
    })
}

pub(super) fn centre_typed(_: &Question, draft: &Draft) -> Option<String> {
    let mut text = draft.typed("motion.centre_of_mass.radius")?;
    for path in ["motion.centre_of_mass.angle", "motion.tail_radius"] {
        if let Some(part) = draft.typed(path) {
            text = format!("{text}, {part}");
        }
    }
    Some(text)
}

/// The pin on the base and the pin on the arm: `240 mm, -560 mm, 190 mm, -20 mm`.
pub(super) fn pins(_: &Question, _: &Draft, text: &str) -> Result<Changes, Problem> {
    let places = parts(text, 4)?;
    let mut lengths: Vec<Value> = Vec::new();
    for place in &places {
        lengths.push(quantity(place, Kind::Length)?);
    }
    let [base_x, base_y, arm_x, arm_y] = lengths.as_slice() else {
        return Err(Problem::whole(format!("four lengths are asked for, and {} came", lengths.len()),
        )
        .hint("level and upright to the pin on the base, then to the pin on the arm: 240 mm, -560 mm, 190 mm, -20 mm"));
    };
    Ok(Changes::default()
        .with("motion.anchors.base", json!([base_x, base_y]))
        .with("motion.anchors.arm", json!([arm_x, arm_y]))
        .without("motion.anchor_zones"))
}

pub(super) fn pins_typed(_: &Question, draft: &Draft) -> Option<String> {
    let pin = |path: &str| {
        let places = draft.get(path)?.as_array()?.iter();
        let places: Option<Vec<&str>> = places.map(Value::as_str).collect();
        Some(places?.join(", "))
    };
    let (base, arm) = (pin("motion.anchors.base")?, pin("motion.anchors.arm")?);
    Some(format!("{base}, {arm}"))
}

/// Pins that suit a swing: the arm's at half the way to the centre of mass, the base's square to the arm in the middle
/// of the swing, far enough off for a drive three strokes long. Nothing where no pins suit most swings so wide.
pub(super) fn pins_that_fit(draft: &Draft) -> Option<String> {
    let angle = |path| draft.number(path, Some(Kind::Angle));
    let (from, to) = (angle("motion.from")?, angle("motion.to")?);
    let radius_m = draft.number("motion.centre_of_mass.radius", Some(Kind::Length))?;
    let (half, middle) = (0.5 * (to - from), 0.5 * (to + from));
    if !(half > 0.0 && half <= WIDEST_HALF_DEG.to_radians()) {
        return None;
    }
    let arm_m = (0.5 * radius_m).max(0.05);
    let apart_m = 3.0 * arm_m * libm::sin(half) + 0.2;
    let (sin, cos) = (libm::sin(middle), libm::cos(middle));
    let base_m = (arm_m * cos + apart_m * sin, arm_m * sin - apart_m * cos);
    let words = |length_m: f64| match draft.system() {
        System::Metric => format!("{} mm", exact(to_digits(1e3 * length_m, 2))),
        System::Us => format!("{} in", exact(to_digits(length_m / INCH_M, 2))),
    };
    Some(format!(
        "{}, {}, {}, {}",
        words(base_m.0),
        words(base_m.1),
        words(arm_m),
        words(0.0)
    ))
}

/// Whether the hinge stands upright, so that no weight turns it.
pub(super) fn upright(draft: &Draft) -> bool {
    draft
        .typed("motion.axis")
        .is_some_and(|axis| axis == "upright")
}

/// Whether the motion is that of a hinge.
pub(super) fn hinged(_: &Question, draft: &Draft) -> bool {
    draft.kind() == "hinge"
}

/// Whether it is along a line.
pub(super) fn slides(_: &Question, draft: &Draft) -> bool {
    draft.kind() != "hinge"
}

#[cfg(test)]
#[path = "../../tests/unit/ask/swing.rs"]
mod tests;
