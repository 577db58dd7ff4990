"""Flat straps."""

from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from .home_test import break_line, measure_size, stretch_line
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
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
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("width", "width", "length"),
        ListColumn("linear_mass", "mass", "linear_mass"),
        ListColumn("breaking_load", "break", "force"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (
        ("width", "length"),
        ("breaking_load", "force"),
        ("linear_mass", "linear_mass"),
    )

    width: float = quantity("length", "strap width", test=partial(measure_size, "width"))
    thickness: float = quantity("length", "strap thickness", test=partial(measure_size, "thickness"))
    linear_mass: float = quantity("linear_mass", "linear mass")
    breaking_load: float = quantity("force", "breaking load", test=break_line)
    ea: float = quantity("force", "axial stiffness", test=stretch_line)
