//! Reading the site.

use super::super::{Air, Dirt, Hand, Mains, Site, Water};
use super::choice;
use crate::quantity::{Si, Temperature};
use crate::reading::{MISSING, Object, Sink};

/// Reads `site`.
pub(super) fn read(top: &mut Object, sink: &Sink) -> Option<Site> {
    if top.raw("site").is_none() {
        top.fault("site", MISSING);
        return None;
    }
    let mut site = top.object("site")?;
    let mains = part(
        &mut site,
        "mains",
        |mains| record!(mains => Mains { optional voltage; required power; }),
    );
    let air = part(
        &mut site,
        "air",
        |air| record!(air => Air { optional pressure; required flow; }),
    );
    let hand = part(
        &mut site,
        "hand",
        |hand| record!(hand => Hand { optional force, cost_per_hour; }),
    );
    let temperature = site.object("temperature").and_then(temperature);
    let dirt = choice(&mut site, "dirt", sink, Dirt::WORDS);
    let water = choice(&mut site, "water", sink, Water::WORDS);
    let oil_tolerated = site.optional("oil_tolerated");
    let explosive_atmosphere = site.optional("explosive_atmosphere");
    site.finish();
    let (coldest, hottest) = temperature?;
    Some(Site {
        mains: mains?,
        air: air?,
        hand: hand?,
        coldest,
        hottest,
        dirt: dirt?,
        water: water?,
        oil_tolerated: oil_tolerated?,
        explosive_atmosphere: explosive_atmosphere?,
    })
}

/// An object that may be left out. Outer `None`: a fault; inner: not given.
pub(super) fn part<T>(
    around: &mut Object,
    key: &'static str,
    read: impl FnOnce(&mut Object) -> Option<T>,
) -> Option<Option<T>> {
    if around.raw(key).is_none() {
        return Some(None);
    }
    whole(around.object(key)?, read).map(Some)
}

/// Reads an object to its end: what was not asked for is unknown.
pub(super) fn whole<T>(
    mut object: Object,
    read: impl FnOnce(&mut Object) -> Option<T>,
) -> Option<T> {
    let value = read(&mut object);
    object.finish();
    value
}

fn temperature(mut object: Object) -> Option<(Temperature, Temperature)> {
    let least = object.optional::<Temperature>("least");
    let most = object.optional::<Temperature>("most");
    if let (Some(least), Some(most)) = (least, most)
        && least.si() > most.si()
    {
        object.fault("least", "is hotter than \"most\"");
    }
    object.finish();
    Some((least?, most?))
}
