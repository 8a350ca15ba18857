//! `lead-lift`: the first lift is a staple among the main lifts, done alone, for one of the day's first two focus
//! muscles, and nothing has more sets that day.
//!
//! Jumps and throws may come before. Multi-joint work first: ACSM 2009; the rest is common practice.

use std::collections::BTreeMap;

use super::{Finding, Force, Rule};
use crate::model::goal::at_least;
use crate::model::points::{
    KNOWN_LATE, LIKED_FAST_LATE, LIKED_LATE, NO_LEAD, NO_WISHED_LEAD, THIN_LEAD, THIN_WISH,
    WISHED_LEAD_LATE, WISHED_LEAD_SECOND,
};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::candidate::Station;
use crate::request::dose::Duty;
use crate::request::standing::{is_fast_bar, is_pull_off_the_floor, standing_here};
use crate::request::{Candidate, Request, Wish};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Muscle, Pattern, Side, Standing, Status};

/// A main lift in every session that can have one.
pub(super) struct LeadLift;

/// Sessions from this many minutes on have a lead of four sets where size, strength or power is the goal; others have three.
const FULL_LEAD: u32 = 45;

/// Sets of a day's lead: three, four where size, strength or power is the goal, and five for strength past the first steps
/// in an hour that is not the week's only one. Common practice.
fn most_sets(request: &Request, day: usize) -> u32 {
    const FIVE_FROM: u32 = 60;
    let minutes = request.days[day].minutes;
    let strong = request.profile.goal == Goal::Strength && !request.is_guided();
    match request.trains_heavy() && !request.is_senior() {
        true if strong && minutes >= FIVE_FROM && request.days.len() > 1 => 5,
        true if minutes >= FULL_LEAD => 4,
        _ => 3,
    }
}

/// The picks that can lead a day: staples by goal, for the whole body a squat or hinge, else any main lift, else any
/// multi-joint work, a stand-in last. What may be trained hard that day comes first.
fn leads(weekly: &Weekly, day: usize) -> Vec<Pick> {
    let request = weekly.request;
    let turn = leads_in_turn(weekly, day);
    let legs = weekly.split.days[day].whole_body;
    let hard = |one: &Candidate| {
        one.prime().is_some_and(|prime| weekly.split.days[day].hard.contains(&prime))
    };
    let good = |one: &Candidate| one.entry.standing != Standing::StandIn;
    // Where the press in turn is for a muscle that should get less, a pull leads as well.
    let spares = request.wants_less(Muscle::Chest) && turn.contains(&Pattern::HorizontalPush);
    let in_turn = |one: &Candidate| {
        let pull = spares && one.pattern.side() == Some(Side::Pull);
        turn.is_empty() || turn.contains(&one.pattern) || pull
    };
    // Where each of the big lifts has its day, no wish takes another's.
    let by_lift = request.profile.goal == Goal::Strength && !turn.is_empty() && !legs;
    let firm = |one: &Candidate| {
        one.entry.is_loaded()
            && one.entry.load != LoadKind::Bodyweight
            && (request.is_guided() || standing_here(request, one) == Standing::Staple)
    };
    let chair = request.gets_up_from_a_chair();
    // On the eve of a match the fast bar is heavy enough, for who has learnt it.
    let eve = request.profile.goal == Goal::Power
        && request.profile.training_status != Status::Novice
        && request.days.len() > 1
        && request.is_eve_of_a_match(day);
    // For size the legs' days are built on a bar or a machine where there is one.
    let sized = request.profile.goal == Goal::Hypertrophy && !legs && !turn.is_empty();
    let heavy = |one: &Candidate| {
        one.is_leg_lift()
            && (one.entry.load == LoadKind::BarTotal || matches!(one.station, Station::Fixed(_)))
    };
    // The lift that is known is what gets strong, and a form of it is its lighter day.
    let known = |one: &Candidate| by_lift && request.profile.known_lifts.contains_key(&one.id);
    let tests: [&dyn Fn(&Candidate) -> bool; 16] = [
        &|one| eve && is_fast_bar(&one.entry),
        &|one| eve && request.is_quick_pull(&one.entry),
        &|one| chair && (one.is_squat_on_both_legs() || one.pattern == Pattern::Lunge),
        &|one| known(one) && one.is_leg_lift() && in_turn(one) && hard(one) && one.leads(request),
        &|one| sized && heavy(one) && one.leads(request) && in_turn(one) && hard(one) && firm(one),
        &|one| {
            let usual = one.leads(request) && !one.is_each_side() && in_turn(one);
            // What is liked of rows and pulldowns follows the legs on a day for everything, and for strength what is asked for, too.
            let strong = request.profile.goal == Goal::Strength;
            let pulls =
                one.pattern.side() == Some(Side::Pull) && (strong || one.wish != Wish::Must);
            let free = (!by_lift || in_turn(one)) && !(legs && pulls);
            let wished = request.is_wished_lead(one) && free;
            (usual && firm(one) || wished) && hard(one)
        },
        &|one| one.leads(request) && hard(one) && !one.is_each_side() && in_turn(one),
        &|one| one.leads(request) && hard(one) && (!legs || one.is_leg_lift()),
        &|one| one.leads(request) && hard(one) && firm(one),
        &|one| one.leads(request) && hard(one),
        // The day after a bench the press overhead opens, and no second bench of two sets.
        &|one| one.duty == Duty::Main && good(one) && hard(one) && one.entry.is_loaded(),
        &|one| one.leads(request),
        &|one| {
            one.duty != Duty::Isolation && one.is_compound() && good(one) && legs && in_turn(one)
        },
        &|one| one.duty == Duty::Main && good(one),
        &|one| one.duty == Duty::Compound && good(one),
        &|one| matches!(one.duty, Duty::Main | Duty::Compound),
    ];
    // The first place of a day is not for a muscle that should get less.
    let spared = |one: &Candidate| one.prime().is_some_and(|prime| request.wants_less(prime));
    let picks = |test: &dyn Fn(&Candidate) -> bool| -> Vec<Pick> {
        let mut picks: Vec<Pick> =
            weekly.on(day).filter(|pick| test(weekly.candidate(pick))).copied().collect();
        if picks.iter().any(|pick| !spared(weekly.candidate(pick))) {
            picks.retain(|pick| !spared(weekly.candidate(pick)));
        }
        picks
    };
    tests.into_iter().map(picks).find(|picks| !picks.is_empty()).unwrap_or_default()
}

