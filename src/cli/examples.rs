//! Examples under each command's help. They keep to 78 columns, so that no terminal breaks them.

/// Of the program.
pub const ALL: &str = "\
Examples:
  weekwright intake                              ask a new client, write a profile
  weekwright plan profiles/tide-01.yaml          show the plan
  weekwright plan profiles/tide-01.yaml -o tide-01.plan.yaml
  weekwright sheet tide-01.plan.yaml -o tide-01.html

`weekwright COMMAND --help` tells more of a command. Exit codes: 0 done, 2 input
or usage wrong, 3 no week meets the hard rules, 4 a hard rule broken, 1 else.";

/// Of `plan`.
pub const PLAN: &str = "\
Examples:
  weekwright plan profiles/tide-01.yaml
  weekwright plan profiles/tide-01.yaml --seed 3    another week, as good
  weekwright plan profiles/tide-01.yaml -o tide-01.plan.yaml
  weekwright plan - < profiles/tide-01.yaml
  weekwright plan profiles -o plans                  all of a folder
  weekwright plan profiles/tide-01.yaml --sources    what its numbers rest on
  weekwright plan profile.yaml --best-effort    if wishes collide, the cheapest way
  weekwright plan profiles/tide-01.yaml --book weekwright.sqlite    the next block";

/// Of `rework`.
pub const REWORK: &str = "\
Examples:
  weekwright rework tide-01.plan.yaml --without barbell --format text
  weekwright rework tide-01.plan.yaml --without barbell --week 2 --day wed -o new.yaml
  weekwright rework tide-01.plan.yaml --drop-day wed --minutes fri=75 -o new.yaml
  weekwright rework tide-01.plan.yaml --profile profiles/tide-01.yaml -o new.yaml

What changed is told on standard error. Only what must change does.";

/// Of `why`.
pub const WHY: &str = "\
Examples:
  weekwright why tide-01.plan.yaml                     the week in a page
  weekwright why tide-01.plan.yaml goblet-squat        why it is in, or out
  weekwright why tide-01.plan.yaml goblet-squat --instead
  weekwright why tide-01.plan.yaml --muscle hamstrings";

/// Of `audit`.
pub const AUDIT: &str = "\
Examples:
  weekwright audit tide-01.plan.yaml
  weekwright audit tide-01.plan.yaml --format json

Exit code 4 means that a hard rule is broken; wishes that fall short exit 0.";

/// Of `log`.
#[cfg(feature = "book")]
pub const LOG: &str = "\
Examples:
  weekwright log tide-01.plan.yaml --week 2 --day mon    go down the card
  weekwright log tide-01.plan.yaml --date 2027-01-11 \\
      \"back-squat 42.5 8 8 7 r2; plank 45s 40s; pull-up bw 6 5\"
  weekwright log tide-01 --from monday.csv

A line is the exercise, its load and each set. `r2`: two left in reserve, `@8`: an
effort of 8 in 10, `8/7`: left and right, `-`: left out, `ok`: as planned.";

/// Of `measure`.
#[cfg(feature = "book")]
pub const MEASURE: &str = "\
Examples:
  weekwright measure tide-01 --mass 64.2 --waist 81 --site waist=navel
  weekwright measure tide-01 --date 2027-02-01 --neck 33 --waist 80 --hip 101
  weekwright measure tide-01 --skinfold triceps=18 --skinfold thigh=24 \\
      --skinfold suprailiac=15 --method calliper

Estimates come with their published error; they are no diagnosis.";

/// Of `next`.
#[cfg(feature = "book")]
pub const NEXT: &str = "\
Examples:
  weekwright next tide-01.plan.yaml -o tide-01.week-3.yaml
  weekwright next tide-01.plan.yaml --format text

What changed, and why, is told on standard error. No plan file is replaced by it.";

/// Of `review`.
#[cfg(feature = "book")]
pub const REVIEW: &str = "\
Examples:
  weekwright review tide-01
  weekwright review tide-01 --from 2027-01-04 --to 2027-02-14
  weekwright review tide-01 --format json

It proposes and changes nothing: each proposal comes with the command for it.";

/// Of `book`.
#[cfg(feature = "book")]
pub const BOOK: &str = "\
Examples:
  weekwright book check
  weekwright book backup backups            into a new folder of the day
  weekwright book export tables             and `import tables` reads them back
  weekwright book archive tide-01           `--back` undoes it
  weekwright book forget tide-01            and its space is given back";

/// Of `sheet`.
pub const SHEET: &str = "\
Examples:
  weekwright sheet tide-01.plan.yaml -o tide-01.html
  weekwright sheet tide-01.plan.yaml --as html --for client --paper letter -o -
  weekwright sheet tide-01.plan.yaml -o tide-01.ics
  weekwright sheet tide-01.plan.yaml --week 3
  weekwright sheet plans -o pages                    a page of every plan
  weekwright sheet plans --date 2027-01-04 -o pages  the cards of one day
  weekwright sheet --progress tide-01 -o tide-01.progress.html";

/// Of `catalog`.
pub const CATALOG: &str = "\
Examples:
  weekwright catalog list --pattern hinge --kit dumbbells,bench
  weekwright catalog list --muscle glutes --limit spinal-compression --level 1
  weekwright catalog find one leg dumbbells
  weekwright catalog show goblet-squat
  weekwright catalog lint --catalog my-exercises";

/// Of `intake`.
pub const INTAKE: &str = "\
Examples:
  weekwright intake
  weekwright intake -o profiles/tide-07.yaml
  weekwright intake profiles/tide-07.yaml            change an existing profile

It needs a terminal. Without one, copy a profile of `profiles/` and change it.";

/// Of `open`.
#[cfg(feature = "page")]
pub const OPEN: &str = "\
Examples:
  weekwright open profiles
  weekwright open profiles --port 8700 --no-browser

It answers this machine alone, at the address that it prints. Ctrl-C ends it.";

/// Of `rota`.
pub const ROTA: &str = "\
Examples:
  weekwright rota plans --place boathouse --date 2027-01-11
  weekwright rota tide-01.plan.yaml oar-02.plan.yaml -o week-2
  weekwright rota profiles --place boathouse --slack 15 -o week-1
  weekwright rota plans --per-coach 4 -o rota.html    the page for the wall

What changes is a date of its own in each plan. Exit code 3: it is proven that
somebody must come at another hour; who, and what would help, is told.";

/// Of `roster`.
pub const ROSTER: &str = "\
Examples:
  weekwright roster plans
  weekwright roster plans --date 2027-02-01 -o roster.html
  weekwright roster plans --as csv -o roster.csv";

/// Of `schema`.
pub const SCHEMA: &str = "\
Examples:
  weekwright schema profile
  weekwright schema plan -o plan.schema.json";

/// Of `manual`.
pub const MANUAL: &str = "\
Examples:
  weekwright manual -o weekwright.1
  weekwright manual plan -o weekwright-plan.1
  man ./weekwright.1";

/// Of `completions`.
pub const COMPLETIONS: &str = "\
Examples:
  weekwright completions bash -o weekwright.bash
  weekwright completions zsh -o _weekwright
  source <(weekwright completions bash)             for this shell only";
