"""``[design]``, ``[materials]``, ``[load]``, ``[mesh]`` and ``[report]``: what is computed, and how it is reported."""

from typing import Annotated

from pydantic import AfterValidator, Field

from ...hammock.load_case import SUDDEN_FACTOR, LoadCase
from ..unit_display import UNIT_SYSTEMS, Units
from .fields import ChoiceField, QuantityField
from .toml_table import TomlTable

MOST_FILES = 20  # of materials


def _check_line(text: str) -> str:
    """Return text that prints on one line."""
    if not text.strip() or not text.isprintable():
        raise ValueError("must have at least one visible character and no line break or control character.")
    return text.strip()


Line = Annotated[str, Field(max_length=70), AfterValidator(_check_line)]


class DesignTable(TomlTable):
    """``[design]``."""

    name: Line = Field(description="name of the design", examples=['"Larch Ridge"'])
    note: str = Field(default="", max_length=2000)


class MaterialsTable(TomlTable):
    """``[materials]``."""

    files: list[str] = Field(default=[], max_length=MOST_FILES)


class LoadTable(TomlTable):
    """``[load]``."""

    case: Annotated[LoadCase, ChoiceField(LoadCase)] = LoadCase.DISTRIBUTED
    sudden_factor: float = Field(default=SUDDEN_FACTOR, ge=1.0, le=5.0)


class MeshTable(TomlTable):
    """``[mesh]``."""

    size: Annotated[float, QuantityField("length", "mesh size")] = 0.03


class ReportTable(TomlTable):
    """``[report]``."""

    units: Annotated[Units, ChoiceField(UNIT_SYSTEMS)] = "both"
