//! Short weeks as a trainer jots them down, recounted by one rule.
//!
//! A line is a day: `mon (chest, lats): bench-press x4 of 8 + barbell-row x4 of 10; plank x3`. `;` stands between
//! groups and `+` inside a pair; a group may begin with `prep`, `finisher` or `conditioning`. After an item may come
//! `of 8` or `of 8,8,6`, `rest 90`, `rir 2`, `tempo 3-0-1-0`, `at 60` (kg), `ramp 20x8,40x4` and `says 300` (the
//! seconds that the plan gives the group).

use std::sync::LazyLock;

use serde_yaml::Mapping;
use weekwright::audit;
use weekwright::input::plan::{Group, Item, RampSet, Session};
use weekwright::input::profile::Profile;
use weekwright::planner::{Options, Planner};
use weekwright::rules::{Finding, RULES, Rule, Severity};
use weekwright::words::{GroupKind, Kit, Measure, Sides};

pub(crate) static PLANNER: LazyLock<Planner> = LazyLock::new(Planner::built_in);

/// Three hours a week, everything there is, and no wish: what a test says beside it is what counts.
const USUAL: &str = "
client: check-01
training_status: intermediate
goal: hypertrophy
sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]
";

/// One rule with the profile that weeks are recounted for.
#[derive(Clone)]
pub(crate) struct Check {
    rule: &'static dyn Rule,
    profile: Mapping,
}

/// A rule by its id.
pub(crate) fn check_rule(id: &str) -> Check {
    let rule = RULES.iter().find(|rule| rule.id() == id);
    let rule = *rule.unwrap_or_else(|| panic!("there is no rule `{id}`"));
    let mut profile: Mapping = serde_yaml::from_str(USUAL).unwrap();
    let kit: Vec<&str> = Kit::ALL.iter().map(|kit| kit.id()).collect();
    profile.insert("equipment".into(), serde_yaml::to_value(kit).unwrap());
    Check { rule, profile }
}

impl Check {
    /// Replaces keys of the profile.
    pub(crate) fn with(&self, keys: &str) -> Check {
        let keys: Mapping = serde_yaml::from_str(keys).unwrap();
        let mut check = self.clone();
        check.profile.extend(keys);
        check
    }

    /// Nothing is found.
    pub(crate) fn allows(&self, week: &str) -> &Check {
        let found = self.found(week);
        assert!(found.is_empty(), "{week}\nis allowed, but: {}", lines(&found));
        self
    }

    /// Nothing is found about a day, muscle or exercise.
    pub(crate) fn allows_in(&self, place: &str, week: &str) -> &Check {
        let found = self.found(week);
        let about = found.iter().any(|finding| finding.place.contains(place));
        assert!(!about, "{week}\nis allowed for {place}, but: {}", lines(&found));
        self
    }

    /// A hard rule is broken.
    pub(crate) fn refuses(&self, week: &str, text: &str) -> &Check {
        self.finds(week, text, Severity::Broken)
    }

    /// A wish falls short.
    pub(crate) fn falls_short(&self, week: &str, text: &str) -> &Check {
        self.finds(week, text, Severity::Shortfall)
    }

    /// A coach would remark on it.
    pub(crate) fn remarks(&self, week: &str, text: &str) -> &Check {
        self.finds(week, text, Severity::Remark)
    }

    fn finds(&self, week: &str, text: &str, severity: Severity) -> &Check {
        let found = self.found(week);
        let hit = found
            .iter()
            .any(|finding| finding.severity == severity && finding.to_string().contains(text));
        assert!(hit, "{week}\nshould be {severity:?} with `{text}`, but: {}", lines(&found));
        self
    }

    fn found(&self, week: &str) -> Vec<Finding> {
        let profile: Profile =
            serde_yaml::from_value(serde_yaml::Value::Mapping(self.profile.clone())).unwrap();
        let request = PLANNER.request(&profile, &Options::default());
        let week = audit::week_of(&sessions(week), &request).unwrap();
        self.rule.recount(&request, &week)
    }
}

