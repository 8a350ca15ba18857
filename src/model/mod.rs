//! The weekly model of a request under a split: a variable wherever an exercise may be done, and the
//! goals of each tier. Rules add the rows.

pub(crate) mod changes;
pub(crate) mod goal;
pub(crate) mod pairing;
pub mod points;
mod sums;
pub(crate) mod tier;
mod weight;
pub mod weight_table;
pub(crate) mod worth;

use std::collections::{BTreeMap, BTreeSet};

use self::goal::Goal;
use self::pairing::{PairClass, PairVar};
use self::sums::Sums;
use crate::program::{Model, Op, Term, Var};
use crate::request::{Candidate, Day, Request};
use crate::split::Split;
use crate::words::{self, Muscle, Status};

/// The week's model.
#[derive(Debug, Clone)]
pub struct Weekly<'a> {
    /// What is asked for.
    pub request: &'a Request,
    /// The split that is held.
    pub split: &'a Split,
    /// Variables and rows.
    pub model: Model,
    /// Every (exercise, day) that may be chosen, by day, then exercise.
    pub picks: Vec<Pick>,
    /// A pair of classes on a day.
    pub pairs: Vec<PairVar>,
    /// Sets of the muscles.
    pub(crate) sums: Sums,
    /// Whether an exercise is in the week at all, by candidate.
    pub used: BTreeMap<usize, Var>,
    /// What counts, in every tier; nothing in that of changes where nothing is reworked.
    pub goals: Vec<Goal>,
}

/// An exercise on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pick {
    /// The candidate's place in the request.
    pub candidate: usize,
    /// The day's place in the request.
    pub day: usize,
    /// Fewest and most sets that day.
    pub sets: [u32; 2],
    /// Whether it is done.
    pub chosen: Var,
    /// Sets above the fewest.
    pub extra: Var,
    /// Whether it is done in a pair, by the rounds that the pair may have.
    pub in_turn: [Option<InTurn>; 2],
}

/// An exercise in a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InTurn {
    /// Rounds of the pair, which has as many sets of both.
    pub rounds: u32,
    /// Whether it is so.
    pub var: Var,
}

impl Pick {
    /// Its sets, times a factor.
    #[must_use]
    pub fn sets_times(&self, factor: f64) -> [Term; 2] {
        [(self.chosen, factor * f64::from(self.sets[0])), (self.extra, factor)]
    }

    /// All that is decided of it.
    pub fn decisions(self) -> impl Iterator<Item = Var> {
        [self.chosen, self.extra].into_iter().chain(self.paired())
    }

    /// What says that it is in a pair: one of them at most.
    pub fn paired(self) -> impl Iterator<Item = Var> {
        self.in_turn.into_iter().flatten().map(|one| one.var)
    }

    /// The same by the rounds that the pair may have.
    #[must_use]
    pub fn pair_vars(&self) -> [Option<usize>; 2] {
        self.in_turn.map(|way| way.map(|one| one.var.0))
    }

    /// The same, times a factor.
    pub fn paired_times(self, factor: f64) -> impl Iterator<Item = Term> {
        self.paired().map(move |var| (var, factor))
    }
}

