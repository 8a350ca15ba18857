//! `weekwright catalog`: the exercises to look through, show and check.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Serialize;

use super::args::{CatalogAction, CatalogArgs, Format, ListArgs};
use super::files::{catalog_sources, exercise, load_catalog};
use super::output::Console;
use super::render;
use super::table::{cut, table};
use super::{Exit, Failure, Faults};
use crate::catalog::cells::KitGroup;
use crate::catalog::lint::{Report, built_in_sources, lint};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::catalog::{Entry, StressTag};
use crate::input::{naming, suggest};
use crate::words::{Kind, Kit, Muscle, Part, Pattern, Role, Stress};

pub(super) fn run(arguments: &CatalogArgs, console: &Console) -> Result<Exit, Failure> {
    match &arguments.action {
        CatalogAction::Lint => return run_lint(arguments, console),
        CatalogAction::List(filters) => {
            let catalog = load_catalog(arguments.catalog.as_deref())?;
            let filter = Filter::new(filters)?;
            let found: Vec<&Entry> = catalog.iter().filter(|entry| filter.keeps(entry)).collect();
            console.print(&listed(&found, arguments.format, console.width()))?;
        }
        CatalogAction::Show { id } => {
            let catalog = load_catalog(arguments.catalog.as_deref())?;
            let id = exercise(id, catalog.entries())?;
            let entry = catalog.get(&id).expect("an id of this catalog");
            console.print(&shown(entry, arguments.format, console.width()))?;
        }
        CatalogAction::Find { words } => {
            let catalog = load_catalog(arguments.catalog.as_deref())?;
            let found = naming::find(&words.join(" "), catalog.entries());
            console.print(&found_text(&found, arguments.format, console.width()))?;
        }
    }
    Ok(Exit::Done)
}

/// What `catalog list` keeps, in checked words.
struct Filter {
    pattern: Option<Pattern>,
    muscle: Option<Muscle>,
    /// Items at hand; `None` where kit is no matter.
    kit: Option<Vec<Kit>>,
    limits: Vec<Stress>,
    level: Option<u8>,
    role: Option<Role>,
}

impl Filter {
    /// Checks every word; all that are wrong are told at once.
    fn new(typed: &ListArgs) -> Result<Filter, Faults> {
        let mut wrong = Faults::default();
        let kit: Vec<&String> = typed.kit.iter().filter(|kit| *kit != "none").collect();
        let filter = Filter {
            pattern: word("--pattern", typed.pattern.as_ref(), Pattern::ALL, &mut wrong),
            muscle: word("--muscle", typed.muscle.as_ref(), Muscle::ALL, &mut wrong),
            kit: (!typed.kit.is_empty()).then(|| words("--kit", &kit, Kit::ALL, &mut wrong)),
            limits: {
                let limits: Vec<&String> = typed.limit.iter().collect();
                words("--limit", &limits, Stress::ALL, &mut wrong)
            },
            level: typed.level,
            role: word("--role", typed.role.as_ref(), Role::ALL, &mut wrong),
        };
        if wrong.diagnostics.is_empty() { Ok(filter) } else { Err(wrong) }
    }

    fn keeps(&self, entry: &Entry) -> bool {
        let muscles = || entry.direct.iter().chain(&entry.muscles);
        let stresses = |tag: &Stress| {
            let mut tags = entry.stress.iter().flat_map(StressTag::parts);
            tags.any(|(stress, _)| stress == *tag)
        };
        self.pattern.is_none_or(|pattern| entry.pattern == Some(pattern))
            && self.muscle.is_none_or(|muscle| muscles().any(|other| *other == muscle))
            && self.kit.as_ref().is_none_or(|kit| uses_only(entry, kit))
            && !self.limits.iter().any(stresses)
            && self.level.is_none_or(|level| entry.level == level)
            && self.role.is_none_or(|role| entry.role == role)
    }
}

/// Whether some set of an entry's needs is covered by the items, and uses one where there are any.
fn uses_only(entry: &Entry, items: &[Kit]) -> bool {
    let serves = |need: &Kit| {
        let adjustable = *need == Kit::Bench && items.contains(&Kit::AdjustableBench);
        items.contains(need) || adjustable
    };
    entry.needs.iter().any(|set| set.is_empty() == items.is_empty() && set.iter().all(serves))
}

