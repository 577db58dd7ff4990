"""``[trees]``, ``[head_tree]`` and ``[foot_tree]``: trunks, and the straps round them."""

from typing import Annotated

from pydantic import Field

from ...making import Hitch
from ...materials import Cord, Webbing
from .fields import ChoiceField, QuantityField, find_material
from .toml_table import TomlTable

Girth = Annotated[float, QuantityField("length", "tree girth")]
Diameter = Annotated[float, QuantityField("length", "trunk diameter")]
SlingLength = Annotated[float, QuantityField("length", low=0.02, high=10.0)]


class TrunkTable(TomlTable):
    """What may be told of one tree or of both; the three keys of the strap all or none."""

    girth: Girth | None = None
    diameter: Diameter | None = None
    strap: Annotated[Webbing, find_material(Webbing)] | None = None
    strap_length: Annotated[float, QuantityField("length", low=0.2, high=15.0)] | None = None
    hitch: Annotated[Hitch, ChoiceField(Hitch)] | None = None
    sling: Annotated[Cord, find_material(Cord)] | None = Field(
        default=None, description="name of the cord on each side of the strap"
    )
    sling_reach: Annotated[float, QuantityField("length", low=0.02, high=5.0)] | None = None
    sling_shortest: SlingLength | None = None
    sling_longest: SlingLength | None = Field(default=None, description="longest length to which a sling can be set")
    toggle_mass: Annotated[float, QuantityField("mass", low=0.0001, high=1.0)] | None = None


class TreesTable(TrunkTable):
    """``[trees]``: what holds for both; girths may be given one by one here too."""

    head_girth: Girth | None = None
    foot_girth: Girth | None = None


class EndTreeTable(TrunkTable):
    """``[head_tree]`` or ``[foot_tree]``."""

    height: Annotated[float, QuantityField("length", "strap height")] | None = None
