//! How a wish is paid: by place, by days and by sets. Common practice.

use itertools::Itertools as _;
use weekwright::input::plan::Plan;
use weekwright::words::{GroupKind, Muscle, Pattern, Turn};

use super::choosing::request;
use super::shape::{items, plan};
use crate::rules::check::PLANNER;

/// The days, from 0 on, on which an exercise comes, with its place among the work of the day.
pub(super) fn places(plan: &Plan, id: &str) -> Vec<(usize, usize)> {
    let mut places = Vec::new();
    for day in 0..plan.sessions.len() {
        let of_day = items(plan).filter(|(other, _)| *other == day);
        let place = of_day.enumerate().find(|(_, (_, item))| item.exercise == id);
        places.extend(place.map(|(place, _)| (day, place)));
    }
    places
}

const FOUR_DAYS: &str = "training_status: intermediate\n\
    equipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, cable-station, leg-press, leg-curl-machine]\n\
    sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: fri, minutes: 60}]\n";

#[test]
fn the_week_opens_with_what_is_wished() {
    let glutes = plan(&format!("goal: hypertrophy\nemphasis: {{glutes: more}}\n{FOUR_DAYS}"));
    let chest = plan(&format!("goal: hypertrophy\nemphasis: {{chest: more}}\n{FOUR_DAYS}"));
    let first_pattern = |plan: &Plan| {
        let (_, first) = items(plan).next().expect("work");
        PLANNER.catalog().get(&first.exercise).and_then(|entry| entry.pattern)
    };
    let legs = [Pattern::HipExtension, Pattern::Hinge, Pattern::Squat].map(Some);
    assert!(legs.contains(&first_pattern(&glutes)), "{:?}", first_pattern(&glutes));
    assert_eq!(first_pattern(&chest), Some(Pattern::HorizontalPush));
}

#[test]
fn what_is_asked_for_comes_again_and_leads() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: intermediate\nexercises: {must: [lat-pulldown]}\n\
         equipment: [dumbbells, bench, lat-pulldown, leg-press, chest-press-machine]\n\
         sessions: [{day: mon, minutes: 50}, {day: wed, minutes: 50}, {day: fri, minutes: 50}]\n",
    );
    let days = places(&plan, "lat-pulldown");
    assert_eq!(days.len(), 2, "{days:?}");
    assert!(days.iter().any(|(_, place)| *place == 0), "{days:?}");
}

#[test]
fn the_bench_is_heavy_before_it_is_light() {
    let plan = plan(
        "goal: strength\ntraining_status: advanced\nemphasis: {chest: more, triceps: more}\n\
         equipment: [barbell, squat-rack, safety-arms, bench, pull-up-bar, dip-bars, dip-belt, weight-plate, resistance-band]\n\
         sessions: [{day: mon, minutes: 80}, {day: tue, minutes: 60}, {day: thu, minutes: 90}, {day: sat, minutes: 75}]\n\
         exercises: {must: [back-squat, bench-press, deadlift]}\n\
         known_lifts: {back-squat: {load: 160, reps: 5, rir: 2}, bench-press: {load: 110, reps: 5, rir: 2}, \
         deadlift: {load: 190, reps: 4, rir: 2}, overhead-press: {load: 65, reps: 5, rir: 2}}\n",
    );
    let turns: Vec<_> = items(&plan)
        .filter(|(_, item)| item.exercise == "bench-press")
        .map(|(_, item)| item.turn)
        .collect();
    assert_eq!(turns[0], Some(Turn::Heavier));
    assert!(turns[1..].iter().all(|turn| *turn == Some(Turn::Lighter)));
    // Its second day is its own or that of a form of it.
    let forms = ["bench-press", "paused-bench-press", "close-grip-bench-press"];
    let days: Vec<_> = items(&plan)
        .filter(|(_, item)| forms.contains(&item.exercise.as_str()))
        .map(|(day, _)| day)
        .collect();
    assert!(days.iter().any(|day| *day != days[0]), "{days:?}");
}

