//! Other ways to do a session that its plan's own audit lets pass: another order, other exercises, or both.

use super::orders::{EVERY_ORDER, Held};
use super::stock::{Room, Thing, Way};
use super::swaps;
use super::visit::{Block, Visit, blocks};
use crate::input::plan::{Plan, Session};
use crate::planner::{Options, Planner};
use crate::request::Request;

/// What may change, the gentlest first; each takes in those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, strum::Display)]
#[strum(serialize_all = "kebab-case")]
pub enum Reach {
    /// Nothing of the plan; another machine or bench for the same item.
    Kept,
    /// The order of a session.
    Order,
    /// The start.
    Start,
    /// One exercise for another.
    Swap,
    /// Two exercises for others, or one and the place of a group.
    More,
}

impl Reach {
    /// All of them.
    pub const ALL: [Reach; 5] = [Reach::Kept, Reach::Order, Reach::Start, Reach::Swap, Reach::More];

    /// Whether it brings arrangements of its own.
    #[must_use]
    pub const fn rearranges(self) -> bool {
        !matches!(self, Reach::Kept | Reach::Start)
    }
}

/// A way to do a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// What of the plan it changes.
    pub reach: Reach,
    /// Exercises that give way, in words.
    pub swaps: Vec<String>,
    /// Another order, in words.
    pub order: Option<String>,
    /// The session.
    pub session: Session,
    /// What its groups hold.
    pub blocks: Vec<Block>,
}

impl Arrangement {
    /// What is otherwise than planned, in words; nothing where it is as planned.
    pub fn told(&self) -> impl Iterator<Item = &String> {
        self.swaps.iter().chain(&self.order)
    }

    /// Changes against the plan.
    #[must_use]
    pub fn changes(&self) -> u32 {
        u32::try_from(self.told().count()).unwrap_or(u32::MAX)
    }

    /// Whether it holds less of any of these things than another.
    fn frees_any(&self, things: &[Thing], other: &Arrangement) -> bool {
        things.iter().any(|thing| self.seconds_of(*thing) < other.seconds_of(*thing))
    }

    /// How long a thing is held at least, piece by piece.
    fn seconds_of(&self, thing: Thing) -> u32 {
        let of_way = |way: &Way| -> u32 {
            let holds = way.iter().filter(|hold| hold.thing == thing);
            holds.map(|hold| hold.pieces.saturating_mul(hold.to_s - hold.from_s)).sum()
        };
        self.blocks.iter().map(|block| block.ways.iter().map(of_way).min().unwrap_or(0)).sum()
    }
}

/// The session as the plan has it.
#[must_use]
pub fn as_planned(visit: &Visit) -> Arrangement {
    Arrangement {
        reach: Reach::Kept,
        swaps: Vec::new(),
        order: None,
        session: visit.written.clone(),
        blocks: visit.blocks.clone(),
    }
}

/// The arrangements of a visit that some reach adds to those before it; where several things change, each exercise that
/// gives way frees something scarce.
#[must_use]
pub fn others(
    room: &Room,
    planner: &Planner,
    plan: &Plan,
    visit: &Visit,
    (reach, scarce): (Reach, &[Thing]),
) -> Vec<Arrangement> {
    let planner = planner.with_plan(plan);
    let Some(request) = request(&planner, plan) else { return Vec::new() };
    let Some(week) = plan.weeks.iter().find(|week| week.week == visit.week) else {
        return Vec::new();
    };
    let Some(held) = Held::of(&request, &week.sessions) else { return Vec::new() };
    let table = Table { room, planner: &planner, plan, visit, request: &request, held: &held };
    let planned = as_planned(visit);
    match reach {
        Reach::Kept | Reach::Start => Vec::new(),
        Reach::Order => table.in_other_orders(&planned, reach),
        Reach::Swap => table.with_a_swap(&planned, reach).map(|(_, one)| one).collect(),
        Reach::More => {
            let once = table.with_a_swap(&planned, reach);
            let once = once.filter(|(_, one)| one.frees_any(scarce, &planned));
            let more = |(first, one): ([usize; 2], Arrangement)| {
                let later = table.with_a_swap(&one, reach).filter(|(at, _)| *at > first);
                let later = later.map(|(_, two)| two).filter(|two| two.frees_any(scarce, &one));
                let twice: Vec<Arrangement> = later.collect();
                [table.in_other_orders(&one, reach), twice].concat()
            };
            once.flat_map(more).collect()
        }
    }
}

