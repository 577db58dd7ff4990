"""In which order the designs of a sweep are solved, and from whose shape each starts."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from ....hammock.outline import Outline, draw_outline
from ....materials.short_repr import write_repr
from ...design import Design
from ...design_issue import DesignError, DesignIssue
from ...form import MOST_FILES
from ...judging.verdict.terms import JudgedCase
from ..line_callback import LineCallback
from .result_key import make_key
from .sweep import Sweep
from .variant import Variant


@dataclass(frozen=True)
class Job:
    """One design of a sweep to be solved.

    Parameters
    ----------
    variant : Variant
        What was chosen.
    key : str
        Of its result.
    design : Design or None
        None if it cannot be made.
    refusal : str
        Why it cannot be made.
    start_key : str
        Key of the job from whose shape it starts; empty from the flat cloth.
    cases : tuple of JudgedCase
        People and loads under which it is solved.
    whole : bool
        Whether all of them are solved; else the first that fails is the last.
    """

    variant: Variant
    key: str
    design: Design | None
    refusal: str = ""
    start_key: str = ""
    cases: tuple[JudgedCase, ...] = ()
    whole: bool = True

    def __repr__(self) -> str:
        return write_repr(self, f"{self.variant.number}", self.key, self.refusal)


class _MeshGroup:
    """Jobs that can start from each other's shape: the same person, load and flat body."""

    def __init__(self, design: Design, outline: Outline) -> None:
        self.person, self.load, self.outline = design.person, design.load, outline
        self.keys: dict[tuple[int, ...], str] = {}

    def fits(self, design: Design, outline: Outline) -> bool:
        """Return whether a design belongs to it."""
        return (self.person, self.load, self.outline) == (design.person, design.load, outline)

    def find_start(self, picks: tuple[int, ...], first: tuple[int, ...]) -> str:
        """Return the key of the nearest job that came before, empty if there is none.

        Nearest is a job that differs in one choice only, the last that is not at its first option; else the first.
        """
        near = (self.keys[other] for other in _list_nearest(picks, first) if other in self.keys)
        return next(near, next(iter(self.keys.values()), ""))


def _find_group(groups: list[_MeshGroup], design: Design) -> _MeshGroup:
    """Return the group of a design, a new one if there is none yet."""
    outline = draw_outline(design.hammock.body)
    for group in groups:
        if group.fits(design, outline):
            return group
    groups.append(_MeshGroup(design, outline))
    return groups[-1]


def _list_nearest(picks: tuple[int, ...], first: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield the picks with one choice put back to its first option, the last choice first."""
    for place in reversed(range(len(picks))):
        if picks[place] != first[place]:
            yield (*picks[:place], first[place], *picks[place + 1 :])


class StartFrom(StrEnum):
    """Where the designs of a sweep start from."""

    NEAREST = "nearest"  # the shape of the design that differs least from it
    FIRST = "first"  # the shape of the first design with the same person, load and flat body
    COLD = "cold"  # the flat cloth


def plan_jobs(
    sweep: Sweep, *, start_from: StartFrom = StartFrom.NEAREST, report: LineCallback | None = None
) -> list[Job]:
    """Return every design of a sweep in order; each starts from one before it, or from the flat cloth.

    Which one depends on the sweep file alone, so that a sweep that was stopped ends with the same results.

    Parameters
    ----------
    sweep : Sweep
        From :func:`~tautlay.cases.studies.sweep.sweep_file.read_sweep`.
    start_from : StartFrom
        Where they start from.
    report : callable or None
        Receives a line of text while it reads.

    Raises
    ------
    DesignError
        If not one of the designs can be made.
    """
    groups, jobs = list[_MeshGroup](), list[Job]()
    hashed = _Hash(sweep)
    first = tuple(min(variant.picks[place] for variant in sweep.variants) for place in range(len(sweep.choices)))
    for variant in sweep.variants:
        if report is not None and variant.number % 100 == 0:
            report(f"reading design {variant.number} of {len(sweep.variants)}")
        try:
            tables = sweep.set_tables(variant)
        except ValueError as error:  # choices that exclude each other: there is no such design
            settings = sweep.content.data | {"settings": sweep.list_settings(variant)}
            jobs.append(Job(variant, hashed.make(settings, ""), None, str(error)))
            continue
        try:
            design = sweep.compose(tables)
        except DesignError as error:
            jobs.append(Job(variant, hashed.make(tables, ""), None, _write_refusal(error)))
            continue
        group = _find_group(groups, design)
        start_key = group.find_start(variant.picks if start_from is StartFrom.NEAREST else (), first)
        start_key = "" if start_from is StartFrom.COLD else start_key
        whole = sweep.is_whole(variant)
        key = hashed.make(tables, start_key, whole=whole)
        group.keys.setdefault(variant.picks, key)
        jobs.append(Job(variant, key, design, "", start_key, sweep.list_cases(design), whole))
    if all(job.design is None for job in jobs):
        words = f"none of the {len(jobs)} designs can be made. The first: {jobs[0].refusal}"
        raise DesignError([DesignIssue(str(sweep.path), words)])
    return jobs


class _Hash:
    """Makes the keys of a sweep's results."""

    def __init__(self, sweep: Sweep) -> None:
        names = sweep.content.data.get("materials", {}).get("files", [])[:MOST_FILES]
        self.materials = tuple((sweep.base.path.parent / name).read_bytes() for name in names)
        self.settings = {
            "mesh_size_m": sweep.mesh_size,
            "hot_spots": sweep.hot_spots,
            "loads": [*map(str, sweep.loads)] or sweep.names_load,
            **({"cases": list(sweep.cases)} if sweep.cases else {}),
        }

    def make(self, tables: dict[str, Any], start_key: str, *, whole: bool = True) -> str:
        """Return the key of a design's result, started from that of ``start_key``."""
        return make_key(tables, self.materials, self.settings | {"whole": whole}, start_key)


def _write_refusal(error: DesignError) -> str:
    """Return why a design cannot be made, without the name of the file."""
    return " ".join(fault.statement for fault in error.faults)
