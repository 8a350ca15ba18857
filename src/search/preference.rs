//! The seed's draws: a small preference per exercise and day.

use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use sha2::{Digest as _, Sha256};

/// Preferences are whole numbers from 0 to this.
pub(crate) const MOST: u32 = 100;

/// The preference of an exercise on a day. Each exercise has its own stream, so that another exercise in the
/// catalog does not reshuffle the rest; `variety` says how far the seed moves it from the usual order.
#[must_use]
pub(crate) fn drawn(seed: u64, id: &str, day: usize, variety: f64) -> u32 {
    let usual = draw(0, id, day);
    let drawn = draw(seed, id, day);
    let mixed = f64::from(usual) * (1.0 - variety) + f64::from(drawn) * variety;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 100")]
    let mixed = mixed.round() as u32;
    mixed
}

fn draw(seed: u64, id: &str, day: usize) -> u32 {
    let digest = Sha256::digest(id.as_bytes());
    let stream = digest.iter().take(8).fold(0_u64, |sum, byte| (sum << 8) | u64::from(*byte));
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    random.set_stream(stream);
    random.set_word_pos(day as u128);
    random.next_u32() % (MOST + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Known answers, drawn once with `rand_chacha` 0.10: a change of generator or stream shows here.
    #[test]
    fn draws_stay_what_they_were() {
        let drawn = |seed, id, day| super::drawn(seed, id, day, 1.0);
        let some = [
            drawn(7, "back-squat", 0),
            drawn(7, "back-squat", 1),
            drawn(7, "push-up", 0),
            drawn(8, "push-up", 0),
        ];
        assert_eq!(some, [7, 6, 81, 16]);
    }

    #[test]
    fn without_variety_every_seed_draws_the_same() {
        assert_eq!(drawn(1, "plank", 2, 0.0), drawn(99, "plank", 2, 0.0));
    }
}