/// Days for the whole body are led by a squat, a hinge and a press in turn, days for its upper half by two presses and
/// then a pull.
fn leads_in_turn(weekly: &Weekly, day: usize) -> &'static [Pattern] {
    use Pattern::{
        Hinge, HorizontalPull, HorizontalPush, Lunge, Squat, VerticalPull, VerticalPush,
    };
    const PRESSES: &[Pattern] = &[HorizontalPush, VerticalPush];
    const WHOLE: [&[Pattern]; 3] = [&[Squat, Lunge], &[Hinge], PRESSES];
    // Who begins late gets up from a seat first, of three days on two.
    const SEATS: [&[Pattern]; 3] = [&[Squat], &[Hinge], &[Squat]];
    const LEGS: [&[Pattern]; 3] = [&[Squat, Lunge], &[Hinge], &[Squat, Lunge]];
    // For strength the bench is done fresh once.
    const STRONG: [&[Pattern]; 3] = [&[Squat, Lunge], &[Hinge], &[HorizontalPush]];
    // Past the first steps the bench stands between squat and pull, where the chest has rested for it; else a row or pull-up.
    const BENCH_BETWEEN: [&[Pattern]; 3] = [&[Squat, Lunge], &[HorizontalPush], &[Hinge]];
    const PULLS: &[Pattern] = &[HorizontalPull, VerticalPull];
    // For power the legs are heavy first on every day that has them.
    const FAST: [&[Pattern]; 3] = [&[Squat, Lunge], &[Hinge], &[Squat, Lunge]];
    // Who knows no pull off the floor and likes none need not learn one between two hard days.
    const QUICK: [&[Pattern]; 3] = [&[Squat, Lunge], &[HorizontalPush], &[Squat, Lunge]];
    const PULL_FIRST: [&[Pattern]; 3] = [&[Hinge], &[Squat, Lunge], &[Hinge]];
    const UPPER: [&[Pattern]; 3] = [PRESSES, PRESSES, PULLS];
    // Each of the four big lifts has a day for strength: squat, bench, pull off the floor, press overhead.
    const STRONG_UPPER: [&[Pattern]; 2] = [&[HorizontalPush], &[VerticalPush]];
    // A bench that lags is done fresh twice.
    const BENCH: &[Pattern] = &[HorizontalPush];
    const STRONG_LOWER: [&[Pattern]; 2] = [&[Squat, Lunge], &[Hinge]];
    // For size the first day for the legs has the squat fresh and the second the hinge.
    const SIZED_LOWER: [&[Pattern]; 2] = [&[Squat], &[Hinge]];
    let is_whole = |day: &usize| weekly.split.days[*day].whole_body;
    let is_upper = |day: &usize| {
        let idea = &weekly.split.days[*day];
        idea.takes(Muscle::Chest) && idea.takes(Muscle::Lats) && !idea.takes(Muscle::Quads)
    };
    let is_lower = |day: &usize| {
        let idea = &weekly.split.days[*day];
        idea.takes(Muscle::Quads) && idea.takes(Muscle::Hamstrings) && !idea.takes(Muscle::Chest)
    };
    let strong = weekly.request.profile.goal == Goal::Strength;
    // For size the day is built on what should get more.
    const KNEES: &[Pattern] = &[Squat];
    const HIPS_FIRST: [&[Pattern]; 2] = [&[Hinge], &[Squat]];
    let more = |muscle: Muscle| weekly.request.wants_more(muscle);
    let sized = weekly.request.profile.goal == Goal::Hypertrophy && !more(Muscle::Glutes);
    let older = weekly.request.is_older_beginner();
    let turn = |is: &dyn Fn(&usize) -> bool| weekly.days().take(day).filter(|day| is(day)).count();
    // The evening before hard sport legs are not what a day is built on, where another day is.
    let tired = |day: usize| weekly.request.is_light_eve(day) || weekly.request.has_slow_legs(day);
    let eve = |day: &usize| is_whole(day) && tired(*day);
    if eve(&day) && weekly.days().any(|other| is_whole(&other) && !eve(&other)) {
        PRESSES
    } else if is_whole(&day) {
        // The day before sport has the press: squat and pull have the others.
        let presses = weekly.days().any(|day| eve(&day));
        let turn = if strong { turn(&|day| is_whole(day) && !eve(day)) } else { turn(&is_whole) };
        let whole = match weekly.request.profile.goal {
            Goal::Strength if presses => STRONG,
            Goal::Strength if weekly.request.days.len() > 2 && !weekly.request.is_guided() => {
                BENCH_BETWEEN
            }
            Goal::Strength => STRONG,
            // Of two days the first is for the pull that is liked or known where no squat is.
            Goal::Power if pulls_first(weekly.request) => PULL_FIRST,
            Goal::Power if !pulls_off_the_floor(weekly.request) => QUICK,
            Goal::Power => FAST,
            _ if older && weekly.request.days.len() <= 2 => return SEATS[0],
            _ if older => SEATS,
            // To lose fat each day begins with the legs, which move most.
            Goal::FatLoss => LEGS,
            _ => WHOLE,
        };
        let lead = whole[turn % whole.len()];
        let rests =
            lead == [HorizontalPush] && !weekly.split.days[day].hard.contains(&Muscle::Chest);
        if rests { PULLS } else { lead }
    } else if is_lower(&day) && sized {
        match (more(Muscle::Quads), more(Muscle::Hamstrings)) {
            (true, false) => KNEES,
            (false, true) => HIPS_FIRST[turn(&is_lower) % HIPS_FIRST.len()],
            _ => SIZED_LOWER[turn(&is_lower) % SIZED_LOWER.len()],
        }
    } else if is_upper(&day) && strong {
        match weekly.request.wants_more(Muscle::Chest) {
            true => BENCH,
            false => STRONG_UPPER[turn(&is_upper) % STRONG_UPPER.len()],
        }
    } else if is_lower(&day) && strong {
        // The pull waits for the day that no hard work of the back follows.
        let back = |day: &usize| weekly.request.is_eve_of(Muscle::SpinalErectors, *day);
        let lower: Vec<usize> = weekly.days().filter(|day| is_lower(day)).collect();
        let turned = matches!(lower.as_slice(), [first, second] if back(second) && !back(first));
        STRONG_LOWER[(turn(&is_lower) + usize::from(turned)) % STRONG_LOWER.len()]
    } else if is_upper(&day) {
        UPPER[turn(&is_upper) % UPPER.len()]
    } else {
        &[]
    }
}

