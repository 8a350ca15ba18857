//! A talk without a terminal: answers in, a commented profile out.

use weekwright::diagnostic::Source;
use weekwright::input::check::Known;
use weekwright::input::place::Place;
use weekwright::input::profile::Profile;
use weekwright::input::screening::Pain;
use weekwright::input::{check, read};
use weekwright::intake::{
    Answers, Around, Talk, ask_client, change, draft_text, interview, profile_text, recalled,
};
use weekwright::words::{Emphasis, Goal, Kit, Muscle, Region, Status, Weekday};

use crate::input::with_known;

/// Answers by the words that their question starts with; all else is taken as it stands in brackets.
struct Notes<'a> {
    answers: Vec<(&'a str, &'a str)>,
    heard: Vec<String>,
    said: Vec<String>,
    lines_left: usize,
    kept: Vec<String>,
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

    fn keep(&mut self, answers: &Answers) {
        self.kept.push(draft_text(answers));
    }
}

impl<'a> Notes<'a> {
    fn new(answers: &[(&'a str, &'a str)], lines_left: usize) -> Notes<'a> {
        let answers = answers.to_vec();
        Notes { answers, heard: Vec::new(), said: Vec::new(), lines_left, kept: Vec::new() }
    }
}

/// The whole talk with a new client.
fn talked(notes: &mut Notes<'_>, known: Known<'_>) -> Option<Answers> {
    let begun = ask_client(notes, &around(), known)?;
    interview(notes, &around(), known, begun)
}

fn around() -> Around {
    let text = include_str!("../../profiles/places/boathouse.yaml");
    let room = read::<Place>(&Source::new("boathouse.yaml", text)).unwrap().value;
    Around {
        today: "2026-12-30".to_owned(),
        first_day: "2027-01-04".to_owned(),
        places: vec!["boathouse".to_owned()],
        rooms: [("boathouse".to_owned(), room)].into(),
    }
}

fn talk<'a>(answers: &[(&'a str, &'a str)]) -> (Option<Answers>, Notes<'a>) {
    let mut notes = Notes::new(answers, 200);
    let given = with_known(|known| talked(&mut notes, known));
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
    assert_eq!(profile.screening, None, "left open, not denied");
    assert_eq!(notes.heard.iter().filter(|asked| asked.starts_with("Client")).count(), 1);
}

