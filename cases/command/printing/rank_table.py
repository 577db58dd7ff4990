"""A ranking in words and tables for a terminal."""

from collections.abc import Callable, Iterator, Sequence
from textwrap import fill

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import escape_text
from ...display.safety_cautions import CAUTIONS
from ...studies.compare.choice_effects import ChoiceEffect, ChoiceEffects, Influence
from ...studies.compare.pareto_front import ParetoFront, choose_figures
from ...studies.compare.ranking import Ranking
from ...studies.compare.row_verdict import format_verdict
from ...studies.compare.value_columns import find_column, find_common, name_design, name_figure, show_figure
from ...studies.sweep.exclusion import explain_exclusion
from ...studies.sweep.result_value import ResultValue, find_result_value
from ...studies.sweep.store import SweepRecord
from ...studies.sweep.sweep_row import SweepRow, list_unchecked, list_unjudged, write_pass
from ...unit_display import WIDTH, Units, find_main_system, list_systems, show_quantity

MOST_COLUMNS = 4  # of values, what fits beside the choices
_MARK = "u"
_NARROW = 9  # columns of a heading
_AROUND = 12  # lines about a table


def print_ranking(
    heading: SweepRecord, ranking: Ranking, unbeaten: ParetoFront | None, console: Console, *, units: Units,
    most: int | None = None, against: bool = False,
) -> None:  # fmt: skip
    """Print designs in order: choices, weight, reserve factor, the value they are sorted by, governing check.

    Parameters
    ----------
    heading : SweepRecord
        Of the sweep.
    ranking : Ranking
        The designs.
    unbeaten : ParetoFront or None
        Which of them are Pareto-optimal.
    console : Console
        Where to; nothing is wider than 80 columns.
    units : {"metric", "imperial", "both"}
        Units of all values.
    most : int or None
        Rows; None is what the terminal holds, and all where there is none.
    against : bool
        Only those that are Pareto-optimal, with the values that decided it.
    """
    rows = unbeaten.rows if against and unbeaten else ranking.rows
    figures = _choose_columns(ranking, unbeaten if against else None)
    front = {row.number for row in unbeaten.rows} if unbeaten else set()
    common = find_common(rows)
    width = min(console.width, WIDTH)

    def build(count: int) -> Table:
        return _build_table(rows[:count], figures, front, common, units)

    shown = _find_fitting(rows, build, console, width) if most is None else most
    parts: list[RenderableType] = [
        *(
            Text(line, style="bold" if not place else "")
            for place, line in enumerate(_write_head(heading, ranking, rows))
        ),
        *([build(shown)] if rows else []),
        *(Text(line) for line in _write_foot(rows, shown, figures, unbeaten, front, against)),
    ]
    console.print(Group(*parts), width=width)


def print_effects(found: Sequence[ChoiceEffects], units: Units, console: Console) -> None:
    """Print the effect of each choice on some values of one sweep, the largest first."""
    parts: list[RenderableType] = []
    for effects in found:
        parts.append(Text(f"\nEffects on {effects.figure.key}: {effects.figure.title}", style="bold"))
        spread = any(effect.size > 1 or effect.least is None for each in effects.influences for effect in each.effects)
        parts += [_build_effects(each, effects.figure, units, spread) for each in effects.influences]
    notes = dict.fromkeys(effects.how for effects in found)
    console.print(Group(*parts, *map(Text, notes)), width=min(console.width, WIDTH))


def _build_effects(influence: Influence, figure: ResultValue, units: Units, spread: bool) -> Table:
    """Return the table of one choice; without a spread there is one design for each change."""
    table, columns = Table(box=None, pad_edge=False), ("change", "min", "max", "n") if spread else ("change",)
    table.add_column(Text(escape_text(influence.choice)), ratio=1)
    for column in columns:
        table.add_column(column, justify="right", no_wrap=True)
    table.add_row(Text(escape_text(influence.effects[0].against)), "reference")
    for effect in influence.effects:
        table.add_row(*map(Text, _list_cells(effect, figure, units)[: 1 + len(columns)]))
    return table


def show_change(value: float | None, figure: ResultValue, units: Units, digits: int = 3) -> str:
    """Return a change with its sign; None is a question mark.

    Examples
    --------
    >>> [show_change(change, find_result_value("packed_kg"), "metric") for change in (-0.012, None)]
    ['-12.0 g', '?']
    """
    if value is None:
        return "?"
    if figure.dimension == "ratio":
        return f"{round(value, 3) + 0.0:+.3f}"
    sign = "+" if value > 0 else ""
    return f"{sign}{show_quantity(value, figure.dimension, units, digits)}"


