//! The tables of a model: what each number is worth and hands on, laid out so that weighing a change only looks up.

mod layout;
mod movers;
mod pick;
mod terms;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

pub(super) use self::movers::Movers;
use self::movers::Parts;
pub(in crate::search) use self::pick::PickInfo;
pub(super) use self::pick::{ABLE, FURTHER, ITEMS, LED, ROUNDS, SECONDS, SETS, Standing, less};
pub(super) use self::terms::Term;
use self::terms::Terms;
use super::compile::{Source, compiled};
use super::kinds::of_week;
use super::lists::{Lists, small};
use super::pairing::{Class, DayPairing};
use super::reading::Reading;
use super::score::Score;
use super::sums::Node as Number;
use crate::model::{Pick, Weekly};
use crate::program::{Settles, Var};
pub(super) use layout::signed;
use layout::{Layout, Valued, forwards, score, spans};

/// Exercises of a day that every week may have, more than any session should; no change goes beyond.
const MOST_ITEMS: usize = 12;

/// The first stage of weighing a change: what picks alone can break.
pub(super) const BREAKING: usize = 0;
/// The second: costs of the first tiers that picks alone move.
pub(super) const COSTS: usize = 1;
/// The third: what else they move and nothing gets a part of.
pub(super) const REST: usize = 2;
/// The fourth: what others get a part of, and is worth something by itself.
pub(super) const SOURCES: usize = 3;
/// The fifth: what pairs move, as they take longest to find.
pub(super) const PAIRED: usize = 4;
/// The sixth: what is worth nothing by itself, or the same whatever is done.
pub(super) const SILENT: usize = 5;
/// Where the terms of picks stand in numbers that get parts from others as well; such numbers have stages by level.
pub(super) const LATER: usize = 6;

/// Where a number's worth is found.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Worth {
    /// It is worth nothing by itself.
    Nothing,
    /// In the table, at this place plus the number.
    Table(i32),
    /// By the readings of this place, as it reaches too far.
    Readings(u32),
}

/// A number as it stands, and the change in hand: no more than every change looks at.
#[derive(Clone)]
pub(super) struct Node {
    pub(super) value: i32,
    pub(super) delta: i32,
    /// The turn in which the delta was last moved.
    pub(super) turn: u32,
    /// The place of its worth in the table; outside of it where that is found elsewhere.
    pub(super) place: i32,
}

/// Far enough outside of any table, whatever the number.
const NOWHERE: i32 = i32::MIN / 2;

/// What stays of a number.
#[derive(Clone, Copy)]
pub(super) struct Kept {
    pub(super) worth: Worth,
    pub(super) stage: u16,
    /// Whether it is the least or greatest of values, and no sum.
    pub(super) is_extreme: bool,
    /// Whether other numbers have a part of it.
    pub(super) hands_on: bool,
}

/// What a number hands on to another.
#[derive(Clone, Copy)]
pub(super) struct Forward {
    pub(super) to: u32,
    pub(super) part: Part,
}

/// The part of a number that another one has from it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// A multiple.
    Times(i32),
    /// In the table of parts, at this place plus the number.
    Table(i32),
    /// By a reading, at this place of those, as the number reaches too far.
    Reading(u32),
    /// One of the values that an extreme is chosen from.
    Choice,
}

/// What rows and goals ask of the pairs of a day beside how many they are.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Marked {
    Nothing,
    /// How many of each two classes.
    Counts,
    /// Who is paired.
    Who,
}

/// How an extreme is chosen.
#[derive(Default)]
pub(super) struct Choices {
    pub(super) is_least: bool,
    /// The numbers, and the values that they give.
    pub(super) of: Vec<(u32, Part)>,
}

/// What numbers of a stage there are.
#[derive(Clone, Copy, Default)]
pub(super) struct Stage {
    pub(super) numbers: usize,
    pub(super) has_extremes: bool,
    /// Whether any of them is a part of others.
    pub(super) hands_on: bool,
}

