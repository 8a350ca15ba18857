//! What the search promises: nothing lost by leaving exercises out, pairs that can be paired, and an answer at the
//! edge of what a week can hold.

mod boundary;
mod pairs;
mod reduction;

use proptest::strategy::{Strategy, ValueTree as _};
use proptest::test_runner::{Config, RngSeed, TestRunner};
use weekwright::input::profile::Profile;

/// Values of a strategy, the same ones on every machine.
fn drawn<S: Strategy>(strategy: &S, count: usize) -> Vec<S::Value> {
    let config =
        Config { rng_seed: RngSeed::Fixed(11), failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new(config);
    (0..count).map(|_| strategy.new_tree(&mut runner).unwrap().current()).collect()
}

fn profile(text: &str) -> Profile {
    serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}
