//! Electric screws: ball and sliding screws built up with a motor, and ready-made electric cylinders.

mod build;
mod spindle;
mod supports;
#[cfg(test)]
#[path = "../../../tests/unit/family/screw.rs"]
mod tests;
mod words;

use super::electric::Electrics;
use super::{Ask, Bench, Check, Family, Need, Pace, electric_cylinder};

/// The family's name in files.
pub(super) const NAME: &str = "electric_screw";

/// The family.
pub(super) const FAMILY: Family = Family {
    name: NAME,
    words: "electric screw",
    covers: &["electric screw"],
    needs: &[Need::Mains],
    pace: Pace::Law,
    drives,
};

fn drives<'a>(ask: &Ask<'a>, bench: &mut Bench<'a>) {
    let Some(electrics) = Electrics::of_site(ask, bench) else {
        return;
    };
    if ask.pins_m().is_some() {
        let says = "the drive must stand between two pins, and a screw stands on a base, for a load on a straight guide";
        bench.fails(vec![Check::of("screw.mounting", false, says)]);
    } else {
        build::drives(ask, &electrics, bench);
    }
    electric_cylinder::drives(ask, &electrics, bench);
}
