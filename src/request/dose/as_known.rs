//! The dose of a lift whose load is known: as many repetitions as were done with it, where the goal has room for them.

use super::{Dose, Duty, accessory, dose_for};
use crate::input::catalog::Entry;
use crate::input::is_senior;
use crate::input::profile::Profile;
use crate::strength::estimate::Ask;
use crate::strength::ladder::to_kg;
use crate::strength::racks::ladder;
use crate::strength::working_load::KnownLifts;
use crate::words::{Emphasis, Goal, Kit, LoadKind, Measure, Pattern, Side, Sides, Status, Turn};

/// The lighter day keeps so many repetitions more than the heavier. Common practice.
const LIGHTER_BY: u32 = 2;
/// A block begins so many repetitions under its aim.
const BEGINS_UNDER: u32 = 1;
/// What went for so many repetitions fewer than a goal's least is near its load, and a block adds so many.
const NEARLY: u32 = 3;
const GROWS_BY: u32 = 3;
/// Sets with the heaviest of a place have so many repetitions at most.
const MOST_AT_THE_END: u32 = 20;
/// A load within so much of another is the same.
const THE_SAME: f64 = 1.01;
/// What is fast leaves so many in reserve, and has so many repetitions at least: where that is more than went, the load is
/// a little lighter and goes up faster. Common practice.
const FAST_RESERVE: u32 = 3;
const FEWEST_FAST: u32 = 3;
/// A heavy set for strength of so many repetitions has one less where it is done again and again. Common practice.
const MANY_FOR_STRENGTH: u32 = 5;
/// A lift known for fewer repetitions than that is no lift of who trains to last.
const FEW_TO_LAST: u32 = 8;

/// The dose of an exercise for a client on a day of the week. What the client has lifted lately is asked for as it was
/// done, where that lies within the goal's range: ten with two left stay ten with two left, and the load is the one that
/// was lifted. The lighter day keeps its many. Common practice.
#[must_use]
pub fn as_done(profile: &Profile, entry: &Entry, turn: Option<Turn>) -> Dose {
    let dose = |turn| match follows_the_bench(profile, entry) {
        true => accessory(profile.goal, profile.training_status, turn),
        false => dose_for(profile.goal, profile.training_status, entry, turn),
    };
    let usual = &by_side(profile.goal, entry, dose(turn));
    let usual = &to_the_first(profile, entry, nearer(profile, entry, usual));
    let duty = Duty::of(entry);
    let keeps = entry.measure != Measure::Reps
        || !matches!(duty, Duty::Main | Duty::Compound | Duty::Explosive);
    if let Some(many) = as_many_as_go(profile, entry, usual).filter(|_| !keeps) {
        return many;
    }
    let Some(known) = profile.known_lifts.get(&entry.id).filter(|known| !keeps && known.load > 0.0)
    else {
        return usual.clone();
    };
    let loads = profile.equipment.as_ref().and_then(|place| ladder(entry, place, profile.units));
    let [lightest, heaviest] =
        loads.map_or([0.0, f64::INFINITY], |loads| [loads.lightest(), loads.heaviest()]);
    let load_kg = to_kg(known.load, profile.units);
    if turn.is_some_and(Turn::is_light) {
        // Where nothing is lighter, the lighter day has no more repetitions than go.
        let go = (known.reps + known.rir).saturating_sub(usual.rir).max(1);
        let bound = load_kg <= lightest * THE_SAME && go < usual.aim;
        let reps = [usual.reps[0].min(go), usual.reps[1].min(go)];
        return if bound { Dose { reps, aim: go, ..usual.clone() } } else { usual.clone() };
    }
    // From 65 on a repetition more in reserve than is usual is kept, too; what is fast ends long before it slows, whatever is
    // told.
    let fast = duty == Duty::Explosive;
    let most_rir = usual.rir + u32::from(is_senior(profile));
    let rir = if fast { usual.rir.min(FAST_RESERVE) } else { known.rir.clamp(usual.rir, most_rir) };
    let as_done = (known.reps + known.rir).saturating_sub(rir);
    let as_done = if fast { as_done.max(FEWEST_FAST) } else { as_done };
    let least = if fast { FEWEST_FAST } else { usual.reps[0] };
    let least = least.max(entry.reps.first().copied().unwrap_or(0));
    // For strength and power the lighter day is lighter by its reserve, else by its repetitions.
    let strong = matches!(profile.goal, Goal::Strength | Goal::Power);
    let most = dose(None).reps[1].min(match turn {
        Some(_) if !strong => dose(Some(Turn::Lighter)).aim.saturating_sub(LIGHTER_BY),
        _ => u32::MAX,
    });
    // For size the heavier day has its few where the kit makes more load for them.
    let heavier = turn == Some(Turn::Heavier) && profile.goal == Goal::Hypertrophy;
    if heavier && as_done > usual.aim && goes_up(profile, entry, usual) {
        return usual.clone();
    }
    // The heaviest of the place is done for as many as go.
    let ends = load_kg * THE_SAME >= heaviest;
    let most =
        if ends { MOST_AT_THE_END.min(entry.reps.last().copied().unwrap_or(most)) } else { most };
    let as_done = if ends { as_done.min(most) } else { as_done };
    // A little heavier than the goal asks for is done for about the fewest that it does, with a load near the known one; who
    // begins grows by repetitions.
    let nearly = as_done < least && as_done + NEARLY >= least && least + 1 < usual.aim;
    let nearly = nearly && profile.goal != Goal::Endurance;
    if nearly && !fast && !strong && profile.training_status != Status::Novice {
        let reps = [least, most.min(least + GROWS_BY).max(least + 1)];
        return Dose { reps, aim: least + 1, rir, ..usual.clone() };
    }
    // Who trains to last does what is known as it is known, where that is no lift of few.
    let known_well = profile.goal == Goal::Endurance && as_done >= FEW_TO_LAST;
    if !((least..=most).contains(&as_done) || known_well && as_done < least) {
        return usual.clone();
    }
    // The heavier day for strength has one less of what went for five or more: the load is the one that was lifted, for more sets.
    let fewer = profile.goal == Goal::Strength
        && profile.sessions.len() > 1
        && turn == Some(Turn::Heavier)
        && profile.training_status != Status::Novice
        && as_done > usual.aim
        && as_done >= MANY_FOR_STRENGTH;
    let as_done = as_done - u32::from(fewer);
    // The block grows up to what was done, and from there the load goes on.
    let low = least.min(as_done.saturating_sub(1)).max(as_done.saturating_sub(BEGINS_UNDER)).max(1);
    let reps = [low, as_done];
    Dose { reps, aim: as_done, rir, ..usual.clone() }
}

