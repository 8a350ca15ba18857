//! Many requests at once, requests that nobody waits for any more, and a folder that takes nothing.

use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use http_body_util::BodyExt as _;
use tokio::runtime::{Builder, Runtime};
use tower::ServiceExt as _;

use crate::browser::{Browser, HOST, TOKEN, cookie, encoded};

fn runtime() -> Runtime {
    Builder::new_current_thread().enable_all().build().unwrap()
}

fn looked(path: &str) -> Request<Body> {
    let request = Request::get(path).header(header::HOST, HOST).header(header::COOKIE, cookie());
    request.body(Body::empty()).unwrap()
}

fn sent(path: &str, fields: &[(&str, &str)]) -> Request<Body> {
    let body = encoded([("token", TOKEN)].iter().chain(fields));
    let request = Request::post(path).header(header::HOST, HOST).header(header::COOKIE, cookie());
    let request = request.header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    request.body(Body::from(body)).unwrap()
}

async fn answered(router: Router, request: Request<Body>) -> (StatusCode, String) {
    let response = router.oneshot(request).await.unwrap();
    let status = response.status();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    (status, String::from_utf8_lossy(&bytes).into_owned())
}

#[test]
fn a_hundred_reads_at_once_are_all_answered() {
    let browser = Browser::before(&["tide-01", "oar-02"]);
    let router = browser.router.clone();
    let paths = ["/", "/client/tide-01", "/client/oar-02", "/client/tide-01/profile", "/new"];
    let answers = runtime().block_on(async {
        let reads = (0..100).map(|number| {
            let (router, path) = (router.clone(), paths[number % paths.len()]);
            tokio::spawn(answered(router, looked(path)))
        });
        let reads: Vec<_> = reads.collect();
        let mut answers = Vec::new();
        for read in reads {
            answers.push(read.await.unwrap());
        }
        answers
    });
    assert_eq!(answers.len(), 100);
    for (status, body) in &answers {
        assert!(*status == StatusCode::OK && body.ends_with("</html>"), "{status}: {body:.200}");
    }
    // The same address, the same page: nobody saw another's.
    assert!((0..5).all(|first| (first..100).step_by(5).all(|one| answers[one] == answers[first])));
}

/// Of two wishes for one client the newest is shown, and the other is on top of nothing.
#[test]
fn the_newest_wish_wins() {
    let browser = Browser::before(&["tide-01"]);
    let router = browser.router.clone();
    let page = runtime().block_on(async {
        answered(router.clone(), looked("/client/tide-01")).await;
        let first = sent("/client/tide-01/try", &[("minutes.mon@18:30", "40")]);
        let first = tokio::spawn(answered(router.clone(), first));
        // Until its search is under way on another thread.
        tokio::task::yield_now().await;
        let second = sent("/client/tide-01/try", &[("quick", "1"), ("minutes.fri@18:30", "45")]);
        let (status, _) = answered(router.clone(), second).await;
        assert_eq!(status, StatusCode::SEE_OTHER);
        assert_eq!(first.await.unwrap().0, StatusCode::SEE_OTHER);
        answered(router.clone(), looked("/client/tide-01")).await.1
    });
    assert!(page.contains("Tried: <bdi>Friday 45 min</bdi>"), "{page:.2000}");
    assert!(!page.contains("Monday 40 min") && !page.contains("Before that:"));
}

/// What is asked ends where the browser goes away in the middle of it, and nothing of it stays. `folder` makes a folder, and
/// `ask` is a method, a path and a form, asked after the page of `first` where there is one. Work is counted in processor time,
/// whatever else the machine does.
#[cfg(target_os = "linux")]
fn stops(folder: impl Fn() -> Browser, first: Option<&str>, ask: [&str; 3], page: &str) {
    let begun = |folder: &Browser| {
        let served = Served::of(folder.folder.path());
        let before = first.map(|first| served.shown(first));
        served.rests();
        (before, served.ticks(), served)
    };
    let [method, path, form] = ask;
    let whole_folder = folder();
    let (_, begin, served) = begun(&whole_folder);
    served.ask(method, path, form);
    served.rests();
    let (whole, answer) = (served.ticks() - begin, served.shown(page));
    let left_folder = folder();
    let (before, begin, served) = begun(&left_folder);
    let gone = served.asking(method, path, form);
    while served.ticks() - begin < whole / 3 {
        let_others_work();
    }
    drop(gone);
    served.rests();
    let left = served.ticks() - begin;
    assert!(left < whole * 2 / 3, "{path}: {left} ticks of {whole}");
    assert_eq!(served.shown(page), before.unwrap_or(answer));
}

