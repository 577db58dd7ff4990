"""What the loops over woven cloth know of its law."""

from typing import NamedTuple


class Moduli(NamedTuple):
    """A fabric law as the loops take it: stiffness N/m, compliance m/N, prestrain, whether to relax."""

    D11: float
    D12: float
    D22: float
    D33: float
    C11: float
    C12: float
    C22: float
    C33: float
    e1: float
    e2: float
    g: float
    relaxed: bool
