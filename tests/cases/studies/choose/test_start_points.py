"""Where searches for sizes begin: in designs that can be made."""

import pytest

from tautlay.cases import DesignError
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.choose.point import PointSet
from tautlay.cases.studies.choose.start_points import draw_starts

from ._made_up import MadeUp
from ._small import vary, write_open

BARS = """
[[vary]]
name = "head bar"
keys = ["head_bar.length", "head_bar.part.2.length"]
from = ["84 cm", "{low}"]
to = ["100 cm", "{high}"]
"""


class Narrow(MadeUp):
    """Of which only the smallest can be made."""

    def weigh(self, point):
        return super().weigh(point) if point[0] + point[1] < 70 else None


def test_starts_can_be_made_however_few_designs_can():
    starts = draw_starts(Narrow(), 5, 1)
    assert len(set(starts)) == 5
    assert all(sum(each[:2]) < 70 for each in starts)
    assert all(each[2] == 0 for each in starts)  # the heaviest
    assert draw_starts(MadeUp(), 3, 1) == draw_starts(MadeUp(), 3, 1)


def test_where_hardly_anything_can_be_made_the_reason_is_told(tmp_path):
    asked = read_open_design(
        write_open(tmp_path, BARS.format(low="7.5 cm", high="23.5 cm"))
    )  # the parts are longer than the bar
    with pytest.raises(DesignError, match=r"open.toml: of 40 designs .* only 0 can be made.* parts together are"):
        draw_starts(PointSet(asked.sweep), 2, 1)


def test_an_order_by_weight_is_never_kept_of_what_cannot_be_made(tmp_path):
    cloths = vary("body.fabric", '["ripstop nylon 64 g/m2", "ripstop nylon 37 g/m2"]')
    points = PointSet(read_open_design(write_open(tmp_path, BARS.format(low="3.5 cm", high="21.5 cm") + cloths)).sweep)
    assert points.weigh((0, 0)) is None  # hardly any of the rod lies in the pole
    assert points.order((0, 0), 1) == [0, 1]
    assert points.order((100, 0), 1) == [1, 0]
    assert points.order((0, 0), 1) == [1, 0]
