//! The schemas, held against files by a general-purpose validator (the crate `jsonschema`, which
//! knows JSON Schema 2020-12).

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use jsonschema::Validator;
use serde_json::Value;

use crate::input::fixtures::{CATALOGS, PROFILES};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn weekwright(arguments: &[&str]) -> Vec<u8> {
    let output = Command::new(env!("CARGO_BIN_EXE_weekwright")).args(arguments).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

/// The validator of a format, from the schema as the program prints it.
fn validator(shape: &str) -> Validator {
    let schema: Value = serde_json::from_slice(&weekwright(&["schema", shape])).unwrap();
    assert!(jsonschema::meta::is_valid(&schema), "{shape}: a schema of the 2020-12 draft");
    jsonschema::draft202012::new(&schema).unwrap()
}

/// A YAML text as the JSON that an editor's validator sees: keys are texts.
fn json(text: &str) -> Option<Value> {
    fn plain(value: serde_yaml::Value) -> Option<Value> {
        Some(match value {
            serde_yaml::Value::Mapping(map) => {
                let key = |key: serde_yaml::Value| match key {
                    serde_yaml::Value::String(text) => Some(text),
                    serde_yaml::Value::Number(number) => Some(number.to_string()),
                    _ => None,
                };
                let pairs = map.into_iter().map(|(k, v)| Some((key(k)?, plain(v)?)));
                Value::Object(pairs.collect::<Option<_>>()?)
            }
            serde_yaml::Value::Sequence(list) => {
                Value::Array(list.into_iter().map(plain).collect::<Option<_>>()?)
            }
            // Not a number and infinity are words of YAML only.
            serde_yaml::Value::Number(number) if !number.as_f64().is_none_or(f64::is_finite) => {
                return None;
            }
            scalar => serde_json::to_value(scalar).ok()?,
        })
    }
    plain(serde_yaml::from_str(text).ok()?)
}

fn yaml_files(folder: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join(folder)).unwrap();
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "yaml"))
        .collect();
    files.sort();
    assert!(!files.is_empty(), "{folder}");
    files
}

fn faults(validator: &Validator, value: &Value) -> Vec<String> {
    validator
        .iter_errors(value)
        .map(|fault| format!("{} at {}", fault, fault.instance_path()))
        .collect()
}

#[test]
fn every_file_of_the_project_fits_its_schema() {
    for (shape, folder) in
        [("profile", "profiles"), ("place", "profiles/places"), ("catalog", "catalog")]
    {
        let validator = validator(shape);
        for file in yaml_files(folder) {
            let value = json(&fs::read_to_string(&file).unwrap()).unwrap();
            assert_eq!(faults(&validator, &value), Vec::<String>::new(), "{}", file.display());
        }
    }
}

#[test]
fn plans_as_made_and_as_written_by_hand_fit_the_schema() {
    let validator = validator("plan");
    let profile = root().join("tests/fixtures/small.yaml");
    let profile = profile.to_str().unwrap();
    for format in ["yaml", "json"] {
        let plan = weekwright(&["plan", profile, "--quiet", "--format", format]);
        let value = json(std::str::from_utf8(&plan).unwrap()).unwrap();
        assert_eq!(faults(&validator, &value), Vec::<String>::new(), "{format}");
    }
    for name in ["tide-01", "exotic"] {
        let file = root().join(format!("tests/fixtures/plans/{name}.yaml"));
        let value = json(&fs::read_to_string(file).unwrap()).unwrap();
        assert_eq!(faults(&validator, &value), Vec::<String>::new(), "{name}");
    }
}

/// A profile written by the first talk fits as well, stand-ins and all.
#[test]
fn a_new_profile_fits_the_schema() {
    let text = weekwright::intake::profile_text(&weekwright::intake::Answers::default());
    assert_eq!(faults(&validator("profile"), &json(&text).unwrap()), Vec::<String>::new());
}

/// Faults of shape: the program reads them off the same schema, so the validator has to see them.
/// E1207 is left out for blank texts: a text of spaces is one for JSON Schema.
const OF_SHAPE: [&str; 6] = ["E1201", "E1202", "E1203", "E1204", "E1205", "E1206"];

#[test]
fn every_fault_of_shape_is_one_for_the_validator() {
    for (shape, table, folder) in [("profile", PROFILES, ""), ("catalog", CATALOGS, "catalog/")] {
        let validator = validator(shape);
        let mut refused = 0;
        for (name, told) in table {
            let file = root().join(format!("tests/fixtures/bad/{folder}{name}.yaml"));
            let Ok(text) = fs::read_to_string(&file) else { continue };
            // What is no YAML, or hides what it says, is refused before there is a shape.
            let Some(value) = json(&text) else { continue };
            let is_refused = !validator.is_valid(&value);
            refused += usize::from(is_refused);
            // Shapes of other files are for their own schemas.
            let of_shape =
                !told.contains('/') && OF_SHAPE.iter().any(|code| told.starts_with(code));
            assert!(is_refused || !of_shape, "{name}: the program says {told}");
            assert!(is_refused || !told.is_empty(), "{name} fails nowhere");
        }
        assert!(refused >= OF_SHAPE.len() / 3, "{shape}: {refused} are refused");
    }
}

/// An editor completes words and shows what a key is for: both have to be in the schema.
#[test]
fn schemas_describe_their_keys_and_list_their_words() {
    for shape in ["profile", "place", "plan"] {
        let schema: Value = serde_json::from_slice(&weekwright(&["schema", shape])).unwrap();
        for (key, value) in schema["properties"].as_object().unwrap() {
            assert!(value["description"].is_string(), "{shape}.{key} has no description");
        }
        let text = schema.to_string();
        assert!(text.contains("\"dumbbells\""), "{shape} lists the kit");
    }
}

#[test]
fn a_hand_made_fault_is_seen() {
    let validator = validator("profile");
    let good = fs::read_to_string(root().join("tests/fixtures/small.yaml")).unwrap();
    assert!(validator.is_valid(&json(&good).unwrap()));
    let bad = good.replace("goal: general-fitness", "goal: general");
    assert!(!validator.is_valid(&json(&bad).unwrap()));
}
