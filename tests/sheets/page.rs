//! The plan as a page. `tests/check_html.py` opens it in a browser; here its text is checked.

use std::collections::BTreeMap;

use weekwright::plan::file::{Plan, Session};
use weekwright::sheets::{Audience, Options, Paper};

use crate::sample::{bare, exotic, sheet_of, tide, weeks};

const STYLE: &str = include_str!("../../src/sheets/html/style.css");
const SCRIPT: &str = include_str!("../../src/sheets/html/pocket.js");

fn html(plan: &Plan) -> String {
    sheet_of("html", plan, &Options::default())
}

#[test]
fn the_page_needs_nothing_from_outside() {
    for plan in [tide(), exotic(), weeks(12)] {
        let html = html(&plan);
        assert!(!html.contains("://"), "no address anywhere");
        for word in ["fetch", "XMLHttpRequest", "WebSocket", "import(", "eval(", "innerHTML", "</"]
        {
            assert!(!SCRIPT.contains(word), "{word}");
        }
        for outside in ["src=", "href=", "url(", "@import", "script", "link", "iframe", " on"] {
            assert!(
                !tags(&without_script(&html)).iter().any(|tag| tag.contains(outside)),
                "{outside}"
            );
        }
        assert!(!STYLE.contains("url(") && !STYLE.contains("@import"));
    }
}

/// A page without the one script that it may hold, which its policy allows by a mark and no other.
fn without_script(html: &str) -> String {
    let mark = html.split("script-src 'nonce-").nth(1).and_then(|rest| rest.split('\'').next());
    let mark = mark.expect("the policy names the script");
    let script = format!("<script nonce=\"{mark}\">\n{SCRIPT}</script>");
    assert_eq!(html.matches(&script).count(), 1);
    html.replace(&script, "").replace("script-src", "")
}

/// Everything between `<` and `>`; text has none of these signs, since they are escaped there.
pub(crate) fn tags(html: &str) -> Vec<&str> {
    html.split('<').skip(1).filter_map(|rest| rest.split_once('>')).map(|(tag, _)| tag).collect()
}

#[test]
fn every_tag_is_one_that_the_template_knows() {
    let known = [
        "!doctype", "html", "head", "meta", "title", "style", "body", "main", "section", "article",
        "header", "div", "h1", "h2", "h3", "p", "ul", "li", "b", "em", "i", "br", "small", "span",
        "bdi", "cite", "table", "thead", "tbody", "tr", "th", "td", "dl", "dt", "dd", "svg",
        "line", "rect", "text", "label", "input",
    ];
    for plan in [tide(), exotic(), bare()] {
        for tag in tags(&without_script(&html(&plan))) {
            let name = tag.trim_start_matches('/').split([' ', '/']).next().unwrap_or_default();
            assert!(known.contains(&name), "<{tag}>");
        }
    }
}

#[test]
fn exotic_text_is_shown_and_not_run() {
    let html = html(&exotic());
    assert!(html.contains("&lt;img src=x onerror=alert(1)&gt; 🚣"));
    assert!(html.contains("&lt;&#x2f;style&gt;&lt;script&gt;x&lt;&#x2f;script&gt;"));
    assert!(html.contains("{{ 7 }}"), "no template inside a template");
}

/// A card stands for several weeks: its clock is that of the fullest, whatever comes last.
#[test]
fn a_card_ends_when_its_longest_week_does() {
    let mut plan = weeks(4);
    let last = &mut plan.weeks.last_mut().unwrap().sessions[0];
    last.minutes.as_mut().unwrap().planned_s = 15 * 60;
    let html = html(&plan);
    assert!(html.contains("18:30, done about 19:06"), "the sample's Monday takes 36 minutes");
    assert!(!html.contains("done about 18:45"));
}

/// The sample with so many exercises one after the other in each session.
fn long(exercises: usize) -> Plan {
    let mut plan = tide();
    let sessions = plan.weeks.iter_mut().flat_map(|week| &mut week.sessions);
    for session in sessions.chain(&mut plan.sessions) {
        let groups = session.groups.iter().filter(|group| group.is_work()).cycle();
        session.groups = groups.take(exercises).cloned().collect();
    }
    plan
}

