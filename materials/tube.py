"""Tubes of spreader bars."""

from dataclasses import dataclass
from functools import partial
from math import pi
from typing import ClassVar

from .home_test import bend_bar, break_bar, measure_size
from .material import ListColumn, quantity
from .section import BarSection


@dataclass(frozen=True, repr=False)
class Tube(BarSection):
    r"""Round tube, :math:`A = \pi (d_o^2 - d_i^2)/4`, :math:`I = \pi (d_o^4 - d_i^4)/64`.

    Parameters
    ----------
    outer_diameter, wall : float
        m.
    modulus : float
        Young's modulus along the tube, in compression where it is known, Pa.
    density : float
        kg/m3.
    yield_strength : float
        Compressive yield stress (of a laminate: compressive failure stress), Pa.

    Raises
    ------
    ValueError
        For a number that is not positive, or a wall thicker than the radius.

    Notes
    -----
    The ends must be plugged or ferruled: the crushing of a bare end is not part of these numbers.

    Examples
    --------
    >>> tube = Tube("demo", "6061-T6", 0.016, 0.001, 69.6e9, 2713.0, 234e6)
    >>> round(tube.ei, 1), round(tube.linear_mass * 1e3)
    (92.7, 128)
    """

    category: ClassVar[str] = "tube"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("outer_diameter", "outside", "length"),
        ListColumn("wall", "wall", "length"),
        ListColumn("linear_mass", "mass", "linear_mass"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (
        ("outer_diameter", "length"),
        ("wall", "length"),
        ("linear_mass", "linear_mass"),
    )
    sizes: ClassVar[tuple[str, ...]] = ("outer_diameter", "wall")

    outer_diameter: float = quantity("length", "tube diameter", test=partial(measure_size, "outer diameter"))
    wall: float = quantity("length", "tube wall", test=partial(measure_size, "wall"))
    modulus: float = quantity("stress", "bar modulus", test=bend_bar)
    density: float = quantity("density", "bar density")
    yield_strength: float = quantity("stress", "bar strength", test=break_bar)

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.wall > self.outer_diameter / 2.0:
            raise ValueError(
                f"{self.label}: wall = {self.wall} m must not exceed the radius {self.outer_diameter / 2.0} m"
            )

    @property
    def inner_diameter(self) -> float:
        """Bore, m."""
        return self.outer_diameter - 2.0 * self.wall

    @property
    def area(self) -> float:
        """Area of the wall, m2."""
        return pi * (self.outer_diameter**2 - self.inner_diameter**2) / 4.0

    @property
    def second_moment(self) -> float:
        """Second moment of area about a diameter, m4."""
        return pi * (self.outer_diameter**4 - self.inner_diameter**4) / 64.0
