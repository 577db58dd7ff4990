"""The lightest design in sentences that terminal and page share."""

from collections.abc import Iterator, Sequence

from ...judging.checks.check import write_utilisation
from ...unit_display import Units, show_quantity
from ..sweep.result_value import ResultValue
from ..sweep.sweep_row import SweepRow
from .goal import LIGHTEST
from .outcome import ChooseResult, ChosenDesign

_SHORT = 3  # refuted designs that are told
CLOSE = 0.02  # of the weight: within this two starts agree


def list_sentences(found: ChooseResult, units: Units) -> Iterator[str]:
    """Yield what was chosen and how sure that is.

    Parameters
    ----------
    found : ChooseResult
        What was found.
    units : {"metric", "imperial", "both"}
        Units.
    """
    base = found.open_design.sweep.base
    people = ", ".join(filter(None, (who.name for who in base.terms.people)))
    yield f"{found.open_design.terms.name}: {base.name}, judged for {people or 'its person'}."
    if found.stopped:
        yield "STOPPED before the end."
    if found.chosen is None:
        yield "Nothing was found that passes." if found.stopped or not found.proven else "Nothing passes."
        if found.exclusion:
            yield found.exclusion
    else:
        yield from _write_chosen(found, found.chosen, units)
    yield from _write_refuted(found)
    yield from _write_proof(found, units) if found.open_design.finite else _write_starts(found, units)
    if found.chosen is not None:
        yield "`tautlay judge` the design and read all checks before sewing."


def name_answer(found: ChooseResult) -> str:
    """Return what is searched, for a heading.

    Parameters
    ----------
    found : ChooseResult
        What was found.
    """
    if found.open_design.terms.goal == LIGHTEST:
        return "Lightest that passes"
    goals = found.open_design.goals
    return f"{'Best that passes' if len(goals) == 1 else 'Passes and is beaten by nothing'} in {_join_titles(goals)}"


def _join_titles(goals: Sequence[ResultValue]) -> str:
    """Return the goals in words."""
    return ", ".join(goal.title for goal in goals[:-1]) + (" and " if len(goals) > 1 else "") + goals[-1].title


def _write_chosen(found: ChooseResult, chosen: ChosenDesign, units: Units) -> Iterator[str]:
    """Yield the chosen design, and what else nothing beats."""
    row = chosen.row
    sure = "confirmed on the mesh of the design" if chosen.confirmed else "NOT CONFIRMED on the mesh of the design"
    used = f" Closest to its limit, {write_utilisation(row.figures['least_margin'])} used: {row.governs}."
    packed = show_quantity(chosen.packed, "mass", units)
    goals = found.open_design.goals
    if not found.front:
        yield f"Lightest that passes: {packed}, {sure}.{used}"
    elif len(goals) == 1:
        value = _write_goals(found.front[0], goals, units)
        yield f"Best of {found.compared} that pass: {value}, added pack weight {packed}, {sure}.{used}"
    else:
        yield (
            f"Of {found.compared} that pass nothing beats these {len(found.front)} in {_join_titles(goals)}, "
            f"{'each ' if len(found.front) > 1 else ''}{sure}:"
        )
        yield from (f"  {_write_goals(each, goals, units)}: {each.title}" for each in found.front)
        yield f"Written is the first, best in {goals[0].title}.{used} `tautlay rank` writes the others."
    yield from (f"  {name} = {label}" for name, label in row.choices.items())


def _write_goals(row: SweepRow, goals: Sequence[ResultValue], units: Units) -> str:
    """Return what a design has of each goal."""
    return ", ".join(f"{goal.title} {show_quantity(row.figures[goal.key], goal.dimension, units)}" for goal in goals)


def _write_refuted(found: ChooseResult) -> Iterator[str]:
    """Yield what passes on the mesh of the search alone."""
    for row, reason in found.refuted[:_SHORT]:
        yield f"Passes only on the coarse mesh: {row.title}. On that of the design: {reason}."
    if len(found.refuted) > _SHORT:
        yield f"And {len(found.refuted) - _SHORT} more."


def _write_proof(found: ChooseResult, units: Units) -> Iterator[str]:
    """Yield how sure it is that nothing lighter passes."""
    counts = [f"{found.solved} solved"]
    counts += [f"{count} {reason}" for reason, count in sorted(found.excluded.items())]
    counts += [f"{found.refused} cannot be made"] if found.refused else []
    told = f"Of {found.combinations:,} combinations: {'; '.join(counts)}."
    if found.proven:
        what = "every combination was solved" if found.front else "everything lighter was solved and fails"
        yield f"Proven: {what}, or is excluded for certain. {told}"
    else:
        floor = "" if found.floor is None else f" Nothing below {show_quantity(found.floor, 'mass', units)} passes."
        yield f"Not proven: the search ended early.{floor} {told} Run it again, or increase most in [choose]."


def _write_starts(found: ChooseResult, units: Units) -> Iterator[str]:
    """Yield that nothing is proven, and how far the starts agree."""
    yield f"Not proven: sizes are searched, {found.solved} designs solved, and there is no bound below."
    packed = [each.packed for each in found.starts if each.packed is not None]
    if not found.starts:
        return
    if not packed:
        yield f"None of {len(found.starts)} starts found a design that passes."
        return
    close = sum(each <= min(packed) * (1.0 + CLOSE) for each in packed)
    ends = ", ".join(show_quantity(each, "mass", units) for each in packed)
    yield f"{close} of {len(found.starts)} starts ended within {CLOSE * 100:.0f} % of the lightest: {ends}."