#[test]
fn two_bells_go_in_turn() {
    let plan = plan(
        "goal: fat-loss\ntraining_status: novice\nsupersets: prefer\n\
         equipment: {kettlebell: {masses_kg: [8, 12]}, chair: 1}\n\
         sessions: [{day: mon, minutes: 30}, {day: wed, minutes: 30}, {day: fri, minutes: 30}]\n",
    );
    let with_a_bell = |id: &str| {
        let entry = PLANNER.catalog().get(id).expect("it is in the catalog");
        !entry.needs.iter().any(Vec::is_empty)
    };
    let pairs = plan.sessions.iter().flat_map(|session| &session.groups);
    let mut pairs = pairs.filter(|group| group.kind == GroupKind::Superset);
    assert!(pairs.any(|pair| pair.items.iter().all(|item| with_a_bell(&item.exercise))));
}

#[test]
fn two_days_side_by_side_both_train_the_whole_body() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\n\
         equipment: [leg-press, leg-curl-machine, chest-press-machine, seated-row-machine, lat-pulldown, dumbbells, bench]\n\
         sessions: [{day: sat, minutes: 60}, {day: sun, minutes: 60}]\n",
    );
    for day in 0..2 {
        let sides: Vec<_> = items(&plan)
            .filter(|(other, _)| *other == day)
            .filter_map(|(_, item)| PLANNER.catalog().get(&item.exercise)?.pattern?.side())
            .collect();
        for side in [
            weekwright::words::Side::Legs,
            weekwright::words::Side::Push,
            weekwright::words::Side::Pull,
        ] {
            assert!(sides.contains(&side), "day {day}: {sides:?}");
        }
    }
}

#[test]
fn conditioning_has_the_minutes_that_are_asked_for() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [dumbbells, bench, air-bike]\n\
         conditioning: {from_week: 1, minutes: 10, modes: [air-bike]}\n\
         sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 30}, {day: fri, minutes: 60}]\n",
    );
    let seconds = |day: usize| {
        let groups = &plan.sessions[day].groups;
        let last = groups.iter().find(|group| group.kind == GroupKind::Conditioning)?;
        last.items[0].seconds.as_ref().map(|seconds| seconds[0])
    };
    // Two fifths of half an hour hold it, where size and strength are not the goal.
    assert_eq!([seconds(0), seconds(1), seconds(2)], [Some(600), Some(600), Some(600)]);
}

/// Sport of an unknown hour counts as at the session's own: two days before it legs still work.
#[test]
fn legs_work_two_days_before_hard_sport() {
    let plan = plan(
        "goal: hypertrophy\ntraining_status: intermediate\nemphasis: {quads: more}\n\
         equipment: [dumbbells, bench, pull-up-bar, leg-press, leg-curl-machine, cable-station]\n\
         sessions: [{day: mon, at: \"18:30\", minutes: 60}, {day: tue, at: \"18:30\", minutes: 60}, \
         {day: thu, at: \"18:30\", minutes: 60}, {day: fri, at: \"18:30\", minutes: 60}]\n\
         other_training: [{day: sat, load: hard, muscles: [quads, glutes]}]\n",
    );
    let quads = |day: usize| -> u32 {
        let of_day = items(&plan).filter(|(other, _)| *other == day);
        let trains = |id: &str| {
            let entry = PLANNER.catalog().get(id).expect("an exercise of the catalog");
            entry.direct.contains(&weekwright::words::Muscle::Quads)
        };
        of_day.filter(|(_, item)| trains(&item.exercise)).map(|(_, item)| item.sets).sum()
    };
    assert!(quads(0) >= 3 && quads(2) >= 3, "{} and {}", quads(0), quads(2));
}

/// Six days of push, pull and legs have each of them half a week apart, and a small muscle that should get more leaves the
/// legs their days.
#[test]
fn six_days_have_an_even_rhythm() {
    let days = ["mon", "tue", "wed", "thu", "fri", "sat"];
    let sessions = days.map(|day| format!("{{day: {day}, minutes: 60}}")).join(", ");
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: advanced\nsplit: push-pull-legs\nemphasis: {{side-delts: more}}\n\
         equipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, cable-station, leg-press, leg-curl-machine]\n\
         sessions: [{sessions}]\n"
    ));
    let split = &plan.split.as_ref().expect("a split").days;
    assert_eq!(split[..3], split[3..], "{split:?}");
    let raises = items(&plan).filter(|(day, item)| {
        let entry = PLANNER.catalog().get(&item.exercise).expect("an exercise of the catalog");
        split[*day] == "legs" && entry.pattern == Some(Pattern::ShoulderAbduction)
    });
    assert_eq!(raises.count(), 0);
}

