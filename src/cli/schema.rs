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
    if of == Shape::Plan {
        // An editor shows what the keys of the form are for that a coach edits.
        schema["title"] = "Plan".into();
        schema["properties"] = keys_told(&schema["$defs"]["ShortPlan"]["properties"]);
    }
    schema
}

/// Every key with its description alone: what it may hold is said by the forms of the file.
fn keys_told(properties: &Value) -> Value {
    let keys = properties.as_object().into_iter().flatten();
    let told = keys.map(|(key, value)| {
        let about = value.get("description").cloned().unwrap_or_default();
        (key.clone(), serde_json::json!({ "description": about }))
    });
    Value::Object(told.collect())
}
