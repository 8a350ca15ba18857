//! Which muscles can be the prime mover of a pattern.

use crate::words::{Muscle, Pattern};

/// The muscles that do a pattern's joint action under load: functional anatomy as textbooks tell it (Kendall et al.,
/// Muscles: Testing and Function, 5th ed., from memory); what carries, throws and walks go by is common practice.
#[must_use]
pub const fn prime_movers(pattern: Pattern) -> &'static [Muscle] {
    use Muscle::{
        Abductors, Abs, Adductors, Biceps, Calves, Chest, Forearms, FrontDelts, Glutes, Hamstrings,
        HipFlexors, Lats, Obliques, Quads, RearDelts, RotatorCuff, SideDelts, SpinalErectors,
        Tibialis, Triceps, UpperBack, UpperTraps,
    };
    use Pattern::{
        AntiExtension, AntiLateralFlexion, AntiRotation, Balance, Carry, Dorsiflexion,
        ElbowExtension, ElbowFlexion, ExplosivePull, Hinge, HipAbduction, HipAdduction,
        HipExtension, HipFlexion, HorizontalPull, HorizontalPush, Jump, KneeExtension, KneeFlexion,
        LateralFlexion, Locomotion, Lunge, PlantarFlexion, Rotation, ScapularElevation,
        ShoulderAbduction, ShoulderExtension, ShoulderExternalRotation,
        ShoulderHorizontalAbduction, ShoulderHorizontalAdduction, Squat, Throw, TrunkExtension,
        TrunkFlexion, VerticalPull, VerticalPush,
    };
    match pattern {
        Squat => &[Quads, Glutes],
        Lunge => &[Quads, Glutes, Adductors],
        Hinge | HipExtension => &[Glutes, Hamstrings],
        HorizontalPush => &[Chest, Triceps],
        VerticalPush => &[FrontDelts, SideDelts],
        HorizontalPull => &[UpperBack, Lats],
        VerticalPull => &[Lats, UpperBack, RearDelts],
        Carry => &[Forearms, UpperTraps, Obliques, Abs],
        TrunkFlexion | AntiExtension => &[Abs],
        TrunkExtension => &[SpinalErectors],
        LateralFlexion | AntiRotation | AntiLateralFlexion | Rotation => &[Obliques],
        Balance => &[Abductors, Calves],
        ElbowFlexion => &[Biceps, Forearms],
        ElbowExtension => &[Triceps],
        KneeFlexion => &[Hamstrings],
        KneeExtension => &[Quads],
        HipAbduction => &[Abductors],
        HipAdduction => &[Adductors],
        HipFlexion => &[HipFlexors],
        PlantarFlexion => &[Calves],
        ShoulderAbduction => &[SideDelts, RotatorCuff],
        ShoulderHorizontalAbduction => &[RearDelts, RotatorCuff],
        ShoulderHorizontalAdduction => &[Chest],
        ShoulderExtension => &[Lats, RearDelts],
        ShoulderExternalRotation => &[RotatorCuff],
        ScapularElevation => &[UpperTraps],
        Dorsiflexion => &[Tibialis],
        ExplosivePull => &[Glutes, Quads],
        Jump => &[Quads, Glutes, Calves],
        Throw => &[Chest, Lats, Obliques, Glutes, Quads],
        Locomotion => &[Quads, Glutes, Hamstrings, Abs, Abductors],
    }
}
