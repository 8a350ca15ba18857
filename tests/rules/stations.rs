use super::check::check_rule;

#[test]
fn four_stations_at_most() {
    check_rule("stations")
        .allows("mon: back-squat x3; pull-up x3; leg-press x3; push-up x3; goblet-squat x3")
        .remarks(
            "mon: back-squat x3; pull-up x3; leg-press x3; seated-cable-row x3; machine-chest-press x3",
            "4 stations at most, got 5",
        );
}

#[test]
fn what_is_done_at_one_station_stands_together() {
    check_rule("stations")
        .allows("mon: back-squat x3 of 10; bench-press x3 of 10; leg-press x3 of 10")
        .remarks(
            "mon: back-squat x3 of 10; leg-press x3 of 10; bench-press x3 of 10",
            "mon, bench-press: wanted what is done at one station together, got coming back to it",
        );
}

#[test]
fn free_floor_and_lighter_work_at_the_end_are_no_coming_back() {
    check_rule("stations")
        .allows("mon: goblet-squat x3 of 10; leg-press x3 of 10; push-up x3 of 10")
        .allows("mon: pull-up x3 of 10; leg-press x3 of 10; hanging-knee-raise x3 of 10");
}
