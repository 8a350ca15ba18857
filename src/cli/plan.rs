//! `weekwright plan`: a profile in, an audited plan out.

mod lines;
mod many;

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Instant;

use super::args::plan::Search;
use super::args::{Format, PlanArgs};
use super::ending::DRAFT;
use super::no_plan::{self, Origin};
use super::output::Console;
use super::profile_file;
use super::{Exit, Failure, Faults, ending, files};
use crate::diagnostic::Source;
use crate::input::catalog::Entry;
use crate::input::plan::{Item, Plan, TierValue};
use crate::input::profile::Profile;
use crate::model::tier::Tier;
use crate::plan::{found_again, seal};
use crate::planner::{Options, Planner};
use crate::search::probe::Tried;
use crate::sheets;
use crate::timing;

pub(super) fn run(arguments: &PlanArgs, console: &Console) -> Result<Exit, Failure> {
    let output = arguments.output.as_deref();
    let alone = match arguments.profiles.as_slice() {
        [profile] if !profile.is_dir() => Some(profile),
        _ => None,
    };
    let format = match (alone, output) {
        (None, Some(_)) if !arguments.sources => arguments.format.unwrap_or(Format::Yaml),
        (None, _) => arguments.format.unwrap_or(Format::Text),
        (Some(_), _) => ending::chosen(arguments.format.as_ref(), output, Format::Text)?,
    };
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let desk = Desk {
        planner: &planner,
        options: arguments.options(),
        format,
        #[cfg(feature = "book")]
        shelf: match &arguments.book {
            Some(path) => Some(super::carry::Shelf::of(path, planner.catalog(), console)?),
            None => None,
        },
    };
    match alone {
        _ if arguments.lines => lines::run(&desk, arguments.work, console),
        Some(profile) => one(arguments, profile, &desk, console),
        None => many::run(arguments, &desk, console),
    }
}

fn one(
    arguments: &PlanArgs,
    profile: &Path,
    desk: &Desk,
    console: &Console,
) -> Result<Exit, Failure> {
    let clock = Instant::now();
    if let Some(file) = &arguments.write_model {
        ending::holds(file, "mps")?;
    }
    let progress = console.progress("planning ...");
    let answer = desk.answer(profile);
    drop(progress);
    console.report(&answer.remarks);
    let plan = match answer.plan {
        Ok(plan) => plan,
        Err(exit) => return Ok(exit),
    };
    let is_file = arguments.output.as_deref().is_some_and(|path| path != Path::new("-"));
    let color = console.colors() && !is_file;
    let text = told(&plan, desk, arguments, color, console.width())?;
    let mut results = vec![(arguments.output.as_deref(), text.as_str())];
    let model = arguments.write_model.as_deref().map(|_| desk.model(&plan, &answer.options));
    results.extend(model.as_deref().map(|model| (arguments.write_model.as_deref(), model)));
    console.write_all(&results)?;
    if let Some(book) = plan.inputs.as_ref().and_then(|inputs| inputs.book.as_ref()) {
        console.remark(&format!("from the book:\n  {}", book.took.join("\n  ")));
    }
    if arguments.effort == Search::Quick {
        console.remark("A quick answer: plan again without `--effort quick` for the week to keep.");
    }
    if arguments.prove
        && let Some(tiers) = desk.planner.proven_bounds(&plan, &answer.options)
    {
        console.note(&bounds(&tiers));
    }
    if console.is_verbose() {
        console.note(&tiers(&plan));
        console.note(&format!("planned in {:.1} s", clock.elapsed().as_secs_f64()));
        // Played once more for those who ask, and no part of the plan's time.
        console.note(&splits(&desk.planner.splits_tried(&plan, &answer.options)));
    }
    Ok(Exit::Done)
}

/// What every profile of a run shares.
pub(super) struct Desk<'a> {
    pub(super) planner: &'a Planner,
    pub(super) options: Options,
    /// How plans are printed.
    pub(super) format: Format,
    /// What the book has of the clients, where it was asked for.
    #[cfg(feature = "book")]
    pub(super) shelf: Option<super::carry::Shelf>,
}

/// What became of a profile.
pub(super) struct Answer {
    /// Remarks about the profile, or what stood in the way of a plan.
    pub(super) remarks: Faults,
    /// The plan, or how the program ends without it.
    pub(super) plan: Result<Box<Plan>, Exit>,
    /// How the planner was asked: as for all, and with the profile's own last block.
    pub(super) options: Options,
}