#[test]
fn the_known_bench_comes_before_what_is_asked_for_in_the_hands() {
    let plan = plan(&format!(
        "goal: hypertrophy\nexercises: {{must: [incline-dumbbell-press]}}\n\
         known_lifts: {{bench-press: {{load: 90, reps: 6, rir: 2}}}}\n{}",
        FOUR_DAYS.replace("bench, dumb", "adjustable-bench, dumb")
    ));
    let [bench, incline] = ["bench-press", "incline-dumbbell-press"].map(|id| places(&plan, id));
    let mut both = bench.iter().cartesian_product(&incline).filter(|(one, other)| one.0 == other.0);
    assert!(both.all(|(one, other)| one.1 < other.1), "on a day with both: {bench:?}, {incline:?}");
    let leads = |places: &[(usize, usize)]| places.iter().any(|(_, place)| *place == 0);
    assert!(leads(&bench) && !incline.is_empty(), "the bench leads a day: {bench:?}, {incline:?}");
}

#[test]
fn an_older_beginner_gets_up_from_a_chair_first() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1950\nstart: 2027-01-04\n\
         equipment: [resistance-band, band-anchor, chair, low-box]\n\
         sessions: [{day: tue, minutes: 35}, {day: fri, minutes: 35}]\n",
    );
    assert_eq!(places(&plan, "sit-to-stand"), [(0, 0), (1, 0)]);
}

#[test]
fn what_is_asked_for_has_four_sets_early_in_the_week() {
    let plan = plan(&format!(
        "goal: hypertrophy\nexercises: {{must: [weighted-pull-up]}}\n\
         known_lifts: {{weighted-pull-up: {{load: 15, reps: 6, rir: 2}}}}\nbody_mass_kg: 80\n{}",
        FOUR_DAYS.replace("pull-up-bar", "pull-up-bar, dip-belt, weight-plate"),
    ));
    let first = items(&plan).find(|(_, item)| item.exercise == "weighted-pull-up");
    let (day, item) = first.expect("a must");
    assert!(day < 2 && item.sets >= 4, "{day}: {}", item.sets);
    assert_eq!(places(&plan, "weighted-pull-up").len(), 2);
}

/// Common practice: what should get less has half of what it would have.
#[test]
fn less_is_half() {
    let low = |keys: &str| {
        let keys = format!(
            "goal: hypertrophy\ntraining_status: intermediate\nequipment: [dumbbells, bench]\n{keys}"
        );
        request(&keys).targets[&Muscle::Chest].low
    };
    assert!((low("emphasis: {chest: less}") - low("") / 2.0).abs() < 0.26);
}

/// Common practice: the client's own lift leads its day, whatever form it has.
#[test]
fn what_is_asked_for_and_known_may_lead() {
    let leads = |keys: &str| {
        let keys = format!(
            "goal: strength\ntraining_status: advanced\nequipment: [barbell, squat-rack]\n{keys}"
        );
        let request = request(&keys);
        request.is_wished_lead(request.candidate("wide-stance-deadlift").expect("it is left"))
    };
    let must = "exercises: {must: [wide-stance-deadlift]}";
    let known = "known_lifts: {wide-stance-deadlift: {load: 170, reps: 3, rir: 2}}";
    assert!(leads(&format!("{must}\n{known}")));
    assert!(!leads(must));
}

