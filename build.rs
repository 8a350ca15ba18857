//! Turns the built-in catalog, which people write as YAML, into JSON, which the program reads in a millisecond.

use std::path::Path;
use std::{env, fs};

fn main() {
    println!("cargo::rerun-if-changed=catalog");
    let mut files: Vec<_> = fs::read_dir("catalog")
        .expect("the catalog stands beside this file")
        .map(|file| file.expect("it can be listed").path())
        .filter(|file| file.extension().is_some_and(|ending| ending == "yaml"))
        .collect();
    files.sort();
    let mut entries: Vec<serde_json::Value> = Vec::new();
    for file in files {
        let text = fs::read_to_string(&file).expect("a catalog file is text");
        let list: Vec<serde_json::Value> = serde_yaml::from_str(&text)
            .unwrap_or_else(|fault| panic!("{}: {fault}", file.display()));
        entries.extend(list);
    }
    let folder = env::var("OUT_DIR").expect("cargo names the folder");
    let json = serde_json::to_vec(&entries).expect("entries have text keys only");
    fs::write(Path::new(&folder).join("catalog.json"), json).expect("the folder can be written");
}
