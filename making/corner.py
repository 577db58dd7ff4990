r"""The corner that joins side cord, leg and bar: a plate with holes, or eyes over the bar's tip.

A plate of thickness t under a pull F at a hole of diameter d, its middle e from the edge it is pulled towards, width w
across the pull:

.. math:: F_{net} = (w-d)\,t\,F_{tu}, \quad F_{bearing} = b\,t\,F_{bru}, \quad F_{out} = 2\,t\,(e-d/2)\,F_{su}

with b the width of what pulls: the cord's diameter, or the hole's where the tip fills it. Shear-out counts two planes
from the rim of the hole straight to the edge. Bending of the plate, and pulls that do not meet in one point, are
ignored.
"""

from dataclasses import dataclass
from math import pi

from ..materials import Plate, make_sentence
from ..materials.short_repr import write_repr, write_value
from .capacity import Capacity, CapacityStep, find_capacity

FORMULAS = "handbooks of bolted and pinned joints (AISC 360 chapter J, Bruhn D1, Shigley), unverified"


@dataclass(frozen=True)
class TipLoop:
    """Eyes of cord and leg laid over the tip of the bar.

    Parameters
    ----------
    tip : float
        Diameter of the tip, m.

    Examples
    --------
    >>> TipLoop(0.01).bend_diameter
    0.01
    """

    tip: float

    @property
    def bend_diameter(self) -> float:
        """What cord and leg are bent over, m."""
        return self.tip


@dataclass(frozen=True)
class Hole:
    """A hole in a plate.

    Parameters
    ----------
    name : str
        What it is, such as ``cord hole``.
    diameter : float
        m.
    edge : float
        From its middle to the edge it is pulled towards, m.
    """

    name: str
    diameter: float
    edge: float


@dataclass(frozen=True)
class CornerPlate:
    """A plate with holes for the tip of the bar, the side cord and the leg.

    Parameters
    ----------
    plate : Plate
        Sheet it is cut from.
    width : float
        Across the pull at each hole, m.
    tip_hole, tip_edge : float
        Diameter, and middle to edge, m.
    cord_hole, cord_edge : float
        The same of the holes of cord and leg, m.
    edge_radius : float
        To which the rims of these holes are rounded, m.
    length : float or None
        Overall, m; None is not given. Only its mass needs it.

    Examples
    --------
    >>> from tautlay.materials import Plate, read_library
    >>> sheet = read_library().find(Plate, "6061-T6 sheet 2 mm")
    >>> corner = CornerPlate(sheet, 0.03, 0.01, 0.015, 0.006, 0.012, 0.001)
    >>> corner.bend_diameter, corner.tip.name
    (0.002, 'tip hole')
    """

    plate: Plate
    width: float
    tip_hole: float
    tip_edge: float
    cord_hole: float
    cord_edge: float
    edge_radius: float
    length: float | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.plate.name,
            f"{write_value(self.width, 'length')} wide",
            f"holes {write_value(self.tip_hole, 'length')} and {write_value(self.cord_hole, 'length')}",
        )

    @property
    def area(self) -> float | None:
        """Sheet in it, m2: a rectangle less its three holes, its corners not rounded off; None is not given."""
        if self.length is None:
            return None
        return self.width * self.length - pi / 4 * (self.tip_hole**2 + 2 * self.cord_hole**2)

    @property
    def bend_diameter(self) -> float:
        """What cord and leg are bent over, m: twice the rounding, and never more than the plate is thick."""
        return min(2.0 * self.edge_radius, self.plate.thickness)

    @property
    def tip(self) -> Hole:
        """Hole of the bar's tip."""
        return Hole("tip hole", self.tip_hole, self.tip_edge)

    @property
    def cord(self) -> Hole:
        """Hole of the side cord."""
        return Hole("cord hole", self.cord_hole, self.cord_edge)

    @property
    def leg(self) -> Hole:
        """Hole of the leg, made like that of the cord."""
        return Hole("leg hole", self.cord_hole, self.cord_edge)


Corner = TipLoop | CornerPlate


def find_net_section(corner: CornerPlate, hole: Hole) -> Capacity:
    """Return the pull, N, at which the plate breaks beside a hole, ``(w - d) t Ftu``.

    Examples
    --------
    >>> from tautlay.materials import Plate, read_library
    >>> sheet = read_library().find(Plate, "6061-T6 sheet 2 mm")
    >>> corner = CornerPlate(sheet, 0.03, 0.01, 0.015, 0.006, 0.012, 0.001)
    >>> round(find_net_section(corner, corner.cord).value)  # 24 mm x 2 mm x 289.6 MPa
    13900
    """
    text = make_sentence(
        "(width {w:length} less hole {d:length}) x thickness {t:length}",
        w=corner.width,
        d=hole.diameter,
        t=corner.plate.thickness,
    )
    return _take(corner, "tensile_strength", (corner.width - hole.diameter) * corner.plate.thickness, text)


def find_bearing(corner: CornerPlate, width: float) -> Capacity:
    """Return the pull, N, at which a hole is crushed by a cord or tip ``width`` m wide, ``b t Fbru``.

    Examples
    --------
    >>> from tautlay.materials import Plate, read_library
    >>> sheet = read_library().find(Plate, "6061-T6 sheet 2 mm")
    >>> corner = CornerPlate(sheet, 0.03, 0.01, 0.015, 0.006, 0.012, 0.001)
    >>> round(find_bearing(corner, 0.002).value)  # 2 mm x 2 mm x 462 MPa
    1848
    """
    text = make_sentence("contact width {b:length} x thickness {t:length}", b=width, t=corner.plate.thickness)
    return _take(corner, "bearing_strength", width * corner.plate.thickness, text)


def find_tear_out(corner: CornerPlate, hole: Hole) -> Capacity:
    """Return the pull, N, at which a hole tears out to the edge, ``2 t (e - d/2) Fsu``.

    Raises
    ------
    ValueError
        For a hole that reaches over the edge.

    Examples
    --------
    >>> from tautlay.materials import Plate, read_library
    >>> sheet = read_library().find(Plate, "6061-T6 sheet 2 mm")
    >>> corner = CornerPlate(sheet, 0.03, 0.01, 0.015, 0.006, 0.012, 0.001)
    >>> round(find_tear_out(corner, corner.cord).value)  # 2 x 2 mm x 9 mm x 186.2 MPa
    6702
    """
    left = hole.edge - hole.diameter / 2
    if left <= 0.0:
        raise ValueError(f"the {hole.name} reaches over the edge of its plate.")
    text = make_sentence("two planes of {left:length} x thickness {t:length}", left=left, t=corner.plate.thickness)
    return _take(corner, "shear_strength", 2 * corner.plate.thickness * left, text)


def _take(corner: CornerPlate, field: str, area: float, text: str) -> Capacity:
    """Return the force that a strength of the plate gives on an area, m2."""
    strength = find_capacity(corner.plate, field, "stress", field.replace("_", " "))
    return Capacity(strength.value * area, "force", (*strength.steps, CapacityStep(text, FORMULAS, "memory")))
