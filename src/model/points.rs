//! What every wish weighs: a cost is paid where it is missed, a point is won where it is met. Only weights of one tier are
//! weighed against each other. Common practice of ours, found by reading weeks.

use super::tier::Tier;
use super::weight::{Weight, weights};

weights! {
    Coverage {
        "coverage":
            /// Cost of a pattern that the week lacks.
            PATTERN_MISSING = 10.0;
        "strength-lifts":
            /// Cost of a squat, hinge or bench that does not come as a main lift.
            MAIN_MISSING = 8.0;
        "known-lifts":
            /// Cost of a movement whose main lift the client knows, and which comes without any of those.
            KNOWN_MISSING = 6.0;
            /// Cost of an exercise that the client likes and that does not come: a few half-sets under a floor weigh less.
            LIKED_MISSING = 5.0;
        "volume-floor":
            /// Cost of a half-set of a major muscle under its floor.
            FLOOR_MAJOR = 2.0;
            /// Cost of a half-set of another muscle under its floor.
            FLOOR_MINOR = 1.0;
    }
    Ranges {
        "weekly-volume":
            /// Cost of a half-set of a major muscle under its range.
            UNDER_MAJOR = 20.0;
            /// Cost of a half-set of another muscle under its range.
            UNDER_MINOR = 10.0;
            /// Cost of a half-set over the range, or over the most of a muscle without a target.
            OVER_RANGE = 10.0;
        "balance":
            /// Cost of a set outside a band.
            OUT_OF_BALANCE = 10.0;
        "planes":
            /// Cost of a plane that is missing.
            PLANE_MISSING = 40.0;
        "strength-lifts":
            /// Cost of the second day that a squat or bench lacks.
            MAIN_ONCE = 40.0;
        "leg-day":
            /// Cost of a leg day without a loaded squat or press on both legs.
            NO_LEG_LIFT = 40.0;
            /// Cost of a week without a loaded hinge on both legs.
            NO_HINGE = 40.0;
        "arm-work":
            /// Cost of biceps, triceps or side delts without work of their own.
            NO_OWN_WORK = 40.0;
        "emphasis":
            /// Cost of a muscle that should get more without a staple that is done for it.
            NO_BEST_LIFT = 40.0;
            /// Cost of a muscle that should get more with one exercise of its own in the week.
            ONE_LIFT_ONLY = 20.0;
            /// Cost of a set that a muscle which should get more lacks of those that are done for it.
            OWN_SET_MISSING = 10.0;
        "steady":
            /// Cost of a day that the week of an older client lacks of two with balance work.
            STEADIED_ONCE = 80.0;
        "three-sets":
            /// Cost of a set that a main or fast lift, or one that is asked for, has too few of three.
            THIN_LIFT = 20.0;
        "fractional-cap":
            /// Cost of a half-set over the cap within the recovery hours.
            CROWDED = 10.0;
        "explosive-work":
            /// Cost of an exposure that is missing.
            EXPOSURE_MISSING = 60.0;
    }
    Changes {
        "changes":
            /// Cost of a pick that goes though it could stay, or that comes beyond those that cannot stay.
            PICK_CHANGED = 1.0;
            /// Cost of a set more or less: a hundredth of a pick, as no plan has a hundred.
            SET_MOVED = 0.01;
    }
    View {
        "weekly-volume":
            /// A half-set of a major muscle under its range, up to a set beside the cost of what is missed beyond.
            JUST_UNDER_MAJOR = -8.0;
            /// The same of another muscle.
            JUST_UNDER_MINOR = -4.0;
            /// A half-set over a range, up to a set beside the cost of what is beyond.
            JUST_OVER_RANGE = -4.0;
        "balance":
            /// A set outside a band, beside the cost of what is further out than one.
            JUST_OUT_OF_BALANCE = -13.0;
        "planes":
            /// A week of two days without a press or a pull overhead, or without a level one.
            PLANE_LACKING = -20.0;
            /// A third of a set that a plane has too few of its pushes or pulls.
            PLANE_THIN = -2.0;
            /// A pulldown or pull-up more than on every second day, where size is not the goal.
            PULLED_DOWN_AGAIN = -10.0;
        "whole-body-day":
            /// A day for the whole body without a leg lift, a push or a pull.
            SIDE_MISSING = -18.0;
            /// A lift more of a side than such a day has where others are there: one push, one pull, two for the legs.
            SIDE_AGAIN = -12.0;
            /// Such a day with one lift for the legs, where power is not the goal.
            ONE_LEG_LIFT = -6.0;
        "exercise-count":
            /// A session of two exercises where its minutes hold three.
            FEW_EXERCISES = -20.0;
            /// An exercise fewer than the minutes of a session usually hold.
            ROOM_LEFT = -8.0;
            /// One more: the way to it and its first set cost the others their rest.
            ONE_TOO_MANY = -6.0;
        "different-exercises":
            /// One more exercise to learn for a novice.
            TO_LEARN = -1.0;
        "lead-lift":
            /// A session without a lift to lead it.
            NO_LEAD = -60.0;
            /// A week in which no lift that is wished, or for a muscle that should get more, can lead a day.
            NO_WISHED_LEAD = -30.0;
            /// The same where it leads in the later half of the days only.
            WISHED_LEAD_LATE = -8.0;
            /// The same where the first day that could have it is led by something else.
            WISHED_LEAD_SECOND = -12.0;
            /// A known squat, press or pull that comes in the later half of the days only: the week opens with what is known.
            KNOWN_LATE = -7.0;
            /// A fast lift that is liked or asked for and comes in the later half of the days only.
            LIKED_FAST_LATE = -20.0;
            /// A main lift that is liked or asked for and comes in the later half of the days only.
            LIKED_LATE = -8.0;
            /// A set that the lead has too few.
            THIN_LEAD = -20.0;
            /// A set that a lift which is asked for or liked has too few of four in the first half of the week.
            THIN_WISH = -12.0;
        "lower-back":
            /// One more of what the lower back holds on one day, where the week has another.
            BACK_LOADED_TWICE = -14.0;
            /// A row bent over and a hinge on days that follow each other.
            BENT_NEAR_A_HINGE = -10.0;
            /// One more loaded squat or hinge on both legs on a day for size, strength or power, where another day takes it.
            SECOND_BIG_LIFT = -28.0;
            /// The same where power is the goal, which is quick on fresh legs.
            SECOND_BIG_LIFT_FOR_POWER = -45.0;
            /// A set over eight of a squat and a pull off the floor with the bar on one day.
            BIG_SETS = -14.0;
            /// One more lift for the legs on a day than two, where another day takes legs as well.
            THIRD_LEG_LIFT = -12.0;
            /// The same where strength is the goal: legs that squat and pull heavy have little left.
            THIRD_LEG_LIFT_FOR_STRENGTH = -22.0;
            /// One more loaded hinge in the week of who begins at 65 or later.
            HINGED_TWICE = -40.0;
        "knee-and-hip":
            /// A hinge that a week has more than squats.
            HINGES_OVER_SQUATS = -12.0;
            /// A hinge or thrust that a day for the whole body has more than squats and lunges.
            HIPS_WITHOUT_KNEES = -10.0;
        "before-sport":
            /// A set over a few for what the client's sport works hard within two days and a half.
            HEAVY_BEFORE_SPORT = -9.0;
        "beside-sport":
            /// A set for what the client's sport works hard a day before or after, where another day is free of it.
            EVE_OF_SPORT = -10.0;
        "fresh-lifts":
            /// A lift for what another day, too close to its own, trains hard.
            TIRED_LIFT = -15.0;
        "strength-lifts":
            /// A week for strength without the press overhead with the bar, or half a form of the bench that a chest lacks.
            NO_BAR_PRESS = -20.0;
        "more-sets":
            /// A half-set up to the middle of its range.
            TO_MIDDLE = 3.0;
            /// A half-set from the middle of its range to the end.
            TO_HIGH = 1.0;
            /// A half-set of a smaller muscle without a target.
            EXTRA = 2.0;
            /// The same of arms and side delts where neither size nor strength is the goal, of calves and of the trunk.
            EXTRA_LITTLE = 1.0;
        "arm-work":
            /// A set of their own that arms lack where size is the goal.
            FEW_OF_ARMS = -7.0;
        "usual-sets":
            /// A set over the usual of a day's lifts or of its small work.
            OVER_USUAL = -9.0;
            /// The same of lunges and thrusts, which support the big lifts of the legs.
            OVER_SUPPORT = -11.0;
            /// The same where strength is the goal, and the minutes are the bar's.
            OVER_SUPPORT_FOR_STRENGTH = -20.0;
        "support-lifts":
            /// A lunge, leg curl, calf raise, thrust, hinge or carry more than supports the week of the goal.
            SUPPORT_AGAIN = -16.0;
        "pattern-repeats":
            /// A second press, row, squat or hinge of a pattern on a day that is not for few body parts.
            SAME_TODAY = -10.0;
            /// A third squat, hinge or thrust with the bar on a day, or a second lift for what should get less.
            THIRD_LEG_BAR = -30.0;
        "trunk-work":
            /// Trunk work that the week lacks of one a day, up to three.
            NO_TRUNK = -10.0;
            /// A week with trunk work on two days or more, none of it against bending to the side.
            NO_SIDE_WORK = -14.0;
            /// A week with trunk work on two days or more, none of it against the arch of the back.
            NO_FRONT_WORK = -14.0;
            /// A second trunk exercise of the week against the same movement, a third against the arch of the back.
            SAME_TRUNK = -6.0;
        "explosive-work":
            /// A week for power with a fast lift with the bar on one day only, or beside a pull off the floor.
            FAST_ONCE = -18.0;
            /// Three days or more for power with one squat, or a known fast lift on days of tired legs only.
            SQUATTED_ONCE = -24.0;
            /// A day for power without a jump or throw, or the first without a jump that carries nothing.
            NO_SPRING = -20.0;
            /// A day for power without a fast lift with the bar or a jump with a weight, past the first steps.
            NO_FAST_LOAD = -16.0;
            /// A week for power without a jump.
            NO_JUMP = -34.0;
            /// The same with a jump on one day only.
            JUMPS_ONCE = -16.0;
            /// A week for power without a throw.
            NO_THROW = -26.0;
            /// The same of two days or more with throws on one only.
            THROWS_ONCE = -12.0;
        "complete-week":
            /// An exercise that the week lacks of the small work which completes it.
            INCOMPLETE = -20.0;
            /// The same of what keeps an older client from falling, and of what a runner runs on.
            UNSTEADY = -60.0;
        "lifts-first":
            /// A single-joint exercise for chest, lats or quads over the number of lifts for them.
            LIFT_PASSED_BY = -15.0;
            /// Small work for biceps or triceps on a day without a pull or press, where size is not the goal.
            SMALL_WITHOUT_LIFT = -14.0;
        "two-days":
            /// A half-set over the share that one day may hold.
            LOPSIDED = -3.0;
        "stations":
            /// A station over three, so that a session does not wander.
            STATION = -2.0;
            /// A station over the number.
            STATION_OVER = -15.0;
        "main-lift-repeats":
            /// A further day of a main lift, for a beginner who learns it.
            AGAIN_BEGINNER = -18.0;
            /// A further day of a main lift from 65 on: what is known to suit is better than another form.
            AGAIN_SENIOR = -8.0;
            /// A further day of a lift with the bar for strength, where another form of it is as good.
            AGAIN_HEAVY = -10.0;
            /// A further day of a main lift where that is not the point: a relative does it.
            AGAIN_MAIN = -20.0;
            /// A further day of the same hinge: one is enough for a back, and its second day is a lighter relative.
            AGAIN_HINGE = -30.0;
            /// A second day, of three, of a lift that is asked for or is for what should get more, but a heavy hinge.
            LIKED_AGAIN = 28.0;
            /// The same of a squat or press that is liked, where strength or power is the goal.
            LIKED_HEAVY_AGAIN = 14.0;
            /// A second day of another lift that is liked, where size, strength or power is not the goal.
            LIKED_LIGHT_AGAIN = 18.0;
            /// The same where one of them is: a relative is nearly as good.
            ALSO_LIKED_AGAIN = 4.0;
            /// The same of a jump or throw, of which there are many.
            LIKED_JUMP_AGAIN = -8.0;
            /// A third day of a squat or press where strength or power is the goal.
            AGAIN_THIRD = -20.0;
            /// A further day of any other exercise.
            AGAIN_OTHER = -20.0;
            /// A set of a main lift over those of a heavy and a light day.
            SETS_AGAIN = -14.0;
            /// A week of two days or more with a loaded squat on one of them only.
            SQUATS_ONCE = -18.0;
            /// A movement that a beginner meets only once in the week.
            MET_ONCE = -12.0;
        "emphasis":
            /// A set that a muscle which should get more lacks of its own, beside the cost of those beyond two.
            FEW_OWN_SETS = -8.0;
            /// A half-set of a muscle that should get more under the most of its region.
            BEHIND = -3.0;
            /// A half-set of a muscle that should get less above the least of its range.
            NOT_SPARED = -8.0;
            /// More for the glutes without the leg moved out, on a machine, a cable or with a band.
            NO_ABDUCTION = -20.0;
        "pairs":
            /// A pair of two lifts.
            PAIR = 12.0;
            /// A pair of small work, which is done in turn by default.
            PAIR_SMALL = 14.0;
            /// A pair of a lift with small work.
            PAIR_MIXED = 12.0;
            /// The same where size is the goal, and small work has its own place at the end, or where fat is to be lost.
            PAIR_MIXED_LESS = 9.0;
            /// A bar on both legs or arms, or a known main lift, that goes in turn where a lead stands alone.
            LIFT_IN_TURN = -30.0;
            /// A pair where the client likes them, or the session leads with one.
            PAIR_LIKED = 24.0;
            /// An exercise that stands alone though it could go in turn, where the goal is to lose fat or to last.
            ALONE = -12.0;
            /// The same where the client likes pairs.
            ALONE_UNLIKED = -20.0;
            /// Small work that stands alone though it could go in turn, else.
            ALONE_SMALL = -8.0;
        "planned-time":
            /// Three minutes under the aim, and once more from five minutes under it on: that holds another exercise.
            IDLE = -12.0;
        "coach-view":
            /// Each exercise: something to set up, to explain and to keep in mind.
            ATTENTION = -5.0;
            /// Each exercise where all-round fitness is the goal: many movements count for more than many sets.
            ALL_ROUND = 3.0;
            /// A carry.
            CARRY = 2.0;
            /// The same where strength is the goal: hands, trunk and back at once.
            CARRY_FOR_STRENGTH = 4.0;
            /// An exercise that is no go-to where its pattern has one.
            SECOND_CHOICE = -8.0;
            /// One that a coach takes after another which is at hand.
            SECOND_TO = -13.0;
            /// A regular exercise where its pattern has a staple.
            REGULAR = -6.0;
            /// A special one where its pattern has a staple.
            SPECIAL = -20.0;
            /// A stand-in where its pattern has a staple.
            STAND_IN = -30.0;
            /// A movement that only a stand-in or a special exercise trains, though its muscle has a staple elsewhere.
            ONLY_A_STAND_IN = -14.0;
            /// A press, pull, squat or hinge without a load that goes up in steps, where its pattern has a loaded staple.
            UNLOADED_LIFT = -9.0;
            /// Other work without such a load, where its pattern has a loaded staple.
            UNLOADED = -4.0;
            /// A main lift with the bar, for strength and power.
            BAR_FOR_STRENGTH = 6.0;
            /// A pull off the floor with the bar, where strength is the goal.
            DEADLIFT = 8.0;
            /// A bar off the floor that the client does not know, where strength is not the goal.
            OFF_THE_FLOOR = -8.0;
            /// A machine, for a beginner.
            GUIDED = 5.0;
            /// A machine, from 65 on.
            GUIDED_SENIOR = 8.0;
            /// Dumbbells, and a main lift with the bar, for a beginner.
            IN_HANDS = 3.0;
            /// An exercise that takes weeks to learn, for a beginner and from 65 on.
            HARD_TO_LEARN = -8.0;
            /// One that takes some sessions to learn, from 65 on.
            TAKES_LEARNING = -2.0;
            /// Explosive work where power is the goal.
            FAST = 14.0;
            /// Work of one joint where size is not the goal: in turn with something it takes little time, and still some.
            SMALL_WORK = -7.0;
            /// Work of one joint for the triceps where size is not the goal.
            FILLER = -3.0;
            /// The same where strength is the goal.
            FILLER_FOR_STRENGTH = -1.0;
            /// Work of one joint for arms and side delts where power or endurance is the goal.
            FILLER_FOR_POWER = -12.0;
            /// Work of one joint for arms and the delts' sides and backs where the goal is to lose fat.
            FILLER_FOR_FAT = -4.0;
            /// A leg curl or a leg extension where size is not the goal: hinges and squats train the thighs as well.
            CURL_OF_THE_LEG = -5.0;
            /// A calf raise where the goal is to lose fat, or power, whose jumps train the calves.
            CALVES_FOR_FAT = -10.0;
            /// The trunk turned where power is not the goal: held against the turn it learns more.
            TURNED = -6.0;
            /// Raises for the side delts where size is not the goal: presses overhead train them as well.
            RAISE = -2.0;
            /// A row with a load on up to three days for strength or power: it pays for the presses.
            ROW_FOR_STRENGTH = 5.0;
            /// A row bent over where strength or power is the goal and the chest may lie on a bench: squats and pulls tire the back.
            BENT_ROW = -8.0;
            /// Work for the rear delts and the upper back's small muscles, for strength: it pays for the pressing.
            PAYS_FOR_PRESSES = 8.0;
            /// A fly, pullover or straight-arm pulldown where size is not the goal.
            MUCH_FILLER = -12.0;
            /// The same where size is the goal.
            FLY = -5.0;
            /// Work of one joint for what the client's own sport works hard twice a week.
            TIRED_BY_SPORT = -12.0;
            /// A throw, a carry or work for balance, from 65 on.
            FOR_LATER_YEARS = 22.0;
            /// A lift of few repetitions where endurance is the goal.
            ENDS_EARLY = -14.0;
            /// A set above the fewest of an exercise of several joints.
            MORE_OF_A_LIFT = 1.0;
            /// The same for a main lift.
            MORE_OF_A_MAIN_LIFT = 2.0;
            /// The same where strength or power is the goal: few lifts, many sets of each.
            MORE_FOR_STRENGTH = 4.0;
            /// Further points for a lift that is liked or whose load is known.
            PUSHED_SET = 3.0;
            /// A third set for the trunk, or of work of one joint where size is not the goal.
            THIRD_SMALL_SET = -4.0;
            /// A little of what a limit allows in its light form only: other work comes first.
            SPARINGLY = -12.0;
            /// An exercise that the client likes.
            PREFERRED = 25.0;
            /// An exercise that the client dislikes.
            AVOIDED = -40.0;
            /// Another free form of a lift with the bar that the client dislikes or never does.
            KIN = -20.0;
            /// A main lift of the last block.
            KEPT = 30.0;
            /// A lift that the client did lately.
            KNOWN = 10.0;
    }
}
