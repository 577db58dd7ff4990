"""Lighter materials, as tables for a terminal."""

from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

from ...judging.checks.check import write_utilisation
from ...studies.lighten.combination_search import SearchResult
from ...studies.lighten.evaluation import Evaluation, select_one
from ...studies.lighten.lightening import MESH_SIZE, LightenResult
from ...studies.lighten.part_swaps import ReplaceablePart, name_swaps
from ...studies.sweep.sweep_row import write_best, write_passes
from ...unit_display import WIDTH, Units, find_main_system, show_quantity

if TYPE_CHECKING:
    from rich.console import Console

_LAY = "back_sag_m"
_SHORT = 2  # refusals that are shown for each part


def print_lightening(found: LightenResult, units: Units, console: "Console") -> None:
    """Print every swap alone, then the best combination.

    Parameters
    ----------
    found : LightenResult
        What was found.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to.
    """
    for line in _write_head(found, units):
        console.print(fill(line, WIDTH), markup=False)
    if not found.parts:
        console.print("The library has no lighter material for these parts.", markup=False)
        return
    for place, part in enumerate(found.parts):
        _print_part(found, place, part, units, console)
    console.print()
    for line in _write_best(found, units):
        console.print(fill(line, WIDTH), markup=False)


def _write_head(found: LightenResult, units: Units) -> Iterator[str]:
    """Yield the current design."""
    worst = found.sure.row
    mass = show_quantity(worst.figures["packed_kg"], "mass", units) if worst.figures else "not solved"
    yield f"{found.design.name}, added pack weight {mass}; judged: {' and '.join(found.judged)}."
    if found.unjudged:
        yield f"NOT JUDGED: {', '.join(found.unjudged)}. What passes here may fail there."
    if found.sure.passes:
        used = f"{write_utilisation(worst.figures['least_margin'])} used: {worst.governs}"
        yield (
            f"The current design {write_passes([worst])}. Closest to its limit, {used}.{_format_lay(found.sure, units)}"
        )
    else:
        yield f'THE CURRENT DESIGN FAILS: {found.sure.reason}. Only swaps that fix this are marked "good".'
    if found.parts and found.rough:
        yield (
            f"Single swaps: {_write_length(MESH_SIZE, units)} mesh, which underestimates cloth and seam load. Current "
            f"design and winner: {_write_length(found.design.mesh_size, units)} mesh."
        )


def _format_lay(evaluation: Evaluation, units: Units) -> str:
    """Return the back sag, if a person lies in it."""
    sag = evaluation.row.figures.get(_LAY)
    return "" if sag is None else f" Back sag {show_quantity(sag, 'length', units)}."


def _print_part(found: LightenResult, place: int, part: ReplaceablePart, units: Units, console: "Console") -> None:
    """Print the swaps of one part."""
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, padding=(0, 1, 0, 0), width=WIDTH, title_justify="left")
    for title, end in (
        ("instead", False),
        ("saves", True),
        ("", False),
        ("used", True),
        ("sag", True),
        ("governing check, or why not", False),
    ):
        table.add_column(title, justify="right" if end else "left", ratio=None if end or not title else 1)
    refused = []
    for index, swap in enumerate(part.swaps, 1):
        if swap.refusal:
            refused.append(f"{swap.material}: {swap.refusal}")
            continue
        evaluation, base = _take(found, place, index)
        table.add_row(*map(Text, _write_row(evaluation, base, swap.material, swap.saved, units)))
    console.print(f"\n{part.key}, now {part.material}", markup=False)
    console.print(table)
    for line in refused[:_SHORT]:
        console.print(fill(f"impossible: {line}", WIDTH, initial_indent="  ", subsequent_indent="  "), markup=False)
    if len(refused) > _SHORT:
        console.print(f"  and {len(refused) - _SHORT} more are impossible", markup=False)


def _take(found: LightenResult, place: int, index: int) -> tuple[Evaluation, Evaluation]:
    """Return the evaluation of one swap, and the unchanged design on the same mesh: its own where that refuted it."""
    selection = select_one(found.parts, place, index)
    refuted = {evaluation.selection: evaluation for evaluation in found.best.refuted}
    return (refuted[selection], found.sure) if selection in refuted else (found.alone[selection], found.base)


def _write_row(evaluation: Evaluation, base: Evaluation, material: str, saved: float, units: Units) -> list[str]:
    """Return the cells of one swap."""
    worst, before = evaluation.row, base.row.figures.get(_LAY)
    margin, sag = worst.figures.get("least_margin"), worst.figures.get(_LAY)
    change = "" if sag is None or before is None else _sign(sag - before, units)
    return [
        material,
        show_quantity(saved, "mass", _one(units)),
        "good" if evaluation.passes else "NO",
        "" if margin is None else write_utilisation(margin),
        change,
        worst.governs if evaluation.passes else evaluation.reason,
    ]


def _one(units: Units) -> Units:
    """Return one system, for narrow columns."""
    return find_main_system(units)


def _sign(change: float, units: Units) -> str:
    """Return a change of length with its sign."""
    return ("+" if change >= 0.0 else "-") + show_quantity(abs(change), "length", _one(units), 2)


def _write_best(found: LightenResult, units: Units) -> Iterator[str]:
    """Yield the lightest combination and how sure it is."""
    best = found.best
    for evaluation in best.refuted[:_SHORT]:
        swaps = ", ".join(name_swaps(found.parts, evaluation.selection))
        yield f"Passes only on the coarse mesh: {swaps}. On the fine one: {evaluation.reason}."
    if len(best.refuted) > _SHORT:
        yield f"And {len(best.refuted) - _SHORT} more."
    if best.evaluation is None:
        yield f"No lighter combination {write_passes([found.sure.row])}." + _format_proof(best)
        if found.exclusion:
            yield found.exclusion
        return
    worst = best.evaluation.row
    used = write_utilisation(worst.figures["least_margin"])
    yield (
        f"Lightest {write_best([worst])}: {show_quantity(worst.figures['packed_kg'], 'mass', units)}, "
        f"{show_quantity(best.saved, 'mass', units)} less. Closest to its limit, {used} used: {worst.governs}."
        f"{_format_lay(best.evaluation, units)}"
    )
    yield from (f"  {swap}" for swap in name_swaps(found.parts, best.evaluation.selection))
    yield _format_proof(best).strip()
    yield "Solve the design with it and read all checks before sewing."


def _write_length(length: float, units: Units) -> str:
    """Return a length."""
    return show_quantity(length, "length", units)


def _format_proof(best: SearchResult) -> str:
    """Return how certain it is that nothing lighter passes."""
    count = f"({best.solved} of {best.combinations:,} combinations solved)"
    if best.proven:
        return f" Proven: every lighter combination was solved and fails {count}."
    if best.given_up:
        return f" Not proven: the search reached its limit {count}. Increase --most, or choose fewer parts."
    return f" Likely, not proven: the others are excluded by the effect of each swap alone {count}."
