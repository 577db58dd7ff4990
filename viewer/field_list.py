"""What can be seen on the cloth: one record for each field. Cheap to import: the command's help lists the names.

Window, pictures, page and command take names, words and marks from here, and the values from the
:class:`~tautlay.cases.storage.shape.Shape`.
"""

from enum import StrEnum
from typing import NamedTuple

from ..cases.unit_display import SHARE

STATE = "state"  # dimension of the field that is no quantity


class MarkRule(StrEnum):
    """Which marks a field has besides its colours; the page places them by the same rules (``page/src/cloth.ts``)."""

    WRINKLES = "wrinkles"  # strokes along the wrinkles
    ACROSS = "across"  # strokes along the smaller tension, longer for more
    ALONG = "along"  # strokes along the larger tension
    SQUARES = "squares"  # larger for more


class Field(NamedTuple):
    """A field of the cloth.

    Parameters
    ----------
    key : str
        Its name in a command.
    title : str
        Its name in words.
    dimension : str
        Of its values; ``STATE`` for what is no quantity.
    values : str
        Name of the values among those of a shape, or of its occupant.
    marks : MarkRule
        What is drawn besides colours.
    same_as : str
        Key of the field that has the same values and colours; empty if they are its own.
    """

    key: str
    title: str
    dimension: str
    values: str
    marks: MarkRule
    same_as: str = ""

    @property
    def of_contact(self) -> bool:
        """Whether it is a pressure: it needs a person in contact, and is nothing where nobody presses."""
        return self.dimension == "stress"


FIELDS = (
    Field("larger-stress", "larger cloth tension", "line_load", "larger_stress", MarkRule.WRINKLES),
    Field("smaller-stress", "smaller cloth tension", "line_load", "smaller_stress", MarkRule.ACROSS),
    Field("direction", "direction of tension", "line_load", "larger_stress", MarkRule.ALONG, same_as="larger-stress"),
    Field("state", "taut, wrinkled, slack", STATE, "state", MarkRule.WRINKLES),
    Field("warp", "warp: share of strength", SHARE, "warp_share", MarkRule.SQUARES),
    Field("weft", "weft: share of strength", SHARE, "weft_share", MarkRule.SQUARES),
    Field("pressure", "contact pressure", "stress", "pressure", MarkRule.SQUARES),
)
NAMES = {field.key: field for field in FIELDS}
