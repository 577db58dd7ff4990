"""What a design weighs, part by part, without solving it."""

from .weight import Unweighed, Weight
from .weight_list import Total, WeightList, weigh_design

__all__ = ["Total", "Unweighed", "Weight", "WeightList", "weigh_design"]