#[test]
fn a_session_takes_one_page_and_the_back_only_where_no_print_would_be_readable() {
    for paper in [Paper::A4, Paper::Letter].map(Some) {
        let page = |plan: &Plan| sheet_of("html", plan, &Options { paper, ..Options::default() });
        let cards = |html: &str| html.matches(r#"<article class="page card"#).count();
        let one = page(&tide());
        assert_eq!((cards(&one), one.matches("overleaf").count()), (3, 0), "{paper:?}");
        let two = page(&long(16));
        let continued = two.matches(" · continued").count();
        assert!(continued >= 3, "{paper:?}: {continued}");
        assert_eq!(two.matches(" · goes on overleaf</p>").count(), continued, "{paper:?}");
        assert_eq!(cards(&two), 3 + continued, "{paper:?}");
        let rows = |html: &str| html.matches(r#"<th scope="row"><div class="lift">"#).count();
        let plan = long(16);
        let items = |session: &Session| session.groups.iter().map(|group| group.items.len()).sum();
        let fullest = |place: usize| -> usize {
            let weeks = plan.weeks.iter().filter_map(|week| week.sessions.get(place));
            weeks.map(items).max().unwrap_or(0)
        };
        assert_eq!(rows(&two), (0..3).map(fullest).sum::<usize>(), "no row is lost");
    }
}

#[test]
fn weeks_that_have_no_room_on_the_cover_get_pages_of_their_own() {
    let overviews = |count| html(&weeks(count)).matches("<h2>Your weeks</h2>").count();
    assert_eq!([overviews(1), overviews(2), overviews(12), overviews(52)], [0, 1, 1, 2]);
    assert_eq!(html(&weeks(2)).matches(r#"class="page cover""#).count(), 1);
    assert_eq!(html(&weeks(52)).matches(r#"class="page cover""#).count(), 3);
}

/// When a found load goes up stands in the week that it is for; how it goes up, once at the head.
#[test]
fn a_found_load_goes_up_in_its_own_week() {
    let note = "the next load up if every set reached 12; if not, or if that is more than a tenth heavier, the one \
                written down, for 12 again";
    let mut plan = tide();
    let groups = plan.weeks[1].sessions[0].groups.iter_mut();
    let item = groups
        .flat_map(|group| &mut group.items)
        .find(|item| item.exercise == "dumbbell-bench-press");
    item.expect("the sample has it").load_note = Some(note.to_owned());
    let text = sheet_of("md", &plan, &Options::default());
    let rows: Vec<&str> = text.lines().filter(|line| line.contains("load up if every")).collect();
    assert_eq!(rows.len(), 1, "{rows:?}");
    let cells: Vec<&str> = rows[0].split(" | ").collect();
    assert!(cells[1].contains("Dumbbell bench press") && !cells[2].contains("load up"), "{rows:?}");
    assert!(cells[3].contains("load up if every set reached 12"), "{rows:?}");
    assert_eq!(text.matches("**Loads:** ").count(), 1);
    assert!(text.contains("Load up: take the next load above the one written down"), "{text}");
}

#[test]
fn twelve_weeks_stay_under_300_kb() {
    assert!(html(&weeks(12)).len() < 300_000);
}

#[test]
fn there_is_a_box_for_each_set_of_each_week() {
    let plan = tide();
    let sessions = plan.weeks.iter().flat_map(|week| &week.sessions);
    let groups = sessions.flat_map(|session| &session.groups);
    let after_prep = groups.filter(|group| group.kind != weekwright::words::GroupKind::Prep);
    let sets: u32 = after_prep.flat_map(|group| &group.items).map(|item| item.sets).sum();
    let boxes = html(&plan).matches("<i>").count();
    assert_eq!(u32::try_from(boxes), Ok(sets));
}

#[test]
fn a_box_holds_what_its_set_is_planned_as() {
    let html = html(&tide());
    for planned in ["40\u{202f}×\u{202f}8", "42.5\u{202f}×\u{202f}8", "30 s"] {
        assert!(html.contains(&format!("<i>{planned}</i>")), "{planned}");
    }
}

#[test]
fn each_set_can_be_ticked_off_on_a_phone() {
    let html = html(&tide());
    let ticks = html.matches(r#"<label><input type="checkbox" data-set="#).count();
    assert_eq!(ticks, html.matches("<i>").count());
}

#[test]
fn there_is_a_card_for_each_session_of_up_to_four_weeks() {
    let cards = |plan: &Plan| html(plan).matches("<article class=\"page card").count();
    assert_eq!(cards(&tide()), 3);
    assert_eq!(cards(&weeks(12)), 9);
    assert_eq!(cards(&weeks(6)), 6, "six weeks are three and three");
    assert!(html(&weeks(6)).contains("Weeks 4 to 6"));
    assert_eq!(
        html(&bare()).matches("data-week=").count(),
        4,
        "a plan without weeks has four columns"
    );
}

#[test]
fn what_changes_from_week_to_week_stands_in_the_weeks() {
    let html = html(&tide());
    assert!(html.contains("<b class=\"dose\">2 × 8</b><span class=\"load\">40 kg total</span>"));
    assert!(html.contains("<b class=\"dose\">3 × 8</b><span class=\"load\">42.5 kg total</span>"));
    assert!(!html.contains('▸'), "weeks with numbers of their own need no rule beside them");
    assert!(html.contains("not this week"), "conditioning starts in week 2");
}

#[test]
fn client_and_coach_have_their_own_pages() {
    let part = |audience| sheet_of("html", &tide(), &Options { audience, ..Options::default() });
    let (client, coach) = (part(Audience::Client), part(Audience::Coach));
    assert!(client.contains("<article") && !client.contains("class=\"page coach\""));
    assert!(coach.contains("class=\"page coach\"") && !coach.contains("<article"));
    assert!(coach.contains("Stop if it hurts"));
}

#[test]
fn the_paper_is_the_one_asked_for() {
    let on = |paper: Paper| Options { paper: Some(paper), ..Options::default() };
    assert!(sheet_of("html", &tide(), &on(Paper::Letter)).contains("@page { size: Letter;"));
    assert!(html(&tide()).contains("@page { size: A4;"));
    // What the profile says holds where nothing else is asked for.
    let mut plan = tide();
    let weekwright::input::plan::ProfileRef::Whole(profile) = &mut plan.profile else {
        unreachable!("the sample holds its profile")
    };
    profile.paper = Paper::Letter;
    assert!(html(&plan).contains("@page { size: Letter;"));
    assert!(sheet_of("html", &plan, &on(Paper::A4)).contains("@page { size: A4;"));
}

/// Contrast by WCAG 2.2, success criterion 1.4.3: (L1 + 0.05) / (L2 + 0.05).
fn contrast(first: &str, second: &str) -> f64 {
    let (one, other) = (luminance(first), luminance(second));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[allow(clippy::disallowed_methods, reason = "colors are no part of a plan")]
fn luminance(color: &str) -> f64 {
    let part = |at: usize| {
        let level = u8::from_str_radix(&color[at..at + 2], 16).expect("a color as #rrggbb");
        let level = f64::from(level) / 255.0;
        if level <= 0.04045 { level / 12.92 } else { ((level + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
}

/// Worked values of the formula, as commonly published for these colors on white.
#[test]
fn the_contrast_formula_gives_the_known_values() {
    for (color, known) in [
        ("#767676", 4.54),
        ("#777777", 4.48),
        ("#949494", 3.03),
        ("#0000ff", 8.59),
        ("#000000", 21.0),
    ] {
        assert!((contrast(color, "#ffffff") - known).abs() <= 0.01, "{color}");
    }
}

#[test]
fn every_color_is_strong_enough() {
    let root = STYLE.split('}').next().expect("the palette comes first");
    let palette: BTreeMap<&str, &str> = root
        .split("--")
        .skip(1)
        .filter_map(|part| part.split_once(':'))
        .map(|(name, color)| (name, color.trim().trim_end_matches(';')))
        .collect();
    for text in ["ink", "soft", "deep", "care"] {
        for ground in ["paper", "tint"] {
            let ratio = contrast(palette[text], palette[ground]);
            assert!(ratio >= 4.5, "{text} on {ground}: {ratio:.2}");
        }
    }
    for part in ["line", "deep"] {
        for ground in ["paper", "tint"] {
            let ratio = contrast(palette[part], palette[ground]);
            assert!(ratio >= 3.0, "{part} on {ground}: {ratio:.2}");
        }
    }
    let colors = STYLE.matches('#').count();
    assert_eq!(colors, palette.len(), "no color stands outside the palette");
}

/// The sample with the same sentence about the next time on every lift of Monday, but for the first.
fn with_next(first: &str, others: [&str; 2]) -> Plan {
    let mut plan = tide();
    // The same numbers in each week, or there would be no rule to tell.
    let monday = plan.weeks[0].sessions[0].clone();
    for (week, other) in plan.weeks.iter_mut().zip(others) {
        week.sessions[0] = monday.clone();
        let items = week.sessions[0].groups.iter_mut().skip(1).flat_map(|group| &mut group.items);
        for (place, item) in items.enumerate() {
            item.next = Some(if place == 0 { first } else { other }.to_owned());
        }
    }
    plan
}

#[test]
fn what_lifts_share_about_the_next_time_is_said_once() {
    let steps = [
        "if the last set reaches 10 in two sessions running, take 16 kg (two of 8)",
        "if the last set reaches 11 in two sessions running, take the next heavier load",
    ];
    let html = html(&with_next("more speed or height, not more repetitions", steps));
    let monday = html.split("<article").nth(1).expect("Monday");
    assert_eq!(monday.matches("in two sessions running").count(), 1, "{monday}");
    assert!(monday.contains("▸ 10: 16 kg</bdi>") && monday.contains("▸ 11</bdi>"), "{monday}");
    assert_eq!(monday.matches("more speed or height").count(), 1, "a lift's own stays with it");
}

#[test]
fn what_only_some_weeks_say_names_them() {
    let said = ["the same next time: the movement first", "an easier week: nothing is raised"];
    let html = html(&with_next("more speed or height", said));
    let monday = html.split("<article").nth(1).expect("Monday");
    assert!(
        monday.contains("Week 1: the same next time: the movement first. Week 2: an easier week"),
        "{monday}"
    );
}

#[test]
fn the_sources_are_those_of_the_rows_that_the_plan_uses() {
    use weekwright::request::dose::citation;
    let html = html(&tide());
    let told = |id: &str| {
        // The template escapes what HTML would act on.
        let citation = citation(id).expect(id).replace('\'', "&#x27;").replace('/', "&#x2f;");
        html.contains(&citation)
    };
    assert!(["VO-03", "VO-05", "RX-01", "RX-12"].into_iter().all(told));
    assert!(!["VO-10", "RX-19"].into_iter().any(told), "rows of strength, which it is not for");
}

/// How it is done and a cue, and nothing else beside the weeks; every cue for safety is there.
#[test]
fn an_exercise_takes_two_lines_of_words() {
    let catalog = weekwright::catalog::Catalog::built_in();
    for plan in [tide(), weeks(4)] {
        let html = html(&plan);
        for row in html.split("<tr data-id=\"").skip(1) {
            let head = row.split("</th>").next().unwrap();
            let lines = head.matches("<span class=\"how\">").count()
                + head.matches("<span class=\"cues\">").count();
            assert!(lines <= 2 && !head.contains("class=\"tip\""), "{head}");
            let entry = row.split('"').next().and_then(|id| catalog.get(id));
            for cue in entry.into_iter().flat_map(|entry| &entry.cues) {
                assert!(
                    !cue.contains("safety arms") || head.contains(cue.as_str()),
                    "{cue}: {head}"
                );
            }
        }
    }
}

/// A profile with `clock: 12h`: cards tell the hour so, the calendar stays as its standard has it.
#[test]
fn times_of_day_are_told_by_the_profile_s_clock() {
    let mut plan = tide();
    let weekwright::input::plan::ProfileRef::Whole(profile) = &mut plan.profile else {
        unreachable!("the sample holds its profile")
    };
    profile.clock = weekwright::words::Clock::Hours12;
    let told = |format: &str, plan: &Plan| sheet_of(format, plan, &Options::default());
    for format in ["html", "md", "text"] {
        let page = told(format, &plan);
        assert!(page.contains("6:30 pm") && !page.contains("18:30"), "{format}: {page}");
        assert!(told(format, &tide()).contains("18:30"));
    }
    assert_eq!(told("ics", &plan), told("ics", &tide()));
}
