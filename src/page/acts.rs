//! What the forms of a week do: try, take back, keep.

use std::sync::Arc;

use super::begin::{self, Looked};
use super::cabinet::{Kept, NotKept, ProfileFile};
use super::desk::{Desk, Seat};
use super::draft::{By, Draft, Refused, Step};
use super::fields::Fields;
use super::from_book;
use super::template::say;
use super::tries::{self, Wish};
use crate::catalog;
use crate::diagnostic::Diagnostic;
use crate::explain::ways::WayOut;
use crate::input::plan::Plan;
use crate::planner::NoPlan;
use crate::request::turn::Turn;
use crate::rework::{Ask, NoRework, Outcome};
use crate::search::budget::Budget;
use crate::sheets;

/// What a form does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Act {
    /// Plan again with a wish.
    Try,
    /// A way out of a collision.
    Way,
    /// The same wish with a longer search.
    Better,
    /// Take the last step back.
    Undo,
    /// Back to what is kept.
    Back,
    /// Rework for the profile as it is now.
    Follow,
    /// Plan anew from the profile as it is now.
    Anew,
    /// The coming week from what was done.
    Coming,
    /// An easier one in its place.
    Easier,
    /// The next block, with what the record knows.
    Block,
    /// Write the plan into its file.
    Keep,
}

impl Act {
    /// The act that an address names.
    pub(super) fn named(name: &str) -> Option<Act> {
        Some(match name {
            "try" => Act::Try,
            "way" => Act::Way,
            "better" => Act::Better,
            "undo" => Act::Undo,
            "back" => Act::Back,
            "follow" => Act::Follow,
            "anew" => Act::Anew,
            "coming" => Act::Coming,
            "easier" => Act::Easier,
            "block" => Act::Block,
            "keep" => Act::Keep,
            _ => return None,
        })
    }
}

/// Does what a form asks, and says in a sentence what came of it where the page does not show it anyway.
pub(super) fn done(
    desk: &Desk,
    seat: &Seat,
    key: &str,
    act: Act,
    fields: &Fields,
    turn: Turn,
) -> String {
    let Some(file) = desk.cabinet.profile(key) else { return String::new() };
    let mut held = seat.draft();
    if act == Act::Back {
        back(desk, key, &file, &mut held, turn);
        return say!(went_back).to_owned();
    }
    let Looked::Week { is_changed } = begin::look(desk, (key, &file), &mut held, turn) else {
        drop(held);
        return without_week(desk, seat, (key, &file), act, fields, turn);
    };
    let Some(draft) = held.as_mut() else { return String::new() };
    match act {
        Act::Undo => {
            draft.refused = None;
            draft.steps.pop();
            String::new()
        }
        Act::Keep if is_changed => say!(changed_elsewhere).to_owned(),
        Act::Keep => {
            let draft = draft.clone();
            drop(held);
            keep(desk, seat, key, draft)
        }
        Act::Anew => {
            drop(held);
            anew(desk, seat, (key, &file), turn)
        }
        Act::Coming | Act::Easier | Act::Block => {
            let plan = Arc::clone(draft.plan());
            drop(held);
            let step = match act {
                Act::Block => from_book::block(desk, (key, &file), &plan, None, turn).map(Some),
                _ => from_book::coming(desk, &plan, act == Act::Easier),
            };
            taken(seat, turn, step, false)
        }
        Act::Way if draft.refused.as_ref().is_some_and(|refused| refused.block.is_some()) => {
            let draft = draft.clone();
            drop(held);
            let step = block_by_way(desk, (key, &file), &draft, fields, turn);
            taken(seat, turn, step.map(Some), false)
        }
        Act::Try | Act::Way | Act::Better | Act::Follow | Act::Back => {
            let draft = draft.clone();
            drop(held);
            planned(desk, seat, (key, &file), act, (fields, draft), turn)
        }
    }
}

/// Back to the week before anything was tried, read again where the files are others by now.
fn back(desk: &Desk, key: &str, file: &ProfileFile, held: &mut Option<Draft>, turn: Turn) {
    if let Some(draft) = held {
        draft.steps.clear();
        draft.refused = None;
        if draft.kept.is_some() && !draft.is_kept {
            *held = None;
        }
    }
    begin::look(desk, (key, file), held, turn);
}

