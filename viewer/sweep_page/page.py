"""The page of a sweep put together from its template, its program and the results of its designs."""

from collections.abc import Sequence

from ...cases.studies.compare.pareto_front import LEAST, choose_figures, find_pareto_front
from ...cases.studies.compare.ranking import Ranking
from ...cases.studies.compare.reload_sweep import summarise_sweep
from ...cases.studies.compare.value_columns import find_common, list_figures
from ...cases.studies.sweep.exclusion import explain_exclusion
from ...cases.studies.sweep.mesh_warning import note_mesh
from ...cases.studies.sweep.result_value import ResultValue
from ...cases.studies.sweep.store import SweepRecord
from ...cases.studies.sweep.sweep_form import Combine
from ...cases.studies.sweep.sweep_row import find_lightest, list_unchecked, list_unjudged, write_pass
from ...cases.unit_display import Units
from ..report.template import render_page
from .data import pack_sweep
from .design_line import list_lines

_FIRST = ("packed_kg", "least_margin")  # values that the page always shows
_WORDS = {
    Combine.GRID: "every combination",
    Combine.PAIRED: "paired",
    Combine.ALONE: "one at a time",
    Combine.LATIN: "Latin hypercube samples",
    Combine.SOBOL: "Sobol samples",
}


def compose_sweep_page(heading: SweepRecord, ranking: Ranking, *, against: Sequence[str] = (), units: Units) -> str:
    """Return the page that compares the designs of a sweep.

    Parameters
    ----------
    heading : SweepRecord
        Of the sweep.
    ranking : Ranking
        Its designs in order.
    against : sequence of str
        Values compared: the Pareto-optimal designs are listed in words.
    units : {"metric", "imperial", "both"}
        What the page shows first.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.

    Raises
    ------
    RankingError
        As :func:`~tautlay.cases.studies.compare.pareto_front.find_pareto_front`.
    """
    rows, summary = ranking.rows, summarise_sweep(heading)
    figures = {figure.key: figure for figure in list_figures(rows)}
    measure = _choose_measure(list(figures.values()), (*against, ranking.sort))
    shown = [figures[key] for key in (*_FIRST, measure) if key in figures]
    common = find_common(rows)
    names = [name for name in (rows[0].choices if rows else ()) if name not in common]
    counted = find_pareto_front(rows, against) if rows and len(against) >= LEAST else None
    return render_page(
        "sweep.html",
        units,
        bundle="sweep.js",
        styles=("page.css", "sweep.css"),
        scene=pack_sweep(rows, names, measure, summary.combine),
        heading=heading,
        summary=summary,
        caveat=note_mesh(summary.mesh_size, hot_spots=summary.hot_spots),
        combined=_WORDS[summary.combine],
        ranking=ranking,
        common=common,
        names=names,
        values=shown,
        first=len([key for key in _FIRST if key in figures]),
        lines=list(list_lines(rows, names, shown, units)),
        lightest=find_lightest(rows),
        counted=counted if tuple(against) != choose_figures(rows) else None,
        passing=write_pass(rows),
        unjudged=list_unjudged(rows),
        exclusion=explain_exclusion(rows),
        unchecked=list_unchecked(rows),
    )


def _choose_measure(figures: Sequence[ResultValue], asked: Sequence[str]) -> str:
    """Return the value shown beside weight and reserve factor: one asked for, else back sag, else any."""
    others = [figure.key for figure in figures if figure.key not in _FIRST]
    preferred = [key for key in (*asked, "back_sag_m", "head_bar_thrust_N") if key in others]
    return next(iter([*preferred, *others]), "")
