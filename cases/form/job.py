"""``[design]``, ``[materials]``, ``[load]``, ``[mesh]`` and ``[report]``: what is computed, and how it is told."""

from enum import StrEnum
from typing import Annotated

from pydantic import AfterValidator, Field

from ...hammock.load_case import SUDDEN_FACTOR, LoadCase
from .fields import Choice, Quantity
from .toml_table import Table

MOST_FILES = 20  # of materials


class UnitSystem(StrEnum):
    """Units of reports."""

    METRIC = "metric"
    IMPERIAL = "imperial"
    BOTH = "both"


def _check_line(text: str) -> str:
    """Return text that prints on one line."""
    if not text.strip() or not text.isprintable():
        raise ValueError("it must hold at least one visible character and no line break or control character.")
    return text.strip()


Line = Annotated[str, Field(max_length=70), AfterValidator(_check_line)]


class DesignTable(Table):
    """``[design]``."""

    name: Line = Field(description="name of the design", examples=['"Larch Ridge"'])
    note: str = Field(default="", max_length=2000)


class MaterialsTable(Table):
    """``[materials]``."""

    files: list[str] = Field(default=[], max_length=MOST_FILES)


class LoadTable(Table):
    """``[load]``."""

    case: Annotated[LoadCase, Choice(LoadCase)] = LoadCase.DISTRIBUTED
    sudden_factor: float = Field(default=SUDDEN_FACTOR, ge=1.0, le=5.0)


class MeshTable(Table):
    """``[mesh]``."""

    size: Annotated[float, Quantity("length", "mesh size")] = 0.03


class ReportTable(Table):
    """``[report]``."""

    units: Annotated[UnitSystem, Choice(UnitSystem)] = UnitSystem.BOTH
