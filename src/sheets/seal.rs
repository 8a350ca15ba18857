//! The seal under a plan: whether it is as the program wrote it. A plan that was edited by hand has a broken one, and
//! what holds a coach's work is not replaced without asking.

use crate::catalog;

const BEGIN: &str = "# As weekwright wrote it while the sha256 of the lines above is ";

/// A plan's text with its seal as the last line.
#[must_use]
pub fn sealed(mut text: String) -> String {
    let seal = seal(&text);
    text.push_str(&seal);
    text
}

/// Whether a text ends with a seal that fits the rest of it.
#[must_use]
pub fn is_whole(text: &str) -> bool {
    text.rfind(BEGIN).is_some_and(|at| text[at..] == seal(&text[..at]))
}

fn seal(text: &str) -> String {
    format!("{BEGIN}{}\n", catalog::sha256(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The digest is that of `sha256sum` (GNU coreutils) over the same bytes.
    #[test]
    fn a_seal_is_the_digest_of_what_stands_above_it() {
        let digest = "b7c1ce0ef95b162dc1c654af741a142db133b3bc64f57631c9a3a5acc1aa89e8";
        let plan = sealed("format: x\n".to_owned());
        assert_eq!(plan, format!("format: x\n{BEGIN}{digest}\n"));
    }

    #[test]
    fn every_edit_breaks_the_seal() {
        let plan = sealed("load_kg: 40\nsets: 3\n".to_owned());
        assert!(is_whole(&plan));
        for (from, to) in
            [("40", "42.5"), ("sets: 3\n", ""), ("\n", "\r\n"), ("# As", "sets: 4\n# As")]
        {
            assert!(!is_whole(&plan.replacen(from, to, 1)), "{from}");
        }
        assert!(!is_whole(&format!("{plan}sets: 4\n")) && !is_whole("sets: 3\n") && !is_whole(""));
    }
}
