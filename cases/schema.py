"""The form of a design file. Field descriptions and examples go into messages about missing keys."""

from enum import StrEnum
from math import radians
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from ..materials import Cord, Fabric, Rod, Tube, Webbing
from ..meshing.hammock import ArcShape, Attachment
from ..meshing.load_case import SUDDEN_FACTOR, LoadCase
from ..meshing.person import Arms, Lie, Sex
from .fields import Choice, Percentile, Quantity, find_material

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
BodyLength = Annotated[float, Quantity("length", "body length")]
BodyWidth = Annotated[float, Quantity("length", "body width")]
BarLength = Annotated[float, Quantity("length", "bar length")]
LegLength = Annotated[float, Quantity("length", "leg length")]
StrapHeight = Annotated[float, Quantity("length", "strap height")]
UpToMetre = Annotated[float, Quantity("length", low=0.0, high=1.0)]


class Table(BaseModel):
    """A table of the file: nothing unknown in it, nothing guessed."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, arbitrary_types_allowed=True)


class DesignTable(Table):
    """``[design]``."""

    name: Line = Field(description="name of the design", examples=['"Larch Ridge"'])
    note: str = Field(default="", max_length=2000)


class MaterialsTable(Table):
    """``[materials]``."""

    files: list[str] = Field(default=[], max_length=MOST_FILES)


class ArcTable(Table):
    """``[body.arc]``, ``[body.left_arc]``, ``[body.right_arc]``."""

    depth: Annotated[float, Quantity("length", "arc depth")] = Field(
        description="depth of the arc at mid-length", examples=['"17 cm"']
    )
    shape: Annotated[ArcShape, Choice(ArcShape)] = ArcShape.PARABOLA


class BodyTable(Table):
    """``[body]``; the arcs are given together or one by one."""

    length: BodyLength = Field(description="flat length from bar to bar", examples=['"2.05 m"'])
    head_width: BodyWidth = Field(description="flat width under the head bar", examples=['"1.22 m"'])
    foot_width: BodyWidth = Field(description="flat width under the foot bar", examples=['"1.12 m"'])
    fabric: Annotated[Fabric, find_material("fabric")] = Field(
        description="name of a fabric of the library", examples=['"ripstop nylon 37 g/m2"']
    )
    layers: int = Field(default=1, ge=1, le=4)
    grain: Annotated[float, Quantity("angle", low=radians(-90), high=radians(90))] = 0.0
    arc: ArcTable | None = None
    left_arc: ArcTable | None = None
    right_arc: ArcTable | None = None


class ChannelTable(Table):
    """``[channel]``."""

    cord: Annotated[Cord, find_material("cord")] = Field(
        description="name of the side cord in the library", examples=['"12-strand UHMWPE 2 mm"']
    )
    attachment: Annotated[Attachment, Choice(Attachment)] = Field(
        description="how the cloth holds the cord", examples=['"sewn"']
    )
    lock_length: UpToMetre | None = None
    cord_length: BodyLength | None = None


class BarTable(Table):
    """``[head_bar]`` and ``[foot_bar]``."""

    length: BarLength = Field(description="length of the bar from cord to cord", examples=['"90 cm"'])
    section: Annotated[Tube | Rod, find_material("tube", "rod")] = Field(
        description="name of a tube or rod of the library", examples=['"aluminium tube 16 x 1 mm"']
    )
    set_in: UpToMetre = 0.0


class SuspensionTable(Table):
    """``[suspension]``; legs and straps are given together or one by one."""

    leg: Annotated[Cord, find_material("cord")] = Field(
        description="name of the legs' cord in the library", examples=['"12-strand UHMWPE 2 mm"']
    )
    leg_length: LegLength | None = None
    head_leg_length: LegLength | None = None
    foot_leg_length: LegLength | None = None
    line: Annotated[Cord | Webbing, find_material("cord", "webbing")] = Field(
        description="name of a cord or webbing of the library", examples=['"12-strand UHMWPE 3 mm"']
    )
    line_length: Annotated[float, Quantity("length", "line length")] = Field(
        description="length from apex to tree", examples=['"1.6 m"']
    )
    strap_height: StrapHeight | None = None
    head_strap_height: StrapHeight | None = None
    foot_strap_height: StrapHeight | None = None
    hang_angle: Annotated[float, Quantity("angle", low=radians(1), high=radians(80))] | None = None
    tree_distance: Annotated[float, Quantity("length", "tree distance")] | None = None


class PersonTable(Table):
    """``[person]``; who it is, or stature, mass and sex."""

    who: Annotated[tuple[Sex, float], Percentile()] | None = None
    stature: Annotated[float, Quantity("length", "stature")] | None = None
    mass: Annotated[float, Quantity("mass", "person mass")] | None = None
    sex: Annotated[Sex, Choice(Sex)] | None = None
    head_from_bar: UpToMetre = Field(
        description="from the head bar to the crown, along the flat cloth", examples=['"15 cm"']
    )
    lie: Annotated[Lie, Choice(Lie)] = Lie.BACK
    arms: Annotated[Arms, Choice(Arms)] = Arms.SIDES
    knee_pad: Annotated[float, Quantity("length", low=0.0, high=0.3)] = 0.0
    offset: Annotated[float, Quantity("length", low=0.0, high=0.3)] = 0.0


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


class DesignForm(Table):
    """The whole file."""

    design: DesignTable = Field(description="table that names the design")
    materials: MaterialsTable = MaterialsTable()
    body: BodyTable = Field(description="table of the cloth")
    channel: ChannelTable = Field(description="table of the side channels and their cord")
    head_bar: BarTable = Field(description="table of the head spreader bar")
    foot_bar: BarTable = Field(description="table of the foot spreader bar")
    suspension: SuspensionTable = Field(description="table of legs, lines and trees")
    person: PersonTable = Field(description="table of who lies in it")
    load: LoadTable = LoadTable()
    mesh: MeshTable = MeshTable()
    report: ReportTable = ReportTable()


def find_field(path: tuple[str | int, ...]) -> tuple[type[Table] | None, Any]:
    """Return the table that ought to hold the last key of a path, and its field of that name.

    Parameters
    ----------
    path : tuple of str or int
        Keys from the top.

    Returns
    -------
    tuple
        The table, or None if there is none; the field, or None if the table has no such key.

    Examples
    --------
    >>> table, field = find_field(("body", "length"))
    >>> table.__name__, field.description
    ('BodyTable', 'flat length from bar to bar')
    """
    holder: type[Table] | None = None
    field: Any = None
    table: type[Table] | None = DesignForm
    for key in path:
        if table is None:
            return None, None
        holder, field = table, table.model_fields.get(str(key))
        table = _find_table(field.annotation) if field else None
    return holder, field


def _find_table(annotation: Any) -> type[Table] | None:  # noqa: ANN401
    """Return the table an annotation means, alone or in a union with None."""
    options = getattr(annotation, "__args__", (annotation,))
    return next((option for option in options if isinstance(option, type) and issubclass(option, Table)), None)
