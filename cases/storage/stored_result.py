"""A result read back from its folder."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import inf
from pathlib import Path
from typing import NamedTuple

from ...materials import find_control
from ...materials.short_repr import write_repr
from ..judging.checks import CheckRecord
from ..judging.cloth.hot_spot import HotSpot
from ..load_step import LoadStepRecord
from ..result_record import ResultRecord
from ..unit_display import Units
from .cell_tag import BARS, CellTag
from .result_json import ResultError, read_record
from .shape import Shape, read_shape

EMPTY_LOAD = "empty"


class StoredLoadStep(NamedTuple):
    """Shape under a ``share`` of the person's weight."""

    share: float
    shape: Shape

    def __repr__(self) -> str:
        return write_repr(self, self.words, f"{len(self.shape.triangles)} triangles")

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
    record : ResultRecord
        Everything that is told of it, as ``result.record``.
    stages : tuple of StoredLoadStep
        Computed equilibria, the emptiest first; the last is the whole load.
    design_text : str
        Design file as solved.
    """

    folder: Path
    record: ResultRecord
    stages: tuple[StoredLoadStep, ...]
    design_text: str

    def __repr__(self) -> str:
        return write_repr(self, self.name, str(self.record.design.load), f"{len(self.stages)} shapes", str(self.folder))

    @property
    def name(self) -> str:
        """The name of the design."""
        return self.record.design.name

    @property
    def units(self) -> Units:
        """Units of the report, as the design asks."""
        return self.record.report.units

    @property
    def spots(self) -> tuple[HotSpot, ...]:
        """Hot spots, hardest pulled first; none if the mesh was too coarse to tell."""
        return self.record.hot_spots

    @property
    def bar_shares(self) -> Mapping[CellTag, float]:
        """As :func:`find_bar_shares`."""
        return find_bar_shares(self.record.checks)

    @property
    def shape(self) -> Shape:
        """The shape under the whole load."""
        return self.stages[-1].shape

    @property
    def empty(self) -> Shape | None:
        """The shape without a person, if it was computed."""
        return self.stages[0].shape if self.stages[0].share == 0.0 else None


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
    tautlay.cases.storage.result_json.ResultError: x has no result.json. Choose a folder that `tautlay solve` wrote.
    """
    if folder.is_file():
        raise ResultError(f"{folder} is a file. Choose its folder.")
    record, design = read_record(folder / "result.json"), folder / "design.toml"
    try:
        design_text = design.read_text(encoding="utf-8")
        damaged = find_control(design_text) is not None or design.is_symlink()  # a link may show any file on the page
    except ValueError:
        damaged = True
    if damaged:
        raise ResultError(f"{design} is damaged. Solve the design again.")
    return StoredResult(folder, record, _read_stages(folder, record.load_steps), design_text)


def list_files(folder: Path) -> list[Path]:
    """Return the files of a result folder that pages are made from; none where there is no folder.

    Examples
    --------
    >>> list_files(Path("x"))
    []
    """
    if not folder.is_dir():
        return []
    return [path for path in folder.iterdir() if path.suffix in (".json", ".vtu", ".toml", ".png")]


def _read_stages(folder: Path, steps: Iterable[LoadStepRecord]) -> tuple[StoredLoadStep, ...]:
    """Return the shapes under parts of the weight, and that under the whole."""
    stages = [StoredLoadStep(step.share_of_weight, read_shape(folder / Path(step.file).name)) for step in steps]
    whole = StoredLoadStep(1.0, read_shape(folder / "shape.vtu"))
    if any(stage.shape.triangles.shape != whole.shape.triangles.shape for stage in stages):
        raise ResultError(f"{folder} has load steps of another mesh than shape.vtu. Solve the design again.")
    return (*stages, whole)


def find_bar_shares(checks: Iterable[CheckRecord]) -> dict[CellTag, float]:
    """Return demand over capacity of each bar, of the mechanism nearest to failure; a bar not checked is left out.

    Parameters
    ----------
    checks : iterable of CheckRecord
        ``record.checks``.

    Examples
    --------
    >>> find_bar_shares([])
    {}
    """
    names = {bar.title: bar for bar in BARS}
    shares: dict[CellTag, float] = {}
    for check in checks:
        if check.part in names:
            bar = names[check.part]
            share = 1.0 / check.factor if check.factor else inf
            shares[bar] = max(shares.get(bar, 0.0), share)
    return shares
