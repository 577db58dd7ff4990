r"""Thrust at which a straight, pin-ended bar of several sections buckles.

Bent sideways by y, a bar under the thrust P carries the moment P y. On each section
:math:`EI\,y'' + P y = 0`, so that :math:`y = R \sin(kx + \varphi)` with :math:`k = \sqrt{P/EI}`; y and its slope
go on from section to section, but a joint of stiffness c adds a kink of :math:`-P y/c` to the slope. The bar holds
as long as the bend that begins at one end does not come back to zero before the other.
Source: S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed. (1961), ch. 2, unverified.
"""

from collections.abc import Sequence
from math import atan2, inf, isfinite, pi, sin, sqrt

_HALVINGS = 200  # more than a float has digits


def buckling_load(
    lengths: Sequence[float], rigidities: Sequence[float], *, joint_stiffness: Sequence[float] | None = None
) -> float:
    """Return the buckling load of a pin-ended bar made of straight sections, N.

    Parameters
    ----------
    lengths : (k,)
        Of the sections from end to end, m.
    rigidities : (k,)
        Bending rigidity EI of each, N m2.
    joint_stiffness : (k - 1,) or None
        Rotational stiffness of the joint between each two sections, N m/rad; None where all are rigid.

    Returns
    -------
    float
        Elastic buckling load, for a bar without a bow that is pushed through its axis: an upper bound of what
        a real bar holds.

    Raises
    ------
    ValueError
        For numbers that are not positive and finite, or of different counts.

    Examples
    --------
    >>> round(buckling_load([0.9], [93.187492]), 4)  # Euler: pi^2 EI / L^2
    1135.4613
    """
    joints = _check(lengths, rigidities, joint_stiffness)
    low, high = 0.0, pi**2 * max(rigidities) / sum(lengths) ** 2  # nothing is stiffer than its stiffest section
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (low, middle) if _has_buckled(middle, lengths, rigidities, joints) else (middle, high)
    return high


def _check(
    lengths: Sequence[float], rigidities: Sequence[float], joint_stiffness: Sequence[float] | None
) -> Sequence[float]:
    """Refuse what is no bar; return the stiffness of every joint."""
    count = len(lengths)
    joints = [inf] * (count - 1) if joint_stiffness is None else joint_stiffness
    if count == 0 or len(rigidities) != count or len(joints) != count - 1:
        raise ValueError(
            f"a bar of {count} lengths needs as many rigidities and one joint fewer, got {len(rigidities)} rigidities "
            f"and {len(joints)} joints."
        )
    for name, values in (("lengths", lengths), ("rigidities", rigidities), ("joint_stiffness", joints)):
        for value in values:
            if not value > 0 or (name != "joint_stiffness" and not isfinite(value)):
                raise ValueError(f"{name} must be positive, got {value}.")
    return joints


def _has_buckled(thrust: float, lengths: Sequence[float], rigidities: Sequence[float], joints: Sequence[float]) -> bool:
    """Return whether the bend comes back to zero before the far end."""
    bend, slope = 0.0, 1.0
    for length, rigidity, joint in zip(lengths, rigidities, [*joints, inf], strict=True):
        k = sqrt(thrust / rigidity)
        size, phase = sqrt((bend * k) ** 2 + slope**2) / k, atan2(bend * k, slope)
        if phase + k * length >= pi:
            return True
        bend, slope = size * sin(phase + k * length), size * k * sin(phase + k * length + pi / 2)
        slope -= thrust * bend / joint
    return False
