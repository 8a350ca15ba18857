-- The book, as its first version has it. Loads in grams, dates as 2027-01-11.
PRAGMA application_id = 0x57656b77;

CREATE TABLE client (
    id INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE CHECK (code <> ''),
    archived_on TEXT
) STRICT;

-- Each plan as the file that was handed over. Plans of one course have the same `course`.
CREATE TABLE plan (
    id INTEGER PRIMARY KEY,
    client_id INTEGER NOT NULL REFERENCES client ON DELETE CASCADE,
    sha256 TEXT NOT NULL,
    name TEXT NOT NULL,
    filed_on TEXT NOT NULL,
    first_day TEXT,
    last_day TEXT,
    course TEXT NOT NULL,
    text TEXT NOT NULL,
    UNIQUE (client_id, sha256)
) STRICT;

-- `part` tells sessions of one day apart: the plan's week and day.
CREATE TABLE session (
    id INTEGER PRIMARY KEY,
    client_id INTEGER NOT NULL REFERENCES client ON DELETE CASCADE,
    plan_id INTEGER REFERENCES plan ON DELETE SET NULL,
    done_on TEXT NOT NULL,
    part TEXT NOT NULL,
    week INTEGER,
    day TEXT,
    at TEXT,
    is_light INTEGER NOT NULL CHECK (is_light IN (0, 1)),
    note TEXT NOT NULL,
    UNIQUE (client_id, done_on, part)
) STRICT;
CREATE INDEX session_plan ON session (plan_id);

-- An exercise of a session; one that was left out has no sets. `asked_` is what the plan asked for.
CREATE TABLE item (
    id INTEGER PRIMARY KEY,
    session_id INTEGER NOT NULL REFERENCES session ON DELETE CASCADE,
    place INTEGER NOT NULL,
    exercise TEXT NOT NULL,
    asked_sets INTEGER,
    asked_amount INTEGER,
    asked_load_g INTEGER,
    asked_rir INTEGER,
    note TEXT NOT NULL,
    UNIQUE (session_id, place)
) STRICT;

-- `load_g` is what was lifted, or with `help` what was taken off the body; a band has its name.
CREATE TABLE set_done (
    item_id INTEGER NOT NULL REFERENCES item ON DELETE CASCADE,
    number INTEGER NOT NULL,
    load_kind TEXT NOT NULL CHECK (load_kind IN ('body', 'load', 'help', 'band')),
    load_g INTEGER,
    band TEXT,
    amount INTEGER NOT NULL CHECK (amount >= 0),
    measure TEXT NOT NULL CHECK (measure IN ('reps', 'seconds', 'meters', 'calories')),
    right_amount INTEGER,
    effort_tenths INTEGER,
    effort_scale TEXT CHECK (effort_scale IN ('reserve', 'effort-10', 'borg-20')),
    PRIMARY KEY (item_id, number)
) STRICT, WITHOUT ROWID;

-- `value` is in thousandths of the kind's unit: kg, cm, mm, percent.
CREATE TABLE measure (
    id INTEGER PRIMARY KEY,
    client_id INTEGER NOT NULL REFERENCES client ON DELETE CASCADE,
    taken_on TEXT NOT NULL,
    kind TEXT NOT NULL,
    site TEXT NOT NULL,
    method TEXT NOT NULL,
    value INTEGER NOT NULL,
    UNIQUE (client_id, taken_on, kind, site, method)
) STRICT;

CREATE TABLE remark (
    id INTEGER PRIMARY KEY,
    client_id INTEGER NOT NULL REFERENCES client ON DELETE CASCADE,
    made_on TEXT NOT NULL,
    text TEXT NOT NULL
) STRICT;
CREATE INDEX remark_client ON remark (client_id, made_on);
