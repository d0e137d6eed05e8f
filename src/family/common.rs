//! What every train is checked for, whatever its family.

use super::{Ask, Train};

/// Adds what every train is checked for: guide, stability, assist and site.
pub fn finish<'a>(_ask: &Ask<'a>, train: Train<'a>) -> Train<'a> {
    train
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
