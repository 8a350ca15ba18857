//! The ideas that a training day can have, as coaches name them.

use std::collections::BTreeSet;

use crate::input::profile::SplitName;
use crate::words::Muscle;

use Muscle::{
    Abductors, Abs, Adductors, Biceps, Calves, Chest, Forearms, FrontDelts, Glutes, Hamstrings,
    HipFlexors, Lats, Neck, Obliques, Quads, RearDelts, RotatorCuff, Serratus, SideDelts,
    SpinalErectors, Tibialis, Triceps, UpperBack, UpperTraps,
};

/// One clear idea for a day.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Idea {
    /// What a coach calls it.
    pub name: &'static str,
    /// The muscles it is for, by parts of the body; trunk and neck go with every day.
    muscles: &'static [&'static [Muscle]],
}

const PUSH: &[Muscle] = &[Chest, FrontDelts, SideDelts, Triceps, Serratus];
const PULL: &[Muscle] = &[Lats, UpperBack, RearDelts, Biceps, UpperTraps, RotatorCuff, Forearms];
const LEGS: &[Muscle] = &[
    Quads,
    Glutes,
    Hamstrings,
    Adductors,
    Abductors,
    Calves,
    HipFlexors,
    Tibialis,
    SpinalErectors,
];
const ARMS: &[Muscle] =
    &[FrontDelts, SideDelts, RearDelts, RotatorCuff, UpperTraps, Biceps, Triceps, Forearms];
const CHEST: &[Muscle] = &[Chest, FrontDelts, Serratus, Triceps];
const BACK: &[Muscle] = &[Lats, UpperBack, RearDelts, UpperTraps, Biceps, Forearms];
/// With any day, unless a client's own list says otherwise.
pub(crate) const ANY_DAY: &[Muscle] = &[Abs, Obliques, Neck];

/// The muscles that are trained with a muscle: pushes, pulls or legs.
#[must_use]
pub(crate) fn region(muscle: Muscle) -> &'static [Muscle] {
    [PUSH, PULL, LEGS].into_iter().find(|region| region.contains(&muscle)).unwrap_or(ANY_DAY)
}

const SQUAT: &[Muscle] = &[Quads, Glutes, Adductors, Calves, HipFlexors, Tibialis];
const HINGE: &[Muscle] = &[Hamstrings, Glutes, Abductors, SpinalErectors];

const FULL_BODY: Idea = Idea { name: "full body", muscles: &[Muscle::ALL] };
const UPPER_DAY: Idea = Idea { name: "upper body", muscles: &[PUSH, PULL] };
const LOWER_DAY: Idea = Idea { name: "lower body", muscles: &[LEGS] };
const PUSH_DAY: Idea = Idea { name: "push", muscles: &[PUSH] };
const PULL_DAY: Idea = Idea { name: "pull", muscles: &[PULL] };
const LEG_DAY: Idea = Idea { name: "legs", muscles: &[LEGS] };
const SQUAT_DAY: Idea = Idea { name: "squat and push", muscles: &[SQUAT, PUSH] };
const HINGE_DAY: Idea = Idea { name: "hinge and pull", muscles: &[HINGE, PULL] };
const CHEST_DAY: Idea = Idea { name: "chest and triceps", muscles: &[CHEST] };
const BACK_DAY: Idea = Idea { name: "back and biceps", muscles: &[BACK] };
const ARM_DAY: Idea = Idea { name: "shoulders and arms", muscles: &[ARMS] };

/// A way to share out the week: a name and the ideas that its days may have.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Style {
    /// What a coach calls the week.
    pub name: &'static str,
    /// The profile's word for it, where a client may ask for it by name.
    pub asked_as: Option<SplitName>,
    /// The fewest days it makes sense for.
    pub from_days: usize,
    /// The ideas of its days; each is used at least once where the days suffice.
    pub ideas: &'static [Idea],
}

/// Every style, simplest first. One more style is one more line.
pub(crate) const STYLES: &[Style] = &[
    Style {
        name: "full body",
        asked_as: Some(SplitName::FullBody),
        from_days: 1,
        ideas: &[FULL_BODY],
    },
    Style {
        name: "upper and lower",
        asked_as: Some(SplitName::UpperLower),
        from_days: 2,
        ideas: &[UPPER_DAY, LOWER_DAY],
    },
    Style {
        name: "upper, lower, full body",
        asked_as: None,
        from_days: 3,
        ideas: &[UPPER_DAY, LOWER_DAY, FULL_BODY],
    },
    Style {
        name: "squat and push, hinge and pull",
        asked_as: None,
        from_days: 4,
        ideas: &[SQUAT_DAY, HINGE_DAY],
    },
    Style {
        name: "push, pull, legs",
        asked_as: Some(SplitName::PushPullLegs),
        from_days: 3,
        ideas: &[PUSH_DAY, PULL_DAY, LEG_DAY],
    },
    Style {
        name: "push, pull, legs, upper, lower",
        asked_as: None,
        from_days: 5,
        ideas: &[PUSH_DAY, PULL_DAY, LEG_DAY, UPPER_DAY, LOWER_DAY],
    },
    Style {
        name: "body part",
        asked_as: Some(SplitName::BodyPart),
        from_days: 3,
        ideas: &[CHEST_DAY, BACK_DAY, LEG_DAY, ARM_DAY],
    },
];

impl Idea {
    /// The muscles of the day, with those that go with any day.
    #[must_use]
    pub(crate) fn set(&self) -> BTreeSet<Muscle> {
        self.muscles.iter().copied().chain([ANY_DAY]).flatten().copied().collect()
    }

    /// Whether the day has legs and arms, and not the whole of either.
    #[must_use]
    pub(crate) fn crosses(&self) -> bool {
        let has = |part: &[Muscle]| self.muscles.contains(&part);
        (has(SQUAT) && has(PUSH)) || (has(HINGE) && has(PULL))
    }

    /// Whether the day is for the whole body.
    #[must_use]
    pub(crate) fn whole_body(&self) -> bool {
        self.muscles.contains(&Muscle::ALL)
    }
}
