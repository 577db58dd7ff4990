"""``[head_bar]`` and ``[foot_bar]``: the spreader bars, and their parts in ``[[head_bar.part]]``."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Annotated, Any

from pydantic import Field

from ...hammock.extension import Extension
from ...hammock.hammock import Bar
from ...making import BarPart, ThrustPath
from ...materials import SECTIONS, RodSection, Tube
from .fields import ChoiceField, QuantityField, find_material
from .job import Line
from .toml_table import TomlTable, UpToMetre

SectionField = Annotated[Tube | RodSection | None, find_material(*SECTIONS)]
_OF_JOINT = ("overlap", "play", "joint_stiffness", "rests_on", "holding_force")


class BarPartTable(TomlTable):
    """``[[head_bar.part]]``, from left to right; by a name of the library, or like one but of another size."""

    section: SectionField = None
    like: SectionField = None
    outer_diameter: Annotated[float, QuantityField("length", "tube diameter")] | None = Field(
        default=None, description="of a tube of its own size"
    )
    wall: Annotated[float, QuantityField("length", "tube wall")] | None = Field(
        default=None, description="thickness of the wall of a tube of its own size"
    )
    diameter: Annotated[float, QuantityField("length", "rod diameter")] | None = None
    length: Annotated[float, QuantityField("length", low=0.002, high=2.5)] = Field(
        description="length of the part from end to end", examples=['"12 cm"']
    )
    name: Line = ""
    overlap: UpToMetre = 0.0
    taper_to: Annotated[float, QuantityField("length", low=0.002, high=0.06)] | None = None
    play: Annotated[float, QuantityField("length", low=0.0, high=0.02)] | None = None
    joint_stiffness: Annotated[float, QuantityField("turning_stiffness", low=0.1, high=1e6)] | None = None
    rests_on: Annotated[ThrustPath, ChoiceField(ThrustPath)] | None = None
    holding_force: Annotated[float, QuantityField("force", low=1.0, high=1e5)] | None = None
    carried: bool = False
    weighed: Annotated[float, QuantityField("mass", low=1e-4, high=5.0)] | None = None


class BarTable(TomlTable):
    """``[head_bar]`` and ``[foot_bar]``."""

    length: Annotated[float, QuantityField("length", "bar length")] = Field(
        description="length of the bar from cord to cord", examples=['"90 cm"']
    )
    section: SectionField = None
    part: list[BarPartTable] = Field(default=[], max_length=12)
    set_in: UpToMetre = 0.0
    bow: Annotated[float, QuantityField("length", low=0.0, high=0.1)] | None = None
    eccentricity: Annotated[float, QuantityField("length", low=0.0, high=0.05)] | None = None


def build_bar(table: BarTable, extension: Extension) -> Bar:
    """Return a spreader bar.

    Parameters
    ----------
    table : BarTable
        In which no keys disagree.
    extension : Extension
        How the cloth beyond it is made.

    Returns
    -------
    Bar
        In SI.

    Raises
    ------
    ValueError
        For a tube whose wall is thicker than the radius.
    """
    section = table.section or tuple(_build_part(part) for part in table.part)
    return Bar(table.length, section, table.set_in, table.bow, table.eccentricity, extension)


def _build_part(table: BarPartTable) -> BarPart:
    """Return a part of a bar."""
    kept = {key: getattr(table, key) for key in BarPart.__dataclass_fields__ if key != "section"}
    return BarPart(build_section(table), **kept)


def build_section(table: BarPartTable) -> Tube | RodSection:
    """Return the section of a part, with its own size where it is only like one of the library."""
    base = table.section or table.like
    assert base is not None
    sizes = {key: value for key in base.sizes if (value := getattr(table, key)) is not None}
    if not sizes:
        return base
    known = {key: origin for key, origin in base.provenance.items() if key not in sizes}
    own: dict[str, Any] = {"name": f"{base.name}, own size", "provenance": known, **sizes}
    return replace(base, **own)


def find_part_disagreements(raw: dict[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Yield conflicts between the keys of the parts of both bars.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Yields
    ------
    tuple
        Keys from the top, and a message.
    """
    for bar in ("head_bar", "foot_bar"):
        table = raw.get(bar)
        parts = table.get("part") if isinstance(table, dict) else None
        for place, part in enumerate(parts) if isinstance(parts, list) else ():
            if isinstance(part, dict):
                for key, sentence in (*_check_size(part), *_check_joint(part, first=place == 0)):
                    yield (bar, "part", place, *([key] if key else [])), sentence


def _check_size(part: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield conflicts in how a section is given."""
    sizes = [key for kind in SECTIONS for key in kind.sizes if key in part]
    if "section" in part and "like" in part:
        yield "like", "conflicts with section. Keep one of them."
    elif "section" not in part and "like" not in part:
        yield "", 'section or like is missing. Example: section = "7075-T6 16 x 1 mm"'
    elif "like" in part and not sizes:
        yield "like", "outer_diameter, wall or diameter is missing. Add the size, or write section instead of like."
    elif "section" in part and sizes:
        yield sizes[0], "a section of the library has its own size. Write like instead of section."


def _check_joint(part: dict[str, Any], *, first: bool) -> Iterator[tuple[str, str]]:
    """Yield conflicts in how a part joins the one before it."""
    if first:
        for key in _OF_JOINT:
            if key in part:
                yield key, "has no effect on the first part, which joins nothing. Move it to the second part."
    elif "holding_force" in part and "rests_on" not in part:
        yield "holding_force", 'needs rests_on = "lock", "plug" or "rim" with it.'


def find_size_disagreements(table: BarTable) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Yield sizes that do not fit the kind of section they are for, or conflict."""
    for place, part in enumerate(table.part):
        if part.like is None:
            continue
        foreign = [key for kind in SECTIONS if not isinstance(part.like, kind) for key in kind.sizes]
        for key in foreign:
            if getattr(part, key) is not None:
                right = " and ".join(part.like.sizes)
                yield ("part", place, key), f"does not belong to a {part.like.category}. Its size is {right}."
        if isinstance(part.like, Tube):
            outer, wall = part.outer_diameter or part.like.outer_diameter, part.wall or part.like.wall
            if wall > outer / 2:
                yield ("part", place, "wall"), "must not be more than half of outer_diameter."
