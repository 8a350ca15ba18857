//! `weekwright rota`: everyone who trains at one place in one week, without waiting for the rack.

use std::path::{Path, PathBuf};

use itertools::Itertools as _;
use serde_json::{Value, json};

use super::args::{Format, RotaArgs};
use super::guests::{Guest, gathered, monday, one_each};
use super::output::Console;
use super::plan::{Desk, rendered};
use super::{Exit, Failure, Faults, ending, files, places};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::plan::Plan;
use crate::planner::{Options, Planner};
use crate::room::rota::{Case, Clash, Outcome, Rota, clock, settle};
use crate::room::spread::spread;
use crate::room::stock::{Coaches, Room};
use crate::room::visit::{self, Visit, covers, profile};
use crate::room::{apply, ways};
use crate::sheets::{self, Paper};

/// The page for the wall, in the folder of the plans.
const WALL: &str = "rota.html";

pub(super) fn run(arguments: &RotaArgs, console: &Console) -> Result<Exit, Failure> {
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let desk = Desk {
        planner: &planner,
        options: Options::default(),
        format: Format::Yaml,
        #[cfg(feature = "book")]
        shelf: None,
    };
    slack_is_whole(arguments.slack)?;
    let guests = match gathered(&arguments.inputs, &desk, console)? {
        Ok(guests) => guests,
        Err(exit) => return Ok(exit),
    };
    let plans: Vec<&Plan> = guests.iter().map(|guest| &guest.plan).collect();
    let monday = monday(arguments.date.as_deref(), &plans)?;
    let guests = one_each(guests, monday)?;
    let room = room(arguments, &guests)?;
    let (guests, left_out) = who_comes(guests, &room, monday);
    console.report(&left_out);
    if guests.is_empty() {
        return Err(Failure::Faults(nobody(&room, monday).into()));
    }
    let plans: Vec<Plan> = guests.iter().map(|guest| guest.plan.clone()).collect();
    let mut visits = visit::visits(&room, &planner, &plans, monday);
    if arguments.spread {
        spread(&mut visits);
    }
    hours_are_told(&visits, &guests)?;
    visits.sort_by_key(|visit| (visit.day, visit.start, visit.client.clone()));
    let progress = console.progress("settling the week ...");
    let rota = settle(&planner, &plans, (&room, monday, visits), arguments.slack);
    drop(progress);
    let new = apply::applied(&rota, &plans);
    hand_out(arguments, &rota, (&guests, &new), &planner, console)?;
    let nothing: Vec<&Clash> = rota
        .clashes
        .iter()
        .filter(|clash| matches!(clash.outcome, Outcome::Nothing { .. }))
        .collect();
    if nothing.is_empty() {
        return Ok(Exit::Done);
    }
    console.report(&too_full(&rota, &nothing));
    Ok(Exit::Impossible)
}

/// Prints the week, or writes plans and page.
fn hand_out(
    arguments: &RotaArgs,
    rota: &Rota,
    (guests, new): (&[Guest], &[Plan]),
    planner: &Planner,
    console: &Console,
) -> Result<(), Failure> {
    let paper = new.iter().find_map(profile).map_or(Paper::A4, |profile| profile.paper);
    let wall = || sheets::room::wall(rota, paper).map_err(|error| super::sheet::unmade(&error));
    let mut results: Vec<(PathBuf, String)> = Vec::new();
    if let Some(output) = &arguments.output {
        if ending::promised(output) == Some("html") {
            results.push((output.clone(), wall()?));
        } else {
            files::make_folder(output)?;
            for (guest, plan) in guests.iter().zip(new) {
                let text = match &guest.text {
                    Some(text) if *plan == guest.plan && !text.trim_start().starts_with('{') => {
                        text.clone()
                    }
                    _ => rendered(plan, planner, Format::Yaml, false, console.width())?,
                };
                results.push((output.join(format!("{}{}", stem(&guest.path), ending::PLAN)), text));
            }
            results.push((output.join(WALL), wall()?));
        }
    }
    let files: Vec<(Option<&Path>, &str)> =
        results.iter().map(|(path, text)| (Some(path.as_path()), text.as_str())).collect();
    console.write_all(&files)?;
    match arguments.format {
        Format::Json => console.print(&format!("{:#}\n", document(rota)))?,
        Format::Yaml => {
            let text = serde_yaml::to_string(&document(rota)).expect("it has text keys only");
            console.print(&text)?;
        }
        Format::Text => console.print(&sheets::room::rota_text(rota, console.width()))?,
    }
    if arguments.output.is_none() {
        console.remark("nothing is written yet: `-o DIR` writes the plans and a page for the wall");
    }
    Ok(())
}

/// `tide-01` of `tide-01.plan.yaml` and of `tide-01.yaml`.
fn stem(path: &Path) -> String {
    let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    name.strip_suffix(".plan").map(str::to_owned).unwrap_or(name)
}

