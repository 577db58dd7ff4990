"""A file of measurements, read and checked against the design."""

from collections.abc import Iterator
from os import PathLike
from pathlib import Path

from ....materials import nearest_line
from ...design import Design
from ...design_issue import DesignError, DesignIssue, suggest_name, write_choices, write_path
from ...design_text import read_text
from ...form import read_form
from ...judging.sensitivity.range_input import list_mechanical
from ..trial.reading import READINGS
from .measured_form import LoadedTable, MeasuredForm

_ASIDE = {"head_line_aside": "head_line", "foot_line_aside": "foot_line"}
Path_ = tuple[str | int, ...]


def read_measured(path: str | PathLike[str], design: Design) -> MeasuredForm:
    """Read a file of measurements.

    Parameters
    ----------
    path : path
        A TOML file in UTF-8.
    design : Design
        What was measured.

    Raises
    ------
    DesignError
        With every issue at once: file, line, key, value, what is allowed.
    """
    file = Path(path)
    content = read_text(file, advise=False)
    form = read_form(MeasuredForm, content, file)
    issues = [
        DesignIssue(str(file), sentence, nearest_line(content.text, keys), write_path(keys))
        for keys, sentence in _find_issues(form, design)
    ]
    if issues:
        raise DesignError(issues)
    return form


def _find_issues(form: MeasuredForm, design: Design) -> Iterator[tuple[Path_, str]]:
    """Yield what is wrong beyond single values: its keys, and a sentence."""
    if not form.load and not form.strip and not form.cord:
        yield ("load",), "nothing is measured here. Add a table [[load]], [[strip]] or [[cord]]."
    if form.load and form.hung is None:
        yield ("load",), 'is missing its trees. Add [hung] with tree_distance = "4.27 m".'
    waters: list[float] = []
    for number, each in enumerate(form.load):
        yield from _check_load(number, each)
        if each.water in waters:
            yield ("load", number, "water"), f"{each.water:g} kg is given twice. Put its readings into one table."
        waters.append(each.water)
    ropes = list(dict.fromkeys(each.material.name for each in list_mechanical(design.hammock) if each.field == "ea"))
    for number, cord in enumerate(form.cord):
        if cord.material not in ropes:
            guess = suggest_name(cord.material, ropes)
            yield (
                ("cord", number, "material"),
                f"no cord or strap of this design. {guess}Choose {write_choices(ropes)}.",
            )


def _check_load(number: int, each: LoadedTable) -> Iterator[tuple[Path_, str]]:
    """Yield what is wrong with what was read under an amount of water."""
    if all(getattr(each, key) is None for key in (*READINGS, *_ASIDE)):
        yield ("load", number), f"holds no reading. Add one of {', '.join((*READINGS, *_ASIDE))}."
    for aside, line in _ASIDE.items():
        if getattr(each, aside) is not None and getattr(each, line) is not None:
            yield ("load", number, aside), f"the tension is given twice. Give {line} or {aside}."
