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
  weekwright plan profile.yaml --best-effort    if wishes collide, the cheapest way";

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

/// Of `sheet`.
pub const SHEET: &str = "\
Examples:
  weekwright sheet tide-01.plan.yaml -o tide-01.html
  weekwright sheet tide-01.plan.yaml --as html --for client --paper letter -o -
  weekwright sheet tide-01.plan.yaml -o tide-01.ics
  weekwright sheet tide-01.plan.yaml --week 3
  weekwright sheet plans -o pages                    a page of every plan
  weekwright sheet plans --date 2027-01-04 -o pages  the cards of one day";

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
