"""The schema of a design file: its tables, their keys, and the records they describe."""

from .agreement import ALTERNATIVES, find_disagreements, find_size_issues, find_written
from .corner import find_corner_issues
from .cutting import find_cutting_issues
from .end_agreement import find_end_issues
from .end_fields import make_room
from .error_messages import read_form, translate_errors
from .fold_agreement import find_fold_issues
from .hammock import build_hammock, list_sources
from .job import MOST_FILES
from .judge_terms import build_terms, find_limit_issues
from .schema import DesignForm, find_field, find_quantity, find_table
from .toml_table import TomlTable
from .workmanship import build_workmanship

__all__ = [
    "ALTERNATIVES",
    "MOST_FILES",
    "DesignForm",
    "TomlTable",
    "build_hammock",
    "build_terms",
    "build_workmanship",
    "find_corner_issues",
    "find_cutting_issues",
    "find_disagreements",
    "find_end_issues",
    "find_field",
    "find_fold_issues",
    "find_limit_issues",
    "find_quantity",
    "find_size_issues",
    "find_table",
    "find_written",
    "list_sources",
    "make_room",
    "read_form",
    "translate_errors",
]
