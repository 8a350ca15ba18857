//! Which muscles can be the prime mover of a pattern.

use super::entry::Placed;
use crate::diagnostic::{Diagnostic, quoted};
use crate::words::{Muscle, Pattern, Role};

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

/// W1415: the first direct muscle of a working exercise does its movement.
pub(super) fn w1415_prime_mover_fits(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    let (Role::Work, Some(pattern), Some(first)) =
        (entry.role, entry.pattern, entry.direct.first())
    else {
        return Vec::new();
    };
    let movers = prime_movers(pattern);
    if movers.contains(first) {
        return Vec::new();
    }
    let names: Vec<&str> = movers.iter().map(|muscle| muscle.id()).collect();
    let message = format!("{} has `{first}` as the prime mover of `{pattern}`", quoted(&entry.id));
    let remark = Diagnostic::warning("W1415", message)
        .at(placed.at("direct", "the first one is the prime mover"))
        .help(format!("a prime mover of `{pattern}` is {}", names.join(" or ")));
    vec![remark]
}
