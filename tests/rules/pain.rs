use weekwright::planner::Options;
use weekwright::rules::Severity;

use super::check::{PLANNER, check_rule};
use crate::demo;

#[test]
fn what_loads_a_sore_region_heavily_stays_out_unless_it_was_tried() {
    check_rule("pain")
        .with("screening: {pain: [shoulder]}")
        .allows("mon: goblet-squat x3; barbell-row x3")
        .refuses("mon: push-press x3", "it loads the shoulder that hurts");
    check_rule("pain")
        .with("screening: {pain: [sore shoulder], painless: [push-press]}")
        .allows("mon: push-press x3");
    check_rule("pain").with("screening: {pain: [headache]}").allows("mon: push-press x3");
}

/// After the first block the coach has asked again: what they put in by hand is told and not refused.
#[test]
fn after_the_first_block_it_is_a_remark() {
    let mut profile = demo("tide-01");
    profile.weeks = 5;
    let mut plan = PLANNER.plan(&profile, &Options::default()).unwrap();
    let item =
        &plan.weeks[0].sessions[0].groups.iter().find(|group| group.is_work()).unwrap().items[0];
    let id = item.exercise.clone();
    profile.screening = serde_yaml::from_str("{pain: [knee], active: true}").unwrap();
    for week in [0, 4] {
        let sessions = &mut plan.weeks[week].sessions;
        let items = sessions
            .iter_mut()
            .flat_map(|session| &mut session.groups)
            .flat_map(|group| &mut group.items);
        for item in items.filter(|item| item.exercise == id) {
            item.exercise = "leg-extension".to_owned();
        }
    }
    plan.profile = weekwright::input::plan::ProfileRef::Whole(Box::new(profile));
    let audit = PLANNER.audit(&plan).unwrap();
    let told = |week: &str| {
        let mut of_week = audit.findings.iter().filter(|finding| {
            finding.rule == "pain"
                && finding.place.starts_with(week)
                && finding.place.ends_with("leg-extension")
        });
        of_week.next().map(|finding| finding.severity)
    };
    assert_eq!(told("week 1,"), Some(Severity::Broken), "{:?}", audit.findings);
    assert_eq!(told("week 5,"), Some(Severity::Remark), "{:?}", audit.findings);
}
