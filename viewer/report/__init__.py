"""The report page: one file with everything that was found, which asks nothing of any other place."""

from .page import compose_comparison, compose_report
from .write import write_comparison, write_report

__all__ = ["compose_comparison", "compose_report", "write_comparison", "write_report"]
