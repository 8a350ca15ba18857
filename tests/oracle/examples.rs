//! The small models of the scheduling literature, solved through our model and backend, and by the second solver.

use weekwright::inner::backend::{Nothing, maximize};
use weekwright::inner::export::free_mps;
use weekwright::inner::{Model, Op, Row, Settles, Term, Var, VarDef, value};

use super::second;

/// A goal's greatest value and the values there, the same by both solvers.
fn solved(model: &Model, goal: &[Term]) -> (f64, Vec<f64>) {
    let found = maximize(model, goal, None).expect("it can be met");
    assert!(found.proven && (found.objective - found.bound).abs() < 1e-6);
    assert!((value(goal, &found.values) - found.objective).abs() < 1e-6);
    let other = second::greatest(model, goal).expect("the second solver agrees that it can be met");
    assert!((other - found.objective).abs() < 1e-6, "{} and {other}", found.objective);
    (found.objective, found.values)
}

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-6, "{one}, not {other}");
}

fn number(model: &mut Model, name: &str, high: f64) -> Var {
    let settles = Settles::Decision;
    model.var(VarDef { name: name.to_owned(), low: 0.0, high, integer: false, settles })
}

/// OP-01 (Chinneck 2008): two days hold five sets each, twelve are wanted, and minutes are no matter.
pub(super) fn two_days() -> (Model, Var, Var) {
    let mut model = Model::default();
    let one = model.integer("s1".to_owned(), 0, 100);
    let two = model.integer("s2".to_owned(), 0, 100);
    model.demand("target", "week", vec![(one, 1.0), (two, 1.0)], Op::Ge, 12.0);
    model.demand("cap-1", "day", vec![(one, 1.0)], Op::Le, 5.0);
    model.demand("cap-2", "day", vec![(two, 1.0)], Op::Le, 5.0);
    model.demand("time", "week", vec![(one, 2.5), (two, 2.5)], Op::Le, 40.0);
    (model, one, two)
}

fn without(model: &Model, rule: &str) -> Model {
    let rows = model.rows.iter().filter(|row| row.rule != rule).cloned();
    Model { vars: model.vars.clone(), rows: rows.collect::<Vec<Row>>() }
}

/// OP-01, OP-02 (Guieu & Chinneck 1999): the deletion filter finds the only minimal conflict with one solve a row.
#[test]
fn the_deletion_filter_finds_the_conflict_in_four_solves() {
    let (model, ..) = two_days();
    assert_eq!(maximize(&model, &[], None), Err(Nothing::Infeasible));
    assert_eq!(second::greatest(&model, &[]), None);
    let mut kept = model.clone();
    let mut solves = 0;
    for row in &model.rows {
        let fewer = without(&kept, row.rule);
        solves += 1;
        let met = maximize(&fewer, &[], None).is_ok();
        assert_eq!(second::greatest(&fewer, &[]).is_some(), met, "{}", row.rule);
        if !met {
            kept = fewer;
        }
    }
    let conflict: Vec<&str> = kept.rows.iter().map(|row| row.rule).collect();
    assert_eq!((conflict, solves), (vec!["target", "cap-1", "cap-2"], 4));
}

/// OP-03 (Chinneck 2008): elastic, the target falls short by two.
#[test]
fn the_elastic_model_falls_short_by_two() {
    let (mut model, one, two) = two_days();
    let slack = model.least("slack".to_owned(), 100.0);
    model.rows[0].terms.push((slack, 1.0));
    let (best, values) = solved(&model, &[(slack, -1.0)]);
    near(best, -2.0);
    assert_eq!((values[one.0].round(), values[two.0].round()), (5.0, 5.0));
}

/// OP-04 (Ignizio 1983; a solver guide's example) and OP-05: goals in order, each held before the next, reach
/// 0, 0 and 5 at (6, 0).
#[test]
fn goals_in_order_reach_0_0_and_5() {
    let mut model = Model::default();
    let x = number(&mut model, "x", 20.0);
    let y = number(&mut model, "y", 20.0);
    model.demand("budget", "week", vec![(x, 100.0), (y, 60.0)], Op::Le, 600.0);
    let mut missing = |name: &str| model.least(name.to_owned(), 200.0);
    let (under_1, under_2, over_2, under_3) =
        (missing("u1"), missing("u2"), missing("o2"), missing("u3"));
    model.demand("goal-1", "week", vec![(x, 7.0), (y, 3.0), (under_1, 1.0)], Op::Ge, 40.0);
    let second = vec![(x, 10.0), (y, 5.0), (under_2, 1.0), (over_2, -1.0)];
    model.demand("goal-2", "week", second, Op::Eq, 60.0);
    model.demand("goal-3", "week", vec![(x, 5.0), (y, 4.0), (under_3, 1.0)], Op::Ge, 35.0);
    let goals: [Vec<Term>; 3] =
        [vec![(under_1, -1.0)], vec![(under_2, -1.0), (over_2, -1.0)], vec![(under_3, -1.0)]];
    let mut reached = Vec::new();
    let mut values = Vec::new();
    for goal in &goals {
        let found = maximize(&model, goal, None).expect("each stage can be met");
        let held = 1e-6_f64.max(1e-6 * found.objective.abs());
        model.demand("held", "stage", goal.clone(), Op::Ge, found.objective - held);
        reached.push(-found.objective);
        values = found.values;
    }
    near(reached[0], 0.0);
    near(reached[1], 0.0);
    assert!((reached[2] - 5.0).abs() < 1e-4, "{}", reached[2]);
    assert!((values[x.0] - 6.0).abs() < 1e-4 && values[y.0].abs() < 1e-4, "{values:?}");
}

