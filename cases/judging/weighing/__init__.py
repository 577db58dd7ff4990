"""What a design weighs, part by part, without solving it."""

from .weight import Unweighed, Weight
from .weight_list import Scales, Total, weigh_design

__all__ = ["Scales", "Total", "Unweighed", "Weight", "weigh_design"]
