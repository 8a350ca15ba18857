//! The `weekwright` program.
fn main() {}
