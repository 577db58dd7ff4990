"""Strength of the cloth of a channel per length: at its seam, and in the fold under the cord.

The strength of the stitches of that seam is in ``stitching``.
"""

from dataclasses import replace
from math import cos, hypot, pi, sin
from typing import NamedTuple

from ..materials import Fabric
from ..materials.short_repr import write_repr, write_value
from .capacity import Basis, Capacity, CapacityStep, Multiplier, find_capacity
from .factor import Reductions
from .fold import Fold
from .fold_section import FoldSection

# Strength of cloth with a seam over that of the cloth, by the number of rows, and its range. A flat-felled seam keeps
# 0.8 to 0.9; that two rows keep no less than the worst single row is engineering judgement.
EFFICIENCIES: dict[int, tuple[float, str, Basis, tuple[float, float]]] = {
    1: (0.5, "lower end of 0.5 to 0.7 for one row, general practice", "memory", (0.5, 0.7)),
    2: (
        0.7,
        "assumed for an untested rolled channel with two rows or more",
        "judgement",
        (0.5, 0.9),
    ),
}


class SewnChannel(NamedTuple):
    """A channel as it is sewn.

    Parameters
    ----------
    fold : Fold
        How it is folded.
    section : FoldSection
        The same cut across.
    fabric : Fabric
        Of the body.
    layers : int
        Of the body.
    """

    fold: Fold
    section: FoldSection
    fabric: Fabric
    layers: int

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.fabric.name,
            f"{self.layers} layers of the body",
            f"{write_value(self.section.width, 'length')} wide",
        )


def find_strip_strength(fabric: Fabric, angle: float, reductions: Reductions) -> Capacity:
    r"""Return the strength of one layer of cloth under a load at an angle to its warp.

    Between warp and weft an ellipse, :math:`S^{-2} = (\cos\varphi/S_1)^2 + (\sin\varphi/S_2)^2`.

    Parameters
    ----------
    fabric : Fabric
        The cloth.
    angle : float
        From warp to pull, rad.
    reductions : Reductions
        Losses by wet and age.

    Returns
    -------
    Capacity
        N/m.

    Notes
    -----
    For a pull within some 20 degrees of a thread. A narrow strip cut on the bias is weaker than the ellipse.

    Examples
    --------
    >>> from tautlay.materials import Fabric, read_library
    >>> cotton = read_library().find(Fabric, "cotton lawn 80 g/m2")
    >>> [round(find_strip_strength(cotton, angle, Reductions()).value) for angle in (0.0, 0.2, 1.5707963)]
    [6700, 6456, 3900]
    """
    along, across = abs(cos(angle)), abs(sin(angle))
    names = ("strength_warp", "strength_weft") if along >= across else ("strength_weft", "strength_warp")
    first, second = (
        find_capacity(fabric, name, "line_load", f"strip strength along the {name.removeprefix('strength_')}")
        for name in names
    )
    value = 1 / hypot(max(along, across) / first.value, min(along, across) / second.value)
    between = CapacityStep("load between warp and weft: an ellipse", "engineering judgement", "judgement")
    oblique = min(along, across) > 1e-6 and first.value != second.value
    steps = (*first.steps, *second.steps, between) if oblique else first.steps
    return reductions.apply(Capacity(value, "line_load", steps), fabric.kind)


def find_seam_cloth(sewn: SewnChannel, angle: float, reductions: Reductions) -> Capacity:
    """Return the strength of the perforated cloth at the seam: the body inboard of it, or the layers outboard.

    Parameters
    ----------
    sewn : SewnChannel
        The channel.
    angle : float
        From the body's warp to the pull, rad.
    reductions : Reductions
        Losses by wet and age.

    Returns
    -------
    Capacity
        N/m, the weaker of both.

    Raises
    ------
    ValueError
        For a laminate whose efficiency is not given: its sewn seams pull out.
    """
    if not is_usual(sewn):
        raise ValueError("the efficiency of a sewn seam of laminate has no usual value.")
    share, source, basis, spread = EFFICIENCIES[min(sewn.fold.seam.rows, 2)]
    times = Multiplier("seam, share of the cloth kept", "seam", share, spread)
    if sewn.fold.efficiency is not None:
        share, source, basis = sewn.fold.efficiency, "the design", "stated"
        times = times._replace(value=share, range=None)
    inboard = _add_layers(sewn, ("body",) * sewn.layers, angle, reductions)
    outboard = _add_layers(sewn, sewn.section.held, angle, reductions)
    weaker = min(inboard, outboard, key=lambda capacity: capacity.value)
    return weaker.keep(share, f"the seam keeps {share:.0%}", source, basis, times=times)


def find_fold_cloth(sewn: SewnChannel, angle: float, reductions: Reductions) -> Capacity:
    """Return the strength of the layers round the cord, each counted once though it has two legs.

    Parameters
    ----------
    sewn : SewnChannel
        The channel.
    angle : float
        From the body's warp to the pull, rad.
    reductions : Reductions
        Losses by wet and age.

    Returns
    -------
    Capacity
        N/m.
    """
    layers = _add_layers(sewn, sewn.section.pulled, angle, reductions)
    text = "both legs of a layer count as one, to allow for the sharp bend and chafe of the cord"
    return replace(layers, steps=(*layers.steps, CapacityStep(text, "engineering judgement", "judgement")))


def is_usual(sewn: SewnChannel) -> bool:
    """Return whether the seam's efficiency is given or has a usual value, which laminates have not."""
    fabrics = [sewn.fabric, *([sewn.fold.strip.fabric] if sewn.fold.strip else [])]
    return sewn.fold.efficiency is not None or not any("laminate" in fabric.kind for fabric in fabrics)


def _add_layers(sewn: SewnChannel, cloths: tuple[str, ...], angle: float, reductions: Reductions) -> Capacity:
    """Return the strength of several layers together; a strip counts with its weaker direction."""
    total, steps = 0.0, []
    for cloth in dict.fromkeys(cloths):
        count = cloths.count(cloth)
        if cloth == "body":
            one = find_strip_strength(sewn.fabric, angle, reductions)
        else:
            assert sewn.fold.strip is not None
            one = min(
                (find_strip_strength(sewn.fold.strip.fabric, turn, reductions) for turn in (0.0, pi / 2)),
                key=lambda capacity: capacity.value,
            )
        total += count * one.value
        words = f"{count} layers" if count > 1 else "1 layer"
        steps += [
            *one.steps,
            CapacityStep(f"{words} of the {cloth}, sharing evenly", "the fold of the design", "stated"),
        ]
    return Capacity(total, "line_load", tuple(steps))
