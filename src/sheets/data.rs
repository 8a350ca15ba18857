//! The plan itself, for programs and for keeping: YAML with a seal, and JSON of the same shape.

use std::io;

use super::{Lookup, Options, Sheet, SheetError, seal};
use crate::plan::file::Plan;

/// The plan as YAML.
pub struct Yaml;

impl Sheet for Yaml {
    fn format(&self) -> &'static str {
        "yaml"
    }

    fn write(
        &self,
        plan: &Plan,
        _names: &dyn Lookup,
        _options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let text = serde_yaml::to_string(plan).map_err(io::Error::other)?;
        out.write_all(seal::sealed(text).as_bytes())?;
        Ok(())
    }
}

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