/// What is known without a load for more than the goal asks for is done for as many as leave its reserve: ten of eighteen
/// push-ups train little. One goes off for the sets before. Common practice.
fn as_many_as_go(profile: &Profile, entry: &Entry, usual: &Dose) -> Option<Dose> {
    let known = profile.known_lifts.get(&entry.id).filter(|known| known.load == 0.0)?;
    let own = entry.load == LoadKind::Bodyweight && !entry.is_hung();
    let go = (known.reps + known.rir).saturating_sub(usual.rir + 1).min(MOST_AT_THE_END);
    let reps = [go.saturating_sub(GROWS_BY), go];
    (own && profile.goal != Goal::Power && go > usual.aim).then(|| Dose {
        reps,
        aim: go,
        ..usual.clone()
    })
}

/// Who wants to be strong gets to the first pull-up by a few with as little help as they need, and not by eights; for size
/// by a few more. Common practice.
fn to_the_first(profile: &Profile, entry: &Entry, dose: Dose) -> Dose {
    const FEW: [u32; 2] = [4, 6];
    const AIM: u32 = 5;
    const FOR_SIZE: [u32; 2] = [5, 8];
    const AIM_FOR_SIZE: u32 = 6;
    let lists = [&profile.exercises.must, &profile.exercises.prefer];
    let wished = lists.iter().any(|list| list.contains(&entry.id));
    let helped = entry.load == LoadKind::Assisted && entry.pattern == Some(Pattern::VerticalPull);
    match profile.goal {
        Goal::Strength if helped && wished => Dose { reps: FEW, aim: AIM, ..dose },
        Goal::Hypertrophy if helped && wished => Dose { reps: FOR_SIZE, aim: AIM_FOR_SIZE, ..dose },
        _ => dose,
    }
}

/// Work of one joint for a muscle that should get more is done nearer to the limit, past the first steps. Common practice.
fn nearer(profile: &Profile, entry: &Entry, dose: &Dose) -> Dose {
    const RESERVE: u32 = 2;
    let lags = entry.direct.first().is_some_and(|muscle| {
        profile.emphasis.get(muscle).is_some_and(|wish| *wish == Emphasis::More)
    });
    let learns = profile.training_status == Status::Novice;
    if lags && !learns && Duty::of(entry) == Duty::Isolation {
        return Dose { rir: dose.rir.min(RESERVE), ..dose.clone() };
    }
    dose.clone()
}

