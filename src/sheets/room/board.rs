//! A day of the room as rows of stations with bars of minutes, one row for each piece.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::room::hours::held;
use crate::room::rota::{Clash, Rota};
use crate::room::stock::{Thing, name};
use crate::sheets::wording::say;
use crate::words::{Kit, Weekday};

/// A day with everyone who comes.
#[derive(Debug, Clone)]
pub(super) struct Day {
    pub(super) day: Weekday,
    pub(super) date: Option<Date>,
    /// The first and the last minute of the day, at whole quarters.
    pub(super) span: [u32; 2],
    /// Whether the day has several such parts.
    pub(super) is_part: bool,
    pub(super) comes: Vec<Comes>,
    pub(super) rows: Vec<Row>,
}

impl Day {
    /// Whether a clash is one of this part of the day.
    pub(super) fn has(&self, clash: &Clash) -> bool {
        self.comes.iter().any(|one| clash.visits.contains(&one.visit))
    }
}

impl Day {
    /// The letter that stands for a visit where its code has no room.
    pub(super) fn letter(&self, visit: usize) -> char {
        let place = self.comes.iter().position(|one| one.visit == visit).unwrap_or(0);
        ('A'..='Z').nth(place % 26).unwrap_or('A')
    }
}

/// A client who comes.
#[derive(Debug, Clone)]
pub(super) struct Comes {
    /// The visit's place.
    pub(super) visit: usize,
    pub(super) client: String,
    pub(super) span: [u32; 2],
    /// What is otherwise than planned.
    pub(super) changes: Vec<String>,
}

/// One piece of kit over the day.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) name: String,
    pub(super) bars: Vec<Bar>,
    /// Whether its bars tell weights.
    pub(super) by_mass: bool,
    /// Whether there is no such piece: more hold it than there are.
    pub(super) is_over: bool,
}

/// One client on it for some minutes.
#[derive(Debug, Clone)]
pub(super) struct Bar {
    pub(super) visit: usize,
    pub(super) client: String,
    pub(super) span: [u32; 2],
    /// The lightest and the heaviest in thousandths of the room's unit, where that tells weights apart.
    masses: Option<[u32; 2]>,
}

/// Small things that lie about in number and are no station.
const fn is_station(thing: Thing) -> bool {
    !matches!(
        thing,
        Thing::Care
            | Thing::Watch
            | Thing::Plate(..)
            | Thing::Kit(
                Kit::ResistanceBand
                    | Kit::MiniBand
                    | Kit::BandAnchor
                    | Kit::SafetyArms
                    | Kit::FoamRoller
                    | Kit::WeightPlate
                    | Kit::Chair
                    | Kit::JumpRope
                    | Kit::Sliders
            )
    )
}

/// An empty room for so many minutes parts a day.
const PAUSE: u32 = 30;

/// The days of a week on which somebody comes, each in the parts between which the room is empty.
pub(super) fn days(rota: &Rota) -> Vec<Day> {
    let mut parts: Vec<(Weekday, u32, Vec<usize>)> = Vec::new();
    let mut visits: Vec<usize> = (0..rota.visits.len()).collect();
    visits.sort_by_key(|at| (rota.visits[*at].day, rota.done[*at].start));
    for visit in visits {
        let [day, start] = [rota.visits[visit].day.index(), rota.done[visit].start as usize];
        let end = rota.done[visit].start + rota.visits[visit].minutes();
        match parts.last_mut() {
            Some((on, until, part)) if on.index() == day && start < (*until + PAUSE) as usize => {
                *until = (*until).max(end);
                part.push(visit);
            }
            _ => parts.push((rota.visits[visit].day, end, vec![visit])),
        }
    }
    let days: Vec<Weekday> = parts.iter().map(|(day, ..)| *day).collect();
    let day = |(day, _, visits): (Weekday, u32, Vec<usize>)| {
        let is_part = days.iter().filter(|other| **other == day).count() > 1;
        Day { is_part, ..day_of(rota, day, &visits) }
    };
    parts.into_iter().map(day).collect()
}

