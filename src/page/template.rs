//! Templates and the two files beside them, all inside the program.

use std::sync::LazyLock;

use minijinja::{Environment, Value, context, value::Serde};
use serde::Serialize;

use crate::sheets::{progress, wording};

pub(super) use crate::sheets::wording::{known, say, word};

const TEMPLATES: [(&str, &str); 15] = [
    ("base.html", include_str!("html/base.html")),
    ("clients.html", include_str!("html/clients.html")),
    ("week.html", include_str!("html/week.html")),
    ("part.html", include_str!("html/part.html")),
    ("card.html", include_str!("html/card.html")),
    ("bars.html", include_str!("html/bars.html")),
    ("try.html", include_str!("html/try.html")),
    ("instead.html", include_str!("html/instead.html")),
    ("profile.html", include_str!("html/profile.html")),
    ("write.html", include_str!("html/write.html")),
    ("progress.html", include_str!("html/progress.html")),
    ("review.html", include_str!("html/review.html")),
    ("faults.html", include_str!("html/faults.html")),
    ("drawn.html", progress::DRAWN),
    ("refused.html", include_str!("html/refused.html")),
];

/// How pages look.
pub(super) const STYLE: &str = include_str!("html/page.css");

/// What makes them quick.
pub(super) const SCRIPT: &str = include_str!("html/page.js");

static ENVIRONMENT: LazyLock<Environment<'static>> = LazyLock::new(|| {
    let mut environment = wording::environment();
    for (name, source) in TEMPLATES {
        environment.add_template(name, source).expect("the templates are well formed");
    }
    environment
});

/// A page as text.
pub(super) fn rendered<V: Serialize>(
    name: &str,
    token: &str,
    view: &V,
) -> Result<String, minijinja::Error> {
    let template = ENVIRONMENT.get_template(name)?;
    let view = Value::from(Serde(view));
    template.render(context! { token, ..view })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn templates_are_well_formed() {
        assert!(TEMPLATES.iter().all(|(name, _)| ENVIRONMENT.get_template(name).is_ok()));
    }

    #[test]
    fn what_a_file_says_is_escaped() {
        let view = context! { sentence => "<script>alert(1)</script>" };
        let page = rendered("refused.html", "", &view).unwrap();
        assert!(!page.contains("<script>alert"), "{page}");
    }
}
