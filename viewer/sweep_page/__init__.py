"""The page that compares the designs of a sweep: one self-contained file."""

from .page import compose_sweep_page
from .write import write_sweep_page

__all__ = ["compose_sweep_page", "write_sweep_page"]
