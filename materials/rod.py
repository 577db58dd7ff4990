"""Solid rods and dowels of spreader bars."""

from dataclasses import dataclass
from functools import partial
from math import pi
from typing import ClassVar

from .home_test import bend_bar, break_bar, measure_size
from .material import ListColumn, quantity
from .section import BarSection


@dataclass(frozen=True, repr=False)
class RodSection(BarSection):
    r"""Round rod, :math:`A = \pi d^2/4`, :math:`I = \pi d^4/64`.

    Parameters
    ----------
    diameter : float
        m.
    modulus : float
        Young's modulus along the rod, Pa.
    density : float
        kg/m3.
    compression_strength : float
        Compressive failure stress along the rod, Pa; of wood the weak tail, not the average.

    Examples
    --------
    >>> dowel = RodSection("demo", "yellow birch", 0.0127, 13.86e9, 694.0, 39.4e6)
    >>> round(dowel.ei, 2), round(dowel.linear_mass * 1e3)
    (17.7, 88)
    """

    category: ClassVar[str] = "rod"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("diameter", "diameter", "length"),
        ListColumn("linear_mass", "mass", "linear_mass"),
        ListColumn("compression_strength", "strength", "stress"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (("diameter", "length"), ("linear_mass", "linear_mass"))
    sizes: ClassVar[tuple[str, ...]] = ("diameter",)

    diameter: float = quantity("length", "rod diameter", test=partial(measure_size, "diameter"))
    modulus: float = quantity("stress", "bar modulus", test=bend_bar)
    density: float = quantity("density", "bar density")
    compression_strength: float = quantity("stress", "bar strength", test=break_bar)

    @property
    def area(self) -> float:
        """Area, m2."""
        return pi * self.diameter**2 / 4.0

    @property
    def second_moment(self) -> float:
        """Second moment of area about a diameter, m4."""
        return pi * self.diameter**4 / 64.0
