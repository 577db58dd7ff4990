"""What is advised names only keys that change something."""

import pytest

from tautlay.cases.solving.escape_advice import advise_escape
from tautlay.hammock import LyingSide, Posture

ROLLED = "rolled out over the left side"


@pytest.mark.parametrize("escape", [ROLLED, "hangs out over the left side: shoulders"])
def test_only_who_lies_left_of_the_middle_is_sent_there(escape):
    assert "person.offset" not in advise_escape(escape, Posture())
    assert "person.offset" in advise_escape(escape, Posture(offset=0.03))


@pytest.mark.parametrize(
    ("escape", "lie"),
    [("hangs out over the right side: shoulders", LyingSide.BACK), (ROLLED, LyingSide.SIDE)],
)
def test_an_offset_that_did_not_lead_there_is_not_named(escape, lie):
    """It goes to the left, and whoever lies on the side is held in the middle whatever it is."""
    assert "person.offset" not in advise_escape(escape, Posture(lie, offset=0.03))


def test_only_who_lies_on_the_side_is_turned_on_the_back():
    assert "person.lie" not in advise_escape(ROLLED, Posture())
    assert "person.lie" in advise_escape(ROLLED, Posture(lie=LyingSide.SIDE))


@pytest.mark.parametrize("posture", [Posture(), Posture(lie=LyingSide.SIDE)])
def test_arms_are_no_remedy(posture):
    """On the back an arm may hang out over a side; on the side ``arms`` changes nothing."""
    assert "person.arms" not in advise_escape(ROLLED, posture)


def test_ends_name_the_way_of_the_warp():
    assert "body.grain" in advise_escape("hangs out over the head end: head", Posture())


def test_a_head_through_the_cloth_lies_too_near_its_end():
    """Number 587 of the random sane designs: cut at 30 degrees, 9 cm from the bar; at 17 cm or along the warp it lies."""
    words = advise_escape("slipped through the cloth: head", Posture())
    assert "person.head_from_bar" in words
    assert "body.grain" in words
    assert "body.grain" not in advise_escape("slipped through the cloth: left shank", Posture())
