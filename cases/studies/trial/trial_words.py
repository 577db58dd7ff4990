"""What a trial tells its reader: how to load and measure, what differences mean, what to take care of."""

from ....materials import Sentence, make_sentence
from .bag_places import BAG_MASS
from .trial_plan import PULL, TrialPlan, TrialStep

PROOF_SOURCE = (
    "engineering judgement, no source: the pull of somebody who lets go while just touching the cloth. More than the "
    "125 % of the rated load that US OSHA 29 CFR 1926.251(a)(4) asks of custom-made tackle (from memory, unverified)"
)
_TOUCHES = 0.05  # m; cloth and bags hang below the line that is computed: judgement
_OUTSIDE = make_sentence(
    "A value outside its range: stop, take the water out, measure lengths, widths, straps and water again. If all is "
    "as designed, the library is wrong for your cloth or cord: `tautlay fit` finds out where."
)


def list_steps(plan: TrialPlan) -> tuple[Sentence, ...]:
    """Return what is done, in order."""
    suspension, layout = plan.design.hammock.suspension, plan.layout
    marks = [bag.along for bag in layout.place(plan.design.hammock.body, 0.0)]
    return (
        make_sentence(
            "Hang it with the straps {distance:length.4} apart, at {head:length.4} (head) and {foot:length.4} (foot). "
            "Mark half the length of the body on the middle line and on both edges, and the middle of both bars. On "
            "the middle line mark {one:length.3}, {two:length.3}, {three:length.3} and {four:length.3} from the head "
            "bar, along the cloth.",
            distance=plan.tree_distance, head=suspension.head.strap_height, foot=suspension.foot.strap_height,
            one=marks[0], two=marks[1], three=marks[2], four=marks[3],
        ),
        make_sentence(
            "Empty: look first. Legs untwisted, eyes seated, no thread under pull. Write the heights down; limp cloth "
            "and slack lines have no expected value. Measured again at the end, they tell what knots, splices and "
            "folds gave."
        ),
        make_sentence(
            "Fill bags with {mass:mass.2} of water (weigh them). Lay them flat across the middle, one on each mark, "
            "{length:length.2} along and {breadth:length.2} across; the next round on top. They must not slide: lay "
            "them on a towel, end to end, so that each leans on the next. Measure breadth and marks under load.",
            mass=BAG_MASS, length=layout.length, breadth=layout.breadth,
        ),
        make_sentence(
            "After each round wait five minutes, then measure from level ground with a rule, to 2 mm. Tension: a "
            "luggage scale in the line, or pull across the middle of the line with {pull:force.2} and measure how far "
            "it moves from a string along it (to 0.5 mm): tension = pull x length / (4 x aside).",
            pull=PULL,
        ),
        make_sentence(
            "Proof load, last and before anyone lies in it: {proof:mass.3} (sand bags will do) for ten minutes, from "
            "aside. Take it out, look at every seam, splice, knot, bar and strap. Nothing may have slipped, torn or "
            "bent.",
            proof=plan.proof.water,
        ),
    )  # fmt: skip


def list_meanings() -> tuple[Sentence, ...]:
    """Return what differences from the expected values mean."""
    return (
        make_sentence(
            "Heights off by the same at every load: a strap, a line, a leg or the distance of the trees, not stretch."
        ),
        make_sentence("Off by more with more water: line, strap or cord stretches more (lower) or less than expected."),
        make_sentence(
            "Bars higher, middle lower, edges closer together, most at the smallest load: the cloth shears more "
            "easily. The other way round: it is stiffer in shear."
        ),
        make_sentence("Edges closer together and nothing else: the bags lie narrower, or the arcs are cut deeper."),
        make_sentence(
            "Tension off where heights are right: weigh the water, measure the angle. Left and right edge differ: "
            "legs, side cords or bags are uneven."
        ),
        _OUTSIDE,
    )


def list_trial_cautions(plan: TrialPlan) -> tuple[Sentence, ...]:
    """Return what to take care of during a trial, beyond the cautions of every page; first where it touches ground."""
    low = [step for step in plan.steps if step.ground_clearance < _TOUCHES]
    return (
        *(_note_ground(step) for step in low[:1]),
        make_sentence("Nobody under, in or in line with it while it is loaded: what breaks whips back, bars fly."),
        make_sentence(
            "Hang it as low as the ground allows, over grass or mats, with a board under the lowest point: water falls "
            "a hand's breadth, not a metre."
        ),
        make_sentence("Do it only if `tautlay judge` passes. A trial that went well proves this hammock on this day."),
    )


def _note_ground(step: TrialStep) -> Sentence:
    """Return that it comes down to the ground under an amount of water."""
    return make_sentence(
        "TOO LOW: under {water:mass} the lowest point comes {height:length} above the ground, so that bags rest on it. "
        "Raise both straps for the trial (`strap_height`).",
        water=step.water,
        height=step.ground_clearance,
    )
