//! `weekwright why`: a plan's reasons.

use serde_json::{Value, json};

use super::args::{Format, WhyArgs};
use super::output::Console;
use super::plan_file;
use super::render::{WIDTH, wrapped};
use super::rework::{all_exercises_exist, notices};
use super::table::table;
use super::{Exit, Failure, files};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::plan::Shortfall;
use crate::input::suggest;
use crate::planner::Planner;
use crate::rules::told_by;
use crate::why::{About, Asked, Effect, Instead, Page, Source};
use crate::words::Muscle;

pub(super) fn run(arguments: &WhyArgs, console: &Console) -> Result<Exit, Failure> {
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let loaded = plan_file::load_plan(&arguments.plan)?;
    let plan = plan_file::with_profile(&arguments.plan, loaded, &planner)?;
    plan_file::may_train(&plan, &arguments.plan)?;
    let planner = planner.with_plan(&plan);
    all_exercises_exist(&plan, &planner, &arguments.plan)?;
    console.report(&notices(&plan, &planner, &arguments.plan));
    let asked = planner.why(&plan).map_err(|fault| {
        let label = Label::whole(arguments.plan.display().to_string());
        Failure::Faults(Diagnostic::error("E2003", fault.to_string()).at(label).into())
    })?;
    let (text, value) = match (&arguments.id, &arguments.muscle) {
        (Some(typed), _) => {
            let id = files::exercise(typed, planner.catalog().entries())?;
            if arguments.instead { instead(&id, &asked) } else { about(&id, &asked.about(&id)) }
        }
        (None, Some(muscle)) => {
            let words: Vec<&str> = Muscle::ALL.iter().map(|muscle| muscle.id()).collect();
            let known = muscle.parse().map_err(|_| unknown(muscle, "muscle", &words))?;
            sources(known, &asked.muscle(known))
        }
        (None, None) => page(&asked.page()),
    };
    console.print(&match arguments.format {
        Format::Json => format!("{value:#}\n"),
        Format::Text | Format::Yaml => text,
    })?;
    Ok(Exit::Done)
}

fn unknown(typed: &str, what: &str, words: &[&str]) -> Failure {
    let fault = Diagnostic::error("E2002", format!("there is no {what} {}", quoted(typed)))
        .help(suggest::help(typed, words, "`catalog list` shows the exercises"));
    Failure::Faults(fault.into())
}

fn page(page: &Page) -> (String, Value) {
    let mut text = String::new();
    if page.tiers.is_empty() {
        text.push_str("Written by hand: no tiers were solved.\n");
    } else {
        let rows: Vec<Vec<String>> = page
            .tiers
            .iter()
            .map(|tier| {
                let proven = if tier.proven { "proven" } else { "not proven" };
                vec![
                    tier.name.clone(),
                    tier.value.to_string(),
                    tier.bound.to_string(),
                    proven.to_owned(),
                ]
            })
            .collect();
        text.push_str(&table(&["WISHES", "VALUE", "BOUND", ""], &rows, WIDTH));
        text.push_str("Costs are best at 0; the coach's view counts points.\n");
        let rows: Vec<Vec<String>> = page
            .points
            .iter()
            .map(|one| vec![one.rule.clone(), one.tier.clone(), one.value.to_string()])
            .collect();
        if !rows.is_empty() {
            text.push('\n');
            text.push_str(&table(&["RULE", "COUNTS IN", "VALUE"], &rows, WIDTH));
        }
    }
    text.push('\n');
    text.push_str(&days(page));
    text.push_str(&shortfalls(page));
    (text, json!(page))
}

/// What binds on each day, the fullest first.
fn days(page: &Page) -> String {
    let mut text = String::new();
    for day in &page.days {
        let binding = if day.binding.is_empty() {
            "nothing is at its limit".to_owned()
        } else {
            day.binding.join("; ")
        };
        let line =
            format!("{}: {:.1} of {} minutes are left; {binding}", day.day, day.left, day.limit);
        text.push_str(&wrapped(&line, WIDTH));
        text.push('\n');
    }
    if let Some(day) = page.days.first().filter(|_| page.days.len() > 1) {
        let line = format!("The most contested minutes are those of {}.\n", day.day);
        text.push_str(&line);
    }
    text.push('\n');
    text
}

/// Wishes that fall short, and what limited them; a floor is not told beside a range of the same muscle.
fn shortfalls(page: &Page) -> String {
    let subject = |short: &Shortfall| short.wanted.split(':').next().unwrap_or("").to_owned();
    let in_range = |short: &Shortfall| {
        let Some(rule) = told_by(&short.rule) else { return false };
        let same = |other: &Shortfall| other.rule == rule && subject(other) == subject(short);
        page.shortfalls.iter().any(same)
    };
    let told: Vec<&Shortfall> = page.shortfalls.iter().filter(|short| !in_range(short)).collect();
    if told.is_empty() {
        return "Every wish is met.\n".to_owned();
    }
    let rows: Vec<Vec<String>> =
        told.iter().map(|short| vec![short.wanted.clone(), short.got.clone()]).collect();
    let mut text = table(&["FELL SHORT", "GOT"], &rows, WIDTH);
    let mut reasons: Vec<(&str, Vec<String>)> = Vec::new();
    for short in told {
        match reasons.iter_mut().find(|(because, _)| *because == short.because) {
            Some((_, subjects)) => subjects.push(subject(short)),
            None => reasons.push((&short.because, vec![subject(short)])),
        }
    }
    for (because, subjects) in reasons {
        text.push_str(&wrapped(&format!("{}: {because}.", subjects.join(", ")), WIDTH));
        text.push('\n');
    }
    text
}