/// Whether the client knows or likes a heavy pull off the floor, or learns one as all beginners do.
fn pulls_off_the_floor(request: &Request) -> bool {
    let pull = |one: &Candidate| is_pull_off_the_floor(&one.entry) && request.is_pushed(&one.id);
    request.is_guided() || request.candidates.iter().any(pull)
}

/// Whether the pull off the floor opens a week of two days for speed: it is known or liked, and no squat is.
fn pulls_first(request: &Request) -> bool {
    let past = !request.is_guided() && request.days.len() == 2;
    past && pulls_off_the_floor(request) && !squats_first(request)
}

/// How many of some picks lead: where a lead stands alone, none does in a pair.
fn leading(request: &Request, picks: &[Pick]) -> Vec<Term> {
    let mut row: Vec<Term> = picks.iter().map(|pick| (pick.chosen, 1.0)).collect();
    let alone = picks.iter().filter(|pick| request.leads_alone(pick.day));
    row.extend(alone.flat_map(|pick| pick.paired_times(-1.0)));
    row
}

/// What is wished leads a day, in the first half of them, and the first that is fresh for it.
fn wished(rule: &'static str, weekly: &mut Weekly) {
    let wished = |pick: &&Pick| {
        let one = weekly.candidate(pick);
        weekly.request.is_wished_lead(one) && !weekly.request.is_liked_form(one)
    };
    let wished: Vec<Pick> = weekly.picks.iter().filter(wished).copied().collect();
    let half = weekly.request.days.len().div_ceil(2);
    let early: Vec<Pick> = wished.iter().filter(|pick| pick.day < half).copied().collect();
    let fresh = |pick: &&Pick| {
        let prime = weekly.candidate(pick).prime();
        prime.is_some_and(|prime| weekly.split.days[pick.day].hard.contains(&prime))
    };
    let first = early.iter().filter(fresh).map(|pick| pick.day).min();
    let first: Vec<Pick> = early.iter().filter(|pick| Some(pick.day) == first).copied().collect();
    for (name, picks, cost) in [
        ("wished", wished, NO_WISHED_LEAD),
        ("wished_early", early, WISHED_LEAD_LATE),
        ("wished_first", first, WISHED_LEAD_SECOND),
    ] {
        if !picks.is_empty() {
            let wish = at_least(leading(weekly.request, &picks), 1.0);
            weekly.miss(rule, name, Tier::View, wish, cost);
        }
    }
}

