//! The split as a small model of its own: one idea a day, and which muscles are hard on which day under
//! the recovery hours.

use std::collections::BTreeSet;

use super::idea::{ANY_DAY, Idea, STYLES, Style};
use super::{Split, SplitDay};
use crate::input::profile::{SplitChoice, SplitName};
use crate::program::{Model, Op, Term, Var, backend};
use crate::request::Request;
use crate::words::{Effort, Muscle, Status};

/// Splits worth trying for a request, the likeliest first: the one asked for, or for `auto` one of each
/// style that fits the number of days.
#[must_use]
pub fn candidates(request: &Request) -> Vec<Split> {
    match &request.profile.split {
        SplitChoice::Own(lists) => vec![own(request, lists)],
        SplitChoice::Named(SplitName::Auto) => {
            let mut splits: Vec<Split> = STYLES
                .iter()
                .filter(|style| suits(request, style))
                .filter_map(|style| designed(request, style))
                .collect();
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

/// Styles a coach would consider unasked. Body-part weeks are for the advanced; a novice with up to three
/// days does best with the whole body or two halves (common practice).
fn suits(request: &Request, style: &Style) -> bool {
    let days = request.days.len();
    let novice = request.profile.training_status == Status::Novice;
    let advanced = request.profile.training_status == Status::Advanced;
    match style.asked_as {
        Some(SplitName::BodyPart) => advanced && days >= 4,
        Some(SplitName::PushPullLegs) => !novice && days >= 3,
        Some(SplitName::FullBody) => days <= 4,
        _ => days >= style.from_days && !(novice && days < 4 && style.ideas.len() > 2),
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

fn designed(request: &Request, style: &Style) -> Option<Split> {
    let ideas: Vec<(String, BTreeSet<Muscle>, bool)> = style
        .ideas
        .iter()
        .map(|idea: &Idea| (idea.name.to_owned(), idea.set(), idea.whole_body()))
        .collect();
    let days = solve(request, &vec![ideas; request.days.len()])?;
    Some(Split { name: style.name.to_owned(), days })
}

type Ideas = Vec<(String, BTreeSet<Muscle>, bool)>;

/// Points for the first, second and third hard day of a targeted muscle: twice a week where it fits
/// (Schoenfeld et al. 2016), more is worth little.
const EXPOSURES: [f64; 3] = [12.0, 8.0, 1.0];
/// A day whose idea is the same as the day before costs this much.
const REPEAT: f64 = 3.0;

/// One idea a day and the hard muscle-days, for the most exposures.
fn solve(request: &Request, ideas: &[Ideas]) -> Option<Vec<SplitDay>> {
    let mut model = Model::default();
    let takes: Vec<Vec<Var>> = ideas
        .iter()
        .enumerate()
        .map(|(day, ideas)| {
            (0..ideas.len()).map(|idea| model.binary(format!("idea_{day}_{idea}"))).collect()
        })
        .collect();
    let mut goal: Vec<Term> = Vec::new();
    for day in &takes {
        model.row("one-idea", "day", day.iter().map(|var| (*var, 1.0)).collect(), Op::Eq, 1.0);
    }
    each_idea_once(&mut model, &takes);
    repeats(&mut model, &takes, &mut goal);
    let hard = hard_days(request, &mut model, ideas, &takes, &mut goal);
    let values = backend::maximize(&model, &goal, None).ok()?.values;
    let chosen = |vars: &[Var]| vars.iter().position(|var| values[var.0] > 0.5).unwrap_or(0);
    let days = ideas.iter().enumerate().map(|(day, ideas)| {
        let (name, muscles, whole_body) = &ideas[chosen(&takes[day])];
        let is_hard = |muscle: &Muscle| {
            ANY_DAY.contains(muscle)
                || muscle.recovers_fast()
                || hard[day][muscle.index()].is_some_and(|var| values[var.0] > 0.5)
        };
        let hard = muscles.iter().copied().filter(is_hard).collect();
        SplitDay { idea: name.clone(), muscles: muscles.clone(), hard, whole_body: *whole_body }
    });
    Some(days.collect())
}

/// Every idea of a style has its day where there are days enough.
fn each_idea_once(model: &mut Model, takes: &[Vec<Var>]) {
    let ideas = takes.iter().map(Vec::len).max().unwrap_or(0);
    if ideas < 2 || takes.len() < ideas || takes.iter().any(|day| day.len() != ideas) {
        return;
    }
    for idea in 0..ideas {
        let days = takes.iter().map(|day| (day[idea], 1.0)).collect();
        model.row("each-idea", "week", days, Op::Ge, 1.0);
    }
}

/// Neighboring days with the same idea cost points, unless it is the only idea.
fn repeats(model: &mut Model, takes: &[Vec<Var>], goal: &mut Vec<Term>) {
    for (day, pair) in takes.windows(2).enumerate() {
        for (idea, (one, next)) in pair[0].iter().zip(&pair[1]).enumerate() {
            let same = model.least(format!("same_{day}_{idea}"), 1.0);
            model.row("repeat", "day", vec![(*one, 1.0), (*next, 1.0), (same, -1.0)], Op::Le, 1.0);
            goal.push((same, -REPEAT));
        }
    }
}

/// A variable per muscle and day: hard only if the day's idea has the muscle, never twice within the
/// recovery hours, never beside a hard day of other training.
fn hard_days(
    request: &Request,
    model: &mut Model,
    ideas: &[Ideas],
    takes: &[Vec<Var>],
    goal: &mut Vec<Term>,
) -> Vec<Vec<Option<Var>>> {
    let days = request.days.len();
    let mut hard = vec![vec![None; Muscle::ALL.len()]; days];
    for muscle in Muscle::ALL.iter().filter(|muscle| !muscle.recovers_fast()) {
        for day in 0..days {
            if blocked(request, *muscle, day) {
                continue;
            }
            let var = model.binary(format!("hard_{muscle}_{day}"));
            let mut row: Vec<Term> = vec![(var, 1.0)];
            for (take, (_, set, _)) in takes[day].iter().zip(&ideas[day]) {
                if set.contains(muscle) {
                    row.push((*take, -1.0));
                }
            }
            model.row("hard-only-in-idea", "day", row, Op::Le, 0.0);
            hard[day][muscle.index()] = Some(var);
        }
        for one in 0..days {
            for other in one + 1..days {
                if let (Some(a), Some(b)) = (hard[one][muscle.index()], hard[other][muscle.index()])
                    && request.too_close(one, other)
                {
                    model.row("recovery", "days", vec![(a, 1.0), (b, 1.0)], Op::Le, 1.0);
                }
            }
        }
        reward(request, model, *muscle, &hard, goal);
    }
    hard
}

/// Points for each exposure of a targeted muscle, falling with their number, earlier days first on ties.
fn reward(
    request: &Request,
    model: &mut Model,
    muscle: Muscle,
    hard: &[Vec<Option<Var>>],
    goal: &mut Vec<Term>,
) {
    let vars: Vec<Var> = hard.iter().filter_map(|day| day[muscle.index()]).collect();
    if !request.targets.contains_key(&muscle) {
        goal.extend(vars.iter().map(|var| (*var, 0.5)));
        return;
    }
    let mut row: Vec<Term> = vars.iter().map(|var| (*var, -1.0)).collect();
    for (count, points) in EXPOSURES.iter().enumerate() {
        let step = model.most(format!("exposure_{muscle}_{count}"), 1.0);
        row.push((step, 1.0));
        goal.push((step, *points));
    }
    model.row("exposures", "muscle", row, Op::Le, 0.0);
    for (day, var) in
        hard.iter().enumerate().filter_map(|(day, vars)| Some((day, vars[muscle.index()]?)))
    {
        let minutes = f64::from(request.days[day].minutes) / 100.0;
        #[allow(clippy::cast_precision_loss, reason = "at most fourteen days")]
        goal.push((var, 0.01 * minutes - 0.001 * day as f64));
    }
}

/// Whether hard training elsewhere stands too close to a session for a muscle.
#[must_use]
pub fn blocked(request: &Request, muscle: Muscle, day: usize) -> bool {
    request.profile.other_training.iter().any(|other| {
        other.load == Effort::Hard && other.muscles.contains(&muscle) && {
            let slot = crate::input::profile::SessionSlot {
                day: other.day,
                at: other.at.clone(),
                minutes: 60,
            };
            let sport = crate::request::Day::new(&slot, 0);
            sport.hours_to(&request.days[day])
                < f64::from(request.profile.recovery_hours) - crate::request::day::GRACE_H
        }
    })
}
