//! The split as a small problem, solved exactly: one idea a day, and which muscles are hard on which under the recovery hours.

use std::collections::BTreeSet;

use itertools::Itertools as _;

use super::idea::{ANY_DAY, Idea, STYLES, Style};
use super::suits::suits;
use super::{Split, SplitDay};
use crate::input::profile::{SplitChoice, SplitName};
use crate::request::dose::Duty;
use crate::request::{Candidate, Request};
use crate::words::{Goal, Muscle};

/// Splits worth trying for a request, the likeliest first: the one asked for, or for `auto` one of each
/// style that fits the number of days.
#[must_use]
pub fn candidates(request: &Request) -> Vec<Split> {
    match &request.profile.split {
        SplitChoice::Own(lists) => vec![own(request, lists)],
        SplitChoice::Named(SplitName::Auto) => {
            let suiting = || STYLES.iter().filter(|style| suits(request, style));
            let mut splits: Vec<Split> =
                suiting().filter_map(|style| designed(request, style)).collect();
            let mut seen: Vec<Split> = Vec::new();
            splits.retain(|split| {
                let new = !seen.iter().any(|other| other.days == split.days);
                seen.push(split.clone());
                new
            });
            splits
        }
        SplitChoice::Named(name) => STYLES
            .iter()
            .filter(|style| style.asked_as == Some(*name))
            .filter_map(|style| designed(request, style))
            .collect(),
    }
}

/// The client's own lists. A muscle that no list names is a small extra on the days that train its region,
/// or on any day where none does; trunk and neck go with every day.
fn own(request: &Request, lists: &[Vec<Muscle>]) -> Split {
    let named: BTreeSet<Muscle> = lists.iter().flatten().copied().collect();
    let ideas: Vec<Ideas> = order(request)
        .map(|slot| {
            let list = lists.get(slot).map_or(&[][..], Vec::as_slice);
            let extra =
                |muscle: &&Muscle| !named.contains(muscle) && goes_with(**muscle, list, &named);
            let set = list.iter().chain(Muscle::ALL.iter().filter(extra)).copied().collect();
            let name = list.iter().map(|muscle| muscle.name()).collect::<Vec<_>>().join(", ");
            vec![(name, set, false)]
        })
        .collect();
    let days = solve(request, &ideas).unwrap_or_default();
    Split { name: "the client's own".to_owned(), days }
}

/// Whether an unnamed muscle goes with a day's list.
fn goes_with(muscle: Muscle, list: &[Muscle], named: &BTreeSet<Muscle>) -> bool {
    let region = super::idea::region(muscle);
    let trains = |other: &Muscle| region.contains(other);
    ANY_DAY.contains(&muscle) || list.iter().any(trains) || !named.iter().any(trains)
}

/// For each day in the order of the week, its place in the profile's list.
fn order(request: &Request) -> impl Iterator<Item = usize> + '_ {
    request.days.iter().map(|day| {
        let same = |slot: &crate::input::profile::SessionSlot| {
            slot.day == day.weekday && slot.at == day.at
        };
        request.profile.sessions.iter().position(same).unwrap_or(0)
    })
}

/// Small muscles of which a little ends any day where they should get more. Common practice.
const SMALL: [Muscle; 6] = [
    Muscle::Biceps,
    Muscle::Triceps,
    Muscle::SideDelts,
    Muscle::RearDelts,
    Muscle::Forearms,
    Muscle::Calves,
];

/// More days than this of the upper half are enough for a small muscle that should get more.
const ENOUGH_DAYS: usize = 2;

fn designed(request: &Request, style: &Style) -> Option<Split> {
    let ideas: Vec<(String, BTreeSet<Muscle>, bool)> = style
        .ideas
        .iter()
        .map(|idea: &Idea| (idea.name.to_owned(), idea.set(), idea.whole_body()))
        .collect();
    let mut days = solve(request, &vec![ideas; request.days.len()])?;
    for muscle in SMALL.iter().filter(|muscle| request.wants_more(**muscle)) {
        let upper = |day: &SplitDay| day.takes(Muscle::Chest) || day.takes(Muscle::Lats);
        // Where the upper half has days enough, the legs have theirs to themselves, for strength sooner, as the bar is for arms, too.
        let strong = usize::from(request.profile.goal == Goal::Strength);
        let enough = days.iter().filter(|day| upper(day)).count() + strong > ENOUGH_DAYS;
        // Calves have the days of the legs, where those are two.
        let legs = |day: &SplitDay| day.takes(Muscle::Quads) || day.takes(Muscle::Hamstrings);
        let on_legs = days.iter().filter(|day| legs(day)).count() >= ENOUGH_DAYS;
        let calves = *muscle == Muscle::Calves;
        let goes =
            |day: &SplitDay| if calves { !on_legs || legs(day) } else { !enough || upper(day) };
        let days = days.iter_mut().filter(|day| goes(day));
        days.for_each(|day| day.muscles.extend([*muscle]));
    }
    Some(Split { name: style.name.to_owned(), days })
}

