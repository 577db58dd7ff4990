"""What could be lighter, as tables for a terminal."""

from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

from ...studies.lighten.combination_search import SearchResult
from ...studies.lighten.evaluation import Evaluation, select_one
from ...studies.lighten.lightening import MESH_SIZE, LightenResult
from ...studies.lighten.part_swaps import ReplaceablePart
from ...unit_display import WIDTH, Units, find_main_system, show_quantity

if TYPE_CHECKING:
    from rich.console import Console

_LAY = "back_sag_m"
_SHORT = 2  # refusals that are told for each part


def print_lightening(found: LightenResult, units: Units, console: "Console") -> None:
    """Print every swap by itself, then the best combination.

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
        console.print("The library has nothing lighter for any of these parts.", markup=False)
        return
    for place, part in enumerate(found.parts):
        _print_part(found, place, part, units, console)
    console.print()
    for line in _write_best(found, units):
        console.print(fill(line, WIDTH), markup=False)


def _write_head(found: LightenResult, units: Units) -> Iterator[str]:
    """Yield what is looked at."""
    worst = found.sure.worst
    mass = show_quantity(worst.figures["packed_kg"], "mass", units) if worst.figures else "not solved"
    yield f"{found.design.name}, {mass} to carry, under the loads {' and '.join(found.loads)}."
    if found.sure.does:
        margin = f"{worst.figures['least_margin']:.2f}, {worst.governs}"
        yield f"As it is: least margin {margin}.{_format_lay(found.sure, units)}"
    else:
        yield f"AS IT IS IT DOES NOT DO: {found.sure.reason}. Only swaps that mend this are marked as good."
    if found.parts and found.rough:
        yield (
            f"Each swap by itself, with triangles of {_write_length(MESH_SIZE, units)}, which tell the pull of cloth "
            "and seams too low; the design as it is, and what would be the lightest, with those of the design, "
            f"{_write_length(found.design.mesh_size, units)}:"
        )


def _format_lay(trial: Evaluation, units: Units) -> str:
    """Return how deep the back sags, if a person lies in it."""
    sag = trial.worst.figures.get(_LAY)
    return "" if sag is None else f" Sag of the back line {show_quantity(sag, 'length', units)}."


def _print_part(found: LightenResult, place: int, part: ReplaceablePart, units: Units, console: "Console") -> None:
    """Print the swaps of one part."""
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, padding=(0, 1, 0, 0), width=WIDTH, title_justify="left")
    for title, end in (
        ("instead", False),
        ("saves", True),
        ("", False),
        ("margin", True),
        ("sag", True),
        ("then governs, or why not", False),
    ):
        table.add_column(title, justify="right" if end else "left", ratio=None if end or not title else 1)
    refused = []
    for pick, swap in enumerate(part.swaps, 1):
        if swap.refusal:
            refused.append(f"{swap.material}: {swap.refusal}")
            continue
        trial, base = _take(found, place, pick)
        table.add_row(*map(Text, _write_row(trial, base, swap.material, swap.saved, units)))
    console.print(f"\n{part.key}, now {part.material}", markup=False)
    console.print(table)
    for line in refused[:_SHORT]:
        console.print(fill(f"cannot be: {line}", WIDTH, initial_indent="  ", subsequent_indent="  "), markup=False)
    if len(refused) > _SHORT:
        console.print(f"  and {len(refused) - _SHORT} more cannot be", markup=False)


def _take(found: LightenResult, place: int, pick: int) -> tuple[Evaluation, Evaluation]:
    """Return the trial of one swap, and the design as it is with the same mesh: its own where that refuted the swap."""
    picks = select_one(found.parts, place, pick)
    refuted = {trial.picks: trial for trial in found.best.refuted}
    return (refuted[picks], found.sure) if picks in refuted else (found.alone[picks], found.base)


def _write_row(trial: Evaluation, base: Evaluation, material: str, saved: float, units: Units) -> list[str]:
    """Return the cells of one swap."""
    worst, before = trial.worst, base.worst.figures.get(_LAY)
    margin, sag = worst.figures.get("least_margin"), worst.figures.get(_LAY)
    change = "" if sag is None or before is None else _sign(sag - before, units)
    return [
        material,
        show_quantity(saved, "mass", _one(units)),
        "good" if trial.does else "NO",
        "" if margin is None else f"{margin:.2f}",
        change,
        worst.governs if trial.does else trial.reason,
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
    for trial in best.refuted[:_SHORT]:
        yield f"DID ONLY WITH COARSE TRIANGLES: {', '.join(_name_swaps(found, trial))}: {trial.reason}."
    if len(best.refuted) > _SHORT:
        yield f"So did {len(best.refuted) - _SHORT} more."
    if best.trial is None:
        yield "No lighter combination that does was found." + _format_proof(best)
        return
    worst = best.trial.worst
    yield (
        f"Lightest that does: {show_quantity(worst.figures['packed_kg'], 'mass', units)}, "
        f"{show_quantity(best.saved, 'mass', units)} less. Least margin {worst.figures['least_margin']:.2f}, "
        f"{worst.governs}.{_format_lay(best.trial, units)}"
    )
    yield from (f"  {swap}" for swap in _name_swaps(found, best.trial))
    yield _format_proof(best).strip()
    yield "Solve the design with it and look at all checks before sewing."


def _name_swaps(found: LightenResult, trial: Evaluation) -> Iterator[str]:
    """Yield what is swapped for what."""
    for part, pick in zip(found.parts, trial.picks, strict=True):
        if pick:
            yield f"{part.key} = {part.swaps[pick - 1].material}"


def _write_length(length: float, units: Units) -> str:
    """Return a length."""
    return show_quantity(length, "length", units)


def _format_proof(best: SearchResult) -> str:
    """Return how sure it is that nothing lighter does."""
    count = f"{best.combinations:,} combinations, {best.solved} of them solved"
    if best.proven:
        return f" {count}: every lighter one was, and does not do."
    if best.given_up:
        return f" {count}, then the search was given up: there may be one; allow more with --most, or name fewer parts."
    return f" {count}; the others are ruled out by what each swap does alone, which is likely but not proven."