/// Common practice: who begins, or has little time, and likes pairs has them from the first set on.
#[test]
fn pairs_that_are_liked_begin_with_the_first_set() {
    let pairs = |wish: &str| {
        let plan = plan(&format!(
            "goal: hypertrophy\ntraining_status: novice\nsupersets: {wish}\nequipment: [dumbbells, bench, resistance-band]\n\
             sessions: [{{day: mon, minutes: 45}}, {{day: thu, minutes: 45}}]\n",
        ));
        let work =
            plan.sessions.iter().map(|day| day.groups.iter().filter(|group| group.is_work()));
        work.filter_map(|mut groups| groups.next()).filter(|group| group.items.len() > 1).count()
    };
    assert_eq!((pairs("prefer"), pairs("allow")), (2, 0));
}

/// Common practice: for power there are jumps on two days and two throws, where both can be done.
#[test]
fn a_week_for_power_jumps_and_throws_twice() {
    let plan = plan(
        "goal: power\ntraining_status: intermediate\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, plyo-box, medicine-ball]\n\
         sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n",
    );
    let days = |pattern: Pattern| {
        let of_it = items(&plan).filter(|(_, item)| {
            PLANNER.catalog().get(&item.exercise).and_then(|entry| entry.pattern) == Some(pattern)
        });
        of_it.map(|(day, _)| day).collect::<Vec<_>>()
    };
    assert!(days(Pattern::Jump).into_iter().dedup().count() >= 2);
    assert!(days(Pattern::Throw).len() >= 2);
}

/// Common practice: a pull-up that is liked does not tire arms and back before the heavy lifts of the day.
#[test]
fn a_liked_pull_up_waits_for_the_squat_of_a_day_for_strength() {
    let plan = plan(
        "goal: strength\ntraining_status: novice\nexercises: {prefer: [band-assisted-pull-up]}\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, resistance-band]\n\
         sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n",
    );
    let places = places(&plan, "band-assisted-pull-up");
    assert!(!places.is_empty() && places.iter().all(|(_, place)| *place > 0), "{places:?}");
}

/// Common practice: a form of a known lift that is asked for leads a day like the lift itself.
#[test]
fn a_form_that_is_asked_for_leads_where_its_lift_is_known() {
    let plan = plan(
        "goal: strength\ntraining_status: advanced\nexercises: {must: [paused-bench-press]}\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar]\n\
         known_lifts: {bench-press: {load: 57.5, reps: 5, rir: 1}, overhead-press: {load: 40, reps: 4, rir: 1}}\n\
         sessions: [{day: mon, minutes: 75}, {day: tue, minutes: 75}, {day: thu, minutes: 75}, {day: fri, minutes: 75}]\n",
    );
    let places = places(&plan, "paused-bench-press");
    assert!(places.iter().any(|(_, place)| *place == 0), "{places:?}");
}

/// Common practice: what is liked and known opens the one session of a week, however many lifts follow.
#[test]
fn a_liked_lift_opens_a_long_day() {
    let plan = plan(
        "goal: endurance\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 63\n\
         equipment: [barbell, trap-bar, squat-rack, bench, dumbbells, kettlebell, lat-pulldown, resistance-band]\n\
         sessions: [{day: thu, minutes: 75}]\nexercises: {prefer: [trap-bar-deadlift]}\n\
         known_lifts: {trap-bar-deadlift: {load: 75, reps: 6, rir: 2}}\n",
    );
    assert_eq!(places(&plan, "trap-bar-deadlift"), [(0, 0)]);
}

/// Common practice: the evening before hard rowing is built on a press, as another day has the squat.
#[test]
fn a_press_leads_the_eve_of_hard_sport() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, plyo-box, medicine-ball]\n\
         sessions: [{day: mon, at: \"17:30\", minutes: 60}, {day: wed, at: \"17:30\", minutes: 60}, {day: fri, at: \"17:30\", minutes: 60}]\n\
         other_training: [{day: sat, at: \"08:00\", load: hard, muscles: [lats, upper-back, quads, spinal-erectors]}]\n",
    );
    let lifts = items(&plan).filter(|(day, _)| *day == 2);
    let pattern = |id: &str| PLANNER.catalog().get(id).and_then(|entry| entry.pattern);
    let first =
        lifts.filter_map(|(_, item)| pattern(&item.exercise)).find(|one| !one.is_explosive());
    assert!(matches!(first, Some(Pattern::HorizontalPush | Pattern::VerticalPush)), "{first:?}");
}

