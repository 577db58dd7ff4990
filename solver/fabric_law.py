"""Stiffness law of cloth: orthotropic, linear in Green strain, unable to resist compression."""

from dataclasses import dataclass, field

import numpy as np

from .element import Floats


@dataclass(frozen=True)
class FabricLaw:
    r"""Orthotropic plane-stress law per unit width, relaxed to a tension field.

    Strain follows stress as :math:`E_{11} = S_{11}/K_1 - \nu S_{22}/K_1`,
    :math:`E_{22} = S_{22}/K_2 - \nu S_{11}/K_1`, :math:`2E_{12} = S_{12}/G`, with PK2 line stress S.

    Parameters
    ----------
    warp, weft : float
        Stiffness along warp and weft, N/m.
    poisson : float
        Contraction along the weft per stretch along the warp, 1.
    shear : float
        Shear stiffness, N/m per rad.
    tension_only : bool
        Relax the energy so that the cloth wrinkles or goes slack instead of carrying compression.
    prestress : (float, float, float)
        PK2 line stress 11, 22, 12 in the flat state, N/m.

    Raises
    ------
    ValueError
        For a stiffness that is not positive or a Poisson ratio outside ``poisson**2 < warp/weft``.

    Notes
    -----
    Valid for strains up to some ten per cent; cloth is only roughly linear even there.

    Examples
    --------
    >>> FabricLaw(30e3, 25e3, 0.1, 100.0).stiffness()[0].round().tolist()
    [30252.0, 2521.0, 0.0]
    """

    warp: float
    weft: float
    poisson: float
    shear: float
    tension_only: bool = field(default=True, kw_only=True)
    prestress: tuple[float, float, float] = field(default=(0.0, 0.0, 0.0), kw_only=True)

    def __post_init__(self) -> None:
        for name in ("warp", "weft", "poisson", "shear"):
            value = getattr(self, name)
            if not np.isfinite(value) or (value <= 0 and name != "poisson"):
                raise ValueError(f"{name} must be {'finite' if name == 'poisson' else 'positive'}, got {value}.")
        if self.poisson**2 * self.weft >= self.warp:
            limit = self.warp / self.weft
            raise ValueError(f"poisson {self.poisson} must satisfy poisson**2 < warp/weft = {limit:g}.")
        if len(self.prestress) != 3 or not np.isfinite(self.prestress).all():
            raise ValueError(f"prestress must be three finite numbers (11, 22, 12), got {self.prestress}.")
        object.__setattr__(self, "prestress", tuple(float(stress) for stress in self.prestress))

    def compliance(self) -> Floats:
        """Return strain per line stress (3, 3), m/N, in the order 11, 22, 2*12."""
        cross = -self.poisson / self.warp
        return np.array([[1 / self.warp, cross, 0], [cross, 1 / self.weft, 0], [0, 0, 1 / self.shear]])

    def stiffness(self) -> Floats:
        """Return line stress per strain (3, 3), N/m, in the order 11, 22, 2*12."""
        return np.asarray(np.linalg.inv(self.compliance()), dtype=np.float64)

    def prestrain(self) -> Floats:
        """Return the strain (3,) that the prestress stands for."""
        return np.asarray(self.compliance() @ np.asarray(self.prestress), dtype=np.float64)
