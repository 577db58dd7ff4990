"""What a hammock has to carry."""

from enum import StrEnum


class LoadCase(StrEnum):
    """Ways in which a person loads the cloth."""

    DISTRIBUTED = "distributed"  # lying: the weight of each part of the body spread over its footprint
    LYING = "lying"  # lying in contact: a jointed body sinks into the cloth
    SITTING = "sitting"  # across the middle to get in: weight spread under seat and thighs, shanks at the edge
    SUDDEN = "sudden"  # dropping into it: the distributed weight times a factor


# A weight let go on an elastic support at the moment it touches it stretches it twice as far as when it is put down
# slowly: the work W d it does equals the energy k d^2/2 at the turning point, so d = 2 W/k. Statics, textbook.
SUDDEN_FACTOR = 2.0
