//! The coach's folder as the page needs it. Only the command line knows how files are kept.

use std::sync::Arc;

use jiff::civil::Date;

use super::records::Records;
use crate::diagnostic::Diagnostic;
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::planner::NoPlan;

/// A profile as it stands in its file.
#[derive(Debug, Clone)]
pub struct ProfileFile {
    /// The file's name.
    pub name: String,
    /// Its text.
    pub text: String,
    /// Of its bytes.
    pub sha256: String,
    /// The profile with the place's kit as its own, or what is wrong with it.
    pub profile: Result<Box<Profile>, Vec<Diagnostic>>,
    /// The plan of the last block, where the profile names it.
    pub previous: Option<Box<Plan>>,
    /// Remarks that stop nothing.
    pub remarks: Vec<Diagnostic>,
}

/// A plan as it stands in its file.
#[derive(Debug, Clone)]
pub struct PlanFile {
    /// The file's name.
    pub name: String,
    /// Of its bytes.
    pub sha256: String,
    /// The plan, whole, or what is wrong with it.
    pub plan: Result<Arc<Plan>, Vec<Diagnostic>>,
}

/// A client with both files.
#[derive(Debug, Clone)]
pub struct Client {
    /// The name of the profile without its ending.
    pub key: String,
    /// The profile.
    pub profile: ProfileFile,
    /// The kept plan.
    pub plan: Option<PlanFile>,
}

/// Something was written.
#[derive(Debug, Clone)]
pub struct Kept {
    /// The file's name.
    pub name: String,
    /// The name under which what stood there before is still to be found.
    pub aside: Option<String>,
}

/// Why something was not kept.
#[derive(Debug, Clone)]
pub enum NotKept {
    /// The file is not what it was when it was read.
    Changed {
        /// The file's name.
        name: String,
    },
    /// The folder does not let us.
    Refused(Box<Diagnostic>),
}

/// A folder with profiles and plans. Keys are the names of profiles without their ending; one that the folder does not
/// have is answered with `None`.
pub trait Cabinet: Send + Sync {
    /// What the folder is called.
    fn name(&self) -> String;

    /// The keys of all profiles, in their order.
    ///
    /// # Errors
    /// A folder that cannot be read.
    fn keys(&self) -> Result<Vec<String>, Box<Diagnostic>>;

    /// All clients, in the order of their keys.
    ///
    /// # Errors
    /// A folder that cannot be read.
    fn clients(&self) -> Result<Vec<Client>, Box<Diagnostic>>;

    /// Plans whose profile is gone.
    fn orphans(&self) -> Vec<String>;

    /// A profile.
    fn profile(&self, key: &str) -> Option<ProfileFile>;

    /// The kept plan of a profile.
    fn plan(&self, key: &str) -> Option<PlanFile>;

    /// Keeps a plan in place of what was read with this hash, or as a new file. What somebody edited, and what a plan is
    /// not meant to replace, stays under another name.
    ///
    /// # Errors
    /// A file that was changed meanwhile, or a folder that does not let us.
    fn keep_plan(
        &self,
        key: &str,
        text: &str,
        read: Option<&str>,
        is_next: bool,
    ) -> Result<Kept, NotKept>;

    /// The faults and remarks of a profile's text, as the command line tells them.
    fn check(&self, key: &str, text: &str) -> Vec<Diagnostic>;

    /// Keeps a profile in place of what was read with this hash, or as a new file under a key that is a plain name.
    ///
    /// # Errors
    /// A file that was changed meanwhile, or a folder that does not let us.
    fn keep_profile(&self, key: &str, text: &str, read: Option<&str>) -> Result<Kept, NotKept>;

    /// The places that a profile may name.
    fn places(&self) -> Vec<String>;

    /// Why there is no plan, in the words of the command line.
    fn told(&self, key: &str, reason: &NoPlan) -> Vec<Diagnostic>;

    /// The record of what was done, where this program keeps one.
    fn records(&self) -> Option<&dyn Records> {
        None
    }

    /// Today's date.
    fn today(&self) -> Date;
}
