"""Which part of a hammock's weight something belongs to."""

from enum import StrEnum


class WeightGroup(StrEnum):
    """Groups of the scales; the value is what a design file says."""

    HAMMOCK = "hammock"  # cloth, thread and the cords in its channels
    SUSPENSION = "suspension"  # legs, lines of cord, and what joins them
    STRAPS = "straps"  # webbing, which goes to or round the trees
    BARS = "bars"