impl<'a> Weekly<'a> {
    /// The variables for the kept candidates; [`crate::rules::weekly_model`] adds the rows of every rule.
    #[must_use]
    pub fn new(request: &'a Request, split: &'a Split, keep: &BTreeSet<usize>) -> Weekly<'a> {
        let mut weekly = Weekly {
            request,
            split,
            model: Model::default(),
            picks: Vec::new(),
            pairs: Vec::new(),
            sums: Sums::default(),
            used: BTreeMap::new(),
            goals: Vec::new(),
        };
        for day in 0..request.days.len() {
            for candidate in keep.iter().copied().filter(|index| {
                let id = &request.candidates[*index].id;
                let named = request.rework.as_ref().is_some_and(|rework| rework.names(day, id));
                named || split.fits(request, *index, day)
            }) {
                weekly.add_pick(candidate, day);
            }
        }
        sums::add_sums(&mut weekly);
        weekly.add_used();
        pairing::add_pairs(&mut weekly);
        changes::add_changes(&mut weekly);
        weekly
    }

    fn add_pick(&mut self, candidate: usize, day: usize) {
        let exercise = &self.request.candidates[candidate];
        let sets = exercise.sets_in(self.request.days[day].minutes);
        let name = format!("{}_{}", exercise.id, self.request.days[day].name_part());
        let chosen = self.model.binary(format!("do_{name}"));
        let extra = self.model.integer(format!("more_{name}"), 0, sets[1] - sets[0]);
        let most = f64::from(sets[1] - sets[0]);
        let subject = name.clone();
        self.model.define(
            "sets-per-exercise",
            subject,
            vec![(extra, 1.0), (chosen, -most)],
            Op::Le,
            0.0,
        );
        let pairable = PairClass::of(self.request, exercise).is_some();
        let in_turn = paired_sets(self.request, day).map(|rounds| {
            let has_them = pairable && (sets[0]..=sets[1]).contains(&rounds?);
            let rounds = rounds.filter(|_| has_them)?;
            Some(InTurn { rounds, var: self.model.binary(format!("pair_{rounds}_{name}")) })
        });
        self.picks.push(Pick { candidate, day, sets, chosen, extra, in_turn });
    }

    /// `used` is at least each of its picks; a whole number only through them.
    fn add_used(&mut self) {
        for pick in self.picks.clone() {
            let id = &self.request.candidates[pick.candidate].id;
            let model = &mut self.model;
            let used = *self
                .used
                .entry(pick.candidate)
                .or_insert_with(|| model.least(format!("used_{id}"), 1.0));
            let subject = id.clone();
            self.model.define("used", subject, vec![(pick.chosen, 1.0), (used, -1.0)], Op::Le, 0.0);
        }
    }

    /// The exercise and day of a pick, as part of a name.
    #[must_use]
    pub fn name_of(&self, pick: &Pick) -> String {
        let day = self.request.days[pick.day].name_part();
        format!("{}_{day}", self.request.candidates[pick.candidate].id)
    }

    /// The candidate of a pick.
    #[must_use]
    pub fn candidate(&self, pick: &Pick) -> &'a Candidate {
        &self.request.candidates[pick.candidate]
    }

    /// The day of a pick.
    #[must_use]
    pub fn day(&self, pick: &Pick) -> &'a Day {
        &self.request.days[pick.day]
    }

    /// The picks of a day.
    pub fn on(&self, day: usize) -> impl Iterator<Item = &Pick> {
        self.picks.iter().filter(move |pick| pick.day == day)
    }

    /// The days' places.
    #[must_use]
    pub fn days(&self) -> std::ops::Range<usize> {
        0..self.request.days.len()
    }

    /// Working seconds of a day, as terms: arranging, ramp sets, work and rests, less what pairs save.
    #[must_use]
    pub fn seconds_on(&self, day: usize) -> Vec<Term> {
        let mut seconds: Vec<Term> = Vec::new();
        for pick in self.on(day) {
            let exercise = self.candidate(pick);
            seconds.extend(pick.sets_times(f64::from(exercise.work_s + exercise.rest_s)));
            let once = f64::from(exercise.start_s) - f64::from(exercise.rest_s);
            seconds.push((pick.chosen, once));
        }
        let pairs = self.pairs.iter().filter(|pair| pair.day == day);
        seconds.extend(pairs.map(|pair| (pair.count, -f64::from(pair.saves_s))));
        seconds
    }

    /// Half-sets of a muscle on a day, as a term if it has any.
    #[must_use]
    pub fn halves_on(&self, muscle: Muscle, day: usize) -> Vec<Term> {
        self.sums.halves[muscle.index()][day].iter().map(|sum| (*sum, 1.0)).collect()
    }

    /// Direct sets of a muscle on a day, as a term if it has any.
    #[must_use]
    pub fn direct_on(&self, muscle: Muscle, day: usize) -> Vec<Term> {
        self.sums.direct[muscle.index()][day].iter().map(|sum| (*sum, 1.0)).collect()
    }

    /// Half-sets of a muscle over the week, as a term if it has any.
    #[must_use]
    pub fn halves(&self, muscle: Muscle) -> Vec<Term> {
        self.sums.week[muscle.index()].iter().map(|sum| (*sum, 1.0)).collect()
    }

    /// Half-sets of the week that are done for a muscle, as a term if it has any: two for a set whose prime mover it
    /// is, one where it is another direct muscle, none where it only helps.
    #[must_use]
    pub fn own_halves(&self, muscle: Muscle) -> Vec<Term> {
        self.sums.own[muscle.index()].iter().map(|sum| (*sum, 1.0)).collect()
    }

    fn own_terms(&self, muscle: Muscle) -> Vec<Term> {
        let factor = |candidate: &Candidate| match candidate.halves(muscle) {
            2 if candidate.prime() == Some(muscle) => 2.0,
            2 => 1.0,
            _ => 0.0,
        };
        self.picks
            .iter()
            .flat_map(|pick| pick.sets_times(factor(self.candidate(pick))))
            .filter(|(_, factor)| *factor != 0.0)
            .collect()
    }

    fn half_terms(&self, muscle: Muscle, day: usize) -> Vec<Term> {
        self.on(day)
            .flat_map(|pick| pick.sets_times(f64::from(self.candidate(pick).halves(muscle))))
            .filter(|(_, factor)| *factor != 0.0)
            .collect()
    }

    fn direct_terms(&self, muscle: Muscle, day: usize) -> Vec<Term> {
        self.on(day)
            .filter(|pick| self.candidate(pick).halves(muscle) == 2)
            .flat_map(|pick| pick.sets_times(1.0))
            .collect()
    }

    /// Sets of every pick that a test counts, over the week.
    #[must_use]
    pub fn sets_of(&self, test: impl Fn(&Candidate) -> bool) -> Vec<Term> {
        self.picks
            .iter()
            .filter(|pick| test(self.candidate(pick)))
            .flat_map(|pick| pick.sets_times(1.0))
            .collect()
    }
}

