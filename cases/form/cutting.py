"""``[cutting]``: how the pieces are cut."""

from typing import Annotated

from ...making import CuttingRules
from .fields import QuantityField
from .toml_table import TomlTable

_USUAL = CuttingRules()
ClothWidth = Annotated[float, QuantityField("length", low=0.5, high=5.0)]


class CuttingTable(TomlTable):
    """``[cutting]``."""

    cloth_width: ClothWidth = _USUAL.cloth_width
    allowance: Annotated[float, QuantityField("length", low=0.003, high=0.05)] = _USUAL.allowance
    notch_spacing: Annotated[float, QuantityField("length", low=0.05, high=2.0)] = _USUAL.notch_spacing
    hot_cut: bool = _USUAL.hot_cut


def build_cutting_rules(table: CuttingTable) -> CuttingRules:
    """Return what the maker chooses about cutting.

    Parameters
    ----------
    table : CuttingTable
        Valid.
    """
    return CuttingRules(table.cloth_width, table.allowance, table.notch_spacing, table.hot_cut)