#[test]
fn every_answer_reaches_the_profile() {
    let (answers, _) = talk(&[
        ("Client", "Bow, \"no\": 2 #x"),
        ("Year", "1960"),
        ("Training status", "Intermediate"),
        ("Goal", "lose weight"),
        ("Training days", "Tuesday@7:15, sat=90 at 9"),
        ("Minutes for", "75 min"),
        ("First day", "2 February"),
        ("Place", "none"),
        ("Kit", "Dumbbells, pull up bar"),
        ("Moved", "y"),
        ("Any of these", "y"),
        ("Known", "n"),
        ("Chest", "no"),
        ("Pregnant", "n"),
        ("A clinician", "n"),
        ("How hard", "vigorous"),
        ("Places that hurt", "left knee: stairs, neck"),
        ("More", "y"),
        ("Sex", "woman"),
        ("Body mass", "64,5"),
        ("Unit", "pounds"),
        ("Weeks", "6"),
        ("Stresses", "overhead impact"),
        ("Muscles that should get more", "glutes and lats"),
        ("Muscles that should get less", "biceps"),
        ("Exercises that must be", "Goblet squat"),
        ("Exercises that must not", "deadlift, push ups"),
        ("A lift", "goblet squat 35 lb x 8, 2 left"),
        ("A lift", "one-arm-row 40x10"),
        ("Exercises in pairs", "prefer"),
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
    assert_eq!(slots, [(Weekday::Tue, Some("07:15"), 75), (Weekday::Sat, Some("09:00"), 90)]);
    assert_eq!(profile.start.as_deref(), Some("2027-02-02"));
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
    let pain = [Pain::Note("left knee: stairs".to_owned()), Pain::Region(Region::Neck)];
    assert_eq!(screening.pain.as_deref(), Some(&pain[..]));
    assert_eq!((screening.active, screening.disease), (Some(true), Some(false)));
    assert_eq!(profile.conditioning.unwrap().from_week, 2);
    assert_eq!(profile.other_training[0].muscles, [Muscle::Lats, Muscle::Quads]);
}

#[test]
fn a_wrong_answer_is_told_at_once_and_asked_again() {
    let untouched = profile_text(&talk(&[("Client", "tide-07")]).0.unwrap());
    for (question, wrong, told) in [
        ("Goal", "strenght", "id you mean `strength`?"),
        ("Year", "ninety", "is no number"),
        ("Year", "1", "1900"),
        ("Training days", "mon tusday", "one of `mon`, `tue`"),
        ("Training days", "mon mon", "the same hour"),
        ("Training days", "mon@25:00", "no time of day"),
        ("Minutes for", "5", "10"),
        ("First day", "2027-02-30", "there is no day `2027-02-30`"),
        ("Place", "boat house", "id you mean `boathouse`?"),
        ("Moved", "perhaps", "answer `y` or `n`"),
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
fn a_wrong_answer_behind_more_is_told_too() {
    for (question, wrong, told) in [
        ("Unit", "stone", "one of `kg`, `lb` belongs here"),
        ("Weeks", "60", "52"),
        ("Stresses", "overhaed", "id you mean `overhead`?"),
        ("Muscles that should get more", "quad", "id you mean `quads`?"),
        ("Exercises that must be", "bakc-squat", "id you mean `back-squat`?"),
        ("A lift", "back squat 50", "as in `back-squat 50 x 5, 2 left`"),
        ("A lift", "back-sqaut 50 x 5", "id you mean `back-squat`?"),
        ("Minutes of", "60", "conditioning"),
        ("Sport", "sat", "as in `sat hard lats quads`"),
        ("Sport", "sat brutal lats", "`hard`"),
    ] {
        let (_, notes) = talk(&[("Client", "tide-07"), ("More", "y"), (question, wrong)]);
        let told_so = notes.said.iter().any(|line| line.contains(told));
        assert!(told_so, "{question} {wrong}: {:?}", notes.said);
        let asked = notes.heard.iter().filter(|asked| asked.starts_with(question)).count();
        assert!(asked >= 2, "{question} is asked again");
    }
}

/// A usual client: nothing is reported, and nothing more is wanted.
#[test]
fn a_usual_client_answers_under_fifteen_questions() {
    let (_, notes) = talk(&[("Client", "tide-07"), ("Any of these", "n")]);
    // The last one of all asks whether to plan.
    assert!(notes.heard.len() + 1 < 15, "{:#?}", notes.heard);
}

#[test]
fn what_people_type_is_taken() {
    let (answers, _) = talk(&[
        ("Client", "tide-07"),
        ("Training status", "beginner"),
        ("Goal", "build muscle"),
        ("Training days", "Monday, Wednesday and Friday at 6:30 pm"),
        ("Minutes for", "45 min"),
        ("First day", "1 December"),
        ("Any of these", "no"),
        ("Places that hurt", "sore lower back"),
        ("More", "yes"),
        ("Body mass", "68,5"),
        ("Exercises that must be", "barbell bench press"),
        ("A lift", "barbell bench press 42,5 x 8, 2 left"),
    ]);
    let profile = profile(&profile_text(&answers.unwrap()));
    assert_eq!((profile.training_status, profile.goal), (Status::Novice, Goal::Hypertrophy));
    let slots: Vec<_> =
        profile.sessions.iter().map(|slot| (slot.day, slot.at.as_deref(), slot.minutes)).collect();
    let at = Some("18:30");
    assert_eq!(slots, [(Weekday::Mon, at, 45), (Weekday::Wed, at, 45), (Weekday::Fri, at, 45)]);
    assert_eq!(
        profile.start.as_deref(),
        Some("2027-12-01"),
        "the next one from the day of the talk"
    );
    assert_eq!(profile.body_mass_kg, Some(68.5));
    assert_eq!(profile.exercises.must, ["bench-press"]);
    assert_eq!(profile.known_lifts["bench-press"].load, 42.5);
    let screening = profile.screening.unwrap();
    assert_eq!((screening.disease, screening.pregnant), (Some(false), Some(false)));
    assert_eq!(screening.pain.unwrap()[0].regions(), [Region::LowerBack]);
}

#[test]
fn what_does_not_go_together_is_told_at_once() {
    let (_, notes) = talk(&[
        ("Client", "tide-07"),
        ("Any of these", "y"),
        ("Chest", "y"),
        ("More", "y"),
        ("Exercises that must be", "leg press"),
    ]);
    let said = notes.said.join("\n");
    assert!(said.contains("no plan until a clinician agrees"), "{said}");
    assert!(said.contains("must be in, but the place has no leg-press"), "{said}");
}

#[test]
fn nothing_typed_is_lost() {
    let mut notes = Notes::new(&[("Client", "tide-07"), ("Year", "1990"), ("Goal", "strength")], 6);
    assert_eq!(with_known(|known| talked(&mut notes, known)), None, "it ended");
    let kept = recalled(notes.kept.last().unwrap());
    assert_eq!((kept.get("client"), kept.get("birth_year")), (Some("tide-07"), Some("1990")));
    assert_eq!(kept.get("goal"), Some("strength"));
    let mut notes = Notes::new(&[], 200);
    let whole = with_known(|known| interview(&mut notes, &around(), known, kept)).unwrap();
    let profile = profile(&profile_text(&whole));
    assert_eq!((profile.birth_year, profile.goal), (Some(1990), Goal::Strength));
    let asked = |question: &str| notes.heard.iter().any(|asked| asked.starts_with(question));
    assert!(
        !asked("Goal") && !asked("Minutes for") && asked("First day"),
        "what was answered is not asked again"
    );
}

/// Of an existing profile only what is named changes; keys that no question asks for stay.
#[test]
fn an_existing_profile_is_changed_in_one_place() {
    for file in ["tide-01", "scull-07", "rudder-06", "skiff-11"] {
        let path = format!("{}/profiles/{file}.yaml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let before: Profile = serde_yaml::from_str(&text).unwrap();
        let mut notes = Notes::new(&[("What changes", "minutes"), ("Minutes for", "50")], 200);
        let changed = with_known(|known| change(&mut notes, &around(), known, recalled(&text)));
        let after: Profile = serde_yaml::from_str(&profile_text(&changed.unwrap())).unwrap();
        let usual = before.sessions[0].minutes;
        let mut wanted = before.clone();
        for slot in wanted.sessions.iter_mut().filter(|slot| slot.minutes == usual) {
            slot.minutes = 50;
        }
        assert_eq!(after, wanted, "{file}");
    }
}

#[test]
fn what_is_allowed_is_told_for_a_question_mark() {
    let (_, notes) =
        talk(&[("Client", "tide-07"), ("Goal", "?"), ("More", "y"), ("Stresses", "?")]);
    let said = notes.said.join("\n");
    assert!(said.contains("Words: hypertrophy, strength, power"), "{said}");
    assert!(said.contains("open-chain-knee-extension"), "{said}");
}

#[test]
fn one_can_go_back() {
    let (answers, notes) =
        talk(&[("Client", "tide-07"), ("Year", "1909"), ("Training st", "<"), ("Year", "1990")]);
    let answers = answers.unwrap();
    assert_eq!(answers.get("birth_year"), Some("1990"));
    assert_eq!(notes.heard.iter().filter(|asked| asked.starts_with("Year")).count(), 2);
}

#[test]
fn questions_and_text_promise_nothing() {
    let (answers, notes) =
        talk(&[("Client", "tide-07"), ("Any of these", "y"), ("Known", "y"), ("A clinician", "y")]);
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
