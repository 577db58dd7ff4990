"""The report page: one self-contained file with everything that was found."""

from .page import compose_comparison, compose_report
from .write import write_comparison, write_report

__all__ = ["compose_comparison", "compose_report", "write_comparison", "write_report"]