/// A model as tables.
pub(in crate::search) struct Tables {
    /// The numbers of an empty week.
    pub(super) nodes: Vec<Node>,
    pub(super) kept: Vec<Kept>,
    /// Parts of the table of scores that some number reaches, each once; the first is empty.
    pub(super) spans: Vec<Range<usize>>,
    /// The part that each number reaches.
    pub(super) span_of: Vec<usize>,
    pub(super) forwards: Lists<Forward>,
    /// What can raise and lower each number.
    pub(super) movers: Movers,
    /// By number; empty where it is a sum.
    pub(super) choices: Vec<Choices>,
    pub(super) parts: Vec<i32>,
    valued: Vec<Valued>,
    pub(super) scores: Vec<Score>,
    /// Where each table of scores begins.
    pub(super) starts: Vec<usize>,
    pub(super) readings: Vec<Vec<Reading>>,
    /// What each pick brings to each of the first stages, and to all that are later.
    pub(super) terms: Terms,
    /// The same of variables that say who is paired, and of counts of pairs, by variable.
    pub(super) marks: Lists<Term>,
    pub(super) mark_scores: Vec<Score>,
    pub(super) pick_scores: Vec<[Score; 2]>,
    pub(super) pair_scores: Vec<Score>,
    pub(super) constant: Score,
    pub(super) picks: Vec<PickInfo>,
    /// What each pick is to its week.
    standings: pick::Standings,
    /// The variables of each pick and the one of its being paired.
    pub(super) paired_var: Vec<[Option<usize>; 2]>,
    pub(super) days: Vec<DayPairing>,
    /// Numbers that pairs move, by day.
    pub(super) moved: Vec<Vec<Term>>,
    /// What is asked of the pairs of each day beside how many they are.
    pub(super) marked: Vec<Marked>,
    pub(super) most_items: i32,
    pub(super) stages: Vec<Stage>,
    /// Variables that are multiples of numbers.
    linear: BTreeMap<Var, (usize, [f64; 2])>,
}

/// Every decision belongs to a pick or a pair: moves and pairing make no others.
fn assert_decisions_are_known(weekly: &Weekly) {
    let of_picks = weekly.picks.iter().flat_map(|pick| pick.decisions());
    let of_pairs = weekly.pairs.iter().map(|pair| pair.count);
    let known: BTreeSet<Var> = of_picks.chain(of_pairs).collect();
    for (var, def) in weekly.model.vars.iter().enumerate() {
        let is_known = def.settles != Settles::Decision || known.contains(&Var(var));
        assert!(is_known, "`{}` is no pick and no pair", def.name);
    }
}

/// Where a number stands in a table.
#[inline]
pub(super) fn at(place: i32, number: i32) -> usize {
    place.wrapping_add(number).cast_unsigned() as usize
}

