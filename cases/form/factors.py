"""``[factors]``: the factors of safety required, and losses by wet and age."""

from typing import Annotated

from pydantic import Field

from .fields import QuantityField
from .toml_table import TomlTable

Asked = Annotated[float | None, Field(ge=1.0, le=20.0)]


class FactorsTable(TomlTable):
    """``[factors]``; missing factors are those of ``tautlay.making.FACTORS``."""

    cord: Asked = None
    webbing: Asked = None
    cloth: Asked = None
    seam: Asked = None
    metal: Asked = None
    laminate: Asked = None
    wood: Asked = None
    hold: Asked = None
    wet: bool = True
    aged: Annotated[float, QuantityField("ratio", low=0.2, high=1.0)] = 1.0
