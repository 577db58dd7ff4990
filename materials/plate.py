"""Sheet for the plates at the corners."""

from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from .home_test import buy_certified, measure_size
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
class Plate(Material):
    """Flat sheet of one thickness.

    Parameters
    ----------
    thickness : float
        m.
    density : float
        kg/m3.
    tensile_strength : float
        Stress at which it breaks in tension, Pa; of a soft metal rather the stress at which it yields.
    shear_strength : float
        The same in shear, Pa.
    bearing_strength : float
        Pressure on the wall of a hole at which it gives way, over diameter times thickness, with the hole's middle at
        least 1.5 diameters from the edge, Pa.

    Examples
    --------
    >>> sheet = Plate("demo", "6061-T6", 0.002, 2713.0, 290e6, 186e6, 462e6)
    >>> round(sheet.density * sheet.thickness, 2)
    5.43
    """

    category: ClassVar[str] = "plate"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("thickness", "thickness", "length"),
        ListColumn("tensile_strength", "strength", "stress"),
        ListColumn("shear_strength", "in shear", "stress"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (("thickness", "length"),)
    mass_from: ClassVar[tuple[str, ...]] = ("thickness", "density")

    thickness: float = quantity("length", "plate thickness", test=partial(measure_size, "thickness"))
    density: float = quantity("density", "plate density")
    tensile_strength: float = quantity("stress", "plate strength", test=buy_certified)
    shear_strength: float = quantity("stress", "plate strength", test=buy_certified)
    bearing_strength: float = quantity("stress", "plate strength", test=buy_certified)
