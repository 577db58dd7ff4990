"""A sweep file, read and checked: a design and everything that varies in it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from ...materials import TomlFile, nearest_line, show_value
from ..design import Design, compose_design, read_design
from ..design_text import read_text
from ..fault import DesignError, Fault, write_path
from ..form import DesignForm, translate_errors
from ..hot_spot import RIM
from ..mesh_size import MeshSizeError, count_triangles
from .choice import Choice, Option, read_choice
from .form import Combine, SweepForm
from .setting import apply_settings
from .variant import Variant, list_variants

_SAMPLED = (Combine.LATIN, Combine.SOBOL)


@dataclass(frozen=True)
class Sweep:
    """A design and everything that varies in it.

    Parameters
    ----------
    name, note : str
        What it is called and said of it.
    path : Path
        The sweep file.
    text : str
        Its text.
    base : Design
        As it is.
    content : TomlFile
        Of the design file.
    choices : tuple of Choice
        What varies.
    variants : tuple of Variant
        Every design, in order.
    hot_spots : bool
        Whether channels and bars are meshed as finely as the checks of cloth and seams need.
    """

    name: str
    note: str
    path: Path
    text: str
    base: Design
    content: TomlFile
    choices: tuple[Choice, ...]
    variants: tuple[Variant, ...]
    hot_spots: bool = True

    @property
    def mesh_size(self) -> float:
        """Edge of a triangle in the middle of the cloth, m."""
        return self.base.mesh_size

    @cached_property
    def triangles(self) -> int:
        """Of the finest mesh of the design as it is."""
        return count_triangles(self.base, self.mesh_size, RIM if self.hot_spots else None)

    def set_tables(self, variant: Variant) -> dict[str, Any]:
        """Return the tables of one design.

        Raises
        ------
        ValueError
            As :func:`~tautlay.cases.sweep.setting.apply_settings`.
        """
        return apply_settings(self.content.data, _list_settings(variant.options))

    def make_design(self, variant: Variant) -> Design:
        """Return one design.

        Raises
        ------
        DesignError
            If no hammock can be made or hung like this, with every reason.
        """
        content = TomlFile(self.content.text, self.set_tables(variant))
        try:
            return compose_design(content, self.base.path, mesh_size=self.mesh_size)
        except MeshSizeError as error:
            raise DesignError([Fault(str(self.base.path), str(error))]) from None


def _list_settings(options: Iterable[Option]) -> list[tuple[Any, Any]]:
    """Return all keys that some options set."""
    return [setting for option in options for setting in option.settings]


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
    table = form.sweep
    place = file.parent / table.design
    try:
        base = read_design(place, mesh_size=table.mesh_size)
    except MeshSizeError as error:
        raise DesignError([_find_fault(file, text, ("sweep", "mesh_size"), str(error))]) from None
    content, faults, choices = read_text(place), list[Fault](), list[Choice]()
    for number, vary in enumerate(form.vary):
        try:
            choices.append(read_choice(vary, base.sources, base.library, sampled=table.combine in _SAMPLED))
        except ValueError as error:
            faults.append(_find_fault(file, text, ("vary", number), str(error)))
            continue
        faults += _check_values(choices[-1], number, base, content, file, text)
    if not faults:
        faults = [_find_fault(file, text, ("vary",), sentence) for sentence in _find_overlaps(choices)]
    if faults:
        raise DesignError(faults)
    try:
        variants = list_variants(choices, table.combine, table.samples, table.seed)
    except ValueError as error:
        raise DesignError([_find_fault(file, text, ("sweep", "combine"), str(error))]) from None
    base = replace(base, mesh_size=table.mesh_size)
    return Sweep(table.name, table.note, file, text, base, content, tuple(choices), variants, table.hot_spots)


def _find_fault(file: Path, text: str, keys: tuple[str | int, ...], sentence: str) -> Fault:
    """Return a fault of the sweep file."""
    return Fault(str(file), sentence, nearest_line(text, keys), write_path(keys))


def _check_values(
    choice: Choice, number: int, base: Design, content: TomlFile, file: Path, text: str
) -> Iterable[Fault]:
    """Yield values that no design could have there."""
    spanned = choice.options if choice.span is None else (choice.pick(0.0), choice.pick(1.0 - 1e-9))
    for option in spanned:
        try:
            raw = apply_settings(content.data, option.settings)
            DesignForm.model_validate(raw, context={"library": base.library})
        except ValidationError as error:
            for fault in translate_errors(error, content.text, str(file)):
                words = (
                    f"{fault.key} = {fault.value}: {fault.message}" if fault.value else f"{fault.key}: {fault.message}"
                )
                yield _find_fault(file, text, ("vary", number), words)
        except ValueError as error:
            yield _find_fault(file, text, ("vary", number), f"{show_value(option.label)}: {error}")


def _find_overlaps(choices: list[Choice]) -> Iterable[str]:
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
