//! `pairs`: pairs go together: opposite or unrelated muscles, equal sets, one bar or large machine at most, hands not twice.
//!
//! Antagonist pairs save about a third of the time (Burke et al. 2024 preprint; Robbins et al. 2010). The
//! weekly model counts pairs by class, so that a matching always exists.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::pairing::PairClass;
use crate::model::points::{
    ALONE, ALONE_SMALL, ALONE_UNLIKED, LIFT_IN_TURN, PAIR, PAIR_LIKED, PAIR_MIXED, PAIR_MIXED_LESS,
    PAIR_SMALL,
};
use crate::model::tier::Tier;
use crate::request::Request;
use crate::request::candidate::{Station, grade};
use crate::request::eligibility::kit_for;
use crate::week::{Item, Week};
use crate::words::{Goal, Side, Stress, Supersets};

/// What two exercises of a pair share.
pub(super) struct Pairs;

impl Rule for Pairs {
    fn id(&self) -> &'static str {
        "pairs"
    }
    fn summary(&self) -> &'static str {
        "pairs go together: opposite or unrelated muscles, equal sets, one bar or large machine at most, hands not twice"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let prefers = weekly.request.profile.supersets == Supersets::Prefer;
        let goal = weekly.request.profile.goal;
        // Who is to lose fat or to last keeps moving.
        let moves = prefers || matches!(goal, Goal::FatLoss | Goal::Endurance);
        let mixed = match goal {
            Goal::Hypertrophy | Goal::FatLoss => PAIR_MIXED_LESS,
            _ => PAIR_MIXED,
        };
        for pair in weekly.pairs.clone() {
            let label = weekly.request.days[pair.day].label();
            // Where even the lead goes in turn, so does the rest.
            let liked = prefers || !weekly.request.leads_alone(pair.day);
            let small = [pair.classes.0, pair.classes.1].map(PairClass::is_small);
            let points = match (liked, small) {
                (true, [one, other]) if one != other => PAIR_LIKED + mixed - PAIR,
                (true, _) => PAIR_LIKED,
                (false, [true, true]) => PAIR_SMALL,
                (false, [false, false]) => PAIR,
                (false, _) => mixed,
            };
            weekly.count(self.id(), label, Tier::View, pair.count, points);
        }
        for pick in weekly.picks.clone() {
            let stands = weekly.request.leads_alone(pick.day) && !prefers;
            let alone = stands && weekly.request.wants_its_rest(weekly.candidate(&pick));
            let name = weekly.name_of(&pick);
            let turns = moves && !weekly.request.leads_alone(pick.day);
            let small = !turns && !weekly.candidate(&pick).is_compound();
            let cost = match prefers {
                _ if small => ALONE_SMALL,
                true => ALONE_UNLIKED,
                false => ALONE,
            };
            let goes = small || !alone && turns;
            if goes && pick.paired().next().is_some() {
                weekly.count(self.id(), name.clone(), Tier::View, pick.chosen, cost);
            }
            for paired in pick.paired() {
                let points = if alone { LIFT_IN_TURN } else { -cost };
                if alone || goes {
                    weekly.count(self.id(), name.clone(), Tier::View, paired, points);
                }
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            for group in
                session.groups.iter().filter(|group| group.is_work() && group.items.len() > 1)
            {
                let ids: Vec<_> = group.items.iter().map(|item| item.entry.id.as_str()).collect();
                let place = format!("{}, {}", session.label, ids.join(" with "));
                if request.profile.supersets == Supersets::Never {
                    findings.push(Finding::broken(self.id(), place.clone(), "no pairs", "a pair"));
                }
                let sets = group.items.iter().map(|item| item.sets);
                if sets.clone().min() != sets.max() {
                    let wanted = "as many sets of each";
                    let finding =
                        Finding::broken(self.id(), place.clone(), wanted, "an uneven pair");
                    findings.push(finding.as_remark());
                }
                for (index, one) in group.items.iter().enumerate() {
                    for other in &group.items[index + 1..] {
                        findings.extend(clash(request, one, other).map(|(wanted, got)| {
                            Finding::broken(self.id(), place.clone(), wanted, got).as_remark()
                        }));
                    }
                }
            }
        }
        findings
    }
}

/// What keeps two exercises from going together.
fn clash(request: &Request, one: &Item, other: &Item) -> Option<(&'static str, String)> {
    let shared = one.entry.direct.iter().find(|muscle| other.entry.direct.contains(muscle));
    if let Some(muscle) = shared {
        return Some(("different muscles", format!("both train {}", muscle.name())));
    }
    let legs = |item: &Item| item.is_compound() && item.side() == Some(Side::Legs);
    if legs(one) && legs(other) {
        return Some(("one leg lift at most", "two".to_owned()));
    }
    let station =
        |item: &Item| Station::of(&kit_for(&request.profile, &item.entry).unwrap_or_default());
    let bar = |item: &Item| station(item) == Station::Bar;
    let machine = |item: &Item| item.is_compound() && matches!(station(item), Station::Fixed(_));
    // A press and a pull go from stack to stack; a machine for the legs is set up for one, unless the client likes pairs.
    let moves = request.profile.supersets == Supersets::Prefer;
    let set_up = |item: &Item| machine(item) && legs(item) && !moves;
    let large = |item: &Item| bar(item) || machine(item);
    let bars = bar(one) && bar(other);
    if bars || (set_up(one) && large(other)) || (set_up(other) && large(one)) {
        return Some(("one bar, rack or large machine at most", "two".to_owned()));
    }
    let grips = |item: &Item| grade(&item.entry, Stress::Grip).is_some();
    (grips(one) && grips(other)).then(|| ("one exercise that tires the hands", "two".to_owned()))
}
