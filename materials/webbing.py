"""Flat straps."""

from dataclasses import dataclass
from typing import ClassVar

from .material import Material, quantity


@dataclass(frozen=True)
class Webbing(Material):
    """Woven strap, flat or a flattened tube.

    Parameters
    ----------
    width, thickness : float
        As it lies flat, m.
    linear_mass : float
        kg/m.
    breaking_load : float
        Of the strap itself, N; sewn loops and hitches reduce it.
    ea : float
        Axial stiffness of the worked-in strap, force per unit strain, N.

    Examples
    --------
    >>> strap = Webbing("demo", "polyester", 0.0254, 0.0013, 0.025, 5.9e3, 41e3)
    >>> round(strap.breaking_load / strap.width / 1e3)
    232
    """

    category: ClassVar[str] = "webbing"

    width: float = quantity("length", "strap width")
    thickness: float = quantity("length", "strap thickness")
    linear_mass: float = quantity("linear_mass", "linear mass")
    breaking_load: float = quantity("force", "breaking load")
    ea: float = quantity("force", "axial stiffness")
