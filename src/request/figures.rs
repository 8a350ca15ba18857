//! Figures that follow from status, goal and age: caps, counts and shares. Common practice where no
//! source stands beside them; a profile's `rules` can change them.

use crate::input::profile::{Profile, RuleSetting, SplitChoice, SplitName};
use crate::words::{Muscle, Status, Supersets};

/// Figures for one client.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// Most direct sets of a muscle in a session, by status; 11 on a body-part split, the limit of
    /// what a preprint could detect (Remmert et al. 2025), not a danger line.
    pub session_cap: u32,
    /// Most different exercises in a week.
    pub different: u32,
    /// Most exercises in a session, whatever its minutes.
    pub most_items: u32,
    /// Fewest exercises wanted in a session.
    pub fewest_items: u32,
    /// Most stations in a session.
    pub stations: u32,
    /// Highest level of exercise that is offered.
    pub level: u8,
    /// Least repetitions in reserve that is planned.
    pub least_rir: u32,
    /// Whether pairs may be planned.
    pub pairs: bool,
}

/// Straight sets fill at most this many per minute.
pub const SETS_PER_MINUTE: f64 = 0.40;
/// Sets of pairs fill at most this many per minute.
pub const PAIRED_SETS_PER_MINUTE: f64 = 0.60;
/// A session holds one exercise for so many of its minutes, and one more.
pub const MINUTES_PER_ITEM: f64 = 6.0;
/// A muscle-day with this many direct sets is hard.
pub const HARD_DIRECT: u32 = 3;
/// A muscle-day with this many half-sets (four sets), at least one of them direct, is hard.
pub const HARD_HALVES: u32 = 8;

/// Whether a day is hard for a muscle that gets some direct sets, and half-sets in all.
#[must_use]
pub const fn is_hard(direct: u32, halves: u32) -> bool {
    direct >= HARD_DIRECT || (direct >= 1 && halves >= HARD_HALVES)
}
/// No session holds more fractional sets of a muscle than this.
pub const FRACTIONAL_CAP: f64 = 11.0;

impl Figures {
    /// The figures for a profile.
    #[must_use]
    pub fn new(profile: &Profile) -> Figures {
        let body_part = match &profile.split {
            SplitChoice::Named(name) => *name == SplitName::BodyPart,
            SplitChoice::Own(_) => true,
        };
        let cap = match profile.training_status {
            _ if body_part => 11,
            // The only day of a week has the week's sets, and six days to recover in.
            Status::Novice if profile.sessions.len() > 1 => 6,
            Status::Intermediate if profile.sessions.len() > 1 => 8,
            Status::Novice => 8,
            Status::Intermediate | Status::Advanced => 11,
        };
        let different = match profile.training_status {
            Status::Novice => 22,
            Status::Intermediate => 28,
            Status::Advanced => 40,
        };
        let novice = profile.training_status == Status::Novice;
        Figures {
            session_cap: figure(profile, "session-cap", cap),
            different: figure(profile, "different-exercises", different),
            most_items: if novice { 7 } else { 10 },
            fewest_items: 3,
            stations: figure(profile, "stations", 4),
            level: match profile.training_status {
                Status::Novice => 1,
                Status::Intermediate => 2,
                Status::Advanced => 3,
            },
            least_rir: if novice { 2 } else { 0 },
            pairs: profile.supersets != Supersets::Never,
        }
    }

    /// The most direct sets of a muscle in a session: squats, hinges, lunges and thrusts all count for the glutes, which hold
    /// half as many again. Common practice.
    #[must_use]
    pub fn session_cap_of(&self, muscle: Muscle) -> u32 {
        if muscle == Muscle::Glutes { self.session_cap * 3 / 2 } else { self.session_cap }
    }
}

/// A figure that the profile's `rules` may replace.
fn figure(profile: &Profile, rule: &str, usual: u32) -> u32 {
    match profile.rules.get(rule) {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to 0..=200"
        )]
        Some(RuleSetting::Figure(figure)) => figure.clamp(0.0, 200.0).round() as u32,
        Some(RuleSetting::On(false)) => 200,
        _ => usual,
    }
}