/// Rounds that a pair may have: two or three, two in a very short session, three where size or strength past the first steps is
/// the goal, and three or four for size where status or minutes ask for more sets.
#[must_use]
pub(crate) fn paired_sets(request: &Request, day: usize) -> [Option<u32>; 2] {
    match request.days[day].minutes {
        ..crate::request::candidate::VERY_SHORT_SESSION => [Some(2), None],
        _ if holds_four(request, day) => [Some(3), Some(4)],
        crate::request::candidate::SHORT_SESSION.. if has_threes(request) => [Some(3), None],
        _ => [Some(2), Some(3)],
    }
}

/// Whether small work has three sets, too, so that every pair has three rounds.
fn has_threes(request: &Request) -> bool {
    let learns = request.profile.training_status == Status::Novice;
    match request.profile.goal {
        words::Goal::Hypertrophy => true,
        words::Goal::Strength => !learns,
        _ => false,
    }
}

/// Whether a session holds four rounds: for size three quarters of an hour, for strength a long one, past the first steps.
pub(crate) fn holds_four(request: &Request, day: usize) -> bool {
    const FOR_SIZE: u32 = 45;
    const FOR_STRENGTH: u32 = 75;
    let least = match request.profile.goal {
        words::Goal::Hypertrophy => FOR_SIZE,
        words::Goal::Strength => FOR_STRENGTH,
        _ => return false,
    };
    let learns = request.profile.training_status == Status::Novice;
    request.days[day].minutes >= least && !learns
}

/// Terms with the opposite sign.
#[must_use]
pub(crate) fn minus(terms: Vec<Term>) -> Vec<Term> {
    terms.into_iter().map(|(var, factor)| (var, -factor)).collect()
}

/// Terms times a factor.
#[must_use]
pub(crate) fn times(terms: Vec<Term>, by: f64) -> Vec<Term> {
    terms.into_iter().map(|(var, factor)| (var, factor * by)).collect()
}
