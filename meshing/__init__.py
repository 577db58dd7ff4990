"""From a hammock as a maker describes it to a structure that can be solved."""

from .body_frame import BodyFrame, make_frame
from .containment import check_containment
from .grid import Fineness, Mesh, make_mesh
from .hammock_model import HammockModel, build_model, mesh_hammock
from .hang_angle_limits import find_angle_issue
from .lengthwise_restraint import LengthwiseRestraint, LengthwiseRestraintResult
from .loading import Loading
from .person_load import PersonLoad, spread_person
from .transfer import interpolate, locate

__all__ = [
    "BodyFrame",
    "Fineness",
    "HammockModel",
    "LengthwiseRestraint",
    "LengthwiseRestraintResult",
    "Loading",
    "Mesh",
    "PersonLoad",
    "build_model",
    "check_containment",
    "find_angle_issue",
    "interpolate",
    "locate",
    "make_frame",
    "make_mesh",
    "mesh_hammock",
    "spread_person",
]


def __dir__() -> list[str]:
    """List the public names only."""
    return [*__all__]
