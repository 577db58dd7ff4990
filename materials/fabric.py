"""Cloth of the body."""

from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from .home_test import measure_narrowing, measure_stretch, measure_tear, pull_bias_strip
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
class Fabric(Material):
    """Woven or laminated cloth, one layer.

    Parameters
    ----------
    areal_mass : float
        kg/m2.
    warp, weft : float
        Stiffness along warp and weft in the working range, N/m.
    poisson : float
        Contraction along the weft per stretch along the warp, 1.
    shear : float
        Shear stiffness, N/m per rad.
    strength_warp, strength_weft : float
        Breaking strength of a strip, N/m.
    elongation : float or None
        Strain at break, 1.

    Raises
    ------
    ValueError
        For a number that is not positive, or a Poisson ratio with ``poisson**2 >= warp / weft``, for which
        the cloth would give energy back when it is stretched.

    Examples
    --------
    >>> cloth = Fabric("demo", "ripstop nylon", 0.037, 30e3, 25e3, 0.15, 54.0, 7.4e3, 7.4e3)
    >>> cloth.warp / cloth.weft
    1.2
    """

    category: ClassVar[str] = "fabric"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("areal_mass", "mass", "areal_mass"),
        ListColumn("warp", "stiffness", "line_stiffness"),
        ListColumn("strength_warp", "strength", "line_load"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (("areal_mass", "areal_mass"), ("yarn", "linear_mass"))
    mass_from: ClassVar[tuple[str, ...]] = ("areal_mass",)

    areal_mass: float = quantity("areal_mass", "fabric areal mass")
    warp: float = quantity("line_stiffness", "fabric stiffness", test=partial(measure_stretch, "warp"))
    weft: float = quantity("line_stiffness", "fabric stiffness", test=partial(measure_stretch, "weft"))
    poisson: float = quantity("ratio", "Poisson ratio", test=measure_narrowing)
    shear: float = quantity("line_stiffness", "fabric shear stiffness", test=pull_bias_strip)
    strength_warp: float = quantity("line_load", "fabric strength", test=partial(measure_tear, "warp"))
    strength_weft: float = quantity("line_load", "fabric strength", test=partial(measure_tear, "weft"))
    elongation: float | None = quantity("ratio", "elongation", optional=True)

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.poisson**2 >= self.warp / self.weft:
            limit = (self.warp / self.weft) ** 0.5
            raise ValueError(f"{self.label}: poisson = {self.poisson} must stay below sqrt(warp/weft) = {limit:.3g}")
