//! The trade's words that files may use: muscles, patterns, kit, goals and the like.
//!
//! Each list is an enum whose kebab-case name is the id in files; schemas, checks, suggestions and
//! help texts all read the same lists.

mod region;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use strum::{EnumString, IntoStaticStr, VariantArray};

macro_rules! words {
    ($(#[$meta:meta])* $name:ident { $($(#[$vmeta:meta])* $variant:ident),+ $(,)? }) => {
        $(#[$meta])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
            EnumString, IntoStaticStr, VariantArray, strum::Display,
        )]
        #[serde(rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        #[allow(missing_docs, reason = "the variants are the trade's own words")]
        pub enum $name { $($(#[$vmeta])* $variant),+ }

        impl $name {
            /// Every word of the list, in the order it is printed.
            pub const ALL: &'static [$name] = <$name as VariantArray>::VARIANTS;

            /// The word as files spell it.
            #[must_use]
            pub fn id(self) -> &'static str {
                self.into()
            }

            /// The place of the word in [`Self::ALL`].
            #[must_use]
            pub const fn index(self) -> usize {
                self as usize
            }
        }
    };
}

words! {
    /// A muscle or muscle group that weekly sets are counted for.
    Muscle {
        Chest, FrontDelts, SideDelts, RearDelts, Lats, UpperBack, UpperTraps, RotatorCuff, Serratus,
        Biceps, Triceps, Forearms, Abs, Obliques, SpinalErectors, Glutes, Quads, Hamstrings, Adductors,
        Abductors, HipFlexors, Calves, Tibialis, Neck,
    }
}

words! {
    /// What a joint or the whole body does in an exercise.
    Pattern {
        Squat, Hinge, Lunge, HorizontalPush, VerticalPush, HorizontalPull, VerticalPull, Carry,
        TrunkFlexion, TrunkExtension, LateralFlexion, AntiExtension, AntiRotation, AntiLateralFlexion,
        Rotation, Balance, ElbowFlexion, ElbowExtension, KneeFlexion, KneeExtension, HipExtension,
        HipAbduction, HipAdduction, HipFlexion, PlantarFlexion, ShoulderAbduction,
        ShoulderHorizontalAbduction, ShoulderHorizontalAdduction, ShoulderExtension,
        ShoulderExternalRotation, ScapularElevation, Dorsiflexion, ExplosivePull, Jump, Throw, Locomotion,
    }
}

words! {
    /// What an exercise loads in the body, so that a client's limit can keep it out.
    Stress {
        SpinalCompression, SpinalShear, LoadedSpinalFlexion, Overhead, DeepKneeFlexion, DeepHipFlexion,
        Impact, WristExtension, Grip, ShoulderExtensionEndRange, NeckLoad, Supine, Prone, Inverted,
        Kneeling, SingleLegBalance, BreathHold, Ballistic, LoadedRotation, LoadedSpinalExtension,
        OpenChainKneeExtension, HighHeartRate,
    }
}

words! {
    /// An item of equipment.
    Kit {
        Barbell, SquatRack, Bench, AdjustableBench, Dumbbells, Kettlebell, TrapBar, EzBar, Landmine,
        PullUpBar, DipBars, Rings, SuspensionTrainer, ResistanceBand, CableStation, LatPulldown,
        SeatedRowMachine, RowMachine, LegPress, LegExtensionMachine, LegCurlMachine, ChestPressMachine,
        ChestFlyMachine, ReverseFlyMachine, PreacherBench,
        ShoulderPressMachine, CalfRaiseMachine, SeatedCalfMachine, HackSquatMachine, SmithMachine, BackExtensionBench,
        GluteHamBench, MedicineBall, PlyoBox, StabilityBall, Sliders, AbWheel, FoamRoller, WeightPlate,
        Sandbag, Sled, JumpRope, MiniBand, BandAnchor, SafetyArms, WeightVest, DipBelt, LowBox, Chair,
        AssistedPullUpMachine, HipAdductorMachine, HipAbductorMachine, Elliptical, StairClimber,
        BattleRope, Parallettes, AirBike, StationaryBike, RowingErgometer, SkiErgometer, Treadmill,
    }
}

words! {
    /// How the resistance of an exercise is given and printed.
    LoadKind {
        BarTotal, PerHand, SingleImplement, Stack, PlateMachine, Bodyweight, BodyweightPlus, Assisted,
        Band, Sled, None,
    }
}

words! {
    /// Whether an exercise moves several joints or one.
    Kind { Compound, Isolation }
}

words! {
    /// What an item counts in a set.
    Measure { Reps, Seconds, Meters, Calories }
}

words! {
    /// Whether both sides work together or one after the other.
    Sides { Both, Each }
}

words! {
    /// What an item of the catalog is for.
    Role { Work, Prep, Conditioning, Finisher }
}

words! {
    /// How soon a coach takes an exercise: what comes first for its movement, what is good too, what needs a reason,
    /// and what serves only where proper kit is missing.
    #[derive(Default)]
    Standing {
        Staple,
        #[default]
        Regular,
        Special,
        StandIn,
    }
}

words! {
    /// The part of a session that a preparation or conditioning item serves.
    Part { General, Rolling, Mobility, Activation, Steady, Intervals }
}

words! {
    /// How much of a stress there is.
    Grade { Light, Heavy }
}

words! {
    /// How long a client has trained.
    Status { Novice, Intermediate, Advanced }
}

words! {
    /// How a lift is done on a day: what comes twice is heavy once and light once, and the eve of hard sport is lighter still.
    Turn { Heavier, Lighter, Eve }
}

words! {
    /// What the training is for.
    Goal { Hypertrophy, Strength, Power, Endurance, GeneralFitness, FatLoss }
}

words! {
    /// A day of the week, Monday first as in ISO 8601.
    Weekday { Mon, Tue, Wed, Thu, Fri, Sat, Sun }
}

words! {
    /// Whether pairs of exercises may share their rests.
    Supersets { Never, Allow, Prefer }
}

words! {
    /// Whether a session may end with a short finisher.
    Finishers { Never, Allow }
}

words! {
    /// The unit of mass that is read and shown.
    Units { Kg, Lb }
}

words! {
    /// How times of day are told.
    Clock {
        #[serde(rename = "24h")]
        #[strum(serialize = "24h")]
        Hours24,
        #[serde(rename = "12h")]
        #[strum(serialize = "12h")]
        Hours12,
    }
}

words! {
    /// The paper that cards and pages are laid out for: 210 × 297 mm, or 8.5 × 11 in.
    Paper { A4, Letter }
}

words! {
    /// Sex, used only where a published equation needs it.
    Sex { Female, Male }
}

words! {
    /// More or less of a muscle than usual.
    Emphasis { More, Less }
}

words! {
    /// How hard a day of other training is.
    Effort { Easy, Hard }
}

words! {
    /// How hard the client wants to work, in the words of screening tables.
    Intensity { Light, Moderate, Vigorous }
}

words! {
    /// A part of the body that hurts.
    Region {
        Neck, Shoulder, Elbow, Wrist, Chest, UpperBack, LowerBack, Hip, Groin, Knee, Ankle, Foot,
    }
}

words! {
    /// What pain in the chest comes from: a muscle that hurts when pressed or moved, or effort.
    ChestPain { Muscle, UnderEffort }
}

words! {
    /// What a group of a session is.
    GroupKind { Prep, Single, Superset, Finisher, Conditioning }
}

words! {
    /// What a week of the plan is for.
    WeekKind { Base, Build, Easy, Test }
}

impl Pattern {
    /// Trunk patterns for coverage: flexion, extension, side bend, rotation and holding against them.
    #[must_use]
    pub const fn is_trunk(self) -> bool {
        use Pattern::{
            AntiExtension, AntiLateralFlexion, AntiRotation, LateralFlexion, Rotation,
            TrunkExtension, TrunkFlexion,
        };
        matches!(
            self,
            TrunkFlexion
                | TrunkExtension
                | LateralFlexion
                | AntiExtension
                | AntiRotation
                | AntiLateralFlexion
                | Rotation
        )
    }

    /// Explosive work, done fresh and first.
    #[must_use]
    pub const fn is_explosive(self) -> bool {
        matches!(self, Pattern::ExplosivePull | Pattern::Jump | Pattern::Throw)
    }

    /// Whether the body or the ball flies: over in a second, nothing is caught.
    #[must_use]
    pub const fn flies(self) -> bool {
        matches!(self, Pattern::Jump | Pattern::Throw)
    }

    /// The pattern that stands for all of the same work: whatever bends or holds the trunk, and whatever is fast.
    #[must_use]
    pub const fn work(self) -> Pattern {
        match self {
            _ if self.is_trunk() => Pattern::AntiExtension,
            _ if self.is_explosive() => Pattern::Jump,
            own => own,
        }
    }

    /// Whether sets of the pattern count as weekly volume; jumps, throws and locomotion do not.
    #[must_use]
    pub const fn gives_volume(self) -> bool {
        !matches!(self, Pattern::Jump | Pattern::Throw | Pattern::Locomotion)
    }

    /// The pattern's side of the week's push / pull / legs count, if it has one.
    #[must_use]
    pub const fn side(self) -> Option<Side> {
        use Pattern::{
            ElbowExtension, ElbowFlexion, Hinge, HipAbduction, HipAdduction, HipExtension,
            HorizontalPull, HorizontalPush, KneeExtension, KneeFlexion, Lunge, PlantarFlexion,
            ScapularElevation, ShoulderAbduction, ShoulderHorizontalAbduction,
            ShoulderHorizontalAdduction, Squat, VerticalPull, VerticalPush,
        };
        match self {
            HorizontalPush
            | VerticalPush
            | ElbowExtension
            | ShoulderHorizontalAdduction
            | ShoulderAbduction => Some(Side::Push),
            HorizontalPull
            | VerticalPull
            | ElbowFlexion
            | ShoulderHorizontalAbduction
            | ScapularElevation => Some(Side::Pull),
            Squat | Hinge | Lunge | KneeFlexion | KneeExtension | HipExtension | HipAbduction
            | HipAdduction | PlantarFlexion => Some(Side::Legs),
            _ => None,
        }
    }

    /// Push or pull of several joints, as the balance rule counts it.
    #[must_use]
    pub const fn press_or_row(self) -> Option<Side> {
        match self {
            Pattern::HorizontalPush | Pattern::VerticalPush => Some(Side::Push),
            Pattern::HorizontalPull | Pattern::VerticalPull => Some(Side::Pull),
            _ => None,
        }
    }

    /// Whether the pattern counts for the knee side of the legs.
    #[must_use]
    pub const fn is_knee(self) -> bool {
        matches!(self, Pattern::Squat | Pattern::Lunge | Pattern::KneeExtension)
    }

    /// Whether the pattern counts for the hip side of the legs.
    #[must_use]
    pub const fn is_hip(self) -> bool {
        matches!(self, Pattern::Hinge | Pattern::HipExtension | Pattern::KneeFlexion)
    }

    /// The same pattern, or another press for a press, pull for a pull, knee or hip lift for one.
    #[must_use]
    pub fn is_related(self, other: Pattern) -> bool {
        let arms = self.press_or_row().is_some() && self.press_or_row() == other.press_or_row();
        let legs = (self.is_knee() && other.is_knee()) || (self.is_hip() && other.is_hip());
        self == other || arms || legs
    }
}

words! {
    /// A side of the push / pull / legs count.
    Side { Push, Pull, Legs }
}

impl Muscle {
    /// Muscles that recovery and session caps leave free: they are trained often in practice.
    #[must_use]
    pub const fn recovers_fast(self) -> bool {
        matches!(self, Muscle::Abs | Muscle::Obliques | Muscle::Calves | Muscle::Forearms)
    }

    /// The majors that every client has a floor for.
    #[must_use]
    pub const fn is_major(self) -> bool {
        matches!(
            self,
            Muscle::Chest
                | Muscle::Lats
                | Muscle::UpperBack
                | Muscle::Quads
                | Muscle::Hamstrings
                | Muscle::Glutes
        )
    }

    /// The name with spaces, as a sheet prints it.
    #[must_use]
    pub fn name(self) -> String {
        self.id().replace('-', " ")
    }
}

impl Goal {
    /// Whether the goal is built with weights: size or strength.
    #[must_use]
    pub const fn builds(self) -> bool {
        matches!(self, Goal::Hypertrophy | Goal::Strength)
    }

    /// Whether rests stay short: to last, and to lose fat.
    #[must_use]
    pub const fn rests_briefly(self) -> bool {
        matches!(self, Goal::Endurance | Goal::FatLoss)
    }
}

impl Weekday {
    /// The whole day's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Weekday::Mon => "Monday",
            Weekday::Tue => "Tuesday",
            Weekday::Wed => "Wednesday",
            Weekday::Thu => "Thursday",
            Weekday::Fri => "Friday",
            Weekday::Sat => "Saturday",
            Weekday::Sun => "Sunday",
        }
    }
}
