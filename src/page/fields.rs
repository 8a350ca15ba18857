//! The fields of a form as they came.

/// Names and values, in the order of the form.
#[derive(Debug, Clone, Default)]
pub(super) struct Fields(pub(super) Vec<(String, String)>);

impl Fields {
    /// The first value of a field that is not blank.
    pub(super) fn get<'a>(&'a self, name: &'a str) -> Option<&'a str> {
        self.all(name).next()
    }

    /// Every value of a field that is not blank.
    pub(super) fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        let named = self.0.iter().filter(move |(field, _)| field == name);
        named.map(|(_, value)| value.trim()).filter(|value| !value.is_empty())
    }

    /// Fields whose name begins so, with the rest of it.
    pub(super) fn under<'a>(&'a self, prefix: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        let pairs = self.0.iter();
        pairs.filter_map(move |(name, value)| Some((name.strip_prefix(prefix)?, value.trim())))
    }
}
