"""The page of a sweep written to a file."""

from pathlib import Path

from ...cases.storage.atomic import write_text
from ...cases.studies.compare.ranking import Ranking
from ...cases.studies.sweep.store import SweepRecord
from ...cases.unit_display import Units
from .page import compose_sweep_page


def write_sweep_page(
    heading: SweepRecord, ranking: Ranking, html_path: Path, *, against: tuple[str, ...] = (), units: Units
) -> None:
    """Write the page that compares the designs of a sweep.

    Parameters
    ----------
    heading : SweepRecord
        Of the sweep.
    ranking : Ranking
        Its designs in order.
    html_path : Path
        File to write, whole or not at all.
    against : tuple of str
        Values compared: the Pareto-optimal designs are listed in words.
    units : {"metric", "imperial", "both"}
        What the page shows first.

    Raises
    ------
    RankingError
        As :func:`~tautlay.cases.studies.compare.pareto_front.find_pareto_front`.
    OSError
        If the page cannot be written.
    """
    write_text(html_path, compose_sweep_page(heading, ranking, against=against, units=units))
