"""The file of measurements: the tables it may have."""

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from ...form.fields import ChoiceField, QuantityField
from ...form.toml_table import TomlTable

MOST_ROWS = 40
StripThread = Literal["warp", "weft", "bias"]
Length = Annotated[float, QuantityField("length", low=0.0, high=25.0)]
ShortLength = Annotated[float, QuantityField("length", low=1e-5, high=2.0)]
AppliedPull = Annotated[float, QuantityField("force", low=0.01, high=1e5)]


class HungTable(TomlTable):
    """``[hung]``: between which trees it hung."""

    tree_distance: Annotated[float, QuantityField("length", "tree distance")] = Field(
        description="horizontal distance of the straps, with a tape", examples=['"4.27 m"']
    )
    head_strap_height: Annotated[float, QuantityField("length", "strap height")] | None = Field(
        default=None, description="height of the strap on the head tree; without it the design's, to 5 cm"
    )
    foot_strap_height: Annotated[float, QuantityField("length", "strap height")] | None = Field(
        default=None, description="the same at the foot"
    )
    bag_breadth: Annotated[float, QuantityField("length", low=0.05, high=2.0)] | None = Field(
        default=None, description="how far the bags reach across under load; without it as planned"
    )


class AccuracyTable(TomlTable):
    """``[accuracy]``: standard deviations of what was read."""

    length: ShortLength = Field(default=0.002, description="of heights and spans")
    tension: Annotated[float, QuantityField("ratio", low=0.001, high=0.5)] = Field(
        default=0.03, description="of a luggage scale in a line, as a share of what it shows"
    )
    aside: ShortLength = Field(default=0.0005, description="of how far a line moves aside")
    longer: ShortLength = Field(default=0.001, description="of how much two marks move apart")


class LoadedTable(TomlTable):
    """``[[load]]``: what was read under an amount of water."""

    water: Annotated[float, QuantityField("mass", low=5.0, high=400.0)] = Field(
        description="water in all bags", examples=['"20 kg"']
    )
    head_bar: Length | None = Field(default=None, description="height of the middle of the head bar")
    middle: Length | None = Field(default=None, description="height of the cloth at half its length, middle line")
    left_edge: Length | None = Field(default=None, description="height of the left edge at half its length")
    foot_bar: Length | None = Field(default=None, description="height of the middle of the foot bar")
    right_edge: Length | None = Field(default=None, description="height of the right edge at half its length")
    edge_to_edge: Length | None = Field(default=None, description="straight across at half the length")
    bar_to_bar: Length | None = Field(default=None, description="straight between the middles of both bars")
    head_line: AppliedPull | None = Field(default=None, description="tension of the head line, by a scale in it")
    foot_line: AppliedPull | None = Field(default=None, description="tension of the foot line, by a scale in it")
    head_line_aside: ShortLength | None = Field(
        default=None, description="how far the pull across its middle moved the head line aside"
    )
    foot_line_aside: ShortLength | None = Field(default=None, description="the same of the foot line")
    pull: AppliedPull = Field(default=50.0, description="across the middle of a line; for the two keys before")


class StripTable(TomlTable):
    """``[[strip]]``: a strip of the body's cloth, pulled."""

    thread: Annotated[StripThread, ChoiceField(("warp", "weft", "bias"))] = Field(
        description="direction of the strip; bias is 45 degrees to the warp", examples=['"warp"']
    )
    width: ShortLength = Field(description="width of the strip", examples=['"5 cm"'])
    marks: ShortLength = Field(description="distance of two marks on it before", examples=['"50 cm"'])
    pull: AppliedPull = Field(description="force added between the two readings", examples=['"60 N"'])
    longer: ShortLength = Field(description="how much farther apart the marks were then", examples=['"2 cm"'])


class CordTable(TomlTable):
    """``[[cord]]``: a piece of cord or strap of the design, pulled."""

    material: str = Field(description="its name in the design", max_length=100, examples=['"12-strand UHMWPE 2 mm"'])
    marks: Length = Field(description="distance of two marks on it before", examples=['"5 m"'])
    pull: AppliedPull = Field(description="force added between the two readings", examples=['"400 N"'])
    longer: ShortLength = Field(description="how much farther apart the marks were then", examples=['"2 cm"'])


class MeasuredForm(TomlTable):
    """The whole file."""

    strangers: ClassVar[Mapping[str, str]] = {
        "body": "this is a design, not a file of measurements. Give the design first: `tautlay fit DESIGN MEASURED`.",
        "sweep": "this is a sweep, not a file of measurements.",
    }

    hung: HungTable | None = Field(default=None, description="between which trees it hung")
    accuracy: AccuracyTable = AccuracyTable()
    load: list[LoadedTable] = Field(default=[], max_length=MOST_ROWS)
    strip: list[StripTable] = Field(default=[], max_length=MOST_ROWS)
    cord: list[CordTable] = Field(default=[], max_length=MOST_ROWS)
