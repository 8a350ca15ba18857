//! How many exercises there are for each pattern, group of kit and level.

use crate::input::catalog::Entry;
use crate::words::{Kit, Pattern, Role};

/// A group of kit that rooms have or lack as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum KitGroup {
    /// The body, the floor, a wall, a step, a towel.
    Nothing,
    /// Dumbbells, kettlebells, bands and other things to carry, and benches and boxes alone.
    HandHeld,
    /// The bar, the rack and what belongs to them.
    Barbell,
    /// Machines and cables.
    Machines,
}

impl KitGroup {
    /// All groups in the order they are printed.
    pub const ALL: [KitGroup; 4] =
        [KitGroup::Nothing, KitGroup::HandHeld, KitGroup::Barbell, KitGroup::Machines];

    /// The heading of the group's column.
    #[must_use]
    pub const fn heading(self) -> &'static str {
        match self {
            KitGroup::Nothing => "no kit",
            KitGroup::HandHeld => "hand-held",
            KitGroup::Barbell => "barbell",
            KitGroup::Machines => "machines",
        }
    }

    /// The group in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            KitGroup::Nothing => "no kit",
            KitGroup::HandHeld => "hand-held kit or bands",
            KitGroup::Barbell => "barbell and rack",
            KitGroup::Machines => "machines or cables",
        }
    }

    /// The group of a set of kit: that of its biggest item.
    #[must_use]
    pub fn of(set: &[Kit]) -> KitGroup {
        let groups = set.iter().map(|kit| group_of(*kit));
        groups.max().unwrap_or(KitGroup::Nothing)
    }
}

const fn group_of(kit: Kit) -> KitGroup {
    use Kit::{
        AirBike, AssistedPullUpMachine, BackExtensionBench, Barbell, CableStation,
        CalfRaiseMachine, ChestFlyMachine, ChestPressMachine, DipBars, Elliptical, EzBar,
        GluteHamBench, HackSquatMachine, HipAbductorMachine, HipAdductorMachine, Landmine,
        LatPulldown, LegCurlMachine, LegExtensionMachine, LegPress, PullUpBar, ReverseFlyMachine,
        RowMachine, RowingErgometer, SafetyArms, SeatedCalfMachine, SeatedRowMachine,
        ShoulderPressMachine, SkiErgometer, Sled, SmithMachine, SquatRack, StairClimber,
        StationaryBike, TrapBar, Treadmill,
    };
    match kit {
        Barbell | SquatRack | SafetyArms | TrapBar | EzBar | Landmine | PullUpBar | DipBars => {
            KitGroup::Barbell
        }
        CableStation
        | LatPulldown
        | SeatedRowMachine
        | RowMachine
        | LegPress
        | LegExtensionMachine
        | LegCurlMachine
        | ChestPressMachine
        | ChestFlyMachine
        | ReverseFlyMachine
        | ShoulderPressMachine
        | CalfRaiseMachine
        | SeatedCalfMachine
        | HackSquatMachine
        | SmithMachine
        | BackExtensionBench
        | GluteHamBench
        | AssistedPullUpMachine
        | HipAdductorMachine
        | HipAbductorMachine
        | Elliptical
        | StairClimber
        | AirBike
        | StationaryBike
        | RowingErgometer
        | SkiErgometer
        | Treadmill
        | Sled => KitGroup::Machines,
        _ => KitGroup::HandHeld,
    }
}

/// Counts of working exercises by pattern, group and level.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cells {
    counts: Vec<[[u32; 3]; 4]>,
}

impl Cells {
    /// Counts entries; one with several sets of kit counts once in each group they fall into.
    pub fn count<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Cells {
        let mut counts = vec![[[0; 3]; 4]; Pattern::ALL.len()];
        for entry in entries {
            let (Role::Work, Some(pattern)) = (entry.role, entry.pattern) else {
                continue;
            };
            let level = usize::from(entry.level.clamp(1, 3)) - 1;
            for (column, group) in KitGroup::ALL.into_iter().enumerate() {
                if entry.needs.iter().any(|set| KitGroup::of(set) == group) {
                    counts[pattern.index()][column][level] += 1;
                }
            }
        }
        Cells { counts }
    }

    /// Counts of one pattern and group at levels 1 to 3.
    #[must_use]
    pub fn levels(&self, pattern: Pattern, group: KitGroup) -> [u32; 3] {
        self.counts[pattern.index()][group as usize]
    }
}
