"""The schema of a sweep file: a design, and what varies in it."""

from collections.abc import Mapping
from enum import StrEnum
from typing import Annotated, Any, ClassVar

from pydantic import Field

from ...form.fields import ChoiceField, QuantityField
from ...form.job import Line
from ...form.toml_table import TomlTable

MOST_VALUES = 4096  # of one thing that varies
MOST_CHOICES = 40  # things that vary
MOST_SAMPLES = 4096


class Combine(StrEnum):
    """How the values of several things that vary are put together."""

    GRID = "grid"  # each with each
    PAIRED = "paired"  # first with first, second with second
    ALONE = "one at a time"  # the unchanged design, and every value on its own
    LATIN = "latin hypercube"
    SOBOL = "sobol"

    @property
    def sampled(self) -> bool:
        """Whether designs are drawn, from all that lies between two ends."""
        return self in (Combine.LATIN, Combine.SOBOL)


class SweepTable(TomlTable):
    """``[sweep]``."""

    name: Line = Field(description="name of the sweep", examples=['"Cloth for Larch Ridge"'])
    note: str = Field(default="", max_length=2000)
    design: str = Field(description="design file that is varied", examples=['"larch_ridge.toml"'], max_length=300)
    combine: Annotated[Combine, ChoiceField(Combine)] = Field(
        default=Combine.GRID, description="how the values are put together"
    )
    samples: int | None = Field(
        default=None, ge=2, le=MOST_SAMPLES, description="how many designs are drawn; for latin hypercube and sobol"
    )
    seed: int = Field(
        default=1, ge=0, le=2**31, description="number from which the drawing begins; the same seed draws the same"
    )
    mesh_size: Annotated[float, QuantityField("length", "mesh size")] | None = Field(
        default=None, description="side of a triangle, coarser than that of the design to be quicker"
    )
    hot_spots: bool = Field(
        default=True, description="whether the cloth tension at channels and bars is found; quicker without"
    )


class FindTable(TomlTable):
    """``find``: materials of the library that meet every condition."""

    text: str | None = Field(default=None, min_length=1, max_length=70, description="text in the name or kind")
    kind: str | None = Field(default=None, max_length=70, description="the whole kind")
    minimum: dict[str, str] = Field(default={}, max_length=20, description="least values by quantity")
    maximum: dict[str, str] = Field(default={}, max_length=20, description="largest values by quantity")


class VaryTable(TomlTable):
    """``[[vary]]``: one thing that varies."""

    name: Line | None = None
    key: str | None = Field(default=None, max_length=100, description="key of the design that varies")
    keys: list[str] = Field(default=[], max_length=12, description="several keys that get the same value")
    values: list[Any] = Field(default=[], max_length=MOST_VALUES, description="what is tried; instead of from and to")
    labels: list[Line] = Field(default=[], max_length=MOST_VALUES, description="name of each value in tables")
    find: FindTable | None = None
    low: Any = Field(default=None, alias="from", description="smallest value")
    high: Any = Field(default=None, alias="to", description="largest value")
    count: int | None = Field(default=None, ge=2, le=MOST_VALUES, description="how many values between from and to")


class SetTable(TomlTable):
    """``[[set]]``: a key of the design that is the same for all."""

    key: str = Field(description="key of the design", examples=['"load.case"'], max_length=100)
    value: Any = Field(description="value of the key", examples=['"lying"'])


class SweepForm(TomlTable):
    """The whole file."""

    strangers: ClassVar[Mapping[str, str]] = {
        "body": "this is a design, not a sweep. Solve it with `tautlay solve`; a sweep is a file of its own that names "
        'it: [sweep] design = "my_design.toml".'
    }

    sweep: SweepTable = Field(description="table that names the sweep and its design")
    set: list[SetTable] = Field(default=[], max_length=40)
    vary: list[VaryTable] = Field(description="first thing that varies", min_length=1, max_length=MOST_CHOICES)
