"""A design with everything that is open in it, read from its file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import prod
from os import PathLike
from pathlib import Path
from typing import NamedTuple

from ....materials import TomlFile, nearest_line, show_value
from ....materials.short_repr import write_repr
from ...design_issue import DesignError, DesignIssue
from ...design_text import read_text
from ...form import read_form
from ..sweep.result_value import ResultValue, find_result_value
from ..sweep.setting import apply_settings, look_up
from ..sweep.sweep import Sweep
from ..sweep.sweep_file import compose_sweep, read_base
from ..sweep.sweep_form import Combine
from ..sweep.sweep_variable import SweepVariable
from ..sweep.variant import list_variants
from .choose_form import ChooseForm, ChooseTable
from .goal import check_goal

_USE = ("person", "load", "judge", "factors")
_USE_REMEDY = "Let the design name everybody and every load: [[person]] and [judge]."
MOST_WEIGHED = 3000  # combinations of a finite set, each of which is weighed; a tenth of a second each


class ChangedValue(NamedTuple):
    """The value of one thing that is open in the design as written, and in the one that was chosen, in words."""

    name: str
    start: str
    answer: str


@dataclass(frozen=True)
class OpenDesign:
    """A design with everything that is open in it.

    Parameters
    ----------
    sweep : Sweep
        What may vary. Of a finite set its designs are all combinations, else the places from which sizes are searched.
    fine : Sweep
        The same on the mesh of the design.
    terms : ChooseTable
        How it is searched.
    finite : bool
        Whether all combinations can be weighed.
    """

    sweep: Sweep
    fine: Sweep
    terms: ChooseTable
    finite: bool

    def __repr__(self) -> str:
        return write_repr(self, self.sweep.name, *(choice.name for choice in self.sweep.choices))

    def list_changes(self, chosen: Mapping[str, str]) -> list["ChangedValue"]:
        """Return of each thing that is open its value as written and as chosen, in words.

        Parameters
        ----------
        chosen : mapping of str to str
            By the name of what is open.
        """
        raw = apply_settings(self.fine.content.data, self.fine.fixed)
        return [
            ChangedValue(each.name, _write_values([look_up(raw, path) for path in each.paths]), chosen[each.name])
            for each in self.fine.choices
        ]

    @property
    def goals(self) -> tuple[ResultValue, ...]:
        """What is searched."""
        return tuple(map(find_result_value, self.terms.goal))

    @property
    def rough(self) -> bool:
        """Whether it is searched on a coarser mesh than that of the design."""
        return self.fine.mesh_size < self.sweep.mesh_size


def read_open_design(path: str | PathLike[str]) -> OpenDesign:
    """Read a file that leaves something of a design open, and check every value in it.

    Parameters
    ----------
    path : path
        A TOML file in UTF-8; the design is looked for beside it.

    Raises
    ------
    DesignError
        With every issue at once: file, line, key, value, what is allowed.

    Examples
    --------
    >>> read_open_design("nowhere.toml")
    Traceback (most recent call last):
    tautlay.cases.design_issue.DesignError: nowhere.toml: there is no such file.
    """
    file = Path(path)
    content = read_text(file, advise=False)
    form = read_form(ChooseForm, content, file)
    design = read_base(content, file, "choose", form.choose.design)
    _check_use(form, content.text, file)
    fine = _compose(content, file, design, form.choose, rough=False)
    sweep = _compose(content, file, design, form.choose, rough=True)
    check_goal(form.choose.goal, sweep, content.text, file, finite=_is_finite(sweep.choices))
    if not _is_finite(sweep.choices):
        return OpenDesign(sweep, fine, form.choose, finite=False)
    every = list_variants(sweep.choices, Combine.GRID, None, form.choose.seed)
    return OpenDesign(replace(sweep, variants=every), fine, form.choose, finite=True)


def _write_values(values: Sequence[object]) -> str:
    """Return what a design states at some keys, in words."""
    told = ("not given" if each is None else each if isinstance(each, str) else show_value(each) for each in values)
    return ", ".join(dict.fromkeys(told))


def _is_finite(choices: Sequence[SweepVariable]) -> bool:
    """Return whether all combinations can be weighed."""
    return all(choice.options for choice in choices) and prod(len(each.options) for each in choices) <= MOST_WEIGHED


def _check_use(form: ChooseForm, text: str, file: Path) -> None:
    """Raise for keys that say what a design has to stand: a search would choose the least of it."""
    faults = []
    for number, vary in enumerate(form.vary):
        for key in filter(None, [vary.key, *vary.keys]):
            if key.split(".")[0] in _USE and key.rpartition(".")[2] != "head_from_bar":
                line = nearest_line(text, ("vary", number))
                words = f"{key} says what the design has to stand and is not chosen. {_USE_REMEDY}"
                faults.append(DesignIssue(str(file), words, line, f"vary.{number + 1}"))
    if faults:
        raise DesignError(faults)


def _compose(content: TomlFile, file: Path, design: TomlFile, terms: ChooseTable, *, rough: bool) -> Sweep:
    """Return what varies as a sweep, on the mesh of the search or of the design; only single designs are solved."""
    table = {
        "name": terms.name,
        "note": terms.note,
        "design": terms.design,
        "combine": str(Combine.LATIN),
        "samples": max(terms.starts, 2),
        "seed": terms.seed,
    }
    if rough and terms.mesh_size is not None:
        table["mesh_size"] = f"{terms.mesh_size!r} m"
    others = {key: value for key, value in content.data.items() if key != "choose"}
    found = compose_sweep(TomlFile(content.text, {"sweep": table} | others), file, design)
    return replace(found, name=f"{terms.name}, {found.mesh_size:g} m mesh")
