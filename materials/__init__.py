"""What a hammock is made of: quantities, materials and the library of sourced values.

Cheap to import: pint and tomllib are loaded when the first quantity or file is read.
"""

from .buckling import buckling_load
from .categories import CATEGORIES, LINES, SECTIONS
from .cord import Cord
from .display import DisplayUnit, System, format_number, format_quantity, list_units
from .fabric import Fabric
from .library import Library, read_library
from .listing import TextTable, find_weakest_status
from .material import Material, MaterialError, list_quantities
from .plate import Plate
from .plausible_range import PLAUSIBLE, Plausible, check_plausible
from .printable import escape_text, join_sentences, show_value
from .provenance import STATUSES, Provenance, Status
from .quantity import QuantityError, parse_quantity
from .rod import RodSection
from .section import BarSection
from .sentence import Sentence, Show, make_sentence
from .suggestion import suggest
from .thread import Thread
from .toml_file import TomlError, TomlFile, parse_toml, read_toml
from .toml_lines import find_line, nearest_line
from .tube import Tube
from .units import DIMENSIONS
from .webbing import Webbing

__all__ = [
    "CATEGORIES",
    "DIMENSIONS",
    "LINES",
    "PLAUSIBLE",
    "SECTIONS",
    "STATUSES",
    "BarSection",
    "Cord",
    "DisplayUnit",
    "Fabric",
    "Library",
    "Material",
    "MaterialError",
    "Plate",
    "Plausible",
    "Provenance",
    "QuantityError",
    "RodSection",
    "Sentence",
    "Show",
    "Status",
    "System",
    "TextTable",
    "Thread",
    "TomlError",
    "TomlFile",
    "Tube",
    "Webbing",
    "buckling_load",
    "check_plausible",
    "escape_text",
    "find_line",
    "find_weakest_status",
    "format_number",
    "format_quantity",
    "join_sentences",
    "list_quantities",
    "list_units",
    "make_sentence",
    "nearest_line",
    "parse_quantity",
    "parse_toml",
    "read_library",
    "read_toml",
    "show_value",
    "suggest",
]
