//! What can be paired on the days of a week, and what that is worth by its model.

use std::collections::{BTreeMap, BTreeSet};

use itertools::Itertools as _;

use super::pairing::{Class, Count, DayPairing};
use crate::model::pairing::PairClass;
use crate::model::tier::Tier;
use crate::model::{InTurn, Weekly};
use crate::program::{Op, Row, Term};

/// Picks of a class, by what standing alone is worth for them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Kind {
    class: PairClass,
    /// Rounds of its pairs.
    rounds: u32,
    /// Whether they lead a day where they stand alone.
    leads: bool,
    /// Whole points that one costs in a pair.
    costs: i32,
}

/// What the coach's view says of who is paired.
struct View<'w> {
    weekly: &'w Weekly<'w>,
    /// What variables are worth by themselves.
    points: BTreeMap<usize, f64>,
    /// Of picks that lead their day where they stand alone: what it costs that none does.
    leads: BTreeMap<usize, f64>,
}

/// The classes of a week's picks by the rounds of their pairs, which of them lead where they stand alone, and how each day is paired.
pub(super) fn of_week(weekly: &Weekly) -> (Vec<[Option<Class>; 2]>, Vec<bool>, Vec<DayPairing>) {
    let mut view = View { weekly, points: BTreeMap::new(), leads: BTreeMap::new() };
    for goal in weekly.goals_of(Tier::View) {
        *view.points.entry(goal.var.0).or_default() += goal.weight;
    }
    view.leads = view.leads();
    let of_picks: Vec<[Option<Kind>; 2]> =
        (0..weekly.picks.len()).map(|pick| view.kinds(pick)).collect();
    let known: BTreeSet<Kind> = of_picks.iter().flatten().flatten().copied().collect();
    let known: Vec<Kind> = known.into_iter().take(usize::from(Class::MAX)).collect();
    let class = |kind: Option<Kind>| Class::try_from(known.binary_search(&kind?).ok()?).ok();
    let classes = of_picks.iter().map(|kinds| kinds.map(class));
    let leads = (0..weekly.picks.len()).map(|pick| view.leads.contains_key(&pick)).collect();
    let mut days: Vec<DayPairing> = weekly.days().map(|day| view.pairing(&known, day)).collect();
    for day in 0..days.len() {
        let first = days[..day].iter().position(|before| before.is_like(&days[day]));
        days[day].like = first.unwrap_or(day);
    }
    (classes.collect(), leads, days)
}

impl View<'_> {
    fn points(&self, var: usize) -> f64 {
        self.points.get(&var).copied().unwrap_or_default()
    }

    fn kinds(&self, place: usize) -> [Option<Kind>; 2] {
        let pick = &self.weekly.picks[place];
        let class = PairClass::of(self.weekly.request, self.weekly.candidate(pick));
        pick.in_turn.map(|way| {
            let InTurn { rounds, var } = way?;
            #[allow(clippy::cast_possible_truncation, reason = "points are small")]
            let costs = -self.points(var.0).round() as i32;
            Some(Kind { class: class?, rounds, leads: self.leads.contains_key(&place), costs })
        })
    }

    fn pairing(&self, known: &[Kind], day: usize) -> DayPairing {
        let mut counts = vec![vec![None; known.len()]; known.len()];
        let of = |class: PairClass, rounds: u32| {
            let is = move |kind: &Kind| kind.class == class && kind.rounds == rounds;
            known.iter().enumerate().filter(move |(_, kind)| is(kind))
        };
        for pair in self.weekly.pairs.iter().filter(|pair| pair.day == day) {
            let (worth, saves) = (self.points(pair.count.0), seconds(pair.saves_s));
            for (one, kind) in of(pair.classes.0, pair.rounds) {
                for (other, with) in of(pair.classes.1, pair.rounds) {
                    let points = worth - f64::from(kind.costs + with.costs);
                    let count = Some(Count { var: pair.count.0, saves, points });
                    (counts[one][other], counts[other][one]) = (count, count);
                }
            }
        }
        let led = self.leads.iter().filter(|(pick, _)| self.weekly.picks[**pick].day == day);
        DayPairing {
            counts,
            leads: known.iter().map(|kind| kind.leads).collect(),
            led: led.map(|(_, cost)| *cost).fold(0.0, f64::max),
            room: seconds(self.weekly.request.days[day].work_s()),
            sets: self.most_sets(day).unwrap_or((f64::MAX, 0.0)),
            like: day,
        }
    }

    /// What a day's row of sets allows, from which those in pairs take something.
    fn most_sets(&self, day: usize) -> Option<(f64, f64)> {
        let (row, by) = self.row_of_sets(day)?;
        Some((row.right, by))
    }

    /// A day's row of sets, and how many fewer one in a pair counts for.
    fn row_of_sets(&self, day: usize) -> Option<(&Row, f64)> {
        let paired = self.weekly.on(day).find_map(|pick| pick.paired().next())?;
        self.weekly.model.rows.iter().filter(|row| row.op == Op::Le).find_map(|row| {
            let (_, by) = row.terms.iter().find(|(var, by)| *var == paired && *by < 0.0)?;
            Some((row, -by))
        })
    }

    /// Who leads: picks of one day that a row counts, but where they are paired.
    fn leads(&self) -> BTreeMap<usize, f64> {
        let mut leads = BTreeMap::new();
        for (row, counted) in self.rows_of_leads() {
            let cost: f64 = row.terms.iter().map(|(var, _)| -self.points(var.0)).sum();
            leads.extend(counted.into_iter().map(|pick| (pick, cost)));
        }
        leads
    }

    /// The rows that ask for a lead, and whom each counts.
    fn rows_of_leads(&self) -> Vec<(&Row, Vec<usize>)> {
        let picks = self.weekly.picks.iter().enumerate();
        let by_var: BTreeMap<usize, usize> =
            picks.map(|(place, pick)| (pick.chosen.0, place)).collect();
        let paired: BTreeSet<usize> =
            self.weekly.picks.iter().flat_map(|pick| pick.paired()).map(|var| var.0).collect();
        let asks = |row: &&Row| {
            let less = |(var, by): &Term| *by < 0.0 && paired.contains(&var.0);
            row.op == Op::Ge && row.terms.iter().any(less)
        };
        let counted = |row: &Row| -> Vec<usize> {
            let more = row.terms.iter().filter(|(_, by)| *by > 0.0);
            more.filter_map(|(var, _)| by_var.get(&var.0)).copied().collect()
        };
        let of_one_day = |(_, counted): &(&Row, Vec<usize>)| {
            counted.iter().map(|pick| self.weekly.picks[*pick].day).all_equal()
                && !counted.is_empty()
        };
        let rows = self.weekly.model.rows.iter().filter(asks);
        rows.map(|row| (row, counted(row))).filter(of_one_day).collect()
    }
}

/// The rules whose rows are read here, by what they look like.
#[cfg(test)]
pub(super) fn rules_read(weekly: &Weekly) -> BTreeSet<&'static str> {
    let view = View { weekly, points: BTreeMap::new(), leads: BTreeMap::new() };
    let leads = view.rows_of_leads().into_iter().map(|(row, _)| row.rule).collect::<Vec<_>>();
    let sets = weekly.days().filter_map(|day| Some(view.row_of_sets(day)?.0.rule));
    sets.chain(leads).collect()
}

fn seconds(seconds: u32) -> i32 {
    i32::try_from(seconds).unwrap_or(i32::MAX)
}