fn slack_is_whole(slack: u32) -> Result<(), Failure> {
    if slack.is_multiple_of(ways::STEP) {
        return Ok(());
    }
    let step = ways::STEP;
    let fault = Diagnostic::error("E2002", format!("starts cannot move by {slack} minutes"))
        .at(Label::whole("command line"))
        .help(format!(
            "starts move in steps of {step} minutes, as in `--slack {}`",
            slack.next_multiple_of(step)
        ));
    Err(Failure::Faults(fault.into()))
}

/// The room: the one that is named, else the one where all clients train.
fn room(arguments: &RotaArgs, guests: &[Guest]) -> Result<Room, Failure> {
    let coaches = arguments
        .per_coach
        .map(|clients| Coaches { count: arguments.coaches.unwrap_or(1), clients });
    let mut named: Vec<&str> =
        guests.iter().filter_map(|guest| profile(&guest.plan)?.place.as_deref()).collect();
    named.sort_unstable();
    named.dedup();
    let place = match (&arguments.place, named.as_slice()) {
        (Some(place), _) => place.clone(),
        (None, [place]) => (*place).to_owned(),
        (None, []) if all_list_one_kit(guests) => NAMELESS.to_owned(),
        (None, _) => return Err(which_room(&named).into()),
    };
    // Plans carry the kit that they were planned for; the place's own file has the last word.
    let beside = guests.first().map_or(Path::new("any.yaml"), |guest| guest.path.as_path());
    let carried = guests.iter().find_map(|guest| {
        let profile = profile(&guest.plan)?;
        (place_of(&guest.plan) == place).then(|| profile.equipment.clone())?
    });
    let kit = match (places::load_kit(beside, &place), carried) {
        (Ok(kit), _) => kit.present(),
        (Err(faults), Some(kit)) if faults.diagnostics.iter().all(|one| one.code == "E1007") => kit,
        (Err(faults), _) => return Err(faults.into()),
    };
    let mut units = guests.iter().filter_map(|guest| Some(profile(&guest.plan)?.units));
    let units = units.all_equal_value().ok();
    Ok(Room { place, kit, units, coaches })
}

/// What the room is called where nobody names it.
const NAMELESS: &str = "room";

/// Whether clients who name no place list the same kit, and so are taken to share a room.
fn all_list_one_kit(guests: &[Guest]) -> bool {
    let kit = |guest: &Guest| profile(&guest.plan).and_then(|profile| profile.equipment.clone());
    guests.windows(2).all(|pair| kit(&pair[0]) == kit(&pair[1]))
}

fn place_of(plan: &Plan) -> &str {
    profile(plan).and_then(|profile| profile.place.as_deref()).unwrap_or(NAMELESS)
}

fn which_room(named: &[&str]) -> Faults {
    let message = if named.is_empty() {
        "no client names a place, so it is not said which room is meant".to_owned()
    } else {
        format!("the clients train at {}", named.join(" and "))
    };
    Diagnostic::error("E2011", message)
        .at(Label::whole("command line"))
        .help("name the room with `--place NAME`, a file of `places/`")
        .into()
}

/// The guests who train in the room in that week; the others are told.
fn who_comes(guests: Vec<Guest>, room: &Room, monday: jiff::civil::Date) -> (Vec<Guest>, Faults) {
    let mut left_out = Faults::default();
    let mut here = Vec::new();
    for guest in guests {
        let place = place_of(&guest.plan);
        let why = if place != room.place {
            Some(if place == NAMELESS {
                "names no place".to_owned()
            } else {
                format!("trains at {place}")
            })
        } else if covers(&guest.plan, monday) {
            None
        } else {
            Some(format!("has no session in the week of {monday}"))
        };
        match why {
            None => here.push(guest),
            Some(why) => left_out.diagnostics.push(
                Diagnostic::warning(
                    "W2012",
                    format!("{} {why}, and is left out", guest.plan.client),
                )
                .at(Label::whole(guest.path.display().to_string()))
                .help(format!("write `place: {}` into the profile if that is wrong", room.place)),
            ),
        }
    }
    (here, left_out)
}

fn nobody(room: &Room, monday: jiff::civil::Date) -> Diagnostic {
    let message = format!("nobody trains at {} in the week of {monday}", quoted(&room.place));
    Diagnostic::error("E2010", message)
        .at(Label::whole("command line"))
        .help("name another place with `--place`, or a day of another week with `--date`")
}

/// E2009: without an hour nobody knows who meets whom.
fn hours_are_told(visits: &[Visit], guests: &[Guest]) -> Result<(), Faults> {
    let missing = visits.iter().filter(|visit| visit.start.is_none());
    let told = missing.map(|visit| {
        let message = format!("{} has no hour on {}", visit.client, visit.day);
        Diagnostic::error("E2009", message)
            .at(Label::whole(guests[visit.plan].path.display().to_string()))
            .help(format!(
                "write `{{day: {}, at: \"18:30\", ..}}` in the profile, or let `--spread` find an hour",
                visit.day
            ))
    });
    let told: Vec<Diagnostic> = told.collect();
    if told.is_empty() { Ok(()) } else { Err(Faults::new(told, Vec::new())) }
}

