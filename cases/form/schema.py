"""The schema of a design file. Field descriptions are noun phrases: they go into messages about missing keys."""

from collections.abc import Mapping
from typing import Any, ClassVar

from pydantic import Field

from .bar import BarTable
from .body import BodyTable
from .channel import ChannelTable
from .corner import CornerTable
from .cutting import CuttingTable
from .ends import EndsTable
from .extension import ExtensionTable
from .extra import ExtraTable
from .factors import FactorsTable
from .fields import QuantityField
from .job import DesignTable, LoadTable, MaterialsTable, MeshTable, ReportTable
from .judge import JudgeTable
from .person import People, PersonTable
from .suspension import SuspensionTable
from .toml_table import TomlTable
from .trees import EndTreeTable, TreesTable


class DesignForm(TomlTable):
    """The whole file."""

    strangers: ClassVar[Mapping[str, str]] = {
        "sweep": "this is a sweep, not a design. Run it with `tautlay sweep`, or open the design that it names."
    }

    design: DesignTable = Field(description="table that names the design")
    materials: MaterialsTable = MaterialsTable()
    body: BodyTable = Field(description="table of the cloth")
    channel: ChannelTable = Field(description="table of the side channels and their cord")
    head_bar: BarTable = Field(description="table of the head spreader bar")
    foot_bar: BarTable = Field(description="table of the foot spreader bar")
    head_extension: ExtensionTable | None = None
    foot_extension: ExtensionTable | None = None
    suspension: SuspensionTable = Field(description="table of legs, lines and trees")
    trees: TreesTable | None = None
    head_tree: EndTreeTable | None = None
    foot_tree: EndTreeTable | None = None
    corner: CornerTable | None = None
    cutting: CuttingTable = CuttingTable()
    ends: EndsTable = EndsTable()
    head_ends: EndsTable = EndsTable()
    foot_ends: EndsTable = EndsTable()
    extra: list[ExtraTable] = Field(default=[], max_length=40)
    person: People = Field(description="table of who lies in it")
    judge: JudgeTable = JudgeTable()
    load: LoadTable = LoadTable()
    factors: FactorsTable = FactorsTable()
    mesh: MeshTable = MeshTable()
    report: ReportTable = ReportTable()

    @property
    def people(self) -> list[PersonTable]:
        """Everybody who is to sleep in it; ``[person]`` is one."""
        return self.person if isinstance(self.person, list) else [self.person]


def find_field(path: tuple[str | int, ...], form: type[TomlTable] = DesignForm) -> tuple[type[TomlTable] | None, Any]:
    """Return the table that should contain the last key of a path, and its field of that name.

    Parameters
    ----------
    path : tuple of str or int
        Keys from the top.
    form : type of TomlTable
        Schema of the whole file.

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
    holder: type[TomlTable] | None = None
    field: Any = None
    table: type[TomlTable] | None = form
    for key in path:
        if isinstance(key, int):
            continue  # an entry of a list of tables
        if table is None:
            return None, None
        holder, field = table, table.model_fields.get(key)
        table = find_table(field.annotation) if field else None
    return holder, field


def find_table(annotation: Any) -> type[TomlTable] | None:  # noqa: ANN401
    """Return the table an annotation means, alone, in a list or in a union with None."""
    options = getattr(annotation, "__args__", (annotation,))
    return next((option for option in options if isinstance(option, type) and issubclass(option, TomlTable)), None)


def find_quantity(field: Any) -> QuantityField | None:  # noqa: ANN401
    """Return how a field reads a quantity, None where it is none; it may stand alone or in a union with None.

    Examples
    --------
    >>> find_quantity(find_field(("person", "pillow"))[1]).dimension
    'length'
    """
    inner = [
        rule for option in getattr(field.annotation, "__args__", ()) for rule in getattr(option, "__metadata__", ())
    ]
    return next((rule for rule in (*field.metadata, *inner) if isinstance(rule, QuantityField)), None)
