"""Cloth as constant-strain triangles, total Lagrangian."""

from dataclasses import dataclass

import numpy as np

from . import membrane_kernel as kernel
from .element import Element, Floats, Integers, Smoothed, StiffnessModel, cast_nodes, cast_positive
from .law import SLACK, Law, LawResponse, SmoothResponse, show_kinds
from .words import show_count, show_part


@dataclass(frozen=True, repr=False)
class MembraneResult:
    """What the cloth carries, triangle by triangle.

    Parameters
    ----------
    tension : (m, 2)
        Principal true line stress, N per metre of deformed width, larger first.
    direction : (m, 3)
        Unit vector of the larger one in space; of the largest stretch where the cloth is slack.
    nominal : (m, 2)
        Principal line stress per metre of flat width, N/m, larger first: singular values of F S. This is what
        a strip test measures; where cloth gathers, the true line stress grows without the cloth carrying more.
    pk2 : (m, 3)
        Second Piola-Kirchhoff line stress 11, 22, 12 in flat axes, N/m.
    strain : (m, 3)
        Green strain 11, 22, 12 in flat axes.
    kind : (m,)
        2 taut, 1 wrinkled, 0 slack.
    """

    tension: Floats
    direction: Floats
    nominal: Floats
    pk2: Floats
    strain: Floats
    kind: Integers

    def __repr__(self) -> str:
        """Return one line."""
        return f"MembraneResult({show_kinds(self.kind)}, nominal line stress up to {self.nominal.max():.3g} N/m)"


