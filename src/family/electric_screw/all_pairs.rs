//! What is looked for in an order of its own, held against every pair looked at one by one.
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "places in short lists, from numbers between 0 and 1"
)]

use super::fit::{Fit, Seat};
use super::load::{Load, Moves};
use super::nearest::nearest;
use super::pick::Pick;
use super::points::better;
use super::queue::Queue;
use super::spindle::Spindle;
use super::stock::{Range, Stock};
use crate::demand::Assist;
use crate::family::sample;
use crate::requirements::Requirements;
use crate::support::lift;

/// The next of a row of numbers from 0 to 1 that looks random and is the same each time.
fn next(state: &mut u64) -> f64 {
    *state = state
        .wrapping_mul(6_364_136_223_846_793_005)
        .wrapping_add(1_442_695_040_888_963_407);
    f64::from(u32::try_from(*state >> 33).unwrap_or(0)) / f64::from(1_u32 << 31)
}

/// A job with load, travel, tilt, time, place and wants of its own.
fn job(state: &mut u64) -> (Requirements, f64) {
    let mut chosen = |words: &[&'static str]| {
        let at = next(state) * 0.999 * f64::from(u32::try_from(words.len()).unwrap_or(1));
        words[at as usize]
    };
    let (incline, dirt, water) = (
        chosen(&["0 deg", "30 deg", "90 deg", "-90 deg"]),
        chosen(&["clean", "dusty"]),
        chosen(&["dry", "splash"]),
    );
    let loss = chosen(&["hold", "may_move"]);
    let noise = chosen(&[
        "null",
        r#"{ "must": "90 dB", "ideal": "50 dB", "worth": 50 }"#,
    ]);
    let least = 10.0 * libm::pow(40.0, next(state));
    let load = format!(
        r#"{{ "least": "{least} kg", "most": "{} kg" }}"#,
        least * (1.0 + next(state))
    );
    let travel = format!("{} mm", 100.0 * libm::pow(12.0, next(state)));
    let time = 0.6 * libm::pow(20.0, next(state));
    let made = lift(&[
        ("motion.guide", "null"),
        ("timing.rest_out", "null"),
        ("timing.rest_back", "null"),
        ("site.air", "null"),
        ("site.hand", "null"),
        ("site.dirt", dirt),
        ("site.water", water),
        ("motion.incline", incline),
        ("motion.load", &load),
        ("motion.travel", &travel),
        ("power_loss", loss),
        ("wants.noise", noise),
    ]);
    (made, time)
}

/// What the two searches were held to, counted so that a test that met nothing fails.
#[derive(Default)]
struct Met {
    sound: usize,
    beaten: usize,
    none: usize,
}

#[test]
fn queue_and_nearest_find_what_looking_at_every_pair_finds() {
    let (mut state, mut met) = (7, Met::default());
    for _ in 0..24 {
        let (job, time) = job(&mut state);
        let part = next(&mut state);
        sample::asking(&job, Assist::None, &[time], |ask| {
            let demand = ask.demand(time);
            let moves = Moves::new(ask, &demand);
            let stock = Stock::new(ask);
            for spindle in Spindle::all(ask, |_| {}).iter().step_by(9) {
                let load = Load::new(spindle, &demand, &moves);
                let Some(coupling) = stock.coupling(ask, &load, 0.0) else {
                    continue;
                };
                let seat = Seat {
                    ask,
                    stock: &stock,
                    spindle,
                    load: &load,
                    coupling,
                };
                for range in &stock.ranges {
                    held(seat, range, &moves, part, &mut met);
                }
            }
        });
    }
    assert!(
        met.sound > 100 && met.beaten > 100 && met.none > 20,
        "{} {} {}",
        met.sound,
        met.beaten,
        met.none
    );
}

fn held<'a>(seat: Seat<'_, 'a>, range: &Range<'a>, moves: &Moves, part: f64, met: &mut Met) {
    let all = match range {
        Range::Plain(picks) => picks.clone(),
        Range::Geared(geared) => geared.pairs(seat.ask),
    };
    let fits: Vec<Fit> = all
        .iter()
        .filter_map(|pick| Fit::new(seat, *pick))
        .collect();
    let sound = |pick: &Pick<'a>| {
        let fit = Fit::new(seat, *pick);
        fit.is_some_and(|fit| fit.sound(seat.ask, seat.load, moves).is_some())
    };
    if let Range::Geared(geared) = range {
        // With nothing found yet, and with the points of some pair found before.
        let at = (part * f64::from(u32::try_from(all.len()).unwrap_or(0))) as usize;
        for best in [None, all.get(at).map(|pick| pick.finer_points)] {
            let mut queue = Queue::new(seat, geared);
            let mut found: Vec<Pick> = Vec::new();
            while let Some(pick) = queue.next(best) {
                found.push(pick);
            }
            let one_by_one: Vec<_> = all
                .iter()
                .filter(|pick| better(&pick.finer_points, best))
                .collect();
            // The queue may leave out what could not do, and nothing else; it keeps the order of all.
            let mut rest = one_by_one.iter();
            assert!(
                found
                    .iter()
                    .all(|pick| rest.any(|other| ids(other) == ids(pick))),
                "in order"
            );
            let ends = |pick: &&Pick<'a>| sound(pick);
            let (got, all_sound): (Vec<_>, Vec<_>) = (
                found.iter().filter(ends).map(ids).collect(),
                one_by_one.iter().copied().filter(ends).map(ids).collect(),
            );
            assert_eq!(got, all_sound);
            met.sound += got.len();
            met.beaten += usize::from(best.is_some() && one_by_one.len() < all.len());
        }
    }
    // It is asked only where nothing passes.
    if all.iter().any(sound) {
        return;
    }
    let used = |fit: &Fit| fit.used(seat.ask, seat.load, moves);
    let least = fits.iter().map(used).min_by(f64::total_cmp);
    let found = nearest(seat, range, moves).as_ref().map(used);
    assert_eq!(found, least);
    met.none += usize::from(least.is_some());
}

fn ids<'a>(pick: &Pick<'a>) -> (&'a str, Option<&'a str>) {
    (
        pick.motor.common().id.as_str(),
        pick.gearbox.map(|gearbox| gearbox.common.id.as_str()),
    )
}