/// The ideas that a day may have: a name, its muscles, and whether it is for the whole body.
type Ideas = Vec<(String, BTreeSet<Muscle>, bool)>;
/// Days as bits, the first day lowest.
type Days = u32;

/// Points for the first, second and third hard day of a targeted muscle: twice a week where it fits
/// (Schoenfeld et al. 2016), more is worth little.
const EXPOSURES: [f64; 3] = [12.0, 8.0, 1.0];
/// Points for a third hard day of a muscle that should get more: of five days the half that trains it has three.
const WISHED_THIRD: f64 = 8.0;
/// The same of a large muscle: a small one has some work on other days as well.
const WISHED_THIRD_OF_LARGE: f64 = 16.0;
/// Points for a hard day of a muscle without a target.
const UNTARGETED: f64 = 0.5;
/// A day whose idea is the same as the day before costs this much.
const REPEAT: f64 = 3.0;
/// Weeks with more sequences of ideas than this look only at the ideas in turn.
const MOST_SEQUENCES: usize = 100_000;

/// One idea a day and the hard muscle-days, for the most exposures. Once the ideas are given, each muscle's
/// best hard days stand by themselves, so that every sequence of ideas can be looked at.
fn solve(request: &Request, ideas: &[Ideas]) -> Option<Vec<SplitDay>> {
    let hard: Vec<HardDays> = Muscle::ALL
        .iter()
        .filter(|muscle| !muscle.recovers_fast() && !ANY_DAY.contains(muscle))
        .map(|muscle| HardDays::new(request, *muscle))
        .collect();
    let wished = wished(request);
    let mut best: Option<(f64, Vec<usize>)> = None;
    for sequence in sequences(ideas) {
        let worth = worth(request, ideas, &hard, &wished, &sequence);
        if best.as_ref().is_none_or(|(most, _)| worth > *most) {
            best = Some((worth, sequence));
        }
    }
    let (_, sequence) = best?;
    let on: Vec<(Muscle, Days)> = days_of(ideas, &hard, &sequence);
    let days = sequence.iter().enumerate().map(|(day, idea)| {
        let (name, muscles, whole_body) = &ideas[day][*idea];
        let is_hard = |muscle: &Muscle| {
            let days = on.iter().find(|(of, _)| of == muscle);
            days.is_none_or(|(_, days)| days & bit(day) != 0)
        };
        let hard = muscles.iter().copied().filter(is_hard).collect();
        SplitDay { idea: name.clone(), muscles: muscles.clone(), hard, whole_body: *whole_body }
    });
    Some(days.collect())
}

/// What presses train.
const PRESSED: [Muscle; 4] =
    [Muscle::Chest, Muscle::FrontDelts, Muscle::SideDelts, Muscle::Triceps];

/// The hard days of each muscle. Where a day that may be hard is left without any large muscle, as two longer ones are as good
/// for each, the presses have it in place of one of theirs.
fn days_of(ideas: &[Ideas], hard: &[HardDays], sequence: &[usize]) -> Vec<(Muscle, Days)> {
    let trains = |one: &HardDays| trained(ideas, sequence, one.muscle);
    let best = |one: &HardDays| (one.muscle, one.best(trains(one)).1);
    let mut on: Vec<(Muscle, Days)> = hard.iter().map(best).collect();
    let large = on.iter().filter(|(muscle, _)| muscle.is_major());
    let taken = large.fold(0, |taken, (_, days)| taken | days);
    for hollow in (0..sequence.len()).filter(|day| taken & bit(*day) == 0) {
        for (one, (_, days)) in hard.iter().zip(&mut on) {
            if PRESSED.contains(&one.muscle) {
                *days = one.with(trains(one), hollow).unwrap_or(*days);
            }
        }
    }
    on
}

const fn bit(day: usize) -> Days {
    1 << day
}

/// Sequences of ideas, one a day: all of them where they are few, else the ideas in turn from each start.
/// Every idea has its day where there are days enough.
fn sequences(ideas: &[Ideas]) -> Vec<Vec<usize>> {
    let counts: Vec<usize> = ideas.iter().map(Vec::len).collect();
    let all = counts.iter().try_fold(1_usize, |product, count| product.checked_mul(*count));
    let most = counts.iter().copied().max().unwrap_or(0);
    let listed: Vec<Vec<usize>> = if all.is_some_and(|all| all <= MOST_SEQUENCES) {
        counts.iter().map(|count| 0..*count).multi_cartesian_product().collect()
    } else {
        let in_turn = |start: usize| {
            counts.iter().enumerate().map(|(day, count)| (start + day) % count).collect()
        };
        (0..most).map(in_turn).collect()
    };
    let same = counts.iter().all(|count| *count == most);
    let each_once = |sequence: &Vec<usize>| (0..most).all(|idea| sequence.contains(&idea));
    let full = same && counts.len() >= most;
    listed.into_iter().filter(|sequence| !full || each_once(sequence)).collect()
}

