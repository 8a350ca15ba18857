//! The form of a profile: shown, checked as the command line checks, and saved as the YAML that it reads.

use axum::http::StatusCode;
use axum::response::{IntoResponse as _, Response};

use super::answer;
use super::cabinet::{Kept, NotKept, ProfileFile};
use super::desk::Desk;
use super::fields::Fields;
use super::form::{self, Form, Heading};
use super::template::say;
use crate::diagnostic::Diagnostic;
use crate::intake;

/// The longest name of a file that is made of a client's code.
const LONGEST_NAME: usize = 60;

/// The form of a client's profile.
pub(super) fn show(desk: &Desk, key: &str) -> Response {
    let Some(file) = found(desk, key) else { return answer::not_found() };
    let faults = file.profile.as_ref().err().cloned().unwrap_or_default();
    let typed = form::of_text(&file.text);
    let heading = heading(key, &file, String::new());
    shown(desk, heading, &typed, (&file.text, &faults))
}

/// The form of a new client.
pub(super) fn blank(desk: &Desk) -> Response {
    shown(desk, Heading::default(), &Fields::default(), ("", &[]))
}

/// Saves a form, or shows it again with what is wrong and all that was typed.
pub(super) fn save(desk: &Desk, key: &str, typed: &Fields) -> Response {
    let Some(file) = found(desk, key) else { return answer::not_found() };
    let read = typed.get("read").unwrap_or_default().to_owned();
    let of_form = || form::changed(&file.text, &form::values(typed));
    let text = match typed.get("whole") {
        Some(whole) => Some(whole.replace("\r\n", "\n") + "\n"),
        None => of_form(),
    };
    let Some(text) = text else {
        let heading = heading(key, &file, say!(edit_by_hand).to_owned());
        return with_status(StatusCode::CONFLICT, shown(desk, heading, typed, (&file.text, &[])));
    };
    let typed = if typed.get("whole").is_some() { form::of_text(&text) } else { typed.clone() };
    let faults = desk.cabinet.check(key, &text);
    if faults.iter().any(Diagnostic::is_error) {
        let heading = Heading { read, whole: text.clone(), ..heading(key, &file, String::new()) };
        return with_status(
            StatusCode::UNPROCESSABLE_ENTITY,
            shown(desk, heading, &typed, (&text, &faults)),
        );
    }
    match desk.cabinet.keep_profile(key, &text, Some(&read)) {
        Ok(Kept { .. }) => answer::go_to(&format!("/client/{}", answer::encoded(key))),
        Err(fault) => {
            let heading =
                Heading { read, whole: text.clone(), ..heading(key, &file, not_kept(&fault)) };
            with_status(StatusCode::CONFLICT, shown(desk, heading, &typed, (&text, &faults)))
        }
    }
}

/// Makes a profile for a new client.
pub(super) fn create(desk: &Desk, typed: &Fields) -> Response {
    let text = form::fresh(&form::values(typed));
    let key = key_of(typed.get("client").unwrap_or_default());
    let mut faults = desk.cabinet.check(&key, &text);
    if desk.has(&key) {
        let taken = Diagnostic::error("E1012", say!(name_taken, file = format!("{key}.yaml")));
        faults.insert(0, taken.help(say!(name_taken_help)));
    }
    if faults.iter().any(Diagnostic::is_error) {
        let form = shown(desk, Heading::default(), typed, (&text, &faults));
        return with_status(StatusCode::UNPROCESSABLE_ENTITY, form);
    }
    match desk.cabinet.keep_profile(&key, &text, None) {
        Ok(Kept { .. }) => answer::go_to(&format!("/client/{key}")),
        Err(fault) => {
            let heading = Heading { notice: not_kept(&fault), ..Heading::default() };
            with_status(StatusCode::CONFLICT, shown(desk, heading, typed, (&text, &faults)))
        }
    }
}

/// A file's name from a client's code: plain letters, numbers and hyphens, so that it is never a path.
fn key_of(client: &str) -> String {
    let short: String = client.chars().take(LONGEST_NAME).collect();
    intake::file_name(&short).trim_end_matches(".yaml").to_owned()
}

fn found(desk: &Desk, key: &str) -> Option<ProfileFile> {
    desk.cabinet.profile(key).filter(|_| desk.has(key))
}

fn heading(key: &str, file: &ProfileFile, notice: String) -> Heading {
    let client = file.profile.as_ref().map_or(key, |profile| profile.client.as_str());
    Heading {
        key: key.to_owned(),
        client: client.to_owned(),
        file: file.name.clone(),
        read: file.sha256.clone(),
        notice,
        whole: file.text.clone(),
    }
}

fn not_kept(fault: &NotKept) -> String {
    match fault {
        NotKept::Changed { name } => say!(profile_changed, name),
        NotKept::Refused(fault) => format!("{}. {}.", fault.message, fault.help),
    }
}

fn shown(desk: &Desk, heading: Heading, typed: &Fields, faults: (&str, &[Diagnostic])) -> Response {
    let entries =
        desk.planner.catalog().iter().filter(|entry| entry.role == crate::words::Role::Work);
    let exercises = entries.map(|entry| [entry.id.clone(), entry.name.clone()]).collect();
    let form = Form::of(heading, typed, faults, &desk.cabinet.places(), exercises);
    answer::page(desk, "profile.html", &form)
}

fn with_status(status: StatusCode, response: Response) -> Response {
    (status, response).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clients_code_becomes_a_plain_name() {
        for (client, key) in [
            ("tide-09", "tide-09"),
            ("Tide 09", "tide-09"),
            ("../../etc/passwd", "etc-passwd"),
            (".hidden", "hidden"),
            ("נועם", "client"),
            ("", "client"),
            ("a\0b.plan", "a-b-plan"),
            ("x.yaml.yaml", "x-yaml-yaml"),
        ] {
            assert_eq!(key_of(client), key);
        }
    }
}