fn lines(found: &[Finding]) -> String {
    let lines: Vec<String> =
        found.iter().map(|finding| format!("{:?} {finding}", finding.severity)).collect();
    lines.join("\n")
}

/// The sessions of a jotted week.
pub(crate) fn sessions(week: &str) -> Vec<Session> {
    week.lines().map(str::trim).filter(|line| !line.is_empty()).map(session).collect()
}

fn session(line: &str) -> Session {
    let (head, groups) = line.split_once(": ").unwrap_or_else(|| panic!("no day in `{line}`"));
    let (when, focus) = head.split_once(" (").unwrap_or((head, ""));
    let (day, at) = when.split_once('@').map_or((when, None), |(day, at)| (day, Some(at)));
    let muscles = focus.trim_end_matches(')').split(", ").filter(|name| !name.is_empty());
    Session {
        day: day.parse().unwrap(),
        at: at.map(str::to_owned),
        focus: muscles.map(|name| name.parse().unwrap()).collect(),
        minutes: None,
        note: None,
        groups: groups.split("; ").map(group).collect(),
    }
}

fn group(text: &str) -> Group {
    let (first, rest) = text.trim().split_once(' ').unwrap();
    let (kind, items) = match first {
        "prep" => (Some(GroupKind::Prep), rest),
        "finisher" => (Some(GroupKind::Finisher), rest),
        "conditioning" => (Some(GroupKind::Conditioning), rest),
        _ => (None, text),
    };
    let (items, seconds) = items.split_once(" says ").map_or((items, None), |(items, seconds)| {
        (items, Some(seconds.trim().parse::<u32>().unwrap()))
    });
    let items: Vec<Item> = items.split(" + ").map(item).collect();
    let kind = kind.unwrap_or(match items.len() {
        1 => GroupKind::Single,
        _ => GroupKind::Superset,
    });
    Group { kind, seconds, items }
}

fn item(text: &str) -> Item {
    let mut words = text.split_whitespace();
    let id = words.next().unwrap();
    let entry = PLANNER.catalog().get(id).unwrap_or_else(|| panic!("no exercise `{id}`"));
    let sets = words.next().and_then(|word| word.strip_prefix('x'));
    let sets: u32 = sets.unwrap_or_else(|| panic!("no sets in `{text}`")).parse().unwrap();
    let each_side = entry.sides == Sides::Each;
    let mut item = Item { exercise: id.to_owned(), sets, each_side, rest_s: 90, ..Item::default() };
    while let (Some(key), Some(value)) = (words.next(), words.next()) {
        match key {
            "of" => set_amounts(&mut item, entry.measure, value),
            "rest" => item.rest_s = value.parse().unwrap(),
            "rir" => item.rir = Some(value.parse().unwrap()),
            "tempo" => item.tempo = Some(value.to_owned()),
            "at" => item.load_kg = Some(value.parse().unwrap()),
            "ramp" => item.ramp = value.split(',').map(ramp_set).collect(),
            _ => panic!("`{key}` in `{text}`"),
        }
    }
    item
}

fn set_amounts(item: &mut Item, measure: Measure, text: &str) {
    let listed: Vec<u32> = text.split(',').map(|one| one.parse().unwrap()).collect();
    let list = if listed.len() == 1 { vec![listed[0]; item.sets as usize] } else { listed };
    match measure {
        Measure::Reps => item.reps = Some(list),
        Measure::Seconds => item.seconds = Some(list),
        Measure::Meters => item.meters = Some(list),
        Measure::Calories => item.calories = Some(list),
    }
}

fn ramp_set(text: &str) -> RampSet {
    let (load, reps) = text.split_once('x').unwrap();
    let load_kg = Some(load.parse().unwrap());
    RampSet { load_kg, reps: reps.parse().unwrap(), ..RampSet::default() }
}
