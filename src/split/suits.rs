//! Which ways to share out a week suit a client who asks for none.

use super::idea::{Idea, Style};
use crate::input::profile::SplitName;
use crate::request::Request;
use crate::request::day::A_DAY_H;
use crate::words::{Goal, Muscle, Status, Supersets};

/// Weeks of so many days may have legs and arms on each.
const CROSSED_FROM: usize = 4;

/// Sessions up to so long are short.
const SHORT_MINUTES: u32 = 40;

/// Styles a coach would consider unasked. Body-part weeks are for the advanced; a novice with up to three days does best with
/// the whole body; four days are for two halves, and three only where two follow each other (common practice).
pub(super) fn suits(request: &Request, style: &Style) -> bool {
    let days = request.days.len();
    let novice = request.profile.training_status == Status::Novice;
    let advanced = request.profile.training_status == Status::Advanced;
    let builds = request.profile.goal.builds();
    let strong = request.profile.goal == Goal::Strength && !novice;
    // Many short days that are not for size or strength may have legs and arms each, so that one rests while the other works.
    let short = request.days.iter().all(|day| day.minutes <= SHORT_MINUTES);
    let may_cross = days >= CROSSED_FROM && short && request.profile.goal.rests_briefly();
    let likes_pairs = request.profile.supersets == Supersets::Prefer;
    // What is near a primer only has nothing to recover from.
    let primes = |day: usize| request.is_primer(day - 1) || request.is_primer(day);
    let in_a_row = (1..days).any(|day| request.too_close(day - 1, day) && !primes(day));
    let follows = |day: usize| request.days[day - 1].is_eve_of(&request.days[day], A_DAY_H);
    let all_in_a_row = (1..days).all(follows);
    match style.asked_as {
        Some(SplitName::BodyPart) => advanced && days >= 4,
        // One part of the body a day is for size and strength; else the legs come every second day.
        Some(SplitName::PushPullLegs) => !novice && days >= 5 && builds,
        Some(SplitName::FullBody) => days <= 3 || (days == 4 && !in_a_row && !builds),
        // Two days are for halves only where one follows the other and size or strength is built.
        Some(_) if days == 2 => builds && in_a_row,
        // Who likes pairs has something to pair a leg lift with on each of four such days; on five the hips do not rest.
        Some(_) if may_cross && likes_pairs && days == CROSSED_FROM => false,
        // For strength the legs have two of three days.
        _ if days == 3 && strong && !all_in_a_row => false,
        Some(_) => days >= style.from_days && (days != 3 || in_a_row),
        None if style.ideas.iter().any(Idea::crosses) => may_cross,
        // A day for the whole body between two halves is for three days only: with more it leaves a day without lifts. Where
        // neither size nor strength is built, and for who begins, it is for two days that follow each other.
        None if style.ideas.iter().any(Idea::whole_body) => {
            days == style.from_days && (builds && !novice || in_a_row)
        }
        // Six days are thrice two halves or twice three parts, unless chest or back should have three of them.
        None => {
            builds && (days == style.from_days || days > style.from_days && wants_upper(request))
        }
    }
}

/// Whether a large muscle of the upper half should get more.
fn wants_upper(request: &Request) -> bool {
    [Muscle::Chest, Muscle::Lats, Muscle::UpperBack].iter().any(|one| request.wants_more(*one))
}