fn word<W: Copy + Into<&'static str>>(
    option: &str,
    typed: Option<&String>,
    all: &[W],
    wrong: &mut Faults,
) -> Option<W> {
    let typed: Vec<&String> = typed.into_iter().collect();
    words(option, &typed, all, wrong).first().copied()
}

fn words<W: Copy + Into<&'static str>>(
    option: &str,
    typed: &[&String],
    all: &[W],
    wrong: &mut Faults,
) -> Vec<W> {
    let ids: Vec<&str> = all.iter().map(|word| (*word).into()).collect();
    let mut found = Vec::new();
    for typed in typed {
        if let Some(index) = ids.iter().position(|id| id == typed) {
            found.push(all[index]);
            continue;
        }
        let otherwise = format!(
            "`weekwright catalog list --help` explains the filters; {option} takes {}",
            suggest::list(&ids)
        );
        wrong.diagnostics.push(
            Diagnostic::error("E1202", format!("{} is not a word for `{option}`", quoted(typed)))
                .at(Label::whole("command line"))
                .help(suggest::help(typed, &ids, &otherwise)),
        );
    }
    found
}

fn listed(entries: &[&Entry], format: Format, most: usize) -> String {
    if format != Format::Text {
        return serialized(&entries, format);
    }
    let width = entries.iter().map(|entry| entry.id.len()).max().unwrap_or(0);
    let mut groups: BTreeMap<_, String> = BTreeMap::new();
    for entry in entries {
        let line = format!("  {:width$}  {}  {}", entry.id, entry.level, kit(entry));
        let group = groups.entry((entry.role, entry.pattern, entry.part)).or_default();
        group.push_str(&cut(&line, most));
        group.push('\n');
    }
    let mut text = String::new();
    for ((role, pattern, part), lines) in groups {
        let heading = match (role, pattern, part) {
            (Role::Work, Some(pattern), _) => pattern.to_string(),
            (role, Some(pattern), _) => format!("{role}, {pattern}"),
            (role, None, Some(part)) => format!("{role}, {part}"),
            (role, None, None) => role.to_string(),
        };
        write!(text, "{heading}\n{lines}\n").expect("a string takes every write");
    }
    let count = match entries.len() {
        0 => "no exercise fits all of these filters".to_owned(),
        1 => "1 exercise; the number is its level".to_owned(),
        count => format!("{count} exercises; the number is the level"),
    };
    text + &count + "\n"
}

/// What `catalog find` found, the best first: id, name and kit.
fn found_text(entries: &[&Entry], format: Format, most: usize) -> String {
    const MOST: usize = 25;
    if format != Format::Text {
        return serialized(&entries, format);
    }
    if entries.is_empty() {
        return "nothing is called so; `weekwright catalog list` shows every exercise\n".to_owned();
    }
    let shown = &entries[..entries.len().min(MOST)];
    let row = |entry: &&Entry| vec![entry.id.clone(), entry.name.clone(), kit(entry)];
    let rows: Vec<Vec<String>> = shown.iter().map(row).collect();
    let more = entries.len() - shown.len();
    let rest = if more > 0 {
        format!("and {more} more; another word narrows them\n")
    } else {
        String::new()
    };
    table(&["EXERCISE", "NAME", "KIT"], &rows, most) + &rest
}

/// The sets of kit in words: `barbell + bench or dumbbells`.
fn kit(entry: &Entry) -> String {
    let set = |set: &Vec<Kit>| {
        let ids: Vec<&str> = set.iter().map(|kit| kit.id()).collect();
        if ids.is_empty() { "none".to_owned() } else { ids.join(" + ") }
    };
    let sets: Vec<String> = entry.needs.iter().map(set).collect();
    sets.join(" or ")
}

fn shown(entry: &Entry, format: Format, most: usize) -> String {
    if format != Format::Text {
        return serialized(&entry, format);
    }
    let mut text = format!("{} ({})\n", entry.name, entry.id);
    for (name, value) in lines(entry).iter().filter(|(_, value)| !value.is_empty()) {
        let value =
            render::wrapped(value, most.max(40) - 18).replace('\n', &format!("\n{:18}", ""));
        writeln!(text, "  {name:16}{value}").expect("a string takes every write");
    }
    text
}

