//! What a range costs that is missed by a little, and by more.

use weekwright::input::plan::Plan;

use super::shape::plan;

/// Costs of ranges whose low end is missed, from the plan's own table: nothing up to a set, then by half-sets.
fn costs_beyond_a_set(plan: &Plan) -> f64 {
    let beyond = |low: f64, sets: f64| ((low - sets) * 2.0 - 2.0).max(0.0);
    let of_muscles = plan.volume.iter().filter_map(|muscle| {
        let cost = if muscle.muscle.is_major() { 20.0 } else { 10.0 };
        Some(cost * beyond(muscle.low?, muscle.sets))
    });
    of_muscles.sum()
}

/// No study tells nine and a half sets from ten: a range that is missed by a set is weighed with the rest of the view.
#[test]
fn a_range_is_missed_by_a_set_before_it_costs() {
    let [mut costly, mut near] = [0, 0];
    for minutes in [15, 20, 25, 30, 40] {
        let plan = plan(&format!(
            "goal: strength\ntraining_status: intermediate\n\
             equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar]\n\
             sessions: [{{day: mon, minutes: {minutes}}}, {{day: thu, minutes: {minutes}}}]"
        ));
        let solve = plan.solve.as_ref().expect("a plan says how it was found");
        let told = solve.points.iter().filter(|one| one.tier == "ranges and balance");
        let told: f64 = told.filter(|one| one.rule == "weekly-volume").map(|one| one.value).sum();
        assert!((told - costs_beyond_a_set(&plan)).abs() < 1e-6, "{minutes} min: {told}");
        costly += u32::from(told > 0.0);
        let under = plan.volume.iter().filter(|one| one.low.is_some_and(|low| one.sets < low));
        near += u32::from(
            under.clone().count() > 0
                && under.clone().any(|one| one.low.is_some_and(|low| one.sets >= low - 1.0)),
        );
    }
    assert!(
        costly > 0 && near > 0,
        "{costly} with costs, {near} with a range missed by a set at most"
    );
}
