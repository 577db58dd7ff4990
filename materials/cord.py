"""Cords of the channels, the legs and the lines."""

from dataclasses import dataclass
from typing import ClassVar

from .material import Material, quantity


@dataclass(frozen=True)
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

    diameter: float = quantity("length", "cord diameter")
    linear_mass: float = quantity("linear_mass", "linear mass")
    breaking_load: float = quantity("force", "breaking load")
    ea: float = quantity("force", "axial stiffness")
