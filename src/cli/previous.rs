//! The plan of the last block, which a profile may name.

use std::path::Path;

use super::Faults;
use super::files::read_plan;
use super::plan_file::plan_in;
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::Read;
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::path;

/// Reads the plan that a profile names, relative to the profile; its faults are added to the others.
pub(super) fn load(path: &Path, read: &Read<Profile>, faults: &mut Faults) -> Option<Plan> {
    let name = read.value.previous.as_deref()?;
    let label = |text: &str| read.marks.at(path!["previous"], text);
    let folder = path.parent().filter(|_| path != Path::new("-")).unwrap_or(Path::new(""));
    // A dot before it, so that a name of `-` is a file and not standard input.
    let file = if name == "-" { Path::new(".").join(name) } else { folder.join(name) };
    let source = match read_plan(&file) {
        Ok(source) => source,
        Err(fault) => {
            let labels = std::iter::once(label("named here")).chain(fault.labels).collect();
            faults.diagnostics.push(Diagnostic { labels, ..fault });
            return None;
        }
    };
    match plan_in(source) {
        Ok(loaded) => {
            faults.diagnostics.extend(other_client(&loaded.plan, &read.value, label("this plan")));
            Some(loaded.plan)
        }
        Err(found) => {
            faults.add(found);
            None
        }
    }
}

/// W1327: the last block of somebody else says nothing about this client's main lifts.
fn other_client(plan: &Plan, profile: &Profile, label: Label) -> Option<Diagnostic> {
    let whose = match &plan.profile {
        _ if !plan.client.is_empty() => &plan.client,
        ProfileRef::Whole(inside) => &inside.client,
        ProfileRef::File(_) => return None,
    };
    (*whose != profile.client).then(|| {
        Diagnostic::warning("W1327", format!("the last block is that of {}", quoted(whose)))
            .at(label)
            .help(format!("name the last plan of {}", quoted(&profile.client)))
    })
}
