"""The schema of a file that leaves something of a design open."""

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from ...form.fields import QuantityField
from ...form.job import Line
from ...form.toml_table import TomlTable
from ..sweep.sweep_form import MOST_CHOICES, SetTable, VaryTable

MOST_SOLVED = 4000
MOST_STARTS = 12
MOST_GOALS = 3


class ChooseTable(TomlTable):
    """``[choose]``."""

    name: Line = Field(description="name of the search", examples=['"Heron Ford, lightest"'])
    note: str = Field(default="", max_length=2000)
    design: str = Field(description="design file of which something is open", examples=['"heron_ford.toml"'])
    mesh_size: Annotated[float, QuantityField("length", "mesh size")] | None = Field(
        default=None, description="side of a triangle while searching; the answer is solved on the mesh of the design"
    )
    goal: list[Line] = Field(
        default=["packed_kg"],
        min_length=1,
        max_length=MOST_GOALS,
        description="what is searched: the best design in one value, or all that nothing beats in two or three; keys "
        "as `tautlay rank --columns` lists them",
        examples=['["back_sag_m"]', '["packed_kg", "back_sag_m"]'],
    )
    most: int = Field(default=300, ge=1, le=MOST_SOLVED, description="how many designs are solved at most")
    starts: int = Field(
        default=3, ge=1, le=MOST_STARTS, description="from how many places sizes are searched, each for itself"
    )
    seed: int = Field(default=1, ge=0, le=2**31, description="number from which these places are drawn")


class ChooseForm(TomlTable):
    """The whole file."""

    strangers: ClassVar[Mapping[str, str]] = {
        "body": 'this is a design. Write a file of its own that names it: [choose] design = "my_design.toml".',
        "sweep": "this is a sweep, which `tautlay sweep` solves as a whole. Write [choose] instead of [sweep].",
    }

    choose: ChooseTable = Field(description="table that names the search and its design")
    set: list[SetTable] = Field(default=[], max_length=40)
    vary: list[VaryTable] = Field(description="first thing that is open", min_length=1, max_length=MOST_CHOICES)
