"""A sweep file read and checked."""

from collections.abc import Iterable, Iterator, Sequence
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from ....materials import TomlError, TomlFile, nearest_line, read_toml
from ...design import Design, compose_design
from ...design_issue import DesignError, DesignIssue, write_path
from ...design_text import read_text
from ...form import DesignForm, read_form, translate_errors
from ...mesh_size import MeshSizeError
from .setting import Setting, apply_settings, find_lost, read_key
from .sweep import Sweep
from .sweep_form import Combine, SweepForm
from .sweep_variable import SweepVariable, read_choice
from .variant import Variant, list_variants


def read_sweep(path: str | PathLike[str]) -> Sweep:
    """Read a sweep file and check every value in it.

    Parameters
    ----------
    path : path
        A TOML file in UTF-8; the design is looked for beside it.

    Returns
    -------
    Sweep
        With all its designs; a valid value does not mean that every combination can be made.

    Raises
    ------
    DesignError
        With every issue at once, of the sweep file or of the design: file, line, key, value, what is allowed.

    Examples
    --------
    >>> read_sweep("nowhere.toml")
    Traceback (most recent call last):
    tautlay.cases.design_issue.DesignError: nowhere.toml: there is no such file.
    """
    file = Path(path)
    content = read_text(file, advise=False)
    form = read_form(SweepForm, content, file)
    design = read_base(content, file, "sweep", form.sweep.design)
    return _Reader(file, content.text, form, design).read()


def read_base(content: TomlFile, file: Path, table: str, name: str) -> TomlFile:
    """Return the design file that a file names.

    Parameters
    ----------
    content : TomlFile
        Of the file that names it.
    file : Path
        That file; the design is looked for beside it.
    table, name : str
        In which of its tables the key ``design`` stands, and what it says.

    Raises
    ------
    DesignError
        At its line for a design that is no TOML, at the key for one that cannot be read.
    """
    place = file.parent / name
    try:
        return read_toml(place)
    except TomlError as error:
        if error.line is not None:
            raise DesignError([DesignIssue(str(place), str(error), error.line)]) from error
        keys = (table, "design")
        line = nearest_line(content.text, keys)
        raise DesignError([DesignIssue(str(file), str(error), line, write_path(keys), name)]) from error


def compose_sweep(content: TomlFile, file: Path, design: TomlFile) -> Sweep:
    """Check the content of a sweep file and of its design, and build what they describe.

    Parameters
    ----------
    content : TomlFile
        Of the sweep file.
    file : Path
        The sweep file; the design and its files of materials are taken to lie beside it.
    design : TomlFile
        Of the design file.

    Raises
    ------
    DesignError
        As :func:`read_sweep`.
    """
    return _Reader(file, content.text, read_form(SweepForm, content, file), design).read()