impl Desk<'_> {
    /// Plans the profile of a file.
    pub(super) fn answer(&self, path: &Path) -> Answer {
        match files::read_source(path) {
            Ok(source) => self.answer_text(&source, path),
            Err(fault) => self.refusal(fault.into()),
        }
    }

    /// Plans the profile of a text; its place is looked for beside the path.
    pub(super) fn answer_text(&self, source: &Source, path: &Path) -> Answer {
        let name = source.name.to_string();
        let loaded = match profile_file::check_profile(source, path, self.planner.known()) {
            Ok(loaded) => loaded,
            Err(faults) => return self.refusal(faults),
        };
        let mut remarks = loaded.warnings;
        let is_trial = path.to_string_lossy().ends_with(DRAFT);
        let profile = if is_trial { trial(loaded.profile) } else { loaded.profile };
        #[allow(unused_mut, reason = "only the book changes them")]
        let (mut profile, mut options) = (profile, self.options_with(loaded.previous));
        #[cfg(feature = "book")]
        let from = self.shelf.as_ref().and_then(|shelf| shelf.give(&mut profile, &mut options));
        #[allow(unused_mut, reason = "only the book changes it")]
        let mut plan = self.planner.plan(&profile, &options).map_err(|reason| {
            let (told, exit) =
                no_plan::tell(&reason, &Origin { name, marks: Some(&loaded.read.marks) });
            remarks.add(told);
            exit
        });
        #[cfg(feature = "book")]
        if let Ok(Some(inputs)) = plan.as_mut().map(|plan| plan.inputs.as_mut()) {
            inputs.book = from;
        }
        let entries = self.planner.catalog().entries();
        let plan = plan.map(|plan| Box::new(if is_trial { marked(plan, entries) } else { plan }));
        Answer { remarks, plan, options }
    }

    /// How the planner is asked for a profile; the last block that it names comes before one that was handed over.
    fn options_with(&self, named: Option<Plan>) -> Options {
        let previous = named.or_else(|| self.options.previous.clone());
        Options { previous, ..self.options.clone() }
    }

    /// The answer to an input that cannot be planned.
    pub(super) fn refusal(&self, remarks: Faults) -> Answer {
        Answer { remarks, plan: Err(Exit::Input), options: self.options.clone() }
    }

    /// The weekly model of a plan of ours, for other solvers.
    pub(super) fn model(&self, plan: &Plan, options: &Options) -> String {
        self.planner.weekly_mps(plan, options).expect("a plan of ours says how it was solved")
    }
}

/// A draft is planned to be looked at: without loads, since nobody has answered for them.
fn trial(profile: Profile) -> Profile {
    Profile { known_lifts: BTreeMap::new(), ..profile }
}

/// What stands on a trial before anything else.
const TRIAL: &str = "this plan is made from a draft, without loads. It is to be looked at and not to be trained; finish the questions \
     with `weekwright intake` and plan again.";

/// A trial: no loads, nor ways to find them, and the time that is left without.
fn marked(mut plan: Plan, entries: &BTreeMap<String, Entry>) -> Plan {
    plan.cautions.insert(0, format!("{} {TRIAL}", sheets::TRIAL));
    let weeks = plan.weeks.iter_mut().flat_map(|week| &mut week.sessions);
    for session in plan.sessions.iter_mut().chain(weeks) {
        let items = session.groups.iter_mut().flat_map(|group| &mut group.items);
        let goes_on = |item: &Item| item.load_note.as_deref().is_some_and(found_again::goes_on);
        let loaded =
            |item: &&mut Item| item.load_kg.is_some() || item.find_load.is_some() || goes_on(item);
        for item in items.filter(loaded) {
            (item.load_kg, item.load_lb, item.find_load, item.load_note) = (None, None, None, None);
            item.ramp.clear();
        }
        timing::fill_in(session, &|id| entries.get(id));
    }
    seal::seal(&mut plan);
    plan
}

/// The plan, or what it rests on, in the format asked for.
pub(super) fn told(
    plan: &Plan,
    desk: &Desk,
    arguments: &PlanArgs,
    color: bool,
    width: usize,
) -> Result<String, Failure> {
    if !arguments.sources {
        return rendered(plan, desk.planner, desk.format, color, width);
    }
    let basis = sheets::basis::basis(plan, desk.planner.catalog().entries())
        .expect("a plan of ours holds its profile");
    let options = sheets::Options { color, width, ..sheets::Options::default() };
    Ok(match desk.format {
        Format::Text => sheets::basis_text(&basis, &options),
        Format::Yaml => serde_yaml::to_string(&basis).expect("it has text keys only"),
        Format::Json => format!("{:#}\n", serde_json::json!(basis)),
    })
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

/// What the relaxation proves of each tier.
fn bounds(tiers: &[TierValue]) -> String {
    let line = |tier: &TierValue| {
        let proven = if tier.proven { "proven" } else { "not proven" };
        format!("  {:<20} {:>8} (bound {}, {proven})", tier.name, tier.value, tier.bound)
    };
    let lines: Vec<String> = tiers.iter().map(line).collect();
    format!("bounds by linear programming:\n{}", lines.join("\n"))
}

/// Value and bound of each tier, for a coach who wants to know how good the plan is.
pub(super) fn tiers(plan: &Plan) -> String {
    let Some(solve) = &plan.solve else { return String::new() };
    let lines = solve.tiers.iter().map(|tier| {
        let proven = if tier.proven { "proven" } else { "not proven" };
        let rules = solve.points.iter().filter(|one| one.tier == tier.name);
        let rules = rules.map(|one| format!("\n    {:<18} {:>8}", one.rule, one.value));
        let head =
            format!("  {:<20} {:>8} (bound {}, {proven})", tier.name, tier.value, tier.bound);
        std::iter::once(head).chain(rules).collect::<String>()
    });
    let lines: Vec<String> = lines.collect();
    format!("solved with {}: {}\n{}", solve.backend, solve.status, lines.join("\n"))
}

/// What the splits that were tried are worth after their first game.
fn splits(tried: &[Tried]) -> String {
    let lines = tried.iter().map(|Tried { split, tiers }| {
        let ideas: Vec<&str> = split.days.iter().map(|day| day.idea.as_str()).collect();
        let worth = match tiers {
            Some(tiers) => {
                let told = [Tier::Coverage, Tier::Ranges, Tier::View];
                told.map(|tier| format!("{tier} {}", tiers[tier])).join(", ")
            }
            None => "no week yet that meets the hard rules".to_owned(),
        };
        format!("  {}: {}\n    {worth}", split.name, ideas.join("; "))
    });
    let lines: Vec<String> = lines.collect();
    format!("splits tried, each after its first game:\n{}", lines.join("\n"))
}
