//! The list of rules as a whole: each is tested beside this file.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use weekwright::inner::Role;
use weekwright::inner::Tier;
use weekwright::inner::design;
use weekwright::inner::dominance;
use weekwright::planner::Options;
use weekwright::rules::{Force, RULES, weekly_model};

use super::check::PLANNER;
use crate::demo;

fn file(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

#[test]
fn each_has_a_week_that_holds_and_one_that_breaks_it() {
    let modules = file("tests/rules/mod.rs");
    for rule in RULES {
        let name = rule.id().replace('-', "_");
        assert!(modules.contains(&format!("mod {name};\n")), "tests/rules/mod.rs: {name}");
        let tests = file(&format!("tests/rules/{name}.rs"));
        let has = |part: &str| tests.contains(part);
        assert!(has("#[test]") && has(&format!("check_rule(\"{}\")", rule.id())), "{name}");
        assert!(has(".allows(") || has(".allows_in("), "{name} has no week that holds");
        let breaks = [".refuses(", ".falls_short(", ".remarks("].into_iter().any(has);
        assert!(breaks, "{name} has no week that breaks it");
    }
}

#[test]
fn ids_are_kebab_case_and_summaries_one_sentence() {
    for (place, rule) in RULES.iter().enumerate() {
        let id = rule.id();
        assert!(id.chars().all(|one| one.is_ascii_lowercase() || one == '-'), "{id}");
        assert!(!RULES[..place].iter().any(|other| other.id() == id), "{id} twice");
        let summary = rule.summary();
        assert!(!summary.ends_with('.') && !summary.contains(". "), "{id}: {summary}");
        assert!(!summary.contains(['|', '\n']), "{id}: {summary}");
    }
}

/// The models of the demo profiles and of one that demands: a row or a goal is never of another kind than its rule.
#[test]
fn wishes_demand_nothing_and_count_in_no_earlier_tier_than_their_own() {
    let strict = "{chest: {range: [6, 12], strict: true}}";
    let mut strictly = demo("tide-01");
    strictly.targets = serde_yaml::from_str(strict).unwrap();
    let names = ["tide-01", "oar-02", "scull-07", "sweep-10"];
    for profile in names.map(demo).into_iter().chain([strictly]) {
        let request = PLANNER.request(&profile, &Options::default());
        let split = design::candidates(&request).remove(0);
        let weekly = weekly_model(&request, &split, &dominance::kept(&request));
        let force = |id: &str| RULES.iter().find(|rule| rule.id() == id).map(|rule| rule.force());
        for row in weekly.model.rows.iter().filter(|row| row.role == Role::Demand) {
            let is_strict = row.rule == "weekly-volume" && row.subject == "chest";
            let allowed =
                force(row.rule) == Some(Force::Hard) || (is_strict && !profile.targets.is_empty());
            assert!(allowed, "{}: {} is a demand of a wish", row.rule, row.subject);
        }
        for row in weekly.model.rows.iter().filter(|row| row.role == Role::Convention) {
            assert_ne!(force(row.rule), Some(Force::Hard), "{} is no convention", row.rule);
        }
        for goal in &weekly.goals {
            let tier = match force(goal.rule) {
                Some(Force::Coverage) => Tier::Coverage,
                Some(Force::Ranges) => Tier::Ranges,
                Some(Force::View) => Tier::View,
                other => panic!("{} counts and is {other:?}", goal.rule),
            };
            // Some of what a rule wishes may weigh less than the rest, never more than it says.
            assert!(goal.tier >= tier, "{}: {:?} before {tier:?}", goal.rule, goal.tier);
            assert!(goal.weight > 0.0 || !goal.tier.is_cost(), "{} pays for a miss", goal.rule);
        }
        let names: BTreeSet<&str> = weekly.model.vars.iter().map(|var| var.name.as_str()).collect();
        assert_eq!(names.len(), weekly.model.vars.len(), "a name stands twice");
    }
}
