"""Kinds of materials: to add one, write its record with its file in the library and put it here."""

from collections.abc import Mapping

from .cord import Cord
from .fabric import Fabric
from .fibre import TextileFibre
from .material import Material
from .plate import Plate
from .rod import RodSection
from .thread import Thread
from .tube import Tube
from .webbing import Webbing

CATEGORIES: dict[str, type[Material]] = {
    noun.category: noun for noun in (Fabric, Cord, Webbing, Tube, RodSection, Thread, Plate, TextileFibre)
}

LINES: tuple[type[Cord | Webbing], ...] = (Cord, Webbing)  # what a line may be made of
SECTIONS: tuple[type[Tube | RodSection], ...] = (Tube, RodSection)  # and a bar

# Materials by category and name.
Records = dict[str, dict[str, Material]]
Known = Mapping[str, Mapping[str, Material]]
