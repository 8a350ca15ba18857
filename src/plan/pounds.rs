//! Loads in pounds beside those in kilograms, for a client who counts in pounds.

use crate::input::plan::{Item, Session};
use crate::strength::ladder::half_pounds;
use crate::words::Units;

/// Writes the pounds of every load of some sessions, to the half; takes them away for other clients.
pub fn fill_in<'a>(sessions: impl Iterator<Item = &'a mut Session>, units: Units) {
    let pounds = |load_kg: Option<f64>| load_kg.filter(|_| units == Units::Lb).map(half_pounds);
    let groups = sessions.flat_map(|session| &mut session.groups);
    for item in groups.flat_map(|group| &mut group.items) {
        of_item(item, &pounds);
    }
}

fn of_item(item: &mut Item, pounds: &dyn Fn(Option<f64>) -> Option<f64>) {
    item.load_lb = pounds(item.load_kg);
    for step in &mut item.ramp {
        step.load_lb = pounds(step.load_kg);
    }
    if let Some(find) = &mut item.find_load {
        find.start_lb = pounds(Some(find.start_kg));
        find.step_lb = pounds(Some(find.step_kg));
    }
}