/// A visit with all that says how else it may be done.
struct Table<'a> {
    room: &'a Room,
    planner: &'a Planner,
    plan: &'a Plan,
    visit: &'a Visit,
    request: &'a Request,
    /// The audit of the week as planned.
    held: &'a Held<'a>,
}

impl Table<'_> {
    /// The week with a session done otherwise.
    fn sessions(&self, session: &Session) -> Vec<Session> {
        let week = self.plan.weeks.iter().find(|week| week.week == self.visit.week);
        let mut sessions = week.map(|week| week.sessions.clone()).unwrap_or_default();
        sessions[self.visit.session].clone_from(session);
        sessions
    }

    fn in_other_orders(&self, from: &Arrangement, reach: Reach) -> Vec<Arrangement> {
        // After a swap one group moves: every order of every swap would be some thousands.
        let every = if from.swaps.is_empty() { EVERY_ORDER } else { 0 };
        let orders = self.held.orders(&self.sessions(&from.session), self.visit.session, every);
        orders.iter().map(|order| in_order(from, order, reach)).collect()
    }

    /// One exercise more gives way, and where it stood.
    fn with_a_swap(
        &self,
        from: &Arrangement,
        reach: Reach,
    ) -> impl Iterator<Item = ([usize; 2], Arrangement)> {
        let entry = |id: &str| self.planner.catalog().get(id);
        let name = move |id: &str| entry(id).map_or(id.to_owned(), |entry| entry.name.clone());
        let sessions = self.sessions(&from.session);
        let swaps = swaps::swaps(self.held, self.request, &sessions, self.visit.session);
        swaps.into_iter().map(move |swap| {
            let told = format!("{} instead of {}", name(&swap.new), name(&swap.old));
            let arrangement = Arrangement {
                reach,
                swaps: from.swaps.iter().cloned().chain([told]).collect(),
                order: None,
                blocks: blocks(self.room, self.plan, &swap.session.groups, &entry),
                session: swap.session,
            };
            (swap.at, arrangement)
        })
    }
}

/// What a plan asks for, with everything in it possible.
fn request(planner: &Planner, plan: &Plan) -> Option<Request> {
    let profile = super::visit::profile(plan)?;
    let mut request = planner.request(profile, &Options { seed: plan.seed, ..Options::default() });
    let items = plan.sessions.iter().chain(plan.weeks.iter().flat_map(|week| &week.sessions));
    let items = items.flat_map(|session| &session.groups).filter(|group| group.is_work());
    request.admit(items.flat_map(|group| &group.items).map(|item| item.exercise.as_str()));
    Some(request)
}

fn in_order(from: &Arrangement, order: &[usize], reach: Reach) -> Arrangement {
    let groups = &from.session.groups;
    let is_work = |at: &&usize| groups[**at].is_work();
    let names: Vec<&str> =
        order.iter().filter(is_work).map(|at| from.blocks[*at].name.as_str()).collect();
    Arrangement {
        reach,
        swaps: from.swaps.clone(),
        order: Some(format!("in the order {}", names.join(", then "))),
        session: Session {
            groups: order.iter().map(|at| groups[*at].clone()).collect(),
            ..from.session.clone()
        },
        blocks: order.iter().map(|at| from.blocks[*at].clone()).collect(),
    }
}