impl Tables {
    /// The tables of a model.
    pub(in crate::search) fn new(weekly: &Weekly) -> Tables {
        assert_decisions_are_known(weekly);
        let most_items = most_items(weekly);
        let compiled = compiled(weekly, most_items);
        let numbers = &compiled.sums.nodes;
        let mut layout = Layout::new(numbers);
        let (forwards, choices) = forwards(numbers, &mut layout);
        let kept = numbers.iter().zip(&forwards).map(|(number, forwards)| {
            let worth = layout.worth(number);
            let is_flat = layout.is_flat(worth, number.range);
            kept(number, worth, is_flat, !forwards.is_empty())
        });
        let kept: Vec<Kept> = kept.collect();
        let nodes = numbers.iter().zip(&kept).map(|(number, kept)| Node {
            value: number.start,
            delta: 0,
            turn: 0,
            place: if let Worth::Table(place) = kept.worth { place } else { NOWHERE },
        });
        let nodes: Vec<Node> = nodes.collect();
        let (spans, span_of) = spans(numbers, &kept);
        let parts = Parts { numbers, layout: &layout, forwards: &forwards, choices: &choices };
        let movers = Movers::new(weekly, &kept, parts);
        let mut terms = vec![<[Vec<Term>; LATER + 1]>::default(); weekly.picks.len()];
        let mut moved = vec![Vec::new(); weekly.request.days.len()];
        let mut marks = vec![Vec::new(); weekly.model.vars.len()];
        for (place, number) in numbers.iter().enumerate() {
            let (to, stage) = (small(place), kept[place].stage as usize);
            for (pick, by) in &number.sum.picks {
                terms[*pick][stage.min(LATER)].push(Term { to, by: *by });
            }
            for (day, by) in &number.sum.pairs {
                moved[*day].push(Term { to, by: *by });
            }
            for (var, by) in &number.sum.marks {
                marks[*var].push(Term { to, by: [*by, 0] });
            }
        }
        let (picks, days) = picks(weekly);
        let is_asked = |var: Var| !marks[var.0].is_empty() || compiled.by_mark.contains_key(&var.0);
        let marked = |day: usize| {
            let mut picks = weekly.picks.iter().filter(|pick| pick.day == day);
            let mut pairs = weekly.pairs.iter().filter(|pair| pair.day == day);
            if picks.any(|pick| pick.paired().any(is_asked)) {
                Marked::Who
            } else if pairs.any(|pair| is_asked(pair.count)) {
                Marked::Counts
            } else {
                Marked::Nothing
            }
        };
        let marked = weekly.days().map(marked).collect();
        let score_of_mark = |var| compiled.by_mark.get(&var).copied().unwrap_or_default();
        let mark_scores = (0..weekly.model.vars.len()).map(score_of_mark).collect();
        let sources = compiled.sources.iter().enumerate();
        let linear = sources.filter_map(|(var, source)| match source {
            Some(Source::Linear(node, line)) => Some((Var(var), (*node, *line))),
            _ => None,
        });
        Tables {
            stages: stages(&kept),
            nodes,
            kept,
            spans,
            span_of,
            movers,
            forwards: Lists::new(forwards),
            choices,
            parts: layout.parts,
            valued: layout.valued,
            scores: layout.scores,
            starts: layout.starts,
            readings: layout.readings,
            terms: Terms::new(&terms),
            marks: Lists::new(marks),
            mark_scores,
            pick_scores: compiled.by_pick,
            pair_scores: compiled.by_pair,
            constant: compiled.constant,
            standings: pick::Standings::new(&picks),
            picks,
            paired_var: weekly.picks.iter().map(Pick::pair_vars).collect(),
            days,
            moved,
            marked,
            most_items: signed(most_items),
            linear: linear.collect(),
        }
    }

    /// What a number is worth by itself at a value.
    #[inline]
    pub(super) fn score(&self, number: usize, value: i32) -> Score {
        match self.kept[number].worth {
            Worth::Nothing => Score::default(),
            Worth::Table(place) => self.scores[at(place, value)],
            Worth::Readings(place) => score(self.readings[place as usize].iter(), value),
        }
    }

    /// More than any pair of a day is worth, where being one and the marks of who is paired are worth something.
    pub(super) fn most_of_pair(&self, day: usize, being_one: f64, marks: &[f64]) -> f64 {
        let counts = self.days[day].counts.iter().flatten().flatten();
        let count = counts.map(|count| marks[count.var]).fold(0.0, f64::max);
        let on_day = self.picks.iter().zip(&self.paired_var);
        let paired = on_day
            .filter(|(pick, _)| pick.day as usize == day)
            .flat_map(|(_, vars)| vars.iter().flatten());
        let paired = paired.map(|var| marks[*var]).fold(0.0, f64::max);
        (being_one + count + 2.0 * paired).max(0.0)
    }

