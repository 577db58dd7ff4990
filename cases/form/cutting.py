"""``[cutting]``: how the pieces are cut."""

from collections.abc import Iterator
from typing import Annotated

from ...cutting.body import cut_channels
from ...cutting.panels import measure_room
from ...hammock.described import Described
from ...hammock.geometry_issue import GeometryIssue
from ...making import CuttingRules
from ...materials import make_sentence
from .fields import QuantityField
from .toml_table import TomlTable

_USUAL = CuttingRules()
_NARROWEST = 0.2  # m, of a panel between two seams; engineering judgement, no source
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


def find_cutting_issues(described: Described) -> Iterator[GeometryIssue]:
    """Yield cloth that is too narrow for panels with channels of that width.

    Parameters
    ----------
    described : Described
        Hammock and how it is made, otherwise without issues.
    """
    rules, channel = described.workmanship.cutting, cut_channels(described)
    allowance = 0.0 if channel is None else channel.allowance + rules.melted
    left = rules.cloth_width - sum(measure_room(allowance, rules))
    if left < _NARROWEST:
        sentence = make_sentence(
            "Cloth of {width:length} leaves {left:length} between the allowances of a panel, which needs "
            "{least:length}. Choose wider cloth or narrower channels.",
            width=rules.cloth_width,
            left=max(left, 0.0),
            least=_NARROWEST,
        )
        yield GeometryIssue(sentence, ("cutting.cloth_width", "channel.fold.finished_width"))
