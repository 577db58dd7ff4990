"""What a hammock is made of: quantities, materials and the library of sourced values.

Cheap to import: pint and tomllib are loaded when the first quantity or file is read.
"""

from .categories import CATEGORIES
from .cord import Cord
from .display import System, format_quantity
from .fabric import Fabric
from .library import Library, read_library
from .listing import Table, find_weakest_status
from .material import Material, MaterialError
from .plausible import PLAUSIBLE, Plausible, check_plausible
from .provenance import STATUSES, Provenance, Status
from .quantity import QuantityError, parse_quantity
from .rod import Rod
from .section import Section
from .sentence import Sentence, Show, say
from .suggestion import suggest
from .thread import Thread
from .toml_lines import find_line, nearest_line
from .tube import Tube
from .units import DIMENSIONS
from .webbing import Webbing

__all__ = [
    "CATEGORIES",
    "DIMENSIONS",
    "PLAUSIBLE",
    "STATUSES",
    "Cord",
    "Fabric",
    "Library",
    "Material",
    "MaterialError",
    "Plausible",
    "Provenance",
    "QuantityError",
    "Rod",
    "Section",
    "Sentence",
    "Show",
    "Status",
    "System",
    "Table",
    "Thread",
    "Tube",
    "Webbing",
    "check_plausible",
    "find_line",
    "find_weakest_status",
    "format_quantity",
    "nearest_line",
    "parse_quantity",
    "read_library",
    "say",
    "suggest",
]
