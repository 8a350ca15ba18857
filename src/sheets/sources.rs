//! What the numbers of a plan rest on, in words a coach can pass on.

use serde::Serialize;

/// A statement and where it comes from; an empty origin marks common practice.
#[derive(Debug, Clone, Copy, Serialize)]
pub(crate) struct Source {
    /// What it says.
    pub says: &'static str,
    /// Who says it.
    pub from: &'static str,
}

/// The sources that the coach's page lists.
pub(crate) const SOURCES: &[Source] = &[
    Source {
        says: "A direct muscle counts one set, an indirect one half: the best fit of three ways to count, not a constant of the body.",
        from: "Pelland et al. 2025, Sports Medicine, doi:10.1007/s40279-025-02344-w",
    },
    Source {
        says: "About four weekly sets are the least that shows, about ten the usual aim for size; more gives less and less.",
        from: "Iversen et al. 2021, Sports Medicine 51:2079-2095; Schoenfeld, Ogborn and Krieger 2017, Journal of Sports Sciences 35:1073-1082",
    },
    Source {
        says: "Eleven sets for a muscle in one session: where more is no longer seen to help, not a line of danger.",
        from: "Remmert et al. 2025, preprint, SportRxiv 537",
    },
    Source {
        says: "Two days between hard sessions for a muscle are a convention; trials with consecutive days show like results.",
        from: "summaries of the ACSM guidelines",
    },
    Source {
        says: "Rests over a minute for size, over two for strength in trained people.",
        from: "Singer et al. 2024, Frontiers in Sports and Active Living 6:1429789; Grgic et al. 2018, Sports Medicine 48:137-151",
    },
    Source {
        says: "Pairs of exercises save about a third of the time at like results.",
        from: "Burke et al. 2024, preprint, SportRxiv 419",
    },
    Source {
        says: "More load once two more repetitions than asked are done in the last set, twice running.",
        from: "Graves and Baechle, in NSCA Essentials of Strength Training and Conditioning",
    },
    Source {
        says: "Beginners misjudge their reserve, so their sheets say it in words.",
        from: "after Zourdos et al. 2016; using words is our choice",
    },
    Source {
        says: "Order, pull to push, knee to hip, number of exercises and minutes kept: common practice, open to change.",
        from: "",
    },
];
