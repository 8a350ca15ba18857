//! What a sheet says beside each exercise: when to go on, and to what. A printed plan cannot watch the last set.

use crate::input::catalog::Entry;
use crate::plan::steps::{Track, next_load};
use crate::request::dose::Duty;
use crate::strength::ladder::Ladder;
use crate::words::{LoadKind, Measure, Status};

/// The sentence of the 2-for-2 rule (RX-12): what stands before the number of repetitions ...
pub const REACHES: &str = "if the last set reaches ";
/// ... what stands between the number and the load ...
pub const RUNNING: &str = " in two sessions running, take ";
/// ... and the load where its figure is not known.
pub const HEAVIER: &str = "the next heavier load";

/// The condition for the next step, by the 2-for-2 rule where repetitions and loads are counted (RX-12).
#[must_use]
pub fn condition(
    entry: &Entry,
    duty: Duty,
    track: &Track,
    ladder: Option<&Ladder>,
    cap_kg: Option<f64>,
) -> String {
    match (duty, entry.measure) {
        (Duty::Explosive, _) => "more speed or height, not more repetitions".to_owned(),
        (_, Measure::Seconds) => longer(entry, track, "seconds"),
        (_, Measure::Meters) => longer(entry, track, "meters"),
        _ => match (track.load_kg, ladder) {
            (Some(load), Some(ladder)) => heavier(load, track, ladder, cap_kg),
            (None, Some(_)) => format!("{}{HEAVIER}", two_more(track)),
            (_, None) => harder(entry, track),
        },
    }
}

/// A goal of so many repetitions is passed by two, in so many sessions running (RX-12, Graves and Baechle): the
/// coach reads it off the card, where the last sets are written down.
const TWO: u32 = 2;

fn two_more(track: &Track) -> String {
    format!("{REACHES}{}{RUNNING}", track.amount.saturating_add(TWO))
}

fn heavier(load: f64, track: &Track, ladder: &Ladder, cap_kg: Option<f64>) -> String {
    match next_load(load, ladder, cap_kg) {
        Some(next) => {
            let made =
                ladder.plates_text(next.load_kg).map_or(String::new(), |text| format!(" ({text})"));
            let to = format!("{}{made}", ladder.text(next.load_kg));
            if next.is_wide {
                // The kit's step is more than a tenth: repetitions first.
                format!(
                    "when every set reaches {}, take {to}; the step is wide",
                    track.widened_top()
                )
            } else {
                format!("{}{to}", two_more(track))
            }
        }
        None if cap_kg
            .is_some_and(|cap| ladder.next_above(load).is_some_and(|next| next > cap)) =>
        {
            "stay under the cap: add repetitions or lower more slowly".to_owned()
        }
        None => "the heaviest here: add repetitions or lower more slowly".to_owned(),
    }
}

fn longer(entry: &Entry, track: &Track, unit: &str) -> String {
    let step = track.step();
    let more = format!("when every set feels steady, add {step} {unit} up to {}", track.high);
    match entry.load {
        LoadKind::Bodyweight | LoadKind::None => match entry.harder.first() {
            Some(form) => format!("{more}, then take the {}", form.replace('-', " ")),
            None => more,
        },
        _ => format!("{more}, then a heavier load"),
    }
}

fn harder(entry: &Entry, track: &Track) -> String {
    let when = format!("when every set reaches {},", track.high);
    match (entry.load, entry.harder.first()) {
        (LoadKind::Band, _) => format!("{when} take a thicker band"),
        (LoadKind::Assisted, _) => format!("{when} take less help"),
        (_, Some(form)) => format!("{when} take the {}", form.replace('-', " ")),
        (_, None) => format!("{when} lower more slowly"),
    }
}

/// How a load that the client found goes up: what stands before the number of repetitions ...
pub const OWN_STEP: &str = "the next load up if every set reached ";
/// ... and what stands between it and its second mention.
pub const OWN_ELSE: &str =
    "; if not, or if that is more than a tenth heavier, the one written down, for ";

/// How a load that the client found goes up.
#[must_use]
pub fn own_step(reached: u32) -> String {
    format!("{OWN_STEP}{reached}{OWN_ELSE}{reached} again")
}