/// A wish planned again, and put on top of the steps where nobody asked for something else meanwhile.
fn planned(
    desk: &Desk,
    seat: &Seat,
    (key, file): (&str, &ProfileFile),
    act: Act,
    (fields, draft): (&Fields, Draft),
    turn: Turn,
) -> String {
    let before = draft.plan();
    let (wish, before, is_again) = match act {
        Act::Better => match draft.steps.last().and_then(Step::open_wish) {
            Some(wish) => (Ok(wish), draft.before(), true),
            None => return String::new(),
        },
        Act::Way => (way_out(&draft, fields), before, false),
        Act::Follow => (Ok(following(file)), before, false),
        _ => (tries::wish(&desk.planner, before, fields), before, false),
    };
    let wish = match wish {
        Ok(wish) => wish,
        Err(told) => {
            return put(seat, turn, |draft| draft.refused = Some(Refused::told(told)));
        }
    };
    let is_quick = act != Act::Better && fields.get("quick").is_some();
    let budget = if is_quick { Budget::quick() } else { Budget::default() };
    let step = replanned(desk, key, before, &wish, Budget { turn, ..budget });
    taken(seat, turn, step.map(|step| step.map(|step| Step { is_quick, ..step })), is_again)
}

/// Takes in what became of a wish, in place of the last step where that was the same wish.
fn taken(
    seat: &Seat,
    turn: Turn,
    step: Result<Option<Step>, Box<Refused>>,
    is_again: bool,
) -> String {
    match step {
        Ok(None) => put(seat, turn, |draft| draft.refused = None) + say!(nothing_changes),
        Ok(Some(step)) => put(seat, turn, |draft| {
            if is_again {
                draft.steps.pop();
            }
            draft.push(step);
        }),
        Err(refused) => put(seat, turn, |draft| draft.refused = Some(*refused)),
    }
}

/// Changes what is in hand, unless something newer was asked for.
fn put(seat: &Seat, turn: Turn, change: impl FnOnce(&mut Draft)) -> String {
    let mut held = seat.draft();
    if let Some(draft) = held.as_mut().filter(|_| !turn.is_over()) {
        change(draft);
    }
    String::new()
}

/// The step that a wish comes to; none where nothing changes by it.
fn replanned(
    desk: &Desk,
    key: &str,
    plan: &Plan,
    wish: &Wish,
    budget: Budget,
) -> Result<Option<Step>, Box<Refused>> {
    let label = || wish.label.clone();
    match desk.planner.rework_within(plan, &wish.ask, budget) {
        Ok(Outcome::Same) => Ok(None),
        Ok(Outcome::New(new)) => {
            let (new, table) = (new.plan, new.table);
            let (new, again) = match from_book::again(desk, plan, &new)? {
                Some((with_week, again)) => (with_week, Some(again)),
                None => (new, None),
            };
            let by = By::Wish(Box::new((wish.ask.clone(), table)));
            Ok(Some(Step { label: label(), by, again, plan: Arc::new(new), is_quick: false }))
        }
        Err(NoRework::Plan(reason)) => {
            let told = desk.cabinet.told(key, &reason);
            let impossible = match reason {
                NoPlan::Impossible(impossible) => Some(*impossible),
                _ => None,
            };
            let seed = wish.ask.seed.unwrap_or(plan.seed);
            Err(Box::new(Refused { label: label(), impossible, seed, ..Refused::told(told) }))
        }
        Err(NoRework::Ask(fault)) => {
            let fault = Diagnostic::error("E2003", fault.to_string()).help(fault.help());
            let refused = Refused::told(vec![fault]);
            Err(Box::new(Refused { label: label(), seed: plan.seed, ..refused }))
        }
    }
}

/// The wish that does a way out of what was refused last.
fn way_out(draft: &Draft, fields: &Fields) -> Result<Wish, Vec<Diagnostic>> {
    let (refused, way) = chosen(draft, fields).ok_or_else(|| vec![way_is_gone()])?;
    let label = [refused.label.as_str(), &way.to_string()];
    let label: Vec<&str> = label.into_iter().filter(|text| !text.is_empty()).collect();
    let ask = Ask {
        profile: Some(Box::new(way.profile.clone())),
        seed: Some(refused.seed),
        ..Ask::default()
    };
    Ok(Wish { label: label.join(", "), ask })
}

/// What was refused last, and the way out of it that a form names.
fn chosen<'a>(draft: &'a Draft, fields: &Fields) -> Option<(&'a Refused, &'a WayOut)> {
    let refused = draft.refused.as_ref()?;
    let place: usize = fields.get("way")?.parse().ok()?;
    Some((refused, refused.impossible.as_ref()?.ways.get(place)?))
}

fn way_is_gone() -> Diagnostic {
    Diagnostic::error("E2003", say!(way_is_gone)).help(say!(way_is_gone_help))
}

/// The next block by a way out; none where the record or the profile gives it something else by now.
fn block_by_way(
    desk: &Desk,
    of: (&str, &ProfileFile),
    draft: &Draft,
    fields: &Fields,
    turn: Turn,
) -> Result<Step, Box<Refused>> {
    let gone = || Box::new(Refused::told(vec![way_is_gone()]));
    let (refused, way) = chosen(draft, fields).ok_or_else(gone)?;
    let asked = refused.block.as_deref().ok_or_else(gone)?;
    from_book::block(desk, of, draft.plan(), Some((asked, way)), turn)
}

