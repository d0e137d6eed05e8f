//! How a drive between two pins fares over the swing of its arm.

use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::{Alignment, Style as Borders, Width};

use crate::demand::HingeDemand;
use crate::quantity::show;
use crate::study::amount;

/// Narrowest table that is still read.
const NARROWEST: usize = 20;

/// How torque, lever, stroke and force run over the swing.
pub fn swing_table(hinge: &HingeDemand, width: usize) -> String {
    let mut rows = Builder::default();
    rows.push_record([
        "angle",
        "torque",
        "lever",
        "stroke",
        "force out",
        "force back",
    ]);
    for row in &hinge.swing {
        rows.push_record([
            format!(
                "{}°",
                show((row.angle_rad.to_degrees() * 10.0).round() / 10.0)
            ),
            amount(row.torque_n_m, "N m"),
            amount(row.lever_m, "m"),
            amount(row.stroke_m, "m"),
            amount(row.static_out_n, "N"),
            amount(row.static_back_n, "N"),
        ]);
    }
    let mut table = rows.build();
    table.with(Borders::empty());
    table.modify(Columns::new(..), Alignment::right());
    table.with(Width::truncate(width.max(NARROWEST)));
    format!("\n{table}\n")
}
