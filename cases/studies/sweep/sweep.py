"""A design and everything that varies in it."""

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from ....hammock.load_case import LoadCase
from ....materials import TomlFile
from ....materials.short_repr import write_repr
from ...design import Design, compose_design
from ...design_issue import DesignError, DesignIssue
from ...judging.cloth.hot_spot import RIM
from ...judging.verdict.terms import JudgedCase
from ...mesh_size import MeshSizeError, count_triangles
from .setting import Setting, apply_settings
from .sweep_variable import SweepVariable
from .variant import Variant


@dataclass(frozen=True)
class Sweep:
    """A design and everything that varies in it.

    Parameters
    ----------
    name, note : str
        Its name and note.
    path : Path
        The sweep file.
    text : str
        Its text.
    base : Design
        With what is set for all.
    content : TomlFile
        Of the design file.
    fixed : tuple of (path, value)
        Keys that are set for all.
    choices : tuple of SweepVariable
        What varies.
    variants : tuple of Variant
        Every design, in order.
    hot_spots : bool
        Whether channels and bars are meshed as finely as the checks of cloth and seams need.
    loads : tuple of LoadCase
        Under which designs are solved instead of all that they have to stand; empty is all, or the one that the sweep
        names.
    thorough : int or None
        Designs with more changes than this are solved no further than to the first load under which they fail; None
        solves every design under all loads.
    cases : tuple of str
        Titles of the cases under which designs are solved instead of all that they have to stand; empty is all.
    """

    name: str
    note: str
    path: Path
    text: str
    base: Design
    content: TomlFile
    fixed: tuple[Setting, ...]
    choices: tuple[SweepVariable, ...]
    variants: tuple[Variant, ...]
    hot_spots: bool = True
    loads: tuple[LoadCase, ...] = ()
    thorough: int | None = None
    cases: tuple[str, ...] = ()

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            f"{len(self.variants)} designs",
            f"of {self.base.name}",
            *(f"{choice.name} {len(choice.options)}" for choice in self.choices),
        )

    @property
    def mesh_size(self) -> float:
        """Edge of a triangle in the middle of the cloth, m."""
        return self.base.mesh_size

    @cached_property
    def names_load(self) -> bool:
        """Whether the sweep names a load case, and is about that alone."""
        named = [path for path, _ in self.fixed] + [path for choice in self.choices for path in choice.paths]
        return any(path in (("load",), ("load", "case")) for path in named)

    def list_cases(self, design: Design) -> tuple[JudgedCase, ...]:
        """Return the people and loads under which one of its designs is solved."""
        every = design.terms.list_cases(self.loads or ((design.load,) if self.names_load else None))
        return tuple(case for case in every if case.title in self.cases) if self.cases else every

    def is_whole(self, variant: Variant) -> bool:
        """Return whether a design is solved under all loads, whatever fails."""
        return self.thorough is None or sum(pick > 0 for pick in variant.picks) <= self.thorough

    @cached_property
    def triangles(self) -> int:
        """Of the finest mesh of the unchanged design."""
        return count_triangles(
            self.base.hammock, self.mesh_size, RIM if self.hot_spots else None, units=self.base.units
        )

    def set_tables(self, variant: Variant) -> dict[str, Any]:
        """Return the tables of one design.

        Raises
        ------
        ValueError
            As :func:`~tautlay.cases.studies.sweep.setting.apply_settings`.
        """
        return apply_settings(self.content.data, self.list_settings(variant))

    def list_settings(self, variant: Variant) -> list[Setting]:
        """Return the keys that are set in one design, those that are set for all first."""
        return [*self.fixed, *(setting for option in variant.options for setting in option.settings)]

    def list_labels(self, variant: Variant) -> dict[str, str]:
        """Return the labels of what was chosen in one design, by choice."""
        return {choice.name: option.label for choice, option in zip(self.choices, variant.options, strict=True)}

    def make_design(self, variant: Variant) -> Design:
        """Return one design; errors as :meth:`set_tables` and :meth:`compose`."""
        return self.compose(self.set_tables(variant))

    def compose(self, tables: dict[str, Any]) -> Design:
        """Return the design that some tables describe.

        Raises
        ------
        DesignError
            If no hammock can be made or hung like this, with every reason.
        """
        content = TomlFile(self.content.text, tables)
        try:
            return compose_design(content, self.base.path, mesh_size=self.mesh_size)
        except MeshSizeError as error:
            raise DesignError([DesignIssue(str(self.base.path), str(error))]) from None
