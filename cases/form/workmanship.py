"""How the parts of the hammock of a valid form are made."""

from ...making import FACTORS, Factors, Reductions, Workmanship
from .corner import build_corner
from .ends import build_rigging
from .factors import FactorsTable
from .schema import DesignForm


def build_workmanship(form: DesignForm) -> Workmanship:
    """Return how the parts are made, and the factors of safety asked.

    Parameters
    ----------
    form : DesignForm
        In which no keys disagree.

    Returns
    -------
    Workmanship
        In SI.
    """
    return Workmanship(
        factors=_build_factors(form.factors),
        reductions=Reductions(form.factors.wet, form.factors.aged),
        rigging=build_rigging(form.ends),
        corner=build_corner(form.corner),
    )


def _build_factors(table: FactorsTable) -> Factors:
    """Return the factors a design changes."""
    asked = {kind: getattr(table, kind) for kind in FACTORS}
    return Factors({kind: value for kind, value in asked.items() if value is not None})
