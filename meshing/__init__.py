"""From a hammock as a maker describes it to a structure that can be solved."""

from .body_frame import BodyFrame, make_frame
from .containment import find_escape
from .grid import Fineness, Mesh, make_mesh
from .hammock_model import HammockModel, build_model, mesh_hammock
from .hang_reach import find_angle_flaw
from .lengthwise_restraint import Hold, HoldResult
from .loading import Loading
from .person_load import PersonLoad, spread_person
from .transfer import interpolate, locate

__all__ = [
    "BodyFrame",
    "Fineness",
    "HammockModel",
    "Hold",
    "HoldResult",
    "Loading",
    "Mesh",
    "PersonLoad",
    "build_model",
    "find_angle_flaw",
    "find_escape",
    "interpolate",
    "locate",
    "make_frame",
    "make_mesh",
    "mesh_hammock",
    "spread_person",
]
