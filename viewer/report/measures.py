"""The drawings of the design's measures on the page of its result."""

from typing import NamedTuple

from markupsafe import Markup

from ...cases.design import read_design
from ...cases.design_issue import DesignError
from ...cases.storage.stored_result import StoredResult
from ..measures.list_views import list_views
from ..measures.size_row import SizeRow
from ..measures.svg_sheet import embed_sheets
from ..measures.view_sheet import lay_out_view


class MeasuresSection(NamedTuple):
    """The drawings, and why there are none."""

    drawings: tuple[Markup, ...]
    missing: str


def draw_sizes(result: StoredResult) -> MeasuresSection:
    """Return drawings of every length and angle of the design that was solved.

    Parameters
    ----------
    result : StoredResult
        Its folder keeps the design, but no files of materials that the design names: without them it is not drawn.
    """
    try:
        design = read_design(result.folder / "design.toml")
    except DesignError as error:
        return MeasuresSection((), error.faults[0].message)
    return MeasuresSection(tuple(embed_sheets([lay_out_view(view, _mark_value) for view in list_views(design)])), "")


def _mark_value(row: SizeRow) -> Markup:
    """Return a value in both systems of units; the page shows those it is switched to."""
    if row.metric == row.imperial:
        return Markup("{}").format(row.metric)
    part = Markup('<tspan class="q-{}">{}</tspan>')
    parts = ("m", row.metric), ("b", " ("), ("i", row.imperial), ("b", ")")
    return Markup("").join(part.format(*each) for each in parts)
