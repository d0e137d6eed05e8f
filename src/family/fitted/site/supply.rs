//! What the site feeds its parts with: voltage, current, phases.

use crate::catalog::{Common, Feed};
use crate::quantity::{Current, Si};
use crate::requirements::Mains;

/// How far alternating mains may be from a nominal voltage (IEC 60038).
const AC_OFF: f64 = 0.1;
/// How far a battery may be from its nominal voltage, full or empty (common practice, no source).
const DC_OFF: f64 = 0.2;

/// Whether the site feeds a part; all that states nothing draws nothing, or is fed by what is bought with it.
pub(super) fn feeds(mains: Option<&Mains>, common: &Common) -> bool {
    match (&common.runs_on, mains) {
        (None, _) => true,
        (Some(_), None) => false,
        (Some(feeds), Some(mains)) => feeds.iter().any(|feed| suits(mains, feed)),
    }
}

/// Whether mains give what a part runs on. Mains of three phases also give each single phase to the neutral, and between two.
fn suits(mains: &Mains, feed: &Feed) -> bool {
    if mains.current != feed.current || feed.phases > mains.phases {
        return false;
    }
    let volts = mains.voltage.si();
    let off = match mains.current {
        Current::Ac => AC_OFF,
        Current::Dc => DC_OFF,
    };
    let within =
        |volts: f64| (feed.least_v * (1.0 - off)..=feed.most_v * (1.0 + off)).contains(&volts);
    within(volts) || mains.phases == 3 && feed.phases == 1 && within(volts / 3.0_f64.sqrt())
}

/// Whether the site itself feeds a part of a direct voltage, so that no supply goes between.
pub fn feeds_direct(mains: &Mains, volts: f64) -> bool {
    let feed = Feed {
        least_v: volts,
        most_v: volts,
        current: Current::Dc,
        phases: 1,
    };
    suits(mains, &feed)
}

/// What the site gives, in words.
pub(super) fn given(mains: Option<&Mains>) -> String {
    let Some(mains) = mains else {
        return "no electricity".into();
    };
    let volts = mains.voltage.si();
    Feed {
        least_v: volts,
        most_v: volts,
        current: mains.current,
        phases: mains.phases,
    }
    .to_string()
}

/// What a part runs on, in words.
pub(super) fn asked(common: &Common) -> String {
    let feeds = common.runs_on.iter().flatten();
    let feeds: Vec<String> = feeds.map(Feed::to_string).collect();
    feeds.join(" or ")
}
