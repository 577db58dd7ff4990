"""How the parts of the hammock of a valid form are made."""

from ...making import FACTORS, ExtraItem, Factors, Fold, Hem, Lock, Reductions, Rigging, Stitching, Strip, Workmanship
from .corner import build_corner
from .cutting import build_cutting_rules
from .end_fields import RIGGING
from .ends import build_ending
from .factors import FactorsTable
from .fold import FoldTable, LockTable
from .schema import DesignForm
from .stitching import StitchingTable


def build_workmanship(form: DesignForm) -> Workmanship:
    """Return how the parts are made, and the factors of safety required.

    Parameters
    ----------
    form : DesignForm
        Without conflicts.

    Returns
    -------
    Workmanship
        In SI.
    """
    return Workmanship(
        factors=_build_factors(form.factors),
        reductions=Reductions(form.factors.wet, form.factors.aged),
        fold=_build_fold(form.channel.fold) if form.channel.fold else None,
        lock=_build_lock(form.channel.lock) if form.channel.lock else None,
        head_rigging=_build_rigging(form, "head"),
        foot_rigging=_build_rigging(form, "foot"),
        corner=build_corner(form.corner),
        hem=Hem(form.body.hem.allowance, _build_stitching(form.body.hem)) if form.body.hem else None,
        cutting=build_cutting_rules(form.cutting),
        extras=tuple(ExtraItem(each.name, each.mass, each.group, each.count, each.carried) for each in form.extra),
    )


def _build_rigging(form: DesignForm, end: str) -> Rigging:
    """Return how the ends of cords and straps are made at head or foot."""
    return Rigging(**{name: build_ending(setting.read(form, end)) for name, setting in RIGGING.items()})


def _build_factors(table: FactorsTable) -> Factors:
    """Return the factors that a design changes."""
    asked = {kind: getattr(table, kind) for kind in FACTORS}
    return Factors({kind: value for kind, value in asked.items() if value is not None})


def _build_fold(table: FoldTable) -> Fold:
    """Return how the channels are folded; strip and widths are there where they are needed."""
    strip = None
    if table.strip is not None:
        assert table.strip_width is not None
        assert table.strip_inset is not None
        strip = Strip(table.strip, table.strip_width, table.strip_inset, table.strip_rows)
    return Fold(
        table.folds, _build_stitching(table), table.finished_width, table.stitching_width, strip, table.seam_efficiency
    )


def _build_lock(table: LockTable) -> Lock:
    """Return the stitches through the side cords."""
    return Lock(_build_stitching(table), table.corner_length)


def _build_stitching(table: StitchingTable) -> Stitching:
    """Return rows of stitches."""
    return Stitching(table.thread, table.stitch_length, table.rows, table.stitch)
