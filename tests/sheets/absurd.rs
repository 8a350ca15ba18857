//! Plans written by hand may hold any number that the shape allows; no sheet panics over one.

use weekwright::plan::file::{Balance, Plan, RampSet};
use weekwright::sheets::{Options, SHEETS};

use crate::sample::{names, tide};

fn written(plan: &Plan) {
    for sheet in SHEETS {
        for width in [0, 80, usize::MAX] {
            let options = Options { width, color: true, ..Options::default() };
            sheet.write(plan, &names(), &options, &mut Vec::new()).expect("a sheet of some kind");
        }
    }
}

fn bend(plan: &mut Plan, number: u32, mass: f64) {
    for session in &mut plan.sessions {
        if let Some(minutes) = &mut session.minutes {
            (minutes.limit, minutes.planned_s, minutes.planned) = (number, number, mass);
        }
        for group in &mut session.groups {
            group.seconds = Some(number);
            for item in &mut group.items {
                (item.sets, item.rest_s, item.load_kg) = (number, number, Some(mass));
                item.rir = Some(number);
                item.reps = Some(vec![number; 20]);
                item.ramp =
                    vec![RampSet { load_kg: Some(mass), reps: number, ..RampSet::default() }];
            }
        }
    }
    for (row, mass) in plan.volume.iter_mut().zip([mass, 0.0, 1e9].into_iter().cycle()) {
        (row.sets, row.low) = (mass, Some(mass));
    }
    plan.balance =
        Some(Balance { push: number, pull: number, legs: number, knee: number, hip: number });
}

#[test]
fn absurd_numbers_are_printed_and_not_tripped_over() {
    for number in [0, 1, u32::MAX] {
        for mass in [0.0, -1.0, 1e300, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let mut plan = tide();
            bend(&mut plan, number, mass);
            let sessions = plan.sessions.clone();
            for week in &mut plan.weeks {
                (week.week, week.sessions) = (number, sessions.clone());
            }
            written(&plan);
            plan.weeks.clear();
            written(&plan);
        }
    }
}

#[test]
fn empty_lists_and_odd_hours_are_printed() {
    let mut plan = tide();
    plan.sessions[0].groups.clear();
    plan.sessions[1].groups[0].items.clear();
    plan.sessions[1].groups[1].items.clear();
    plan.sessions[2].at = Some("25:99".to_owned());
    plan.weeks[0].sessions.clear();
    plan.weeks[1].sessions = plan.sessions.clone();
    plan.weeks[1].date = Some("9999-12-31".to_owned());
    plan.volume.clear();
    plan.balance = None;
    written(&plan);
    plan.sessions.clear();
    plan.weeks.clear();
    written(&plan);
}
