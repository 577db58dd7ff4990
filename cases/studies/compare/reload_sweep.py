"""A sweep restored from its file of results."""

from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError

from ....materials import TomlError, TomlFile, escape_text, parse_toml
from ...design_issue import DesignError
from ...form.job import DesignTable, MeshTable
from ..sweep.store import SweepRecord
from ..sweep.sweep import Sweep
from ..sweep.sweep_file import compose_sweep
from ..sweep.sweep_form import Combine, SweepForm
from .value_columns import RankingError


class Summary(NamedTuple):
    """Summary of a stored sweep.

    Parameters
    ----------
    design, note : str
        Name of the design that is varied, and what is said of the sweep.
    combine : Combine
        How its choices are put together.
    mesh_size : float
        Edge of a triangle in the middle of the cloth, m.
    hot_spots : bool
        Whether channels and bars were meshed as finely as the checks of cloth and seams need.
    """

    design: str
    note: str
    combine: Combine
    mesh_size: float
    hot_spots: bool


def summarise_sweep(heading: SweepRecord) -> Summary:
    """Return the summary of a stored sweep; only its texts are read.

    Raises
    ------
    RankingError
        If this version cannot read its text.
    """
    table = _read_form(heading).sweep
    try:
        tables = parse_toml(heading.design)
        size = table.mesh_size or MeshTable.model_validate(tables.get("mesh", {})).size
        name = DesignTable.model_validate(tables.get("design", {})).name
    except (ValidationError, TomlError):
        raise RankingError(
            f"the design of the sweep {escape_text(heading.name)} cannot be read; run its sweep file again."
        ) from None
    return Summary(name, table.note, table.combine, size, table.hot_spots)


def restore_sweep(heading: SweepRecord) -> Sweep:
    """Return a sweep from the texts kept of it; its own files of materials are read where they were.

    Parameters
    ----------
    heading : SweepRecord
        As kept.

    Returns
    -------
    Sweep
        With all its designs.

    Raises
    ------
    RankingError
        If this version cannot read the texts, or a file of materials is gone.
    """
    try:
        content = TomlFile(heading.text, parse_toml(heading.text))
        return compose_sweep(content, Path(heading.file), TomlFile(heading.design, parse_toml(heading.design)))
    except (DesignError, TomlError) as error:
        raise RankingError(f"the sweep {escape_text(heading.name)} cannot be read again: {error}") from None


def _read_form(heading: SweepRecord) -> SweepForm:
    """Return the tables of the sweep file."""
    try:
        return SweepForm.model_validate(parse_toml(heading.text))
    except (ValidationError, TomlError):
        raise RankingError(
            f"the sweep {escape_text(heading.name)} was written by another version of the program; run its sweep file "
            "again."
        ) from None
