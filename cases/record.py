"""A result folder read back: what viewers show. Only what is shown is asked for."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from .part import BARS, Part
from .reading import Units
from .shape import Floats, Shape, read_shape
from .vtu import VtuError

EMPTY_LOAD = "empty"


class RecordError(Exception):
    """A folder that holds no result that can be shown; the message is one sentence."""


class Spot(NamedTuple):
    """A hot spot: its number, where it is in words for each kind of units, on the cloth as cut, and loaded (3,), m.

    ``line_stress`` in N per metre of cloth as cut is that of ``thread`` over 25 mm, ``share`` that over the strength.
    """

    number: int
    words: dict[Units, str]
    flat: tuple[float, float]
    loaded: Floats
    thread: str
    line_stress: float
    share: float


class Stage(NamedTuple):
    """Shape under a ``share`` of the person's weight."""

    share: float
    shape: Shape

    @property
    def words(self) -> str:
        """The share in words."""
        return f"{self.share:.0%} of the weight" if self.share else EMPTY_LOAD


@dataclass(frozen=True)
class Record:
    """A solved design as it was written.

    Parameters
    ----------
    name, load : str
        Of the design and of the load case.
    units : {"metric", "imperial", "both"}
        In which the design asks for reports.
    stages : tuple of Stage
        Computed equilibria, the emptiest first; the last is the whole load.
    spots : tuple of Spot
        Hot spots, hardest pulled first; none if the mesh was too coarse to tell.
    bar_shares : mapping of Part to float
        Demand over capacity of each bar, of the mechanism nearest to failure; a bar that was not checked is left out.
    """

    name: str
    load: str
    units: Units
    stages: tuple[Stage, ...]
    spots: tuple[Spot, ...]
    bar_shares: dict[Part, float]

    @property
    def shape(self) -> Shape:
        """The shape under the whole load."""
        return self.stages[-1].shape

    @property
    def empty(self) -> Shape | None:
        """The shape without a person, if it was computed."""
        return self.stages[0].shape if self.stages[0].share == 0.0 else None


def read_record(folder: Path) -> Record:
    """Read what ``solve`` wrote into a folder.

    Parameters
    ----------
    folder : Path
        With ``result.json`` and ``shape.vtu``, and the load steps named in it.

    Returns
    -------
    Record
        Result.

    Raises
    ------
    RecordError
        If it is no result folder, or the result of a version that keeps other numbers.

    Examples
    --------
    >>> read_record(Path("nowhere"))
    Traceback (most recent call last):
    tautlay.cases.record.RecordError: nowhere is no result folder: there is no result.json in it; solve a design first.
    """
    found = _read_json(folder)
    try:
        steps = [(float(row["share_of_weight"]), str(row["file"])) for row in found["load_steps"]]
        spots = tuple(_read_spot(number, row) for number, row in enumerate(found["hot_spots"], 1))
        bars = read_bars(found["checks"])
        design = found["design"]
        words = (str(design["name"]), str(design["load"]), design["units"])
    except (KeyError, TypeError, ValueError, IndexError, ZeroDivisionError) as error:
        lacks = f"lacks {error}" if isinstance(error, KeyError) else f"holds something else than expected ({error})"
        raise RecordError(
            f"{folder} holds the result of another version of tautlay: result.json {lacks}; solve the design again."
        ) from None
    try:
        stages = [*(Stage(share, read_shape(folder / Path(name).name)) for share, name in steps)]
        whole = read_shape(folder / "shape.vtu")
    except VtuError as error:
        raise RecordError(str(error)) from None
    if any(stage.shape.triangles.shape != whole.triangles.shape for stage in stages):
        raise RecordError(f"{folder} holds load steps of another mesh than shape.vtu; solve the design again.")
    return Record(*words, (*stages, Stage(1.0, whole)), spots, bars)


def _read_json(folder: Path) -> dict[str, Any]:
    """Return what ``result.json`` holds."""
    file = folder / "result.json"
    if not file.is_file():
        what = "is a file; name the folder it lies in" if folder.is_file() else "there is no result.json in it"
        raise RecordError(f"{folder} is no result folder: {what}; solve a design first.")
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        raise RecordError(f"{file} cannot be read ({error}); solve the design again.") from None
    if not isinstance(found, dict):
        raise RecordError(f"{file} is no result; solve the design again.")
    return found


def _read_spot(number: int, row: dict[str, Any]) -> Spot:
    """Return one hot spot."""
    words: dict[Units, str] = {
        "metric": str(row["place"]),
        "imperial": str(row["place_imperial"]),
        "both": str(row["place_both"]),
    }
    loaded = np.array(row["loaded_m"], dtype=np.float64).reshape(3)
    return Spot(
        number,
        words,
        (float(row["flat_m"][0]), float(row["flat_m"][1])),
        loaded,
        str(row["thread"]),
        float(row["line_stress_N_per_m"]),
        float(row["share_of_strength"]),
    )


def read_bars(checks: list[dict[str, Any]]) -> dict[Part, float]:
    """Return demand over capacity of each bar that was checked, of the mechanism nearest to failure."""
    names = {bar.title: bar for bar in BARS}
    shares: dict[Part, float] = {}
    for row in checks:
        if row["part"] in names:
            bar = names[row["part"]]
            factor = row["safety_factor_found"]  # None: it carries nothing
            shares[bar] = max(shares.get(bar, 0.0), 0.0 if factor is None else 1.0 / float(factor))
    return shares
