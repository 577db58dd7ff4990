r"""A second law of cloth, to show that the contract is open: an incompressible neo-Hookean sheet that wrinkles.

.. math:: W(C) = \tfrac{\mu}{2}\,(\lambda_1^2 + \lambda_2^2 + \lambda_1^{-2}\lambda_2^{-2} - 3), \quad C = 1 + 2E

per unit width, :math:`\lambda_1 \ge \lambda_2`. In simple tension the sheet shrinks to its natural width
:math:`\lambda_2 = \lambda_1^{-1/2}`. Narrower it wrinkles and carries what it carries at its natural width; slack, with
:math:`\lambda_1 \le 1`, nothing. Relaxed energy: A. C. Pipkin, IMA J. Appl. Math. 36 (1986) 85-99; natural width:
D. J. Steigmann, Proc. R. Soc. Lond. A 429 (1990) 141-173; stress: L. R. G. Treloar, The Physics of Rubber Elasticity,
3rd ed. (1975), ch. 5; all from memory.
"""

from dataclasses import dataclass

import numpy as np

from tautlay.solver import Law, LawResponse, StiffnessModel


@dataclass(frozen=True)
class NeoHookean(Law):
    """Sheet of ``shear`` N/m, modulus times thickness; letters c are squares of stretches, J the product of two."""

    shear: float

    def respond(self, strain):
        c1, c2, angle = find_principal(strain)
        r1, r2 = relax_principal(c1, c2)
        J = r1 * r2
        kind = np.where(c1 <= 1, 0, np.where(c1 * c2**2 < 1, 1, 2))
        pull = self.shear * np.stack([1 - 1 / (r1 * J), np.where(kind == 2, 1 - 1 / (r2 * J), 0), 0 * J], axis=1)
        energy = self.shear / 2 * (r1 + r2 + 1 / J - 3)
        stress = np.einsum("mi,mij->mj", pull, turn(angle))
        return LawResponse(kind, stress, energy, np.where(kind == 1, angle, 0.0))

    def find_tangents(self, strain, response, model):
        c1, c2, angle = find_principal(strain)
        r1, r2 = relax_principal(c1, c2)
        J = r1 * r2
        D = np.zeros((len(strain), 3, 3))
        D[:, 0, 0], D[:, 1, 1] = 4 / (r1**2 * J), 4 / (r2**2 * J)
        D[:, 0, 1] = D[:, 1, 0] = 2 / J**2
        D[:, 2, 2] = 1 / J**2
        if model is not StiffnessModel.TAUT:
            wrinkled = response.kind == 1
            D[response.kind < 2] = 0.0
            D[wrinkled, 0, 0] = 3 * c1[wrinkled] ** -2.5
            D[wrinkled, 2, 2] = (1 - c1[wrinkled] ** -1.5) / (c1 - c2)[wrinkled]  # the line of tension turns
        T = turn(angle)
        return self.shear * np.einsum("mki,mkl,mlj->mij", T, D, T)


def find_principal(strain):
    """Return the larger and the smaller squared stretch (m,) and the angle of the larger one."""
    mean, half, g = 1 + strain[:, 0] + strain[:, 1], strain[:, 0] - strain[:, 1], strain[:, 2]
    radius = np.hypot(half, g)
    return mean + radius, mean - radius, 0.5 * np.arctan2(g, half)


def relax_principal(c1, c2):
    """Return the squared stretches with the wrinkles smoothed out: natural width at least, and no shortening."""
    longer = np.maximum(c1, 1)
    return longer, np.maximum(c2, longer**-0.5)


def turn(angle):
    """Return matrices (m, 3, 3) that take strain 11, 22, 2*12 to axes turned by ``angle``, and stress back."""
    c, s = np.cos(angle), np.sin(angle)
    rows = [[c * c, s * s, c * s], [s * s, c * c, -c * s], [-2 * c * s, 2 * c * s, c * c - s * s]]
    return np.ascontiguousarray(np.moveaxis(np.array(rows), 2, 0))
