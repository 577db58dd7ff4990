"""What cloth, cords, straps and thread are spun from: what a night and rain do to it."""

from dataclasses import dataclass
from typing import ClassVar

from .home_test import stretch_wet, watch_creep, weigh_wet
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
class TextileFibre(Material):
    """Textile fibre; all but the density may be unknown.

    Parameters
    ----------
    density : float
        kg/m3.
    creep : float or None
        Strain that a tenfold time adds under the breaking load, 1; proportional to the load.
    creep_time : float or None
        Longest time for which that is known, s.
    creep_shift : float or None
        By how much warmer creep is ten times as fast, K.
    wet_stiffness : float or None
        Share of its stiffness that is left when it is soaked, 1; of its strength
        :class:`~tautlay.making.Reductions` tells.
    water : float or None
        Mass of the water it holds when soaked, in itself and between the yarns, over its own mass, 1.

    Examples
    --------
    >>> fibre = TextileFibre("demo", "polyamide", 1140.0, 0.02, 1e6, None, 0.9, 0.5)
    >>> f"{fibre.creep * 0.1:.2%} longer after ten times the time, under a tenth of its breaking load"
    '0.20% longer after ten times the time, under a tenth of its breaking load'
    """

    category: ClassVar[str] = "fibre"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("creep", "creep", "ratio"),
        ListColumn("wet_stiffness", "wet", "ratio"),
        ListColumn("water", "water", "ratio"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (("density", "density"),)
    mass_from: ClassVar[tuple[str, ...]] = ("density",)

    density: float = quantity("density", "fibre density")
    creep: float | None = quantity("ratio", "creep", optional=True, test=watch_creep)
    creep_time: float | None = quantity("duration", "creep time", optional=True, test=watch_creep)
    creep_shift: float | None = quantity("temperature_difference", "creep shift", optional=True, test=watch_creep)
    wet_stiffness: float | None = quantity("ratio", "share when wet", optional=True, test=stretch_wet)
    water: float | None = quantity("ratio", "water held", optional=True, test=weigh_wet)
