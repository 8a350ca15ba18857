//! Keeps a week's session inside its minutes.

use crate::input::catalog::Entry;
use crate::plan::file::{Amounts, Item, Session};
use crate::plan::timing::fill_in;
use crate::words::{Kind, LoadKind, Measure, Pattern, Side, Sides};

/// The largest set of an item, in its own measure.
#[must_use]
pub fn most_of(item: &Item) -> u32 {
    item.amounts().map_or(&[][..], Amounts::list).iter().copied().max().unwrap_or(0)
}

/// Times the session and, where it is too long, takes back what the week added over `base`: from the last item on, one
/// repetition or five seconds at a time; then the first ramp steps. The base itself holds its minutes.
pub fn to_minutes<'a>(
    session: &mut Session,
    base: &Session,
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) {
    fill_in(session, entry);
    while is_too_long(session) && (shorten(session, base) || drop_ramp_step(session)) {
        fill_in(session, entry);
    }
}

/// Rests grow by so much at a time, so often at most, and up to these for main lifts on both sides, with a bar or machine
/// and in the hands, for other lifts and those with the body's own weight or a band, and for small work: RX-18 finds no harm
/// in longer rests. Common practice.
const REST_STEP_S: u32 = 15;
const REST_STEPS: u32 = 3;
const MOST_REST_S: u32 = 150;
const MOST_REST_OF_HANDS_S: u32 = 120;
const MOST_PULL_REST_S: u32 = 105;
const MOST_LESSER_REST_S: u32 = 90;
const MOST_SMALL_REST_S: u32 = 60;
const MOST_HOLD_REST_S: u32 = 60;
const MOST_BALANCE_REST_S: u32 = 45;
/// In a pair one rests while the other works.
const MOST_REST_IN_TURN_S: u32 = 120;

fn pulls(entry: &Entry) -> bool {
    entry.pattern.and_then(Pattern::press_or_row) == Some(Side::Pull)
}

/// The longest rest that free minutes are used for.
fn most_rest_s(entry: &Entry) -> u32 {
    match entry.kind {
        _ if entry.pattern == Some(Pattern::Balance) => MOST_BALANCE_REST_S,
        _ if entry.measure != Measure::Reps => MOST_HOLD_REST_S,
        Some(Kind::Compound) if entry.pattern.is_some_and(Pattern::is_trunk) => MOST_SMALL_REST_S,
        Some(Kind::Compound) if pulls(entry) => MOST_PULL_REST_S,
        Some(Kind::Compound) if entry.is_loaded() && entry.main && entry.sides == Sides::Both => {
            let in_hands = matches!(entry.load, LoadKind::PerHand | LoadKind::SingleImplement);
            if in_hands { MOST_REST_OF_HANDS_S } else { MOST_REST_S }
        }
        Some(Kind::Compound) if entry.is_loaded() || entry.is_hung() => MOST_LESSER_REST_S,
        _ => MOST_SMALL_REST_S,
    }
}

/// Rests longer, step by step, where a timed session takes less than is wanted, and never more than the most.
pub fn rest_longer<'a>(
    session: &mut Session,
    [wanted_s, most_s]: [u32; 2],
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) {
    let planned = |session: &Session| session.minutes.as_ref().map_or(0, |used| used.planned_s);
    let most = |item: &Item| entry(&item.exercise).map_or(MOST_REST_S, most_rest_s);
    for _ in 0..REST_STEPS {
        let mut longer = session.clone();
        let works = longer.groups.iter_mut().filter(|group| group.is_work());
        for group in works {
            let in_turn = if group.items.len() > 1 { MOST_REST_IN_TURN_S } else { u32::MAX };
            for item in &mut group.items {
                let most = most(item).min(in_turn).max(item.rest_s);
                item.rest_s = (item.rest_s + REST_STEP_S).min(most);
            }
        }
        fill_in(&mut longer, entry);
        if planned(session) >= wanted_s || planned(&longer) > most_s {
            return;
        }
        *session = longer;
    }
}

/// Whether a timed session passes its limit.
#[must_use]
pub fn is_too_long(session: &Session) -> bool {
    session
        .minutes
        .as_ref()
        .is_some_and(|minutes| minutes.planned_s > minutes.limit.saturating_mul(60))
}

/// Holds and carries come down to a number that one would say.
const EVEN: u32 = 5;

/// Takes a step off the last item that has more than the week as planned; false where none has.
fn shorten(session: &mut Session, base: &Session) -> bool {
    let planned = |id: &str| {
        let items = base.groups.iter().flat_map(|group| &group.items);
        items.filter(|item| item.exercise == id).map(most_of).max()
    };
    let mut works = session.groups.iter_mut().rev().filter(|group| group.is_work());
    let mut items = works.by_ref().flat_map(|group| group.items.iter_mut().rev());
    let Some(item) =
        items.find(|item| planned(&item.exercise).is_some_and(|most| most_of(item) > most))
    else {
        return false;
    };
    let least = planned(&item.exercise).unwrap_or(0);
    let down = |amount: u32, step: u32| (amount.saturating_sub(1) / step * step).max(least);
    for amount in [&mut item.reps, &mut item.calories].into_iter().flatten().flatten() {
        *amount = down(*amount, 1);
    }
    for amount in [&mut item.seconds, &mut item.meters].into_iter().flatten().flatten() {
        *amount = down(*amount, EVEN);
    }
    true
}

fn drop_ramp_step(session: &mut Session) -> bool {
    let mut items = session.groups.iter_mut().rev().flat_map(|group| group.items.iter_mut());
    match items.find(|item| !item.ramp.is_empty()) {
        Some(item) => {
            item.ramp.remove(0);
            true
        }
        None => false,
    }
}
