"""Strength checks: demand and capacity of every part, the factor of safety found and required."""

from .case import Case
from .check import Check, Unchecked
from .check_record import CheckRecord, record_check
from .findings import Findings, list_checks

__all__ = ["Case", "Check", "CheckRecord", "Findings", "Unchecked", "list_checks", "record_check"]
