use super::check::check_rule;

#[test]
fn three_exercises_are_a_wish() {
    check_rule("exercise-count")
        .allows("mon: back-squat x3; bench-press x3; barbell-row x3")
        .remarks("mon: back-squat x3; bench-press x3", "three exercises");
}

const IDS: [&str; 11] = [
    "back-squat",
    "bench-press",
    "barbell-row",
    "leg-curl",
    "lateral-raise",
    "biceps-curl",
    "calf-raise",
    "plank",
    "side-plank",
    "overhead-press",
    "lat-pulldown",
];

/// One more than usual, in half an hour two, straight or paired; for a novice seven, eight in a long session.
#[test]
fn no_more_than_the_minutes_carry() {
    for (keys, most) in [
        ("sessions: [{day: mon, minutes: 30}]", 6),
        ("sessions: [{day: mon, minutes: 35}]", 6),
        ("sessions: [{day: mon, minutes: 36}]", 6),
        ("sessions: [{day: mon, minutes: 50}]", 7),
        ("sessions: [{day: mon, minutes: 60}]", 8),
        ("{goal: strength, sessions: [{day: mon, minutes: 60}]}", 7),
        ("sessions: [{day: mon, minutes: 90}]", 10),
        ("{training_status: novice, sessions: [{day: mon, minutes: 60}]}", 7),
        ("{training_status: novice, sessions: [{day: mon, minutes: 75}]}", 8),
        ("{training_status: novice, sessions: [{day: mon, minutes: 150}]}", 9),
    ] {
        for between in ["; ", " + "] {
            let with = |count: usize| {
                let items: Vec<String> =
                    IDS.iter().take(count).map(|id| format!("{id} x2")).collect();
                let pairs: Vec<String> = items.chunks(2).map(|pair| pair.join(between)).collect();
                format!("mon: {}", pairs.join("; "))
            };
            check_rule("exercise-count")
                .with(keys)
                .allows(&with(most))
                .remarks(&with(most + 1), "no more exercises than");
        }
    }
}
