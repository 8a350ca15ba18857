//! A second solver: the same model as pseudo-boolean sums, encoded by counting or with binary adders (Warners 1998) and decided by a
//! SAT solver; the best value is found by asking for a better one until there is none.

use rustsat::encodings::pb::{self, BinaryAdder, DoubleGeneralizedTotalizer};
use rustsat::instances::SatInstance;
use rustsat::solvers::{Solve as _, SolverResult};
use rustsat::types::constraints::PbConstraint;
use rustsat::types::{Lit, TernaryVal};
use rustsat_batsat::BasicSolver;
use weekwright::inner::{Model, Op, Settles, Term, merged};

/// Factors have up to two decimals, and so have the values that continuous variables take at a best solution.
const HUNDREDTHS: f64 = 100.0;
const ROUNDING: f64 = 1e-3;
/// Sums from here on are added in binary; smaller ones counted one by one, which the solver sees through faster.
const LARGE: usize = 400;

/// A variable as a sum of bits, in units of its own.
struct Bits {
    low: f64,
    unit: f64,
    places: Vec<(Lit, f64)>,
}

/// The greatest value of a goal, or `None` where the rows collide.
pub(crate) fn greatest(model: &Model, goal: &[Term]) -> Option<f64> {
    let mut instance: SatInstance = SatInstance::new();
    let vars: Vec<Bits> = model
        .vars
        .iter()
        .enumerate()
        .map(|(place, var)| {
            let unit = if is_whole(model, place) { 1.0 } else { 1.0 / HUNDREDTHS };
            let steps = whole(((needed(model, place) - var.low) / unit).ceil());
            let count = isize::BITS - steps.leading_zeros();
            let bits: Vec<(Lit, f64)> =
                (0..count).map(|bit| (instance.new_lit(), f64::from(1_u32 << bit))).collect();
            let sum = bits.iter().map(|(lit, value)| (*lit, whole(*value)));
            instance.add_pb_constr(PbConstraint::new_ub(sum.collect::<Vec<_>>(), steps));
            Bits { low: var.low, unit, places: bits }
        })
        .collect();
    for row in &model.rows {
        let (terms, constant) = summed(&vars, &row.terms);
        let right = row.right * HUNDREDTHS * HUNDREDTHS - constant;
        let (terms, right) = divided(terms, row.op, right);
        instance.add_pb_constr(match row.op {
            Op::Le => PbConstraint::new_ub(terms, right),
            Op::Ge => PbConstraint::new_lb(terms, right),
            Op::Eq => PbConstraint::new_eq(terms, right),
        });
    }
    best(instance, &vars, goal)
}

/// The most that a variable can be good for: a cost need not exceed what its rows can lack.
fn needed(model: &Model, place: usize) -> f64 {
    let var = &model.vars[place];
    if var.settles != Settles::Least {
        return var.high;
    }
    let mut needed = var.low;
    for row in &model.rows {
        let Some((_, own)) = row.terms.iter().find(|(var, _)| var.0 == place) else { continue };
        let others = row.terms.iter().filter(|(var, _)| var.0 != place);
        let ends = others.map(|(var, factor)| {
            let var = &model.vars[var.0];
            [factor * var.low, factor * var.high]
        });
        let lacks = match row.op {
            Op::Le => ends.map(|[low, high]| low.max(high)).sum::<f64>() - row.right,
            Op::Ge => row.right - ends.map(|[low, high]| low.min(high)).sum::<f64>(),
            Op::Eq => return var.high,
        };
        needed = needed.max(lacks / own.abs());
    }
    needed.min(var.high)
}

/// Whether a variable is whole at a best solution: it is by itself, or all that bounds it is.
fn is_whole(model: &Model, place: usize) -> bool {
    let rows = model.rows.iter().filter(|row| row.terms.iter().any(|(var, _)| var.0 == place));
    let whole = |factor: f64| factor.fract() == 0.0;
    model.vars[place].integer
        || rows.clone().all(|row| {
            whole(row.right)
                && row.terms.iter().all(|(var, factor)| {
                    whole(*factor) && (var.0 == place || model.vars[var.0].integer)
                })
        })
}

/// A row over its factors' greatest common divisor. The left side is whole, so that a right side between two whole
/// numbers is moved to the one inside.
fn divided(terms: Vec<(Lit, isize)>, op: Op, right: f64) -> (Vec<(Lit, isize)>, isize) {
    let common =
        terms.iter().fold(0, |common, (_, factor)| greatest_common(common, *factor)).max(1);
    let right = right / from_whole(common);
    let right = match op {
        Op::Le => whole((right + ROUNDING).floor()),
        Op::Ge => whole((right - ROUNDING).ceil()),
        Op::Eq => whole(right),
    };
    (terms.into_iter().map(|(lit, factor)| (lit, factor / common)).collect(), right)
}

