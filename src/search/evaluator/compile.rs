//! From rows to numbers: for each variable that settles and each row that can be broken, the number that it is read
//! off. Rows of any shape are taken: where a short way does not fit, a longer one does.

use std::collections::BTreeMap;

use super::reading::{Own, Reading};
use super::score::{ROUNDING, Score};
use super::settling::{Push, Settling};
use super::sums::{Input, Sum, Sums};
use crate::model::Weekly;
use crate::program::{Op, Settles};

/// What a variable is.
#[derive(Clone, Copy)]
pub(super) enum Source {
    Constant(f64),
    /// A number times a factor, and a constant.
    Linear(usize, [f64; 2]),
    /// Read off a number, by one of its readings, at a place there.
    Value(usize, usize, usize),
}

/// A model's rows as numbers.
pub(super) struct Compiled {
    pub(super) sums: Sums,
    pub(super) sources: Vec<Option<Source>>,
    /// What stands whatever is done.
    pub(super) constant: Score,
    /// What picks themselves bring: by their being done, and by each further set.
    pub(super) by_pick: Vec<[Score; 2]>,
    /// By variable that is nobody's sum: what pairs bring, by day and pair, or by who is paired.
    pub(super) by_pair: Vec<Score>,
    pub(super) by_mark: BTreeMap<usize, Score>,
}

struct Compiler<'w, 'a> {
    weekly: &'w Weekly<'a>,
    settling: Settling<'w>,
    /// The pick of a variable, and whether it counts its further sets.
    pick_of: Vec<Option<(usize, usize)>>,
    /// The variables of pairs of each day: who is paired, and how many of two classes with what one saves.
    paired: Vec<Vec<usize>>,
    counts: Vec<Vec<(usize, f64)>>,
    pair_day: BTreeMap<usize, usize>,
    /// Rows that are read off a number already.
    is_read: Vec<bool>,
    out: Compiled,
}

/// The numbers of a model, for weeks with at most some exercises a day.
pub(super) fn compiled(weekly: &Weekly, most_items: usize) -> Compiled {
    let mut compiler = Compiler::new(weekly, most_items);
    for var in 0..weekly.model.vars.len() {
        if compiler.settling.settles(var) && compiler.out.sources[var].is_none() {
            compiler.settle(var);
        }
    }
    for row in 0..weekly.model.rows.len() {
        if !compiler.is_read[row] && compiler.settling.can_break(row) {
            let (sum, constant) = compiler.collected(compiler.terms(row, |_| true));
            let settling = &compiler.settling;
            if sum.is_empty() {
                compiler.out.constant.broken += settling.broken(row, constant);
            } else {
                compiler.read(row, (&sum, constant), Vec::new(), true);
            }
        }
    }
    compiler.goals();
    compiler.out
}

impl<'w, 'a> Compiler<'w, 'a> {
    fn new(weekly: &'w Weekly<'a>, most_items: usize) -> Compiler<'w, 'a> {
        let count = weekly.model.vars.len();
        let days = weekly.request.days.len();
        let mut pick_of = vec![None; count];
        let (mut paired, mut counts) = (vec![Vec::new(); days], vec![Vec::new(); days]);
        for (place, pick) in weekly.picks.iter().enumerate() {
            pick_of[pick.chosen.0] = Some((place, 0));
            pick_of[pick.extra.0] = Some((place, 1));
            paired[pick.day].extend(pick.paired().map(|var| var.0));
        }
        for pair in &weekly.pairs {
            counts[pair.day].push((pair.count.0, f64::from(pair.saves_s)));
        }
        let of_days = |vars: Vec<(usize, Vec<usize>)>| {
            vars.into_iter().flat_map(|(day, vars)| vars.into_iter().map(move |var| (var, day)))
        };
        let who = of_days(paired.iter().cloned().enumerate().collect());
        let which = counts.iter().map(|of_day| of_day.iter().map(|(var, _)| *var).collect());
        let which = of_days(which.enumerate().collect());
        Compiler {
            weekly,
            settling: Settling::new(weekly),
            pick_of,
            pair_day: who.chain(which).collect(),
            paired,
            counts,
            is_read: vec![false; weekly.model.rows.len()],
            out: Compiled {
                sums: Sums::new(weekly, most_items),
                sources: vec![None; count],
                constant: Score::default(),
                by_pick: vec![[Score::default(); 2]; weekly.picks.len()],
                by_pair: vec![Score::default(); days],
                by_mark: BTreeMap::new(),
            },
        }
    }

    /// The terms of a row whose variables pass a test.
    fn terms(&self, row: usize, test: impl Fn(usize) -> bool) -> Vec<(usize, f64)> {
        let terms = self.weekly.model.rows[row].terms.iter();
        terms.map(|(var, by)| (var.0, *by)).filter(|(var, _)| test(*var)).collect()
    }

