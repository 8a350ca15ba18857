use super::check::check_rule;

#[test]
fn no_pairs_where_the_client_wants_none() {
    check_rule("pairs")
        .with("supersets: never")
        .allows("mon: dumbbell-bench-press x3; seated-cable-row x3")
        .refuses(
            "mon: dumbbell-bench-press x3 + seated-cable-row x3",
            "wanted no pairs, got a pair",
        );
}

#[test]
fn a_pair_has_equal_sets() {
    check_rule("pairs")
        .allows("mon: biceps-curl x4 + triceps-pressdown x4")
        .remarks("mon: biceps-curl x3 + triceps-pressdown x4", "as many sets of each");
}

/// SS-09: antagonists or unrelated muscles, never the same prime mover, never two that need one large item; presses, pulls
/// and small work may go from one machine to the next.
#[test]
fn what_goes_together() {
    check_rule("pairs")
        .allows("mon: bench-press x3 + seated-band-row x3; leg-press x3 + plank x3")
        .allows("mon: machine-chest-press x3 + lat-pulldown x3; bench-press x3 + machine-row x3")
        .allows("mon: leg-extension x3 + leg-curl x3; leg-press x3 + lateral-raise x3")
        .remarks(
            "mon: leg-press x3 + machine-chest-press x3",
            "one bar, rack or large machine at most",
        )
        .remarks("mon: bench-press x3 + push-up x3", "both train chest")
        .remarks("mon: back-squat x3 + leg-press x3", "both train quads")
        .remarks("mon: goblet-side-lunge x3 + deadlift x3", "one leg lift at most")
        .remarks("mon: bench-press x3 + barbell-row x3", "one bar, rack or large machine at most")
        .remarks("mon: farmer-carry x3 + pull-up x3", "one exercise that tires the hands");
}

/// Standing heel to toe works the calves as well.
#[test]
fn calves_do_not_rest_while_they_balance() {
    check_rule("pairs")
        .remarks("mon: calf-raise x3 + heel-to-toe-stand x3 of 20", "both train calves");
}