/// The days of a sequence whose idea has a muscle.
fn trained(ideas: &[Ideas], sequence: &[usize], muscle: Muscle) -> Days {
    let trains = |(day, idea): &(usize, &usize)| ideas[*day][**idea].1.contains(&muscle);
    let on = sequence.iter().enumerate().filter(trains);
    on.fold(0, |days, (day, _)| days | bit(day))
}

/// Points for each wish that the week opens with: they only choose among equal weeks.
const OPENS: f64 = 0.1;
/// A first day of less than this share of the longest day's minutes is no place for what is wished.
const OPENS_FROM: f64 = 0.6;
/// What a day beyond an even rhythm between two days of one idea costs: it only chooses among equal weeks.
const UNEVEN: f64 = 0.05;

/// The muscles of what is wished: those that should get more twice, and the prime movers of the lifts that are asked for
/// or liked, of squats and hinges twice as well, as a day is built on them.
fn wished(request: &Request) -> Vec<Muscle> {
    let more = Muscle::ALL.iter().copied().filter(|muscle| request.wants_more(*muscle));
    let more = more.flat_map(|muscle| [muscle; 2]);
    let asked = |one: &&Candidate| one.is_wished() && one.duty == Duty::Main;
    let lifts = request.candidates.iter().filter(asked).flat_map(|one| {
        let times = if one.is_leg_lift() { 2 } else { 1 };
        one.prime().into_iter().flat_map(move |prime| std::iter::repeat_n(prime, times))
    });
    // A week for strength opens with the squat, which wants the freshest legs.
    let strong = request.profile.goal == Goal::Strength && !request.wants_less(Muscle::Quads);
    more.chain(strong.then_some([Muscle::Quads; 8]).into_iter().flatten()).chain(lifts).collect()
}

/// Points of a sequence: exposures of every muscle and the wishes of its first day, less repeated ideas.
fn worth(
    request: &Request,
    ideas: &[Ideas],
    hard: &[HardDays],
    wished: &[Muscle],
    sequence: &[usize],
) -> f64 {
    let exposures: f64 =
        hard.iter().map(|hard| hard.best(trained(ideas, sequence, hard.muscle)).0).sum();
    let repeats = sequence
        .windows(2)
        .zip(ideas.windows(2))
        .filter(|(pair, ideas)| ideas[0].len() > 1 && pair[0] == pair[1]);
    let opens = wished.iter().filter(|muscle| {
        let days = hard.iter().find(|hard| hard.muscle == **muscle);
        days.is_some_and(|hard| hard.best(trained(ideas, sequence, **muscle)).1 & bit(0) != 0)
    });
    let count = |number: usize| f64::from(u32::try_from(number).unwrap_or(u32::MAX));
    let uneven: f64 = (0..ideas[0].len()).map(|idea| unevenness(request, sequence, idea)).sum();
    let opens = if opens_late(request) { 0.0 } else { OPENS * count(opens.count()) };
    exposures + opens - REPEAT * count(repeats.count()) - UNEVEN * uneven
}

/// Whether the first day is too short for what is wished.
fn opens_late(request: &Request) -> bool {
    let minutes = |day: &crate::request::Day| f64::from(day.minutes);
    let longest = request.days.iter().map(minutes).fold(0.0, f64::max);
    request.days.first().is_some_and(|first| minutes(first) < OPENS_FROM * longest)
}

/// Days by which the longest wait for an idea is over an even rhythm.
fn unevenness(request: &Request, sequence: &[usize], idea: usize) -> f64 {
    let on: Vec<&crate::request::Day> = sequence
        .iter()
        .zip(&request.days)
        .filter(|(one, _)| **one == idea)
        .map(|(_, day)| day)
        .collect();
    if on.len() < 2 {
        return 0.0;
    }
    let next = on.iter().cycle().skip(1);
    let waits = on.iter().zip(next).map(|(day, next)| day.hours_until(next) / 24.0);
    let even = 7.0 / f64::from(u32::try_from(on.len()).unwrap_or(1));
    waits.fold(0.0, f64::max) - even
}

/// A muscle's best hard days among any days that train it.
struct HardDays {
    muscle: Muscle,
    /// Points and days, by the days that train it.
    best: Vec<(f64, Days)>,
}