class Membrane(Element):
    r"""Triangles of cloth with uniform strain.

    Deformation gradient :math:`F = [x_1-x_0, x_2-x_0]\,[X_1-X_0, X_2-X_0]^{-1}`, Green strain
    :math:`E = (F^TF-1)/2`, energy the area of the flat triangle times the law's energy of E.

    Parameters
    ----------
    triangles : (m, 3) int
        Nodes.
    flat : (m, 3, 2)
        Corners of each triangle lying flat and stress-free, m; axis 1 along the warp.
    law : Law
        Energy, stress and stiffness of the cloth; of it nothing else is known here.
    mass : float or (m,)
        Areal mass, kg per flat m2.

    Raises
    ------
    ValueError
        For wrong shapes or a flat triangle without area.

    Examples
    --------
    >>> from tautlay.solver import FabricLaw
    >>> law = FabricLaw(1e4, 1e4, 0.0, 5e3)
    >>> sheet = Membrane([[0, 1, 2]], [[[0, 0], [1, 0], [0, 1]]], law)
    >>> sheet.result(np.array([[0, 0, 0], [1.1, 0, 0], [0, 1, 0]], float)).pk2[0].round(6)
    array([1050.,    0.,    0.])
    """

    smooths = True

    def __init__(self, triangles: object, flat: object, law: Law, *, mass: object = 0.0) -> None:
        self.connectivity = cast_nodes(triangles, 3, "triangles")
        self.law = law
        corners = np.asarray(flat, dtype=np.float64)
        count = len(self.connectivity)
        if corners.shape != (count, 3, 2) or not np.isfinite(corners).all():
            raise ValueError(f"flat must be finite numbers of shape ({count}, 3, 2), got shape {corners.shape}.")
        edges = np.swapaxes(corners[:, 1:] - corners[:, :1], 1, 2)
        double = np.linalg.det(edges)
        longest = np.abs(edges).max(axis=(1, 2))
        if (np.abs(double) <= 1e-12 * longest**2).any():
            worst = int(np.argmin(np.abs(double)))
            raise ValueError(f"flat triangle {worst} has no area: its corners lie on one line.")
        slopes = np.linalg.inv(edges)
        self.area = np.abs(double) / 2
        self.gradients = np.concatenate([-slopes.sum(axis=1, keepdims=True), slopes], axis=1)
        self.areal_mass = cast_positive(mass, count, "mass", zero=True)

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"Membrane({show_count(len(self.connectivity), 'triangle')}, {self.area.sum():.3g} m2, "
            f"{show_part(self.law, 60)})"
        )

    def _deform(self, positions: Floats) -> tuple[kernel.Cloth, kernel.Deformation]:
        """Return the flat triangles and what ``positions`` make of them."""
        cloth = kernel.Cloth(self.connectivity, self.gradients, self.area)
        return cloth, kernel.deform(positions, cloth)

    def _respond(self, positions: Floats) -> tuple[kernel.Cloth, kernel.Deformation, LawResponse]:
        """Return these and what the law answers."""
        cloth, deformed = self._deform(positions)
        return cloth, deformed, self.law.respond(deformed.strain)

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J, above that of the flat, prestressed cloth."""
        _, _, response = self._respond(positions)
        return kernel.sum_energy(response.energy, self.area) - float(self.area.sum()) * self.law.flat_energy()

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force to ``force`` (n, 3) N."""
        cloth, deformed, response = self._respond(positions)
        kernel.add_force(cloth, deformed.gradient, response.stress, force)

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return triangle stiffness matrices (m, 9, 9), N/m."""
        cloth, deformed, response = self._respond(positions)
        tangents = self.law.find_tangents(deformed.strain, response, model)
        return kernel.find_blocks(cloth, deformed.gradient, response.stress, tangents, int(model))

    def smooth(self, positions: Floats, mu: float, before: SmoothResponse | None, force: Floats) -> Smoothed:
        """Add the restoring force to ``force`` (n, 3) N; return the energy and, as memory, the answer of the law."""
        cloth, deformed = self._deform(positions)
        found = self.law.smooth(deformed.strain, mu, before)
        kernel.add_force(cloth, deformed.gradient, found.stress, force)
        return Smoothed(kernel.sum_energy(found.energy, self.area), found, found.strays)

    def linearise(
        self, positions: Floats, mu: float, here: SmoothResponse, model: StiffnessModel, lead: Floats
    ) -> list[Floats]:
        """Return triangle stiffness matrices (m, 9, 9), N/m; add how the force changes at rest to ``lead`` (n, 3) N."""
        cloth, deformed = self._deform(positions)
        tangents, change = self.law.linearise(deformed.strain, mu, here, model)
        kernel.add_force(cloth, deformed.gradient, change, lead)
        return [kernel.find_blocks(cloth, deformed.gradient, here.stress, tangents, int(model))]

    def add_mass(self, positions: Floats, mass: Floats) -> None:
        """Add a third of each triangle's mass to each of its nodes, kg."""
        np.add.at(mass, self.connectivity, (self.areal_mass * self.area / 3)[:, None])

    def result(self, positions: Floats) -> MembraneResult:
        """Return strain, stress and state of every triangle."""
        F = np.einsum("maj,mab->mjb", positions[self.connectivity], self.gradients)
        metric = np.swapaxes(F, 1, 2) @ F
        green = np.stack([metric[:, 0, 0] - 1, metric[:, 1, 1] - 1, metric[:, 0, 1]], axis=1) / 2
        found = self.law.respond(green * [1, 1, 2])
        tension, direction, nominal = _find_principal(F, metric, found.stress, found.kind)
        return MembraneResult(tension, direction, nominal, found.stress, green, found.kind)


def _find_principal(F: Floats, metric: Floats, stress: Floats, kind: Integers) -> tuple[Floats, Floats, Floats]:
    """Return principal true line stress (m, 2), the direction (m, 3) of the larger, principal nominal stress (m, 2).

    The true line stress is F S F^T / J; its principal values are those of U S U / J with U the square
    root of the metric, and the directions follow by the rotation R = F U^-1.
    """
    values, axes = np.linalg.eigh(metric)
    root = np.sqrt(np.maximum(values, np.finfo(float).tiny))
    U = (axes * root[:, None, :]) @ np.swapaxes(axes, 1, 2)
    S = stress[:, [0, 2, 2, 1]].reshape(-1, 2, 2)
    pull = U @ S
    true = pull @ U / root.prod(axis=1)[:, None, None]
    slack = kind == SLACK
    true[slack] = U[slack]  # no stress: show where the cloth is longest
    principal, turned = np.linalg.eigh(true)
    rotated = F @ (axes / root[:, None, :]) @ np.swapaxes(axes, 1, 2)
    direction = (rotated @ turned[:, :, 1:])[:, :, 0]
    tension = principal[:, ::-1].copy()
    tension[slack] = 0.0
    length = np.linalg.norm(direction, axis=1, keepdims=True)
    unit = direction / np.where(length > 0, length, 1.0)
    return tension, unit, np.linalg.svd(pull, compute_uv=False)