    /// Finds what a variable is, by the rows that push it.
    fn settle(&mut self, var: usize) {
        let mut range = [0.0, self.weekly.model.vars[var].high];
        let mut pushes: Vec<(Push, Sum<f64>, f64)> = Vec::new();
        for push in self.settling.pushes[var].clone() {
            let is_before = |other: usize| other < var || !self.settling.settles(other);
            let (sum, constant) = self.collected(self.terms(push.row, is_before));
            if sum.is_empty() {
                self.settling.bound(push, constant, &mut range);
            } else {
                pushes.push((push, sum, constant));
            }
        }
        let source = match pushes.as_slice() {
            [] => self.constant(var, range),
            [(push, ..)] if self.is_read_with_its_row(var, push.row) => {
                return self.read_with_own(push.row);
            }
            _ if self.is_any(var, range, &pushes) => self.any(var, range, &pushes),
            [(push, sum, constant)] => {
                let own = Own::new(&self.settling, var, push.factor, range);
                let (node, reading) = self.read(push.row, (sum, *constant), vec![own], false);
                Source::Value(node, reading, 0)
            }
            _ => self.extreme(var, range, &pushes),
        };
        self.out.sources[var] = Some(source);
    }

    /// A variable that nothing of the week moves.
    fn constant(&mut self, var: usize, range: [f64; 2]) -> Source {
        let value = Own::new(&self.settling, var, 1.0, range).value_alone();
        self.out.constant.add(&self.settling.goals[var], value);
        Source::Constant(value)
    }

    /// The variables of a row that no other row pushes.
    fn own(&self, row: usize) -> Vec<(usize, f64)> {
        self.terms(row, |var| {
            let pushes = &self.settling.pushes[var];
            pushes.len() == 1 && pushes[0].row == row
        })
    }

    /// Whether a variable and others of a row's own settle by the number that the rest of the row makes: not where a
    /// part of this rest is settled after one of them.
    fn is_read_with_its_row(&self, var: usize, row: usize) -> bool {
        let own = self.own(row);
        let is_own = |var: usize| own.iter().any(|(own, _)| *own == var);
        let is_late =
            |other: usize| self.settling.settles(other) && other > own[0].0 && !is_own(other);
        is_own(var) && self.terms(row, is_late).is_empty()
    }

    fn read_with_own(&mut self, row: usize) {
        let own = self.own(row);
        let rest = self.terms(row, |var| own.iter().all(|(own, _)| *own != var));
        let (sum, constant) = self.collected(rest);
        let high = |var: usize| self.weekly.model.vars[var].high;
        let known =
            |(var, by): &(usize, f64)| Own::new(&self.settling, *var, *by, [0.0, high(*var)]);
        let owned = own.iter().map(known).collect();
        let can_break = self.settling.can_break(row);
        let (node, reading) = self.read(row, (&sum, constant), owned, can_break);
        self.is_read[row] = true;
        for (place, (var, _)) in own.iter().enumerate() {
            self.out.sources[*var] = Some(Source::Value(node, reading, place));
        }
        if let [(var, by)] = own.as_slice()
            && self.weekly.model.vars[*var].settles == Settles::Equal
        {
            self.keep_linear(*var, *by, row, (&sum, constant));
        }
    }

    /// A variable that is a sum stays one, where it never passes its bounds.
    fn keep_linear(&mut self, var: usize, by: f64, row: usize, (sum, constant): (&Sum<f64>, f64)) {
        let (node, factor) = self.out.sums.number(sum);
        let line = [-factor / by, (self.weekly.model.rows[row].right - constant) / by];
        let number = &self.out.sums.nodes[node];
        let ends = number.range.map(|end| line[0] * f64::from(end) + line[1]);
        let room = ROUNDING + line[0].abs() * f64::from(number.spare);
        let fits = |end: &f64| *end >= -room && *end <= self.weekly.model.vars[var].high + room;
        if ends.iter().all(fits) {
            self.out.sources[var] = Some(Source::Linear(node, line));
        }
    }

    /// Reads a row off the number of a sum: which one, and the place of the reading there.
    fn read(
        &mut self,
        row: usize,
        (sum, constant): (&Sum<f64>, f64),
        own: Vec<Own>,
        can_break: bool,
    ) -> (usize, usize) {
        let (node, factor) = self.out.sums.number(sum);
        let reading = Reading::of_row(&self.settling, row, [factor, constant], can_break, own);
        (node, self.out.sums.add(node, reading))
    }

    /// Whether a variable says that anything at all of some picks is done.
    fn is_any(&self, var: usize, range: [f64; 2], pushes: &[(Push, Sum<f64>, f64)]) -> bool {
        let def = &self.weekly.model.vars[var];
        let fits = |(push, sum, constant): &(Push, Sum<f64>, f64)| {
            let row = &self.weekly.model.rows[push.row];
            let all_picks = sum.pairs.is_empty() && sum.marks.is_empty() && sum.inputs.is_empty();
            row.op == Op::Le
                && row.right == *constant
                && (push.factor == -1.0 || (def.integer && push.factor < 0.0))
                && all_picks
                && sum.picks.values().all(|factors| *factors == [1.0, 0.0])
        };
        def.settles == Settles::Least && range == [0.0, 1.0] && pushes.iter().all(fits)
    }