fn greatest_common(one: isize, other: isize) -> isize {
    if other == 0 { one.abs() } else { greatest_common(other, one % other) }
}

fn best(mut instance: SatInstance, vars: &[Bits], goal: &[Term]) -> Option<f64> {
    let (terms, constant) = summed(vars, goal);
    let common =
        terms.iter().fold(0, |common, (_, factor)| greatest_common(common, *factor)).max(1);
    let terms: Vec<(Lit, isize)> =
        terms.into_iter().map(|(lit, factor)| (lit, factor / common)).collect();
    let mut found = None;
    loop {
        let (cnf, _) = instance.clone().into_cnf_with_encoders(
            |_, _, _| unreachable!("every row is a sum"),
            |sum, cnf, manager| {
                if sum.weight_sum() < LARGE {
                    pb::encode_pb_constraint::<DoubleGeneralizedTotalizer, _>(sum, cnf, manager)
                        .unwrap();
                } else {
                    pb::encode_pb_constraint::<BinaryAdder, _>(sum, cnf, manager).unwrap();
                }
            },
        );
        let mut solver = BasicSolver::default();
        solver.add_cnf(cnf).unwrap();
        if solver.solve().unwrap() != SolverResult::Sat {
            break;
        }
        // A bit that is in no clause may be anything, so it is no.
        let is_set = |lit: Lit| solver.lit_val(lit).is_ok_and(|value| value == TernaryVal::True);
        let value: isize = terms.iter().filter(|(lit, _)| is_set(*lit)).map(|(_, sum)| sum).sum();
        found = Some((constant + from_whole(value * common)) / (HUNDREDTHS * HUNDREDTHS));
        instance.add_pb_constr(PbConstraint::new_lb(terms.clone(), value + 1));
    }
    found
}

/// Terms over bits in ten-thousandths, and what the least values of the variables give.
fn summed(vars: &[Bits], terms: &[Term]) -> (Vec<(Lit, isize)>, f64) {
    let mut sum = Vec::new();
    let mut constant = 0.0;
    for (var, factor) in terms {
        let Bits { low, unit, places } = &vars[var.0];
        let factor = factor * HUNDREDTHS * HUNDREDTHS;
        constant += factor * low;
        sum.extend(places.iter().map(|(lit, value)| (*lit, whole(factor * unit * value))));
    }
    (sum, constant)
}

#[allow(clippy::cast_possible_truncation, reason = "checked to be whole and small")]
fn whole(value: f64) -> isize {
    let rounded = value.round();
    assert!((value - rounded).abs() < 1e-3 && rounded.abs() < 1e12, "{value} is not whole");
    rounded as isize
}

#[allow(clippy::cast_precision_loss, reason = "under 1e12")]
fn from_whole(value: isize) -> f64 {
    value as f64
}

/// What a variable is the sum of: the other terms of the equation that ends with it.
pub(super) fn summed_by(model: &Model, var: usize) -> Option<Vec<Term>> {
    let row = model
        .rows
        .iter()
        .find(|row| row.op == Op::Eq && row.terms.last().is_some_and(|(last, _)| last.0 == var))?;
    let others = &row.terms[..row.terms.len() - 1];
    Some(others.iter().map(|(other, factor)| (*other, -factor)).collect())
}

/// The model with sums written out and their equations left out.
pub(super) fn written_out(model: &Model) -> Model {
    let is_sum = |var: usize| model.vars[var].settles == Settles::Equal;
    let mut model = model.clone();
    while let Some((place, at)) = model.rows.iter().enumerate().find_map(|(place, row)| {
        let ends = row.terms.len() - usize::from(row.op == Op::Eq);
        let at = row.terms[..ends].iter().position(|(var, _)| is_sum(var.0))?;
        Some((place, at))
    }) {
        let (var, factor) = model.rows[place].terms.remove(at);
        let terms = summed_by(&model, var.0).expect("a sum has its row");
        let row = &mut model.rows[place];
        row.terms.extend(terms.into_iter().map(|(other, by)| (other, factor * by)));
        row.terms = merged(std::mem::take(&mut row.terms));
    }
    model.rows.retain(|row| !row.terms.iter().any(|(var, _)| is_sum(var.0)));
    model
}
