//! Whether hard rows leave any week, asked in stages from the quickest to the most thorough.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use rayon::prelude::*;

use super::anneal::{Annealer, Landscape};
use super::budget::Budget;
use super::evaluator::rows;
use super::presolve::irrelevant;
use crate::model::Weekly;
use crate::program::backend::{self, Backend, Found, Nothing, Problem, Work};
use crate::program::{Model, Role, Row, holds, value};
use crate::request::turn::Turn;

/// The work of a first look by the solver's tree and of a whole search: a node of half the variables is solved in
/// about a quarter of the time. A whole search has some nodes however large the model is.
const LOOK: u64 = 15_000_000;
const WORK: u64 = 600_000_000;
const NODES: u64 = 100;

/// Whether rows can hold together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// A week was found.
    Feasible,
    /// Proven: they cannot.
    Impossible,
    /// The work was spent first, which proves nothing.
    Unknown,
}

/// Squared variables of a node that take as long as a change that is tried. Measured.
const SQUARE_A_CHANGE: u64 = 32;

/// A way to ask.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// The relaxation.
    Relaxed,
    /// Runs, and changes for each day of each.
    Runs(u64, u32),
    /// A first look by the solver's tree, none where a model is large.
    Look,
    /// The solver's tree with all the nodes that a question may cost.
    Tree,
}

/// A first short run, and what follows where it finds nothing: a few short runs find more than a long one.
const RUN: Stage = Stage::Runs(1, 2_000);
const RUNS: Stage = Stage::Runs(3, 4_000);

/// What finds nearly every week, for those who need no proof that there is none.
pub const FINDING: [Stage; 2] = [RUN, RUNS];

/// Stages that answer nearly all questions: a run takes a fifth of the relaxation's time, and a small tree finds or
/// refuses most of what runs leave open.
pub const QUICK: [Stage; 4] = [RUN, Stage::Relaxed, RUNS, Stage::Look];

/// Stages for a question that is likely to have no week, to the last.
pub const THOROUGH: [Stage; 5] = [Stage::Relaxed, RUN, Stage::Look, RUNS, Stage::Tree];

/// What a stage says of one split: values of its decisions where it finds a week.
enum Answer {
    Week(Vec<f64>),
    Impossible,
    Unknown,
}

impl Answer {
    /// The week that was found under the split at a place.
    fn week(self, place: usize) -> Option<(usize, Vec<f64>)> {
        match self {
            Answer::Week(values) => Some((place, values)),
            _ => None,
        }
    }
}

/// The hard rows of a week under one split, whole and without the exercises that do not matter.
struct Question<'w, 'a> {
    weekly: &'w Weekly<'a>,
    /// Made once somebody asks the solver.
    fewer: OnceLock<Model>,
    /// Made once runs are asked.
    landscape: OnceLock<Landscape>,
}

/// What is known of some splits.
pub struct Asked {
    /// A week that meets all rows of its model: the place of its split, and the values of its decisions.
    pub week: Option<(usize, Vec<f64>)>,
    /// The places of splits that are not proven to have none.
    pub open: Vec<usize>,
}

impl Asked {
    /// Whether there is a week.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match &self.week {
            Some(_) => Verdict::Feasible,
            None if self.open.is_empty() => Verdict::Impossible,
            None => Verdict::Unknown,
        }
    }
}

/// Asks for any week under one of some splits that meets all rows of its model.
#[must_use]
pub fn any_week(weeks: &[Weekly], stages: &[Stage]) -> Asked {
    let questions: Vec<Question> = weeks.iter().map(Question::new).collect();
    let mut open: Vec<usize> = (0..weeks.len()).collect();
    let is_over = || weeks.first().is_some_and(|weekly| weekly.request.turn.is_over());
    for stage in stages {
        if is_over() {
            break;
        }
        let found = match stage {
            // Runs prove nothing, so that one week is enough.
            Stage::Runs(..) => {
                open.iter().for_each(|place| questions[*place].takes_runs(*stage));
                let week = |place: &usize| questions[*place].ask(*stage).week(*place);
                open.par_iter().find_map_first(week)
            }
            _ => by_solver(&questions, *stage, &mut open),
        };
        if found.is_some() {
            return Asked { week: found, open };
        }
    }
    Asked { week: None, open }
}

/// The first week that a solver's stage finds; splits that it proves to have none are open no longer.
fn by_solver(
    questions: &[Question],
    stage: Stage,
    open: &mut Vec<usize>,
) -> Option<(usize, Vec<f64>)> {
    let ask = |place: &usize| (*place, questions[*place].ask(stage));
    let answers: Vec<(usize, Answer)> = open.par_iter().map(ask).collect();
    let is_open = |answer: &Answer| !matches!(answer, Answer::Impossible);
    *open = answers.iter().filter(|(_, answer)| is_open(answer)).map(|(place, _)| *place).collect();
    answers.into_iter().find_map(|(place, answer)| answer.week(place))
}

/// The rows that a week breaks, from the values of its decisions; `None` where its variables cannot mean what they should.
#[must_use]
pub fn broken_rows<'w>(weekly: &'w Weekly, decisions: &[f64]) -> Option<Vec<&'w Row>> {
    let values = rows::of_decisions(weekly, decisions);
    let breaks = |row: &&Row| !holds(value(&row.terms, &values), row.op, row.right);
    let broken: Vec<&Row> = weekly.model.rows.iter().filter(breaks).collect();
    broken.iter().all(|row| row.role != Role::Definition).then_some(broken)
}

