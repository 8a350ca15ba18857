//! A talk without a terminal: answers in, a commented profile out.

use weekwright::diagnostic::Source;
use weekwright::input::profile::Profile;
use weekwright::input::{check, read};
use weekwright::intake::{Answers, Around, Talk, interview, profile_text};
use weekwright::words::{Emphasis, Goal, Kit, Muscle, Status, Weekday};

use crate::input::with_known;

/// Answers by the words that their question starts with; all else is taken as it stands in brackets.
struct Notes<'a> {
    answers: Vec<(&'a str, &'a str)>,
    heard: Vec<String>,
    said: Vec<String>,
    lines_left: usize,
}

impl Talk for Notes<'_> {
    fn hear(&mut self, prompt: &str) -> Option<String> {
        self.lines_left = self.lines_left.checked_sub(1)?;
        self.heard.push(prompt.to_owned());
        let at = self.answers.iter().position(|(question, _)| prompt.starts_with(question));
        Some(at.map_or_else(String::new, |at| self.answers.remove(at).1.to_owned()))
    }

    fn say(&mut self, line: &str) {
        self.said.push(line.to_owned());
    }
}

fn around() -> Around {
    Around { first_day: "2027-01-04".to_owned(), places: vec!["boathouse".to_owned()] }
}

fn talk<'a>(answers: &[(&'a str, &'a str)]) -> (Option<Answers>, Notes<'a>) {
    let mut notes =
        Notes { answers: answers.to_vec(), heard: Vec::new(), said: Vec::new(), lines_left: 200 };
    let given = with_known(|known| interview(&mut notes, &around(), known));
    assert!(notes.answers.is_empty(), "never asked: {:?}", notes.answers);
    (given, notes)
}

/// The profile of a text, which has to pass every check without a remark.
fn profile(text: &str) -> Profile {
    let read = read::<Profile>(&Source::new("new.yaml", text)).expect(text);
    let found = with_known(|known| check::profile(&read, None, known));
    assert!(found.is_empty(), "{found:?}\n{text}");
    read.value
}

#[test]
fn enter_all_the_way_gives_a_profile_that_plans() {
    let (answers, notes) = talk(&[("Client", "tide-07")]);
    let text = profile_text(&answers.unwrap());
    let profile = profile(&text);
    assert_eq!((profile.client.as_str(), profile.weeks), ("tide-07", 4));
    assert_eq!((profile.training_status, profile.goal), (Status::Novice, Goal::GeneralFitness));
    let days: Vec<Weekday> = profile.sessions.iter().map(|slot| slot.day).collect();
    assert_eq!(days, [Weekday::Mon, Weekday::Thu]);
    assert!(profile.sessions.iter().all(|slot| slot.at.as_deref() == Some("18:30")));
    assert_eq!(profile.place.as_deref(), Some("boathouse"));
    assert_eq!(profile.start.as_deref(), Some("2027-01-04"));
    let screening = profile.screening.unwrap();
    assert_eq!((screening.disease, screening.signs), (None, None), "left open, not denied");
    assert_eq!(notes.heard.iter().filter(|asked| asked.starts_with("Client")).count(), 1);
}

#[test]
fn every_answer_reaches_the_profile() {
    let (answers, _) = talk(&[
        ("Client", "Bow, \"no\": 2 #x"),
        ("Unit", "lb"),
        ("Year", "1960"),
        ("Sex", "female"),
        ("Body mass", "64.5"),
        ("Training status", "Intermediate"),
        ("Goal", "fat loss"),
        ("Training days", "Tuesday@7:15, sat"),
        ("Hour", "9"),
        ("Minutes for", "75"),
        ("First day", "2027-02-02"),
        ("Weeks", "6"),
        ("Place", "none"),
        ("Kit", "Dumbbells, pull up bar"),
        ("Stresses", "overhead impact"),
        ("Muscles that should get more", "glutes, lats"),
        ("Muscles that should get less", "biceps"),
        ("Exercises that must", "goblet-squat"),
        ("Exercises that must not", "deadlift, push-up"),
        ("A lift", "goblet squat 35 x 8, 2 left"),
        ("A lift", "one-arm-row 40x10"),
        ("Exercises in pairs", "prefer"),
        ("Moved", "y"),
        ("Known", "n"),
        ("Chest", "no"),
        ("How hard", "vigorous"),
        ("Pregnant", "n"),
        ("Places that hurt", "left knee: stairs, neck"),
        ("A clinician", "n"),
        ("Minutes of", "10"),
        ("From week", "2"),
        ("Sport", "sun hard lats quads"),
    ]);
    let text = profile_text(&answers.unwrap());
    let profile = profile(&text);
    assert_eq!(profile.client, "Bow, \"no\": 2 #x");
    assert_eq!(profile.birth_year, Some(1960));
    assert_eq!(profile.goal, Goal::FatLoss);
    let slots: Vec<_> =
        profile.sessions.iter().map(|slot| (slot.day, slot.at.as_deref(), slot.minutes)).collect();
    assert_eq!(slots, [(Weekday::Tue, Some("07:15"), 75), (Weekday::Sat, Some("09:00"), 75)]);
    let kit: Vec<Kit> = profile.equipment.unwrap().items.into_keys().collect();
    assert_eq!(kit, [Kit::Dumbbells, Kit::PullUpBar]);
    assert_eq!(profile.limits.len(), 2);
    assert_eq!(profile.emphasis[&Muscle::Lats], Emphasis::More);
    assert_eq!(profile.emphasis[&Muscle::Biceps], Emphasis::Less);
    assert_eq!(profile.exercises.never, ["deadlift", "push-up"]);
    let squat = &profile.known_lifts["goblet-squat"];
    assert_eq!((squat.load, squat.reps, squat.rir), (35.0, 8, 2));
    assert_eq!(profile.known_lifts["one-arm-row"].rir, 0);
    let screening = profile.screening.unwrap();
    assert_eq!(screening.pain, ["left knee: stairs", "neck"]);
    assert_eq!((screening.active, screening.disease), (Some(true), Some(false)));
    assert_eq!(profile.conditioning.unwrap().from_week, 2);
    assert_eq!(profile.other_training[0].muscles, [Muscle::Lats, Muscle::Quads]);
}

