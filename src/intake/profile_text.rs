//! The profile as a file that its reader can change: every usual key, each with what it is for.

use super::answers::Answers;
use super::kind::scalar;

/// The column in which a remark stands beside its key.
const REMARK: usize = 38;

/// The commented profile. What was not answered stands there as a remark with an example, so that
/// the coach sees what can be said. What a profile cannot be without gets a stand-in until it is
/// answered.
#[must_use]
pub fn profile_text(answers: &Answers) -> String {
    let mut text = Text { text: String::from(HEAD), answers };
    text.who();
    text.when();
    text.what();
    text.before();
    text.beside();
    text.others();
    text.text
}

const HEAD: &str = "\
# A client's profile. Change what you like, then: weekwright plan FILE
# Behind `#` stand remarks; take the sign away before a key to use the key.
# An editor completes and checks the keys after: weekwright schema profile -o profile.schema.json
# yaml-language-server: $schema=profile.schema.json
";

struct Text<'a> {
    text: String,
    answers: &'a Answers,
}

impl Text<'_> {
    fn heading(&mut self, name: &str) {
        self.text.push_str("\n# ");
        self.text.push_str(name);
        self.text.push('\n');
    }

    fn line(&mut self, line: &str, remark: &str) {
        let line = if remark.is_empty() {
            line.to_owned()
        } else if line.chars().count() < REMARK {
            let room = REMARK - line.chars().count();
            format!("{line}{}# {remark}", " ".repeat(room))
        } else {
            format!("{line}  # {remark}")
        };
        self.text.push_str(&line);
        self.text.push('\n');
    }

    /// A key with its answer, or with an example behind the sign of a remark.
    fn key(&mut self, key: &str, example: &str, remark: &str) {
        match self.answers.get(key).map(str::to_owned) {
            Some(answer) => self.line(&format!("{key}: {answer}"), remark),
            None => self.line(&format!("# {key}: {example}"), remark),
        }
    }

    /// A key that no profile is without.
    fn needed(&mut self, key: &str, stand_in: &str, remark: &str) {
        let answer = self.answers.get(key).unwrap_or(stand_in).to_owned();
        self.line(&format!("{key}: {answer}"), remark);
    }

    /// The keys of a map, or one example of it where none is answered.
    fn map(&mut self, name: &str, keys: &[(&str, &str)], example: &str, remark: &str) {
        let full = |key: &str| format!("{name}.{key}");
        let answers = self.answers;
        let told =
            keys.iter().filter_map(|(key, remark)| Some((*key, answers.get(&full(key))?, *remark)));
        let told: Vec<(&str, &str, &str)> = told.collect();
        if told.is_empty() {
            self.line(&format!("# {name}: {example}"), remark);
            return;
        }
        self.line(&format!("{name}:"), "");
        for (key, answer, remark) in told {
            self.line(&format!("  {key}: {answer}"), remark);
        }
    }

    fn who(&mut self) {
        self.heading("Who");
        self.needed("client", "new-client", "a code or a nickname; no full names");
        self.key("units", "kg", "loads are read and shown in kg or lb");
        self.key("birth_year", "1991", "for heart-rate ranges and the cautions of an age");
        self.key("sex", "female", "only where a published equation needs it");
        self.key("height_cm", "168", "");
        self.key("body_mass_kg", "64", "where the body is part of the load");
        self.needed("training_status", "novice", "novice, intermediate or advanced");
        self.needed("goal", "general-fitness", "what the training is for first of all");
    }

    fn when(&mut self) {
        self.heading("When and where");
        self.key("start", "2027-01-04", "first day of week 1");
        self.key("weeks", "4", "1 to 52");
        self.sessions();
        let place = self.answers.get("place").filter(|place| *place != "none").map(str::to_owned);
        match (place, self.answers.get("equipment").map(str::to_owned)) {
            (Some(place), _) => self.line(&format!("place: {place}"), "a file in places/"),
            (None, kit) => self.line(
                &format!("equipment: {}", kit.as_deref().unwrap_or("[]")),
                "each item with a usual amount",
            ),
        }
    }

    fn sessions(&mut self) {
        let minutes = self.answers.get("minutes").unwrap_or("60").to_owned();
        let days = self.answers.get("days").unwrap_or("mon").to_owned();
        self.line("sessions:", "one line for each training day; minutes are the limit");
        for typed in days.split(' ').filter(|day| !day.is_empty()) {
            let (typed, own) =
                typed.split_once('=').map_or((typed, None), |(day, own)| (day, Some(own)));
            let (day, at) =
                typed.split_once('@').map_or((typed, None), |(day, at)| (day, Some(at)));
            let at = at.map_or_else(String::new, |at| {
                let at = serde_json::to_string(&at).expect("every text can be quoted");
                format!("at: {at}, ")
            });
            let minutes = own.unwrap_or(&minutes);
            self.line(&format!("  - {{day: {}, {at}minutes: {minutes}}}", scalar(day)), "");
        }
    }

    fn what(&mut self) {
        self.heading("What to train");
        self.key("limits", "[overhead]", "stresses to keep out");
        self.emphasis();
        self.map(
            "exercises",
            &[
                ("must", "in the week at least once"),
                ("prefer", "chosen before equals"),
                ("avoid", "only where nothing else does"),
                ("never", "not in the week"),
            ],
            "{must: [], prefer: [], avoid: [], never: []}",
            "ids of `weekwright catalog list`",
        );
        self.many("known_lifts", "back-squat: {load: 50, reps: 5, rir: 2}", "  ");
        self.key("supersets", "allow", "never, allow or prefer pairs that share their rests");
    }

    /// Muscles by wish, each as a key of its own.
    fn emphasis(&mut self) {
        let muscles = |wish: &str| -> Vec<String> {
            let list = self.answers.get(&format!("emphasis.{wish}")).unwrap_or_default();
            let list =
                list.trim_matches(['[', ']']).split(", ").filter(|muscle| !muscle.is_empty());
            list.map(|muscle| format!("{muscle}: {wish}")).collect()
        };
        let told = [muscles("more"), muscles("less")].concat();
        if told.is_empty() {
            self.line("# emphasis: {glutes: more}", "muscles that get more or less than usual");
        } else {
            self.line(&format!("emphasis: {{{}}}", told.join(", ")), "more or less than usual");
        }
    }

    /// A map or list with one line for each answer.
    fn many(&mut self, name: &str, example: &str, lead: &str) {
        let told = self.answers.all(name).to_vec();
        let sign = if told.is_empty() { "# " } else { "" };
        self.line(&format!("{sign}{name}:"), "");
        if told.is_empty() {
            self.line(&format!("# {lead}{example}"), "");
        }
        for answer in told {
            self.line(&format!("{lead}{answer}"), "");
        }
    }

    fn before(&mut self) {
        self.heading("Before training; after a yes a clinician decides what comes first");
        self.map(
            "screening",
            &[
                ("active", "30 minutes on 3 days a week for 3 months"),
                ("disease", "of heart, vessels, metabolism or kidneys"),
                ("signs", "that suggest one"),
                ("intensity", "light, moderate or vigorous"),
                ("pregnant", ""),
                ("pain", "regions that hurt, [] for none"),
                ("chest", "muscle or under-effort, where the chest hurts"),
                ("painless", "tried, and they do not hurt"),
                ("told_to_wait", "by a clinician: no plan until they agree"),
                ("clinician_agreed", "the day, after signs, disease or pregnancy"),
            ],
            "{active: true, disease: false, signs: false}",
            "ask before the first session",
        );
    }

    fn beside(&mut self) {
        self.heading("Beside the lifts");
        self.map(
            "conditioning",
            &[
                ("from_week", "the first week that holds it"),
                ("minutes", "at the end of a session"),
                ("modes", "in order of liking"),
            ],
            "{from_week: 3, minutes: 10}",
            "after the lifts",
        );
        self.many("other_training", "{day: sat, load: hard, muscles: [lats, quads]}", "  - ");
    }

    /// Keys that no question asks for, as they stood.
    fn others(&mut self) {
        const ASKED: [&str; 23] = [
            "client",
            "units",
            "birth_year",
            "sex",
            "height_cm",
            "body_mass_kg",
            "training_status",
            "goal",
            "start",
            "weeks",
            "days",
            "minutes",
            "place",
            "equipment",
            "limits",
            "emphasis",
            "exercises",
            "known_lifts",
            "supersets",
            "screening",
            "conditioning",
            "other_training",
            "at",
        ];
        let answers = self.answers;
        let others = answers.iter().filter(|(key, _)| {
            let key = key.split('.').next().unwrap_or_default();
            !ASKED.contains(&key)
        });
        let told: Vec<String> =
            others.map(|(key, told)| format!("{key}: {}", told.join(", "))).collect();
        if !told.is_empty() {
            self.heading("Besides");
        }
        for line in told {
            self.line(&line, "");
        }
    }
}
