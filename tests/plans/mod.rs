//! Plans as they are kept: nothing is lost on the way to the file and back, and edits are found again.

mod choosing;
mod dated;
mod edits;
mod fast;
mod filters;
mod fits;
mod forms;
mod kept;
mod leads;
mod loads;
mod priced;
mod reworked;
mod shape;
mod short;
mod spread;
mod weeks;
mod wishes;

use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex};

use weekwright::input::plan::Plan;
use weekwright::planner::{Options, Planner};

use crate::demo;

static PLANNER: LazyLock<Planner> = LazyLock::new(Planner::built_in);
static PLANS: Mutex<BTreeMap<String, Plan>> = Mutex::new(BTreeMap::new());

/// The plan of a demo client, made once.
fn plan_of(client: &str) -> Plan {
    let mut plans = PLANS.lock().expect("no test panics while it plans");
    let made = || PLANNER.plan(&demo(client), &Options::default()).expect("a demo profile plans");
    plans.entry(client.to_owned()).or_insert_with(made).clone()
}