#[test]
fn a_wrong_answer_is_told_at_once_and_asked_again() {
    let untouched = profile_text(&talk(&[("Client", "tide-07")]).0.unwrap());
    for (question, wrong, told) in [
        ("Unit", "stone", "one of `kg`, `lb` belongs here"),
        ("Goal", "strenght", "did you mean `strength`?"),
        ("Year", "ninety", "is no number"),
        ("Year", "1", "1900"),
        ("Training days", "mon tusday", "one of `mon`, `tue`"),
        ("Training days", "mon mon", "the same hour"),
        ("Hour", "25:00", "no time of day"),
        ("Minutes for", "5", "10"),
        ("First day", "2027-02-30", "there is no day `2027-02-30`"),
        ("Weeks", "60", "52"),
        ("Place", "boat house", "did you mean `boathouse`?"),
        ("Stresses", "overhaed", "did you mean `overhead`?"),
        ("Muscles that should get more", "quad", "did you mean `quads`?"),
        ("Exercises that must be", "bakc-squat", "did you mean `back-squat`?"),
        ("A lift", "back squat 50", "as in `back-squat 50 x 5, 2 left`"),
        ("A lift", "back-sqaut 50 x 5", "did you mean `back-squat`?"),
        ("Moved", "perhaps", "answer `y` or `n`"),
        ("Minutes of", "60", "conditioning"),
        ("Sport", "sat", "as in `sat hard lats quads`"),
        ("Sport", "sat brutal lats", "`hard`"),
    ] {
        let (answers, notes) = talk(&[("Client", "tide-07"), (question, wrong)]);
        let told_so = notes.said.iter().any(|line| line.contains(told));
        assert!(told_so, "{question} {wrong}: {:?}", notes.said);
        let asked = notes.heard.iter().filter(|asked| asked.starts_with(question)).count();
        assert!(asked >= 2, "{question} is asked again");
        assert_eq!(profile_text(&answers.unwrap()), untouched, "{question} {wrong}");
    }
}

#[test]
fn what_is_allowed_is_told_for_a_question_mark() {
    let (_, notes) = talk(&[("Client", "tide-07"), ("Goal", "?"), ("Stresses", "?")]);
    let said = notes.said.join("\n");
    assert!(said.contains("Words: hypertrophy, strength, power"), "{said}");
    assert!(said.contains("open-chain-knee-extension"), "{said}");
}

#[test]
fn one_can_go_back() {
    let (answers, notes) =
        talk(&[("Client", "tide-70"), ("Unit", "<"), ("Client", "tide-07"), ("Unit", "lb")]);
    let answers = answers.unwrap();
    assert_eq!(answers.get("client"), Some("tide-07"));
    assert_eq!(answers.get("units"), Some("lb"));
    assert_eq!(notes.heard.iter().filter(|asked| asked.starts_with("Client")).count(), 2);
}

#[test]
fn a_talk_that_ends_early_gives_nothing() {
    let mut notes = Notes { answers: vec![], heard: Vec::new(), said: Vec::new(), lines_left: 3 };
    assert_eq!(with_known(|known| interview(&mut notes, &around(), known)), None);
}

#[test]
fn questions_and_text_promise_nothing() {
    let (answers, notes) = talk(&[("Client", "tide-07"), ("Known", "y"), ("A clinician", "y")]);
    let all = [notes.heard.join("\n"), notes.said.join("\n"), profile_text(&answers.unwrap())];
    let all = all.join("\n").to_lowercase();
    for word in ["safe", "cleared", "clearance", "guarantee", "healthy", "fit for"] {
        assert!(!all.contains(word), "{word}");
    }
    assert!(all.contains("clinician"));
}

#[test]
fn the_text_says_what_each_key_is_for() {
    let (answers, _) = talk(&[("Client", "tide-07")]);
    let text = profile_text(&answers.unwrap());
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    assert!(
        text.contains("\nclient: tide-07                       # a code or a nickname"),
        "{text}"
    );
    assert!(text.contains("\n# birth_year: 1991 "), "what was not asked is shown: {text}");
    // Every example behind a sign is one that the checks take.
    let whole: String = text
        .lines()
        .map(|line| line.strip_prefix("# ").filter(|key| is_key(key)).unwrap_or(line))
        .fold(String::new(), |whole, line| whole + line + "\n");
    assert_ne!(whole, text);
    profile(&whole);
}

/// Whether a remark is a key with its example, or a line of one.
fn is_key(remark: &str) -> bool {
    let first = remark.split(['#']).next().unwrap_or_default();
    let word = first.trim_start_matches([' ', '-']).split(':').next().unwrap_or_default();
    first.contains(':') && !word.contains(' ') && !first.contains("$schema")
}
