//! The order of a session: bigger work before smaller, the lead lift first, fresh hands and trunk for bar
//! hinges, and stations together.

mod lead;

use std::cmp::Reverse;

use itertools::Itertools as _;

use self::lead::{has_both_big_lifts, lead};
use super::pair_up::Together;
use crate::request::candidate::{Candidate, Station};
use crate::request::dose::Duty;
use crate::request::standing::is_fast_press;
use crate::request::{Request, Wish};
use crate::search::Done;
use crate::words::{Goal, LoadKind, Pattern, Side, Stress};

/// Ranks of working groups, first to last (ACSM 2009 for power and multi-joint first).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    Explosive,
    Heavy,
    MultiJoint,
    Isolation,
    Carry,
    Trunk,
}

/// Arranges a day's groups: by rank, and inside a rank in the order with the fewest things to remark on. `heavier` has
/// the week's heavier work.
#[must_use]
pub fn arranged(
    request: &Request,
    groups: Vec<Together>,
    heavier: &[Done],
    whole_body: bool,
) -> Vec<Together> {
    let lead = lead(request, &groups, heavier, whole_body);
    let between = press_between(request, &groups);
    let eye = Eye { request, lead, whole_body, between };
    let ranked = groups
        .into_iter()
        .map(|group| in_turn(request, group, lead))
        .sorted_by_key(|group| (rank_of(&eye, group), usual_place(request, group)))
        .chunk_by(|group| rank_of(&eye, group))
        .into_iter()
        .map(|(_, block)| block.collect::<Vec<_>>())
        .collect::<Vec<_>>();
    let ordered =
        ranked.into_iter().fold(Vec::new(), |before, block| best_order(&eye, before, block));
    if request.is_senior() { steady_early(request, ordered) } else { ordered }
}

/// From 65 on balance comes right after the day's first lift and not on tired legs. Common practice.
fn steady_early(request: &Request, mut ordered: Vec<Together>) -> Vec<Together> {
    let of = |done: &Done| request.candidates[done.candidate].pattern;
    let is_balance = |group: &Together| group.iter().any(|done| of(done) == Pattern::Balance);
    let slow = |group: &Together| group.iter().any(|done| !of(done).is_explosive());
    let lead = ordered.iter().position(slow).unwrap_or(0);
    let late: Vec<usize> =
        (lead + 1..ordered.len()).filter(|at| is_balance(&ordered[*at])).collect();
    for (count, at) in late.into_iter().enumerate() {
        let group = ordered.remove(at);
        ordered.insert(lead + 1 + count, group);
    }
    ordered
}

/// The lead, or the bigger half of a pair, comes first.
fn in_turn(request: &Request, mut group: Together, lead: Option<usize>) -> Together {
    group.sort_by_key(|done| {
        let candidate = &request.candidates[done.candidate];
        let follows = Some(done.candidate) != lead;
        (rank(candidate), follows, candidate.duty, Reverse(done.sets), candidate.id.clone())
    });
    group
}

/// The press that stands between a squat and a pull with the bar on the only day of a week, be it with dumbbells: the back
/// that has held the one has a rest before the other.
fn press_between(request: &Request, groups: &[Together]) -> Option<usize> {
    let both = has_both_big_lifts(request, groups);
    let alone = groups.iter().filter(|group| both && group.len() == 1).flatten();
    let presses = alone.map(|done| (done.sets, done.candidate)).filter(|(_, candidate)| {
        let one = &request.candidates[*candidate];
        one.duty == Duty::Main && one.pattern.press_or_row() == Some(Side::Push)
    });
    presses.max_by_key(|(sets, candidate)| (*sets, Reverse(*candidate))).map(|(_, one)| one)
}

/// What should get more and leads its day stands before heavier lifts, too, and so do a squat or hinge that leads and what
/// is liked where nothing is heavy.
fn rank_of(eye: &Eye<'_>, group: &Together) -> Rank {
    let Eye { request, lead, between, .. } = *eye;
    let ranks = group.iter().map(|done| {
        let candidate = &request.candidates[done.candidate];
        let more = candidate.is_wished_for_more(request)
            || request.builds_size()
                && candidate.prime().is_some_and(|one| request.wants_more(one))
            || is_two_legged_main(candidate)
            || !request.trains_heavy() && candidate.is_wished() && candidate.is_leg_lift();
        match rank(candidate) {
            Rank::MultiJoint if Some(done.candidate) == lead && more => Rank::Heavy,
            Rank::MultiJoint if Some(done.candidate) == between => Rank::Heavy,
            _ if leads_its_muscle(request, candidate) => Rank::MultiJoint,
            usual => usual,
        }
    });
    ranks.min().unwrap_or(Rank::Isolation)
}

