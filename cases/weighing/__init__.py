"""What a design weighs, part by part, without solving it."""

from .scales import Scales, Total, weigh_design
from .weight import Unweighed, Weight

__all__ = ["Scales", "Total", "Unweighed", "Weight", "weigh_design"]