/// Legs and the trunk that work one side after the other are under way twice as long: of ten and more repetitions two fewer
/// are done on each, unless all-round fitness has the time for them. Common practice.
fn by_side(goal: Goal, entry: &Entry, dose: &Dose) -> Dose {
    const FEWER: u32 = 2;
    const FROM: u32 = 10;
    let legs = Duty::of(entry) != Duty::Isolation
        && entry.pattern.and_then(Pattern::side) == Some(Side::Legs);
    let trunk = entry.pattern.is_some_and(Pattern::is_trunk);
    // What has no load is done for its many.
    let loaded = trunk || entry.is_loaded();
    let halves = entry.sides == Sides::Each && entry.measure == Measure::Reps;
    let halves = halves && loaded && (legs || trunk);
    if !halves || dose.aim < FROM || goal == Goal::GeneralFitness {
        return dose.clone();
    }
    Dose { reps: dose.reps.map(|reps| reps - FEWER), aim: dose.aim - FEWER, ..dose.clone() }
}

/// Whether the kit makes more than the known load for the repetitions of a dose.
fn goes_up(profile: &Profile, entry: &Entry, dose: &Dose) -> bool {
    let place = profile.equipment.as_ref();
    let loads = place.and_then(|place| ladder(entry, place, profile.units));
    let ask = Ask { reps: dose.span(entry).aim, rir: dose.rir, most_percent: None };
    let expected = KnownLifts::of(profile).expected(entry, ask);
    let made = loads.zip(expected).and_then(|(loads, kg)| loads.at_most(kg));
    let known = profile.known_lifts.get(&entry.id).map(|known| to_kg(known.load, profile.units));
    made.zip(known).is_some_and(|(made, known)| made > known * THE_SAME)
}

/// Whether a dip comes after a bench press, which has the few repetitions. Common practice.
fn follows_the_bench(profile: &Profile, entry: &Entry) -> bool {
    const RACKED_BENCH: [Kit; 3] = [Kit::Barbell, Kit::SquatRack, Kit::Bench];
    let dip = entry.is_hung() && entry.pattern == Some(Pattern::HorizontalPush);
    let lists = [&profile.exercises.must, &profile.exercises.prefer];
    let wished = lists.iter().any(|list| list.contains(&entry.id));
    let known = profile.known_lifts.contains_key(&entry.id);
    let place = profile.equipment.as_ref();
    let has = |item: &Kit| place.is_some_and(|place| place.items.contains_key(item));
    dip && !wished && !known && RACKED_BENCH.iter().all(has)
}

/// The dose of an exercise for a client on a day of the week, longer where nobody knows the lift and the heaviest of the place
/// is light for it, as there is nothing to add, and shorter where the lightest is heavy. Common practice.
#[must_use]
pub fn for_client(profile: &Profile, entry: &Entry, turn: Option<Turn>) -> Dose {
    /// The lightest of a place is heavy for who is expected to lift so much less.
    const OVER_WHAT_IS_EXPECTED: f64 = 1.15;
    /// A shorter set has so many repetitions: over those of heavy sets, as it is no lift for strength.
    const SHORT_SET: u32 = 8;
    let usual = as_done(profile, entry, turn);
    let is_fast = entry.pattern.is_some_and(Pattern::is_explosive);
    if entry.measure != Measure::Reps || is_fast || profile.known_lifts.contains_key(&entry.id) {
        return usual;
    }
    let loads = profile.equipment.as_ref().and_then(|place| ladder(entry, place, profile.units));
    let ask = Ask { reps: usual.span(entry).aim, rir: usual.rir, most_percent: None };
    let expected = KnownLifts::of(profile).expected(entry, ask);
    let found = loads.zip(expected);
    let is_heavy =
        found.as_ref().is_some_and(|(loads, kg)| loads.lightest() > kg * OVER_WHAT_IS_EXPECTED);
    let least = entry.reps.first().copied().unwrap_or(usual.reps[0]);
    if is_heavy && least < SHORT_SET && SHORT_SET < usual.aim {
        return Dose { reps: [least, SHORT_SET], aim: SHORT_SET, ..usual };
    }
    let is_light = found.is_some_and(|(loads, kg)| loads.ends_early(kg));
    let aim = if is_light { longer(usual.aim) } else { usual.aim };
    let [low, high] = usual.reps;
    Dose { reps: [low, high + aim - usual.aim], aim, ..usual }
}

/// A longer set than one of so many repetitions: three more at least, as a coach counts them.
fn longer(aim: u32) -> u32 {
    const AT_LEAST: u32 = 3;
    let usual = [12, 15, 20].into_iter().find(|longer| *longer >= aim + AT_LEAST);
    usual.unwrap_or(aim + AT_LEAST)
}
