r"""Parts too weak for the least force that statics leaves them, whatever the shape: found without solving.

Both lines together carry the weight W of the person, times the factor of a sudden load. A line of the length L that
hangs from a strap at the height h, above an apex that is no lower than the clearance c required, stands at an angle
:math:`\theta` with :math:`\sin\theta \le s = \min(1, (h - c) / L)`, since cords only grow longer under load. So

.. math:: T_\mathrm{head} s_\mathrm{head} + T_\mathrm{foot} s_\mathrm{foot} \ge W
          \quad\Rightarrow\quad \max(T_\mathrm{head}, T_\mathrm{foot}) \ge \frac{W}{s_\mathrm{head} + s_\mathrm{foot}}.

The two legs of that end carry the line's pull less the weight m g of the hammock, so that one of them bears at least
half of that. A design is excluded only where at both ends some part bears less than the factor required times this
force, with no more taken from its strength than its ends take for certain. The apex is no lower than the lowest corner,
since its legs pull it down and its line up; a design that hangs lower than c fails in any case.

Source: equilibrium of forces, textbook statics.
"""

from collections.abc import Iterator
from typing import NamedTuple

from ....making import CordTermination, TerminationType, find_capacity, find_share
from ....materials import Cord, Webbing
from ....materials.short_repr import write_repr
from ....meshing.person_load import GRAVITY
from ...design import Design, find_load_factor
from ...judging.verdict.limit import CLEARANCE
from ...judging.weighing import WeightList

_LEAST_SINE = 1e-6


class WeakPart(NamedTuple):
    """A part that cannot bear the least force on it: its name, that force, N, and its strength, N."""

    part: str
    force: float
    strength: float
    required: float

    def __repr__(self) -> str:
        return write_repr(self, self.part, f"{self.strength:.0f} N of {self.required * self.force:.0f} N")


def find_weak_parts(design: Design, weights: WeightList) -> tuple[WeakPart, ...]:
    """Return of each end a part too weak for the least force; nothing unless both ends have one.

    Parameters
    ----------
    design : Design
        With what it has to stand.
    weights : WeightList
        Of all its parts.
    """
    pull, own = find_least_pull(design), weights.add().most * GRAVITY
    found = [next(_list_weak(design, end, pull, own), None) for end in ("head", "foot")]
    return tuple(each for each in found if each is not None) if all(found) else ()


def find_least_pull(design: Design) -> float:
    """Return the least tension of the line that carries more, N, under the worst of all that a design has to stand.

    Parameters
    ----------
    design : Design
        With its people, loads and clearance.
    """
    terms = design.terms
    clearance = max(
        (limit.value for limit in terms.limits if (limit.key, limit.side) == (CLEARANCE, "least")), default=None
    )
    weight = max(case.who.person.mass * GRAVITY * find_load_factor(design, case.load) for case in terms.list_cases())
    sines = 0.0
    for end in design.hammock.ends:
        hung = end.suspension
        room = 1.0 if clearance is None else (hung.strap_height - clearance) / hung.line_length
        sines += min(1.0, max(room, _LEAST_SINE))
    return weight / sines


def _list_weak(design: Design, end: str, pull: float, own: float) -> Iterator[WeakPart]:
    """Yield the parts of one end that would fail if it were the one that carries more."""
    hung, rigging = design.hammock.suspension.pick(end), design.workmanship.pick_rigging(end)
    yield from _judge(design, f"{end} line", hung.line, pull, (rigging.line_at_apex, rigging.line_at_tree))
    leg = max((pull - own) / 2.0, 0.0)
    yield from _judge(design, f"{end} leg", hung.leg, leg, (rigging.leg_at_corner, rigging.leg_at_apex))
    if hung.strap is not None and hung.wrap is not None:
        yield from _judge(design, f"{end} strap", hung.strap.webbing, pull * hung.wrap.share, ())


def _judge(
    design: Design, part: str, material: Cord | Webbing, force: float, ends: tuple[CordTermination | None, ...]
) -> Iterator[WeakPart]:
    """Yield a part whose strength is less than what its factor asks of that force."""
    whole = find_capacity(material, "breaking_load", "force", "breaking load")
    strength = design.workmanship.reductions.apply(whole, material.kind, rope=isinstance(material, Cord)).value
    made = [end for end in ends if end is not None and find_share(material, end) is not None]
    if len(made) == len(ends) and any(end.method is TerminationType.RUNS_ON for end in made):
        return  # neither its length nor such an end need be checked
    shares = [find_share(material, end) for end in made]
    strength *= min((share.value for share in shares if share is not None), default=1.0)
    required = design.workmanship.factors[material.category].value
    if strength < required * force:
        yield WeakPart(part, force, strength, required)