class _Reader:
    """Reads a valid form, and collects its issues."""

    def __init__(self, file: Path, text: str, form: SweepForm, design: TomlFile) -> None:
        self.file, self.text, self.form, self.design = file, text, form, design
        self.place = file.parent / form.sweep.design
        self.faults: list[DesignIssue] = []

    def read(self) -> Sweep:
        """Return the sweep; DesignError with all issues."""
        table, plain = self.form.sweep, self._compose(self.design)
        fixed = self._read_fixed(plain)
        self._stop_at_faults()
        content = self.design._replace(data=apply_settings(self.design.data, fixed))
        base = self._compose(content)
        choices = self._read_choices(base, content)
        if not self.faults:
            for sentence in _find_overlaps(choices):
                self._note(("vary",), sentence)
        if not self.faults:
            self._note_lost(fixed, choices)
        self._stop_at_faults()
        variants: tuple[Variant, ...] = ()
        try:
            variants = list_variants(choices, table.combine, table.samples, table.seed)
        except ValueError as error:
            self._note(("sweep", "combine"), str(error))
        self._stop_at_faults()
        return Sweep(
            table.name, table.note, self.file, self.text, base, self.design, fixed, choices, variants, table.hot_spots
        )

    def _note(self, keys: tuple[str | int, ...], sentence: str) -> None:
        """Keep an issue of the sweep file."""
        self.faults.append(DesignIssue(str(self.file), sentence, nearest_line(self.text, keys), write_path(keys)))

    def _stop_at_faults(self) -> None:
        """Raise DesignError if something is wrong."""
        if self.faults:
            raise DesignError(self.faults)

    def _compose(self, content: TomlFile) -> Design:
        """Return the design, whether what is set for all is in it or not."""
        try:
            return compose_design(content, self.place, mesh_size=self.form.sweep.mesh_size)
        except MeshSizeError as error:
            self._note(("sweep", "mesh_size"), str(error))
            raise DesignError(self.faults) from None

    def _read_fixed(self, plain: Design) -> tuple[Setting, ...]:
        """Return the keys that are set for all."""
        found: list[Setting] = []
        for number, each in enumerate(self.form.set):
            try:
                setting = (read_key(each.key), each.value)
            except ValueError as error:
                self._note(("set", number), str(error))
                continue
            self._check_value(("set", number), [setting], self.design, plain)
            found.append(setting)
        return tuple(found)

    def _note_lost(self, fixed: Sequence[Setting], choices: Sequence[SweepVariable]) -> None:
        """Note keys without effect, since another [[set]] or [[vary]] key overrides them."""
        picked = [(choice.options or (choice.pick(0.0),))[0].settings for choice in choices]
        sets: list[list[Setting]] = [list(fixed)]
        if self.form.sweep.combine is not Combine.ALONE:  # there a choice may replace what the others are tried with
            sets.append([*fixed, *(setting for settings in picked for setting in settings)])
        lost = dict.fromkeys(path for settings in sets for path in find_lost(self.design.data, settings))
        for path in lost:
            keys = ("vary",) if any(path in choice.paths for choice in choices) else ("set",)
            self._note(
                keys, f"{write_path(path)} has no effect: another [[set]] or [[vary]] key overrides it. Remove one."
            )

    def _read_choices(self, base: Design, content: TomlFile) -> tuple[SweepVariable, ...]:
        """Return what varies."""
        choices, combine = list[SweepVariable](), self.form.sweep.combine
        paired = combine is Combine.PAIRED
        for number, vary in enumerate(self.form.vary):
            try:
                choice = read_choice(vary, base.sources, base.library, sampled=combine.sampled, repeated=paired)
            except ValueError as error:
                self._note(("vary", number), str(error))
                continue
            choices.append(choice)
            once = {option.label: option for option in choice.options}
            for option in once.values() or (choice.pick(0.0), choice.pick(1.0 - 1e-9)):
                self._check_value(("vary", number), option.settings, content, base)
        return tuple(choices)

    def _check_value(
        self, keys: tuple[str | int, ...], settings: Iterable[Setting], content: TomlFile, base: Design
    ) -> None:
        """Note values that no design could have there."""
        try:
            raw = apply_settings(content.data, settings)
            DesignForm.model_validate(raw, context={"library": base.library})
        except ValidationError as error:
            for fault in translate_errors(error, content.text, str(self.file)):
                self._note(keys, fault.statement)
        except ValueError as error:
            self._note(keys, str(error))


def _find_overlaps(choices: Sequence[SweepVariable]) -> Iterator[str]:
    """Yield keys that two choices would set."""
    seen: dict[Any, str] = {}
    for choice in choices:
        for path in choice.paths:
            for other, name in seen.items():
                shorter = min(len(path), len(other))
                if path[:shorter] == other[:shorter]:
                    yield f"{write_path(path)} varies in {choice.name} and in {name}. Let it vary once."
            seen[path] = choice.name
    names = [choice.name for choice in choices]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield f"two choices are called {name}. Give each its own name."
