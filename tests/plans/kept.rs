//! The kept form and the whole one.

use weekwright::input::plan::{Plan, ProfileRef};
use weekwright::input::short_plan::{Amount, ShortPlan};
use weekwright::plan::short::{expand, shorten};
use weekwright::sheets::{Options, sheet};

use super::{PLANNER, plan_of};

fn yaml(plan: &Plan) -> String {
    let mut bytes = Vec::new();
    let sheet = sheet("yaml").unwrap();
    sheet.write(plan, PLANNER.catalog().entries(), &Options::default(), &mut bytes).unwrap();
    String::from_utf8(bytes).unwrap()
}

fn whole(short: &ShortPlan) -> Plan {
    let ProfileRef::Whole(profile) = &short.profile else { unreachable!("plans of ours hold it") };
    let mut plan = expand(short, Some(profile), &|id| PLANNER.catalog().get(id)).unwrap();
    PLANNER.count(&mut plan);
    plan
}

fn read(text: &str) -> ShortPlan {
    serde_yaml::from_str(text).unwrap()
}

/// `serde_yaml`, a parser that is not the writer's, reads the file back to the same plan.
#[test]
fn a_plan_comes_back_from_its_file_to_the_letter() {
    for client in ["tide-01", "oar-02", "skiff-11", "scull-07"] {
        let plan = plan_of(client);
        let text = yaml(&plan);
        let back = whole(&read(&text));
        assert!(back == plan, "{client}: something was lost\n{text}");
        assert_eq!(yaml(&back), text, "{client}");
    }
}

#[test]
fn four_weeks_take_under_400_lines() {
    for client in ["tide-01", "skiff-11"] {
        let lines = yaml(&plan_of(client)).lines().count();
        assert!(lines < 400, "{client}: {lines}");
    }
}

#[test]
fn an_edit_of_one_number_reaches_every_week_that_shares_it() {
    let mut short = shorten(&plan_of("oar-02"), &|id| PLANNER.catalog().get(id));
    let item = &mut short.sessions[0].groups[1].items[0];
    let id = item.exercise.clone();
    item.dose.rest_s = Some(240);
    item.dose.load_kg = item.dose.load_kg.map(|load| load - 10.0);
    let load = item.dose.load_kg;
    let plan = whole(&short);
    let first = |weeks: usize| -> &weekwright::input::plan::Item {
        let groups = &plan.weeks[weeks].sessions[0].groups;
        groups.iter().flat_map(|group| &group.items).find(|item| item.exercise == id).unwrap()
    };
    assert!((0..4).all(|week| first(week).rest_s == 240));
    // Week 2 says nothing of the load, so it has the block's; bar, ramp and next step follow it.
    let second = first(1);
    assert_eq!(second.load_kg, load);
    let plates = second.load_note.as_ref().unwrap();
    assert!(plates.starts_with("each side"), "{plates}");
    assert!(second.ramp.iter().all(|step| step.load_kg < load));
    assert!(plan.sessions[0].groups[1].items[0].load_note.is_none(), "not from the known lift now");
}

#[test]
fn what_a_coach_writes_stays() {
    let mut short = shorten(&plan_of("tide-01"), &|id| PLANNER.catalog().get(id));
    let change = &mut short.weeks[2].items[0];
    change.dose.next = Some("ask me on Friday".to_owned());
    change.dose.load_note = Some(String::new());
    change.dose.reps = Some(Amount::Each(vec![9, 8, 7]));
    let plan = whole(&short);
    let (day, id) = (short.weeks[2].items[0].day.clone(), short.weeks[2].items[0].exercise.clone());
    let session = plan.weeks[2].sessions.iter().find(|one| one.day.to_string() == day).unwrap();
    let items = session.groups.iter().flat_map(|group| &group.items);
    let item = items.into_iter().find(|item| item.exercise == id).unwrap();
    assert_eq!(item.next.as_deref(), Some("ask me on Friday"));
    assert_eq!(item.load_note, None);
    assert_eq!(item.reps, Some(vec![9, 8, 7]));
    let again = whole(&read(&yaml(&plan)));
    assert!(again == plan, "own texts survive the file");
}

#[test]
fn a_week_that_names_what_is_not_there_is_told_with_its_place() {
    let mut short = shorten(&plan_of("tide-01"), &|id| PLANNER.catalog().get(id));
    short.weeks[1].items[0].exercise = "nowhere-press".to_owned();
    short.weeks[3].off.push("sun".to_owned());
    let ProfileRef::Whole(profile) = short.profile.clone() else { unreachable!() };
    let misfits = expand(&short, Some(&profile), &|id| PLANNER.catalog().get(id)).unwrap_err();
    let places: Vec<_> = misfits.iter().map(|one| (one.week, one.key, one.place)).collect();
    assert_eq!(places, [(1, "items", 0), (3, "off", 0)]);
}