fn day_of(rota: &Rota, day: Weekday, visits: &[usize]) -> Day {
    let mut comes: Vec<Comes> = visits
        .iter()
        .map(|&visit| {
            let start = rota.done[visit].start;
            let blocks = rota.done[visit].arrangement.blocks.iter();
            let long = blocks.map(|block| block.seconds).sum::<u32>().div_ceil(60);
            Comes {
                visit,
                client: rota.visits[visit].client.clone(),
                span: [start, start + long],
                changes: rota.told(visit),
            }
        })
        .collect();
    comes.sort_by_key(|one| (one.span, one.client.clone()));
    let from = comes.iter().map(|one| one.span[0]).min().unwrap_or(0) / 15 * 15;
    let to = comes.iter().map(|one| one.span[1]).max().unwrap_or(0).div_ceil(15) * 15;
    let date = visits.iter().find_map(|at| rota.visits[*at].date);
    Day { day, date, span: [from, to], is_part: false, comes, rows: rows(rota, visits) }
}

fn rows(rota: &Rota, visits: &[usize]) -> Vec<Row> {
    let mut bars: BTreeMap<Kit, Vec<Bar>> = BTreeMap::new();
    for &visit in visits {
        let mut held: Vec<(Kit, Option<u32>, [u32; 2])> = held(&rota.done[visit])
            .into_iter()
            .filter(|hold| is_station(hold.thing))
            .filter_map(|hold| match hold.thing {
                Thing::Kit(kit) => Some((kit, None, hold.span)),
                Thing::Mass(kit, _, mass) => Some((kit, Some(mass), hold.span)),
                Thing::Care | Thing::Watch | Thing::Plate(..) => None,
            })
            .collect();
        held.sort_by_key(|(kit, _, span)| (*kit, *span));
        for (kit, mass, span) in held {
            let masses = mass.map(|mass| [mass, mass]);
            let bars = bars.entry(kit).or_default();
            match bars.last_mut().filter(|last| last.visit == visit && last.span[1] >= span[0]) {
                Some(last) if masses.is_some() => last.take_in(span, masses),
                _ => {
                    let client = rota.visits[visit].client.clone();
                    bars.push(Bar { visit, client, span, masses });
                }
            }
        }
    }
    bars.into_iter().flat_map(|(kit, bars)| lanes(rota, kit, bars)).collect()
}

impl Bar {
    /// Hand-held weights one after the other, and of a pair at once, are one bar.
    fn take_in(&mut self, span: [u32; 2], masses: Option<[u32; 2]>) {
        self.span[1] = self.span[1].max(span[1]);
        self.masses = self
            .masses
            .zip(masses)
            .map(|([least, most], [low, high])| [least.min(low), most.max(high)]);
    }

    /// `8–12`, as short as a narrow bar wants it.
    pub(super) fn masses_in_short(&self) -> String {
        match self.masses.map(|both| both.map(whole)) {
            Some([least, most]) if least < most => say!(wall_masses, least, most),
            Some([mass, _]) => mass.to_string(),
            None => String::new(),
        }
    }

    /// `8 to 12 kg`; nothing where no mass tells weights apart.
    pub(super) fn masses(&self, unit: &str) -> String {
        match self.masses.map(|both| both.map(whole)) {
            Some([least, most]) if least < most => say!(room_masses, least, most, unit),
            Some([mass, _]) => say!(room_mass, mass, unit),
            None => String::new(),
        }
    }
}

/// Thousandths of a unit as the unit.
fn whole(thousandths: u32) -> f64 {
    f64::from(thousandths) / 1000.0
}

/// Bars that do not meet share a row; rows past the pieces there are tell a collision. Hand-held weights of different
/// mass are no collision, so they have as many rows as people at once.
fn lanes(rota: &Rota, kit: Kit, mut bars: Vec<Bar>) -> Vec<Row> {
    bars.sort_by_key(|bar| (bar.span, bar.client.clone()));
    let by_mass = bars.iter().any(|bar| bar.masses.is_some());
    let mut lanes: Vec<Vec<Bar>> = Vec::new();
    for bar in bars {
        let is_free =
            |lane: &&mut Vec<Bar>| lane.last().is_none_or(|last| last.span[1] <= bar.span[0]);
        match lanes.iter_mut().find(is_free) {
            Some(lane) => lane.push(bar),
            None => lanes.push(vec![bar]),
        }
    }
    let pieces = rota.room.pieces(Thing::Kit(kit)) as usize;
    let name = name(kit);
    let many = !by_mass && lanes.len() > 1;
    let row = |(at, bars): (usize, Vec<Bar>)| Row {
        name: if many { format!("{name} {}", at + 1) } else { name.clone() },
        bars,
        by_mass,
        is_over: !by_mass && at >= pieces,
    };
    lanes.into_iter().enumerate().map(row).collect()
}