/// The wish to follow the profile as it is now.
fn following(file: &ProfileFile) -> Wish {
    let profile = file.profile.as_ref().ok().cloned();
    Wish { label: say!(tried_profile).to_owned(), ask: Ask { profile, ..Ask::default() } }
}

/// A week made from the profile, in place of what is in hand.
fn anew(desk: &Desk, seat: &Seat, (key, file): (&str, &ProfileFile), turn: Turn) -> String {
    let made = begin::made(desk, key, file, turn);
    put(seat, turn, |draft| match made {
        Ok(plan) => {
            draft.base = Arc::new(plan);
            draft.is_kept = false;
            draft.steps.clear();
            draft.refused = None;
            draft.profile_sha256.clone_from(&file.sha256);
        }
        Err(refused) => draft.refused = Some(*refused),
    })
}

/// Where the profile itself has no week, a way out of that is the only thing to do.
fn without_week(
    desk: &Desk,
    seat: &Seat,
    (key, file): (&str, &ProfileFile),
    act: Act,
    fields: &Fields,
    turn: Turn,
) -> String {
    let place = fields.get("way").and_then(|place| place.parse::<usize>().ok());
    let (Act::Way, Some(place)) = (act, place) else { return String::new() };
    let Err(refused) = begin::made_once(desk, key, file, turn) else { return String::new() };
    let ways = refused.impossible.map(|found| found.ways).unwrap_or_default();
    let Some(way) = ways.get(place) else { return say!(way_is_gone).to_owned() };
    let other = ProfileFile { profile: Ok(Box::new(way.profile.clone())), ..file.clone() };
    let Ok(plan) = begin::made(desk, key, &other, turn) else {
        return say!(way_is_gone).to_owned();
    };
    *seat.draft() = Some(Draft::of_way(file, plan));
    say!(way_is_done, way)
}

/// Writes the plan into its file, after the longer search where only a quick one was made.
fn keep(desk: &Desk, seat: &Seat, key: &str, mut draft: Draft) -> String {
    if let Some(wish) = draft.steps.last().and_then(Step::open_wish) {
        let plan = Arc::clone(draft.before());
        if let Ok(Some(step)) = replanned(desk, key, &plan, &wish, Budget::default()) {
            draft.steps.pop();
            draft.push(step);
        }
    }
    let plan = Arc::clone(draft.plan());
    let Some(text) = shown_as(desk, &plan, "yaml", &sheets::Options::default()) else {
        return say!(broken).to_owned();
    };
    let read = draft.kept.as_ref().map(|(sha256, _)| sha256.as_str());
    let is_next = draft.records().any(|record| record.week.is_none());
    let is_filed = !is_next && draft.records().next().is_some();
    if let Err(fault) = filed(desk, key, is_filed) {
        return fault;
    }
    match desk.cabinet.keep_plan(key, &text, read, is_next) {
        Ok(Kept { name, aside }) => {
            let told =
                aside.map_or_else(String::new, |name| format!(" {}", say!(kept_aside, name)));
            let told =
                say!(kept_in, name) + &told + &filed(desk, key, is_filed).err().unwrap_or_default();
            draft.kept = Some((catalog::sha256(text.as_bytes()), name));
            draft.base = plan;
            draft.is_kept = true;
            draft.steps.clear();
            draft.refused = None;
            *seat.draft() = Some(draft);
            told
        }
        Err(NotKept::Changed { name }) => say!(changed_file, name),
        Err(NotKept::Refused(fault)) => sentence(&fault),
    }
}

/// Files the kept plan in the book where the week was made from it, as the command line does: before it is replaced, and
/// after.
///
/// # Errors
/// Why not, in a sentence.
fn filed(desk: &Desk, key: &str, is_wanted: bool) -> Result<(), String> {
    let records = desk.cabinet.records().filter(|_| is_wanted);
    let filed = records.map_or(Ok(()), |records| records.file(key));
    filed.map_err(|faults| faults.first().map(sentence).unwrap_or_default())
}

fn sentence(fault: &Diagnostic) -> String {
    format!("{}. {}.", fault.message, fault.help)
}

/// A plan in one of the sheets' forms.
pub(super) fn shown_as(
    desk: &Desk,
    plan: &Plan,
    form: &str,
    options: &sheets::Options,
) -> Option<String> {
    let planner = desk.planner.with_plan(plan);
    let mut bytes = Vec::new();
    let sheet = sheets::sheet(form)?;
    sheet.write(plan, planner.catalog().entries(), options, &mut bytes).ok()?;
    String::from_utf8(bytes).ok()
}
