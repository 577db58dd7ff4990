"""Strength checks: demand and capacity of every part, the factor of safety found and required."""

from .case import Case
from .check import Check, Unchecked
from .check_description import describe_checks, describe_unchecked
from .findings import Findings, list_checks

__all__ = ["Case", "Check", "Findings", "Unchecked", "describe_checks", "describe_unchecked", "list_checks"]
