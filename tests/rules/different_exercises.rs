use super::check::check_rule;

const IDS: [&str; 23] = [
    "back-squat",
    "bench-press",
    "barbell-row",
    "plank",
    "leg-curl",
    "deadlift",
    "overhead-press",
    "lat-pulldown",
    "side-plank",
    "calf-raise",
    "biceps-curl",
    "leg-press",
    "hip-thrust",
    "lateral-raise",
    "face-pull",
    "leg-extension",
    "dumbbell-fly",
    "goblet-squat",
    "split-squat",
    "push-up",
    "pull-up",
    "romanian-deadlift",
    "dip",
];

/// A novice up to 22.
#[test]
fn a_novice_learns_22() {
    let week = |count: usize| {
        let items: Vec<String> = IDS.iter().take(count).map(|id| format!("{id} x2")).collect();
        let days = ["mon", "wed", "fri"].iter().zip(items.chunks(8));
        let lines: Vec<String> =
            days.map(|(day, items)| format!("{day}: {}", items.join("; "))).collect();
        lines.join("\n")
    };
    check_rule("different-exercises")
        .with("training_status: novice")
        .allows(&week(22))
        .allows(&format!("{}; plank x2", week(22)))
        .remarks(&week(23), "22 different exercises at most, got 23");
    check_rule("different-exercises").allows(&week(23));
    check_rule("different-exercises")
        .with("rules: {different-exercises: 3}")
        .remarks(&week(4), "3 different exercises at most");
}
