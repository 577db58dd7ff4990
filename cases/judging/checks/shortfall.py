"""What a part that fails would need, and what to choose instead."""

from math import prod
from types import MappingProxyType

from ....materials import Sentence, make_sentence
from .check import Check, name_part

_KEPT = "share kept"  # in the name of what a knot, splice or bend leaves of a cord
# By kind of part, what to choose instead.
_REMEDIES = MappingProxyType(
    {
        "cord": "Choose a cord that breaks at {gross:force} or more{why}, or another ending.",
        "webbing": "Choose a strap that breaks at {gross:force} or more{why}, or another ending.",
        "cloth": "Choose cloth {ratio} times as strong, or sew more layers there.",
        "bury": "Bury {needed:length} or more (bury); a thicker cord needs more still.",
        "seam": "Sew it {ratio} times as strong: thicker thread, shorter stitches or more rows.",
    }
)
_BAR = "Choose a thicker or a shorter bar."
_CORNER = (
    'Stitch the cord {ratio} times as strong at the corners: a longer corner_length (with "locked": lock_length), '
    "thicker thread, shorter stitches or more rows."
)


def make_shortfall(check: Check) -> Sentence:
    """Return what a part that fails needs, what it has, and what to choose instead.

    A knot, splice or bend leaves a share of a cord's strength: the cord to buy has to be as much stronger.

    Parameters
    ----------
    check : Check
        One that fails.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep, Multiplier
    >>> cord = Capacity(4000.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> splice = Multiplier("adjustable splice, share kept", "end", 0.6)
    >>> spliced = cord.keep(0.6, "a splice keeps 60 %", "common practice, no source", "judgement", times=splice)
    >>> check = Check("head leg", "splice breaks", 600.0, spliced, FACTORS["cord"])
    >>> need, advice = str(make_shortfall(check)).split(". ", 1)
    >>> need
    'Head leg, splice breaks: needs 3000 N, has 2400 N'
    >>> advice
    'Choose a cord that breaks at 5000 N or more (its ending keeps 60% of that), or another ending.'
    """
    capacity, needed = check.capacity, check.asked.value * check.demand
    kept = prod(step.times.value for step in capacity.steps if step.times is not None and _KEPT in step.times.noun)
    remedy = _pick_remedy(check)
    unit = capacity.dimension
    return make_sentence(
        f"{{part}}, {{mechanism}}: needs {{needed:{unit}}}, has {{held:{unit}}}. {remedy}".strip(),
        part=name_part(check.part).capitalize(),
        mechanism=check.mechanism,
        needed=needed,
        held=capacity.value,
        gross=needed / kept,
        why=f" (its ending keeps {kept:.0%} of that)" if kept < 1.0 else "",
        ratio=f"{needed / capacity.value:.2f}",
    )


def _pick_remedy(check: Check) -> str:
    """Return what to choose instead."""
    if check.part.endswith(" bar"):
        return _BAR
    if check.part.endswith(" corner") and check.mechanism == "cord stitching tears":
        return _CORNER
    return _REMEDIES.get(check.asked.kind, "")
