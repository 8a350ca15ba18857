//! Why an exercise is out before any planning.

use std::fmt;

use super::screening::Reported;
use crate::words::{Kit, Stress};

/// The first reason that keeps an exercise out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Barred {
    /// None of its sets of kit is there; this one lacks least.
    Kit(Vec<Kit>),
    /// A limit keeps this stress out.
    Limit(Stress),
    /// What the client reported before training keeps it out.
    Reported(Reported),
    /// On the client's never list.
    Never,
    /// Above the client's level.
    Level(u8),
    /// It trains nothing that this client has a wish for.
    NoPurpose,
    /// A coach takes another one first, which is usable.
    PassedOver(String),
    /// A variant of a lift on the client's never list.
    VariantOfNever(String),
}

impl fmt::Display for Barred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Barred::Kit(missing) => {
                let missing: Vec<_> = missing.iter().map(|kit| kit.id()).collect();
                write!(f, "the place has no {}", missing.join(", no "))
            }
            Barred::Limit(stress) => write!(f, "the limit `{stress}` keeps it out"),
            Barred::Reported(reported) => write!(f, "{reported}"),
            Barred::Never => f.write_str("it is on the never list"),
            Barred::Level(level) => write!(f, "its level {level} is above the client's"),
            Barred::PassedOver(better) => {
                write!(
                    f,
                    "`{better}` does the same job and comes first; name it under `prefer` to bring it in"
                )
            }
            Barred::VariantOfNever(parent) => {
                write!(f, "it is a variant of `{parent}`, which is on the never list")
            }
            Barred::NoPurpose => f.write_str("it trains nothing that this week has a target for"),
        }
    }
}
