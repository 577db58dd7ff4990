"""``[judge]``: what a design has to stand."""

from typing import TYPE_CHECKING, Annotated

from pydantic import BeforeValidator, Field, create_model

from ...hammock.load_case import DESIGN_LOADS, LoadCase
from ...materials import show_value
from ..judging.verdict.limit import LIMITED
from .fields import ChoiceField, QuantityField
from .toml_table import TomlTable

if TYPE_CHECKING:
    BoundsTable = TomlTable
else:  # a key for everything that can be limited
    BoundsTable = create_model(
        "BoundsTable",
        __base__=TomlTable,
        **{
            each.key: (
                Annotated[float | None, QuantityField(each.dimension)],
                Field(default=None, description=each.title),
            )
            for each in LIMITED
        },
    )


def _check_once(loads: object) -> object:
    """Return a list of loads of which each stands once."""
    if isinstance(loads, list):
        if not loads:
            raise ValueError("[] must name at least one load case.")
        for load in loads:
            if loads.count(load) > 1:
                raise ValueError(f"{show_value(load)} stands there twice. Name each load case once.")
    return loads


class JudgeTable(TomlTable):
    """``[judge]``; what is left out is as usual."""

    loads: Annotated[list[Annotated[LoadCase, ChoiceField(LoadCase)]], BeforeValidator(_check_once)] = Field(
        default_factory=lambda: list(DESIGN_LOADS), description="load cases that the design has to stand"
    )
    least: BoundsTable = Field(default_factory=BoundsTable)
    most: BoundsTable = Field(default_factory=BoundsTable)
