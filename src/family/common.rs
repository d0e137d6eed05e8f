//! What every train is checked for, whatever its family.

use super::{Ask, Check, Train, assist, caution, guide, site, stand};

/// Adds what every train is checked for: guide, stability, assist and site, with the cautions that follow.
#[must_use]
pub fn finish<'a>(ask: &Ask<'a>, mut train: Train<'a>) -> Train<'a> {
    train.checks.push(binding(ask, &train));
    guide::add(ask, &mut train);
    assist::add(ask, &mut train);
    stand::add(ask, &mut train);
    site::add(ask, &mut train);
    caution::add(ask, &mut train);
    train
}

/// How near the plain guide is to jamming under the drive's own pull.
fn binding(ask: &Ask<'_>, train: &Train<'_>) -> Check {
    let ratio = train.demand.worst.binding_ratio;
    Check::new("guide.binding", ratio, ask.job.rules.binding_most, "")
        .from(
            "2·μ·d/b, jammed at 1",
            "statics with friction at both guide ends; limit common practice, no source",
        )
        .rule("binding_most")
}

/// The cheapest controls for a drive: `serves` as in the catalog, power switched, and whether it must stop at several set places.
pub fn control<'a>(
    catalog: &'a crate::catalog::Catalog,
    serves: &str,
    power_w: f64,
    several_stops: bool,
) -> Option<&'a crate::catalog::Control> {
    use crate::quantity::Si;
    let fits = |control: &&crate::catalog::Control| {
        control.serves == serves
            && control.power_most.si() >= power_w
            && (control.several_stops || !several_stops)
    };
    let cheaper = |p: &&crate::catalog::Control, q: &&crate::catalog::Control| {
        p.common
            .price
            .total_cmp(&q.common.price)
            .then_with(|| p.common.id.cmp(&q.common.id))
    };
    catalog.controls.iter().filter(fits).min_by(cheaper)
}
