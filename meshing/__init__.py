"""From a hammock as a maker describes it to a structure that can be solved."""

from .body_frame import BodyFrame, make_frame
from .body_segments import Segment, list_segments
from .body_size import find_percentile, measure_body
from .cautions import find_cautions
from .cross_section import find_opening, find_sag
from .escape import find_escape
from .example import example_hammock, example_person
from .faults import HammockError, find_faults
from .flaw import Flaw
from .grid import Fineness, Mesh, make_mesh
from .hammock import Arc, ArcShape, Attachment, Bar, Body, Channel, Hammock, Suspension
from .hammock_model import HammockModel, build_model, mesh_hammock
from .hang import Hang, hang_hammock, reach_of_legs
from .hang_reach import find_angle_flaw
from .hold import Hold, HoldResult
from .load_case import SUDDEN_FACTOR, LoadCase
from .loading import Loading
from .outline import Edge, Outline, draw_outline, measure_extensions
from .part import Part, list_parts
from .person import Arms, Lie, Person, Posture, Sex
from .person_load import PersonLoad, find_narrowing, spread_person
from .transfer import interpolate, locate

__all__ = [
    "SUDDEN_FACTOR",
    "Arc",
    "ArcShape",
    "Arms",
    "Attachment",
    "Bar",
    "Body",
    "BodyFrame",
    "Channel",
    "Edge",
    "Fineness",
    "Flaw",
    "Hammock",
    "HammockError",
    "HammockModel",
    "Hang",
    "Hold",
    "HoldResult",
    "Lie",
    "LoadCase",
    "Loading",
    "Mesh",
    "Outline",
    "Part",
    "Person",
    "PersonLoad",
    "Posture",
    "Segment",
    "Sex",
    "Suspension",
    "build_model",
    "draw_outline",
    "example_hammock",
    "example_person",
    "find_angle_flaw",
    "find_cautions",
    "find_escape",
    "find_faults",
    "find_narrowing",
    "find_opening",
    "find_percentile",
    "find_sag",
    "hang_hammock",
    "interpolate",
    "list_parts",
    "list_segments",
    "locate",
    "make_frame",
    "make_mesh",
    "measure_body",
    "measure_extensions",
    "mesh_hammock",
    "reach_of_legs",
    "spread_person",
]
