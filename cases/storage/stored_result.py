"""A result read back from its folder."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from ..design_issue import InputError
from ..unit_display import Units
from .cell_tag import BARS, CellTag
from .sentence_store import restore_sentences
from .shape import Floats, Shape, read_shape

EMPTY_LOAD = "empty"
_NEEDED = (
    "design", "report", "verdict", "forces", "checks", "hot_spots", "load_steps", "weights", "materials", "sentences",
)  # fmt: skip


class StoredHotSpot(NamedTuple):
    """A hot spot: its number, where it is in words (a sentence), on the cloth as cut, and loaded (3,), m.

    ``line_stress`` in N per metre of cloth as cut is that of ``thread`` over 25 mm, ``share`` that over the strength;
    the middle of those 25 mm lies in ``triangle``.
    """

    number: int
    place: str
    flat: tuple[float, float]
    loaded: Floats
    thread: str
    line_stress: float
    share: float
    triangle: int


class StoredLoadStep(NamedTuple):
    """Shape under a ``share`` of the person's weight."""

    share: float
    shape: Shape

    @property
    def words(self) -> str:
        """The share in words."""
        return f"{self.share:.0%} of the weight" if self.share else EMPTY_LOAD


@dataclass(frozen=True)
class StoredResult:
    """What a result folder holds.

    Parameters
    ----------
    folder : Path
        Where it lies; pictures may be there too.
    summary : mapping
        ``result.summary``, its sentences ready to be written in any units.
    stages : tuple of StoredLoadStep
        Computed equilibria, the emptiest first; the last is the whole load.
    design_text : str
        Design file as solved.
    spots : tuple of StoredHotSpot
        Hot spots, highest tension first; none if the mesh was too coarse.
    bar_shares : mapping of CellTag to float
        As :func:`find_bar_shares`.
    """

    folder: Path
    summary: Mapping[str, Any]
    stages: tuple[StoredLoadStep, ...]
    design_text: str
    spots: tuple[StoredHotSpot, ...]
    bar_shares: Mapping[CellTag, float]

    @property
    def name(self) -> str:
        """The name of the design."""
        return str(self.summary["design"]["name"])

    @property
    def units(self) -> Units:
        """Units of the report, as the design asks."""
        units: Units = self.summary["report"]["units"]
        return units

    @property
    def shape(self) -> Shape:
        """The shape under the whole load."""
        return self.stages[-1].shape

    @property
    def empty(self) -> Shape | None:
        """The shape without a person, if it was computed."""
        return self.stages[0].shape if self.stages[0].share == 0.0 else None


class ResultError(InputError):
    """A result that cannot be read back; the message says why."""


def read_result(folder: Path) -> StoredResult:
    """Read a result folder that ``result.save`` wrote.

    Parameters
    ----------
    folder : Path
        Folder with ``result.json``, ``shape.vtu`` and ``design.toml``, and the load steps named in the first.

    Returns
    -------
    StoredResult
        All of it.

    Raises
    ------
    ResultError
        If it is not a result folder, or one of another version of the program.
    VtuError
        If a shape is damaged.

    Examples
    --------
    >>> read_result(Path("x"))
    Traceback (most recent call last):
    tautlay.cases.storage.stored_result.ResultError: x has no result.json. Choose a folder that `tautlay solve` wrote.
    """
    file = folder / "result.json"
    if folder.is_file():
        raise ResultError(f"{folder} is a file. Choose its folder.")
    if not file.is_file():
        raise ResultError(f"{folder} has no result.json. Choose a folder that `tautlay solve` wrote.")
    try:
        summary = json.loads(file.read_text(encoding="utf-8"))
        design_text = (folder / "design.toml").read_text(encoding="utf-8")
    except (ValueError, RecursionError):
        raise ResultError(f"{file} or the design.toml beside it is damaged. Solve the design again.") from None
    missing = [key for key in _NEEDED if not isinstance(summary, dict) or key not in summary]
    if missing:
        raise ResultError(f"{file} is of another version: {missing[0]} is missing. Solve the design again.")
    try:
        whole = restore_sentences(summary, summary["sentences"])
        steps = [(float(row["share_of_weight"]), str(row["file"])) for row in whole["load_steps"]]
        spots = tuple(_read_spot(number, row) for number, row in enumerate(whole["hot_spots"], 1))
        bars = find_bar_shares(whole["checks"])
    except (ValueError, KeyError, TypeError, AttributeError, IndexError, ZeroDivisionError) as error:
        raise ResultError(f"{file} is damaged ({error}). Solve the design again.") from None
    return StoredResult(folder, whole, _read_stages(folder, steps), design_text, spots, bars)


def _read_stages(folder: Path, steps: list[tuple[float, str]]) -> tuple[StoredLoadStep, ...]:
    """Return the shapes under parts of the weight, and that under the whole."""
    stages = [StoredLoadStep(share, read_shape(folder / Path(name).name)) for share, name in steps]
    whole = StoredLoadStep(1.0, read_shape(folder / "shape.vtu"))
    if any(stage.shape.triangles.shape != whole.shape.triangles.shape for stage in stages):
        raise ResultError(f"{folder} has load steps of another mesh than shape.vtu. Solve the design again.")
    return (*stages, whole)


def _read_spot(number: int, row: Mapping[str, Any]) -> StoredHotSpot:
    """Return one hot spot."""
    return StoredHotSpot(
        number,
        row["place"],
        (float(row["flat_m"][0]), float(row["flat_m"][1])),
        np.array(row["loaded_m"], dtype=np.float64).reshape(3),
        str(row["thread"]),
        float(row["line_stress_N_per_m"]),
        float(row["share_of_strength"]),
        int(row["triangle"]),
    )


def find_bar_shares(checks: list[Mapping[str, Any]]) -> dict[CellTag, float]:
    """Return demand over capacity of each bar, of the mechanism nearest to failure; a bar not checked is left out.

    Parameters
    ----------
    checks : list of mapping
        ``summary["checks"]``.

    Examples
    --------
    >>> find_bar_shares([{"part": "head bar", "safety_factor_found": 2.5}])
    {<CellTag.HEAD_BAR: 9>: 0.4}
    """
    names = {bar.title: bar for bar in BARS}
    shares: dict[CellTag, float] = {}
    for row in checks:
        if row["part"] in names:
            bar = names[row["part"]]
            factor = row["safety_factor_found"]  # None: there is no demand
            shares[bar] = max(shares.get(bar, 0.0), 0.0 if factor is None else 1.0 / float(factor))
    return shares
