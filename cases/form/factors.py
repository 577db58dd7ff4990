"""``[factors]``: the factors of safety required, and losses by wet and age."""

from typing import Annotated

from pydantic import Field

from .fields import QuantityField
from .toml_table import TomlTable

Asked = Annotated[float | None, Field(ge=1.0, le=20.0)]


class FactorsTable(TomlTable):
    """``[factors]``; missing factors are those of ``tautlay.making.FACTORS``."""

    cord: Asked = Field(default=None, description="required factor of safety of cords")
    webbing: Asked = Field(default=None, description="of straps and webbing")
    cloth: Asked = Field(default=None, description="of cloth")
    seam: Asked = Field(default=None, description="of seams")
    metal: Asked = Field(default=None, description="of metal bars and plates")
    laminate: Asked = Field(default=None, description="of carbon and glass tubes")
    wood: Asked = Field(default=None, description="of wooden bars")
    hold: Asked = Field(default=None, description="of what holds by clamping: pole locks, plugs, toggles")
    wet: bool = Field(default=True, description="whether strength is that of wet nylon")
    aged: Annotated[float, QuantityField("ratio", low=0.2, high=1.0)] = Field(
        default=1.0, description="share of the strength that is left after sun and use"
    )
