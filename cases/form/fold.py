"""``[channel.fold]`` and ``[channel.lock]``: fold and seam of the side channels, and stitching through the cord."""

from typing import Annotated

from pydantic import Field

from ...materials import Fabric
from .fields import QuantityField, find_material
from .stitching import StitchingTable
from .toml_table import UpToMetre

ChannelWidth = Annotated[float, QuantityField("length", "channel width")]


class FoldTable(StitchingTable):
    """``[channel.fold]``."""

    folds: int = Field(ge=1, le=2, description="number of times the edge is folded over, 1 or 2", examples=["2"])
    finished_width: ChannelWidth | None = None
    stitching_width: ChannelWidth | None = None
    strip: Annotated[Fabric, find_material(Fabric)] | None = None
    strip_width: Annotated[float, QuantityField("length", "strip of cloth")] | None = None
    strip_inset: Annotated[float, QuantityField("length", "seam inset")] | None = None
    strip_rows: Annotated[int, Field(ge=1, le=8)] | None = None
    seam_efficiency: Annotated[float, QuantityField("ratio", low=0.1, high=1.0)] | None = None


class LockTable(StitchingTable):
    """``[channel.lock]``."""

    corner_length: UpToMetre | None = None
