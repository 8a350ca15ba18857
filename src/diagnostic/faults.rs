//! All that is wrong with some texts.

use std::fmt;

use super::{Diagnostic, Source};

/// Faults of one or more texts, with the texts they stand in. As text, a line each.
#[derive(Debug, Clone, Default)]
pub struct Faults {
    /// What is wrong.
    pub diagnostics: Vec<Diagnostic>,
    /// The texts that the diagnostics point into.
    pub sources: Vec<Source>,
    /// More for programs: in JSON these keys stand beside the diagnostics.
    pub details: serde_json::Map<String, serde_json::Value>,
}

impl Faults {
    /// Faults in the texts that they point into.
    #[must_use]
    pub fn new(diagnostics: Vec<Diagnostic>, sources: Vec<Source>) -> Faults {
        Faults { diagnostics, sources, ..Faults::default() }
    }

    /// Adds other faults after these.
    pub fn add(&mut self, other: Faults) {
        self.diagnostics.extend(other.diagnostics);
        self.sources.extend(other.sources);
        self.details.extend(other.details);
    }

    /// Whether there is an error among them; warnings alone stop nothing.
    #[must_use]
    pub fn any_error(&self) -> bool {
        self.diagnostics.iter().any(Diagnostic::is_error)
    }
}

impl From<Diagnostic> for Faults {
    fn from(diagnostic: Diagnostic) -> Self {
        Faults::new(vec![diagnostic], Vec::new())
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines: Vec<String> = self.diagnostics.iter().map(Diagnostic::to_string).collect();
        f.write_str(&lines.join("\n"))
    }
}

impl std::error::Error for Faults {}
