"""A sweep file read and checked."""

from collections.abc import Iterator, Mapping
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from ...materials import TomlFile, nearest_line
from ..design import Design, compose_design, read_design
from ..design_text import read_text
from ..fault import DesignError, Fault, write_path
from ..form import DesignForm, translate_errors
from ..mesh_size import MeshSizeError
from .choice import Choice, read_choice
from .form import Combine, SweepForm
from .setting import Settings, apply_settings, read_key
from .sweep import Sweep
from .variant import list_variants

_SAMPLED = (Combine.LATIN, Combine.SOBOL)


def read_sweep(path: str | PathLike[str]) -> Sweep:
    """Read a sweep file and check every value in it.

    Parameters
    ----------
    path : path
        A TOML file in UTF-8; the design is looked for beside it.

    Returns
    -------
    Sweep
        With all its designs; that a value fits by itself does not mean that every combination can be made.

    Raises
    ------
    DesignError
        With every fault at once, of the sweep file or of the design: file, line, key, value, what is allowed.

    Examples
    --------
    >>> read_sweep("nowhere.toml")
    Traceback (most recent call last):
    tautlay.cases.fault.DesignError: nowhere.toml: there is no such file.
    """
    file = Path(path)
    text, raw = read_text(file, advise=False)
    try:
        form = SweepForm.model_validate(raw)
    except ValidationError as error:
        raise DesignError(translate_errors(error, text, str(file), SweepForm)) from None
    return _Reader(file, text, form).read()


class _Reader:
    """Reads what a valid form says, and collects what is wrong with it."""

    def __init__(self, file: Path, text: str, form: SweepForm) -> None:
        self.file, self.text, self.form = file, text, form
        self.faults: list[Fault] = []

    def read(self) -> Sweep:
        """Return the sweep; DesignError with all faults."""
        table = self.form.sweep
        content, base = self._read_base(self.file.parent / table.design)
        choices = self._read_choices(base, content)
        if not self.faults:
            for sentence in _find_overlaps(choices):
                self._note(("vary",), sentence)
        self._stop_at_faults()
        try:
            variants = list_variants(choices, table.combine, table.samples, table.seed)
        except ValueError as error:
            self._note(("sweep", "combine"), str(error))
        self._stop_at_faults()
        kept = tuple(choices)
        return Sweep(table.name, table.note, self.file, self.text, base, content, kept, variants, table.hot_spots)

    def _note(self, keys: tuple[str | int, ...], sentence: str) -> None:
        """Keep a fault of the sweep file."""
        self.faults.append(Fault(str(self.file), sentence, nearest_line(self.text, keys), write_path(keys)))

    def _stop_at_faults(self) -> None:
        """Raise DesignError if something is wrong."""
        if self.faults:
            raise DesignError(self.faults)

    def _read_base(self, place: Path) -> tuple[TomlFile, Design]:
        """Return the tables of the design with what is set for all, and the design they describe."""
        size = self.form.sweep.mesh_size
        try:
            base = read_design(place, mesh_size=size)
        except MeshSizeError as error:
            self._note(("sweep", "mesh_size"), str(error))
            self._stop_at_faults()
        content, settings = read_text(place), list[tuple[Any, Any]]()
        for dotted, value in _list_leaves(self.form.set):
            try:
                settings.append((read_key(dotted), value))
                self._check_value(("set",), settings[-1:], content, base)
            except ValueError as error:
                self._note(("set", *dotted.split(".")), str(error))
        self._stop_at_faults()
        content = content._replace(data=apply_settings(content.data, settings))
        return content, compose_design(content, place, mesh_size=size)

    def _read_choices(self, base: Design, content: TomlFile) -> list[Choice]:
        """Return what varies."""
        choices, sampled = list[Choice](), self.form.sweep.combine in _SAMPLED
        for number, vary in enumerate(self.form.vary):
            try:
                choice = read_choice(vary, base.sources, base.library, sampled=sampled)
            except ValueError as error:
                self._note(("vary", number), str(error))
                continue
            choices.append(choice)
            for option in choice.options or (choice.pick(0.0), choice.pick(1.0 - 1e-9)):
                self._check_value(("vary", number), option.settings, content, base)
        return choices

    def _check_value(self, keys: tuple[str | int, ...], settings: Settings, content: TomlFile, base: Design) -> None:
        """Note values that no design could have there."""
        try:
            raw = apply_settings(content.data, settings)
            DesignForm.model_validate(raw, context={"library": base.library})
        except ValidationError as error:
            for fault in translate_errors(error, content.text, str(self.file)):
                subject = f"{fault.key} = {fault.value}" if fault.value else fault.key
                self._note(keys, f"{subject}: {fault.message}")
        except ValueError as error:
            self._note(keys, str(error))


def _list_leaves(tables: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, Any]]:
    """Yield dotted keys and values of nested tables."""
    for key, value in tables.items():
        if isinstance(value, dict):
            yield from _list_leaves(value, f"{above}{key}.")
        else:
            yield f"{above}{key}", value


def _find_overlaps(choices: list[Choice]) -> Iterator[str]:
    """Yield keys that two choices would set."""
    seen: dict[Any, str] = {}
    for choice in choices:
        for path in choice.paths:
            for other, name in seen.items():
                shorter = min(len(path), len(other))
                if path[:shorter] == other[:shorter]:
                    yield f"{write_path(path)} varies in {choice.name} and in {name}; let it vary once."
            seen[path] = choice.name
    names = [choice.name for choice in choices]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield f"two choices are called {name}; give each a name of its own."
