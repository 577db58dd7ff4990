"""A trial as it is written to a file."""

from dataclasses import dataclass

from ...display.safety_cautions import CAUTIONS
from ...record import Kilograms, Metres, Newtons, Record
from .bag_places import BAG_MASS
from .trial_plan import PULL, TrialPlan, TrialStep
from .trial_words import PROOF_SOURCE


@dataclass(frozen=True, repr=False)
class TrialRecord(Record):
    """A trial in plain numbers and words.

    Parameters
    ----------
    tree_distance : float
        Horizontal distance of the straps, m.
    head_strap_height, foot_strap_height : float
        Of the straps on the trees, m.
    bag_mass : float
        Water in each bag, kg.
    bag_places : tuple of float
        From the head bar along the flat cloth to the middle of each place, m; all on the middle line.
    bag_length, bag_breadth : float
        What a bag covers along and across the body, m.
    pull : float
        Across the middle of a line, to read its tension from how far it moves aside, N.
    proof_water : float
        Proof load, kg.
    proof_source : str
        Where that comes from.
    steps : tuple of TrialStep
        By rising water, the last the proof load.
    caution : str
        What comes before anything else.
    """

    tree_distance: Metres
    head_strap_height: Metres
    foot_strap_height: Metres
    bag_mass: Kilograms
    bag_places: tuple[float, ...]
    bag_length: Metres
    bag_breadth: Metres
    pull: Newtons
    proof_water: Kilograms
    proof_source: str
    steps: tuple[TrialStep, ...]
    caution: str


def record_trial(plan: TrialPlan) -> TrialRecord:
    """Return a trial in plain numbers and words.

    Parameters
    ----------
    plan : TrialPlan
        From :func:`~tautlay.cases.studies.trial.trial_plan.make_trial_plan`.
    """
    hammock, layout = plan.design.hammock, plan.layout
    return TrialRecord(
        plan.tree_distance,
        hammock.suspension.head.strap_height,
        hammock.suspension.foot.strap_height,
        BAG_MASS,
        tuple(bag.along for bag in layout.place(hammock.body, 0.0)),
        layout.length,
        layout.breadth,
        PULL,
        plan.proof.water,
        PROOF_SOURCE,
        plan.steps,
        CAUTIONS[0].text,
    )