/// Common practice: on the eve of hard sport the squat is light, fast and short, and heavy on another day.
#[test]
fn the_squat_is_light_on_the_eve_of_hard_sport() {
    let plan = plan(
        "goal: power\ntraining_status: intermediate\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, plyo-box, medicine-ball]\n\
         sessions: [{day: mon, at: \"17:30\", minutes: 60}, {day: wed, at: \"17:30\", minutes: 60}, {day: fri, at: \"17:30\", minutes: 60}]\n\
         known_lifts: {back-squat: {load: 100, reps: 5, rir: 2}}\n\
         other_training: [{day: sat, at: \"08:00\", load: hard, muscles: [lats, upper-back, quads, spinal-erectors]}]\n",
    );
    let pattern = |id: &str| PLANNER.catalog().get(id).and_then(|entry| entry.pattern);
    let squats = items(&plan).filter(|(_, item)| pattern(&item.exercise) == Some(Pattern::Squat));
    let [eve, other]: [Vec<_>; 2] = squats.partition(|(day, _)| *day == 2).into();
    assert!(!other.is_empty(), "heavy on another day");
    for (_, item) in eve {
        assert!(item.rir >= Some(4) && item.sets <= 3, "{}: {:?}", item.exercise, item.rir);
        assert_eq!(item.turn, Some(Turn::Eve));
    }
}

/// Common practice: of six days for pushes, pulls and legs each has two, whatever should get more.
#[test]
fn six_days_are_shared_evenly() {
    let days = ["mon", "tue", "wed", "thu", "fri", "sat"]
        .map(|day| format!("{{day: {day}, minutes: 60}}"));
    let profile = serde_yaml::from_str(&format!(
        "client: choice-06\ngoal: hypertrophy\ntraining_status: advanced\nsplit: push-pull-legs\n\
         emphasis: {{chest: more, side-delts: more}}\nsessions: [{}]\n\
         equipment: [barbell, squat-rack, bench, dumbbells, cable-station, lat-pulldown, leg-press]\n",
        days.join(", "),
    ))
    .expect("a profile");
    let request = PLANNER.request(&profile, &weekwright::planner::Options::default());
    for split in weekwright::inner::design::candidates(&request) {
        let lats = split.days.iter().filter(|day| day.takes(Muscle::Lats)).count();
        let chest = split.days.iter().filter(|day| day.takes(Muscle::Chest)).count();
        assert_eq!((lats, chest), (2, 2), "{:?}", split.name);
    }
}

/// Common practice: who begins after years of sitting steps or splits behind a support, and not on both legs alone.
#[test]
fn who_begins_from_rest_has_one_leg_work() {
    let plan = plan(
        "goal: fat-loss\ntraining_status: novice\nsex: male\nbody_mass_kg: 104\nscreening: {active: false}\n\
         equipment: {dumbbells: {from_kg: 4, to_kg: 20, step_kg: 2}, adjustable-bench: 1, chair: 1}\n\
         sessions: [{day: mon, minutes: 40}, {day: wed, minutes: 40}, {day: fri, minutes: 40}]\n",
    );
    let lunges = items(&plan).filter(|(_, item)| {
        let entry = PLANNER.catalog().get(&item.exercise).expect("it is in the catalog");
        entry.pattern == Some(Pattern::Lunge)
    });
    assert!(lunges.count() > 0);
}

/// Common practice: a shoulder with limits is asked for no raises to the side, unless the client wants more there.
#[test]
fn a_limited_shoulder_is_asked_for_no_side_delts() {
    let asked = |keys: &str| {
        let keys = format!(
            "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench, dumbbells]\n{keys}"
        );
        let request = request(&keys);
        (
            request.targets.contains_key(&Muscle::SideDelts),
            request.candidate("lateral-raise").is_some(),
        )
    };
    assert_eq!(asked(""), (true, true));
    assert_eq!(asked("limits: [overhead]"), (false, false));
    assert_eq!(asked("limits: [overhead]\nemphasis: {side-delts: more}"), (true, true));
}
