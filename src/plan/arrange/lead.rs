//! The lift that leads a day.

use std::cmp::Reverse;

use super::{is_two_legged_main, region};
use crate::plan::pair_up::Together;
use crate::request::candidate::Candidate;
use crate::request::completing::{has_a_touchy_shoulder, rises_in_forms};
use crate::request::{Request, Wish};
use crate::search::Done;
use crate::words::{Goal, LoadKind, Muscle, Pattern, Side, Supersets};

/// The day's lead: one with about as many sets as any that can lead for the client's goal, for the whole body a squat or
/// hinge, then what they want more of and what they like, a press before a pull and for strength one lying before one
/// overhead but on the day of the lighter bench, what is heavier that day, and what has most sets; legs before a push before a pull. Where
/// no lift has a load, legs lead days for the whole body.
pub(super) fn lead(
    request: &Request,
    groups: &[Together],
    heavier: &[Done],
    whole_body: bool,
) -> Option<usize> {
    let candidates = groups.iter().flatten().filter(|done| {
        let candidate = &request.candidates[done.candidate];
        candidate.is_compound() && !candidate.pattern.is_explosive()
    });
    let goal = request.profile.goal;
    let most = groups.iter().flatten().map(|done| done.sets).max().unwrap_or(0);
    let of = |done: &Done| &request.candidates[done.candidate];
    let can_lead = |done: &Done| of(done).leads(request);
    let firm = groups.iter().flatten().any(|done| can_lead(done) && of(done).entry.is_loaded());
    let is_heavier = |done: &Done| heavier.contains(done);
    // Where none of those in pairs can lead, who likes pairs begins with a lift alone.
    let pairs_lead = groups.iter().flatten().any(|done| done.paired && can_lead(done));
    let touchy = has_a_touchy_shoulder(request);
    // Where sets are few, two of them lead nothing beside three of another.
    let thin = if request.trains_heavy() { THIN } else { 1 };
    // One day with squat and pull has the press between them.
    let between = has_both_big_lifts(request, groups);
    // A heavy press is done before a leg lift that has its lighter day, but where the legs are what should be fast.
    let heavy_push = !between
        && goal != Goal::Power
        && groups.iter().flatten().any(|done| {
            is_heavier(done) && can_lead(done) && of(done).pattern.side() == Some(Side::Push)
        });
    // The bench that is the lighter of the week yields to a press overhead with the bar, which has its day then.
    let overhead_bar = |done: &Done| {
        let bar = of(done).entry.load == LoadKind::BarTotal;
        of(done).pattern == Pattern::VerticalPush && bar && can_lead(done)
    };
    let press_day = goal == Goal::Strength && groups.iter().flatten().any(overhead_bar);
    // A lift that is asked for without the bar waits for a heavier one with it for the same muscle.
    let heavy_bars: Vec<Muscle> = groups
        .iter()
        .flatten()
        .filter(|done| is_heavier(done) && request.wants_its_rest(of(done)))
        .filter(|done| of(done).entry.load == LoadKind::BarTotal)
        .filter_map(|done| of(done).prime())
        .collect();
    candidates
        .min_by_key(|done| {
            let candidate = of(done);
            let bar = candidate.entry.load != LoadKind::BarTotal;
            let legs = candidate.pattern.side() == Some(Side::Legs);
            // The lighter of two days is not what a wish is paid with.
            let turns = candidate.pattern != Pattern::Squat || candidate.entry.is_loaded();
            // A form that is asked for is no lighter day of its parent.
            let same = |other: &Done| {
                let of_pattern = of(other).pattern == candidate.pattern;
                of_pattern && (!candidate.is_wished() || other.candidate == done.candidate)
            };
            let is_light =
                turns && heavier.iter().any(|other| same(other) && other.day != done.day);
            let prime = candidate.prime();
            let bar_first = bar && prime.is_some_and(|prime| heavy_bars.contains(&prime));
            let strong = matches!(goal, Goal::Strength | Goal::Power);
            let pulls = candidate.pattern.side() == Some(Side::Pull);
            let lying = candidate.pattern == Pattern::HorizontalPush;
            let yields = press_day && lying && !is_heavier(done);
            let pushes = between && candidate.pattern.side() == Some(Side::Push);
            // What is only liked does not tire the arms and back for the heavy lifts of the day.
            // On a day for the whole body for strength the big lifts come before any pull-up.
            let asked = candidate.wish == Wish::Must && !(whole_body && goal == Goal::Strength);
            let after_legs = pulls && !asked && (strong || whole_body);
            let waits = after_legs || pushes || yields;
            // What should get more opens a day, be it its lighter one, and so does what is liked where nothing is heavy.
            let more = candidate.is_wished_for_more(request);
            let grows =
                goal == Goal::Hypertrophy && prime.is_some_and(|one| request.wants_more(one));
            // One leg without a weight is no lead before both with one, however it is liked.
            let bare = legs && candidate.is_each_side() && !candidate.entry.is_loaded() && firm;
            let opens = (more || grows || !is_light || !request.trains_heavy()) && !bare;
            let wished = request.is_wished_lead(candidate) && opens && !bar_first && !waits;
            // With fewer sets, too, lead what is asked for, legs that should be fast and the squat before the only day's pull.
            let fast_legs = goal == Goal::Power && is_two_legged_main(candidate);
            let has_to_come = wished && candidate.wish == Wish::Must;
            let needs = if candidate.is_wished() { THIN } else { thin };
            let [rises, follows] = [true, false].map(|first| is_a_rise(request, candidate, first));
            let first = rises || fast_legs || between && candidate.pattern == Pattern::Squat;
            let is_thin = done.sets + needs <= most && !has_to_come && !first;
            let leads = can_lead(done) || wished || (whole_body && legs && !firm);
            let leg_lift = candidate.is_leg_lift() || wished || (legs && !firm);
            let leads_whole_body = if heavy_push { is_heavier(done) || more } else { leg_lift };
            let pulls_last = between && candidate.pattern == Pattern::Hinge;
            let overhead = strong && candidate.pattern == Pattern::VerticalPush && !press_day;
            let spared = candidate.prime().is_some_and(|prime| request.wants_less(prime));
            (
                (
                    is_out_of_turn(request, done) && (done.paired || pairs_lead),
                    (follows, is_thin),
                    !leads || spared,
                    whole_body && !leads_whole_body,
                    request.is_senior() && candidate.is_each_side() && !rises,
                    touchy && candidate.pattern.press_or_row() == Some(Side::Push),
                ),
                (
                    (!wished, !has_to_come),
                    bar_first || !opens || !candidate.is_wished(),
                    pulls_last,
                    candidate.is_each_side(),
                    pulls,
                    !is_heavier(done),
                    yields || strong && is_light,
                    overhead,
                ),
                (!candidate.entry.go_to, whole_body && !leg_lift),
                Reverse(done.sets),
                candidate.duty,
                region(candidate),
                bar,
                candidate.id.clone(),
            )
        })
        .map(|done| done.candidate)
}

