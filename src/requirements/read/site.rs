//! Reading the site.

use super::super::{Air, Dirt, Hand, Mains, Site, Units, Water};
use super::choice;
use crate::quantity::{Current, Si, Temperature};
use crate::reading::{MISSING, Object, Sink};

/// Reads `site`.
pub(super) fn read(top: &mut Object, sink: &Sink) -> Option<Site> {
    if top.raw("site").is_none() {
        top.fault("site", MISSING);
        return None;
    }
    let mut site = top.object("site")?;
    let mains = part(&mut site, "mains", |object| mains(object, sink));
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
    let apart = part(&mut site, "units", |object| units(object, sink));
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
        units: apart?.unwrap_or_else(|| Units::indoors(explosive_atmosphere == Some(true))),
    })
}

fn mains(object: &mut Object, sink: &Sink) -> Option<Mains> {
    let (voltage, power) = (object.optional("voltage"), object.required("power"));
    let words = [("ac", Current::Ac), ("dc", Current::Dc)];
    let current = choice(object, "current", sink, &words);
    let phases: Option<f64> = match current {
        Some(Current::Dc) if object.raw("phases").is_some() => {
            object.fault("phases", "is said of direct current");
            None
        }
        Some(Current::Dc) => Some(1.0),
        _ => object.optional("phases"),
    };
    let phases = match phases {
        Some(1.0) => Some(1),
        Some(3.0) => Some(3),
        Some(_) => {
            object.fault("phases", "must be 1 or 3");
            None
        }
        None => None,
    };
    Some(Mains {
        voltage: voltage?,
        power: power?,
        current: current?,
        phases: phases?,
    })
}

fn dirt(object: &mut Object, sink: &Sink) -> Option<Dirt> {
    let words = [
        ("clean", Dirt::Clean),
        ("dusty", Dirt::Dusty),
        ("gritty", Dirt::Gritty),
    ];
    choice(object, "dirt", sink, &words)
}

fn water(object: &mut Object, sink: &Sink) -> Option<Water> {
    let words = [
        ("dry", Water::Dry),
        ("splash", Water::Splash),
        ("washdown", Water::Washdown),
    ];
    choice(object, "water", sink, &words)
}

/// The place of the units that stand apart from the machine.
fn units(object: &mut Object, sink: &Sink) -> Option<Units> {
    let heat = object.object("temperature").and_then(temperature);
    let (dirt, water) = (dirt(object, sink), water(object, sink));
    let distance = object.optional("distance");
    let explosive_atmosphere = object.optional("explosive_atmosphere");
    let (coldest, hottest) = heat?;
    Some(Units {
        coldest,
        hottest,
        dirt: dirt?,
        water: water?,
        distance: distance?,
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