/// Who looks without end takes a core, and the program sees late that the browser has gone.
#[cfg(target_os = "linux")]
fn let_others_work() {
    std::thread::sleep(std::time::Duration::from_micros(300));
}

#[cfg(target_os = "linux")]
#[test]
fn work_stops_when_the_browser_goes_away() {
    let folder = || Browser::before(&["sweep-10"]);
    let page = "/client/sweep-10";
    stops(folder, None, ["GET", page, ""], page);
    stops(folder, Some(page), ["POST", "/client/sweep-10/try", "seed=7"], page);
    let list = "/client/sweep-10/instead/back-squat";
    stops(folder, None, ["GET", list, ""], list);
}

/// Ten minutes hold no six lifts. What collides, and the ways out, take longer to find than a week.
#[cfg(target_os = "linux")]
#[test]
fn the_search_for_what_collides_stops_as_well() {
    let musts =
        ["back-squat", "deadlift", "bench-press", "barbell-row", "overhead-press", "hip-thrust"];
    let tight = || {
        let browser = Browser::before(&["tide-01"]);
        let text = browser.text("tide-01.yaml").replace("minutes: 60", "minutes: 10");
        let must = format!("{text}exercises: {{must: [{}]}}\n", musts.join(", "));
        std::fs::write(browser.path("tide-01.yaml"), must).unwrap();
        browser
    };
    let page = "/client/tide-01";
    assert!(tight().get(page).body.contains("name=\"way\""));
    stops(tight, None, ["GET", page, ""], page);
    let days = ["mon", "wed", "fri"].map(|day| format!("&minutes.{day}%4018%3A30=10"));
    let wish = musts.map(|id| format!("&must={id}")).concat() + &days.concat();
    let folder = || Browser::before(&["tide-01"]);
    stops(folder, Some(page), ["POST", "/client/tide-01/try", wish.trim_start_matches('&')], page);
}

/// A folder that takes no file, as a full disk does: what was in hand stays there, the sentence says why, and no part of
/// a file is left.
#[cfg(unix)]
#[test]
fn a_disk_that_is_full_is_a_sentence_and_loses_nothing() {
    let whole = Browser::before(&["tide-01"]);
    let before = whole.text("tide-01.yaml");
    let served = Served::where_no_file_may_grow(whole.folder.path());
    served.ask("GET", "/client/tide-01", "");
    let tried = "minutes.fri%4018%3A30=45";
    served.ask("POST", "/client/tide-01/try", tried);
    served.ask("POST", "/client/tide-01/keep", "");
    let page = served.ask("GET", "/client/tide-01", "");
    assert!(page.contains("the file cannot be written"), "{page:.3000}");
    assert!(page.contains("Tried: <bdi>Friday 45 min</bdi>"));
    let form = "client=punt-30&training_status=novice&goal=general-fitness&place=boathouse\
                &sessions.0.day=tue&sessions.0.minutes=45&birth_year=1991";
    let page = served.ask("POST", "/new", form);
    assert!(page.contains("the file cannot be written") && page.contains("value=\"1991\""));
    let names = std::fs::read_dir(whole.folder.path()).unwrap();
    let mut names: Vec<_> = names.map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(
        (names, whole.text("tide-01.yaml")),
        (vec!["places".into(), "tide-01.yaml".into()], before)
    );
}