impl HardDays {
    /// From few days to many: the days themselves where no two are too close, else the best with one day less.
    fn new(request: &Request, muscle: Muscle) -> HardDays {
        let count = request.days.len();
        let free: Vec<bool> = (0..count).map(|day| !blocked(request, muscle, day)).collect();
        let close: Vec<Days> = (0..count)
            .map(|one| {
                let close = (0..count).filter(|other| request.too_close(one, *other));
                close.fold(0, |days, other| days | bit(other))
            })
            .collect();
        let mut best: Vec<(f64, Days)> = Vec::with_capacity(1 << count);
        for days in 0..bit(count) {
            let of = || (0..count).filter(move |day| days & bit(*day) != 0);
            let apart = of().all(|day| free[day] && days & close[day] == 0);
            let own = if apart { (points(request, muscle, of()), days) } else { (-1.0, 0) };
            let less = of().map(|day| best[(days & !bit(day)) as usize]);
            best.push(less.fold(own, |most, next| if next.0 > most.0 { next } else { most }));
        }
        HardDays { muscle, best }
    }

    fn best(&self, trained: Days) -> (f64, Days) {
        self.best[trained as usize]
    }

    /// As many days as the best, and nearly as good, with one of them given for another.
    fn with(&self, trained: Days, day: usize) -> Option<Days> {
        /// Longer and earlier days are worth less than this.
        const TIE: f64 = 0.05;
        let (points, best) = self.best(trained);
        let given = (0..Days::BITS as usize).filter(|given| best & bit(*given) != 0);
        let others = given.map(|given| self.best(trained & !bit(given)));
        let fits = |(worth, days): &(f64, Days)| {
            days & bit(day) != 0 && days.count_ones() == best.count_ones() && worth + TIE > points
        };
        let mut fitting = others.filter(fits);
        fitting.next().map(|(_, days)| days)
    }
}

/// Muscles that take the later of two days too close for both, so that neither day is without a leg lift, a press and a
/// pull: squat, bench and pulldown on the first, curl or hinge, press overhead and row on the second. Common practice.
const LATER: [Muscle; 7] = [
    Muscle::Hamstrings,
    Muscle::SpinalErectors,
    Muscle::FrontDelts,
    Muscle::SideDelts,
    Muscle::RearDelts,
    Muscle::UpperBack,
    Muscle::Triceps,
];

/// What a hard day loses on the eve of a match.
const EVE_OF_A_MATCH: f64 = 6.0;

/// Points for a muscle's hard days, falling with their number; longer and then earlier days first on ties, for some
/// muscles later ones.
fn points(request: &Request, muscle: Muscle, days: impl Iterator<Item = usize>) -> f64 {
    let targeted = request.targets.contains_key(&muscle);
    let later = if LATER.contains(&muscle) { -1.0 } else { 1.0 };
    days.enumerate()
        .map(|(count, day)| {
            let minutes = f64::from(request.days[day].minutes) / 100.0;
            let order = f64::from(u32::try_from(day).unwrap_or(u32::MAX));
            let usual = EXPOSURES.get(count).copied().unwrap_or(0.0);
            // Of an even number of days every idea has its share: a third day for one is another's second.
            // To lose fat the legs have it, which burn most.
            let legs = matches!(muscle, Muscle::Quads | Muscle::Hamstrings | Muscle::Glutes);
            let burns = legs && request.profile.goal == Goal::FatLoss;
            let wished = request.wants_more(muscle) || burns;
            let has_a_third = wished && request.days.len() % 2 == 1;
            let points = match count {
                2.. if has_a_third && muscle.is_major() => WISHED_THIRD_OF_LARGE,
                2.. if has_a_third => WISHED_THIRD,
                _ => usual,
            };
            // Where sport is near every day, its eve at the weekend is the last that is taken, as is a primer.
            let near = is_always_near_sport(request, muscle) && request.is_eve_of_a_match(day);
            let eve = near || request.is_primer(day);
            let points = if eve { points - EVE_OF_A_MATCH } else { points };
            if targeted { points + 0.01 * minutes - 0.001 * later * order } else { UNTARGETED }
        })
        .sum()
}

/// Whether a muscle cannot be trained hard in a session, as hard training elsewhere stands too close and another day is free
/// of that.
#[must_use]
pub fn blocked(request: &Request, muscle: Muscle, day: usize) -> bool {
    is_near_sport(request, muscle, day) && !is_always_near_sport(request, muscle)
}

/// Whether hard training elsewhere is close to every session, so that no other day is there for a muscle.
#[must_use]
pub fn is_always_near_sport(request: &Request, muscle: Muscle) -> bool {
    (0..request.days.len()).all(|day| is_near_sport(request, muscle, day))
}

/// Whether hard training elsewhere stands close to a session for a muscle.
#[must_use]
pub fn is_near_sport(request: &Request, muscle: Muscle, day: usize) -> bool {
    let most_h = f64::from(request.profile.recovery_hours) - crate::request::day::GRACE_H;
    request.hard_elsewhere(muscle).any(|sport| sport.hours_to(&request.days[day]) < most_h)
}
