//! The plan itself for programs: JSON with every week complete.

use std::io;

use super::{Lookup, Options, Sheet, SheetError};
use crate::plan::file::Plan;

/// The plan as JSON.
pub struct Json;

impl Sheet for Json {
    fn format(&self) -> &'static str {
        "json"
    }

    fn write(
        &self,
        plan: &Plan,
        _names: &dyn Lookup,
        _options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let text = serde_json::to_string_pretty(plan).map_err(io::Error::from)?;
        out.write_all(text.as_bytes())?;
        out.write_all(b"\n")?;
        Ok(())
    }
}
