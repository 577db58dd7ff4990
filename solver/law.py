"""What a law of cloth offers a membrane: energy, stress and stiffness from strain, of all triangles in one call."""

from abc import ABC, abstractmethod
from typing import Any, NamedTuple

import numpy as np

from .element import Floats, Integers, StiffnessModel

SLACK, WRINKLED, TAUT = 0, 1, 2  # kinds of cloth: it carries nothing, along one line alone, or both ways


def show_kinds(kind: Integers) -> str:
    """Return how many rows of ``kind`` (m,) are taut, wrinkled and slack.

    Examples
    --------
    >>> show_kinds(np.array([2, 2, 0]))
    '2 taut, 0 wrinkled, 1 slack'
    """
    slack, wrinkled, taut = np.bincount(kind, minlength=3)
    return f"{taut} taut, {wrinkled} wrinkled, {slack} slack"


class LawResponse(NamedTuple):
    """What cloth answers to m strains: C-contiguous arrays with a row for each."""

    kind: Integers  # (m,) SLACK, WRINKLED or TAUT
    stress: Floats  # (m, 3) PK2 line stress 11, 22, 12, N/m
    energy: Floats  # (m,) stored per flat area, J/m2
    angle: Floats  # (m,) where wrinkled: from flat axis 1 to the line of tension, rad

    def __repr__(self) -> str:
        """Return one line."""
        return f"LawResponse({show_kinds(self.kind)}, line stress up to {np.abs(self.stress).max():.3g} N/m)"


class SmoothResponse(NamedTuple):
    """What cloth answers on the way, while its changes of kind are smoothed."""

    stress: Floats  # (m, 3) PK2 line stress 11, 22, 12 that it carries now, N/m
    energy: Floats  # (m,) smooth energy per flat area, J/m2
    memory: Any  # of the law alone
    strays: int  # triangles that the step led too far for their memory to follow

    def __repr__(self) -> str:
        """Return one line."""
        return f"SmoothResponse({len(self.energy)} triangles, line stress up to {np.abs(self.stress).max():.3g} N/m)"


class Law(ABC):
    r"""Hyperelastic law of cloth per unit width: an energy :math:`W(E)` of the Green strain in flat axes.

    Strains are rows (m, 3) of :math:`E_{11}, E_{22}, 2E_{12}`, so that stress is :math:`S = \partial W/\partial E` and
    the tangent :math:`\partial S/\partial E`. Each row stands for itself, and what is handed in stays as it is.

    Cloth that cannot carry compression is a tension field: W is relaxed over all wrinkle strains, whereby it becomes
    convex, S is positive semi-definite and so is the tangent. Source: A. C. Pipkin, IMA J. Appl. Math. 36 (1986) 85-99
    (from memory). The law does that itself: whoever asks it knows nothing of how.

    Notes
    -----
    A new law is one class in one file and one row of the registry in ``tests/contract``, which holds it to all this.
    """

    @abstractmethod
    def respond(self, strain: Floats) -> LawResponse:
        """Return kind, stress, energy and angle at ``strain`` (m, 3)."""

    @abstractmethod
    def find_tangents(self, strain: Floats, response: LawResponse, model: StiffnessModel) -> Floats:
        """Return stress per strain (m, 3, 3), N/m, symmetric, in a new array.

        Parameters
        ----------
        strain : (m, 3)
            Green strain.
        response : LawResponse
            What ``respond`` gave for it, lest anything be found twice.
        model : StiffnessModel
            Positive: without negative eigenvalues. Exact: the derivative of the stress. Taut: without negative
            eigenvalues, nowhere below the positive one, and finite and above zero where cloth is slack.
        """

    def smooth(self, strain: Floats, mu: float, before: SmoothResponse | None) -> SmoothResponse:
        """Return the answer to ``strain`` (m, 3) smoothed by ``mu``, N/m, one step on from an earlier one.

        A law may smooth its changes of kind so that the implicit method need not stumble over them: an energy that is
        convex and tends to W as mu goes to zero, and a stress that tends to its slope while steps are taken. A law
        without such a form answers exactly, as every law does where mu is 0.
        """
        response = self.respond(strain)
        return SmoothResponse(response.stress, response.energy, response, 0)

    def linearise(
        self, strain: Floats, mu: float, here: SmoothResponse, model: StiffnessModel
    ) -> tuple[Floats, Floats]:
        """Return stress per strain (m, 3, 3) from ``here`` on, and by what stress (m, 3) is to change at rest, N/m."""
        return self.find_tangents(strain, here.memory, model), np.zeros_like(here.stress)

    def flat_energy(self) -> float:
        """Return the energy per flat area, J/m2, of cloth as it lies flat, from which a membrane counts its own."""
        return 0.0