/// Whether work of one joint stands among the lifts, as its muscle should get more and no lift needs it fresh: calves and
/// the backs of the thighs. Arms and side delts wait for the presses and pulls.
fn leads_its_muscle(request: &Request, candidate: &Candidate) -> bool {
    let free = matches!(candidate.pattern, Pattern::PlantarFlexion | Pattern::KneeFlexion);
    let wished = candidate.prime().is_some_and(|prime| request.wants_more(prime));
    free && wished && request.profile.goal == Goal::Hypertrophy
}

fn rank(candidate: &Candidate) -> Rank {
    match candidate.pattern {
        pattern if pattern.is_explosive() => Rank::Explosive,
        Pattern::Carry => Rank::Carry,
        pattern if pattern.is_trunk() || pattern == Pattern::Balance => Rank::Trunk,
        _ if candidate.is_heavy() => Rank::Heavy,
        _ if candidate.is_compound() => Rank::MultiJoint,
        _ => Rank::Isolation,
    }
}

/// Legs, then pushes, then pulls: the order in which a mixed day is usually written.
fn region(candidate: &Candidate) -> u8 {
    match (candidate.pattern, candidate.pattern.side()) {
        (Pattern::Squat | Pattern::Hinge, _) if !candidate.is_each_side() => 0,
        (_, Some(Side::Push)) => 1,
        (_, Some(Side::Pull)) => 2,
        (_, Some(Side::Legs)) => 3,
        _ => 4,
    }
}

/// Where a group stands when nothing speaks against it.
fn usual_place(request: &Request, group: &Together) -> (Duty, u8, Reverse<u32>, Station, String) {
    let first = &request.candidates[group[0].candidate];
    let sets = group[0].sets;
    (first.duty, region(first), Reverse(sets), first.station, first.id.clone())
}

/// What a coach looks at an order with.
struct Eye<'a> {
    request: &'a Request,
    lead: Option<usize>,
    whole_body: bool,
    between: Option<usize>,
}

/// The order of a block, after what stands before it, with the least cost; the usual order breaks ties.
fn best_order(eye: &Eye<'_>, before: Vec<Together>, block: Vec<Together>) -> Vec<Together> {
    /// Blocks longer than this keep their usual order behind the lead: there are too many orders to look at.
    const MOST: usize = 6;
    if block.len() < 2 || block.len() > MOST {
        let has_lead = |group: &Together| group.iter().any(|done| Some(done.candidate) == eye.lead);
        let (first, others): (Vec<_>, Vec<_>) = block.into_iter().partition(has_lead);
        return before.into_iter().chain(first).chain(others).collect();
    }
    let count = block.len();
    block
        .into_iter()
        .permutations(count)
        .map(|order| before.iter().cloned().chain(order).collect::<Vec<_>>())
        .min_by_key(|order| cost(eye, order))
        .expect("a block has at least one order")
}

