//! Where the client trains.

use crate::diagnostic::Diagnostic;
use crate::input::profile::Profile;
use crate::input::read::Read;
use crate::path;

/// W1307: of a place and a list of kit, the place is used.
pub(super) fn w1307_place_wins(read: &Read<Profile>) -> Vec<Diagnostic> {
    if read.value.place.is_none() || read.value.equipment.is_none() {
        return Vec::new();
    }
    let remark =
        Diagnostic::warning("W1307", "`equipment` is not used, because a `place` is named")
            .at(read.marks.at_key(path!["equipment"], "not used"))
            .at(read.marks.at_key(path!["place"], "used"))
            .help(
                "delete one of the two; kit that is missing from the place belongs into its file",
            );
    vec![remark]
}

/// E1308: without kit nothing can be chosen.
pub(super) fn e1308_kit_is_told(read: &Read<Profile>) -> Vec<Diagnostic> {
    if read.value.place.is_some() || read.value.equipment.is_some() {
        return Vec::new();
    }
    let fault = Diagnostic::error("E1308", "neither `place` nor `equipment` is given")
        .at(read.marks.at(path![], "one of them belongs here"))
        .help(
            "add `place: boathouse` for a file in `places/`, or list the kit as in \
             `equipment: [dumbbells, bench]`; `equipment: []` means body weight only",
        );
    vec![fault]
}
