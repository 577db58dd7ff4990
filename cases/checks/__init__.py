"""Will it hold: what every part carries, what it bears, the factor of safety asked and found."""

from .case import Case
from .check import Check, Unchecked
from .description import describe_checks, describe_unchecked
from .register import Findings, list_checks

__all__ = ["Case", "Check", "Findings", "Unchecked", "describe_checks", "describe_unchecked", "list_checks"]