/// Things a coach would remark on in an order, the worst first.
fn cost(eye: &Eye<'_>, order: &[Together]) -> u32 {
    let Eye { request, lead, whole_body, .. } = *eye;
    let items: Vec<&Done> = order.iter().flatten().collect();
    let at = |place: usize| &request.candidates[items[place].candidate];
    let fast = |one: &Candidate| one.pattern.is_explosive() || is_fast_press(request, &one.entry);
    let first_slow = items.iter().find(|done| !fast(&request.candidates[done.candidate]));
    let mut cost =
        if lead.is_some() && first_slow.map(|done| done.candidate) == lead { 0 } else { 100 };
    let mut run = 0;
    for place in 0..items.len() {
        let grips = at(place).stresses(Stress::Grip);
        run = if grips { run + 1 } else { 0 };
        cost += if run > 3 { 40 } else { 0 };
        let before = place.saturating_sub(2)..place;
        let tired = before.into_iter().any(|earlier| at(earlier).stresses(Stress::Grip));
        cost += if is_bar_hinge(at(place)) && tired { 60 } else { 0 };
        let later_big = (place + 1..items.len()).any(|later| is_two_legged_main(at(later)));
        cost += if is_each_side_leg(at(place)) && later_big { 30 } else { 0 };
        let each = if at(place).wish == Wish::Must { 10 } else { 4 };
        cost += if comes_early(request, at(place)) {
            each * u32::try_from(place).unwrap_or(0)
        } else {
            0
        };
        let spends = (place + 1..items.len()).any(|later| spends_legs(at(place), at(later)));
        cost += if spends { 30 } else { 0 };
        // A back that has pulled off the floor holds no squat well.
        let squat_waits = is_bar_hinge(at(place))
            && Some(items[place].candidate) != lead
            && (place + 1..items.len())
                .any(|later| at(later).pattern == Pattern::Squat && is_two_legged_main(at(later)));
        cost += if squat_waits { 30 } else { 0 };
        // Small work for a muscle waits for the lifts that need it fresh.
        let needs_it = |later: &Candidate| {
            let arm = at(place).prime().is_some_and(|prime| later.entry.indirect.contains(&prime));
            let of_arms =
                matches!(at(place).pattern, Pattern::ElbowFlexion | Pattern::ElbowExtension);
            let raise = at(place).pattern == Pattern::ShoulderAbduction;
            let own = later.prime() == at(place).prime()
                || raise && later.pattern == Pattern::VerticalPush;
            later.is_compound() && (own || (of_arms && arm))
        };
        let lift_waits =
            !at(place).is_compound() && (place + 1..items.len()).any(|later| needs_it(at(later)));
        cost += if lift_waits { 20 } else { 0 };
        // Nor does a lift with its whole rest come after any small work.
        let heavy_waits = !at(place).is_compound()
            && (place + 1..items.len()).any(|later| request.wants_its_rest(at(later)));
        cost += if heavy_waits { 25 } else { 0 };
        // Where the legs should be fast, they are heavy before the arms are.
        let legs_wait = request.profile.goal == Goal::Power
            && is_two_legged_main(at(place))
            && (0..place).any(|earlier| {
                let one = at(earlier);
                one.pattern.press_or_row().is_some() && Some(items[earlier].candidate) != lead
            });
        cost += if legs_wait { 20 } else { 0 };
        // A press that the legs drive comes before one that they do not.
        let drive_waits = is_fast_press(request, &at(place).entry)
            && (0..place).any(|earlier| at(earlier).pattern == Pattern::HorizontalPush);
        cost += if drive_waits { 20 } else { 0 };
        // Two that the back holds have something between them.
        let at_once =
            place > 0 && is_two_legged_main(at(place)) && is_two_legged_main(at(place - 1));
        cost += if at_once { 20 } else { 0 };
        // On the day of the bench a pull stands between it and the next press.
        let presses = |one: &Candidate| one.is_compound() && one.pattern.side() == Some(Side::Push);
        let benched = place > 0
            && Some(items[place - 1].candidate) == lead
            && at(place - 1).pattern == Pattern::HorizontalPush
            && presses(at(place));
        cost += if benched && !whole_body && request.trains_heavy() { 12 } else { 0 };
        let knee_then_knee = place > 0 && at(place).pattern == at(place - 1).pattern;
        cost += if knee_then_knee { 6 } else { 0 };
    }
    let stations = order.windows(2).filter(|pair| {
        request.candidates[pair[0][0].candidate].station
            != request.candidates[pair[1][0].candidate].station
    });
    // Legs, push and pull go in turn, so that each rests while another works.
    let side = |group: &Together| {
        let first = &request.candidates[group[0].candidate];
        first.pattern.side().filter(|_| first.is_compound())
    };
    let again = order
        .windows(2)
        .filter(|pair| side(&pair[0]).is_some() && side(&pair[0]) == side(&pair[1]));
    let again = if whole_body { again.count() } else { 0 };
    let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    cost + 3 * count(stations.count()) + 15 * count(again)
}

/// Whether an exercise spends legs that a later one needs fresh: they jump before a bar or a ball tires them, and squat with
/// the bar before a machine.
fn spends_legs(one: &Candidate, later: &Candidate) -> bool {
    let flies_late = one.pattern.is_explosive()
        && one.pattern != Pattern::Jump
        && later.pattern == Pattern::Jump;
    let squats = |candidate: &Candidate| candidate.pattern == Pattern::Squat;
    let held = squats(one) && matches!(one.station, Station::Fixed(_));
    flies_late || (held && squats(later) && later.entry.load == LoadKind::BarTotal)
}

/// A lift for a muscle that should get more, or one that is wished, stands as early as its kind of work allows.
fn comes_early(request: &Request, candidate: &Candidate) -> bool {
    // A step up is done while the legs of who begins late are fresh.
    let steps = request.is_older_beginner() && candidate.pattern == Pattern::Lunge;
    let wished = candidate.is_wished() || steps;
    wished || candidate.prime().is_some_and(|prime| request.wants_more(prime))
}

fn is_bar_hinge(candidate: &Candidate) -> bool {
    candidate.pattern == Pattern::Hinge && candidate.entry.load == LoadKind::BarTotal
}

fn is_each_side_leg(candidate: &Candidate) -> bool {
    candidate.is_each_side() && candidate.pattern.side() == Some(Side::Legs)
}

fn is_two_legged_main(candidate: &Candidate) -> bool {
    candidate.duty == Duty::Main
        && !candidate.is_each_side()
        && matches!(candidate.pattern, Pattern::Squat | Pattern::Hinge)
}
