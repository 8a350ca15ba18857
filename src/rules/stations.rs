//! `stations`: a session stays at few stations, four at most.
//!
//! Free floor space is one station whatever is held. Common practice.

use std::collections::{BTreeMap, BTreeSet};

use super::order::{Rank, group_rank};
use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::{STATION, STATION_OVER};
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::candidate::Station;
use crate::request::eligibility::kit_for;
use crate::week::{Item, Session, Week};
use crate::words::Pattern;

/// So many stations are no wandering.
const FEW: f64 = 3.0;

/// Stations by day.
pub(super) struct Stations;

impl Stations {
    /// Items of one station and one kind of work stand together. Free floor space is no station to come back to.
    fn left_and_come_back(&self, request: &Request, session: &Session) -> Vec<Finding> {
        let stops: Vec<(Rank, BTreeSet<Station>, String)> = session
            .groups
            .iter()
            .filter(|group| group.is_work())
            .map(|group| {
                let stations = group.items.iter().filter_map(|item| station(request, item));
                let ids: Vec<&str> =
                    group.items.iter().map(|item| item.entry.id.as_str()).collect();
                (group_rank(group), stations.collect(), ids.join(" with "))
            })
            .collect();
        let mut findings = Vec::new();
        for (place, (rank, here, ids)) in stops.iter().enumerate().skip(2) {
            let (before, just_before) = (&stops[..place - 1], &stops[place - 1].1);
            let again = here.iter().any(|station| {
                let was_here = |stop: &(Rank, BTreeSet<Station>, String)| {
                    stop.0 == *rank && stop.1.contains(station)
                };
                *station != Station::Floor
                    && !just_before.contains(station)
                    && before.iter().any(was_here)
            });
            if again {
                let place = format!("{}, {ids}", session.label);
                let wanted = "what is done at one station together";
                findings.push(
                    Finding::broken(self.id(), place, wanted, "coming back to it").as_remark(),
                );
            }
        }
        findings
    }
}

/// Where an item is done.
fn station(request: &Request, item: &Item) -> Option<Station> {
    kit_for(&request.profile, &item.entry).ok().map(|kit| Station::of(&kit))
}

impl Rule for Stations {
    fn id(&self) -> &'static str {
        "stations"
    }
    fn summary(&self) -> &'static str {
        "a session stays at few stations, four at most, and comes back to none"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let mut used: BTreeMap<Station, BTreeMap<Pattern, Vec<Term>>> = BTreeMap::new();
            for pick in weekly.on(day) {
                let candidate = weekly.candidate(pick);
                let here = used.entry(candidate.station).or_default();
                here.entry(candidate.pattern).or_default().push((pick.chosen, 1.0));
            }
            let mut count: Vec<Term> = Vec::new();
            for (place, (_, patterns)) in used.into_iter().enumerate() {
                let here = weekly.model.least_whole(format!("station_{place}_{label}"), 1);
                for (_, mut row) in patterns {
                    // By convention a day has at most two exercises of a pattern, so one row does for all of them.
                    let most = if row.len() > 1 { 2.0 } else { 1.0 };
                    row.push((here, -most));
                    weekly.model.convention(self.id(), label.clone(), row, Op::Le, 0.0);
                }
                count.push((here, 1.0));
            }
            let wish = at_most(count.clone(), FEW).missed_by(20.0);
            weekly.miss(self.id(), format!("{label}_few"), Tier::View, wish, STATION);
            let most = f64::from(weekly.request.figures.stations);
            let wish = at_most(count, most).missed_by(20.0);
            weekly.miss(self.id(), label, Tier::View, wish, STATION_OVER);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let most = request.figures.stations as usize;
        let mut findings = Vec::new();
        for session in &week.sessions {
            findings.extend(self.left_and_come_back(request, session));
            let stations: BTreeSet<Station> =
                session.work().filter_map(|item| station(request, item)).collect();
            if stations.len() > most {
                let wanted = format!("{most} stations at most");
                let got = stations.len().to_string();
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
        }
        findings
    }
}
