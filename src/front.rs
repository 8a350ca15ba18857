//! The front door: texts in; plans, audits, reworks, reasons and sheets out. Nothing here knows a file.

use crate::diagnostic::{Diagnostic, Faults, Label, Source, quoted};
use crate::input::check::Known;
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::input::source::{MOST_BYTES, MOST_PLAN_BYTES, source};
use crate::load::{self, Beside, LoadedPlan, LoadedProfile};
use crate::planner::Planner;
use crate::rework::{self, Ask, BadAsk, NoRework, Outcome, When};
use crate::search::budget::Budget;
use crate::sheets::{self, Sheet, SheetError};
use crate::why::Asked;

/// Reads a client's profile, and the place that it names, with the built-in exercises.
///
/// ```
/// let profile = "client: example-01\ntraining_status: novise\ngoal: strength\nplace: shed\n";
/// let faults = weekwright::load(profile, None).expect_err("two slips");
/// assert_eq!(faults.diagnostics.len(), 3, "{faults}");
/// assert!(faults.diagnostics[1].help.starts_with("did you mean `novice`?"));
/// ```
///
/// # Errors
/// Every fault of both texts at once, each with its line and a way out.
pub fn load(profile: &str, place: Option<&str>) -> Result<LoadedProfile, Faults> {
    Planner::built_in().load(profile, place)
}

/// What messages call the texts that are handed in.
const PROFILE: &str = "profile";
const PLACE: &str = "place";
const PLAN: &str = "plan";

impl Planner {
    /// Reads a client's profile, and the place that it names, with the exercises of this planner.
    ///
    /// # Errors
    /// Every fault of both texts at once.
    pub fn load(&self, profile: &str, place: Option<&str>) -> Result<LoadedProfile, Faults> {
        let text = source(PROFILE, profile.as_bytes().to_vec(), MOST_BYTES)?;
        load::profile(&text, &HandedIn { place }, self.known())
    }

    /// Reads a plan, which holds its profile.
    ///
    /// # Errors
    /// Every fault of the text.
    pub fn read(&self, plan: &str) -> Result<Plan, Faults> {
        let text = source(PLAN, plan.as_bytes().to_vec(), MOST_PLAN_BYTES)?;
        self.whole(load::plan(text)?, |name, _| Err(not_handed_in("profile", name).into()))
    }

    /// A plan that was read, with its whole profile and all its tables; `named` reads a profile that is only named.
    ///
    /// # Errors
    /// Every fault of the profile.
    pub fn whole(
        &self,
        loaded: LoadedPlan,
        named: impl FnOnce(&str, Known<'_>) -> Result<Profile, Faults>,
    ) -> Result<Plan, Faults> {
        let is_kept = loaded.is_kept();
        let mut plan = loaded.whole(self.catalog().entries(), named)?;
        if is_kept {
            self.count(&mut plan);
        }
        Ok(plan)
    }

    /// What a profile may name.
    #[must_use]
    pub fn known(&self) -> Known<'_> {
        load::known(self.catalog().entries())
    }

    /// Changes a plan as little as possible.
    ///
    /// # Errors
    /// An ask that does not fit the plan, or why there is no plan.
    pub fn rework(&self, plan: &Plan, ask: &Ask) -> Result<Outcome, NoRework> {
        self.rework_within(plan, ask, Budget::default())
    }

    /// The same with so much work as a budget allows.
    ///
    /// # Errors
    /// An ask that does not fit the plan, or why there is no plan.
    pub fn rework_within(
        &self,
        plan: &Plan,
        ask: &Ask,
        budget: Budget,
    ) -> Result<Outcome, NoRework> {
        rework::rework(&self.with_plan(plan), plan, ask, budget)
    }

    /// Changes some dates of a plan only.
    ///
    /// # Errors
    /// An ask that does not fit the plan, or why there is no plan.
    pub fn rework_dates(&self, plan: &Plan, ask: &Ask, when: &When) -> Result<Outcome, NoRework> {
        rework::dated(&self.with_plan(plan), plan, ask, when)
    }

    /// A plan that can be asked for its reasons.
    ///
    /// # Errors
    /// A profile that is only named.
    pub fn why<'a>(&self, plan: &'a Plan) -> Result<Asked<'a>, BadAsk> {
        Asked::new(&self.with_plan(plan), plan)
    }

    /// A plan for people or programs, such as [`sheets::Html`] makes it.
    ///
    /// # Errors
    /// What the plan lacks for such a sheet.
    pub fn sheet(
        &self,
        plan: &Plan,
        sheet: &dyn Sheet,
        options: &sheets::Options,
    ) -> Result<String, SheetError> {
        let mut bytes = Vec::new();
        sheet.write(plan, self.catalog().entries(), options, &mut bytes)?;
        Ok(String::from_utf8(bytes).expect("sheets are text"))
    }
}

/// The text of a place beside that of a profile.
struct HandedIn<'a> {
    place: Option<&'a str>,
}

impl Beside for HandedIn<'_> {
    fn place(&self, name: &str) -> Result<Source, Diagnostic> {
        let text = self.place.ok_or_else(|| not_handed_in("place", name))?;
        source(PLACE, text.as_bytes().to_vec(), MOST_BYTES)
    }

    fn previous(&self, name: &str) -> Result<Source, Diagnostic> {
        Err(not_handed_in("last block", name))
    }
}

/// E1004: what is only named cannot be looked for here.
fn not_handed_in(what: &str, name: &str) -> Diagnostic {
    Diagnostic::error("E1004", format!("the {what} {} was not handed in", quoted(name)))
        .at(Label::whole(name))
        .help("hand in its text, or leave the name out")
}
