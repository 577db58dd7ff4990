"""A hammock: cloth, channels, bars, suspension, person; its outline, its hang, its geometry checks."""

from .body_segments import Segment, list_segments
from .body_size import find_percentile, measure_body
from .cross_section import find_opening, find_sag
from .design_warnings import find_design_warnings
from .example import example_hammock, example_person
from .geometry_checks import HammockError, find_geometry_issues
from .geometry_issue import GeometryIssue
from .hammock import Arc, ArcShape, Attachment, Bar, Body, Channel, Hammock, Suspension
from .hang import Hang, hang_hammock, reach_of_legs
from .load_case import SUDDEN_FACTOR, LoadCase
from .narrowing import find_narrowing
from .outline import Edge, Outline, draw_outline, measure_extensions
from .part import Part, list_parts
from .person import Arms, LyingSide, Person, Posture, Sex

__all__ = [
    "SUDDEN_FACTOR",
    "Arc",
    "ArcShape",
    "Arms",
    "Attachment",
    "Bar",
    "Body",
    "Channel",
    "Edge",
    "GeometryIssue",
    "Hammock",
    "HammockError",
    "Hang",
    "LoadCase",
    "LyingSide",
    "Outline",
    "Part",
    "Person",
    "Posture",
    "Segment",
    "Sex",
    "Suspension",
    "draw_outline",
    "example_hammock",
    "example_person",
    "find_design_warnings",
    "find_geometry_issues",
    "find_narrowing",
    "find_opening",
    "find_percentile",
    "find_sag",
    "hang_hammock",
    "list_parts",
    "list_segments",
    "measure_body",
    "measure_extensions",
    "reach_of_legs",
]
