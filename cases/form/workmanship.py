"""How the parts of the hammock of a valid form are made."""

from ...making import FACTORS, Factors, Reductions, Workmanship
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
    return Workmanship(_build_factors(form.factors), Reductions(form.factors.wet, form.factors.aged))


def _build_factors(table: FactorsTable) -> Factors:
    """Return the factors a design changes."""
    asked = {kind: getattr(table, kind) for kind in FACTORS}
    return Factors({kind: value for kind, value in asked.items() if value is not None})
