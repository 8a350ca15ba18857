//! What a known lift says of a related one: `related.yaml`.

use std::sync::LazyLock;

use serde::Deserialize;

/// A row of the table.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Related {
    /// The lift that is asked for.
    pub(super) lift: String,
    /// The lift that is known.
    pub(super) from: String,
    /// The most for one of the first as a share of that of the second.
    pub(super) share: f64,
    /// Whether the known lift counts the body with its load.
    #[serde(default)]
    pub(super) with_body: bool,
    /// Whether both are bars of one movement.
    #[serde(default)]
    pub(super) near: bool,
}

/// Every row, in the order in which they are looked at.
pub(super) static RELATED: LazyLock<Vec<Related>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("related.yaml")).expect("related.yaml is well formed")
});