    fn any(&mut self, var: usize, range: [f64; 2], pushes: &[(Push, Sum<f64>, f64)]) -> Source {
        let mut all = Sum::<f64>::default();
        for (_, sum, _) in pushes {
            for pick in sum.picks.keys() {
                all.picks.entry(*pick).or_default()[0] += 1.0;
            }
        }
        let (node, factor) = self.out.sums.number(&all);
        let own = Own::new(&self.settling, var, -1.0, range);
        Source::Value(node, self.out.sums.add(node, Reading::at_least(factor, own)), 0)
    }

    /// A variable that several rows push: each gives it a value, and the least or greatest holds.
    fn extreme(&mut self, var: usize, range: [f64; 2], pushes: &[(Push, Sum<f64>, f64)]) -> Source {
        let mut of = Vec::new();
        for (push, sum, constant) in pushes {
            let own = Own::new(&self.settling, var, push.factor, range).without_goals();
            of.push(self.read(push.row, (sum, *constant), vec![own], false));
        }
        let def = &self.weekly.model.vars[var];
        let is_least = def.settles == Settles::Least;
        let node = self.out.sums.extreme(is_least, def.high, of);
        let scale = self.out.sums.nodes[node].extreme.as_ref().map_or(1.0, |extreme| extreme.scale);
        let own = Own::new(&self.settling, var, 1.0, range);
        let reading = Reading::of_value(own, [1.0 / scale, 0.0]);
        Source::Value(node, self.out.sums.add(node, reading), 0)
    }

    /// Terms as a linear combination of decisions and of what is settled before, and their constant part.
    fn collected(&self, terms: Vec<(usize, f64)>) -> (Sum<f64>, f64) {
        let (mut sum, mut constant) = (Sum::default(), 0.0);
        let mut pairs: BTreeMap<usize, BTreeMap<usize, f64>> = BTreeMap::new();
        for (var, by) in terms {
            if let Some((pick, which)) = self.pick_of[var] {
                sum.picks.entry(pick).or_insert([0.0; 2])[which] += by;
            } else if let Some(day) = self.pair_day.get(&var) {
                pairs.entry(*day).or_default().insert(var, by);
            } else {
                match self.out.sources[var] {
                    // Nobody decides it.
                    None => {}
                    Some(Source::Constant(value)) => constant += by * value,
                    Some(Source::Linear(node, [factor, more])) => {
                        *sum.inputs.entry(Input::Number(node)).or_default() += by * factor;
                        constant += by * more;
                    }
                    Some(Source::Value(node, reading, own)) => {
                        *sum.inputs.entry(Input::Value(node, reading, own)).or_default() += by;
                    }
                }
            }
        }
        for (day, factors) in pairs {
            match self.by_the_pair(day, &factors) {
                Some(by) => _ = sum.pairs.insert(day, by),
                None => sum.marks.extend(factors),
            }
        }
        sum.inputs.retain(|_, by| *by != 0.0);
        (sum, constant)
    }

    /// What each pair of a day and each saved second brings, where some factors of its variables say no more.
    fn by_the_pair(&self, day: usize, factors: &BTreeMap<usize, f64>) -> Option<[f64; 2]> {
        let of = |var: &usize| factors.get(var).copied().unwrap_or(0.0);
        let same = |values: Vec<f64>| -> Option<f64> {
            let first = values.first().copied().unwrap_or(0.0);
            values.iter().all(|value| (value - first).abs() < 1e-9).then_some(first)
        };
        let paired = same(self.paired[day].iter().map(of).collect())?;
        let counts = &self.counts[day];
        let of_count = |(var, _): &(usize, f64)| of(var);
        if let Some(count) = same(counts.iter().map(of_count).collect()) {
            return Some([2.0 * paired + count, 0.0]);
        }
        let by_second = |count: &&(usize, f64)| count.1 > 0.0;
        let rates = counts.iter().filter(by_second).map(|count| of_count(count) / count.1);
        let rate = same(rates.collect())?;
        let free = counts.iter().filter(|count| !by_second(count)).map(of_count);
        (same(free.collect())? == 0.0).then_some([2.0 * paired, rate])
    }

    /// What decisions themselves cost or bring.
    fn goals(&mut self) {
        let goals = &self.settling.goals;
        for (place, pick) in self.weekly.picks.iter().enumerate() {
            self.out.by_pick[place] = [goals[pick.chosen.0], goals[pick.extra.0]];
        }
        let none = Score::default();
        for day in 0..self.paired.len() {
            let counts: Vec<usize> = self.counts[day].iter().map(|(var, _)| *var).collect();
            let first = |vars: &[usize]| vars.first().map_or(none, |var| goals[*var]);
            let [paired, count] = [first(&self.paired[day]), first(&counts)];
            let alike = self.paired[day].iter().all(|var| goals[*var] == paired)
                && counts.iter().all(|var| goals[*var] == count);
            if alike {
                self.out.by_pair[day].add(&paired, 2.0);
                self.out.by_pair[day].add(&count, 1.0);
            } else {
                let vars = self.paired[day].iter().chain(&counts);
                let worth_some = vars.filter(|var| goals[**var] != none);
                self.out.by_mark.extend(worth_some.map(|var| (*var, goals[*var])));
            }
        }
    }
}