/// The same for the book: nothing of the session is lost, and the next page has what was typed.
#[cfg(all(unix, feature = "book"))]
#[test]
fn a_session_that_finds_no_room_on_the_disk_keeps_what_was_typed() {
    let whole = Browser::before(&["tide-01"]);
    whole.post("/client/tide-01/keep", &[]);
    let plan = whole.get("/client/tide-01/write?week=1&day=mon").body;
    let read = plan.split("name=\"plan\" value=\"").nth(1).unwrap().split('"').next().unwrap();
    let form = format!(
        "plan={read}&stood=&week=1&day=mon&date=2027-01-04&load.0.1=14&amount.0.1=9&done.0.1=1&note=slept+badly"
    );
    let served = Served::where_no_file_may_grow(whole.folder.path());
    let page = served.ask("POST", "/client/tide-01/write", &form);
    assert!(page.contains("Nothing was written yet") && page.contains("E60"), "{page:.3000}");
    assert!(page.contains("value=\"slept badly\"") || page.contains("slept badly</textarea>"));
    drop(served);
    assert!(!whole.get("/client/tide-01/review").body.contains("14 9"));
    let answer = Served::of(whole.folder.path()).ask("POST", "/client/tide-01/write", &form);
    assert!(answer.starts_with("HTTP/1.1 303"), "{answer:.1000}");
    assert!(whole.get("/client/tide-01/review").body.contains("14 9"));
}

/// A day's work at a desk: no page fails, and memory does not grow. Set `WEEKWRIGHT_LONG` to ask 20 000 times.
#[cfg(target_os = "linux")]
#[allow(clippy::print_stdout, reason = "the figure is asked for with `--nocapture`")]
#[test]
fn memory_does_not_grow_with_requests() {
    let whole = Browser::before(&["tide-01", "oar-02", "scull-07"]);
    let served = Served::that_gives_back(whole.folder.path());
    let times = if std::env::var_os("WEEKWRIGHT_LONG").is_some() { 20_000 } else { 600 };
    let clients = ["tide-01", "oar-02", "scull-07"];
    // The mean of many looks: one falls before a wish or after it.
    let round = |from: usize, to: usize| {
        let mut looks = Vec::new();
        for number in from..to {
            let client = clients[number % clients.len()];
            match number % 200 {
                // A wish now and then, and taken back.
                0 => {
                    served.ask(
                        "POST",
                        &format!("/client/{client}/try"),
                        &format!("quick=1&seed={number}"),
                    );
                    served.ask("POST", &format!("/client/{client}/undo"), "");
                }
                odd if odd % 3 == 0 => drop(served.ask("GET", "/", "")),
                odd if odd % 7 == 0 => {
                    drop(served.ask("GET", &format!("/client/{client}/profile"), ""));
                }
                _ => drop(served.ask("GET", &format!("/client/{client}"), "")),
            }
            if number % 10 == 9 {
                looks.push(served.kilobytes("VmRSS:"));
            }
        }
        looks.iter().sum::<u64>() / looks.len() as u64
    };
    // Each thread of the program keeps some memory of its first work.
    let begun = times / 4;
    round(0, begun);
    let middle = begun + (times - begun) / 2;
    let (first, last) = (round(begun, middle), round(middle, times));
    let most = served.kilobytes("VmHWM:");
    println!("{first} kB up to request {middle}, {last} kB up to {times}, {most} kB at most");
    assert!(
        most < 80_000 && last < first + first / if times > 10_000 { 20 } else { 6 },
        "{first} kB, then {last} kB, {most} kB at most"
    );
}

/// The program itself before a folder.
struct Served {
    program: std::process::Child,
    address: String,
    token: String,
}

impl Served {
    fn of(folder: &std::path::Path) -> Served {
        Served::by("exec \"$0\" open \"$1\" --no-browser", folder)
    }

    /// The system refuses every byte that a file would grow by (POSIX `ulimit -f`), as it does where no room is left.
    fn where_no_file_may_grow(folder: &std::path::Path) -> Served {
        Served::by("trap '' XFSZ; ulimit -f 0; exec \"$0\" open \"$1\" --no-browser", folder)
    }

