//! Keys that coaches write for others, with the one that is meant: `injuries` is no misspelling of anything.

/// Keys as they are written, a key that stands where it is meant, and what to write.
const SLIPS: &[(&[&str], &str, &str)] = &[
    (
        &["injuries", "injury", "problems", "medical"],
        "limits",
        "what hurts goes under `screening`, as in `screening: {pain: [knee]}`; what to keep out under `limits`, as in \
         `limits: [overhead]`",
    ),
    (&["pain"], "screening", "it goes under `screening`, as in `screening: {pain: [knee]}`"),
    (&["name", "nickname", "id"], "client", "write `client: tide-01`, a code or a nickname"),
    (&["age", "born", "birthday", "birthdate"], "birth_year", "write `birth_year: 1991`"),
    (&["gender"], "sex", "write `sex: female` or `sex: male`"),
    (&["weight", "bodyweight", "mass"], "body_mass_kg", "write `body_mass_kg: 64`"),
    (&["height"], "height_cm", "write `height_cm: 168`"),
    (&["level", "experience", "status"], "training_status", "write `training_status: novice`"),
    (
        &["days", "schedule", "training_days", "week"],
        "sessions",
        "write `sessions: [{day: mon, minutes: 60}]`",
    ),
    (
        &["kit", "gear", "tools"],
        "equipment",
        "write `equipment: [dumbbells, bench]`, or name a `place`",
    ),
    (&["gym", "location", "room"], "place", "write `place: boathouse`, a file in `places/`"),
    (
        &["maxes", "lifts", "one_rm", "1rm", "maximums"],
        "known_lifts",
        "write `known_lifts: {back-squat: {load: 50, reps: 5}}`",
    ),
    (&["date", "begin", "start_date", "from"], "start", "write `start: 2027-01-04`"),
    (&["duration", "length", "min"], "minutes", "write `minutes: 60`"),
    (&["time", "hour", "clock"], "at", "write `at: \"18:30\"`"),
    (&["weight", "kg"], "load", "write `load: 50`"),
    (
        &["exclude", "dislikes", "without", "banned"],
        "exercises",
        "write `exercises: {never: [deadlift]}`, or `avoid`",
    ),
    (
        &["include", "favorites", "wishes"],
        "exercises",
        "write `exercises: {prefer: [goblet-squat]}`, or `must`",
    ),
    (&["cardio"], "conditioning", "write `conditioning: {minutes: 10}`"),
    (
        &["sport", "sports"],
        "other_training",
        "write `other_training: [{day: sat, load: hard, muscles: [lats]}]`",
    ),
    (
        &["notes", "note", "comment", "comments"],
        "client",
        "write remarks behind `#`; a profile keeps no notes",
    ),
];

/// What to write instead of a key, where it is known what is meant and `keys` may stand here.
pub(super) fn instead(key: &str, keys: &[&str]) -> Option<&'static str> {
    let plain = key.trim().to_lowercase().replace(['-', ' '], "_");
    let meant =
        |slip: &&(&[&str], &str, &str)| slip.0.contains(&plain.as_str()) && keys.contains(&slip.1);
    SLIPS.iter().find(meant).map(|(_, _, instead)| *instead)
}
