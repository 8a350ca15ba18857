//! A new client's answers into a commented profile: the questions, their checks, the text.
//!
//! Nothing here reads a terminal or a file. Whoever asks hands in a [`Talk`]; the answers are
//! checked one by one by the rules that a profile file is read with.

mod answers;
mod around;
mod contradiction;
mod kind;
mod profile_text;
mod questions;
mod recall;
mod talk;
mod tolerant;

pub use answers::Answers;
pub use around::Around;
#[cfg(feature = "page")]
pub(crate) use kind::scalar;
pub use profile_text::profile_text;
pub use recall::{draft_text, recalled};
pub use talk::{Talk, ask_client, change, interview};

/// A file name for a client: small letters, digits and dashes of the code.
///
/// ```
/// assert_eq!(weekwright::intake::file_name("Tide 01 / bow"), "tide-01-bow.yaml");
/// assert_eq!(weekwright::intake::file_name("🚣"), "client.yaml");
/// ```
#[must_use]
pub fn file_name(client: &str) -> String {
    let plain = client.to_lowercase();
    let words: Vec<&str> = plain
        .split(|letter: char| !letter.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let name = words.join("-");
    format!("{}.yaml", if name.is_empty() { "client" } else { &name })
}