    /// The part that another number has of a number.
    #[inline]
    pub(super) fn part(&self, part: Part, number: i32) -> i32 {
        match part {
            Part::Times(by) => by * number,
            Part::Table(place) => self.parts[at(place, number)],
            Part::Reading(place) => self.valued[place as usize].part(number),
            Part::Choice => 0,
        }
    }

    /// What a pick is to its week with so many sets.
    #[inline]
    pub(super) fn standing(&self, pick: usize, sets: u32) -> Standing {
        self.standings.of(pick, sets).unwrap_or_else(|| self.picks[pick].standing(sets))
    }

    /// A pick, as proposals need it.
    pub(in crate::search) fn pick(&self, pick: usize) -> &PickInfo {
        &self.picks[pick]
    }

    /// The number that a variable is a multiple of, with factor and constant, where it is a sum.
    pub(super) fn linear(&self, var: Var) -> Option<(usize, [f64; 2])> {
        self.linear.get(&var).copied()
    }
}

/// The most exercises of a day in any week, with some to spare over what sessions may have and a written plan has.
fn most_items(weekly: &Weekly) -> usize {
    let written = weekly.request.rework.as_ref().map_or(0, |rework| {
        let on = |day: usize| rework.picks.keys().filter(|(other, _)| *other == day).count();
        weekly.days().map(on).max().unwrap_or(0)
    });
    MOST_ITEMS.max(written)
}

fn stages(kept: &[Kept]) -> Vec<Stage> {
    let mut stages = vec![Stage::default(); LATER];
    for node in kept {
        let place = node.stage as usize;
        stages.resize(stages.len().max(place + 1), Stage::default());
        let stage = &mut stages[place];
        stage.numbers += 1;
        stage.has_extremes |= node.is_extreme;
        stage.hands_on |= node.hands_on;
    }
    stages
}

fn kept(number: &Number, worth: Worth, is_flat: bool, hands_on: bool) -> Kept {
    let stage = u16::try_from(stage(number, is_flat, hands_on)).expect("few levels");
    Kept { worth, stage, is_extreme: number.extreme.is_some(), hands_on }
}

/// When a number is looked at: first what picks alone can break, as that refuses most changes.
fn stage(number: &Number, is_flat: bool, hands_on: bool) -> usize {
    let has_pairs = !number.sum.pairs.is_empty() || !number.sum.marks.is_empty();
    match number.level {
        0 if has_pairs => PAIRED,
        0 if is_flat => SILENT,
        0 if hands_on => SOURCES,
        0 if number.readings.iter().any(Reading::can_break) => BREAKING,
        0 if number.readings.iter().any(Reading::costs) => COSTS,
        0 => REST,
        level => LATER + level - 1,
    }
}

fn picks(weekly: &Weekly) -> (Vec<PickInfo>, Vec<DayPairing>) {
    let (classes, leads, days) = of_week(weekly);
    let info = |((pick, classes), leads): ((&Pick, [Option<Class>; 2]), bool)| {
        let exercise = weekly.candidate(pick);
        // What goes with nothing of its day is never paired, and need not be looked at with the others.
        let classes = classes.map(|class| class.filter(|one| days[pick.day].pairs_at_all(*one)));
        let rounds = |way: usize| pick.in_turn[way].map_or(u32::MAX, |one| one.rounds);
        let seconds = |seconds: u32| i32::try_from(seconds).unwrap_or(i32::MAX / 64);
        PickInfo {
            candidate: small(pick.candidate),
            day: small(pick.day),
            sets: pick.sets,
            seconds: [
                seconds(exercise.start_s) - seconds(exercise.rest_s),
                seconds(exercise.work_s) + seconds(exercise.rest_s),
            ],
            classes,
            rounds: [0, 1].map(|way| classes[way].map_or(u32::MAX, |_| rounds(way))),
            leads,
        }
    };
    let infos = weekly.picks.iter().zip(classes).zip(leads).map(info).collect();
    (infos, days)
}
