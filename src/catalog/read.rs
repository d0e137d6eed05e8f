//! Reading parts into their records.

use std::sync::OnceLock;

use super::source::PartRecord;
use super::{Catalog, Part, Stock};
use crate::problem::Problems;
use crate::reading::{Object, Sink};

/// The catalog that comes with the program.
///
/// # Errors
/// Every fault of its files; a test keeps them sound.
pub fn built_in() -> Result<&'static Catalog, Problems> {
    static CATALOG: OnceLock<Result<Catalog, Problems>> = OnceLock::new();
    CATALOG
        .get_or_init(|| Stock::built_in()?.catalog())
        .as_ref()
        .map_err(Clone::clone)
}

/// Reads one part; its faults go into the sink.
pub(super) fn part<P: Part>(entry: &PartRecord, sink: &Sink, into: &mut Vec<P>) {
    let Some(mut object) = Object::new(&entry.fields, entry.place.clone(), sink) else {
        return;
    };
    let before = sink.len();
    if let Some(part) = P::read(&mut object) {
        // Figures that are wrong by themselves contradict others as well; those are not spoken of.
        if sink.len() == before {
            for fault in part.faults() {
                let problem = object.problem(fault.field, fault.message);
                object.add(problem.hint(fault.hint));
            }
        }
        into.push(part);
    }
    object.finish();
}