def _choose_columns(ranking: Ranking, unbeaten: ParetoFront | None) -> tuple[ResultValue, ...]:
    """Return the values in the table."""
    keys = [each.key for each in unbeaten.figures] if unbeaten else []
    column = find_column(ranking.sort, ranking.rows) if ranking.rows else ""
    keys += [*choose_figures(ranking.rows), *([column.key] if isinstance(column, ResultValue) else [])]
    return tuple(find_result_value(key) for key in dict.fromkeys(keys))


def _build_table(
    rows: Sequence[SweepRow], figures: Sequence[ResultValue], front: set[int], common: dict[str, str], units: Units
) -> Table:
    """Return the table of designs."""
    table = Table(box=None, pad_edge=False)
    table.add_column("no.", justify="right", no_wrap=True)
    table.add_column("", no_wrap=True)
    table.add_column("design", ratio=6)
    for figure in figures[:MOST_COLUMNS]:
        table.add_column(fill(name_figure(figure), _NARROW), justify="right", max_width=12)
    table.add_column("verdict", ratio=5)
    for row in rows:
        cells = (str(row.number), _MARK if row.number in front else "", escape_text(name_design(row, common)))
        found = (_show_lines(row.figures.get(figure.key), figure, units) for figure in figures[:MOST_COLUMNS])
        table.add_row(*map(Text, (*cells, *found, escape_text(format_verdict(row)))), style="" if row.holds else "bold")
    return table


def _show_lines(value: float | None, figure: ResultValue, units: Units) -> str:
    """Return a value, each system of units on a separate line."""
    shown = [show_figure(value, figure, system) for system in list_systems(units)]
    return "\n".join(dict.fromkeys(shown))


def _write_head(heading: SweepRecord, ranking: Ranking, rows: Sequence[SweepRow]) -> Iterator[str]:
    """Yield what is listed, and what is the same in all of it."""
    count = len(ranking.rows)
    yield escape_text(
        f"{heading.name}: {ranking.total} designs, {heading.load}; "
        + (f"{count} selected ({'; '.join(ranking.conditions)}), " if ranking.conditions else "")
        + f"{ranking.held} {write_pass(ranking.rows)}."
    )
    if unjudged := list_unjudged(rows):
        yield escape_text(f"NOT JUDGED: {', '.join(unjudged)}. What passes here may fail there.")
    if rows:
        varying = ", ".join(name for name in rows[0].choices if name not in find_common(rows))
        yield escape_text(
            f"Sorted by {ranking.sort}, best first." + (f" Designs are labelled by {varying}." if varying else "")
        )
    common = find_common(rows)
    if common:
        yield escape_text("All have " + "; ".join(f"{name} {label}" for name, label in common.items()) + ".")


def _write_foot(
    rows: Sequence[SweepRow],
    shown: int,
    figures: Sequence[ResultValue],
    unbeaten: ParetoFront | None,
    front: set[int],
    against: bool,
) -> Iterator[str]:
    """Yield what is not shown, what the mark means, what was not checked, and the first caution."""
    if len(rows) > shown:
        yield f"Not shown: {len(rows) - shown} more. --most {len(rows)} shows all."
    if len(figures) > MOST_COLUMNS:
        yield f"Not shown: {', '.join(each.key for each in figures[MOST_COLUMNS:])}; --csv FILE has all values."
    if unbeaten and (front or against):
        yield f"{_MARK}: {unbeaten.explain()}" if front else unbeaten.explain()
    if (words := explain_exclusion(rows)) is not None:
        yield escape_text(words)
    if unchecked := list_unchecked(rows):
        yield escape_text(f"NOT CHECKED in some or all of them: {', '.join(unchecked)}.")
    yield CAUTIONS[0].text


def _find_fitting(rows: Sequence[SweepRow], build: Callable[[int], Table], console: Console, width: int) -> int:
    """Return how many rows the terminal holds, at least one; all where there is no terminal."""
    if not console.is_terminal:
        return len(rows)
    options, room = console.options.update(width=width), max(console.height - _AROUND, 1)
    count = min(len(rows), room)
    while count > 1 and len(console.render_lines(build(count), options)) > room + 1:
        count -= 1
    return count


def _list_cells(effect: ChoiceEffect, figure: ResultValue, units: Units) -> tuple[str, ...]:
    """Return one line of effects."""
    system: Units = find_main_system(units)
    mean = "\n".join(dict.fromkeys(show_change(effect.mean, figure, each) for each in list_systems(units)))
    ends = (show_change(end, figure, system) for end in (effect.least, effect.most))
    return (escape_text(effect.label), mean, *ends, str(effect.size))
