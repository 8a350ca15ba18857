//! `weekwright schema`: the JSON Schema of a file format, for editors and other programs.

use serde_json::Value;

use super::args::{SchemaArgs, Shape};
use super::output::Console;
use super::{Exit, Failure};
use crate::input::catalog::Entry;
use crate::input::place::Place;
use crate::input::profile::Profile;
use crate::input::shape;
use crate::input::short_plan::PlanFile;

pub(super) fn run(arguments: &SchemaArgs, console: &Console) -> Result<Exit, Failure> {
    let text = format!("{:#}\n", schema(arguments.of));
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
}

/// JSON Schema 2020-12 of a file format.
fn schema(of: Shape) -> Value {
    let mut schema = match of {
        Shape::Profile => shape::schema::<Profile>(),
        Shape::Place => shape::schema::<Place>(),
        Shape::Catalog => shape::schema::<Vec<Entry>>(),
        Shape::Plan => shape::schema::<PlanFile>(),
    };
    if of == Shape::Catalog {
        schema["title"] = "Catalog".into();
        schema["description"] = "A list of exercises.".into();
    }
    schema
}