    /// The C library (glibc, mallopt(3)) hands what is free back to the system at once. By itself it keeps some megabytes
    /// more or less from wish to wish, in which growth would hide.
    fn that_gives_back(folder: &std::path::Path) -> Served {
        let keep_nothing = "MALLOC_MMAP_THRESHOLD_=8192 MALLOC_TRIM_THRESHOLD_=4096";
        Served::by(&format!("{keep_nothing} exec \"$0\" open \"$1\" --no-browser"), folder)
    }

    fn by(script: &str, folder: &std::path::Path) -> Served {
        use std::io::BufRead as _;
        let mut command = std::process::Command::new("sh");
        command.args(["-c", script, env!("CARGO_BIN_EXE_weekwright")]).arg(folder);
        let command =
            command.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::null());
        let mut program = command.spawn().unwrap();
        let mut line = String::new();
        std::io::BufReader::new(program.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let (address, token) = line.trim().split_once("/?token=").unwrap();
        let address = address.trim_start_matches("http://").to_owned();
        Served { program, address, token: token.to_owned() }
    }

    /// Sends a request over the wire (RFC 9112). A form gets its token.
    fn asking(&self, method: &str, path: &str, form: &str) -> std::net::TcpStream {
        use std::io::Write as _;
        let port = self.address.rsplit(':').next().unwrap();
        let body =
            if method == "POST" { format!("token={}&{form}", self.token) } else { String::new() };
        let request = format!(
            "{method} {path} HTTP/1.1\r\nHost: {}\r\nCookie: weekwright-{port}={}\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            self.address,
            self.token,
            body.len()
        );
        let mut stream = std::net::TcpStream::connect(&self.address).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        stream
    }

    /// The answer to a request.
    fn ask(&self, method: &str, path: &str, form: &str) -> String {
        use std::io::Read as _;
        let mut answer = Vec::new();
        self.asking(method, path, form).read_to_end(&mut answer).unwrap();
        let answer = String::from_utf8_lossy(&answer).into_owned();
        let status = answer.split(' ').nth(1).unwrap_or_default();
        assert!(["200", "303", "409"].contains(&status), "{method} {path}: {answer:.500}");
        answer
    }

    /// A page without its head and the secret of this start.
    #[cfg(target_os = "linux")]
    fn shown(&self, path: &str) -> String {
        let answer = self.ask("GET", path, "");
        let (_, body) = answer.split_once("\r\n\r\n").unwrap();
        body.replace(&self.token, "token")
    }

    /// Processor time that the program has used, in ticks of the system (proc(5): `utime` and `stime`).
    #[cfg(target_os = "linux")]
    fn ticks(&self) -> u64 {
        let stat = std::fs::read_to_string(format!("/proc/{}/stat", self.program.id())).unwrap();
        let (_, fields) = stat.rsplit_once(')').unwrap();
        let times = fields.split_whitespace().skip(11).take(2);
        times.map(|ticks| ticks.parse::<u64>().unwrap()).sum()
    }

    /// Waits until no thread of the program has anything to do, at many looks in a row.
    #[cfg(target_os = "linux")]
    fn rests(&self) {
        let threads = format!("/proc/{}/task", self.program.id());
        let sleeps = |thread: std::fs::DirEntry| {
            let stat = std::fs::read_to_string(thread.path().join("stat"));
            stat.map_or(true, |stat| stat.rsplit_once(") ").unwrap().1.starts_with('S'))
        };
        let mut looks = 0;
        while looks < 100 {
            let all = std::fs::read_dir(&threads).unwrap().all(|thread| sleeps(thread.unwrap()));
            looks = if all { looks + 1 } else { 0 };
            let_others_work();
        }
    }

    /// Memory that the program holds, or held at most.
    #[cfg(target_os = "linux")]
    fn kilobytes(&self, which: &str) -> u64 {
        let status =
            std::fs::read_to_string(format!("/proc/{}/status", self.program.id())).unwrap();
        let line = status.lines().find_map(|line| line.strip_prefix(which)).unwrap();
        line.trim().trim_end_matches(" kB").parse().unwrap()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}
