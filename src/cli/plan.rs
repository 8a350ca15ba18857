//! `weekwright plan`: a profile in, an audited plan out.

use std::path::Path;
use std::time::Instant;

use super::args::{Format, PlanArgs};
use super::no_plan::{self, Origin};
use super::output::Console;
use super::{Exit, Failure, files};
use crate::input::check::Known;
use crate::input::plan::Plan;
use crate::planner::{Options, Planner};
use crate::rules::RULES;
use crate::sheets;

pub(super) fn run(arguments: &PlanArgs, console: &Console) -> Result<Exit, Failure> {
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let ids: Vec<&str> = RULES.iter().map(|rule| rule.id()).collect();
    let known = Known { entries: planner.catalog().entries(), rules: &ids };
    let loaded = files::load_profile(&arguments.profile, known)?;
    console.report(&loaded.warnings);
    let options =
        Options { seed: arguments.seed, best_effort: arguments.best_effort, ..Options::default() };
    let clock = Instant::now();
    let progress = console.progress("planning ...");
    let outcome = planner.plan(&loaded.profile, &options);
    drop(progress);
    match outcome {
        Ok(plan) => {
            let is_file = arguments.output.as_deref().is_some_and(|path| path != Path::new("-"));
            let color = console.colors() && !is_file;
            let text = rendered(&plan, &planner, arguments.format, color, console.width())?;
            console.write(arguments.output.as_deref(), &text)?;
            if console.is_verbose() {
                console.note(&tiers(&plan));
                console.note(&format!("planned in {:.1} s", clock.elapsed().as_secs_f64()));
            }
            Ok(Exit::Done)
        }
        Err(reason) => {
            let name = arguments.profile.display().to_string();
            let origin = Origin { name, marks: Some(&loaded.read.marks) };
            Ok(no_plan::tell(&reason, &origin, console))
        }
    }
}

/// The plan in the format asked for.
pub(super) fn rendered(
    plan: &Plan,
    planner: &Planner,
    format: Format,
    color: bool,
    width: usize,
) -> Result<String, Failure> {
    let name = match format {
        Format::Text => "text",
        Format::Yaml => "yaml",
        Format::Json => "json",
    };
    let options = sheets::Options { color, width, ..sheets::Options::default() };
    super::sheet::made(plan, planner.catalog().entries(), name, &options)
}

/// Value and bound of each tier, for a coach who wants to know how good the plan is.
fn tiers(plan: &Plan) -> String {
    let Some(solve) = &plan.solve else { return String::new() };
    let lines = solve.tiers.iter().map(|tier| {
        let proven = if tier.proven { "proven" } else { "not proven" };
        format!("  {:<20} {:>8} (bound {}, {proven})", tier.name, tier.value, tier.bound)
    });
    let lines: Vec<String> = lines.collect();
    format!("solved with {}: {}\n{}", solve.backend, solve.status, lines.join("\n"))
}
