"""The form of a design file: its tables, what may stand in them, and the records they describe."""

from .agreement import ALTERNATIVES, find_disagreements, find_size_faults, find_written
from .corner import find_corner_flaws
from .end_agreement import find_end_flaws
from .fold_agreement import find_fold_flaws
from .hammock import build_hammock, build_person, list_sources
from .job import MOST_FILES
from .schema import DesignForm, find_field
from .translation import translate_errors
from .workmanship import build_workmanship

__all__ = [
    "ALTERNATIVES",
    "MOST_FILES",
    "DesignForm",
    "build_hammock",
    "build_person",
    "build_workmanship",
    "find_corner_flaws",
    "find_disagreements",
    "find_end_flaws",
    "find_field",
    "find_fold_flaws",
    "find_size_faults",
    "find_written",
    "list_sources",
    "translate_errors",
]
