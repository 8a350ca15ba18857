//! Conflicts, ways out, shortfalls, rework: checked by planning again.

mod conflicts;
mod rework;
mod stories;
