"""Groups of the weight list."""

from enum import StrEnum


class WeightGroup(StrEnum):
    """Groups of the weight list; the value is the word of the design file."""

    HAMMOCK = "hammock"  # cloth, thread and the cords in its channels
    SUSPENSION = "suspension"  # legs, lines of cord, and what joins them
    STRAPS = "straps"  # webbing, which goes to or round the trees
    BARS = "bars"
