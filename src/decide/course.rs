//! The force of one option's drive over its travel: the demand once more, with its own assist at its own travel time.

use crate::demand::{Assist, Axis, Counterweight, ForceCourse, TailWeight};
use crate::requirements::Requirements;
use crate::study::OptionLine;

/// The assist of an option, as its detail tells it.
pub(super) fn assist(option: &OptionLine) -> Assist {
    let Some(detail) = &option.assist_detail else {
        return Assist::None;
    };
    match detail.tail_radius_m {
        Some(radius_m) => Assist::Tail(TailWeight {
            mass_kg: detail.counterweight_kg,
            radius_m,
        }),
        None => Assist::Counterweight(Counterweight {
            mass_kg: detail.counterweight_kg,
            travel_ratio: detail.travel_ratio,
            sheaves: detail.sheaves,
            loss_per_sheave: detail.loss_per_sheave,
            sheave_mass_kg: detail.sheave_mass_kg,
        }),
    }
}

/// How the force of an option's drive runs over the travel in the case that asks most.
pub fn course(option: &OptionLine, job: &Requirements) -> Option<ForceCourse> {
    let axis = Axis::of(job)?;
    axis.demand(job, &assist(option), option.design_travel_time_s)
        .course()
}
