r"""What another material would do, foretold from shapes that were solved: forces are kept, and strengths are not.

A hammock that takes another cord, strap or plate takes nearly the same shape: forces move by some hundredths, strengths
by tens. So all checks are made anew with the other material under the forces that were found, which takes a fiftieth of
a solve. Of cloth, whose stiffness may change twentyfold, that tells less. A guess, from which a search goes on, and
never a result: what is chosen by it is solved.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import log
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ...design import Design
from ...design_issue import DesignError
from ...judging.checks import Check
from ...judging.checks.bar_checks import check_bars
from ...judging.checks.cloth_checks import check_cloth
from ...judging.checks.extension_checks import check_extensions
from ...judging.checks.findings import CHECKERS, Checker
from ...judging.checks.panel_checks import check_panels
from ...result import Result
from ..sensitivity.tracked_checks import CheckId, run_checks
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import RowStatus, SweepRow
from ..sweep.sweep_values import measure_cases
from ..sweep.task import Task, solve_task_cases
from ..sweep.variant import Variant
from .shortfall_list import Offsets, measure_shortfalls

_OF_CLOTH = (check_cloth, check_extensions, check_panels)
PartKey = tuple[Checker, str]  # by who checks it
ChecksByPart = Mapping[PartKey, Sequence[Check]]
_LEAST = 1e-9  # reserve factor of what bears nothing


class Question(NamedTuple):
    """What is to be foretold.

    Parameters
    ----------
    task : Task
        The design that is solved.
    sweep : Sweep
        Makes the designs of the lists.
    ladders : tuple of tuple of Variant
        Of each thing that is chosen from a list the design with each of its values, the lightest first.
    offsets : mapping of str to float
        As in :mod:`~tautlay.cases.studies.choose.shortfall_list`.
    """

    task: Task
    sweep: Sweep
    ladders: tuple[tuple[Variant, ...], ...]
    offsets: Offsets

    def __repr__(self) -> str:
        return write_repr(self, repr(self.task), f"{len(self.ladders)} lists")


class Rung(NamedTuple):
    """The lightest value of a list that holds, else what misses least.

    Parameters
    ----------
    place : int
        By weight, from 0.
    kinds : frozenset of str
        Of the parts that depend on the list.
    """

    place: int
    kinds: frozenset[str]

    def __repr__(self) -> str:
        return write_repr(self, f"{self.place}", *sorted(self.kinds))


class Foretold(NamedTuple):
    """What was foretold.

    Parameters
    ----------
    rungs : tuple of (Rung or None)
        Of each list; None where no value can be checked, or the design has no equilibrium.
    deciding : tuple of str
        Titles of the cases that are the worst for something.
    """

    rungs: tuple[Rung | None, ...]
    deciding: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(self, *map(repr, self.rungs))


def foretell(question: Question) -> Foretold:
    """Solve a design and foretell of each list the lightest value that is strong enough.

    Parameters
    ----------
    question : Question
        What is asked.
    """
    solved = solve_task_cases(question.task)
    results = [each.result for each in solved if each.result is not None]
    if len(results) < len(solved):
        return Foretold((None,) * len(question.ladders), ())
    before = [_group(run_checks(each.case)) for each in results]
    rows = [
        SweepRow(1, {}, RowStatus.SOLVED, figures=measure_cases(question.task.design, (each,)).figures)
        for each in solved
    ]
    worst = [measure_shortfalls(row, {}).tolist() for row in rows]
    deciding = dict.fromkeys(
        solved[column.index(min(column))].case.title
        for column in map(list, zip(*worst, strict=True))
        if min(column) < max(column)
    )
    rungs = tuple(_climb(results, before, _make(question.sweep, each), question.offsets) for each in question.ladders)
    return Foretold(rungs, tuple(deciding) or (solved[0].case.title,))


def _make(sweep: Sweep, ladder: tuple[Variant, ...]) -> Iterator[tuple[int, Design]]:
    """Yield the designs of a list that can be made, with their place by weight, as far as they are asked for."""
    for place, variant in enumerate(ladder):
        try:
            yield place, sweep.make_design(variant)
        except (DesignError, ValueError):
            continue  # choices that exclude each other


def _climb(
    results: Sequence[Result], before: Sequence[ChecksByPart], ladder: Iterator[tuple[int, Design]], offsets: Offsets
) -> Rung | None:
    """Return the lightest value of a list with which all that depends on it holds, else what misses least."""
    own = [set[PartKey]() for _ in results]
    tried: list[tuple[float, int]] = []
    unchanged = list[int]()  # value of the design itself, of which only others tell what depends on it
    for place, design in ladder:
        found = [_judge(result, design) for result in results]
        asked = [
            {part: checks for part, checks in parts.items() if part[0] in checkers}
            for parts, (checkers, _) in zip(before, found, strict=True)
        ]
        if any(was.keys() - now.keys() for was, (_, now) in zip(asked, found, strict=True)):
            continue  # something can no longer be checked
        changed = [_list_changed(was, now) for was, (_, now) in zip(asked, found, strict=True)]
        if not any(changed):
            unchanged.append(place)
            continue
        own = [known | more for known, more in zip(own, changed, strict=True)]
        missing = _add_misses([now for _, now in found], own, offsets)
        tried.append((missing, place))
        if missing == 0.0:
            break
    tried += [(_add_misses(before, own, offsets), place) for place in unchanged]
    kinds = {parts[part][0].asked.kind for parts, keys in zip(before, own, strict=True) for part in keys & parts.keys()}
    return Rung(min(tried)[1], frozenset(kinds)) if tried else None


def _judge(result: Result, design: Design) -> tuple[tuple[Checker, ...], ChecksByPart]:
    """Return which checks may have changed with the materials of another design, and those checks by part."""
    old, new = result.design, design.put_in(result.design.find_case(result.load))
    model = replace(result.model, hammock=new.hammock)
    swapped = replace(result, design=new, model=model)
    cloth = old.hammock.body == new.hammock.body and old.workmanship == new.workmanship
    bars = all(one.bar == other.bar for one, other in zip(old.hammock.ends, new.hammock.ends, strict=True))
    left_out = (*(_OF_CLOTH if cloth else ()), *((check_bars,) if bars else ()))
    checkers = tuple(each for each in CHECKERS if each not in left_out)
    case = swapped.make_case(result.cloth_utilisation if cloth else swapped.cloth_utilisation)
    return checkers, _group(run_checks(case, checkers))


def _group(checks: Mapping[CheckId, Check]) -> ChecksByPart:
    """Return checks by who makes them and the part."""
    found: dict[PartKey, list[Check]] = {}
    for key, check in checks.items():
        found.setdefault((key.checker, key.part), []).append(check)
    return found


def _list_changed(before: ChecksByPart, after: ChecksByPart) -> set[PartKey]:
    """Return the parts that fail in another way, or bear something else."""
    return {part for part in after if _list_limits(after[part]) != _list_limits(before.get(part, ()))}


def _list_limits(checks: Sequence[Check]) -> list[tuple[str, float]]:
    """Return how a part may fail, and what it bears."""
    return [(check.mechanism, check.capacity.value) for check in checks]


def _add_misses(cases: Sequence[ChecksByPart], own: Sequence[set[PartKey]], offsets: Offsets) -> float:
    """Return how much is missing of all parts that depend on a list."""
    return sum(
        _miss(check, offsets)
        for parts, keys in zip(cases, own, strict=True)
        for part in keys & parts.keys()
        for check in parts[part]
    )


def _miss(check: Check, offsets: Offsets) -> float:
    """Return how much of what is required is missing, as a logarithm, with what the mesh of the design adds."""
    return max(0.0, -log(max(check.margin, _LEAST)) - offsets.get(f"reserve_{check.asked.kind}", 0.0))
