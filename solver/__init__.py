"""Equilibrium of any structure of membranes, cables, struts, pressure and contact. Knows nothing of hammocks."""

from importlib.metadata import version

from .cable import Cable, CableResult
from .contact import Contact, ContactResult, PushSample
from .element import Element, StiffnessColumn, StiffnessModel
from .fabric_law import FabricLaw
from .friction import Friction, FrictionResult
from .grip import Grips, find_grips, make_friction
from .hinge import Hinge, HingeResult
from .joint import Joint, JointResult
from .law import Law, LawResponse
from .membrane import Membrane, MembraneResult
from .outcome import Progress, Reason, State
from .pressure import Pressure, PressureResult
from .relax import relax
from .rod import Rod, RodResult
from .sliding_cable import SlidingCable, SlidingCableResult
from .stability import count_negative_pivots
from .structure import STANDARD_GRAVITY, Structure
from .strut import Strut, StrutResult

__all__ = [
    "STANDARD_GRAVITY",
    "Cable",
    "CableResult",
    "Contact",
    "ContactResult",
    "Element",
    "FabricLaw",
    "Friction",
    "FrictionResult",
    "Grips",
    "Hinge",
    "HingeResult",
    "Joint",
    "JointResult",
    "Law",
    "LawResponse",
    "Membrane",
    "MembraneResult",
    "Pressure",
    "PressureResult",
    "Progress",
    "PushSample",
    "Reason",
    "Rod",
    "RodResult",
    "SlidingCable",
    "SlidingCableResult",
    "State",
    "StiffnessColumn",
    "StiffnessModel",
    "Structure",
    "Strut",
    "StrutResult",
    "count_negative_pivots",
    "find_grips",
    "make_friction",
    "relax",
]
__version__ = version("tautlay")


def __dir__() -> list[str]:
    """List the public names only."""
    return [*__all__]
