//! Draws profiles, plans them, and tells every one that fails.

use std::panic::{AssertUnwindSafe, catch_unwind};

use proptest::strategy::{Strategy, ValueTree as _};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use weekwright::input::profile::Profile;

/// Steps taken to make a failing profile simpler.
const SIMPLER: u32 = 12;

/// How many profiles a test draws: its own number, three times as many where a long run is asked for, and in proportion
/// to the 60 of the largest test where `WEEKWRIGHT_CASES` says a number.
fn profiles_drawn(usual: usize) -> usize {
    let wanted = std::env::var("WEEKWRIGHT_CASES").ok().and_then(|text| text.parse::<usize>().ok());
    wanted.map_or_else(|| crate::cases(usual), |all| (usual * all / 20).max(1))
}

/// Runs a check on profiles drawn with a fixed seed and fails with each that does not pass, made simpler.
pub(crate) fn for_all(
    usual: usize,
    profiles: impl Strategy<Value = Profile>,
    check: impl Fn(&Profile) -> Result<(), String>,
) {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, b"a rowing club in its off-season.");
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let mut failures = Vec::new();
    for case in 0..profiles_drawn(usual) {
        let mut tree = profiles.new_tree(&mut runner).unwrap();
        let Err(mut fault) = tried(&tree.current(), &check) else { continue };
        let mut failing = tree.current();
        for _ in 0..SIMPLER {
            let moved = match tried(&tree.current(), &check) {
                Ok(()) => tree.complicate(),
                Err(found) => {
                    (failing, fault) = (tree.current(), found);
                    tree.simplify()
                }
            };
            if !moved {
                break;
            }
        }
        let profile = serde_yaml::to_string(&failing).unwrap();
        failures.push(format!("--- case {case}: {fault}\n{profile}"));
    }
    assert!(failures.is_empty(), "{} fail\n{}", failures.len(), failures.join("\n"));
}

/// The check with a panic told as a fault.
fn tried(profile: &Profile, check: &impl Fn(&Profile) -> Result<(), String>) -> Result<(), String> {
    catch_unwind(AssertUnwindSafe(|| check(profile))).unwrap_or_else(|panic| {
        let text = panic.downcast_ref::<String>().cloned();
        let text = text.or_else(|| panic.downcast_ref::<&str>().map(|text| (*text).to_owned()));
        Err(format!("it panics: {}", text.unwrap_or_default()))
    })
}