/// What is asked for or liked has four sets on a day of the first half of the week, where one is long enough: its heavier
/// day comes before its lighter one.
fn wished_sets(rule: &'static str, weekly: &mut Weekly) {
    let half = weekly.request.days.len().div_ceil(2);
    let mut sets: BTreeMap<usize, Vec<Term>> = BTreeMap::new();
    let long = |pick: &&Pick| weekly.request.days[pick.day].minutes >= FULL_LEAD;
    let lift = |pick: &&Pick| {
        let one = weekly.candidate(pick);
        let waits = one.pattern == Pattern::Hinge && squats_first(weekly.request);
        let form = weekly.request.is_liked_form(one);
        one.is_wished() && one.duty == Duty::Main && !weekly.request.is_guided() && !waits && !form
    };
    for pick in weekly.picks.iter().filter(|pick| pick.day < half).filter(long).filter(lift) {
        sets.entry(pick.candidate).or_default().push((pick.extra, 1.0));
    }
    for (candidate, extra) in sets {
        let wish = at_least(extra, WISHED_EXTRA);
        let subject = format!("{}_sets", weekly.request.candidates[candidate].id);
        weekly.miss(rule, subject, Tier::View, wish, THIN_WISH);
    }
}

/// Sets above the fewest, of two.
const WISHED_EXTRA: f64 = 2.0;

/// Whether a squat is wished or known, which opens the week: the pull off the floor has another day.
fn squats_first(request: &Request) -> bool {
    let opens = |one: &Candidate| one.is_squat_on_both_legs() && request.is_pushed(&one.id);
    request.candidates.iter().any(opens)
}

