//! What stands under whatever names a drive or a price.

use super::page::{Page, Screen};
use crate::requirements::Requirements;
use crate::study::{STANDING, weakened_rules};

/// The rules that a job weakens, then what goes for every job.
pub fn standing(job: &Requirements, page: Page) -> String {
    let mut out = Screen::new(page);
    if let Some(weakened) = weakened_rules(&job.rules) {
        out.paragraph("- ", &weakened);
    }
    out.paragraph("- ", STANDING);
    out.text
}

/// What goes for every job, under drives and prices of more than one, or of none.
pub fn standing_alone(page: Page) -> String {
    let mut out = Screen::new(page);
    out.text.push('\n');
    out.paragraph("", STANDING);
    out.text
}