/// OP-06 (Haimes et al. 1971; Miettinen 1999): 40, 50 and 60 minutes at two and a half hold 16, 20 and 24 sets.
#[test]
fn minutes_bound_the_sets() {
    for (minutes, sets) in [(40.0, 16.0), (50.0, 20.0), (60.0, 24.0)] {
        let mut model = Model::default();
        let done = model.integer("sets".to_owned(), 0, 100);
        model.demand("time", "week", vec![(done, 2.5)], Op::Le, minutes);
        near(solved(&model, &[(done, 1.0)]).0, sets);
    }
}

/// OP-07 (Miettinen 1999): no weights pick (3, 3.5) of (1, 5), (3, 3.5), (5, 1); a bound on one goal does.
#[test]
fn a_weighted_sum_misses_a_point_that_a_bound_finds() {
    const POINTS: [(f64, f64); 3] = [(1.0, 5.0), (3.0, 3.5), (5.0, 1.0)];
    let least = |weights: (f64, f64), bound: f64| -> usize {
        let mut model = Model::default();
        let picks: Vec<Var> = (0..3).map(|place| model.binary(format!("p{place}"))).collect();
        model.demand("one", "point", picks.iter().map(|pick| (*pick, 1.0)).collect(), Op::Eq, 1.0);
        let first = picks.iter().zip(POINTS).map(|(pick, point)| (*pick, point.0)).collect();
        model.demand("bound", "point", first, Op::Le, bound);
        let cost = |point: (f64, f64)| weights.0 * point.0 + weights.1 * point.1;
        let goal: Vec<Term> =
            picks.iter().zip(POINTS).map(|(pick, point)| (*pick, -cost(point))).collect();
        let (_, values) = solved(&model, &goal);
        picks.iter().position(|pick| values[pick.0] > 0.5).unwrap()
    };
    for tenth in 0..=10 {
        let weight = f64::from(tenth) / 10.0;
        assert_ne!(least((weight, 1.0 - weight), 5.0), 1, "weight {weight}");
    }
    assert_eq!(least((0.0, 1.0), 4.0), 1);
}

/// OP-08 (linear programming theory): falling slopes fill in order without yes-or-no variables.
#[test]
fn a_concave_benefit_fills_in_order() {
    let mut model = Model::default();
    let sets = model.integer("sets".to_owned(), 0, 12);
    let steps = [(3.0, 4.0), (2.0, 6.0), (1.0, 10.0)];
    let parts: Vec<Var> =
        steps.iter().map(|(slope, width)| model.most(format!("at_{slope}"), *width)).collect();
    let mut row: Vec<Term> = parts.iter().map(|part| (*part, 1.0)).collect();
    row.push((sets, -1.0));
    model.demand("sum", "week", row, Op::Le, 0.0);
    let goal: Vec<Term> =
        parts.iter().zip(steps).map(|(part, (slope, _))| (*part, slope)).collect();
    let (best, values) = solved(&model, &goal);
    near(best, 26.0);
    near(values[parts[0].0], 4.0);
    near(values[parts[1].0], 6.0);
    near(values[parts[2].0], 2.0);
}

/// OU-12, OU-13: four other solvers gave 39.0 at (6, 6) for this model, and every column needs its bounds written.
#[test]
fn bench_and_fly_cost_39_at_6_and_6() {
    let mut model = Model::default();
    let bench = model.integer("bench".to_owned(), 0, 6);
    let fly = model.integer("fly".to_owned(), 0, 10);
    model.demand("chest", "week", vec![(bench, 1.0), (fly, 0.5)], Op::Ge, 9.0);
    model.demand("time", "week", vec![(bench, 4.0), (fly, 2.5)], Op::Le, 40.0);
    let goal = [(bench, -4.0), (fly, -2.5)];
    let (best, values) = solved(&model, &goal);
    near(best, -39.0);
    assert_eq!((values[bench.0], values[fly.0]), (6.0, 6.0));
    let text = free_mps(&model, &goal, "split");
    assert!(text.contains(" UP bnd bench 6\n") && text.contains(" UP bnd fly 10\n"), "{text}");
}
