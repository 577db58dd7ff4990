"""What a design weighs, part by part, without solving it."""

from .weight import Unweighed, Weight
from .weight_list import Total, WeightList, weigh_design
from .weight_record import Scales, Weights, record_scales

__all__ = [
    "Scales",
    "Total",
    "Unweighed",
    "Weight",
    "WeightList",
    "Weights",
    "record_scales",
    "weigh_design",
]