/// What an entry says, in the order of its file; what it does not say is empty.
fn lines(entry: &Entry) -> [(&'static str, String); 25] {
    let reps: Vec<String> = entry.reps.iter().map(u32::to_string).collect();
    let works = entry.role == Role::Work;
    let told = |word: Option<&'static str>| word.unwrap_or_default().to_owned();
    [
        ("role", entry.role.to_string()),
        ("part", told(entry.part.map(Part::id))),
        ("family", entry.family.clone().unwrap_or_default()),
        ("pattern", told(entry.pattern.map(Pattern::id))),
        ("kind", told(entry.kind.map(Kind::id))),
        ("standing", told(works.then(|| entry.standing.id()))),
        ("go-to", told(entry.go_to.then_some("before the other staples of its pattern"))),
        ("second to", entry.second_to.join(", ")),
        ("variant of", entry.variant_of.clone().unwrap_or_default()),
        ("first step", told(entry.first_step.then_some("a novice may learn the movement by it"))),
        ("skill", if works { entry.skill.to_string() } else { String::new() }),
        ("a whole set for", ids(&entry.direct)),
        ("half a set for", ids(&entry.indirect)),
        ("muscles", ids(&entry.muscles)),
        ("kit", kit(entry)),
        ("level", entry.level.to_string()),
        ("sides", entry.sides.to_string()),
        ("load", entry.load.to_string()),
        (entry.measure.id(), reps.join(" to ")),
        ("tempo", entry.tempo.clone().unwrap_or_default()),
        ("set-up", format!("{} s", entry.setup_s)),
        ("loads", stresses(entry)),
        ("easier", entry.easier.join(", ")),
        ("harder", entry.harder.join(", ")),
        ("cues", entry.cues.join("; ")),
    ]
}

fn ids(muscles: &[Muscle]) -> String {
    let ids: Vec<&str> = muscles.iter().map(|muscle| muscle.id()).collect();
    ids.join(", ")
}

fn stresses(entry: &Entry) -> String {
    let parts = entry.stress.iter().flat_map(StressTag::parts);
    let tags: Vec<String> = parts.map(|(stress, grade)| format!("{stress} ({grade})")).collect();
    tags.join(", ")
}

fn serialized(value: &impl Serialize, format: Format) -> String {
    let text = match format {
        Format::Json => serde_json::to_string_pretty(value).map(|text| text + "\n").ok(),
        Format::Text | Format::Yaml => serde_yaml::to_string(value).ok(),
    };
    text.expect("entries have text keys only")
}

fn run_lint(arguments: &CatalogArgs, console: &Console) -> Result<Exit, Failure> {
    let more = match &arguments.catalog {
        Some(folder) => catalog_sources(folder)?,
        None => Vec::new(),
    };
    let report = lint(&more);
    let sources = built_in_sources().into_iter().chain(more).collect();
    let found = Faults::new(report.diagnostics.clone(), sources);
    console.report(&found);
    if arguments.format == Format::Text {
        console.print(&cells(&report, console.width()))?;
    }
    Ok(if found.any_error() { Exit::Input } else { Exit::Done })
}

/// How many exercises there are for each pattern and group of kit, at levels 1, 2 and 3.
fn cells(report: &Report, most: usize) -> String {
    let count = |pattern: Pattern, group: KitGroup| {
        let levels = report.cells.levels(pattern, group);
        let shown = levels.map(|count| match count {
            0 => "-".to_owned(),
            count => count.to_string(),
        });
        shown.join("/")
    };
    let row = |pattern: &Pattern| {
        let cells = KitGroup::ALL.map(|group| count(*pattern, group));
        std::iter::once(pattern.to_string()).chain(cells).collect()
    };
    let rows: Vec<Vec<String>> = Pattern::ALL.iter().map(row).collect();
    let names = KitGroup::ALL.map(KitGroup::heading);
    let headings: Vec<&str> = std::iter::once("pattern").chain(names).collect();
    format!(
        "Working exercises at level 1/2/3\n{}{} entries, {} families\n",
        table(&headings, &rows, most),
        report.entries,
        report.families
    )
}