/// E3004: what cannot be, and what would help.
fn too_full(rota: &Rota, nothing: &[&Clash]) -> Faults {
    let told = nothing.iter().map(|clash| {
        let Outcome::Nothing { smallest, is_smallest, ways_out } = &clash.outcome else {
            unreachable!("only these are told")
        };
        let names: Vec<&str> = smallest.iter().map(|at| rota.visits[*at].client.as_str()).collect();
        let message = format!(
            "{} on {}: {} cannot train there together, whatever is changed within the slack{}",
            rota.room.place,
            clash.day,
            names.join(", "),
            if *is_smallest { "" } else { " (perhaps fewer of them cannot either)" }
        );
        let ways: Vec<String> = ways_out.iter().map(ToString::to_string).collect();
        let help = match ways.as_slice() {
            [] => "move one of them to another day, or allow more with `--slack`".to_owned(),
            ways => format!("what would do: {}", ways.join("; or ")),
        };
        Diagnostic::error("E3004", message).at(Label::whole(rota.room.place.clone())).help(help)
    });
    Faults::new(told.collect(), Vec::new())
}

/// The week for programs; with each clash all that it takes to settle it anew.
fn document(rota: &Rota) -> Value {
    let visits = rota.visits.iter().enumerate().map(|(at, visit)| {
        json!({
            "client": visit.client,
            "day": visit.day,
            "date": visit.date.map(|date| date.to_string()),
            "planned": visit.start.map(clock),
            "start": clock(rota.done[at].start),
            "changes": rota.told(at),
        })
    });
    json!({
        "place": rota.room.place,
        "week": rota.monday.to_string(),
        "visits": visits.collect::<Vec<_>>(),
        "clashes": rota.clashes.iter().map(|clash| of_clash(rota, clash)).collect::<Vec<_>>(),
    })
}

fn of_clash(rota: &Rota, clash: &Clash) -> Value {
    let name = |at: &usize| rota.visits[*at].client.clone();
    let outcome = match &clash.outcome {
        Outcome::Settled { reach, changes, most, proven, at_least } => json!({
            "settled": true, "reach": reach.to_string(), "changes": changes, "most": most, "proven": proven,
            "at_least": at_least,
        }),
        Outcome::Nothing { smallest, is_smallest, ways_out } => json!({
            "settled": false, "proven": true,
            "smallest": smallest.iter().map(name).collect::<Vec<_>>(), "is_smallest": is_smallest,
            "ways_out": ways_out.iter().map(ToString::to_string).collect::<Vec<_>>(),
        }),
        Outcome::Open => json!({ "settled": false, "proven": false }),
    };
    let collisions = clash.collisions.iter().map(|one| {
        json!({
            "thing": one.thing.to_string(), "from": clock(one.from), "to": clock(one.to),
            "clients": one.visits.iter().map(name).collect::<Vec<_>>(), "pieces": one.pieces, "wanted": one.wanted,
        })
    });
    json!({
        "day": clash.day,
        "clients": clash.visits.iter().map(name).collect::<Vec<_>>(),
        "collisions": collisions.collect::<Vec<_>>(),
        "outcome": outcome,
        "case": of_case(rota, clash, &clash.case),
    })
}

/// Seconds and pieces as they were counted, in minutes of nothing yet: whoever reads it places them anew.
fn of_case(rota: &Rota, clash: &Clash, case: &Case) -> Value {
    let thing = |at: usize| case.things[at].to_string();
    let hold = |hold: &crate::room::stock::Hold| json!({ "thing": hold.thing.to_string(), "pieces": hold.pieces, "from_s": hold.from_s, "to_s": hold.to_s });
    let visits = clash.visits.iter().enumerate().map(|(seat, at)| {
        let arrangements = case.arrangements[seat].iter().map(|one| {
            let blocks = one.blocks.iter().map(|block| {
                let ways = block.ways.iter().map(|way| way.iter().map(hold).collect::<Vec<_>>());
                json!({ "name": block.name, "seconds": block.seconds, "ways": ways.collect::<Vec<_>>() })
            });
            json!({ "reach": one.reach.to_string(), "told": one.told().collect::<Vec<_>>(), "blocks": blocks.collect::<Vec<_>>() })
        });
        json!({
            "client": rota.visits[*at].client,
            "borne": case.puzzle.borne[case.puzzle.seats[seat].client],
            "planned": rota.visits[*at].start,
            "starts": case.starts[seat],
            "arrangements": arrangements.collect::<Vec<_>>(),
        })
    });
    let fixed = case.fixed.iter().map(|span| {
        json!({ "thing": thing(span.thing), "pieces": span.pieces, "from": span.from, "to": span.to })
    });
    json!({
        "things": case.things.iter().zip(&case.puzzle.pieces)
            .map(|(thing, pieces)| (thing.to_string(), json!(pieces))).collect::<serde_json::Map<_, _>>(),
        "fixed": fixed.collect::<Vec<_>>(),
        "visits": visits.collect::<Vec<_>>(),
    })
}