/// Whether the rows of a model can hold together: the relaxation first, then the solver with a node limit.
#[must_use]
pub fn verdict(model: &Model) -> Verdict {
    let turn = Turn::default();
    let asked = by_relaxation(model, turn).or_else(|open| match open {
        Verdict::Unknown => by_tree(model, whole_search(model), turn),
        known => Err(known),
    });
    asked.err().unwrap_or(Verdict::Feasible)
}

impl<'w, 'a> Question<'w, 'a> {
    fn new(weekly: &'w Weekly<'a>) -> Question<'w, 'a> {
        Question { weekly, fewer: OnceLock::new(), landscape: OnceLock::new() }
    }

    fn fewer(&self) -> &Model {
        self.fewer.get_or_init(|| irrelevant::without_irrelevant(self.weekly))
    }

    fn ask(&self, stage: Stage) -> Answer {
        let turn = self.weekly.request.turn;
        let found = match stage {
            Stage::Relaxed => by_relaxation(self.fewer(), turn),
            Stage::Look => by_tree(self.fewer(), nodes(self.fewer(), LOOK), turn),
            Stage::Tree => by_tree(self.fewer(), whole_search(self.fewer()), turn),
            Stage::Runs(runs, changes) => {
                return self.runs(runs, changes).map_or(Answer::Unknown, Answer::Week);
            }
        };
        match found {
            Ok(values) => Answer::Week(self.whole(&values)),
            Err(Verdict::Impossible) => Answer::Impossible,
            Err(_) => Answer::Unknown,
        }
    }

    /// Counts the work of runs by what it may come to: which of them ends the others is not known beforehand.
    fn takes_runs(&self, stage: Stage) {
        let Stage::Runs(runs, changes) = stage else { return };
        let request = self.weekly.request;
        request.turn.takes(runs * u64::from(changes) * request.days.len() as u64);
    }

    fn runs(&self, runs: u64, proposals_a_day: u32) -> Option<Vec<f64>> {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let new = || Landscape::new(self.weekly, &Budget::default());
        let landscape = self.landscape.get_or_init(new);
        let start = Annealer::at_start(landscape);
        let proposals = proposals_a_day.saturating_mul(days);
        let numbers: Vec<u64> = (0..runs).collect();
        let found =
            numbers.into_par_iter().find_map_first(|run| start.run(run).meets(proposals))?;
        Some(rows::count(self.weekly, &landscape.tables, &found).values)
    }

    /// Values of the whole week from those of the fewer exercises.
    fn whole(&self, values: &[f64]) -> Vec<f64> {
        let vars = self.fewer().vars.iter().map(|var| var.name.as_str());
        let known: BTreeMap<&str, f64> = vars.zip(values.iter().copied()).collect();
        let all = self.weekly.model.vars.iter();
        all.map(|var| known.get(var.name.as_str()).copied().unwrap_or(0.0)).collect()
    }
}

/// Values of the relaxation that happen to be whole, or what it says instead.
fn by_relaxation(model: &Model, turn: Turn) -> Result<Vec<f64>, Verdict> {
    let found = asked(model, true, None, turn)?;
    let fraction = |value: f64| (value - value.round()).abs();
    let vars = model.vars.iter().zip(&found.values);
    let is_whole = vars.into_iter().all(|(var, value)| !var.integer || fraction(*value) < 1e-7);
    if is_whole { Ok(found.values) } else { Err(Verdict::Unknown) }
}

fn by_tree(model: &Model, nodes: u64, turn: Turn) -> Result<Vec<f64>, Verdict> {
    if nodes == 0 {
        return Err(Verdict::Unknown);
    }
    Ok(asked(model, false, Some(Work { nodes }), turn)?.values)
}

fn asked(model: &Model, relaxed: bool, work: Option<Work>, turn: Turn) -> Result<Found, Verdict> {
    let backend = Backend::default();
    let problem = Problem { backend, model, goal: &[], relaxed, start: None, work };
    let found = backend::solve(&problem);
    // A tree without a week does not tell its nodes: it counts with all that it may have.
    let most = work.map_or(1, |work| work.nodes);
    turn.takes(work_of_nodes(model, found.as_ref().map_or(most, |found| found.nodes)));
    found.map_err(|nothing| match nothing {
        Nothing::Infeasible => Verdict::Impossible,
        Nothing::Stopped => Verdict::Unknown,
    })
}

fn nodes(model: &Model, work: u64) -> u64 {
    let vars = u64::try_from(model.vars.len()).unwrap_or(u64::MAX).max(1);
    work / vars.saturating_mul(vars)
}

/// Nodes of a solver's tree in changes of a week that are tried in about the time: it grows with the square of the
/// variables.
pub(super) fn work_of_nodes(model: &Model, nodes: u64) -> u64 {
    let vars = u64::try_from(model.vars.len()).unwrap_or(u64::MAX);
    nodes.saturating_mul(vars.saturating_mul(vars) / SQUARE_A_CHANGE)
}

/// Nodes of a search to the proof, as far as it goes.
pub(super) fn whole_search(model: &Model) -> u64 {
    nodes(model, WORK).max(NODES)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An almost impossible week of a well-filled room must end: its tree has few nodes, as each takes long.
    #[test]
    fn a_large_model_has_few_nodes() {
        let model = |vars: usize| {
            let mut model = Model::default();
            for place in 0..vars {
                model.least(place.to_string(), 1.0);
            }
            model
        };
        let (small, large) = (model(100), model(4200));
        assert_eq!((nodes(&large, LOOK), whole_search(&large)), (0, NODES));
        assert!(nodes(&small, LOOK) > NODES && whole_search(&small) > 10_000);
    }
}