/// A known main lift rather comes in the first half of the days, where its heavier day is not behind a lighter relative's;
/// and so does what is liked or asked for.
fn known_early(rule: &'static str, weekly: &mut Weekly) {
    let half = weekly.request.days.len().div_ceil(2);
    let known = weekly.request.candidates.iter().enumerate().filter(|(_, one)| {
        let known = weekly.request.profile.known_lifts.contains_key(&one.id);
        let main = one.duty == Duty::Main;
        let waits = one.pattern == Pattern::Hinge && squats_first(weekly.request);
        (known && main && one.pattern != Pattern::Hinge)
            || (one.is_wished() && !waits && main && !weekly.request.is_liked_form(one))
            || ((one.is_wished() || known) && one.duty == Duty::Explosive)
    });
    for (place, id) in known.map(|(place, one)| (place, one.id.clone())).collect::<Vec<_>>() {
        let of_it = |pick: &&Pick| pick.candidate == place;
        let early: Vec<Term> = weekly
            .picks
            .iter()
            .filter(of_it)
            .filter(|pick| pick.day < half)
            .map(|pick| (pick.chosen, 1.0))
            .collect();
        if !early.is_empty() {
            let wish = at_least(early, 1.0);
            let one = &weekly.request.candidates[place];
            let cost = match one.duty {
                Duty::Explosive => LIKED_FAST_LATE,
                _ if one.is_wished() => LIKED_LATE,
                // What lags is done first while it is fresh.
                _ if one.prime().is_some_and(|prime| weekly.request.wants_more(prime)) => {
                    LIKED_FAST_LATE
                }
                _ => KNOWN_LATE,
            };
            weekly.miss(rule, format!("{id}_early"), Tier::View, wish, cost);
        }
    }
}

impl Rule for LeadLift {
    fn id(&self) -> &'static str {
        "lead-lift"
    }
    fn summary(&self) -> &'static str {
        "the first lift is multi-joint, for a focus muscle, and nothing has more sets that day"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        wished(self.id(), weekly);
        known_early(self.id(), weekly);
        wished_sets(self.id(), weekly);
        for day in weekly.days() {
            let picks: Vec<Pick> = leads(weekly, day);
            if picks.is_empty() {
                continue;
            }
            let label = weekly.request.days[day].label();
            let wish = at_least(leading(weekly.request, &picks), 1.0);
            weekly.miss(self.id(), label.clone(), Tier::View, wish, NO_LEAD);
            // Sets above the fewest of the lifts that can lead; what leads by a wish alone pays for none of them.
            let leads = |pick: &&Pick| weekly.candidate(pick).leads(weekly.request);
            let usual: Vec<Pick> = picks.iter().filter(leads).copied().collect();
            let picks = if usual.is_empty() { picks } else { usual };
            let most = most_sets(weekly.request, day);
            let fewest = picks.iter().map(|pick| pick.sets[0]).min().unwrap_or(most);
            let wanted = f64::from(most.saturating_sub(fewest));
            let sets: Vec<Term> = picks.iter().map(|pick| (pick.extra, 1.0)).collect();
            let wish = at_least(sets, wanted);
            weekly.miss(self.id(), format!("{label}_sets"), Tier::View, wish, THIN_LEAD);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let slow =
                |item: &&crate::week::Item| !item.pattern().is_some_and(Pattern::is_explosive);
            let Some(first) = session.work().find(slow) else { continue };
            let any_compound = session.work().any(crate::week::Item::is_compound);
            let most = session.work().map(|item| item.sets).max().unwrap_or(0);
            let in_focus = session.focus.is_empty()
                || session.focus.iter().take(2).any(|muscle| first.entry.direct.contains(muscle));
            let emphasized = first.entry.direct.iter().any(|muscle| request.wants_more(*muscle));
            let place = format!("{}, {}", session.label, first.entry.id);
            let mut remark = |wanted: &str, got: &str| {
                findings.push(Finding::broken(self.id(), place.clone(), wanted, got).as_remark());
            };
            if !first.is_compound() && any_compound && !emphasized {
                remark("a multi-joint lift first", "an isolation exercise");
            }
            if !in_focus && !emphasized {
                remark("a lift for one of the first two focus muscles", "another muscle's");
            }
            if first.sets < most && !emphasized {
                remark("the most sets of the day", &format!("{} of {most}", first.sets));
            }
        }
        findings
    }
}
