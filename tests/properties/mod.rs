//! What holds for every profile, on random ones: 60 with a fixed seed, more with `WEEKWRIGHT_CASES`.

mod fixed;
mod planned;
mod profiles;
mod run;
mod screened;
mod seeds;
mod weeks;