fn about(id: &str, about: &About) -> (String, Value) {
    let text = match about {
        About::In { days, gives, without } => {
            let days: Vec<String> =
                days.iter().map(|(day, sets)| format!("{sets} sets on {day}")).collect();
            let gives: Vec<String> =
                gives.iter().map(|(muscle, sets)| format!("{muscle} {sets}")).collect();
            let cost = match without {
                Some(effect) => format!("Leaving it out {}", costs(effect)),
                None => "No week was found without it.".to_owned(),
            };
            format!(
                "{id} is in the week: {}.\nIt gives weekly sets: {}.\n{cost}",
                days.join(", "),
                gives.join(", ")
            )
        }
        About::Barred { because } => format!("{id} is out: {because}."),
        About::Out { with: Ok(effect) } => {
            format!("{id} is not in the week. Putting it in {}", costs(effect))
        }
        About::Out { with: Err(why) } => format!("{id} is not in the week: {why}."),
        About::NotWork => format!("{id} is no working exercise; weeks are not planned with it."),
    };
    let lines: Vec<String> = text.lines().map(|line| wrapped(line, WIDTH)).collect();
    let lines =
        if asked_better(about) { [lines, vec![REWORKED.to_owned()]].concat() } else { lines };
    (lines.join("\n") + "\n", json!({ "exercise": id, "about": about }))
}

/// Where the plan as it stands is not the base.
const REWORKED: &str =
    "Counted against the week reworked, which is better than the plan as it stands.";

fn asked_better(about: &About) -> bool {
    match about {
        About::In { without: Some(effect), .. } | About::Out { with: Ok(effect) } => {
            effect.against_rework
        }
        _ => false,
    }
}

/// What an effect does, in a clause and a sentence.
fn costs(effect: &Effect) -> String {
    let mut text = format!("{} (planned again).", effect.cost);
    if !effect.out.is_empty() {
        let line = format!(" Out go {}.", effect.out.join(", "));
        text.push_str(&line);
    }
    if !effect.comes.is_empty() {
        let line = format!(" In come {}.", effect.comes.join(", "));
        text.push_str(&line);
    }
    if effect.cost.view.abs() > 1e-9 {
        text.push('\n');
        text.push_str(POINTS);
    }
    text
}

/// What points of the coach's view mean.
const POINTS: &str = "Points choose among weeks that are alike in patterns and sets: a few are little, and an exercise that the client \
     likes counts about 25.";

fn instead(id: &str, asked: &Asked) -> (String, Value) {
    let found: Vec<Instead> = asked.instead(id);
    if found.is_empty() {
        let text = match asked.about(id) {
            About::In { .. } => format!("Nothing was found that could stand in for {id}.\n"),
            _ => format!("{id} is not in the week, so nothing has to stand in for it.\n"),
        };
        return (text, json!({ "exercise": id, "instead": found }));
    }
    let rows: Vec<Vec<String>> = found
        .iter()
        .map(|one| {
            vec![one.exercise.clone(), one.likeness.to_string(), one.effect.cost.to_string()]
        })
        .collect();
    let mut text = table(&["INSTEAD", "LIKENESS", "PLANNED AGAIN"], &rows, usize::MAX);
    text.push_str(&wrapped(LIKENESS, WIDTH));
    text.push('\n');
    (text, json!({ "exercise": id, "instead": found }))
}

/// How to read the table of replacements.
const LIKENESS: &str = "In its place on every day that has it, the best for the week first. Of the likeness, 8 is the \
    pattern, 6 the first muscle, 2 another shared one, and 1 each the kind, the sides and the level.";

fn sources(muscle: Muscle, sources: &[Source]) -> (String, Value) {
    let rows: Vec<Vec<String>> = sources
        .iter()
        .map(|one| {
            vec![
                one.day.clone(),
                one.exercise.clone(),
                one.sets.to_string(),
                one.counted.to_string(),
            ]
        })
        .collect();
    if sources.is_empty() {
        let text = format!("No exercise of the week gives {muscle} a set.\n");
        return (text, json!({ "muscle": muscle, "sets": 0.0, "from": sources }));
    }
    let total: f64 = sources.iter().map(|one| one.counted).sum();
    let mut text = table(&["DAY", "EXERCISE", "SETS", "COUNTED"], &rows, WIDTH);
    let line = format!("{muscle}: {total} weekly sets; an indirect set counts half.\n");
    text.push_str(&line);
    (text, json!({ "muscle": muscle, "sets": total, "from": sources }))
}
