"""Cords of the channels, the legs and the lines."""

from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from .home_test import break_line, measure_size, stretch_line
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
class Cord(Material):
    """Round cord.

    Parameters
    ----------
    diameter : float
        Nominal diameter, m.
    linear_mass : float
        kg/m.
    breaking_load : float
        Of the cord itself, N; splices and knots reduce it.
    ea : float
        Axial stiffness of the worked-in cord, force per unit strain, N.

    Examples
    --------
    >>> cord = Cord("demo", "12-strand UHMWPE", 0.002, 2.6e-3, 4448.0, 100e3)
    >>> f"{1000.0 / cord.ea:.1%} longer under 1 kN"
    '1.0% longer under 1 kN'
    """

    category: ClassVar[str] = "cord"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("diameter", "diameter", "length"),
        ListColumn("linear_mass", "mass", "linear_mass"),
        ListColumn("breaking_load", "break", "force"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (
        ("diameter", "length"),
        ("breaking_load", "force"),
        ("linear_mass", "linear_mass"),
    )

    diameter: float = quantity("length", "cord diameter", test=partial(measure_size, "pulled cord"))
    linear_mass: float = quantity("linear_mass", "linear mass")
    breaking_load: float = quantity("force", "breaking load", test=break_line)
    ea: float = quantity("force", "axial stiffness", test=stretch_line)
