//! Reworks of some dates: the rest of the plan stays to the letter.

use weekwright::input::place::Place;
use weekwright::input::plan::{Plan, Session};
use weekwright::plan::short::shorten;
use weekwright::rework::{Ask, BadAsk, NoRework, Outcome, When, day_of_date};
use weekwright::rules::Severity;
use weekwright::words::Kit;

use super::{PLANNER, plan_of};

fn reworked(plan: &Plan, ask: &Ask, when: &When) -> Plan {
    match PLANNER.rework_dates(plan, ask, when).unwrap() {
        Outcome::New(new) => new.plan,
        Outcome::Same => panic!("nothing changed"),
    }
}

fn passes(plan: &Plan) {
    let audit = PLANNER.audit(plan).unwrap();
    let broken: Vec<String> = audit.of(Severity::Broken).map(ToString::to_string).collect();
    assert!(broken.is_empty(), "{broken:?}");
    let calendar =
        audit.findings.iter().filter(|one| one.rule == "calendar" || one.rule == "edited");
    let odd: Vec<String> = calendar.map(ToString::to_string).collect();
    assert!(odd.is_empty(), "{odd:?}");
}

fn day<'a>(plan: &'a Plan, week: usize, called: &str) -> &'a Session {
    plan.weeks[week].sessions.iter().find(|one| one.day.to_string() == called).unwrap()
}

fn needs(session: &Session, kit: Kit) -> bool {
    let work = session.groups.iter().filter(|group| group.is_work());
    work.flat_map(|group| &group.items).any(|item| {
        let entry = PLANNER.catalog().get(&item.exercise).unwrap();
        entry.needs.iter().all(|set| set.contains(&kit))
    })
}

/// Wednesday of week 2 is 13 January 2027: `date -d 2027-01-13 +%a` (GNU coreutils).
#[test]
fn a_date_is_a_day_of_a_week() {
    let plan = plan_of("tide-01");
    assert_eq!(day_of_date(&plan, "2027-01-13").unwrap(), (2, "wed".to_owned()));
    assert!(matches!(day_of_date(&plan, "2027-01-12"), Err(BadAsk::NoSuchDay { .. })));
    assert!(matches!(day_of_date(&plan, "2028-01-12"), Err(BadAsk::OutsidePlan { .. })));
    assert!(matches!(day_of_date(&plan, "soon"), Err(BadAsk::NoDate(_))));
}

/// Kit that a day of the plan cannot do without, and that day.
fn kit_of_a_day(plan: &Plan) -> (Kit, &'static str) {
    let days = ["mon", "wed", "fri"];
    let kits = [Kit::Barbell, Kit::Dumbbells].into_iter();
    let mut found = kits.flat_map(|kit| days.map(|called| (kit, called)));
    found
        .find(|(kit, called)| needs(day(plan, 1, called), *kit))
        .expect("the demo uses its weights")
}

#[test]
fn one_date_without_its_kit_leaves_the_rest() {
    let plan = plan_of("tide-01");
    let (kit, lost) = kit_of_a_day(&plan);
    let ask = Ask { without: vec![kit], ..Ask::default() };
    let new = reworked(&plan, &ask, &When::Day { week: 2, day: lost.to_owned() });
    assert_eq!(new.sessions, plan.sessions);
    assert_eq!(new.profile, plan.profile);
    for (week, (now, was)) in new.weeks.iter().zip(&plan.weeks).enumerate() {
        for (now, was) in now.sessions.iter().zip(&was.sessions) {
            let is_it = week == 1 && was.day.to_string() == lost;
            assert_eq!(now == was, !is_it, "week {} {}", week + 1, was.day);
        }
    }
    let session = day(&new, 1, lost);
    assert!(!needs(session, kit));
    assert!(session.note.as_ref().unwrap().starts_with("This day only: without "));
    // The file tells the date's session in its week, and all else as before.
    let entry = |id: &str| PLANNER.catalog().get(id);
    let [kept, before] = [&new, &plan].map(|plan| shorten(plan, &entry));
    assert_eq!((&kept.blocks, &kept.sessions), (&before.blocks, &before.sessions));
    for (week, (now, was)) in kept.weeks.iter().zip(&before.weeks).enumerate() {
        assert_eq!(now == was, week != 1, "week {}", week + 1);
    }
    assert_eq!(kept.weeks[1].sessions.len(), 1);
    assert_eq!(new.exceptions[0].week, 2);
    assert!(new.exceptions[0].date.as_ref().unwrap().starts_with("2027-01-1"));
    passes(&new);
}

#[test]
fn a_lost_evening_moves_into_days_that_are_still_to_come() {
    let plan = plan_of("tide-01");
    let ask = Ask { drop_days: vec!["mon".to_owned()], ..Ask::default() };
    let new = reworked(&plan, &ask, &When::Rest { date: "2027-01-18".to_owned() });
    assert!(new.weeks[2].sessions.iter().all(|session| session.day.to_string() != "mon"));
    assert_eq!((&new.weeks[1], &new.weeks[3]), (&plan.weeks[1], &plan.weeks[3]));
    assert_eq!(new.sessions, plan.sessions);
    passes(&new);
    let late = When::Rest { date: "2027-01-20".to_owned() };
    let refused = PLANNER.rework_dates(&plan, &ask, &late).unwrap_err();
    assert!(matches!(refused, NoRework::Ask(BadAsk::AlreadyDone { .. })), "{refused}");
}

#[test]
fn a_week_elsewhere_uses_the_other_place() {
    let plan = plan_of("tide-01");
    let room: Place =
        serde_yaml::from_str(include_str!("../../profiles/places/hotel-room.yaml")).unwrap();
    let when = When::Elsewhere {
        from: "2027-01-11".to_owned(),
        to: "2027-01-17".to_owned(),
        place: "hotel-room".to_owned(),
        equipment: room.equipment,
    };
    let new = reworked(&plan, &Ask::default(), &when);
    let weights =
        |session: &Session| needs(session, Kit::Barbell) || needs(session, Kit::Dumbbells);
    assert!(
        plan.weeks[1].sessions.iter().any(weights) && !new.weeks[1].sessions.iter().any(weights)
    );
    assert_eq!((&new.weeks[0], &new.weeks[2]), (&plan.weeks[0], &plan.weeks[2]));
    assert!(new.exceptions.iter().all(|one| one.asked == ["at hotel-room"]));
    passes(&new);
}

#[test]
fn a_pause_moves_the_weeks_and_the_first_one_back_is_easier() {
    let plan = plan_of("oar-02");
    let when = When::Off { from: "2027-01-18".to_owned(), to: "2027-01-31".to_owned() };
    let new = reworked(&plan, &Ask::default(), &when);
    let dates = |plan: &Plan| -> Vec<String> {
        plan.weeks.iter().map(|week| week.date.clone().unwrap()).collect()
    };
    assert_eq!(dates(&new)[..2], dates(&plan)[..2]);
    assert_eq!(dates(&new)[2], "2027-02-01", "two weeks later than 2027-01-18");
    let sets = |plan: &Plan, week: usize| -> u32 {
        let groups = plan.weeks[week].sessions.iter().flat_map(|session| &session.groups);
        groups
            .filter(|group| group.is_work())
            .flat_map(|group| &group.items)
            .map(|item| item.sets)
            .sum()
    };
    assert!(sets(&new, 2) < sets(&plan, 2));
    assert_eq!(sets(&new, 3), sets(&plan, 3));
    passes(&new);
}
