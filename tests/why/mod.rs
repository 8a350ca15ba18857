//! Conflicts, ways out, shortfalls, rework: checked by planning again.

mod asks;
mod by_hand;
mod conflicts;
mod rework;
mod stories;