/// The reserve in words, as a beginner reads it (RM-19); nothing for others, who read the number.
#[must_use]
pub fn effort(status: Status, rir: u32) -> Option<String> {
    let left = match rir {
        0 | 1 => "one good rep",
        2 => "about two good reps",
        3 => "about three good reps",
        4 => "about four good reps",
        _ => "plenty of good reps",
    };
    (status == Status::Novice).then(|| format!("stop with {left} left"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::dose::Span;
    use crate::words::Units;

    fn entry(load: &str, measure: &str) -> Entry {
        serde_yaml::from_str(&format!(
            "{{id: x, name: X, pattern: squat, kind: compound, direct: [quads], needs: [[]], level: 1, sides: both,
               load: {load}, measure: {measure}, reps: [5, 30], setup_s: 30, harder: [goblet-squat]}}"
        ))
        .unwrap()
    }

    fn text(
        load: &str,
        measure: &str,
        load_kg: Option<f64>,
        ladder: Option<&Ladder>,
        cap: Option<f64>,
    ) -> String {
        let entry = entry(load, measure);
        let duty = Duty::of(&entry);
        let track = Track::start(&entry, duty, Span { low: 8, high: 12, aim: 10 }, 10, load_kg);
        condition(&entry, duty, &track, ladder, cap)
    }

    /// What a client does who follows the sentence: whether the load goes up after these last sets.
    fn goes_up(sentence: &str, last_sets: &[u32]) -> bool {
        let number = sentence.strip_prefix(REACHES).and_then(|rest| rest.split_once(RUNNING));
        let reached: u32 = number.unwrap().0.parse().unwrap();
        assert!(RUNNING.contains("two sessions running"));
        last_sets.windows(2).next_back().is_some_and(|two| two.iter().all(|reps| *reps >= reached))
    }

    /// RX-12 (Graves and Baechle, in NSCA Essentials): the goal is 10; last sets 12, 12 raise, 12, 11 keep, and 13, 10,
    /// 12, 12 raise after the fourth.
    #[test]
    fn the_sentence_gives_the_handbook_s_two_for_two() {
        let bar = Ladder::bar(20_000, &[(10_000, 2), (1250, 2)].into(), false, Units::Kg);
        let entry = entry("bar-total", "reps");
        let duty = Duty::of(&entry);
        for load in [Some(40.0), None] {
            let ten = Span { low: 10, high: 14, aim: 12 };
            let track = Track::start(&entry, duty, ten, 12, load);
            let sentence = condition(&entry, duty, &track, Some(&bar), None);
            for (sets, want) in [
                (&[12, 12][..], true),
                (&[12, 11], false),
                (&[13], false),
                (&[13, 10], false),
                (&[13, 10, 12], false),
                (&[13, 10, 12, 12], true),
            ] {
                assert_eq!(goes_up(&sentence, sets), want, "RX-12 {sets:?}");
            }
        }
    }

    #[test]
    fn conditions_name_the_next_step() {
        let bar = Ladder::bar(20_000, &[(10_000, 2), (1250, 2)].into(), false, Units::Kg);
        let reached = "if the last set reaches 10 in two sessions running,";
        assert_eq!(
            text("bar-total", "reps", Some(40.0), Some(&bar), None),
            format!("{reached} take 42.5 kg (each side 10 + 1.25 kg)")
        );
        assert!(
            text("bar-total", "reps", Some(40.0), Some(&bar), Some(41.0))
                .starts_with("stay under the cap")
        );
        assert!(
            text("bar-total", "reps", Some(42.5), Some(&bar), None)
                .starts_with("the heaviest here")
        );
        assert_eq!(
            text("bar-total", "reps", None, Some(&bar), None),
            format!("{reached} take the next heavier load")
        );
        let rack = Ladder::implements(vec![10_000, 12_000], Units::Kg);
        assert_eq!(
            text("per-hand", "reps", Some(10.0), Some(&rack), None),
            "when every set reaches 15, take 12 kg; the step is wide"
        );
        assert_eq!(
            text("bodyweight", "reps", None, None, None),
            "when every set reaches 12, take the goblet squat"
        );
        assert_eq!(
            text("band", "reps", None, None, None),
            "when every set reaches 12, take a thicker band"
        );
        assert!(text("bodyweight", "seconds", None, None, None).contains("add 5 seconds up to 12"));
    }

    #[test]
    fn beginners_read_words() {
        assert_eq!(
            effort(Status::Novice, 3).as_deref(),
            Some("stop with about three good reps left")
        );
        assert_eq!(effort(Status::Advanced, 3), None);
    }
}