/// Whether who has nothing but a chair gets up, steps up or lunges with it, which comes first, or with what follows then.
fn is_a_rise(request: &Request, candidate: &Candidate, first: bool) -> bool {
    rises_in_forms(request) && matches!(candidate.pattern, Pattern::Squat | Pattern::Lunge) == first
}

/// Whether the only day of a week has a squat and a pull with the bar.
pub(super) fn has_both_big_lifts(request: &Request, groups: &[Together]) -> bool {
    let big = |pattern: Pattern| has_a_bar(request, groups, pattern);
    request.days.len() == 1 && big(Pattern::Squat) && big(Pattern::Hinge)
}

/// Whether a day has a main lift of a pattern for both legs with the bar.
fn has_a_bar(request: &Request, groups: &[Together], pattern: Pattern) -> bool {
    let mut lifts = groups.iter().flatten().map(|done| &request.candidates[done.candidate]);
    lifts.any(|one| {
        one.pattern == pattern && is_two_legged_main(one) && one.entry.load == LoadKind::BarTotal
    })
}

/// Whether a day begins otherwise than with an exercise that is done so: alone where its lead stands alone, and in a pair
/// where the client likes that.
fn is_out_of_turn(request: &Request, done: &Done) -> bool {
    let candidate = &request.candidates[done.candidate];
    let likes_pairs = request.profile.supersets == Supersets::Prefer;
    // What cannot be paired, as a swing, and is liked still comes first.
    let likes_more = request.is_wished_lead(candidate) && candidate.is_wished();
    if request.leads_alone(done.day) {
        done.paired
    } else {
        likes_pairs && !done.paired && !likes_more
    }
}

/// A lift with so many sets fewer than the day's most leads nothing.
const THIN: u32 = 2;
